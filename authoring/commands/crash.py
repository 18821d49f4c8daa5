"""What is kept of a fault of the program itself, so that it can be reported."""

from __future__ import annotations

import datetime as dt
import os
import platform
import sys
import traceback
from collections.abc import Iterator
from pathlib import Path

from authoring import __version__
from authoring.files.atomic import make_folder, write_atomic
from authoring.files.errors import FileProblem


def log_folder() -> Path:
    """Where logs lie in the user's own folder, by the custom of the system.

    XDG Base Directory Specification 0.8 (state), Apple's File System Programming Guide
    (Logs), and the local application data of Windows.
    """
    if sys.platform == "win32":
        base = os.environ.get("LOCALAPPDATA")
        return Path(base or Path.home(), "Rungbook", "Logs")
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Logs" / "Rungbook"
    state = os.environ.get("XDG_STATE_HOME")
    return Path(state or Path.home() / ".local" / "state") / "rungbook"


def keep_traceback(error: BaseException, folder: Path | None = None) -> Path | None:
    """Write the traceback of a fault into a file of its own.

    It names versions, kinds of fault and places in the program. What a fault says is left
    out, for it may quote an argument of the command, and so the label of a patient.

    Args:
        error: the fault.
        folder: where to; None means :func:`log_folder`.

    Returns:
        the file, or None where none could be written.
    """
    now = dt.datetime.now(tz=dt.UTC)
    head = f"rungbook {__version__}, Python {platform.python_version()}, {platform.platform()}"
    text = "".join(_places(error))
    try:
        where = folder or log_folder()
        make_folder(where)
        file = where / f"fault-{now:%Y%m%d-%H%M%S-%f}.txt"
        write_atomic(file, f"{head}\n\n{text}".encode(errors="backslashreplace"))
    except (FileProblem, OSError, RuntimeError):
        return None
    return file


def _places(error: BaseException) -> Iterator[str]:
    """A traceback without messages, the fault that led to it first."""
    earlier = error.__cause__ or (None if error.__suppress_context__ else error.__context__)
    if earlier is not None:
        yield from _places(earlier)
        yield "\nwhich led to\n\n"
    yield "Traceback (most recent call last):\n"
    yield from traceback.format_tb(error.__traceback__)
    yield f"{type(error).__module__}.{type(error).__qualname__}\n"


def sentence_of(error: BaseException, log: Path | None) -> str:
    """What to tell the user of a fault of the program."""
    what = f"Something went wrong inside Rungbook ({type(error).__name__})"
    if isinstance(error, MemoryError):
        what = "The computer ran out of memory"
    kept = f"send the file {log}" if log else "tell what you did"
    return (
        f"{what}, and the command was stopped; to have it mended, {kept} to whoever gave you "
        "Rungbook."
    )
