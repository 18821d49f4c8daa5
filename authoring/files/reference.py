"""The format reference (``schemas/README.md``), made from the nouns' own facts."""

from __future__ import annotations

import datetime as dt
import inspect
import types
from collections.abc import Iterator
from enum import StrEnum
from typing import Any, Union, get_args, get_origin, get_type_hints

import attrs

from authoring.files.convert import union_members
from authoring.files.formats import DOCUMENTS, FORMAT_VERSION
from authoring.files.schema import needed_by, schema_name, summary
from authoring.model.base import Fact, Node, fact_of, fields
from authoring.model.text import Text

_PLAIN = {str: "text", int: "whole number", float: "number", bool: "true or false", dt.date: "date"}

_INTRO = f"""# File formats

Generated from the model; do not edit by hand (see DEVELOPERS.md). Format version {FORMAT_VERSION}.

Files are JSON in UTF-8. Each names its `format` and `format_version`. Fields that are not
listed here are kept as they are and reported. **Words** are a string in the file's own
`language`, or a map of BCP 47 tags to strings; in lessons they may hold CommonMark (no raw
HTML, no remote images). An **id** is lower-case words joined by hyphens, unique in its file;
files are known by a UUID. Fields in bold must be given.

| file | schema | holds |
|---|---|---|
"""


def _nouns(cls: type[Node]) -> Iterator[type]:
    """The nouns and vocabularies that a noun's fields are made of, as they are met."""
    for kind in get_type_hints(cls).values():
        yield from _parts(kind)


def _parts(kind: Any) -> Iterator[type]:
    if get_origin(kind) is not None:
        for argument in get_args(kind):
            yield from _parts(argument)
    elif isinstance(kind, type) and issubclass(kind, Node | StrEnum) and kind is not Node:
        yield kind


def all_nouns() -> tuple[type, ...]:
    """Every noun and vocabulary that can stand in a file, documents first."""
    found: dict[type, None] = dict.fromkeys(DOCUMENTS.values())
    waiting: list[type] = list(found)
    while waiting:
        current = waiting.pop(0)
        if issubclass(current, Node):
            fresh = [noun for noun in _nouns(current) if noun not in found]
            found |= dict.fromkeys(fresh)
            waiting += dict.fromkeys(fresh)
    return tuple(found)


def _link(cls: type) -> str:
    return f"[{cls.__name__}](#{cls.__name__.lower()})"


def _kind_words(kind: Any) -> str:
    if get_origin(kind) is tuple:
        return f"list of {_kind_words(get_args(kind)[0])}"
    members = union_members(kind)
    if members:
        return " or ".join(_link(member) for member in members)
    if get_origin(kind) in (Union, types.UnionType):
        return _kind_words(next(m for m in get_args(kind) if m is not types.NoneType))
    if kind is Text:
        return "words"
    return _PLAIN.get(kind) or _link(kind)


def _limits(known: Fact) -> str:
    parts = []
    if known.low is not None:
        parts.append(f"from {known.low:g}")
    if known.high is not None:
        parts.append(f"to {known.high:g}")
    if known.term:
        parts.append(f"a {known.term} term")
    if known.points_to:
        parts.append(f"id of a {known.points_to.replace('_', ' ')}")
    return ", ".join(parts)


def _row(field: attrs.Attribute[Any], kind: Any) -> str:
    known = fact_of(field)
    name = f"**`{field.name}`**" if needed_by(field) else f"`{field.name}`"
    limits = _limits(known)
    words = f"{known.doc} ({limits})" if limits else known.doc
    return f"| {name} | {_kind_words(kind)} | {words.replace('|', '&#124;')} |"


def _noun_section(cls: type[Node]) -> str:
    hints = get_type_hints(cls)
    rows = [_row(field, hints[field.name]) for field in fields(cls) if field.name != "extra"]
    kind = [f"| **`kind`** | `{cls.KIND}` | Tells it apart from others in the same place. |"]
    table = "\n".join([*(kind if cls.KIND else []), *rows])
    prose = inspect.cleandoc(cls.__doc__ or "")
    return (
        f"## {cls.__name__}\n\n{prose}\n\n| field | kind | what it is |\n|---|---|---|\n{table}\n"
    )


def _vocabulary_section(cls: type) -> str:
    values = ", ".join(f"`{member.value}`" for member in cls)  # type: ignore[attr-defined]  # an Enum
    return f"## {cls.__name__}\n\n{summary(cls)} One of {values}.\n"


def reference_page() -> str:
    """The whole page as Markdown."""
    index = "".join(
        f"| `{name}` | [{file}]({file}) | {_link(cls)}: {summary(cls)} |\n"
        for name, cls in DOCUMENTS.items()
        for file in (schema_name(name),)
    )
    sections = [
        _noun_section(noun) if issubclass(noun, Node) else _vocabulary_section(noun)
        for noun in all_nouns()
    ]
    return _INTRO + index + "\n" + "\n".join(sections)
