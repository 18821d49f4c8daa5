"""Edits of any noun with an id, wherever in a file it stands.

For lessons, red flags, cautions, restrictions, activities, care, branches and publications.
Stages, blocks, entries, criteria and variants have edits of their own, which also mind what
refers to them.
"""

from __future__ import annotations

from typing import Any, TypeVar

from authoring.model.base import Node
from authoring.model.caution import Caution
from authoring.model.edits.naming import with_fresh_ids
from authoring.model.edits.outcome import Edited, refuse
from authoring.model.edits.tree import (
    Path,
    get_field,
    insert_item,
    leaves,
    move_item,
    own_ids,
    path_of,
    remove_item,
    set_fields,
)
from authoring.model.sources import Reference
from authoring.model.vocabulary import CautionKind, Urgency

_N = TypeVar("_N", bound=Node)


def add_part(root: _N, *, path: Path, part: Node, index: int | None = None) -> Edited[_N]:
    """Add a noun to the list at a path, its ids made fresh where they are taken."""
    new = with_fresh_ids(root, part)
    return Edited(insert_item(root, path, new, index=index), tuple(own_ids(new)[:1]))


def duplicate_part(root: _N, *, part: str) -> Edited[_N]:
    """Put a copy of a noun after it, its ids fresh."""
    path, index = _place(root, part)
    return add_part(root, path=path, part=get_field(root, (*path, index)), index=index + 1)


def _place(root: Node, part: str) -> tuple[Path, int]:
    """The list that a noun stands in, and where in it."""
    path = path_of(root, part)
    index = path[-1] if path else None
    if not isinstance(index, int):
        raise refuse("There is nothing here with the id “{id}”.", id=part)
    return path[:-1], index


def set_part(root: _N, *, part: str, **changes: Any) -> Edited[_N]:
    """Change fields of the noun with an id.

    A caution that becomes a stop sign and is given no urgency says to stop the exercise; one
    that is a stop sign no more loses its urgency.

    Raises:
        EditError: no such noun or field, or the id is to change.
        ModelError: a value is outside the limits of its field.
    """
    if "id" in changes:
        raise refuse("{field} has an edit of its own.", field="id")
    path = path_of(root, part)
    old = get_field(root, path)
    if isinstance(old, Caution) and "kind" in changes and "urgency" not in changes:
        stop = changes["kind"] is CautionKind.STOP_SIGN
        changes["urgency"] = (old.urgency or Urgency.STOP_EXERCISE) if stop else None
    return Edited(set_fields(root, path, **changes), (part,))


def move_part(root: _N, *, part: str, to: int) -> Edited[_N]:
    """Move a noun so that it is the one at index ``to`` of its list."""
    path, index = _place(root, part)
    return Edited(move_item(root, path, index=index, to=to), (part,))


def remove_part(root: _N, *, part: str) -> Edited[_N]:
    """Take a noun out of its list.

    Raises:
        EditError: no such noun, or a publication that sources still name.
    """
    path, index = _place(root, part)
    if isinstance(get_field(root, (*path, index)), Reference):
        named = sum(
            known.points_to == "reference" and value == part for _, known, value in leaves(root)
        )
        if named:
            raise refuse(
                "Sources still name this publication ({count}): take it out there first.",
                count=named,
            )
    return Edited(remove_item(root, path, index=index))
