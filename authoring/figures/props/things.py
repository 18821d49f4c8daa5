"""Things held in both hands or worn, as parts of a picture.

A dumbbell, or a stick in one hand, is drawn with the hand that closes round it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from authoring.figures.contacts import CLEARANCE
from authoring.figures.layers import Layer, Part
from authoring.figures.look import METAL, WOOD
from authoring.figures.outline import Eye
from authoring.figures.props.round_things import ball
from authoring.figures.props.shapes import BAG, CLOTH, CUFF, capsule, edged, rod
from authoring.figures.skeleton import Skeleton
from authoring.figures.space import Vector, along, between, column, length_of, less
from authoring.figures.wants import SIDED, place, sides_at, sides_of
from authoring.model.pose import BodyPoint, Held, HeldKind, LineKind, Pose
from authoring.model.vocabulary import Side

_LONG: Final = frozenset({HeldKind.BARBELL, HeldKind.STICK, HeldKind.TOWEL, HeldKind.BALL})
"""Things of which two hands hold one."""

_USUAL: Final[Mapping[HeldKind, BodyPoint]] = {
    HeldKind.CUFF: BodyPoint.ANKLE,
    HeldKind.BACKPACK: BodyPoint.BACK,
}
_SIZES: Final[Mapping[HeldKind, float]] = {
    HeldKind.BARBELL: 150.0,
    HeldKind.STICK: 100.0,
    HeldKind.TOWEL: 50.0,
    HeldKind.BALL: 20.0,
}
_TWO: Final = (Side.BOTH, Side.NONE)


def where(thing: Held) -> BodyPoint:
    """Place on the body that carries a thing."""
    return thing.at or _USUAL.get(thing.kind, BodyPoint.GRIP)


def in_hands(pose: Pose) -> dict[str, Held]:
    """What the drawing of each hand itself holds, by side."""
    return {
        side: thing
        for thing in pose.held
        if where(thing) is BodyPoint.GRIP and _with_hand(thing)
        for side in sides_of(thing.side)
    }


def _with_hand(thing: Held) -> bool:
    if thing.kind in (HeldKind.DUMBBELL, HeldKind.BOTTLE, HeldKind.HAMMER):
        return True
    return thing.kind is HeldKind.STICK and thing.side not in _TWO


def gripping(pose: Pose) -> frozenset[str]:
    """Sides whose hand is closed round something held or pulled."""
    held = {side for thing in pose.held if _closes(thing) for side in sides_of(thing.side)}
    pulled = {
        side
        for line in pose.lines
        if line.point is BodyPoint.GRIP and line.kind is not LineKind.LOOP
        for side in sides_of(line.side)
    }
    return frozenset(held | pulled)


def _closes(thing: Held) -> bool:
    if thing.kind is HeldKind.BALL:
        return False
    at_hand = where(thing) is BodyPoint.GRIP
    return at_hand or (thing.kind is HeldKind.BARBELL and thing.at is BodyPoint.SHOULDER)


def thing_parts(pose: Pose, body: Skeleton, eye: Eye) -> Iterator[Part]:
    """Everything held or worn that is not drawn with a hand."""
    for thing in pose.held:
        if where(thing) is BodyPoint.GRIP and _with_hand(thing):
            continue
        if thing.kind in _LONG and thing.side in _TWO and where(thing) in SIDED:
            yield _across(thing, body, eye)
            continue
        for side in sides_at(where(thing), thing.side):
            yield _one(thing, side, body, eye)


def ends_of(pose: Pose, body: Skeleton) -> Iterator[Vector]:
    """Where long things and hanging things end, cm."""
    for thing in pose.held:
        for side in sides_at(where(thing), thing.side):
            at = body.points[place(where(thing), side)]
            if thing.kind is HeldKind.KETTLEBELL:
                yield along(at, (0.0, -1.0, 0.0), 21.0)
            elif thing.kind is HeldKind.BAG:
                yield along(at, (0.0, -1.0, 0.0), 36.0)
            elif thing.kind in (HeldKind.BARBELL, HeldKind.STICK):
                half = (thing.size_cm or _SIZES[thing.kind]) / 2
                way = column(body.frames["chest"], 2)
                yield from (along(at, way, k * half) for k in (-1.0, 1.0))


# ---- one thing for both sides ---------------------------------------------------------------


def _across(thing: Held, body: Skeleton, eye: Eye) -> Part:
    """One bar, stick, towel or ball between the same places of both sides."""
    point = where(thing)
    right, left = (body.points[place(point, side)] for side in ("r", "l"))
    if thing.kind is HeldKind.BARBELL and point is BodyPoint.SHOULDER:
        right, left = (_on_back(body, at) for at in (right, left))
    middle, way = between(left, right, 0.5), _unit(less(right, left))
    size = thing.size_cm or _SIZES[thing.kind]
    depth = eye.depth(middle) - 1.0
    if thing.kind is HeldKind.BALL:
        return Part(depth + 3.0, tuple(ball(middle, size / 2, eye)))
    half = max(size, length_of(less(right, left)) + 14.0) / 2
    ends = [along(middle, way, k * half) for k in (-1.0, 1.0)]
    if thing.kind is HeldKind.TOWEL:
        return Part(depth, (edged([rod(ends, 2.0, eye)], eye, CLOTH),))
    if thing.kind is HeldKind.STICK:
        return Part(depth, (edged([rod(ends, 1.3, eye)], eye, WOOD),))
    return Part(depth, tuple(_barbell(ends, way, eye)))


def _on_back(body: Skeleton, shoulder: Vector) -> Vector:
    """A bar lies on the muscle behind and above the shoulder joints."""
    chest = body.frames["chest"]
    return along(along(shoulder, column(chest, 0), -7.0), column(chest, 1), 3.0)


def _barbell(ends: list[Vector], way: Vector, eye: Eye) -> Iterator[Layer]:
    bar = rod(ends, 1.4, eye)
    plates = []
    for end, k in zip(ends, (1.0, -1.0), strict=True):
        inner = along(end, way, k * 14.0)
        plates.append(_disc(inner, way, 16.0, eye))
    far, near = sorted(zip(ends, plates, strict=True), key=lambda each: eye.depth(each[0]))
    yield edged([far[1]], eye, METAL)
    yield edged([bar], eye, METAL)
    yield edged([near[1]], eye, METAL)


def _disc(middle: Vector, way: Vector, radius: float, eye: Eye) -> str:
    """A plate square to its bar, as thick as 4 cm."""
    side = _square(way)
    other = _cross(way, side)
    rim = [
        along(along(middle, side, radius * c), other, radius * s)
        for c, s in (
            (1, 0),
            (0.7, 0.7),
            (0, 1),
            (-0.7, 0.7),
            (-1, 0),
            (-0.7, -0.7),
            (0, -1),
            (0.7, -0.7),
        )
    ]
    return capsule([(spot, 2.0) for spot in rim], eye)


# ---- one thing a side -----------------------------------------------------------------------


def _one(thing: Held, side: str, body: Skeleton, eye: Eye) -> Part:
    point = where(thing)
    at = body.points[place(point, side)]
    depth = eye.depth(at)
    match thing.kind:
        case HeldKind.CUFF:
            return Part(depth + 30.0, (_cuff(point, side, body, eye),))
        case HeldKind.BACKPACK:
            return _backpack(body, eye)
        case HeldKind.KETTLEBELL | HeldKind.BAG:
            hanging = _bag if thing.kind is HeldKind.BAG else _kettlebell
            return Part(depth - 1.0, tuple(hanging(at, eye)))
        case HeldKind.BALL:
            size = (thing.size_cm or _SIZES[HeldKind.BALL]) / 2
            palm = _away(point, side, body)
            return Part(depth - 1.0, tuple(ball(along(at, palm, size + 1.0), size, eye)))
        case HeldKind.TOWEL:
            return Part(depth - 1.0, (_towel(thing, point, side, body, eye),))
        case _:
            return _bar(thing, at, side, body, eye)


def _cuff(point: BodyPoint, side: str, body: Skeleton, eye: Eye) -> Layer:
    """A weight round a wrist or ankle, a little above the joint."""
    if point is BodyPoint.WRIST:
        joint, above, radius = f"wrist.{side}", f"elbow.{side}", 3.5
    else:
        joint, above, radius = f"ankle.{side}", f"knee.{side}", 4.6
    start, end = body.points[joint], body.points[above]
    spots = [(between(start, end, share), radius) for share in (0.10, 0.22)]
    return edged([capsule(spots, eye)], eye, CUFF)


def _backpack(body: Skeleton, eye: Eye) -> Part:
    chest = body.frames["chest"]
    behind, up, right = (column(chest, n) for n in (0, 1, 2))
    middle = along(body.points["back"], behind, -15.0)
    corners = [
        (along(along(middle, up, u), right, r), 6.0) for u in (-14.0, 12.0) for r in (-8.0, 8.0)
    ]
    bag = edged([capsule(corners, eye)], eye, BAG)
    lid = [(along(along(middle, up, 8.0), right, r), 3.0) for r in (-9.0, 9.0)]
    return Part(eye.depth(middle), (bag, edged([capsule(lid, eye)], eye, BAG)))


def _kettlebell(grip: Vector, eye: Eye) -> Iterator[Layer]:
    """It hangs straight down from the hand."""
    down = (0.0, -1.0, 0.0)
    middle = along(grip, down, 13.0)
    across = eye.right
    loop = [
        along(along(middle, across, -5.0), down, -5.0),
        along(along(middle, across, -4.5), down, -13.0),
        along(along(middle, across, 4.5), down, -13.0),
        along(along(middle, across, 5.0), down, -5.0),
    ]
    yield edged([rod(loop, 1.5, eye)], eye, METAL)
    yield edged([capsule([(middle, 8.0)], eye)], eye, METAL)


def _bag(grip: Vector, eye: Eye) -> Iterator[Layer]:
    """A carrier bag that hangs straight down from the hand."""
    corner = [along(along(grip, eye.right, k), (0.0, -1.0, 0.0), 14.0) for k in (-6.0, 6.0)]
    yield edged([rod([corner[0], grip, corner[1]], 0.7, eye)], eye, BAG)
    low = [along(along(grip, eye.right, k), (0.0, -1.0, 0.0), 33.0) for k in (-8.0, 8.0)]
    yield edged([capsule([(spot, 3.0) for spot in (*corner, *low)], eye)], eye, BAG)


def _away(point: BodyPoint, side: str, body: Skeleton) -> Vector:
    """Which way a ball lies from the place that holds it."""
    if point is BodyPoint.GRIP:
        return _palm_way(side, body)
    x, y, z = column(body.frames["chest"], 0)
    return (-x, -y, -z) if point is BodyPoint.BACK else (0.0, 0.0, 0.0)


def _palm_way(side: str, body: Skeleton) -> Vector:
    x, y, z = column(body.frames[f"hand.{side}"], 2)
    sign = -1.0 if side == "r" else 1.0
    return (sign * x, sign * y, sign * z)


def _towel(thing: Held, point: BodyPoint, side: str, body: Skeleton, eye: Eye) -> Layer:
    """A rolled towel: in the hand along the thumb, elsewhere between limb and trunk."""
    long = (thing.size_cm or 26.0) / 2
    at = body.points[place(point, side)]
    if point is BodyPoint.GRIP:
        way, radius = column(body.frames[f"hand.{side}"], 0), 2.6
    else:
        way, radius = column(body.frames["chest"], 0), 4.0
        inward = -1.0 if side == "r" else 1.0
        at = along(at, column(body.frames["chest"], 2), inward * (CLEARANCE["elbow"] + radius))
    ends = [along(at, way, k * (long - radius)) for k in (-1.0, 1.0)]
    return edged([rod(ends, radius, eye)], eye, CLOTH)


def _bar(thing: Held, at: Vector, side: str, body: Skeleton, eye: Eye) -> Part:
    """A stick or bar in one hand, or a weight carried elsewhere."""
    if thing.kind is HeldKind.DUMBBELL:
        way = column(body.frames["pelvis"], 2)
        weights = [capsule([(along(at, way, k * 9.0), 5.2)], eye) for k in (-1.0, 1.0)]
        bar = rod([along(at, way, k * 9.0) for k in (-1.0, 1.0)], 1.4, eye)
        return Part(eye.depth(at) + 8.0, (edged([bar, *weights], eye, METAL),))
    frame = f"hand.{side}" if side else "pelvis"
    way = column(body.frames[frame], 0 if side else 2)
    half = (thing.size_cm or _SIZES[thing.kind]) / 2
    ends = [along(at, way, k * half) for k in (-1.0, 1.0)]
    if thing.kind is HeldKind.BARBELL:
        return Part(eye.depth(at) + 12.0, tuple(_barbell(ends, way, eye)))
    return Part(eye.depth(at) - 1.0, (edged([rod(ends, 1.3, eye)], eye, WOOD),))


def _unit(a: Vector) -> Vector:
    long = length_of(a)
    return (a[0] / long, a[1] / long, a[2] / long) if long > 1e-6 else (0.0, 0.0, 1.0)


def _square(way: Vector) -> Vector:
    """A unit vector square to a direction."""
    helper = (0.0, 1.0, 0.0) if abs(way[1]) < 0.8 else (1.0, 0.0, 0.0)
    return _unit(_cross(way, helper))


def _cross(a: Vector, b: Vector) -> Vector:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])
