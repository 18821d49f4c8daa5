"""The tick-off diary, what must be true before the next stage, and the small print."""

from __future__ import annotations

from collections.abc import Callable

from docx.oxml.xmlchemy import BaseOxmlElement

from authoring.handout.document import Diary, DiaryWeek, Ready, SmallPrint
from authoring.handout.docx_format import ParagraphFormat
from authoring.handout.docx_numbering import TICKS
from authoring.handout.docx_sheet import Sheet
from authoring.handout.docx_tables import CellLook, data_table, fill_empty_cells

_MOST_SIDE_BY_SIDE = 4

SectionEnd = Callable[[int], BaseOxmlElement]


def write_diary(sheet: Sheet, part: Diary, *, new_page: bool, section: SectionEnd) -> None:
    """One table a week, two weeks side by side where the days leave room.

    ``section`` gives the properties that end a section of so many columns.
    """
    look = ParagraphFormat(page_break=new_page or None, before_pt=0 if new_page else None)
    sheet.paragraph(sheet.body, "DiaryHeading", part.heading, look)
    if part.instruction.strip():
        keep = ParagraphFormat(keep_next=True, after_pt=2)
        sheet.paragraph(sheet.body, "NoteText", part.instruction, keep)
    days = max((len(week.columns) for week in part.weeks), default=0)
    pair = not sheet.measures.large and days <= _MOST_SIDE_BY_SIDE and len(part.weeks) > 1
    if pair:
        sheet.end_section(section(1))
    for week in part.weeks:
        _week(sheet, week, part.instruction, sheet.measures.half_mm if pair else None)
    if pair:
        sheet.end_section(section(2))


def _week(sheet: Sheet, week: DiaryWeek, instruction: str, width_mm: float | None) -> None:
    start = sheet.mark
    width = width_mm or sheet.measures.text_mm
    sheet.paragraph(sheet.body, "WeekHeading", week.heading)
    day = min(18.0, width * 0.46 / max(1, len(week.columns)))
    widths = [width - day * len(week.columns), *([day] * len(week.columns))]
    plain, tinted = CellLook(upright="center"), CellLook(fill=sheet.brand.tint, upright="center")
    kinds = [plain] * (1 + len(week.exercise_rows)) + [tinted] * len(week.pain_rows)
    cells = data_table(
        sheet,
        widths,
        [[look] * len(widths) for look in kinds],
        caption=week.heading,
        description=instruction,
    )
    head, *rows = cells
    sheet.paragraph(head[0], "DiaryCell", [sheet.run(week.row_heading, "Strong")])
    for cell, name in zip(head[1:], week.columns, strict=True):
        sheet.paragraph(cell, "DiaryHead", name)
    for row, name in zip(rows, (*week.exercise_rows, *week.pain_rows), strict=True):
        sheet.paragraph(row[0], "DiaryCell", name)
    fill_empty_cells(sheet, cells)
    sheet.hold_together(start)


def write_ready(sheet: Sheet, part: Ready) -> None:
    """Boxes to tick, then what follows from them."""
    start = sheet.mark
    sheet.paragraph(sheet.body, "ReadyHeading", part.heading)
    sheet.optional(sheet.body, "NoteText", part.instruction)
    for tick in part.ticks:
        sheet.paragraph(sheet.body, "Checklist", tick, ParagraphFormat(number=TICKS))
    for outcome in part.outcomes:
        runs = [sheet.run(outcome.question, "Strong"), sheet.space(), sheet.run(outcome.action)]
        sheet.paragraph(sheet.body, "Outcome", runs)
    sheet.hold_together(start)


def write_small_print(sheet: Sheet, part: SmallPrint) -> None:
    """Who wrote it, which version, what it rests on."""
    start = sheet.mark
    sheet.paragraph(sheet.body, "SmallHeading", part.heading)
    for line in part.lines:
        sheet.optional(sheet.body, "SmallPrint", line)
    sheet.hold_together(start)
