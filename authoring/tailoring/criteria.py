"""Criteria against dated facts: met, not met, or not tested. What is not tested is never met."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Mapping, Sequence
from enum import StrEnum

from attrs import frozen
from immutabledict import immutabledict

from authoring.model.criterion import AllOf, AnyOf, Criterion, InWords, Measured, TimePassed
from authoring.model.patient import Presentation, StageSoFar, TestResult
from authoring.model.vocabulary import (
    Better,
    Comparator,
    Side,
    SideComparison,
    Since,
    Unit,
    WindowKind,
)
from authoring.tailoring.facts import other_side


class Verdict(StrEnum):
    """What is known of a criterion."""

    MET = "met"
    NOT_MET = "not_met"
    NOT_TESTED = "not_tested"


_SCALES: tuple[Mapping[Unit, float], ...] = (
    immutabledict({Unit.KILOGRAMS: 1.0, Unit.POUNDS: 0.45359237}),
    immutabledict(
        {
            Unit.CENTIMETRES: 0.01,
            Unit.METRES: 1.0,
            Unit.KILOMETRES: 1000.0,
            Unit.FEET: 0.3048,
            Unit.YARDS: 0.9144,
        }
    ),
    immutabledict({Unit.SECONDS: 1.0, Unit.MINUTES: 60.0}),
    immutabledict({Unit.DAYS: 1.0, Unit.WEEKS: 7.0}),
)
"""Units that can be turned into each other (pound, foot, yard: NIST SP 811)."""


def converted(value: float, unit: Unit, wanted: Unit) -> float | None:
    """A value in another unit; None where the two measure different things."""
    if unit is wanted:
        return value
    for scale in _SCALES:
        if unit in scale and wanted in scale:
            return value * scale[unit] / scale[wanted]
    return None


@frozen
class Known:
    """Facts that criteria are judged by.

    Attributes:
        presentation: tests, criteria seen, dates and stages so far.
        protocol: id of the protocol that sets the criteria.
        side: affected side that is judged.
        today: results after it are not used.
        valid_days: days for which a result counts; a baseline counts for ever.
    """

    presentation: Presentation
    protocol: str
    side: Side
    today: dt.date
    valid_days: int

    def is_fresh(self, day: dt.date) -> bool:
        """Whether something of this day still counts."""
        return 0 <= (self.today - day).days <= self.valid_days

    @property
    def so_far(self) -> StageSoFar | None:
        """The stage of the protocol that the patient is in, on this side."""
        mine = [s for s in self.presentation.stages if s.protocol == self.protocol]
        own = [s for s in mine if s.side is self.side]
        return next(iter((*own, *(s for s in mine if s.side in (Side.NONE, Side.BOTH)))), None)


def judge(criterion: Criterion, known: Known) -> Verdict:
    """What is known of a criterion."""
    match criterion:
        case Measured():
            return _measured(criterion, known)
        case InWords():
            return _seen(criterion, known)
        case TimePassed():
            return _time(criterion, known)
        case AllOf():
            return _at_least(len(criterion.parts), criterion.parts, known)
        case AnyOf():
            return _at_least(criterion.at_least, criterion.parts, known)


def _at_least(wanted: int, parts: Iterable[Criterion], known: Known) -> Verdict:
    verdicts = [judge(part, known) for part in parts]
    if verdicts.count(Verdict.MET) >= wanted:
        return Verdict.MET
    possible = len(verdicts) - verdicts.count(Verdict.NOT_MET)
    return Verdict.NOT_TESTED if possible >= wanted else Verdict.NOT_MET


def _seen(criterion: InWords, known: Known) -> Verdict:
    found = [
        seen
        for seen in known.presentation.seen
        if seen.protocol == known.protocol
        and seen.criterion == criterion.id
        and (seen.side in (Side.NONE, Side.BOTH, known.side) or known.side is Side.NONE)
        and known.is_fresh(seen.date)
    ]
    if not found:
        return Verdict.NOT_TESTED
    last = max(seen.date for seen in found)
    met = all(seen.met for seen in found if seen.date == last)
    return Verdict.MET if met else Verdict.NOT_MET


def _time(criterion: TimePassed, known: Known) -> Verdict:
    passed = _passed(criterion, known)
    if passed is None:
        return Verdict.NOT_TESTED
    return Verdict.MET if passed >= criterion.at_least else Verdict.NOT_MET


def _passed(criterion: TimePassed, known: Known) -> float | None:
    """Days, weeks or sessions since the event; None where that is not known."""
    so_far = known.so_far
    in_stage = criterion.since is Since.STAGE_START
    if criterion.unit is Unit.SESSIONS:
        if so_far is None or criterion.since in (Since.INJURY, Since.OPERATION):
            return None
        return so_far.sessions_done if in_stage else so_far.sessions_in_all
    day = {
        Since.INJURY: known.presentation.injured,
        Since.OPERATION: known.presentation.operated,
        Since.STAGE_START: so_far.began if so_far is not None else None,
        Since.PROGRAMME_START: so_far.programme_began if so_far is not None else None,
    }[criterion.since]
    if day is None or day > known.today:
        return None
    days = (known.today - day).days
    return days / 7 if criterion.unit is Unit.WEEKS else days


# ---- measures ----------------------------------------------------------------------------


_Dated = tuple[dt.date, float]
_MOMENTS = frozenset({WindowKind.NOW, WindowKind.DURING, WindowKind.AFTER, WindowKind.NEXT_MORNING})


def _measured(criterion: Measured, known: Known) -> Verdict:
    verdicts = [_window(criterion, values) for values in _values(criterion, known)]
    if Verdict.NOT_MET in verdicts:
        return Verdict.NOT_MET
    return Verdict.NOT_TESTED if Verdict.NOT_TESTED in verdicts else Verdict.MET


def _values(criterion: Measured, known: Known) -> tuple[Sequence[_Dated], ...]:
    """Values to compare, newest last: one series, or one for each side."""
    here, there = known.side, other_side(known.side)
    match criterion.side:
        case SideComparison.OTHER:
            return (_series(criterion, known, there),)
        case SideComparison.EACH:
            return (_series(criterion, known, Side.LEFT), _series(criterion, known, Side.RIGHT))
        case SideComparison.PERCENT_OF_OTHER:
            return (_compared(criterion, known, _percent),)
        case SideComparison.DIFFERENCE_FROM_OTHER:
            return (_compared(criterion, known, lambda one, other, _: abs(one - other)),)
        case SideComparison.PERCENT_OF_BASELINE:
            return (_of_baseline(criterion, known),)
        case _:
            return (_series(criterion, known, here),)


def _series(criterion: Measured, known: Known, side: Side) -> list[_Dated]:
    """Fresh values of a side in the criterion's unit, by day; the worst of each day counts."""
    found = [
        (result.date, value)
        for result in _results(criterion, known, side)
        if known.is_fresh(result.date)
        and (value := converted(result.value, result.unit, criterion.unit)) is not None
    ]
    return _worst_by_day(found, criterion.better)


