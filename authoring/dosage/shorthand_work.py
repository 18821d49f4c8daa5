"""Reads work from dose shorthand: sets, holds, times, distances and totals."""

from __future__ import annotations

import attrs

from authoring.dosage.shorthand_amounts import (
    Figures,
    at_characters,
    read_figures,
    read_span,
    read_time,
    seconds_of,
    whole_range,
)
from authoring.dosage.shorthand_errors import ShorthandError
from authoring.dosage.shorthand_intervals import read_intervals, read_metres
from authoring.dosage.shorthand_lexer import Cursor
from authoring.dosage.shorthand_often import frequency_ahead
from authoring.dosage.shorthand_words import COUNTING, DISTANCE, MISREAD, SET_WORDS, TIME, UNTIL
from authoring.model.dose import (
    Distance,
    Duration,
    Holds,
    Repetitions,
    TotalRepetitions,
    Work,
)
from authoring.model.load import IntRange
from authoring.model.sentence import say
from authoring.model.vocabulary import Counting, Until

_ONE = IntRange(low=1)


@attrs.define
class _Written:
    """What stands before the unit of work: factors joined by "x", and words among them.

    ``open`` says that something must follow a join and is no number ("3 x to fatigue").
    """

    factors: list[Figures]
    start: int
    counting: Counting | None = None
    sets_last: bool = False
    holds: bool = False
    open: bool = False


# ---- factors --------------------------------------------------------------------


def _take_set_word(cursor: Cursor, written: _Written) -> bool:
    """Pass "sets" after a factor; True where another factor may follow it."""
    if not cursor.take(*SET_WORDS):
        return False
    written.sets_last = len(written.factors) > 1
    written.open = not written.sets_last
    if cursor.at(",") and cursor.number(1):
        cursor.next()
        return True
    return cursor.take("of", "x") or cursor.number()


def _joined(cursor: Cursor, written: _Written) -> bool:
    """Pass whatever joins one factor to the next; True where a join stood there."""
    if written.sets_last:
        return False
    if cursor.at("x") and not frequency_ahead(cursor, 1):
        cursor.next()
        return True
    if cursor.at(*SET_WORDS):
        return _take_set_word(cursor, written)
    word = cursor.at(*COUNTING) or cursor.at("hold", "holds")
    joined = word and cursor.at("x", "of", ahead=1) and cursor.number(2)
    if joined and not frequency_ahead(cursor, 2):
        token = cursor.next()
        written.holds = written.holds or token.key not in COUNTING
        written.counting = COUNTING.get(token.key)
        cursor.next()
        return True
    return False


def _read_factors(cursor: Cursor, first: Figures) -> _Written:
    written = _Written([first], first.start)
    while _joined(cursor, written):
        written.open = not cursor.number()
        if written.open:
            break
        if len(written.factors) == 3:
            raise cursor.fault(
                say("A dose multiplies at most three numbers."),
                say("Write sets x holds x seconds, such as 3 x 10 x 5 s hold."),
            )
        written.factors.append(read_figures(cursor))
    if cursor.at(*SET_WORDS):
        _take_set_word(cursor, written)
    if written.sets_last:
        written.factors.insert(0, written.factors.pop())
    return written


def read_work(cursor: Cursor, first: Figures) -> Work:
    """The work that starts with numbers already read.

    Raises:
        ShorthandError: the numbers and words after them are no work.
    """
    written = _read_factors(cursor, first)
    if cursor.at("("):
        if len(written.factors) > 1:
            raise ShorthandError(
                say("Intervals have one number of rounds before their bracket."),
                written.start,
                written.factors[-1].end,
                say("Write such as 6 x (1 min run / 2 min walk), or leave the brackets out."),
            )
        return read_intervals(cursor, first.one_count(say("The number of rounds")))
    if written.sets_last:
        return _repetitions(cursor, written)
    if cursor.at("hold", "holds"):
        return _open_holds(cursor, written)
    if cursor.at(*TIME) or cursor.at("'"):
        return _timed(cursor, written)
    if cursor.at(*DISTANCE):
        return _distance(cursor, written)
    return _repetitions(cursor, written)


# ---- sets and repetitions ---------------------------------------------------------


