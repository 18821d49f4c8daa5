"""What kind of value a field of a noun holds, for the forms. No Qt here."""

from __future__ import annotations

import datetime as dt
import enum
import types
import typing
from collections.abc import Mapping
from typing import Any, Union, get_args, get_origin

import attrs
from attrs import frozen

from authoring.model.base import Fact, Node, fact_of, fields
from authoring.model.load import IntRange, NumberRange
from authoring.model.text import Text


class Shape(enum.Enum):
    """Kinds of value a field can hold."""

    TEXT = "text"
    STRING = "string"
    WHOLE = "whole"
    NUMBER = "number"
    BOOL = "bool"
    DATE = "date"
    ENUM = "enum"
    INT_RANGE = "int range"
    NUMBER_RANGE = "number range"
    NODE = "node"
    EXTRA = "extra"


@frozen
class FieldShape:
    """A field of a noun as a form sees it.

    Attributes:
        name: its name in files.
        shape: kind of one value.
        many: whether it holds a tuple of them.
        optional: whether it may be None.
        types: the enum, or the nouns that may stand here.
        known: its facts.
        required: whether it has no default.
    """

    name: str
    shape: Shape
    many: bool
    optional: bool
    types: tuple[type, ...]
    known: Fact
    required: bool


_SIMPLE: Mapping[Any, Shape] = {
    Text: Shape.TEXT,
    str: Shape.STRING,
    int: Shape.WHOLE,
    float: Shape.NUMBER,
    bool: Shape.BOOL,
    dt.date: Shape.DATE,
    IntRange: Shape.INT_RANGE,
    NumberRange: Shape.NUMBER_RANGE,
}


def _members(hint: Any) -> tuple[Any, ...]:
    return get_args(hint) if get_origin(hint) in (Union, types.UnionType) else (hint,)


def _one(hint: Any) -> tuple[Shape, tuple[type, ...]]:
    members = tuple(member for member in _members(hint) if member is not types.NoneType)
    first = members[0]
    if first in _SIMPLE:
        return _SIMPLE[first], ()
    if isinstance(first, type) and issubclass(first, enum.Enum):
        return Shape.ENUM, (first,)
    if all(isinstance(member, type) and issubclass(member, Node) for member in members):
        return Shape.NODE, members
    raise TypeError(f"no form knows how to edit {hint}")


_KNOWN: dict[type[Node], tuple[FieldShape, ...]] = {}


def shapes_of(cls: type[Node]) -> tuple[FieldShape, ...]:
    """The fields of a noun in order; ``extra`` is left out.

    Raises:
        TypeError: a field holds a kind of value that no form can edit.
    """
    if cls not in _KNOWN:
        hints = typing.get_type_hints(cls)
        _KNOWN[cls] = tuple(
            _shape(attribute.name, hints[attribute.name], fact_of(attribute), attribute.default)
            for attribute in fields(cls)
            if attribute.name != "extra"
        )
    return _KNOWN[cls]


def _shape(name: str, hint: Any, known: Fact, default: object) -> FieldShape:
    members = _members(hint)
    optional = types.NoneType in members
    tuples = [member for member in members if get_origin(member) is tuple]
    inner = get_args(tuples[0])[0] if tuples else hint
    shape, kinds = _one(inner)
    required = default is attrs.NOTHING
    return FieldShape(name, shape, bool(tuples), optional, kinds, known, required)
