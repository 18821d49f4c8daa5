"""Balls, rolls, rails and door frames as parts of a picture."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from authoring.figures.contacts import POST_CM, RAIL_CM, middle_of, radius_of
from authoring.figures.layers import Layer, Part
from authoring.figures.look import METAL, WOOD
from authoring.figures.outline import Eye
from authoring.figures.props.shapes import (
    BALL,
    CLOTH,
    Box,
    capsule,
    edged,
    post,
    rod,
    round_of,
    solid,
)
from authoring.figures.space import Vector, along
from authoring.model.pose import Prop, PropKind

_OVERHEAD_CM: Final = 180.0
"""A rail this high hangs, as a pull-up bar does; a lower one has posts."""

_FRAME_CM: Final = 9.0
"""How deep a door frame is."""


def space_of(prop: Prop) -> Box:
    """The space that a ball, roll, rail or door frame takes."""
    half = prop.width_cm / 2
    x, y, z = middle_of(prop)
    radius = radius_of(prop)
    match prop.kind:
        case PropKind.BALL:
            return (x - radius, x + radius, y - radius, y + radius, z - radius, z + radius)
        case PropKind.ROLL:
            return (x - radius, x + radius, y - radius, y + radius, z - half, z + half)
        case PropKind.RAIL:
            low = 0.0 if y < _OVERHEAD_CM else y - RAIL_CM
            if prop.beside:
                return (x - half, x + half, low, y + RAIL_CM, z - RAIL_CM, z + RAIL_CM)
            return (x - RAIL_CM, x + RAIL_CM, low, y + RAIL_CM, z - half, z + half)
        case _:
            face, out = prop.forward_cm, half + 2 * POST_CM
            x0, x1 = sorted((face, face + (_FRAME_CM if face >= 0 else -_FRAME_CM)))
            return (x0, x1, 0.0, prop.height_cm, prop.across_cm - out, prop.across_cm + out)


def ball(middle: Vector, radius: float, eye: Eye) -> Iterator[Layer]:
    """A ball with a light on it."""
    yield edged([round_of(middle, radius, eye)], eye, BALL)
    light = along(along(middle, eye.up, radius * 0.45), eye.right, -radius * 0.35)
    yield Layer((round_of(light, radius * 0.22, eye),), "#E3EAF5", "")


def roll(prop: Prop, eye: Eye) -> Iterator[Layer]:
    """A rolled towel or foam roller that lies across."""
    middle, radius = middle_of(prop), radius_of(prop)
    half = max(0.0, prop.width_cm / 2 - radius)
    ends = [(middle[0], middle[1], middle[2] + k * half) for k in (-1.0, 1.0)]
    yield edged([capsule([(end, radius) for end in ends], eye)], eye, CLOTH)
    near = max(ends, key=eye.depth)
    if abs(eye.towards[2]) > 0.5:
        yield edged([round_of(near, radius * 0.45, eye)], eye, CLOTH)


def rail_parts(prop: Prop, eye: Eye) -> Iterator[Part]:
    """A bar, with a post below each end unless it hangs overhead."""
    x, y, z = middle_of(prop)
    half = prop.width_cm / 2
    way = (1.0, 0.0, 0.0) if prop.beside else (0.0, 0.0, 1.0)
    ends = [along((x, y, z), way, k * half) for k in (-1.0, 1.0)]
    if y < _OVERHEAD_CM:
        for end in ends:
            legs = tuple(post((end[0], 0.0, end[2]), end, eye))
            yield Part(eye.depth(end) - 6.0, legs)
    depth = eye.depth((x, y, z)) - 5.0
    yield Part(depth, (edged([rod(ends, RAIL_CM, eye)], eye, METAL),))


def frame_parts(prop: Prop, eye: Eye) -> Iterator[Part]:
    """Two posts and what joins them; each post as near as it stands."""
    x0, x1, _, top, z0, z1 = space_of(prop)
    wide = 2 * POST_CM
    posts = ((x0, x1, 0.0, top, z0, z0 + wide), (x0, x1, 0.0, top, z1 - wide, z1))
    beyond = eye.depth(((x0 + x1) / 2, 0.0, prop.across_cm))
    for box in posts:
        depth = eye.depth(((x0 + x1) / 2, 0.0, (box[4] + box[5]) / 2))
        yield Part(min(depth, beyond) - 8.0, tuple(solid(box, eye, WOOD)))
    lintel = (x0, x1, top - wide, top, z0, z1)
    yield Part(beyond - 7.0, tuple(solid(lintel, eye, WOOD)))
