"""Drawn pictures kept between runs, in the user's own cache folder and never in a library.

Each picture is a file named by its key, which says all that it depends on; a file that is
damaged is told by its own hash and drawn anew. What can't be written is only kept in
memory. The oldest pictures go when there are many.
"""

from __future__ import annotations

import hashlib
import os
import re
import sys
from collections import OrderedDict
from collections.abc import Iterator, MutableMapping
from pathlib import Path
from threading import Lock
from typing import Final

MOST_KEPT: Final = 512
"""Pictures held in memory."""

MOST_FILES: Final = 3000
"""Pictures held on the disk: some 60 MB."""

_KEY: Final = re.compile(r"[0-9a-f]{64}")
_HASH: Final = 32


def cache_folder() -> Path:
    """Where the system wants a program's cache; ``RUNGBOOK_CACHE`` names another place.

    Sources: XDG Base Directory Specification 0.8, Apple's File System Programming Guide
    (Caches), Microsoft's known folder LocalAppData.
    """
    chosen = os.environ.get("RUNGBOOK_CACHE")
    if chosen:
        return Path(chosen)
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or Path.home()) / "Rungbook" / "Cache"
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Caches" / "Rungbook"
    own = os.environ.get("XDG_CACHE_HOME", "")
    return (Path(own) if own.startswith("/") else Path.home() / ".cache") / "rungbook"


class PictureStore(MutableMapping[str, bytes]):
    """Pictures by key, in memory first and in a folder behind it."""

    def __init__(self, folder: Path | None) -> None:
        """Args:
        folder: None keeps pictures in memory only.
        """
        self._folder = folder
        self._kept: OrderedDict[str, bytes] = OrderedDict()
        self._lock = Lock()
        self._written = 0

    def __getitem__(self, key: str) -> bytes:
        with self._lock:
            found = self._kept.get(key)
            if found is not None:
                self._kept.move_to_end(key)
                return found
        data = self._read(key)
        if data is None:
            raise KeyError(key)
        self._keep(key, data)
        return data

    def __setitem__(self, key: str, data: bytes) -> None:
        self._keep(key, data)
        self._write(key, data)

    def __delitem__(self, key: str) -> None:
        with self._lock:
            del self._kept[key]
        if self._folder is not None:
            self._file(key).unlink(missing_ok=True)

    def __iter__(self) -> Iterator[str]:
        """Keys of what is in memory."""
        return iter(tuple(self._kept))

    def __len__(self) -> int:
        return len(self._kept)

    def _keep(self, key: str, data: bytes) -> None:
        with self._lock:
            self._kept[key] = data
            self._kept.move_to_end(key)
            while len(self._kept) > MOST_KEPT:
                self._kept.popitem(last=False)

    # ---- the disk ---------------------------------------------------------------

    def _file(self, key: str) -> Path:
        if self._folder is None or not _KEY.fullmatch(key):
            raise KeyError(key)
        return self._folder / key[:2] / key

    def _read(self, key: str) -> bytes | None:
        """Bytes of a file whose hash stands before them; None where there are none."""
        if self._folder is None:
            return None
        try:
            whole = self._file(key).read_bytes()
        except OSError:
            return None
        told, data = whole[:_HASH], whole[_HASH:]
        return data if hashlib.sha256(data).digest() == told else None

    def _write(self, key: str, data: bytes) -> None:
        if self._folder is None:
            return
        at = self._file(key)
        try:
            at.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
            # Not the one atomic writer: waiting for the disk would cost more than drawing,
            # and a file that is not whole is known by its hash.
            half = at.with_name(f"{key}.{os.getpid()}")
            half.write_bytes(hashlib.sha256(data).digest() + data)
            half.replace(at)
        except OSError:
            return  # a cache that can't be written is no fault of the work
        self._written += 1
        if self._written % 200 == 1:
            self._tidy(self._folder)

    def _tidy(self, folder: Path) -> None:
        try:
            files = sorted(folder.glob("??/*"), key=lambda path: path.stat().st_mtime)
            for path in files[: max(0, len(files) - MOST_FILES)]:
                path.unlink(missing_ok=True)
        except OSError:
            return


class _Shared:
    store: PictureStore | None = None


def picture_store() -> PictureStore:
    """The store of this process."""
    if _Shared.store is None:
        _Shared.store = PictureStore(cache_folder() / "pictures")
    return _Shared.store
