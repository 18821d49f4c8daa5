"""Edits of blocks: warm-up, main part, circuits."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from authoring.model.base import evolve
from authoring.model.edits.naming import fresh_id, ids_in, renewed
from authoring.model.edits.outcome import Edited, Note, note, refuse
from authoring.model.edits.places import (
    BlockPlace,
    block_at,
    block_of,
    clamped,
    entry_at,
    stage_at,
    with_block,
    with_stage,
)
from authoring.model.edits.settling import settled
from authoring.model.edits.stages import COPIED
from authoring.model.edits.tree import set_fields
from authoring.model.load import IntRange
from authoring.model.protocol import Block, Choice, Entry, Protocol
from authoring.model.text import Text
from authoring.model.vocabulary import BlockKind


def add_block(
    protocol: Protocol,
    *,
    stage: str,
    kind: BlockKind = BlockKind.MAIN,
    index: int | None = None,
    name: Text | None = None,
    rounds: IntRange | None = None,
) -> Edited[Protocol]:
    """Add an empty block to a stage.

    Args:
        index: place among the stage's blocks; a warm-up goes first, a cool-down last and any
            other before the cool-down unless given.
    """
    at = stage_at(protocol, stage)
    blocks = protocol.stages[at].blocks
    if index is None:
        index = _usual_place(kind, blocks)
    new = Block(id=_fresh(protocol, kind), kind=kind, name=name, rounds=rounds)
    return _put(protocol, protocol, new, at, index)


def _fresh(protocol: Protocol, kind: BlockKind) -> str:
    return fresh_id(kind.value.replace("_", "-"), taken=ids_in(protocol))


def _usual_place(kind: BlockKind, blocks: Sequence[Block]) -> int:
    if kind is BlockKind.WARM_UP:
        return 0
    ends = len(blocks)
    if kind is not BlockKind.COOL_DOWN:
        while ends and blocks[ends - 1].kind is BlockKind.COOL_DOWN:
            ends -= 1
    return ends


def _put(
    before: Protocol, without: Protocol, block: Block, stage: int, index: int | None
) -> Edited[Protocol]:
    there = without.stages[stage]
    at = clamped(index, len(there.blocks))
    changed = evolve(there, blocks=(*there.blocks[:at], block, *there.blocks[at:]))
    return settled(before, with_stage(without, stage, changed), select=(block.id,))


def duplicate_block(protocol: Protocol, *, block: str) -> Edited[Protocol]:
    """Put a copy of a block after it, every id in it fresh."""
    place = block_at(protocol, block)
    old = block_of(protocol, block)
    (copy,), _ = renewed((old,), taken=ids_in(protocol), points=COPIED)
    entries = tuple(evolve(entry, number=None) for entry in copy.entries)
    new = evolve(copy, entries=entries)
    return _put(protocol, protocol, new, place.stage, place.block + 1)


def move_block(
    protocol: Protocol, *, block: str, stage: str, index: int | None = None
) -> Edited[Protocol]:
    """Move a block within its stage or to another; links are kept leading to earlier entries.

    Args:
        index: place among the blocks once the block is taken out of its old place.
    """
    old = block_of(protocol, block)
    without = with_block(protocol, block_at(protocol, block))
    return _put(protocol, without, old, stage_at(protocol, stage), index)


def remove_block(protocol: Protocol, *, block: str) -> Edited[Protocol]:
    """Take a block out with its entries; what built on them is linked further back."""
    place = block_at(protocol, block)
    blocks = protocol.stages[place.stage].blocks
    near = blocks[place.block + 1 : place.block + 2] or blocks[: place.block][-1:]
    after = with_block(protocol, place)
    return settled(protocol, after, select=tuple(each.id for each in near))


def set_block(protocol: Protocol, *, block: str, **changes: Any) -> Edited[Protocol]:
    """Change fields of a block: name, rounds, rests, minutes, in_order, note.

    Raises:
        EditError: no such block or field, or one with edits of its own
            (id, kind, entries, choices).
        ModelError: a value is outside the limits of its field.
    """
    for name in ("id", "kind", "entries", "choices"):
        if name in changes:
            raise refuse("{field} has an edit of its own.", field=name)
    changed = set_fields(block_of(protocol, block), (), **changes)
    return Edited(with_block(protocol, block_at(protocol, block), changed), (block,))


def set_block_kind(
    protocol: Protocol, *, block: str, kind: BlockKind, rounds: IntRange | None = None
) -> Edited[Protocol]:
    """Change the kind of a block.

    Rounds and the rest between them go when a block is a circuit no more, unless ``rounds``
    is given.
    """
    old = block_of(protocol, block)
    notes: tuple[Note, ...] = ()
    changed = evolve(old, kind=kind, rounds=rounds or old.rounds)
    if old.kind is BlockKind.CIRCUIT and kind is not BlockKind.CIRCUIT and rounds is None:
        changed = evolve(changed, rounds=None, rest_between_rounds=None)
        if old.rounds is not None:
            notes = (note("The block has no rounds now.", about=block),)
    return Edited(with_block(protocol, block_at(protocol, block), changed), (block,), notes)


# ---- grouping ------------------------------------------------------------------------


def group_entries(
    protocol: Protocol,
    *,
    entries: tuple[str, ...],
    rounds: IntRange | None = None,
    kind: BlockKind = BlockKind.CIRCUIT,
) -> Edited[Protocol]:
    """Make a block of its own, a circuit unless said, of some entries of one block.

    It stands where the first of them stood; entries of the old block after that follow in a
    block like the old one.

    Raises:
        EditError: no entries, or entries of several blocks.
    """
    if not entries:
        raise refuse("Choose the exercises first.")
    homes = {BlockPlace(*entry_at(protocol, entry)[:2]) for entry in entries}
    if len(homes) > 1:
        raise refuse("Group exercises of one block: move them together first.")
    (place,) = homes
    old = protocol.stages[place.stage].blocks[place.block]
    chosen = tuple(entry for entry in old.entries if entry.id in entries)
    first = old.entries.index(chosen[0])
    before = old.entries[:first]
    after = tuple(entry for entry in old.entries[first:] if entry.id not in entries)
    group = Block(id=_fresh(protocol, kind), kind=kind, rounds=rounds, entries=chosen)
    parts = _split(protocol, old, before, after, group)
    return settled(protocol, with_block(protocol, place, *parts), select=(group.id,))


def _split(
    protocol: Protocol,
    old: Block,
    before: tuple[Entry, ...],
    after: tuple[Entry, ...],
    group: Block,
) -> list[Block]:
    """The old block's rest before and after the group; each choice goes with its first entry."""
    parts = [(old, before)] if before else []
    parts.append((group, group.entries))
    if after:
        taken = {*ids_in(protocol), group.id}
        rest_id = fresh_id(old.id, taken=taken) if before else old.id
        parts.append((evolve(old, id=rest_id), after))
    first = {
        choice.id: next((e.id for e in old.entries if e.choice == choice.id), None)
        for choice in old.choices
    }
    made = []
    for index, (block, entries) in enumerate(parts):
        ids = {entry.id for entry in entries}
        choices = tuple(
            choice
            for choice in old.choices
            if first[choice.id] in ids or (first[choice.id] is None and index == 0)
        )
        made.append(evolve(block, entries=entries, choices=choices))
    return made


