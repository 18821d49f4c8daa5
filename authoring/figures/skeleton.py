"""Angles to places: where each joint and each place on the body is.

Hip and shoulder turn in the order flexion, abduction, rotation, each in the frame left by
the one before. Points are centimetres in the axes of :mod:`authoring.figures.space`.
"""

from __future__ import annotations

from collections.abc import Mapping

from attrs import frozen

from authoring.figures import body
from authoring.figures.angles import Angles
from authoring.figures.body import cm
from authoring.figures.space import (
    IDENTITY,
    Matrix,
    Vector,
    about_x,
    about_y,
    about_z,
    along,
    between,
    column,
    times,
)
from authoring.model.pose import Base, BasePosition
from authoring.model.vocabulary import Joint, Motion

TURNED: Mapping[BasePosition, Matrix] = {
    BasePosition.UPRIGHT: IDENTITY,
    BasePosition.PRONE: about_z(-90),
    BasePosition.SUPINE: about_z(90),
    BasePosition.LEFT_SIDE: about_x(-90),
    BasePosition.RIGHT_SIDE: about_x(90),
}

_HAND, _FOOT = cm(body.HAND), cm(body.FOOT)
_NOSE_CM = 10.4
"""Tip of the drawn nose from the middle of the head."""


@frozen
class Skeleton:
    """Places (cm) and frames by name; those of a limb end in ``.l`` or ``.r``."""

    points: Mapping[str, Vector]
    frames: Mapping[str, Matrix]


