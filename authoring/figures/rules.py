"""What rules of a pose ask of a body: "wrist under shoulder", "shin vertical"."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from functools import singledispatch
from typing import Final

from authoring.figures import body as lengths
from authoring.figures.balance import weight_of
from authoring.figures.body import cm
from authoring.figures.skeleton import TURNED, Skeleton
from authoring.figures.space import Vector, column, cross, dot, length_of, less
from authoring.figures.wants import (
    RULE_CM,
    SIDE_WORDS,
    SIDED,
    Free,
    Want,
    free_across,
    free_for,
    free_to_turn,
    free_to_twist,
    out_of,
    place,
    sides_at,
    sides_of,
    words,
)
from authoring.model.pose import (
    ApartBy,
    Balanced,
    Base,
    BasePosition,
    BodyPoint,
    Direction,
    Facing,
    LinedUp,
    Other,
    Parallel,
    Pointing,
    PoseRule,
    SameHeight,
    Segment,
    Straight,
    Width,
)
from authoring.model.vocabulary import Side

WIDTHS_CM: Final[Mapping[Width, float]] = {
    Width.TOGETHER: 10.0,
    Width.HIP: 2 * cm(lengths.HIP_HALF),
    Width.SHOULDER: 2 * cm(lengths.SHOULDER_HALF),
    Width.WIDE: 3 * cm(lengths.SHOULDER_HALF),
    Width.VERY_WIDE: 4 * cm(lengths.SHOULDER_HALF),
}
"""Between the middles of feet, knees, elbows or hands: joint distances, and design choices."""

ENDS: Final[Mapping[Segment, tuple[str, str]]] = {
    Segment.HEAD: ("chin", "vertex"),
    Segment.TRUNK: ("pelvis", "neck"),
    Segment.UPPER_ARM: ("shoulder", "elbow"),
    Segment.FOREARM: ("elbow", "wrist"),
    Segment.HAND: ("wrist", "fingertips"),
    Segment.THIGH: ("hip", "knee"),
    Segment.SHIN: ("knee", "ankle"),
    Segment.FOOT: ("heel", "ball"),
}
"""Near end and the end that points."""

_MIDDLE_PARTS: Final = frozenset({Segment.HEAD, Segment.TRUNK})
_STEEP_DEG: Final = 60.0
_LYING: Final = frozenset({BasePosition.LEFT_SIDE, BasePosition.RIGHT_SIDE})
_OTHER: Final = {"l": "r", "r": "l", "": ""}
_TWIST_CM: Final = 8.0
"""Weighs turns of hand and foot against distances."""


def rule_wants(rules: tuple[PoseRule, ...], base: Base) -> Iterator[Want]:
    """Everything that rules ask for of a body on this base."""
    for rule in rules:
        yield from _wants(rule, base)


@singledispatch
def _wants(rule: object, base: Base) -> Iterator[Want]:
    raise TypeError(f"{type(rule).__name__} is no rule")


def _want(
    miss: Callable[[Skeleton], float], says: str, *free: Free, within: float = RULE_CM
) -> Want:
    return Want(miss, says, 2, tuple(dict.fromkeys(free)), within)


def _between(a: str, b: str, axis: int, ahead: float) -> Callable[[Skeleton], float]:
    """How far a place is from where another is, moved by ``ahead``, on one axis."""
    return lambda body: body.points[b][axis] + ahead - body.points[a][axis]


def _far_side(point: BodyPoint, side: str, which: Other) -> str:
    own = side if side or point not in SIDED else "r"
    return own if which is Other.SAME else _OTHER[own]


@_wants.register
def _(rule: LinedUp, base: Base) -> Iterator[Want]:
    for side in sides_at(rule.point, rule.side):
        other = _far_side(rule.under, side, rule.under_side)
        a, b = place(rule.point, side), place(rule.under, other)
        says = f"The {words(rule.point, side)} can't be in line with the {words(rule.under, other)}"
        free = [*free_for(rule.point, side), *free_for(rule.under, other)]
        yield _want(_between(a, b, 0, rule.ahead_cm), says, *free)
        if rule.across:
            aside = [*free_across(rule.point, side), *free_across(rule.under, other)]
            yield _want(_between(a, b, 2, 0.0), says, *aside)


@_wants.register
def _(rule: SameHeight, base: Base) -> Iterator[Want]:
    for side in sides_at(rule.point, rule.side):
        other = _far_side(rule.height_of, side, rule.height_side)
        a, b = place(rule.point, side), place(rule.height_of, other)
        says = (
            f"The {words(rule.point, side)} can't be level with the {words(rule.height_of, other)}"
        )
        free = [*free_for(rule.point, side), *free_for(rule.height_of, other)]
        yield _want(_between(a, b, 1, rule.above_cm), says, *free)


# ---- slopes -------------------------------------------------------------------------------


def _sides(segment: Segment, side: Side) -> tuple[str, ...]:
    return ("",) if segment in _MIDDLE_PARTS else sides_of(side)


def _ends(segment: Segment, side: str) -> tuple[str, str]:
    near, far = ENDS[segment]
    return (f"{near}.{side}", f"{far}.{side}") if side else (near, far)


def _named(segment: Segment, side: str) -> str:
    return f"{SIDE_WORDS[side]}{segment.value.replace('_', ' ')}"


@_wants.register
def _(rule: Pointing, base: Base) -> Iterator[Want]:
    for side in _sides(rule.segment, rule.side):
        says = f"The {_named(rule.segment, side)} can't point {rule.degrees_up:g} degrees up"
        miss = _sloping(*_ends(rule.segment, side), rule.degrees_up)
        yield _want(miss, says, *free_to_turn(rule.segment, side))


def _sloping(near: str, far: str, degrees: float) -> Callable[[Skeleton], float]:
    """How far the far end is from where the slope puts it; by height unless it is steep."""
    sine, cosine = math.sin(math.radians(degrees)), math.cos(math.radians(degrees))

    def miss(body: Skeleton) -> float:
        way = less(body.points[far], body.points[near])
        long = length_of(way)
        if abs(degrees) < _STEEP_DEG:
            return long * sine - way[1]
        ahead = math.copysign(cosine, way[0])
        return math.hypot(way[0], way[1]) * ahead - way[0]

    return miss


@_wants.register
def _(rule: Parallel, base: Base) -> Iterator[Want]:
    for side in _sides(rule.segment, rule.side):
        other = "" if rule.parallel_to in _MIDDLE_PARTS else (side or sides_of(rule.side)[-1])
        says = (
            f"The {_named(rule.segment, side)} can't be parallel with "
            f"the {_named(rule.parallel_to, other)}"
        )
        miss = _not_parallel(_ends(rule.segment, side), _ends(rule.parallel_to, other))
        free = [*free_to_turn(rule.segment, side), *free_to_turn(rule.parallel_to, other)]
        yield _want(miss, says, *free)


def _not_parallel(one: tuple[str, str], two: tuple[str, str]) -> Callable[[Skeleton], float]:
    """Distance that the far end of one is off the slope of the other, seen from the side."""

    def miss(body: Skeleton) -> float:
        a = less(body.points[one[1]], body.points[one[0]])
        b = less(body.points[two[1]], body.points[two[0]])
        return -(a[0] * b[1] - a[1] * b[0]) / max(math.hypot(b[0], b[1]), 1.0)

    return miss


@_wants.register
def _(rule: Straight, base: Base) -> Iterator[Want]:
    names = tuple(
        tuple(place(each, side) for side in sides_at(each, rule.side))
        for each in (rule.first, rule.middle, rule.last)
    )
    says = (
        f"The {words(rule.middle, '')} can't be in line with "
        f"the {words(rule.first, '')} and the {words(rule.last, '')}"
    )
    free: list[Free] = ["lean", "side_lean"]
    for side in sides_of(rule.side):
        free += free_to_turn(Segment.THIGH, side)
    axis = 2 if base.position in _LYING else 0
    yield _want(_bent(names, axis), says, *free)


def _bent(names: tuple[tuple[str, ...], ...], axis: int) -> Callable[[Skeleton], float]:
    """How far the middle is off the line, along an axis of the pelvis."""

    def miss(body: Skeleton) -> float:
        a, m, c = (_mean([body.points[name] for name in each]) for each in names)
        line, way = less(c, a), column(body.frames["pelvis"], axis)
        share = dot(less(m, a), line) / max(dot(line, line), 1.0)
        off = less(m, (a[0] + line[0] * share, a[1] + line[1] * share, a[2] + line[2] * share))
        return -dot(off, way)

    return miss


def _mean(points: list[Vector]) -> Vector:
    count = len(points)
    x, y, z = (sum(p[i] for p in points) / count for i in range(3))
    return (x, y, z)


# ---- widths, turns, balance ---------------------------------------------------------------


@_wants.register
def _(rule: ApartBy, base: Base) -> Iterator[Want]:
    if rule.point not in SIDED:
        return
    right, left = place(rule.point, "r"), place(rule.point, "l")
    way = column(TURNED[base.position], 2)
    apart = WIDTHS_CM[rule.width]
    says = f"The {rule.point.value.replace('_', ' ')} of both sides can't be so far apart"

    def miss(body: Skeleton) -> float:
        return apart - dot(less(body.points[right], body.points[left]), way)

    yield _want(miss, says, *free_across(rule.point, "l"), *free_across(rule.point, "r"))


_WAYS: Final[Mapping[Direction, Vector]] = {
    Direction.FORWARD: (1.0, 0.0, 0.0),
    Direction.BACK: (-1.0, 0.0, 0.0),
    Direction.UP: (0.0, 1.0, 0.0),
    Direction.DOWN: (0.0, -1.0, 0.0),
}


def way_of(direction: Direction, side: str) -> Vector:
    """A direction in space; out and in depend on the side."""
    if direction in _WAYS:
        return _WAYS[direction]
    return (0.0, 0.0, out_of(side) * (1.0 if direction is Direction.OUT else -1.0))


def looks(part: Segment, side: str) -> Callable[[Skeleton], Vector]:
    """Where the palm, or the toes, look."""
    if part is Segment.FOOT:
        return lambda body: column(body.frames[f"foot.{side}"], 0)
    sign = -out_of(side)

    def palm(body: Skeleton) -> Vector:
        x, y, z = column(body.frames[f"hand.{side}"], 2)
        return (sign * x, sign * y, sign * z)

    return palm


@_wants.register
def _(rule: Facing, base: Base) -> Iterator[Want]:
    for side in sides_of(rule.side):
        part = "palm" if rule.part is Segment.HAND else "foot"
        says = f"The {SIDE_WORDS[side]}{part} can't look {rule.way.value}"
        yield _want(
            _twisted(rule.part, side, way_of(rule.way, side)),
            says,
            *free_to_twist(rule.part, side),
            within=_TWIST_CM * 0.35,
        )


def _twisted(part: Segment, side: str, way: Vector) -> Callable[[Skeleton], float]:
    """Turn about the limb's length between where a part looks and where it should."""
    look = looks(part, side)
    limb = f"forearm.{side}" if part is Segment.HAND else f"shank.{side}"

    def miss(body: Skeleton) -> float:
        aside = cross(column(body.frames[limb], 1), way)
        long = length_of(aside)
        if long < 0.2:
            return 0.0
        return -_TWIST_CM * dot(look(body), aside) / long

    return miss


@_wants.register
def _(rule: Balanced, base: Base) -> Iterator[Want]:
    names = [place(rule.over, side) for side in sides_at(rule.over, rule.side)]
    says = f"The body's weight can't be over the {words(rule.over, sides_of(rule.side)[0])}"
    if len(names) > 1:
        says = f"The body's weight can't be over the {rule.over.value} of both feet"

    def off(axis: int) -> Callable[[Skeleton], float]:
        return lambda body: (
            sum(body.points[name][axis] for name in names) / len(names) - weight_of(body)[axis]
        )

    yield _want(off(0), says, "lean")
    if len(names) == 1:
        side = sides_of(rule.side)[0]
        yield _want(off(2), says, *free_across(BodyPoint.HEEL, side))
