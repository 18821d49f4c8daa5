"""What a body stands, sits, lies or leans on, as parts of a picture."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from authoring.figures.contacts import CHAIR_BACK_CM, back_of
from authoring.figures.layers import Layer, Part
from authoring.figures.look import (
    LINE,
    MAT,
    PILLOW,
    STONE,
    WEIGHTS,
    WOOD,
    WOOD_LIGHT,
    darker,
)
from authoring.figures.outline import Eye, Point, polygon
from authoring.figures.space import Vector, dot
from authoring.model.pose import Prop, PropKind

Box = tuple[float, float, float, float, float, float]
"""Forward from, to; up from, to; across from, to; cm."""

_BEHIND = -1000.0
"""Depth of what lies under a body: always drawn before it."""

_WALL_CM = 9.0
_HATCH_CM = 9.0

_FACES: Sequence[tuple[Vector, tuple[int, int, int, int]]] = (
    ((1, 0, 0), (4, 5, 7, 6)),
    ((-1, 0, 0), (0, 1, 3, 2)),
    ((0, 1, 0), (2, 3, 7, 6)),
    ((0, 0, 1), (1, 3, 7, 5)),
    ((0, 0, -1), (0, 2, 6, 4)),
)


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
            yield Part(_BEHIND + 3, tuple(solid(_box_of(prop), eye, PILLOW)))


def prop_depth(prop: Prop, eye: Eye) -> float:
    """How near a support is, cm: a little behind a body of the same distance."""
    top = prop.height_cm if prop.kind is not PropKind.CHAIR else 0.0
    return eye.depth((prop.forward_cm + prop.length_cm / 2, top, prop.across_cm)) - 5.0


def _box_of(prop: Prop) -> Box:
    half = prop.width_cm / 2
    return (
        prop.forward_cm,
        prop.forward_cm + prop.length_cm,
        0.0,
        prop.height_cm,
        prop.across_cm - half,
        prop.across_cm + half,
    )


def corners_of(prop: Prop) -> list[Vector]:
    """Corners of the space a support takes, cm."""
    x0, x1, y0, y1, z0, z1 = _box_of(prop)
    if prop.kind is PropKind.WALL:
        x1 = x0 + (_WALL_CM if x0 >= 0 else -_WALL_CM)
    if prop.kind is PropKind.CHAIR:
        y1 += CHAIR_BACK_CM
    return [(x, y, z) for x in (x0, x1) for y in (y0, y1) for z in (z0, z1)]


def solid(box: Box, eye: Eye, colour: str) -> Iterator[Layer]:
    """A box: the faces that are turned to the viewer, the top lighter."""
    x0, x1, y0, y1, z0, z1 = box
    corners = [eye.see((x, y, z)) for x in (x0, x1) for y in (y0, y1) for z in (z0, z1)]
    for normal, face in _FACES:
        if dot(normal, eye.towards) <= 1e-6:
            continue
        fill = colour if normal[1] else darker(colour, 0.94)
        fill = WOOD_LIGHT if colour == WOOD and normal[1] else fill
        yield _edged([corners[index] for index in face], eye, fill)


def _edged(points: Sequence[Point], eye: Eye, fill: str) -> Layer:
    return Layer((polygon(points),), fill, LINE, WEIGHTS.outline * eye.scale * 0.8)


def _wall(prop: Prop, eye: Eye) -> Iterator[Layer]:
    ahead = prop.forward_cm >= 0
    away = _WALL_CM if ahead else -_WALL_CM
    x0, x1 = sorted((prop.forward_cm, prop.forward_cm + away))
    half = prop.width_cm / 2
    box = (x0, x1, 0.0, prop.height_cm, prop.across_cm - half, prop.across_cm + half)
    if abs(dot((1.0, 0.0, 0.0), eye.towards)) > 0.05:
        yield from solid(box, eye, STONE)
        return
    a, b = eye.see((x0, 0.0, 0.0)), eye.see((x1, prop.height_cm, 0.0))
    left, right = sorted((a[0], b[0]))
    low, high = a[1], b[1]
    yield Layer((polygon([(left, low), (right, low), (right, high), (left, high)]),), STONE, "")
    step, lines = _HATCH_CM * eye.scale, []
    width = right - left
    slope = width if eye.see((1.0, 0, 0))[0] * (1 if ahead else -1) > 0 else -width
    y = high + abs(width)
    while y < low:
        start = (left, y) if slope > 0 else (right, y)
        lines.append(polygon([start, (start[0] + slope, y - width)], closed=False))
        y += step
    yield Layer(tuple(lines), "", darker(STONE, 0.8), 0.35 * eye.scale, open=True)
    face = eye.see((prop.forward_cm, 0.0, 0.0))[0]
    edge = polygon([(face, low), (face, high)], closed=False)
    yield Layer((edge,), "", LINE, 0.9 * eye.scale, open=True)


def _chair(prop: Prop, eye: Eye) -> Iterator[Layer]:
    x0, x1, _, seat, z0, z1 = _box_of(prop)
    back = back_of(prop)
    front = x0 + 1.5 if prop.faces_back else x1 - 1.5
    top = seat + CHAIR_BACK_CM
    sides = sorted((z0 + 1.5, z1 - 1.5), key=lambda z: eye.depth((0.0, 0.0, z)))
    for z in sides[:1] if _flat(eye) else sides:
        yield from _post((back, 0.0, z), (back, top - 2.0, z), eye)
        yield from _post((front, 0.0, z), (front, seat - 2.0, z), eye)
    yield from solid((x0, x1, seat - 3.6, seat, z0, z1), eye, WOOD)
    yield from solid((back - 1.9, back + 1.9, top - 11.0, top, z0, z1), eye, WOOD)


def _flat(eye: Eye) -> bool:
    """Whether the far side of a thing lies right behind its near side."""
    return abs(eye.towards[0]) < 0.01 and abs(eye.towards[1]) < 0.01


def _post(a: Vector, b: Vector, eye: Eye) -> Iterator[Layer]:
    foot = (a[0], a[1] + 1.6, a[2])  # the round end of the line reaches the floor
    line = polygon([eye.see(foot), eye.see(b)], closed=False)
    yield Layer((line,), "", LINE, 3.6 * eye.scale, open=True)
    yield Layer((line,), "", darker(WOOD, 0.9), 2.6 * eye.scale, open=True)


def _table(prop: Prop, eye: Eye) -> Iterator[Layer]:
    x0, x1, _, top, z0, z1 = _box_of(prop)
    sides = sorted((z0 + 2, z1 - 2), key=lambda z: eye.depth((0.0, 0.0, z)))
    for z in sides[:1] if _flat(eye) else sides:
        for x in (x0 + 3.0, x1 - 3.0):
            yield from _post((x, 0.0, z), (x, top - 2.0, z), eye)
    yield from solid((x0, x1, top - 4.0, top, z0, z1), eye, WOOD)


def _worktop(prop: Prop, eye: Eye) -> Iterator[Layer]:
    x0, x1, _, top, z0, z1 = _box_of(prop)
    yield from solid((x0 + 2.5, x1, 0.0, top - 3.5, z0 + 1, z1 - 1), eye, STONE)
    yield from solid((x0, x1, top - 3.5, top, z0, z1), eye, WOOD)
