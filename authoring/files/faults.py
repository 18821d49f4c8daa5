"""Every fault of a file at once: where it is, one sentence, and how to mend it."""

from __future__ import annotations

import difflib
import json
import re
from collections.abc import Callable, Iterable, Iterator
from functools import cache
from itertools import islice
from typing import Any, TypeAlias

import attrs
import jsonschema
import jsonschema_rs
from cattrs import (
    AttributeValidationNote,
    BaseValidationError,
    ClassValidationError,
    IterableValidationError,
)
from jsonschema.exceptions import ValidationError as _SchemaError

from authoring.files.convert import from_json
from authoring.files.formats import DOCUMENTS, Document
from authoring.files.schema import DAY, schema_for
from authoring.model.base import (
    DOI,
    HEX_COLOUR,
    IMAGE_NAME,
    LANGUAGE_TAG,
    PRINTABLE,
    SLUG,
    UUID,
    VERSION,
    ModelError,
    said,
)

ValidationError: TypeAlias = Any
"""jsonschema types the parts of its errors as "maybe unset"; they are always set here."""

_MOST = 200
"""Faults of one file that are reported; a file with more is of another kind altogether."""

Parts: TypeAlias = tuple[str | int, ...]
"""Where something stands in the data: names and positions from the outside in."""


@attrs.frozen
class Fault:
    """One thing wrong with a file.

    Attributes:
        path: place in the data (``stages[1].blocks[0].entries[3].dose``), "" for the whole.
        sentence: what is wrong, without a full stop.
        mend: what to do about it, without a full stop.
        rule: the rule that is broken (a JSON Schema keyword, or "value").
    """

    path: str
    sentence: str
    mend: str
    rule: str


def place(parts: Iterable[str | int]) -> str:
    """A path into the data as people write it."""
    text = "".join(f"[{part}]" if isinstance(part, int) else f".{part}" for part in parts)
    return text.removeprefix(".")


# ---- schema -----------------------------------------------------------------------

_PATTERN_WORDS = {
    SLUG: "lower-case words joined by hyphens, such as heel-raise",
    UUID: "a UUID in lower case, such as 3f2b8c1e-0000-4000-8000-000000000001",
    LANGUAGE_TAG: "a language tag, such as en or pt-BR",
    HEX_COLOUR: "a colour, such as #123F5C",
    IMAGE_NAME: "the name of a picture in the images folder",
    PRINTABLE: "text without control characters",
    DAY: "a day as year-month-day, such as 2026-11-25",
    DOI: "a DOI without its web address, such as 10.1000/182",
    VERSION: "a version, such as 2 or 1.0.3",
}

_SECOND = frozenset({"enum", "format"})
"""Rules that say nothing new where another rule of the same place is broken."""

_TYPE_WORDS = {
    "string": "text",
    "object": "an object",
    "array": "a list",
    "integer": "a whole number",
    "number": "a number",
    "boolean": "true or false",
    "null": "empty",
}


def _is_type(value: object) -> str:
    match value:
        case None:
            return "empty (null)"
        case bool():
            return "true or false"
        case str():
            return "text"
        case int() | float():
            return "a number"
        case list():
            return "a list"
        case _:
            return "an object"


def brief(value: object) -> str:
    """The value as the file writes it, on one line."""
    text = json.dumps(value, ensure_ascii=False)
    text = "".join(c if c.isprintable() else ascii(c)[1:-1] for c in text)
    return text if len(text) <= 60 else f"{text[:57]}…"


def _type(error: ValidationError) -> tuple[str, str]:
    wanted = error.validator_value
    names = [wanted] if isinstance(wanted, str) else wanted
    words = " or ".join(_TYPE_WORDS[name] for name in names)
    return f"this must be {words}, and is {_is_type(error.instance)}", f"give {words}"


