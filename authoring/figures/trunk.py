"""Trunk, neck and head as parts of a picture. Sizes are centimetres, drawn by eye."""

from __future__ import annotations

from collections.abc import Iterator

from authoring.figures.layers import Layer, Part
from authoring.figures.limbs import Scene
from authoring.figures.look import LINE, WEIGHTS, Hair, darker, shade
from authoring.figures.outline import Circle, disc, hull, polygon
from authoring.figures.space import Vector, along, between, dot


def hips(scene: Scene) -> Part:
    """Neck and the upper part of the shorts, on which legs and shirt are set."""
    tone = shade(scene.look, far=False)
    layers = (
        scene.flesh(hull(_neck(scene)), fill=tone.skin),
        scene.flesh(hull(_hips(scene)), fill=tone.shorts),
    )
    return Part(scene.eye.depth(scene.point("pelvis")) - 1.0, layers)


def shirt(scene: Scene) -> Part:
    """The shirt, and the cloth that hides where legs that are no nearer begin."""
    tone = shade(scene.look, far=False)
    layers = (
        hip_patch(scene),
        scene.flesh(hull(_chest(scene)), hull(_belly(scene)), fill=tone.top),
    )
    return Part(scene.eye.depth(scene.point("waist")), layers)


def hip_patch(scene: Scene) -> Layer:
    """Cloth without an edge over the upper part of the shorts."""
    return scene.bare(hull(_hips(scene)), fill=shade(scene.look, far=False).shorts)


def shoulder_patch(scene: Scene, side: str) -> Layer:
    """Cloth without an edge where a near sleeve is set on to the shirt."""
    side_on = abs(dot(scene.axis("chest", 2), scene.eye.towards)) > 0.8
    shoulder = along(scene.point(f"shoulder.{side}"), scene.axis("chest", 1), -2.2)
    inner = along(between(shoulder, scene.point("neck"), 0.3), scene.axis("chest", 1), -3.6)
    cloth = hull([scene.ball(shoulder, 5.5 if side_on else 4.2), scene.ball(inner, 4.4)])
    return scene.bare(cloth, fill=shade(scene.look, far=False).top)


def _pair(scene: Scene, at: Vector, axis: Vector, apart: float, radius: float) -> list[Circle]:
    return [scene.ball(along(at, axis, k * apart), radius) for k in (-1.0, 1.0)]


def _neck(scene: Scene) -> list[Circle]:
    neck, chin = scene.point("neck"), scene.point("chin")
    back = scene.axis("head", 0)
    return [
        scene.ball(along(neck, scene.axis("chest", 1), -1.0), 5.4),
        scene.ball(along(along(chin, scene.axis("head", 1), 4.0), back, -1.0), 4.9),
    ]


def _hips(scene: Scene) -> list[Circle]:
    pelvis = scene.point("pelvis")
    up, ahead, right = (scene.axis("pelvis", n) for n in (1, 0, 2))
    return [
        *_pair(scene, along(along(pelvis, up, 1.0), ahead, -1.3), right, 7.6, 8.5),
        *_pair(scene, along(along(pelvis, up, 7.0), ahead, 0.4), right, 6.6, 8.2),
    ]


def _belly(scene: Scene) -> list[Circle]:
    pelvis, waist = scene.point("pelvis"), scene.point("waist")
    ahead, right = scene.axis("pelvis", 0), scene.axis("pelvis", 2)
    hem = along(between(pelvis, waist, 0.18), ahead, 0.2)
    return [
        *_pair(scene, along(hem, ahead, 6.6), right, 8.5, 2.0),
        *_pair(scene, along(hem, ahead, -6.8), right, 8.5, 2.0),
        *_pair(scene, hem, right, 12.6, 2.0),
        *_pair(scene, along(waist, scene.axis("chest", 1), 5.0), scene.axis("chest", 2), 6.0, 8.1),
    ]


def _chest(scene: Scene) -> list[Circle]:
    neck, waist = scene.point("neck"), scene.point("waist")
    up, ahead, right = (scene.axis("chest", n) for n in (1, 0, 2))
    return [
        *_pair(scene, along(neck, up, -2.6), right, 12.6, 4.8),
        *_pair(scene, along(along(neck, up, -1.6), ahead, -1.0), right, 4.4, 5.6),
        *_pair(scene, along(between(waist, neck, 0.58), ahead, 0.6), right, 6.4, 9.3),
        *_pair(scene, along(waist, up, 4.0), right, 5.6, 7.9),
    ]


# ---- head --------------------------------------------------------------------------------


def head(scene: Scene) -> Part:
    """Hair, face, ear and features, as far as they are turned to the viewer."""
    facing = dot(scene.axis("head", 0), scene.eye.towards)
    layers = [*_skull(scene, facing), *_features(scene, facing)]
    return Part(scene.eye.depth(scene.point("head")) + 1.0, tuple(layers))


