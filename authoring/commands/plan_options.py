"""Options of the commands that make plans, and what must be named for them."""

from __future__ import annotations

import argparse
import datetime as dt
from collections.abc import Callable
from pathlib import Path

from authoring.commands.outcome import CommandError, Exit

Run = Callable[[argparse.Namespace], Exit]


def add_tailor(parser: argparse.ArgumentParser, run: Run) -> None:
    """Options of ``rungbook tailor``."""
    parser.add_argument(
        "sources", type=Path, nargs="*", metavar="PROTOCOL", help="protocols and single cards"
    )
    parser.add_argument("--presentation", type=Path, metavar="FILE", help="what is known")
    parser.add_argument("-o", "--output", type=Path, metavar="PLAN")
    parser.add_argument(
        "--blank", type=Path, metavar="FILE", help="write a presentation to fill in"
    )
    parser.add_argument(
        "--stage", type=int, action="append", default=[], metavar="N", help="one, or one for each"
    )
    parser.add_argument("--most", type=int, metavar="N", help="most exercises")
    parser.add_argument(
        "--date", type=dt.date.fromisoformat, metavar="YYYY-MM-DD", help="today unless given"
    )
    parser.add_argument("--clinician", default="", metavar="WHO", help="who decides")
    parser.add_argument("--library", type=Path, metavar="FOLDER", help="for files outside one")
    parser.add_argument("--explain", action="store_true", help="say why, exercise by exercise")
    parser.set_defaults(run=run)


def add_review(parser: argparse.ArgumentParser, run: Run) -> None:
    """Options of ``rungbook review``."""
    parser.add_argument("plan", type=Path, metavar="PLAN", help="plan file")
    parser.add_argument("--report", type=Path, metavar="FILE", help="what happened since")
    parser.add_argument("-o", "--output", type=Path, metavar="PLAN")
    parser.add_argument("--blank", type=Path, metavar="FILE", help="write a report to fill in")
    parser.add_argument(
        "--confirm",
        action="append",
        default=[],
        metavar="EXERCISE",
        help="confirm its step up; repeat, or say all",
    )
    parser.add_argument("--move-on", action="store_true", help="confirm the next stage")
    parser.add_argument("--clinician", default="", metavar="WHO", help="who confirms")
    parser.add_argument("--library", type=Path, metavar="FOLDER", help="for the next stage's cards")
    parser.add_argument("--explain", action="store_true", help="say why, exercise by exercise")
    parser.set_defaults(run=run)


def need_files(name: str, given: Path | None, output: Path | None) -> None:
    """Refuse a file to fill in that is missing, and a plan that has nowhere to go.

    Args:
        name: "presentation" or "report".

    Raises:
        CommandError: one of them is not named, or not there.
    """
    start = f"start one with --blank FILE and fill it in, then name it with --{name}"
    if given is None:
        raise CommandError(f"No {name} is named: {start}.", Exit.UNUSABLE)
    if not given.exists():
        raise CommandError(f"There is no {name} {str(given)!r}: {start}.", Exit.UNUSABLE)
    if output is None:
        raise CommandError("Name the plan file to write with -o.", Exit.UNUSABLE)
