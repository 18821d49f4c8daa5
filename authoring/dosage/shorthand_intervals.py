"""Reads distances and intervals from dose shorthand ("6 x (1 min run / 2 min walk)")."""

from __future__ import annotations

from authoring.dosage.shorthand_amounts import (
    Figures,
    Span,
    at_characters,
    read_span,
    read_unit,
    seconds_of,
)
from authoring.dosage.shorthand_errors import ShorthandError
from authoring.dosage.shorthand_lexer import Cursor
from authoring.dosage.shorthand_loads import read_load
from authoring.dosage.shorthand_words import DISTANCE, PART_ROLE
from authoring.model.dose import Interval, Intervals
from authoring.model.load import IntRange, NumberRange
from authoring.model.sentence import say
from authoring.model.text import Text
from authoring.model.vocabulary import IntervalRole

_MOST_PARTS = 20

_UNCLEAR_METRES = 10
"""Below this an 'm' in intervals may be meant as minutes."""


def read_metres(cursor: Cursor, figures: Figures) -> NumberRange:
    """The distance of numbers already read; its unit stands at the cursor."""
    found = figures.one_number(say("The distance"), read_unit(cursor, DISTANCE, say("distance")))
    if found.low <= 0:
        raise figures.fault(say("A dose of nothing is no dose."), say("Write the distance."))
    return found


def read_intervals(cursor: Cursor, rounds: IntRange) -> Intervals:
    """Intervals whose bracket stands at the cursor."""
    cursor.next()
    parts: list[Interval] = []
    while True:
        usual = IntervalRole.RECOVER if len(parts) % 2 else IntervalRole.WORK
        parts.append(read_part(cursor, usual))
        if len(parts) > _MOST_PARTS - 1:
            raise cursor.fault(
                say("The intervals have too many parts."), say("Write fewer than 20.")
            )
        if not (cursor.take("/", ",", "+") or cursor.take("then")):
            break
    if not cursor.take(")"):
        raise cursor.fault(say("The bracket is not closed."), say("Write ')' after the last part."))
    return Intervals(rounds=rounds, parts=tuple(parts))


def read_part(cursor: Cursor, usual: IntervalRole) -> Interval:
    """One part of intervals: an amount, what is done, and its loads.

    Args:
        usual: the role where none is written.
    """
    role = cursor.take_phrase(PART_ROLE) or usual
    start = cursor.start
    span = read_span(cursor)
    seconds = metres = None
    if cursor.at(*DISTANCE):
        metres = _part_metres(cursor, span)
    else:
        seconds = seconds_of(cursor, Figures((span,)))[0]
    activity = cursor.free_words()
    if not activity or not activity[0].isalpha():
        raise ShorthandError(
            say("It is not said what is done in this part."),
            start,
            cursor.end,
            say("Write it after the time or distance, as in '1 min run'."),
        )
    loads = []
    while cursor.take("@"):
        loads.append(read_load(cursor))
    with at_characters(start, cursor.end):
        return Interval(
            role=role,
            activity=Text.plain(activity),
            seconds=seconds,
            metres=metres,
            loads=tuple(loads),
        )


def _part_metres(cursor: Cursor, span: Span) -> NumberRange:
    unit = cursor.peek()
    metres = read_metres(cursor, Figures((span,)))
    if unit.key == "m" and metres.low < _UNCLEAR_METRES:
        raise cursor.fault(
            say("'m' is metres, and this is a very short way."),
            say("Write 'min' for minutes, or 'metres'."),
            unit,
        )
    return metres
