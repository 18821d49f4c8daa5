"""The Word file keeps the rules for accessible documents, tested on its XML.

Rules: WCAG 2.2 and the usual advice for accessible Word files; elements are those
of WordprocessingML (ECMA-376 part 1, fifth edition).
"""

from __future__ import annotations

from itertools import pairwise
from unicodedata import bidirectional
from xml.etree.ElementTree import Element

import pytest

from authoring.handout.document import HandoutDocument, PageSize, PrintSize
from authoring.handout.docx import write_docx
from tests.handout.docx_reader import DC, W, WordFile, style_of
from tests.handout.docx_variants import each_variant, right_to_left, with_pictures
from tests.handout.sample import STOP, sample_document, sample_with_pictures


@each_variant
def test_title_and_language_are_in_the_properties(document: HandoutDocument) -> None:
    file = WordFile(write_docx(document))
    core = file.part("docProps/core.xml")
    assert core.find(f"{DC}title").text == document.title
    assert core.find(f"{DC}language").text == document.language
    lang = file.styles.find(f"{W}docDefaults/{W}rPrDefault/{W}rPr/{W}lang")
    assert {lang.get(f"{W}{key}") for key in ("val", "bidi")} == {document.language}


@each_variant
def test_headings_start_at_one_and_skip_no_level(document: HandoutDocument) -> None:
    file = WordFile(write_docx(document))
    levels = [level for level, _ in file.headings()]
    assert levels[:1] in ([], [1])
    assert all(after - before <= 1 for before, after in pairwise(levels))
    assert [block.style for block in file.blocks()].count("Title") == 1


@each_variant
def test_tables_are_simple_and_no_row_is_split(document: HandoutDocument) -> None:
    body = WordFile(write_docx(document)).body
    assert not [*body.iter(f"{W}gridSpan"), *body.iter(f"{W}vMerge")]
    assert not body.findall(f".//{W}tc//{W}tbl")
    for table in body.iter(f"{W}tbl"):
        width = len(table.findall(f"{W}tblGrid/{W}gridCol"))
        for row in table.iter(f"{W}tr"):
            assert len(row.findall(f"{W}tc")) == width
            assert row.find(f"{W}trPr/{W}cantSplit") is not None


@each_variant
def test_data_tables_have_a_header_row_a_name_and_a_description(document: HandoutDocument) -> None:
    body = WordFile(write_docx(document)).body
    for table in body.iter(f"{W}tbl"):
        properties = table.find(f"{W}tblPr")
        data = properties.find(f"{W}tblStyle").get(f"{W}val") == "HandoutTable"
        header = table.find(f"{W}tr").find(f"{W}trPr/{W}tblHeader") is not None
        first_row = properties.find(f"{W}tblLook").get(f"{W}firstRow")
        assert (header, first_row) == ((True, "1") if data else (False, "0"))
        for name in ("tblCaption", "tblDescription"):
            assert (properties.find(f"{W}{name}") is not None) == data


@each_variant
def test_nothing_floats_and_nothing_is_spaced_by_empty_paragraphs(
    document: HandoutDocument,
) -> None:
    file = WordFile(write_docx(document))
    tags = {node.tag.rpartition("}")[2] for node in file.body.iter()}
    assert not tags & {"anchor", "txbxContent", "framePr", "pict"}
    outside = file.body.findall(f"{W}p")
    assert all(p.find(f".//{W}t") is not None or p.find(f".//{W}drawing") for p in outside)
    tables = [child.tag == f"{W}tbl" for child in file.body]
    assert not any(first and second for first, second in pairwise(tables))


@each_variant
def test_lists_are_real_lists(document: HandoutDocument) -> None:
    styles = {"Steps", "ListBullet", "ListNumber", "Checklist", "StopSign", "StopCellSign"}
    for block in WordFile(write_docx(document)).blocks():
        assert bool(block.number) == (block.style in styles or block.style == "Panel"), block
        assert not block.text.lstrip().startswith(("•", "☐", "- "))


@pytest.mark.parametrize("size", PrintSize)
def test_no_heading_is_left_alone_at_the_foot_of_a_page(size: PrintSize) -> None:
    file = WordFile(write_docx(sample_with_pictures(print_size=size)))
    levels = file.outline()
    for paragraph in file.paragraphs():
        if style_of(paragraph) in levels:
            assert keeps_with_next(paragraph, file), style_of(paragraph)