def _repetitions(cursor: Cursor, written: _Written) -> Work:
    factors = written.factors
    if len(factors) == 3:
        raise ShorthandError(
            say("It is not said what the third number counts."),
            factors[2].start,
            factors[2].end,
            say("Write its unit, such as '3 x 10 x 5 s hold'."),
        )
    if len(factors) == 2 and not written.sets_last and (written.counting or written.holds):
        raise ShorthandError(
            say("It is not said what the second number counts."),
            factors[1].start,
            factors[1].end,
            say("Write sets first, as in '3 x 10', or a time, as in '10 reps x 5 s hold'."),
        )
    counting = cursor.take_phrase(COUNTING) or written.counting
    until = cursor.take_phrase(UNTIL)
    if written.open and until is None:
        misread = cursor.phrase(MISREAD)
        if misread is not None:
            raise cursor.fault(*misread[1])
        raise ShorthandError(
            say("The repetitions are missing."),
            cursor.end,
            cursor.end,
            say("Write them, as in '3 x 10', or what ends the set, as in '3 x to fatigue'."),
        )
    return _build_repetitions(cursor, written, counting, until)


def _build_repetitions(
    cursor: Cursor,
    written: _Written,
    counting: Counting | None,
    until: Until | None,
) -> Work:
    factors = written.factors
    reps: tuple[IntRange, ...] = () if written.open else factors[-1].counts()
    if written.open or len(factors) == 2:
        sets = factors[0].one_count(say("The number of sets"))
    else:
        _not_days(factors[0])
        sets = IntRange(low=max(1, len(reps)))
    if until is Until.GOOD_FORM and not reps:
        reps = _cap(cursor)
    if len(reps) > 1 and sets.top != len(reps):
        raise ShorthandError(
            say("{n} numbers are listed for {top} sets.", n=len(reps), top=sets.top),
            written.start,
            factors[-1].end,
            say("List one number for each set, or one for all."),
        )
    with at_characters(written.start, cursor.end):
        return Repetitions(
            sets=sets,
            reps=reps,
            counting=counting or Counting.REPETITIONS,
            until=until or Until.COUNT,
        )


def _not_days(figures: Figures) -> None:
    """Refuse "3/7", which clinicians write for three days (2/52 weeks, 6/12 months)."""
    if not figures.slashed or len(figures.items) != 2:
        return
    first, last = (item.low.text for item in figures.items)
    if last in ("7", "52") or (last == "12" and len(first) <= 2 and int(first) <= 12):
        raise figures.fault(
            say(
                "'{first}/{last}' can be two sets, or days, weeks or months.",
                first=first,
                last=last,
            ),
            say(
                "Write '2 x {first}/{last}' for sets, or such as '{first}/wk' for days a week.",
                first=first,
                last=last,
            ),
        )


def _cap(cursor: Cursor) -> tuple[IntRange, ...]:
    """The cap of "as many as good form allows", or none."""
    bracket = 1 if cursor.at("(", ",") else 0
    named = cursor.at("cap", "max", "up", ahead=bracket)
    number = bracket + (2 if cursor.at("to", ahead=bracket + 1) else 1)
    if not (named and cursor.number(number)) or _unit_follows(cursor, number + 1):
        return ()
    opened = cursor.take("(")
    while not cursor.number():
        cursor.next()
    cap = whole_range(read_span(cursor), least=1)
    cursor.take("reps", "rep")
    if opened and not cursor.take(")"):
        raise cursor.fault(say("The bracket is not closed."), say("Write ')' here."))
    return (cap,)


def _unit_follows(cursor: Cursor, ahead: int) -> bool:
    return cursor.at(*TIME, "kg", "lb", "days", "day", "-", "to", ahead=ahead)


def read_until(cursor: Cursor, until: Until) -> Work:
    """One set that ends with an event, whose words have been passed."""
    reps = _cap(cursor) if until is Until.GOOD_FORM else ()
    return Repetitions(reps=reps, until=until)


# ---- holds, times, distances -------------------------------------------------------


def _timed(cursor: Cursor, written: _Written) -> Work:
    factors = written.factors
    seconds = seconds_of(cursor, factors[-1])
    if cursor.take("hold", "holds") or written.holds:
        return _holds(cursor, written, factors[:-1], seconds)
    if len(factors) == 3 or len(seconds) > 1 or written.counting:
        raise ShorthandError(
            say("It is not said that these times are holds."),
            written.start,
            cursor.end,
            say("Write 'hold' after the time, as in '3 x 10 x 5 s hold'."),
        )
    bouts = factors[0].one_count(say("The number of bouts")) if len(factors) == 2 else _ONE
    return Duration(bouts=bouts, seconds=seconds[0])


def _open_holds(cursor: Cursor, written: _Written) -> Work:
    """Holds without a time ("3 x hold to fatigue"); the unit must not be forgotten."""
    token = cursor.next()
    until = cursor.phrase(UNTIL)
    if until is None and cursor.number():
        return _holds(cursor, written, written.factors, seconds_of(cursor, read_figures(cursor)))
    if until is None or not written.open:
        raise ShorthandError(
            say("The unit of the hold is missing."),
            token.start,
            token.start,
            say("Write 's' for seconds or 'min' for minutes, as in '5 x 45 s hold'."),
        )
    return _holds(cursor, written, written.factors, ())


