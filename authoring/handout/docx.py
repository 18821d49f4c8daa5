"""The Word writer: a handout tree becomes one .docx file.

Everything is plain flowing text with real styles, so that the clinic can edit
it: headings, numbered lists, simple tables and pictures in the text line; no
text boxes, no merged cells, no table inside another. The order of the file is
the order of :func:`authoring.handout.words.words`.
"""

from __future__ import annotations

from functools import partial

from docx.oxml.xmlchemy import BaseOxmlElement

from authoring.handout.choices import Layout
from authoring.handout.document import (
    BlockHeading,
    Diary,
    Exercise,
    ExtraSheet,
    Facts,
    Glance,
    HandoutDocument,
    Notes,
    PainGuide,
    Part,
    PrintSize,
    Ready,
    SmallPrint,
    StageHeading,
    Stairs,
    StopBox,
)
from authoring.handout.docx_close import MOST_IN_ROWS, write_cards, write_close_exercise
from authoring.handout.docx_diary import write_diary, write_ready, write_small_print
from authoring.handout.docx_exercise import Place, write_exercise
from authoring.handout.docx_format import ParagraphFormat
from authoring.handout.docx_measures import measures_of
from authoring.handout.docx_overview import (
    write_facts,
    write_glance,
    write_head,
    write_notes,
    write_stairs,
)
from authoring.handout.docx_package import close_package, open_package, section_properties
from authoring.handout.docx_safety import write_pain, write_stop
from authoring.handout.docx_sheet import Sheet
from authoring.handout.docx_text import refuse_what_xml_cannot_hold

_OVERVIEW = Stairs | Glance | Facts | PainGuide | StopBox
_IN_A_RUN = Exercise | BlockHeading | StageHeading
_HEADINGS = BlockHeading | StageHeading
_HEADED = Glance | PainGuide | Notes | StageHeading | BlockHeading | Diary | Ready | SmallPrint


def write_docx(document: HandoutDocument) -> bytes:
    """``document`` as the bytes of a .docx file; equal documents give equal bytes.

    Raises:
        HandoutError: a text holds a control character, a picture can't be read or
            a link leads to something other than the web, mail or telephone.
    """
    refuse_what_xml_cannot_hold(document)
    measures = measures_of(document)
    word = open_package(document, measures)
    sheet = Sheet(word, document, measures)
    write_head(sheet, document)
    breaks = page_starts(document)
    for index in range(len(document.parts)):
        _write_part(sheet, document, index, new_page=index in breaks)
    sheet.close_tables(sheet.body)
    last = section_properties(document, measures, first=not sheet.has_section)
    sheet.body.append(last)
    return close_package(word)


def page_starts(document: HandoutDocument) -> frozenset[int]:
    """Indexes of the parts that begin a page.

    Exercises begin one where they follow the overview directly, the diary always
    does, and in large print every exercise. A single exercise flows on, and so does all of a
    compact sheet.
    """
    starts: set[int] = set()
    parts = document.parts
    large = document.print_size is PrintSize.LARGE
    if document.layout is not Layout.FULL and not large:
        return frozenset()
    exercises = sum(isinstance(part, Exercise) for part in parts)
    for index, part in enumerate(parts):
        before = parts[index - 1] if index else None
        run_starts = isinstance(part, _IN_A_RUN) and isinstance(before, _OVERVIEW)
        alone = large and isinstance(part, Exercise) and not isinstance(before, _HEADINGS)
        if (
            (run_starts and exercises > 1)
            or (index and isinstance(part, Diary))
            or (alone and index)
        ):
            starts.add(index)
    return frozenset(starts)


def _write_part(sheet: Sheet, document: HandoutDocument, index: int, *, new_page: bool) -> None:
    part = document.parts[index]
    match part:
        case Stairs():
            write_stairs(sheet, part)
        case Glance():
            write_glance(sheet, part)
        case Facts():
            write_facts(sheet, part)
        case PainGuide():
            write_pain(sheet, part)
        case StopBox():
            write_stop(sheet, part)
        case Notes():
            write_notes(sheet, part)
        case StageHeading() | BlockHeading() | ExtraSheet():
            _write_heading(sheet, part, new_page=new_page)
        case Exercise():
            _write_exercise(sheet, document, part, index, new_page=new_page)
        case Diary():
            section = partial(_section, sheet, document)
            write_diary(sheet, part, new_page=new_page, section=section)
        case Ready():
            write_ready(sheet, part)
        case SmallPrint():
            write_small_print(sheet, part)


def _write_exercise(
    sheet: Sheet, document: HandoutDocument, part: Exercise, index: int, *, new_page: bool
) -> None:
    place = _place(document.parts, index, new_page=new_page)
    if not sheet.measures.close:
        write_exercise(sheet, part, place)
        return
    run = [each for each in document.parts if isinstance(each, Exercise)]
    if document.layout is not Layout.OVERVIEW or len(run) <= MOST_IN_ROWS:
        write_close_exercise(sheet, part, place)
    elif part is run[0]:
        write_cards(sheet, run, place.heading)


def _write_heading(
    sheet: Sheet, part: StageHeading | BlockHeading | ExtraSheet, *, new_page: bool
) -> None:
    if isinstance(part, ExtraSheet):
        opening = ParagraphFormat(page_break=True, before_pt=0)
        sheet.paragraph(sheet.body, "Heading1", part.heading, opening)
        sheet.optional(sheet.body, "Lead", part.note)
        return
    look = ParagraphFormat(page_break=new_page or None, before_pt=0 if new_page else None)
    if isinstance(part, BlockHeading):
        sheet.paragraph(sheet.body, "Heading1", part.name, look)
        sheet.optional(sheet.body, "BlockNote", part.note)
        return
    runs = [sheet.run(part.label), sheet.run("  "), sheet.run(part.name)]
    sheet.paragraph(sheet.body, "StageHeading", runs, look)
    sheet.optional(sheet.body, "Lead", part.lead)


def _place(parts: tuple[Part, ...], index: int, *, new_page: bool) -> Place:
    """An exercise stands below a section heading; without one it is a first-level heading."""
    headed = any(isinstance(part, _HEADED) for part in parts[:index])
    return Place(heading="Heading2" if headed else "LoneExercise", new_page=new_page)


def _section(sheet: Sheet, document: HandoutDocument, columns: int) -> BaseOxmlElement:
    return section_properties(
        document, sheet.measures, columns=columns, first=not sheet.has_section
    )