def _results(criterion: Measured, known: Known, side: Side) -> list[TestResult]:
    window = criterion.window.kind if criterion.window is not None else WindowKind.NOW
    moments = {window} if window in _MOMENTS else _MOMENTS
    return [
        result
        for result in known.presentation.tests
        if result.measure == criterion.measure
        and result.moment in moments
        and (result.side in (Side.NONE, Side.BOTH, side) or side in (Side.NONE, Side.BOTH))
    ]


def _worst_by_day(values: Iterable[_Dated], better: Better) -> list[_Dated]:
    days: dict[dt.date, list[float]] = {}
    for day, value in values:
        days.setdefault(day, []).append(value)
    worst = min if better is Better.HIGHER else max
    return [(day, worst(days[day])) for day in sorted(days)]


def _percent(one: float, other: float, better: Better) -> float | None:
    """Affected as percent of the other; where lower is better the ratio is turned round.

    45 of 50 is 90 % (limb symmetry index: affected / other × 100).
    """
    top, bottom = (one, other) if better is Better.HIGHER else (other, one)
    return top / bottom * 100 if bottom > 0 else None


def _compared(
    criterion: Measured, known: Known, rule: Callable[[float, float, Better], float | None]
) -> list[_Dated]:
    """The affected side's values against the latest one of the other side, unit by unit."""
    if known.side not in (Side.LEFT, Side.RIGHT):
        return []
    results = [r for r in _results(criterion, known, Side.BOTH) if known.is_fresh(r.date)]
    there = other_side(known.side)
    mine = [r for r in results if r.side is known.side]
    theirs = [r for r in results if r.side is there]
    if not mine or not theirs:
        return []
    last = max(theirs, key=lambda r: r.date)
    found: list[_Dated] = []
    for result in mine:
        value = converted(result.value, result.unit, last.unit)
        compared = None if value is None else rule(value, last.value, criterion.better)
        if compared is not None:
            in_unit = _in_unit(compared, last.unit, criterion)
            found += [(result.date, in_unit)] if in_unit is not None else []
    return _worst_by_day(found, _direction(criterion))


