"""Feet, bare or in a shoe: heel, arch, ball and toes, which bend apart from the rest."""

from __future__ import annotations

from typing import Final

from attrs import frozen

from authoring.figures.layers import Layer
from authoring.figures.look import Footwear, Shade
from authoring.figures.scene import Scene
from authoring.figures.space import Vector, along, between
from authoring.figures.sweep import Section, sweep

_SHOE: Final = (
    (0.00, 5.6, -0.1, 2.7),
    (0.10, 7.0, -0.4, 3.4),
    (0.26, 7.4, -0.5, 3.6),
    (0.40, 6.9, -0.5, 3.6),
    (0.55, 5.5, -0.5, 3.9),
    (0.72, 4.3, -0.5, 4.5),
)
_SHOE_TOES: Final = ((0.0, 4.3, -0.5, 4.5), (0.45, 3.8, -0.4, 4.3), (0.80, 3.1, -0.2, 3.5))
_BARE: Final = (
    (0.02, 4.6, -0.2, 2.4),
    (0.10, 6.4, -0.5, 3.0),
    (0.26, 7.6, -0.7, 3.2),
    (0.42, 6.4, -1.6, 3.3),
    (0.56, 4.9, -1.4, 3.8),
    (0.72, 3.5, -0.5, 4.5),
)
_BARE_TOES: Final = ((0.0, 3.5, -0.5, 4.5), (0.35, 2.5, -0.5, 4.4), (0.78, 2.0, -0.4, 3.6))
"""Share of the length; top above and underside below the sole's line, half the width, cm."""


@frozen
class Foot:
    """A foot in layers.

    Attributes:
        under: drawn before the leg.
        skin: paths that join the leg's.
        over: drawn after the leg.
    """

    under: tuple[Layer, ...]
    skin: tuple[str, ...]
    over: tuple[Layer, ...]


def foot(scene: Scene, side: str, tone: Shade) -> Foot:
    """One foot as the look has it."""
    if scene.look.footwear is Footwear.BARE:
        return _bare(scene, side, tone)
    return _shoe(scene, side, tone)


def foot_shape(scene: Scene, side: str) -> tuple[str, ...]:
    """The paths of a shoe, without its details."""
    return _paths(scene, side, (_SHOE, _SHOE_TOES), (0.9, 1.4))


def _rows(
    scene: Scene, side: str, table: tuple[tuple[float, ...], ...], *, toes: bool
) -> list[Section]:
    frame = f"toes.{side}" if toes else f"foot.{side}"
    up, right = scene.axis(frame, 1), scene.axis(frame, 2)
    heel, ball = scene.point(f"heel.{side}"), scene.point(f"ball.{side}")
    toe = scene.point(f"toe.{side}")
    made = []
    for share, top, below, half in table:
        at = between(ball, toe, share) if toes else between(heel, ball, share / 0.72)
        made.append(Section(at, up, right, top, below, half))
    return made


def _sole(scene: Scene, side: str, height: float, out: float) -> list[Vector]:
    up, toes_up = scene.axis(f"foot.{side}", 1), scene.axis(f"toes.{side}", 1)
    heel, ball, toe = (scene.point(f"{name}.{side}") for name in ("heel", "ball", "toe"))
    right = scene.axis(f"foot.{side}", 2)
    near = out if scene.facing(right) > 0 else -out
    return [
        along(along(heel, up, height), right, near * 0.4),
        along(along(between(heel, ball, 0.5), up, height * 0.9), right, near),
        along(along(ball, up, height * 0.85), right, near),
        along(along(between(ball, toe, 0.9), toes_up, height * 1.1), right, near * 0.4),
    ]


def _paths(
    scene: Scene,
    side: str,
    tables: tuple[tuple[tuple[float, ...], ...], ...],
    caps: tuple[float, float],
) -> tuple[str, ...]:
    body = sweep(scene.eye, _rows(scene, side, tables[0], toes=False), (caps[0], 1.6))
    tip = sweep(scene.eye, _rows(scene, side, tables[1], toes=True), (1.6, caps[1]))
    return body, tip


def _shoe(scene: Scene, side: str, tone: Shade) -> Foot:
    paths = foot_shape(scene, side)
    layers = [scene.flesh(*paths, fill=tone.shoe)]
    sole = scene.axis(f"foot.{side}", 1)
    seen_from_below = scene.facing(sole) < -0.55
    end_on = abs(scene.facing(scene.axis(f"foot.{side}", 0))) > 0.7
    if not seen_from_below and not end_on:
        rim = _sole(scene, side, 1.0, 3.4)
        layers.append(scene.stroke(*rim, colour=tone.sole, wide=1.0))
    if not end_on and not seen_from_below:
        layers += _laces(scene, side, tone)
    return Foot((), (), tuple(layers))


def _laces(scene: Scene, side: str, tone: Shade) -> list[Layer]:
    heel, ball = scene.point(f"heel.{side}"), scene.point(f"ball.{side}")
    right = scene.axis(f"foot.{side}", 2)
    near = 1.0 if scene.facing(right) > 0 else -1.0
    made = []
    for share, top in ((0.62, 6.2), (0.76, 5.0)):
        at = between(heel, ball, share)
        high = scene.off(at, f"foot.{side}", 0.4, top, 0.0)
        low = scene.off(at, f"foot.{side}", -0.6, top - 1.5, near * 2.8)
        made.append(scene.straight(high, low, colour=tone.sole, wide=0.45))
    return made


def _bare(scene: Scene, side: str, tone: Shade) -> Foot:
    paths = _paths(scene, side, (_BARE, _BARE_TOES), (1.0, 1.1))
    return Foot((), paths, tuple(_toes(scene, side, tone)))


def _toes(scene: Scene, side: str, tone: Shade) -> list[Layer]:
    """Lines between the toes, and the ankle bone."""
    out = 1.0 if side == "r" else -1.0
    made = []
    frame = f"toes.{side}"
    ball, toe = scene.point(f"ball.{side}"), scene.point(f"toe.{side}")
    if scene.facing(scene.axis(frame, 1)) > 0.15:
        for across in (-1.6, 0.3, 1.8, 3.0):
            a = scene.off(between(ball, toe, 0.35), frame, 0, 2.3, out * across)
            b = scene.off(between(ball, toe, 1.05), frame, 0, 1.2, out * across * 0.85)
            made.append(scene.straight(a, b, colour=tone.skin_line, wide=0.4))
    elif scene.facing(scene.axis(frame, 1)) > -0.3:
        a = scene.off(between(ball, toe, 0.55), frame, 0, 1.3)
        made.append(
            scene.stroke(
                a,
                scene.off(a, frame, 1.6, 0.5),
                scene.off(a, frame, 2.8, 0.1),
                colour=tone.skin_line,
                wide=0.4,
            )
        )
    right = scene.axis(f"foot.{side}", 2)
    if abs(scene.facing(right)) > 0.6:
        near = 1.0 if scene.facing(right) > 0 else -1.0
        bone = scene.off(scene.point(f"ankle.{side}"), f"foot.{side}", 0.0, 0.0, near * 3.2)
        arc = [
            scene.off(bone, f"foot.{side}", x, y) for x, y in ((-1.2, -0.3), (0, -1.2), (1.2, -0.3))
        ]
        made.append(scene.stroke(*arc, colour=tone.skin_line, wide=0.4))
    return made
