"""What ``rungbook progress`` takes on the command line."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from pathlib import Path

from authoring.commands.outcome import Exit


def add_progress(
    parser: argparse.ArgumentParser, run: Callable[[argparse.Namespace], Exit]
) -> None:
    """Whose weeks, how many of them, and with what kit."""
    parser.add_argument(
        "sources", type=Path, nargs="+", metavar="CARD|PLAN", help="card, plan or protocol"
    )
    parser.add_argument("--weeks", type=int, default=8, metavar="N", help="8 unless given")
    parser.add_argument(
        "--kit",
        action="append",
        default=[],
        metavar="KIT=SIZES",
        help="kit at hand, such as dumbbell=2,4,6kg; repeat",
    )
    parser.add_argument("--library", type=Path, metavar="FOLDER", help="for a file outside one")
    parser.add_argument("--format", choices=("text", "json"), default="text")
    parser.set_defaults(run=run)
