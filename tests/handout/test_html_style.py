"""Colours, fonts and strings of the page's style sheet."""

from __future__ import annotations

import re
from io import BytesIO

import pytest
from attrs import evolve
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from authoring import resources
from authoring.handout.html import write_html
from authoring.handout.html_style import (
    DARK_PANEL,
    DARK_SHEET,
    FONT_RANGES,
    WEIGHTS,
    FontRange,
    css_string,
    dark_brand,
)
from tests.handout import sample
from tests.handout.html_reader import read
from tests.handout.webfonts import SOURCES, points_of

HEX = re.compile(r"--([a-z-]+): (#[0-9A-Fa-f]{6});")
USE = re.compile(r"--([a-z-]+): var\(--([a-z-]+)\);")

colours = st.integers(0, 0xFFFFFF).map("#{:06X}".format)


def wcag_ratio(one: str, other: str) -> float:
    """Contrast ratio as WCAG 2.2 words it in its glossary, written anew for the check."""

    def luminance(colour: str) -> float:
        parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
        red, green, blue = (
            part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
        )
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue

    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def palette(style: str, scheme: str) -> dict[str, str]:
    """The colour that each name stands for in the light or the dark page."""
    named = dict(HEX.findall(style))
    light, _, rest = style.partition("@media screen and (prefers-color-scheme: dark)")
    uses = dict(USE.findall(light))
    if scheme == "dark":
        uses |= dict(USE.findall(rest.partition(" img {")[0]))
    return named | {name: named[source] for name, source in uses.items() if source in named}


PAIRS = [
    ("text", "sheet"),
    ("text", "panel"),
    ("second", "sheet"),
    ("accent", "sheet"),
    ("accent", "panel"),
    ("on-mark", "mark"),
    ("black", "paper"),
    ("black", "middle"),
]


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize(("text", "ground"), PAIRS)
def test_text_stands_out_from_its_ground(scheme: str, text: str, ground: str) -> None:
    # WCAG 2.2, 1.4.6 Contrast (Enhanced): 7:1.
    shown = palette(read(write_html(sample.sample_document())).style, scheme)
    assert wcag_ratio(shown[text], shown[ground]) >= 7


def test_the_dark_page_differs_from_the_light_one() -> None:
    style = read(write_html(sample.sample_document())).style
    light, dark = palette(style, "light"), palette(style, "dark")
    assert {light[name] for name in ("sheet", "panel")} == {"#FFFFFF", sample.BRAND.tint}
    assert {dark[name] for name in ("sheet", "panel")} == {DARK_SHEET, DARK_PANEL}


def test_the_ratio_of_black_to_white_is_21() -> None:
    # WCAG 2.2, glossary: contrast ratios range from 1 to 21.
    assert wcag_ratio("#000000", "#FFFFFF") == pytest.approx(21)


@given(colours)
def test_any_brand_reads_on_the_dark_page(brand: str) -> None:
    lighter = dark_brand(brand)
    assert min(wcag_ratio(lighter, ground) for ground in (DARK_PANEL, DARK_SHEET)) >= 7


@pytest.mark.parametrize("brand", ["#FFD400", "#8FC4E5", "#FFFFFF"])
def test_a_brand_light_enough_stays_itself_in_the_dark(brand: str) -> None:
    assert dark_brand(brand) == brand


@given(st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0"), max_size=30))
def test_a_css_string_means_its_text_and_cannot_end_early(text: str) -> None:
    written = css_string(text)
    inner = written[1:-1]
    assert (written[0], written[-1]) == ('"', '"')
    assert not set(inner) & set('"<>&\n\r\f{};')
    # CSS Syntax Level 3, section 4.3.7: up to six digits, then one space that is eaten.
    unescaped = re.sub(r"\\([0-9A-F]{1,6}) ", lambda found: chr(int(found[1], 16)), inner)
    assert unescaped == text


# ---- fonts ---------------------------------------------------------------------------


@pytest.mark.parametrize("weight", WEIGHTS)
@pytest.mark.parametrize("block", FONT_RANGES, ids=lambda block: block.file)
def test_an_embedded_font_draws_its_range_as_the_shipped_one(block: FontRange, weight: int) -> None:
    shipped = TTFont(resources.fonts() / SOURCES[weight])
    path = resources.templates() / "handout" / "fonts" / f"noto-sans-{block.file}-{weight}.woff2"
    cut = TTFont(BytesIO(path.read_bytes()))
    widths, cut_widths = shipped["hmtx"], cut["hmtx"]
    source, target = shipped.getBestCmap(), cut.getBestCmap()
    held = [point for point in points_of(block) if point in source]
    assert len(held) > 60
    assert [point for point in held if point not in target] == []
    assert all(widths[source[point]] == cut_widths[target[point]] for point in held)


@pytest.mark.parametrize(
    ("title", "files"),
    [("Ankle", 2), ("Łydka", 4), ("Αστράγαλος", 4), ("Голеностоп", 4), ("Ł Α Г", 8)],
)
def test_only_the_scripts_in_use_are_embedded(title: str, files: int) -> None:
    style = read(write_html(sample.sample_document(title=title))).style
    assert style.count("@font-face") == files


def test_fonts_of_a_handout_in_english_stay_under_60_kb() -> None:
    style = read(write_html(sample.sample_document())).style
    assert sum(len(face) for face in re.findall(r'base64,([^"]+)"', style)) < 60_000


def test_a_long_footer_keeps_more_room_on_paper() -> None:
    def lines(footer: str) -> str:
        style = read(write_html(sample.sample_document(footer=footer))).style
        (found,) = re.findall(r"--footer-lines: (\d+);", style)
        return str(found)

    assert (lines("Short"), lines("Larkfield " * 12), lines("筋" * 60)) == ("1", "2", "2")


def test_the_page_number_follows_the_label_of_the_language() -> None:
    document = evolve(sample.sample_document(), page_label='{pages}/{page} "x"')
    style = read(write_html(document)).style
    assert 'content: counter(pages) "\\2F " counter(page) " \\22 x\\22 ";' in style
