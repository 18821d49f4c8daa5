"""Silhouettes of flesh and cloth: sections along a line in space, seen from anywhere.

Each section is an ellipse across the line. Its width on paper is the ellipse's support
function in the direction across the line on paper, so one table of sections gives the
contour from the side, the front and everything between. Where a limb points at the viewer
its line is too short on paper to follow, and the outline is the hull of all sections.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Final

from attrs import frozen

from authoring.figures.outline import Eye, Point
from authoring.figures.space import Vector, along, dot, length_of, less

_SHORT: Final = 0.42
"""A line of which less than this share is seen is drawn as a hull."""

_ROUND: Final = 10
"""Places on a section for a hull."""


@frozen
class Section:
    """One cut across a limb, cm.

    Attributes:
        middle: where the line of the limb runs through it.
        ahead, right: directions of its two axes.
        front, back: from the middle along ``ahead`` and against it; ``back`` may be below 0.
        half: half its width along ``right``.
        shift: its middle is moved this far along ``right``.
        slant: its front edge is moved this far towards the last section.
    """

    middle: Vector
    ahead: Vector
    right: Vector
    front: float
    back: float
    half: float
    shift: float = 0.0
    slant: float = 0.0

    def reach(self, way: Vector) -> float:
        """How far it reaches from the middle in a direction (a unit vector), cm."""
        x, z = dot(self.ahead, way), dot(self.right, way)
        a = (self.front + self.back) / 2
        offset = (self.front - self.back) / 2 * x + self.shift * z
        return offset + math.hypot(a * x, self.half * z)

    def at(self, turn_deg: float) -> Vector:
        """The place on its rim at an angle from ``ahead`` towards ``right``."""
        t = math.radians(turn_deg)
        a, offset = (self.front + self.back) / 2, (self.front - self.back) / 2
        spot = along(self.middle, self.ahead, offset + a * math.cos(t))
        return along(spot, self.right, self.shift + self.half * math.sin(t))


@frozen
class Bent:
    """A point of a smooth line; at a corner the line is not smooth."""

    x: float
    y: float
    corner: bool = False


def sweep(eye: Eye, sections: Sequence[Section], caps: tuple[float, float] = (0.0, 0.0)) -> str:
    """The outline of a limb as SVG path data, clockwise on paper.

    Args:
        eye: where it is seen from.
        sections: cuts from one end to the other.
        caps: how far the rounded ends reach beyond the first and last cut, cm; 0 is cut flat.
    """
    whole = length_of(less(sections[-1].middle, sections[0].middle))
    a, b = eye.see(sections[0].middle), eye.see(sections[-1].middle)
    seen = math.dist(a, b) / (whole * eye.scale) if whole > 1e-9 else 0.0
    if seen < _SHORT:
        return smooth(_hull(_rims(eye, sections)))
    first, last = _sides(eye, sections)
    ends = [_cap(eye, sections, caps[0], seen, at=0), _cap(eye, sections, caps[1], seen, at=-1)]
    ring = [*first, *ends[1], *reversed(last), *ends[0]]
    _cut(ring, len(first), (not ends[1], not ends[0]))
    return smooth(ring if _area(ring) > 0 else ring[::-1])


def _cut(ring: list[Bent], count: int, flat: tuple[bool, bool]) -> None:
    """Make the corners of flat ends sharp."""
    if flat[0]:
        for index in (count - 1, count):
            ring[index] = Bent(ring[index].x, ring[index].y, corner=True)
    if flat[1]:
        for index in (0, -1):
            ring[index] = Bent(ring[index].x, ring[index].y, corner=True)


def _direction(spots: Sequence[Point], index: int) -> Point:
    """Way of a line at a point, a unit vector on paper."""
    a, b = spots[max(0, index - 1)], spots[min(len(spots) - 1, index + 1)]
    long = math.dist(a, b) or 1.0
    return ((b[0] - a[0]) / long, (b[1] - a[1]) / long)


def across(eye: Eye, way: Point) -> Vector:
    """The direction in space that lies on paper across a way, to its left."""
    x, y = -way[1], way[0]
    r, u = eye.right, eye.up
    return (r[0] * x - u[0] * y, r[1] * x - u[1] * y, r[2] * x - u[2] * y)


def _sides(eye: Eye, sections: Sequence[Section]) -> tuple[list[Bent], list[Bent]]:
    spots = [eye.see(each.middle) for each in sections]
    made: tuple[list[Bent], list[Bent]] = ([], [])
    for index, section in enumerate(sections):
        way = _direction(spots, index)
        n = across(eye, way)
        x, y = spots[index]
        for side, sign in zip(made, (1.0, -1.0), strict=True):
            reach = section.reach((n[0] * sign, n[1] * sign, n[2] * sign)) * eye.scale * sign
            slip = section.slant * max(0.0, sign * dot(section.ahead, n)) * eye.scale
            side.append(
                Bent(x - way[1] * reach + way[0] * slip, y + way[0] * reach + way[1] * slip)
            )
    return made


def _cap(eye: Eye, sections: Sequence[Section], cap: float, seen: float, *, at: int) -> list[Bent]:
    """Points of an end, from the first side to the last at the far end, and back at the near."""
    section = sections[at]
    spots = [eye.see(each.middle) for each in sections]
    way = _direction(spots, 0 if at == 0 else len(spots) - 1)
    n = across(eye, way)
    left, right = section.reach(n), section.reach((-n[0], -n[1], -n[2]))
    round_ = (left + right) / 2
    bulge = math.hypot(cap * seen, round_ * math.sqrt(max(0.0, 1.0 - seen * seen)))
    if bulge < 0.3:
        return []
    sign, (x, y) = (1.0 if at == -1 else -1.0), spots[at]
    middle = (left - right) / 2
    made = []
    for share, out in ((0.72, 0.66), (0.0, 1.0), (-0.72, 0.66)):
        aside = (middle + share * sign * round_) * eye.scale
        ahead = sign * bulge * out * eye.scale
        made.append(Bent(x + way[0] * ahead - way[1] * aside, y + way[1] * ahead + way[0] * aside))
    return made


def _rims(eye: Eye, sections: Iterable[Section]) -> list[Point]:
    return [eye.see(section.at(360.0 * i / _ROUND)) for section in sections for i in range(_ROUND)]


def _hull(points: Iterable[Point]) -> list[Bent]:
    """Andrew's monotone chain, clockwise on paper, without corners that stand close."""
    ordered = sorted(points)

    def half(run: Iterable[Point]) -> list[Point]:
        kept: list[Point] = []
        for p in run:
            while len(kept) > 1 and _turn(kept[-2], kept[-1], p) <= 1e-9:
                kept.pop()
            kept.append(p)
        return kept[:-1]

    ring = half(ordered) + half(reversed(ordered))
    thin: list[Point] = []
    for p in ring:
        if not thin or math.dist(p, thin[-1]) > 8:
            thin.append(p)
    return [Bent(*p) for p in (thin if len(thin) > 2 else ring)]


