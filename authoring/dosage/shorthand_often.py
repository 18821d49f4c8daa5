"""Reads how often from dose shorthand: days a week, times a day, hours, days of rest."""

from __future__ import annotations

from authoring.dosage.shorthand_amounts import after_span, read_span, whole_range
from authoring.dosage.shorthand_errors import ShorthandError
from authoring.dosage.shorthand_lexer import Cursor
from authoring.dosage.shorthand_words import DAY, FREQUENCY, WEEK
from authoring.model.load import IntRange
from authoring.model.sentence import say

Often = tuple[str, IntRange | int]
"""A field of Frequency and its value."""

_RANGES = ("times_per_day", "days_per_week")
_LIMITS = {"every_hours": (1, 24), "every_days": (1, 60), "rest_days": (0, 30)}
_HOURS = ("h", "hr", "hrs", "hour", "hours")


def read_often(cursor: Cursor) -> Often | None:
    """One statement of how often, or None, reading nothing, where none stands."""
    named = cursor.take_phrase(FREQUENCY)
    if named is not None:
        field, number = named
        return field, IntRange(low=number) if field in _RANGES else number
    if cursor.number():
        return _number_first(cursor)
    if cursor.at("x") and frequency_ahead(cursor, 1):
        cursor.next()
        return _number_first(cursor)
    return _worded(cursor)


def _worded(cursor: Cursor) -> Often | None:
    if cursor.at("every") and cursor.number(1):
        return _every(cursor)
    if cursor.at("q") and cursor.number(1) and cursor.at(*_HOURS, ahead=2):
        cursor.next()
        found = _single(cursor, "every_hours")
        cursor.next()
        return found
    if cursor.at("max") and cursor.number(1) and cursor.at("day", "days", ahead=2):
        return _running(cursor)
    return None


def frequency_ahead(cursor: Cursor, ahead: int) -> bool:
    """Whether a frequency goes on after an "x" ("x 3/day", "3 x/wk", "3 x daily")."""
    if cursor.number(ahead):
        ahead = after_span(cursor, ahead)
        parted = cursor.at("/", "a", "per", ahead=ahead)
        return parted and cursor.at(*WEEK, *DAY, ahead=ahead + 1)
    return cursor.at("/", "a", "per", *WEEK, *DAY, "weekly", "daily", ahead=ahead)


def _single(cursor: Cursor, field: str) -> Often:
    span = read_span(cursor)
    number = whole_range(span)
    low, high = _LIMITS[field]
    if number.high is not None or not low <= number.low <= high:
        raise ShorthandError(
            say("This must be one number from {low} to {high}.", low=low, high=high),
            span.start,
            span.end,
            say("Write one number."),
        )
    return field, number.low


def _every(cursor: Cursor) -> Often:
    cursor.next()
    after = after_span(cursor, 0)
    if cursor.at("day", "days", ahead=after):
        found = _single(cursor, "every_days")
    elif cursor.at(*_HOURS, ahead=after):
        found = _single(cursor, "every_hours")
    else:
        raise cursor.fault(
            say("The unit after 'every' is missing."),
            say("Write 'days' or 'hours'."),
            cursor.peek(after),
        )
    cursor.next()
    return found


def _running(cursor: Cursor) -> Often:
    cursor.next()
    span = read_span(cursor)
    number = whole_range(span, least=1).low
    cursor.next()
    if not cursor.take_phrase(dict.fromkeys(("running", "in a row", "in row"), True)):
        raise cursor.fault(
            say("It is not said what these days are."), say("Write 'max 3 days running'.")
        )
    if number > 31:
        raise ShorthandError(
            say("Days running are at most 31."),
            span.start,
            span.end,
            say("Write a smaller number."),
        )
    return "most_days_running", number


def _number_first(cursor: Cursor) -> Often | None:
    after = after_span(cursor, 0)
    hyphen = 1 if cursor.at("-", ahead=after) else 0
    if cursor.at("hourly", ahead=after + hyphen):
        span_end = after + hyphen
        found = _single(cursor, "every_hours")
        while span_end > after - 1 and not cursor.at("hourly"):
            cursor.next()
        cursor.next()
        return found
    if cursor.at("rest", ahead=after) and cursor.at("day", "days", ahead=after + 1):
        found = _single(cursor, "rest_days")
        cursor.next()
        cursor.next()
        return found
    return _times_in(cursor, after)


def _times_in(cursor: Cursor, after: int) -> Often | None:
    """ "3/wk", "3 x/wk", "3 days a week", "2/day", "2 x daily", "2 times a day"."""
    ahead = after
    counted = cursor.at("x", "times", "days", "day", ahead=ahead)
    days = cursor.at("days", "day", ahead=ahead)
    if counted:
        ahead += 1
    parted = cursor.at("/", "a", "per", ahead=ahead)
    if parted:
        ahead += 1
    if not (counted or parted):
        return None
    week = cursor.at(*WEEK, "weekly", ahead=ahead)
    day = cursor.at(*DAY, "daily", ahead=ahead) and not days
    if not (week or day):
        return None
    span = read_span(cursor)
    number = whole_range(span, least=1)
    for _ in range(ahead - after + 1):
        cursor.next()
    if week and number.top > 7:
        raise ShorthandError(
            say("A week has 7 days."),
            span.start,
            span.end,
            say("Write days a week, and times a day apart, such as '7/wk, bd'."),
        )
    return ("days_per_week" if week else "times_per_day"), number
