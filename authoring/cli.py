"""The command line: one function a command, messages to stderr, data to stdout."""

from __future__ import annotations

import argparse
import datetime as dt
import json
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from authoring import __version__
from authoring.commands.outcome import CommandError, Exit
from authoring.commands.plan_options import add_review, add_tailor, need_files
from authoring.commands.progress_options import add_progress
from authoring.commands.version_options import add_compare, add_merge
from authoring.resources import ResourceMissingError
from authoring.terminal import (
    add_pack,
    add_unpack,
    drop_output,
    progress_on,
    put_out,
    run_pack,
    run_unpack,
    speak,
    take_any_text,
)

if TYPE_CHECKING:
    from authoring.model.plan import Plan

_ADVICE = (
    "Rungbook advises and computes; a licensed clinician decides and signs, and local "
    "protocols come first."
)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; the exit status.

    Whatever happens is told in one sentence; the traceback of a fault of the program
    itself goes to a file in the user's own folder.
    """
    take_any_text()
    chosen = _parser().parse_args(arguments)
    command: Callable[[argparse.Namespace], Exit] = getattr(chosen, "run", _open_editor)
    try:
        return int(command(chosen))
    except CommandError as error:
        speak(error.sentence)
        return int(error.status)
    except ResourceMissingError as error:
        speak(str(error))
        return int(Exit.UNUSABLE)
    except KeyboardInterrupt:
        speak("Stopped; nothing was left half written.")
        return int(Exit.UNWRITTEN)
    except BrokenPipeError:
        drop_output()
        return int(Exit.UNWRITTEN)
    except Exception as error:  # noqa: BLE001  (the last net: no user ever sees a traceback)
        from authoring.commands.crash import keep_traceback, sentence_of

        speak(sentence_of(error, keep_traceback(error)))
        return int(Exit.UNWRITTEN)


# ---- faults ---------------------------------------------------------------------------------


@contextmanager
def _told_faults() -> Iterator[None]:
    """Faults of files, told in one sentence and by their exit status."""
    from authoring.files.errors import FileProblem, Unconfirmed, Unwritable

    try:
        yield
    except (Unwritable, Unconfirmed) as problem:
        raise CommandError(str(problem), Exit.UNWRITTEN) from problem
    except FileProblem as problem:
        raise CommandError(_every_fault(problem), Exit.UNUSABLE) from problem


def _today() -> dt.date:
    return dt.datetime.now(tz=dt.UTC).astimezone().date()


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="rungbook", description="Staged rehabilitation protocols.", epilog=_ADVICE
    )
    parser.add_argument("--version", action="version", version=f"rungbook {__version__}")
    parser.add_argument(
        "--open", type=Path, metavar="FOLDER", help="open the editor on this library"
    )
    commands = parser.add_subparsers(title="commands", metavar="COMMAND")
    _add_new(commands.add_parser("new", help="start a library"))
    _add_check(commands.add_parser("check", help="check libraries and files"))
    _add_handout(commands.add_parser("handout", help="write a handout"))
    add_tailor(commands.add_parser("tailor", help="fit protocols to a patient"), _tailor)
    add_review(commands.add_parser("review", help="make the next plan from a report"), _review)
    _add_draw(commands.add_parser("draw", help="draw a pose"))
    _add_sheet(commands.add_parser("sheet", help="put all pictures of a library on one sheet"))
    _add_load(commands.add_parser("load", help="estimate what a card asks of the body"))
    add_progress(commands.add_parser("progress", help="project the weeks ahead"), _progress_ahead)
    add_compare(commands.add_parser("compare", help="say what differs in versions"), _compare)
    add_merge(commands.add_parser("merge", help="make two people's versions one"), _merge)
    packing = commands.add_parser("pack", help="put protocols into one file for a colleague")
    add_pack(packing).set_defaults(run=_pack)
    taking = commands.add_parser("unpack", help="take a colleague's pack into a library")
    add_unpack(taking).set_defaults(run=_unpack)
    return parser


def _open_editor(chosen: argparse.Namespace) -> Exit:
    from importlib.util import find_spec

    if find_spec("authoring.editor") is None:
        _parser().print_help(sys.stderr)
        return Exit.UNUSABLE
    from authoring.editor.app import run

    return Exit(run(chosen.open))


# ---- new -------------------------------------------------------------------------------


def _add_new(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("folder", type=Path, metavar="FOLDER", help="a new or empty folder")
    parser.add_argument("--example", action="store_true", help="with the invented example clinic")
    parser.set_defaults(run=_new)


def _new(chosen: argparse.Namespace) -> Exit:
    from authoring.commands.new import new_library
    from authoring.files.errors import FileProblem, shown

    try:
        new_library(chosen.folder, example=chosen.example)
    except FileProblem as problem:
        raise CommandError(str(problem), Exit.UNWRITTEN) from problem
    put_out(shown(chosen.folder))
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

    today = _today()
    try:
        with progress_on(sys.stderr) as tell:
            report = check_paths(chosen.paths, today, tell)
    except FileProblem as problem:
        raise CommandError(_every_fault(problem), Exit.UNUSABLE) from problem
    if chosen.format == "json":
        put_out(json.dumps(as_json(report), indent=2, ensure_ascii=False))
    else:
        put_out(as_text(report))
    failed = report.count(Strength.MUST) or report.unreadable
    failed = failed or (chosen.strict and report.count(Strength.SHOULD))
    return Exit.FOUND if failed else Exit.DONE


def _every_fault(problem: Exception) -> str:
    """The sentence of a problem, and every fault where a file of ours has several."""
    from authoring.files.documents import Invalid
    from authoring.files.errors import shown

    if not isinstance(problem, Invalid) or len(problem.faults) == 1:
        return str(problem)
    lines = [f"  {fault.path}: {fault.sentence}; {fault.mend}" for fault in problem.faults]
    return "\n".join([f"{shown(problem.path)}: {len(problem.faults)} faults", *lines])


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
    parser.add_argument(
        "--layout",
        choices=("full", "compact", "overview"),
        help="compact where only that fits one sheet, else full, unless named; "
        "overview is one page for the wall, never given alone",
    )
    parser.add_argument("--print-size", choices=("standard", "large"))
    parser.add_argument("--page", choices=("a4", "letter"))
    parser.add_argument(
        "--with",
        dest="extras",
        default="",
        metavar="SHEETS",
        help="sheets to go with it: wallet, diary, summary (commas between)",
    )
    parser.add_argument(
        "--for",
        dest="audience",
        choices=("adult", "child", "carer"),
        default="adult",
        help="whom the program's own sentences speak to",
    )
    parser.add_argument("--library", type=Path, metavar="FOLDER", help="for a file outside one")
    parser.set_defaults(run=_handout)


def _handout(chosen: argparse.Namespace) -> Exit:
    from authoring.commands.handout import Wish, extras_named, make_handout
    from authoring.dosage.phrases import PhraseMissingError
    from authoring.files.errors import FileProblem, Unconfirmed, Unwritable, shown
    from authoring.handout.choices import Audience, Layout
    from authoring.handout.document import PageSize, PrintSize
    from authoring.handout.errors import HandoutError

    wish = Wish(
        stages=tuple(chosen.stage),
        language=chosen.language,
        page=PageSize(chosen.page) if chosen.page else None,
        print_size=PrintSize(chosen.print_size) if chosen.print_size else None,
        library=chosen.library,
        layout=Layout(chosen.layout) if chosen.layout else None,
        extras=extras_named(chosen.extras),
        audience=Audience(chosen.audience),
    )
    today = _today()
    try:
        with progress_on(sys.stderr) as tell:
            made = make_handout(chosen.source, chosen.output, wish, today, tell)
    except (Unwritable, Unconfirmed) as problem:
        raise CommandError(str(problem), Exit.UNWRITTEN) from problem
    except FileProblem as problem:
        raise CommandError(_every_fault(problem), Exit.UNUSABLE) from problem
    except (HandoutError, PhraseMissingError) as error:
        raise CommandError(str(error), Exit.FOUND) from error
    if wish.layout is Layout.OVERVIEW:
        speak("an overview is for the wall: never give it without the full or compact handout.")
    if made.draft_because:
        speak(f"marked 'Draft, not for patients': {made.draft_because}.")
    put_out(shown(made.file))
    return Exit.DONE


# ---- tailor -----------------------------------------------------------------------------


def _tailor(chosen: argparse.Namespace) -> Exit:
    from authoring.commands.explain import explained
    from authoring.commands.tailor import TailorWish, make_plan
    from authoring.files.errors import shown

    sources = tuple(chosen.sources)
    if chosen.blank is not None:
        return _blank(chosen)
    need_files("presentation", chosen.presentation, chosen.output)
    if chosen.most is not None and not 1 <= chosen.most <= 60:
        raise CommandError("--most is a number from 1 to 60.", Exit.UNUSABLE)
    wish = TailorWish(tuple(chosen.stage), chosen.most, chosen.clinician, chosen.library)
    today = chosen.date or _today()
    with _told_faults(), progress_on(sys.stderr) as tell:
        plan = make_plan(sources, chosen.presentation, chosen.output, wish, today, tell)
    _tell_release(plan)
    put_out(explained(plan) if chosen.explain else shown(chosen.output))
    return Exit.DONE


def _blank(chosen: argparse.Namespace) -> Exit:
    from authoring.commands.blank import blank_presentation, blank_report
    from authoring.files.errors import shown

    with _told_faults():
        if "plan" in chosen:
            blank_report(chosen.plan, chosen.blank, _today())
        else:
            blank_presentation(chosen.sources, chosen.blank)
    put_out(shown(chosen.blank))
    return Exit.DONE


def _tell_release(plan: Plan) -> None:
    from authoring.tailoring.release import release

    freed = release(plan)
    if freed.withheld:
        speak("a red flag is answered yes, so that the exercise pages are withheld.")
    elif not freed.may_print:
        speak(f"not to be printed yet: {freed.reasons[0].text}")


# ---- review -----------------------------------------------------------------------------


def _review(chosen: argparse.Namespace) -> Exit:
    from authoring.commands.review import ReviewWish, make_next
    from authoring.commands.review_text import review_explained
    from authoring.files.errors import shown

    if chosen.blank is not None:
        return _blank(chosen)
    need_files("report", chosen.report, chosen.output)
    wish = ReviewWish(tuple(chosen.confirm), chosen.move_on, chosen.clinician, chosen.library)
    with _told_faults(), progress_on(sys.stderr) as tell:
        made = make_next(chosen.plan, chosen.report, chosen.output, wish, tell)
    _tell_release(made.plan)
    put_out(review_explained(made) if chosen.explain else shown(chosen.output))
    return Exit.DONE


# ---- draw -------------------------------------------------------------------------------


def _add_draw(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("pose", metavar="POSE", help="pose file, or name of one that comes with us")
    parser.add_argument(
        "-o", "--output", type=Path, required=True, metavar="FILE", help=".svg or .png"
    )
    parser.add_argument("--phase", metavar="MOMENT", help="start, end …; the last unless given")
    parser.add_argument("--side", choices=("left", "right"), help="side that works")
    parser.set_defaults(run=_draw)


def _draw(chosen: argparse.Namespace) -> Exit:
    from authoring.commands.draw import draw_pose
    from authoring.files.errors import shown
    from authoring.model.vocabulary import Phase, Side

    moments = {phase.value: phase for phase in Phase}
    if chosen.phase is not None and chosen.phase not in moments:
        raise CommandError(
            f"There is no moment {chosen.phase!r}; choose one of: {', '.join(moments)}.",
            Exit.UNUSABLE,
        )
    phase = moments.get(chosen.phase or "")
    side = Side(chosen.side) if chosen.side else Side.NONE
    with _told_faults():
        odd = draw_pose(chosen.pose, chosen.output, phase, side)
    for sentence in odd:
        speak(sentence)
    put_out(shown(chosen.output))
    return Exit.DONE


# ---- sheet ------------------------------------------------------------------------------


def _add_sheet(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("library", type=Path, metavar="LIBRARY", help="library folder")
    parser.add_argument(
        "-o", "--output", type=Path, required=True, metavar="FILE", help=".html or .png"
    )
    parser.set_defaults(run=_sheet)


def _sheet(chosen: argparse.Namespace) -> Exit:
    from authoring.commands.sheet import make_sheet
    from authoring.files.errors import FileProblem, Unconfirmed, Unwritable, shown

    try:
        with progress_on(sys.stderr) as tell:
            made = make_sheet(chosen.library, chosen.output, tell)
    except (Unwritable, Unconfirmed) as problem:
        raise CommandError(str(problem), Exit.UNWRITTEN) from problem
    except FileProblem as problem:
        raise CommandError(_every_fault(problem), Exit.UNUSABLE) from problem
    for sentence in made.refused:
        speak(sentence)
    put_out(shown(chosen.output))
    return Exit.FOUND if made.refused else Exit.DONE


# ---- load -------------------------------------------------------------------------------


def _add_load(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("card", type=Path, metavar="CARD", help="card file")
    parser.add_argument("--mass", type=float, default=70.0, metavar="KG", help="70 unless given")
    parser.add_argument(
        "--height", type=float, default=170.0, metavar="CM", help="170 unless given"
    )
    parser.set_defaults(run=_load)


def _load(chosen: argparse.Namespace) -> Exit:
    from authoring.commands.load import load_of
    from authoring.commands.load_text import as_text

    with _told_faults():
        found = load_of(chosen.card, chosen.mass, chosen.height)
    put_out(as_text(found))
    return Exit.DONE


# ---- progress ---------------------------------------------------------------------------


def _progress_ahead(chosen: argparse.Namespace) -> Exit:
    from authoring.commands.progress import kit_of, progress_of
    from authoring.commands.progress_text import ProgressWords
    from authoring.files.errors import FileProblem
    from authoring.handout.catalogue import load_phrases

    owned = tuple(kit_of(words) for words in chosen.kit)
    words = ProgressWords(load_phrases("en"))
    try:
        found = [progress_of(path, chosen.weeks, owned, chosen.library) for path in chosen.sources]
    except FileProblem as problem:
        raise CommandError(_every_fault(problem), Exit.UNUSABLE) from problem
    if chosen.format == "json":
        put_out(json.dumps([words.json(one) for one in found], indent=2, ensure_ascii=False))
    else:
        put_out("\n\n".join(words.text(one) for one in found))
    return Exit.DONE


# ---- packs ------------------------------------------------------------------------------


def _pack(chosen: argparse.Namespace) -> Exit:
    with _told_faults():
        return run_pack(chosen)


def _unpack(chosen: argparse.Namespace) -> Exit:
    with _told_faults():
        return run_unpack(chosen, _today())


# ---- compare and merge --------------------------------------------------------------------


def _compare(chosen: argparse.Namespace) -> Exit:
    from authoring.commands.compare import compared

    with _told_faults():
        put_out(compared(chosen.old, chosen.new, chosen.format))
    return Exit.DONE


def _merge(chosen: argparse.Namespace) -> Exit:
    from authoring.commands.merge import merge_files

    with _told_faults():
        settled = merge_files(chosen.base, chosen.mine, chosen.theirs, chosen.output, chosen.prefer)
    for sentence in settled:
        speak(sentence)
    return Exit.DONE


if __name__ == "__main__":
    sys.exit(main())
