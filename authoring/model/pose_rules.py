"""Rules that place a body in words instead of coordinates: "wrist under shoulder".

The solver keeps them together with the contacts. All are told for one side, or for both at
once where a limb is meant.
"""

from __future__ import annotations

from enum import StrEnum
from typing import ClassVar, TypeAlias

from authoring.model.base import ModelError, Node, fact, node
from authoring.model.pose_places import BodyPoint, Direction, Segment
from authoring.model.pose_things import Other
from authoring.model.sentence import say
from authoring.model.vocabulary import Side


class Width(StrEnum):
    """How far apart two limbs are."""

    TOGETHER = "together"
    HIP = "hip"
    SHOULDER = "shoulder"
    WIDE = "wide"
    VERY_WIDE = "very_wide"


@node
class LinedUp(Node):
    """One place is straight above or below another: "wrist under shoulder"."""

    KIND: ClassVar[str] = "lined_up"

    point: BodyPoint = fact("Place.")
    side: Side = fact("Its side.", default=Side.BOTH)
    under: BodyPoint = fact("Place that it is above or below.")
    under_side: Other = fact("Side of that place.", default=Other.SAME)
    ahead_cm: float = fact("How far it stays ahead.", default=0.0, low=-100, high=100)
    across: bool = fact("Whether it must be in line from the front too.", default=False)

    def __attrs_post_init__(self) -> None:
        _apart(self.point, self.under, self.under_side, "under")


@node
class SameHeight(Node):
    """One place is as high as another: "elbow level with shoulder"."""

    KIND: ClassVar[str] = "same_height"

    point: BodyPoint = fact("Place.")
    side: Side = fact("Its side.", default=Side.BOTH)
    height_of: BodyPoint = fact("Place that is as high.")
    height_side: Other = fact("Side of that place.", default=Other.SAME)
    above_cm: float = fact("How far it stays above.", default=0.0, low=-150, high=150)

    def __attrs_post_init__(self) -> None:
        _apart(self.point, self.height_of, self.height_side, "height_of")


@node
class Pointing(Node):
    """A part of the body points a way: "shin vertical", "forearm horizontal".

    Only its slope counts: degrees_up is 90 for vertical and 0 for horizontal. The trunk's
    and head's upper end, and a limb's far end, is the one that points.
    """

    KIND: ClassVar[str] = "pointing"

    segment: Segment = fact("Part of the body.")
    side: Side = fact("Its side; trunk and head need none.", default=Side.BOTH)
    degrees_up: float = fact("Slope of its far end above horizontal.", low=-90, high=90)


@node
class Parallel(Node):
    """Two parts of the body lean alike, seen from the side: "trunk parallel with shin"."""

    KIND: ClassVar[str] = "parallel"

    segment: Segment = fact("Part of the body.")
    side: Side = fact("Its side.", default=Side.BOTH)
    parallel_to: Segment = fact("The other part.")

    def __attrs_post_init__(self) -> None:
        if self.segment is self.parallel_to:
            raise ModelError("parallel_to", say("parallel_to must be another part than segment."))


@node
class Straight(Node):
    """Three places lie in one line: "shoulder, hip and ankle in line"."""

    KIND: ClassVar[str] = "straight"

    first: BodyPoint = fact("One end.", default=BodyPoint.SHOULDER)
    middle: BodyPoint = fact("Between them.", default=BodyPoint.HIP)
    last: BodyPoint = fact("Other end.", default=BodyPoint.ANKLE)
    side: Side = fact("Side of the body.", default=Side.BOTH)

    def __attrs_post_init__(self) -> None:
        if len({self.first, self.middle, self.last}) < 3:
            raise ModelError("middle", say("first, middle and last must be three places."))


@node
class ApartBy(Node):
    """How far apart the same place of both sides is: "feet hip-width"."""

    KIND: ClassVar[str] = "apart"

    point: BodyPoint = fact("Place of both sides.")
    width: Width = fact("How far apart.")


@node
class Facing(Node):
    """Which way the palm, or the toes, look: "palm down", "toes forward"."""

    KIND: ClassVar[str] = "facing"

    part: Segment = fact("Hand (its palm) or foot (its toes).")
    side: Side = fact("Side of the body.", default=Side.BOTH)
    way: Direction = fact("Way that it looks.")

    def __attrs_post_init__(self) -> None:
        if self.part not in (Segment.HAND, Segment.FOOT):
            raise ModelError("part", say("part must be hand or foot."))


@node
class Balanced(Node):
    """The body's weight is over a place of the standing feet, so that nobody falls over."""

    KIND: ClassVar[str] = "balanced"

    over: BodyPoint = fact("Place under the weight.", default=BodyPoint.BALL)
    side: Side = fact("Feet that stand.", default=Side.BOTH)


PoseRule: TypeAlias = (
    LinedUp | SameHeight | Pointing | Parallel | Straight | ApartBy | Facing | Balanced
)


def _apart(a: BodyPoint, b: BodyPoint, side: Other, field: str) -> None:
    if a is b and side is Other.SAME:
        raise ModelError(field, say("{field} must be another place than point.", field=field))
