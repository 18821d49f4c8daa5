"""From one moment of a pose to a picture in plain SVG, and to PNG for print.

The SVG holds shapes only: no text, script, style sheet, link, image or id. The same
pose, moment and look always give the same bytes.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import Final

import resvg_py
from attrs import frozen

from authoring.figures.angles import SIDES
from authoring.figures.contacts import HANDS, PoseError, contacts_of
from authoring.figures.frame import GROUND_CM, Frame, frame_of, level
from authoring.figures.layers import Layer, Part, sorted_layers
from authoring.figures.limbs import Scene, arm, leg
from authoring.figures.look import GROUND, LINE, PLAIN, Look
from authoring.figures.moving import arrow_layers
from authoring.figures.outline import Eye, look_from, number, polygon
from authoring.figures.props import prop_depth, prop_parts
from authoring.figures.solver import Settled, settle
from authoring.figures.trunk import head, hip_patch, hips, shirt, shoulder_patch
from authoring.model.pose import BodyPoint, Camera, HeldKind, NearSide, Pose, PosePhase, View
from authoring.model.vocabulary import Phase

SCALE: Final = 3.0
"""Drawing units for a centimetre of the drawn person."""

_SIDE_CM: Final = 3.0
"""A limb that begins this much nearer or farther than the trunk is beside it."""

_FRONT_CM: Final = 16.0
"""A knee this much nearer than the pelvis comes towards the viewer."""

_TURN: Final = {View.SIDE: 90.0, View.FRONT: 0.0, View.THREE_QUARTER: 50.0, View.BACK: 180.0}


@frozen
class Drawing:
    """A picture.

    Attributes:
        svg: the file's text.
        width, height: natural size in CSS pixels.
    """

    svg: str
    width: int
    height: int


def draw(pose: Pose, phase: Phase | None = None, look: Look = PLAIN) -> Drawing:
    """A picture of one moment of a pose.

    Args:
        pose: what to draw.
        phase: which moment; None means the last.
        look: the person.

    Raises:
        PoseError: a contact can't be reached, or the pose has no such moment.
    """
    if phase is None:
        return _drawn(pose, pose.phases[-1], look)
    moment = pose.moment(phase)
    if moment is None:
        had = ", ".join(each.phase.value for each in pose.phases)
        raise PoseError(f"The pose {pose.slug!r} has no moment {phase.value!r}; it has: {had}.")
    return _drawn(pose, moment, look)


@lru_cache(maxsize=256)
def _drawn(pose: Pose, moment: PosePhase, look: Look) -> Drawing:
    eye = _eye(pose.camera)
    settled = [settle(pose, each) for each in pose.phases]
    first, here = settled[0], settled[pose.phases.index(moment)]
    frame = frame_of(pose, eye, settled)
    layers = list(_ground(frame, eye)) if level(eye) else []
    parts = [part for prop in pose.supports for part in prop_parts(prop, eye)]
    if pose.ghost and here is not first:
        pale = sorted_layers(_body(pose, pose.phases[0], first, eye, look))
        parts.append(Part(-900.0, tuple(layer.pale() for layer in pale)))
    parts += _body(pose, moment, here, eye, look)
    layers += sorted_layers(parts)
    if here is not first:
        for arrow in pose.arrows:
            layers += arrow_layers(arrow, first, here, eye)
    return _svg(layers, frame)


@lru_cache(maxsize=128)
def png(drawing: Drawing, width_px: int) -> bytes:
    """The picture as PNG on white, ``width_px`` wide."""
    made = resvg_py.svg_to_bytes(svg_string=drawing.svg, width=width_px, background="#FFFFFF")
    return bytes(made)


def _eye(camera: Camera) -> Eye:
    turn = _TURN[camera.view] - camera.turn_deg
    return look_from(-turn if camera.from_side is NearSide.LEFT else turn, camera.tilt_deg, SCALE)


# ---- body --------------------------------------------------------------------------------


def _body(pose: Pose, moment: PosePhase, settled: Settled, eye: Eye, look: Look) -> list[Part]:
    held = {side: each.kind for each in pose.held for side in SIDES[each.side]}
    scene = Scene(settled.body, eye, look, held, _fists(pose, moment, held))
    made = [hips(scene), shirt(scene), head(scene)]
    resting = _resting(pose, moment, eye)
    for side in ("l", "r"):
        made.append(_leg(scene, side))
        made.append(_arm(scene, side, resting.get(side)))
    return made


def _apart(scene: Scene, root: str, middle: str) -> float:
    """How much nearer the viewer a limb begins than the trunk, cm."""
    return scene.eye.depth(scene.point(root)) - scene.eye.depth(scene.point(middle))


def _leg(scene: Scene, side: str) -> Part:
    """A leg behind the shirt, or before it where the thigh comes towards the viewer."""
    made = leg(scene, side)
    pelvis = scene.eye.depth(scene.point("pelvis"))
    if _apart(scene, f"hip.{side}", "pelvis") < -_SIDE_CM:
        return Part(pelvis - 2.0, made.layers)
    if _apart(scene, f"knee.{side}", "pelvis") > _FRONT_CM:
        shown = scene.eye.depth(scene.point(f"knee.{side}")) - _FRONT_CM
        return Part(max(shown, pelvis + 3.0), (*made.layers, hip_patch(scene)))
    return Part(pelvis - 0.5, made.layers)


def _arm(scene: Scene, side: str, on: float | None) -> Part:
    """An arm before or behind the trunk; ``on`` is the depth of what it rests on."""
    made = arm(scene, side)
    apart = _apart(scene, f"shoulder.{side}", "neck")
    mid = scene.eye.depth(scene.point("waist"))
    if apart < -_SIDE_CM:
        return Part(min(made.depth, mid + apart), made.layers)
    depth = max(made.depth, mid + apart) if apart > _SIDE_CM else made.depth + 1.0
    if on is not None:
        depth = max(depth, on + 1.0)
    patched = (*made.layers, shoulder_patch(scene, side))
    return Part(depth, patched if depth > mid else made.layers)


def _resting(pose: Pose, moment: PosePhase, eye: Eye) -> dict[str, float]:
    """How near the things are that arms rest on, by side."""
    by_id = {prop.id: prop for prop in pose.supports}
    return {
        side: prop_depth(by_id[contact.on], eye)
        for contact in contacts_of(pose, moment)
        if contact.on in by_id and contact.point in (*HANDS, BodyPoint.FOREARM, BodyPoint.ELBOW)
        for side in SIDES[contact.side]
    }


def _fists(pose: Pose, moment: PosePhase, held: dict[str, HeldKind]) -> frozenset[str]:
    closed = set(held)
    for contact in contacts_of(pose, moment):
        if contact.point is BodyPoint.GRIP:
            closed |= set(SIDES[contact.side])
    return frozenset(closed)


# ---- paper -------------------------------------------------------------------------------


def _ground(frame: Frame, eye: Eye) -> Iterator[Layer]:
    left, right = frame.left, frame.left + frame.width
    deep = GROUND_CM * eye.scale
    strip = polygon([(left, 0.0), (right, 0.0), (right, deep), (left, deep)])
    yield Layer((strip,), GROUND, "")
    edge = polygon([(left, 0.0), (right, 0.0)], closed=False)
    yield Layer((edge,), "", LINE, 0.7 * eye.scale, open=True)


def _svg(layers: list[Layer], frame: Frame) -> Drawing:
    width, height = round(frame.width), round(frame.height)
    box = " ".join(map(number, (frame.left, frame.top, frame.width, frame.height)))
    body = "".join(layer.svg() for layer in layers)
    return Drawing(
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}" '
        f'viewBox="{box}"><g stroke-linejoin="round" stroke-linecap="round">{body}</g></svg>',
        width,
        height,
    )
