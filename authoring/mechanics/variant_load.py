"""The load of one variant, from the poses of its pictures and the weights of its dose."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Final

from attrs import evolve, frozen

from authoring.mechanics.estimate import CONTACTS, Estimate, NotEstimated, Unit, What, Why
from authoring.mechanics.pose_load import pose_load
from authoring.mechanics.segments import Person
from authoring.model.card import Variant
from authoring.model.dose import Dose
from authoring.model.load import BandLoad, BodyWeightLoad, Load, SettingLoad, WeightLoad
from authoring.model.pose import Held, HeldKind, LineKind, Pose
from authoring.model.vocabulary import (
    Carried,
    Mode,
    SettingKind,
    Side,
    Speed,
    SupportKind,
    WeightUnit,
)

_KG_IN_LB: Final = 0.45359237
"""International avoirdupois pound (exact)."""

_FAST: Final = frozenset({Speed.FAST, Speed.EXPLOSIVE})
_HELPERS: Final = frozenset({SupportKind.PARTNER, SupportKind.CLINICIAN, SupportKind.FLOAT})
_OTHER: Final = {Side.LEFT: Side.RIGHT, Side.RIGHT: Side.LEFT}
_SAME: Final = 0.01
"""Sides within this share of one another are told once."""


@frozen
class VariantLoad:
    """What one variant asks of the body at its hardest moment.

    Attributes:
        estimates: for each figure the moment where it is greatest. A joint's side is BOTH
            where each side carries the same.
        missing: what has no figure, and why.
        side: side that works, as drawn; NONE where both do.
    """

    variant: str
    rung: int
    estimates: tuple[Estimate, ...]
    missing: tuple[NotEstimated, ...]
    side: Side = Side.NONE

    def greatest(self, what: What) -> Estimate | None:
        """The figure of a contact, all together, or of the joint on the side that works."""
        unit = Unit.BODY_WEIGHT if what in CONTACTS else Unit.NM
        found = [each for each in self.estimates if (each.what, each.unit) == (what, unit)]
        if unit is Unit.NM and self.side in _OTHER:
            found = [each for each in found if each.side is not _OTHER[self.side]]
        return max(found, key=lambda each: each.value, default=None)


def variant_load(variant: Variant, poses: Mapping[str, Pose], person: Person) -> VariantLoad:
    """The load of a variant.

    Args:
        poses: by the name that pictures use.
    """
    why = _never(variant)
    shown = _poses(variant, poses)
    if why is None and not shown:
        why = Why.NO_POSE
    if why is None and _band_not_drawn(variant.dose, shown):
        why = Why.BAND
    if why is not None:
        return VariantLoad(variant.id, variant.rung, (), (NotEstimated(why),))
    found: list[Estimate] = []
    missing: list[NotEstimated] = []
    for pose in shown:
        kg = _mass_of(variant.dose, pose)
        if _weight(variant.dose) and not pose.held and not pose.lines:
            missing.append(NotEstimated(Why.NOT_DRAWN))
            continue
        for moment in pose_load(pose, person, kg):
            found += moment.estimates
            missing += moment.missing
    hardest = tuple(_hardest(found))
    known = {each.what for each in hardest}
    left = tuple(dict.fromkeys(each for each in missing if each.of not in known))
    side = next((pose.side for pose in shown if pose.side in _OTHER), Side.NONE)
    return VariantLoad(variant.id, variant.rung, hardest, _merged(left), side)


def _never(variant: Variant) -> Why | None:
    """Why a still model can't say anything about this variant."""
    tempo = variant.dose.tempo if variant.dose is not None else None
    fast = variant.mode is Mode.CARDIO or (tempo is not None and tempo.speed in _FAST)
    helped = any(support.kind in _HELPERS for support in variant.supports)
    reasons = [
        (variant.mode is Mode.PLYOMETRIC, Why.BOUNCE),
        (fast, Why.SPEED),
        (helped, Why.HELP),
        *((why is not None, why) for why in map(_never_with, _loads(variant.dose))),
    ]
    return next((why for holds, why in reasons if holds), None)


