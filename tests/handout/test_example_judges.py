"""Outside judges look at the example clinic's own handouts, not only at made-up ones.

Word: the Open XML SDK and an independent reading of ECMA-376. HTML: the Nu checker and
axe-core (WCAG 2.2 A and AA). PDF: the rules of PDF/UA-1 by the Matterhorn Protocol.
"""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pikepdf
import pytest
from attrs import evolve

from authoring.handout.document import HandoutDocument, PageSize, PrintSize
from authoring.handout.docx import write_docx
from authoring.handout.html import write_html
from authoring.handout.pdf import write_pdf
from tests.handout.clinic_sheets import printed
from tests.handout.test_html_browser import BLIND_SPOT
from tests.tools import (
    axe_faults,
    ooxml_sdk_faults,
    openxml_audit_faults,
    pdfua_faults,
    vnu_faults,
)

ANKLE = "lateral-ankle-sprain-back-to-running"
DOCUMENTS: dict[str, HandoutDocument] = {
    "ankle, stage 2": printed(ANKLE, (2,)),
    "elbow, whole, a draft in large print on Letter": evolve(
        printed("lateral-elbow-tendinopathy", (), PageSize.LETTER, PrintSize.LARGE),
        banner="Draft, not for patients",
    ),
}
each_document = pytest.mark.parametrize("document", DOCUMENTS.values(), ids=DOCUMENTS.keys())


@each_document
def test_both_validators_of_word_files_find_nothing(
    document: HandoutDocument, tmp_path: Path
) -> None:
    path = tmp_path / "x.docx"
    path.write_bytes(write_docx(document))
    assert ooxml_sdk_faults(path) == []
    assert openxml_audit_faults(path) == []


@each_document
def test_the_nu_checker_finds_nothing(document: HandoutDocument, tmp_path: Path) -> None:
    path = tmp_path / "x.html"
    path.write_bytes(write_html(document))
    assert [fault for fault in vnu_faults(path) if not BLIND_SPOT.search(fault)] == []


@each_document
def test_axe_finds_nothing_and_the_page_asks_for_nothing(
    document: HandoutDocument, tmp_path: Path
) -> None:
    path = tmp_path / "x.html"
    path.write_bytes(write_html(document))
    assert axe_faults(path) == []


@each_document
def test_the_pdf_ua_rules_find_nothing(document: HandoutDocument, tmp_path: Path) -> None:
    path = tmp_path / "x.pdf"
    path.write_bytes(write_pdf(document))
    assert pdfua_faults(path) == []


@each_document
def test_the_pdf_names_itself_its_language_and_its_author(document: HandoutDocument) -> None:
    with pikepdf.open(BytesIO(write_pdf(document))) as file:
        assert str(file.Root.Lang) == document.language
        meta = file.open_metadata()
        assert meta["dc:title"] == document.title
        assert bool(file.Root.MarkInfo.Marked)