def test_an_exercise_is_held_together_up_to_its_last_row() -> None:
    file = WordFile(write_docx(with_pictures(2)))
    tables = [table for table in file.body.iter(f"{W}tbl") if any_style(table, "ChangeHeading")]
    assert len(tables) == 1
    *rows, last = tables[0].findall(f"{W}tr")
    assert all(keeps_with_next(p, file) for row in rows for p in row.iter(f"{W}p"))
    assert not all(keeps_with_next(p, file) for p in last.iter(f"{W}p"))


def any_style(parent: Element, style: str) -> bool:
    return any(style_of(paragraph) == style for paragraph in parent.iter(f"{W}p"))


def keeps_with_next(paragraph: Element, file: WordFile) -> bool:
    own = paragraph.find(f"{W}pPr/{W}keepNext")
    name = style_of(paragraph)
    styles = {style.get(f"{W}styleId"): style for style in file.styles.iter(f"{W}style")}
    while own is None and name in styles:
        own = styles[name].find(f"{W}pPr/{W}keepNext")
        parent = styles[name].find(f"{W}basedOn")
        name = parent.get(f"{W}val") if parent is not None else ""
    return own is not None and own.get(f"{W}val") != "0"


@pytest.mark.parametrize(
    ("size", "least"),
    [(PrintSize.STANDARD, 25), (PrintSize.LARGE, 36)],
    ids=["12.5 pt in print", "18 pt in large print, UKAAF G003 (2019)"],
)
def test_body_text_is_never_smaller_than_promised(size: PrintSize, least: int) -> None:
    """Sizes in half points; only the footer and the small print may be smaller."""
    file = WordFile(write_docx(sample_document(print_size=size)))
    default = file.styles.find(f"{W}docDefaults/{W}rPrDefault/{W}rPr/{W}sz")
    assert int(default.get(f"{W}val")) == least
    small = {
        style.get(f"{W}styleId")
        for style in file.styles.iter(f"{W}style")
        for found in style.iter(f"{W}sz")
        if int(found.get(f"{W}val")) < least
    }
    assert small == {"SmallHeading", "SmallPrint", "Footer", "Header"}


@pytest.mark.parametrize(
    ("paper", "width", "height"),
    [(PageSize.A4, 11906, 16838), (PageSize.LETTER, 12240, 15840)],
)
def test_every_section_has_the_paper_asked_for(paper: PageSize, width: int, height: int) -> None:
    """Twips: A4 is 210 x 297 mm (ISO 216), Letter 8.5 x 11 inches (ANSI Y14.1)."""
    body = WordFile(write_docx(sample_document(page_size=paper))).body
    sizes = {(page.get(f"{W}w"), page.get(f"{W}h")) for page in body.iter(f"{W}pgSz")}
    assert sizes == {(str(width), str(height))}


def test_a_right_to_left_handout_runs_from_right_to_left() -> None:
    file = WordFile(write_docx(right_to_left()))
    assert all(p.find(f"{W}pPr/{W}bidi") is not None for p in file.paragraphs())
    assert all(t.find(f"{W}tblPr/{W}bidiVisual") is not None for t in file.body.iter(f"{W}tbl"))
    for run in file.body.iter(f"{W}r"):
        text = "".join(node.text or "" for node in run.iter(f"{W}t"))
        arabic = any("\u0600" <= char <= "\u06ff" for char in text)
        latin = text.isascii() and any(map(str.isalpha, text))
        backwards = run.find(f"{W}rPr/{W}rtl") is not None
        assert not latin or not backwards, text
        assert not arabic or backwards, text


def test_a_telephone_number_keeps_its_order_in_a_right_to_left_line() -> None:
    """Unicode Annex 9, W4: one common separator between two numbers joins them.

    A no-break space is such a separator (class CS), a plain space is not (WS).
    """
    texts = [block.text for block in WordFile(write_docx(right_to_left())).blocks()]
    assert bidirectional("\u00a0") == "CS"
    assert STOP.contact.phone.replace(" ", "\u00a0") in texts
