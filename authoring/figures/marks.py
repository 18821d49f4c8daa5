"""Quiet marks on a picture: the bands that show which limb is the affected one."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from attrs import evolve

from authoring.figures.angles import SIDES
from authoring.figures.frame import Frame
from authoring.figures.layers import Layer
from authoring.figures.look import INK, LINE
from authoring.figures.outline import Eye, disc, polygon
from authoring.figures.scene import Scene
from authoring.figures.skeleton import Skeleton
from authoring.figures.solver import Settled
from authoring.figures.space import Vector, between, less
from authoring.figures.sweep import Section, sweep
from authoring.model.vocabulary import Side

_MOVES_CM = 3.0
_RING_CM = 6.5
_ROOTS = {"leg": "hip", "arm": "shoulder"}
_ONE_SIDE = (Side.LEFT, Side.RIGHT)
_SEEN = 0.35
"""A limb of which less is seen carries a ring at its end instead of bands."""

_ENDS = {"leg": ("knee", "ankle", "toe"), "arm": ("elbow", "wrist", "fingertips")}


def affected(moments: Sequence[Settled], side: Side) -> frozenset[str]:
    """Which limb of a side carries the mark, such as "leg.r".

    It is the leg where either leg moves at least half as far about its root as any arm, so
    that a stance leg counts too; and where nothing moves, as in a hold.
    """
    arm, leg = (_busiest(moments, limb) for limb in ("arm", "leg"))
    limb = "arm" if arm > max(2.0 * leg, _MOVES_CM) else "leg"
    return frozenset(f"{limb}.{each}" for each in SIDES[side] if side in _ONE_SIDE)


def hold_mark(frame: Frame, body: Skeleton, eye: Eye) -> Iterator[Layer]:
    """Two bars in a ring, as on a player's pause key, in the upper corner that is emptier."""
    reach = _RING_CM * eye.scale / frame.closer
    top = frame.top + 1.6 * reach
    corners = (frame.left + 1.6 * reach, frame.left + frame.width - 1.6 * reach)
    spots = [eye.see(at) for at in body.points.values()]
    x = max(corners, key=lambda x: round(min(math.dist((x, top), spot) for spot in spots)))
    yield Layer((disc((x, top, reach)),), "#FFFFFF", INK, 0.22 * reach)
    tall = 0.42 * reach
    bars = [
        polygon([(x + k * reach, top - tall), (x + k * reach, top + tall)], closed=False)
        for k in (-0.32, 0.32)
    ]
    yield Layer(tuple(bars), "", INK, 0.3 * reach, open=True)


def _busiest(moments: Sequence[Settled], limb: str) -> float:
    root = _ROOTS[limb]
    return max(
        math.dist(_from_root(one, root, end, side), _from_root(moments[0], root, end, side))
        for one in moments
        for end in _ENDS[limb]
        for side in ("l", "r")
    )


def _from_root(settled: Settled, root: str, end: str, side: str) -> Vector:
    return less(settled.body.points[f"{end}.{side}"], settled.body.points[f"{root}.{side}"])


def bands(scene: Scene, limb: str, sections: Sequence[Section], at: float) -> list[Layer]:
    """Two dark and one white band round a marked limb: form, not colour, so that grey keeps it.

    Args:
        scene: the person.
        limb: such as "leg.r"; nothing is drawn where it is not marked.
        sections: of the limb's lower half.
        at: share of its length where the bands lie.
    """
    if limb not in scene.marked:
        return []
    start, end = sections[0].middle, sections[-1].middle
    seen = math.dist(scene.eye.see(start), scene.eye.see(end)) / scene.eye.scale
    if seen < _SEEN * math.dist(start, end):
        x, y, reach = scene.thing(end, 6.2)
        ring = disc((x, y, reach))
        wide = 1.2 * scene.eye.scale
        return [
            Layer((ring,), "", LINE, 2.4 * wide, open=True),
            Layer((ring,), "", "#FFFFFF", wide, open=True),
        ]
    nearest = min(
        sections,
        key=lambda s: sum(
            (a - b) ** 2 for a, b in zip(s.middle, between(start, end, at), strict=True)
        ),
    )
    made = []
    for share, fill in ((at - 0.07, LINE), (at, "#FFFFFF"), (at + 0.07, LINE)):
        cuff = [
            evolve(
                nearest,
                middle=between(start, end, share + half),
                front=nearest.front + 0.3,
                back=nearest.back + 0.3,
                half=nearest.half + 0.3,
            )
            for half in (-0.035, 0.0, 0.035)
        ]
        made.append(scene.bare(sweep(scene.eye, cuff), fill=fill))
    return made
