"""Arrows: the way a place on the body takes, in ink, with a white rim.

Form, not colour, carries the meaning: a dark line with a solid head reads alike in colour,
in grey and on a bad copier.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final

from authoring.figures.angles import SIDES
from authoring.figures.layers import Layer
from authoring.figures.look import INK
from authoring.figures.outline import Eye, Point, polygon
from authoring.figures.rules import way_of
from authoring.figures.skeleton import skeleton
from authoring.figures.solver import Settled
from authoring.figures.space import Vector, along
from authoring.figures.sweep import Bent, smooth
from authoring.figures.wants import place
from authoring.model.base import evolve
from authoring.model.pose import Arrow, ArrowForm

_SHORTEST_CM: Final = 15.0
_HEAD_CM: Final = (7.6, 6.6)
"""Length and width of an arrow's head."""

_LINE_CM: Final = 1.7
_RIM_CM: Final = 1.3
_PUSH_CM: Final = (5.0, 22.0)
"""Where the arrow of a push starts and ends, from the place that pushes."""

_STEPS: Final = 8


def travelled(first: Settled, last: Settled, place: str) -> list[Vector]:
    """Where a place on the body is from one moment to the other, cm."""
    if first.base.position is not last.base.position:
        return [first.body.points[place], last.body.points[place]]
    return [_part_way(first, last, i / _STEPS, place) for i in range(_STEPS + 1)]


def _part_way(first: Settled, last: Settled, share: float, place: str) -> Vector:
    def mix(a: float, b: float) -> float:
        return a + (b - a) * share

    base = evolve(
        last.base,
        side_lean_deg=mix(first.base.side_lean_deg, last.base.side_lean_deg),
        across_cm=mix(first.base.across_cm, last.base.across_cm),
        forward_cm=mix(first.base.forward_cm, last.base.forward_cm),
        up_cm=mix(first.base.up_cm, last.base.up_cm),
        lean_deg=mix(first.base.lean_deg, last.base.lean_deg),
    )
    keys = first.angles.keys() | last.angles.keys()
    angles = {k: mix(first.angles.get(k, 0.0), last.angles.get(k, 0.0)) for k in keys}
    return skeleton(base, angles).points[place]


def _pushed(at: Vector, way: Vector) -> list[Vector]:
    """A push starts a little off the place, so that the hand or limb stays in sight."""
    return [along(at, way, far) for far in (_PUSH_CM[0], sum(_PUSH_CM) / 2, _PUSH_CM[1])]


def arrow_way(arrow: Arrow, first: Settled, last: Settled, eye: Eye) -> list[Point]:
    """The line of an arrow on paper; empty where its place does not move."""
    side = SIDES[arrow.side][-1]
    name = place(arrow.point, side)
    if arrow.push is not None:
        spots = _pushed(last.body.points[name], way_of(arrow.push, side))
    else:
        spots = travelled(first, last, name)
        spots = [spots[0], spots[-1]] if arrow.form is ArrowForm.STRAIGHT else spots
    way = [
        eye.see((at[0] + arrow.forward_cm, at[1] + arrow.up_cm, at[2] + arrow.across_cm))
        for at in spots
    ]
    return _lengthened(way, _SHORTEST_CM * eye.scale)


def arrow_layers(arrow: Arrow, first: Settled, last: Settled, eye: Eye) -> Iterator[Layer]:
    """One arrow; nothing where its place does not move on paper."""
    way = arrow_way(arrow, first, last, eye)
    if len(way) < 2:
        return
    head, width = (cm * eye.scale for cm in _HEAD_CM)
    tips = [_head(way, head, width)]
    line = _shortened(way, head * 0.7)
    if arrow.both_ways:
        tips.append(_head(way[::-1], head, width))
        line = _shortened(line[::-1], head * 0.7)[::-1]
    shaft = (_curve(line),)
    rim = _RIM_CM * eye.scale
    yield Layer(shaft, "", "#FFFFFF", _LINE_CM * eye.scale + 2 * rim, open=True)
    yield Layer(tuple(tips), INK, "#FFFFFF", rim, halo=True)
    yield Layer(shaft, "", INK, _LINE_CM * eye.scale, open=True)


def _measure(way: Sequence[Point]) -> float:
    return sum(math.dist(a, b) for a, b in pairwise(way))


def _lengthened(way: list[Point], least: float) -> list[Point]:
    """The way, drawn out at both ends to a length that can be seen; empty where it is a point."""
    long = _measure(way)
    if long < 1.0:
        return []
    if long >= least:
        return way
    grow = (least - long) / 2
    return [_beyond(way[1], way[0], grow), *way[1:-1], _beyond(way[-2], way[-1], grow)]


def _beyond(a: Point, b: Point, by: float) -> Point:
    long = math.dist(a, b) or 1.0
    return (b[0] + (b[0] - a[0]) / long * by, b[1] + (b[1] - a[1]) / long * by)


def _shortened(way: Sequence[Point], by: float) -> list[Point]:
    """The way without its last ``by`` units."""
    kept = list(way)
    while len(kept) > 2 and math.dist(kept[-1], kept[-2]) <= by:
        by -= math.dist(kept[-1], kept[-2])
        kept.pop()
    kept[-1] = _beyond(kept[-2], kept[-1], -min(by, math.dist(kept[-1], kept[-2]) * 0.9))
    return kept


def _head(way: Sequence[Point], length: float, width: float) -> str:
    tip = way[-1]
    root = _shortened(way, length)[-1]
    long = math.dist(tip, root) or 1.0
    dx, dy = (tip[0] - root[0]) / long, (tip[1] - root[1]) / long
    foot = (tip[0] - dx * length, tip[1] - dy * length)
    sides = [(foot[0] - k * dy * width / 2, foot[1] + k * dx * width / 2) for k in (1.0, -1.0)]
    return polygon([tip, *sides])


def _curve(way: Sequence[Point]) -> str:
    """A smooth line; straight where the way is straight."""
    if len(way) > 2:
        a, b = way[0], way[-1]
        long = math.dist(a, b) or 1.0
        off = max(
            abs((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) / long for x, y in way
        )
        if off < 0.004 * long:
            way = [a, b]
    if len(way) == 2:
        return polygon(way, closed=False)
    kept = [*way[:-1:2], way[-1]] if len(way) > 5 else way
    return smooth([Bent(*spot) for spot in kept], closed=False)
