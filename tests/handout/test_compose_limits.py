"""What a patient is told of limits, helpers, how often, and where the clinic is."""

from __future__ import annotations

import pytest

from authoring.handout.document import Diary, Exercise, Glance, Notes, SmallPrint
from authoring.handout.exercises import needs
from authoring.handout.limit_words import limit_sentences
from authoring.handout.words import rich_texts
from authoring.model.base import evolve
from authoring.model.card import Support
from authoring.model.dose import AngleLimit, Frequency
from authoring.model.limits import LimbLimit
from authoring.model.load import IntRange
from authoring.model.protocol import Restriction
from authoring.model.text import Text
from authoring.model.vocabulary import Joint, Motion, SupportKind, WeightBearing
from tests.checks.build import CLINIC
from tests.handout.clinic_sheets import (
    SMALL,
    SMALL_CARD,
    parts_of,
    printed,
    small,
    small_context,
)

ANKLE = "lateral-ankle-sprain-back-to-running"


@pytest.mark.parametrize(
    ("limit", "said"),
    [
        (LimbLimit(passive_only=True), "Do not move it yourself: let someone else move it."),
        (LimbLimit(weight_bearing=WeightBearing.NONE), "Put no weight on it."),
        (
            LimbLimit(weight_bearing=WeightBearing.PARTIAL, most_weight_kg=20),
            "Put only part of your weight on it. Never put more than 20 kg on it.",
        ),
        (
            LimbLimit(most_body_weight_percent=50),
            "Never put more than 50% of your weight on it. We show you how much that is.",
        ),
        (
            LimbLimit(
                angles=(AngleLimit(joint=Joint.KNEE, motion=Motion.FLEXION, from_deg=0, to_deg=90),)
            ),
            "Do not go past 90 degrees of knee bend.",
        ),
        (None, ""),
    ],
)
def test_a_limit_of_a_limb_is_said_in_plain_words(limit: LimbLimit | None, said: str) -> None:
    assert " ".join(limit_sentences(limit, small_context())) == said


def test_what_is_not_allowed_says_until_when_and_how_much() -> None:
    rule = Restriction(
        id="no-squat",
        text=Text.plain("No deep squats."),
        limb=LimbLimit(weight_bearing=WeightBearing.TOUCH),
        until_week=6,
    )
    first, *others = SMALL.stages
    protocol = evolve(SMALL, stages=(evolve(first, not_allowed=(rule,)), *others))
    lines = [text for note in parts_of(small(protocol), Notes) for text in rich_texts(note.body)]
    assert "No deep squats. Let it touch the ground, with no weight on it. Until week 6." in lines


def test_care_says_until_which_week() -> None:
    notes = parts_of(printed(ANKLE, (2,)), Notes)
    lines = [text for note in notes for text in rich_texts(note.body)]
    assert any(text.endswith("Until week 6.") for text in lines)


def test_helpers_are_needed_and_what_a_hand_leans_on_is_not_said_twice() -> None:
    supports = (
        Support(kind=SupportKind.PARTNER),
        Support(kind=SupportKind.WALL, hands=2),
        Support(kind=SupportKind.BRACE),
    )
    said = needs((), small_context(), supports)
    assert said == "You need: someone to help you and your brace."
    assert needs((), small_context(), supports[1:2]) == ""


def test_a_stage_whose_growth_is_capped_says_so_without_a_sum() -> None:
    first, *others = SMALL.stages
    protocol = evolve(SMALL, stages=(evolve(first, weekly_cap_percent=10.0), *others))
    lines = [text for note in parts_of(small(protocol), Notes) for text in rich_texts(note.body)]
    assert "From week to week, do only a little more." in lines
    assert not any("10%" in line for line in lines)


def test_the_small_print_says_where_the_clinic_is() -> None:
    clinic = evolve(
        CLINIC,
        address=Text.plain("1 Invented Lane\nLarkfield"),
        email="hello@larkfield.example",
        website="larkfield.example",
    )
    (part,) = parts_of(small(clinic=clinic), SmallPrint)
    said = "  ·  1 Invented Lane Larkfield  ·  hello@larkfield.example  ·  larkfield.example"
    assert any(line.endswith(said) for line in part.lines)


def test_an_exercise_of_its_own_frequency_says_so_in_overview_and_diary() -> None:
    document = printed(ANKLE, (2,))
    (glance,), (diary,) = parts_of(document, Glance), parts_of(document, Diary)
    bike = next(item for item in glance.items if item.name == "Steady bike")
    assert bike.dose == "15 to 20 minutes, 2 days a week"
    assert "13 Steady bike, 2 days a week" in diary.weeks[0].exercise_rows
    assert any(each.number == 13 for each in parts_of(document, Exercise))


@pytest.mark.parametrize(
    ("often", "days"),
    [
        (Frequency(days_per_week=IntRange(low=3)), 3),
        (Frequency(every_days=2), 4),
        (Frequency(times_per_day=IntRange(low=2)), 7),
    ],
)
def test_the_diary_has_a_column_for_each_day_of_exercise(often: Frequency, days: int) -> None:
    variants = tuple(
        evolve(each, dose=evolve(each.dose, frequency=None) if each.dose else None)
        for each in SMALL_CARD.variants
    )
    first, *others = SMALL.stages
    blocks = tuple(
        evolve(
            block,
            frequency=None,
            entries=tuple(evolve(entry, dose=None) for entry in block.entries),
        )
        for block in first.blocks
    )
    protocol = evolve(SMALL, stages=(evolve(first, frequency=often, blocks=blocks), *others))
    diary = parts_of(small(protocol, evolve(SMALL_CARD, variants=variants)), Diary)[0]
    assert len(diary.weeks[0].columns) == days
