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
from authoring.model.sentence import Sentence, say, say_n, unstopped

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
    sentence: Sentence
    mend: Sentence
    rule: str


Told: TypeAlias = tuple[Sentence, Sentence]
"""What is wrong, and how to mend it."""


def place(parts: Iterable[str | int]) -> str:
    """A path into the data as people write it."""
    text = "".join(f"[{part}]" if isinstance(part, int) else f".{part}" for part in parts)
    return text.removeprefix(".")


# ---- schema -----------------------------------------------------------------------

_PATTERN_WORDS = {
    SLUG: say("lower-case words joined by hyphens, such as heel-raise"),
    UUID: say("a UUID in lower case, such as 3f2b8c1e-0000-4000-8000-000000000001"),
    LANGUAGE_TAG: say("a language tag, such as en or pt-BR"),
    HEX_COLOUR: say("a colour, such as #123F5C"),
    IMAGE_NAME: say("the name of a picture in the images folder"),
    PRINTABLE: say("text without control characters"),
    DAY: say("a day as year-month-day, such as 2026-11-25"),
    DOI: say("a DOI without its web address, such as 10.1000/182"),
    VERSION: say("a version, such as 2 or 1.0.3"),
}

_SECOND = frozenset({"enum", "format"})
"""Rules that say nothing new where another rule of the same place is broken."""

_TYPE_WORDS = {
    "string": say("text"),
    "object": say("an object"),
    "array": say("a list"),
    "integer": say("a whole number"),
    "number": say("a number"),
    "boolean": say("true or false"),
    "null": say("empty"),
}


def _is_type(value: object) -> Sentence:
    match value:
        case None:
            return say("empty (null)")
        case bool():
            return say("true or false")
        case str():
            return say("text")
        case int() | float():
            return say("a number")
        case list():
            return say("a list")
        case _:
            return say("an object")


def brief(value: object) -> str:
    """The value as the file writes it, on one line."""
    text = json.dumps(value, ensure_ascii=False)
    text = "".join(c if c.isprintable() else ascii(c)[1:-1] for c in text)
    return text if len(text) <= 60 else f"{text[:57]}…"


def _type(error: ValidationError) -> Told:
    wanted = error.validator_value
    names = [wanted] if isinstance(wanted, str) else wanted
    words = _TYPE_WORDS[names[0]]
    for name in names[1:]:
        words = say("{one} or {other}", one=words, other=_TYPE_WORDS[name])
    found = _is_type(error.instance)
    return (
        say("this must be {wanted}, and is {found}", wanted=words, found=found),
        say("give {wanted}", wanted=words),
    )


def _enum(error: ValidationError) -> Told:
    allowed = [str(value) for value in error.validator_value]
    near = difflib.get_close_matches(str(error.instance), allowed, n=1)
    sentence = say("{value} is not one of the words allowed here", value=brief(error.instance))
    if near:
        return sentence, say("did you mean {near!r}?", near=near[0])
    return sentence, say("use one of: {allowed}", allowed=", ".join(allowed))


def _pattern(error: ValidationError) -> Told:
    pattern = error.validator_value
    words = _PATTERN_WORDS.get(pattern) or say("text that fits {pattern}", pattern=pattern)
    return (
        say("{value} does not fit", value=brief(error.instance)),
        say("give {wanted}", wanted=words),
    )


def _too_few(what: Callable[[int], Sentence]) -> Callable[[ValidationError], Told]:
    def explain(error: ValidationError) -> Told:
        limit, size = error.validator_value, len(error.instance)
        return (
            say_n(
                "there must be at least {what}, and there is {n}",
                "there must be at least {what}, and there are {n}",
                size,
                what=what(limit),
            ),
            say("give at least {limit}", limit=limit),
        )

    return explain


def _too_many(what: Callable[[int], Sentence]) -> Callable[[ValidationError], Told]:
    def explain(error: ValidationError) -> Told:
        limit, size = error.validator_value, len(error.instance)
        return (
            say_n(
                "there must be at most {what}, and there is {n}",
                "there must be at most {what}, and there are {n}",
                size,
                what=what(limit),
            ),
            say("give at most {limit}", limit=limit),
        )

    return explain


def _items(count: int) -> Sentence:
    return say_n("{n} item", "{n} items", count)


def _characters(count: int) -> Sentence:
    return say_n("{n} character", "{n} characters", count)


def _languages(count: int) -> Sentence:
    return say_n("{n} language", "{n} languages", count)


def _too_low(error: ValidationError) -> Told:
    limit = said(error.validator_value)
    return (
        say(
            "this must be at least {limit}, and is {value}",
            limit=limit,
            value=brief(error.instance),
        ),
        say("give a number at least {limit}", limit=limit),
    )


def _too_high(error: ValidationError) -> Told:
    limit = said(error.validator_value)
    return (
        say(
            "this must be at most {limit}, and is {value}", limit=limit, value=brief(error.instance)
        ),
        say("give a number at most {limit}", limit=limit),
    )


def _const(error: ValidationError) -> Told:
    wanted = error.validator_value
    return (
        say("this must be {wanted!r}, and is {value}", wanted=wanted, value=brief(error.instance)),
        say("write {wanted!r}", wanted=wanted),
    )


def _format(error: ValidationError) -> Told:
    return (
        say("{value} is not a day of the calendar", value=brief(error.instance)),
        say("give a day as year-month-day, such as 2026-11-25"),
    )


_EXPLAIN: dict[str, Callable[[ValidationError], Told]] = {
    "type": _type,
    "enum": _enum,
    "pattern": _pattern,
    "const": _const,
    "minimum": _too_low,
    "maximum": _too_high,
    "minItems": _too_few(_items),
    "maxItems": _too_many(_items),
    "minLength": _too_few(_characters),
    "maxLength": _too_many(_characters),
    "minProperties": _too_few(_languages),
    "format": _format,
}


def _explained(error: ValidationError) -> tuple[Parts, Fault]:
    parts: Parts = tuple(error.absolute_path)
    rule = str(error.validator)
    if rule == "required":
        found = re.match(r"'(.*)' is a required property", error.message)
        name = found.group(1) if found else "a field"
        at = (*parts, name)
        return at, Fault(place(at), say("{name!r} is missing", name=name), say("add it"), rule)
    if "propertyNames" in error.absolute_schema_path:
        sentence = say("{value} is not a language tag", value=brief(error.instance))
        return parts, Fault(place(parts), sentence, say("give a tag such as en or pt-BR"), rule)
    explain = _EXPLAIN.get(rule)
    if explain is None:
        sentence, mend = say("this value can't stand here"), say("change it")
    else:
        sentence, mend = explain(error)
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


_Explainer = jsonschema.validators.extend(  # type: ignore[no-untyped-call]  # it has no stubs
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
        yield at, Fault(place(at), say("this value can't stand here"), say("change it"), "schema")


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
        sentence, mend = unstopped(error.sentence), say("change one of the values it names")
    else:
        sentence, mend = say("this value can't be used"), say("change it")
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
