"""The load of every variant of a card, and its change from rung to rung.

A load is one side of how hard an exercise is: balance, range, speed and pain are others. So
nothing is chosen, ordered or moved on by it; a check says where an author's order and the
load disagree by more than the error.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from attrs import frozen

from authoring.mechanics.estimate import Estimate, NotEstimated, Unit, What, Why
from authoring.mechanics.segments import Person
from authoring.mechanics.variant_load import VariantLoad, variant_load
from authoring.model.card import Card
from authoring.model.pose import Pose
from authoring.model.vocabulary import Mode, Region, Side

_JOINT_OF: Final[Mapping[Region, What]] = {
    Region.FOOT_ANKLE: What.ANKLE,
    Region.LOWER_LEG: What.ANKLE,
    Region.KNEE: What.KNEE,
    Region.THIGH: What.KNEE,
    Region.HIP: What.HIP,
    Region.PELVIS: What.HIP,
    Region.LOWER_BACK: What.LOWER_BACK,
    Region.TRUNK: What.LOWER_BACK,
    Region.SHOULDER: What.SHOULDER,
    Region.UPPER_BACK: What.SHOULDER,
    Region.UPPER_ARM: What.ELBOW,
    Region.ELBOW: What.ELBOW,
    Region.FOREARM: What.WRIST,
    Region.WRIST_HAND: What.WRIST,
}
_ARM: Final = frozenset({What.SHOULDER, What.ELBOW, What.WRIST})

_LEANS: Final = 0.05
"""Share of body weight on the hands from which an arm exercise is measured there."""

_ORDERED: Final = frozenset({Mode.DYNAMIC, Mode.ISOMETRIC})
"""Kinds of work that a heavier load makes harder; balance or stretching is another matter."""

RATIO_SOURCE: Final = "Quotient of two estimates; their errors add as squares."


@frozen
class Rung:
    """A variant with its change against rung 0.

    Attributes:
        ratio: load over that of rung 0, or why there is none.
        close: whether a neighbouring rung lies within the error, so that the loads don't
            say which is harder.
    """

    load: VariantLoad
    ratio: Estimate | NotEstimated
    close: bool


@frozen
class Disorder:
    """Two variants whose loads run against their rungs by more than the error."""

    easier: str
    harder: str
    excess: float


@frozen
class LadderLoad:
    """A card's ladder by load.

    Attributes:
        measure: what the rungs are compared by; None where nothing fits.
        rungs: every variant, in the card's own order.
        disorders: the worst first.
    """

    measure: What | None
    rungs: tuple[Rung, ...]
    disorders: tuple[Disorder, ...]


def ladder_load(card: Card, poses: Mapping[str, Pose], person: Person | None = None) -> LadderLoad:
    """The load of every variant of a card.

    Args:
        poses: by the name that pictures use.
        person: whose body; None means 70 kg and 170 cm.
    """
    known = person or Person()
    loads = tuple(variant_load(variant, poses, known) for variant in card.variants)
    measure = _measure(card, loads)
    base = _base(loads, measure)
    return LadderLoad(
        measure,
        tuple(
            Rung(load, _ratio(load, base, measure), _is_close(load, loads, measure))
            for load in loads
        ),
        tuple(_disorders(card, loads, measure)),
    )


def _measure(card: Card, loads: Sequence[VariantLoad]) -> What | None:
    """What the card's own regions make the measure of its load.

    The first region whose joint has a figure on rung 0 counts; where an arm leans on
    something, the hands' share of body weight.
    """
    zero = [load for load in loads if load.rung == 0]
    hands = [share for load in zero if (share := load.greatest(What.HANDS)) is not None]
    for region in card.regions:
        joint = _JOINT_OF.get(region)
        if joint in _ARM and any(share.value >= _LEANS for share in hands):
            return What.HANDS
        if joint is not None and any(load.greatest(joint) is not None for load in zero):
            return joint
    return None


def _base(loads: Sequence[VariantLoad], measure: What | None) -> Estimate | None:
    """The figure of the first variant on rung 0 that has one."""
    if measure is None:
        return None
    found = (load.greatest(measure) for load in loads if load.rung == 0)
    return next((each for each in found if each is not None and each.value > 0), None)


def _ratio(
    load: VariantLoad, base: Estimate | None, measure: What | None
) -> Estimate | NotEstimated:
    own = load.greatest(measure) if measure is not None else None
    if measure is None or base is None or own is None:
        why = next((each for each in load.missing if each.of in (None, measure)), None)
        return why or NotEstimated(Why.NO_MEASURE)
    value = own.value / base.value
    if own is base:
        return Estimate(measure, Side.NONE, 1.0, 1.0, 1.0, Unit.RATIO, RATIO_SOURCE)
    error = ((own.error / base.value) ** 2 + (value * base.error / base.value) ** 2) ** 0.5
    if error >= value:
        return NotEstimated(Why.OPEN, measure)
    low, high = value - error, value + error
    return Estimate(measure, Side.NONE, value, low, high, Unit.RATIO, RATIO_SOURCE)


def _gap(one: Estimate, other: Estimate) -> float:
    """How far two figures differ beyond the larger of their errors; below 0 within it.

    The figures come from one model of one body, so its errors are largely the same in both
    and do not add.
    """
    return abs(one.value - other.value) - max(one.error, other.error)


def _is_close(load: VariantLoad, loads: Sequence[VariantLoad], measure: What | None) -> bool:
    own = load.greatest(measure) if measure is not None else None
    if measure is None or own is None:
        return False
    rungs = sorted({each.rung for each in loads if each.greatest(measure) is not None})
    at = rungs.index(load.rung)
    beside = set(rungs[max(at - 1, 0) : at] + rungs[at + 1 : at + 2])
    others = (each.greatest(measure) for each in loads if each.rung in beside)
    return any(other is not None and _gap(own, other) <= 0.0 for other in others)


def _disorders(
    card: Card, loads: Sequence[VariantLoad], measure: What | None
) -> Iterator[Disorder]:
    if measure is None:
        return
    figures = [
        (variant, own)
        for variant, load in zip(card.variants, loads, strict=True)
        if variant.mode in _ORDERED
        and (variant.hold is None or not variant.hold.stands_in_for)
        and (own := load.greatest(measure)) is not None
    ]
    found = [
        Disorder(low.id, high.id, _gap(a, b))
        for low, a in figures
        for high, b in figures
        if low.rung < high.rung and low.mode is high.mode and a.value > b.value and _gap(a, b) > 0.0
    ]
    yield from sorted(found, key=lambda each: -each.excess)
