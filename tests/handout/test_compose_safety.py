"""Stop signs by urgency, cautions, and what may be offered when it hurts or gets easy."""

from __future__ import annotations

from typing import Any

import pytest

from authoring.handout.alternatives import alternatives
from authoring.handout.document import Change, Exercise, HandoutDocument, Notes, StopBox
from authoring.handout.sheet import sheet_of_protocol
from authoring.handout.words import rich_texts, words
from authoring.model.base import evolve
from authoring.model.card import Card
from authoring.model.caution import Caution
from authoring.model.dose import Dose, Holds
from authoring.model.load import IntRange
from authoring.model.protocol import Choice, Progression
from authoring.model.text import Text
from authoring.model.vocabulary import CautionKind, Mode, ProgressionMethod, Urgency
from tests.checks.build import CLINIC, entry, put
from tests.handout.clinic_sheets import (
    CARDS,
    PROTOCOLS,
    SMALL,
    SMALL_CARD,
    STAGES,
    example,
    parts_of,
    printed,
    small,
    why_draft,
)

say = Text.plain
ENTRY = "stages[0].blocks[0].entries[0]"


def caution(kind: CautionKind, text: str, **facts: Any) -> Caution:
    name = text.lower().strip(".").replace(" ", "-")
    return Caution(id=name, kind=kind, text=say(text), **facts)


def exercise(document: HandoutDocument, index: int = 0) -> Exercise:
    return parts_of(document, Exercise)[index]


def change(document: HandoutDocument, heading: str) -> Change | None:
    found = [each for each in exercise(document).changes if each.heading == heading]
    return found[0] if found else None


# ---- stop signs ---------------------------------------------------------------------------


def test_stop_signs_stand_by_urgency_most_urgent_first_each_with_its_destination() -> None:
    signs = tuple(
        caution(CautionKind.STOP_SIGN, f"Sign {index}.", urgency=urgency)
        for index, urgency in enumerate(reversed(Urgency))
    )
    (box,) = parts_of(small(evolve(SMALL, cautions=signs)), StopBox)
    assert [(group.level, group.lead, group.signs) for group in box.groups] == [
        (0, "Call 112 now if:", ("Sign 3.",)),
        (1, "See a doctor today if:", ("Sign 2.",)),
        (2, "Call us if:", ("Sign 1.",)),
        (3, "Stop if:", ("Sign 0.",)),
    ]
    assert (box.contact.phone, box.contact.closed) == ("01632 960 100", "Closed? Call 111.")


def test_without_the_clinics_wording_ours_leads_somewhere() -> None:
    (box,) = parts_of(small(clinic=evolve(CLINIC, emergency=None)), StopBox)
    assert box.groups[0].lead == "Call for an ambulance now if:"


def test_signs_of_an_emergency_that_hold_for_anybody_stand_in_where_none_is_named() -> None:
    sign = caution(CautionKind.STOP_SIGN, "You limp.", urgency=Urgency.STOP_EXERCISE)
    (box,) = parts_of(small(evolve(SMALL, cautions=(sign,))), StopBox)
    assert [group.level for group in box.groups] == [0, 3]
    assert box.groups[0].signs[0].startswith("You have chest pain")


@pytest.mark.parametrize(("slug", "stage"), STAGES)
def test_every_stop_sign_of_the_protocol_is_on_every_page(slug: str, stage: int) -> None:
    (box,) = parts_of(printed(slug, (stage,)), StopBox)
    signs = [c for c in PROTOCOLS[slug].cautions if c.kind is CautionKind.STOP_SIGN]
    wording = example().library.clinic
    assert wording is not None
    assert wording.emergency is not None
    for sign in signs:
        assert sign.urgency is not None
        lead = getattr(wording.emergency, sign.urgency.value).values[""]
        assert [g.lead for g in box.groups if sign.text.values[""] in g.signs] == [lead]


def test_a_stop_sign_of_an_exercise_names_its_destination_there() -> None:
    sign = caution(CautionKind.STOP_SIGN, "Your foot is numb.", urgency=Urgency.SAME_DAY)
    card = evolve(SMALL_CARD, cautions=(sign,))
    (note,) = exercise(small(SMALL, card)).stops
    assert (note.lead, note.text) == ("See a doctor today if:", "Your foot is numb.")


def test_a_caution_for_a_demand_stands_only_where_the_variant_makes_it() -> None:
    texts = [care.text for care in exercise(small()).cares]
    assert texts == []
    hopping = put(SMALL, f"{ENTRY}.start", "hop")
    assert [care.text for care in exercise(small(hopping)).cares] == [
        "A hop loads the ankle. Start low."
    ]


