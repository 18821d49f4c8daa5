"""What the commands that compare and merge versions take on the command line."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from pathlib import Path

from authoring.commands.outcome import Exit

Run = Callable[[argparse.Namespace], Exit]


def add_compare(parser: argparse.ArgumentParser, run: Run) -> None:
    """Two versions, and how to tell what differs."""
    parser.add_argument("old", type=Path, metavar="A", help="file or library")
    parser.add_argument("new", type=Path, metavar="B", help="a later version of it")
    parser.add_argument("--format", choices=("text", "json"), default="text")
    parser.set_defaults(run=run)


def add_merge(parser: argparse.ArgumentParser, run: Run) -> None:
    """Three versions, where to write, and whose change wins where both changed the same."""
    for name in ("base", "mine", "theirs"):
        parser.add_argument(name, type=Path, metavar=name.upper())
    parser.add_argument("-o", "--output", type=Path, required=True, metavar="OUT")
    parser.add_argument("--prefer", choices=("mine", "theirs"), help="whose change wins")
    parser.set_defaults(run=run)
