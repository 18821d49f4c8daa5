"""The real steps of a load: what can be put on with the kit that the patient owns."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Mapping, Sequence

from attrs import frozen

from authoring.dosage.arithmetic.weights import in_kg, in_unit
from authoring.model.base import said
from authoring.model.card import Variant
from authoring.model.load import BandLoad, BodyWeightLoad, Load, UnitLoad, WeightLoad
from authoring.model.patient import OwnedKit
from authoring.model.vocabulary import Carried, WeightUnit

_CLOSE = 1e-6
_MOST_SIZES = 400


@frozen
class RealSteps:
    """Amounts that can really be had, in the unit of the load.

    Attributes:
        sizes: amounts in rising order; empty where the steps are even.
        every: even step, where there are no sizes.
        assumed: whether nobody said what kit there is.
    """

    sizes: tuple[float, ...] = ()
    every: float | None = None
    assumed: bool = False

    def above(self, amount: float) -> float | None:
        """The next amount above, or None where there is no more."""
        if not self.sizes:
            return None if not self.every else round(amount + self.every, 6)
        place = bisect_right(self.sizes, amount + _CLOSE)
        return self.sizes[place] if place < len(self.sizes) else None

    def best(self, above: float, least: float, aim: float, most: float) -> float | None:
        """The amount nearest to ``aim`` from ``least`` to ``most``; else the largest below.

        None where nothing above ``above`` is at most ``most``.
        """
        found: list[float] = []
        after = self.above(above)
        while after is not None and after <= most + _CLOSE and len(found) < _MOST_SIZES:
            found.append(after)
            after = self.above(after)
        fitting = [amount for amount in found if amount >= least - _CLOSE]
        if fitting:
            return min(fitting, key=lambda amount: (round(abs(amount - aim), 6), amount))
        return found[-1] if found else None


def even(step: float, *, assumed: bool = False) -> RealSteps:
    """Even steps of a machine, a backpack or a full rack."""
    return RealSteps(every=step, assumed=assumed)


def sizes(amounts: Iterable[float]) -> RealSteps:
    """Single sizes: dumbbells, cuffs, surface heights, forces of bands."""
    return RealSteps(tuple(sorted({round(amount, 6) for amount in amounts})))


def loaded_bar(bar: float, plates: Mapping[float, int]) -> RealSteps:
    """A bar with plates, the same on both ends.

    Args:
        bar: weight of the bar.
        plates: how many of each plate there are; only pairs count.
    """
    sums = {0.0}
    for plate, count in plates.items():
        pairs = count // 2
        sums = {round(have + 2 * plate * used, 6) for have in sums for used in range(pairs + 1)}
    return sizes(sorted(bar + each for each in sums)[:_MOST_SIZES])


# ---- from the kit a patient owns ------------------------------------------------------


def steps_for(
    load: Load, variant: Variant | None, owned: Sequence[OwnedKit], step: float | None = None
) -> RealSteps | None:
    """The real steps of a load; None where the load has no amount.

    Args:
        variant: its equipment says which of the kit is used; all of it where it names none.
        owned: kit at hand; its ids are the library's. Kit with "bar" in its id is a bar, with
            "plate" its plates, and counts tell how many of each size there are.
        step: step of the rule, where the kit says nothing.
    """
    unit = _unit(load)
    if unit is None:
        return None
    needed = {need.kit for need in variant.equipment} if variant is not None else set()
    kits = [kit for kit in owned if kit.sizes and (not needed or kit.kit in needed)]
    if isinstance(load, BandLoad):
        kits = [kit for kit in kits if load.band is None or kit.kit == load.band]
    fitting = [kit for kit in kits if _fits(kit, unit)]
    if isinstance(load, WeightLoad | BodyWeightLoad):
        found = _weights(load, fitting, unit)
    else:
        found = sizes(size for kit in fitting for size in kit.sizes) if fitting else None
    if found is not None:
        return found
    every = getattr(load, "step", None) or step
    return even(every) if every else even(_USUAL.get(unit, 1.0), assumed=True)


_USUAL = {"kg": 0.5, "lb": 1.0, "cm": 5.0, "mmHg": 2.0, "N": 5.0}


def _unit(load: Load) -> str | None:
    match load:
        case WeightLoad(unit=weight_unit) | BodyWeightLoad(unit=weight_unit):
            return str(weight_unit.value)
        case UnitLoad(unit=measure):
            return str(measure.value)
        case BandLoad(force_n=force) if force is not None:
            return "N"
    return None


def _fits(kit: OwnedKit, unit: str) -> bool:
    """Whether the kit's sizes are of this kind; sizes without a unit are of the load's."""
    mine = None if kit.unit is None else str(kit.unit.value)
    return mine is None or mine == unit or {mine, unit} == {"kg", "lb"}


def _in(kit: OwnedKit, size: float, unit: str) -> float:
    mine = unit if kit.unit is None else str(kit.unit.value)
    if mine == unit:
        return size
    return round(in_unit(in_kg(size, WeightUnit(mine)), WeightUnit(unit)), 3)


def _weights(
    load: WeightLoad | BodyWeightLoad, kits: Sequence[OwnedKit], unit: str
) -> RealSteps | None:
    plates = [kit for kit in kits if "plate" in kit.kit]
    bars = [kit for kit in kits if "bar" in kit.kit.split("-") or "barbell" in kit.kit]
    if plates and load.carried in (Carried.BAR, Carried.TOTAL):
        bar = min((_in(kit, size, unit) for kit in bars for size in kit.sizes), default=0.0)
        counted: dict[float, int] = {}
        for kit in plates:
            for size in kit.sizes:
                amount = _in(kit, size, unit)
                counted[amount] = counted.get(amount, 0) + kit.count
        return loaded_bar(bar, counted)
    least = 2 if load.carried is Carried.EACH_HAND else 1
    single = [
        _in(kit, size, unit)
        for kit in kits
        for size in kit.sizes
        if kit not in bars and kit.count >= least
    ]
    return sizes(single) if single else None


def percent_step(before: float, after: float) -> float | None:
    """How much larger, in percent; None from nought."""
    return None if before <= 0 else (after - before) / before * 100


def amount_words(amount: float, unit: str) -> str:
    """ "7.5 kg"."""
    return f"{said(round(amount, 3))} {unit}"
