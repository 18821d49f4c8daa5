"""A lighter week: fewer sets, else less of the work; the load stays."""

from __future__ import annotations

from authoring.dosage.progression.counts import least_reps, with_reps, with_sets
from authoring.dosage.progression.time_rules import longer, longest
from authoring.dosage.progression.told import Told
from authoring.model.base import evolve, said
from authoring.model.dose import (
    Distance,
    Dose,
    Duration,
    Holds,
    Intervals,
    Repetitions,
    TotalRepetitions,
    Work,
)
from authoring.model.load import IntRange, NumberRange

USUAL_PERCENT = 40.0
"""How much less where it is not said: common practice (a third to a half), no source."""


def lighter(dose: Dose, percent: float | None) -> tuple[Dose, tuple[Told, ...]]:
    """The dose of a lighter week, and what was done to it.

    Args:
        percent: how much less is done; None assumes 40 %.
    """
    told = [Told("lighter-week", "A lighter week: it does not count towards a step up.")]
    if percent is None:
        percent = USUAL_PERCENT
        told.append(Told("lighter-assumed", f"{said(percent)} % less work is assumed."))
    keep = 1 - percent / 100
    return _less(dose, keep), tuple(told)


def _part(number: int, keep: float) -> int:
    return max(1, round(number * keep))


def _less(dose: Dose, keep: float) -> Dose:
    work = dose.work
    if isinstance(work, Repetitions):
        return _fewer(dose, work, keep)
    if isinstance(work, Holds):
        return _held(dose, work, keep)
    if isinstance(work, Duration):
        return longer(dose, work, _part(work.seconds.low, keep) - work.seconds.low)
    return evolve(dose, work=_other(work, keep))


def _other(work: Work, keep: float) -> Work:
    match work:
        case TotalRepetitions():
            return evolve(work, total=IntRange(low=_part(work.total.low, keep)))
        case Intervals():
            return evolve(work, rounds=IntRange(low=_part(work.rounds.low, keep)))
        case Distance():
            return evolve(work, metres=NumberRange(low=round(work.metres.low * keep)))
    return work


def _held(dose: Dose, work: Holds, keep: float) -> Dose:
    if work.holds_by_set:
        fewer = tuple(IntRange(low=_part(each.low, keep)) for each in work.holds_by_set)
        return evolve(dose, work=evolve(work, holds_by_set=fewer))
    if work.sets.top > 1:
        return evolve(dose, work=evolve(work, sets=IntRange(low=_part(work.sets.low, keep))))
    if len(work.hold_s) < 2 and work.holds.top > 1:
        return evolve(dose, work=evolve(work, holds=IntRange(low=_part(work.holds.low, keep))))
    if not work.hold_s:
        return dose
    return longer(dose, work, _part(longest(work), keep) - longest(work))


def _fewer(dose: Dose, work: Repetitions, keep: float) -> Dose:
    if work.sets.low > 1:
        return with_sets(dose, work, _part(work.sets.low, keep))
    if not work.reps:
        return dose
    return with_reps(dose, work, tuple(_part(each, keep) for each in least_reps(work)))
