"""Save only over what was read: never over somebody else's work.

The baseline is the fingerprint of what was last read or written. It is a value
the caller holds; a refusal raises and hands back none, so the next save, and the
next autosave, refuse again until the caller decides otherwise.
"""

from __future__ import annotations

from pathlib import Path

from authoring.files.atomic import COULD_NOT_SAVE, confirm, discard, prepare, writable_target
from authoring.files.errors import Busy, Outcome, OutsideChange, Unwritable, told_as
from authoring.files.filesystem import DISK, FileSystem
from authoring.files.fingerprint import (
    Fingerprint,
    compare,
    fingerprint,
    fingerprint_on_disk,
    judge,
)
from authoring.files.journal import finish_all
from authoring.files.lock import PATIENT, LockLost, Patience, exclusive
from authoring.files.names import must_be_inside
from authoring.model.sentence import say

__all__ = [
    "Fingerprint",
    "Outcome",
    "compare",
    "fingerprint",
    "fingerprint_on_disk",
    "judge",
    "save_checked",
]

_TRIES = 3


def save_checked(
    path: Path,
    data: bytes,
    baseline: Fingerprint | None,
    *,
    root: Path | None = None,
    patience: Patience = PATIENT,
    fs: FileSystem = DISK,
) -> Fingerprint:
    """Write ``data`` if ``path`` still holds ``baseline``; return the new baseline.

    None as baseline means that there was no file and must be none now. ``root``
    is the folder whose lock and journals guard the file (its own folder if
    None): all writers of one library name the same. Of two that save at once
    from one baseline, one is refused.

    Raises :class:`OutsideChange` where the file was changed or is missing,
    :class:`Busy` where the lock could not be had, and as :func:`write_atomic`;
    of these only :class:`Unconfirmed` has written anything.
    """
    with told_as(Unwritable, path, COULD_NOT_SAVE):
        target = writable_target(path, fs)
        guarded = target.parent if root is None else fs.resolve(root)
        must_be_inside(guarded, target, path)
        for _ in range(_TRIES):
            if _saved(path, target, guarded, data, baseline, patience, fs):
                break
        else:
            raise Busy(
                path,
                say("other writers kept this folder busy"),
                say("wait a moment and save again"),
            )
    confirm(path, target.parent, fs)
    return fingerprint(data)


def _saved(
    path: Path,
    target: Path,
    guarded: Path,
    data: bytes,
    baseline: Fingerprint | None,
    patience: Patience,
    fs: FileSystem,
) -> bool:
    """False where the lock was lost before anything was renamed."""
    temporary = prepare(target, data, fs)
    try:
        with exclusive(guarded, (temporary,), patience, fs) as held:
            finish_all(guarded, fs)
            outcome = compare(target, baseline, fs=fs)
            if outcome is not Outcome.UNCHANGED:
                raise OutsideChange([(path, outcome)])
            held.check()
            fs.replace(temporary, target)
    except LockLost:
        discard(temporary, fs)
        return False
    except FileNotFoundError:
        # Whoever took the lock over removed the temporary file; a folder that
        # went away shows itself when the next one is made.
        discard(temporary, fs)
        return False
    except BaseException:
        discard(temporary, fs)
        raise
    return True
