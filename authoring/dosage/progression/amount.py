"""The amount of a load that grows, read from a dose and put back into it."""

from __future__ import annotations

from attrs import frozen

from authoring.model.base import evolve
from authoring.model.dose import Dose
from authoring.model.load import (
    BandLoad,
    BodyWeightLoad,
    Load,
    NumberRange,
    PercentLoad,
    UnitLoad,
    WeightLoad,
)


@frozen
class Amount:
    """The load of a dose that grows.

    Attributes:
        place: its place among the loads.
        load: the load.
        value: its lower end; below 0 for weight that is taken off the body.
        unit: "kg", "lb", "%", "N" or another unit of the model.
        cap: most of it, or None.
    """

    place: int
    load: Load
    value: float
    unit: str
    cap: float | None = None


def amount_of(dose: Dose) -> Amount | None:
    """The first load of a dose that has an amount, or None."""
    for place, load in enumerate(dose.loads):
        found = _amount(place, load)
        if found is not None:
            return found
    return None


def _amount(place: int, load: Load) -> Amount | None:
    match load:
        case WeightLoad() | UnitLoad():
            return Amount(place, load, load.amount.low, load.unit.value, load.cap)
        case BodyWeightLoad() if load.added or load.assisted or load.step is not None:
            value = load.added.low if load.added is not None else 0.0
            if load.assisted is not None:
                value = -load.assisted.low
            return Amount(place, load, value, load.unit.value, load.cap)
        case BandLoad(force_n=force) if force is not None:
            return Amount(place, load, force.low, "N")
        case PercentLoad():
            return Amount(place, load, load.per_set[0].low, "%", 100.0)
    return None


def with_amount(dose: Dose, amount: Amount, value: float) -> Dose:
    """The dose with another amount; loads listed by set keep their distances."""
    by = value - amount.value
    loads = tuple(
        _put(load, value, by) if place == amount.place else load
        for place, load in enumerate(dose.loads)
    )
    return evolve(dose, loads=loads)


def _moved(span: NumberRange, by: float) -> NumberRange:
    high = None if span.high is None else max(0.0, round(span.high + by, 6))
    return NumberRange(low=max(0.0, round(span.low + by, 6)), high=high)


def _put(load: Load, value: float, by: float) -> Load:
    match load:
        case WeightLoad() | UnitLoad():
            moved = tuple(_moved(each, by) for each in load.per_set)
            return evolve(load, amount=_moved(load.amount, by), per_set=moved)
        case BodyWeightLoad():
            put_on = NumberRange(low=value) if value > 0 else None
            taken_off = NumberRange(low=-value) if value < 0 else None
            return evolve(load, added=put_on, assisted=taken_off)
        case BandLoad():
            return evolve(load, force_n=NumberRange(low=value), strength=None)
        case PercentLoad():
            return evolve(load, per_set=tuple(_moved(each, by) for each in load.per_set))
    return load
