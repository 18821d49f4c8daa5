"""Verdicts on a brand agree with an outside judge of contrast, in words."""

import pytest
from coloraide import Color
from hypothesis import given
from hypothesis import strategies as st

from authoring.checks.contrast import Verdict
from authoring.editor.clinic_room.verdicts import Pair, pairs
from authoring.model.clinic import Brand

COLOURS = st.integers(0, 0xFFFFFF).map("#{:06X}".format)


@given(COLOURS, COLOURS)
def test_every_ratio_is_that_of_wcag(colour: str, ink: str) -> None:
    """Against ColorAide's own reading of WCAG 2.1 contrast."""
    for pair in pairs(Brand(colour=colour, ink=ink)):
        judge = Color(pair.colour).contrast(Color(pair.background), method="wcag21")
        assert pair.ratio == pytest.approx(judge, abs=0.01)


@pytest.mark.parametrize(
    ("colour", "sentence", "verdict"),
    [
        # Published worked examples: #767676 is the lightest grey of 4.5:1 on white (WebAIM).
        (
            "#767676",
            "4.54:1 – AA, readable; 7:1 is easier for patients. Instead.",
            Verdict.AA,
        ),
        (
            "#777777",
            "4.47:1 – Large only: too faint for ordinary text. Instead.",
            Verdict.LARGE_ONLY,
        ),
        ("#FFFF00", "1.07:1 – Fails: can't be read. Instead.", Verdict.FAILS),
        ("#000000", "21.00:1 – AAA, easy to read in poor light too.", Verdict.AAA),
    ],
)
def test_a_verdict_says_the_level_and_what_is_done(colour, sentence, verdict) -> None:
    pair = Pair("Here", colour, "#FFFFFF", "Instead.")
    assert pair.sentence == sentence
    assert pair.verdict is verdict


@given(COLOURS)
def test_numbers_on_any_brand_colour_can_be_read(colour: str) -> None:
    last = pairs(Brand(colour=colour))[-1]
    assert last.where == "Numbers on the clinic's colour"
    assert last.verdict in (Verdict.AA, Verdict.AAA)
