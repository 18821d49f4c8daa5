"""Which part of the paper a picture shows: the same for every moment of a pose."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product
from typing import Final

from attrs import frozen

from authoring.figures.moving import arrow_way
from authoring.figures.outline import Eye, Point
from authoring.figures.props import corners_of, reach_of
from authoring.figures.solver import Settled
from authoring.figures.wants import place, sides_at
from authoring.model.pose import BasePosition, Focus, Pose

UPRIGHT_CM: Final = (128.0, 186.0)
"""Least width and height where somebody is upright, so that all stand at one scale."""

CLOSE_WIDTH: Final = 41 / 59
"""Width of a close picture against its height: that of half a pair on the page."""

GROUND_CM: Final = 2.2
_MARGIN_CM: Final = 3.0
_THICK: Final = frozenset({"pelvis", "waist", "neck", "back", "seat", "head", "vertex"})
_HEAD_CM: Final = 14.0
"""Round the middle of the head, with hair tied behind it."""

_SOLES: Final = ("heel", "ball", "toe")


@frozen
class Frame:
    """Left, top, width and height in drawing units.

    Attributes:
        closer: how many times larger than a whole person it is shown.
    """

    left: float
    top: float
    width: float
    height: float
    closer: float = 1.0


def level(eye: Eye) -> bool:
    """Whether the floor is seen as a line."""
    return abs(eye.towards[1]) < 0.05


def frame_of(pose: Pose, eye: Eye, bodies: Sequence[Settled]) -> Frame:
    """What to show of a pose with its moments, in order."""
    if pose.camera.focus is not None:
        return _close(pose.camera.focus, eye, bodies)
    spots = [spot for each in bodies for spot in _extent(each, eye)]
    before = bodies[pose.phases.index(pose.before())]
    for arrow, last in product(pose.arrows, bodies):
        if last is not before or arrow.push is not None:
            spots += arrow_way(arrow, before, last, eye)
    spots += [eye.see(spot) for each in bodies for spot in reach_of(pose, each.body)]
    spots += [eye.see(corner) for prop in pose.supports for corner in corners_of(prop)]
    pad = _MARGIN_CM * eye.scale
    left, right = min(x for x, _ in spots) - pad, max(x for x, _ in spots) + pad
    top, low = min(y for _, y in spots) - pad, max(y for _, y in spots) + pad
    if level(eye):
        low = max(0.0, *(y for _, y in spots)) + GROUND_CM * eye.scale
    if pose.base.position is BasePosition.UPRIGHT:
        least_width, least_height = (cm * eye.scale for cm in UPRIGHT_CM)
        spare = max(0.0, least_width - (right - left)) / 2
        left, right, top = left - spare, right + spare, min(top, low - least_height)
    return Frame(left, top, right - left, low - top)


def _close(focus: Focus, eye: Eye, bodies: Sequence[Settled]) -> Frame:
    """The paper round the mean of where the moments have a place of the body."""
    side = sides_at(focus.point, focus.side)[-1]
    spots = [each.body.points[place(focus.point, side)] for each in bodies]
    forward, up, across = (sum(axis) / len(spots) for axis in zip(*spots, strict=True))
    x, y = eye.see((forward + focus.forward_cm, up + focus.up_cm, across))
    height = focus.height_cm * eye.scale
    width = height * CLOSE_WIDTH
    closer = UPRIGHT_CM[1] / focus.height_cm
    return Frame(x - width / 2, y - height / 2, width, height, closer)


def _extent(settled: Settled, eye: Eye) -> Iterator[Point]:
    """Corners that hold the flesh round every place on the body."""
    for name, at in settled.body.points.items():
        wide = _HEAD_CM if name == "head" else (9.5 if name in _THICK else 4.5)
        reach = wide * eye.scale
        x, y = eye.see(at)
        yield (x - reach, y)
        yield (x + reach, y)
        if not name.startswith(_SOLES):
            yield (x, y - reach)
            yield (x, y + reach if not level(eye) else y)
