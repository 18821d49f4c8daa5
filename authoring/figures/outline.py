"""Outlines of round shapes on paper: hulls of circles as short SVG paths.

A hull is the line a rubber band takes around circles; straight runs and arcs describe it
exactly, in far fewer bytes than a polygon. All run the same way round, so that shapes
overlap in one path without holes. Units are those of the drawing; y grows downward.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import Final, TypeAlias

from attrs import frozen

from authoring.figures.space import Vector, cross, dot

Point: TypeAlias = tuple[float, float]
Circle: TypeAlias = tuple[float, float, float]
"""Middle x, middle y, radius."""

_SAMPLES: Final = 40
_RING: Final = tuple(
    (math.cos(2 * math.pi * i / _SAMPLES), math.sin(2 * math.pi * i / _SAMPLES))
    for i in range(_SAMPLES)
)


@frozen
class Eye:
    """A parallel projection.

    Attributes:
        right, up, towards: directions in space of the paper's right and up, and the viewer.
        scale: drawing units for a centimetre.
    """

    right: Vector
    up: Vector
    towards: Vector
    scale: float

    def see(self, point: Vector) -> Point:
        """Where a point in space (cm) lies on paper."""
        return (dot(point, self.right) * self.scale, -dot(point, self.up) * self.scale)

    def depth(self, point: Vector) -> float:
        """How near a point is to the viewer, cm."""
        return dot(point, self.towards)

    def ball(self, middle: Vector, radius: float) -> Circle:
        """A ball in space (cm) as a circle on paper."""
        x, y = self.see(middle)
        return (x, y, radius * self.scale)


def look_from(turn_deg: float, tilt_deg: float, scale: float) -> Eye:
    """The view from a direction: 0 is in front of the person, 90 on their right."""
    a, e = math.radians(turn_deg), math.radians(tilt_deg)
    towards = (math.cos(e) * math.cos(a), math.sin(e), math.cos(e) * math.sin(a))
    right = (math.sin(a), 0.0, -math.cos(a))
    return Eye(right, cross(towards, right), towards, scale)


def number(value: float) -> str:
    """A coordinate with one digit, as short as can be."""
    text = f"{value:.1f}"
    text = text[:-2] if text.endswith(".0") else text
    return "0" if text == "-0" else text


def whole(value: float) -> str:
    """A coordinate without digits; a drawing unit is a millimetre of the person."""
    return str(round(value))


def _pair(point: Sequence[float]) -> str:
    return f"{whole(point[0])} {whole(point[1])}"


def polygon(points: Iterable[Point], *, closed: bool = True) -> str:
    """Straight lines through points."""
    return "M" + "L".join(map(_pair, points)) + ("Z" if closed else "")


def disc(circle: Circle) -> str:
    """A whole circle."""
    x, y, r = circle
    n, wide = whole(r), 2 * round(r)
    return f"M{_pair((x - r, y))}a{n} {n} 0 1 1 {wide} 0a{n} {n} 0 1 1 {-wide} 0Z"


def hull(circles: Sequence[Circle]) -> str:
    """The rubber band around circles, clockwise on paper."""
    ring = _around(circles)
    if len({index for _, _, index in ring}) == 1:
        return disc(circles[ring[0][2]])
    turn = next(i for i, corner in enumerate(ring) if corner[2] != ring[i - 1][2])
    return _path(circles, ring[turn:] + ring[:turn])


def _around(circles: Sequence[Circle]) -> list[tuple[float, float, int]]:
    """Corners of the convex hull of sampled circles, clockwise on paper, with their circle.

    Andrew's monotone chain.
    """
    points = sorted(
        (x + r * c, y + r * s, index) for index, (x, y, r) in enumerate(circles) for c, s in _RING
    )

    def chain(ordered: Iterable[tuple[float, float, int]]) -> list[tuple[float, float, int]]:
        kept: list[tuple[float, float, int]] = []
        for p in ordered:
            while len(kept) > 1 and _turn(kept[-2], kept[-1], p) <= 1e-9:
                kept.pop()
            kept.append(p)
        return kept[:-1]

    return chain(points) + chain(reversed(points))


def _turn(
    a: tuple[float, float, int], b: tuple[float, float, int], c: tuple[float, float, int]
) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _path(circles: Sequence[Circle], ring: Sequence[tuple[float, float, int]]) -> str:
    """Arcs over runs of corners of one circle, lines from run to run."""
    parts: list[str] = []
    start = 0
    while start < len(ring):
        end = start
        while end + 1 < len(ring) and ring[end + 1][2] == ring[start][2]:
            end += 1
        parts.append(("L" if parts else "M") + _pair(ring[start]))
        if end > start:
            radius = whole(circles[ring[start][2]][2])
            large = 1 if (end - start) * 2 > _SAMPLES else 0
            parts.append(f"A{radius} {radius} 0 {large} 1 {_pair(ring[end])}")
        start = end + 1
    return "".join(parts) + "Z"


def chain(circles: Sequence[Circle]) -> str:
    """A limb: the hull of each circle with the next, in one path."""
    if len(circles) == 1:
        return disc(circles[0])
    return "".join(hull(pair) for pair in pairwise(circles))
