"""What a file held when it was last read, and whether it still does."""

from __future__ import annotations

import hashlib
from pathlib import Path

from attrs import frozen

from authoring.files.errors import Outcome, Unreadable, told_as
from authoring.files.filesystem import DISK, FileSystem, Kind
from authoring.files.reading import chunks, opened
from authoring.model.sentence import say


@frozen
class Fingerprint:
    """``sha256`` in lower-case hexadecimal; ``size`` in bytes."""

    sha256: str
    size: int


def fingerprint(data: bytes) -> Fingerprint:
    return Fingerprint(hashlib.sha256(data).hexdigest(), len(data))


def judge(current: Fingerprint | None, baseline: Fingerprint | None) -> Outcome:
    """Compare what is there with what was there; None stands for no file."""
    if current == baseline:
        return Outcome.UNCHANGED
    return Outcome.MISSING if current is None else Outcome.CHANGED


def fingerprint_on_disk(
    path: Path, *, size: int | None = None, fs: FileSystem = DISK
) -> Fingerprint | None:
    """Fingerprint of the file, or None where there is none.

    With ``size`` given, a file of another size is not read through: its
    ``sha256`` comes back empty, equal to no other. Raises :class:`Unreadable`.
    """
    with told_as(Unreadable, path, say("could not look at the file on disk")):
        try:
            entry = fs.entry(path)
            if entry.kind is Kind.FILE and size is not None and entry.size != size:
                return Fingerprint("", entry.size)
            digest = hashlib.sha256()
            total = 0
            with opened(path, fs) as descriptor:
                for piece in chunks(descriptor, fs):
                    digest.update(piece)
                    total += len(piece)
        except (FileNotFoundError, NotADirectoryError):
            return None
        return Fingerprint(digest.hexdigest(), total)


def compare(path: Path, baseline: Fingerprint | None, *, fs: FileSystem = DISK) -> Outcome:
    """How the file stands to ``baseline``; None as baseline means there was no file.

    Changes nothing, here or on disk. Raises :class:`Unreadable` where the file
    can't be looked at.
    """
    size = None if baseline is None else baseline.size
    return judge(fingerprint_on_disk(path, size=size, fs=fs), baseline)
