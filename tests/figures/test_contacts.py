"""What touches, touches: within a millimetre, or the pose is refused in a sentence."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings

from authoring.figures.contacts import PoseError, contact_wants, contacts_of
from authoring.figures.limits import beyond, warnings
from authoring.figures.linear import solve_linear
from authoring.figures.solver import MOST_STEPS, settle
from authoring.model.base import evolve
from authoring.model.pose import BodyPoint, Contact, Pose, PosePhase, Prop, PropKind
from authoring.model.text import Text
from authoring.model.vocabulary import Joint, Motion, Phase, Side
from tests.figures.values import MOMENTS, POSES, STOCK, named

WALL = Prop(id="wall", kind=PropKind.WALL, forward_cm=200)


def pose_with(*contacts: Contact, supports: tuple[Prop, ...] = ()) -> Pose:
    return Pose(
        id="00000000-0000-4000-8000-000000000998",
        slug="made",
        language="en",
        title=Text.plain("Made"),
        supports=supports,
        phases=(PosePhase(phase=Phase.START, contacts=contacts),),
    )


def worst_miss_cm(pose: Pose, moment: PosePhase) -> float:
    """Farthest from what a contact asks, after solving; flat soles may have a slope."""
    body = settle(pose, moment).body
    asked = contact_wants(contacts_of(pose, moment), pose.supports)
    return max((abs(want.miss(body)) for want in asked if want.order >= 0), default=0.0)


@pytest.mark.parametrize(("pose", "phase"), MOMENTS, ids=named)
def test_every_contact_of_a_stock_pose_is_within_a_millimetre(pose: Pose, phase: Phase) -> None:
    moment = pose.moment(phase)
    assert moment is not None
    assert worst_miss_cm(pose, moment) <= 0.1


@pytest.mark.parametrize("pose", STOCK, ids=named)
def test_stock_poses_keep_joints_within_the_usual_range(pose: Pose) -> None:
    assert list(warnings(pose)) == []


@pytest.mark.parametrize("pose", STOCK, ids=named)
def test_nothing_of_a_stock_pose_lies_under_the_floor(pose: Pose) -> None:
    for moment in pose.phases:
        points = settle(pose, moment).body.points
        assert min(y for _, y, _ in points.values()) >= -0.6


@settings(deadline=None, max_examples=80)
@given(pose=POSES)
def test_any_pose_makes_its_contacts_or_is_refused_in_a_sentence(pose: Pose) -> None:
    for moment in pose.phases:
        missed = miss_or_refusal(pose, moment)
        if isinstance(missed, str):
            assert re.fullmatch(r"The [^\n]*\.", missed)
        else:
            assert missed <= 0.1


def miss_or_refusal(pose: Pose, moment: PosePhase) -> float | str:
    try:
        return worst_miss_cm(pose, moment)
    except PoseError as error:
        return str(error)


@pytest.mark.parametrize(
    ("contact", "words"),
    [
        (Contact(point=BodyPoint.PALM, side=Side.LEFT, on="wall"), "left palm .*support 'wall'"),
        (Contact(point=BodyPoint.GRIP, side=Side.RIGHT, on="wall"), "right hand .*support 'wall'"),
    ],
)
def test_contact_out_of_reach_is_named(contact: Contact, words: str) -> None:
    feet = Contact(point=BodyPoint.BALL, forward_cm=0)
    pose = pose_with(contact, feet, Contact(point=BodyPoint.HEEL), supports=(WALL,))
    with pytest.raises(PoseError, match=words):
        settle(pose, pose.phases[0])


def test_support_that_is_not_there_is_named() -> None:
    pose = pose_with(Contact(point=BodyPoint.HEEL, on="sofa"))
    with pytest.raises(PoseError, match="heel is on 'sofa', and the pose has no such support"):
        settle(pose, pose.phases[0])


def test_contact_of_one_foot_in_a_moment_leaves_the_other_as_in_the_pose() -> None:
    pose = evolve(pose_with(), contacts=(Contact(point=BodyPoint.HEEL, forward_cm=1),))
    moment = PosePhase(
        phase=Phase.END, contacts=(Contact(point=BodyPoint.HEEL, side=Side.LEFT, forward_cm=9),)
    )
    asked = {each.side: each.forward_cm for each in contacts_of(pose, moment)}
    assert asked == {Side.RIGHT: 1, Side.LEFT: 9}


def test_steps_of_the_solver_are_few() -> None:
    assert MOST_STEPS <= 100


def test_small_system_is_solved() -> None:
    # 2x + y = 5, x - 3y = -1 has the solution x = 2, y = 1.
    assert solve_linear([[2.0, 1.0], [1.0, -3.0]], [5.0, -1.0]) == pytest.approx([2.0, 1.0])


def test_system_without_information_gives_nought() -> None:
    assert solve_linear([[0.0]], [3.0]) == [0.0]


# American Academy of Orthopaedic Surgeons, Joint Motion, 1965: elbow 0 to 150, wrist
# extension 70 as quoted in Norkin and White, table A.1; knee 135, value from memory.
@pytest.mark.parametrize(
    ("joint", "motion", "degrees", "words"),
    [
        (Joint.ELBOW, Motion.FLEXION, 150, ""),
        (Joint.ELBOW, Motion.FLEXION, 175, "175 degrees of flexion, and 150"),
        (Joint.ELBOW, Motion.FLEXION, -4, ""),
        (Joint.KNEE, Motion.FLEXION, -20, "20 degrees of extension, and 0"),
        (Joint.KNEE, Motion.FLEXION, 160, "160 degrees of flexion, and 135"),
        (Joint.WRIST, Motion.FLEXION, -90, "90 degrees of extension, and 70"),
        (Joint.WRIST, Motion.FLEXION, -75, ""),
    ],
)
def test_angles_beyond_the_published_range_are_questioned(
    joint: Joint, motion: Motion, degrees: float, words: str
) -> None:
    said = beyond((joint, motion, "r"), degrees)
    assert (words in said) if words else said == ""
