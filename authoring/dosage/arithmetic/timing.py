"""Seconds of one exercise in one session: work, rest and time under tension."""

from __future__ import annotations

from attrs import frozen

from authoring.dosage.arithmetic.amounts import counted, over_sides, repetitions
from authoring.dosage.arithmetic.assumptions import USUAL, Assumptions
from authoring.dosage.arithmetic.effective import side_of
from authoring.dosage.arithmetic.figure import (
    Figure,
    Note,
    covering,
    of_range,
    total,
    unknown,
)
from authoring.dosage.arithmetic.pace import seconds_of_rep, seconds_over
from authoring.dosage.arithmetic.rests import between_sets, inside_sets
from authoring.model.dose import (
    Distance,
    Dose,
    Duration,
    Either,
    Holds,
    Interval,
    Intervals,
    Repetitions,
    TotalRepetitions,
)
from authoring.model.load import Load
from authoring.model.vocabulary import IntervalRole, Sides, Until


@frozen
class Timing:
    """Seconds of one exercise, both sides included.

    Attributes:
        tension: time under tension: the work itself without recovery, warm-up and cool-down
            parts of intervals.
        work: time that is not rest.
        rest: time between sets, holds and rounds; none after the last.
        seconds: work and rest together, cut to the most that the dose allows for a session.
    """

    tension: Figure
    work: Figure
    rest: Figure
    seconds: Figure


def timing(dose: Dose, sides: Sides | None = None, assume: Assumptions = USUAL) -> Timing:
    """Seconds of a dose in one session, as written (its week table is not looked at).

    Where each side works in turn, the other side's work counts as rest at the low end, and
    each side rests on its own at the high end.

    Args:
        sides: side that works, where the dose does not say.
        assume: what is assumed where the dose is silent.
    """
    if isinstance(dose.work, Either):
        found = [timing(each, side_of(dose, sides), assume) for each in dose.work.doses]
        return Timing(
            covering((each.tension for each in found), Note.CHOICE),
            covering((each.work for each in found), Note.CHOICE),
            covering((each.rest for each in found), Note.CHOICE),
            _limited(covering((each.seconds for each in found), Note.CHOICE), dose),
        )
    tension, work = _one_side(dose, assume)
    times = over_sides(side_of(dose, sides))
    rest = inside_sets(dose, work, assume) * times + between_sets(dose, work, times, assume)
    return Timing(tension * times, work * times, rest, _limited(work * times + rest, dose))


def _limited(seconds: Figure, dose: Dose) -> Figure:
    longest = dose.session_limit_min
    return seconds if longest is None else seconds.at_most(longest * 60)


def _one_side(dose: Dose, assume: Assumptions) -> tuple[Figure, Figure]:
    """Seconds under tension and of work, of one side."""
    work = dose.work
    match work:
        case Repetitions() | TotalRepetitions():
            active = repetitions(work) * seconds_of_rep(dose.tempo, work.counting, assume)
        case Holds():
            active = _held(work)
        case Duration(bouts=bouts, seconds=span):
            active = of_range(bouts) * of_range(span)
        case Distance(bouts=bouts, metres=metres):
            active = of_range(bouts) * seconds_over(metres, dose.loads, assume)
        case Intervals():
            return _intervals(work, dose.loads, assume)
        case _:
            active = unknown(Note.LEFT_OPEN)
    return active, active


def _held(work: Holds) -> Figure:
    """Seconds of all holds of one side."""
    if work.until is Until.COUNT and len(work.hold_s) > 1 and not work.holds_by_set:
        return of_range(work.sets) * total(of_range(each) for each in work.hold_s)
    if len(work.hold_s) > 1:
        one_set = total(counted(each, work.until) for each in work.hold_s)
        return of_range(work.sets) * one_set
    each = counted(work.hold_s[0] if work.hold_s else None, work.until)
    if work.holds_by_set:
        return total(of_range(count) for count in work.holds_by_set) * each
    return of_range(work.sets) * of_range(work.holds) * each


def _intervals(
    work: Intervals, loads: tuple[Load, ...], assume: Assumptions
) -> tuple[Figure, Figure]:
    times = of_range(work.sets) * of_range(work.rounds)
    once = (IntervalRole.WARM_UP, IntervalRole.COOL_DOWN)
    active = total(
        _part(part, loads, assume) for part in work.parts if part.role is IntervalRole.WORK
    )
    rounds = total(_part(part, loads, assume) for part in work.parts if part.role not in once)
    ends = total(_part(part, loads, assume) for part in work.parts if part.role in once)
    return active * times, rounds * times + ends


def _part(part: Interval, loads: tuple[Load, ...], assume: Assumptions) -> Figure:
    if part.seconds is not None:
        return of_range(part.seconds)
    if part.metres is not None:
        return seconds_over(part.metres, (*part.loads, *loads), assume)
    return unknown()
