"""Sets and repetitions of a dose, read and changed one at a time."""

from __future__ import annotations

from authoring.model.base import evolve
from authoring.model.dose import Dose, Repetitions
from authoring.model.load import IntRange, Load, PercentLoad, UnitLoad, WeightLoad


def least_reps(work: Repetitions) -> tuple[int, ...]:
    """The lower end for each set listed, or for all."""
    return tuple(each.low for each in work.reps)


def most_reps(work: Repetitions) -> int | None:
    """The upper end of a range that the sets share, or None."""
    return work.reps[0].high if len(work.reps) == 1 else None


def with_reps(dose: Dose, work: Repetitions, reps: tuple[int, ...]) -> Dose:
    """The dose with other repetitions, one for each set listed or one for all."""
    return evolve(dose, work=evolve(work, reps=tuple(IntRange(low=each) for each in reps)))


def with_sets(dose: Dose, work: Repetitions, sets: int) -> Dose:
    """The dose with another number of sets; a list by set is cut, or its last one repeated.

    Loads listed by set become the first for all, so that the two agree.
    """
    reps = work.reps
    if len(reps) > 1:
        reps = (reps + reps[-1:] * sets)[:sets]
    loads = tuple(_for_all_sets(load) for load in dose.loads)
    return evolve(dose, work=evolve(work, sets=IntRange(low=sets), reps=reps), loads=loads)


def _for_all_sets(load: Load) -> Load:
    if isinstance(load, PercentLoad):
        return evolve(load, per_set=load.per_set[:1])
    if isinstance(load, WeightLoad | UnitLoad):
        return evolve(load, per_set=())
    return load


def first(dose: Dose) -> Dose:
    """The dose of the first week: the lower end of its ranges of sets and repetitions."""
    work = dose.work
    if not isinstance(work, Repetitions):
        return dose
    made = dose
    if work.reps and any(each.high is not None for each in work.reps):
        made = with_reps(dose, work, least_reps(work))
    low = made.work
    if isinstance(low, Repetitions) and low.sets.high is not None and len(low.reps) < 2:
        made = evolve(made, work=evolve(low, sets=IntRange(low=low.sets.low)))
    return made
