"""What lies before what: near limbs before far ones, fingers round bars, hands on walls."""

from __future__ import annotations

import pytest
from PIL import Image

from authoring.figures.contacts import CLEARANCE
from authoring.figures.drawing import draw
from authoring.figures.limbs import lowest
from authoring.figures.look import PLAIN, SKIN, WEIGHTS, WOOD, shade
from authoring.figures.outline import look_from
from authoring.figures.person import scene_of
from authoring.figures.solver import settle
from authoring.figures.space import along, between
from authoring.model.pose import (
    Base,
    BasePosition,
    BodyPoint,
    Contact,
    Held,
    HeldKind,
    NearSide,
    View,
)
from authoring.model.vocabulary import Joint, Motion, Phase, Side
from tests.figures.pixels import (
    angle,
    body_of,
    colour_at,
    image_of,
    pose_of,
    rgb,
    spot,
)
from tests.figures.values import STOCK

NEAR, FAR = shade(PLAIN, far=False), shade(PLAIN, far=True)
SKIN_NEAR, SKIN_FAR = rgb(NEAR.skin), rgb(FAR.skin)
SHIRT, SHORTS = rgb(NEAR.top), rgb(NEAR.shorts)
FORWARD = (
    angle(Joint.ELBOW, Motion.FLEXION, 100),
    angle(Joint.SHOULDER, Motion.INTERNAL_ROTATION, 50),
)


@pytest.mark.parametrize("near", list(NearSide))
def test_near_arm_hangs_before_the_hip_and_the_far_one_behind(near: NearSide) -> None:
    side = "r" if near is NearSide.RIGHT else "l"
    pose = pose_of(View.SIDE, near=near)
    body, made = body_of(pose), draw(pose)
    hand = between(body.points[f"wrist.{side}"], body.points[f"elbow.{side}"], 0.3)
    assert colour_at(pose, made, hand) == SKIN_NEAR
    assert NEAR.skin in made.svg
    assert made.svg.index(FAR.skin) < made.svg.index(NEAR.top)


@pytest.mark.parametrize(("view", "seen"), [(View.FRONT, SKIN_NEAR), (View.BACK, SHIRT)])
def test_forearms_before_the_belly_are_seen_from_the_front_alone(
    view: View, seen: tuple[int, int, int]
) -> None:
    pose = pose_of(view, *FORWARD)
    body = body_of(pose)
    at = between(body.points["elbow.r"], body.points["wrist.r"], 0.7)
    assert colour_at(pose, draw(pose), at) == seen


def test_leg_in_front_hides_the_one_behind() -> None:
    pose = pose_of(
        View.SIDE,
        angle(Joint.HIP, Motion.FLEXION, 20, Side.RIGHT),
        angle(Joint.HIP, Motion.FLEXION, 20, Side.LEFT),
        contacts=(),
    )
    body = body_of(pose)
    knee = along(body.points["knee.r"], (0.0, -1.0, 0.0), 8.0)
    assert colour_at(pose, draw(pose), knee) == SKIN_NEAR


def test_far_leg_is_darker_than_the_near_one() -> None:
    pose = next(each for each in STOCK if each.slug == "step-up")
    body, made = body_of(pose), draw(pose, Phase.START)
    near, far = (
        between(body.points[f"knee.{side}"], body.points[f"ankle.{side}"], 0.4)
        for side in ("r", "l")
    )
    assert {colour_at(pose, made, near), colour_at(pose, made, far)} == {SKIN_NEAR, SKIN_FAR}


@pytest.mark.parametrize("view", [View.FRONT, View.BACK])
def test_fingers_close_over_a_bar_and_the_bar_shows_beside_them(view: View) -> None:
    pose = pose_of(
        view,
        angle(Joint.SHOULDER, Motion.FLEXION, 60),
        angle(Joint.SHOULDER, Motion.ABDUCTION, 20),
        angle(Joint.FOREARM, Motion.PRONATION, 80),
        held=(Held(kind=HeldKind.STICK, side=Side.RIGHT),),
    )
    body, made = body_of(pose), draw(pose)
    grip = body.points["grip.r"]
    if view is View.FRONT:
        assert _is_skin(colour_at(pose, made, grip))
    wood = rgb(WOOD)
    image = image_of(made)
    x, y = spot(pose, made, grip)
    row = [image.getpixel((x + dx, y + dy)) for dx in range(-90, 91) for dy in range(-60, 61)]
    assert row.count(wood) > 50


def _is_skin(colour: tuple[int, int, int]) -> bool:
    return colour in (SKIN_NEAR, rgb(NEAR.skin_line), rgb("#22303A"))


@pytest.mark.parametrize("slug", ["wall-push-up", "knee-to-wall", "heel-raise-one"])
def test_hands_lie_on_the_wall_and_never_in_it(slug: str) -> None:
    pose = next(each for each in STOCK if each.slug == slug)
    wall = next(prop for prop in pose.supports if prop.kind.value == "wall")
    for moment in pose.phases:
        made = draw(pose, moment.phase)
        image = image_of(made)
        face, _ = spot(pose, made, (wall.forward_cm, 100.0, 0.0))
        beyond = image.crop((face + 2, 0, image.width, image.height))
        assert _count(beyond, SKIN_NEAR) == 0
        assert _count(beyond, SKIN_FAR) == 0


def _count(image: Image.Image, colour: tuple[int, int, int]) -> int:
    found = image.getcolors(image.width * image.height) or []
    return sum(count for count, each in found if each == colour)


@pytest.mark.parametrize("position", [BasePosition.LEFT_SIDE, BasePosition.RIGHT_SIDE])
def test_lower_shoulder_of_somebody_on_their_side_stays_on_the_floor(
    position: BasePosition,
) -> None:
    side = Side.LEFT if position is BasePosition.LEFT_SIDE else Side.RIGHT
    pose = pose_of(
        View.FRONT,
        angle(Joint.SHOULDER, Motion.FLEXION, 90),
        base=Base(position=position, up_cm=20),
        contacts=(Contact(point=BodyPoint.HIP, side=side),),
    )
    scene = scene_of(pose, pose.phases[0], settle(pose, pose.phases[0]), look_from(0, 0, 10), PLAIN)
    assert lowest(scene, "l" if side is Side.LEFT else "r") >= -1e-6
    made = draw(pose)
    image = image_of(made)
    _, floor = spot(pose, made, (0.0, 0.0, 0.0))
    below = image.crop((0, floor + 4, image.width, image.height))
    assert _count(below, SKIN_NEAR) == 0


def test_flat_hand_is_thinner_than_the_room_that_contacts_leave_it() -> None:
    """Half the hand and its line fit between the hand's middle and the surface."""
    pose = next(each for each in STOCK if each.slug == "wall-push-up")
    wall = next(prop for prop in pose.supports if prop.kind.value == "wall")
    body = settle(pose, pose.phases[0]).body
    for place in ("wrist", "knuckle"):
        room = abs(wall.forward_cm - body.points[f"{place}.r"][0])
        assert room == pytest.approx(CLEARANCE[place], abs=0.2)
        assert room > 1.3 + WEIGHTS.outline


def test_every_skin_has_a_tone_of_its_own_in_grey() -> None:
    tones = [Image.new("RGB", (1, 1), colour).convert("L") for colour in SKIN.values()]
    greys = [each.tobytes()[0] for each in tones]
    assert greys == sorted(greys, reverse=True)
    assert len(set(greys)) == len(greys)
