"""The public contract: JSON Schemas (draft 2020-12) made from the nouns' own facts.

``schemas/*.schema.json`` are what :func:`schema_files` returns, committed; a test
fails when they differ. Objects stay open (unknown fields are carried through), and
where several nouns may stand in one place the ``kind`` decides which rules apply.
"""

from __future__ import annotations

import datetime as dt
import types
from collections.abc import Iterable, Mapping
from enum import StrEnum
from typing import Any, TypeAlias, Union, get_args, get_origin, get_type_hints

import attrs

from authoring.files.convert import union_members
from authoring.files.formats import DOCUMENTS, FORMAT_VERSION
from authoring.model.base import LANGUAGE_TAG, LONGEST_TEXT, PRINTABLE, Fact, Node, fact_of, fields
from authoring.model.text import Text

Schema: TypeAlias = dict[str, Any]

DIALECT = "https://json-schema.org/draft/2020-12/schema"
_ID = "urn:rungbook:schema:"
DAY = r"^[1-9][0-9]{3}-[0-9]{2}-[0-9]{2}$"
_WORDS: Schema = {"type": "string", "maxLength": LONGEST_TEXT, "pattern": PRINTABLE}

TEXT_SCHEMA: Schema = {
    "description": "Words in the file's own language, or a map of language tag to words.",
    "type": ["string", "object"],
    "maxLength": LONGEST_TEXT,
    "pattern": PRINTABLE,
    "minProperties": 1,
    "propertyNames": {"pattern": LANGUAGE_TAG},
    "additionalProperties": _WORDS,
}


def schema_name(format_name: str) -> str:
    """File name of the schema of a format: ``rungbook/card`` gives ``card.schema.json``."""
    return f"{format_name.rpartition('/')[2]}.schema.json"


def summary(thing: type) -> str:
    """First paragraph of a class's docstring, on one line."""
    return " ".join((thing.__doc__ or "").strip().split("\n\n", maxsplit=1)[0].split())


def _drop_none(kind: Any) -> Any:
    """A type without None."""
    if get_origin(kind) not in (Union, types.UnionType):
        return kind
    rest = [member for member in get_args(kind) if member is not types.NoneType]
    return rest[0] if len(rest) == 1 else Union[tuple(rest)]  # noqa: UP007


def needed_by(field: attrs.Attribute[Any]) -> bool:
    """Whether a file must give the field."""
    return field.default is attrs.NOTHING


class _Builder:
    """Collects the definitions that one document needs."""

    def __init__(self) -> None:
        self.definitions: dict[str, Schema] = {}

    def reference(self, cls: type) -> Schema:
        name = cls.__name__
        if name not in self.definitions:
            self.definitions[name] = {}  # holds the place while a noun refers to itself
            self.definitions[name] = (
                self.noun(cls) if issubclass(cls, Node) else self.vocabulary(cls)
            )
        return {"$ref": f"#/$defs/{name}"}

    def vocabulary(self, cls: type) -> Schema:
        values = [member.value for member in cls]  # type: ignore[attr-defined]  # an Enum
        return {"description": summary(cls), "type": "string", "enum": values}

    def noun(self, cls: type[Node]) -> Schema:
        hints = get_type_hints(cls)
        properties: Schema = {}
        required: list[str] = []
        if cls.KIND:
            properties["kind"] = {"const": cls.KIND}
            required.append("kind")
        # A document that stands inside another one may say so, and must not say otherwise.
        properties |= _head(cls) if hasattr(cls, "FORMAT") else {}
        for field in fields(cls):
            if field.name == "extra":
                continue
            known = fact_of(field)
            rules = self.of_type(_drop_none(hints[field.name]), known)
            properties[field.name] = {"description": known.doc, **rules}
            if needed_by(field):
                required.append(field.name)
        made: Schema = {"description": summary(cls), "type": "object", "properties": properties}
        return {**made, "required": required} if required else made

    def of_type(self, kind: Any, known: Fact) -> Schema:
        if get_origin(kind) is tuple:
            items = self.of_type(get_args(kind)[0], Fact(known.doc, pattern=known.pattern))
            return {"type": "array", "items": items, **_lengths(known, "Items")}
        members = union_members(kind)
        if members:
            return self.union(members)
        if kind is Text:
            self.definitions["Text"] = TEXT_SCHEMA
            return {"$ref": "#/$defs/Text"}
        if isinstance(kind, type) and issubclass(kind, Node | StrEnum):
            return self.reference(kind)
        return _plain(kind, known)

    def union(self, members: Iterable[type[Node]]) -> Schema:
        """Rules chosen by ``kind``, so that a fault names the field and not the union."""
        kinds = {member.KIND: self.reference(member) for member in members}
        name = f"AnyOf{''.join(part.title() for kind in kinds for part in kind.split('_'))}"
        name = _UNION_NAMES.get(frozenset(kinds), name)
        self.definitions[name] = {
            "type": "object",
            "required": ["kind"],
            "properties": {"kind": {"enum": list(kinds)}},
            "allOf": [
                {
                    "if": {"properties": {"kind": {"const": kind}}, "required": ["kind"]},
                    "then": reference,
                }
                for kind, reference in kinds.items()
            ],
        }
        return {"$ref": f"#/$defs/{name}"}


def _union_names() -> Mapping[frozenset[str], str]:
    from authoring.model import criterion, dose, load  # noqa: PLC0415  (names only)

    named = {"Work": dose.Work, "Load": load.Load, "Criterion": criterion.Criterion}
    return {
        frozenset(member.KIND for member in union_members(union)): name
        for name, union in named.items()
    }


_UNION_NAMES = _union_names()


def _lengths(known: Fact, what: str) -> Schema:
    rules: Schema = {}
    if known.fewest:
        rules[f"min{what}"] = known.fewest
    if known.longest is not None:
        rules[f"max{what}"] = known.longest
    return rules


def _plain(kind: Any, known: Fact) -> Schema:
    if kind is str:
        return {
            "type": "string",
            "pattern": known.pattern or PRINTABLE,
            **_lengths(known, "Length"),
        }
    if kind is dt.date:
        return {"type": "string", "pattern": DAY, "format": "date"}
    if kind is bool:
        return {"type": "boolean"}
    rules: Schema = {"type": "integer" if kind is int else "number"}
    if known.low is not None:
        rules["minimum"] = known.low
    if known.high is not None:
        rules["maximum"] = known.high
    return rules


def _head(cls: type[Node]) -> Schema:
    return {
        # Every document has a FORMAT; a Node need not.
        "format": {"description": "What the file is.", "const": cls.FORMAT},  # type: ignore[attr-defined]
        "format_version": {
            "description": "Version of the format.",
            "type": "integer",
            "minimum": 1,
            "maximum": FORMAT_VERSION,
        },
    }


def schema_for(format_name: str) -> Schema:
    """The schema of one file format."""
    cls = DOCUMENTS[format_name]
    builder = _Builder()
    body = builder.noun(cls)
    return {
        "$schema": DIALECT,
        "$id": f"{_ID}{schema_name(format_name).removesuffix('.schema.json')}:{FORMAT_VERSION}",
        "title": format_name,
        "description": body["description"],
        "type": "object",
        "properties": body["properties"],
        "required": ["format", "format_version", *body["required"]],
        "$defs": dict(sorted(builder.definitions.items())),
    }


def schema_files() -> dict[str, Schema]:
    """Every schema by file name, as committed in ``schemas/``."""
    return {schema_name(name): schema_for(name) for name in DOCUMENTS}
