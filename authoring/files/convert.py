"""Model values to and from plain JSON values.

Structuring is cattrs'. Added here are the rules of our files: unions are told apart
by ``kind``, fields at their default are left out, a :class:`Text` is a string or a
map by language, and unknown fields are kept in ``extra``.
"""

from __future__ import annotations

import datetime as dt
import threading
import types
from collections.abc import Callable, Mapping
from functools import cache
from typing import Any, TypeVar, Union, get_args, get_origin

from cattrs import Converter
from cattrs.gen import make_dict_structure_fn, make_dict_unstructure_fn, override
from immutabledict import immutabledict

from authoring.files.formats import FORMAT_VERSION
from authoring.model.base import Node, evolve, fields
from authoring.model.text import OWN, Text

_N = TypeVar("_N", bound=Node)
_LARGEST_EXACT = 2**53


class _Noticed(threading.local):
    """Whether an unknown field was met in the conversion that this thread is at."""

    unknown = False


_NOTICED = _Noticed()


def freeze(value: Any) -> Any:
    """A JSON value with tuples and immutable maps in place of lists and dicts."""
    if isinstance(value, Mapping):
        return immutabledict({key: freeze(item) for key, item in value.items()})
    if isinstance(value, list | tuple):
        return tuple(freeze(item) for item in value)
    return value


def thaw(value: Any) -> Any:
    """A JSON value with lists and dicts; whole floats become integers, for steady diffs."""
    if isinstance(value, Mapping):
        return {key: thaw(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [thaw(item) for item in value]
    if isinstance(value, float) and value.is_integer() and abs(value) <= _LARGEST_EXACT:
        return int(value)
    return value


def known_keys(cls: type[Node]) -> frozenset[str]:
    """Keys that a JSON object of this noun may have."""
    names = {field.name for field in fields(cls)} - {"extra"}
    names |= {"kind"} if cls.KIND else set()
    names |= {"format", "format_version"} if hasattr(cls, "FORMAT") else set()
    return frozenset(names)


def _is_node(kind: Any) -> bool:
    return isinstance(kind, type) and issubclass(kind, Node)


def union_members(kind: Any) -> tuple[type[Node], ...]:
    """The nouns of a union told apart by ``kind``; empty for any other type."""
    if get_origin(kind) not in (Union, types.UnionType):
        return ()
    members = [member for member in get_args(kind) if member is not types.NoneType]
    return tuple(members) if len(members) > 1 and all(map(_is_node, members)) else ()


def _structure_node(converter: Converter, detailed: bool, cls: type[Node]) -> Callable[..., Node]:
    build = make_dict_structure_fn(
        cls, converter, _cattrs_detailed_validation=detailed, extra=override(omit=True)
    )
    known = known_keys(cls)

    def structure(data: Mapping[str, Any], _: type[Node]) -> Node:
        value: Node = build(data, cls)
        unknown = [key for key in data if key not in known]
        if unknown:
            _NOTICED.unknown = True
            kept = freeze({key: data[key] for key in unknown})
            value = evolve(value, extra=kept)
        return value

    return structure


def _unstructure_node(converter: Converter, cls: type[Node]) -> Callable[[Node], dict[str, Any]]:
    build = make_dict_unstructure_fn(
        cls, converter, _cattrs_omit_if_default=True, extra=override(omit=True)
    )
    # cattrs writes what must be given first; two versions diff best in the noun's own order.
    order = [field.name for field in fields(cls)]
    head: dict[str, Any] = {"kind": cls.KIND} if cls.KIND else {}
    if hasattr(cls, "FORMAT"):
        head = {"format": cls.FORMAT, "format_version": FORMAT_VERSION}

    def unstructure(value: Node) -> dict[str, Any]:
        made = build(value)
        known = {name: made[name] for name in order if name in made}
        return {**head, **known, **value.extra}

    return unstructure


def _structure_union(converter: Converter, union: Any) -> Callable[..., Node | None]:
    by_kind = {member.KIND: member for member in union_members(union)}

    def structure(data: Mapping[str, Any] | None, _: Any) -> Node | None:
        if data is None:
            return None
        return converter.structure(data, by_kind[data["kind"]])

    return structure


def _structure_text(data: Any, _: type[Text]) -> Text:
    return Text.plain(data) if isinstance(data, str) else Text(data)


def _unstructure_text(value: Text) -> Any:
    return value.values[OWN] if OWN in value.values else dict(sorted(value.values.items()))


def _build_converter(detailed: bool) -> Converter:
    converter = Converter(detailed_validation=detailed)
    converter.register_structure_hook(dt.date, lambda data, _: dt.date.fromisoformat(data))
    converter.register_unstructure_hook(dt.date, dt.date.isoformat)
    converter.register_structure_hook(Text, _structure_text)
    converter.register_unstructure_hook(Text, _unstructure_text)
    converter.register_structure_hook_factory(
        lambda kind: bool(union_members(kind)), lambda kind: _structure_union(converter, kind)
    )
    converter.register_unstructure_hook_func(
        lambda kind: bool(union_members(kind)), converter.unstructure
    )
    converter.register_structure_hook_factory(
        _is_node, lambda cls: _structure_node(converter, detailed, cls)
    )
    converter.register_unstructure_hook_factory(
        _is_node, lambda cls: _unstructure_node(converter, cls)
    )
    return converter


@cache
def _converter(detailed: bool) -> Converter:
    return _build_converter(detailed)


def to_json(value: Node) -> Any:
    """A model value as a JSON value, keys in the order of the class."""
    return thaw(_converter(False).unstructure(value))


def from_json(cls: type[_N], data: Any, *, detailed: bool = False) -> _N:
    """A JSON value that has passed its schema as a model value.

    Args:
        cls: the noun it is.
        data: JSON value.
        detailed: collect every fault with its path instead of stopping at the first.

    Raises:
        ModelError: the first value that no noun can hold (``detailed`` false).
        cattrs.BaseValidationError: all of them (``detailed`` true).
    """
    return _converter(detailed).structure(data, cls)


def from_json_noting(cls: type[_N], data: Any) -> tuple[_N, bool]:
    """As :func:`from_json`, and whether any unknown field was met on the way.

    Looking for unknown fields afterwards costs as much as a third of reading the file.
    """
    _NOTICED.unknown = False
    value = from_json(cls, data)
    return value, _NOTICED.unknown
