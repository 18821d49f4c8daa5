"""The parts of a handout stand in the order of the page: which, how much, what if it hurts.

The order is that of the page design: where you are, what to do, how often, how much pain is
OK, when to stop and whom to call; then the exercises; then diary and what must be true.
"""

from __future__ import annotations

import re

import pytest

from authoring.handout.compose import Options, compose
from authoring.handout.document import (
    BlockHeading,
    Diary,
    Direction,
    Exercise,
    Facts,
    Glance,
    HandoutDocument,
    Notes,
    PageSize,
    PainGuide,
    PrintSize,
    Ready,
    SmallPrint,
    StageHeading,
    Stairs,
    StopBox,
)
from authoring.handout.errors import HandoutError
from authoring.handout.words import words
from authoring.model.base import evolve
from tests.checks.build import put
from tests.handout.clinic_sheets import (
    CARDS,
    PROTOCOLS,
    SMALL,
    STAGES,
    parts_of,
    printed,
    small,
    small_context,
    small_sheet,
)

NOWHERE = "00000000-0000-4000-8000-000000000000"

LETTER = {
    Stairs: "s",
    Glance: "g",
    Facts: "f",
    PainGuide: "p",
    StopBox: "x",
    Notes: "n",
    StageHeading: "S",
    BlockHeading: "b",
    Exercise: "e",
    Diary: "d",
    Ready: "r",
    SmallPrint: "i",
}


def shape(document: HandoutDocument) -> str:
    return "".join(LETTER[type(part)] for part in document.parts)


@pytest.mark.parametrize(("slug", "stage"), STAGES)
def test_a_stage_is_printed_in_the_order_of_the_page(slug: str, stage: int) -> None:
    assert re.fullmatch(r"sgfpxn*(b?e+)+n*dr?i", shape(printed(slug, (stage,))))


@pytest.mark.parametrize("slug", PROTOCOLS)
def test_a_whole_protocol_repeats_that_order_stage_by_stage(slug: str) -> None:
    stages = len(PROTOCOLS[slug].stages)
    one_rule = r"sp?x"
    each = r"(Sgfp?n*(b?e+)+n*dr?)"
    assert re.fullmatch(rf"{one_rule}{each}{{{stages}}}n*i", shape(printed(slug)))


@pytest.mark.parametrize("slug", CARDS)
def test_a_card_alone_has_the_same_safety_first(slug: str) -> None:
    assert re.fullmatch(r"gfpxn*en*di", shape(printed(slug)))


@pytest.mark.parametrize("slug", PROTOCOLS)
def test_numbers_run_through_the_whole_protocol(slug: str) -> None:
    whole = [exercise.number for exercise in parts_of(printed(slug), Exercise)]
    assert whole == sorted(whole)
    apart = [
        exercise.number
        for stage in range(1, len(PROTOCOLS[slug].stages) + 1)
        for exercise in parts_of(printed(slug, (stage,)), Exercise)
    ]
    assert apart == whole
    assert apart == list(PROTOCOLS[slug].numbers().values())


@pytest.mark.parametrize(("slug", "stage"), STAGES)
def test_glance_exercises_and_diary_name_the_same_exercises(slug: str, stage: int) -> None:
    document = printed(slug, (stage,))
    (glance,), (diary,) = parts_of(document, Glance), parts_of(document, Diary)
    exercises = parts_of(document, Exercise)
    bare = [(item.number, item.name.removeprefix("or ")) for item in glance.items]
    assert bare == [(each.number, each.name) for each in exercises]
    (rows,) = {week.exercise_rows for week in diary.weeks}
    for item, each, row in zip(glance.items, exercises, rows, strict=True):
        # How often follows where it is the exercise's own.
        often = item.dose.removeprefix(each.dose)
        assert row == f"{item.number} {item.name}{often}"
        said = f"Do this {often.removeprefix(', ')}."
        assert not often or said in each.details


def test_the_second_exercise_of_a_choice_is_listed_with_or() -> None:
    (glance,) = parts_of(printed("lateral-ankle-sprain-back-to-running", (2,)), Glance)
    assert [item.name for item in glance.items if item.name.startswith("or ")] == [
        "or Brisk walk, flat path"
    ]


@pytest.mark.parametrize("slug", PROTOCOLS)
def test_the_stairs_show_every_stage_and_where_you_are(slug: str) -> None:
    protocol = PROTOCOLS[slug]
    for stage in range(1, len(protocol.stages) + 1):
        (stairs,) = parts_of(printed(slug, (stage,)), Stairs)
        assert [step.number for step in stairs.steps if step.here] == [stage]
        assert len(stairs.steps) == len(protocol.stages)
        assert stairs.here_label == "You are here"
    (whole,) = parts_of(printed(slug), Stairs)
    assert not any(step.here for step in whole.steps)
    assert whole.here_label == ""


