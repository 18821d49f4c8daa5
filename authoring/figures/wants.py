"""What a solved body must fulfil: one number each, nought when it does."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import TypeAlias

from attrs import frozen

from authoring.figures.angles import Key
from authoring.figures.skeleton import Skeleton
from authoring.model.pose import BodyPoint, Segment
from authoring.model.vocabulary import Joint, Motion, Side

Free: TypeAlias = Key | str
"""An angle's key, or "forward", "up", "across", "lean", "side_lean" for the base."""

CONTACT_CM = 0.1
RULE_CM = 0.5


class PoseError(Exception):
    """A pose that can't be drawn. The message is one sentence."""


@frozen
class Want:
    """One number that must become nought.

    Attributes:
        miss: how far a body is from it, cm.
        says: start of the sentence where it can't be had, such as
            "The left palm can't be on the support 'wall'".
        order: of several that are missed, the one of the highest order is named.
        free: what may change for it.
        within: how near is near enough, cm.
    """

    miss: Callable[[Skeleton], float]
    says: str
    order: int
    free: tuple[Free, ...]
    within: float = CONTACT_CM


MIDDLE = frozenset(
    {
        BodyPoint.SEAT,
        BodyPoint.BELLY,
        BodyPoint.CHEST,
        BodyPoint.BACK,
        BodyPoint.HEAD,
        BodyPoint.NOSE,
    }
)
"""Places that the body has once."""

SIDED = frozenset(BodyPoint) - MIDDLE
HANDS = frozenset({BodyPoint.PALM, BodyPoint.GRIP, BodyPoint.FINGERTIPS, BodyPoint.THUMB})

BOTH: Mapping[Side, tuple[str, ...]] = {Side.LEFT: ("l",), Side.RIGHT: ("r",)}
SIDE_WORDS: Mapping[str, str] = {"l": "left ", "r": "right ", "": ""}


def sides_of(side: Side) -> tuple[str, ...]:
    """Letters of the sides that are meant; none named means both."""
    return BOTH.get(side, ("l", "r"))


def sides_at(point: BodyPoint, side: Side) -> tuple[str, ...]:
    """Sides of a place; "" where the body has it once."""
    return sides_of(side) if point in SIDED else ("",)


def place(point: BodyPoint, side: str) -> str:
    """Name of a place in the skeleton."""
    return f"{point.value}.{side}" if point in SIDED else point.value


def words(point: BodyPoint, side: str) -> str:
    """A place in words: "left palm", "ball of the right foot"."""
    said = SIDE_WORDS[side if point in SIDED else ""]
    if point is BodyPoint.BALL:
        return f"ball of the {said}foot"
    name = {BodyPoint.GRIP: "hand", BodyPoint.OUTER_FOOT: "outer edge of the foot"}
    return said + name.get(point, point.value.replace("_", " "))


def out_of(side: str) -> float:
    """Sign of the way away from the middle: 1 on the right."""
    return -1.0 if side == "l" else 1.0


# ---- what may move ------------------------------------------------------------------------

_F, _A, _R = Motion.FLEXION, Motion.ABDUCTION, Motion.INTERNAL_ROTATION
_SHOULDER, _HIP = Joint.SHOULDER, Joint.HIP
_ARM = ((_SHOULDER, _F), (Joint.ELBOW, _F))
_LEG = ((_HIP, _F), (Joint.KNEE, _F))
_FOOT = (*_LEG, (Joint.ANKLE, Motion.DORSIFLEXION))
_HAND = (*_ARM, (Joint.WRIST, _F))
_TWIST = (Joint.FOREARM, Motion.PRONATION)

_MOVES: Mapping[BodyPoint, tuple[tuple[Joint, Motion], ...]] = {
    BodyPoint.HEEL: _FOOT,
    BodyPoint.BALL: _FOOT,
    BodyPoint.OUTER_FOOT: _FOOT,
    BodyPoint.INSTEP: _FOOT,
    BodyPoint.TOE: (*_FOOT, (Joint.TOES, _F)),
    BodyPoint.ANKLE: _LEG,
    BodyPoint.SHIN: _LEG,
    BodyPoint.KNEE: _LEG[:1],
    BodyPoint.THIGH: _LEG[:1],
    BodyPoint.ELBOW: _ARM[:1],
    BodyPoint.FOREARM: _ARM,
    BodyPoint.WRIST: _ARM,
    BodyPoint.PALM: _HAND,
    BodyPoint.GRIP: _ARM,
    BodyPoint.THUMB: _ARM,
    BodyPoint.FINGERTIPS: _HAND,
}
_LEG_POINTS = frozenset(
    {
        BodyPoint.HEEL,
        BodyPoint.BALL,
        BodyPoint.TOE,
        BodyPoint.OUTER_FOOT,
        BodyPoint.INSTEP,
        BodyPoint.ANKLE,
        BodyPoint.SHIN,
        BodyPoint.KNEE,
        BodyPoint.THIGH,
    }
)

_TURNS: Mapping[Segment, tuple[tuple[Joint, Motion], ...]] = {
    Segment.THIGH: _LEG[:1],
    Segment.SHIN: _LEG,
    Segment.FOOT: _FOOT[2:],
    Segment.UPPER_ARM: _ARM[:1],
    Segment.FOREARM: (_ARM[1], (_SHOULDER, _R)),
    Segment.HAND: _HAND[2:],
}


def free_for(point: BodyPoint, side: str) -> Iterator[Free]:
    """Joints that bring a place forward, back, up or down."""
    if point is BodyPoint.HEAD or point is BodyPoint.NOSE:
        yield (Joint.NECK, _F, "")
    for joint, motion in _MOVES.get(point, ()):
        yield (joint, motion, side)


def free_across(point: BodyPoint, side: str) -> Iterator[Free]:
    """Joints that bring a place to the left or right."""
    if point in _LEG_POINTS:
        yield (_HIP, _A, side)
    elif point in _MOVES:
        yield (_SHOULDER, _A, side)
        if point is not BodyPoint.ELBOW:
            yield (_SHOULDER, _R, side)


def free_anywhere(point: BodyPoint, side: str) -> Iterator[Free]:
    """Joints that bring a place to a point of space."""
    yield from free_for(point, side)
    yield from free_across(point, side)
    if point in _LEG_POINTS:
        yield (_HIP, _R, side)


def free_to_turn(segment: Segment, side: str) -> Iterator[Free]:
    """What may turn a part of the body in the side view."""
    if segment is Segment.TRUNK:
        yield "lean"
    elif segment is Segment.HEAD:
        yield (Joint.NECK, _F, "")
    for joint, motion in _TURNS.get(segment, ()):
        yield (joint, motion, side)


def free_to_twist(segment: Segment, side: str) -> Iterator[Free]:
    """What may turn a hand or foot about the long axis of the limb."""
    if segment is Segment.HAND:
        yield (*_TWIST, side)
    else:
        yield (_HIP, _R, side)
