"""A pose: one movement as angles, contacts, rules and things, from which pictures are drawn.

Distances are centimetres for a person 170 cm tall; forward is where the person faces
when upright, across is towards the person's right, up is up.
"""

from __future__ import annotations

from enum import StrEnum
from typing import ClassVar

from authoring.model.base import (
    LANGUAGE_TAG,
    ModelError,
    Node,
    fact,
    many,
    node,
    optional,
    slug,
    uuid,
)
from authoring.model.pose_places import BodyPoint, Direction, Face, Segment
from authoring.model.pose_rules import (
    ApartBy,
    Balanced,
    Facing,
    LinedUp,
    Parallel,
    Pointing,
    PoseRule,
    SameHeight,
    Straight,
    Width,
)
from authoring.model.pose_things import (
    Anchor,
    BodyAnchor,
    CurvePoint,
    Held,
    HeldKind,
    Line,
    LineKind,
    Other,
    PlaceAnchor,
    Prop,
    PropKind,
)
from authoring.model.sentence import say
from authoring.model.text import Text
from authoring.model.vocabulary import Joint, Motion, Phase, Region, Side

FLOOR = "floor"
"""The support that every pose has without naming it."""


class BasePosition(StrEnum):
    """How the body is turned before any joint moves."""

    UPRIGHT = "upright"
    PRONE = "prone"
    SUPINE = "supine"
    LEFT_SIDE = "left_side"
    RIGHT_SIDE = "right_side"


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


class ArrowForm(StrEnum):
    """How an arrow runs."""

    WAY = "way"
    STRAIGHT = "straight"
    PUSH = "push"


@node
class JointAngle(Node):
    """An angle of a joint in anatomical terms, from the anatomical position.

    The forearm's zero is half-way, thumb forward. Trunk and neck take the side they bend or
    turn towards. Contacts and rules change angles as little as they must; a fixed one stays.
    """

    joint: Joint = fact("Joint.")
    motion: Motion = fact("Movement.")
    degrees: float = fact("How far, degrees; below 0 the opposite way.", low=-180, high=180)
    side: Side = fact("Side of the body.", default=Side.BOTH)
    fixed: bool = fact("Whether it stays as written.", default=False)


@node
class Base(Node):
    """How the pelvis is placed before contacts move it."""

    position: BasePosition = fact("How the body is turned.", default=BasePosition.UPRIGHT)
    lean_deg: float = fact("Lean forward, degrees.", default=0.0, low=-180, high=180)
    side_lean_deg: float = fact("Lean to the right, degrees.", default=0.0, low=-90, high=90)
    forward_cm: float = fact("Pelvis forward of the origin.", default=0.0, low=-300, high=300)
    up_cm: float = fact("Pelvis above the floor.", default=90.0, low=-50, high=300)
    across_cm: float = fact("Pelvis to the right.", default=0.0, low=-300, high=300)


@node
class Contact(Node):
    """A place on the body that rests on something. Where it is not given, it may slide."""

    point: BodyPoint = fact("Place on the body.")
    side: Side = fact("Side of the body.", default=Side.BOTH)
    on: str = slug("Support, by id, or floor.", default=FLOOR)
    forward_cm: float | None = optional("Where, forward.", low=-300, high=300)
    up_cm: float | None = optional("Where, above the floor; for walls.", low=0, high=250)


@node
class Touch(Node):
    """A place on the body that rests on another place of the same body: hand on hip."""

    point: BodyPoint = fact("Place that is brought there.")
    side: Side = fact("Its side.", default=Side.BOTH)
    at: BodyPoint = fact("Place that it touches.")
    at_side: Other = fact("Side of that place.", default=Other.SAME)
    face: Face = fact("Side of that part of the body.", default=Face.FRONT)

    def __attrs_post_init__(self) -> None:
        if self.point is self.at and self.at_side is Other.SAME:
            raise ModelError("at", say("at must be another place than point."))


@node
class PosePhase(Node):
    """One moment of the movement. Its angles and contacts come after those of the pose.

    A touch or rule of a moment is kept besides those of the pose.
    """

    phase: Phase = fact("Moment.")
    base: Base | None = optional("Its own base, where it differs.")
    angles: tuple[JointAngle, ...] = many("Angles that differ.", longest=80)
    contacts: tuple[Contact, ...] = many("Contacts of this moment.", longest=24)
    touches: tuple[Touch, ...] = many("Touches of this moment.", longest=8)
    rules: tuple[PoseRule, ...] = many("Rules of this moment.", longest=16)
    airborne: bool = fact("Whether contacts of the pose are left out.", default=False)
    hold: bool = fact("Whether it is held still; the picture shows a mark.", default=False)


