"""Moments of limbs in the air against sums done by hand, and balance against textbook statics."""

import math

import pytest

from authoring.figures.space import Vector, dot
from authoring.mechanics.balance import Held as Balance
from authoring.mechanics.balance import NoBalanceError, Wrench, hold, wrench
from authoring.mechanics.estimate import Estimate, Unit, What
from authoring.mechanics.pose_load import pose_load
from authoring.mechanics.segments import Person
from authoring.mechanics.touching import Push
from authoring.model.pose import Base, BasePosition, Held, HeldKind, Pose
from authoring.model.vocabulary import Joint, Motion, Side
from tests.mechanics.press_ups import angle, pose

PERSON = Person(70.0, 170.0)


def moment(of: Pose, what: What, side: Side = Side.RIGHT, unit: Unit = Unit.NM) -> Estimate:
    (load,) = pose_load(of, PERSON)
    (found,) = (e for e in load.estimates if (e.what, e.side, e.unit) == (what, side, unit))
    return found


def dumbbell(kg: float) -> tuple[Held, ...]:
    return (Held(kind=HeldKind.DUMBBELL, side=Side.RIGHT, mass_kg=kg),)


SIDE_RAISE = pose(
    angles=(angle(Joint.SHOULDER, Motion.ABDUCTION, 90, Side.RIGHT),), held=dumbbell(2.0)
)
SIDE_LYING = pose(
    base=Base(position=BasePosition.LEFT_SIDE),
    angles=(angle(Joint.ELBOW, Motion.FLEXION, 90, Side.RIGHT),),
    held=dumbbell(1.0),
)
LEG_RAISE = pose(base=Base(position=BasePosition.SUPINE))


# Sums of segment mass times lever from de Leva 1996, mean of women and men, for 70 kg and
# 1.70 m: upper arm, forearm, hand and dumbbell; thigh, shank and foot.
@pytest.mark.parametrize(
    ("of", "what", "by_hand"),
    [
        pytest.param(SIDE_RAISE, What.SHOULDER, 21.2, id="side raise at 90 degrees with 2 kg"),
        pytest.param(SIDE_LYING, What.SHOULDER_ROTATION, 5.8, id="side-lying rotation, 1 kg"),
        pytest.param(LEG_RAISE, What.HIP, 40.7, id="straight leg raise"),
    ],
)
def test_a_limb_in_the_air_has_the_moment_of_its_parts(
    of: Pose, what: What, by_hand: float
) -> None:
    found = moment(of, what)
    assert found.value == pytest.approx(by_hand, abs=0.1)
    assert found.low == pytest.approx(by_hand * 0.85, rel=0.01)
    assert found.high == pytest.approx(by_hand * 1.15, rel=0.01)


def test_the_arm_alone_is_told_for_a_kilogram_of_body_mass() -> None:
    # The same sum without the dumbbell: 9.25 N·m.
    bare = moment(SIDE_RAISE, What.SHOULDER, unit=Unit.NM_PER_KG)
    assert bare.value == pytest.approx(9.25 / 70.0, abs=0.001)


def test_a_raised_leg_weighs_less_about_the_hip_by_the_cosine() -> None:
    level = moment(LEG_RAISE, What.HIP).value
    raised = pose(
        base=Base(position=BasePosition.SUPINE),
        angles=(angle(Joint.HIP, Motion.FLEXION, 60, Side.RIGHT),),
    )
    # The foot stands a little above the line of the leg, hence the tolerance.
    assert moment(raised, What.HIP).value == pytest.approx(
        level * math.cos(math.radians(60)), rel=0.06
    )


def test_another_table_of_segments_lies_within_the_band() -> None:
    # Winter DA, Biomechanics and Motor Control of Human Movement, table 4.1: a straight leg
    # held level has 0.161 m g 0.447 (0.245 + 0.246) H about the hip.
    winter = 0.161 * 70.0 * 9.81 * 0.447 * 0.491 * 1.70
    found = moment(LEG_RAISE, What.HIP)
    assert found.low <= winter <= found.high


# ---- textbook statics ---------------------------------------------------------------------

UP: Vector = (0.0, 1.0, 0.0)


def push(x: float, y: float = 0.0, out: Vector = UP, slip: float = 0.5) -> Push:
    what = What.FEET if out == UP else What.HANDS
    return Push(what, "", "foot", (x, y, 0.0), out, slip=slip)


def weight(x: float, y: float = 0.0) -> Wrench:
    return wrench((0.0, -1.0, 0.0), (x, y, 0.0))


def held(pushes: list[Push], load: Wrench) -> Balance:
    return hold(pushes, load, {}, mirrored=False, dragged=False, leaning=True)


def reactions(balance: Balance) -> list[tuple[float, float, float]]:
    """Least, most even and greatest push of each place."""
    return [
        balance.bounds(lambda one, force, at=each: dot(force, one.out) if one == at else 0.0)
        for each in balance.pushes
    ]


@pytest.mark.parametrize("at", [0.2, 0.5, 1.3, 1.8])
def test_a_beam_on_two_supports_shares_its_weight_by_the_lever(at: float) -> None:
    # Any textbook of statics: R1 = W (L - a) / L, R2 = W a / L.
    (low, middle, high), other = reactions(held([push(0.0), push(2.0)], weight(at)))
    assert (low, middle, high) == pytest.approx(((2.0 - at) / 2.0,) * 3, abs=1e-6)
    assert other[1] == pytest.approx(at / 2.0, abs=1e-6)


def test_a_beam_on_three_supports_is_left_open() -> None:
    # Statically indeterminate to the first degree: with the middle carrying s, each end of a
    # beam loaded at its middle carries (1 - s) / 2, and s may be anything from 0 to 1.
    ends, middle, _ = reactions(held([push(0.0), push(1.0), push(2.0)], weight(1.0)))
    assert (middle[0], middle[2]) == pytest.approx((0.0, 1.0), abs=1e-6)
    assert (ends[0], ends[2]) == pytest.approx((0.0, 0.5), abs=1e-6)
    assert middle[0] < middle[1] < middle[2]


@pytest.mark.parametrize("degrees", [50.0, 60.0, 75.0])
def test_a_ladder_on_a_smooth_wall_presses_it_by_the_cotangent(degrees: float) -> None:
    # Any textbook of statics: a uniform ladder of weight W presses a smooth wall with
    # W / (2 tan angle); it needs friction of that share at its foot.
    x, y = 4 * math.cos(math.radians(degrees)), 4 * math.sin(math.radians(degrees))
    wall = push(x, y, (-1.0, 0.0, 0.0), slip=0.0)
    found = reactions(held([push(0.0), wall], weight(x / 2, y / 2)))[1]
    assert found == pytest.approx((0.5 / math.tan(math.radians(degrees)),) * 3, abs=1e-6)


def test_a_ladder_that_would_slip_is_not_estimated() -> None:
    # At 40 degrees the foot needs friction of 0.6, and 0.5 is there.
    x, y = 4 * math.cos(math.radians(40.0)), 4 * math.sin(math.radians(40.0))
    wall = push(x, y, (-1.0, 0.0, 0.0), slip=0.0)
    with pytest.raises(NoBalanceError):
        held([push(0.0), wall], weight(x / 2 + 0.5, y / 2))


def test_a_body_beyond_its_supports_is_not_estimated() -> None:
    with pytest.raises(NoBalanceError):
        held([push(0.0), push(0.3)], weight(0.9))
