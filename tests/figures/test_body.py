"""A body's lengths and places, against the published table of segment lengths."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.figures import body
from authoring.figures.angles import Angles, collect
from authoring.figures.skeleton import Skeleton, skeleton
from authoring.model.pose import Base, JointAngle
from authoring.model.vocabulary import Joint, Motion, Side

# Heights above the floor as fractions of stature: Drillis R, Contini R, Body Segment
# Parameters, New York University technical report 1166.03, 1966, as quoted in Winter DA,
# Biomechanics and Motor Control of Human Movement, figure 4.1. Knee, hip, shoulder and
# ankle as printed there; elbow and wrist are values from memory, printed .630 and .485
# where the lengths add up to .632 and .486.
HEIGHTS = [
    ("ankle.r", 0.039, 0.0005),
    ("knee.r", 0.285, 0.0005),
    ("hip.r", 0.530, 0.0005),
    ("shoulder.r", 0.818, 0.0005),
    ("vertex", 1.000, 0.0005),
    ("elbow.r", 0.630, 0.0025),
    ("wrist.r", 0.485, 0.0025),
]

# Segment lengths of the same table.
LENGTHS = [
    ("shoulder.l", "elbow.l", 0.186),
    ("elbow.l", "wrist.l", 0.146),
    ("hip.l", "knee.l", 0.245),
    ("knee.l", "ankle.l", 0.246),
]


def standing(angles: Angles | None = None) -> Skeleton:
    """Upright with the soles on the floor while the legs are straight."""
    hip = body.cm(body.THIGH + body.SHANK + body.ANKLE_HEIGHT)
    return skeleton(Base(up_cm=hip), angles or {})


@pytest.mark.parametrize(("place", "fraction", "error"), HEIGHTS)
def test_standing_body_has_the_published_heights(place: str, fraction: float, error: float) -> None:
    height = standing().points[place][1] / body.STATURE_CM
    assert height == pytest.approx(fraction, abs=error)


@pytest.mark.parametrize(("a", "b", "fraction"), LENGTHS)
@given(data=st.data())
def test_segments_keep_the_published_length_at_any_angle(
    a: str, b: str, fraction: float, data: st.DataObject
) -> None:
    degrees = st.floats(-180, 180)
    angles = collect(
        JointAngle(joint=joint, motion=motion, degrees=data.draw(degrees))
        for joint in Joint
        for motion in Motion
    )
    points = standing(angles).points
    assert math.dist(points[a], points[b]) == pytest.approx(fraction * body.STATURE_CM)


def test_sole_lies_on_the_floor_and_is_as_long_as_the_foot() -> None:
    points = standing().points
    assert [points[f"{place}.r"][1] for place in ("heel", "ball", "toe")] == pytest.approx(
        [0, 0, 0], abs=1e-9
    )
    # Foot length .152 of stature: same table, value from memory.
    assert points["toe.r"][0] - points["heel.r"][0] == pytest.approx(0.152 * body.STATURE_CM)


# Which way each motion goes: the anatomical meaning of the words (common knowledge of the
# trade, no source). Axes: 0 forward, 1 up, 2 right.
WAYS = [
    (Joint.HIP, Motion.FLEXION, "knee.r", 0, 1),
    (Joint.HIP, Motion.EXTENSION, "knee.r", 0, -1),
    (Joint.HIP, Motion.ABDUCTION, "knee.r", 2, 1),
    (Joint.HIP, Motion.ABDUCTION, "knee.l", 2, -1),
    (Joint.HIP, Motion.INTERNAL_ROTATION, "toe.r", 2, -1),
    (Joint.HIP, Motion.EXTERNAL_ROTATION, "toe.l", 2, -1),
    (Joint.KNEE, Motion.FLEXION, "ankle.r", 0, -1),
    (Joint.ANKLE, Motion.DORSIFLEXION, "toe.r", 1, 1),
    (Joint.ANKLE, Motion.PLANTARFLEXION, "toe.r", 1, -1),
    (Joint.ANKLE, Motion.INVERSION, "outer_foot.r", 1, -1),
    (Joint.ANKLE, Motion.INVERSION, "outer_foot.l", 1, -1),
    (Joint.ANKLE, Motion.EVERSION, "outer_foot.r", 1, 1),
    (Joint.TOES, Motion.EXTENSION, "toe.r", 1, 1),
    (Joint.SHOULDER, Motion.FLEXION, "elbow.r", 0, 1),
    (Joint.SHOULDER, Motion.ABDUCTION, "elbow.l", 2, -1),
    (Joint.ELBOW, Motion.FLEXION, "wrist.r", 0, 1),
    (Joint.WRIST, Motion.FLEXION, "fingertips.r", 2, -1),
    (Joint.LOWER_BACK, Motion.FLEXION, "neck", 0, 1),
    (Joint.LOWER_BACK, Motion.LATERAL_FLEXION, "neck", 2, 1),
    (Joint.NECK, Motion.EXTENSION, "vertex", 0, -1),
]


@pytest.mark.parametrize(("joint", "motion", "place", "axis", "way"), WAYS)
def test_each_motion_goes_the_way_its_name_says(
    joint: Joint, motion: Motion, place: str, axis: int, way: int
) -> None:
    angles = collect([JointAngle(joint=joint, motion=motion, degrees=30)])
    moved = standing(angles).points[place][axis] - standing().points[place][axis]
    assert moved * way > 1


def test_bending_to_the_left_is_the_mirror_of_bending_to_the_right() -> None:
    def neck(side: Side) -> float:
        angle = JointAngle(
            joint=Joint.LOWER_BACK, motion=Motion.LATERAL_FLEXION, degrees=20, side=side
        )
        return standing(collect([angle])).points["neck"][2]

    assert neck(Side.LEFT) == pytest.approx(-neck(Side.RIGHT))
    assert neck(Side.RIGHT) > 1


def test_pronated_palm_of_a_bent_elbow_faces_down() -> None:
    angles = collect(
        [
            JointAngle(joint=Joint.ELBOW, motion=Motion.FLEXION, degrees=90),
            JointAngle(joint=Joint.FOREARM, motion=Motion.PRONATION, degrees=90),
            JointAngle(joint=Joint.WRIST, motion=Motion.FLEXION, degrees=90),
        ]
    )
    points = standing(angles).points
    for side in ("l", "r"):
        assert points[f"wrist.{side}"][1] - points[f"fingertips.{side}"][1] > 10
