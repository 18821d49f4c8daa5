"""Passive voice. Sentences judged by hand after a school grammar: be + past participle."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.checks.language import NotForLanguage
from authoring.checks.passive_voice import PassiveShare, passive_share, passives


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("The exercise is repeated daily.", ["is repeated"]),
        ("The leg should be slowly lowered.", ["be slowly lowered"]),
        ("It must not be done.", ["be done"]),
        ("Weights are not often used.", ["are not often used"]),
        ("The band was taken off. It is being held.", ["was taken", "being held"]),
        ("The heel has been lifted.", ["been lifted"]),
        ("The chair is then gently pushed.", ["is then gently pushed"]),
        ("You\nwill be\nshown how.", ["be\nshown"]),
    ],
)
def test_passive_verbs_are_found_with_their_words(text, expected):
    assert [found.text for found in passives(text, "en")] == expected


@pytest.mark.parametrize(
    "text",
    [
        "Repeat the exercise daily.",
        "Lower the leg slowly.",
        "Your knee is bent.",
        "Once you are used to it, go on.",
        "Stop if you are tired or worried.",
        "You are in bed.",
        "There are a hundred steps.",
        "You should be free of pain.",
        "The swelling has gone.",
        "It is. Raised heels help.",
        "",
    ],
)
def test_active_sentences_and_states_are_left_alone(text):
    assert passives(text, "en") == ()


def test_the_share_counts_sentences_over_all_texts():
    texts = ["The leg is raised and is lowered. Rest.", "Stand tall", "Breathe"]
    found = passive_share(texts, "en")
    assert found == PassiveShare(sentences=4, passive=1)
    assert found.share == 0.25


def test_no_sentence_has_no_passive_share():
    assert passive_share([], "en").share == 0


def test_other_languages_are_not_judged():
    assert passives("is done", "de") == NotForLanguage("de")
    assert passive_share(["is done"], "de") == NotForLanguage("de")


@given(
    st.lists(st.sampled_from(["is", "be", "not", "slowly", "raised", "done", "bent", ".", "\n"]))
)
def test_places_are_right(parts):
    text = " ".join(parts)
    for found in passives(text, "en"):
        assert text[found.start : found.end] == found.text
