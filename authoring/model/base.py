"""What every noun shares: frozen classes whose fields carry their own facts.

A field is declared with :func:`fact`, which keeps its description and limits in
the attrs metadata. The constructor enforces the limits, the JSON Schemas state
them and the reference page prints them, all from this one place.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from functools import cache
from typing import Any, ClassVar, TypeVar, cast, dataclass_transform

import attrs
from immutabledict import immutabledict

from authoring.model.sentence import Sentence, say

SLUG = r"^[a-z0-9]+(-[a-z0-9]+)*$"
"""Ids inside a file and file names: lower-case words joined by hyphens."""

UUID = r"^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$"
"""Ids of files."""

LANGUAGE_TAG = r"^[a-z]{2,3}(-[A-Z][a-z]{3})?(-[A-Z]{2}|-[0-9]{3})?$"
"""The BCP 47 (RFC 5646) tags in use: language, then script, then region."""

DOI = r"^10\.[0-9]{4,9}/[!-~]+$"
"""Digital object identifiers (ISO 26324) without their web address, in ASCII as all are issued."""

VERSION = r"^[0-9]+(\.[0-9]+){0,2}$"

HEX_COLOUR = r"^#[0-9A-Fa-f]{6}$"

IMAGE_NAME = r"^[0-9a-f]{64}\.(png|jpg)$"
"""A picture in the library's ``images`` folder: SHA-256 of its bytes, then its kind."""

PRINTABLE = r"^[^\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]*$"
"""No character that XML 1.0 forbids, so that every text can be printed in every format."""

LONGEST_TEXT = 20_000
"""Characters in one text: some ten printed pages."""


class ModelError(ValueError):
    """A value no noun can hold.

    ``field`` names the field, or is "" where the value as a whole is meant; the message is
    one sentence.
    """

    def __init__(self, field: str, sentence: Sentence) -> None:
        super().__init__(field, sentence)
        self.field = field
        self.sentence = sentence

    def __str__(self) -> str:
        return self.sentence

    @property
    def whole(self) -> Sentence:
        """All that is said of it; other rooms' errors have a mend to add."""
        return self.sentence


@attrs.frozen
class Fact:
    """What is known about a field.

    Attributes:
        doc: one sentence for the reference page and for forms.
        low, high: inclusive limits of a number.
        pattern: regular expression of a text (ECMA 262 and Python alike).
        longest: most characters of a text, or most items of a list.
        fewest: fewest items of a list, or characters of a text.
        term: kind of term the id refers to ("kit", "demand"), or "".
        points_to: what else the id refers to ("variant", "entry", "reference"), or "".
    """

    doc: str
    low: float | None = None
    high: float | None = None
    pattern: str = ""
    longest: int | None = None
    fewest: int = 0
    term: str = ""
    points_to: str = ""


_FACT = "fact"


def fact_of(attribute: attrs.Attribute[Any]) -> Fact:
    """The facts of an attrs field of a :class:`Node`."""
    found: Fact = attribute.metadata[_FACT]
    return found


def said(number: float) -> str:
    """A number as people write it: no exponent and no trailing nought."""
    return f"{number:.12g}"


def _number_fault(known: Fact, value: float) -> Sentence | None:
    if not math.isfinite(value):
        return say("must be a finite number")
    if known.low is not None and value < known.low:
        return say("must be at least {low}, and is {value}", low=said(known.low), value=said(value))
    if known.high is not None and value > known.high:
        return say(
            "must be at most {high}, and is {value}", high=said(known.high), value=said(value)
        )
    return None


@cache
def _matcher(pattern: str) -> Callable[[str], re.Match[str] | None]:
    return re.compile(pattern).fullmatch


def _text_fault(known: Fact, value: str) -> Sentence | None:
    if known.longest is not None and len(value) > known.longest:
        return say(
            "must have at most {most} characters, and has {has}", most=known.longest, has=len(value)
        )
    if len(value) < known.fewest:
        return say("must not be empty")
    if not _matcher(PRINTABLE)(value):
        return say("holds a control character that can't be printed")
    if known.pattern and not _matcher(known.pattern)(value):
        return say(
            "is {value!r}, which does not fit {pattern}", value=value[:60], pattern=known.pattern
        )
    return None


