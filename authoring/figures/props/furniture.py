"""Walls, boxes, chairs, tables and mats as parts of a picture."""

from __future__ import annotations

import math
from collections.abc import Iterator

from authoring.figures.contacts import CHAIR_BACK_CM, back_of, middle_of, radius_of
from authoring.figures.layers import Layer, Part
from authoring.figures.look import (
    LINE,
    MAT,
    PILLOW,
    STONE,
    WOOD,
    darker,
)
from authoring.figures.outline import Eye, polygon
from authoring.figures.props.round_things import (
    ball,
    frame_parts,
    rail_parts,
    roll,
    space_of,
)
from authoring.figures.props.shapes import Box, post, solid
from authoring.figures.space import Vector, dot
from authoring.model.pose import Prop, PropKind

_BEHIND = -1000.0
"""Depth of what lies under a body: always drawn before it."""

_RAISED = -400.0
"""Depth of what lies on a plinth or table, and under a body."""

_WALL_CM = 9.0
_HATCH_CM = 9.0


def prop_parts(prop: Prop, eye: Eye) -> Iterator[Part]:
    """The parts of one support."""
    match prop.kind:
        case PropKind.WALL:
            yield Part(_BEHIND, tuple(_wall(prop, eye)))
        case PropKind.CHAIR:
            yield Part(prop_depth(prop, eye), tuple(_chair(prop, eye)))
        case PropKind.TABLE | PropKind.PLINTH:
            yield Part(prop_depth(prop, eye), tuple(_table(prop, eye)))
        case PropKind.WORKTOP:
            yield Part(prop_depth(prop, eye), tuple(_worktop(prop, eye)))
        case PropKind.BOX:
            yield Part(_BEHIND + 2, tuple(solid(_box_of(prop), eye, WOOD)))
        case PropKind.MAT:
            yield Part(_BEHIND + 1, tuple(solid(_box_of(prop), eye, MAT)))
        case PropKind.PILLOW:
            yield Part(_lying(prop, 3), tuple(solid(_box_of(prop), eye, PILLOW)))
        case PropKind.BALL:
            yield Part(prop_depth(prop, eye), tuple(ball(middle_of(prop), radius_of(prop), eye)))
        case PropKind.ROLL:
            yield Part(_lying(prop, 4), tuple(roll(prop, eye)))
        case PropKind.RAIL:
            yield from rail_parts(prop, eye)
        case PropKind.DOOR_FRAME:
            yield from frame_parts(prop, eye)


def _lying(prop: Prop, order: float) -> float:
    """Depth of a small thing under a body: above what it may lie on."""
    return _BEHIND + order if not prop.raised_cm else _RAISED + order


def prop_depth(prop: Prop, eye: Eye) -> float:
    """How near a support is, cm: a little behind a body of the same distance."""
    if prop.kind in (PropKind.BALL, PropKind.RAIL):
        return eye.depth(middle_of(prop)) - 5.0
    if prop.kind is PropKind.WALL and prop.beside:
        return _BEHIND
    top = prop.height_cm if prop.kind is not PropKind.CHAIR else 0.0
    return eye.depth((prop.forward_cm + prop.length_cm / 2, top, prop.across_cm)) - 5.0


def _box_of(prop: Prop) -> Box:
    half = prop.width_cm / 2
    return (
        prop.forward_cm,
        prop.forward_cm + prop.length_cm,
        prop.raised_cm,
        prop.height_cm,
        prop.across_cm - half,
        prop.across_cm + half,
    )


def wall_box(prop: Prop) -> Box:
    """The space of a wall: behind its face, away from the person."""
    half = prop.width_cm / 2
    face = prop.across_cm if prop.beside else prop.forward_cm
    near, far = sorted((face, face + math.copysign(_WALL_CM, face)))
    if prop.beside:
        return (prop.forward_cm - half, prop.forward_cm + half, 0.0, prop.height_cm, near, far)
    return (near, far, 0.0, prop.height_cm, prop.across_cm - half, prop.across_cm + half)


