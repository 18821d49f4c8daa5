"""Caps, breaks, exercises left out, and what holds for some stages, weeks or days only."""

from __future__ import annotations

import pytest

from authoring.handout.criteria import criterion_words
from authoring.handout.document import BlockHeading, Exercise, HandoutDocument, Notes, StopBox
from authoring.handout.words import rich_texts
from authoring.model.base import evolve
from authoring.model.caution import Caution
from authoring.model.criterion import AnyOf, InWords, Measured
from authoring.model.dose import Dose, DoseChange, Frequency, Repetitions, WeekRow
from authoring.model.load import IntRange
from authoring.model.pacing import Cap, PauseRule
from authoring.model.pain import NextMorning, PainBand, PainRule
from authoring.model.protocol import Branch, Protocol
from authoring.model.text import Text
from authoring.model.vocabulary import (
    BranchAction,
    CapOf,
    CautionKind,
    Comparator,
    PainAction,
    PauseAction,
    Period,
    SideComparison,
    Unit,
    Urgency,
)
from tests.checks.build import put
from tests.handout.clinic_sheets import SMALL, SMALL_CARD, parts_of, small, small_context

say = Text.plain
FIRST = "stages[0].blocks[0].entries[0]"


def notes(document: HandoutDocument, heading: str) -> list[list[str]]:
    found = [note for note in parts_of(document, Notes) if note.heading == heading]
    return [list(rich_texts(note.body)) for note in found]


def staged(**facts: object) -> Protocol:
    return put(SMALL, "stages[0]", evolve(SMALL.stages[0], **facts))


# ---- caps -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("cap", "words"),
    [
        ((CapOf.THROWS, 75, Period.SESSION), "No more than 75 throws in one session."),
        ((CapOf.THROWS, 225, Period.WEEK), "No more than 225 throws in a week."),
        ((CapOf.MINUTES, 1, Period.DAY), "No more than 1 minute in a day."),
        ((CapOf.METRES, 3000, Period.DAY), "No more than 3 kilometres in a day."),
        ((CapOf.SESSIONS, 2, Period.WEEK), "No more than 2 sessions in a week."),
        ((CapOf.CONTACTS, 80, Period.SESSION), "No more than 80 landings in one session."),
    ],
)
def test_a_cap_says_how_much_at_most(cap: tuple[CapOf, int, Period], words: str) -> None:
    of, most, per = cap
    protocol = staged(caps=(Cap(of=of, most=most, per=per),))
    assert notes(small(protocol, SMALL_CARD, 1), "How much at most") == [[words]]


@pytest.mark.parametrize("of", CapOf)
@pytest.mark.parametrize("per", Period)
def test_everything_that_can_be_capped_has_words(of: CapOf, per: Period) -> None:
    protocol = staged(caps=(Cap(of=of, most=12, per=per),))
    ((words,),) = notes(small(protocol, SMALL_CARD, 1), "How much at most")
    assert words.startswith("No more than 12 ")


# ---- breaks -----------------------------------------------------------------------------------


def test_breaks_stand_from_the_shortest_to_the_longest_without_a_gap() -> None:
    protocol = staged(
        pauses=(
            PauseRule(after_days=14, action=PauseAction.RESTART_STAGE),
            PauseRule(after_days=3, action=PauseAction.GO_EASIER),
            PauseRule(after_days=4, action=PauseAction.STEP_BACK),
            PauseRule(after_days=28, words=say("Ring the desk.")),
            PauseRule(after_days=1, action=PauseAction.CARRY_ON),
        )
    )
    assert notes(small(protocol, SMALL_CARD, 1), "After a break") == [
        [
            "Missed 1 to 2 days? Carry on where you were.",
            "Missed 3 days? Start a little easier.",
            "Missed 4 to 13 days? Go back a stage.",
            "Missed 14 to 27 days? Start this stage again.",
            "Missed 28 days or more? Ring the desk.",
        ]
    ]


# ---- exercises left out -------------------------------------------------------------------------


def test_exercises_to_leave_out_are_named_by_number_where_they_are_on_the_sheet() -> None:
    branch = Branch(
        id="sore",
        finding=say("Your heel is sore."),
        then=BranchAction.LEAVE_OUT,
        entries=("calm-raise", "strong-raise"),
        words=say("Walk instead."),
    )
    protocol = staged(branches=(branch, evolve(branch, id="stay", then=BranchAction.STAY)))
    assert notes(small(protocol, SMALL_CARD, 1), "If you notice this") == [
        ["Your heel is sore? Leave out exercise 1. Walk instead."]
    ]


# ---- some stages, days and weeks only -------------------------------------------------------


def sign(text: str, *stages: str, kind: CautionKind = CautionKind.STOP_SIGN) -> Caution:
    urgency = Urgency.EMERGENCY if kind is CautionKind.STOP_SIGN else None
    name = text.lower().strip(".").replace(" ", "-")
    return Caution(id=name, kind=kind, text=say(text), urgency=urgency, stages=stages)