def _in_unit(value: float, unit: Unit, criterion: Measured) -> float | None:
    """A difference in the criterion's unit; a percentage has one already."""
    if criterion.side is SideComparison.DIFFERENCE_FROM_OTHER:
        return converted(value, unit, criterion.unit)
    return value


def _direction(criterion: Measured) -> Better:
    """Which value of a day is the worse one for what is compared."""
    at_most = criterion.comparator in (Comparator.AT_MOST, Comparator.BELOW)
    return Better.LOWER if at_most else Better.HIGHER


def _of_baseline(criterion: Measured, known: Known) -> list[_Dated]:
    results = _results(criterion, known, known.side)
    first = [r for r in results if r.baseline and r.date <= known.today]
    if not first:
        return []
    base = max(first, key=lambda r: r.date)
    found: list[_Dated] = []
    for result in results:
        if result.baseline or not known.is_fresh(result.date) or result.date < base.date:
            continue
        value = converted(result.value, result.unit, base.unit)
        share = None if value is None else _percent(value, base.value, criterion.better)
        found += [(result.date, share)] if share is not None else []
    return _worst_by_day(found, _direction(criterion))


# ---- windows -----------------------------------------------------------------------------


def _window(criterion: Measured, values: Sequence[_Dated]) -> Verdict:
    """Whether the newest values are as they must be, for as long as they must be."""
    if not values:
        return Verdict.NOT_TESTED
    kind = criterion.window.kind if criterion.window is not None else WindowKind.NOW
    count = (criterion.window.count if criterion.window is not None else None) or 1
    used = values[-1:]
    if kind in (WindowKind.CONSECUTIVE_SESSIONS, WindowKind.CONSECUTIVE_DAYS):
        used = values[-count:]
    elif kind is WindowKind.LAST_WEEKS:
        newest = values[-1][0]
        used = [each for each in values if (newest - each[0]).days < 7 * count]
    if not all(_holds(criterion, value) for _, value in used):
        return Verdict.NOT_MET
    enough = kind is not WindowKind.CONSECUTIVE_SESSIONS or len(used) == count
    if kind is WindowKind.CONSECUTIVE_DAYS:
        enough = len(used) == count and (used[-1][0] - used[0][0]).days == count - 1
    return Verdict.MET if enough else Verdict.NOT_TESTED


_TOLERANCE = 1e-9


def _holds(criterion: Measured, value: float) -> bool:
    """Whether a value compares as the criterion says, within its bound."""
    return _compares(criterion, value) and not _passes(criterion, value)


def _compares(criterion: Measured, value: float) -> bool:
    gap = value - criterion.value
    match criterion.comparator:
        case Comparator.AT_LEAST:
            return gap >= -_TOLERANCE
        case Comparator.ABOVE:
            return gap > _TOLERANCE
        case Comparator.AT_MOST:
            return gap <= _TOLERANCE
        case Comparator.BELOW:
            return gap < -_TOLERANCE
        case Comparator.EQUALS:
            return abs(gap) <= _TOLERANCE
        case Comparator.BETWEEN:
            high = criterion.high if criterion.high is not None else criterion.value
            return gap >= -_TOLERANCE and value <= high + _TOLERANCE


def _passes(criterion: Measured, value: float) -> bool:
    """Whether a bound is passed: from above where more is wanted, from below where less is."""
    bound = criterion.must_not_pass
    if bound is None:
        return False
    wants_less = criterion.comparator in (Comparator.AT_MOST, Comparator.BELOW)
    wants_less = wants_less or (
        criterion.comparator in (Comparator.EQUALS, Comparator.BETWEEN) and bound < criterion.value
    )
    return value < bound - _TOLERANCE if wants_less else value > bound + _TOLERANCE
