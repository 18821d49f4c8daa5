"""Words for a picture, suggested from its pose: how somebody is placed, on what, what moves.

English only. They are a start for the author, who knows what matters about the exercise.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Final

from attrs import frozen

from authoring.figures.alt_moves import moves
from authoring.figures.contacts import contacts_of
from authoring.figures.solver import Settled, settle
from authoring.figures.wants import sides_at
from authoring.model.pose import (
    FLOOR,
    BasePosition,
    BodyPoint,
    Contact,
    Held,
    HeldKind,
    LineKind,
    Pose,
    PosePhase,
    Prop,
    PropKind,
)
from authoring.model.vocabulary import Joint, Motion, Phase, Side

_FEET: Final = frozenset({BodyPoint.HEEL, BodyPoint.BALL, BodyPoint.TOE, BodyPoint.OUTER_FOOT})
_HANDS: Final = frozenset({BodyPoint.PALM, BodyPoint.GRIP, BodyPoint.FINGERTIPS})
_BENT_DEG: Final = 55.0
_STEP_CM: Final = 35.0
"""Higher than this a box is no step any more (common practice, no source)."""

_SIDES: Final = {"l": "left", "r": "right"}

_PROPS: Final[Mapping[PropKind, str]] = {
    PropKind.WALL: "a wall",
    PropKind.BOX: "a step",
    PropKind.CHAIR: "a chair",
    PropKind.TABLE: "a table",
    PropKind.WORKTOP: "a worktop",
    PropKind.MAT: "a mat",
    PropKind.PILLOW: "a pillow",
    PropKind.PLINTH: "a treatment couch",
    PropKind.BALL: "a gym ball",
    PropKind.ROLL: "a roll",
    PropKind.DOOR_FRAME: "a door frame",
    PropKind.RAIL: "a rail",
}
_UPRIGHT: Final = frozenset({PropKind.WALL, PropKind.DOOR_FRAME, PropKind.RAIL})
_HELD: Final[Mapping[HeldKind, str]] = {
    HeldKind.DUMBBELL: "dumbbell",
    HeldKind.STICK: "stick",
    HeldKind.BARBELL: "barbell",
    HeldKind.KETTLEBELL: "kettlebell",
    HeldKind.BALL: "ball",
    HeldKind.TOWEL: "towel",
    HeldKind.BAG: "bag",
    HeldKind.BOTTLE: "bottle",
    HeldKind.HAMMER: "hammer",
}
_LINES: Final[Mapping[LineKind, str]] = {
    LineKind.BAND: "against an elastic band",
    LineKind.LOOP: "against a loop of elastic band",
    LineKind.CABLE: "against a cable",
    LineKind.STRAPS: "hanging on straps",
    LineKind.TOWEL: "with a towel",
}
_LONG: Final = frozenset({HeldKind.STICK, HeldKind.BARBELL, HeldKind.TOWEL, HeldKind.BALL})


@frozen
class _Resting:
    """What of a body rests on what: sides ("l", "r", "") and support by place."""

    by: Mapping[BodyPoint, Mapping[str, str]]

    def sides(self, points: Iterable[BodyPoint]) -> frozenset[str]:
        return frozenset(side for point in points for side in self.by.get(point, ()))

    def on(self, points: Iterable[BodyPoint]) -> tuple[str, ...]:
        """Supports under these places, each once."""
        found = (on for point in points for on in self.by.get(point, {}).values())
        return tuple(dict.fromkeys(found))


def suggested_alt(pose: Pose, phase: Phase | None = None) -> str:
    """One line that says what a picture of the pose shows.

    Args:
        pose: what is drawn.
        phase: moment of the picture; None means the last, with how it got there.

    Raises:
        PoseError: a contact can't be reached.
    """
    first = pose.before()
    last = pose.phases[-1] if phase is None else (pose.moment(phase) or pose.phases[-1])
    begun, here = settle(pose, first), settle(pose, last)
    shown = first if last is not first else last
    parts = [_placed(pose, shown, begun if shown is first else here)]
    if last is not first:
        moved = moves(begun, here)
        parts.append(" and ".join(moved))
    if last.hold:
        parts.append("held still")
    return "; ".join(part for part in parts if part) + "."


def _placed(pose: Pose, moment: PosePhase, body: Settled) -> str:
    props = {prop.id: prop for prop in pose.supports}
    rest = _resting(contacts_of(pose, moment))
    said = [_position(pose, moment, rest, props, body)]
    said += _hands(rest, props, body)
    said += [*_things(pose.held), *dict.fromkeys(_LINES[line.kind] for line in pose.lines)]
    return ", ".join(filter(None, said))


def _resting(contacts: Iterable[Contact]) -> _Resting:
    by: dict[BodyPoint, dict[str, str]] = {}
    for contact in contacts:
        for side in sides_at(contact.point, contact.side):
            by.setdefault(contact.point, {})[side] = contact.on
    return _Resting(by)


def _name(support: str, props: Mapping[str, Prop]) -> str:
    prop = props.get(support)
    if prop is None:
        return "the floor"
    if prop.kind is PropKind.BOX and prop.height_cm > _STEP_CM:
        return "a box"
    return _PROPS[prop.kind]


def _position(
    pose: Pose, moment: PosePhase, rest: _Resting, props: Mapping[str, Prop], body: Settled
) -> str:
    base = moment.base or pose.base
    match base.position:
        case BasePosition.SUPINE:
            return "Lying on the back" + _bent(body)
        case BasePosition.LEFT_SIDE | BasePosition.RIGHT_SIDE:
            side = "left" if base.position is BasePosition.LEFT_SIDE else "right"
            return f"Lying on the {side} side" + _bent(body)
        case BasePosition.PRONE:
            return _on_all_fours(rest) or "Lying face down"
    if base.lean_deg > 60 and rest.sides({BodyPoint.KNEE, BodyPoint.TOE}):
        found = _on_all_fours(rest)
        if found:
            return found
    return _upright(moment, rest, props)


def _bent(body: Settled) -> str:
    bent = [
        side
        for side in ("l", "r")
        if body.angles.get((Joint.KNEE, Motion.FLEXION, side), 0.0) > _BENT_DEG
    ]
    if len(bent) == 2:
        return " with the knees bent"
    return f" with the {_SIDES[bent[0]]} knee bent" if bent else ""


def _on_all_fours(rest: _Resting) -> str:
    forearms = rest.sides({BodyPoint.FOREARM, BodyPoint.ELBOW})
    hands = rest.sides(_HANDS)
    if not (hands or forearms):
        return ""
    arms = "forearms" if forearms else "hands"
    if rest.sides({BodyPoint.KNEE, BodyPoint.SHIN}):
        return f"On {arms} and knees"
    return f"In a plank on {arms} and toes" if rest.sides(_FEET) else ""


def _upright(moment: PosePhase, rest: _Resting, props: Mapping[str, Prop]) -> str:
    upright = {each.id for each in props.values() if each.kind in _UPRIGHT}
    seat = [each for each in rest.on({BodyPoint.SEAT, BodyPoint.THIGH}) if each not in upright]
    if seat:
        return f"Sitting on {_name(seat[0], props)}"
    knees = rest.sides({BodyPoint.KNEE, BodyPoint.SHIN})
    if len(knees) == 2:
        return "Kneeling"
    if knees:
        return f"Half kneeling on the {_SIDES[min(knees)]} knee"
    against = rest.on({BodyPoint.BACK, BodyPoint.SHOULDER, BodyPoint.HIP, BodyPoint.SEAT})
    feet = rest.sides(_FEET)
    if not feet:
        return "In the air" if moment.airborne else "Upright"
    words = "Standing" if len(feet) == 2 else f"Standing on the {_SIDES[min(feet)]} leg"
    raised = [each for each in rest.on(_FEET) if each != FLOOR]
    if raised:
        name = _name(raised[0], props)
        there = {s for by in rest.by.values() for s in by if by[s] == raised[0]} & feet
        one = len(there) < len(feet)
        words += f", the {_SIDES[min(there)]} foot on {name}" if one and there else f" on {name}"
    return words + (f" against {_name(against[0], props)}" if against else "")


def _hands(rest: _Resting, props: Mapping[str, Prop], body: Settled) -> Iterator[str]:
    """Where hands rest; a hand at a thing beside or before somebody who stands steadies them."""
    for support in rest.on(_HANDS):
        if support == FLOOR:
            continue
        sides = [s for s in ("l", "r") if support in _supports(rest, s)]
        name = _name(support, props)
        hands = "both hands" if len(sides) == 2 else f"the {_SIDES[sides[0]]} hand"
        yield f"{hands} on {name}"


def _supports(rest: _Resting, side: str) -> set[str]:
    return {by[side] for point, by in rest.by.items() if point in _HANDS and side in by}


def _things(held: Iterable[Held]) -> Iterator[str]:
    for thing in held:
        if thing.kind is HeldKind.CUFF:
            yield "with an ankle weight" if thing.side is not Side.BOTH else "with ankle weights"
        elif thing.kind is HeldKind.BACKPACK:
            yield "wearing a backpack"
        elif thing.at is not None:
            yield f"with a {_HELD[thing.kind]} at the {thing.at.value.replace('_', ' ')}"
        elif thing.side in (Side.LEFT, Side.RIGHT):
            yield f"a {_HELD[thing.kind]} in the {thing.side.value} hand"
        elif thing.kind in _LONG:
            yield f"holding a {_HELD[thing.kind]} in both hands"
        else:
            yield f"a {_HELD[thing.kind]} in each hand"