def _enum(error: ValidationError) -> tuple[str, str]:
    allowed = [str(value) for value in error.validator_value]
    near = difflib.get_close_matches(str(error.instance), allowed, n=1)
    sentence = f"{brief(error.instance)} is not one of the words allowed here"
    if near:
        return sentence, f"did you mean {near[0]!r}?"
    return sentence, f"use one of: {', '.join(allowed)}"


def _pattern(error: ValidationError) -> tuple[str, str]:
    words = _PATTERN_WORDS.get(error.validator_value, f"text that fits {error.validator_value}")
    return f"{brief(error.instance)} does not fit", f"give {words}"


def _count(word: str, what: str) -> Callable[[ValidationError], tuple[str, str]]:
    def explain(error: ValidationError) -> tuple[str, str]:
        limit, size = error.validator_value, len(error.instance)
        counted = what.removesuffix("s") if limit == 1 else what
        there = "is" if size == 1 else "are"
        sentence = f"there must be {word} {limit} {counted}, and there {there} {size}"
        return sentence, f"give {word} {limit}"

    return explain


def _bound(word: str) -> Callable[[ValidationError], tuple[str, str]]:
    def explain(error: ValidationError) -> tuple[str, str]:
        limit = said(error.validator_value)
        sentence = f"this must be {word} {limit}, and is {brief(error.instance)}"
        return sentence, f"give a number {word} {limit}"

    return explain


_EXPLAIN: dict[str, Callable[[ValidationError], tuple[str, str]]] = {
    "type": _type,
    "enum": _enum,
    "pattern": _pattern,
    "const": lambda error: (
        f"this must be {error.validator_value!r}, and is {brief(error.instance)}",
        f"write {error.validator_value!r}",
    ),
    "minimum": _bound("at least"),
    "maximum": _bound("at most"),
    "minItems": _count("at least", "items"),
    "maxItems": _count("at most", "items"),
    "minLength": _count("at least", "characters"),
    "maxLength": _count("at most", "characters"),
    "minProperties": _count("at least", "languages"),
    "format": lambda error: (
        f"{brief(error.instance)} is not a day of the calendar",
        "give a day as year-month-day, such as 2026-11-25",
    ),
}


def _explained(error: ValidationError) -> tuple[Parts, Fault]:
    parts: Parts = tuple(error.absolute_path)
    rule = str(error.validator)
    if rule == "required":
        found = re.match(r"'(.*)' is a required property", error.message)
        name = found.group(1) if found else "a field"
        at = (*parts, name)
        return at, Fault(place(at), f"{name!r} is missing", "add it", rule)
    if "propertyNames" in error.absolute_schema_path:
        sentence = f"{brief(error.instance)} is not a language tag"
        return parts, Fault(place(parts), sentence, "give a tag such as en or pt-BR", rule)
    explain = _EXPLAIN.get(rule)
    sentence, mend = explain(error) if explain else ("this value can't stand here", "change it")
    return parts, Fault(place(parts), sentence, mend, rule)


def _whole_pattern(_: Any, pattern: str, instance: object, __: Any) -> Iterable[ValidationError]:
    """ECMA 262 ``$`` ends the text; Python's also matches before a last line break."""
    if isinstance(instance, str) and not re.search(pattern.replace("$", r"\Z"), instance):
        yield _SchemaError(f"{instance!r} does not match {pattern!r}")


def _first_items(validator: Any, items: Any, value: object, schema: Any) -> Iterator[Any]:
    """Judge no more items than may stand in the list: the rest is one fault, told once."""
    if isinstance(value, list):
        for index, item in enumerate(value[: schema.get("maxItems")]):
            yield from validator.descend(item, items, path=index)


_Explainer = jsonschema.validators.extend(  # type: ignore[no-untyped-call]
    jsonschema.Draft202012Validator, {"pattern": _whole_pattern, "items": _first_items}
)


@cache
def gate(format_name: str) -> jsonschema_rs.Validator:
    """The fast validator: says whether, and hardly why."""
    return jsonschema_rs.Draft202012Validator(schema_for(format_name), validate_formats=True)


