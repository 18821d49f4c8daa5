"""Head: face, ears and hair from any side. Sizes are centimetres, drawn by eye.

The head is drawn as hair all over; the face is a sheet round its front, from hairline to
hairline, of which each view shows its part.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from attrs import evolve

from authoring.figures.layers import Layer
from authoring.figures.look import LINE, Age, Hair, Shade, shade
from authoring.figures.outline import disc, hull
from authoring.figures.scene import Scene
from authoring.figures.space import Vector, along, between
from authoring.figures.sweep import Section, patch, sweep

_SKULL: Final = (
    (10.3, 2.4, -2.2, 2.4),
    (9.6, 4.1, -3.4, 4.2),
    (8.6, 6.4, -5.8, 5.7),
    (6.8, 8.2, -7.5, 6.9),
    (4.6, 9.0, -8.3, 7.5),
    (2.2, 9.3, -8.6, 7.7),
    (0.6, 8.8, -8.5, 7.6),
    (-0.8, 9.1, -8.2, 7.5),
    (-2, 10.1, -7.4, 7.3),
    (-3.3, 11.1, -5.0, 7.1),
    (-4.1, 9.7, -3.2, 6.9),
    (-5.3, 9.8, -2.1, 6.6),
    (-6.2, 9.2, -1.3, 6.3),
    (-7.2, 9.5, -0.7, 5.9),
    (-8.4, 8.7, 0.1, 5.3),
    (-9.7, 9.1, 1.1, 4.5),
    (-10.9, 8.5, 2.5, 3.3),
)
"""Height from the middle of the head; forward reach, backward reach, half the width."""

_HAIRLINE: Final[dict[Hair, tuple[float, tuple[tuple[float, float], ...]]]] = {
    Hair.SHORT: (0.9, ((5.9, 34), (4.6, 52), (2.2, 66), (-0.8, 74), (-2.0, 88), (-3.3, 122))),
    Hair.TIED: (0.6, ((5.4, 40), (4.6, 56), (2.2, 68), (-0.8, 78), (-2.0, 92), (-3.3, 122))),
    Hair.BUN: (0.6, ((5.4, 40), (4.6, 56), (2.2, 68), (-0.8, 78), (-2.0, 92), (-3.3, 122))),
    Hair.BOB: (1.5, ((5.2, 36), (4.6, 46), (2.2, 54), (-0.8, 58), (-2.0, 60), (-3.3, 62))),
    Hair.CURLY: (2.6, ((5.0, 36), (4.6, 48), (2.2, 60), (-0.8, 68), (-2.0, 86), (-3.3, 122))),
    Hair.SCARF: (1.1, ((5.0, 40), (4.6, 48), (2.2, 55), (-0.8, 58), (-2.0, 59), (-3.3, 59))),
}
"""Thickness of the hair, and how far round the face reaches at each height, degrees."""


def head(scene: Scene) -> list[Layer]:
    """Hair, face, ears and features, as far as they are turned to the viewer."""
    tone = shade(scene.look, far=False)
    facing = scene.facing(scene.axis("head", 0))
    made = [*_behind(scene, facing)]
    made += _shape(scene, tone, facing)
    made += _ears(scene, tone)
    made += _features(scene, tone, facing)
    if facing < -0.2:
        made += _tail(scene)
    return made


def _at(scene: Scene, ahead: float, up: float, right: float = 0.0) -> Vector:
    return scene.off(scene.point("head"), "head", ahead, up, right)


def skull(scene: Scene) -> list[Section]:
    """Sections of the bare head from top to chin."""
    ahead, right = scene.axis("head", 0), scene.axis("head", 2)
    return [
        Section(_at(scene, 0.0, up), ahead, right, front, -back, half)
        for up, front, back, half in _SKULL
    ]


def _shape(scene: Scene, tone: Shade, facing: float) -> Iterator[Layer]:
    hair, behind = scene.look.hair, facing < -0.45
    sections = skull(scene)
    if behind:  # the neck hides the jaw
        sections = sections[:-6]
    bare = sweep(scene.eye, sections, (0.25, 0.0 if behind else 0.9))
    if hair is Hair.NONE:
        yield scene.flesh(bare, fill=tone.skin)
        if behind:
            yield scene.bare(disc(scene.thing(_at(scene, -1.5, -4.6), 6.2)), fill=tone.skin)
        return
    thick, line = _HAIRLINE[hair]
    cover = scene.look.accent if hair is Hair.SCARF else scene.look.hair_fill
    cap = _cap(scene, hair, thick)
    if behind:
        yield scene.flesh(bare, fill=tone.skin)
        yield scene.flesh(*cap, fill=cover)
        return
    face = _face(scene, line)
    yield scene.flesh(bare, fill=tone.skin)
    yield scene.flesh(*cap, fill=cover)
    if face:
        yield Layer((face,), tone.skin, LINE, 0.4 * scene.eye.scale)


def _cap(scene: Scene, hair: Hair, thick: float) -> list[str]:
    """The hair's own contour."""
    ahead, right = scene.axis("head", 0), scene.axis("head", 2)
    up = scene.axis("head", 1)
    long = hair in (Hair.BOB, Hair.SCARF)
    made = []
    rows = [
        (u, f if u > 4.0 else min(f, 3.4 if not long else 6.0), b, h)
        for u, f, b, h in _SKULL
        if u > -1.0
    ]
    rows += [(-2.6, 0.8, -7.9, 7.2), (-4.6, -0.8, -7.3, 6.6), (-6.4, -2.2, -6.6, 5.6)]
    if long:
        rows = [*rows[:-3], (-3.6, 5.6, -8.2, 7.6), (-7.0, 5.8, -7.7, 7.6), (-10.6, 5.6, -6.6, 6.6)]
    sections = [
        Section(
            along(scene.point("head"), up, u + (thick * 0.6 if u > 9 else 0.0)),
            ahead,
            right,
            f + thick,
            (min(thick, 0.6) if _lying(scene) else thick) - b,
            h + thick,
        )
        for u, f, b, h in rows
    ]
    made.append(sweep(scene.eye, sections, (0.4, 0.9)))
    return made


