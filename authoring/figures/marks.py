"""Quiet marks on a picture: the bands that show which limb is the affected one."""

from __future__ import annotations

import math
from collections.abc import Sequence

from attrs import evolve

from authoring.figures.angles import SIDES
from authoring.figures.layers import Layer
from authoring.figures.look import LINE
from authoring.figures.scene import Scene
from authoring.figures.solver import Settled
from authoring.figures.space import Vector, between, less
from authoring.figures.sweep import Section, sweep
from authoring.model.vocabulary import Side

_MOVES_CM = 3.0
_ENDS = {"leg": ("knee", "ankle", "toe"), "arm": ("elbow", "wrist", "fingertips")}


def affected(moments: Sequence[Settled], side: Side) -> frozenset[str]:
    """Which limb of a side carries the mark: the one that moves more about its root.

    Where nothing moves, as in a hold, it is the leg.
    """
    sides = SIDES[side] if side in (Side.LEFT, Side.RIGHT) else ()
    return frozenset(f"{_busier(moments, each)}.{each}" for each in sides)


def _busier(moments: Sequence[Settled], side: str) -> str:
    far = {
        limb: max(
            math.dist(_from_root(one, root, end, side), _from_root(moments[0], root, end, side))
            for one in moments
            for end in _ENDS[limb]
        )
        for limb, root in (("leg", "hip"), ("arm", "shoulder"))
    }
    return "arm" if far["arm"] > max(far["leg"], _MOVES_CM) else "leg"


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