def _never_with(load: Load) -> Why | None:
    if isinstance(load, SettingLoad):
        settings = {SettingKind.SPEED: Why.SPEED, SettingKind.SURFACE: Why.UNSTABLE}
        return settings.get(load.what)
    helped = isinstance(load, BodyWeightLoad) and load.assisted is not None
    return Why.HELP if helped else None


def _poses(variant: Variant, poses: Mapping[str, Pose]) -> list[Pose]:
    named = dict.fromkeys(p.pose for p in variant.pictures if p.pose is not None)
    return [poses[name] for name in named if name in poses]


# ---- the weights of the dose --------------------------------------------------------------


def _loads(dose: Dose | None) -> Iterable[Load]:
    return dose.loads if dose is not None else ()


def _band_not_drawn(dose: Dose | None, poses: Iterable[Pose]) -> bool:
    """Whether the dose names a band that no pose pulls at."""
    bands = {LineKind.BAND, LineKind.LOOP}
    drawn = any(line.kind in bands for pose in poses for line in pose.lines)
    return not drawn and any(isinstance(load, BandLoad) for load in _loads(dose))


def _weight(dose: Dose | None) -> tuple[float, Carried] | None:
    """Kilograms that the dose begins with, and how they are carried; None for none."""
    for load in _loads(dose):
        if isinstance(load, WeightLoad):
            amount, unit, carried = load.amount.low, load.unit, load.carried
        elif isinstance(load, BodyWeightLoad) and load.added is not None:
            amount, unit, carried = load.added.low, load.unit, load.carried
        else:
            continue
        if amount > 0:
            return amount * (_KG_IN_LB if unit is WeightUnit.LB else 1.0), carried
    return None


_ONE: Final = frozenset({HeldKind.BARBELL, HeldKind.BALL, HeldKind.STICK, HeldKind.TOWEL})


def _mass_of(dose: Dose | None, pose: Pose) -> float | None:
    """Mass of each thing that the pose gives none for."""
    found = _weight(dose)
    if found is None:
        return None
    kg, carried = found
    things = sum(_count(each) for each in pose.held if each.mass_kg is None)
    return kg / things if carried is Carried.TOTAL and things else kg


def _count(thing: Held) -> int:
    return 2 if thing.side in (Side.BOTH, Side.NONE) and thing.kind not in _ONE else 1


# ---- one figure of each kind ----------------------------------------------------------------


def _hardest(found: Iterable[Estimate]) -> Iterator[Estimate]:
    """For each figure the greatest; two equal sides of a joint as one."""
    best: dict[tuple[What, Unit, Side], Estimate] = {}
    for each in found:
        key = each.what, each.unit, each.side
        if key not in best or each.value > best[key].value:
            best[key] = each
    for (what, unit, side), each in best.items():
        other = best.get((what, unit, _OTHER.get(side, side)))
        if other is None or other is each or what in CONTACTS or not _alike(each, other):
            yield each
        elif side is Side.LEFT:
            low, high = min(each.low, other.low), max(each.high, other.high)
            yield evolve(each, side=Side.BOTH, low=low, high=high)


def _alike(one: Estimate, other: Estimate) -> bool:
    return abs(other.value - one.value) <= _SAME * max(other.value, one.value)


def _merged(missing: tuple[NotEstimated, ...]) -> tuple[NotEstimated, ...]:
    """Two sides with the same reason as one."""
    sides: dict[tuple[Why, What | None, str], set[Side]] = {}
    for each in missing:
        sides.setdefault((each.why, each.of, each.detail), set()).add(each.side)
    return tuple(
        NotEstimated(why, of, side.pop() if len(side) == 1 else Side.BOTH, detail)
        for (why, of, detail), side in sides.items()
    )
