"""Reads a number of sets, holds or bouts that stands behind its work ("30 s hold x 3")."""

from __future__ import annotations

from authoring.dosage.shorthand_amounts import after_span, read_span, whole_range
from authoring.dosage.shorthand_lexer import Cursor
from authoring.dosage.shorthand_often import frequency_ahead
from authoring.dosage.shorthand_words import SET_WORDS
from authoring.model.base import evolve
from authoring.model.dose import Distance, Duration, Holds, Repetitions, Work
from authoring.model.load import IntRange

_TIMES_WORDS = ("reps", "rep", "times", "holds", "repetitions")


def read_multiple(cursor: Cursor, work: Work | None, words: str) -> Work | None:
    """Work with the number that stands behind it ("10 reps, 3 sets", "30 s hold x 3").

    Args:
        words: the work as it was written; with a multiple of its own it takes no other.

    Returns:
        None, reading nothing, where no such number stands.
    """
    if set(words) & set("x×*✕⨯X") or "set" in words.casefold():
        return None
    behind = cursor.at("x") and cursor.number(1) and not frequency_ahead(cursor, 1)
    place = 1 if behind else 0
    if not cursor.number(place):
        return None
    ahead = after_span(cursor, place)
    if isinstance(work, Repetitions):
        fits = len(work.reps) == 1 and cursor.at(*SET_WORDS, ahead=ahead)
        return evolve(work, sets=_number(cursor)) if fits else None
    if isinstance(work, Holds):
        fits = len(work.hold_s) < 2 and (behind or cursor.at(*_TIMES_WORDS, ahead=ahead))
        return evolve(work, holds=_number(cursor)) if fits else None
    if isinstance(work, Duration | Distance) and behind:
        return evolve(work, bouts=_number(cursor))
    return None


def _number(cursor: Cursor) -> IntRange:
    cursor.take("x")
    number = whole_range(read_span(cursor), least=1)
    cursor.take(*SET_WORDS, *_TIMES_WORDS)
    return number
