"""Things of a pose: what a body stands or leans on, holds, wears or pulls at.

Distances are centimetres for a person 170 cm tall; forces and masses are what the load
estimate needs, and a picture needs neither.
"""

from __future__ import annotations

import itertools
from enum import StrEnum
from typing import ClassVar, TypeAlias

from authoring.model.base import ModelError, Node, fact, many, node, optional, slug
from authoring.model.pose_places import BodyPoint
from authoring.model.sentence import say
from authoring.model.vocabulary import Side


class PropKind(StrEnum):
    """What a body stands, sits, lies or leans on."""

    WALL = "wall"
    BOX = "box"
    CHAIR = "chair"
    TABLE = "table"
    WORKTOP = "worktop"
    MAT = "mat"
    PILLOW = "pillow"
    PLINTH = "plinth"
    BALL = "ball"
    ROLL = "roll"
    DOOR_FRAME = "door_frame"
    RAIL = "rail"


class HeldKind(StrEnum):
    """What a person holds or wears."""

    DUMBBELL = "dumbbell"
    STICK = "stick"
    BARBELL = "barbell"
    KETTLEBELL = "kettlebell"
    BALL = "ball"
    TOWEL = "towel"
    CUFF = "cuff"
    BACKPACK = "backpack"
    BAG = "bag"
    BOTTLE = "bottle"
    HAMMER = "hammer"


class LineKind(StrEnum):
    """What pulls along a line."""

    BAND = "band"
    LOOP = "loop"
    CABLE = "cable"
    STRAPS = "straps"
    TOWEL = "towel"


class Other(StrEnum):
    """Which of two sides of the body, seen from a limb."""

    SAME = "same"
    OTHER = "other"


@node
class Prop(Node):
    """Something to stand, sit, lie or lean on.

    A ball is as wide as it is high; a roll lies across; a rail is a bar across at its top.
    Of a wall or door frame, forward_cm is its face and length_cm does not count. A door
    frame's opening is width_cm wide.
    """

    id: str = slug("Id, unique in the pose.")
    kind: PropKind = fact("What it is.")
    forward_cm: float = fact("Its near edge.", default=0.0, low=-300, high=300)
    across_cm: float = fact("Its middle, to the right.", default=0.0, low=-300, high=300)
    length_cm: float = fact("How far it reaches forward.", default=40.0, low=1, high=300)
    width_cm: float = fact("How wide it is.", default=44.0, low=1, high=300)
    height_cm: float = fact("Its top, or a chair's seat.", default=45.0, low=0.5, high=250)
    raised_cm: float = fact("Its underside above the floor.", default=0.0, low=0, high=240)
    faces_back: bool = fact("Whether a chair's seat looks backward.", default=False)
    beside: bool = fact(
        "Whether a wall or rail runs beside the person, its face at across_cm.", default=False
    )

    def __attrs_post_init__(self) -> None:
        if self.raised_cm >= self.height_cm:
            raise ModelError("raised_cm", say("raised_cm must be below the top, height_cm."))


@node
class Held(Node):
    """A thing in a hand or worn. With both sides, one each; a long thing is one in both hands."""

    kind: HeldKind = fact("What it is.")
    side: Side = fact("Hand or limb.", default=Side.BOTH)
    at: BodyPoint | None = optional(
        "Where it is, if not in the hand; cuffs are at the ankle and backpacks on the back."
    )
    mass_kg: float | None = optional("Mass of each thing.", low=0, high=500)
    size_cm: float | None = optional(
        "Its size: across a ball, along a bar or towel, from a hand to a hammer's head.",
        low=1,
        high=250,
    )


@node
class PlaceAnchor(Node):
    """A fixed place: a pulley, a hook, a door, a chair's leg."""

    KIND: ClassVar[str] = "place"

    on: str | None = optional(
        "Support that it is fixed to.", pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$", longest=80
    )
    forward_cm: float | None = optional("Where, forward; else at the support.", low=-300, high=300)
    up_cm: float = fact("Where, above the floor.", low=0, high=300)
    across_cm: float | None = optional(
        "Where, to the right; else at the support.", low=-300, high=300
    )


@node
class BodyAnchor(Node):
    """A place on the same body: under a foot, round a knee, in the other hand."""

    KIND: ClassVar[str] = "body"

    point: BodyPoint = fact("Place on the body.")
    side: Other = fact("Side, seen from the pulling limb.", default=Other.SAME)


Anchor: TypeAlias = PlaceAnchor | BodyAnchor


@node
class CurvePoint(Node):
    """One measured point of a band: its force at a length."""

    length_cm: float = fact("Length of the band.", low=1, high=1000)
    force_n: float = fact("Force at that length.", low=0, high=5000)


@node
class Line(Node):
    """Something that pulls in a straight line from a limb to its anchor.

    A loop has its anchor on the body (knee to other knee) and is drawn round both. Straps
    with a length hold the body: the pulling place stays that far from the anchor.
    """

    kind: LineKind = fact("What it is.")
    point: BodyPoint = fact("Place that it pulls at.", default=BodyPoint.GRIP)
    side: Side = fact("Side of the body.", default=Side.BOTH)
    anchor: Anchor = fact("Where its other end is.")
    length_cm: float | None = optional("Unstretched length.", low=1, high=500)
    force_n: float | None = optional("Pull of a cable, each line.", low=0, high=5000)
    mass_kg: float | None = optional("Weight set on a cable's stack.", low=0, high=500)
    curve: tuple[CurvePoint, ...] = many("Measured force of a band by its length.", longest=40)

    def __attrs_post_init__(self) -> None:
        lengths = [each.length_cm for each in self.curve]
        if any(b <= a for a, b in itertools.pairwise(lengths)):
            raise ModelError("curve", say("curve must be in order of length, each length once."))
        if self.force_n is not None and self.mass_kg is not None:
            raise ModelError("mass_kg", say("mass_kg and force_n say the same; give one of them."))
