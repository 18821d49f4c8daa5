"""Where a body rests, what can push there, and which way."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from attrs import frozen

from authoring.figures.contacts import CLEARANCE, SIDED, contacts_of
from authoring.figures.space import Vector, along
from authoring.mechanics.estimate import What
from authoring.mechanics.placed import Placed
from authoring.model.pose import BasePosition, BodyPoint, Contact, Pose, PosePhase, Prop, PropKind
from authoring.model.vocabulary import Side

FRICTION: Final = 0.5
"""Of hand or shoe on floor, mat or step (assumption; dry rubber and skin hold more)."""

WALL_FRICTION: Final = 0.3
"""Of hands or clothing on a wall (assumption)."""

LEVEL_M: Final = 0.06
"""Contacts within this of each other's height count as level."""

_ON: Final[Mapping[BodyPoint, tuple[What, str]]] = {
    BodyPoint.HEEL: (What.FEET, "foot"),
    BodyPoint.BALL: (What.FEET, "foot"),
    BodyPoint.TOE: (What.FEET, "foot"),
    BodyPoint.OUTER_FOOT: (What.FEET, "foot"),
    BodyPoint.INSTEP: (What.FEET, "foot"),
    BodyPoint.ANKLE: (What.FEET, "shank"),
    BodyPoint.SHIN: (What.KNEES, "shank"),
    BodyPoint.KNEE: (What.KNEES, "shank"),
    BodyPoint.THIGH: (What.TRUNK, "thigh"),
    BodyPoint.SEAT: (What.TRUNK, "pelvis"),
    BodyPoint.HIP: (What.TRUNK, "pelvis"),
    BodyPoint.BELLY: (What.TRUNK, "pelvis"),
    BodyPoint.CHEST: (What.TRUNK, "chest"),
    BodyPoint.BACK: (What.TRUNK, "chest"),
    BodyPoint.SHOULDER: (What.TRUNK, "chest"),
    BodyPoint.HEAD: (What.HEAD, "head"),
    BodyPoint.NOSE: (What.HEAD, "head"),
    BodyPoint.ELBOW: (What.FOREARMS, "forearm"),
    BodyPoint.FOREARM: (What.FOREARMS, "forearm"),
    BodyPoint.WRIST: (What.HANDS, "hand"),
    BodyPoint.PALM: (What.HANDS, "hand"),
    BodyPoint.GRIP: (What.HANDS, "hand"),
    BodyPoint.THUMB: (What.HANDS, "hand"),
    BodyPoint.FINGERTIPS: (What.HANDS, "hand"),
}
"""What a contact counts as, and the part of the body that it pushes on."""

_HALF_WIDTH: Final[Mapping[What, float]] = {
    What.FEET: 0.0275,  # foot breadth 0.055 of stature (Drillis and Contini, value from memory)
    What.HANDS: 0.02,
    What.KNEES: 0.02,
    What.FOREARMS: 0.02,
    What.HEAD: 0.03,
    What.TRUNK: 0.06,
}
"""How far a contact reaches to either side, share of stature (assumptions but the foot's)."""


@frozen
class Push:
    """A place where something can push on the body.

    Attributes:
        what: what it counts as.
        side: "l", "r" or "".
        part: part of the body that it pushes on.
        at: where, m.
        out: way in which the support pushes.
        both: whether it can pull as well, as a gripped rail can.
        slip: friction.
    """

    what: What
    side: str
    part: str
    at: Vector
    out: Vector
    both: bool = False
    slip: float = FRICTION


@frozen
class Resting:
    """Parts that lie on something and are carried there, each by what is under it.

    A shin behind a kneeling knee, a hand before a propped elbow, the head, and the arms of a
    person lying on the back press no harder than they weigh (assumption).

    Attributes:
        what: what they count as.
        parts: names of the parts.
    """

    what: What
    side: str
    parts: tuple[str, ...]


def touching(
    pose: Pose, moment: PosePhase, body: Placed, height_m: float
) -> tuple[tuple[Push, ...], tuple[Resting, ...]]:
    """Every place where floor or supports can push, and the parts that only rest."""
    props = {prop.id: prop for prop in pose.supports}
    found = [(each, side) for each in contacts_of(pose, moment) for side in _sides(each)]
    rests = {(each.point, side) for each, side in found}
    pushes: list[Push] = []
    resting: dict[tuple[What, str], Resting] = {}
    for contact, side in found:
        if contact.point is BodyPoint.FINGERTIPS and pose.base.position is BasePosition.UPRIGHT:
            continue  # they steady a person who stands, and carry next to nothing
        lying = _resting(contact.point, side, rests)
        if lying is not None:
            resting[lying.what, side] = lying
            continue
        pushes += _pushes(contact, side, props.get(contact.on), (body, height_m))
    return tuple(pushes), tuple(resting.values())


