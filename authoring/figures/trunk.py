"""Trunk and neck: contours that follow the spine. Sizes are centimetres, drawn by eye.

Below the bend the trunk follows the pelvis, above it the chest, and between them a curve
that turns from one to the other, so that a bent back is round and not broken.
"""

from __future__ import annotations

import math
from typing import Final, TypeAlias

from attrs import evolve

from authoring.figures.layers import Layer
from authoring.figures.look import Hair, Shade, shade
from authoring.figures.outline import disc, hull
from authoring.figures.scene import Scene
from authoring.figures.space import Vector, along, between, dot, length_of
from authoring.figures.sweep import Section, sweep

Cut: TypeAlias = tuple[str, float, float, float, float]
"""Where (pelvis: cm above it; bend: share; chest: cm above the bend); front, back, half."""

_SHORTS: Final[tuple[Cut, ...]] = (
    ("pelvis", -8.0, 6.4, 7.0, 12.0),
    ("pelvis", -4.5, 9.0, 8.8, 15.8),
    ("pelvis", 0.0, 10.2, 9.2, 16.8),
    ("pelvis", 4.0, 10.6, 8.9, 16.2),
    ("bend", 0.25, 10.4, 7.9, 14.8),
)
_SHIRT: Final[tuple[Cut, ...]] = (
    ("pelvis", 1.6, 11.4, 9.3, 16.9),
    ("pelvis", 5.0, 11.4, 8.8, 16.0),
    ("bend", 0.4, 11.0, 7.7, 14.6),
    ("bend", 0.8, 11.2, 7.5, 14.2),
    ("chest", 14.0, 11.9, 8.1, 14.6),
    ("chest", 20.0, 12.5, 8.9, 15.5),
    ("chest", 26.0, 12.2, 9.2, 16.4),
    ("chest", 31.0, 10.6, 9.0, 17.0),
    ("chest", 35.4, 8.2, 8.3, 17.0),
    ("chest", 38.4, 6.9, 7.3, 13.0),
    ("chest", 41.0, 6.2, 6.2, 7.4),
)
_WAIST_SHARE: Final = 0.30
_CURVE_CM: Final = 10.0
"""The bend starts this far below the waist and ends this far above it."""


def _cut(scene: Scene, cut: Cut) -> Section:
    where, value, front, back, half = cut
    wide = scene.look.width
    belly = scene.look.belly if where == "bend" or (where == "chest" and value < 16) else 0.0
    middle, ahead, right = _spine(scene, where, value)
    return Section(
        middle, ahead, right, front * wide + belly, back * wide, half * wide + belly * 0.5
    )


def _spine(scene: Scene, where: str, value: float) -> tuple[Vector, Vector, Vector]:
    """A place on the line of the spine, with forward and right there."""
    waist = scene.point("waist")
    if where == "pelvis":
        at = along(scene.point("pelvis"), scene.axis("pelvis", 1), value)
        return at, scene.axis("pelvis", 0), scene.axis("pelvis", 2)
    if where == "chest":
        at = along(waist, scene.axis("chest", 1), value)
        return at, scene.axis("chest", 0), scene.axis("chest", 2)
    low = along(waist, scene.axis("pelvis", 1), -_CURVE_CM)
    high = along(waist, scene.axis("chest", 1), _CURVE_CM)
    at = between(between(low, waist, value), between(waist, high, value), value)
    ahead = _unit(between(scene.axis("pelvis", 0), scene.axis("chest", 0), value))
    right = _unit(between(scene.axis("pelvis", 2), scene.axis("chest", 2), value))
    return at, ahead, right


def _unit(v: Vector) -> Vector:
    long = length_of(v)
    return (v[0] / long, v[1] / long, v[2] / long) if long > 1e-6 else (1.0, 0.0, 0.0)


def shorts(scene: Scene) -> tuple[str, ...]:
    """Paths of the upper part of the shorts, buttocks included."""
    body = sweep(scene.eye, [_cut(scene, cut) for cut in _SHORTS], (2.4, 0.0))
    sockets = (disc(scene.ball(scene.point(f"hip.{side}"), 7.2)) for side in ("l", "r"))
    return (body, *sockets, *(_buttock(scene, side) for side in ("l", "r")))


