"""Edits of either/or choices among the entries of a block."""

from __future__ import annotations

from authoring.model.base import evolve
from authoring.model.edits.naming import fresh_id, ids_in
from authoring.model.edits.outcome import Edited, refuse
from authoring.model.edits.places import block_at, entry_at, with_block, with_entry
from authoring.model.edits.places import entry_of as _entry
from authoring.model.edits.settling import settled
from authoring.model.protocol import Block, Choice, Protocol
from authoring.model.text import Text


def _block(protocol: Protocol, entry: str) -> Block:
    place = entry_at(protocol, entry)
    return protocol.stages[place.stage].blocks[place.block]


def make_choice(
    protocol: Protocol, *, entries: tuple[str, ...], pick: int = 1, words: Text | None = None
) -> Edited[Protocol]:
    """Make an either/or choice of two or more entries of one block.

    Entries that were in other choices leave them.

    Raises:
        EditError: fewer than two entries, more to pick than there are, or several blocks.
    """
    wanted = tuple(dict.fromkeys(entries))
    if len(wanted) < 2:
        raise refuse("A choice needs two exercises or more.")
    if pick >= len(wanted):
        raise refuse("A choice must leave at least one exercise out.")
    blocks = {_block(protocol, entry).id for entry in wanted}
    if len(blocks) > 1:
        raise refuse("A choice is among exercises of one block: move them together first.")
    old = _block(protocol, wanted[0])
    new = Choice(id=fresh_id("choice", taken=ids_in(protocol)), pick=pick, words=words)
    changed = evolve(
        old,
        choices=(*old.choices, new),
        entries=tuple(
            evolve(entry, choice=new.id) if entry.id in wanted else entry for entry in old.entries
        ),
    )
    after = with_block(protocol, block_at(protocol, old.id), changed)
    return settled(protocol, after, select=wanted)


def join_choice(protocol: Protocol, *, entry: str, choice: str) -> Edited[Protocol]:
    """Add an entry to an either/or choice of its block."""
    block = _block(protocol, entry)
    if all(each.id != choice for each in block.choices):
        raise refuse("The block of this exercise has no choice “{id}”.", id=choice)
    changed = evolve(_entry(protocol, entry), choice=choice)
    after = with_entry(protocol, entry_at(protocol, entry), changed)
    return settled(protocol, after, select=(entry,))


def leave_choice(protocol: Protocol, *, entry: str) -> Edited[Protocol]:
    """Take an entry out of its choice; a choice with one entry left is none, and goes."""
    old = _entry(protocol, entry)
    if old.choice is None:
        raise refuse("This exercise is in no either/or choice.")
    after = with_entry(protocol, entry_at(protocol, entry), evolve(old, choice=None))
    return settled(protocol, after, select=(entry,))


def set_choice(
    protocol: Protocol, *, choice: str, pick: int, words: Text | None
) -> Edited[Protocol]:
    """Say how many of a choice to do, and how to choose.

    Raises:
        EditError: no such choice, or no fewer to pick than there are.
    """
    for stage in protocol.stages:
        for block in stage.blocks:
            if any(each.id == choice for each in block.choices):
                members = tuple(e.id for e in block.entries if e.choice == choice)
                if pick >= max(len(members), 2):
                    raise refuse("A choice must leave at least one exercise out.")
                choices = tuple(
                    evolve(each, pick=pick, words=words) if each.id == choice else each
                    for each in block.choices
                )
                place = block_at(protocol, block.id)
                after = with_block(protocol, place, evolve(block, choices=choices))
                return Edited(after, members)
    raise refuse("This protocol has no choice “{id}”.", id=choice)


def dissolve_choice(protocol: Protocol, *, choice: str) -> Edited[Protocol]:
    """Undo an either/or choice: all its entries are to be done."""
    members = tuple(e.id for e in protocol.entries() if e.choice == choice)
    if not members:
        raise refuse("This protocol has no choice “{id}”.", id=choice)
    block = _block(protocol, members[0])
    changed = evolve(
        block,
        choices=tuple(each for each in block.choices if each.id != choice),
        entries=tuple(
            evolve(entry, choice=None) if entry.choice == choice else entry
            for entry in block.entries
        ),
    )
    return Edited(with_block(protocol, block_at(protocol, block.id), changed), members)
