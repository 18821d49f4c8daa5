"""What holds for one side of the patient: the presentation with a side's own facts in place."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping

from attrs import frozen
from immutabledict import immutabledict

from authoring.model.base import evolve
from authoring.model.patient import (
    ExercisePain,
    OwnedKit,
    Presentation,
    SideState,
    SurgeonLimit,
)
from authoring.model.protocol import Protocol
from authoring.model.vocabulary import (
    Irritability,
    Region,
    Side,
    SupportKind,
    TermKind,
    WeightBearing,
)
from authoring.tailoring.terms import Terms

ARM = frozenset(
    {Region.SHOULDER, Region.UPPER_ARM, Region.ELBOW, Region.FOREARM, Region.WRIST_HAND}
)
LEG = frozenset(
    {
        Region.FOOT_ANKLE,
        Region.LOWER_LEG,
        Region.KNEE,
        Region.THIGH,
        Region.HIP,
        Region.PELVIS,
    }
)

HOUSEHOLD = frozenset(
    {SupportKind.CHAIR, SupportKind.WALL, SupportKind.TABLE, SupportKind.OTHER_LIMB}
)
"""Supports that are assumed where nobody asked for them; people and aids are not."""


def kit_of(kind: SupportKind) -> str:
    """The kit term that a support is when an exercise lists it as kit: a chair is a chair."""
    return kind.value.replace("_", "-")


def other_side(side: Side) -> Side:
    """The opposite side; both and none stay as they are."""
    return {Side.LEFT: Side.RIGHT, Side.RIGHT: Side.LEFT}.get(side, side)


@frozen
class Facts:
    """Facts for one side, terms with their wider ones.

    Attributes:
        presentation: the facts as for this side alone.
        conditions: conditions and their wider terms.
        kit: kit at hand by every term that it counts as; supports count as the kit of their name.
        assumed: kit terms that are at hand only because nobody asked for supports.
        limits: surgeon's limits in force on this side.
        limbs: "leg" or "arm" or both: what weight bearing is about.
        limb_regions: regions of the limb that limits are about; empty means any.
    """

    side: Side
    presentation: Presentation
    conditions: frozenset[str]
    kit: Mapping[str, tuple[OwnedKit, ...]]
    supports: frozenset[SupportKind]
    supports_asked: bool
    assumed: frozenset[str]
    limits: tuple[SurgeonLimit, ...]
    limbs: frozenset[str]
    limb_regions: frozenset[Region]

    @property
    def irritability(self) -> Irritability | None:
        """How easily it flares up, None where nobody said."""
        return self.presentation.irritability

    @property
    def weight_bearing(self) -> WeightBearing | None:
        """The strictest weight that the limb may take; None where nothing limits it."""
        allowed = [self.presentation.weight_bearing]
        allowed += [_limb_weight(limit) for limit in self.limits]
        given = [each for each in allowed if each is not None]
        return min(given, key=WEIGHT_ORDER.index) if given else None

    def pains(self, card: str, movements: Iterable[str]) -> tuple[ExercisePain, ...]:
        """Pains that were scored with a card or one of its movements, on this side."""
        moves = set(movements)
        return tuple(
            pain
            for pain in self.presentation.pains
            if (pain.card == card or (pain.card is None and pain.movement in moves))
            and (
                Side.NONE in (pain.side, self.side)
                or Side.BOTH in (pain.side, self.side)
                or pain.side is self.side
            )
        )


WEIGHT_ORDER = (
    WeightBearing.NONE,
    WeightBearing.TOUCH,
    WeightBearing.PARTIAL,
    WeightBearing.AS_COMFORTABLE,
    WeightBearing.FULL,
)
"""From no weight to all of it."""


def _limb_weight(limit: SurgeonLimit) -> WeightBearing | None:
    limb = limit.limb
    if limb is None:
        return None
    if limb.weight_bearing is not None:
        return limb.weight_bearing
    capped = limb.most_weight_kg is not None or limb.most_body_weight_percent is not None
    return WeightBearing.PARTIAL if capped else None


def sides_of(presentation: Presentation) -> tuple[Side, ...]:
    """The sides that are looked at one by one: two where both differ, else the one given."""
    if presentation.side is Side.BOTH and presentation.each_side:
        return (Side.LEFT, Side.RIGHT)
    return (presentation.side,)


def facts_of(
    presentation: Presentation,
    side: Side,
    terms: Terms,
    protocols: Iterable[Protocol],
    today: dt.date,
) -> Facts:
    """Facts for one side.

    Args:
        protocols: those asked for; they tell the limb where the presentation does not.
        today: surgeon's limits that ended before it are gone.
    """
    own = _for_side(presentation, side)
    supports = own.supports
    owned = frozenset(item.kit for item in own.kit)
    at_hand = HOUSEHOLD if supports is None else frozenset(supports)
    as_kit = {kind for kind in SupportKind if kit_of(kind) in owned}
    kit = _kit_by_term(own.kit, terms)
    lent = tuple(OwnedKit(kit=kit_of(kind)) for kind in SupportKind if kind in at_hand)
    more = _kit_by_term((each for each in lent if each.kit not in kit), terms)
    regions = frozenset(own.limb) or frozenset(r for each in protocols for r in each.regions)
    return Facts(
        side=side,
        presentation=own,
        conditions=terms.all_wider(TermKind.CONDITION, own.conditions),
        kit=immutabledict({**more, **kit}),
        supports=at_hand | as_kit,
        supports_asked=supports is not None,
        assumed=frozenset(more) - frozenset(kit) if supports is None else frozenset(),
        limits=tuple(limit for limit in own.limits if _in_force(limit, side, today)),
        limbs=limbs_of(regions),
        limb_regions=regions,
    )


def limbs_of(regions: Iterable[Region]) -> frozenset[str]:
    """ "leg", "arm" or both; both where the regions are of neither."""
    found = set(regions)
    limbs = {name for name, part in (("leg", LEG), ("arm", ARM)) if found & part}
    return frozenset(limbs or {"leg", "arm"})


def _for_side(presentation: Presentation, side: Side) -> Presentation:
    state = next((each for each in presentation.each_side if each.side is side), None)
    if state is None:
        return presentation
    return evolve(presentation, side=side, each_side=(), **_given(state))


def _given(state: SideState) -> dict[str, object]:
    names = (
        "irritability",
        "rest_pain",
        "morning_pain",
        "injured",
        "operated",
        "weight_bearing",
    )
    values = {name: getattr(state, name) for name in names}
    return {name: value for name, value in values.items() if value is not None}


def _kit_by_term(owned: Iterable[OwnedKit], terms: Terms) -> Mapping[str, tuple[OwnedKit, ...]]:
    found: dict[str, tuple[OwnedKit, ...]] = {}
    for item in owned:
        for term in sorted(terms.wider(TermKind.KIT, item.kit)):
            found[term] = (*found.get(term, ()), item)
    return immutabledict(found)


def _in_force(limit: SurgeonLimit, side: Side, today: dt.date) -> bool:
    meant = limit.side in (Side.NONE, Side.BOTH, side) or side in (Side.NONE, Side.BOTH)
    return meant and (limit.until is None or limit.until >= today)
