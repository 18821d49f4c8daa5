"""Pulling a place on the body: it comes where it is wanted, and what is held stays held."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from authoring.figures.dragging import HANDLES, Handle, limits_of, pulled
from authoring.figures.drawing import eye_of
from authoring.figures.solver import Settled, settle, wants_of
from authoring.files.poses import stock_poses
from authoring.model.pose import Pose
from authoring.model.vocabulary import Joint, Motion, Side

REACH = st.floats(-120, 120)
POSES = st.sampled_from(
    ("bridge", "squat-chair", "wall-push-up", "side-leg-lift", "heel-raise-one", "wrist-curl")
)


def pull(pose: Pose, handle: Handle, by: tuple[float, float, float]) -> tuple[Settled, Settled]:
    moment = pose.phases[0]
    start = settle(pose, moment)
    x, y, z = start.body.points[handle.spot]
    goal = (x + by[0], y + by[1], z + by[2])
    return start, pulled(pose, moment, start, handle, goal, eye_of(pose.camera))


def test_free_hand_comes_to_where_it_is_pulled_and_leaves_the_rest_alone() -> None:
    pose = stock_poses()["squat-chair"]
    start, after = pull(pose, Handle("hand", Side.RIGHT), (12.0, -10.0, 0.0))
    x, y, _ = start.body.points["grip.r"]
    assert math.dist(after.body.points["grip.r"][:2], (x + 12, y - 10)) < 1.0
    assert after.base == start.base
    assert after.body.points["grip.l"] == start.body.points["grip.l"]


def test_pelvis_that_sinks_bends_the_knees_over_standing_feet() -> None:
    pose = stock_poses()["squat-chair"]
    start, after = pull(pose, Handle("pelvis"), (-10.0, -20.0, 0.0))
    assert after.body.points["pelvis"][1] < start.body.points["pelvis"][1] - 15
    assert after.angles[Joint.KNEE, Motion.FLEXION, "r"] > 30
    assert abs(after.body.points["ball.r"][1]) < 0.5


@settings(max_examples=40, deadline=None)
@given(name=POSES, handle=st.sampled_from(HANDLES), x=REACH, y=REACH)
def test_no_pull_takes_a_joint_beyond_its_range_or_a_contact_off(
    name: str, handle: Handle, x: float, y: float
) -> None:
    """Ranges: American Academy of Orthopaedic Surgeons, 1965, as ``limits`` has them."""
    pose = stock_poses()[name]
    start, after = pull(pose, handle, (x, y, 0.0))
    for key, degrees in after.angles.items():
        low, high = limits_of(*key[:2])
        before = start.angles.get(key, 0.0)
        # Remaking the contacts may bend a resting limb by a little more.
        assert min(low, before) - 30 <= degrees <= max(high, before) + 30
    missed = [
        abs(want.miss(after.body)) - 5 * want.within for want in wants_of(pose, pose.phases[0])
    ]
    if not handle.letter:
        assert max(missed, default=0.0) <= 0.0


@pytest.mark.parametrize("handle", HANDLES, ids=lambda handle: f"{handle.name} {handle.side}")
def test_every_handle_is_a_place_on_the_body(handle: Handle) -> None:
    pose = stock_poses()["bridge"]
    assert handle.spot in settle(pose, pose.phases[0]).body.points
