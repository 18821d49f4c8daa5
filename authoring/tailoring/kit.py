"""Kit at hand against kit that a variant needs, in real sizes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from authoring.model.base import said
from authoring.model.card import KitNeed, Variant
from authoring.model.load import BodyWeightLoad, Load, WeightLoad
from authoring.model.patient import OwnedKit
from authoring.model.plan import Reason
from authoring.model.vocabulary import Carried, TermKind, Unit, WeightUnit
from authoring.tailoring.facts import Facts
from authoring.tailoring.reasons import why
from authoring.tailoring.terms import Terms

KG_PER_LB = 0.45359237
"""International avoirdupois pound (NIST SP 811, appendix B)."""

_TO_CM = {Unit.CENTIMETRES: 1.0, Unit.METRES: 100.0, Unit.FEET: 30.48, Unit.YARDS: 91.44}
_TO_KG = {Unit.KILOGRAMS: 1.0, Unit.POUNDS: KG_PER_LB}

HEIGHT_TOLERANCE = 0.2
"""Share by which a height may differ from the one written (common practice, no source)."""


def _in(unit_word: str, size: float, table: dict[Unit, float]) -> float | None:
    factor = next((f for unit, f in table.items() if unit.value == unit_word), None)
    return None if factor is None else size * factor


def _fits(need: KitNeed, owned: OwnedKit) -> bool:
    """Whether a piece of kit has a size that will do; unknown sizes will do."""
    if need.size is None or not owned.sizes:
        return True
    unit = owned.unit.value if owned.unit is not None else need.unit
    weight = _in(need.unit, need.size, _TO_KG)
    if weight is not None:  # a lighter one will do: the dose follows
        mine = [_in(unit, size, _TO_KG) for size in owned.sizes]
        return any(each is not None and each <= weight + 1e-9 for each in mine)
    height = _in(need.unit, need.size, _TO_CM)
    if height is not None:
        mine = [_in(unit, size, _TO_CM) for size in owned.sizes]
        allowed = height * HEIGHT_TOLERANCE
        return any(each is not None and abs(each - height) <= allowed for each in mine)
    return unit == need.unit and need.size in owned.sizes


def kit_reasons(variant: Variant, facts: Facts, terms: Terms) -> Iterator[Reason]:
    """Kit that is missing, too few of it, or of no size that will do."""
    for need in variant.equipment:
        if need.spare:
            continue
        owned = facts.kit.get(need.kit, ())
        if not any(item.count >= need.count and _fits(need, item) for item in owned):
            yield why("kit-missing", f"{_named(need, terms)} is not at hand.")


def _named(need: KitNeed, terms: Terms) -> str:
    name = terms.name(TermKind.KIT, need.kit)
    size = f" of {said(need.size)} {need.unit}".rstrip() if need.size is not None else ""
    count = f", {need.count} of them" if need.count > 1 else ""
    return f"{name[:1].upper()}{name[1:]}{size}{count}"


def size_notes(variant: Variant, facts: Facts, terms: Terms) -> Iterator[Reason]:
    """Kit whose size is written and not known."""
    for need in variant.equipment:
        owned = facts.kit.get(need.kit, ())
        if not need.spare and need.size is not None and all(not item.sizes for item in owned):
            yield why("kit-size", f"{_named(need, terms)} is written: check the size at hand.")


def too_heavy(variant: Variant, loads: Iterable[Load], facts: Facts) -> Iterator[Reason]:
    """A weight that is written while everything at hand is heavier."""
    for load in loads:
        if not isinstance(load, WeightLoad):
            continue
        weights = weights_kg(variant, load, facts)
        most = load.amount.top * (KG_PER_LB if load.unit is WeightUnit.LB else 1.0)
        if weights is not None and not any(weight <= most + 1e-6 for weight in weights):
            pair = "two weights" if load.carried is Carried.EACH_HAND else "weight"
            written = f"{said(load.amount.top)} {load.unit.value}"
            yield why("kit-missing", f"No {pair} of at most {written} at hand.")


# ---- hands and supports -----------------------------------------------------------------


_HANDS = {Carried.EACH_HAND: 2, Carried.ONE_HAND: 1, Carried.BAR: 2}


def hands_needed(variant: Variant, loads: Iterable[Load]) -> int:
    """Hands that hold on to supports or carry a weight."""
    holding = sum(support.hands for support in variant.supports)
    carried = [
        _HANDS.get(load.carried, 0)
        for load in loads
        if isinstance(load, WeightLoad | BodyWeightLoad)
    ]
    return holding + max(carried, default=0)


def support_reasons(variant: Variant, loads: Iterable[Load], facts: Facts) -> Iterator[Reason]:
    """Supports, helpers and hands that are missing."""
    for support in variant.supports:
        if support.kind not in facts.supports:
            words = support.kind.value.replace("_", " ")
            asked = "" if facts.supports_asked else ", and nobody asked for one"
            yield why("support-missing", f"It needs a {words}, which is not at hand{asked}.")
    free = facts.presentation.hands_free
    needed = hands_needed(variant, loads)
    if free is not None and needed > free:
        yield why("hands-missing", f"It needs {needed} free hands, and the patient has {free}.")


# ---- weights at hand --------------------------------------------------------------------


def weights_kg(variant: Variant, load: WeightLoad, facts: Facts) -> tuple[float, ...] | None:
    """Weights at hand for a load, in kg, rising; None where some kit does not tell its sizes.

    A load in each hand needs two of a weight.
    """
    pairs = 2 if load.carried is Carried.EACH_HAND else 1
    told = [
        found for need in variant.equipment if (found := _weights(need, pairs, facts)) is not None
    ]
    return tuple(sorted(set().union(*told))) if told else None


def _weights(need: KitNeed, pairs: int, facts: Facts) -> set[float] | None:
    """Weights at hand of one piece of kit; None where it is no weight or a size is not known."""
    owned = facts.kit.get(need.kit, ())
    found: set[float] = set()
    for item in owned:
        unit = item.unit.value if item.unit is not None else ""
        sizes = [_in(unit, size, _TO_KG) for size in item.sizes]
        if not sizes or sizes[0] is None:
            return None
        if item.count >= pairs:
            found.update(size for size in sizes if size is not None)
    return found if owned else None