@node
class Arrow(Node):
    """The way a place takes from the earlier moment to a later one, or a push against rest."""

    point: BodyPoint = fact("Place it follows.")
    side: Side = fact("Side of the body.", default=Side.RIGHT)
    form: ArrowForm = fact("How it runs.", default=ArrowForm.WAY)
    push: Direction | None = optional("Way of a push, or of a pull.")
    forward_cm: float = fact(
        "Moved forward, to stand beside the body.", default=0.0, low=-150, high=150
    )
    up_cm: float = fact("Moved up.", default=0.0, low=-150, high=150)
    across_cm: float = fact("Moved to the right.", default=0.0, low=-150, high=150)
    both_ways: bool = fact("Whether it has a head at either end.", default=False)

    def __attrs_post_init__(self) -> None:
        if (self.push is None) is (self.form is ArrowForm.PUSH):
            raise ModelError("push", say("push must say the way of a push, and of nothing else."))


@node
class Focus(Node):
    """A close look at one place of the body, for movements that a whole person would hide."""

    point: BodyPoint = fact("Place in the middle of the picture.")
    side: Side = fact("Its side of the body.", default=Side.RIGHT)
    height_cm: float = fact("Height that is shown.", default=80.0, low=20, high=250)
    forward_cm: float = fact("Looked at forward of the place.", default=0.0, low=-100, high=100)
    up_cm: float = fact("Looked at above the place.", default=0.0, low=-100, high=100)


@node
class Camera(Node):
    """Where the picture is taken from."""

    view: View = fact("View.", default=View.SIDE)
    from_side: NearSide = fact("Side of the person that is near.", default=NearSide.RIGHT)
    turn_deg: float = fact("Turned towards the front by.", default=0.0, low=-80, high=80)
    tilt_deg: float = fact("Look down by, degrees.", default=0.0, low=0, high=80)
    focus: Focus | None = optional("What a close picture shows; else the whole person.")


@node
class Pose(Node):
    """A movement to draw."""

    FORMAT: ClassVar[str] = "rungbook/pose"

    id: str = uuid("Id of the file.")
    slug: str = slug("Short name; the file is called after it, and cards name it.")
    language: str = fact("Language of plain strings (BCP 47).", pattern=LANGUAGE_TAG)
    title: Text = fact("What it shows.")
    side: Side = fact("Side that works, as drawn.", default=Side.NONE)
    regions: tuple[Region, ...] = many("Parts of the body it is for.", longest=16)
    camera: Camera = fact("Where it is looked at from.", factory=Camera)
    base: Base = fact("Where the pelvis is.", factory=Base)
    supports: tuple[Prop, ...] = many("Supports besides the floor.", longest=12)
    angles: tuple[JointAngle, ...] = many("Angles of every moment.", longest=80)
    contacts: tuple[Contact, ...] = many("Contacts of every moment.", longest=24)
    touches: tuple[Touch, ...] = many("Touches of every moment.", longest=8)
    rules: tuple[PoseRule, ...] = many("Rules of every moment.", longest=16)
    held: tuple[Held, ...] = many("Things held or worn.", longest=8)
    lines: tuple[Line, ...] = many("Bands, cables, straps: what pulls.", longest=8)
    phases: tuple[PosePhase, ...] = fact("Moments in order.", longest=8, fewest=1)
    ghost: bool = fact("Whether later moments show an earlier one pale.", default=False)
    dashed: bool = fact(
        "Whether later moments show where limbs were in an earlier one, dashed.", default=False
    )
    earlier: Phase | None = optional("That earlier moment; else the first.")
    arrows: tuple[Arrow, ...] = many("Arrows of later moments; pushes of all.", longest=4)
    licence: str = fact("Licence of the pose.", default="", longest=200)

    def moment(self, phase: Phase) -> PosePhase | None:
        """The first moment of this phase, or None."""
        return next((each for each in self.phases if each.phase is phase), None)

    def before(self) -> PosePhase:
        """The moment that later ones are compared with: the named one, else the first."""
        named = self.moment(self.earlier) if self.earlier is not None else None
        return named or self.phases[0]


__all__ = [
    "FLOOR",
    "Anchor",
    "ApartBy",
    "Arrow",
    "ArrowForm",
    "Balanced",
    "Base",
    "BasePosition",
    "BodyAnchor",
    "BodyPoint",
    "Camera",
    "Contact",
    "CurvePoint",
    "Direction",
    "Face",
    "Facing",
    "Focus",
    "Held",
    "HeldKind",
    "JointAngle",
    "Line",
    "LineKind",
    "LinedUp",
    "NearSide",
    "Other",
    "Parallel",
    "PlaceAnchor",
    "Pointing",
    "Pose",
    "PosePhase",
    "PoseRule",
    "Prop",
    "PropKind",
    "SameHeight",
    "Segment",
    "Straight",
    "Touch",
    "View",
    "Width",
]
