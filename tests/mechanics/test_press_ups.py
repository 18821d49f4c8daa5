"""Press-up loads against force plates under the hands.

Mier CM et al., Int J Exerc Sci 2014;7(2):161-168 (n = 37, held still, men and women; their
mean, since the body of the model is the mean of both); Suprak DN, Dawes J, Stephenson MD,
J Strength Cond Res 2011;25(2):497-503 (decimals: values from memory); Gouvali MK, Boudolos K,
J Strength Cond Res 2005;19(1):146-151 (first moment of the movement); Ebben WP et al.,
J Strength Cond Res 2011;25(10):2891-2894 (peak of a movement, hands or feet raised).
"""

import pytest

from authoring.figures.solver import settle
from authoring.mechanics.estimate import Estimate, Unit, What
from authoring.mechanics.pose_load import LEVEL_ERROR, RAISED_ERROR, pose_load
from authoring.mechanics.segments import Person
from authoring.model.pose import Pose
from tests.mechanics.press_ups import press_up

PERSON = Person(73.0, 174.0)


def hands(pose: Pose, person: Person = PERSON) -> Estimate:
    (found,) = pose_load(pose, person)
    (share,) = (
        each
        for each in found.estimates
        if each.what is What.HANDS and each.unit is Unit.BODY_WEIGHT
    )
    return share


def reach(*, knees: bool = False) -> float:
    """From toes or knees to the wrists of a press-up with the hands under the shoulders."""
    pose = press_up(knees=knees)
    points = settle(pose, pose.phases[0]).body.points
    return points["wrist.r"][0] - points["knee.r" if knees else "ball.r"][0]


FLOOR = press_up()
LOW = press_up(low=True, reach=reach())
KNEES = press_up(knees=True)
KNEES_LOW = press_up(knees=True, low=True, reach=reach(knees=True))
HANDS_30 = press_up(30.48, reach=reach())
HANDS_61 = press_up(60.96, reach=reach())
FEET_30 = press_up(0.0, 30.48, reach=reach())
FEET_61 = press_up(0.0, 60.96, reach=reach())

LEVEL = [
    pytest.param(FLOOR, 0.6605, id="floor, Mier 2014"),
    pytest.param(FLOOR, 0.6916, id="floor, Suprak 2011"),
    pytest.param(FLOOR, 0.664, id="floor, Gouvali 2005"),
    pytest.param(LOW, 0.7245, id="floor low, Mier 2014"),
    pytest.param(LOW, 0.7504, id="floor low, Suprak 2011"),
    pytest.param(KNEES, 0.52, id="knees, Mier 2014"),
    pytest.param(KNEES, 0.5356, id="knees, Suprak 2011"),
    pytest.param(KNEES, 0.529, id="knees, Gouvali 2005"),
    pytest.param(KNEES_LOW, 0.5835, id="knees low, Mier 2014"),
    pytest.param(KNEES_LOW, 0.6180, id="knees low, Suprak 2011"),
]
RAISED = [
    pytest.param(HANDS_61, 0.41, id="hands on 60.96 cm, Ebben 2011"),
    pytest.param(HANDS_30, 0.55, id="hands on 30.48 cm, Ebben 2011"),
    pytest.param(FEET_30, 0.70, id="feet on 30.48 cm, Ebben 2011"),
    pytest.param(FEET_61, 0.74, id="feet on 60.96 cm, Ebben 2011"),
]


@pytest.mark.parametrize(("pose", "measured"), LEVEL)
def test_a_level_press_up_is_within_five_points(pose: Pose, measured: float) -> None:
    share = hands(pose)
    assert share.value == pytest.approx(measured, abs=LEVEL_ERROR)
    assert share.low <= measured <= share.high
    assert share.high - share.low == pytest.approx(2 * LEVEL_ERROR, abs=0.001)


@pytest.mark.parametrize(("pose", "measured"), RAISED)
def test_a_press_up_on_a_step_is_within_ten_points(pose: Pose, measured: float) -> None:
    share = hands(pose)
    assert share.value == pytest.approx(measured, abs=RAISED_ERROR)
    assert share.low <= measured <= share.high
    assert share.high - share.low >= 2 * RAISED_ERROR - 0.001


def test_raising_the_hands_unloads_them_and_raising_the_feet_loads_them_as_measured() -> None:
    # The order that Ebben 2011 measured.
    shares = [hands(pose).value for pose in (HANDS_61, HANDS_30, FLOOR, FEET_30, FEET_61)]
    assert shares == sorted(shares)
    assert hands(KNEES).value < hands(FLOOR).value


def test_a_high_bench_unloads_a_short_person_more_as_measured() -> None:
    # Ebben 2011: with the hands on 60.96 cm the share rose with stature (r = 0.63).
    short, tall = (hands(HANDS_61, Person(70.0, height)).value for height in (160.0, 186.0))
    assert short < tall


def test_bending_the_elbows_loads_the_hands_more_as_measured() -> None:
    # Mier 2014 and Suprak 2011, on the toes and on the knees.
    assert hands(LOW).value > hands(FLOOR).value
    assert hands(KNEES_LOW).value > hands(KNEES).value


def test_over_all_published_groups_the_error_is_as_the_band_says() -> None:
    # Mier 2014 for men and women apart, Suprak 2011, Gouvali 2005; of normal errors 95 per
    # cent lie within twice the root mean square.
    groups = [
        (FLOOR, (0.670, 0.651, 0.6916, 0.664)),
        (LOW, (0.746, 0.703, 0.7504)),
        (KNEES, (0.525, 0.515, 0.5356, 0.529)),
        (KNEES_LOW, (0.601, 0.566, 0.6180)),
    ]
    off = [hands(pose).value - measured for pose, of in groups for measured in of]
    assert len(off) == 14
    assert abs(sum(off) / len(off)) < 0.02
    assert (sum(each * each for each in off) / len(off)) ** 0.5 < LEVEL_ERROR / 1.8
