"""What outside judges and a real browser say of the written page, on screens and on paper."""

from __future__ import annotations

import json
import re
import subprocess
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pypdfium2
import pytest

from authoring.handout.html import write_html
from authoring.handout.words import words
from tests import tools
from tests.handout.html_reader import tokens
from tests.handout.html_variants import DRAFT, VARIANTS

BROWSED = ("pictures", "hostile", "plain", "draft", "large", "staged", "right to left", "single")
BROWSER = Path(__file__).with_name("browse.mjs")

# The checker (26.9) takes `img-src data:` for a ban on every data: address; that the pictures do
# show under the same policy is what the browser is asked below.
BLIND_SPOT = re.compile(r"image “data:image/(png|svg\+xml);.*blocked by “img-src” directive")

Told = Mapping[str, Any]


def written(folder: Path, name: str) -> Path:
    path = folder / f"{name.replace(' ', '-')}.html"
    path.write_bytes(write_html(VARIANTS[name]()))
    return path


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    folder = tmp_path_factory.mktemp("pages")
    return {name: written(folder, name) for name in BROWSED}


@pytest.fixture(scope="module")
def visits(pages: dict[str, Path], tmp_path_factory: pytest.TempPathFactory) -> list[Told]:
    """Every page in every look, from one start of the browser, which prints each page too."""
    profile = tmp_path_factory.mktemp("profile")
    command = [tools.node(), BROWSER, tools.axe_modules(), tools.chromium(), profile]
    done = subprocess.run(
        [str(part) for part in (*command, *pages.values())],
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )
    assert done.returncode == 0, done.stderr[-2000:]
    told: list[Told] = json.loads(done.stdout)
    assert len(told) == 4 * 2 + 2 * (len(pages) - 2)
    return told


def printed(pages: dict[str, Path], name: str) -> list[str]:
    """The text of each printed sheet."""
    with pypdfium2.PdfDocument(f"{pages[name]}.pdf") as pdf:
        sheets = []
        for index in range(len(pdf)):
            page = pdf[index]
            text = page.get_textpage()
            sheets.append(text.get_text_bounded())
            text.close()
            page.close()
        return sheets


@pytest.mark.parametrize("name", ["pictures", "hostile", "large"])
def test_the_html_checker_finds_no_fault(name: str, tmp_path: Path) -> None:
    faults = tools.vnu_faults(written(tmp_path, name))
    assert [fault for fault in faults if not BLIND_SPOT.search(fault)] == []


def faults(visits: list[Told], key: str) -> dict[str, object]:
    return {
        f"{Path(told['file']).stem} {told['colorScheme']} {told['width']}": told[key]
        for told in visits
        if told[key]
    }


@pytest.mark.parametrize(
    "key",
    [
        pytest.param("violations", id="axe finds a barrier"),
        pytest.param("said", id="the console tells of a broken policy or a script"),
        pytest.param("requests", id="the page asks the network"),
        pytest.param("unseen", id="a text cannot be seen"),
        pytest.param("broken", id="a picture cannot be shown"),
    ],
)
def test_never(visits: list[Told], key: str) -> None:
    assert faults(visits, key) == {}


def test_nothing_is_wider_than_the_screen(visits: list[Told]) -> None:
    # WCAG 2.2, 1.4.10 Reflow: 320 CSS pixels.
    assert [told["file"] for told in visits if told["overflow"] > 0] == []


def test_steps_show_counted_numbers(visits: list[Told]) -> None:
    shown = {marker for told in visits for marker in told["markers"]}
    assert shown == {"bare"}


def test_embedded_fonts_are_read_and_no_script_ran(visits: list[Told]) -> None:
    for told in visits:
        assert "loaded" in told["fonts"]
        assert "error" not in told["fonts"]
        assert told["title"] != "ran"


@pytest.mark.parametrize("name", ["plain", "pictures", "large", "staged"])
def test_paper_says_every_word(visits: list[Told], pages: dict[str, Path], name: str) -> None:
    assert visits
    said = "".join("".join(printed(pages, name)).split())
    # The reader of the PDF joins and parts words at will, so letters alone are compared.
    assert [word for word in tokens(words(VARIANTS[name]())) if word not in said] == []


@pytest.mark.parametrize("name", ["draft", "staged", "right to left"])
def test_every_sheet_of_a_draft_says_so(
    visits: list[Told], pages: dict[str, Path], name: str
) -> None:
    assert visits
    sheets = printed(pages, name)
    assert len(sheets) > 2
    assert all(sheet.count(DRAFT) == 1 for sheet in sheets)


def test_every_sheet_has_its_footer_and_number(visits: list[Told], pages: dict[str, Path]) -> None:
    assert visits
    sheets = printed(pages, "pictures")
    for number, sheet in enumerate(sheets, 1):
        assert "Phone numbers and data invented" in sheet
        assert f"{number} of {len(sheets)}" in sheet


@pytest.mark.parametrize(
    ("name", "width_mm", "height_mm"),
    # ISO 216 A4; US Letter is 8.5 by 11 inches (ANSI/ASME Y14.1).
    [("pictures", 210, 297), ("draft", 215.9, 279.4)],
)
def test_the_sheet_is_the_paper_asked_for(
    visits: list[Told], pages: dict[str, Path], name: str, width_mm: float, height_mm: float
) -> None:
    assert visits
    with pypdfium2.PdfDocument(f"{pages[name]}.pdf") as pdf:
        width, height = (points * 25.4 / 72 for points in pdf.get_page_size(0))
    assert width == pytest.approx(width_mm, abs=0.5)
    assert height == pytest.approx(height_mm, abs=0.5)