def test_several_stages_but_not_all_are_all_marked() -> None:
    (stairs,) = parts_of(printed("lateral-ankle-sprain-back-to-running", (2, 3)), Stairs)
    assert [step.number for step in stairs.steps if step.here] == [2, 3]


def test_numbers_that_carry_on_say_from_where() -> None:
    slug = "lateral-ankle-sprain-back-to-running"
    assert parts_of(printed(slug, (1,)), Glance)[0].note == ""
    assert parts_of(printed(slug, (3,)), Glance)[0].note == "Numbers carry on from stage 2"


@pytest.mark.parametrize("slug", PROTOCOLS)
def test_what_to_do_next_names_the_next_stage_and_the_last_its_end(slug: str) -> None:
    last = len(PROTOCOLS[slug].stages)
    for stage in range(1, last + 1):
        (ready,) = parts_of(printed(slug, (stage,)), Ready)
        heading = f"Ready for stage {stage + 1}?" if stage < last else "Ready to finish?"
        assert ready.heading == heading
        assert len(ready.ticks) >= 1
        assert ready.outcomes[0].question in (f"All {len(ready.ticks)} ticked?", "Is it ticked?")


@pytest.mark.parametrize("slug", PROTOCOLS)
def test_the_page_says_who_what_and_that_it_is_invented(slug: str) -> None:
    document = printed(slug, (1,))
    protocol = PROTOCOLS[slug]
    assert document.masthead.clinic_name == "Larkfield Movement Clinic"
    assert document.author == "Larkfield Movement Clinic"
    assert document.footer.startswith("Larkfield Movement Clinic  ·  01632")
    assert document.footer.endswith("Sample: all data invented")
    assert document.subject.startswith("Stage 1 of ")
    (small_print,) = parts_of(document, SmallPrint)
    assert f"version {protocol.version}." in " ".join(small_print.lines)
    assert "Approved by" in " ".join(small_print.lines)
    assert small_print.lines[-1].startswith("This is an invented sample.")


def test_page_and_print_size_are_the_clinics_unless_asked_for() -> None:
    slug = "patellofemoral-pain"
    assert printed(slug, (1,)).page_size is PageSize.A4
    assert printed(slug, (1,)).print_size is PrintSize.STANDARD
    other = printed(slug, (1,), PageSize.LETTER, PrintSize.LARGE)
    assert (other.page_size, other.print_size) == (PageSize.LETTER, PrintSize.LARGE)
    assert words(other) == words(printed(slug, (1,)))


def test_a_right_to_left_language_sets_the_direction() -> None:
    """Arabic is written from right to left (CLDR); English is not."""
    context = small_context()
    arabic = evolve(context, phrases=evolve(context.phrases, language="ar"))
    assert compose(small_sheet(), arabic, Options()).direction is Direction.RTL
    assert compose(small_sheet(), context, Options()).direction is Direction.LTR


def test_a_stage_without_exercises_prints_without_empty_tables() -> None:
    idle = put(SMALL, "stages[0].blocks", ())
    assert shape(small(idle, small_sheet().stages[0].groups[0].items[0].card, 1)) == "spxnnri"


@pytest.mark.parametrize("wanted", [(0,), (3,), (1, 9), (-1,)])
def test_a_stage_that_is_not_there_is_named(wanted: tuple[int, ...]) -> None:
    with pytest.raises(
        HandoutError, match=r"There is no stage .*; this protocol has stages 1 to 2"
    ):
        small_sheet(SMALL, small_sheet().stages[0].groups[0].items[0].card, *wanted)


def test_a_protocol_without_stages_says_what_to_do() -> None:
    with pytest.raises(HandoutError, match="has no stage yet; add a stage"):
        small_sheet(evolve(SMALL, stages=()))


@pytest.mark.parametrize(
    ("path", "new", "told"),
    [
        (
            "stages[0].blocks[0].entries[0].card",
            NOWHERE,
            "uses a card",
        ),
        ("stages[0].blocks[0].entries[0].start", "nowhere", "starts with the variant 'nowhere'"),
    ],
)
def test_what_a_protocol_lacks_is_named_by_exercise(path: str, new: str, told: str) -> None:
    with pytest.raises(HandoutError, match=told):
        small(put(SMALL, path, new))