@cache
def explainer(format_name: str) -> Any:
    """The slow validator (jsonschema's), which must agree with the gate and says why."""
    checker = jsonschema.FormatChecker(formats=["date"])
    return _Explainer(schema_for(format_name), format_checker=checker)


def passes_schema(format_name: str, data: object) -> bool:
    """Whether the data fits the schema of the format; the fast gate."""
    return gate(format_name).is_valid(data)


def _gate_found(format_name: str, data: object) -> Iterator[tuple[Parts, Fault]]:
    """The gate's own words, should it ever refuse what the other validator lets pass."""
    for error in islice(gate(format_name).iter_errors(data), _MOST):
        at = tuple(error.instance_path)
        yield at, Fault(place(at), "this value can't stand here", "change it", "schema")


def _schema_found(format_name: str, data: object) -> list[tuple[Parts, Fault]]:
    found = list(islice(explainer(format_name).iter_errors(data), 10 * _MOST))
    # Told once is enough: what is no text need not also be told that it is no day.
    told = {tuple(error.absolute_path) for error in found if error.validator not in _SECOND}
    return [
        _explained(error)
        for error in found
        if error.validator not in _SECOND or tuple(error.absolute_path) not in told
    ]


# ---- values -----------------------------------------------------------------------


def _leaves(error: BaseException, at: Parts) -> Iterator[tuple[Parts, BaseException]]:
    """The single errors inside cattrs' group, each with its place."""
    if not isinstance(error, ClassValidationError | IterableValidationError):
        yield at, error
        return
    noted, bare = error.group_exceptions()
    for inner, note in noted:
        step: str | int = note.name if isinstance(note, AttributeValidationNote) else note.index
        yield from _leaves(inner, (*at, step))
    for inner in bare:
        yield from _leaves(inner, at)


def _value_fault(at: Parts, error: BaseException) -> tuple[Parts, Fault]:
    if isinstance(error, ModelError):
        at = (*at, error.field) if error.field else at
        sentence, mend = error.sentence.rstrip("."), "change one of the values it names"
    else:
        sentence, mend = "this value can't be used", "change it"
    return at, Fault(place(at), sentence, mend, "value")


def _value_found(cls: type[Document], data: object) -> list[tuple[Parts, Fault]]:
    """Faults between fields, which no schema can state (an upper end below the lower)."""
    try:
        from_json(cls, data, detailed=True)
    except BaseValidationError as error:
        return [_value_fault(at, leaf) for at, leaf in islice(_leaves(error, ()), 10 * _MOST)]
    return []


# ---- both -------------------------------------------------------------------------


def _in_file(data: Any, parts: Parts) -> list[int]:
    """Where a place stands in the order of the file; what is missing stands first."""
    order: list[int] = []
    for part in parts:
        if isinstance(data, dict) and part in data:
            order.append(list(data).index(str(part)))
        elif isinstance(data, list) and isinstance(part, int) and part < len(data):
            order.append(part)
        else:
            return [*order, -1]
        data = data[part]
    return order


def _overlap(one: Parts, other: Parts) -> bool:
    shorter = min(len(one), len(other))
    return one[:shorter] == other[:shorter]


def faults(format_name: str, data: object) -> tuple[Fault, ...]:
    """Every fault of the data of a file of this format, in the order of the file.

    Empty if there is none. Where the schema already objects, a rule between fields of the
    same place is not judged; nor is any in a file with lists that are too long.
    """
    passes = passes_schema(format_name, data)
    found = [] if passes else _schema_found(format_name, data)
    faulty = [at for at, _ in found]
    if not any(fault.rule == "maxItems" for _, fault in found):
        found += [
            (at, fault)
            for at, fault in _value_found(DOCUMENTS[format_name], data)
            if not any(_overlap(at, other) for other in faulty)
        ]
    if not found and not passes:
        found = list(_gate_found(format_name, data))
    found.sort(key=lambda each: _in_file(data, each[0]))
    return tuple(dict.fromkeys(fault for _, fault in found[:_MOST]))
