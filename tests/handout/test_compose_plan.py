"""A plan prints from what it holds alone, and keeps every rule of each protocol it follows."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from authoring.handout.compose import Options, compose
from authoring.handout.document import (
    Exercise,
    HandoutDocument,
    Notes,
    PainGuide,
    Ready,
    SmallPrint,
    StageHeading,
    Stairs,
    StopBox,
)
from authoring.handout.errors import HandoutError
from authoring.handout.sheet import sheet_of_plan
from authoring.model.base import evolve
from authoring.model.caution import Caution
from authoring.model.dose import Dose, Repetitions
from authoring.model.load import IntRange
from authoring.model.plan import ChosenStage, Plan, PlanItem
from authoring.model.protocol import Protocol
from authoring.model.text import Text
from authoring.model.vocabulary import CautionKind, Pathway, Side, Sides, Urgency
from tests.checks.build import CARD_ID, PAIN, PROTOCOL_ID, put
from tests.handout.clinic_sheets import SMALL, SMALL_CARD, parts_of, small_context

say = Text.plain
OTHER = "00000000-0000-4000-8000-0000000000aa"


def item(name: str, **facts: Any) -> PlanItem:
    return PlanItem(**{"id": name, "card": CARD_ID, "variant": "one-leg", **facts})


def chosen(protocol: str, stage: str) -> ChosenStage:
    return ChosenStage(protocol=protocol, version="0.1", stage=stage)


ONE = Plan(
    id=OTHER,
    language="en",
    created=dt.date(2026, 3, 2),
    stages=(chosen(PROTOCOL_ID, "strong"),),
    items=(
        item("a", protocol=PROTOCOL_ID, entry="strong-raise", side=Side.RIGHT),
        item("b", variant="two-legs"),
    ),
    protocols=(SMALL,),
    cards=(SMALL_CARD,),
)


def other_protocol(**facts: Any) -> Protocol:
    """A second protocol with its own sign, title and entry names."""
    sign = Caution(
        id="knee",
        kind=CautionKind.STOP_SIGN,
        text=say("Your knee locks."),
        urgency=Urgency.CALL_CLINIC,
    )
    second = evolve(SMALL, id=OTHER, slug="knee", patient_title=say("Your knee"), cautions=(sign,))
    for path, name in (("stages[0]", "knee-calm"), ("stages[1]", "knee-strong")):
        second = put(second, f"{path}.blocks[0].entries[0].id", name)
    return evolve(second, **facts)


def two(**facts: Any) -> Plan:
    return evolve(
        ONE,
        stages=(chosen(PROTOCOL_ID, "strong"), chosen(OTHER, "calm")),
        items=(
            item("a", protocol=OTHER, entry="knee-calm"),
            item("b", protocol=PROTOCOL_ID, entry="strong-raise"),
            item("c"),
        ),
        protocols=(SMALL, other_protocol(**facts)),
    )


def made(plan: Plan, *, keep_numbers: bool = False) -> HandoutDocument:
    sheet = sheet_of_plan(plan, keep_numbers=keep_numbers)
    return compose(sheet, small_context(), Options(draft=False))


def test_a_plan_is_numbered_from_one_unless_the_clinic_keeps_the_protocols_numbers() -> None:
    assert [e.number for e in parts_of(made(ONE), Exercise)] == [1, 2]
    kept = [e.number for e in parts_of(made(ONE, keep_numbers=True), Exercise)]
    assert kept[0] == SMALL.numbers()["strong-raise"] == 2


def test_a_plan_of_one_stage_shows_where_the_patient_is() -> None:
    document = made(ONE)
    (stairs,) = parts_of(document, Stairs)
    assert [step.number for step in stairs.steps if step.here] == [2]
    assert document.subject == "Stage 2 of 2: Make it strong"


def test_the_side_that_works_is_named() -> None:
    protocol = put(SMALL, "stages[1].blocks[0].entries[0].sides", Sides.AFFECTED)
    document = made(evolve(ONE, protocols=(protocol,)))
    assert parts_of(document, Exercise)[0].details[0] == "Right leg."


def test_the_plans_own_dose_wins() -> None:
    own = Dose(work=Repetitions(sets=IntRange(low=2), reps=(IntRange(low=5),)))
    plan = put(ONE, "items[0].dose", own)
    assert [e.dose for e in parts_of(made(plan), Exercise)] == ["2 sets of 5", "3 sets of 8 to 12"]


def test_single_cards_without_a_protocol_make_a_sheet() -> None:
    plan = evolve(ONE, stages=(), protocols=(), items=(item("b"),))
    document = made(plan)
    assert document.title == "Your exercises"
    assert document.lead == "Do this exercise."
    assert parts_of(document, Stairs) == []
    assert parts_of(document, Ready) == []


def test_two_protocols_keep_their_own_stop_signs_stages_and_small_print() -> None:
    document = made(two())
    (box,) = parts_of(document, StopBox)
    signs = [sign for group in box.groups for sign in group.signs]
    assert signs == ["Your foot is cold and numb.", "Your knee locks."]
    headings = parts_of(document, StageHeading)
    assert [(each.label, each.name) for each in headings] == [
        ("Your ankle: Stage 2", "Make it strong"),
        ("Your knee: Stage 1", "Calm it down"),
        ("Also", "Other exercises"),
    ]
    (small_print,) = parts_of(document, SmallPrint)
    assert sum("version 0.1." in line for line in small_print.lines) == 2
    assert "Do not jump yet." in str(parts_of(document, Notes))


def test_numbers_run_in_the_order_of_the_page_and_no_exercise_is_lost() -> None:
    assert [e.number for e in parts_of(made(two()), Exercise)] == [1, 2, 3]


def test_a_protocol_after_an_operation_keeps_its_silence_on_pain_beside_another() -> None:
    plan = two(pathway=Pathway.POST_OPERATIVE, pain=None)
    guides = parts_of(made(plan), PainGuide)
    assert [bool(guide.zones) for guide in guides] == [True, False, False]


def test_single_cards_after_an_operation_get_no_assumed_rule() -> None:
    operated = evolve(SMALL, pathway=Pathway.POST_OPERATIVE, pain=None)
    (guide,) = parts_of(made(evolve(ONE, protocols=(operated,))), PainGuide)
    assert guide.zones == ()


def test_rules_that_agree_are_printed_once() -> None:
    assert len(parts_of(made(two(pain=PAIN)), PainGuide)) == 1
    elsewhere = evolve(PAIN, sources=())
    assert len(parts_of(made(two(pain=elsewhere)), PainGuide)) == 1


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"items": ()}, "has no exercise; add one"),
        ({"cards": ()}, "does not hold; make the plan again"),
        ({"protocols": ()}, "no protocol in it has; make the plan again"),
        ({"stages": (chosen(PROTOCOL_ID, "nowhere"),)}, "'nowhere', which no protocol in it has"),
    ],
)
def test_what_a_plan_lacks_is_named(change: dict[str, Any], told: str) -> None:
    with pytest.raises(HandoutError, match=told):
        made(evolve(ONE, **change))


def test_an_exercise_of_another_protocol_does_not_take_on_the_pain_rule_of_the_stage() -> None:
    after_surgery = other_protocol(pathway=Pathway.POST_OPERATIVE, pain=None)
    items = (*ONE.items, item("c", protocol=OTHER, entry="knee-calm"))
    document = made(evolve(ONE, items=items, protocols=(SMALL, after_surgery)))
    kinds = [type(p) for p in document.parts if isinstance(p, Exercise | PainGuide | StageHeading)]
    assert kinds == [
        *(StageHeading, PainGuide, Exercise),
        *(StageHeading, PainGuide, Exercise, Exercise),
    ]
    first, second = parts_of(document, PainGuide)
    assert first.zones
    assert not second.zones
