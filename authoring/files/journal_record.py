"""The record of a change to several files, and how to carry it out.

A record may come with a shared folder from anywhere. It can only rename files
of our own naming over, and delete, files inside that folder whose contents it
knows.
"""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from enum import Enum
from pathlib import Path

from attrs import frozen

from authoring.files import names
from authoring.files.atomic import discard
from authoring.files.errors import FileProblem, Unreadable
from authoring.files.filesystem import FileSystem
from authoring.files.fingerprint import Fingerprint, fingerprint_on_disk
from authoring.files.reading import read_file
from authoring.files.strict_json import JsonValue, read_json, write_json
from authoring.model.sentence import say

_KIND = "rungbook/journal"
_VERSION = 1


@frozen
class Step:
    """One file of the change. Paths are relative to the folder, with slashes.

    ``temporary`` is None for a removal. ``before`` and ``after`` are None where
    there is no file.
    """

    target: str
    temporary: str | None
    before: Fingerprint | None
    after: Fingerprint | None


class Ending(Enum):
    """What became of a decided change; ``GONE``: another writer dealt with it."""

    FINISHED = "finished"
    DROPPED = "dropped"
    GONE = "gone"


class _State(Enum):
    """Where a step stands.

    ``WAITING``: can be done. ``LOST``: its new content is gone, the old one in
    place. ``TAKEN``: somebody changed the file after the change was decided.
    """

    DONE = "done"
    WAITING = "waiting"
    LOST = "lost"
    TAKEN = "taken"


@frozen
class _Located:
    step: Step
    target: Path
    temporary: Path | None


def encode(steps: Sequence[Step]) -> bytes:
    return write_json(
        {
            "format": _KIND,
            "format_version": _VERSION,
            "steps": [
                {
                    "target": step.target,
                    "temporary": step.temporary,
                    "before": _plain(step.before),
                    "after": _plain(step.after),
                }
                for step in steps
            ],
        }
    )


def _plain(print_: Fingerprint | None) -> JsonValue:
    return None if print_ is None else {"sha256": print_.sha256, "size": print_.size}


def carry_out(base: Path, journal: Path, fs: FileSystem) -> Ending:
    """Do what is still to be done of a decided change, then remove its record.

    Where it can't be done whole and no part of it has been done, it is dropped
    and nothing is changed. Raises :class:`FileProblem` where neither can be, and
    ``OSError`` as the system does; both leave the record for another try.
    """
    try:
        located = [_locate(base, journal, step, fs) for step in _decode(journal, fs)]
    except FileProblem:
        if journal.name in fs.names(base):
            raise
        return Ending.GONE
    # The record may be seen before the disk holds it; nothing may go ahead of it.
    fs.sync_folder(base)
    states = [_state(item, fs) for item in located]
    ending = Ending.FINISHED
    if _State.LOST in states or _State.TAKEN in states:
        if journal.name not in fs.names(base):
            return Ending.GONE
        if _State.DONE in states:
            raise _half_done(journal, located, states)
        ending = Ending.DROPPED
        for item in located:
            if item.temporary is not None:
                discard(item.temporary, fs)
    else:
        for item in located:
            _do(item, fs)
        for folder in {item.target.parent for item in located}:
            fs.sync_folder(folder)
    with suppress(FileNotFoundError):
        fs.remove(journal)
    fs.sync_folder(base)
    return ending


def stands(base: Path, steps: Sequence[Step], fs: FileSystem) -> bool:
    """Whether every file is as the change meant it to be."""
    return all(fingerprint_on_disk(base / step.target, fs=fs) == step.after for step in steps)


def _state(item: _Located, fs: FileSystem) -> _State:
    step = item.step
    if item.temporary is None:
        current = fingerprint_on_disk(item.target, fs=fs)
        return _State.WAITING if current == step.before else _State.DONE
    # The new content first: if it is gone by now, the file looked at next has it.
    waiting = fingerprint_on_disk(item.temporary, fs=fs) == step.after
    current = fingerprint_on_disk(item.target, fs=fs)
    if waiting:
        # Nothing is lost by writing where there is no file any more.
        free = current is None or current in (step.before, step.after)
        return _State.WAITING if free else _State.TAKEN
    if current == step.after or current != step.before:
        # Renamed already, and perhaps changed since by somebody else.
        return _State.DONE
    return _State.LOST


def _do(item: _Located, fs: FileSystem) -> None:
    with suppress(FileNotFoundError):  # another writer is finishing the same change
        if item.temporary is None:
            if fingerprint_on_disk(item.target, fs=fs) == item.step.before:
                fs.remove(item.target)
        elif fingerprint_on_disk(item.temporary, fs=fs) == item.step.after:
            fs.replace(item.temporary, item.target)


def _half_done(journal: Path, located: Sequence[_Located], states: Sequence[_State]) -> FileProblem:
    if _State.LOST in states:
        name = located[states.index(_State.LOST)].target.name
        return Unreadable(
            journal,
            say(
                "a save of several files stopped half way and the new content of {name} is gone",
                name=name,
            ),
            say(
                "put {name} back from a backup, then delete {record}",
                name=name,
                record=journal.name,
            ),
        )
    name = located[states.index(_State.TAKEN)].target.name
    return Unreadable(
        journal,
        say(
            "a save of several files stopped half way and {name} was changed outside since",
            name=name,
        ),
        say("give {name} another name and open the library again to finish the save", name=name),
    )


# ---- reading a record ----------------------------------------------------


def _decode(journal: Path, fs: FileSystem) -> list[Step]:
    value = read_json(read_file(journal, fs=fs), journal)
    if not isinstance(value, dict) or value.get("format") != _KIND:
        raise _damaged(journal)
    if value.get("format_version") != _VERSION:
        raise Unreadable(
            journal,
            say("a newer version of this program left a save unfinished"),
            say("open the library once with that version"),
        )
    steps = value.get("steps")
    if not isinstance(steps, list):
        raise _damaged(journal)
    return [_step(item, journal) for item in steps]


def _step(item: JsonValue, journal: Path) -> Step:
    if not isinstance(item, dict):
        raise _damaged(journal)
    target, temporary = item.get("target"), item.get("temporary")
    before = _fingerprint(item.get("before"), journal)
    after = _fingerprint(item.get("after"), journal)
    if not isinstance(target, str) or not isinstance(temporary, str | None):
        raise _damaged(journal)
    # A removal leaves no file behind and needs one to remove; a write needs a content.
    if (temporary is None) != (after is None) or (temporary is None and before is None):
        raise _damaged(journal)
    return Step(target, temporary, before, after)


def _fingerprint(item: JsonValue, journal: Path) -> Fingerprint | None:
    if item is None:
        return None
    if isinstance(item, dict):
        digest, size = item.get("sha256"), item.get("size")
        if isinstance(digest, str) and isinstance(size, int):
            return Fingerprint(digest, size)
    raise _damaged(journal)


def _locate(base: Path, journal: Path, step: Step, fs: FileSystem) -> _Located:
    target = names.inside(base, step.target, fs)
    if target is None:
        raise _damaged(journal)
    if step.temporary is None:
        return _Located(step, target, None)
    temporary = names.inside(base, step.temporary, fs)
    if (
        temporary is None
        or temporary.parent != target.parent
        or not names.is_temporary(temporary.name)
    ):
        raise _damaged(journal)
    return _Located(step, target, temporary)


def _damaged(journal: Path) -> FileProblem:
    return Unreadable(
        journal,
        say("this record of an unfinished save is damaged"),
        say("check the files saved last against a backup, then delete it"),
    )
