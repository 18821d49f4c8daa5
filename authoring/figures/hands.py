"""Hands: relaxed, flat on a surface, on the fingertips, or closed round something.

A hand lies along its own axes: from the wrist to the fingers, towards the thumb, and the
way the palm looks. A flat hand's underside keeps within the flesh that contacts allow for
between hand and surface (``contacts.CLEARANCE``), so fingers lie on things and never in them.
"""

from __future__ import annotations

import math
from enum import StrEnum
from typing import Final

from attrs import frozen

from authoring.figures.layers import Layer
from authoring.figures.look import Shade
from authoring.figures.outline import chain, hull
from authoring.figures.scene import Scene
from authoring.figures.space import Vector, along
from authoring.figures.sweep import Section, sweep


class Kind(StrEnum):
    """What a hand does."""

    RELAXED = "relaxed"
    FLAT = "flat"
    FINGERTIPS = "fingertips"
    GRIP = "grip"


@frozen
class Hand:
    """A hand in layers.

    Attributes:
        under: drawn before the arm and before what is held.
        joined: paths that share the arm's outline.
        over: drawn after the arm and after what is held.
        arm_on_top: whether the arm with ``joined`` lies over what is held.
    """

    under: tuple[Layer, ...]
    joined: tuple[str, ...]
    over: tuple[Layer, ...]
    arm_on_top: bool = False


@frozen
class _Axes:
    """Directions of one hand."""

    wrist: Vector
    down: Vector
    thumb: Vector
    palm: Vector

    def at(self, down: float, thumb: float = 0.0, palm: float = 0.0) -> Vector:
        """A place on the hand from the wrist, cm."""
        made = along(along(self.wrist, self.down, down), self.thumb, thumb)
        return along(made, self.palm, palm)


_KNUCKLE_CM: Final = 8.6

_PALM: Final = (
    (0.0, 2.5, -2.5, 1.8),
    (2.6, 3.3, -3.2, 1.75),
    (5.6, 3.9, -3.8, 1.6),
    (8.4, 4.0, -4.0, 1.35),
)
"""Down from the wrist; reach towards the thumb and away from it; half the thickness, cm."""

_FINGERS: Final = ((2.6, 3.9, -3.9, 1.1), (5.2, 3.5, -3.2, 1.0), (7.4, 2.7, -1.9, 0.9))
"""The same, along the fingers from the knuckles."""

_CURL: Final = {
    Kind.RELAXED: (16.0, 18.0, 16.0),
    Kind.FLAT: (0.0, 0.0, 0.0),
    Kind.FINGERTIPS: (6.0, 6.0, 4.0),
}
"""How far the fingers bend towards the palm at each of three steps, degrees."""


def kind_of(scene: Scene, side: str) -> Kind:
    """What this hand does."""
    if side in scene.fists:
        return Kind.GRIP
    if side in scene.pressed:
        return Kind.FLAT
    return Kind.FINGERTIPS if side in scene.tips else Kind.RELAXED


def hand(scene: Scene, side: str, tone: Shade, kind: Kind | None = None) -> Hand:
    """A hand of a kind; None for what the pose asks of it.

    Where something is held, draw ``under``, the thing, the arm and ``over`` in the order
    that ``arm_on_top`` tells.
    """
    axes = _axes(scene, side)
    kind = kind or kind_of(scene, side)
    if kind is Kind.GRIP:
        return _fist(scene, axes, tone)
    return _open(scene, axes, tone, kind)


def open_shape(scene: Scene, side: str, kind: Kind) -> str:
    """The path of palm and fingers without the thumb."""
    return _shape(scene, _axes(scene, side), kind)


def _axes(scene: Scene, side: str) -> _Axes:
    frame = f"hand.{side}"
    sign = -1.0 if side == "r" else 1.0
    right, up = scene.axis(frame, 2), scene.axis(frame, 1)
    return _Axes(
        scene.point(f"wrist.{side}"),
        (-up[0], -up[1], -up[2]),
        scene.axis(frame, 0),
        (right[0] * sign, right[1] * sign, right[2] * sign),
    )


# ---- open ----------------------------------------------------------------------------------


def _fingers(axes: _Axes, kind: Kind) -> list[tuple[Vector, Vector, Vector]]:
    """Middle, down and palm way at each step along bent fingers."""
    made = []
    at, turn, before = axes.at(_KNUCKLE_CM), 0.0, 0.0
    for (reach, *_), curl in zip(_FINGERS, _CURL[kind], strict=True):
        turn += math.radians(curl)
        c, s = math.cos(turn), math.sin(turn)
        down = _mix(axes.down, c, axes.palm, s)
        at = along(at, down, reach - before)
        made.append((at, down, _mix(axes.palm, c, axes.down, -s)))
        before = reach
    return made


def _mix(a: Vector, by: float, b: Vector, other: float) -> Vector:
    return (a[0] * by + b[0] * other, a[1] * by + b[1] * other, a[2] * by + b[2] * other)


def _shape(scene: Scene, axes: _Axes, kind: Kind) -> str:
    sections = [
        Section(
            axes.at(down), axes.palm, axes.thumb, thick, thick, (to - away) / 2, (to + away) / 2
        )
        for down, to, away, thick in _PALM
    ]
    for (middle, _, palm), (_, to, away, thick) in zip(_fingers(axes, kind), _FINGERS, strict=True):
        sections.append(
            Section(middle, palm, axes.thumb, thick, thick, (to - away) / 2, (to + away) / 2)
        )
    return sweep(scene.eye, sections, (1.0, 1.5))


