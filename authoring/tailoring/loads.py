"""A dose with the weights that are really at hand."""

from __future__ import annotations

import math

from attrs import frozen

from authoring.model.base import evolve, said
from authoring.model.card import Variant
from authoring.model.dose import Dose, Repetitions
from authoring.model.load import EffortLoad, IntRange, NumberRange, ReserveLoad, WeightLoad
from authoring.model.plan import Reason
from authoring.model.vocabulary import WeightUnit
from authoring.tailoring.facts import Facts
from authoring.tailoring.kit import KG_PER_LB, too_heavy, weights_kg
from authoring.tailoring.reasons import why

LIGHTEST_SHARE = 0.5
"""Share of the written load below which more repetitions no longer make up for it."""

MOST_REPS = 30
"""Most repetitions that a lighter load is made up with.

Both are common practice without a source; about 30 % of the maximum and 30 repetitions are
the least load and most repetitions for which trials near failure found like gains (value
from memory).
"""

_CLOSE = 1e-6


@frozen
class _Found:
    """What the kit makes of one load: the load, the share of what is written, and why."""

    load: WeightLoad
    share: float
    reasons: tuple[Reason, ...]


def with_weights(variant: Variant, dose: Dose, facts: Facts) -> tuple[Dose, tuple[Reason, ...]]:
    """The dose with weights at hand, and reasons.

    A weight within the written range is taken as it is. Where all are lighter and the dose
    says an effort or repetitions in reserve, the repetitions follow it; else the reason says
    that the weight is too light. A heavier weight is never taken.
    """
    dose, by_week = _weeks(variant, dose, facts)
    found = [
        _fitted(variant, load, facts) if isinstance(load, WeightLoad) else None
        for load in dose.loads
    ]
    if not any(found):
        return dose, by_week
    loads = tuple(
        each.load if each is not None else load
        for each, load in zip(found, dose.loads, strict=True)
    )
    reasons = [reason for each in found if each is not None for reason in each.reasons]
    share = min(each.share for each in found if each is not None)
    made = evolve(dose, loads=loads)
    if share < 1 - _CLOSE:
        made, reason = _made_up(made, share)
        reasons.append(reason)
    return made, (*reasons, *by_week)


def _weeks(variant: Variant, dose: Dose, facts: Facts) -> tuple[Dose, tuple[Reason, ...]]:
    """Every row of the week table with weights at hand: never a heavier one than is written."""
    rows = list(dose.weeks)
    short: list[str] = []
    for index, row in enumerate(rows):
        loads = row.change.loads or ()
        found = [
            _fitted(variant, load, facts) if isinstance(load, WeightLoad) else None
            for load in loads
        ]
        if any(found):
            fitted = tuple(
                each.load if each is not None else load
                for each, load in zip(found, loads, strict=True)
            )
            rows[index] = evolve(row, change=evolve(row.change, loads=fitted))
            short += [f"week {row.from_week}"] if any(f and f.share < 1 for f in found) else []
        elif any(too_heavy(variant, loads, facts)):
            short.append(f"week {row.from_week}")
    if not short:
        return evolve(dose, weeks=tuple(rows)) if rows else dose, ()
    text = f"No weight at hand is what the week table asks for in {', '.join(short)}."
    return evolve(dose, weeks=tuple(rows)), (why("load-not-at-hand", text),)


def _fitted(variant: Variant, load: WeightLoad, facts: Facts) -> _Found | None:
    """What the kit makes of a load; None where nothing has to change."""
    weights = weights_kg(variant, load, facts)
    if not weights or load.per_set:
        return None
    one = KG_PER_LB if load.unit is WeightUnit.LB else 1.0
    low, top = load.amount.low * one, load.amount.top * one
    within = [weight for weight in weights if low - _CLOSE <= weight <= top + _CLOSE]
    if within:
        if math.isclose(within[0], low) and load.amount.high is None:
            return None
        return _Found(_at(load, within[0] / one), 1.0, (_from_kit(load, within[0] / one),))
    lighter = [weight for weight in weights if weight < low]
    if not lighter or low <= 0:
        return None
    return _Found(_at(load, lighter[-1] / one), lighter[-1] / low, ())


def _at(load: WeightLoad, amount: float) -> WeightLoad:
    return evolve(load, amount=NumberRange(low=round(amount, 3)))


def _from_kit(load: WeightLoad, amount: float) -> Reason:
    written = said(load.amount.low)
    if load.amount.high is not None:
        written += f" to {said(load.amount.high)}"
    unit = load.unit.value
    return why("load-from-kit", f"{said(round(amount, 3))} {unit} is at hand, of {written} {unit}.")


def _made_up(dose: Dose, share: float) -> tuple[Dose, Reason]:
    """More repetitions for a lighter load where an effort tells when to stop."""
    percent = f"{round(share * 100)} % of what is written"
    by_effort = any(isinstance(load, EffortLoad | ReserveLoad) for load in dose.loads)
    work = dose.work
    if (
        not by_effort
        or share < LIGHTEST_SHARE
        or not isinstance(work, Repetitions)
        or not work.reps
    ):
        cause = "no effort is written" if not by_effort else "repetitions can't make up for it"
        text = f"The heaviest weight at hand is {percent}: too light, as {cause}."
        return dose, why("load-too-light", text)
    reps = tuple(_more(each, share) for each in work.reps)
    text = f"The heaviest weight at hand is {percent}: go on until the effort written is reached."
    return evolve(dose, work=evolve(work, reps=reps)), why("load-lighter", text)


def _more(reps: IntRange, share: float) -> IntRange:
    top = max(reps.top, min(MOST_REPS, math.ceil(reps.top / share)))
    return IntRange(low=reps.low, high=top if top > reps.low else None)
