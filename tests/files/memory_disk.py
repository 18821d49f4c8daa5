"""A disk in memory that remembers what was flushed and what a power cut may undo.

The model is that of Pillai et al., "All file systems are not created equal"
(OSDI 2014), at its weakest: until a file is flushed, any beginning of what was
written to it may be there, or zeros; until a folder is flushed, any subset of
the changes to its names may be there, later ones without earlier ones too.
Renaming within a folder is atomic. Flushing a file says nothing about its name.
"""

from __future__ import annotations

import errno
import os
from collections.abc import Iterator
from itertools import combinations, product
from pathlib import Path, PurePosixPath
from typing import TypeAlias

from attrs import define, field, frozen

from authoring.files.filesystem import Entry, FileSystem, Kind

Snapshot = frozenset[tuple[str, bytes]]


@frozen
class Names:
    """Entries set in one folder at once; None takes a name away."""

    folder: Path
    entries: tuple[tuple[str, int | None], ...]


@frozen
class Bytes:
    """Appended to a file."""

    inode: int
    data: bytes


@frozen
class FileFlushed:
    inode: int


@frozen
class FolderFlushed:
    folder: Path


Logged: TypeAlias = Names | Bytes | FileFlushed | FolderFlushed


@define
class Clock:
    """Stands still but for a little at each look, so that nothing waits in earnest."""

    seconds: float = 1000.0

    def look(self) -> float:
        self.seconds += 1e-6
        return self.seconds


@define
class MemoryDisk(FileSystem):
    folders: dict[Path, dict[str, int]]
    contents: dict[int, bytes]
    clock: Clock = field(factory=Clock)
    log: list[Logged] = field(factory=list)
    opened: dict[int, list[int]] = field(factory=dict)
    _next: int = 1000

    @classmethod
    def holding(cls, files: Snapshot, folders: tuple[str, ...]) -> MemoryDisk:
        """``files`` and ``folders`` by absolute path; all of it flushed."""
        disk = cls({Path(folder): {} for folder in folders}, {})
        for inode, (path, data) in enumerate(sorted(files)):
            where = Path(path)
            disk.folders[where.parent][where.name] = inode
            disk.contents[inode] = data
        return disk

    def files(self) -> Snapshot:
        return frozenset(
            (str(folder / name), self.contents[inode])
            for folder, entries in self.folders.items()
            for name, inode in entries.items()
        )

    # ---- the calls -------------------------------------------------------

    def _inode(self, path: Path) -> int:
        entries = self._folder(path.parent)
        if path.name not in entries:
            raise _error(errno.ENOENT, path)
        return entries[path.name]

    def _folder(self, path: Path) -> dict[str, int]:
        if path not in self.folders:
            raise _error(errno.ENOENT, path)
        return self.folders[path]

    def _descriptor(self, inode: int) -> int:
        self._next += 1
        self.opened[self._next] = [inode, 0]
        return self._next

    def open_read(self, path: Path) -> int:
        return self._descriptor(self._inode(path))

    def create(self, path: Path, mode: int) -> int:
        entries = self._folder(path.parent)
        if path.name in entries:
            raise _error(errno.EEXIST, path)
        self._next += 1
        self.contents[self._next] = b""
        self._rename(path.parent, ((path.name, self._next),))
        return self._descriptor(self._next)

    def set_mode(self, descriptor: int, mode: int) -> None:
        pass

    def entry_of(self, descriptor: int) -> Entry:
        return Entry(Kind.FILE, 0o644, len(self.contents[self.opened[descriptor][0]]), 0.0)

    def read(self, descriptor: int, count: int) -> bytes:
        inode, place = self.opened[descriptor]
        piece = self.contents[inode][place : place + count]
        self.opened[descriptor][1] += len(piece)
        return piece

    def write(self, descriptor: int, data: bytes | memoryview) -> int:
        inode, _ = self.opened[descriptor]
        self.contents[inode] += bytes(data)
        self.log.append(Bytes(inode, bytes(data)))
        return len(data)

    def sync(self, descriptor: int) -> None:
        self.log.append(FileFlushed(self.opened[descriptor][0]))

    def close(self, descriptor: int) -> None:
        del self.opened[descriptor]

    def entry(self, path: Path) -> Entry:
        if path in self.folders:
            return Entry(Kind.FOLDER, 0o755, 0, 0.0)
        return Entry(Kind.FILE, 0o644, len(self.contents[self._inode(path)]), 0.0)

    def names(self, folder: Path) -> list[str]:
        return sorted(self._folder(folder))

    def replace(self, source: Path, target: Path) -> None:
        assert source.parent == target.parent, "the model knows renaming within a folder only"
        self._rename(source.parent, ((target.name, self._inode(source)), (source.name, None)))

    def remove(self, path: Path) -> None:
        self._inode(path)
        self._rename(path.parent, ((path.name, None),))

    def _rename(self, folder: Path, entries: tuple[tuple[str, int | None], ...]) -> None:
        _apply(self.folders[folder], entries)
        self.log.append(Names(folder, entries))

    def make_folder(self, path: Path) -> None:
        raise _error(errno.EROFS, path)

    def sync_folder(self, folder: Path) -> None:
        self._folder(folder)
        self.log.append(FolderFlushed(folder))

    def resolve(self, path: Path) -> Path:
        return path

    def may_write(self, path: Path) -> bool:
        return True

    def elapsed_s(self) -> float:
        return self.clock.look()

    def now_s(self) -> float:
        return self.clock.look()

    def pause(self, seconds: float) -> None:
        self.clock.seconds += seconds


