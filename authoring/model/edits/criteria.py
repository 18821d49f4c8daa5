"""Edits of the criteria at the borders of stages: entering, moving on, stepping back."""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum
from typing import NamedTuple

from authoring.model.base import evolve
from authoring.model.criterion import AllOf, AnyOf, Criterion
from authoring.model.edits.naming import fresh_id, ids_in, with_fresh_ids
from authoring.model.edits.outcome import Edited, Note, note, refuse
from authoring.model.edits.places import clamped, stage_at, with_stage
from authoring.model.protocol import Protocol


class Border(StrEnum):
    """A list of criteria of a stage, by its field."""

    ENTRY = "entry"
    MOVE_ON = "move_on"
    STEP_BACK = "step_back"


class CriterionPlace(NamedTuple):
    """Where a criterion stands: stage, list, and indexes down into groups."""

    stage: int
    border: Border
    steps: tuple[int, ...]


Criteria = tuple[Criterion, ...]


def _list(protocol: Protocol, stage: int, border: Border) -> Criteria:
    found: Criteria = getattr(protocol.stages[stage], border.value)
    return found


def _with_list(protocol: Protocol, stage: int, border: Border, new: Criteria) -> Protocol:
    changed = evolve(protocol.stages[stage], **{border.value: new})
    return with_stage(protocol, stage, changed)


def criterion_at(protocol: Protocol, criterion: str) -> CriterionPlace:
    """Place of a criterion, in a group or not; refused where there is none."""
    for index in range(len(protocol.stages)):
        for border in Border:
            steps = _steps(_list(protocol, index, border), criterion)
            if steps:
                return CriterionPlace(index, border, steps)
    raise refuse("This protocol has no criterion “{id}”.", id=criterion)


def _steps(items: Criteria, wanted: str) -> tuple[int, ...]:
    for index, item in enumerate(items):
        if item.id == wanted:
            return (index,)
        if isinstance(item, AllOf | AnyOf):
            inner = _steps(item.parts, wanted)
            if inner:
                return (index, *inner)
    return ()


def criterion_of(protocol: Protocol, criterion: str) -> Criterion:
    """The criterion with this id; refused where there is none."""
    stage, border, steps = criterion_at(protocol, criterion)
    found = _list(protocol, stage, border)[steps[0]]
    for step in steps[1:]:
        if isinstance(found, AllOf | AnyOf):
            found = found.parts[step]
    return found


def add_criterion(
    protocol: Protocol,
    *,
    stage: str,
    border: Border,
    criterion: Criterion,
    index: int | None = None,
) -> Edited[Protocol]:
    """Add a criterion to a list of a stage; ids in it that are taken are made fresh."""
    at = stage_at(protocol, stage)
    new = with_fresh_ids(protocol, criterion)
    items = _list(protocol, at, border)
    place = clamped(index, len(items))
    after = _with_list(protocol, at, border, (*items[:place], new, *items[place:]))
    return Edited(after, (new.id,))


Change = Callable[[Criterion], Criteria]


def _changed(items: Criteria, steps: tuple[int, ...], change: Change) -> Criteria:
    """Criteria with none, one or several in place of the one at these steps."""
    index = steps[0]
    item = items[index]
    if len(steps) > 1 and isinstance(item, AllOf | AnyOf):
        parts = _changed(item.parts, steps[1:], change)
        new: Criteria = parts if len(parts) < 2 else (evolve(item, parts=parts),)
    else:
        new = change(item)
    return (*items[:index], *new, *items[index + 1 :])


def _at(protocol: Protocol, criterion: str, change: Change) -> Protocol:
    stage, border, steps = criterion_at(protocol, criterion)
    items = _changed(_list(protocol, stage, border), steps, change)
    return _with_list(protocol, stage, border, items)


def change_criterion(protocol: Protocol, *, criterion: str, new: Criterion) -> Edited[Protocol]:
    """Put a criterion in the place of another, under its id.

    Ids of parts that are taken elsewhere are made fresh.
    """
    without = _at(protocol, criterion, lambda _: ())
    taken = ids_in(without) | {criterion}
    parts = {}
    if isinstance(new, AllOf | AnyOf):
        fresh = with_fresh_ids(without, new)
        if isinstance(fresh, AllOf | AnyOf):
            parts = {"parts": tuple(_apart(part, taken) for part in fresh.parts)}
    made = evolve(new, id=criterion, **parts)
    return Edited(_at(protocol, criterion, lambda _: (made,)), (criterion,))


