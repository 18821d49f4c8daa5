"""Words in the language asked for, else in a near one, else in none.

The order (exact tag, then without its region, then another region) follows the "lookup" of
RFC 4647, section 3.4, which shortens the range asked for from its end; taking another region
of the same language where the bare language is missing is ours.
"""

from __future__ import annotations

import pytest

from authoring.model.text import Text

PLAIN = Text.plain("Knee")
MANY = Text({"en": "colour", "en-US": "color", "pt-BR": "joelho"})


@pytest.mark.parametrize(
    ("text", "language", "own", "words"),
    [
        (PLAIN, "en", "en", "Knee"),
        (PLAIN, "en-GB", "en", "Knee"),
        (PLAIN, "en", "en-GB", "Knee"),
        (PLAIN, "de", "en", None),
        (MANY, "en", "en", "colour"),
        (MANY, "en-US", "en", "color"),
        (MANY, "en-GB", "en", "colour"),
        (MANY, "pt-BR", "en", "joelho"),
        (MANY, "pt", "en", "joelho"),
        (MANY, "pt-PT", "en", "joelho"),
        (MANY, "fr", "en", None),
        (Text({"zh-Hant-TW": "膝"}), "zh", "en", "膝"),
    ],
)
def test_words_are_found_by_language(
    text: Text, language: str, own: str, words: str | None
) -> None:
    assert text.to(language, own) == words


@pytest.mark.parametrize(
    ("language", "own", "words"),
    [("pt", "en", "joelho"), ("fr", "en-US", "color"), ("fr", "de", "colour")],
)
def test_best_words_fall_back_to_the_files_own_language_then_to_any(
    language: str, own: str, words: str
) -> None:
    assert MANY.best(language, own) == words


@pytest.mark.parametrize(
    ("text", "has_words"),
    [
        (PLAIN, True),
        (Text.plain(""), False),
        (Text.plain(" \n"), False),
        (Text({"en": "", "de": "x"}), True),
    ],
)
def test_text_of_blanks_counts_as_none(text: Text, has_words: bool) -> None:
    assert bool(text) is has_words


def test_own_words_and_words_by_tag_differ() -> None:
    assert Text.plain("Knee") != Text({"en": "Knee"})
    assert len({Text.plain("Knee"), Text({"": "Knee"})}) == 1
