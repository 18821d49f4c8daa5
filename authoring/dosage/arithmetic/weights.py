"""Kilograms of a load, and what a session moves with it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from immutabledict import immutabledict

from authoring.dosage.arithmetic.amounts import repetitions, reps_by_set
from authoring.dosage.arithmetic.figure import Figure, Note, covering, of_range, total, unknown
from authoring.model.dose import Dose, Either, Repetitions
from authoring.model.load import BodyWeightLoad, Load, NumberRange, PercentLoad, WeightLoad
from authoring.model.vocabulary import Carried, Quantity, WeightUnit

KG_PER_LB = 0.45359237
"""Exact: the international avoirdupois pound (NIST Special Publication 811, appendix B.8)."""

Known = Mapping[Quantity, float]
"""Measured values in kilograms that a share is taken of: 1RM, body weight."""

NOTHING_MEASURED: Known = immutabledict()


def in_kg(amount: float, unit: WeightUnit) -> float:
    """A weight in kilograms."""
    return amount * KG_PER_LB if unit is WeightUnit.LB else amount


def in_unit(kg: float, unit: WeightUnit) -> float:
    """Kilograms in a unit."""
    return kg / KG_PER_LB if unit is WeightUnit.LB else kg


def _kg(span: NumberRange, unit: WeightUnit, hands: int) -> Figure:
    return Figure(in_kg(span.low, unit) * hands, in_kg(span.top, unit) * hands)


def _hands(carried: Carried) -> int:
    return 2 if carried is Carried.EACH_HAND else 1


def kg_by_set(loads: Sequence[Load], known: Known) -> tuple[Figure, ...]:
    """Kilograms that are moved: one for all sets, or one for each set in order.

    A weight in each hand counts twice. Of body weight only what is added counts. Unknown
    where no load has a weight.

    Args:
        known: measured values that a share is taken of.
    """
    for load in loads:
        if isinstance(load, WeightLoad):
            spans = load.per_set or (load.amount,)
            return tuple(_kg(span, load.unit, _hands(load.carried)) for span in spans)
        if isinstance(load, BodyWeightLoad) and load.added is not None:
            added = _kg(load.added, load.unit, _hands(load.carried))
            return (added.noted(Note.BODY_LOAD),)
        if isinstance(load, PercentLoad) and load.of.quantity in known:
            whole = known[load.of.quantity] / 100
            return tuple(of_range(share) * whole for share in load.per_set)
    own = not loads or any(isinstance(load, BodyWeightLoad) for load in loads)
    return (unknown(Note.BODY_LOAD if own else Note.LOAD_UNKNOWN),)


def volume_kg(dose: Dose, known: Known) -> Figure:
    """Load volume of one side in one session: repetitions times kilograms.

    Nought for work without repetitions (holds, time, distance). Sets that list both
    repetitions and loads are multiplied set by set.
    """
    if isinstance(dose.work, Either):
        return covering((volume_kg(each, known) for each in dose.work.doses), Note.CHOICE)
    loads = kg_by_set(dose.loads, known)
    if isinstance(dose.work, Repetitions) and len(loads) > 1:
        counts = reps_by_set(dose.work)
        if counts is not None and len(counts) == len(loads):
            return total(count * kg for count, kg in zip(counts, loads, strict=True))
    return repetitions(dose.work) * covering(loads)
