"""Finding stages, blocks and entries of a protocol by id, and putting new ones there."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from authoring.model.base import evolve
from authoring.model.edits.outcome import refuse
from authoring.model.protocol import Block, Entry, Protocol, Stage


class EntryPlace(NamedTuple):
    """Indexes of a stage, a block in it and an entry in that."""

    stage: int
    block: int
    entry: int


class BlockPlace(NamedTuple):
    """Indexes of a stage and a block in it."""

    stage: int
    block: int


def stage_at(protocol: Protocol, stage_id: str) -> int:
    """Index of a stage; refused where there is none."""
    for index, stage in enumerate(protocol.stages):
        if stage.id == stage_id:
            return index
    raise refuse("This protocol has no stage “{id}”.", id=stage_id)


def block_at(protocol: Protocol, block_id: str) -> BlockPlace:
    """Place of a block; refused where there is none."""
    for s, stage in enumerate(protocol.stages):
        for b, block in enumerate(stage.blocks):
            if block.id == block_id:
                return BlockPlace(s, b)
    raise refuse("This protocol has no block “{id}”.", id=block_id)


def entry_at(protocol: Protocol, entry_id: str) -> EntryPlace:
    """Place of an entry; refused where there is none."""
    for place, entry in placed_entries(protocol):
        if entry.id == entry_id:
            return place
    raise refuse("This protocol has no exercise “{id}”.", id=entry_id)


def placed_entries(protocol: Protocol) -> Iterator[tuple[EntryPlace, Entry]]:
    """Every entry with its place, in order."""
    for s, stage in enumerate(protocol.stages):
        for b, block in enumerate(stage.blocks):
            for e, entry in enumerate(block.entries):
                yield EntryPlace(s, b, e), entry


def stage_of(protocol: Protocol, stage_id: str) -> Stage:
    """The stage with this id; refused where there is none."""
    return protocol.stages[stage_at(protocol, stage_id)]


def block_of(protocol: Protocol, block_id: str) -> Block:
    """The block with this id; refused where there is none."""
    place = block_at(protocol, block_id)
    return protocol.stages[place.stage].blocks[place.block]


def entry_of(protocol: Protocol, entry_id: str) -> Entry:
    """The entry with this id; refused where there is none."""
    place = entry_at(protocol, entry_id)
    return protocol.stages[place.stage].blocks[place.block].entries[place.entry]


def with_stage(protocol: Protocol, index: int, *stages: Stage) -> Protocol:
    """The protocol with other stages (none, one or several) in place of the one at an index."""
    kept = protocol.stages
    return evolve(protocol, stages=(*kept[:index], *stages, *kept[index + 1 :]))


def with_block(protocol: Protocol, place: BlockPlace, *blocks: Block) -> Protocol:
    """The protocol with other blocks in place of the one at a place."""
    stage = protocol.stages[place.stage]
    kept = (*stage.blocks[: place.block], *blocks, *stage.blocks[place.block + 1 :])
    return with_stage(protocol, place.stage, evolve(stage, blocks=kept))


def with_entry(protocol: Protocol, place: EntryPlace, *entries: Entry) -> Protocol:
    """The protocol with other entries in place of the one at a place."""
    block = protocol.stages[place.stage].blocks[place.block]
    kept = (*block.entries[: place.entry], *entries, *block.entries[place.entry + 1 :])
    return with_block(protocol, BlockPlace(place.stage, place.block), evolve(block, entries=kept))


def clamped(index: int | None, length: int) -> int:
    """A place in a list: the end for None, and never outside it."""
    return length if index is None else max(0, min(index, length))
