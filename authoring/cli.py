"""The command line: one function a command, messages to stderr, data to stdout."""

from __future__ import annotations

import argparse
import datetime as dt
import json
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

from authoring import __version__
from authoring.commands.outcome import CommandError, Exit

_ADVICE = (
    "Rungbook advises and computes; a licensed clinician decides and signs, and local "
    "protocols come first."
)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; the exit status."""
    parser = _parser()
    chosen = parser.parse_args(arguments)
    command: Callable[[argparse.Namespace], Exit] | None = getattr(chosen, "run", None)
    if command is None:
        return int(_open_editor())
    try:
        return int(command(chosen))
    except CommandError as error:
        _tell(error.sentence)
        return int(error.status)
    except KeyboardInterrupt:
        _tell("Stopped; nothing was left half written.")
        return int(Exit.UNWRITTEN)
    except BrokenPipeError:
        return int(Exit.UNWRITTEN)


def _tell(sentence: str) -> None:
    print(f"rungbook: {sentence}", file=sys.stderr)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="rungbook", description="Staged rehabilitation protocols.", epilog=_ADVICE
    )
    parser.add_argument("--version", action="version", version=f"rungbook {__version__}")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")
    _add_new(commands.add_parser("new", help="start a library"))
    _add_check(commands.add_parser("check", help="check libraries and files"))
    _add_handout(commands.add_parser("handout", help="write a handout"))
    return parser


def _open_editor() -> Exit:
    from importlib.util import find_spec

    if find_spec("authoring.editor") is None:
        _parser().print_help(sys.stderr)
        return Exit.UNUSABLE
    from authoring.editor.app import run

    return Exit(run(None))


# ---- new -------------------------------------------------------------------------------


def _add_new(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("folder", type=Path, metavar="FOLDER", help="a new or empty folder")
    parser.add_argument("--example", action="store_true", help="with the invented example clinic")
    parser.set_defaults(run=_new)


def _new(chosen: argparse.Namespace) -> Exit:
    from authoring.commands.new import new_library
    from authoring.files.errors import FileProblem

    try:
        new_library(chosen.folder, example=chosen.example)
    except FileProblem as problem:
        raise CommandError(str(problem), Exit.UNWRITTEN) from problem
    print(chosen.folder)
    return Exit.DONE


# ---- check -----------------------------------------------------------------------------


def _add_check(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("paths", type=Path, nargs="+", metavar="PATH", help="library or file")
    parser.add_argument("--format", choices=("text", "json"), default="text")
    parser.add_argument("--strict", action="store_true", help="fail on any 'should' too")
    parser.set_defaults(run=_check)


def _check(chosen: argparse.Namespace) -> Exit:
    from authoring.checks.result import Strength
    from authoring.commands.check import check_paths
    from authoring.commands.report import as_json, as_text
    from authoring.files.errors import FileProblem

    today = dt.datetime.now(tz=dt.UTC).astimezone().date()
    try:
        report = check_paths(chosen.paths, today)
    except FileProblem as problem:
        raise CommandError(_every_fault(problem), Exit.UNUSABLE) from problem
    if chosen.format == "json":
        print(json.dumps(as_json(report), indent=2, ensure_ascii=False))
    else:
        print(as_text(report))
    failed = report.count(Strength.MUST) or report.unreadable
    failed = failed or (chosen.strict and report.count(Strength.SHOULD))
    return Exit.FOUND if failed else Exit.DONE


def _every_fault(problem: Exception) -> str:
    """The sentence of a problem, and every fault where a file of ours has several."""
    from authoring.files.documents import Invalid

    if not isinstance(problem, Invalid) or len(problem.faults) == 1:
        return str(problem)
    lines = [f"  {fault.path}: {fault.sentence}; {fault.mend}" for fault in problem.faults]
    return "\n".join([f"{problem.path}: {len(problem.faults)} faults", *lines])


# ---- handout ----------------------------------------------------------------------------


def _add_handout(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("source", type=Path, metavar="SOURCE", help="protocol, plan or card")
    parser.add_argument(
        "-o", "--output", type=Path, required=True, metavar="FILE", help=".docx, .html or .pdf"
    )
    parser.add_argument(
        "--stage", type=int, action="append", default=[], metavar="N", help="stage number; repeat"
    )
    parser.add_argument("--language", metavar="TAG", help="language of the page (BCP 47)")
    parser.add_argument("--layout", choices=("full",), default="full")
    parser.add_argument("--print-size", choices=("standard", "large"))
    parser.add_argument("--page", choices=("a4", "letter"))
    parser.add_argument("--library", type=Path, metavar="FOLDER", help="for a file outside one")
    parser.set_defaults(run=_handout)


def _handout(chosen: argparse.Namespace) -> Exit:
    from authoring.commands.handout import Wish, make_handout
    from authoring.files.errors import FileProblem, Unconfirmed, Unwritable
    from authoring.handout.document import PageSize, PrintSize
    from authoring.handout.errors import HandoutError

    wish = Wish(
        stages=tuple(chosen.stage),
        language=chosen.language,
        page=PageSize(chosen.page) if chosen.page else None,
        print_size=PrintSize(chosen.print_size) if chosen.print_size else None,
        library=chosen.library,
    )
    today = dt.datetime.now(tz=dt.UTC).astimezone().date()
    try:
        made = make_handout(chosen.source, chosen.output, wish, today)
    except (Unwritable, Unconfirmed) as problem:
        raise CommandError(str(problem), Exit.UNWRITTEN) from problem
    except FileProblem as problem:
        raise CommandError(_every_fault(problem), Exit.UNUSABLE) from problem
    except HandoutError as error:
        raise CommandError(str(error), Exit.FOUND) from error
    if made.draft_because:
        _tell(f"marked 'Draft, not for patients': {made.draft_because}.")
    print(made.file)
    return Exit.DONE


if __name__ == "__main__":
    sys.exit(main())
