"""How much of what a stage caps one exercise asks for."""

from __future__ import annotations

from authoring.dosage.arithmetic.amounts import over_sides, repetitions
from authoring.dosage.arithmetic.effective import side_of
from authoring.dosage.arithmetic.figure import ZERO, Figure, Note, covering, of_range
from authoring.dosage.arithmetic.often import Often
from authoring.dosage.arithmetic.timing import timing
from authoring.model.dose import Distance, Dose, Either, Repetitions, TotalRepetitions
from authoring.model.pacing import Cap
from authoring.model.vocabulary import CapOf, Period, Sides


def amount_against(
    cap: Cap, dose: Dose, sides: Sides | None, rounds: Figure, how_often: Often
) -> Figure:
    """What one exercise takes of a cap, in the cap's time; nought where it has none of it.

    A day has as many sessions as the week's sessions on the week's days.

    Args:
        rounds: rounds of its circuit.
        how_often: days and sessions a week.
    """
    if cap.of is CapOf.SESSIONS:
        return _in_time(Figure(1, 1), cap.per, how_often)
    return _in_time(_in_session(cap.of, dose, sides) * rounds, cap.per, how_often)


def _in_time(one: Figure, per: Period, how_often: Often) -> Figure:
    if per is Period.SESSION:
        return one
    if per is Period.WEEK:
        return one * how_often.times
    days, times = how_often.days, how_often.times
    if not days.high or times.high is None:
        return Figure(one.low, None, one.notes | times.notes)
    return one * (times.high / days.high)


def _in_session(what: CapOf, dose: Dose, sides: Sides | None) -> Figure:
    work = dose.work
    if isinstance(work, Either):
        return covering((_in_session(what, each, sides) for each in work.doses), Note.CHOICE)
    times = over_sides(side_of(dose, sides))
    if what is CapOf.MINUTES:
        return timing(dose, sides).seconds * (1 / 60)
    if what is CapOf.METRES:
        if not isinstance(work, Distance):
            return ZERO
        return of_range(work.bouts) * of_range(work.metres) * times
    if isinstance(work, Repetitions | TotalRepetitions) and work.counting.value == what.value:
        return repetitions(work) * times
    return ZERO
