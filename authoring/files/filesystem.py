"""The few calls through which the storage modules reach a disk.

One object stands between them and the system so that a test can stop, fail or
record each call. Every method maps to one system call, or nearly; each raises
``OSError`` as the system does.
"""

from __future__ import annotations

import errno
import os
import stat as modes
import sys
import time
from enum import Enum
from pathlib import Path

from attrs import frozen

if sys.platform == "darwin":
    import fcntl


class Kind(Enum):
    """What a name on disk stands for."""

    FILE = "file"
    FOLDER = "folder"
    OTHER = "other"


@frozen
class Entry:
    """``mode`` holds permission bits; ``modified_s`` counts seconds since 1970."""

    kind: Kind
    mode: int
    size: int
    modified_s: float


_BINARY = getattr(os, "O_BINARY", 0) | getattr(os, "O_NOINHERIT", 0)
# Without this, opening a pipe waits for a writer that may never come.
_AT_ONCE = getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_NOCTTY", 0)

_FOLDER_SYNC_UNKNOWN = {
    errno.EINVAL,
    errno.ENOSYS,
    errno.EBADF,
    errno.EISDIR,
    getattr(errno, "ENOTSUP", errno.EINVAL),
    getattr(errno, "EOPNOTSUPP", errno.EINVAL),
}


def _entry(found: os.stat_result) -> Entry:
    if modes.S_ISREG(found.st_mode):
        kind = Kind.FILE
    elif modes.S_ISDIR(found.st_mode):
        kind = Kind.FOLDER
    else:
        kind = Kind.OTHER
    return Entry(kind, modes.S_IMODE(found.st_mode), found.st_size, found.st_mtime)


class FileSystem:
    """The real disk."""

    def open_read(self, path: Path) -> int:
        """Descriptor for reading; never waits, whatever ``path`` is."""
        return os.open(path, os.O_RDONLY | _BINARY | _AT_ONCE)

    def create(self, path: Path, mode: int) -> int:
        """Descriptor for a file that did not exist. Raises ``FileExistsError``."""
        return os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL | _BINARY, mode)

    def set_mode(self, descriptor: int, mode: int) -> None:
        if hasattr(os, "fchmod"):
            os.fchmod(descriptor, mode)

    def entry_of(self, descriptor: int) -> Entry:
        return _entry(os.fstat(descriptor))

    def read(self, descriptor: int, count: int) -> bytes:
        """At most ``count`` bytes; none at the end."""
        return os.read(descriptor, count)

    def write(self, descriptor: int, data: bytes | memoryview) -> int:
        """How many bytes were taken, which may be fewer than given."""
        return os.write(descriptor, data)

    def sync(self, descriptor: int) -> None:
        """Return once the disk itself holds the file."""
        if sys.platform == "darwin":
            try:
                # There fsync leaves the data in the drive's own cache.
                fcntl.fcntl(descriptor, fcntl.F_FULLFSYNC)
            except OSError:
                os.fsync(descriptor)
        else:
            os.fsync(descriptor)

    def close(self, descriptor: int) -> None:
        os.close(descriptor)

    def entry(self, path: Path) -> Entry:
        """Follows links. Raises ``FileNotFoundError``."""
        return _entry(path.stat())

    def names(self, folder: Path) -> list[str]:
        return sorted(item.name for item in folder.iterdir())

    def replace(self, source: Path, target: Path) -> None:
        """Put ``source`` in the place of ``target``, which may or may not exist."""
        source.replace(target)

    def remove(self, path: Path) -> None:
        path.unlink()

    def make_folder(self, path: Path) -> None:
        path.mkdir()

    def sync_folder(self, folder: Path) -> None:
        """Return once the disk holds the folder's names; does nothing where that is unknown."""
        if os.name == "nt":
            return
        try:
            descriptor = os.open(folder, os.O_RDONLY | getattr(os, "O_DIRECTORY", 0))
        except PermissionError:
            # A folder one may write to but not list can't be opened for this.
            return
        try:
            os.fsync(descriptor)
        except OSError as error:
            if error.errno not in _FOLDER_SYNC_UNKNOWN:
                raise
        finally:
            os.close(descriptor)

    def resolve(self, path: Path) -> Path:
        """The real file behind any links, so that saving keeps a link a link."""
        try:
            return path.resolve()
        except RuntimeError as error:
            # Python before 3.13 says so when links lead in a circle.
            raise OSError(errno.ELOOP, os.strerror(errno.ELOOP), str(path)) from error

    def may_write(self, path: Path) -> bool:
        return os.access(path, os.W_OK)

    def elapsed_s(self) -> float:
        """Seconds on a clock that never goes back and runs on through sleep where it can."""
        if sys.platform == "linux":
            return time.clock_gettime(time.CLOCK_BOOTTIME)
        return time.monotonic()

    def now_s(self) -> float:
        """Seconds since 1970."""
        return time.time()

    def pause(self, seconds: float) -> None:
        time.sleep(seconds)


DISK = FileSystem()
