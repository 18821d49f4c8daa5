"""Putting a protocol in order after its stages, blocks or entries changed.

Links lead to earlier entries, choices stand in the block of their entries, branches lead to
stages there are, and frozen numbers never run out of order.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from authoring.model.base import evolve
from authoring.model.edits.outcome import Edited, Note, note
from authoring.model.protocol import Block, Branch, Entry, Protocol, Stage


def settled(before: Protocol, after: Protocol, *, select: Iterable[str] = ()) -> Edited[Protocol]:
    """The protocol after an edit, put in order, with notes on what that took."""
    value, anew = _counted_anew(before, after)
    value, broken = _with_stages(value, _mended_choices(before, value))
    value, lost = _with_stages(value, _mended_branches(before, value))
    value, links = _relinked(before, value)
    return Edited(value, tuple(select), (*links, *broken, *lost, *anew))


def _with_stages(
    protocol: Protocol, mended: Iterable[tuple[Stage, tuple[Note, ...]]]
) -> tuple[Protocol, tuple[Note, ...]]:
    pairs = list(mended)
    stages = tuple(stage for stage, _ in pairs)
    notes = tuple(note for _, notes in pairs for note in notes)
    same = all(new is old for new, old in zip(stages, protocol.stages, strict=True))
    return (protocol if same else evolve(protocol, stages=stages)), notes


# ---- links -----------------------------------------------------------------------


def mapped_entries(protocol: Protocol, changes: Mapping[str, Entry]) -> Protocol:
    """The protocol with other entries in place of those with these ids."""
    if not changes:
        return protocol

    def block(old: Block) -> Block:
        if not any(entry.id in changes for entry in old.entries):
            return old
        return evolve(old, entries=tuple(changes.get(entry.id, entry) for entry in old.entries))

    stages = tuple(
        evolve(stage, blocks=tuple(block(old) for old in stage.blocks))
        if any(entry.id in changes for entry in stage.entries())
        else stage
        for stage in protocol.stages
    )
    return evolve(protocol, stages=stages)


def _relinked(before: Protocol, after: Protocol) -> tuple[Protocol, tuple[Note, ...]]:
    base = {entry.id: entry.builds_on for entry in (*before.entries(), *after.entries())}
    changes: dict[str, Entry] = {}
    seen: set[str] = set()
    for entry in after.entries():
        target = _earlier(entry.builds_on, base, seen)
        if target != entry.builds_on:
            changes[entry.id] = evolve(entry, builds_on=target)
        seen.add(entry.id)
    numbers = after.numbers()
    notes = tuple(_link_note(entry, numbers) for entry in changes.values())
    return mapped_entries(after, changes), notes


def _earlier(target: str | None, base: Mapping[str, str | None], seen: set[str]) -> str | None:
    """The nearest entry back along the line that comes earlier now."""
    passed: set[str] = set()
    while target is not None and target not in seen:
        if target in passed:
            return None
        passed.add(target)
        target = base.get(target)
    return target


def _link_note(entry: Entry, numbers: Mapping[str, int]) -> Note:
    number = numbers[entry.id]
    if entry.builds_on is None:
        return note("Exercise {number} builds on none now.", about=entry.id, number=number)
    return note(
        "Exercise {number} builds on exercise {other} now.",
        about=entry.id,
        number=number,
        other=numbers[entry.builds_on],
    )


# ---- either/or choices -------------------------------------------------------------


def _mended_choices(before: Protocol, after: Protocol) -> Iterator[tuple[Stage, tuple[Note, ...]]]:
    untouched = {id(block) for stage in before.stages for block in stage.blocks}
    members = {
        choice.id: sum(entry.choice == choice.id for entry in block.entries)
        for stage in before.stages
        for block in stage.blocks
        for choice in block.choices
    }
    numbers = after.numbers()
    for stage in after.stages:
        pairs = [
            (block, ()) if id(block) in untouched else _with_sound_choices(block, members, numbers)
            for block in stage.blocks
        ]
        notes = tuple(each for _, found in pairs for each in found)
        blocks = tuple(block for block, _ in pairs)
        yield (stage if blocks == stage.blocks else evolve(stage, blocks=blocks)), notes


def _with_sound_choices(
    block: Block, members: Mapping[str, int], numbers: Mapping[str, int]
) -> tuple[Block, tuple[Note, ...]]:
    """A block without choices that lost all but one member, and entries of choices it has.

    A choice that had one member or none before is somebody's work in progress, and stays.
    """

    def idle(choice_id: str) -> bool:
        count = sum(entry.choice == choice_id for entry in block.entries)
        return count < 2 and members.get(choice_id, 0) > count

    kept = tuple(choice for choice in block.choices if not idle(choice.id))
    known = {choice.id for choice in kept}
    entries = tuple(
        evolve(entry, choice=None)
        if entry.choice is not None and entry.choice not in known
        else entry
        for entry in block.entries
    )
    left = [
        note(
            "Exercise {number} is in no either/or choice now.",
            about=new.id,
            number=numbers[new.id],
        )
        for new, old in zip(entries, block.entries, strict=True)
        if new is not old
    ]
    if not left and kept == block.choices:
        return block, ()
    return evolve(block, choices=kept, entries=entries), tuple(left)


# ---- branches and numbers -----------------------------------------------------------


def _mended_branches(before: Protocol, after: Protocol) -> Iterator[tuple[Stage, tuple[Note, ...]]]:
    gone = {stage.id for stage in before.stages} - {stage.id for stage in after.stages}
    left_out = {entry.id for entry in before.entries()} - {entry.id for entry in after.entries()}
    for number, stage in enumerate(after.stages, start=1):
        pairs = [_mended_branch(branch, gone, left_out, number) for branch in stage.branches]
        notes = tuple(note for _, found in pairs for note in found)
        branches = tuple(branch for branch, _ in pairs)
        yield (evolve(stage, branches=branches) if branches != stage.branches else stage), notes


def _mended_branch(
    branch: Branch, gone: set[str], left_out: set[str], number: int
) -> tuple[Branch, tuple[Note, ...]]:
    """A branch that names no stage and no exercise that is gone, of the stage with a number."""
    notes: list[Note] = []
    if branch.stage in gone:
        branch = evolve(branch, stage=None)
        notes.append(
            note(
                "A branch of stage {number} led to a stage that is gone; say where it leads.",
                about=branch.id,
                number=number,
            )
        )
    kept = tuple(entry for entry in branch.entries if entry not in left_out)
    if kept != branch.entries:
        branch = evolve(branch, entries=kept)
        notes.append(
            note(
                "A branch of stage {number} left out an exercise that is gone.",
                about=branch.id,
                number=number,
            )
        )
    return branch, tuple(notes)


def _counted_anew(before: Protocol, after: Protocol) -> tuple[Protocol, tuple[Note, ...]]:
    """Frozen numbers are dropped as soon as entries come, go or change places."""
    order = [entry.id for entry in after.entries()]
    frozen = {entry.id: entry for entry in after.entries() if entry.number is not None}
    if not frozen or order == [entry.id for entry in before.entries()]:
        return after, ()
    changes = {key: evolve(entry, number=None) for key, entry in frozen.items()}
    said = note("The exercises are numbered anew.", about=after.id)
    return mapped_entries(after, changes), (said,)