def _at(scene: Scene, ahead: float, up: float, right: float = 0.0) -> Vector:
    """A place on the head from its middle, cm."""
    middle = scene.point("head")
    made = along(middle, scene.axis("head", 0), ahead)
    return along(along(made, scene.axis("head", 1), up), scene.axis("head", 2), right)


def _skull(scene: Scene, facing: float) -> Iterator[Layer]:
    tone = shade(scene.look, far=False)
    bald = scene.look.hair is Hair.NONE
    cover = tone.skin if bald else scene.look.hair_colour.value
    thing = scene.thing
    cap = [thing(_at(scene, 1.8, 1.0), 8.3), thing(_at(scene, -1.8, 1.2), 8.4)]
    nape = [thing(_at(scene, -3.4, -3.4), 5.4)]
    bun = scene.flesh(disc(thing(_at(scene, -10.2, 4.6), 4.2)), fill=cover)
    tied = [bun] if scene.look.hair is Hair.BUN else []
    back = scene.flesh(hull([*cap, *nape]), fill=cover)
    jaw = [thing(_at(scene, 3.4, -7.6), 4.3), thing(_at(scene, 0.4, -5.4), 5.2)]
    face = hull([thing(_at(scene, 3.1, -0.6), 7.2), *jaw])
    nose = hull([thing(_at(scene, 10.4, -3.4), 1.3), thing(_at(scene, 9.0, 0.4), 1.2)])
    if facing < -0.5:
        yield scene.flesh(face, fill=tone.skin)
        yield back
        yield from tied
        return
    yield from tied
    yield back
    if facing > 0.62:
        yield scene.flesh(face, fill=tone.skin)
        return
    yield scene.flesh(face, nose, fill=tone.skin)
    if not bald:
        yield from _temple(scene, cover)


def _temple(scene: Scene, colour: str) -> Iterator[Layer]:
    """Hair above and behind the near ear, and the fringe."""
    near = 1.0 if dot(scene.axis("head", 2), scene.eye.towards) > 0 else -1.0
    thing = scene.thing
    yield scene.bare(
        hull(
            [
                thing(_at(scene, -4.0, 2.0, near * 2.0), 6.2),
                thing(_at(scene, -4.6, -3.4, near * 2.0), 4.0),
            ]
        ),
        hull([thing(_at(scene, -1.0, 4.8), 4.6), thing(_at(scene, 5.0, 5.7), 2.8)]),
        fill=colour,
    )


def _features(scene: Scene, facing: float) -> Iterator[Layer]:
    """Eyes, brows, mouth and ears on the side of the head that is seen."""
    towards = scene.eye.towards
    ahead, right = scene.axis("head", 0), scene.axis("head", 2)
    tone = shade(scene.look, far=False)
    for k in (-1.0, 1.0):
        if k * dot(right, towards) > 0.25:
            ear = [_at(scene, -0.6, -0.6, k * 7.4), _at(scene, -0.9, -2.6, k * 7.2)]
            yield scene.flesh(
                hull([scene.thing(ear[0], 1.9), scene.thing(ear[1], 1.2)]), fill=tone.skin
            )
    if facing < -0.35:
        return
    eyes = [
        disc(scene.thing(_at(scene, 8.4, 0.4, k * 3.3), 0.85))
        for k in (-1.0, 1.0)
        if dot(ahead, towards) * 0.86 + k * dot(right, towards) * 0.5 > 0.28
    ]
    yield scene.bare(*eyes, fill=LINE)
    yield _mouth(scene, facing)
    if facing > 0.62:
        yield _nose(scene)


def _mouth(scene: Scene, facing: float) -> Layer:
    """A small, friendly line; in profile the half that is seen."""
    near = dot(scene.axis("head", 2), scene.eye.towards)
    ends = (-2.4, 2.4) if facing > 0.62 else ((0.3, 2.8) if near > 0 else (-0.3, -2.8))
    middle = (ends[0] + ends[1]) / 2
    spots = [(ends[0], -6.3), (middle, -7.0), (ends[1], -6.3)]
    if facing <= 0.62:
        spots = [(ends[0], -6.9), (middle, -6.9), (ends[1], -6.2)]
    line = [
        scene.eye.see(_at(scene, 7.6 - 0.14 * across * across - abs(across) * 0.35, up, across))
        for across, up in spots
    ]
    return Layer(
        (polygon(line, closed=False),), "", LINE, WEIGHTS.detail * scene.eye.scale, open=True
    )


def _nose(scene: Scene) -> Layer:
    skin = darker(scene.look.skin, 0.78)
    line = [
        scene.eye.see(_at(scene, 9.4, up, across))
        for across, up in ((0.3, -0.6), (1.0, -3.4), (-0.4, -3.7))
    ]
    return Layer((polygon(line, closed=False),), "", skin, 0.6 * scene.eye.scale, open=True)
