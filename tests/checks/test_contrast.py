"""Contrast against WCAG 2.2 and the colour library coloraide."""

import pytest
from coloraide import Color
from hypothesis import given
from hypothesis import strategies as st

from authoring.checks.contrast import (
    AA_TEXT,
    AAA_TEXT,
    BLACK,
    INK,
    WHITE,
    ColourError,
    Verdict,
    contrast_ratio,
    judge,
    luminance,
    parse_hex,
    readable_on,
    shown_ratio,
    text_colour,
    tints,
    to_hex,
    verdict,
)

colours = st.tuples(*[st.integers(0, 255)] * 3).map(to_hex)

# Computed from the formulas of WCAG 2.2, glossary, "relative luminance" and
# "contrast ratio".
PAIRS = [
    ("#000000", "#FFFFFF", 21.0, Verdict.AAA),
    ("#FFFFFF", "#FFFFFF", 1.0, Verdict.FAILS),
    ("#767676", "#FFFFFF", 4.5422, Verdict.AA),
    ("#777777", "#FFFFFF", 4.4781, Verdict.LARGE_ONLY),
    ("#595959", "#FFFFFF", 7.0047, Verdict.AAA),
    ("#5A5A5A", "#FFFFFF", 6.8969, Verdict.AA),
    ("#949494", "#FFFFFF", 3.0335, Verdict.LARGE_ONLY),
    ("#959595", "#FFFFFF", 2.9953, Verdict.FAILS),
    ("#FF0000", "#FFFFFF", 3.9985, Verdict.LARGE_ONLY),
    ("#0000FF", "#FFFFFF", 8.5925, Verdict.AAA),
    ("#008000", "#FFFFFF", 5.1374, Verdict.AA),
    ("#FFFF00", "#FFFFFF", 1.0738, Verdict.FAILS),
    ("#FFFF00", "#000000", 19.5560, Verdict.AAA),
    ("#808080", "#FFFFFF", 3.9494, Verdict.LARGE_ONLY),
]


@pytest.mark.parametrize(("one", "other", "ratio", "expected"), PAIRS)
def test_known_pairs_have_the_published_ratio_and_verdict(one, other, ratio, expected):
    assert contrast_ratio(one, other) == pytest.approx(ratio, abs=5e-5)
    assert judge(one, other) is expected


@pytest.mark.parametrize(
    ("colour", "expected"),
    # WCAG 2.2: the coefficients are the luminances of the pure colours.
    [
        ("#FF0000", 0.2126),
        ("#00FF00", 0.7152),
        ("#0000FF", 0.0722),
        ("#808080", 0.215861),
        ("#000000", 0),
        ("#FFFFFF", 1),
    ],
)
def test_luminance_of_pure_colours(colour, expected):
    assert luminance(colour) == pytest.approx(expected, abs=1e-6)


@given(colours, colours)
def test_any_pair_agrees_with_the_reference_library(one, other):
    # coloraide goes through XYZ with more digits than the WCAG coefficients.
    expected = Color(one).contrast(Color(other), method="wcag21")
    assert contrast_ratio(one, other) == pytest.approx(expected, rel=2e-3)


@given(colours, colours)
def test_contrast_is_symmetric_and_within_its_range(one, other):
    ratio = contrast_ratio(one, other)
    assert ratio == contrast_ratio(other, one)
    assert 1 <= ratio <= 21 + 1e-9


@pytest.mark.parametrize(
    ("ratio", "expected"),
    # Success criteria 1.4.3 and 1.4.6: at least 3, 4.5 and 7, not rounded up.
    [
        (2.9999, Verdict.FAILS),
        (3.0, Verdict.LARGE_ONLY),
        (4.499, Verdict.LARGE_ONLY),
        (4.5, Verdict.AA),
        (6.9999, Verdict.AA),
        (7.0, Verdict.AAA),
    ],
)
def test_a_ratio_is_not_rounded_up_to_a_level(ratio, expected):
    assert verdict(ratio) is expected


@pytest.mark.parametrize(
    ("ratio", "shown"), [(4.4999, "4.49:1"), (4.5, "4.50:1"), (21.0, "21.00:1"), (1, "1.00:1")]
)
def test_the_ratio_people_see_is_cut_too(ratio, shown):
    assert shown_ratio(ratio) == shown


@pytest.mark.parametrize(
    "bad",
    ["", "#FFF", "123456", "#12345G", "#1234567", "red", " #123456", "#123456\n", "#１２３４５６"],
)
def test_other_spellings_are_refused_with_the_right_one(bad):
    with pytest.raises(ColourError, match="#123F5C"):
        parse_hex(bad)


def test_a_long_value_is_cut_in_the_message():
    with pytest.raises(ColourError) as caught:
        parse_hex("x" * 10_000)
    assert len(str(caught.value)) < 150


@given(colours)
def test_parsing_undoes_writing_in_either_case(colour):
    assert to_hex(parse_hex(colour.lower())) == colour


@given(colours)
def test_black_or_white_is_always_readable(colour):
    best = readable_on(colour)
    assert best in {BLACK, WHITE}
    assert contrast_ratio(best, colour) >= AA_TEXT
    worse = WHITE if best == BLACK else BLACK
    assert contrast_ratio(best, colour) >= contrast_ratio(worse, colour)


@pytest.mark.parametrize(
    ("colour", "best"), [("#FFFF00", BLACK), ("#0000FF", WHITE), (BLACK, WHITE), (WHITE, BLACK)]
)
def test_readable_on_known_colours(colour, best):
    assert readable_on(colour) == best


@given(colours)
def test_ink_reads_on_both_panels_of_any_brand(brand):
    panels = tints(brand)
    for panel in (panels.tint, panels.middle):
        assert contrast_ratio(INK, panel) >= AAA_TEXT
        assert contrast_ratio(BLACK, panel) >= AAA_TEXT
    assert contrast_ratio(panels.tint, WHITE) >= 1.1
    assert contrast_ratio(panels.middle, WHITE) >= 1.5
    assert luminance(panels.middle) < luminance(panels.tint)


def test_the_panels_of_a_dark_blue_are_a_pale_and_a_greyish_blue():
    # The page study's own colours are #E9EFF2 and #C3D0D8 (own design values).
    panels = tints("#123F5C")
    for panel, study in ((panels.tint, "#E9EFF2"), (panels.middle, "#C3D0D8")):
        off = [abs(a - b) for a, b in zip(parse_hex(panel), parse_hex(study), strict=True)]
        assert max(off) <= 3


@pytest.mark.parametrize(
    ("brand", "text"), [("#123f5c", "#123F5C"), ("#777777", INK), ("#FFFF00", INK)]
)
def test_a_weak_brand_colour_gives_way_to_ink_in_text(brand, text):
    assert text_colour(brand) == text
    assert contrast_ratio(text_colour(brand), WHITE) >= AAA_TEXT
