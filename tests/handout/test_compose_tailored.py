"""What a tailored plan prints: this patient's variants, sides and days, or a flag's action."""

from __future__ import annotations

import datetime as dt

from authoring.handout.compose import Options, compose
from authoring.handout.document import Exercise, Facts, HandoutDocument, Notes, StageHeading
from authoring.handout.sheet import sheet_of_plan
from authoring.handout.words import words
from authoring.model.base import evolve
from authoring.model.patient import FlagAnswer, SideState
from authoring.model.plan import Plan
from authoring.model.vocabulary import Answer, Irritability, Side, Weekday
from tests.handout.clinic_sheets import SMALL_CARD, parts_of, small_context
from tests.tailoring.test_small_plans import one_sided
from tests.tailoring.values import PROTOCOL_ID, TODAY, all_no, patient, small_library, small_plan

LIBRARY = small_library(SMALL_CARD, one_sided())


def made(plan: Plan) -> HandoutDocument:
    return compose(sheet_of_plan(plan), small_context(), Options(draft=False))


def test_each_side_has_its_own_stage_and_exercises_on_one_sheet() -> None:
    both = patient(
        side=Side.BOTH,
        each_side=(
            SideState(side=Side.LEFT, irritability=Irritability.HIGH),
            SideState(side=Side.RIGHT, injured=TODAY - dt.timedelta(30)),
        ),
        red_flags=all_no(*LIBRARY.protocols.values()),
    )
    document = made(small_plan(both, LIBRARY, stage=""))
    assert [each.name for each in parts_of(document, StageHeading)] == [
        "Calm it down",
        "Make it strong",
    ]
    exercises = parts_of(document, Exercise)
    assert [(e.number, e.name) for e in exercises] == [(1, "Two legs still"), (2, "One leg")]
    assert ["Left leg." in exercises[0].details, "Right leg." in exercises[1].details] == [
        True,
        True,
    ]
    assert document.banner == ""


def test_a_way_that_this_patient_may_not_use_is_not_offered_if_it_hurts() -> None:
    plan = small_plan(patient(), LIBRARY, stage="calm")
    assert "If it hurts" in str(parts_of(made(plan), Exercise)[0].changes)
    (item,) = plan.items
    narrower = evolve(plan, items=(evolve(item, permitted=(item.variant,)),))
    assert parts_of(made(narrower), Exercise)[0].changes == ()


def test_the_patients_own_days_are_printed() -> None:
    plan = small_plan(patient(days_per_week=2, minutes=30), LIBRARY)
    facts = parts_of(made(plan), Facts)[0].items
    assert "Monday and Thursday" in [fact.headline for fact in facts]
    (item,) = plan.items
    alternating = evolve(plan, items=(evolve(item, days=(Weekday.MONDAY,)),))
    assert parts_of(made(alternating), Exercise)[0].details[0] == "On Monday only."


def test_a_flag_answered_yes_prints_its_action_and_no_exercise() -> None:
    answer = FlagAnswer(protocol=PROTOCOL_ID, flag="steps", answer=Answer.YES)
    document = made(small_plan(patient(red_flags=(answer,)), LIBRARY))
    assert parts_of(document, Exercise) == []
    assert parts_of(document, Notes)[0].heading == "See a doctor today if:"
    text = " ".join(words(document))
    assert "Send for an X-ray." in text
    assert "One leg" not in text


def test_a_flag_that_was_not_asked_makes_every_page_a_draft() -> None:
    assert made(small_plan(patient(), LIBRARY)).banner == "Draft, not for patients"
