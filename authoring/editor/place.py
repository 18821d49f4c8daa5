"""Where something is: which file, and where in it. No Qt here."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import TypeVar, cast

from attrs import frozen

from authoring.checks.result import CheckResult, Subject
from authoring.model.base import evolve

_V = TypeVar("_V")
_STEP = re.compile(r"([A-Za-z_][A-Za-z0-9_-]*)|\[(\d+)\]")


@frozen
class Place:
    """A place in the data.

    Attributes:
        subject: kind of file.
        subject_id: its id; "" for the clinic and the library.
        path: place in the file as the checks write it
            (``stages[1].blocks[0].entries[3].dose``), "" for the whole.
    """

    subject: Subject
    subject_id: str = ""
    path: str = ""

    @classmethod
    def of(cls, result: CheckResult) -> Place:
        """The place that a check's result is about."""
        return cls(result.subject, result.subject_id, result.path)


def steps(path: str) -> tuple[str | int, ...]:
    """A path in pieces: ``stages[1].name`` is ("stages", 1, "name")."""
    return tuple(_steps(path))


def _steps(path: str) -> Iterator[str | int]:
    for name, index in _STEP.findall(path):
        yield name or int(index)


def is_within(path: str, ancestor: str) -> bool:
    """Whether a path lies at or inside another; everything lies inside ""."""
    outer = steps(ancestor)
    return steps(path)[: len(outer)] == outer


def value_at(root: object, path: str) -> object:
    """The value that a path leads to, or the nearest one above it that exists."""
    value = root
    for step in steps(path):
        if isinstance(step, int):
            if not isinstance(value, tuple) or step >= len(value):
                return value
            value = value[step]
        else:
            found = getattr(value, step, None)
            if found is None:
                return value
            value = found
    return value


def with_value_at(root: _V, path: str, value: object) -> _V:
    """A copy of an immutable value with another value at a path.

    Raises:
        ModelError: the new value is outside its field's limits.
        LookupError: there is no such place.
    """
    return cast("_V", _with(root, steps(path), value))


def _with(root: object, way: Sequence[str | int], value: object) -> object:
    if not way:
        return value
    step, rest = way[0], way[1:]
    if isinstance(step, int):
        if not isinstance(root, tuple) or step >= len(root):
            raise LookupError(f"there is no item {step} at this place")
        return (*root[:step], _with(root[step], rest, value), *root[step + 1 :])
    if not hasattr(root, step):
        raise LookupError(f"there is no field {step} at this place")
    return evolve(root, **{step: _with(getattr(root, step), rest, value)})
