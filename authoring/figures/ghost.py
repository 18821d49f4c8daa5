"""The pale body of an earlier moment: one plain silhouette, without face, folds or fingers."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from authoring.figures.feet import foot_shape
from authoring.figures.hands import Kind, open_shape
from authoring.figures.head import skull
from authoring.figures.layers import Layer
from authoring.figures.limbs import forearm, shank, thigh, upper_arm
from authoring.figures.look import GHOST, GHOST_LINE, LINE, WEIGHTS
from authoring.figures.outline import hull
from authoring.figures.scene import Scene
from authoring.figures.space import length_of, less
from authoring.figures.sweep import Section, sweep
from authoring.figures.trunk import shirt_sections, shorts

_DASH_CM = (2.4, 2.0)
_MOVED_CM = 1.5
_TRUNK = ("pelvis", "neck", "head")
_PLACES = {
    "leg": ("hip", "knee", "ankle", "toe"),
    "arm": ("shoulder", "elbow", "wrist", "fingertips"),
}


def ghost(scene: Scene, now: Scene) -> Layer:
    """What of a body has moved since, in one layer, so that nothing inside its outline shows.

    Args:
        scene: the earlier moment.
        now: the moment that the picture shows.
    """
    paths: list[str] = []
    if _moved(scene, now, _TRUNK):
        paths += [
            *shorts(scene),
            sweep(scene.eye, _few(shirt_sections(scene)), (0.0, 0.8)),
            sweep(scene.eye, _few(skull(scene)), (0.9, 0.9)),
            hull([scene.ball(scene.point("neck"), 4.8), scene.ball(scene.point("head"), 4.8)]),
        ]
    for limb, make in (("leg", _leg), ("arm", _arm)):
        for side in _sides(scene, limb):
            if _moved(scene, now, [f"{place}.{side}" for place in _PLACES[limb]]):
                paths += make(scene, side)
    return Layer(tuple(paths), GHOST, GHOST_LINE, WEIGHTS.outline * scene.eye.scale)


def moved_limbs(scene: Scene, now: Scene) -> Iterator[str]:
    """Limbs that have moved on paper, such as "arm.r"; the near one where it hides the other."""
    for limb in ("leg", "arm"):
        for side in _sides(scene, limb):
            if _moved(scene, now, [f"{place}.{side}" for place in _PLACES[limb]]):
                yield f"{limb}.{side}"


def _moved(scene: Scene, now: Scene, places: Sequence[str]) -> bool:
    return any(
        math.dist(scene.eye.see(scene.point(place)), now.eye.see(now.point(place)))
        > _MOVED_CM * scene.eye.scale
        for place in places
    )


def _sides(scene: Scene, limb: str) -> tuple[str, ...]:
    """Both limbs, or the near one where it hides the far one."""
    spots = [[scene.eye.see(scene.point(f"{p}.{s}")) for p in _PLACES[limb]] for s in ("l", "r")]
    apart = max(math.dist(a, b) for a, b in zip(*spots, strict=True))
    return ("l", "r") if apart > _MOVED_CM * scene.eye.scale else ("r",)


_TOWARDS_CM = 12.0
_MOSTLY = 0.75


def towards_viewer(scene: Scene, now: Scene) -> Iterator[str]:
    """Limbs that have come towards the viewer, so that they hide where they began."""
    for limb, end in (("arm", "fingertips"), ("leg", "toe")):
        for side in ("l", "r"):
            way = less(now.point(f"{end}.{side}"), scene.point(f"{end}.{side}"))
            nearer = scene.eye.depth(way)
            if nearer > _TOWARDS_CM and nearer > _MOSTLY * length_of(way):
                yield f"{limb}.{side}"


def dashed(scene: Scene, limb: str) -> Layer:
    """One limb of an earlier moment, dashed, to lie on top of the body.

    Args:
        scene: the earlier moment.
        limb: such as "arm.r".
    """
    part, side = limb.split(".")
    eye = scene.eye
    if part == "leg":
        whole = [*thigh(scene, side)[:-1], *shank(scene, side)[1:]]
        paths = (sweep(eye, _few(whole), (7.0, 2.6)), *foot_shape(scene, side))
    else:
        whole = [*upper_arm(scene, side)[:-1], *forearm(scene, side)[1:]]
        paths = (sweep(eye, _few(whole), (4.4, 1.6)), open_shape(scene, side, Kind.FLAT))
    dash = (_DASH_CM[0] * eye.scale, _DASH_CM[1] * eye.scale)
    return Layer(paths, "", LINE, 0.6 * eye.scale, open=True, dash=dash)


def _few(sections: Sequence[Section]) -> list[Section]:
    """Every other section, the ends kept."""
    return [*sections[:-1:2], sections[-1]]


def _leg(scene: Scene, side: str) -> Iterator[str]:
    yield sweep(scene.eye, _few(thigh(scene, side)), (7.0, 4.6))
    yield sweep(scene.eye, _few(shank(scene, side)), (4.4, 2.6))
    yield from foot_shape(scene, side)


def _arm(scene: Scene, side: str) -> Iterator[str]:
    yield sweep(scene.eye, _few(upper_arm(scene, side)), (4.4, 3.2))
    yield sweep(scene.eye, _few(forearm(scene, side)), (3.4, 1.6))
    yield open_shape(scene, side, Kind.FLAT)
