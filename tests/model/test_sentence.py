"""Sentences that remember what they were made of."""

import copy
import pickle
from string import Formatter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.model.sentence import Sentence, say, say_n
from authoring.model.vocabulary import WindowKind

INNER = say("the card {name}", name="Squat")
WHOLE = say_n("{what} has {n} step.", "{what} has {n} steps.", 2, what=INNER)


def test_a_sentence_is_its_english_words() -> None:
    assert WHOLE == "the card Squat has 2 steps."
    assert {WHOLE: 1}["the card Squat has 2 steps."] == 1
    assert say("No place at all: 100 %.") == "No place at all: 100 %."


@pytest.mark.parametrize(("count", "words"), [(0, "0 sets"), (1, "1 set"), (2, "2 sets")])
def test_english_has_one_form_for_one_and_one_for_all_else(count: int, words: str) -> None:
    """Plural rules of English (CLDR: one for 1, other for the rest)."""
    assert say_n("{n} set", "{n} sets", count) == words


def test_a_value_of_a_closed_list_is_said_in_words() -> None:
    assert say("over {window}", window=WindowKind.CONSECUTIVE_DAYS) == "over consecutive days"


@pytest.mark.parametrize("again", [pickle.loads(pickle.dumps(WHOLE)), copy.deepcopy(WHOLE)])
def test_a_sentence_keeps_its_parts_on_its_way_to_another_process(again: Sentence) -> None:
    assert again == WHOLE
    assert (again.template, again.other, again.number) == (WHOLE.template, WHOLE.other, 2)
    assert again.places["what"] == INNER
    assert isinstance(again.places["what"], Sentence)


def test_a_place_that_is_not_given_is_a_fault_of_ours() -> None:
    with pytest.raises(KeyError):
        say("the card {name}")


@given(st.text(), st.integers(), st.floats(allow_nan=False))
def test_words_of_people_are_never_read_as_places(words: str, whole: int, part: float) -> None:
    """The standard library's own formatter is the judge."""
    made = say("{words} {whole} {part:g}", words=words, whole=whole, part=part)
    assert made == Formatter().format("{a} {b} {c:g}", a=words, b=whole, c=part)
