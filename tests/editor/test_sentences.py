"""What the rooms below say, in the language of the interface."""

from collections.abc import Iterator

import pytest

from authoring.checks.context import Shelf
from authoring.checks.library import check_protocol
from authoring.checks.result import CheckResult
from authoring.editor import i18n
from authoring.editor.sentences import said
from authoring.editor.vocabulary_words import words_of
from authoring.model.base import evolve
from authoring.model.sentence import say, say_n
from authoring.model.vocabulary import TermKind
from tests.checks.broken import BROKEN
from tests.checks.build import LIBRARY, PROTOCOL, TODAY, results


@pytest.fixture
def french() -> Iterator[None]:
    i18n.use("fr")
    yield
    i18n.use("en")


def check_named(code: str) -> CheckResult:
    empty = evolve(PROTOCOL, stages=(), cautions=())
    found = check_protocol(empty, Shelf.of(LIBRARY, TODAY))
    return next(result for result in found if result.code == code)


@pytest.mark.usefixtures("french")
def test_a_protocol_check_is_said_in_the_language_in_use() -> None:
    result = check_named("stop-signs-missing")
    assert said(result.sentence) == (
        "Le protocole n’a aucun signe d’arrêt\u00a0: rien ne dit au patient quand s’arrêter."
    )
    assert said(result.mend).startswith("Ajoutez des signes d’arrêt, chacun avec sa conduite")
    assert result.sentence.startswith("The protocol has no stop sign")


def test_in_english_a_sentence_is_as_it_was_made() -> None:
    result = check_named("stop-signs-missing")
    assert said(result.sentence) == result.sentence


@pytest.mark.usefixtures("french")
def test_a_place_that_is_a_sentence_is_said_likewise() -> None:
    inner = say("Stage {number} ({name})", number=2, name=say("“{words}”", words="Load"))
    assert said(say("{stage} has no exercise.", stage=inner)) == (
        "L’étape 2 («\u00a0Load\u00a0») n’a pas d’exercice."
    )


@pytest.mark.usefixtures("french")
def test_a_value_of_a_closed_list_is_said_in_words() -> None:
    kind = TermKind.KIT
    words = said(say("The {kind} {term} falls under itself.", kind=kind, term="x"))
    assert words == f"Le terme x ({words_of(kind).lower()}) relève de lui-même."


@pytest.mark.usefixtures("french")
def test_counts_follow_the_plural_rules_of_the_language() -> None:
    """CLDR: in French "one" covers 0 and 1."""
    one, other = "{n} text is empty: {names}.", "{n} texts are empty: {names}."
    assert said(say_n(one, other, 1, names="a")) == "1 texte est vide\u00a0: a."
    assert said(say_n(one, other, 2, names="a, b")) == "2 textes sont vides\u00a0: a, b."


@pytest.mark.usefixtures("french")
def test_numbers_have_the_decimal_sign_of_the_language() -> None:
    """CLDR: the decimal sign of French is a comma."""
    words = "The load grows by only {step:g} percent at a time."
    assert said(say(words, step=1.5)) == "La charge n’augmente que de 1,5 pour cent à la fois."


@pytest.mark.usefixtures("french")
def test_words_that_know_no_template_stay_as_they_are() -> None:
    assert said("Already said.") == "Already said."


@pytest.mark.usefixtures("french")
@pytest.mark.parametrize("code", sorted({code for code, _, _ in BROKEN}))
def test_no_protocol_check_is_left_in_english(code: str) -> None:
    library = next(library for name, library, _ in BROKEN if name == code)
    for result in results(library):
        assert said(result.sentence) != result.sentence
        assert said(result.mend) != result.mend
