"""What must hold for every pose: mirrors, scales, balance, and an answer for any input."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from authoring.figures.mirror import OTHER, mirrored
from authoring.mechanics import moments, pose_load, pulls
from authoring.mechanics.estimate import CONTACTS, Estimate, Unit, What
from authoring.mechanics.pose_load import MomentLoad
from authoring.mechanics.segments import G, Person
from authoring.model.base import evolve
from authoring.model.pose import BodyPoint, Held, HeldKind, Pose
from authoring.model.vocabulary import Side
from tests.figures.values import POSES, STOCK, named

PERSON = Person(70.0, 170.0)
load = pose_load.pose_load


def figures(found: MomentLoad) -> dict[tuple[What, Side, Unit], Estimate]:
    return {(each.what, each.side, each.unit): each for each in found.estimates}


def turned(of: MomentLoad) -> dict[tuple[What, Side, Unit], Estimate]:
    return {(what, OTHER[side], unit): each for (what, side, unit), each in figures(of).items()}


@pytest.mark.parametrize("pose", STOCK, ids=named)
def test_a_mirrored_pose_has_mirrored_loads(pose: Pose) -> None:
    for one, other in zip(load(pose, PERSON), load(mirrored(pose), PERSON), strict=True):
        expected, found = turned(one), figures(other)
        assert expected.keys() == found.keys()
        for key, each in expected.items():
            scale = 0.02 if key[2] is Unit.BODY_WEIGHT else 0.5
            assert found[key].value == pytest.approx(each.value, rel=0.02, abs=scale)


def _loaded(pose: Pose) -> bool:
    """Whether a pose states a weight or a pull, which no body mass changes."""
    given = (*(each.mass_kg for each in pose.held), *(each.mass_kg for each in pose.lines))
    return any(given) or any(each.force_n or each.curve for each in pose.lines)


@pytest.mark.parametrize("pose", [each for each in STOCK if not _loaded(each)], ids=named)
def test_shares_do_not_depend_on_mass_and_moments_go_with_it(pose: Pose) -> None:
    for one, other in zip(
        load(pose, PERSON, 0.0), load(pose, Person(140.0, 170.0), 0.0), strict=True
    ):
        light, heavy = figures(one), figures(other)
        for key in light.keys() & heavy.keys():
            factor = 2.0 if key[2] is Unit.NM else 1.0
            assert heavy[key].value == pytest.approx(factor * light[key].value, rel=1e-4, abs=1e-3)


def test_moments_go_with_gravity(monkeypatch: pytest.MonkeyPatch) -> None:
    # On the Moon things weigh 0.1654 times as much (1.622 m/s², NASA Moon fact sheet, value
    # from memory).
    pose = next(each for each in STOCK if each.slug == "straight-leg-raise")
    here = figures(load(pose, PERSON)[-1])
    for room in (pose_load, moments, pulls):
        monkeypatch.setattr(room, "G", 1.622)
    there = figures(pose_load._moment_load(pose, pose.phases[-1], PERSON, None))
    key = What.HIP, Side.RIGHT, Unit.NM
    assert there[key].value == pytest.approx(here[key].value * 1.622 / G, rel=1e-6)


@pytest.mark.parametrize("pose", STOCK, ids=named)
def test_contacts_on_level_ground_carry_the_whole_body(pose: Pose) -> None:
    """Newton's first law: shares of feet, hands, trunk and resting parts add up to 1."""
    if any(prop.kind.value in ("wall", "rail", "door_frame") for prop in pose.supports):
        return  # friction there carries a part that presses on nothing
    if pose.held or pose.lines:
        return
    for found in load(pose, PERSON):
        if any(each.of in CONTACTS or each.of is None for each in found.missing):
            continue
        whole = [
            each
            for each in found.estimates
            if each.unit is Unit.BODY_WEIGHT
            and not (
                each.side in (Side.LEFT, Side.RIGHT)
                and (each.what, Side.BOTH, each.unit) in figures(found)
            )
        ]
        assert sum(each.value for each in whole) == pytest.approx(1.0, abs=0.01)


def test_every_figure_lies_in_its_band_and_names_its_source() -> None:
    for pose in STOCK:
        for found in load(pose, PERSON, 2.0):
            for each in found.estimates:
                assert 0.0 <= each.low <= each.value <= each.high
                assert each.high > each.low
                assert each.source.endswith(".")


@given(POSES, st.floats(20, 350), st.floats(90, 230), st.none() | st.floats(0, 100))
@settings(suppress_health_check=[HealthCheck.too_slow], deadline=None, max_examples=30)
def test_any_pose_gets_an_estimate_or_a_reason(
    pose: Pose, mass: float, height: float, kg: float | None
) -> None:
    for found in load(pose, Person(mass, height), kg):
        assert found.estimates or found.missing
        for each in found.estimates:
            assert each.low <= each.value <= each.high


def test_a_thing_in_the_hand_adds_its_weight_to_the_feet() -> None:
    pose = next(each for each in STOCK if each.slug == "squat-chair")
    bell = Held(kind=HeldKind.DUMBBELL, side=Side.RIGHT, mass_kg=7.0)
    bare, loaded = (
        figures(load(each, PERSON)[0])[What.FEET, Side.BOTH, Unit.BODY_WEIGHT]
        for each in (pose, evolve(pose, held=(bell,)))
    )
    assert loaded.value - bare.value == pytest.approx(7.0 / 70.0, abs=1e-6)


def test_a_person_who_lies_on_one_point_alone_has_contacts_missing() -> None:
    # The under leg lies on the mat and the pose does not say so: no moment of it, nor of the
    # back, can be known; the raised leg's can.
    pose = next(each for each in STOCK if each.slug == "side-leg-lift")
    pose = evolve(pose, contacts=tuple(c for c in pose.contacts if c.point is BodyPoint.HIP))
    found = figures(load(pose, PERSON)[-1])
    assert (What.HIP, Side.RIGHT, Unit.NM) in found
    assert (What.HIP, Side.LEFT, Unit.NM) not in found
    assert (What.LOWER_BACK, Side.NONE, Unit.NM) not in found
