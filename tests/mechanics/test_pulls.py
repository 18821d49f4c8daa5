"""Cables, bands and things held: what is known is used, what is not is refused."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.figures.solver import settle
from authoring.mechanics.estimate import Estimate, Unit, What, Why
from authoring.mechanics.placed import placed
from authoring.mechanics.pose_load import pose_load
from authoring.mechanics.pulls import on_curve, pulls
from authoring.mechanics.segments import Person
from authoring.model.base import evolve
from authoring.model.pose import (
    BodyAnchor,
    BodyPoint,
    Contact,
    CurvePoint,
    Held,
    HeldKind,
    Line,
    LineKind,
    Other,
    PlaceAnchor,
    Pose,
)
from authoring.model.vocabulary import Joint, Motion, Side
from tests.mechanics.press_ups import angle, pose

PERSON = Person(70.0, 170.0)
STANDING = pose(
    contacts=(Contact(point=BodyPoint.HEEL), Contact(point=BodyPoint.BALL)),
    angles=(
        angle(Joint.ELBOW, Motion.FLEXION, 90, Side.RIGHT),
        angle(Joint.FOREARM, Motion.PRONATION, 0, Side.RIGHT),
    ),
)
CURVE = tuple(
    CurvePoint(length_cm=long, force_n=force) for long, force in ((30, 10), (60, 20), (90, 26))
)
FAR = PlaceAnchor(forward_cm=24.8, up_cm=107, across_cm=-30)


def pulled(line: Line) -> Pose:
    return evolve(STANDING, lines=(line,))


def line(kind: LineKind, **facts: object) -> Line:
    return Line(kind=kind, side=Side.RIGHT, anchor=FAR, **facts)  # type: ignore[arg-type]


def figure(of: Pose, what: What, unit: Unit) -> Estimate:
    (load,) = pose_load(of, PERSON)
    (found,) = (
        each
        for each in load.estimates
        if (each.what, each.unit) == (what, unit) and each.side is not Side.LEFT
    )
    return found


def why(of: Pose) -> list[Why]:
    return [each.why for each in pose_load(of, PERSON)[0].missing]


def test_a_cable_pulls_with_the_weight_of_its_stack() -> None:
    # 5 kg at standard gravity: 49.03 N.
    found = figure(pulled(line(LineKind.CABLE, mass_kg=5.0)), What.CABLE, Unit.NEWTON)
    assert found.value == pytest.approx(49.03, abs=0.01)
    assert (found.low, found.high) == (pytest.approx(44.1, abs=0.1), pytest.approx(53.9, abs=0.1))


def test_a_cable_across_the_forearm_turns_the_arm_by_force_times_lever() -> None:
    # Elbow at 90 degrees, the cable level and square to the forearm: its moment about the
    # long axis of the arm is force times the length of forearm and grip (about 0.337 m).
    bare = figure(STANDING, What.SHOULDER, Unit.NM)
    found = figure(pulled(line(LineKind.CABLE, force_n=30.0)), What.SHOULDER_ROTATION, Unit.NM)
    assert found.value == pytest.approx(30.0 * 0.337, rel=0.05)
    assert bare.value > 0


def test_a_cable_of_unknown_pull_is_not_estimated() -> None:
    assert why(pulled(line(LineKind.CABLE))) == [Why.PULL_UNKNOWN]


def test_a_band_without_a_measured_curve_is_not_estimated() -> None:
    assert why(pulled(line(LineKind.BAND))) == [Why.BAND]


def test_a_band_stretched_beyond_its_measured_points_is_not_estimated() -> None:
    short = (CurvePoint(length_cm=10, force_n=5), CurvePoint(length_cm=20, force_n=9))
    assert why(pulled(line(LineKind.BAND, curve=short))) == [Why.BAND]


def test_a_band_pulls_as_its_curve_says() -> None:
    found = figure(pulled(line(LineKind.BAND, curve=CURVE)), What.BAND, Unit.NEWTON)
    assert 10.0 < found.value < 26.0


def test_a_loop_round_both_knees_pulls_them_together_once() -> None:
    # Newton's third law: the same force on either knee, so none on the body as a whole.
    loop = Line(
        kind=LineKind.LOOP,
        point=BodyPoint.KNEE,
        anchor=BodyAnchor(point=BodyPoint.KNEE, side=Other.OTHER),
        curve=(CurvePoint(length_cm=10, force_n=40), CurvePoint(length_cm=40, force_n=40)),
    )
    body = placed(settle(STANDING, STANDING.phases[0]).body, PERSON)
    found = list(pulls((loop,), body, {}, (0.01, (0.0, 0.0, 0.0))))
    assert [each.part for each in found] == ["thigh.l", "thigh.r"]
    assert [each.force[2] for each in found] == pytest.approx([40.0, -40.0], abs=0.01)


def test_straps_give_way_and_are_not_estimated() -> None:
    assert why(pulled(line(LineKind.STRAPS, length_cm=60.0))) == [Why.UNSTABLE]


def test_a_dumbbell_of_unknown_mass_is_not_estimated_until_the_dose_gives_one() -> None:
    held = evolve(STANDING, held=(Held(kind=HeldKind.DUMBBELL, side=Side.RIGHT),))
    assert why(held) == [Why.MASS_UNKNOWN]
    assert pose_load(held, PERSON, 2.0)[0].estimates


@pytest.mark.parametrize(
    ("length", "force"), [(30, 10.0), (45, 15.0), (60, 20.0), (75, 23.0), (90, 26.0)]
)
def test_between_measured_points_a_band_is_straight(length: float, force: float) -> None:
    assert on_curve(CURVE, length) == pytest.approx(force)


@given(st.floats(0, 200))
def test_a_curve_says_nothing_outside_its_points(length: float) -> None:
    found = on_curve(CURVE, length)
    assert (found is None) == (not 30 <= length <= 90)
    assert found is None or 10 <= found <= 26
