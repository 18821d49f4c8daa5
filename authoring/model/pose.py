"""A pose: one movement as angles, contacts and supports, from which pictures are drawn.

Distances are centimetres for a person 170 cm tall; forward is where the person faces
when upright, across is towards the person's right, up is up.
"""

from __future__ import annotations

from enum import StrEnum
from typing import ClassVar

from authoring.model.base import (
    LANGUAGE_TAG,
    Node,
    fact,
    many,
    node,
    optional,
    slug,
    uuid,
)
from authoring.model.text import Text
from authoring.model.vocabulary import Joint, Motion, Phase, Side

FLOOR = "floor"
"""The support that every pose has without naming it."""


class BasePosition(StrEnum):
    """How the body is turned before any joint moves."""

    UPRIGHT = "upright"
    PRONE = "prone"
    SUPINE = "supine"
    LEFT_SIDE = "left_side"
    RIGHT_SIDE = "right_side"


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


class BodyPoint(StrEnum):
    """A place on the body that touches something, or that an arrow follows."""

    HEEL = "heel"
    BALL = "ball"
    TOE = "toe"
    KNEE = "knee"
    SEAT = "seat"
    HIP = "hip"
    BACK = "back"
    HEAD = "head"
    ELBOW = "elbow"
    FOREARM = "forearm"
    PALM = "palm"
    GRIP = "grip"
    FINGERTIPS = "fingertips"


class HeldKind(StrEnum):
    """What a hand holds."""

    DUMBBELL = "dumbbell"
    STICK = "stick"


class View(StrEnum):
    """Where the person is looked at from."""

    SIDE = "side"
    FRONT = "front"
    THREE_QUARTER = "three_quarter"
    BACK = "back"


class NearSide(StrEnum):
    """Side of the person that is nearer to the viewer."""

    LEFT = "left"
    RIGHT = "right"


@node
class JointAngle(Node):
    """An angle of a joint in anatomical terms, from the anatomical position.

    The forearm's zero is half-way, thumb forward. Trunk and neck take the side they bend or
    turn towards.
    """

    joint: Joint = fact("Joint.")
    motion: Motion = fact("Movement.")
    degrees: float = fact("How far, degrees; below 0 the opposite way.", low=-180, high=180)
    side: Side = fact("Side of the body.", default=Side.BOTH)


@node
class Base(Node):
    """How the pelvis is placed before contacts move it."""

    position: BasePosition = fact("How the body is turned.", default=BasePosition.UPRIGHT)
    lean_deg: float = fact("Lean forward, degrees.", default=0.0, low=-180, high=180)
    forward_cm: float = fact("Pelvis forward of the origin.", default=0.0, low=-300, high=300)
    up_cm: float = fact("Pelvis above the floor.", default=90.0, low=-50, high=300)


@node
class Prop(Node):
    """Something to stand, sit, lie or lean on."""

    id: str = slug("Id, unique in the pose.")
    kind: PropKind = fact("What it is.")
    forward_cm: float = fact("Its near edge.", default=0.0, low=-300, high=300)
    across_cm: float = fact("Its middle, to the right.", default=0.0, low=-300, high=300)
    length_cm: float = fact("How far it reaches forward.", default=40.0, low=1, high=300)
    width_cm: float = fact("How wide it is.", default=44.0, low=1, high=300)
    height_cm: float = fact("Its top, or a chair's seat.", default=45.0, low=0.5, high=250)
    faces_back: bool = fact("Whether a chair's seat looks backward.", default=False)


@node
class Contact(Node):
    """A place on the body that rests on something. Where it is not given, it may slide."""

    point: BodyPoint = fact("Place on the body.")
    side: Side = fact("Side of the body.", default=Side.BOTH)
    on: str = slug("Support, by id, or floor.", default=FLOOR)
    forward_cm: float | None = optional("Where, forward.", low=-300, high=300)
    up_cm: float | None = optional("Where, above the floor; for walls.", low=0, high=250)


@node
class PosePhase(Node):
    """One moment of the movement. Its angles and contacts come after those of the pose."""

    phase: Phase = fact("Moment.")
    base: Base | None = optional("Its own base, where it differs.")
    angles: tuple[JointAngle, ...] = many("Angles that differ.", longest=80)
    contacts: tuple[Contact, ...] = many("Contacts of this moment.", longest=24)
    airborne: bool = fact("Whether contacts of the pose are left out.", default=False)


@node
class Held(Node):
    """A thing in a hand."""

    kind: HeldKind = fact("What it is.")
    side: Side = fact("Hand.", default=Side.BOTH)


@node
class Arrow(Node):
    """The way a place on the body takes from the first moment to a later one."""

    point: BodyPoint = fact("Place it follows.")
    side: Side = fact("Side of the body.", default=Side.RIGHT)
    forward_cm: float = fact(
        "Moved forward, to stand beside the body.", default=0.0, low=-150, high=150
    )
    up_cm: float = fact("Moved up.", default=0.0, low=-150, high=150)
    across_cm: float = fact("Moved to the right.", default=0.0, low=-150, high=150)
    both_ways: bool = fact("Whether it has a head at either end.", default=False)


@node
class Camera(Node):
    """Where the picture is taken from."""

    view: View = fact("View.", default=View.SIDE)
    from_side: NearSide = fact("Side of the person that is near.", default=NearSide.RIGHT)
    turn_deg: float = fact("Turned towards the front by.", default=0.0, low=-80, high=80)
    tilt_deg: float = fact("Look down by, degrees.", default=0.0, low=0, high=80)


@node
class Pose(Node):
    """A movement to draw."""

    FORMAT: ClassVar[str] = "rungbook/pose"

    id: str = uuid("Id of the file.")
    slug: str = slug("Short name; the file is called after it, and cards name it.")
    language: str = fact("Language of plain strings (BCP 47).", pattern=LANGUAGE_TAG)
    title: Text = fact("What it shows.")
    side: Side = fact("Side that works, as drawn.", default=Side.NONE)
    camera: Camera = fact("Where it is looked at from.", factory=Camera)
    base: Base = fact("Where the pelvis is.", factory=Base)
    supports: tuple[Prop, ...] = many("Supports besides the floor.", longest=12)
    angles: tuple[JointAngle, ...] = many("Angles of every moment.", longest=80)
    contacts: tuple[Contact, ...] = many("Contacts of every moment.", longest=24)
    held: tuple[Held, ...] = many("Things in the hands.", longest=4)
    phases: tuple[PosePhase, ...] = fact("Moments in order.", longest=8, fewest=1)
    ghost: bool = fact("Whether later moments show the first one pale.", default=False)
    arrows: tuple[Arrow, ...] = many("Arrows of later moments.", longest=4)
    licence: str = fact("Licence of the pose.", default="", longest=200)

    def moment(self, phase: Phase) -> PosePhase | None:
        """The first moment of this phase, or None."""
        return next((each for each in self.phases if each.phase is phase), None)