def ungroup_block(protocol: Protocol, *, block: str) -> Edited[Protocol]:
    """Put a block's entries back among those of the main block before or after it.

    Where it stood between two parts of one block, those become one again. Where there is no
    main block beside it, it becomes one itself. Its rounds and rests go.
    """
    place = block_at(protocol, block)
    blocks = protocol.stages[place.stage].blocks
    old = blocks[place.block]
    previous = _main(blocks, place.block - 1)
    following = _main(blocks, place.block + 1)
    if previous is None and following is None:
        return set_block_kind(protocol, block=block, kind=BlockKind.MAIN)
    if previous is None:
        merged = _joined(following, old, following) if following else old
        new = (*blocks[: place.block], merged, *blocks[place.block + 2 :])
    elif following is not None and _parts_of_one(previous, following):
        merged = _joined(previous, previous, old, following)
        new = (*blocks[: place.block - 1], merged, *blocks[place.block + 2 :])
    else:
        merged = _joined(previous, previous, old)
        new = (*blocks[: place.block - 1], merged, *blocks[place.block + 1 :])
    stage = evolve(protocol.stages[place.stage], blocks=new)
    after = with_stage(protocol, place.stage, stage)
    said = (note("The block has no rounds now.", about=merged.id),) if old.rounds else ()
    settled_now = settled(protocol, after, select=tuple(e.id for e in old.entries))
    return evolve(settled_now, notes=(*settled_now.notes, *said))


def _main(blocks: Sequence[Block], index: int) -> Block | None:
    if 0 <= index < len(blocks) and blocks[index].kind is BlockKind.MAIN:
        return blocks[index]
    return None


def _parts_of_one(one: Block, other: Block) -> bool:
    """Whether two blocks differ in nothing but their id and what stands in them."""
    return evolve(one, id=other.id, entries=(), choices=()) == evolve(other, entries=(), choices=())


def _joined(frame: Block, *parts: Block) -> Block:
    entries: tuple[Entry, ...] = ()
    choices: tuple[Choice, ...] = ()
    for part in parts:
        entries += part.entries
        choices += part.choices
    return evolve(frame, entries=entries, choices=choices)
