"""The Word file says what the handout says, and nothing else.

Judges from outside: Microsoft's Open XML SDK validator and openxml-audit. The
characters that a file can't hold are those outside Char in XML 1.0 (2.2).
"""

from __future__ import annotations

from io import BytesIO
from pathlib import Path
from xml.etree.ElementTree import tostring
from zipfile import ZipFile

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from authoring.handout.document import (
    HandoutDocument,
    Notes,
    Paragraph,
    Span,
)
from authoring.handout.docx import write_docx
from authoring.handout.errors import HandoutError
from authoring.handout.words import alt_texts, page_furniture
from tests.handout.docx_reader import DC, DECORATIVE, WP, W, WordFile, read_words, style_of, text_of
from tests.handout.docx_variants import DRAFT, START, VARIANTS, each_variant, spoken
from tests.handout.sample import (
    BALANCE,
    BRIDGE,
    PAIN,
    exercise,
    glance,
    sample_document,
    sample_parts,
    sample_with_pictures,
)
from tests.tools import ooxml_sdk_faults, openxml_audit_faults

PICTURED = WordFile(write_docx(VARIANTS["pictures"]))


any_words = st.text(
    st.characters(exclude_categories=["Cs", "Cc"], exclude_characters="\ufffe\uffff")
)


# ---- the words ---------------------------------------------------------------


@each_variant
def test_the_file_reads_as_the_handout_reads(document: HandoutDocument) -> None:
    assert read_words(write_docx(document)) == spoken(document)


@pytest.mark.parametrize("style", sorted({block.style for block in PICTURED.blocks()} - {"Gap"}))
def test_a_paragraph_lost_by_the_writer_is_seen(style: str) -> None:
    """Take the words of one paragraph of each style out of the written file."""
    body = PICTURED.part("word/document.xml")
    paragraph = next(
        each for each in body.iter(f"{W}p") if style_of(each) == style and text_of(each).strip()
    )
    for text in paragraph.iter(f"{W}t"):
        text.text = ""
    package = BytesIO()
    with ZipFile(package, "w") as target:
        for name, data in (PICTURED.raw | {"word/document.xml": tostring(body)}).items():
            target.writestr(name, data)
    assert read_words(package.getvalue()) != spoken(VARIANTS["pictures"])


@each_variant
def test_every_page_carries_footer_page_number_and_banner(document: HandoutDocument) -> None:
    file = WordFile(write_docx(document))
    header, footer = file.furniture("header"), file.furniture("footer")
    assert footer[0].endswith("  of ")
    read = (*header, footer[0].removesuffix("  of ").strip())
    assert tuple(text.replace("\u00a0", " ") for text in read) == page_furniture(document)
    codes = [code.text.strip() for code in file.part("word/footer1.xml").iter(f"{W}instrText")]
    assert codes == ["PAGE", "NUMPAGES"]
    first = next(file.body.iter(f"{W}sectPr"))
    kinds = {child.tag.removeprefix(W) for child in first if child.tag.endswith("Reference")}
    assert kinds == {"footerReference"} | ({"headerReference"} if document.banner else set())


@each_variant
def test_pictures_carry_their_alternative_text_and_marks_say_they_are_decorative(
    document: HandoutDocument,
) -> None:
    told, shown = [], WordFile(write_docx(document)).body.iter(f"{WP}docPr")
    for drawing in shown:
        marks = [mark.get("val") for mark in drawing.iter(DECORATIVE)]
        assert bool(drawing.get("descr")) != (marks == ["1"])
        told += [drawing.get("descr")] if not marks else []
    assert tuple(told) == alt_texts(document)


@pytest.mark.parametrize(
    "hostile",
    [
        "<script>alert(1)</script>",
        "</w:t></w:r><w:br/>",
        "&amp; &lt;b&gt; &#x41;",
        '#let x = 1; $x$ *bold* _it_ "quoted" \\newline',
        "{page} of {pages} %1 %s ]]>",
        "=cmd|' /C calc'!A0",
    ],
)
def test_hostile_text_prints_literally(hostile: str) -> None:
    trap = exercise(1, hostile, hostile, steps=(hostile,), tips=(hostile,), needs=hostile)
    picture = evolve(START, alt=hostile, caption=hostile)
    document = sample_document(
        title=hostile,
        banner=hostile,
        footer=hostile,
        subject=hostile,
        parts=(trap, evolve(trap, pictures=(picture,)), PAIN),
    )
    data = write_docx(document)
    assert read_words(data) == spoken(document)
    file = WordFile(data)
    assert file.part("docProps/core.xml").find(f"{DC}title").text == hostile
    assert hostile in {drawing.get("descr") for drawing in file.body.iter(f"{WP}docPr")}


