"""Reads a pace from dose shorthand: a word, a speed, minutes for a kilometre, talking."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Any

from authoring.dosage.shorthand_amounts import after_span, number_range, read_span, value
from authoring.dosage.shorthand_errors import ShorthandError
from authoring.dosage.shorthand_lexer import Cursor
from authoring.dosage.shorthand_words import PACE, SPEED_UNIT, TALK
from authoring.model.load import Load, NumberRange, PaceLoad
from authoring.model.sentence import say


def pace_starts(cursor: Cursor) -> bool:
    """Whether a pace stands there."""
    return _part(cursor) != ""


def _part(cursor: Cursor) -> str:
    """The field of a pace that stands there, or ""."""
    if cursor.phrase(PACE):
        return "word"
    if cursor.phrase(TALK):
        return "can_talk"
    return _numbered_part(cursor) if cursor.number() else ""


def _numbered_part(cursor: Cursor) -> str:
    after = after_span(cursor, 0)
    if cursor.phrase(SPEED_UNIT, after):
        return "speed_km_h"
    clock = cursor.at(":", ahead=1) and cursor.number(2)
    timed = clock and (_per_km(cursor, 3) or _clock_range(cursor))
    if timed or (cursor.at("s", "sec", ahead=after) and _per_km(cursor, after + 1)):
        return "seconds_per_km"
    return ""


def _clock_range(cursor: Cursor) -> bool:
    return cursor.at("-", "to", ahead=3) and cursor.at(":", ahead=5) and _per_km(cursor, 7)


def _per_km(cursor: Cursor, ahead: int) -> bool:
    ahead += 1 if cursor.at("min", ahead=ahead) else 0
    return cursor.at("/", "per", ahead=ahead) and cursor.at("km", ahead=ahead + 1)


def read_pace(cursor: Cursor) -> Load:
    """Every part of a pace that stands there, each once."""
    found: dict[str, Any] = {}
    while (part := _part(cursor)) and part not in found:
        if part == "word":
            found[part] = cursor.take_phrase(PACE)
        elif part == "can_talk":
            found[part] = cursor.take_phrase(TALK)
        elif part == "speed_km_h":
            found[part] = number_range(read_span(cursor))
            cursor.take_phrase(SPEED_UNIT)
        else:
            found[part] = _per_kilometre(cursor)
    return PaceLoad(**found)


def _per_kilometre(cursor: Cursor) -> NumberRange:
    start = cursor.start
    if not cursor.at(":", ahead=1):
        found = number_range(read_span(cursor))
        _pass_per_km(cursor)
        return found
    low = _clock(cursor)
    high = _clock(cursor) if cursor.take("-", "to") else None
    if high is not None and high < low:
        raise ShorthandError(
            say("The range runs backwards."),
            start,
            cursor.end,
            say("Write the shorter time first."),
        )
    _pass_per_km(cursor)
    return NumberRange(low=float(low), high=None if high is None else float(high))


def _pass_per_km(cursor: Cursor) -> None:
    while not cursor.at("km"):
        cursor.next()
    cursor.next()


def _clock(cursor: Cursor) -> Decimal:
    """Seconds of "5:30"."""
    minutes = cursor.next()
    cursor.next()
    seconds = cursor.next()
    whole = minutes.text.isdigit() and len(minutes.text) <= 4
    if not whole or not re.fullmatch("[0-5][0-9]", seconds.text):
        raise ShorthandError(
            say("This is no time of minutes and seconds."),
            minutes.start,
            seconds.end,
            say("Write such as 5:30/km."),
        )
    return value(minutes) * 60 + value(seconds)