class _Builder:
    """Places bones one after another."""

    def __init__(self, angles: Angles, start: Skeleton | None = None) -> None:
        self.angles = angles
        self.points: dict[str, Vector] = dict(start.points) if start else {}
        self.frames: dict[str, Matrix] = dict(start.frames) if start else {}

    def angle(self, joint: Joint, motion: Motion, side: str = "") -> float:
        return self.angles.get((joint, motion, side), 0.0)

    def bend(self, joint: Joint) -> Matrix:
        """Turn of the trunk or neck: flexion, lateral flexion, rotation."""
        made = about_z(-self.angle(joint, Motion.FLEXION))
        lateral = self.angle(joint, Motion.LATERAL_FLEXION)
        turn = self.angle(joint, Motion.ROTATION)
        made = times(made, about_x(lateral)) if lateral else made
        return times(made, about_y(-turn)) if turn else made

    def ball_joint(self, joint: Joint, side: str) -> Matrix:
        out = 1.0 if side == "r" else -1.0
        made = about_z(self.angle(joint, Motion.FLEXION, side))
        away = self.angle(joint, Motion.ABDUCTION, side)
        turn = self.angle(joint, Motion.INTERNAL_ROTATION, side)
        made = times(made, about_x(-out * away)) if away else made
        return times(made, about_y(out * turn)) if turn else made

    def trunk(self, base: Base) -> None:
        pelvis = times(TURNED[base.position], about_z(-base.lean_deg))
        if base.side_lean_deg:
            pelvis = times(pelvis, about_x(base.side_lean_deg))
        ribs = times(pelvis, self.bend(Joint.LOWER_BACK))
        chest = times(ribs, self.bend(Joint.UPPER_BACK))
        head = times(chest, self.bend(Joint.NECK))
        self.frames |= {"pelvis": pelvis, "ribs": ribs, "chest": chest, "head": head}
        trunk = cm(body.TRUNK)
        p = self.points
        p["pelvis"] = (base.forward_cm, base.up_cm, base.across_cm)
        p["waist"] = along(p["pelvis"], column(pelvis, 1), trunk * body.PELVIS)
        p["ribs"] = along(p["waist"], column(ribs, 1), trunk * body.RIBS)
        rest = 1 - body.PELVIS - body.RIBS
        p["neck"] = along(p["ribs"], column(chest, 1), trunk * rest)
        p["chin"] = along(p["neck"], column(chest, 1), cm(body.NECK))
        p["vertex"] = along(p["chin"], column(head, 1), cm(body.HEAD))
        p["back"] = along(p["ribs"], column(chest, 1), trunk * (0.52 - body.RIBS))
        p["chest"] = along(p["ribs"], column(chest, 1), trunk * 0.22)
        p["belly"] = along(p["pelvis"], column(pelvis, 1), trunk * 0.18)
        p["head"] = between(p["chin"], p["vertex"], 0.55)
        p["nose"] = along(between(p["chin"], p["vertex"], 0.4), column(head, 0), _NOSE_CM)
        p["seat"] = p["pelvis"]

    def shoulder(self, side: str, out: float) -> Vector:
        """Shoulder joint, carried by the collar bone from the middle of the chest's top."""
        chest, reach = self.frames["chest"], cm(body.SHOULDER_HALF)
        rise = self.angle(Joint.SHOULDER_BLADE, Motion.ELEVATION, side)
        ahead = self.angle(Joint.SHOULDER_BLADE, Motion.PROTRACTION, side)
        bone = chest
        if ahead:
            bone = times(bone, about_y(out * ahead))
        if rise:
            bone = times(bone, about_x(-out * rise))
        return along(self.points["neck"], column(bone, 2), out * reach)

    def arm(self, side: str) -> None:
        out = 1.0 if side == "r" else -1.0
        p, f = self.points, self.frames
        upper = times(f["chest"], self.ball_joint(Joint.SHOULDER, side))
        p[f"shoulder.{side}"] = self.shoulder(side, out)
        elbow = along(p[f"shoulder.{side}"], column(upper, 1), -cm(body.UPPER_ARM))
        lower = times(upper, about_z(self.angle(Joint.ELBOW, Motion.FLEXION, side)))
        turned = times(lower, about_y(out * self.angle(Joint.FOREARM, Motion.PRONATION, side)))
        wrist = along(elbow, column(turned, 1), -cm(body.FOREARM))
        hand = times(turned, about_x(out * self.angle(Joint.WRIST, Motion.FLEXION, side)))
        aside = self.angle(Joint.WRIST, Motion.RADIAL_DEVIATION, side)
        hand = times(hand, about_z(aside)) if aside else hand
        p[f"elbow.{side}"], p[f"wrist.{side}"] = elbow, wrist
        down = column(hand, 1)
        p[f"knuckle.{side}"] = along(wrist, down, -_HAND * body.KNUCKLE_AT)
        p[f"palm.{side}"] = along(wrist, down, -_HAND * 0.34)
        p[f"grip.{side}"] = along(wrist, down, -_HAND * 0.42)
        p[f"fingertips.{side}"] = along(wrist, down, -_HAND * 0.96)
        p[f"thumb.{side}"] = along(p[f"palm.{side}"], column(hand, 0), _HAND * 0.36)
        p[f"forearm.{side}"] = between(elbow, wrist, 0.45)
        f |= {f"upper_arm.{side}": upper, f"forearm.{side}": turned, f"hand.{side}": hand}

    def leg(self, side: str) -> None:
        out = 1.0 if side == "r" else -1.0
        p, f = self.points, self.frames
        thigh = times(f["pelvis"], self.ball_joint(Joint.HIP, side))
        hip = along(p["pelvis"], column(f["pelvis"], 2), out * cm(body.HIP_HALF))
        knee = along(hip, column(thigh, 1), -cm(body.THIGH))
        shank = times(thigh, about_z(-self.angle(Joint.KNEE, Motion.FLEXION, side)))
        ankle = along(knee, column(shank, 1), -cm(body.SHANK))
        foot = times(shank, about_z(self.angle(Joint.ANKLE, Motion.DORSIFLEXION, side)))
        roll = self.angle(Joint.ANKLE, Motion.INVERSION, side)
        foot = times(foot, about_x(out * roll)) if roll else foot
        toes = times(foot, about_z(-self.angle(Joint.TOES, Motion.FLEXION, side)))
        ahead = column(foot, 0)
        sole = along(ankle, column(foot, 1), -cm(body.ANKLE_HEIGHT))
        p |= {f"hip.{side}": hip, f"knee.{side}": knee, f"ankle.{side}": ankle}
        p[f"heel.{side}"] = along(sole, ahead, -body.ANKLE_AT * _FOOT)
        p[f"ball.{side}"] = along(sole, ahead, (body.BALL_AT - body.ANKLE_AT) * _FOOT)
        p[f"toe.{side}"] = along(p[f"ball.{side}"], column(toes, 0), (1 - body.BALL_AT) * _FOOT)
        p[f"thigh.{side}"] = between(hip, knee, 0.5)
        p[f"shin.{side}"] = between(knee, ankle, 0.5)
        outward = column(foot, 2)
        middle = between(p[f"heel.{side}"], p[f"ball.{side}"], 0.6)
        p[f"instep.{side}"] = along(middle, column(foot, 1), cm(body.ANKLE_HEIGHT) * 0.8)
        p[f"outer_foot.{side}"] = along(middle, outward, out * cm(body.FOOT_BREADTH) / 2)
        f |= {f"thigh.{side}": thigh, f"shank.{side}": shank, f"foot.{side}": foot}
        f[f"toes.{side}"] = toes


def skeleton(base: Base, angles: Angles) -> Skeleton:
    """The body at its angles with the pelvis where the base says."""
    builder = _Builder(angles)
    builder.trunk(base)
    for side in ("l", "r"):
        builder.arm(side)
        builder.leg(side)
    return Skeleton(builder.points, builder.frames)


def with_limb(body_before: Skeleton, angles: Angles, joint: Joint, side: str) -> Skeleton:
    """A body with one arm or leg placed anew, the one that this joint belongs to."""
    builder = _Builder(angles, body_before)
    if joint in LEG_JOINTS:
        builder.leg(side)
    else:
        builder.arm(side)
    return Skeleton(builder.points, builder.frames)


def shifted(body_before: Skeleton, by: Vector) -> Skeleton:
    """A body moved as a whole, cm."""
    x, y, z = by
    points = {name: (p[0] + x, p[1] + y, p[2] + z) for name, p in body_before.points.items()}
    return Skeleton(points, body_before.frames)


LEG_JOINTS = frozenset({Joint.HIP, Joint.KNEE, Joint.ANKLE, Joint.TOES})