def test_for_whom_it_is_not_is_said_before_the_exercises_the_protocols_own_first() -> None:
    whole = caution(CautionKind.CONTRAINDICATION, "You have a fever.")
    document = small(evolve(SMALL, cautions=(whole,)), SMALL_CARD, 1)
    (notes,) = [note for note in parts_of(document, Notes) if note.heading == "Not for you if"]
    assert notes.framed
    assert list(rich_texts(notes.body)) == [
        "You have a fever.",
        "1 One leg: Not with a broken ankle.",
    ]
    assert document.parts.index(notes) < document.parts.index(exercise(document))


# ---- if it hurts --------------------------------------------------------------------------


def test_a_hold_is_offered_only_where_the_stage_allows_it() -> None:
    """The first stage lets the hold replace movement, the second doesn't."""
    first, second = (small(SMALL, SMALL_CARD, stage) for stage in (1, 2))
    hurts = change(first, "If it hurts")
    assert hurts is not None
    assert hurts.sub == "pain of 3 to 5"
    assert [option.label for option in hurts.options] == ["Hold still", "Or easier"]
    assert hurts.options[0].dose == "5 holds of 30 seconds"
    later = change(second, "If it hurts")
    assert later is not None
    assert [option.label for option in later.options] == ["Easier"]


@pytest.mark.parametrize(("slug", "stage"), STAGES)
def test_the_example_offers_no_hold_that_its_stage_does_not_allow(slug: str, stage: int) -> None:
    protocol = PROTOCOLS[slug]
    entries = list(protocol.stages[stage - 1].entries())
    for entry_here, made in zip(entries, parts_of(printed(slug, (stage,)), Exercise), strict=True):
        labels = [option.label for each in made.changes for option in each.options]
        assert ("Hold still" in labels) <= bool(entry_here.may_hold)
        card = example().library.cards[entry_here.card]
        started = card.variant(entry_here.start)
        assert started is not None
        if entry_here.may_hold and entry_here.may_hold != (entry_here.start,):
            assert "Hold still" in labels


def test_the_hold_has_the_entrys_own_dose_where_it_has_one() -> None:
    short = Dose(work=Holds(holds=IntRange(low=3), hold_s=(IntRange(low=10),)))
    hurts = change(small(put(SMALL, f"{ENTRY}.hold_dose", short)), "If it hurts")
    assert hurts is not None
    assert hurts.options[0].dose == "3 holds of 10 seconds"


def test_only_allowed_variants_are_offered() -> None:
    protocol = put(put(SMALL, f"{ENTRY}.allowed", ("one-leg",)), f"{ENTRY}.may_hold", ())
    assert change(small(protocol), "If it hurts") is None


def stepping_up(card: Card, **facts: Any) -> HandoutDocument:
    """The small sheet whose patient may step up alone, from two legs to one."""
    rule = Progression(
        method=ProgressionMethod.NEXT_RUNG, patient_may_step_up=True, easy_sessions=2
    )
    protocol = put(SMALL, f"{ENTRY}.progression", rule)
    for name, value in {"start": "two-legs", "allowed": (), "may_hold": (), **facts}.items():
        protocol = put(protocol, f"{ENTRY}.{name}", value)
    return small(protocol, card, 1)


def with_cautions(variant_id: str, *cautions: Caution) -> Card:
    """The small card, one variant with cautions of its own."""
    variants = tuple(
        evolve(each, cautions=cautions) if each.id == variant_id else each
        for each in SMALL_CARD.variants
    )
    return evolve(SMALL_CARD, variants=variants)


def test_another_way_says_what_to_take_care_of_and_when_to_stop_itself() -> None:
    """Whoever steps up alone reads no other page first."""
    card = with_cautions(
        "one-leg",
        caution(CautionKind.PRECAUTION, "Hold on to a rail."),
        caution(CautionKind.STOP_SIGN, "You feel a snap.", urgency=Urgency.SAME_DAY),
    )
    easy = change(stepping_up(card), "If it feels easy")
    assert easy is not None
    assert easy.options[0].text.endswith(
        "Hold on to a rail. See a doctor today if: You feel a snap."
    )


def test_what_the_exercise_says_itself_is_not_said_again_of_another_way() -> None:
    rail = caution(CautionKind.PRECAUTION, "Hold on to a rail.")
    document = stepping_up(evolve(SMALL_CARD, cautions=(*SMALL_CARD.cautions, rail)))
    assert "Hold on to a rail." in [care.text for care in exercise(document).cares]
    easy = change(document, "If it feels easy")
    assert easy is not None
    assert "rail" not in easy.options[0].text


