"""Three-way merge of single values and of lists: one side's change, or both where they agree."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from difflib import SequenceMatcher
from enum import StrEnum
from typing import Any, TypeVar

from immutabledict import immutabledict

from authoring.model.base import ModelError, Node, fields
from authoring.model.clinic import Clinic
from authoring.model.pose import Camera
from authoring.model.protocol import ChangeNote, Delivery
from authoring.model.sources import Source
from authoring.model.text import OWN, Text

_K = TypeVar("_K", bound=Hashable)
_BY_FIELD = (Delivery, Camera, Clinic)
_IN_ANY_ORDER = (str, StrEnum, Source, ChangeNote)
_GONE = object()


class ClashError(Exception):
    """Both sides changed the same thing, each another way."""


def merged_value(base: Any, mine: Any, theirs: Any) -> Any:
    """The value that holds both sides' changes.

    Raises:
        ClashError: they don't go together.
    """
    if theirs in (mine, base):
        return mine
    if mine == base:
        return theirs
    sides = (base, mine, theirs)
    if all(isinstance(side, Text) for side in sides):
        return _texts(base, mine, theirs)
    if all(isinstance(side, Mapping) for side in sides):
        return immutabledict(_by_key(base, mine, theirs))
    if all(isinstance(side, tuple) for side in sides):
        return _lists(base, mine, theirs)
    if isinstance(base, _BY_FIELD) and type(base) is type(mine) is type(theirs):
        return _nodes(base, mine, theirs)
    raise ClashError


def _texts(base: Text, mine: Text, theirs: Text) -> Text:
    if any(OWN in side.values for side in (base, mine, theirs)):
        raise ClashError
    try:
        return Text(_by_key(base.values, mine.values, theirs.values))
    except ModelError as error:
        raise ClashError from error


def _by_key(
    base: Mapping[str, Any], mine: Mapping[str, Any], theirs: Mapping[str, Any]
) -> dict[str, Any]:
    made = {}
    for key in sorted({*base, *mine, *theirs}):
        parts = [side.get(key, _GONE) for side in (base, mine, theirs)]
        if (value := merged_value(*parts)) is not _GONE:
            made[key] = value
    return made


def _nodes(base: Node, mine: Node, theirs: Node) -> Node:
    names = [field.name for field in fields(type(base))]
    values = {
        name: merged_value(getattr(base, name), getattr(mine, name), getattr(theirs, name))
        for name in names
    }
    try:
        return type(base)(**values)
    except ModelError as error:
        raise ClashError from error


def _lists(base: tuple[Any, ...], mine: tuple[Any, ...], theirs: tuple[Any, ...]) -> Any:
    every = (*base, *mine, *theirs)
    once = all(len(set(map(repr, side))) == len(side) for side in (base, mine, theirs))
    if once and all(isinstance(item, _IN_ANY_ORDER) for item in every):
        kept = {i for i in every if _stays(i in base, i in mine, i in theirs)}
        return merged_order(base, mine, theirs, kept)
    return _pieces(base, mine, theirs)


def _stays(base: bool, mine: bool, theirs: bool) -> bool:
    return (mine and theirs) if base else (mine or theirs)


def merged_order(
    base: Sequence[_K],
    mine: Sequence[_K],
    theirs: Sequence[_K],
    kept: set[_K],
    prefer: Sequence[_K] | None = None,
) -> tuple[_K, ...]:
    """Items in an order that both sides' lists agree with.

    Where only one side moved what all three lists hold, its order stands. What a side put in
    follows what it put it after; where both put something there, the lower id comes first,
    so that it does not matter which side is whose.

    Args:
        kept: the items wanted; each stands in ``mine`` or ``theirs``.
        prefer: the side whose order stands where they disagree.

    Raises:
        ClashError: both sides moved things, each another way.
    """
    common = kept & set(base) & set(mine) & set(theirs)
    orders = [[item for item in side if item in common] for side in (base, mine, theirs)]
    spine: list[_K]
    if prefer is not None:
        spine = [item for item in prefer if item in common]
    else:
        spine = merged_value(*map(_Line, orders)).items
    runs = [_runs(side, common, kept) for side in (mine, theirs)]
    made: list[_K] = []
    for anchor in (None, *spine):
        if anchor is not None:
            made.append(anchor)
        both = sorted((run[anchor] for run in runs if anchor in run), key=repr)
        made += [item for run in both for item in run]
    return tuple(dict.fromkeys(made))


class _Line:
    """An order of items as one value, which is never pieced together."""

    def __init__(self, items: list[Any]) -> None:
        self.items = items

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Line) and self.items == other.items

    __hash__ = None  # type: ignore[assignment]


def _runs(side: Sequence[_K], common: set[_K], kept: set[_K]) -> dict[_K | None, list[_K]]:
    """What a side put after each common item, and before all of them (None)."""
    runs: dict[_K | None, list[_K]] = {}
    anchor: _K | None = None
    for item in side:
        if item in common:
            anchor = item
        elif item in kept:
            runs.setdefault(anchor, []).append(item)
    return runs


_Hunk = tuple[int, int, tuple[Any, ...]]


def _hunks(base: tuple[Any, ...], side: tuple[Any, ...]) -> list[_Hunk]:
    old, new = ([repr(item) for item in items] for items in (base, side))
    codes = SequenceMatcher(None, old, new, autojunk=False).get_opcodes()
    return [(i, j, side[k:m]) for tag, i, j, k, m in codes if tag != "equal"]


def _pieces(base: tuple[Any, ...], mine: tuple[Any, ...], theirs: tuple[Any, ...]) -> Any:
    """Both sides' changes to different stretches of a list."""
    hunks = sorted(
        [*_hunks(base, mine), *(h for h in _hunks(base, theirs) if h not in _hunks(base, mine))],
        key=lambda hunk: hunk[:2],
    )
    made: list[Any] = []
    at = 0
    for number, (start, end, items) in enumerate(hunks):
        if start < at or (number and hunks[number - 1][:2] == (start, end)):
            raise ClashError
        if number and start == end == hunks[number - 1][1]:
            raise ClashError
        if number and start == end == hunks[number - 1][0]:
            raise ClashError
        made += [*base[at:start], *items]
        at = end
    return (*made, *base[at:])
