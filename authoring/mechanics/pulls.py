"""What else acts on a body: its weight, things held or worn, cables and bands."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Final

from attrs import frozen

from authoring.figures.space import Vector, length_of, less
from authoring.mechanics.estimate import Why
from authoring.mechanics.placed import Placed
from authoring.mechanics.segments import G
from authoring.model.pose import (
    BodyAnchor,
    BodyPoint,
    CurvePoint,
    Held,
    HeldKind,
    Line,
    LineKind,
    Other,
    PlaceAnchor,
    Prop,
)
from authoring.model.vocabulary import Side

_LONG: Final = frozenset({HeldKind.STICK, HeldKind.BARBELL, HeldKind.TOWEL, HeldKind.BALL})
"""Things that are one in both hands."""

_NO_MASS: Final = frozenset({HeldKind.STICK, HeldKind.TOWEL})
"""Things whose mass does not matter where none is given."""

_PARTS: Final[Mapping[BodyPoint, str]] = {
    BodyPoint.ANKLE: "shank",
    BodyPoint.SHIN: "shank",
    BodyPoint.KNEE: "thigh",
    BodyPoint.THIGH: "thigh",
    BodyPoint.HIP: "pelvis",
    BodyPoint.SEAT: "pelvis",
    BodyPoint.BELLY: "pelvis",
    BodyPoint.BACK: "chest",
    BodyPoint.CHEST: "chest",
    BodyPoint.SHOULDER: "chest",
    BodyPoint.HEAD: "head",
    BodyPoint.NOSE: "head",
    BodyPoint.ELBOW: "upper_arm",
    BodyPoint.FOREARM: "forearm",
    BodyPoint.WRIST: "forearm",
    BodyPoint.HEEL: "foot",
    BodyPoint.BALL: "foot",
    BodyPoint.TOE: "foot",
    BodyPoint.OUTER_FOOT: "foot",
    BodyPoint.INSTEP: "foot",
}
_MIDDLE: Final = frozenset({"pelvis", "chest", "head"})


class UnknownPullError(Exception):
    """A force that nobody measured. ``why`` says which."""

    def __init__(self, why: Why) -> None:
        super().__init__(why.value)
        self.why = why


@frozen
class Pull:
    """A known force on a part of the body.

    Attributes:
        part: name of the part.
        at: where, m.
        force: newtons.
        kind: what pulls; None for the mass of a thing held or worn.
        side: "l", "r" or "".
    """

    part: str
    at: Vector
    force: Vector
    kind: LineKind | None = None
    side: str = ""


def _named(point: BodyPoint, side: str) -> tuple[str, str]:
    """Name of the place, and of the part it belongs to."""
    part = _PARTS.get(point, "hand")
    tail = f".{side}" if side else ""
    place = point.value + tail if part not in _MIDDLE or point in _SIDED_MIDDLE else point.value
    return place, part + (tail if part not in _MIDDLE else "")


_SIDED_MIDDLE: Final = frozenset({BodyPoint.HIP, BodyPoint.SHOULDER})


def _sides(side: Side) -> tuple[str, ...]:
    return {Side.LEFT: ("l",), Side.RIGHT: ("r",)}.get(side, ("l", "r"))


def masses(held: Sequence[Held], body: Placed, known_kg: float | None = None) -> Iterator[Pull]:
    """The weight of what is held or worn.

    Args:
        known_kg: mass of each thing that gives none of its own.

    Raises:
        UnknownPullError: a thing has no mass and none is known.
    """
    for thing in held:
        mass = thing.mass_kg
        if mass is None and thing.kind in _NO_MASS:
            continue
        mass = known_kg if mass is None else mass
        if mass is None:
            raise UnknownPullError(Why.MASS_UNKNOWN)
        yield from _mass(thing, mass, body)


def _mass(thing: Held, mass: float, body: Placed) -> Iterator[Pull]:
    usual = {HeldKind.CUFF: BodyPoint.ANKLE, HeldKind.BACKPACK: BodyPoint.BACK}
    point = thing.at or usual.get(thing.kind, BodyPoint.GRIP)
    sides = _sides(thing.side)
    if _named(point, "")[1] in _MIDDLE and point not in _SIDED_MIDDLE:
        sides = ("",)
    share = mass / len(sides) if thing.kind in _LONG else mass
    for side in sides:
        place, part = _named(point, side)
        at = body.points.get(place)
        if at is not None:
            yield Pull(part, at, (0.0, -share * G, 0.0), None, side)


def pulls(
    lines: Sequence[Line], body: Placed, props: Mapping[str, Prop], to_metres: tuple[float, Vector]
) -> Iterator[Pull]:
    """The pull of every band and cable.

    Args:
        to_metres: metres of the body for a centimetre of the drawing, and where the drawn
            pelvis is, cm.

    Raises:
        UnknownPullError: no force is known, or a band is outside its measured points.
    """
    for line in lines:
        if line.kind is LineKind.TOWEL:
            continue
        if line.kind is LineKind.STRAPS:
            raise UnknownPullError(Why.UNSTABLE)
        for side in _pulling(line):
            yield from _line(line, side, body, props, to_metres)


def _pulling(line: Line) -> tuple[str, ...]:
    """Sides that a line pulls at; one from a limb to its twin is one line, not two."""
    sides, anchor = _sides(line.side), line.anchor
    if isinstance(anchor, BodyAnchor) and anchor.side is Other.OTHER:
        return sides[:1] if anchor.point is line.point else sides
    return sides


def _line(
    line: Line, side: str, body: Placed, props: Mapping[str, Prop], to: tuple[float, Vector]
) -> Iterator[Pull]:
    place, part = _named(line.point, side)
    start, (end, other) = body.points.get(place), _end(line.anchor, side, body, props, to)
    if start is None or end is None:
        raise UnknownPullError(Why.PULL_UNKNOWN)
    way = less(end, start)
    far = length_of(way)
    force = _force(line, far * 100.0)
    if far < 1e-6 or force == 0.0:
        return
    yield Pull(part, start, _scaled(way, force / far), line.kind, side)
    if other:
        yield Pull(other, end, _scaled(way, -force / far), line.kind, side)


def _scaled(a: Vector, by: float) -> Vector:
    return (a[0] * by, a[1] * by, a[2] * by)


def _end(
    anchor: PlaceAnchor | BodyAnchor,
    side: str,
    body: Placed,
    props: Mapping[str, Prop],
    to: tuple[float, Vector],
) -> tuple[Vector | None, str]:
    """Where a line ends, and the part of the body it is fixed to there."""
    if isinstance(anchor, BodyAnchor):
        there = side if anchor.side is Other.SAME else {"l": "r", "r": "l"}.get(side, side)
        place, part = _named(anchor.point, there)
        return body.points.get(place), part
    prop = props.get(anchor.on or "")
    ahead, across = anchor.forward_cm, anchor.across_cm
    if prop is not None:
        ahead = prop.forward_cm if ahead is None else ahead
        across = prop.across_cm if across is None else across
    scale, origin = to
    drawn = less((ahead or 0.0, anchor.up_cm, across or 0.0), origin)
    return _scaled(drawn, scale), ""


def _force(line: Line, length_cm: float) -> float:
    """Newtons at a length."""
    if line.kind is LineKind.CABLE:
        if line.force_n is not None:
            return line.force_n
        if line.mass_kg is not None:
            return line.mass_kg * G
        raise UnknownPullError(Why.PULL_UNKNOWN)
    found = on_curve(line.curve, length_cm)
    if found is None:
        raise UnknownPullError(Why.BAND)
    return found


def on_curve(curve: Sequence[CurvePoint], length_cm: float) -> float | None:
    """Force of a band at a length, straight between measured points; None outside them."""
    for a, b in pairwise(curve):
        if a.length_cm <= length_cm <= b.length_cm:
            share = (length_cm - a.length_cm) / (b.length_cm - a.length_cm)
            return a.force_n + (b.force_n - a.force_n) * share
    return None
