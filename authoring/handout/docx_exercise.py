"""One exercise in Word: which, how much, how, and what if it hurts, held on one page."""

from __future__ import annotations

from attrs import frozen
from docx.oxml.xmlchemy import BaseOxmlElement

from authoring.handout.document import Exercise, Picture, Span
from authoring.handout.docx_change import write_change
from authoring.handout.docx_figure import common_scale, write_picture, write_side_by_side
from authoring.handout.docx_format import Border, ParagraphFormat, Tab
from authoring.handout.docx_marks import care_mark, stop_mark
from authoring.handout.docx_measures import GUTTER_MM, text_width_mm
from authoring.handout.docx_numbering import BULLETS
from authoring.handout.docx_sheet import Sheet
from authoring.handout.docx_styles import WHITE
from authoring.handout.docx_tables import (
    CellLook,
    fill_empty_cells,
    layout_table,
)

_MARK_MM = 4.2
_UPRIGHT_MM, _LYING_MM = 54.0, 26.0
_LYING_SHAPE = 1.6


@frozen
class Place:
    """How an exercise stands in its surroundings: heading style and a page break before it."""

    heading: str
    new_page: bool


def write_exercise(sheet: Sheet, part: Exercise, place: Place) -> None:
    """Heading with dose, pictures beside the steps, cautions, then the ways to change it."""
    start = sheet.mark
    write_name(sheet, part, place)
    sheet.optional(sheet.body, "Why", part.why)
    if sheet.measures.large or len(part.pictures) > 2:
        _one_column(sheet, part)
    else:
        _two_columns(sheet, part)
    if not sheet.measures.large:
        sheet.hold_together(start)


def write_name(sheet: Sheet, part: Exercise, place: Place) -> None:
    """Number and name, and the dose beside them where both fit one line, else below."""
    measures = sheet.measures
    size = measures.sizes.name
    hang = badge_mm(sheet, part.number)
    at = measures.half_mm + GUTTER_MM
    beside = (
        not measures.large
        and hang + text_width_mm(part.name, size) < at
        and text_width_mm(part.dose, size) <= measures.half_mm
    )
    runs = [sheet.run(f"\u00a0{part.number}\u00a0", "Number"), sheet.tab(), sheet.run(part.name)]
    if beside and part.dose:
        runs += [sheet.tab(), sheet.run(part.dose, "DoseInline")]
    look = ParagraphFormat(
        left_mm=hang,
        hanging_mm=hang,
        tabs=(Tab(hang), Tab(at)),
        page_break=place.new_page or None,
        before_pt=0 if place.new_page else None,
    )
    sheet.paragraph(sheet.body, place.heading, runs, look)
    if not beside:
        sheet.optional(sheet.body, "Dose", part.dose)


def badge_mm(sheet: Sheet, number: int) -> float:
    """Indent of a name behind its number: the same for all, but more for a long number."""
    badge = text_width_mm(f" {number} ", sheet.measures.sizes.name)
    return max(sheet.measures.hang_mm * 1.75, badge + 2.5)


# ---- pictures and words -----------------------------------------------------


def _one_column(sheet: Sheet, part: Exercise) -> None:
    """Large print, or a row of many pictures: everything below one another."""
    _picture_rows(sheet, part.pictures)
    for write in (write_facts_of, write_steps, write_tips, write_cares):
        write(sheet, sheet.body, part)
    if part.changes:
        looks = [[_panel(sheet, above=index > 0, left=False)] for index in range(len(part.changes))]
        cells = layout_table(sheet, [sheet.measures.text_mm], looks)
        for row, change in zip(cells, part.changes, strict=True):
            write_change(sheet, row[0], change, sheet.measures.text_mm - 8)


def _two_columns(sheet: Sheet, part: Exercise) -> None:
    """One table of two columns: pictures and words in the first row, the changes below it.

    Word keeps the rows of one table together more surely than two tables.
    """
    half = sheet.measures.half_mm
    widths = (half + GUTTER_MM, half)
    top = (CellLook(padding_mm=(0, 0, 0, GUTTER_MM)), CellLook())
    panels = [
        tuple(
            _panel(sheet, above=True, left=column > 0) if index < len(part.changes) else CellLook()
            for column, index in ((0, first), (1, first + 1))
        )
        for first in range(0, len(part.changes), 2)
    ]
    cells = layout_table(sheet, widths, [top, *panels])
    (left, right), *below = cells
    if part.pictures:
        _beside(sheet, left, part.pictures)
    for index, write in enumerate((write_facts_of, write_steps, write_tips, write_cares)):
        write(sheet, left if index < _left_share(part) else right, part)
    places = [cell for row in below for cell in row]
    for cell, change in zip(places, part.changes, strict=False):
        write_change(sheet, cell, change, half - 8)
    fill_empty_cells(sheet, cells)