def _face(scene: Scene, line: tuple[tuple[float, float], ...]) -> str:
    """The sheet of the face, from hairline to chin."""
    wide = dict(line)
    last = line[-1][1]
    low = 180.0 if last > 90.0 else last  # below the ear all is skin, unless hair covers it
    bare = skull(scene)
    first = evolve(bare[4], middle=_at(scene, 0, line[0][0]), front=8.7, back=8.0, half=7.3)
    chin = evolve(bare[-1], middle=_at(scene, 0, -11.8), front=7.5, back=-3.9, half=1.8)
    rows = [(first, first, line[0][1] * 0.75)]
    for section, (up, *_) in zip(bare, _SKULL, strict=True):
        if up <= line[0][0]:
            reach = wide.get(up, _between(line, up) if up > -3.3 else low)
            if up == -4.1 and low > 90.0:
                reach = 152.0
            rows.append((section, evolve(section, front=8.6), reach))
    rows.append((chin, chin, low))
    return patch(scene.eye, rows)


def _between(line: tuple[tuple[float, float], ...], up: float) -> float:
    for (a, wide_a), (b, wide_b) in pairwise(line):
        if b <= up <= a:
            return wide_a + (wide_b - wide_a) * (a - up) / (a - b)
    return line[-1][1]


def _behind(scene: Scene, facing: float) -> list[Layer]:
    return _tail(scene) if facing >= -0.2 else []


def _lying(scene: Scene) -> bool:
    """Whether the back of the head rests on something, so that hair lies flat there."""
    return scene.axis("head", 0)[1] > 0.5


def _tail(scene: Scene) -> list[Layer]:
    """Tied hair; it hangs down, and is a knot on the crown of somebody who lies on their back."""
    hair = scene.look.hair
    if hair not in (Hair.TIED, Hair.BUN):
        return []
    cover = scene.look.hair_fill
    if _lying(scene):
        return [scene.flesh(disc(scene.thing(_at(scene, -3.6, 10.2), 3.6)), fill=cover)]
    if hair is Hair.BUN:
        return [scene.flesh(disc(scene.thing(_at(scene, -9.6, 6.4), 4.0)), fill=cover)]
    root = _at(scene, -9.6, 4.4)
    way = scene.axis("head", 1)
    fall = between((0.0, -1.0, 0.0), (-way[0], -way[1], -way[2]), 0.4)
    back = scene.axis("head", 0)
    mid = along(along(root, back, -3.4), fall, 4.6)
    tip = along(along(root, back, -3.0), fall, 14.0)
    tail = [scene.thing(root, 2.2), scene.thing(mid, 2.9), scene.thing(tip, 0.9)]
    return [scene.flesh(hull(tail[:2]), hull(tail[1:]), fill=cover)]


