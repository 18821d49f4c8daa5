"""Rules for sets, repetitions and load."""

from __future__ import annotations

from authoring.dosage.progression.amount import amount_of
from authoring.dosage.progression.counts import least_reps, most_reps, with_reps, with_sets
from authoring.dosage.progression.loads import load_step
from authoring.dosage.progression.state import At, Change, Ground
from authoring.dosage.progression.time_rules import by_percent, hold_time, total
from authoring.dosage.progression.told import Told
from authoring.model.dose import Dose, Repetitions, TotalRepetitions

USUAL_MORE_REPS = 2
"""Repetitions added before the load where no ceiling is given; common practice, no source."""

USUAL_SETS = 3
"""Most sets where none are given: 1 to 3 for novices (Ratamess NA et al., 2009; from memory)."""


def ceiling(ground: Ground, written: Dose) -> tuple[int, tuple[Told, ...]]:
    """Repetitions at which the load grows, for the set with the most of them."""
    rule, work = ground.rule, written.work
    if rule.reps_ceiling is not None:
        return rule.reps_ceiling, ()
    if not isinstance(work, Repetitions) or not work.reps:
        return 0, ()
    top = most_reps(work)
    if top is not None:
        return top, ()
    assumed = max(least_reps(work)) + USUAL_MORE_REPS
    told = Told(
        "ceiling-assumed", f"No ceiling is given: the load grows after {assumed} repetitions."
    )
    return assumed, (told,)


def _start_reps(ground: Ground) -> tuple[int, ...] | None:
    work = ground.start.work
    return least_reps(work) if isinstance(work, Repetitions) and work.reps else None


def reps_then_load(at: At, ground: Ground) -> At:
    """One repetition more up to the ceiling; then the load, and back to the first repetitions."""
    work = at.dose.work
    if isinstance(work, TotalRepetitions):
        return total(at, ground)
    if not isinstance(work, Repetitions):
        return hold_time(at, ground)
    top, told = ceiling(ground, ground.start)
    reps = least_reps(work)
    if reps and max(reps) < top:
        more = with_reps(at.dose, work, tuple(each + 1 for each in reps))
        return at.to(more, Change.REPS, *told)
    return load_step(at, ground, _start_reps(ground))


def two_for_two(at: At, ground: Ground) -> At:
    """The load, once two repetitions more were done in the last set of two sessions running.

    Baechle TR, Earle RW, eds., Essentials of Strength Training and Conditioning (NSCA); value
    from memory.
    """
    if not isinstance(at.dose.work, Repetitions):
        return reps_then_load(at, ground)
    return load_step(at, ground, _start_reps(ground))


def percent_step(at: At, ground: Ground) -> At:
    """The load by a percent; the work itself where the load has no amount."""
    if amount_of(at.dose) is None:
        return by_percent(at, ground)
    return load_step(at, ground, _start_reps(ground))


def sets_first(at: At, ground: Ground) -> At:
    """One set more up to the ceiling; then repetitions; then the load, from the first sets."""
    work = at.dose.work
    if not isinstance(work, Repetitions):
        return hold_time(at, ground)
    most = ground.rule.sets_ceiling
    told: tuple[Told, ...] = ()
    if most is None:
        start = ground.start.work
        began = start.sets.low if isinstance(start, Repetitions) else 1
        most = max(USUAL_SETS, began)
        told = (Told("sets-ceiling-assumed", f"No ceiling is given: at most {most} sets."),)
    if work.sets.top < most:
        return at.to(with_sets(at.dose, work, work.sets.top + 1), Change.SETS, *told)
    reps = least_reps(work)
    top = most_reps(ground.start.work) if isinstance(ground.start.work, Repetitions) else None
    top = ground.rule.reps_ceiling or top
    if reps and top is not None and max(reps) < top:
        return at.to(with_reps(at.dose, work, tuple(r + 1 for r in reps)), Change.REPS)
    after = load_step(at, ground, _start_reps(ground))
    if after.change is not Change.LOAD:
        return after
    return after.to(_first_sets(after.dose, ground), Change.LOAD, *after.told)


def _first_sets(dose: Dose, ground: Ground) -> Dose:
    start = ground.start.work
    if not isinstance(dose.work, Repetitions) or not isinstance(start, Repetitions):
        return dose
    return with_sets(dose, dose.work, start.sets.low)