def _left_share(part: Exercise) -> int:
    """How many of facts, steps, tips and cautions go to the left column.

    Pictures fill it alone. Without them facts and steps stand left, and steps
    move over where the right column would stay empty.
    """
    if part.pictures:
        return 0
    if part.tips or part.cares or part.stops or part.weeks or not _has_facts(part):
        return 2
    return 1


def _has_facts(part: Exercise) -> bool:
    return any(text.strip() for text in (*part.details, part.needs, part.start))


def write_facts_of(sheet: Sheet, parent: BaseOxmlElement, part: Exercise) -> None:
    details = [text for text in part.details if text.strip()]
    sheet.optional(parent, "Detail", " ".join(details))
    sheet.optional(parent, "Detail", part.needs)
    sheet.optional(parent, "Detail", part.start)


def write_steps(sheet: Sheet, parent: BaseOxmlElement, part: Exercise) -> None:
    if part.steps:
        sheet.items(parent, "Steps", _lines(part.steps), sheet.new_list())


def write_tips(sheet: Sheet, parent: BaseOxmlElement, part: Exercise) -> None:
    if part.tips:
        sheet.optional(parent, "TipsHeading", part.tips_heading)
        sheet.items(parent, "ListBullet", _lines(part.tips), BULLETS)


def write_cares(sheet: Sheet, parent: BaseOxmlElement, part: Exercise) -> None:
    for care in part.cares:
        _marked(sheet, parent, "Caution", care_mark(sheet.brand), (care.lead, care.text))
    for stop in part.stops:
        _marked(sheet, parent, "StopNote", stop_mark(sheet.brand), (stop.lead, stop.text))
    if part.weeks:
        _weeks(sheet, parent, part)


def _lines(texts: tuple[str, ...]) -> list[tuple[Span, ...]]:
    return [(Span(text),) for text in texts]


def _marked(
    sheet: Sheet, parent: BaseOxmlElement, style: str, mark: str, words: tuple[str, str]
) -> None:
    lead, text = words
    runs = [
        sheet.pictures.mark(mark, (_MARK_MM, _MARK_MM)),
        sheet.tab(),
        sheet.run(lead, "Strong"),
        sheet.space(),
        sheet.run(text),
    ]
    sheet.paragraph(parent, style, runs)


def _beside(sheet: Sheet, cell: BaseOxmlElement, pictures: tuple[Picture, ...]) -> None:
    """One or two pictures in half the page: upright ones side by side, lying ones stacked."""
    half = sheet.measures.half_mm
    lying = all(picture.width_px > _LYING_SHAPE * picture.height_px for picture in pictures)
    if lying or len(pictures) == 1:
        height = _LYING_MM if lying else _UPRIGHT_MM
        scale = common_scale(pictures, (half, height))
        for picture in pictures:
            write_picture(sheet, cell, picture, scale)
        return
    write_side_by_side(sheet, cell, pictures, ((half - 2) / 2, _UPRIGHT_MM), 2)


def _picture_rows(sheet: Sheet, pictures: tuple[Picture, ...]) -> None:
    """Three or more pictures, or large print: rows over the whole width."""
    per_row = 2 if sheet.measures.large else 4
    slots = min(per_row, max(2, len(pictures)))
    width = (sheet.measures.text_mm - GUTTER_MM * (slots - 1)) / slots
    height = 54.0 if sheet.measures.large else 50.0
    for first in range(0, len(pictures), per_row):
        row = pictures[first : first + per_row]
        write_side_by_side(sheet, sheet.body, row, (width, height), GUTTER_MM)


# ---- dose by week -------------------------------------------------------------


def _weeks(sheet: Sheet, parent: BaseOxmlElement, part: Exercise) -> None:
    """Lines of "weeks, dose" under their two headings."""
    size = sheet.measures.sizes.body
    weeks = (part.weeks_headers[0], *(row.weeks for row in part.weeks))
    at = max(text_width_mm(text, size) for text in weeks) + 4
    rows = [part.weeks_headers, *((row.weeks, row.dose) for row in part.weeks)]
    for index, (left, right) in enumerate(rows):
        style = "Strong" if index == 0 else None
        look = ParagraphFormat(left_mm=at, hanging_mm=at, tabs=(Tab(at),))
        runs = [sheet.run(left, style), sheet.tab(), sheet.run(right, style)]
        sheet.paragraph(parent, "WeekDose", runs, look)


def _panel(sheet: Sheet, *, above: bool, left: bool) -> CellLook:
    """A tinted cell; thick white lines part it from its neighbours."""
    borders = []
    if above:
        borders.append(Border("top", WHITE, 12))
    if left:
        borders.append(Border("left", WHITE, 12))
    return CellLook(sheet.brand.tint, tuple(borders), (2.2, 6 if left else 4, 2.2, 4))
