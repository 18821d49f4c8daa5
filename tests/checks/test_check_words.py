"""Sentences of results, the texts a patient reads, and the quick test before the slow ones."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.checks import plain_word_pairs as pairs
from authoring.checks.context import Context, Shelf
from authoring.checks.language import NotForLanguage
from authoring.checks.naming import listed, quoted
from authoring.checks.patient_text import CLINICIAN, PATIENT, handout_texts, pieces
from authoring.checks.plain_words import hard_words, letter_runs, may_be_listed, vague_phrases
from authoring.checks.result import Strength, Subject, schema_result, unknown_field_result
from authoring.checks.sentences import words
from authoring.files.faults import place
from authoring.model import card, caution, clinic, criterion, dose, load, pain, protocol, sources
from authoring.model.base import Node, evolve, fields
from tests.checks.build import CARD, LIBRARY, PROTOCOL, TODAY, get, only, put, results, say

MODULES = (card, caution, clinic, criterion, dose, load, pain, protocol, sources)


def holders_of_text() -> list[tuple[type[Node], str]]:
    classes = {
        each
        for module in MODULES
        for each in vars(module).values()
        if isinstance(each, type) and issubclass(each, Node)
    }
    return [
        (cls, field.name)
        for cls in sorted(classes, key=lambda cls: cls.__name__)
        for field in fields(cls)
        if "Text" in str(field.type)
    ]


@pytest.mark.parametrize(("cls", "name"), holders_of_text())
def test_every_text_is_the_patients_or_the_clinicians(cls: type[Node], name: str) -> None:
    if (cls, name) == (sources.Source, "disagrees"):
        return  # printed in the list of sources, for neither
    assert (name in PATIENT.get(cls, ())) != (name in CLINICIAN.get(cls, ()))


def test_the_words_of_a_handout_are_those_of_the_variants_it_uses() -> None:
    only_first = evolve(PROTOCOL, stages=PROTOCOL.stages[:1])
    told = put(
        put(CARD, "variants[0].breathing", say("Down.")), "variants[3].breathing", say("Up.")
    )
    library = evolve(LIBRARY, cards={CARD.id: told})
    texts = handout_texts(only_first, Context(Shelf.of(library, TODAY)))
    assert "It makes your calf strong." in texts
    assert "Down." in texts
    assert "Up." not in texts
    assert "Heel raise" not in texts
    assert "Strength" not in texts
    assert len(texts) == len(set(texts))


def test_words_of_a_card_in_another_language_are_left_out() -> None:
    foreign = evolve(LIBRARY, cards={CARD.id: evolve(CARD, language="pt")})
    texts = handout_texts(PROTOCOL, Context(Shelf.of(foreign, TODAY)))
    assert "It makes your calf strong." not in texts


def test_places_are_written_as_those_of_faults_in_files() -> None:
    broken = put(PROTOCOL, "stages[0].blocks[0].entries[0].start", "gone")
    result = only(
        results(evolve(LIBRARY, protocols={PROTOCOL.id: broken})), "reference-missing-variant"
    )
    assert result.path == place(["stages", 0, "blocks", 0, "entries", 0, "start"])
    assert get(broken, result.path) == "gone"


def test_faults_of_a_file_become_results() -> None:
    result = schema_result(Subject.CARD, "x", "title", "'title' is missing", "add it")
    assert result.strength is Strength.MUST
    assert (result.code, result.mend) == ("schema", "Add it.")
    assert result.sentence == "'title' is missing."
    assert unknown_field_result(Subject.PLAN, "x", "colour").strength is Strength.MAY


PHRASES = sorted(
    form.strip()
    for table in (pairs.TRADE, pairs.GUIDE, pairs.VAGUE)
    for line in table.strip().splitlines()
    for form in line.partition("=")[0].split(",")
)


@pytest.mark.parametrize("phrase", PHRASES)
def test_no_listed_phrase_slips_through_the_quick_test(phrase: str) -> None:
    for text in (phrase, phrase.upper(), f"Do it ({phrase}) now."):
        assert may_be_listed(letter_runs(text))


@given(st.lists(st.sampled_from([*PHRASES, "rise", "and", "’s", "-", "8-12", "\n"]), max_size=6))
def test_the_quick_test_never_hides_a_word(chosen: list[str]) -> None:
    text = " ".join(chosen)
    vague, hard = vague_phrases(text, "en"), hard_words(text, "en")
    assert not isinstance(vague, NotForLanguage)
    assert not isinstance(hard, NotForLanguage)
    if vague or any(each.suggestion for each in hard):
        assert may_be_listed(letter_runs(text))


@given(st.text(max_size=60))
def test_no_text_has_more_words_than_pieces(text: str) -> None:
    assert len(words(text)) <= pieces(text)


def test_names_are_listed_as_people_say_them() -> None:
    assert listed(["a"]) == "a"
    assert listed(["a", "b"]) == "a and b"
    assert listed(["a", "b", "c"]) == "a, b and c"
    assert listed(["a", "b", "c", "d", "e"]) == "a, b, c and 2 more"
    assert listed(["a", "a"]) == "a"


def test_a_long_name_is_cut_and_stays_on_one_line() -> None:
    assert quoted("a\n b") == "“a b”"
    assert len(quoted("word " * 100)) <= 62
    assert quoted("word " * 100).endswith("…”")


def test_a_result_names_the_exercise_and_its_stage() -> None:
    broken = put(LIBRARY.cards[CARD.id], "variants[2].dose", None)
    result = only(
        [r for r in results(evolve(LIBRARY, cards={CARD.id: broken})) if "stages[1]" in r.path],
        "dose-missing",
    )
    assert result.sentence == (
        "Exercise 2 (“Heel raise”, stage 2) has no dose, and neither has its start variant."
    )


def test_one_result_speaks_for_many_places() -> None:
    bare = evolve(CARD, variants=tuple(evolve(each, start=None) for each in CARD.variants))
    result = only(results(evolve(LIBRARY, cards={CARD.id: bare})), "start-position-missing")
    assert result.path == "variants[0].start"
    assert result.sentence == (
        "“Heel raise” has 4 variants without a start position: "
        "“Two legs”, “Two legs still”, “One leg” and 1 more."
    )


def test_words_the_clinic_knows_are_not_hard() -> None:
    text = say("It helps with inflammation.")
    broken = put(CARD, "purpose", text)
    manifest = evolve(LIBRARY.manifest, clinic_words=("Inflammation",))
    library = evolve(LIBRARY, cards={CARD.id: broken})
    assert "hard-words" in [result.code for result in results(library)]
    told = evolve(library, manifest=manifest)
    assert "hard-words" not in [result.code for result in results(told)]