@pytest.mark.parametrize(
    ("stages", "signs"),
    [
        ((1,), ("Always.", "First.", "Both.")),
        ((2,), ("Always.", "Second.", "Both.")),
        ((), ("Always.", "Stage 1: First.", "Stage 2: Second.", "Both.")),
    ],
)
def test_a_stop_sign_of_a_stage_prints_on_its_sheet_and_says_so_beside_others(
    stages: tuple[int, ...], signs: tuple[str, ...]
) -> None:
    cautions = (
        sign("Always."),
        sign("First.", "calm"),
        sign("Second.", "strong"),
        sign("Both.", "calm", "strong"),
    )
    (box,) = parts_of(small(evolve(SMALL, cautions=cautions), SMALL_CARD, *stages), StopBox)
    assert box.groups[0].signs == signs


@pytest.mark.parametrize(
    ("kind", "heading"),
    [
        (CautionKind.PRECAUTION, "Take care"),
        (CautionKind.EXPECTED_RESPONSE, "This is normal"),
    ],
)
def test_other_cautions_of_a_stage_stay_off_the_sheets_of_others(
    kind: CautionKind, heading: str
) -> None:
    protocol = evolve(SMALL, cautions=(sign("Only late.", "strong", kind=kind),))
    assert notes(small(protocol, SMALL_CARD, 1), heading) == []
    assert notes(small(protocol, SMALL_CARD, 2), heading) == [["Only late."]]
    assert notes(small(protocol), heading) == [["Stage 2: Only late."]]


def test_a_contraindication_of_another_stage_is_not_said() -> None:
    protocol = evolve(
        SMALL, cautions=(sign("A fever.", "strong", kind=CautionKind.CONTRAINDICATION),)
    )
    assert "A fever." not in str(notes(small(protocol, SMALL_CARD, 1), "Not for you if"))
    assert "A fever." in str(notes(small(protocol, SMALL_CARD, 2), "Not for you if"))


def test_a_block_says_how_often_it_is_done() -> None:
    often = Frequency(days_per_week=IntRange(low=3))
    protocol = put(SMALL, "stages[0].blocks[0].frequency", often)
    (heading,) = parts_of(small(protocol, SMALL_CARD, 1), BlockHeading)
    assert heading.note == "Do this 3 days a week."


def test_a_week_table_names_the_variant_it_changes_to() -> None:
    work = Repetitions(sets=IntRange(low=3), reps=(IntRange(low=8),))
    row = WeekRow(from_week=3, to_week=4, variant="hop", change=DoseChange(work=work))
    protocol = put(SMALL, f"{FIRST}.dose", Dose(work=work, weeks=(row,)))
    (exercise,) = parts_of(small(protocol, SMALL_CARD, 1), Exercise)
    assert [(week.weeks, week.dose) for week in exercise.weeks] == [
        ("Weeks 3 and 4", "Hop. 3 sets of 8")
    ]


# ---- pain and criteria ---------------------------------------------------------------------------


def test_a_band_can_ask_to_stay_at_this_level() -> None:
    bands = (
        PainBand(up_to=1, action=PainAction.CARRY_ON),
        PainBand(up_to=3, action=PainAction.STAY),
        PainBand(up_to=10, action=PainAction.STOP_TODAY),
    )
    own = PainRule(during=bands, next_morning=NextMorning(most=2, action=PainAction.STAY))
    protocol = put(SMALL, f"{FIRST}.pain", own)
    (exercise,) = parts_of(small(protocol, SMALL_CARD, 1), Exercise)
    assert "For this exercise, pain of 2 or 3: Stay at this level." in exercise.details
    assert "Pain above 2 next morning? Stay at this level." in exercise.details


def test_so_many_of_several_criteria_are_said_with_their_number() -> None:
    """Three of four findings: Hicks GE et al. Arch Phys Med Rehabil 2005;86:1753."""
    parts = tuple(InWords(id=word, words=say(f"{word.upper()}.")) for word in "abcd")
    some = AnyOf(id="some", parts=parts, at_least=3)
    assert criterion_words(some, small_context()) == "At least 3 of these: A; B; C; D"
    assert criterion_words(evolve(some, at_least=1), small_context()) == "A., B., C. or D."


@pytest.mark.parametrize(
    ("unit", "words"),
    [
        (Unit.BEATS_PER_MINUTE, "90 beats a minute"),
        (Unit.WATTS, "90 W"),
        (Unit.CMH2O, "90 cmH₂O"),
        (Unit.NEWTON_METRES_PER_KILOGRAM, "90 N·m per kg"),
        (Unit.TIMES_BODY_WEIGHT, "90 times your body weight"),
        (Unit.FEET, "90 ft"),
        (Unit.YARDS, "90 yd"),
        (Unit.PERCENT, "90%"),
    ],
)
def test_a_criterion_has_its_unit_and_may_be_a_share_of_ones_own_first_test(
    unit: Unit, words: str
) -> None:
    one = Measured(
        id="m", measure="grip-force", comparator=Comparator.AT_LEAST, value=90, unit=unit
    )
    assert criterion_words(one, small_context()) == f"Grip force: {words} or more"
    share = evolve(one, side=SideComparison.PERCENT_OF_BASELINE)
    assert criterion_words(share, small_context()).endswith(" or more of your own first test")