def _turn(a: Point, b: Point, c: Point) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _area(ring: Sequence[Bent]) -> float:
    return sum(ring[i - 1].x * ring[i].y - ring[i].x * ring[i - 1].y for i in range(len(ring)))


def smooth(points: Sequence[Bent], *, closed: bool = True) -> str:
    """A smooth line through points (Catmull-Rom splines as cubic Béziers), as path data.

    The tangent is limited by the shorter neighbour, so that close points give no loops.
    """
    count = len(points)
    if count < 2:
        return ""
    tangents = [_tangent(points, i, closed=closed) for i in range(count)]
    x, y = round(points[0].x), round(points[0].y)
    begun = f"M{x} {y}c"
    values: list[str] = []
    for i in range(count if closed else count - 1):
        a, b = points[i], points[(i + 1) % count]
        reach = math.dist((a.x, a.y), (b.x, b.y)) / 3
        ta, tb = tangents[i], tangents[(i + 1) % count]
        for px, py in (
            (a.x + ta[0] * reach, a.y + ta[1] * reach),
            (b.x - tb[0] * reach, b.y - tb[1] * reach),
            (b.x, b.y),
        ):
            values += (str(round(px) - x), str(round(py) - y))
        x, y = round(b.x), round(b.y)
    return begun + _packed(values) + ("Z" if closed else "")


def _tangent(points: Sequence[Bent], i: int, *, closed: bool) -> Point:
    count = len(points)
    if points[i].corner:
        return (0.0, 0.0)
    if closed:
        a, b = points[i - 1], points[(i + 1) % count]
    else:
        a, b = points[max(0, i - 1)], points[min(count - 1, i + 1)]
    here = points[i]
    before = math.dist((a.x, a.y), (here.x, here.y)) or 1e-9
    after = math.dist((b.x, b.y), (here.x, here.y)) or 1e-9
    # Weighted by the nearer neighbour, as chord-length parametrisation has it.
    dx = (here.x - a.x) / before * after + (b.x - here.x) / after * before
    dy = (here.y - a.y) / before * after + (b.y - here.y) / after * before
    long = math.hypot(dx, dy)
    return (dx / long, dy / long) if long > 1e-9 else (0.0, 0.0)


def _packed(values: Sequence[str]) -> str:
    """Numbers with a blank only where one is needed."""
    made = ""
    for value in values:
        made += value if not made or value.startswith("-") else f" {value}"
    return made


def line(eye: Eye, spots: Sequence[Vector]) -> str:
    """A smooth open line through places in space."""
    return smooth([Bent(*eye.see(spot)) for spot in spots], closed=False)


def patch(eye: Eye, rows: Sequence[tuple[Section, Section, float]]) -> str:
    """What is seen of a sheet that wraps round the front of a line of sections.

    Args:
        eye: where it is seen from.
        rows: from top to bottom, the section whose rim is seen in profile, the one on which
            the sheet ends, and how far round from ``ahead`` that is on either side, degrees.
            Rows of which nothing is seen are left out.

    Returns:
        Path data, "" where the sheet is on the far side.
    """
    left: list[Bent] = []
    right: list[Bent] = []
    for section, edge, wide in rows:
        facing = math.degrees(
            math.atan2(
                dot(section.right, eye.towards) / max(section.half, 1e-6),
                dot(section.ahead, eye.towards) / max((section.front + section.back) / 2, 1e-6),
            )
        )
        low, high = max(-wide, facing - 90.0), min(wide, facing + 90.0)
        if high - low < 4.0:
            continue
        for side, turn in ((left, low), (right, high)):
            x, y = eye.see((edge if abs(turn) == wide else section).at(turn))
            side.append(Bent(x, y))
    if len(left) < 3:
        return ""
    ring = [*left, *reversed(right)]
    return smooth(ring if _area(ring) > 0 else ring[::-1])
