"""Edits of entries: adding, moving, removing, and what each one starts with and builds on."""

from __future__ import annotations

from typing import Any

from authoring.model.base import evolve
from authoring.model.card import Card
from authoring.model.edits.naming import fresh_id, ids_in
from authoring.model.edits.outcome import Edited, refuse
from authoring.model.edits.places import (
    BlockPlace,
    EntryPlace,
    block_at,
    block_of,
    clamped,
    entry_at,
    entry_of,
    placed_entries,
    stage_at,
    with_block,
    with_entry,
    with_stage,
)
from authoring.model.edits.settling import mapped_entries, settled
from authoring.model.edits.starts import start_of_new
from authoring.model.edits.tree import set_fields
from authoring.model.protocol import Block, Entry, Protocol

# ---- adding ------------------------------------------------------------------------


def add_card(
    protocol: Protocol,
    *,
    card: Card,
    block: str,
    index: int | None = None,
    line: str | None = None,
    linked: bool = True,
) -> Edited[Protocol]:
    """Place a card in a block.

    Args:
        index: place in the block; the end unless given.
        line: an entry of the line that it continues; the last entry of the line in an earlier
            stage is what it builds on. Unless given, the last entry of the same card in an
            earlier stage.
        linked: False lets it build on nothing.

    Raises:
        EditError: no such block or line, or the card has no variant.
    """
    place = block_at(protocol, block)
    base = _base(protocol, card, place.stage, line) if linked else None
    new = Entry(
        id=fresh_id(card.slug, taken=ids_in(protocol)),
        card=card.id,
        start=start_of_new(card, base).id,
        builds_on=base.id if base is not None else None,
    )
    return _put(protocol, protocol, new, block, index)


def add_card_to_stage(
    protocol: Protocol, *, card: Card, stage: str, line: str | None = None, linked: bool = True
) -> Edited[Protocol]:
    """Place a card at the end of a stage's last main block, in a new block where it has none."""
    at = stage_at(protocol, stage)
    with_home, home = _home(protocol, at, Block(id="main"), last=True)
    return add_card(with_home, card=card, block=home, line=line, linked=linked)


def _base(protocol: Protocol, card: Card, stage: int, line: str | None) -> Entry | None:
    """The last entry in an earlier stage that is of the line, or of the card."""
    if line is None:
        family = {entry.id for entry in protocol.entries() if entry.card == card.id}
    else:
        family = set(line_ids(protocol, line))
    earlier = [
        entry
        for place, entry in placed_entries(protocol)
        if place.stage < stage and entry.id in family
    ]
    return earlier[-1] if earlier else None


def line_ids(protocol: Protocol, entry: str) -> tuple[str, ...]:
    """Ids of the entries that links join with this one, in order, itself included."""
    entry_of(protocol, entry)
    base = {each.id: each.builds_on for each in protocol.entries()}
    found = {entry}
    grown = True
    while grown:
        more = {key for key, on in base.items() if on in found} | {
            on for key, on in base.items() if key in found and on in base and on is not None
        }
        grown = not more <= found
        found |= more
    return tuple(key for key in base if key in found)


def _put(
    before: Protocol, without: Protocol, entry: Entry, block: str, index: int | None
) -> Edited[Protocol]:
    place = block_at(without, block)
    old = block_of(without, block)
    at = clamped(index, len(old.entries))
    entries = (*old.entries[:at], entry, *old.entries[at:])
    after = with_block(without, place, evolve(old, entries=entries))
    return settled(before, after, select=(entry.id,))


def duplicate_entry(protocol: Protocol, *, entry: str) -> Edited[Protocol]:
    """Put a copy of an entry after it, with a fresh id; it builds on what the first builds on."""
    place = entry_at(protocol, entry)
    old = entry_of(protocol, entry)
    copy = evolve(old, id=fresh_id(old.id, taken=ids_in(protocol)), number=None)
    return settled(protocol, with_entry(protocol, place, old, copy), select=(copy.id,))


def continue_entry(protocol: Protocol, *, entry: str) -> Edited[Protocol]:
    """Put a copy of an entry into the next stage, building on it.

    Raises:
        EditError: it stands in the last stage.
    """
    place = entry_at(protocol, entry)
    old = entry_of(protocol, entry)
    if place.stage + 1 == len(protocol.stages):
        raise refuse("There is no stage after this one: add one first.")
    new = evolve(
        old,
        id=fresh_id(old.id, taken=ids_in(protocol)),
        number=None,
        builds_on=old.id,
        choice=None,
    )
    home_block = protocol.stages[place.stage].blocks[place.block]
    with_home, home = _home(protocol, place.stage + 1, home_block)
    return _put(protocol, with_home, new, home, None)


# ---- moving --------------------------------------------------------------------------


def move_entry(
    protocol: Protocol, *, entry: str, block: str, index: int | None = None
) -> Edited[Protocol]:
    """Move an entry into a block, its own or another, of any stage.

    It leaves its either/or choice where the block is another one; links are kept leading to
    earlier entries.

    Args:
        index: place in the block once the entry is taken out of its old place.
    """
    place = entry_at(protocol, entry)
    old = entry_of(protocol, entry)
    same_block = block_at(protocol, block) == BlockPlace(place.stage, place.block)
    moved = old if same_block else evolve(old, choice=None)
    return _put(protocol, with_entry(protocol, place), moved, block, index)


