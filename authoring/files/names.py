"""Names of the short-lived files the storage modules put beside the user's own.

Shared folders are filled by other people and other programs, so a name found in
a lock or a journal is trusted only after :func:`inside` has looked at it.
"""

from __future__ import annotations

import re
import secrets
from pathlib import Path, PurePosixPath

from authoring.files.errors import Unwritable
from authoring.files.filesystem import FileSystem
from authoring.model.sentence import say

LOCK_NAME = ".rungbook.lock"
_TEMPORARY = re.compile(r"\.rungbook-[0-9a-f]{32}\.tmp")
_GUARD = re.compile(r"\.rungbook-[0-9a-f]{32}\.guard")
_JOURNAL = re.compile(r"\.rungbook-[0-9a-f]{32}\.journal")


def new_temporary(folder: Path) -> Path:
    """A name nobody can foresee; short, so that it fits wherever the target's fits."""
    return folder / f".rungbook-{secrets.token_hex(16)}.tmp"


def new_journal(folder: Path) -> Path:
    """Never used twice, so that a late writer can't remove another's journal."""
    return folder / f".rungbook-{secrets.token_hex(16)}.journal"


def guard(folder: Path, key: str) -> Path:
    """``key``: 32 hexadecimal digits naming the lock that is being removed."""
    return folder / f".rungbook-{key}.guard"


def is_temporary(name: str) -> bool:
    return _TEMPORARY.fullmatch(name) is not None


def is_guard(name: str) -> bool:
    return _GUARD.fullmatch(name) is not None


def is_journal(name: str) -> bool:
    return _JOURNAL.fullmatch(name) is not None


def relative(root: Path, path: Path) -> str:
    """``path`` as written into a lock or journal. Raises ``ValueError`` outside ``root``."""
    return path.relative_to(root).as_posix()


def inside(root: Path, written: object, fs: FileSystem) -> Path | None:
    """The path a lock or journal names, or None unless it truly lies inside ``root``."""
    if not isinstance(written, str) or "\\" in written or "\0" in written or ":" in written:
        return None
    parts = PurePosixPath(written).parts
    if not parts or ".." in parts or PurePosixPath(written).is_absolute():
        return None
    path = root.joinpath(*parts)
    try:
        folder = fs.resolve(path.parent)
        base = fs.resolve(root)
    except (OSError, ValueError):
        return None
    if folder != base and base not in folder.parents:
        return None
    return folder / path.name


def must_be_inside(root: Path, target: Path, asked: Path) -> None:
    """Raises :class:`Unwritable` naming ``asked`` where ``target`` lies outside ``root``.

    Both resolved: what is refused is a link that leads out of the library.
    """
    if root not in target.parents:
        raise Unwritable(
            asked,
            say("this leads to {target}, outside the folder {root}", target=target, root=root),
            say("put a copy of the file there instead of a link"),
        )
