"""The same movement on the other side."""

from __future__ import annotations

from collections.abc import Mapping

from authoring.figures.angles import MIDLINE, SIDEWAYS
from authoring.model.base import evolve
from authoring.model.pose import (
    ApartBy,
    Arrow,
    Base,
    BasePosition,
    Camera,
    Contact,
    Held,
    JointAngle,
    Line,
    NearSide,
    PlaceAnchor,
    Pose,
    PosePhase,
    PoseRule,
    Prop,
    Touch,
)
from authoring.model.vocabulary import Side

OTHER: Mapping[Side, Side] = {
    Side.LEFT: Side.RIGHT,
    Side.RIGHT: Side.LEFT,
    Side.BOTH: Side.BOTH,
    Side.NONE: Side.NONE,
}

_NEAR: Mapping[NearSide, NearSide] = {
    NearSide.LEFT: NearSide.RIGHT,
    NearSide.RIGHT: NearSide.LEFT,
}

_NAMED = (Side.LEFT, Side.RIGHT)

_LYING: Mapping[BasePosition, BasePosition] = {
    BasePosition.LEFT_SIDE: BasePosition.RIGHT_SIDE,
    BasePosition.RIGHT_SIDE: BasePosition.LEFT_SIDE,
}


def mirrored(pose: Pose) -> Pose:
    """A pose with left and right exchanged, seen from the other side; twice gives itself."""
    return evolve(
        pose,
        side=OTHER[pose.side],
        camera=_camera(pose.camera),
        base=_base(pose.base),
        supports=tuple(map(_prop, pose.supports)),
        angles=tuple(map(_angle, pose.angles)),
        contacts=tuple(map(_contact, pose.contacts)),
        touches=tuple(map(_sided, pose.touches)),
        rules=tuple(map(_rule, pose.rules)),
        held=tuple(map(_held, pose.held)),
        lines=tuple(map(_line, pose.lines)),
        phases=tuple(map(_phase, pose.phases)),
        arrows=tuple(map(_arrow, pose.arrows)),
    )


def for_side(pose: Pose, side: Side) -> Pose:
    """The pose with this side at work, where it is drawn for one side and this is the other."""
    if side in (Side.LEFT, Side.RIGHT) and pose.side is OTHER[side]:
        return mirrored(pose)
    return pose


def _camera(camera: Camera) -> Camera:
    focus = camera.focus
    return evolve(
        camera,
        from_side=_NEAR[camera.from_side],
        focus=None if focus is None else evolve(focus, side=OTHER[focus.side]),
    )


def _base(base: Base) -> Base:
    return evolve(
        base,
        position=_LYING.get(base.position, base.position),
        side_lean_deg=-base.side_lean_deg,
        across_cm=-base.across_cm,
    )


def _sided(touch: Touch) -> Touch:
    return evolve(touch, side=OTHER[touch.side])


def _rule(rule: PoseRule) -> PoseRule:
    return rule if isinstance(rule, ApartBy) else evolve(rule, side=OTHER[rule.side])


def _line(line: Line) -> Line:
    anchor = line.anchor
    if isinstance(anchor, PlaceAnchor) and anchor.across_cm is not None:
        anchor = evolve(anchor, across_cm=-anchor.across_cm)
    return evolve(line, side=OTHER[line.side], anchor=anchor)


def _prop(prop: Prop) -> Prop:
    return evolve(prop, across_cm=-prop.across_cm)


def _angle(angle: JointAngle) -> JointAngle:
    """Trunk and neck name the side they turn to; with no side named that is the right."""
    if angle.joint in MIDLINE and angle.motion in SIDEWAYS and angle.side not in _NAMED:
        return evolve(angle, degrees=-angle.degrees)
    return evolve(angle, side=OTHER[angle.side])


def _contact(contact: Contact) -> Contact:
    return evolve(contact, side=OTHER[contact.side])


def _held(held: Held) -> Held:
    return evolve(held, side=OTHER[held.side])


def _arrow(arrow: Arrow) -> Arrow:
    return evolve(arrow, side=OTHER[arrow.side], across_cm=-arrow.across_cm)


def _phase(phase: PosePhase) -> PosePhase:
    return evolve(
        phase,
        base=None if phase.base is None else _base(phase.base),
        angles=tuple(map(_angle, phase.angles)),
        contacts=tuple(map(_contact, phase.contacts)),
        touches=tuple(map(_sided, phase.touches)),
        rules=tuple(map(_rule, phase.rules)),
    )
