"""The tick-off diary, what must be true before the next stage, and the small print."""

from __future__ import annotations

from collections.abc import Callable
from math import ceil

from docx.oxml.xmlchemy import BaseOxmlElement

from authoring.handout.document import Diary, DiaryWeek, Ready, SmallPrint
from authoring.handout.docx_format import POINTS_PER_MM, ParagraphFormat
from authoring.handout.docx_measures import text_width_mm
from authoring.handout.docx_numbering import TICKS
from authoring.handout.docx_sheet import Sheet
from authoring.handout.docx_tables import CellLook, data_table, fill_empty_cells

_MOST_SIDE_BY_SIDE = 4
_DAYS_SHARE = 0.46
_HEAD_MM = 30.0

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
    pair = _side_by_side(sheet, part)
    if pair:
        sheet.end_section(section(1))
    for week in part.weeks:
        _week(sheet, week, part.instruction, sheet.measures.half_mm if pair else None)
    if pair:
        sheet.end_section(section(2))
        # LibreOffice 7.4 breaks down where a section of columns is followed at once by
        # paragraphs that each keep with the next.
        sheet.gap(sheet.body, 2, keep=False)


def _side_by_side(sheet: Sheet, part: Diary) -> bool:
    """Two columns where the days leave room and all weeks still end on the diary's first page.

    Columns that run on over several pages are hard to follow, and LibreOffice 7.4
    may break down over them.
    """
    days = max((len(week.columns) for week in part.weeks), default=0)
    if sheet.measures.large or days > _MOST_SIDE_BY_SIDE or len(part.weeks) < 2:
        return False
    name_mm = sheet.measures.half_mm * (1 - _DAYS_SHARE) - 3
    heights = [_height_mm(sheet, week, name_mm) for week in part.weeks]
    in_a_column = -(-len(heights) // 2)
    room = sheet.measures.height_mm - sheet.measures.top_mm - sheet.measures.bottom_mm
    return max(heights) * in_a_column <= room - _HEAD_MM


def _height_mm(sheet: Sheet, week: DiaryWeek, name_mm: float) -> float:
    """Estimated height of one week: heading, header row, and names that may wrap."""
    size = sheet.measures.sizes.body
    line = size * 1.36 / POINTS_PER_MM
    lines = sum(
        ceil(text_width_mm(name, size) / name_mm) for name in (*week.exercise_rows, *week.pain_rows)
    )
    return (lines + 2) * line + (len(week.exercise_rows) + len(week.pain_rows) + 3) * 1.9


def _week(sheet: Sheet, week: DiaryWeek, instruction: str, width_mm: float | None) -> None:
    start = sheet.mark
    width = width_mm or sheet.measures.text_mm
    sheet.paragraph(sheet.body, "WeekHeading", week.heading)
    day = min(18.0, width * _DAYS_SHARE / max(1, len(week.columns)))
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
