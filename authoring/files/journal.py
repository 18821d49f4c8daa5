"""Change several files together, or none of them.

Every new content is first put on the disk under a temporary name. Then one
record naming all the steps is renamed into place: from that moment the change
is decided, and whoever next holds the folder's lock carries it out. Before it,
nothing has changed. Carrying out can be interrupted and repeated at any point:
each step looks whether it is still to be done.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TypeAlias

from attrs import frozen

from authoring.files import names
from authoring.files.atomic import COULD_NOT_SAVE, discard, prepare, writable_target
from authoring.files.errors import (
    Busy,
    FileProblem,
    Outcome,
    OutsideChange,
    Unconfirmed,
    Unwritable,
    told_as,
)
from authoring.files.filesystem import DISK, FileSystem
from authoring.files.fingerprint import Fingerprint, compare, fingerprint
from authoring.files.journal_record import Ending, Step, carry_out, encode, stands
from authoring.files.lock import PATIENT, Held, LockLost, Patience, exclusive
from authoring.model.sentence import say

_TRIES = 3
_DECIDED = (
    say("the change was recorded but not finished"),
    say("open the library again to finish it before going on"),
)


@frozen
class Write:
    """Put ``data`` at ``path``; ``baseline`` None means that no file may be there."""

    path: Path
    data: bytes
    baseline: Fingerprint | None


@frozen
class Remove:
    """Delete the file that was read as ``baseline``."""

    path: Path
    baseline: Fingerprint


Change: TypeAlias = Write | Remove


def change_together(
    root: Path,
    changes: Sequence[Change],
    *,
    patience: Patience = PATIENT,
    fs: FileSystem = DISK,
) -> tuple[Fingerprint | None, ...]:
    """Make all changes or none; the new baselines, None for a removed file.

    All files lie in folders inside ``root`` that exist. Raises
    :class:`OutsideChange` naming every file that no longer stands as its
    baseline says, :class:`Unwritable` or :class:`Busy`, all with nothing
    changed; and :class:`Unconfirmed` where the change is decided but this call
    could not finish it: the next one in this folder, or :func:`recover`, does.
    Raises ``ValueError`` if one file is named twice.
    """
    if not changes:
        return ()
    with told_as(Unwritable, root, COULD_NOT_SAVE):
        base = fs.resolve(root)
        targets = [_target(base, change, fs) for change in changes]
        if len(set(targets)) != len(targets):
            raise ValueError("one file is named twice in one change")
        for _ in range(_TRIES):
            if _changed(base, changes, targets, patience, fs):
                return tuple(_after(change) for change in changes)
        raise Busy(
            root, say("other writers kept this folder busy"), say("wait a moment and save again")
        )


def _target(base: Path, change: Change, fs: FileSystem) -> Path:
    with told_as(Unwritable, change.path, COULD_NOT_SAVE):
        target = writable_target(change.path, fs)
        names.must_be_inside(base, target, change.path)
        if names.inside(base, names.relative(base, target), fs) != target:
            raise Unwritable(
                change.path,
                say("this name can't be kept in the journal of the folder"),
                say("choose a name without backslash or colon"),
            )
        return target


def _after(change: Change) -> Fingerprint | None:
    return fingerprint(change.data) if isinstance(change, Write) else None


def _changed(
    base: Path,
    changes: Sequence[Change],
    targets: Sequence[Path],
    patience: Patience,
    fs: FileSystem,
) -> bool:
    """False where the lock was lost before the change was decided."""
    temporaries: list[Path] = []
    journal = None
    try:
        steps = _prepared(base, changes, targets, temporaries, fs)
        record = prepare(names.new_journal(base), encode(steps), fs)
        temporaries.append(record)
        for folder in {target.parent for target in targets}:
            fs.sync_folder(folder)
        with exclusive(base, (record,), patience, fs) as held:
            finish_all(base, fs)
            _refuse_unless_unchanged(changes, targets, fs)
            journal = _decide(base, record, held, fs)
            _finish_decided(base, journal, steps, fs)
    except LockLost:
        _discard_all(temporaries, fs)
        return False
    except Unconfirmed:
        raise
    except Exception:
        if journal is None:
            _discard_all(temporaries, fs)
        raise
    return True


def _prepared(
    base: Path,
    changes: Sequence[Change],
    targets: Sequence[Path],
    temporaries: list[Path],
    fs: FileSystem,
) -> list[Step]:
    steps = []
    for change, target in zip(changes, targets, strict=True):
        written = None
        if isinstance(change, Write):
            with told_as(Unwritable, change.path, COULD_NOT_SAVE):
                temporary = prepare(target, change.data, fs)
            temporaries.append(temporary)
            written = names.relative(base, temporary)
        steps.append(Step(names.relative(base, target), written, change.baseline, _after(change)))
    return steps


def _refuse_unless_unchanged(
    changes: Sequence[Change], targets: Sequence[Path], fs: FileSystem
) -> None:
    outcomes = [
        (change.path, compare(target, change.baseline, fs=fs))
        for change, target in zip(changes, targets, strict=True)
    ]
    stale = [pair for pair in outcomes if pair[1] is not Outcome.UNCHANGED]
    if stale:
        raise OutsideChange(stale)


def _decide(base: Path, record: Path, held: Held, fs: FileSystem) -> Path:
    journal = names.new_journal(base)
    held.check()
    try:
        fs.replace(record, journal)
    except FileNotFoundError:
        raise LockLost from None
    except (OSError, MemoryError) as error:
        # A share may have done it and lost the answer. Only if the record is
        # surely not there may the files it names be thrown away.
        _withdraw(base, journal, error, fs)
        raise
    return journal


def _withdraw(base: Path, journal: Path, error: BaseException, fs: FileSystem) -> None:
    try:
        try:
            fs.remove(journal)
        except FileNotFoundError:
            return
        fs.sync_folder(base)
    except (OSError, MemoryError):
        raise Unconfirmed(base, *_DECIDED) from error


def _finish_decided(base: Path, journal: Path, steps: Sequence[Step], fs: FileSystem) -> None:
    try:
        ending = carry_out(base, journal, fs)
        if ending is Ending.GONE and stands(base, steps, fs):
            ending = Ending.FINISHED
    except (FileProblem, OSError, MemoryError) as error:
        raise Unconfirmed(base, *_DECIDED) from error
    if ending is Ending.DROPPED:
        raise Unwritable(
            base,
            say("the files were changed outside while they were being saved"),
            say("open the library again and make the change anew"),
        )
    if ending is Ending.GONE:
        raise Unconfirmed(base, *_DECIDED)


def _discard_all(paths: Sequence[Path], fs: FileSystem) -> None:
    for path in paths:
        discard(path, fs)


# ---- after a crash -------------------------------------------------------


def recover(root: Path, *, patience: Patience = PATIENT, fs: FileSystem = DISK) -> int:
    """Finish the changes that were decided but not carried out; how many there were.

    Call it before reading a library. Takes no lock and writes nothing where
    there is nothing to finish, so a read-only library opens. Changes that were
    not decided need nothing: their files still stand as before. Raises
    :class:`FileProblem` where a change can be neither finished nor undone.
    """
    with told_as(Unwritable, root, say("could not finish an interrupted save")):
        base = fs.resolve(root)
        if not _journals(base, fs):
            return 0
        with exclusive(base, (), patience, fs):
            return finish_all(base, fs)


def finish_all(base: Path, fs: FileSystem) -> int:
    """As :func:`recover`, for a caller that holds the lock; ``OSError`` as the system does."""
    journals = _journals(base, fs)
    for name in journals:
        carry_out(base, base / name, fs)
    return len(journals)


def _journals(base: Path, fs: FileSystem) -> list[str]:
    return [name for name in fs.names(base) if names.is_journal(name)]