# ---- features ------------------------------------------------------------------------------


def _ears(scene: Scene, tone: Shade) -> Iterator[Layer]:
    if scene.look.hair in (Hair.BOB, Hair.SCARF):
        return
    for k in (-1.0, 1.0):
        turned = k * scene.facing(scene.axis("head", 2))
        if turned < -0.05:
            continue
        spots = [(-1.0, 0.5, 7.6, 1.8), (-1.2, -1.4, 7.4, 1.4), (-0.8, -2.6, 7.0, 1.0)]
        ear = [scene.thing(_at(scene, a, u, k * r), size) for a, u, r, size in spots]
        yield scene.flesh(hull(ear), fill=tone.skin)
        if turned > 0.5:
            yield scene.stroke(
                _at(scene, 0.0, 0.9, k * 8),
                _at(scene, -1.6, 0.9, k * 8),
                _at(scene, -1.1, -1.6, k * 8),
                colour=tone.skin_line,
                wide=0.4,
            )


def _features(scene: Scene, tone: Shade, facing: float) -> Iterator[Layer]:
    """Eyes, brows, nose and mouth on the side of the head that is seen."""
    if facing < -0.3:
        return
    right = scene.axis("head", 2)
    towards = scene.facing(right)
    for k in (-1.0, 1.0):
        seen = facing * 0.80 + k * towards * 0.6
        if seen < 0.30:
            continue
        yield from _eye(scene, k, facing)
    yield from _nose(scene, tone, facing, towards)
    yield _mouth(scene, facing, towards)
    if scene.look.age is Age.OLDER:
        yield from _lines(scene, tone, facing, towards)


def _eye(scene: Scene, k: float, facing: float) -> Iterator[Layer]:
    wide = 0.8
    eye = hull(
        [
            scene.thing(_at(scene, 7.6, 0.75, k * 3.1), wide * 0.85),
            scene.thing(_at(scene, 7.6, 0.05, k * 3.1), wide * 0.85),
        ]
    )
    yield scene.bare(eye, fill=LINE)
    brow = [
        _at(scene, 8.3, 2.7, k * 1.7),
        _at(scene, 8.0, 3.4, k * 3.2),
        _at(scene, 6.9, 2.9, k * 4.9),
    ]
    yield scene.stroke(*brow, colour=scene.look.brow, wide=0.65)


def _nose(scene: Scene, tone: Shade, facing: float, towards: float) -> Iterator[Layer]:
    if facing < 0.8:  # the contour shows it
        return
    k = 1.0 if towards >= 0 else -1.0
    spots = [
        _at(scene, 9.4, 0.0, -k * 0.5),
        _at(scene, 10.6, -2.9, -k * 1.3),
        _at(scene, 10.0, -3.7, 0.2 * k),
    ]
    yield scene.stroke(*spots, colour=tone.skin_line, wide=0.55)


def _mouth(scene: Scene, facing: float, towards: float) -> Layer:
    """A small, friendly line; in profile the half that is seen."""
    if facing > 0.5:
        spots = [(-2.5, -6.0), (0.0, -6.9), (2.5, -6.0)]
    else:
        near = 1.0 if towards > 0 else -1.0
        spots = [(-0.2 * near, -6.5), (1.6 * near, -6.6), (3.1 * near, -5.9)]
    line = [_at(scene, 9.0 - 0.16 * across * across, up, across) for across, up in spots]
    return scene.stroke(*line, wide=0.55)


def _lines(scene: Scene, tone: Shade, facing: float, towards: float) -> Iterator[Layer]:
    """Lines from nose to mouth and beside the eye of an older person."""
    for k in (-1.0, 1.0):
        if facing * 0.7 + k * towards * 0.7 < 0.45:
            continue
        yield scene.stroke(
            _at(scene, 8.6, -3.9, k * 2.4),
            _at(scene, 8.0, -5.2, k * 3.6),
            _at(scene, 7.6, -6.2, k * 3.9),
            colour=tone.skin_line,
            wide=0.4,
        )
        yield scene.straight(
            _at(scene, 6.4, 0.2, k * 5.6),
            _at(scene, 5.6, -0.4, k * 6.2),
            colour=tone.skin_line,
            wide=0.4,
        )
