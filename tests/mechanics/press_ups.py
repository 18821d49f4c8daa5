"""Press-ups as poses: the body straight, on toes or knees, hands and feet at any height."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

from authoring.figures import body
from authoring.figures.angles import Angles, collect
from authoring.figures.skeleton import skeleton
from authoring.model.base import evolve
from authoring.model.pose import (
    Base,
    BasePosition,
    BodyPoint,
    Contact,
    JointAngle,
    Pose,
    PosePhase,
    Prop,
    PropKind,
)
from authoring.model.text import Text
from authoring.model.vocabulary import Joint, Motion, Phase, Side

ID = "00000000-0000-4000-8000-000000000901"
UPPER, LOWER = body.cm(body.UPPER_ARM), body.cm(body.FOREARM)
WRIST_CM = 2.6
KNEE_CM = 5.4
POINTED = 85.0
"""Plantar flexion with which the toes of a level shin reach the floor, degrees."""


def angle(
    joint: Joint, motion: Motion, degrees: float, side: Side = Side.BOTH, *, fixed: bool = False
) -> JointAngle:
    return JointAngle(joint=joint, motion=motion, degrees=degrees, side=side, fixed=fixed)


def pose(**given: object) -> Pose:
    """A pose of one moment unless it is given others."""
    made: dict[str, object] = {
        "id": ID,
        "slug": "measured",
        "language": "en",
        "title": Text.plain("Measured"),
        "phases": (PosePhase(phase=Phase.HOLD),),
    }
    return Pose(**{**made, **given})  # type: ignore[arg-type]


def _bisect(f: Callable[[float], float], low: float, high: float) -> float:
    rising = f(high) > f(low)
    for _ in range(60):
        middle = (low + high) / 2
        if (f(middle) > 0) is rising:
            high = middle
        else:
            low = middle
    return (low + high) / 2


def _legs(pitch: float, *, knees: bool) -> tuple[JointAngle, ...]:
    """Legs in line with the trunk; a kneeling shin lies level behind the knee."""
    if not knees:
        return (
            angle(Joint.HIP, Motion.FLEXION, 0, fixed=True),
            angle(Joint.KNEE, Motion.FLEXION, 0),
            angle(Joint.ANKLE, Motion.DORSIFLEXION, 0),
            angle(Joint.TOES, Motion.EXTENSION, 80),
        )
    return (
        angle(Joint.HIP, Motion.FLEXION, 0, fixed=True),
        angle(Joint.KNEE, Motion.FLEXION, pitch),
        angle(Joint.ANKLE, Motion.PLANTARFLEXION, POINTED),
    )


def _base(pitch: float, foot_cm: float, angles: Angles, *, knees: bool) -> Base:
    """Where the pelvis is for toes or knees at 0 and at this height."""
    base = Base(position=BasePosition.PRONE, lean_deg=-pitch, up_cm=0)
    at = skeleton(base, angles).points["knee.r" if knees else "ball.r"]
    above = foot_cm + (KNEE_CM if knees else 0.0)
    return evolve(base, forward_cm=-at[0], up_cm=above - at[1])


def press_up(
    hands_cm: float = 0.0,
    feet_cm: float = 0.0,
    *,
    knees: bool = False,
    low: bool = False,
    reach: float | None = None,
) -> Pose:
    """A press-up held still, at the top or, where ``low``, with the elbows at 90 degrees.

    Args:
        reach: from toes or knees to wrist, cm; None puts the hands under the shoulders.
    """

    def settled(pitch: float) -> tuple[Base, Mapping[str, tuple[float, float, float]]]:
        angles = collect(_legs(pitch, knees=knees))
        base = _base(pitch, feet_cm, angles, knees=knees)
        return base, skeleton(base, angles).points

    hand_up = hands_cm + WRIST_CM
    ahead = None if reach is None else math.sqrt(reach**2 - (hands_cm - feet_cm) ** 2)

    def gap(pitch: float) -> float:
        x, y, _ = settled(pitch)[1]["shoulder.r"]
        if low and ahead is not None:
            back = _elbow_back(x, ahead, pitch)
            return y - back * _sin(pitch) - LOWER * _cos(pitch) - hand_up
        away = y - hand_up if ahead is None else math.hypot(x - ahead, y - hand_up)
        return away - UPPER - LOWER

    first = (0.0, 60.0) if ahead is None else _turns(hands_cm - feet_cm)
    pitch = _bisect(gap, *first)
    base, points = settled(pitch)
    x, y, _ = points["shoulder.r"]
    wrist = x if ahead is None else ahead
    arms = _low_arms(x, wrist, pitch) if low else _straight_arms((x, y), (wrist, hand_up), pitch)
    return _pose(base, (*_legs(pitch, knees=knees), *arms), wrist, (hands_cm, feet_cm), knees=knees)


def _sin(degrees: float) -> float:
    return math.sin(math.radians(degrees))


def _cos(degrees: float) -> float:
    return math.cos(math.radians(degrees))


def _elbow_back(shoulder: float, wrist: float, pitch: float) -> float:
    """How far the elbow lies towards the feet from the shoulder, along the trunk."""
    return (shoulder + LOWER * _sin(pitch) - wrist) / _cos(pitch)


def _straight_arms(
    shoulder: tuple[float, float], wrist: tuple[float, float], pitch: float
) -> tuple[JointAngle, ...]:
    ahead = math.degrees(math.atan2(wrist[0] - shoulder[0], shoulder[1] - wrist[1]))
    return (
        angle(Joint.SHOULDER, Motion.FLEXION, 90 - pitch + ahead),
        angle(Joint.FOREARM, Motion.PRONATION, 90),
        angle(Joint.WRIST, Motion.EXTENSION, 86 - ahead),
    )


def _low_arms(shoulder: float, wrist: float, pitch: float) -> tuple[JointAngle, ...]:
    """Upper arms out to the side, forearms down from them at a right angle."""
    out = math.degrees(math.acos(_elbow_back(shoulder, wrist, pitch) / UPPER))
    return (
        angle(Joint.SHOULDER, Motion.ABDUCTION, out, fixed=True),
        angle(Joint.SHOULDER, Motion.FLEXION, 0, fixed=True),
        angle(Joint.SHOULDER, Motion.INTERNAL_ROTATION, 0, fixed=True),
        angle(Joint.ELBOW, Motion.FLEXION, 90, fixed=True),
        angle(Joint.FOREARM, Motion.PRONATION, 0),
        angle(Joint.WRIST, Motion.EXTENSION, 86 - pitch),
    )


def _turns(rise: float) -> tuple[float, float]:
    middle = math.degrees(math.asin(max(-0.9, min(0.9, (rise + 35) / 135))))
    return middle - 25, middle + 25


def _pose(
    base: Base,
    angles: tuple[JointAngle, ...],
    wrist: float,
    heights: tuple[float, float],
    *,
    knees: bool,
) -> Pose:
    hands_cm, feet_cm = heights
    supports = []
    if hands_cm:
        supports.append(_box("bench", hands_cm, wrist - 20))
    if feet_cm:
        supports.append(_box("step", feet_cm, -40))
    foot = (
        (Contact(point=BodyPoint.KNEE), Contact(point=BodyPoint.TOE))
        if knees
        else (Contact(point=BodyPoint.BALL, on="step" if feet_cm else "floor"),)
    )
    palm = Contact(point=BodyPoint.PALM, on="bench" if hands_cm else "floor")
    return pose(base=base, supports=tuple(supports), angles=angles, contacts=(*foot, palm))


def _box(name: str, height: float, forward: float) -> Prop:
    return Prop(
        id=name, kind=PropKind.BOX, forward_cm=forward, length_cm=60, width_cm=80, height_cm=height
    )
