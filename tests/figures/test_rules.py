"""Rules, touches, straps and supports: what they say holds in the solved body."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from authoring import resources
from authoring.figures import body as lengths
from authoring.figures.balance import weight_of
from authoring.figures.body import cm
from authoring.figures.contacts import PoseError, contact_wants, contacts_of
from authoring.figures.drawing import draw
from authoring.figures.limits import warnings
from authoring.figures.mirror import mirrored
from authoring.figures.solver import settle
from authoring.files.documents import document_bytes, read_document
from authoring.model.base import evolve
from authoring.model.pose import (
    ApartBy,
    Balanced,
    Base,
    BasePosition,
    BodyPoint,
    Contact,
    Face,
    HeldKind,
    JointAngle,
    Line,
    LinedUp,
    LineKind,
    PlaceAnchor,
    Pointing,
    Pose,
    PosePhase,
    PoseRule,
    Prop,
    PropKind,
    Segment,
    Touch,
    Width,
)
from authoring.model.text import Text
from authoring.model.vocabulary import Joint, Motion, Phase, Side
from tests.figures.values import STOCK
from tests.strategies.values import values_of

FEET = (Contact(point=BodyPoint.HEEL), Contact(point=BodyPoint.BALL, forward_cm=12))
SQUAT = (
    JointAngle(joint=Joint.HIP, motion=Motion.FLEXION, degrees=80),
    JointAngle(joint=Joint.KNEE, motion=Motion.FLEXION, degrees=80),
    JointAngle(joint=Joint.ANKLE, motion=Motion.DORSIFLEXION, degrees=20),
)


def pose(*rules: PoseRule, **fields: object) -> Pose:
    made: dict[str, object] = {"contacts": FEET, **fields}
    return Pose(
        id="00000000-0000-4000-8000-000000000997",
        slug="made",
        language="en",
        title=Text.plain("Made"),
        rules=rules,
        phases=(PosePhase(phase=Phase.START),),
        **made,  # type: ignore[arg-type]  # any field of a pose
    )


def points(made: Pose) -> dict[str, tuple[float, float, float]]:
    return dict(settle(made, made.phases[0]).body.points)


def test_two_link_leg_bends_its_knee_as_the_cosine_rule_says() -> None:
    # c2 = a2 + b2 - 2 a b cos C: a closed form, for a pelvis 70 cm above the floor and the
    # ankle straight below the hip.
    made = pose(
        LinedUp(point=BodyPoint.ANKLE, under=BodyPoint.HIP),
        base=Base(up_cm=70),
        angles=SQUAT,
    )
    settled = settle(made, made.phases[0])
    far = math.dist(settled.body.points["hip.r"], settled.body.points["ankle.r"])
    a, b = cm(lengths.THIGH), cm(lengths.SHANK)
    inner = math.degrees(math.acos((a * a + b * b - far * far) / (2 * a * b)))
    bent = settled.angles[(Joint.KNEE, Motion.FLEXION, "r")]
    assert bent == pytest.approx(180 - inner, abs=0.1)
    assert bent > 20


def test_knee_stays_over_the_toes() -> None:
    made = pose(
        LinedUp(point=BodyPoint.KNEE, under=BodyPoint.TOE), base=Base(up_cm=70), angles=SQUAT
    )
    at = points(made)
    assert at["knee.r"][0] == pytest.approx(at["toe.r"][0], abs=0.5)


def test_shin_is_upright_where_it_must_be() -> None:
    made = pose(Pointing(segment=Segment.SHIN, degrees_up=-90), base=Base(up_cm=70), angles=SQUAT)
    at = points(made)
    assert at["knee.l"][0] == pytest.approx(at["ankle.l"][0], abs=0.5)


# Design choices, apart from the two that are distances between joints.
@pytest.mark.parametrize(
    ("width", "apart"), [(Width.HIP, 2 * cm(lengths.HIP_HALF)), (Width.WIDE, 51.0)]
)
def test_feet_are_as_far_apart_as_the_word_says(width: Width, apart: float) -> None:
    at = points(pose(ApartBy(point=BodyPoint.BALL, width=width), base=Base(up_cm=85)))
    assert at["ball.r"][2] - at["ball.l"][2] == pytest.approx(apart, abs=0.5)


def test_weight_of_a_squat_is_over_the_feet() -> None:
    made = pose(Balanced(), base=Base(up_cm=65, lean_deg=20), angles=SQUAT)
    body = settle(made, made.phases[0]).body
    assert weight_of(body)[0] == pytest.approx(body.points["ball.r"][0], abs=0.5)


def test_hand_on_the_hip_is_on_its_skin() -> None:
    made = pose(touches=(Touch(point=BodyPoint.PALM, at=BodyPoint.HIP, face=Face.OUTER),))
    at = points(made)
    # Clearances of palm and hip, sideways: within 5 mm on each axis.
    assert math.dist(at["palm.r"], at["hip.r"]) == pytest.approx(2.0 + 9.4, abs=0.9)


def test_straps_keep_their_length() -> None:
    straps = Line(kind=LineKind.STRAPS, anchor=PlaceAnchor(forward_cm=40, up_cm=235), length_cm=115)
    made = pose(
        lines=(straps,),
        base=Base(lean_deg=-25, up_cm=85),
        angles=(JointAngle(joint=Joint.SHOULDER, motion=Motion.FLEXION, degrees=90),),
    )
    assert math.dist(points(made)["grip.r"], (40.0, 235.0, 0.0)) == pytest.approx(115, abs=0.1)


def test_whoever_sits_on_a_ball_sits_on_its_top() -> None:
    ball = Prop(id="ball", kind=PropKind.BALL, forward_cm=-30, height_cm=55)
    made = pose(
        supports=(ball,),
        contacts=(Contact(point=BodyPoint.SEAT, on="ball"),),
        base=Base(up_cm=70),
    )
    assert points(made)["seat"][:2] == pytest.approx((-2.5, 55 + 9.6), abs=0.1)


def test_fixed_angle_stays_as_written() -> None:
    bent = JointAngle(joint=Joint.KNEE, motion=Motion.FLEXION, degrees=50, fixed=True)
    made = pose(base=Base(up_cm=70), angles=(*SQUAT, bent))
    assert settle(made, made.phases[0]).angles[(Joint.KNEE, Motion.FLEXION, "r")] == 50


def test_rule_that_cannot_be_kept_is_named() -> None:
    made = pose(LinedUp(point=BodyPoint.PALM, under=BodyPoint.SEAT, ahead_cm=100))
    with pytest.raises(
        PoseError, match=r"^The (left|right) palm can't be .* the seat: it stays \d+ cm"
    ):
        settle(made, made.phases[0])


def test_mirror_of_everything_twice_is_itself_and_solves_to_the_mirror() -> None:
    made = pose(
        Balanced(side=Side.LEFT),
        contacts=(
            Contact(point=BodyPoint.HEEL, side=Side.LEFT),
            Contact(point=BodyPoint.BALL, side=Side.LEFT, forward_cm=12),
        ),
        base=Base(side_lean_deg=4, across_cm=3),
        touches=(Touch(point=BodyPoint.PALM, side=Side.RIGHT, at=BodyPoint.HIP, face=Face.OUTER),),
    )
    assert mirrored(mirrored(made)) == made
    one, other = points(made), points(mirrored(made))
    for name, (x, y, z) in one.items():
        twin = {".l": name[:-2] + ".r", ".r": name[:-2] + ".l"}.get(name[-2:], name)
        assert other[twin] == pytest.approx((x, y, -z), abs=0.05)


WORKED = sorted((resources.stock_illustrations() / "worked").glob("*.pose.json"))


def test_every_kind_of_support_load_and_line_has_a_worked_example() -> None:
    made = [*STOCK, *(read_document(path, Pose).document for path in WORKED)]
    kinds = {each.kind for one in made for each in (*one.held, *one.lines)}
    assert set(LineKind) - {LineKind.TOWEL} <= kinds
    assert set(HeldKind) - {HeldKind.DUMBBELL} <= kinds
    supports = {each.kind for one in made for each in one.supports}
    assert {PropKind.BALL, PropKind.ROLL, PropKind.RAIL, PropKind.DOOR_FRAME} <= supports


@pytest.mark.parametrize("path", WORKED, ids=lambda path: path.stem)
def test_worked_example_touches_within_5_mm_and_keeps_the_usual_range(path: Path) -> None:
    made = read_document(path, Pose).document
    assert isinstance(made, Pose)
    assert list(warnings(made)) == []
    for moment in made.phases:
        body = settle(made, moment).body
        asked = contact_wants(contacts_of(made, moment), made.supports)
        assert all(abs(want.miss(body)) < 0.5 for want in asked if want.order >= 0)
        assert min(y for _, y, _ in body.points.values()) >= -0.6
        assert draw(made, moment.phase).svg
    assert document_bytes(made) == path.read_bytes()


@settings(deadline=None, max_examples=60)
@given(made=values_of(Pose), position=st.sampled_from(BasePosition))
def test_any_pose_file_is_solved_and_drawn_or_refused_in_a_sentence(
    made: Pose, position: BasePosition
) -> None:
    turned = evolve(made, base=evolve(made.base, position=position))
    assert mirrored(mirrored(turned)) == turned
    assert re.fullmatch(r"<svg.*|(The|A) [^\n]*\.", drawn_or_refused(turned), re.DOTALL)


def drawn_or_refused(made: Pose) -> str:
    try:
        return draw(made).svg
    except PoseError as error:
        return str(error)
