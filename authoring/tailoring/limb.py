"""Limits on a limb, of the surgeon or of a stage: range by angle, passive only, weight."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from immutabledict import immutabledict

from authoring.model.base import evolve, said
from authoring.model.card import Card, Variant
from authoring.model.dose import AngleLimit, Dose, RangeOfMovement
from authoring.model.limits import LimbLimit
from authoring.model.load import BodyWeightLoad, WeightLoad
from authoring.model.plan import Reason
from authoring.model.vocabulary import (
    Extent,
    Joint,
    LimbUse,
    Region,
    SupportKind,
    TermKind,
    WeightBearing,
    WeightUnit,
)
from authoring.tailoring.facts import WEIGHT_ORDER, Facts, limbs_of
from authoring.tailoring.kit import KG_PER_LB
from authoring.tailoring.reasons import why
from authoring.tailoring.terms import Terms

REGION_OF: Mapping[Joint, frozenset[Region]] = immutabledict(
    {
        Joint.ANKLE: frozenset({Region.FOOT_ANKLE, Region.LOWER_LEG}),
        Joint.TOES: frozenset({Region.FOOT_ANKLE}),
        Joint.KNEE: frozenset({Region.KNEE, Region.THIGH, Region.LOWER_LEG}),
        Joint.HIP: frozenset({Region.HIP, Region.THIGH, Region.PELVIS}),
        Joint.LOWER_BACK: frozenset({Region.LOWER_BACK, Region.TRUNK, Region.PELVIS}),
        Joint.NECK: frozenset({Region.NECK}),
        Joint.SHOULDER: frozenset({Region.SHOULDER, Region.UPPER_ARM, Region.UPPER_BACK}),
        Joint.ELBOW: frozenset({Region.ELBOW, Region.UPPER_ARM, Region.FOREARM}),
        Joint.FOREARM: frozenset({Region.FOREARM, Region.ELBOW}),
        Joint.WRIST: frozenset({Region.WRIST_HAND, Region.FOREARM}),
        Joint.FINGERS: frozenset({Region.WRIST_HAND}),
    }
)
"""Regions of the cards that may move a joint."""

_MOVED_FOR = frozenset({SupportKind.PARTNER, SupportKind.CLINICIAN, SupportKind.OTHER_LIMB})


def limits_on(facts: Facts, stage_limits: Iterable[LimbLimit]) -> tuple[LimbLimit, ...]:
    """Limits of the surgeon, then of the stages followed."""
    surgeon = [limit.limb for limit in facts.limits if limit.limb is not None]
    return (*surgeon, *stage_limits)


def limb_reasons(
    card: Card,
    variant: Variant,
    dose: Dose | None,
    facts: Facts,
    limits: Iterable[LimbLimit],
) -> Iterator[Reason]:
    """What of a variant is beyond the limits on the limb."""
    for limit in limits:
        for allowed in limit.angles:
            for used in _used_angles(variant, dose):
                if _same(used, allowed) and _span(used, allowed) is None:
                    yield why(
                        "limb-range",
                        f"It uses {_degrees(used)}, and {_degrees(allowed)} is allowed.",
                    )
        concerned = not facts.limb_regions or facts.limb_regions & set(card.regions)
        if limit.passive_only and concerned and not _is_passive(variant):
            yield why("limb-passive")
        most = limit.most_weight_kg
        heavy = _least_kg(dose)
        if most is not None and concerned and heavy is not None and heavy > most:
            yield why("limb-weight", f"It is {said(heavy)} kg, and {said(most)} kg is allowed.")


def _used_angles(variant: Variant, dose: Dose | None) -> tuple[AngleLimit, ...]:
    of_dose = dose.range.limits if dose is not None and dose.range is not None else ()
    held = variant.hold.at if variant.hold is not None else None
    return (*of_dose, *((held,) if held is not None else ()))


def _same(one: AngleLimit, other: AngleLimit) -> bool:
    return one.joint is other.joint and one.motion is other.motion


def _ends(limit: AngleLimit) -> tuple[float, float]:
    return min(limit.from_deg, limit.to_deg), max(limit.from_deg, limit.to_deg)


def _span(used: AngleLimit, allowed: AngleLimit) -> tuple[float, float] | None:
    """What both ranges share; None where they share nothing."""
    low = max(_ends(used)[0], _ends(allowed)[0])
    high = min(_ends(used)[1], _ends(allowed)[1])
    return (low, high) if low <= high else None


def _degrees(limit: AngleLimit) -> str:
    motion = f"{limit.joint} {limit.motion}".replace("_", " ")
    return f"{motion} from {said(limit.from_deg)} to {said(limit.to_deg)} degrees"


def _is_passive(variant: Variant) -> bool:
    limbs = variant.limbs
    helped = limbs is not None and limbs.lifting is limbs.lowering is LimbUse.WITH_HELP
    return helped or any(support.kind in _MOVED_FOR for support in variant.supports)


def _least_kg(dose: Dose | None) -> float | None:
    found = []
    for load in dose.loads if dose is not None else ():
        if isinstance(load, WeightLoad):
            amount = load.amount.low
        elif isinstance(load, BodyWeightLoad) and load.added is not None:
            amount = load.added.low
        else:
            continue
        found.append(amount * (KG_PER_LB if load.unit is WeightUnit.LB else 1))
    return max(found, default=None)


def narrowed(card: Card, dose: Dose, limits: Iterable[LimbLimit]) -> tuple[Dose, list[Reason]]:
    """The dose with its range cut to the limits on joints that the card may move."""
    reasons: list[Reason] = []
    for limit in limits:
        for allowed in limit.angles:
            if not REGION_OF[allowed.joint] & set(card.regions):
                continue
            cut = _cut(dose, allowed)
            if cut != dose:
                dose = cut
                reasons.append(
                    why("limb-range-set", f"Range narrowed: {_degrees(allowed)} at most.")
                )
    return dose, reasons


def _cut(dose: Dose, allowed: AngleLimit) -> Dose:
    """The dose and every row of its week table that sets a range of its own, within a limit."""
    weeks = tuple(
        evolve(row, change=evolve(row.change, range=_range(row.change.range, allowed)))
        if row.change.range is not None
        else row
        for row in dose.weeks
    )
    return evolve(dose, range=_range(dose.range, allowed), weeks=weeks)


def _range(range_: RangeOfMovement | None, allowed: AngleLimit) -> RangeOfMovement:
    before = range_.limits if range_ is not None else ()
    others = tuple(each for each in before if not _same(each, allowed))
    mine = [each for each in before if _same(each, allowed)] or [allowed]
    spans = [span for each in mine if (span := _span(each, allowed)) is not None]
    cut = tuple(evolve(allowed, from_deg=low, to_deg=high) for low, high in spans)
    if range_ is not None and cut == tuple(mine) and before:
        return range_
    return RangeOfMovement(extent=Extent.LIMITED, limits=(*others, *cut))


# ---- weight bearing ----------------------------------------------------------------------


_RESTRICTED = frozenset({WeightBearing.NONE, WeightBearing.TOUCH, WeightBearing.PARTIAL})


def weight_reasons(card: Card, variant: Variant, facts: Facts, terms: Terms) -> Iterator[Reason]:
    """More weight on the limb than it may take, or weight that no term tells.

    Where nobody says which limb it is about, it is that of the card.
    """
    allowed = facts.weight_bearing
    if allowed is None or allowed is WeightBearing.FULL:
        return
    limbs = facts.limbs if facts.limb_regions else limbs_of(card.regions)
    for limb in sorted(limbs):
        needs = [terms.weight_on(limb, TermKind.DEMAND, demand) for demand in variant.demands]
        position = (
            terms.weight_on(limb, TermKind.POSITION, variant.position)
            if variant.position is not None
            else None
        )
        needs.append(position)
        known = [need for need in needs if need is not None]
        most = max(known, key=WEIGHT_ORDER.index, default=None)
        if most is not None and WEIGHT_ORDER.index(most) > WEIGHT_ORDER.index(allowed):
            words = allowed.value.replace("_", " ")
            need = most.value.replace("_", " ")
            yield why(
                "weight-bearing", f"It needs {need} weight on the {limb}, and {words} is allowed."
            )
        elif position is None and allowed in _RESTRICTED:
            yield why(
                "weight-not-known",
                f"No term says how much weight its position puts on the {limb}.",
            )
