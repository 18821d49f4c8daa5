"""Everyday words: the pairs of the PEMAT guide, and texts judged by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.checks import plain_word_pairs as pairs
from authoring.checks.language import NotForLanguage
from authoring.checks.plain_words import Basis, HardWord, hard_words, vague_phrases
from authoring.checks.readability import is_hard_word
from authoring.checks.syllables import syllables


def found(text, **more):
    return [(hard.word, hard.suggestion) for hard in hard_words(text, "en", **more)]


@pytest.mark.parametrize(
    ("hard", "plain"),
    # AHRQ, PEMAT and User's Guide, publication 14-0002-EF, 2013: everyday words.
    [
        ("analgesic", "pain killer"),
        ("physician", "doctor"),
        ("sufficient", "enough"),
        ("inflammation", "swelling"),
        ("beneficial", "helpful"),
        ("utilize", "use"),
        ("recur", "come back"),
        ("exacerbate", "make worse"),
        ("febrile", "feverish"),
        ("facilitate", "make easier"),
        ("observe", "watch"),
    ],
)
def test_pairs_of_the_guide_are_told_with_their_source(hard, plain):
    (only,) = hard_words(f"The {hard} is here.", "en")
    assert only == HardWord(hard, 4, 4 + len(hard), plain, Basis.GUIDE)


@pytest.mark.parametrize(
    ("text", "expected"),
    # Common practice, no source.
    [
        ("Do 10 reps.", [("reps", "times")]),
        (
            "Lie prone on the plinth",
            [("prone", "lying on your front"), ("plinth", "treatment couch")],
        ),
        ("You are prone to sprains", []),
        ("Keep your range of motion", [("range of motion", "how far you can move")]),
        ("Keep your range.\nOf motion there is enough", []),
        ("Hip external rotation", [("external rotation", "turning outwards")]),
        ("Weight‑bearing is fine", [("Weight‑bearing", "putting weight through the leg")]),
        ("ISOMETRIC hold", [("ISOMETRIC", "hold still")]),
        ("Improve your proprioception", [("proprioception", "sense of position and balance")]),
        ("Reduce overcompensation.", [("overcompensation", None)]),
        ("Overcompensation is common.", [("Overcompensation", None)]),
        ("Come to Evergreen Multidisciplinary House", []),
        ("Repeat this exercise every afternoon and recover underneath an umbrella.", []),
        ("Raise your heel off the towel. Bend the knee 10 to 12 times, 777 at most.", []),
        ("", []),
    ],
)
def test_jargon_and_long_words_are_told_and_everyday_words_are_not(text, expected):
    assert found(text) == expected


def test_words_explained_elsewhere_are_left_alone():
    assert found("Eccentric overcompensation", known={"eccentric", "overcompensation"}) == []


def test_a_sentence_deep_in_the_text_is_told_at_its_place():
    text = "Stand tall.\n- Now the isometric part. Then extension."
    assert [text[hard.start : hard.end] for hard in hard_words(text, "en")] == [
        "isometric",
        "extension",
    ]


@pytest.mark.parametrize(
    "phrase", ["as tolerated", "as able", "as needed", "To tolerance", "regularly"]
)
def test_vague_instructions_are_told_with_what_to_say(phrase):
    text = f"Rest first. {phrase} do this."
    (vague,) = vague_phrases(text, "en")
    assert text[vague.start : vague.end] == phrase
    assert vague.basis is Basis.VAGUE
    assert vague.suggestion


def test_a_clear_instruction_is_not_vague():
    assert vague_phrases("Do this as shown, up to pain 3 of 10, twice a day.", "en") == ()


@pytest.mark.parametrize("measure", [hard_words, vague_phrases])
def test_other_languages_are_not_judged(measure):
    assert measure("isometric as tolerated", "nl") == NotForLanguage("nl")


def entries(lines):
    for line in lines.strip().splitlines():
        forms, _, plain = line.partition(" = ")
        yield from ((form.strip(), plain.strip()) for form in forms.split(","))


@pytest.mark.parametrize("lines", [pairs.GUIDE, pairs.TRADE, pairs.VAGUE])
def test_lists_are_well_formed_and_advise_no_listed_word(lines):
    hard = [form for form, _ in entries(lines)]
    assert len(hard) == len(set(hard))
    assert all(form == form.lower() and form for form in hard)
    listed = {form for form, _ in entries(pairs.GUIDE + pairs.TRADE)}
    for form, plain in entries(lines):
        assert plain
        assert found(plain) == [], form
        assert plain not in listed


@pytest.mark.parametrize("word", pairs.KNOWN.split())
def test_the_list_of_known_words_holds_only_words_that_would_be_told(word):
    assert is_hard_word(word, syllables(word), opens=True)


@given(st.text(alphabet=st.sampled_from("aeiotnsrp-’. \nPR1"), max_size=80))
def test_places_are_right_and_in_order(text):
    last = 0
    for hard in hard_words(text, "en"):
        assert text[hard.start : hard.end] == hard.word
        assert hard.start >= last
        last = hard.end


@given(st.text(max_size=200))
def test_any_text_can_be_read(text):
    assert isinstance(hard_words(text, "en"), tuple)
    assert isinstance(vague_phrases(text, "en"), tuple)
