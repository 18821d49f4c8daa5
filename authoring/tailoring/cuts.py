"""Ways to take sets off a dose, and the time and counted things that each one takes."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from authoring.dosage.arithmetic.amounts import repetitions
from authoring.dosage.arithmetic.assumptions import USUAL
from authoring.dosage.arithmetic.timing import timing
from authoring.model.base import evolve
from authoring.model.dose import Distance, Dose, Duration, Holds, Repetitions, TotalRepetitions
from authoring.model.load import BodyWeightLoad, IntRange, Load
from authoring.model.pacing import Cap
from authoring.model.vocabulary import CapOf, Period, Side, Sides
from authoring.tailoring.fit import Cut
from authoring.tailoring.place import Place, is_one_sided

UNKNOWN_S = 180
"""Seconds assumed for an exercise whose time can't be computed (common practice, no source)."""


def change_over_s() -> int:
    """Seconds from one exercise to the next, set-up included."""
    return round(sum(USUAL.change_over_s) / 2)


def seconds_of(dose: Dose | None, sides: Sides | None, rounds: int = 1) -> tuple[int, int, bool]:
    """Middle and most seconds of an exercise in a session, and whether they are known.

    The middle of the range is what a plan counts with; the most is what it warns of.

    Args:
        rounds: of its circuit.
    """
    figure = timing(dose, sides).seconds if dose is not None else None
    if figure is None or (figure.high is None and figure.low <= 0):
        return UNKNOWN_S * rounds, UNKNOWN_S * rounds, False
    if figure.high is None:
        low = max(figure.low, UNKNOWN_S)
        return math.ceil(low * rounds), math.ceil(low * rounds), False
    middle = (figure.low + figure.high) / 2
    return math.ceil(middle * rounds), math.ceil(figure.high * rounds), True


def times_of(place: Place) -> int:
    """How often an exercise of one side is done where both sides do it."""
    both = place.side is Side.BOTH and place.entry is not None and is_one_sided(place.entry)
    return 2 if both else 1


def rounds_of(place: Place) -> int:
    """Rounds of the circuit that a place stands in, else 1."""
    block = place.block
    return max(1, block.rounds.top if block is not None and block.rounds is not None else 1)


def shorter(dose: Dose) -> Iterator[tuple[Dose, int]]:
    """The dose as written, then with fewer and fewer sets; each with the sets taken off.

    Within a written range of sets nothing counts as taken off. At least half of what is written
    stays (common practice, no source): with less it is no longer that dose. A dose with a week
    table or several kinds of session is left as it is.
    """
    yield dose, 0
    if dose.weeks or dose.sessions:
        return
    work = dose.work
    match work:
        case Repetitions(sets=sets) | Holds(sets=sets) if sets.top > 1:
            yield from _fewer(dose, "sets", sets)
        case Holds(holds=holds) if not work.holds_by_set and holds.top > 1:
            yield from _fewer(dose, "holds", holds)
        case Duration(bouts=bouts) | Distance(bouts=bouts) if bouts.top > 1:
            yield from _fewer(dose, "bouts", bouts)


def _fewer(dose: Dose, name: str, count: IntRange) -> Iterator[tuple[Dose, int]]:
    for number in range(count.top - 1, -(-count.low // 2) - 1, -1):
        if number < 1:
            return
        changes: dict[str, object] = {name: IntRange(low=number)}
        for listed in ("reps", "holds_by_set", "hold_s"):
            values = getattr(dose.work, listed, ())
            if len(values) > 1 and len(values) == count.top:
                changes[listed] = values[:number]
        loads = tuple(_first_sets(load, number) for load in dose.loads)
        yield (
            evolve(dose, work=evolve(dose.work, **changes), loads=loads),
            max(0, count.low - number),
        )


def _first_sets(load: Load, number: int) -> Load:
    per_set = getattr(load, "per_set", ())
    if isinstance(load, BodyWeightLoad) or len(per_set) <= max(number, 1):
        return load
    return evolve(load, per_set=per_set[:number])


# ---- things that caps count ---------------------------------------------------------------


def use_of(cap: Cap, place: Place, dose: Dose | None, rounds: int, days: int | None) -> float:
    """How much of what a cap counts an exercise takes in the cap's time; 0 where none."""
    if dose is None:
        return 0.0
    once = _in_session(cap.of, place, dose) * rounds
    often = place.often(dose)
    a_day = often.times_per_day.top if often is not None and often.times_per_day else 1
    if cap.per is Period.SESSION:
        return once
    if cap.per is Period.DAY:
        return once * a_day
    week = often.days_per_week.top if often is not None and often.days_per_week else days
    return once * a_day * (week or 7)


def _in_session(of: CapOf, place: Place, dose: Dose) -> float:
    sides = place.entry.sides if place.entry is not None else None
    if of is CapOf.SESSIONS:
        return 0.0  # a session counts once, however many exercises it has
    if of is CapOf.MINUTES:
        return seconds_of(dose, sides)[0] / 60
    work = dose.work
    if of is CapOf.METRES:
        return work.bouts.top * work.metres.top if isinstance(work, Distance) else 0.0
    if isinstance(work, Repetitions | TotalRepetitions) and work.counting.value == of.value:
        figure = repetitions(work)
        return figure.high if figure.high is not None else figure.low
    return 0.0


def cuts_of(
    place: Place, dose: Dose | None, caps: Iterable[Cap], days: int | None, times: int = 1
) -> tuple[tuple[Cut, ...], tuple[Dose | None, ...]]:
    """Ways to do an exercise, and the dose of each, from all its sets to the fewest.

    Args:
        days: days of the plan in a week, None where they are not known.
        times: 2 where both sides do an exercise of one side.
    """
    sides = place.entry.sides if place.entry is not None else None
    rounds = rounds_of(place) * times
    wanted = tuple(caps)
    doses = tuple(shorter(dose)) if dose is not None else ((None, 0),)
    cuts = tuple(
        Cut(
            removed,
            seconds_of(each, sides, rounds)[0] + change_over_s(),
            tuple(use_of(cap, place, each, rounds, days) for cap in wanted),
        )
        for each, removed in doses
    )
    return cuts, tuple(each for each, _ in doses)
