"""Plans that strain a page: a sound page in every layout, or a refusal in one sentence."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pikepdf
import pytest
from attrs import evolve

from authoring.handout.choices import Layout
from authoring.handout.document import (
    Change,
    Exercise,
    HandoutDocument,
    Masthead,
    Option,
    PrintSize,
)
from authoring.handout.pdf import write_pdf
from authoring.handout.words import words
from tests.handout.html_reader import tokens
from tests.handout.pdf_reader import tagged_tokens
from tests.handout.sample import (
    BRAND,
    EXERCISES,
    HEEL_RAISE,
    sample_document,
    sample_parts,
    sample_with_pictures,
)
from tests.tools import pdfua_faults

LONG_NAME = "The Larkfield and Upper Larkfield Movement, Balance and Running Clinic of Larkfield"
LONG_TEXT = "Push the floor away and look straight ahead. " * 120


def numbered(count: int) -> tuple[Exercise, ...]:
    several = EXERCISES * (count // len(EXERCISES) + 1)
    return tuple(evolve(each, number=n) for n, each in enumerate(several[:count], 1))


def enormous() -> Exercise:
    change = Change(-1, "If it hurts", "", (Option("Easier", LONG_TEXT, "3 sets of 8"),))
    return evolve(HEEL_RAISE, name="Heel raise " * 20, steps=(LONG_TEXT,), changes=(change,))


STRAINS = {
    "sixty exercises": sample_document(parts=sample_parts(numbered(60))),
    "one exercise": sample_document(parts=sample_parts(numbered(1))),
    "a very long clinic name": sample_with_pictures(masthead=Masthead(LONG_NAME, ())),
    "no logo": sample_with_pictures(brand=evolve(BRAND, logo=None)),
    "a dark brand": sample_with_pictures(
        brand=evolve(BRAND, brand="#000000", on_brand="#FFFFFF", brand_text="#000000")
    ),
    "enormous text": sample_document(parts=sample_parts((enormous(), *EXERCISES))),
}


@pytest.mark.parametrize("layout", [Layout.FULL, Layout.COMPACT])
@pytest.mark.parametrize("size", PrintSize)
@pytest.mark.parametrize("document", STRAINS.values(), ids=STRAINS.keys())
def test_a_strained_page_says_every_word(
    document: HandoutDocument, size: PrintSize, layout: Layout
) -> None:
    strained = evolve(document, print_size=size, layout=layout)
    pdf = write_pdf(strained)
    told = "".join(tagged_tokens(pdf)).replace("\x02", "-")
    assert told == "".join(tokens(words(strained)))


def test_a_pdf_is_archival_and_accessible_and_says_so() -> None:
    """ISO 19005-2 (part 2, level A) and ISO 14289-1 (part 1) in the metadata, and both judged."""
    pdf = write_pdf(sample_with_pictures())
    with pikepdf.open(BytesIO(pdf)) as opened, opened.open_metadata() as metadata:
        assert metadata["pdfaid:part"] == "2"
        assert metadata["pdfaid:conformance"] == "A"
        assert metadata["pdfuaid:part"] == "1"
        assert "/Outlines" in opened.Root


@pytest.mark.parametrize("layout", Layout)
def test_each_layout_passes_the_judge_of_accessible_pdf(layout: Layout, tmp_path: Path) -> None:
    path = tmp_path / "page.pdf"
    path.write_bytes(write_pdf(evolve(sample_with_pictures(), layout=layout)))
    assert pdfua_faults(path) == []