def test_for_whom_an_offered_step_up_is_not_is_said_before_the_exercises() -> None:
    card = with_cautions("one-leg", caution(CautionKind.CONTRAINDICATION, "You often fall."))
    offered, not_offered = stepping_up(card), stepping_up(card, allowed=("two-legs",))
    said = [
        any(
            "You often fall." in text
            for note in parts_of(made, Notes)
            for text in rich_texts(note.body)
        )
        for made in (offered, not_offered)
    ]
    assert said == [True, False]


@pytest.mark.parametrize(("slug", "stage"), STAGES)
def test_each_way_that_the_example_offers_comes_with_every_caution_of_its_own(
    slug: str, stage: int
) -> None:
    document = printed(slug, (stage,))
    page = " ".join(words(document))
    sheet = sheet_of_protocol(PROTOCOLS[slug], example().library.cards, (stage,))
    for item in sheet.items():
        for variant in (item.variant, *alternatives(item)):
            for each in variant.cautions:
                if each.kind is not CautionKind.EXPECTED_RESPONSE:
                    assert each.text.values[""] in page


# ---- if it feels easy ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("facts", "label"),
    [
        ({}, None),
        ({"patient_may_step_up": True}, None),
        ({"easy_sessions": 3}, None),
        ({"patient_may_step_up": True, "easy_sessions": 3}, "After 3 easy days"),
        ({"patient_may_step_up": True, "easy_sessions": 1}, "After 1 easy day"),
    ],
)
def test_a_step_up_prints_only_where_the_patient_may_take_it_with_its_threshold(
    facts: dict[str, Any], label: str | None
) -> None:
    rule = Progression(method=ProgressionMethod.NEXT_RUNG, **facts)
    protocol = put(put(SMALL, f"{ENTRY}.progression", rule), f"{ENTRY}.allowed", ())
    easy = change(small(protocol), "If it feels easy")
    assert (easy.options[0].label if easy else None) == label


@pytest.mark.parametrize(("slug", "stage"), STAGES)
def test_the_example_lets_nobody_step_up_who_may_not(slug: str, stage: int) -> None:
    entries = list(PROTOCOLS[slug].stages[stage - 1].entries())
    for here, made in zip(entries, parts_of(printed(slug, (stage,)), Exercise), strict=True):
        headings = [each.heading for each in made.changes]
        may = here.progression is not None and here.progression.patient_may_step_up
        assert ("If it feels easy" in headings) <= may


@pytest.mark.parametrize("slug", CARDS)
def test_a_card_alone_lets_nobody_step_up_and_offers_no_hold(slug: str) -> None:
    (made,) = parts_of(printed(slug), Exercise)
    assert "If it feels easy" not in [each.heading for each in made.changes]
    assert "Hold still" not in [o.label for each in made.changes for o in each.options]


# ---- either, together ------------------------------------------------------------------------


@pytest.mark.parametrize(("pick", "heading"), [(1, "Choose one"), (2, "Choose 2")])
def test_an_either_or_names_the_others_and_how_many_to_do(pick: int, heading: str) -> None:
    names = ("a", "b", "c")
    entries = tuple(entry(name, "one-leg", choice="either") for name in names)
    choices = (Choice(id="either", pick=pick, words=say("Take what you like.")),)
    protocol = put(
        put(SMALL, "stages[0].blocks[0].entries", entries), "stages[0].blocks[0].choices", choices
    )
    made = change(small(protocol), heading)
    assert made is not None
    assert made.sub == "Take what you like."
    assert [option.label for option in made.options] == ["2 One leg", "3 One leg"]
    assert {option.dose for option in made.options} == {"3 sets of 8 to 12"}


def test_variants_done_side_by_side_are_printed_with_the_first() -> None:
    protocol = put(SMALL, f"{ENTRY}.together", ("two-legs",))
    made = change(small(protocol), "With it, in the same session")
    assert made is not None
    assert [option.label for option in made.options] == ["Two legs"]


def test_other_set_ups_of_a_card_alone_are_another_way() -> None:
    (made,) = parts_of(printed("heel-raise"), Exercise)
    ways = [each for each in made.changes if each.heading == "Another way"]
    same = [v for v in CARDS["heel-raise"].variants if v.rung == 0 and v.mode is not Mode.ISOMETRIC]
    assert [option.label for way in ways for option in way.options] == [
        v.name.values[""] for v in same[1:3]
    ]


# ---- drafts ------------------------------------------------------------------------------------


@pytest.mark.parametrize("slug", PROTOCOLS)
def test_an_approved_clean_protocol_is_for_patients(slug: str) -> None:
    assert why_draft(PROTOCOLS[slug]) == ""
    assert printed(slug, (1,)).banner == ""


@pytest.mark.parametrize("slug", CARDS)
def test_a_card_alone_is_a_draft(slug: str) -> None:
    assert printed(slug).banner == "Draft, not for patients"
