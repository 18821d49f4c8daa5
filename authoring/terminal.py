"""How the command line speaks: data to standard output, messages and progress to the terminal."""

from __future__ import annotations

import argparse
import datetime as dt
import io
import os
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TextIO

from authoring.commands.outcome import CommandError, Exit, Tell, silent

_PATIENCE_S = 0.5
_EVERY_S = 0.1


def take_any_text() -> None:
    """Write what the terminal's encoding lacks, or a file name of stray bytes, as escapes."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


def put_out(text: str) -> None:
    """Write data to standard output, down to the last byte.

    Raises:
        CommandError: it can't be written.
        BrokenPipeError: nobody reads any more.
    """
    if sys.stdout is None:  # closed by whoever started the command
        return
    try:
        sys.stdout.write(f"{text}\n")
        sys.stdout.flush()
    except BrokenPipeError:
        raise
    except OSError as error:
        drop_output()
        raise CommandError(
            f"The result could not be written to standard output ({error.strerror}); free some "
            "space, or send it elsewhere.",
            Exit.UNWRITTEN,
        ) from error


def drop_output() -> None:
    """Stop writing to standard output, whose reader has gone, without a word at the end."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, sys.stdout.fileno())
    os.close(nowhere)


@contextmanager
def progress_on(stream: TextIO | None) -> Iterator[Tell]:
    """A line on a terminal that says how far the work is, once it has taken half a second.

    Nothing is written where ``stream`` is no terminal. The line is wiped at the end.
    """
    if stream is None or not stream.isatty():
        yield silent
        return
    begun = time.monotonic()
    last = begun + _PATIENCE_S - _EVERY_S
    width = 0

    def tell(what: str, done: int, total: int) -> None:
        nonlocal last, width
        if time.monotonic() - last < _EVERY_S:
            return
        last = time.monotonic()
        line = f"{what}: {done} of {total}"
        width = max(width, len(line))
        stream.write(f"\r{line:<{width}}")
        stream.flush()

    try:
        yield tell
    finally:
        if width:
            stream.write(f"\r{'':<{width}}\r")
            stream.flush()


def speak(sentence: str) -> None:
    """Tell one sentence on standard error."""
    print(f"rungbook: {sentence}", file=sys.stderr)


# ---- packs ------------------------------------------------------------------------------


def add_pack(parser: argparse.ArgumentParser) -> argparse.ArgumentParser:
    """Say what ``rungbook pack`` takes."""
    parser.add_argument("library", type=Path, metavar="LIBRARY", help="library folder")
    parser.add_argument("protocols", nargs="+", metavar="PROTOCOL", help="short name, id or file")
    parser.add_argument("-o", "--output", type=Path, required=True, metavar="FILE")
    parser.add_argument("--sign", metavar="KEY", help="with this key; a new name makes a key")
    parser.add_argument("--even-so", action="store_true", help="whatever looks like a patient's")
    return parser


def run_pack(chosen: argparse.Namespace) -> Exit:
    """Write a pack and name it.

    Raises:
        CommandError, FileProblem: as :func:`authoring.commands.pack.pack_protocols`.
    """
    from authoring.commands.pack import pack_protocols
    from authoring.files.errors import shown

    wish = (chosen.library, chosen.protocols, chosen.output, chosen.sign)
    for sentence in pack_protocols(*wish, even_so=chosen.even_so)[1]:
        speak(sentence)
    put_out(shown(chosen.output))
    return Exit.DONE


def add_unpack(parser: argparse.ArgumentParser) -> argparse.ArgumentParser:
    """Say what ``rungbook unpack`` takes."""
    parser.add_argument("pack", type=Path, metavar="FILE", help="pack")
    parser.add_argument("library", type=Path, metavar="LIBRARY", help="library folder")
    parser.add_argument("--dry-run", action="store_true", help="only say what would change")
    parser.add_argument("--take", choices=("new", "mine", "theirs"), default="new")
    parser.add_argument("--even-so", action="store_true", help="whatever looks like a patient's")
    return parser


def run_unpack(chosen: argparse.Namespace, today: dt.date) -> Exit:
    """Take a pack in and say what it brought.

    Raises:
        CommandError, FileProblem: as :func:`authoring.commands.unpack.unpack`.
    """
    from authoring.commands.unpack import unpack, unpack_text
    from authoring.files.unpack import Take

    wish = (chosen.pack, chosen.library, Take(chosen.take), today)
    put_out(unpack_text(unpack(*wish, dry=chosen.dry_run, even_so=chosen.even_so)))
    return Exit.DONE