def _buttock(scene: Scene, side: str) -> str:
    """It goes along with the thigh half-way, so that a bent hip stays round."""
    hip = scene.point(f"hip.{side}")
    pelvis, thigh = scene.axis("pelvis", 0), scene.axis(f"thigh.{side}", 0)
    down = between(scene.axis("pelvis", 1), scene.axis(f"thigh.{side}", 1), 0.5)
    back = along(along(hip, between(pelvis, thigh, 0.4), -2.6), down, 0.4)
    return disc(scene.ball(back, 7.3))


def shirt(scene: Scene) -> str:
    """The shirt without its sleeves."""
    return sweep(scene.eye, shirt_sections(scene), (0.0, 0.2))


def shirt_sections(scene: Scene) -> list[Section]:
    """Sections of the shirt from hem to collar; a bent hip lifts the front of the hem."""
    sections = [_cut(scene, cut) for cut in _SHIRT]
    sections[0] = evolve(sections[0], slant=min(6.0, max(0.0, (bent(scene) - 25.0) * 0.08)))
    return sections


def neck(scene: Scene, tone: Shade) -> Layer:
    """From the shoulders into the head."""
    fill = scene.look.accent if scene.look.hair is Hair.SCARF else tone.skin
    return scene.flesh(sweep(scene.eye, _neck(scene)), fill=fill)


def _neck(scene: Scene) -> list[Section]:
    base = along(
        along(scene.point("neck"), scene.axis("chest", 1), 2.0), scene.axis("chest", 0), -1.0
    )
    top = along(
        along(scene.point("head"), scene.axis("head", 1), -3.0), scene.axis("head", 0), -2.0
    )
    right = scene.axis("head", 2)
    return [
        Section(base, scene.axis("chest", 0), scene.axis("chest", 2), 6.0, 5.6, 6.9),
        Section(between(base, top, 0.45), scene.axis("chest", 0), right, 5.0, 5.3, 5.5),
        Section(top, scene.axis("head", 0), right, 4.8, 3.8, 5.3),
    ]


def collar(scene: Scene, tone: Shade) -> list[Layer]:
    """The edge of the neck opening, where the front of the chest is seen."""
    facing = scene.facing(scene.axis("chest", 0))
    if facing < 0.2:
        return []
    at = along(scene.point("waist"), scene.axis("chest", 1), 40.4)
    spots = [
        scene.off(at, "chest", ahead, up, right)
        for ahead, up, right in (
            (0.6, 1.3, -6.3),
            (4.4, -0.8, -4.9),
            (6.6, -2.6, 0.0),
            (4.4, -0.8, 4.9),
            (0.6, 1.3, 6.3),
        )
    ]
    opening = scene.stroke(*spots, wide=0.1).paths[0]
    return [
        scene.bare(
            opening + "Z",
            fill=tone.skin if scene.look.hair is not Hair.SCARF else scene.look.accent,
        ),
        scene.stroke(*spots, colour=tone.top_line, wide=0.6),
    ]


def shoulder_patch(scene: Scene, side: str) -> list[Layer]:
    """Cloth without an edge where a near sleeve is set on to the shirt.

    From the side the sleeve keeps its edge, the seam of a shirt.
    """
    if abs(dot(scene.axis("chest", 2), scene.eye.towards)) > 0.8:
        return []
    up, neck_at = scene.axis("chest", 1), scene.point("neck")
    at = scene.point(f"shoulder.{side}")
    shoulder = along(at, up, -2.0)
    inner = along(between(shoulder, neck_at, 0.34), up, -3.6)
    slope = along(between(at, neck_at, 0.5), up, 1.0)
    cloth = (
        hull([scene.ball(shoulder, 3.8), scene.ball(inner, 4.6)]),
        hull([scene.ball(slope, 3.2), scene.ball(along(at, up, -0.8), 2.4)]),
    )
    return [scene.bare(*cloth, fill=shade(scene.look, far=False).top)]


def bent(scene: Scene) -> float:
    """How far the hip that is nearer to the viewer is bent, degrees."""
    near = max(("l", "r"), key=lambda side: scene.eye.depth(scene.point(f"hip.{side}")))
    up, ahead = scene.axis(f"thigh.{near}", 1), scene.axis("pelvis", 0)
    return math.degrees(math.atan2(-dot(up, ahead), dot(up, scene.axis("pelvis", 1))))
