"""What to change in an exercise: the panels "If it hurts" and "If it feels easy"."""

from __future__ import annotations

from docx.oxml.xmlchemy import BaseOxmlElement

from authoring.handout.document import Change, Option
from authoring.handout.docx_figure import common_scale, write_picture
from authoring.handout.docx_format import ParagraphFormat, Tab
from authoring.handout.docx_marks import rung_mark
from authoring.handout.docx_measures import text_width_mm
from authoring.handout.docx_sheet import Sheet


def write_change(sheet: Sheet, cell: BaseOxmlElement, change: Change, width_mm: float) -> None:
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
        scale = common_scale((option.picture,), (width_mm, 28))
        write_picture(sheet, cell, option.picture, scale)
    sheet.optional(cell, "OptionText", option.text)
    sheet.optional(cell, "OptionDose", option.dose)