def corners_of(prop: Prop) -> list[Vector]:
    """Corners of the space a support takes, cm."""
    match prop.kind:
        case PropKind.WALL:
            box = wall_box(prop)
        case PropKind.BALL | PropKind.RAIL | PropKind.ROLL | PropKind.DOOR_FRAME:
            box = space_of(prop)
        case _:
            box = _box_of(prop)
    x0, x1, y0, y1, z0, z1 = box
    if prop.kind is PropKind.CHAIR:
        y1 += CHAIR_BACK_CM
    return [(x, y, z) for x in (x0, x1) for y in (y0, y1) for z in (z0, z1)]


def _wall(prop: Prop, eye: Eye) -> Iterator[Layer]:
    """A panel where the face is seen, a hatched strip where it is seen edge-on."""
    normal = (0.0, 0.0, 1.0) if prop.beside else (1.0, 0.0, 0.0)
    face = prop.across_cm if prop.beside else prop.forward_cm
    facing = dot(normal, eye.towards) * math.copysign(1.0, face)
    if abs(facing) <= 0.05:
        yield from _hatched(prop, normal, face, eye)
    elif facing < 0 or not prop.beside:
        yield from solid(wall_box(prop), eye, STONE)


def _hatched(prop: Prop, normal: Vector, face: float, eye: Eye) -> Iterator[Layer]:
    """A wall seen along its face. ``normal`` is a unit vector, ``face`` its distance, cm."""
    ahead = face >= 0
    back = face + math.copysign(_WALL_CM, face)

    def at(away: float, up: float) -> Vector:
        return (normal[0] * away, up, normal[2] * away)

    a, b = eye.see(at(face, 0.0)), eye.see(at(back, prop.height_cm))
    left, right = sorted((a[0], b[0]))
    low, high = a[1], b[1]
    yield Layer((polygon([(left, low), (right, low), (right, high), (left, high)]),), STONE, "")
    step, lines = _HATCH_CM * eye.scale, []
    width = right - left
    slope = width if eye.see(normal)[0] * (1 if ahead else -1) > 0 else -width
    y = high + abs(width)
    while y < low:
        start = (left, y) if slope > 0 else (right, y)
        lines.append(polygon([start, (start[0] + slope, y - width)], closed=False))
        y += step
    yield Layer(tuple(lines), "", darker(STONE, 0.8), 0.35 * eye.scale, open=True)
    edge = polygon([a, (a[0], high)], closed=False)
    yield Layer((edge,), "", LINE, 0.9 * eye.scale, open=True)


def _chair(prop: Prop, eye: Eye) -> Iterator[Layer]:
    x0, x1, _, seat, z0, z1 = _box_of(prop)
    back = back_of(prop)
    front = x0 + 1.5 if prop.faces_back else x1 - 1.5
    top = seat + CHAIR_BACK_CM
    sides = sorted((z0 + 1.5, z1 - 1.5), key=lambda z: eye.depth((0.0, 0.0, z)))
    for z in sides[:1] if flat(eye) else sides:
        yield from post((back, 0.0, z), (back, top - 2.0, z), eye)
        yield from post((front, 0.0, z), (front, seat - 2.0, z), eye)
    yield from solid((x0, x1, seat - 3.6, seat, z0, z1), eye, WOOD)
    yield from solid((back - 1.9, back + 1.9, top - 11.0, top, z0, z1), eye, WOOD)


def flat(eye: Eye) -> bool:
    """Whether the far side of a thing lies right behind its near side."""
    return abs(eye.towards[0]) < 0.01 and abs(eye.towards[1]) < 0.01


def _table(prop: Prop, eye: Eye) -> Iterator[Layer]:
    x0, x1, _, top, z0, z1 = _box_of(prop)
    sides = sorted((z0 + 2, z1 - 2), key=lambda z: eye.depth((0.0, 0.0, z)))
    for z in sides[:1] if flat(eye) else sides:
        for x in (x0 + 3.0, x1 - 3.0):
            yield from post((x, 0.0, z), (x, top - 2.0, z), eye)
    yield from solid((x0, x1, top - 4.0, top, z0, z1), eye, WOOD)


def _worktop(prop: Prop, eye: Eye) -> Iterator[Layer]:
    x0, x1, _, top, z0, z1 = _box_of(prop)
    yield from solid((x0 + 2.5, x1, 0.0, top - 3.5, z0 + 1, z1 - 1), eye, STONE)
    yield from solid((x0, x1, top - 3.5, top, z0, z1), eye, WOOD)
