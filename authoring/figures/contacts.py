"""What contacts and touches ask of a body."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping

from authoring.figures.skeleton import Skeleton
from authoring.figures.space import Vector, column
from authoring.figures.wants import (
    HANDS,
    SIDED,
    Free,
    PoseError,
    Want,
    free_across,
    free_anywhere,
    free_for,
    free_to_twist,
    out_of,
    place,
    sides_at,
    words,
)
from authoring.model.base import evolve
from authoring.model.pose import (
    FLOOR,
    BodyPoint,
    Contact,
    Face,
    Other,
    Pose,
    PosePhase,
    Prop,
    PropKind,
    Segment,
    Touch,
)
from authoring.model.vocabulary import Joint, Motion, Side

__all__ = [
    "CHAIR_BACK_CM",
    "CLEARANCE",
    "HANDS",
    "POST_CM",
    "RAIL_CM",
    "SIDED",
    "PoseError",
    "back_of",
    "contact_wants",
    "contacts_of",
    "middle_of",
    "radius_of",
    "top_of",
    "touch_wants",
]

CHAIR_BACK_CM = 42.0
"""Top of a chair's back above its seat (common size of kitchen chairs, no source)."""

RAIL_CM = 2.0
"""Half the thickness of a rail."""

POST_CM = 4.0
"""Half the width of a door post."""

CLEARANCE: Mapping[str, float] = {
    "heel": 0.0,
    "ball": 0.0,
    "toe": 0.0,
    "outer_foot": 0.0,
    "instep": 2.4,
    "ankle": 3.4,
    "shin": 4.6,
    "knee": 5.4,
    "thigh": 7.2,
    "seat": 9.6,
    "hip": 9.4,
    "belly": 9.0,
    "chest": 10.2,
    "back": 9.6,
    "shoulder": 5.6,
    "head": 8.6,
    "nose": 0.0,
    "elbow": 3.6,
    "forearm": 3.4,
    "wrist": 2.6,
    "knuckle": 2.0,
    "palm": 2.0,
    "grip": 2.6,
    "thumb": 1.2,
    "fingertips": 1.6,
}
"""Flesh between a place inside the body and the surface it rests on, cm (drawn sizes)."""

_FLAT: Mapping[BodyPoint, tuple[str, ...]] = {BodyPoint.PALM: ("wrist", "knuckle")}
"""Places that must all lie on the surface where a flat part of the body rests on it."""

_FLAT_CM = 5.0
"""Half the width of a hand or foot that must lie flat: weighs slope against distance."""

_AXES = ("forward", "up", "across")


# ---- which contacts count -----------------------------------------------------------------


def contacts_of(pose: Pose, moment: PosePhase) -> tuple[Contact, ...]:
    """Contacts of a moment; its own take the place of the pose's for the same place."""
    own = {(each.point, side) for each in moment.contacts for side in _sides(each)}
    kept = [] if moment.airborne else [_without(each, own) for each in pose.contacts]
    return (*(each for each in kept if each is not None), *moment.contacts)


def _sides(contact: Contact) -> tuple[str, ...]:
    return sides_at(contact.point, contact.side)


def _without(contact: Contact, own: set[tuple[BodyPoint, str]]) -> Contact | None:
    """The contact for the sides that are not in ``own``; None where no side is left."""
    left = [side for side in _sides(contact) if (contact.point, side) not in own]
    if len(left) == len(_sides(contact)):
        return contact
    if not left:
        return None
    return evolve(contact, side=Side.LEFT if left == ["l"] else Side.RIGHT)


# ---- contacts -----------------------------------------------------------------------------


def top_of(prop: Prop, point: BodyPoint) -> float:
    """Height of the surface that a place on the body meets, cm."""
    if prop.kind is PropKind.CHAIR and point in HANDS:
        return prop.height_cm + CHAIR_BACK_CM
    return prop.height_cm


def back_of(chair: Prop) -> float:
    """Where the middle of a chair's back stands, cm forward."""
    return chair.forward_cm + (chair.length_cm - 1.5 if chair.faces_back else 1.5)


def middle_of(prop: Prop) -> Vector:
    """Middle of a ball or roll, or of a rail's bar, cm."""
    if prop.kind is PropKind.RAIL:
        return (prop.forward_cm, prop.height_cm, prop.across_cm)
    radius = radius_of(prop)
    return (prop.forward_cm + radius, prop.raised_cm + radius, prop.across_cm)


def radius_of(prop: Prop) -> float:
    """Radius of a ball, roll or rail, cm."""
    if prop.kind is PropKind.RAIL:
        return RAIL_CM
    return (prop.height_cm - prop.raised_cm) / 2


