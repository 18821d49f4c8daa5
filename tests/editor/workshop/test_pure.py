"""The workshop without its window: the grid, edits, reading, uses."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from immutabledict import immutabledict

from authoring.checks.readability import ReadingGrade, TooShort
from authoring.editor.workshop import edits
from authoring.editor.workshop.ladder_model import (
    Side,
    Spot,
    beside,
    column,
    rows_of,
    short_dose,
    spot_of,
)
from authoring.editor.workshop.reading import instead_of, read, words_of_text
from authoring.editor.workshop.where import days_overdue, newest_reference, reach
from authoring.editor.workshop.words import dose_words, face_of, said_dose
from authoring.model.base import ModelError, evolve
from authoring.model.card import Card, HoldDetail, Variant
from authoring.model.caution import Caution
from authoring.model.dose import Dose, Holds, Repetitions, Rest
from authoring.model.edits.variants import derive_variant
from authoring.model.library import Library, LibraryFile
from authoring.model.load import BodyWeightLoad, IntRange
from authoring.model.protocol import Block, Entry, Protocol, Stage
from authoring.model.sources import Reference
from authoring.model.text import Text
from authoring.model.vocabulary import CautionKind, Mode, Status
from tests.editor.conftest import ANKLE, HEEL, LIBRARY_ID, make_card, make_variant, words


def variant(key: str, rung: int, mode: Mode = Mode.DYNAMIC, **fields: object) -> Variant:
    return Variant(id=key, rung=rung, name=words(key), mode=mode, **fields)  # type: ignore[arg-type]


def card(*variants: Variant, **fields: object) -> Card:
    made: Card = evolve(make_card(HEEL, "heel-raise", "Heel raise"), variants=variants, **fields)
    return made


LADDER = card(
    variant("two", 0),
    variant("water", 0),
    variant("hold", 0, Mode.ISOMETRIC),
    variant("one", 2),
    variant("hold-one", 2, Mode.ISOMETRIC),
)

ladders = st.lists(
    st.tuples(st.integers(-4, 4), st.sampled_from([Mode.DYNAMIC, Mode.ISOMETRIC, Mode.STRETCH])),
    max_size=9,
).map(lambda kinds: card(*(variant(f"v{i}", r, m) for i, (r, m) in enumerate(kinds))))


# ---- the grid -----------------------------------------------------------------------


def test_the_hardest_rung_stands_on_top_and_free_rungs_have_their_place() -> None:
    assert [row.rung for row in rows_of(LADDER)] == [2, 1, 0]


def test_alternatives_of_a_rung_keep_the_authors_order() -> None:
    assert [v.id for v in rows_of(LADDER)[2].moving] == ["two", "water"]


def test_a_card_without_variants_has_rung_0() -> None:
    assert [row.rung for row in rows_of(card())] == [0]


@given(ladders)
def test_every_variant_stands_in_the_grid_once(one: Card) -> None:
    rows = rows_of(one)
    found = [spot.variant for side in Side for spot in column(rows, side) if spot.variant]
    assert sorted(found) == sorted(v.id for v in one.variants)


@given(ladders, st.data())
def test_an_arrow_key_leads_to_a_place_of_the_grid_and_never_the_wrong_way(
    one: Card, data: st.DataObject
) -> None:
    rows = rows_of(one)
    spots = [spot for side in Side for spot in column(rows, side)]
    here = data.draw(st.sampled_from(spots))
    up, down = beside(rows, here, up=1), beside(rows, here, up=-1)
    assert up in spots
    assert up.rung >= here.rung >= down.rung
    across = beside(rows, here, side=Side.HOLDING)
    assert (across.rung, across.side) == (here.rung, Side.HOLDING)


@pytest.mark.parametrize(
    ("here", "goal"),
    [
        (Spot(0, Side.MOVING, "water"), Spot(0, Side.MOVING, "two")),
        (Spot(0, Side.MOVING, "two"), Spot(1, Side.MOVING)),
        (Spot(1, Side.MOVING), Spot(2, Side.MOVING, "one")),
        (Spot(2, Side.MOVING, "one"), Spot(2, Side.MOVING, "one")),
    ],
)
def test_up_goes_through_the_alternatives_to_the_rung_above(here: Spot, goal: Spot) -> None:
    assert beside(rows_of(LADDER), here, up=1) == goal


def test_a_variant_that_is_gone_has_no_place() -> None:
    assert spot_of(LADDER, "gone") is None


# ---- what a cell says ---------------------------------------------------------------

# "3 x 8-12" is how the trade writes three sets of eight to twelve: common practice, no source.
FULL = Dose(
    work=Repetitions(sets=IntRange(low=3), reps=(IntRange(low=8, high=12),)),
    loads=(BodyWeightLoad(),),
    rest=Rest(seconds=IntRange(low=60)),
)


def test_a_cell_gives_the_work_alone() -> None:
    assert dose_words(FULL).replace("\N{NO-BREAK SPACE}", " ") == "3 × 8–12"


def test_the_short_dose_keeps_the_work() -> None:
    assert short_dose(FULL).work == FULL.work


def test_a_screen_reader_hears_what_height_says() -> None:
    two = make_variant(1, "One leg at a chair")
    face = face_of(card(two), two, "")
    assert face.spoken == "One leg at a chair, moving, progression 1, 3 by 8 to 12"


def test_a_variant_without_name_and_dose_says_so() -> None:
    bare = variant("new", -2)
    face = face_of(card(evolve(bare, name=words(""))), evolve(bare, name=words("")), "")
    assert face.spoken == "No name yet, moving, regression 2, no dose"


def test_a_dose_of_holds_is_said_in_words() -> None:
    work = Holds(holds=IntRange(low=5), hold_s=(IntRange(low=30),))
    assert said_dose(dose_words(Dose(work=work))) == "5 by 30 s hold"


# ---- edits ----------------------------------------------------------------------------


def test_a_variant_that_becomes_a_hold_stands_in_for_the_moving_one_beside_it() -> None:
    changed = edits.with_mode(card(variant("a", 0), variant("b", 0)), "b", Mode.ISOMETRIC)
    held = changed.variant("b")
    assert held is not None
    assert held.hold == HoldDetail(stands_in_for=("a",))


def test_the_only_variant_becomes_a_hold_for_none() -> None:
    held = edits.with_mode(card(variant("a", 0)), "a", Mode.ISOMETRIC).variant("a")
    assert held is not None
    assert held.hold == HoldDetail()


def test_a_hold_that_moves_again_stands_in_for_none() -> None:
    moving = edits.with_mode(LADDER, "hold", Mode.DYNAMIC).variant("hold")
    assert moving is not None
    assert moving.hold is None


@given(ladders.filter(lambda one: bool(one.variants)), st.data())
def test_a_replaced_variant_leaves_all_others_the_same_objects(
    one: Card, data: st.DataObject
) -> None:
    old = data.draw(st.sampled_from(one.variants))
    changed = edits.replaced(one, evolve(old, name=words("changed")))
    others = [v for v in changed.variants if v.id != old.id]
    assert all(one.variant(v.id) is v for v in others)
    assert [v.id for v in changed.variants] == [v.id for v in one.variants]


def test_a_copy_differs_in_its_name_alone_though_its_cautions_have_ids_of_their_own() -> None:
    caution = Caution(id="breath", kind=CautionKind.PRECAUTION, text=words("Breathe."))
    one = card(variant("a", 0, cautions=(caution,)))
    made = derive_variant(one, source="a", rung=0, name=words("b")).value
    assert made.variants[0].cautions[0].id != made.variants[1].cautions[0].id
    assert edits.differing(made.variants[1], made.variants[0]) == ("name",)


@given(ladders.filter(lambda one: len(one.variants) > 1))
def test_differences_are_the_same_from_both_sides(one: Card) -> None:
    a, b = one.variants[:2]
    assert edits.differing(a, b) == edits.differing(b, a)
    assert edits.differing(a, a) == ()


def step_card(step: str) -> Card:
    return card(variant("a", 0, steps=(words(step),)))


@pytest.mark.parametrize(
    ("step", "start", "old", "new", "after"),
    [
        ("Ask your physician.", 9, "physician", "doctor", "Ask your doctor."),
        ("Utilize a chair.", 0, "Utilize", "use", "Use a chair."),
    ],
)
def test_plain_words_take_the_place_and_the_capital_of_the_hard_ones(
    step: str, start: int, old: str, new: str, after: str
) -> None:
    changed = edits.with_word_changed(step_card(step), "variants[0].steps[0]", old, start, new)
    assert changed.variants[0].steps[0] == words(after)


def test_plain_words_are_not_put_into_a_text_that_has_changed_since() -> None:
    with pytest.raises(ModelError) as refused:
        edits.with_word_changed(
            step_card("Ask your nurse."), "variants[0].steps[0]", "physician", 9, "doctor"
        )
    assert refused.value.sentence == "The text has changed; “physician” is not there any more."


def test_plain_words_go_into_the_cards_own_language_alone() -> None:
    text = Text({"en": "Observe it.", "de": "Observe"})
    one = card(variant("a", 0, start=text))
    changed = edits.with_word_changed(one, "variants[0].start", "Observe", 0, "watch")
    assert changed.variants[0].start == Text({"en": "Watch it.", "de": "Observe"})


# ---- reading ----------------------------------------------------------------------------

_ENDS = "mat,bed,rug,box,bar,wall,tub,step,couch,bench,block,sheet,floor"
PLAIN = tuple(words(f"Put both your heels flat on the {end}.") for end in _ENDS.split(","))
"""13 sentences of 8 words of one syllable each, counted by hand: 104 words."""


def test_the_grade_is_that_of_the_published_formula() -> None:
    """Kincaid and others, Research Branch Report 8-75, 1975:
    0.39 words per sentence + 11.8 syllables per word - 15.59."""
    reading = read(card(variant("a", 0, steps=PLAIN)), "a")
    assert isinstance(reading.variant, ReadingGrade)
    assert reading.variant.grade == pytest.approx(0.39 * 8 + 11.8 * 1 - 15.59)


def test_a_sentence_that_two_variants_share_counts_once() -> None:
    twice = read(card(variant("a", 0, steps=PLAIN), variant("b", 1, steps=PLAIN)), "a")
    assert isinstance(twice.card, ReadingGrade)
    assert twice.card.counts.words == 104


def test_a_short_variant_is_not_graded_and_says_how_many_words_it_has() -> None:
    reading = read(card(variant("a", 0, steps=PLAIN[:2])), "a")
    assert isinstance(reading.variant, TooShort)
    assert reading.variant.counts.words == 16


def test_hard_words_are_placed_and_names_are_left_out() -> None:
    one = card(variant("physician", 0, steps=(words("Stand tall."), words("Ask your physician."))))
    (found,) = read(one, "physician").words
    assert (found.path, found.found.word, found.instead) == (
        "variants[0].steps[1]",
        "physician",
        "doctor",  # pair of the user's guide of PEMAT (AHRQ 14-0002-EF, 2013)
    )


def test_words_that_the_clinic_knows_are_not_hard() -> None:
    assert read(step_card("Ask your physician."), "a", frozenset({"physician"})).words == ()


def test_cards_in_other_languages_are_not_measured() -> None:
    german = evolve(step_card("Observe the physician."), language="de")
    assert read(german, "a").words == ()


def test_the_rest_of_the_card_is_counted_apart() -> None:
    one = card(
        variant("a", 0, steps=(words("Stand tall."),)),
        variant("b", 1, steps=(words("Ask your physician."),)),
    )
    assert (read(one, "a").words, read(one, "a").others) == ((), 1)


def test_of_several_suggestions_the_first_can_be_put_in() -> None:
    (found,) = words_of_text("Do it unilaterally.", "en")
    assert (found.suggestion, instead_of(found)) == (
        "one-sided, or one side at a time",
        "one-sided",
    )


def test_a_vague_phrase_is_named_once() -> None:
    assert [one.word for one in words_of_text("Bend as tolerated.", "en")] == ["as tolerated"]


@given(st.text(max_size=80))
def test_hard_words_of_any_text_stand_where_they_say(text: str) -> None:
    for one in words_of_text(text, "en"):
        assert text[one.start : one.end] == one.word


# ---- uses -------------------------------------------------------------------------------


def protocol(status: Status, *entries: Entry) -> Protocol:
    stage = Stage(id="s", name=words("First"), blocks=(Block(id="b", entries=entries),))
    return Protocol(
        id=ANKLE,
        slug="ankle",
        language="en",
        title=words("Ankle sprain, invented"),
        status=status,
        stages=(stage,),
    )


def library(one: Card, plan: Protocol | None = None) -> Library:
    return Library(
        manifest=LibraryFile(id=LIBRARY_ID, name="Invented", language="en"),
        cards=immutabledict({one.id: one}),
        protocols=immutabledict({} if plan is None else {plan.id: plan}),
    )


def test_exercises_that_may_use_the_variant_come_first() -> None:
    plan = protocol(
        Status.DRAFT,
        Entry(id="e1", card=HEEL, start="two", allowed=("two",)),
        Entry(id="e2", card=HEEL, start="one", allowed=("one",)),
    )
    whole = library(LADDER, plan)
    found = reach(whole, whole, HEEL, "one").lines
    assert [(line.number, line.starts, line.may_use) for line in found] == [
        (2, True, True),
        (1, False, False),
    ]
    assert found[0].path == "stages[0].blocks[0].entries[1]"


def test_approved_protocols_are_named() -> None:
    whole = library(LADDER, protocol(Status.APPROVED, Entry(id="e1", card=HEEL, start="two")))
    assert reach(whole, whole, HEEL, "two").approved == ("Ankle sprain, invented",)


def test_edits_that_are_not_saved_name_the_protocols_they_change() -> None:
    plan = protocol(Status.APPROVED, Entry(id="e1", card=HEEL, start="two", allowed=("two",)))
    saved = library(LADDER, plan)
    harder = edits.replaced(LADDER, evolve(LADDER.variants[0], steps=(words("Rise."),)))
    other = edits.replaced(LADDER, evolve(LADDER.variants[3], steps=(words("Rise."),)))
    assert reach(library(harder, plan), saved, HEEL, "two").touched == ("Ankle sprain, invented",)
    assert reach(library(other, plan), saved, HEEL, "one").touched == ()


def test_freshness_is_told_from_references_and_dates() -> None:
    dated = evolve(
        LADDER,
        references=(
            Reference(id="a", citation="A", year=2015),
            Reference(id="b", citation="B", year=2021),
            Reference(id="c", citation="C"),
        ),
        review_due=dt.date(2026, 3, 1),
    )
    assert newest_reference(dated) == 2021
    assert days_overdue(dated, dt.date(2026, 3, 11)) == 10
    assert newest_reference(LADDER) is None
    assert days_overdue(LADDER, dt.date(2026, 3, 11)) == 0