def _list_fault(known: Fact, value: tuple[Any, ...]) -> Sentence | None:
    if len(value) < known.fewest:
        return say(
            "must have at least {fewest} items, and has {has}", fewest=known.fewest, has=len(value)
        )
    if known.longest is not None and len(value) > known.longest:
        return say(
            "must have at most {most} items, and has {has}", most=known.longest, has=len(value)
        )
    if not value or type(value[0]) is not str:
        return None
    each = Fact(known.doc, pattern=known.pattern)
    wrong = next((w for item in value if (w := _text_fault(each, item))), None)
    return None if wrong is None else say("holds an item that {wrong}", wrong=wrong)


def fault(known: Fact, value: object) -> Sentence | None:
    """What is wrong with ``value`` for a field with these facts, or None if nothing is."""
    if isinstance(value, bool) or value is None:
        return None
    if isinstance(value, int | float):
        return _number_fault(known, value)
    if isinstance(value, str):
        return _text_fault(known, value)
    if isinstance(value, tuple):
        return _list_fault(known, value)
    return None


_CHECKED = frozenset({str, int, float, tuple})
"""Types with limits of their own; enums, nouns, texts and dates bring theirs along."""


def _validate(instance: object, attribute: attrs.Attribute[Any], value: object) -> None:
    if type(value) not in _CHECKED:
        return
    wrong = fault(fact_of(attribute), value)
    if wrong:
        raise ModelError(attribute.name, say("{field} {wrong}.", field=attribute.name, wrong=wrong))


def fact(
    doc: str,
    *,
    default: Any = attrs.NOTHING,
    factory: Callable[[], Any] | None = None,
    kw_only: bool = True,
    **facts: Any,
) -> Any:
    """Declare a field with its description and limits.

    Args:
        doc: one sentence; units belong in it or in the field's name.
        default, factory: as for ``attrs.field``.
        facts: the other attributes of :class:`Fact`.
    """
    settings: dict[str, Any] = {"factory": factory} if factory else {"default": default}
    return attrs.field(
        **settings, kw_only=kw_only, validator=_validate, metadata={_FACT: Fact(doc, **facts)}
    )


_C = TypeVar("_C", bound=type)


@dataclass_transform(frozen_default=True, kw_only_default=True, field_specifiers=(fact,))
def node(cls: _C) -> _C:
    """Make a class an immutable noun: frozen, compared by value, keyword-only."""
    made: _C = attrs.frozen(cls, kw_only=True, slots=True)
    return made


Json = None | bool | int | float | str | tuple["Json", ...] | Mapping[str, "Json"]


@node
class Node:
    """Base of every noun that stands as a JSON object in a file.

    ``KIND`` is the value of the object's ``kind`` where several nouns may stand in
    one place, and "" elsewhere.
    """

    KIND: ClassVar[str] = ""

    extra: Mapping[str, Json] = fact(
        "Fields this version does not know, carried through untouched.",
        default=immutabledict(),
    )


_V = TypeVar("_V")


def fields(cls: type[Node]) -> tuple[attrs.Attribute[Any], ...]:
    """The fields of a noun, in the order of its class, ``extra`` included."""
    found: tuple[attrs.Attribute[Any], ...] = attrs.fields(cast(Any, cls))
    return found


def evolve(value: _V, /, **changes: Any) -> _V:
    """A copy of an immutable value with some fields changed.

    Raises:
        ModelError: a new value is outside its field's limits.
    """
    changed: _V = attrs.evolve(cast(Any, value), **changes)
    return changed


def slug(doc: str, **facts: Any) -> Any:
    """Declare an id that is unique in its file, or a reference to one."""
    return fact(doc, pattern=SLUG, longest=80, **facts)


def slugs(doc: str, **facts: Any) -> Any:
    """Declare a list of ids, empty unless given."""
    return fact(doc, default=(), pattern=SLUG, longest=500, **facts)


def uuid(doc: str, **facts: Any) -> Any:
    """Declare a file id."""
    return fact(doc, pattern=UUID, **facts)


def many(doc: str, **facts: Any) -> Any:
    """Declare a list that is empty unless given; at most 500 items unless stated."""
    return fact(doc, default=(), **{"longest": 500, **facts})


def optional(doc: str, **facts: Any) -> Any:
    """Declare a field that may be left out (None)."""
    return fact(doc, default=None, **facts)
