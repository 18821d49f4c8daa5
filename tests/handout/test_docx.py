"""The Word file says what the handout says, and keeps the rules for accessible documents.

Rules: WCAG 2.2 and the advice for accessible Word files, as tests on
WordprocessingML (ECMA-376 part 1, fifth edition); names of elements stand in
each test. Judges from outside: Microsoft's Open XML SDK validator and
openxml-audit.
"""

from __future__ import annotations

from io import BytesIO
from itertools import pairwise
from pathlib import Path
from xml.etree.ElementTree import tostring
from zipfile import ZipFile

import pytest
from attrs import evolve

from authoring.handout.document import (
    BlockHeading,
    Direction,
    HandoutDocument,
    Notes,
    PageSize,
    Paragraph,
    PrintSize,
    Span,
    StageHeading,
)
from authoring.handout.docx import write_docx
from authoring.handout.errors import HandoutError
from authoring.handout.words import alt_texts, page_furniture, words
from tests.handout.docx_reader import DC, DECORATIVE, WP, W, WordFile, read_words, style_of, text_of
from tests.handout.sample import (
    BALANCE,
    BRIDGE,
    EXERCISES,
    HEEL_RAISE,
    PAIN,
    SMALL_PRINT,
    STEP_UP,
    STOP,
    exercise,
    glance,
    lying_picture,
    sample_document,
    sample_parts,
    sample_with_pictures,
    upright_picture,
)
from tests.tools import ooxml_sdk_faults, openxml_audit_faults

DRAFT = "Draft, not for patients"
START = upright_picture(raised=False, alt="Start of it", caption="Start")
END = upright_picture(raised=True, alt="End of it", caption="End")
LYING = lying_picture(raised=True, alt="Lying", caption="")


def staged() -> HandoutDocument:
    """Two stages and a circuit."""
    parts = sample_parts()
    return sample_document(
        parts=(
            *parts[:5],
            StageHeading(1, "Stage 1", "Settle", "Calm it down."),
            BlockHeading("Warm-up", "5 minutes"),
            HEEL_RAISE,
            StageHeading(2, "Stage 2", "Strong and steady", ""),
            *EXERCISES[1:],
            *parts[-3:],
        )
    )


def with_pictures(count: int) -> HandoutDocument:
    many = (START, END, LYING, START, END)[:count]
    exercises = (evolve(HEEL_RAISE, pictures=many), evolve(BRIDGE, pictures=(LYING,) * count))
    return sample_document(parts=sample_parts(exercises))


def right_to_left() -> HandoutDocument:
    """Invented Arabic words; the clinic's name stays Latin."""
    lift = exercise(1, "رفع الكعب", "3 مجموعات من 12", steps=("قف مستقيما.", "ارفع الكعبين."))
    parts = (glance((lift,)), PAIN, STOP, lift, SMALL_PRINT)
    return sample_document(
        language="ar", direction=Direction.RTL, title="التواء الكاحل", parts=parts, banner=DRAFT
    )


VARIANTS = {
    "plain": sample_document(),
    "draft": sample_document(banner=DRAFT),
    "pictures": sample_with_pictures(),
    "letter": sample_with_pictures(page_size=PageSize.LETTER),
    "large": sample_with_pictures(print_size=PrintSize.LARGE),
    "one picture": with_pictures(1),
    "three pictures": with_pictures(3),
    "five pictures": with_pictures(5),
    "stages": staged(),
    "one card": sample_document(parts=(STEP_UP, SMALL_PRINT)),
    "right to left": right_to_left(),
    "nothing but a title": sample_document(parts=()),
}
each_variant = pytest.mark.parametrize("document", VARIANTS.values(), ids=VARIANTS.keys())


def spoken(document: HandoutDocument) -> list[str]:
    return " ".join(words(document)).split()


PICTURED = WordFile(write_docx(VARIANTS["pictures"]))


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
    assert (*header, footer[0].removesuffix("  of ").strip()) == page_furniture(document)
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


# ---- rules for accessible Word files ---------------------------------------------


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


def any_style(parent: object, style: str) -> bool:
    return any(style_of(paragraph) == style for paragraph in parent.iter(f"{W}p"))


def keeps_with_next(paragraph: object, file: WordFile) -> bool:
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
    kept = [
        "".join(node.text or "" for node in each.iter(f"{W}t"))
        for each in WordFile(write_docx(right_to_left())).body.iter(f"{W}dir")
        if each.get(f"{W}val") == "ltr"
    ]
    assert STOP.contact.phone in kept