def _sides(contact: Contact) -> tuple[str, ...]:
    if contact.point not in SIDED:
        return ("",)
    return {Side.LEFT: ("l",), Side.RIGHT: ("r",)}.get(contact.side, ("l", "r"))


def _resting(point: BodyPoint, side: str, rests: Iterable[tuple[BodyPoint, str]]) -> Resting | None:
    what = _ON[point][0]
    on = {each for each, there in rests if there in (side, "")}
    if what is What.HEAD:
        return Resting(what, "", ("head",))
    parts: tuple[str, ...] = ()
    if what is What.FEET and BodyPoint.KNEE in on:
        parts = ("shank", "foot")
    if what is What.HANDS and {BodyPoint.ELBOW, BodyPoint.FOREARM} & on:
        parts = ("forearm", "hand")
    if what in (What.HANDS, What.FOREARMS) and {BodyPoint.BACK, BodyPoint.HEAD} <= on:
        parts = ("upper_arm", "forearm", "hand")
    if not parts:
        return None
    return Resting(what, side, tuple(f"{part}.{side}" for part in parts))


def _normal(prop: Prop | None) -> Vector:
    """Which way a support pushes."""
    if prop is None or prop.kind is not PropKind.WALL:
        return (0.0, 1.0, 0.0)
    if prop.beside:
        return (0.0, 0.0, -1.0 if prop.across_cm >= 0 else 1.0)
    return (-1.0 if prop.forward_cm >= 0 else 1.0, 0.0, 0.0)


def _pushes(
    contact: Contact, side: str, prop: Prop | None, about: tuple[Placed, float]
) -> list[Push]:
    """A contact as two places, as far apart as it is wide."""
    body, height = about
    what, part = _ON[contact.point]
    tail = f".{side}" if side else ""
    name = contact.point.value + tail
    name = name if name in body.points else contact.point.value
    if name not in body.points:
        return []
    out = _normal(prop)
    gap = CLEARANCE.get(contact.point.value, 0.0) / 170.0 * height
    at = along(body.points[name], out, -gap)
    across = (1.0, 0.0, 0.0) if out[2] else (0.0, 0.0, 1.0)
    half = _HALF_WIDTH.get(what, 0.0) * height
    return [
        Push(
            what,
            side,
            part if part in ("pelvis", "chest", "head") else part + tail,
            along(at, across, sign * half),
            out,
            prop is not None and prop.kind in (PropKind.RAIL, PropKind.DOOR_FRAME),
            FRICTION if out[1] else WALL_FRICTION,
        )
        for sign in (1.0, -1.0)
    ]


def ways_of(pushes: Sequence[Push], *, dragged: bool) -> list[tuple[Vector, ...]]:
    """For each push the ways whose sums it can make: the edges of its friction cone.

    Nobody pushes the feet apart on purpose, so friction counts only where the body is held
    between contacts of different kinds that are not level, against a wall, or where
    ``dragged`` by a pull; and sideways only where something pushes sideways.
    """
    upright = all(push.out[1] for push in pushes) and not any(push.both for push in pushes)
    heights = [push.at[1] for push in pushes]
    kinds = {push.what for push in pushes}
    level = max(heights, default=0.0) - min(heights, default=0.0) <= LEVEL_M
    smooth = upright and not dragged and (level or len(kinds) == 1)
    sideways = dragged or any(push.out[2] for push in pushes)
    return [_ways(push, smooth=smooth, sideways=sideways) for push in pushes]


def _ways(push: Push, *, smooth: bool, sideways: bool) -> tuple[Vector, ...]:
    axes: list[Vector] = [(1.0, 0.0, 0.0), (0.0, 1.0, 0.0)]
    if sideways:
        axes.append((0.0, 0.0, 1.0))
    if push.both:
        return tuple(along((0.0, 0.0, 0.0), axis, sign) for axis in axes for sign in (1.0, -1.0))
    if smooth:
        return (push.out,)
    flat = [axis for axis in axes if not any(a * b for a, b in zip(axis, push.out, strict=True))]
    return tuple(along(push.out, axis, sign * push.slip) for axis in flat for sign in (1.0, -1.0))
