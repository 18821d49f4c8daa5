"""Sets and counts of one side in one session, for every kind of work."""

from __future__ import annotations

from collections.abc import Callable

from authoring.dosage.arithmetic.figure import (
    ZERO,
    Figure,
    Note,
    between,
    covering,
    of_range,
    total,
    unknown,
)
from authoring.model.dose import (
    Distance,
    Duration,
    Either,
    Holds,
    Intervals,
    LeftOpen,
    Repetitions,
    TotalRepetitions,
    Work,
)
from authoring.model.load import IntRange
from authoring.model.vocabulary import Counting, Sides, Until

LANDINGS = frozenset({Counting.CONTACTS, Counting.JUMPS, Counting.HOPS})
"""What is counted as a contact of the foot with the ground."""

_TWICE = frozenset({Sides.EACH, Sides.AFFECTED_THEN_OTHER})


def over_sides(sides: Sides | None) -> Figure:
    """How often the count of one side is done in all."""
    if sides in _TWICE:
        return Figure(2, 2)
    if sides is Sides.ALTERNATE:
        return between(1, 2, Note.ALTERNATE)
    return Figure(1, 1)


def counted(span: IntRange | None, until: Until) -> Figure:
    """The count or seconds of one set or hold, by what ends it."""
    if until is Until.COUNT and span is not None:
        return of_range(span)
    if span is None:
        return unknown(Note.UNTIL_FATIGUE)
    if until is Until.FATIGUE:
        return Figure(span.low, None, frozenset({Note.UNTIL_FATIGUE}))
    if span.high is not None:
        return of_range(span)
    return between(min(1, span.low), span.low, Note.CAP_ONLY)


def _over_choice(work: Either, figure: Callable[[Work], Figure]) -> Figure:
    return covering((figure(dose.work) for dose in work.doses), Note.CHOICE)


def sets(work: Work) -> Figure:
    """Sets, bouts or rounds of intervals in one session."""
    match work:
        case (
            Repetitions(sets=count)
            | Holds(sets=count)
            | Duration(bouts=count)
            | Distance(bouts=count)
        ):
            return of_range(count)
        case Intervals():
            return of_range(work.sets) * of_range(work.rounds)
        case TotalRepetitions(most_sets=most):
            return Figure(1, most, frozenset({Note.SETS_OPEN}))
        case Either():
            return _over_choice(work, sets)
    return unknown(Note.LEFT_OPEN)


def reps_by_set(work: Repetitions) -> tuple[Figure, ...] | None:
    """The count of each set in order; None where the number of sets is a range."""
    if work.sets.low != work.sets.top and len(work.reps) < 2:
        return None
    number = work.sets.top
    spans = work.reps if len(work.reps) > 1 else (work.reps or (None,)) * number
    found = [counted(span, work.until) for span in spans]
    if work.last_set_until is not None and found:
        found[-1] = _last(found[-1], work.last_set_until)
    return tuple(found)


def _last(usual: Figure, until: Until) -> Figure:
    """The last set, where it goes on for as long as it can."""
    if until is Until.COUNT:
        return usual
    return Figure(usual.low, None, usual.notes | {Note.UNTIL_FATIGUE})


def _of_sets(work: Repetitions) -> Figure:
    listed = reps_by_set(work)
    if listed is not None:
        return total(listed)
    each = counted(work.reps[0] if work.reps else None, work.until)
    every = of_range(work.sets) * each
    return every if work.last_set_until is None else _last(every, work.last_set_until)


def repetitions(work: Work) -> Figure:
    """What is counted, of one side in one session; nought for work that is not counted.

    Left open is unknown. With a choice, the figure covers every one.
    """
    match work:
        case Repetitions():
            return _of_sets(work)
        case TotalRepetitions(total=span):
            return of_range(span)
        case Either():
            return _over_choice(work, repetitions)
        case LeftOpen():
            return unknown(Note.LEFT_OPEN)
    return ZERO


def contacts(work: Work) -> Figure:
    """Landings of one side in one session: contacts, jumps and hops."""
    match work:
        case Repetitions() | TotalRepetitions() if work.counting not in LANDINGS:
            return ZERO
        case Either():
            return _over_choice(work, contacts)
    return repetitions(work)


def holds(work: Work) -> Figure:
    """Holds of one side in one session; nought for work that is none."""
    match work:
        case Holds() if work.holds_by_set:
            return total(of_range(each) for each in work.holds_by_set)
        case Holds():
            return of_range(work.sets) * of_range(work.holds)
        case Either():
            return _over_choice(work, holds)
        case LeftOpen():
            return unknown(Note.LEFT_OPEN)
    return ZERO
