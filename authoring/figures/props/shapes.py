"""Boxes, posts and lines in space as layers of a picture."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final, TypeAlias

from authoring.figures.layers import Layer
from authoring.figures.look import LINE, WEIGHTS, WOOD, WOOD_LIGHT, darker
from authoring.figures.outline import Eye, Point, chain, disc, hull, polygon
from authoring.figures.space import Vector, dot

BALL: Final = "#B9C7DE"
BAND: Final = "#E3B23C"
ROPE: Final = "#8C99A3"
CLOTH: Final = "#D9E4E6"
CUFF: Final = "#6E5A86"
BAG: Final = "#7A6A4F"

Box: TypeAlias = tuple[float, float, float, float, float, float]
"""Forward from, to; up from, to; across from, to; cm."""

_FACES: Sequence[tuple[Vector, tuple[int, int, int, int]]] = (
    ((1, 0, 0), (4, 5, 7, 6)),
    ((-1, 0, 0), (0, 1, 3, 2)),
    ((0, 1, 0), (2, 3, 7, 6)),
    ((0, 0, 1), (1, 3, 7, 5)),
    ((0, 0, -1), (0, 2, 6, 4)),
)


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


def post(a: Vector, b: Vector, eye: Eye) -> Iterator[Layer]:
    """A thin wooden post that stands on ``a``."""
    foot = (a[0], a[1] + 1.6, a[2])  # the round end of the line reaches the floor
    line = polygon([eye.see(foot), eye.see(b)], closed=False)
    yield Layer((line,), "", LINE, 3.6 * eye.scale, open=True)
    yield Layer((line,), "", darker(WOOD, 0.9), 2.6 * eye.scale, open=True)


def edged(paths: Sequence[str], eye: Eye, fill: str) -> Layer:
    """Shapes of one colour with the outline of things."""
    return Layer(tuple(paths), fill, LINE, WEIGHTS.outline * eye.scale)


def rod(spots: Sequence[Vector], radius: float, eye: Eye) -> str:
    """A rod of one thickness through places, cm."""
    return chain([eye.ball(spot, radius) for spot in spots])


def capsule(spots: Sequence[tuple[Vector, float]], eye: Eye) -> str:
    """The hull of balls in space: middle and radius of each, cm."""
    return hull([eye.ball(spot, radius) for spot, radius in spots])


def round_of(middle: Vector, radius: float, eye: Eye) -> str:
    """A ball."""
    return disc(eye.ball(middle, radius))


def strip(spots: Sequence[Vector], wide: float, colour: str, eye: Eye) -> Iterator[Layer]:
    """A band or rope through places: a line of a colour inside a dark one, ``wide`` cm."""
    path = polygon([eye.see(spot) for spot in spots], closed=False)
    yield Layer((path,), "", LINE, (wide + 1.0) * eye.scale, open=True)
    yield Layer((path,), "", colour, wide * eye.scale, open=True)
