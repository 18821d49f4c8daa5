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

from authoring.figures.contacts import PoseError
from authoring.figures.frame import GROUND_CM, Frame, frame_of, level
from authoring.figures.ghost import dashed, ghost, moved_limbs, towards_viewer
from authoring.figures.layers import Layer, Part, sorted_layers
from authoring.figures.look import GROUND, LINE, PLAIN, Look
from authoring.figures.marks import affected, hold_mark
from authoring.figures.moving import arrow_layers
from authoring.figures.outline import Eye, look_from, polygon, whole
from authoring.figures.person import person, scene_of
from authoring.figures.props import line_parts, prop_parts, thing_parts
from authoring.figures.scene import Scene
from authoring.figures.solver import settle
from authoring.model.pose import Camera, NearSide, Pose, PosePhase, View
from authoring.model.vocabulary import Phase, Side

SCALE: Final = 10.0
"""Drawing units for a centimetre of the drawn person: whole ones are fine enough for print."""

PIXELS: Final = 3.0
"""CSS pixels for a centimetre of the drawn person, at the natural size."""

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


def draw(
    pose: Pose, phase: Phase | None = None, look: Look = PLAIN, marked: Side = Side.NONE
) -> Drawing:
    """A picture of one moment of a pose.

    Args:
        pose: what to draw.
        phase: which moment; None means the last.
        look: the person.
        marked: side of which the limb that moves carries bands; legs where both move.

    Raises:
        PoseError: a contact can't be reached, or the pose has no such moment.
    """
    if phase is None:
        return _drawn(pose, pose.phases[-1], look, marked)
    moment = pose.moment(phase)
    if moment is None:
        had = ", ".join(each.phase.value for each in pose.phases)
        raise PoseError(f"The pose {pose.slug!r} has no moment {phase.value!r}; it has: {had}.")
    return _drawn(pose, moment, look, marked)


@lru_cache(maxsize=256)
def _drawn(pose: Pose, moment: PosePhase, look: Look, marked: Side) -> Drawing:
    eye = eye_of(pose.camera)
    settled = [settle(pose, each) for each in pose.phases]
    earlier = pose.before()
    first, here = settled[pose.phases.index(earlier)], settled[pose.phases.index(moment)]
    frame = frame_of(pose, eye, settled)
    layers = list(_ground(frame, eye)) if level(eye) else []
    parts = [part for prop in pose.supports for part in prop_parts(prop, eye)]
    if (pose.ghost or pose.dashed) and here is not first:
        before = scene_of(pose, earlier, first, eye, look)
        parts += _earlier(pose, before, scene_of(pose, moment, here, eye, look))
    parts += person(pose, moment, here, eye, look, affected(settled, marked))
    parts += [*thing_parts(pose, here.body, eye), *line_parts(pose, here.body, eye)]
    layers += sorted_layers(parts)
    for arrow in pose.arrows:
        if here is not first or arrow.push is not None:
            layers += arrow_layers(arrow, first, here, eye)
    if moment.hold:
        layers += hold_mark(frame, here.body, eye)
    return _svg(layers, frame)


def _earlier(pose: Pose, before: Scene, now: Scene) -> Iterator[Part]:
    """What a later moment shows of the earlier one: behind it pale, over it dashed."""
    if pose.ghost:
        yield Part(-900.0, (ghost(before, now),))
    limbs = moved_limbs(before, now) if pose.dashed else towards_viewer(before, now)
    yield Part(900.0, tuple(dashed(before, limb) for limb in limbs))


@lru_cache(maxsize=128)
def png(drawing: Drawing, width_px: int) -> bytes:
    """The picture as PNG on white, ``width_px`` wide."""
    made = resvg_py.svg_to_bytes(svg_string=drawing.svg, width=width_px, background="#FFFFFF")
    return bytes(made)


def eye_of(camera: Camera) -> Eye:
    """The view of a camera, in drawing units."""
    turn = _TURN[camera.view] - camera.turn_deg
    return look_from(-turn if camera.from_side is NearSide.LEFT else turn, camera.tilt_deg, SCALE)


# ---- paper -------------------------------------------------------------------------------


def _ground(frame: Frame, eye: Eye) -> Iterator[Layer]:
    left, right = frame.left, frame.left + frame.width
    deep = GROUND_CM * eye.scale
    strip = polygon([(left, 0.0), (right, 0.0), (right, deep), (left, deep)])
    yield Layer((strip,), GROUND, "")
    edge = polygon([(left, 0.0), (right, 0.0)], closed=False)
    yield Layer((edge,), "", LINE, 0.7 * eye.scale, open=True)


def _svg(layers: list[Layer], frame: Frame) -> Drawing:
    width, height = (
        round(side / SCALE * PIXELS * frame.closer) for side in (frame.width, frame.height)
    )
    # Both edges are rounded, so that the frame of a mirrored pose is the same in a mirror.
    left, right = float(whole(frame.left)), float(whole(frame.left + frame.width))
    box = " ".join(map(whole, (left, frame.top, right - left, frame.height)))
    body = "".join(layer.svg() for layer in layers)
    return Drawing(
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}" '
        f'viewBox="{box}"><g stroke-linejoin="round" stroke-linecap="round">{body}</g></svg>',
        width,
        height,
    )