def _open(scene: Scene, axes: _Axes, tone: Shade, kind: Kind) -> Hand:
    shape = _shape(scene, axes, kind)
    thumb = _thumb(scene, axes, kind)
    lines = tuple(_gaps(scene, axes, tone, kind))
    facing = scene.facing(axes.thumb)
    if facing > 0.35:
        return Hand((), (shape,), (scene.flesh(thumb, fill=tone.skin), *_seam(scene, axes, tone)))
    return Hand((), (shape, thumb) if facing > -0.6 else (shape,), lines)


def _thumb(scene: Scene, axes: _Axes, kind: Kind) -> str:
    """Beside a flat hand, in front of a relaxed one."""
    away = 0.3 if kind is not Kind.RELAXED else 1.6
    wide = 6.0 if kind is Kind.FLAT else 4.8
    spots = [(2.6, 2.4, 0.2, 1.6), (5.4, 4.4, away * 0.6, 1.45), (8.6, wide, away, 1.05)]
    return chain([scene.thing(axes.at(d, t, p), r) for d, t, p, r in spots])


def _seam(scene: Scene, axes: _Axes, tone: Shade) -> list[Layer]:
    """Skin without an edge where a near thumb grows out of the hand."""
    root = hull([scene.thing(axes.at(2.2, 1.6), 1.55), scene.thing(axes.at(4.0, 2.6, 0.3), 1.3)])
    return [scene.bare(root, fill=tone.skin)]


def _gaps(scene: Scene, axes: _Axes, tone: Shade, kind: Kind) -> list[Layer]:
    """Lines between the fingers, where the flat of the hand is seen."""
    facing = scene.facing(axes.palm)
    if abs(facing) < 0.4:
        return []
    near = 1.0 if facing > 0 else -1.0
    steps = _fingers(axes, kind)
    made = []
    for across, last in ((-1.95, 0.78), (0.05, 1.0), (2.0, 0.9)):
        spots = [axes.at(_KNUCKLE_CM - 0.2, across, near * 1.0)]
        ends = (steps[0][0], steps[1][0], along(steps[1][0], steps[2][1], 2.2 * last))
        for end, (_, _, palm), squeeze in zip(ends, steps, (1.0, 0.9, 0.62), strict=True):
            spots.append(along(along(end, axes.thumb, across * squeeze), palm, near * 0.8))
        made.append(scene.stroke(*spots, colour=tone.skin_line, wide=0.4))
    return made


# ---- closed --------------------------------------------------------------------------------


def _fist(scene: Scene, axes: _Axes, tone: Shade) -> Hand:
    """Back of the hand, fingers and thumb round a bar that lies along the way of the thumb."""
    thing = scene.thing
    back = hull(
        [
            thing(axes.at(down, across, palm), radius)
            for across in (-2.5, 2.5)
            for down, palm, radius in ((1.6, 0.0, 1.8), (7.8, -1.9, 1.6), (9.6, -0.2, 1.5))
        ]
    )
    fingers = hull(
        [
            thing(axes.at(down, across, palm), radius)
            for across in (-2.9, 2.9)
            for down, palm, radius in ((9.7, 0.6, 1.4), (9.0, 2.6, 1.2), (6.2, 2.5, 1.1))
        ]
    )
    heel = hull(
        [thing(axes.at(1.4, a, 0.2), 1.7) for a in (-1.4, 1.4)]
        + [thing(axes.at(4.6, 2.2, 1.0), 1.6)]
    )
    thumb = chain(
        [
            thing(axes.at(*spot), r)
            for *spot, r in ((3.4, 2.6, 0.8, 1.5), (6.6, 3.9, 2.6, 1.3), (8.9, 2.0, 4.0, 1.1))
        ]
    )
    if abs(scene.facing(axes.thumb)) > 0.75:
        return _fist_end_on(scene, axes, tone, (back, heel), fingers, thumb)
    if scene.facing(axes.palm) > 0:
        lines = _finger_lines(scene, axes, tone, palm=3.7, downs=(10.4, 6.0))
        over = (scene.flesh(fingers, fill=tone.skin), *lines, scene.flesh(thumb, fill=tone.skin))
        return Hand((), (back, heel), over)
    lines = _finger_lines(scene, axes, tone, palm=-2.6, downs=(10.4, 8.0))
    under = (scene.flesh(thumb, fill=tone.skin), scene.flesh(fingers, fill=tone.skin))
    return Hand(under, (back,), lines, arm_on_top=True)


def _fist_end_on(
    scene: Scene,
    axes: _Axes,
    tone: Shade,
    back: tuple[str, ...],
    fingers: str,
    thumb: str,
) -> Hand:
    """A fist seen along the bar: a hook of back and fingers, the bar's end inside."""
    if scene.facing(axes.thumb) > 0:
        return Hand((), (*back, fingers), (scene.flesh(thumb, fill=tone.skin),))
    curl = scene.stroke(
        axes.at(9.8, -4.0, 1.2),
        axes.at(8.8, -4.0, 2.6),
        axes.at(6.2, -4.0, 2.0),
        colour=tone.skin_line,
        wide=0.5,
    )
    return Hand((), (*back, fingers), (curl,))


def _finger_lines(
    scene: Scene, axes: _Axes, tone: Shade, *, palm: float, downs: tuple[float, float]
) -> tuple[Layer, ...]:
    return tuple(
        scene.straight(
            axes.at(downs[0], across, palm * 0.6),
            axes.at(downs[1], across, palm),
            colour=tone.skin_line,
            wide=0.45,
        )
        for across in (-1.9, 0.0, 1.9)
    )
