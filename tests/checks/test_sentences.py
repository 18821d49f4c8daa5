"""Sentences and words of patient text. Expected splits: read by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.checks.language import NotForLanguage, is_english
from authoring.checks.sentences import long_sentences, sentences, words


def texts(pieces):
    return [piece.text for piece in pieces]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("", []),
        (" \n\t ", []),
        ("… — !", []),
        ("Stand tall", ["Stand tall"]),
        ("Stand tall. Bend your knee.", ["Stand tall.", "Bend your knee."]),
        ("Stand tall\nBend your knee", ["Stand tall", "Bend your knee"]),
        ("Hold for 2.5 seconds. Rest.", ["Hold for 2.5 seconds.", "Rest."]),
        ("Use support, e.g. a chair. Rest.", ["Use support, e.g. a chair.", "Rest."]),
        ("Use support, e.g. Anna's chair.", ["Use support, e.g. Anna's chair."]),
        ("Hold 10 sec. then rest.", ["Hold 10 sec. then rest."]),
        ("Hold 10 sec. Rest.", ["Hold 10 sec.", "Rest."]),
        ("Ask Dr. Larkfield first. Then start.", ["Ask Dr. Larkfield first.", "Then start."]),
        ("See Fig. 2. Then start.", ["See Fig. 2.", "Then start."]),
        ("Bands, weights, etc. are fine.", ["Bands, weights, etc. are fine."]),
        ("Stand. then bend.", ["Stand.", "then bend."]),
        ("At 8 a.m. and 6 p.m. each day.", ["At 8 a.m. and 6 p.m. each day."]),
        ("Does it hurt? Stop! Call us.", ["Does it hurt?", "Stop!", "Call us."]),
        ("“Stop!” means stop.", ["“Stop!” means stop."]),
        ("Stop (at once). Call us.", ["Stop (at once).", "Call us."]),
        ("He said “stop.” Call us.", ["He said “stop.”", "Call us."]),
        ("Slowly... then lower.", ["Slowly... then lower."]),
        ("Slowly… Rest.", ["Slowly…", "Rest."]),
        ("- Stand\n- Bend\n- Rest", ["Stand", "Bend", "Rest"]),
        ("1. Stand\n2. Bend\n10) Rest", ["Stand", "Bend", "Rest"]),
        ("• Stand\n☐ Bend", ["Stand", "Bend"]),
        ("Stand on\none leg", ["Stand on\none leg"]),
        ("Stand on\r\none leg", ["Stand on\r\none leg"]),
        ("Stand on\n\none leg", ["Stand on", "one leg"]),
        ("You need:\na chair", ["You need:", "a chair"]),
        ("**Stop.** Call us.", ["**Stop.**", "Call us."]),
        ("立つ。座る。", ["立つ。", "座る。"]),
        ("Visit www.example.org. Then call.", ["Visit www.example.org.", "Then call."]),
    ],
)
def test_sentences_are_split_as_a_reader_would(text, expected):
    assert texts(sentences(text)) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("", []),
        ("Bend your knee.", ["Bend", "your", "knee"]),
        ("Don't lock it; it’s weak", ["Don't", "lock", "it", "it’s", "weak"]),
        ("warm-up on one‑legged side", ["warm-up", "on", "one‑legged", "side"]),
        ("8–12 times, 2.5 kg, 1,000 steps", ["8–12", "times", "2.5", "kg", "1,000", "steps"]),
        ("3 x 10, 30% or 3×10", ["3", "x", "10", "30", "or", "3", "10"]),
        ("e.g. a chair", ["e.g.", "a", "chair"]),
        ("and/or", ["and", "or"]),
        ("up—down – rest", ["up", "down", "rest"]),
        ("café cafe\u0301 naïve", ["café", "cafe\u0301", "naïve"]),
        ("**bold** _slow_ snake_case", ["bold", "slow", "snake", "case"]),
        ("read [this](https://example.org/a-b) now", ["read", "this", "now"]),
        ("write to help@example.org today", ["write", "to", "today"]),
        ("колено 膝 ☐ 🙂", ["колено", "膝"]),
        ("'quoted' words’", ["quoted", "words"]),
    ],
)
def test_words_are_split_as_a_reader_would(text, expected):
    assert texts(words(text)) == expected


@given(st.text(alphabet=st.sampled_from("aB1 .!?\n-–'’()e.g\r…:\u0301@/•"), max_size=60))
def test_pieces_lie_in_the_text_in_order_and_keep_every_word(text):
    found = sentences(text)
    for piece in (*found, *words(text)):
        assert text[piece.start : piece.end] == piece.text != ""
    ends = [0, *(piece.end for piece in found)]
    assert all(piece.start >= end for piece, end in zip(found, ends, strict=False))


@given(st.text(max_size=200))
def test_any_text_is_split_without_fault(text):
    assert all(piece.text.strip() for piece in sentences(text))
    assert all(not piece.text.isspace() for piece in words(text))


@given(st.lists(st.sampled_from(["Stand tall", "Bend your knee", "Rest"]), min_size=1))
def test_steps_on_lines_of_their_own_are_one_sentence_each(steps):
    assert texts(sentences("\n".join(steps))) == steps


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("Stand tall. " * 20_000, 20_000),
        ("a" * 200_000, 1),
        ("." * 200_000 + "a", 1),
        ("Stand" + "\n" * 200_000 + "Rest", 2),
        ("- " * 100_000 + "Rest", 1),
        ("a@" * 50_000, 1),
        ("e\u0301" * 100_000, 1),
        ("a.'" * 100_000, 1),
    ],
)
def test_a_huge_text_is_split_in_linear_time(text, count):
    # A quadratic split of any of these would take minutes.
    assert len(sentences(text)) == count


def test_twenty_words_pass_and_twenty_one_do_not():
    # Common practice, no source: the limit of twenty.
    twenty = " ".join(["word"] * 20) + "."
    assert long_sentences(twenty, "en") == ()
    text = f"Short one. {twenty[:-1]} more."
    (found,) = long_sentences(text, "en-GB")
    assert found.words == 21
    assert text[found.start : found.end] == found.text == f"{twenty[:-1]} more."


@pytest.mark.parametrize("language", ["de", "fr-CA", "zh-Hant", "", "eng", "x-en"])
def test_long_sentences_are_told_for_english_only(language):
    assert long_sentences("word " * 50, language) == NotForLanguage(language)


@pytest.mark.parametrize("tag", ["en", "en-GB", "EN-us", "en_US", "en-Latn-AU", " en "])
def test_all_tags_of_english_are_english(tag):
    assert is_english(tag)