def move_entry_by(protocol: Protocol, *, entry: str, by: int) -> Edited[Protocol]:
    """Move an entry up or down its stage, at a block's end into the block beside it.

    Args:
        by: -1 for one place up, 1 for one place down.

    Raises:
        EditError: it is the first (or last) of its stage.
    """
    s, b, e = entry_at(protocol, entry)
    blocks = protocol.stages[s].blocks
    down = by > 0
    if 0 <= e + by < len(blocks[b].entries):
        return move_entry(protocol, entry=entry, block=blocks[b].id, index=e + by)
    beside = b + (1 if down else -1)
    if 0 <= beside < len(blocks):
        return move_entry(protocol, entry=entry, block=blocks[beside].id, index=0 if down else None)
    if down:
        raise refuse("This is the last exercise of its stage.")
    raise refuse("This is the first exercise of its stage.")


def move_entry_to_stage(protocol: Protocol, *, entry: str, by: int) -> Edited[Protocol]:
    """Move an entry to an earlier (-1) or later (1) stage, into the block most like its own.

    Raises:
        EditError: there is no such stage.
    """
    place = entry_at(protocol, entry)
    target = place.stage + by
    if target < 0:
        raise refuse("There is no stage before this one.")
    if target >= len(protocol.stages):
        raise refuse("There is no stage after this one: add one first.")
    block = protocol.stages[place.stage].blocks[place.block]
    with_home, home = _home(protocol, target, block)
    moved = evolve(entry_of(protocol, entry), choice=None)
    return _put(protocol, with_entry(with_home, place), moved, home, None)


def _home(
    protocol: Protocol, stage: int, like: Block, *, last: bool = False
) -> tuple[Protocol, str]:
    """The block of a stage that is most like another, a new one of its kind if there is none."""
    there = protocol.stages[stage]
    same = [block for block in there.blocks if block.kind is like.kind]
    named = [block for block in same if block.name == like.name]
    found = (same if last else named) or same
    if found:
        return protocol, found[-1 if last else 0].id
    new = Block(
        id=fresh_id(str(like.kind).replace("_", "-"), taken=ids_in(protocol)),
        kind=like.kind,
        name=like.name,
        rounds=like.rounds,
    )
    changed = evolve(there, blocks=(*there.blocks, new))
    return with_stage(protocol, stage, changed), new.id


# ---- removing and changing --------------------------------------------------------------


def remove_entry(protocol: Protocol, *, entry: str) -> Edited[Protocol]:
    """Take an entry out; what built on it builds on the entry before it in the line."""
    place = entry_at(protocol, entry)
    return settled(protocol, with_entry(protocol, place), select=_beside(protocol, place))


def _beside(protocol: Protocol, place: EntryPlace) -> tuple[str, ...]:
    entries = protocol.stages[place.stage].blocks[place.block].entries
    near = entries[place.entry + 1 : place.entry + 2] or entries[: place.entry][-1:]
    return tuple(entry.id for entry in near)


def remove_entries(protocol: Protocol, *, entries: tuple[str, ...]) -> Edited[Protocol]:
    """Take several entries out in one edit."""
    after = protocol
    for entry in entries:
        after = with_entry(after, entry_at(after, entry))
    return settled(protocol, after)


def set_entry(protocol: Protocol, *, entry: str, **changes: Any) -> Edited[Protocol]:
    """Change fields of an entry: dose, sides, priority, note, progression, pain, sources …

    What has rules of its own (id, card, choice, builds_on, start) has functions of its own.

    Raises:
        EditError: no such entry or field, or one with a function of its own.
        ModelError: a value is outside the limits of its field.
    """
    place = entry_at(protocol, entry)
    for name in ("id", "card", "choice", "builds_on", "start", "number"):
        if name in changes:
            raise refuse("{field} has an edit of its own.", field=name)
    changed = set_fields(entry_of(protocol, entry), (), **changes)
    return Edited(with_entry(protocol, place, changed), (entry,))


def link_entry(protocol: Protocol, *, entry: str, on: str | None) -> Edited[Protocol]:
    """Let an entry build on an earlier one, or on none (``on=None``).

    Raises:
        EditError: the other entry is not an earlier one.
    """
    place = entry_at(protocol, entry)
    if on is not None and entry_at(protocol, on) >= place:
        raise refuse("An exercise can only build on an earlier one.")
    changed = evolve(entry_of(protocol, entry), builds_on=on)
    return Edited(with_entry(protocol, place, changed), (entry,))


# ---- numbers -----------------------------------------------------------------------------


def freeze_numbers(protocol: Protocol) -> Edited[Protocol]:
    """Give every entry the number it has in the count, to stay."""
    numbers = protocol.numbers()
    return Edited(
        mapped_entries(
            protocol,
            {e.id: evolve(e, number=numbers[e.id]) for e in protocol.entries()},
        )
    )


def unfreeze_numbers(protocol: Protocol) -> Edited[Protocol]:
    """Let every entry's number follow the count."""
    frozen = [entry for entry in protocol.entries() if entry.number is not None]
    return Edited(mapped_entries(protocol, {e.id: evolve(e, number=None) for e in frozen}))
