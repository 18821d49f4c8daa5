"""Any value of any noun: drawn from its fields' facts, with the rules between fields kept.

``values_of(Dose)`` draws doses. A noun's optional fields are given a few at a time, so that
values stay small enough to read and all fields and all members of unions still come up.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from enum import StrEnum
from functools import cache
from types import NoneType, UnionType
from typing import Any, TypeVar, Union, get_args, get_origin, get_type_hints

import attrs
from hypothesis import strategies as st

from authoring.files.convert import freeze, known_keys
from authoring.model.base import (
    DOI,
    HEX_COLOUR,
    IMAGE_NAME,
    LANGUAGE_TAG,
    SLUG,
    UUID,
    VERSION,
    Fact,
    Node,
    fact_of,
    fields,
)
from authoring.model.pack import MEMBER_NAME, SHA256
from authoring.model.text import Text
from tests.strategies.json_values import json_values, names, words
from tests.strategies.rules import RULES

_N = TypeVar("_N", bound=Node)
Draw = Callable[[st.SearchStrategy[Any]], Any]

_DEEPEST = 6
"""Nouns inside each other below which only what must be given is given."""

_slugs = st.from_regex(SLUG, fullmatch=True).filter(lambda text: len(text) <= 80)
_tags = st.sampled_from(["en", "en-GB", "de", "pt-BR", "zh-Hant-TW", "es-419", "yue", "ar"])
_hex = "0123456789abcdef"

_BY_PATTERN: dict[str, st.SearchStrategy[str]] = {
    SLUG: _slugs | st.sampled_from(["a", "heel-raise", "x1-2"]),
    UUID: st.uuids().map(str),
    LANGUAGE_TAG: _tags | st.from_regex(LANGUAGE_TAG, fullmatch=True),
    HEX_COLOUR: st.from_regex(HEX_COLOUR, fullmatch=True),
    SHA256: st.text("0123456789abcdef", min_size=64, max_size=64),
    MEMBER_NAME: st.uuids().map(lambda each: f"cards/{each}.card.json"),
    IMAGE_NAME: st.builds(
        "{}.{}".format, st.text(_hex, min_size=64, max_size=64), st.sampled_from(["png", "jpg"])
    ),
    DOI: st.from_regex(DOI, fullmatch=True).filter(lambda text: len(text) <= 200),
    VERSION: st.from_regex(VERSION, fullmatch=True).filter(lambda text: len(text) <= 20),
}


def texts() -> st.SearchStrategy[Text]:
    """Words in the file's own language, or in up to three languages."""
    by_tag = st.dictionaries(_BY_PATTERN[LANGUAGE_TAG], words(), min_size=1, max_size=3)
    return words().map(Text.plain) | by_tag.map(Text)


def _plain_text(known: Fact) -> st.SearchStrategy[str]:
    if known.pattern:
        return _BY_PATTERN[known.pattern]
    return words(known.fewest, min(known.longest or 40, 40))


def _number(kind: type, known: Fact) -> st.SearchStrategy[Any]:
    if kind is int:
        return st.integers(
            None if known.low is None else int(known.low),
            None if known.high is None else int(known.high),
        )
    return st.floats(known.low, known.high, allow_nan=False, allow_infinity=False)


def _of_type(kind: Any, known: Fact, depth: int) -> st.SearchStrategy[Any]:
    if get_origin(kind) is tuple:
        item = _of_type(get_args(kind)[0], attrs.evolve(known, longest=None, fewest=0), depth)
        fewest = max(known.fewest, 1 if depth < 4 else 0)
        most = min(known.longest or 2, fewest + (1 if depth < _DEEPEST else 0))
        return st.lists(item, min_size=fewest, max_size=most).map(tuple)
    if get_origin(kind) in (Union, UnionType):
        return st.one_of([_of_type(part, known, depth) for part in get_args(kind)])
    if kind is NoneType:
        return st.none()
    if issubclass(kind, Node):
        return values_of(kind, depth + 1)
    if issubclass(kind, StrEnum):
        return st.sampled_from(list(kind))
    return _of_plain(kind, known)


def _of_plain(kind: type, known: Fact) -> st.SearchStrategy[Any]:
    if kind is Text:
        return texts()
    if kind is str:
        return _plain_text(known)
    if kind is dt.date:
        return st.dates(dt.date(1000, 1, 1))
    return st.booleans() if kind is bool else _number(kind, known)


def _is_endless(cls: type[Node]) -> bool:
    """Whether a noun must hold others of its own union, and so never ends by itself."""
    return cls.__name__ in ("AllOf", "AnyOf", "Either")


@cache
def _parts(
    cls: type[Node], depth: int, strange: bool
) -> tuple[dict[str, st.SearchStrategy[Any]], dict[str, st.SearchStrategy[Any]]]:
    """Strategies of the fields that must be given, and of those that may be."""
    hints = get_type_hints(cls)
    must: dict[str, st.SearchStrategy[Any]] = {}
    may: dict[str, st.SearchStrategy[Any]] = {}
    for field in fields(cls):
        if field.name == "extra":
            continue
        place = must if field.default is attrs.NOTHING else may
        kind, known = _shallow(hints[field.name], depth), fact_of(field)
        place[field.name] = _of_type(kind, known, depth)
    if strange:
        may["extra"] = unknown_fields_of(cls)
    return must, may


@cache
def _chosen(names_of: tuple[str, ...], depth: int) -> st.SearchStrategy[list[str]]:
    """Which of the fields that may be given are."""
    fewest, most = (0, 0) if depth > _DEEPEST else (2, 5) if depth < 4 else (0, 3)
    if not names_of or not most:
        return st.just([])
    fewest = min(fewest, len(names_of))
    return st.lists(st.sampled_from(names_of), unique=True, min_size=fewest, max_size=most)


def _shallow(kind: Any, depth: int) -> Any:
    """Deep down, a union without the members that never end."""
    if depth <= _DEEPEST - 2:
        return kind
    if get_origin(kind) is tuple:
        return tuple[_shallow(get_args(kind)[0], depth), ...]
    if get_origin(kind) in (Union, UnionType):
        kept = [
            part
            for part in get_args(kind)
            if not (isinstance(part, type) and issubclass(part, Node) and _is_endless(part))
        ]
        return Union[tuple(kept)]  # noqa: UP007
    return kind


def unknown_fields_of(cls: type[Node]) -> st.SearchStrategy[Any]:
    """Fields that a noun does not know, frozen as the noun keeps them."""
    known = known_keys(cls)
    keys = names().filter(lambda name: name not in known)
    return st.dictionaries(keys, json_values(), min_size=1, max_size=2).map(freeze)


@cache
def values_of(cls: type[_N], depth: int = 0, *, strange: bool = False) -> st.SearchStrategy[_N]:
    """Values of a noun; ``strange`` ones may also carry unknown fields at the top."""
    rule = RULES.get(cls.__name__)

    @st.composite
    def draw_one(draw: Draw) -> _N:
        must, may = _parts(cls, depth, strange)
        given = {name: draw(part) for name, part in must.items()}
        given |= {name: draw(may[name]) for name in draw(_chosen(tuple(sorted(may)), depth))}
        return cls(**(rule(draw, given) if rule else given))

    return draw_one()