def _error(number: int, path: Path) -> OSError:
    return OSError(number, os.strerror(number), str(PurePosixPath(path)))


def _apply(entries: dict[str, int], change: tuple[tuple[str, int | None], ...]) -> None:
    for name, inode in change:
        if inode is None:
            entries.pop(name, None)
        else:
            entries[name] = inode


# ---- what a power cut may leave ------------------------------------------


def crash_states(start: MemoryDisk, log: list[Logged]) -> Iterator[Snapshot]:
    """Every disk that may be found after power fails at the end of ``log``.

    ``start`` is the disk before it, all flushed.
    """
    folders = {folder: dict(entries) for folder, entries in start.folders.items()}
    contents = dict(start.contents)
    names: list[Names] = []
    written: dict[int, list[bytes]] = {}
    for item in log:
        match item:
            case Names():
                names.append(item)
            case Bytes(inode, data):
                written.setdefault(inode, []).append(data)
            case FileFlushed(inode):
                contents[inode] = contents.get(inode, b"") + b"".join(written.pop(inode, []))
            case FolderFlushed(folder):
                for change in names:
                    if change.folder == folder:
                        _apply(folders[folder], change.entries)
                names = [change for change in names if change.folder != folder]
    for kept in _subsets(names):
        yield from _with_data(folders, kept, contents, written)


def _subsets(names: list[Names]) -> Iterator[tuple[Names, ...]]:
    for size in range(len(names) + 1):
        yield from combinations(names, size)


def _with_data(
    folders: dict[Path, dict[str, int]],
    kept: tuple[Names, ...],
    contents: dict[int, bytes],
    written: dict[int, list[bytes]],
) -> Iterator[Snapshot]:
    after = {folder: dict(entries) for folder, entries in folders.items()}
    for change in kept:
        _apply(after[change.folder], change.entries)
    present = sorted({inode for entries in after.values() for inode in entries.values()})
    choices = [
        sorted(_torn(contents.get(inode, b""), b"".join(written.get(inode, []))))
        for inode in present
    ]
    for chosen in product(*choices):
        data = dict(zip(present, chosen, strict=True))
        yield frozenset(
            (str(folder / name), data[inode])
            for folder, entries in after.items()
            for name, inode in entries.items()
        )


def _torn(flushed: bytes, rest: bytes) -> set[bytes]:
    if not rest:
        return {flushed}
    half = rest[: len(rest) // 2]
    return {flushed, flushed + half, flushed + rest, flushed + bytes(len(rest))}
