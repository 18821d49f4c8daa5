"""The body's parts: de Leva P, J Biomech 1996;29(9):1223-1230, table 4."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.figures.angles import angles_of
from authoring.figures.skeleton import skeleton
from authoring.figures.space import length_of, less
from authoring.mechanics.placed import placed
from authoring.mechanics.segments import PAIRED, Person, mass_shares, sizes
from authoring.model.pose import Pose
from tests.figures.values import POSES

PEOPLE = st.builds(Person, mass_kg=st.floats(30, 200), height_cm=st.floats(120, 215))


@given(PEOPLE)
def test_the_parts_weigh_what_the_person_weighs(person: Person) -> None:
    size = sizes(person)
    whole = sum(mass * (2 if part in PAIRED else 1) for part, mass in size.mass.items())
    assert whole == pytest.approx(person.mass_kg, rel=1e-9)


# Means of the printed columns of men and women.
@pytest.mark.parametrize(
    ("part", "share"),
    [
        ("head", 0.0681),
        ("upper_trunk", 0.15705),
        ("middle_trunk", 0.1549),
        ("pelvis", 0.1182),
        ("upper_arm", 0.0263),
        ("forearm", 0.0150),
        ("hand", 0.00585),
        ("thigh", 0.1447),
        ("shank", 0.0457),
        ("foot", 0.0133),
    ],
)
def test_a_part_has_the_share_of_the_table(part: str, share: float) -> None:
    assert mass_shares()[part] == pytest.approx(share, rel=1e-3)


def test_trunk_and_limbs_add_up_to_the_wholes_of_the_table() -> None:
    # The table prints the whole trunk too: 0.4346 of men, 0.4257 of women.
    shares = mass_shares()
    trunk = shares["upper_trunk"] + shares["middle_trunk"] + shares["pelvis"]
    assert trunk == pytest.approx((0.4346 + 0.4257) / 2, rel=1e-3)


@given(PEOPLE)
def test_lengths_grow_with_stature_and_centres_lie_within_their_parts(person: Person) -> None:
    size, half = sizes(person), sizes(Person(person.mass_kg, person.height_cm / 2))
    for part, length in size.length.items():
        assert length == pytest.approx(2 * half.length[part], rel=1e-9)
    for part in ("upper_arm", "forearm", "thigh", "shank", "foot", "pelvis", "chest", "head"):
        assert 0 < size.centre[part] < size.length[part]


@given(POSES, PEOPLE)
def test_any_posture_leaves_lengths_and_mass_as_they_are(pose: Pose, person: Person) -> None:
    body = placed(skeleton(pose.base, angles_of(pose, pose.phases[0])), person)
    size = sizes(person)
    for side in ("l", "r"):
        for upper, lower, part in (
            ("hip", "knee", "thigh"),
            ("knee", "ankle", "shank"),
            ("shoulder", "elbow", "upper_arm"),
            ("elbow", "wrist", "forearm"),
        ):
            gap = length_of(less(body.points[f"{upper}.{side}"], body.points[f"{lower}.{side}"]))
            assert gap == pytest.approx(size.length[part], rel=1e-9)
    assert body.mass_kg == pytest.approx(person.mass_kg, rel=1e-9)


def test_standing_the_centre_of_mass_is_where_it_is_measured() -> None:
    # About 0.55 to 0.57 of stature above the floor (common figure, value from memory).
    from tests.mechanics.press_ups import pose

    still = pose()
    body = placed(skeleton(still.base, {}), Person(70.0, 170.0))
    height = sum(part.mass_kg * part.centre[1] for part in body.parts) / body.mass_kg
    floor = body.points["heel.r"][1]
    assert (height - floor) / 1.70 == pytest.approx(0.56, abs=0.015)
