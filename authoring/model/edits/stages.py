"""Edits of whole stages."""

from __future__ import annotations

from typing import Any

from authoring.model.base import evolve
from authoring.model.edits.naming import (
    INNER,
    fresh_id,
    ids_in,
    renewed,
    slug_of_text,
)
from authoring.model.edits.outcome import Edited, refuse
from authoring.model.edits.places import clamped, stage_at, stage_of, with_stage
from authoring.model.edits.settling import settled
from authoring.model.edits.tree import set_fields
from authoring.model.protocol import Block, Entry, Protocol, Stage
from authoring.model.text import Text
from authoring.model.vocabulary import BlockKind

COPIED = INNER - {"variant", "reference"}
"""References that follow the new ids of a copied part of a protocol."""


def add_stage(protocol: Protocol, *, name: Text, index: int | None = None) -> Edited[Protocol]:
    """Add an empty stage with one main block, at the end unless ``index`` is given."""
    taken = ids_in(protocol)
    stage_id = fresh_id(slug_of_text(name, otherwise="stage"), taken=taken)
    block = Block(id=fresh_id("main", taken={*taken, stage_id}), kind=BlockKind.MAIN)
    return _put(protocol, protocol, Stage(id=stage_id, name=name, blocks=(block,)), index)


def _put(before: Protocol, without: Protocol, stage: Stage, index: int | None) -> Edited[Protocol]:
    at = clamped(index, len(without.stages))
    stages = (*without.stages[:at], stage, *without.stages[at:])
    return settled(before, evolve(without, stages=stages), select=(stage.id,))


def duplicate_stage(
    protocol: Protocol, *, stage: str, linked: bool = True, name: Text | None = None
) -> Edited[Protocol]:
    """Put a copy of a stage after it, every id in it fresh.

    Args:
        linked: each copied entry builds on the one it was copied from, so that the copy
            carries every line on; False keeps the links as they are.
        name: name of the copy; the same unless given.
    """
    at = stage_at(protocol, stage)
    old = protocol.stages[at]
    (copy,), new_ids = renewed((old,), taken=ids_in(protocol), points=COPIED)
    origin = {new: old_id for old_id, new in new_ids.items()}

    def carried(entry: Entry) -> Entry:
        base = origin[entry.id] if linked else entry.builds_on
        return evolve(entry, builds_on=base, number=None)

    blocks = tuple(
        evolve(block, entries=tuple(carried(entry) for entry in block.entries))
        for block in copy.blocks
    )
    return _put(protocol, protocol, evolve(copy, blocks=blocks, name=name or old.name), at + 1)


def move_stage(protocol: Protocol, *, stage: str, to: int) -> Edited[Protocol]:
    """Move a stage so that it is the one at index ``to``; links are kept leading back."""
    at = stage_at(protocol, stage)
    return _put(protocol, with_stage(protocol, at), protocol.stages[at], to)


def remove_stage(protocol: Protocol, *, stage: str) -> Edited[Protocol]:
    """Take a stage out with its entries.

    What built on them builds on the entry before in its line; branches that led there are
    left without a stage, and a note says so.
    """
    at = stage_at(protocol, stage)
    near = protocol.stages[at + 1 : at + 2] or protocol.stages[:at][-1:]
    after = with_stage(protocol, at)
    return settled(protocol, after, select=tuple(each.id for each in near))


def set_stage(protocol: Protocol, *, stage: str, **changes: Any) -> Edited[Protocol]:
    """Change fields of a stage: name, lead, aims, usual_weeks, frequency, pain …

    Raises:
        EditError: no such stage or field, or one with edits of its own (id, blocks).
        ModelError: a value is outside the limits of its field.
    """
    for name in ("id", "blocks"):
        if name in changes:
            raise refuse("{field} has an edit of its own.", field=name)
    changed = set_fields(stage_of(protocol, stage), (), **changes)
    return Edited(with_stage(protocol, stage_at(protocol, stage), changed), (stage,))


def rename_stage(protocol: Protocol, *, stage: str, name: Text) -> Edited[Protocol]:
    """Give a stage another name; its id stays, so that links and history hold."""
    return set_stage(protocol, stage=stage, name=name)