def contact_wants(contacts: Iterable[Contact], props: Iterable[Prop]) -> Iterator[Want]:
    """Everything that contacts ask for.

    Raises:
        PoseError: a contact names a support that the pose does not have.
    """
    by_id = {prop.id: prop for prop in props}
    every = tuple(contacts)
    for contact in every:
        if contact.on not in by_id and contact.on != FLOOR:
            raise PoseError(
                f"The {words(contact.point, '')} is on {contact.on!r}, and the pose has no such "
                "support; add it, or name another."
            )
        prop = by_id.get(contact.on)
        for side in _sides(contact):
            yield from _resting(contact, prop, side)
    yield from _flat_feet(every, by_id)


def _at(name: str, axis: int, value: float) -> Callable[[Skeleton], float]:
    return lambda body: value - body.points[name][axis]


def _resting(contact: Contact, prop: Prop | None, side: str) -> Iterator[Want]:
    """What one place asks for, on the floor or on a support."""
    on = "floor" if prop is None else f"support {contact.on!r}"
    says = f"The {words(contact.point, side)} can't be on the {on}"
    order = 0 if prop is None else 1
    free = tuple(free_for(contact.point, side))
    aside = (*free, *free_across(contact.point, side))
    for name, axis, value in _coordinates(contact, prop, side):
        yield Want(_at(name, axis, value), says, order, aside if axis == 2 else free)
    if prop is not None and prop.kind in (PropKind.BALL, PropKind.ROLL):
        yield Want(_round(contact.point, side, prop), says, order, free)
    elif contact.point is BodyPoint.PALM:
        normal = _normal_axis(prop)
        yield Want(_tilted(f"hand.{side}", 0, normal), says, order, _to_lay(side))


def _to_lay(side: str) -> tuple[Free, ...]:
    """What lays a hand flat."""
    return (*free_to_twist(Segment.HAND, side), (Joint.SHOULDER, Motion.INTERNAL_ROTATION, side))


def _coordinates(
    contact: Contact, prop: Prop | None, side: str
) -> Iterator[tuple[str, int, float]]:
    """Place, axis and value that a contact fixes."""
    point = contact.point
    own = place(point, side)
    if prop is None or prop.kind not in _SPECIAL:
        for flat in _FLAT.get(point, (point.value,)):
            name = f"{flat}.{side}" if side else flat
            yield (name, 1, _height(contact, prop) + CLEARANCE[flat])
        by_back = contact.forward_cm is None and contact.up_cm is None and point in HANDS
        if by_back and prop is not None and prop.kind is PropKind.CHAIR:
            yield (own, 0, back_of(prop))
    else:
        yield from _SPECIAL[prop.kind](contact, prop, side)
    if contact.forward_cm is not None:
        yield (own, 0, contact.forward_cm)


def _height(contact: Contact, prop: Prop | None) -> float:
    if prop is None:
        return 0.0
    if prop.kind is PropKind.CHAIR and contact.up_cm is not None:
        return contact.up_cm
    return top_of(prop, contact.point)


def _against_wall(contact: Contact, prop: Prop, side: str) -> Iterator[tuple[str, int, float]]:
    face = prop.across_cm if prop.beside else prop.forward_cm
    axis = 2 if prop.beside else 0
    for flat in _FLAT.get(contact.point, (contact.point.value,)):
        name = f"{flat}.{side}" if side else flat
        yield (name, axis, face - math.copysign(CLEARANCE[flat], face))
    if contact.up_cm is not None:
        yield (place(contact.point, side), 1, contact.up_cm)


def _in_door(contact: Contact, prop: Prop, side: str) -> Iterator[tuple[str, int, float]]:
    yield from _against_wall(contact, prop, side)
    if side:
        post = prop.across_cm + out_of(side) * (prop.width_cm / 2 + POST_CM)
        yield (place(contact.point, side), 2, post)


def _on_rail(contact: Contact, prop: Prop, side: str) -> Iterator[tuple[str, int, float]]:
    name = place(contact.point, side)
    across = 2 if prop.beside else 0
    away = 0.0 if contact.point is BodyPoint.GRIP else RAIL_CM + CLEARANCE[contact.point.value]
    yield (name, across, prop.across_cm if prop.beside else prop.forward_cm)
    yield (name, 1, prop.height_cm + away)


def _on_round(contact: Contact, prop: Prop, side: str) -> Iterator[tuple[str, int, float]]:
    """Whoever sits on a ball sits on its top."""
    if contact.point is BodyPoint.SEAT and contact.forward_cm is None:
        yield ("seat", 0, middle_of(prop)[0])


_SPECIAL: Mapping[PropKind, Callable[[Contact, Prop, str], Iterator[tuple[str, int, float]]]] = {
    PropKind.WALL: _against_wall,
    PropKind.DOOR_FRAME: _in_door,
    PropKind.RAIL: _on_rail,
    PropKind.BALL: _on_round,
    PropKind.ROLL: _on_round,
}