def _apart(part: Criterion, taken: set[str]) -> Criterion:
    """A part whose own id is not the one its group keeps."""
    return evolve(part, id=fresh_id(part.id, taken=taken)) if part.id in taken else part


def remove_criterion(protocol: Protocol, *, criterion: str) -> Edited[Protocol]:
    """Take a criterion out; a group with one part left is that part."""
    notes = _dissolved(protocol, criterion)
    return Edited(_at(protocol, criterion, lambda _: ()), (), notes)


def _dissolved(protocol: Protocol, criterion: str) -> tuple[Note, ...]:
    """The note on a group of two that loses this one."""
    stage, border, steps = criterion_at(protocol, criterion)
    siblings = _siblings(_list(protocol, stage, border), steps)
    if len(steps) == 1 or len(siblings) > 2:
        return ()
    (left,) = (item for item in siblings if item.id != criterion)
    return (note("One criterion is left of the group, and stands alone now.", about=left.id),)


def move_criterion(
    protocol: Protocol,
    *,
    criterion: str,
    stage: str,
    border: Border,
    index: int | None = None,
) -> Edited[Protocol]:
    """Move a criterion within its list, or to another list or stage.

    Args:
        index: place in the list once the criterion is taken out of its old place.
    """
    old = criterion_of(protocol, criterion)
    at = stage_at(protocol, stage)
    notes = _dissolved(protocol, criterion)
    without = _at(protocol, criterion, lambda _: ())
    items = _list(without, at, border)
    place = clamped(index, len(items))
    after = _with_list(without, at, border, (*items[:place], old, *items[place:]))
    return Edited(after, (criterion,), notes)


def duplicate_criterion(protocol: Protocol, *, criterion: str) -> Edited[Protocol]:
    """Put a copy of a criterion after it, with fresh ids."""
    copy = with_fresh_ids(protocol, criterion_of(protocol, criterion))
    return Edited(_at(protocol, criterion, lambda old: (old, copy)), (copy.id,))


def group_criteria(
    protocol: Protocol, *, criteria: tuple[str, ...], all_of: bool = True
) -> Edited[Protocol]:
    """Join criteria of one list into a group, of which all (or any one) must be true.

    The group stands where the first of them stood.

    Raises:
        EditError: fewer than two, or not in one list, or a whole group already.
    """
    places = sorted({criterion_at(protocol, each) for each in criteria})
    if len(places) < 2:
        raise refuse("A group needs two criteria or more.")
    stage, border, steps = places[0]
    if len({(place.stage, place.border, place.steps[:-1]) for place in places}) > 1:
        raise refuse("Group criteria of one list: move them together first.")
    siblings = _siblings(_list(protocol, stage, border), steps)
    chosen = [place.steps[-1] for place in places]
    if len(steps) > 1 and len(chosen) == len(siblings):
        raise refuse("These criteria are a group of their own already.")
    kind = AllOf if all_of else AnyOf
    parts = tuple(siblings[index] for index in chosen)
    group = kind(id=fresh_id("group", taken=ids_in(protocol)), parts=parts)
    rest = [item for index, item in enumerate(siblings) if index not in chosen[1:]]
    new = tuple(group if item is parts[0] else item for item in rest)
    items = _with_siblings(_list(protocol, stage, border), steps, new)
    return Edited(_with_list(protocol, stage, border, items), (group.id,))


def _siblings(items: Criteria, steps: tuple[int, ...]) -> Criteria:
    """The list, or the parts of the group, that the criterion at these steps stands in."""
    for step in steps[:-1]:
        item = items[step]
        items = item.parts if isinstance(item, AllOf | AnyOf) else items
    return items


def _with_siblings(items: Criteria, steps: tuple[int, ...], new: Criteria) -> Criteria:
    if len(steps) == 1:
        return new
    item = items[steps[0]]
    if isinstance(item, AllOf | AnyOf):
        item = evolve(item, parts=_with_siblings(item.parts, steps[1:], new))
    return (*items[: steps[0]], item, *items[steps[0] + 1 :])


def ungroup_criteria(protocol: Protocol, *, group: str) -> Edited[Protocol]:
    """Put the parts of a group in its place.

    Raises:
        EditError: it is no group.
    """
    old = criterion_of(protocol, group)
    if not isinstance(old, AllOf | AnyOf):
        raise refuse("This criterion is no group.")
    parts = old.parts
    return Edited(_at(protocol, group, lambda _: parts), tuple(part.id for part in parts))
