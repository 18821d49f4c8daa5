"""A plan prints for patients when somebody decided it and all it holds is fit for them."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Any

import pytest

from authoring.commands.handout import Wish, compose_source, draft_reason
from authoring.commands.source import Source
from authoring.model.base import evolve
from authoring.model.card import Card
from authoring.model.patient import FlagAnswer, Presentation
from authoring.model.plan import ChosenStage, Plan, PlanItem
from authoring.model.text import Text
from authoring.model.vocabulary import Answer, Status
from tests.handout.clinic_sheets import PROTOCOLS, TODAY, example

ANKLE = PROTOCOLS["lateral-ankle-sprain-back-to-running"]
ENTRY = next(iter(ANKLE.entries()))
USED = tuple(dict.fromkeys(entry.card for entry in ANKLE.entries()))
CARDS = tuple(example().library.cards[card] for card in USED)
DECIDED = "Jo Larkfield (invented)"
MUST = "Protocol checks must be mended first (see 'rungbook check')"


def staged(**facts: Any) -> Plan:
    """A plan of one exercise of the example's approved protocol."""
    first = {
        "id": "00000000-0000-4000-8000-0000000000bb",
        "language": "en",
        "created": dt.date(2026, 3, 2),
        "clinician": DECIDED,
        "stages": (
            ChosenStage(protocol=ANKLE.id, version=ANKLE.version, stage=ANKLE.stages[0].id),
        ),
        "items": (
            PlanItem(
                id="a", protocol=ANKLE.id, entry=ENTRY.id, card=ENTRY.card, variant=ENTRY.start
            ),
        ),
        "protocols": (ANKLE,),
        "cards": CARDS,
        "presentation": Presentation(
            id="00000000-0000-4000-8000-0000000000bc",
            red_flags=tuple(
                FlagAnswer(protocol=ANKLE.id, flag=flag.id, answer=Answer.NO)
                for flag in ANKLE.red_flags
            ),
        ),
    }
    return Plan(**{**first, **facts})


def single(**facts: Any) -> Plan:
    """A plan of one card, without any protocol."""
    item = PlanItem(id="a", card=ENTRY.card, variant=ENTRY.start)
    card = example().library.cards[ENTRY.card]
    first = {"stages": (), "items": (item,), "protocols": (), "cards": (card,)}
    return staged(**{**first, **facts})


def astray(card: Card) -> Card:
    """The card in a position that no term names: a must."""
    return evolve(card, variants=tuple(evolve(v, position="nowhere") for v in card.variants))


def reworded(card: Card) -> Card:
    return evolve(card, title=Text.plain("Something else"))


def made(plan: Plan) -> tuple[str, str]:
    document, because = compose_source(Source(plan, example()), Wish(), TODAY)
    return document.banner, because


@pytest.mark.parametrize("plan", [staged(), single()])
def test_a_decided_plan_of_what_is_fit_for_patients_is_for_patients(plan: Plan) -> None:
    assert made(plan) == ("", "")


@pytest.mark.parametrize("kind", [staged, single])
@pytest.mark.parametrize("nobody", ["", "  "])
def test_a_plan_that_nobody_decided_is_a_draft(kind: Any, nobody: str) -> None:
    banner, because = made(kind(clinician=nobody))
    assert banner == "Draft, not for patients"
    assert because == "the plan does not say which clinician decided it"


@pytest.mark.parametrize("status", [Status.DRAFT, Status.IN_REVIEW])
def test_a_plan_of_a_protocol_that_is_not_approved_is_a_draft(status: Status) -> None:
    banner, because = made(staged(protocols=(evolve(ANKLE, status=status),)))
    assert banner == "Draft, not for patients"
    assert because == f"the protocol {ANKLE.slug!r} is not approved"


def test_a_must_result_of_an_embedded_protocol_makes_a_draft() -> None:
    """Approved without a reviewer is a must, whatever the library's own copy says."""
    banner, because = made(staged(protocols=(evolve(ANKLE, approvals=()),)))
    assert banner == "Draft, not for patients"
    assert because.endswith(MUST)


def test_a_must_result_of_an_embedded_card_makes_a_draft(tmp_path: Path) -> None:
    elsewhere = evolve(example(), folder=tmp_path)  # a folder without a history
    whole = staged(cards=tuple(map(astray, CARDS)))
    assert draft_reason(Source(whole, elsewhere), TODAY).endswith(MUST)
    assert made(single(cards=(astray(CARDS[0]),)))[1].endswith(MUST)


def test_a_must_result_of_what_the_plan_does_not_hold_is_no_matter() -> None:
    library = example().library
    own = evolve(library, cards={card.id: astray(card) for card in library.cards.values()})
    source = Source(single(), evolve(example(), library=own))
    assert draft_reason(source, TODAY) == ""


def test_words_of_a_plan_that_nobody_approved_make_a_draft() -> None:
    reworded_plan = staged(cards=(reworded(CARDS[0]), *CARDS[1:]))
    assert made(reworded_plan)[1].endswith("was changed after the protocol was approved")
    changed = evolve(ANKLE, lead=Text.plain("Run at once."))
    assert made(staged(protocols=(changed,)))[1].endswith("was changed after it was approved")


def test_an_exercise_of_a_protocol_that_the_plan_does_not_hold_makes_a_draft() -> None:
    item = evolve(staged().items[0], entry=None)
    plan = single(items=(item,))
    assert draft_reason(Source(plan, example()), TODAY) == (
        "the plan names a protocol that it does not hold"
    )
