"""The one way this program puts a file on disk.

A save writes a temporary file in the target's own folder, flushes it to the
disk, renames it over the target, and flushes the folder. A reader, and a power
cut, find the old file or the new one, never a part (Pillai et al., "All file
systems are not created equal", OSDI 2014). A flush that failed is never tried
again on the same file: the system may by then have dropped the data and report
success (Rebello et al., "Can applications recover from fsync failures?", ATC 2020).
"""

from __future__ import annotations

import errno
from contextlib import suppress
from pathlib import Path

from authoring.files import names
from authoring.files.errors import Unconfirmed, Unwritable, told_as
from authoring.files.filesystem import DISK, FileSystem, Kind
from authoring.model.sentence import say

COULD_NOT_SAVE = say("could not save")
_NEW_FILE_MODE = 0o666
A_DAY_S = 24 * 60 * 60


def write_atomic(path: Path, data: bytes, *, fs: FileSystem = DISK) -> None:
    """Put ``data`` at ``path``, whole or not at all.

    A link stays a link, and its file is replaced; permissions stay as they
    were. Returning means the disk holds the new content. Raises
    :class:`Unwritable` where the old content still stands, and
    :class:`Unconfirmed` where the new one stands but may not outlive a power cut.
    """
    with told_as(Unwritable, path, COULD_NOT_SAVE):
        target = writable_target(path, fs)
        temporary = prepare(target, data, fs)
        swap_in(temporary, target, fs)
    confirm(path, target.parent, fs)


def make_folder(path: Path, *, fs: FileSystem = DISK) -> None:
    """Make a folder and those above it, so that they outlive a power cut.

    Does nothing where it is a folder already. Raises :class:`Unwritable`.
    """
    with told_as(Unwritable, path, say("could not make the folder")):
        missing = []
        step = fs.resolve(path)
        while not _is_folder(step, path, fs):
            missing.append(step)
            step = step.parent
        for folder in reversed(missing):
            with suppress(FileExistsError):  # another writer may be quicker
                fs.make_folder(folder)
            fs.sync_folder(folder.parent)


def _is_folder(step: Path, asked: Path, fs: FileSystem) -> bool:
    try:
        kind = fs.entry(step).kind
    except FileNotFoundError:
        if step == step.parent:
            raise
        return False
    if kind is not Kind.FOLDER:
        raise Unwritable(
            asked,
            say("{step} is a file, so no folder can be made there", step=step),
            say("choose another folder"),
        )
    return True


# ---- the steps, shared with checked saves and the journal ------------------


def writable_target(path: Path, fs: FileSystem) -> Path:
    """The real file that saving to ``path`` replaces.

    Raises :class:`Unwritable` for a folder, pipe, device or read-only file, and
    ``OSError`` or ``ValueError`` as the system does.
    """
    target = fs.resolve(path)
    try:
        kind = fs.entry(target).kind
    except FileNotFoundError:
        return target
    if kind is Kind.FOLDER:
        raise Unwritable(path, say("this is a folder, not a file"), say("name a file inside it"))
    if kind is Kind.OTHER:
        raise Unwritable(
            path, say("this is a pipe, socket or device, not a file"), say("name an ordinary file")
        )
    if not fs.may_write(target):
        raise Unwritable(
            path,
            say("this file is read only"),
            say("allow writing to it, or save under another name"),
        )
    return target


def prepare(target: Path, data: bytes, fs: FileSystem) -> Path:
    """A temporary file beside ``target`` holding ``data``, safe on the disk but for its name.

    Takes over the permissions of ``target``. Leaves nothing behind when it raises.
    """
    try:
        mode = fs.entry(target).mode
        kept = True
    except FileNotFoundError:
        mode, kept = _NEW_FILE_MODE, False
    temporary = names.new_temporary(target.parent)
    descriptor = fs.create(temporary, mode)
    try:
        try:
            if kept:
                with suppress(OSError):  # shares without permissions refuse this
                    fs.set_mode(descriptor, mode)
            _write_all(descriptor, data, fs)
            fs.sync(descriptor)
        finally:
            fs.close(descriptor)
    except BaseException:
        discard(temporary, fs)
        raise
    return temporary


def _write_all(descriptor: int, data: bytes, fs: FileSystem) -> None:
    rest = memoryview(data)
    while rest:
        taken = fs.write(descriptor, rest)
        if taken <= 0:
            raise OSError(errno.EIO, "the disk took none of the data")
        rest = rest[taken:]


def swap_in(temporary: Path, target: Path, fs: FileSystem) -> None:
    """Rename over ``target``; on failure remove the temporary file and raise."""
    try:
        fs.replace(temporary, target)
    except BaseException:
        discard(temporary, fs)
        raise


def confirm(path: Path, folder: Path, fs: FileSystem) -> None:
    """Flush the names in ``folder``. Raises :class:`Unconfirmed` naming ``path``."""
    with told_as(Unconfirmed, path, say("saved, but the disk did not confirm it")):
        fs.sync_folder(folder)


def discard(path: Path, fs: FileSystem) -> None:
    """Remove a file of ours if that can be done; it harms nobody if not."""
    with suppress(OSError, MemoryError):
        fs.remove(path)


# ---- what dead writers leave -------------------------------------------------


def clean_leftovers(
    folder: Path,
    *,
    older_than_s: float = A_DAY_S,
    fs: FileSystem = DISK,
) -> tuple[str, ...]:
    """Remove this program's temporary files left in ``folder`` by writers that died.

    Only names of our own making, only plain files, only those untouched for
    ``older_than_s`` seconds. A journal may still need them: recover first.
    Returns the names removed; what can't be looked at or removed is left for
    another day.
    """
    removed = []
    with suppress(OSError):
        for name in fs.names(folder):
            if not (names.is_temporary(name) or names.is_guard(name)):
                continue
            with suppress(OSError):
                entry = fs.entry(folder / name)
                if entry.kind is Kind.FILE and fs.now_s() - entry.modified_s > older_than_s:
                    fs.remove(folder / name)
                    removed.append(name)
    return tuple(removed)
