"""Read a whole file within a bound, never waiting on pipes or devices."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from authoring.files.errors import Unreadable, told_as
from authoring.files.filesystem import DISK, FileSystem, Kind
from authoring.model.sentence import say

MEBIBYTE = 1024 * 1024
_STEP = 256 * 1024


@contextmanager
def opened(path: Path, fs: FileSystem) -> Iterator[int]:
    """Descriptor of a plain file, closed at the end.

    Raises ``OSError`` as the system does, and :class:`Unreadable` for a folder,
    pipe, socket or device.
    """
    # Asked before opening too: opening alone can already set a device going.
    _refuse_unless_plain(path, fs.entry(path).kind)
    descriptor = fs.open_read(path)
    try:
        _refuse_unless_plain(path, fs.entry_of(descriptor).kind)
        yield descriptor
    finally:
        fs.close(descriptor)


def _refuse_unless_plain(path: Path, kind: Kind) -> None:
    if kind is Kind.FOLDER:
        raise Unreadable(path, say("this is a folder, not a file"), say("name a file inside it"))
    if kind is Kind.OTHER:
        raise Unreadable(
            path, say("this is a pipe, socket or device, not a file"), say("name an ordinary file")
        )


def chunks(descriptor: int, fs: FileSystem) -> Iterator[bytes]:
    """The rest of the file, piece by piece."""
    while piece := fs.read(descriptor, _STEP):
        yield piece


def read_file(path: Path, limit: int = 16 * MEBIBYTE, *, fs: FileSystem = DISK) -> bytes:
    """The bytes of a plain file of at most ``limit`` bytes.

    Raises :class:`Unreadable` for anything else, without reading further than
    one piece past the limit, whatever size the system reports.
    """
    parts: list[bytes] = []
    total = 0
    with told_as(Unreadable, path, say("could not read")), opened(path, fs) as descriptor:
        for piece in chunks(descriptor, fs):
            total += len(piece)
            if total > limit:
                raise Unreadable(
                    path,
                    say("the file is larger than the {size} this program reads", size=_size(limit)),
                    say("check that this is the right file, or split it"),
                )
            parts.append(piece)
        return b"".join(parts)


def _size(count: int) -> str:
    if count >= MEBIBYTE:
        return f"{count / MEBIBYTE:g} MiB"
    return f"{count} bytes"
