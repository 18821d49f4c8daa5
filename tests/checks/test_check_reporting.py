"""Checklists against their published items, and normal angles against their source."""

import pytest

from authoring.checks.normal_angles import NORMAL, highest_plausible
from authoring.checks.reporting import cert_report, in_words, tidier_report
from authoring.model.base import evolve
from authoring.model.protocol import Progression, Protocol
from authoring.model.vocabulary import Joint, Motion, ProgressionMethod
from tests.checks.breaking import FIRST
from tests.checks.build import CARD, CARD_ID, OTHER_ID, PROTOCOL, put, say, variant

CARDS = {CARD_ID: CARD}
EMPTY = Protocol(id=OTHER_ID, slug="empty", language="en", title=say("Empty"))

# Slade SC et al. Br J Sports Med 2016;50:1428-1437, checklist; 16b is for trial reports.
CERT = [*"123456", "7a", "7b", *map(str, range(8, 14)), "14a", "14b", "15", "16a"]


def test_cert_has_its_18_items() -> None:
    assert [item.number for item in cert_report(PROTOCOL, CARDS)] == CERT


def test_tidier_has_its_11_items() -> None:
    # Hoffmann TC et al. BMJ 2014;348:g1687; item 12 is for trial reports.
    found = [item.number for item in tidier_report(PROTOCOL, CARDS)]
    assert found == [str(number) for number in range(1, 12)]


def test_a_whole_protocol_has_all_items() -> None:
    assert in_words("CERT", cert_report(PROTOCOL, CARDS)) == "18 of 18 CERT items are present."
    assert in_words("TIDieR", tidier_report(PROTOCOL, CARDS)) == (
        "11 of 11 TIDieR items are present."
    )


def test_an_empty_protocol_has_none_but_its_name() -> None:
    assert not any(item.present for item in cert_report(EMPTY, {}))
    assert [item.number for item in tidier_report(EMPTY, {}) if item.present] == ["1"]


def test_it_never_says_compliant() -> None:
    words = in_words("CERT", cert_report(EMPTY, {}))
    assert words.startswith("0 of 18 CERT items are present; missing: 1 (the equipment")
    assert "complian" not in words


def missing(protocol: Protocol, card: object = CARD) -> set[str]:
    report = cert_report(protocol, {CARD_ID: card} if card else {})  # type: ignore[dict-item]
    return {item.number for item in report if not item.present}


@pytest.mark.parametrize(
    ("path", "items"),
    [
        ("delivery.provider", {"2"}),
        ("delivery.people", {"3"}),
        ("delivery.supervision", {"4"}),
        ("delivery.adherence", {"5"}),
        ("delivery.motivation", {"6"}),
        ("delivery.harms", {"11"}),
        ("delivery.tailoring", {"14a", "14b"}),
        ("delivery.fidelity", {"16a"}),
        ("delivery", {"2", "3", "4", "5", "6", "9", "11", "12", "14a", "14b", "16a"}),
    ],
)
def test_what_is_not_given_is_missing(path: str, items: set[str]) -> None:
    assert missing(put(PROTOCOL, path, None)) == items


def test_a_stage_left_by_no_measure_has_no_rule_for_progressing() -> None:
    assert missing(put(PROTOCOL, "stages[0].move_on", ())) == {"7a"}


def test_an_exercise_grows_by_a_rule_or_by_a_harder_variant() -> None:
    without = put(PROTOCOL, f"{FIRST}.progression", None)
    assert missing(without) == set()
    top = evolve(CARD, variants=CARD.variants[:3])
    assert missing(without, top) == {"7b"}
    ruled = Progression(method=ProgressionMethod.REPS_THEN_LOAD)
    assert missing(put(PROTOCOL, f"{FIRST}.progression", ruled), top) == set()


def test_a_start_variant_without_steps_is_not_described() -> None:
    bare = put(CARD, "variants[2]", variant("one-leg", 0, steps=()))
    assert missing(PROTOCOL, bare) == {"8"}


def test_a_dose_without_a_frequency_is_missing_at_home() -> None:
    bare = put(CARD, "variants[2].dose.frequency", None)
    assert missing(PROTOCOL, bare) == {"9", "13"}


# Norkin CC, White DJ, Measurement of Joint Motion, table A.1, quoting the American
# Academy of Orthopaedic Surgeons 1965.
@pytest.mark.parametrize(
    ("joint", "motion", "degrees"),
    [
        (Joint.SHOULDER, Motion.FLEXION, 180),
        (Joint.SHOULDER, Motion.INTERNAL_ROTATION, 70),
        (Joint.ELBOW, Motion.FLEXION, 150),
        (Joint.FOREARM, Motion.SUPINATION, 80),
        (Joint.WRIST, Motion.EXTENSION, 70),
    ],
)
def test_normal_angles_are_those_of_the_source(
    joint: Joint, motion: Motion, degrees: float
) -> None:
    assert NORMAL[joint, motion].degrees == degrees
    assert not NORMAL[joint, motion].from_memory
    assert highest_plausible(joint, motion) == pytest.approx(1.15 * degrees)


def test_no_angle_is_queried_where_no_normal_range_is_known() -> None:
    assert highest_plausible(Joint.KNEE, Motion.EXTENSION) is None
    assert highest_plausible(Joint.ELBOW, Motion.PRONATION) is None
