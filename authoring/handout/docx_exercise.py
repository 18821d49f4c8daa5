"""One exercise in Word: which, how much, how, and what if it hurts, held on one page."""

from __future__ import annotations

from attrs import frozen
from docx.oxml.xmlchemy import BaseOxmlElement

from authoring.handout.document import Change, Exercise, Option, Picture, Span
from authoring.handout.docx_format import Border, ParagraphFormat, Tab
from authoring.handout.docx_marks import care_mark, rung_mark, stop_mark
from authoring.handout.docx_measures import GUTTER_MM, text_width_mm
from authoring.handout.docx_numbering import BULLETS
from authoring.handout.docx_pictures import fit
from authoring.handout.docx_sheet import Sheet
from authoring.handout.docx_styles import WHITE
from authoring.handout.docx_tables import (
    CellLook,
    columns,
    data_table,
    fill_empty_cells,
    layout_table,
    split,
)

_MARK_MM = 4.6
_UPRIGHT_MM = (41.0, 59.0)
_LYING_MM = (84.0, 27.0)
_LYING_SHAPE = 1.6
_LEAST_WIDTH_MM = 20.0


@frozen
class Place:
    """How an exercise stands in its surroundings: heading style and a page break before it."""

    heading: str
    new_page: bool


def write_exercise(sheet: Sheet, part: Exercise, place: Place) -> None:
    """Heading with dose, pictures beside the steps, cautions, then the ways to change it."""
    start = sheet.mark
    _heading(sheet, part, place)
    sheet.optional(sheet.body, "Why", part.why)
    _middle(sheet, part)
    _weeks(sheet, part)
    _strip(sheet, part.changes)
    if not sheet.measures.large:
        sheet.hold_together(start)


def _heading(sheet: Sheet, part: Exercise, place: Place) -> None:
    measures = sheet.measures
    hang = measures.hang_mm * 1.75
    size = measures.sizes.name
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
        tabs=(Tab(hang), Tab(at)),
        page_break=place.new_page or None,
        before_pt=0 if place.new_page else None,
    )
    sheet.paragraph(sheet.body, place.heading, runs, look)
    if not beside:
        sheet.optional(sheet.body, "Dose", part.dose)


# ---- pictures and words -----------------------------------------------------


def _middle(sheet: Sheet, part: Exercise) -> None:
    count = len(part.pictures)
    body = sheet.body
    if sheet.measures.large or count > 2:
        _picture_row(sheet, part.pictures)
        _facts(sheet, body, part)
        _how(sheet, body, part)
    elif count:
        cell = _beside_pictures(sheet, part.pictures)
        _facts(sheet, cell, part)
        _how(sheet, cell, part)
        fill_empty_cells(sheet, [[cell]])
    elif _has_facts(part) and (part.steps or part.tips):
        widths, looks = columns(2, sheet.measures.text_mm)
        ((left, right),) = layout_table(sheet, widths, [looks])
        _facts(sheet, left, part)
        _how(sheet, right, part)
    else:
        _facts(sheet, body, part)
        _how(sheet, body, part)


def _has_facts(part: Exercise) -> bool:
    return any(text.strip() for text in (*part.details, part.needs, part.start))


def _facts(sheet: Sheet, parent: BaseOxmlElement, part: Exercise) -> None:
    details = [text for text in part.details if text.strip()]
    sheet.optional(parent, "Detail", " ".join(details))
    sheet.optional(parent, "Detail", part.needs)
    sheet.optional(parent, "Detail", part.start)


def _how(sheet: Sheet, parent: BaseOxmlElement, part: Exercise) -> None:
    if part.steps:
        sheet.items(parent, "Steps", _lines(part.steps), sheet.new_list())
    if part.tips:
        sheet.optional(parent, "TipsHeading", part.tips_heading)
        sheet.items(parent, "ListBullet", _lines(part.tips), BULLETS)
    for care in part.cares:
        _marked(sheet, parent, "Caution", care_mark(sheet.brand), (care.lead, care.text))
    for stop in part.stops:
        _marked(sheet, parent, "StopNote", stop_mark(sheet.brand), (stop.lead, stop.text))


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


def _beside_pictures(sheet: Sheet, pictures: tuple[Picture, ...]) -> BaseOxmlElement:
    """Lay one or two pictures in the left half; the cell of the right half."""
    half = sheet.measures.half_mm
    lying = all(picture.width_px > _LYING_SHAPE * picture.height_px for picture in pictures)
    if lying or len(pictures) == 1:
        widths, looks = columns(2, sheet.measures.text_mm)
        ((left, right),) = layout_table(sheet, widths, [looks])
        height = _LYING_MM[1] if lying else _UPRIGHT_MM[1]
        _stack(sheet, left, pictures, (half, height))
        return right
    each = (half - 2) / 2
    widths, looks = split([each, each, half])
    widths = (each + 2, each + GUTTER_MM, half)
    looks = (CellLook(padding_mm=(0, 0, 0, 2)), looks[1], looks[2])
    ((first, second, right),) = layout_table(sheet, widths, [looks])
    scale = _common_scale(pictures, (each, _UPRIGHT_MM[1]))
    for cell, picture in zip((first, second), pictures, strict=True):
        _picture(sheet, cell, picture, scale)
    return right


def _stack(
    sheet: Sheet,
    cell: BaseOxmlElement,
    pictures: tuple[Picture, ...],
    box_mm: tuple[float, float],
) -> None:
    scale = _common_scale(pictures, box_mm)
    for picture in pictures:
        _picture(sheet, cell, picture, scale)


