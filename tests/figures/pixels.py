"""Pictures as pixels, and where a place on the body lies among them."""

from __future__ import annotations

import io
import re

from PIL import Image

from authoring.figures import drawing as module
from authoring.figures.drawing import Drawing, png
from authoring.figures.skeleton import Skeleton
from authoring.figures.solver import settle
from authoring.figures.space import Vector
from authoring.model.pose import (
    Base,
    BodyPoint,
    Camera,
    Contact,
    Held,
    JointAngle,
    NearSide,
    Pose,
    PosePhase,
    Prop,
    View,
)
from authoring.model.text import Text
from authoring.model.vocabulary import Joint, Motion, Phase, Side

Colour = tuple[int, int, int]
STANDING = (Contact(point=BodyPoint.HEEL), Contact(point=BodyPoint.BALL))


def angle(joint: Joint, motion: Motion, degrees: float, side: Side = Side.BOTH) -> JointAngle:
    return JointAngle(joint=joint, motion=motion, degrees=degrees, side=side)


def pose_of(
    view: View,
    *angles: JointAngle,
    contacts: tuple[Contact, ...] = STANDING,
    base: Base | None = None,
    held: tuple[Held, ...] = (),
    supports: tuple[Prop, ...] = (),
    near: NearSide = NearSide.RIGHT,
) -> Pose:
    """A pose of one moment."""
    return Pose(
        id="00000000-0000-4000-8000-000000000998",
        slug="made-up",
        language="en",
        title=Text.plain("Made up"),
        camera=Camera(view=view, from_side=near),
        base=base or Base(),
        supports=supports,
        angles=angles,
        contacts=contacts,
        held=held,
        phases=(PosePhase(phase=Phase.START),),
    )


def body_of(pose: Pose) -> Skeleton:
    return settle(pose, pose.phases[0]).body


def image_of(made: Drawing, width: int = 600) -> Image.Image:
    return Image.open(io.BytesIO(png(made, width))).convert("RGB")


def box_of(made: Drawing) -> tuple[float, float, float, float]:
    found = re.search(r'viewBox="([^"]*)"', made.svg)
    assert found is not None
    left, top, width, height = map(float, found[1].split())
    return left, top, width, height


def spot(pose: Pose, made: Drawing, at: Vector, width: int = 600) -> tuple[int, int]:
    """The pixel of a place in space (cm)."""
    left, top, wide, _ = box_of(made)
    x, y = module.eye_of(pose.camera).see(at)
    return round((x - left) / wide * width), round((y - top) / wide * width)


def colour_at(pose: Pose, made: Drawing, at: Vector) -> Colour:
    value = image_of(made).getpixel(spot(pose, made, at))
    assert isinstance(value, tuple)
    return value[0], value[1], value[2]


def rgb(colour: str) -> Colour:
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)
