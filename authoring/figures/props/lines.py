"""Bands, loops, cables, straps and towels: what pulls in a line, as parts of a picture."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from authoring.figures.anchors import end_of
from authoring.figures.contacts import CLEARANCE
from authoring.figures.layers import Layer, Part
from authoring.figures.look import METAL
from authoring.figures.outline import Eye
from authoring.figures.props.shapes import BAND, CLOTH, ROPE, capsule, edged, round_of, strip
from authoring.figures.skeleton import Skeleton
from authoring.figures.space import Vector, along, between, column
from authoring.figures.wants import place, sides_at
from authoring.model.pose import BodyAnchor, BodyPoint, Line, LineKind, Other, Pose

_WIDE_CM: Final = {
    LineKind.BAND: 2.0,
    LineKind.LOOP: 3.4,
    LineKind.CABLE: 0.9,
    LineKind.STRAPS: 1.8,
    LineKind.TOWEL: 3.0,
}
_COLOURS: Final = {
    LineKind.BAND: BAND,
    LineKind.LOOP: BAND,
    LineKind.CABLE: ROPE,
    LineKind.STRAPS: ROPE,
    LineKind.TOWEL: CLOTH,
}
_HANDLES: Final = frozenset({LineKind.CABLE, LineKind.STRAPS})
_BONES: Final = {
    BodyPoint.KNEE: ("hip", 0.12),
    BodyPoint.THIGH: ("hip", 0.0),
    BodyPoint.ANKLE: ("knee", 0.10),
    BodyPoint.SHIN: ("knee", 0.0),
    BodyPoint.WRIST: ("elbow", 0.08),
    BodyPoint.FOREARM: ("elbow", 0.0),
    BodyPoint.ELBOW: ("shoulder", 0.12),
}
"""Joint towards which a loop lies, and how far from the place, share of the bone."""


def line_parts(pose: Pose, body: Skeleton, eye: Eye) -> Iterator[Part]:
    """Everything that pulls.

    Raises:
        PoseError: a line is fixed to a support that the pose does not have.
    """
    for line in pose.lines:
        sides = sides_at(line.point, line.side)
        if line.kind is LineKind.LOOP:
            yield _loop(line, sides[0], pose, body, eye)
            continue
        for side in sides:
            yield _pulling(line, side, pose, body, eye)


def anchors_of(pose: Pose, body: Skeleton) -> Iterator[Vector]:
    """Where lines are fixed outside the body, cm."""
    for line in pose.lines:
        if not isinstance(line.anchor, BodyAnchor):
            for side in sides_at(line.point, line.side):
                yield end_of(line, side, pose.supports)(body)


def _pulling(line: Line, side: str, pose: Pose, body: Skeleton, eye: Eye) -> Part:
    """A line from a limb to its anchor; over the body where the limb is."""
    start = body.points[place(line.point, side)]
    end = end_of(line, side, pose.supports)(body)
    if isinstance(line.anchor, BodyAnchor) and line.anchor.point in _SOLES:
        end = (end[0], end[1] - 0.5, end[2])
    layers = list(strip([start, end], _WIDE_CM[line.kind], _COLOURS[line.kind], eye))
    if line.kind in _HANDLES and line.point is BodyPoint.GRIP:
        layers.append(_handle(side, body, eye))
    if line.point is not BodyPoint.GRIP:
        layers.append(_ring(line.point, line.kind, side, body, eye))
    if not isinstance(line.anchor, BodyAnchor):
        layers.append(edged([round_of(end, 2.4, eye)], eye, METAL))
    depth = eye.depth(start)
    return Part(depth - 1.5 if line.point is BodyPoint.GRIP else depth + 20.0, tuple(layers))


_SOLES: Final = frozenset({BodyPoint.BALL, BodyPoint.HEEL})


def _handle(side: str, body: Skeleton, eye: Eye) -> Layer:
    grip, way = body.points[f"grip.{side}"], column(body.frames[f"hand.{side}"], 0)
    ends = [(along(grip, way, k * 6.5), 1.5) for k in (-1.0, 1.0)]
    return edged([capsule(ends, eye)], eye, METAL)


def _ring(point: BodyPoint, kind: LineKind, side: str, body: Skeleton, eye: Eye) -> Layer:
    """What goes round the limb where a line is fixed to it."""
    return edged([capsule(list(_round(point, side, body)), eye)], eye, _COLOURS[kind])


def _round(point: BodyPoint, side: str, body: Skeleton) -> Iterator[tuple[Vector, float]]:
    """Two balls that hold a narrow band round a limb."""
    at = body.points[place(point, side)]
    radius = max(2.6, CLEARANCE[point.value] + 0.7)
    joint, share = _BONES.get(point, ("", 0.0))
    if not joint:
        for k in (-1.0, 1.0):
            yield along(at, (0.0, 1.0, 0.0), k * 0.8 + 2.0), radius
        return
    bone = body.points[f"{joint}.{side}"]
    for extra in (0.0, 0.07):
        yield between(at, bone, share + extra), radius


def _loop(line: Line, side: str, pose: Pose, body: Skeleton, eye: Eye) -> Part:
    """A band round two limbs: a ring on each, and two runs between them."""
    places = [(line.point, side)]
    ends = [next(_round(line.point, side, body))[0]]
    if isinstance(line.anchor, BodyAnchor):
        there = side if line.anchor.side is Other.SAME else _OTHER.get(side, side)
        places.append((line.anchor.point, there))
        ends.append(next(_round(line.anchor.point, there, body))[0])
    else:
        ends.append(end_of(line, side, pose.supports)(body))
    radius = max(2.6, CLEARANCE[line.point.value] * 0.7)
    ahead = column(body.frames["pelvis"], 0)
    runs: list[Layer] = []
    for k in (-1.0, 1.0):
        spots = [along(end, ahead, k * radius) for end in ends]
        runs += strip(spots, _WIDE_CM[LineKind.LOOP] * 0.7, BAND, eye)
    rings = [_ring(point, line.kind, at, body, eye) for point, at in places]
    return Part(max(map(eye.depth, ends)) + 20.0, (*runs, *rings))


_OTHER: Final = {"l": "r", "r": "l"}