def _round(point: BodyPoint, side: str, prop: Prop) -> Callable[[Skeleton], float]:
    """How far a place is from the skin of a ball or roll, seen from the side."""
    name, middle = place(point, side), middle_of(prop)
    apart = radius_of(prop) + CLEARANCE[point.value]
    return lambda body: apart - math.dist(body.points[name][:2], middle[:2])


def _normal_axis(prop: Prop | None) -> int:
    if prop is None or prop.kind not in (PropKind.WALL, PropKind.DOOR_FRAME):
        return 1
    return 2 if prop.beside else 0


def _tilted(frame: str, axis: int, normal: int) -> Callable[[Skeleton], float]:
    """How far the edge of a flat part stands off, where its axis should lie in a plane."""
    return lambda body: -_FLAT_CM * column(body.frames[frame], axis)[normal]


def _flat_feet(contacts: tuple[Contact, ...], props: Mapping[str, Prop]) -> Iterator[Want]:
    """Soles that rest with heel and ball rest with both edges."""
    held: dict[str, set[BodyPoint]] = {"l": set(), "r": set()}
    for contact in contacts:
        prop = props.get(contact.on)
        if prop is not None and prop.kind in _SPECIAL:
            continue
        for side in _sides(contact):
            if side:
                held[side].add(contact.point)
    for side, points in held.items():
        if {BodyPoint.HEEL, BodyPoint.BALL} <= points:
            says = f"The sole of the {words(BodyPoint.HEEL, side).split()[0]} foot can't lie flat"
            free: tuple[Free, ...] = ((Joint.ANKLE, Motion.INVERSION, side),)
            yield Want(_tilted(f"foot.{side}", 2, 1), says, -1, free, within=_FLAT_CM)


# ---- touches ------------------------------------------------------------------------------

_FRAMES: Mapping[BodyPoint, str] = {
    BodyPoint.HEEL: "foot",
    BodyPoint.BALL: "foot",
    BodyPoint.OUTER_FOOT: "foot",
    BodyPoint.INSTEP: "foot",
    BodyPoint.TOE: "toes",
    BodyPoint.ANKLE: "shank",
    BodyPoint.SHIN: "shank",
    BodyPoint.KNEE: "thigh",
    BodyPoint.THIGH: "thigh",
    BodyPoint.SEAT: "pelvis",
    BodyPoint.HIP: "pelvis",
    BodyPoint.BELLY: "pelvis",
    BodyPoint.CHEST: "chest",
    BodyPoint.BACK: "chest",
    BodyPoint.SHOULDER: "chest",
    BodyPoint.HEAD: "head",
    BodyPoint.NOSE: "head",
    BodyPoint.ELBOW: "upper_arm",
    BodyPoint.FOREARM: "forearm",
    BodyPoint.WRIST: "forearm",
    BodyPoint.PALM: "hand",
    BodyPoint.GRIP: "hand",
    BodyPoint.THUMB: "hand",
    BodyPoint.FINGERTIPS: "hand",
}
_WAYS: Mapping[Face, tuple[int, float]] = {
    Face.FRONT: (0, 1.0),
    Face.BACK: (0, -1.0),
    Face.OUTER: (2, 1.0),
    Face.INNER: (2, -1.0),
}


def touch_wants(touches: Iterable[Touch]) -> Iterator[Want]:
    """Everything that touches ask for."""
    for touch in touches:
        for side in sides_at(touch.point, touch.side):
            there = words(touch.at, _at_side(touch, side))
            says = f"The {words(touch.point, side)} can't touch the {there}"
            free = tuple(free_anywhere(touch.point, side))
            for axis in range(3):
                yield Want(_touching(touch, side, axis), says, 1, free, within=0.5)


def _at_side(touch: Touch, side: str) -> str:
    own = side or "r"
    return own if touch.at_side is Other.SAME else {"l": "r", "r": "l"}[own]


def _touching(touch: Touch, side: str, axis: int) -> Callable[[Skeleton], float]:
    """How far a place is, on an axis, from the skin of the place that it touches."""
    other = _at_side(touch, side)
    name, at = place(touch.point, side), place(touch.at, other)
    frame = _FRAMES[touch.at]
    if touch.at in SIDED and frame not in ("pelvis", "chest"):
        frame = f"{frame}.{other}"
    number, sign = _WAYS[touch.face]
    sign *= out_of(other) if number == 2 else 1.0
    away = sign * (CLEARANCE[touch.point.value] + CLEARANCE[touch.at.value])

    def miss(body: Skeleton) -> float:
        way = column(body.frames[frame], number)[axis]
        return body.points[at][axis] + away * way - body.points[name][axis]

    return miss