def _picture_row(sheet: Sheet, pictures: tuple[Picture, ...]) -> None:
    """Three or more pictures, or large print: rows over the whole width."""
    if not pictures:
        return
    per_row = min(len(pictures), 2 if sheet.measures.large else 4)
    widths, looks = columns(per_row, sheet.measures.text_mm)
    rows = -(-len(pictures) // per_row)
    cells = layout_table(sheet, widths, [looks] * rows)
    height = 60.0 if sheet.measures.large else 50.0
    scale = _common_scale(pictures, (widths[-1], height))
    for index, picture in enumerate(pictures):
        _picture(sheet, cells[index // per_row][index % per_row], picture, scale)
    fill_empty_cells(sheet, cells)


def _common_scale(pictures: tuple[Picture, ...], box_mm: tuple[float, float]) -> float:
    """One scale (mm for a pixel) for all, so that a figure does not grow from start to end."""
    return min(fit(picture, *box_mm)[0] / picture.width_px for picture in pictures)


def _picture(sheet: Sheet, cell: BaseOxmlElement, picture: Picture, scale: float) -> None:
    width = max(picture.width_px * scale, _LEAST_WIDTH_MM)
    size = (width, width * picture.height_px / picture.width_px)
    sheet.optional(cell, "PictureLabel", picture.caption)
    sheet.paragraph(cell, "Picture", [sheet.pictures.run(picture, size)])


# ---- dose by week, and what to change ----------------------------------------


def _weeks(sheet: Sheet, part: Exercise) -> None:
    if not part.weeks:
        return
    width = sheet.measures.text_mm if sheet.measures.large else 114.0
    head = CellLook(fill=sheet.brand.tint)
    rows = [[head, head], *([[CellLook(), CellLook()]] * len(part.weeks))]
    cells = data_table(
        sheet,
        [width * 0.45, width * 0.55],
        rows,
        caption=f"{part.number} {part.name}",
        description=" / ".join(part.weeks_headers),
    )
    words = [part.weeks_headers, *((row.weeks, row.dose) for row in part.weeks)]
    for index, (row, texts) in enumerate(zip(cells, words, strict=True)):
        for cell, text in zip(row, texts, strict=True):
            run = sheet.run(text, "Strong" if index == 0 else None)
            sheet.paragraph(cell, "DiaryCell", [run])


def _strip(sheet: Sheet, changes: tuple[Change, ...]) -> None:
    """Tinted panels side by side; one under the other in large print."""
    if not changes:
        return
    stacked = sheet.measures.large or len(changes) > 3
    shares = [sheet.measures.text_mm] if stacked else _shares(sheet, changes)
    per_row = len(shares)
    rows = len(changes) // per_row
    looks = [
        [_panel(sheet, first_row=row == 0, first=column == 0) for column in range(per_row)]
        for row in range(rows)
    ]
    cells = layout_table(sheet, shares, looks)
    for index, change in enumerate(changes):
        cell = cells[index // per_row][index % per_row]
        _change(sheet, cell, change, shares[index % per_row] - 8)


def _shares(sheet: Sheet, changes: tuple[Change, ...]) -> list[float]:
    """Widths by the number of options: two options get twice the room of one."""
    total = sheet.measures.text_mm
    weights = [max(1, min(2, len(change.options))) for change in changes]
    return [total * weight / sum(weights) for weight in weights]


def _panel(sheet: Sheet, *, first_row: bool, first: bool) -> CellLook:
    borders = []
    if not first_row:
        borders.append(Border("top", WHITE, 12))
    if not first:
        borders.append(Border("left", WHITE, 12))
    return CellLook(
        fill=sheet.brand.tint, borders=tuple(borders), padding_mm=(3, 4, 3, 4), upright="top"
    )


def _change(sheet: Sheet, cell: BaseOxmlElement, change: Change, width_mm: float) -> None:
    runs = [
        sheet.pictures.mark(rung_mark(change.direction, sheet.brand), (3.6, 5.4)),
        sheet.run("  "),
        sheet.run(change.heading),
    ]
    if change.sub.strip():
        runs += [sheet.run("  "), sheet.run(change.sub, "BodySize")]
    sheet.paragraph(cell, "ChangeHeading", runs)
    hang = (
        max(
            (text_width_mm(option.label, sheet.measures.sizes.body) for option in change.options),
            default=0.0,
        )
        + 3
    )
    beside = hang <= width_mm * 0.45 and not any(option.picture for option in change.options)
    for option in change.options:
        if beside:
            _option_beside(sheet, cell, option, hang)
        else:
            _option_below(sheet, cell, option, width_mm)


def _option_beside(sheet: Sheet, cell: BaseOxmlElement, option: Option, hang_mm: float) -> None:
    """Label left, words and dose in a column to its right."""
    look = ParagraphFormat(left_mm=hang_mm, hanging_mm=hang_mm, tabs=(Tab(hang_mm),))
    label = [sheet.run(option.label, "Strong"), sheet.tab(), sheet.run(option.text)]
    sheet.paragraph(cell, "OptionText", label, look)
    if option.dose.strip():
        look = ParagraphFormat(left_mm=hang_mm, after_pt=3)
        sheet.paragraph(cell, "OptionDose", option.dose, look)


def _option_below(sheet: Sheet, cell: BaseOxmlElement, option: Option, width_mm: float) -> None:
    sheet.optional(cell, "OptionLabel", option.label)
    if option.picture:
        scale = _common_scale((option.picture,), (width_mm, 28))
        _picture(sheet, cell, option.picture, scale)
    sheet.optional(cell, "OptionText", option.text)
    sheet.optional(cell, "OptionDose", option.dose)
