"""One writer at a time in a folder, on any share, whoever dies.

The lock is a file made with O_EXCL, which works where the locks of the
operating systems do not reach each other. Its owner may die or be put to sleep,
so a lock that stays the same for ``stale_s`` is taken over. Three rules keep
that safe:

* The owner writes down its temporary file in the lock, as a *fence*. Who takes
  the lock over first removes that file. A sleeper that wakes up then has nothing
  left to rename, and its save fails instead of undoing a later one.
* A lock is only removed, by its owner too, by whoever made the *guard* file
  named after that very lock, and only after looking again. So nobody removes
  a lock other than the one they mean.
* An owner that took longer than half of ``stale_s`` gives up before renaming.

What this can't stop is a process that sleeps through a take-over between two
neighbouring calls while it removes a lock or deletes a file.
"""

from __future__ import annotations

import getpass
import hashlib
import json
import os
import platform
import secrets
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path

from attrs import frozen

from authoring.files import names
from authoring.files.atomic import discard
from authoring.files.errors import Busy
from authoring.files.filesystem import FileSystem
from authoring.files.reading import chunks, opened
from authoring.model.sentence import say

_LARGEST_LOCK = 64 * 1024


@frozen
class Patience:
    """Seconds: in all, until a lock counts as left behind, and between two looks."""

    wait_s: float = 40.0
    stale_s: float = 10.0
    look_s: float = 0.02


PATIENT = Patience()


class LockLost(Exception):  # noqa: N818 - never leaves this package
    """Another writer took the lock over: nothing was renamed; start again."""


@frozen
class Held:
    """A lock that is ours as long as :meth:`check` does not raise."""

    path: Path
    content: bytes
    since_s: float
    patience: Patience
    fs: FileSystem

    def late(self) -> bool:
        """Others may soon take it for left behind."""
        return self.fs.elapsed_s() - self.since_s > self.patience.stale_s / 2

    def check(self) -> None:
        """Raises :class:`LockLost`, and ``OSError`` as the system does."""
        if self.late() or _content(self.path, self.fs) != self.content:
            raise LockLost


@contextmanager
def exclusive(
    folder: Path, fence: Sequence[Path], patience: Patience, fs: FileSystem
) -> Iterator[Held]:
    """Hold the lock of ``folder``; ``fence`` are temporary files inside it.

    Raises :class:`Busy` when another writer held it throughout, ``ValueError``
    where a fence lies outside, and ``OSError`` as the system does. Does not wait
    where the folder can't be written to.
    """
    path = folder / names.LOCK_NAME
    content = _new_content(folder, fence)
    held = _acquire(path, content, patience, fs)
    try:
        yield held
    finally:
        # The save is done or undone by now: a lock left behind only makes the
        # next writer wait, so it must not turn success into failure.
        with suppress(OSError, MemoryError):
            _remove(path, content, fs)


def _new_content(folder: Path, fence: Sequence[Path]) -> bytes:
    record = {
        "token": secrets.token_hex(16),
        "owner": _owner_hint(),
        "fence": [names.relative(folder, path) for path in fence],
    }
    return json.dumps(record, indent=2).encode() + b"\n"


def _owner_hint() -> str:
    """For a person who finds the file; nothing is decided by it."""
    try:
        user = getpass.getuser()
    except (OSError, KeyError, ImportError):
        user = "someone"
    return f"{user} on {platform.node()}, process {os.getpid()}"


def _acquire(path: Path, content: bytes, patience: Patience, fs: FileSystem) -> Held:
    start = fs.elapsed_s()
    seen: bytes | None = None
    seen_at = start
    while True:
        since = fs.elapsed_s()
        held = Held(path, content, since, patience, fs)
        if _made(held) and _still_ours(held):
            return held
        current = _content(path, fs)
        now = fs.elapsed_s()
        if current != seen:
            seen, seen_at = current, now
        elif current is not None and now - seen_at > patience.stale_s:
            _take_away(path, current, impatient=now - seen_at > 2 * patience.stale_s, fs=fs)
        if now - start > patience.wait_s:
            raise Busy(
                path.parent,
                say("another writer ({owner}) is saving in this folder", owner=_owner(current)),
                say(
                    "wait a moment and save again, or delete {name} there if nobody is",
                    name=path.name,
                ),
            )
        fs.pause(patience.look_s * (1 + secrets.randbelow(100) / 100))


def _made(held: Held) -> bool:
    path, fs = held.path, held.fs
    try:
        descriptor = fs.create(path, 0o666)
    except FileExistsError:
        return False
    except PermissionError:
        # Windows says so while a removed file is still open somewhere.
        if os.name == "nt" and _content(path, fs) is not None:
            return False
        raise
    try:
        try:
            rest = memoryview(held.content)
            while rest:
                rest = rest[fs.write(descriptor, rest) :]
        finally:
            fs.close(descriptor)
    except BaseException:
        # Half a lock would make everyone wait for nothing; an old one is not ours.
        if not held.late():
            discard(path, fs)
        raise
    return True


def _still_ours(held: Held) -> bool:
    try:
        held.check()
    except LockLost:
        return False
    except BaseException:
        with suppress(OSError, MemoryError):
            _remove(held.path, held.content, held.fs)
        raise
    return True


def _content(path: Path, fs: FileSystem) -> bytes | None:
    try:
        with opened(path, fs) as descriptor:
            found = b""
            for piece in chunks(descriptor, fs):
                found += piece
                if len(found) > _LARGEST_LOCK:
                    break
            return found[:_LARGEST_LOCK]
    except FileNotFoundError:
        return None


def _remove(path: Path, content: bytes, fs: FileSystem) -> bool:
    """Remove the lock if it still holds ``content`` and nobody else is at it."""
    guard = _guard_of(path, content)
    try:
        fs.close(fs.create(guard, 0o666))
    except FileExistsError:
        return False
    try:
        if _content(path, fs) != content:
            return False
        _raise_fence(path.parent, content, fs)
        fs.remove(path)
        return True
    finally:
        discard(guard, fs)


def _take_away(path: Path, content: bytes, *, impatient: bool, fs: FileSystem) -> None:
    """``impatient``: the guard too has been left behind."""
    with suppress(FileNotFoundError):
        if not _remove(path, content, fs) and impatient:
            discard(_guard_of(path, content), fs)


def _guard_of(path: Path, content: bytes) -> Path:
    return names.guard(path.parent, hashlib.sha256(content).hexdigest()[:32])


def _raise_fence(folder: Path, content: bytes, fs: FileSystem) -> None:
    """Remove the owner's temporary files; raises where one may still be there."""
    for written in _fence(content):
        path = names.inside(folder, written, fs)
        if path is not None and names.is_temporary(path.name):
            with suppress(FileNotFoundError):
                fs.remove(path)


def _record(content: bytes | None) -> dict[str, object]:
    try:
        record = json.loads(content or b"{}")
    except (ValueError, RecursionError):
        return {}
    return record if isinstance(record, dict) else {}


def _fence(content: bytes) -> Sequence[object]:
    fence = _record(content).get("fence")
    return fence if isinstance(fence, list) else ()


def _owner(content: bytes | None) -> str:
    owner = _record(content).get("owner")
    if not isinstance(owner, str):
        return "unknown"
    return "".join(letter for letter in owner[:200] if letter.isprintable())