def _holds(
    cursor: Cursor, written: _Written, factors: list[Figures], hold_s: tuple[IntRange, ...]
) -> Work:
    until = cursor.take_phrase(UNTIL)
    if len(factors) > 2:
        raise cursor.fault(say("Holds have sets, holds and a time."), say("Leave out one number."))
    listed = IntRange(low=max(1, len(hold_s)))
    holds = factors[-1].one_count(say("The number of holds")) if factors else listed
    sets = factors[0].one_count(say("The number of sets")) if len(factors) == 2 else _ONE
    if len(hold_s) > 1 and holds.top != len(hold_s):
        raise ShorthandError(
            say("{n} times are listed for {top} holds.", n=len(hold_s), top=holds.top),
            written.start,
            cursor.end,
            say("List one time for each hold, or one for all."),
        )
    with at_characters(written.start, cursor.end):
        return Holds(sets=sets, holds=holds, hold_s=hold_s, until=until or Until.COUNT)


def read_hold(cursor: Cursor, before: Work | None) -> Work:
    """A hold whose word "hold" was passed ("hold 30 s x 5"), or one after repetitions.

    Args:
        before: repetitions that were read already ("3 x 10, hold 5 s"), or None.
    """
    cursor.take("for")
    start = cursor.start
    if cursor.phrase(UNTIL) and before is None:
        return Holds(until=cursor.take_phrase(UNTIL) or Until.COUNT)
    figures = read_figures(cursor)
    if cursor.take("x"):
        return _holds(cursor, _Written([], start), [figures], (read_time(cursor),))
    seconds = seconds_of(cursor, figures)
    if before is None:
        times = [read_figures(cursor)] if cursor.take("x") else []
        return _holds(cursor, _Written([], start), times, seconds)
    return held(before, seconds, start, cursor.end)


def held(before: Work, seconds: tuple[IntRange, ...], start: int, end: int) -> Work:
    """Repetitions that are each held for a time.

    Raises:
        ShorthandError: the work before is not plain repetitions.
    """
    plain = isinstance(before, Repetitions) and (
        len(before.reps) == 1
        and before.until is Until.COUNT
        and before.counting is Counting.REPETITIONS
    )
    if not plain or not isinstance(before, Repetitions) or len(seconds) > 1:
        raise ShorthandError(
            say("This hold does not fit the work before it."),
            start,
            end,
            say("Write sets x holds x time, as in '3 x 10 x 5 s hold'."),
        )
    return Holds(sets=before.sets, holds=before.reps[0], hold_s=seconds)


def _distance(cursor: Cursor, written: _Written) -> Work:
    factors = written.factors
    unit = cursor.peek()
    metres = read_metres(cursor, factors[-1])
    if cursor.at("hold", "holds"):
        raise cursor.fault(say("'m' is metres."), say("Did you mean 'min' (minutes)?"), unit)
    if len(factors) == 3:
        raise ShorthandError(
            say("A distance is multiplied once."),
            written.start,
            cursor.end,
            say("Write bouts x distance, as in '4 x 20 m'."),
        )
    bouts = factors[0].one_count(say("The number of bouts")) if len(factors) == 2 else _ONE
    return Distance(bouts=bouts, metres=metres)


def read_total(cursor: Cursor) -> Work:
    """A total to build up to, after "to" or "total"."""
    total = whole_range(read_span(cursor), least=1)
    counting = cursor.take_phrase(COUNTING) or Counting.REPETITIONS
    cursor.take("total")
    start = cursor.start
    most = _most_sets(cursor) if cursor.at("in") else None
    until = cursor.take_phrase(UNTIL) or Until.QUALITY
    with at_characters(start, cursor.end):
        return TotalRepetitions(total=total, most_sets=most, counting=counting, until=until)


def _most_sets(cursor: Cursor) -> int:
    cursor.next()
    if cursor.take("up") and not cursor.take("to"):
        raise cursor.fault(say("'up' needs 'to'."), say("Write 'in up to 5 sets'."))
    span = read_span(cursor)
    if span.high is not None:
        raise ShorthandError(
            say("The most sets of a total is one number."),
            span.start,
            span.end,
            say("Write the upper one."),
        )
    if not cursor.take(*SET_WORDS):
        raise cursor.fault(say("'sets' is missing here."), say("Write 'in up to 5 sets'."))
    return whole_range(span, least=1).low
