"""Exercises of the compact sheet and the overview in Word: closely set, and easy to edit.

A compact exercise is its name and dose over one row: pictures, how it is done, what to
change. An overview of many exercises sets two of them side by side.
"""

from __future__ import annotations

from collections.abc import Sequence

from docx.oxml.xmlchemy import BaseOxmlElement

from authoring.handout.document import Change, Exercise, Picture
from authoring.handout.docx_exercise import (
    Place,
    badge_mm,
    write_cares,
    write_facts_of,
    write_name,
    write_steps,
    write_tips,
)
from authoring.handout.docx_figure import common_scale, scaled, write_side_by_side
from authoring.handout.docx_format import ParagraphFormat, Tab
from authoring.handout.docx_marks import rung_mark
from authoring.handout.docx_pictures import fit
from authoring.handout.docx_sheet import Sheet
from authoring.handout.docx_tables import fill_empty_cells, layout_table, split

_GAP_MM = 5.0
_PICTURES_MM, _PICTURE_HIGH_MM = 46.0, 30.0
_CHANGES_MM = 54.0
_CARD_PICTURE_MM, _CARD_HIGH_MM = 26.0, 18.0
_LYING_SHAPE = 1.6
_FLAT = ParagraphFormat(before_pt=2, after_pt=0)

MOST_IN_ROWS = 4
"""Exercises of an overview that still have a row each; more of them stand two in a row."""


def write_close_exercise(sheet: Sheet, part: Exercise, place: Place) -> None:
    """One exercise as a heading and one row, kept on one page."""
    start = sheet.mark
    write_name(sheet, part, place)
    sheet.optional(sheet.body, "Why", part.why)
    pictures, changes = _ends(part.pictures), part.changes
    used = _PICTURES_MM + _GAP_MM if pictures else 0.0
    used += _CHANGES_MM + _GAP_MM if changes else 0.0
    shares = [sheet.measures.text_mm - used]
    if pictures:
        shares.insert(0, _PICTURES_MM)
    if changes:
        shares.append(_CHANGES_MM)
    widths, looks = split(shares, gutter_mm=_GAP_MM)
    cells = layout_table(sheet, widths, [looks])
    row = cells[0]
    if pictures:
        _pictures(sheet, row[0], pictures, (_PICTURES_MM, _PICTURE_HIGH_MM))
    words = row[1 if pictures else 0]
    for write in (write_facts_of, write_steps, write_tips, write_cares):
        write(sheet, words, part)
    for change in changes:
        _change(sheet, row[-1], change)
    fill_empty_cells(sheet, cells)
    sheet.hold_together(start)


def write_cards(sheet: Sheet, parts: Sequence[Exercise], heading: str) -> None:
    """Many exercises of an overview: name, dose and picture, two in a row."""
    half = sheet.measures.half_mm
    shares = (half - _CARD_PICTURE_MM - 2, _CARD_PICTURE_MM + 2) * 2
    widths, looks = split(shares, gutter_mm=0)
    gutter = sheet.measures.text_mm - sum(widths)
    widths = (widths[0], widths[1] + gutter, *widths[2:])
    cells = layout_table(sheet, widths, [looks] * -(-len(parts) // 2))
    for index, part in enumerate(parts):
        words, picture = cells[index // 2][index % 2 * 2 : index % 2 * 2 + 2]
        hang = badge_mm(sheet, part.number)
        badge = sheet.run(f"\u00a0{part.number}\u00a0", "Number")
        look = ParagraphFormat(before_pt=2, left_mm=hang, hanging_mm=hang, tabs=(Tab(hang),))
        sheet.paragraph(words, heading, [badge, sheet.tab(), sheet.run(part.name)], look)
        sheet.optional(words, "Dose", part.dose)
        for detail in part.details:
            sheet.optional(words, "OptionText", detail)
        for change in part.changes:
            _change(sheet, words, change)
        if part.pictures:
            end = part.pictures[-1]
            size = fit(end, _CARD_PICTURE_MM, _CARD_HIGH_MM)
            sheet.optional(picture, "PictureLabel", end.caption)
            sheet.paragraph(picture, "Picture", [sheet.pictures.run(end, size)], _FLAT)
    fill_empty_cells(sheet, cells)


def _ends(pictures: tuple[Picture, ...]) -> tuple[Picture, ...]:
    """The first picture and the last, where there is no room for what lies between."""
    silent = not any(picture.caption.strip() for picture in pictures)
    return (pictures[0], pictures[-1]) if len(pictures) > 2 and silent else pictures


def _pictures(
    sheet: Sheet,
    cell: BaseOxmlElement,
    pictures: tuple[Picture, ...],
    box_mm: tuple[float, float],
) -> None:
    width, height = box_mm
    lying = all(picture.width_px > _LYING_SHAPE * picture.height_px for picture in pictures)
    if lying or len(pictures) == 1:
        scale = common_scale(pictures, (width, height / len(pictures)))
        for picture in pictures:
            sheet.optional(cell, "PictureLabel", picture.caption)
            sheet.paragraph(cell, "Picture", [sheet.pictures.run(picture, scaled(picture, scale))])
        return
    write_side_by_side(sheet, cell, pictures, ((width - 4) / 2, height), 2)


def _change(sheet: Sheet, cell: BaseOxmlElement, change: Change) -> None:
    """What to change as text: a heading, then one paragraph for each way."""
    runs = [
        sheet.pictures.mark(rung_mark(change.direction, sheet.brand), (3, 4.4)),
        sheet.run(" "),
        sheet.run(change.heading),
    ]
    if change.sub.strip():
        runs += [sheet.space(), sheet.run(change.sub, "BodySize")]
    sheet.paragraph(cell, "ChangeHeading", runs, ParagraphFormat(after_pt=1))
    for option in change.options:
        pieces: list[BaseOxmlElement] = []
        if option.picture:
            sheet.optional(cell, "OptionLabel", option.label)
            scale = common_scale((option.picture,), (_PICTURES_MM, 20))
            shown = [sheet.pictures.run(option.picture, scaled(option.picture, scale))]
            sheet.optional(cell, "PictureLabel", option.picture.caption)
            sheet.paragraph(cell, "Picture", shown)
        else:
            pieces += [sheet.run(option.label, "Strong"), sheet.space()] if option.label else []
        pieces += [sheet.run(option.text), sheet.space()] if option.text else []
        pieces += [sheet.run(option.dose, "Strong")] if option.dose else []
        if pieces:
            sheet.paragraph(cell, "OptionText", pieces, ParagraphFormat(after_pt=2))