@pytest.mark.parametrize("bad", ["\x00", "\x07", "\x0b", "\x1f", "\ufffe", "\ud800"])
@pytest.mark.parametrize("where", ["title", "step", "alt"])
def test_a_character_that_xml_forbids_is_refused_by_name(bad: str, where: str) -> None:
    text = f"Heel {bad} raise"
    document = {
        "title": sample_document(title=text),
        "step": sample_document(parts=(exercise(1, "Name", "Dose", steps=(text,)),)),
        "alt": sample_document(parts=(evolve(BRIDGE, pictures=(evolve(START, alt=text),)),)),
    }[where]
    with pytest.raises(HandoutError, match=rf"Heel .+ raise.*U\+{ord(bad):04X}"):
        write_docx(document)


def test_tabs_and_line_ends_are_kept_as_space() -> None:
    document = sample_document(title="One\tline\r\nand\nanother")
    assert read_words(write_docx(document)) == spoken(document)


@pytest.mark.parametrize("href", ["javascript:alert(1)", "file:///etc/passwd", "\\\\host\\x", ""])
def test_a_link_to_anything_but_web_mail_or_telephone_is_refused(href: str) -> None:
    notes = Notes("Read", (Paragraph((Span("more", href=href),)),))
    with pytest.raises(HandoutError, match="more"):
        write_docx(sample_document(parts=(notes,)))


@pytest.mark.parametrize("media_type", ["image/png", "image/jpeg", "image/svg+xml", "image/gif"])
def test_a_picture_that_cannot_be_read_is_named(media_type: str) -> None:
    broken = evolve(START, data=b"no picture", media_type=media_type)
    with pytest.raises(HandoutError, match="Start of it"):
        write_docx(sample_document(parts=(evolve(BRIDGE, pictures=(broken,)),)))


@settings(max_examples=40, deadline=None)
@given(any_words, any_words, st.lists(any_words, max_size=3))
def test_any_words_come_back_as_they_were(name: str, dose: str, steps: list[str]) -> None:
    one = exercise(1, name, dose, why=dose, steps=tuple(steps), details=(name,), tips=(dose,))
    document = sample_document(title=name or "Title", parts=(one, glance((one,))))
    assert read_words(write_docx(document)) == spoken(document)


# ---- judged from outside -----------------------------------------------------


@each_variant
def test_the_open_xml_sdk_finds_no_fault(document: HandoutDocument, tmp_path: Path) -> None:
    path = tmp_path / "handout.docx"
    path.write_bytes(write_docx(document))
    assert ooxml_sdk_faults(path) == []


@each_variant
def test_openxml_audit_finds_no_fault(document: HandoutDocument, tmp_path: Path) -> None:
    path = tmp_path / "handout.docx"
    path.write_bytes(write_docx(document))
    assert openxml_audit_faults(path) == []


# ---- the same file each time, and big ones -------------------------------------


def test_the_same_handout_gives_the_same_bytes(tmp_path: Path) -> None:
    first, second = (write_docx(sample_with_pictures(banner=DRAFT)) for _ in range(2))
    assert first == second
    path = tmp_path / "handout.docx"
    path.write_bytes(first)
    with ZipFile(path) as package:
        assert {entry.date_time[0] for entry in package.infolist()} == {1980}


def test_sixty_exercises_are_all_there_and_each_counts_its_steps_from_one() -> None:
    many = tuple(evolve(BALANCE, number=n, name=f"Exercise {n}") for n in range(1, 61))
    document = sample_document(parts=sample_parts(many))
    data = write_docx(document)
    assert read_words(data) == spoken(document)
    steps = [block.number for block in WordFile(data).blocks() if block.style == "Steps"]
    assert steps == ["1", "2", "3", "4"] * 60
