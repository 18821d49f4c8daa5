"""Places: paths are read, followed and replaced, and said in words."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.checks.result import Subject
from authoring.editor.document import Document
from authoring.editor.ids import fresh_id, ids_in, slug_of
from authoring.editor.place import Place, is_within, steps, value_at, with_value_at
from authoring.editor.place_words import words_of_place
from authoring.model.base import ModelError
from authoring.model.text import Text
from tests.editor.conftest import ANKLE, HEEL, make_card, make_protocol

CARD = make_card(HEEL, "heel-raise", "Heel raise")


def test_a_path_is_read_in_steps() -> None:
    assert steps("stages[1].blocks[0].entries[3].dose") == (
        "stages",
        1,
        "blocks",
        0,
        "entries",
        3,
        "dose",
    )
    assert steps("") == ()


@pytest.mark.parametrize(
    ("path", "ancestor", "inside"),
    [
        ("variants[1].steps[0]", "variants[1]", True),
        ("variants[1]", "variants[1]", True),
        ("variants[12]", "variants[1]", False),
        ("variants[1]", "variants[1].steps", False),
        ("anything", "", True),
    ],
)
def test_a_place_lies_inside_another(path: str, ancestor: str, inside: bool) -> None:
    assert is_within(path, ancestor) is inside


def test_a_value_is_found_and_replaced_at_its_path() -> None:
    path = "variants[1].steps[0]"
    new = Text.plain("Hold the chair.")
    changed = with_value_at(CARD, path, new)
    assert value_at(changed, path) == new
    assert changed.variants[0] is CARD.variants[0]
    assert with_value_at(changed, path, value_at(CARD, path)) == CARD


def test_a_replacement_outside_the_limits_is_refused() -> None:
    with pytest.raises(ModelError, match="rung must be at most 20"):
        with_value_at(CARD, "variants[0].rung", 21)


@pytest.mark.parametrize("path", ["variants[9].rung", "nothing", "title.nothing"])
def test_there_is_nothing_to_replace_where_there_is_no_place(path: str) -> None:
    with pytest.raises(LookupError, match=r"^there is no (item|field) \w+ at this place$"):
        with_value_at(CARD, path, 1)


def test_the_nearest_value_above_a_lost_place_is_found() -> None:
    assert value_at(CARD, "variants[9].steps[0]") == CARD.variants
    assert value_at(CARD, "purpose.values") is CARD


@pytest.mark.parametrize(
    ("place", "words"),
    [
        (
            Place(Subject.PROTOCOL, ANKLE, "stages[1].blocks[0].entries[0].dose"),
            "dose, 2 Heel raise, stage 2, Ankle sprain, invented",
        ),
        (
            Place(Subject.PROTOCOL, ANKLE, "stages[0].move_on"),
            "move on, stage 1, Ankle sprain, invented",
        ),
        (Place(Subject.PROTOCOL, ANKLE), "Ankle sprain, invented"),
        (
            Place(Subject.CARD, HEEL, "variants[1].steps[1]"),
            "steps 2, One leg, Heel raise",
        ),
        (Place(Subject.CLINIC, "", "phone"), "phone, Larkfield Movement Clinic"),
        (Place(Subject.LIBRARY, "", "terms[1].name"), "name, Chair, Invented library"),
        (Place(Subject.CARD, "gone", "title"), ""),
    ],
)
def test_a_place_is_said_as_people_say_it(document: Document, place: Place, words: str) -> None:
    assert words_of_place(document.library, place) == words


@given(st.text(max_size=30), st.sets(st.text("abc-", min_size=1, max_size=5), max_size=6))
def test_a_fresh_id_is_free_and_fits_the_files(words: str, taken: set[str]) -> None:
    made = fresh_id(words, taken | {slug_of(words)})
    assert made not in taken
    assert make_card(HEEL, made, "Any").slug == made


def test_every_inner_id_of_a_file_is_known() -> None:
    found = ids_in(make_protocol())
    assert {"settle", "load", "main", "more", "heel-1", "heel-2", ANKLE} == found
