"""One body as parts of a picture, and which part lies before which."""

from __future__ import annotations

from collections.abc import Mapping

from attrs import evolve
from immutabledict import immutabledict

from authoring.figures.angles import SIDES
from authoring.figures.contacts import HANDS, contacts_of
from authoring.figures.head import head
from authoring.figures.layers import Part
from authoring.figures.limbs import Limb, arm, leg, lowest, raised
from authoring.figures.look import Legwear, Look, shade
from authoring.figures.outline import Eye
from authoring.figures.props import gripping, in_hands, prop_depth
from authoring.figures.scene import Scene
from authoring.figures.skeleton import Skeleton
from authoring.figures.solver import Settled
from authoring.figures.trunk import collar, neck, shirt, shorts, shoulder_patch
from authoring.model.pose import BasePosition, BodyPoint, Pose, PosePhase, PropKind

_SIDE_CM = 3.0
"""A limb that begins this much nearer or farther than the trunk is beside it."""

_LYING = frozenset({BasePosition.LEFT_SIDE, BasePosition.RIGHT_SIDE})


def person(
    pose: Pose,
    moment: PosePhase,
    settled: Settled,
    eye: Eye,
    look: Look,
    marked: frozenset[str] = frozenset(),
) -> list[Part]:
    """The parts of one body at one moment of a pose."""
    scene = scene_of(pose, moment, settled, eye, look, marked)
    legs = {side: leg(scene, side) for side in ("l", "r")}
    arms = {side: arm(scene, side) for side in ("l", "r")}
    resting = _resting(pose, moment, eye)
    return [
        *_lower(scene, legs),
        *_upper(scene),
        *(_arm(scene, side, arms[side], resting.get(side)) for side in ("l", "r")),
    ]


def scene_of(
    pose: Pose,
    moment: PosePhase,
    settled: Settled,
    eye: Eye,
    look: Look,
    marked: frozenset[str] = frozenset(),
) -> Scene:
    """What drawing this body needs to know."""
    held = in_hands(pose)
    scene = Scene(
        settled.body,
        eye,
        look,
        immutabledict(held),
        _hands(pose, moment, BodyPoint.GRIP) | gripping(pose),
        _hands(pose, moment, BodyPoint.PALM),
        _hands(pose, moment, BodyPoint.FINGERTIPS),
        marked,
    )
    if settled.base.position in _LYING:
        return _on_the_surface(scene, pose)
    return scene


def _hands(pose: Pose, moment: PosePhase, point: BodyPoint) -> frozenset[str]:
    return frozenset(
        side
        for contact in contacts_of(pose, moment)
        if contact.point is point
        for side in SIDES[contact.side]
    )


def _on_the_surface(scene: Scene, pose: Pose) -> Scene:
    """The lower arm of somebody on their side lies on the mat: its shoulder is pushed up."""
    under = max(
        (prop.height_cm for prop in pose.supports if prop.kind in (PropKind.MAT, PropKind.PLINTH)),
        default=0.0,
    )
    points = dict(scene.body.points)
    for side in ("l", "r"):
        sunk = under - lowest(scene, side)
        if 0 < sunk < 15:
            points |= raised(scene, side, sunk)
    return evolve(scene, body=Skeleton(points, scene.body.frames))


def _apart(scene: Scene, root: str, middle: str) -> float:
    """How much nearer the viewer a limb begins than the trunk, cm."""
    return scene.eye.depth(scene.point(root)) - scene.eye.depth(scene.point(middle))


def _lower(scene: Scene, legs: Mapping[str, Limb]) -> list[Part]:
    """Far leg, hips, near leg; cloth of hips and near legs has one outline."""
    pelvis = scene.eye.depth(scene.point("pelvis"))
    tone = shade(scene.look, far=False)
    upper = shorts(scene)
    parts = [Part(pelvis - 1.0, (neck(scene, tone), scene.flesh(*upper, fill=tone.shorts)))]
    near = []
    for side, limb in legs.items():
        if _apart(scene, f"hip.{side}", "pelvis") < -_SIDE_CM:
            cloth = scene.flesh(*limb.cloth, fill=limb.tone.shorts)
            parts.append(Part(pelvis - 2.0, (*limb.skin, cloth, *limb.over)))
        else:
            near.append(limb)
    near.sort(key=lambda limb: limb.depth)
    if scene.look.legwear is Legwear.LEGGINGS:
        joined = scene.bare(*upper, fill=tone.shorts)
    else:
        cloth_of = [path for limb in near for path in limb.cloth]
        joined = scene.flesh(*upper, *cloth_of, fill=tone.shorts)
    layers = [layer for limb in near for layer in limb.skin]
    layers.append(joined)
    over = [layer for limb in near for layer in limb.over]
    parts.append(Part(pelvis - 0.5, tuple(layers)))
    if over:
        parts.append(Part(pelvis + 12.0, tuple(over)))
    return parts


def _upper(scene: Scene) -> list[Part]:
    tone = shade(scene.look, far=False)
    depth = scene.eye.depth(scene.point("waist"))
    cloth = scene.flesh(shirt(scene), fill=tone.top)
    return [
        Part(depth, (cloth, *collar(scene, tone))),
        Part(max(depth + 0.5, scene.eye.depth(scene.point("head")) + 1.0), tuple(head(scene))),
    ]


def _arm(scene: Scene, side: str, limb: Limb, on: float | None) -> Part:
    """An arm before or behind the trunk; ``on`` is the depth of what it rests on."""
    sleeve = scene.flesh(*limb.cloth, fill=limb.tone.top)
    layers = (*limb.skin, sleeve)
    apart = _apart(scene, f"shoulder.{side}", "neck")
    mid = scene.eye.depth(scene.point("waist"))
    if apart < -_SIDE_CM:
        return Part(min(limb.depth, mid + apart), (*layers, *limb.over))
    depth = max(limb.depth, mid + apart) if apart > _SIDE_CM else limb.depth + 1.0
    if on is not None:
        depth = max(depth, on + 1.0)
    patched = (*layers, *shoulder_patch(scene, side)) if depth > mid else layers
    return Part(depth, (*patched, *limb.over))


def _resting(pose: Pose, moment: PosePhase, eye: Eye) -> dict[str, float]:
    """How near the things are that arms rest on, by side."""
    by_id = {prop.id: prop for prop in pose.supports}
    return {
        side: prop_depth(by_id[contact.on], eye)
        for contact in contacts_of(pose, moment)
        if contact.on in by_id and contact.point in (*HANDS, BodyPoint.FOREARM, BodyPoint.ELBOW)
        for side in SIDES[contact.side]
    }
