"""Any dose at all has words, whole and plain, and the page's forbidden signs never appear."""

from __future__ import annotations

import re

from hypothesis import given

from authoring.dosage.words import DoseWords
from authoring.handout.catalogue import load_phrases
from authoring.model.base import Node, evolve, fields
from authoring.model.dose import Dose
from authoring.model.text import Text
from tests.strategies.values import values_of

WORDS = DoseWords(load_phrases("en"), "en", "arm", "left")

# A sign for "times" between numbers, a trade word, a range without words.
FORBIDDEN = re.compile(r"[×*]|\d\s*x\s*\d|\breps?\b|\d\s*[-–]\s*\d|\bbilateral\b|as tolerated")


def with_plain_texts(value: object) -> object:
    """The same value with a word of ours in place of every free text."""
    if isinstance(value, Text):
        return Text.plain("thing")
    if isinstance(value, tuple):
        return tuple(with_plain_texts(item) for item in value)
    if isinstance(value, Node):
        names = [field.name for field in fields(type(value)) if field.name != "extra"]
        return evolve(value, **{name: with_plain_texts(getattr(value, name)) for name in names})
    return value


def said(dose: Dose) -> list[str]:
    return [
        WORDS.headline(dose),
        *WORDS.details(dose),
        *(text for row in WORDS.weeks(dose) for text in row),
    ]


@given(values_of(Dose))
def test_any_dose_has_a_headline_and_no_open_place(dose: Dose) -> None:
    plain = with_plain_texts(dose)
    assert isinstance(plain, Dose)
    texts = said(plain)
    assert all(text.strip() for text in texts)
    assert not [text for text in texts if "{" in text or "}" in text]


@given(values_of(Dose))
def test_no_dose_prints_what_the_page_forbids(dose: Dose) -> None:
    plain = with_plain_texts(dose)
    assert isinstance(plain, Dose)
    assert not [text for text in said(plain) if FORBIDDEN.search(text)]


@given(values_of(Dose))
def test_a_dose_with_any_texts_has_words_too(dose: Dose) -> None:
    assert all(isinstance(text, str) for text in said(dose))
