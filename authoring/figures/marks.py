"""Quiet marks on a picture: the bands that show which limb is the affected one."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import evolve

from authoring.figures.layers import Layer
from authoring.figures.look import LINE
from authoring.figures.scene import Scene
from authoring.figures.space import between
from authoring.figures.sweep import Section, sweep

BAND_CM = 2.0


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
