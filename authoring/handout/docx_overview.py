"""Page 1 of the Word handout: masthead, where you are, what to do, how often, notes."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from attrs import evolve
from docx.oxml.xmlchemy import BaseOxmlElement

from authoring.handout.document import (
    Bullets,
    Facts,
    Glance,
    GlanceItem,
    HandoutDocument,
    Masthead,
    Notes,
    Numbered,
    Paragraph,
    Stairs,
    StairStep,
)
from authoring.handout.docx_format import POINTS_PER_MM, Border, ParagraphFormat, Tab, frame
from authoring.handout.docx_measures import text_width_mm
from authoring.handout.docx_numbering import BULLETS
from authoring.handout.docx_pictures import fit
from authoring.handout.docx_sheet import Sheet
from authoring.handout.docx_styles import PANEL_INSET_MM, PLAIN
from authoring.handout.docx_tables import CellLook, columns, fill_empty_cells, layout_table, split

_LOGO_MM = 8.0
_GLANCE_MM = 30.0
_BADGE_MM = 10.0
_MOST_COLUMNS = 4


def write_head(sheet: Sheet, document: HandoutDocument) -> None:
    """The clinic's name, the lines to fill in, the title and the main message."""
    _masthead(sheet, document.masthead)
    sheet.paragraph(sheet.body, "Title", document.title)
    sheet.optional(sheet.body, "Lead", document.lead)


def _masthead(sheet: Sheet, masthead: Masthead) -> None:
    runs: list[BaseOxmlElement] = []
    used = 0.0
    if sheet.brand.logo:
        size = fit(sheet.brand.logo, 40, _LOGO_MM)
        runs += [sheet.pictures.run(sheet.brand.logo, size), sheet.run("  ")]
        used = size[0] + 3
    body_pt = sheet.measures.sizes.body
    runs.append(sheet.run(masthead.clinic_name, "Clinic"))
    used += text_width_mm(masthead.clinic_name, body_pt) + 6
    blank_runs, tabs, needed = _blanks(sheet, masthead)
    beside = used + needed <= sheet.measures.text_mm
    if beside or not masthead.blanks:
        look = ParagraphFormat(tabs=tabs)
        sheet.paragraph(sheet.body, "Masthead", [*runs, *blank_runs], look)
        return
    sheet.paragraph(sheet.body, "Masthead", runs)
    look = ParagraphFormat(tabs=tabs, before_pt=6)
    sheet.paragraph(sheet.body, "Masthead", blank_runs, look)


def _blanks(
    sheet: Sheet, masthead: Masthead
) -> tuple[list[BaseOxmlElement], tuple[Tab, ...], float]:
    """Runs, tab stops and whole width (mm) of the labelled lines, set to the right margin."""
    size = sheet.measures.sizes.body
    labels = [text_width_mm(blank.label, size) + 1.5 for blank in masthead.blanks]
    needed = sum(labels) + sum(blank.width_mm + 4 for blank in masthead.blanks)
    # A tab stop just beyond the margin is passed over, so end a little before it.
    at = sheet.measures.text_mm - needed - 0.5
    runs: list[BaseOxmlElement] = []
    tabs: list[Tab] = []
    for blank, label in zip(masthead.blanks, labels, strict=True):
        tabs += [Tab(at + 4), Tab(at + 4 + label + blank.width_mm, "left", "underscore")]
        runs += [sheet.tab(), sheet.run(f"{blank.label} "), sheet.tab()]
        at += 4 + label + blank.width_mm
    return runs, tuple(tabs), needed


def write_stairs(sheet: Sheet, part: Stairs) -> None:
    """Stages as steps that rise from left to right, or a plain list in large print."""
    count = len(part.steps)
    if not count:
        return
    if sheet.measures.large or count > 6:
        _stairs_as_list(sheet, part)
        return
    widths, looks = split([(sheet.measures.text_mm - count + 1) / count] * count, gutter_mm=1)
    bottom = [evolve(look, upright="bottom") for look in looks]
    cells = layout_table(sheet, widths, [bottom])
    rise = min(9.0, 27 / max(1, count - 1))
    for index, (cell, step) in enumerate(zip(cells[0], part.steps, strict=True)):
        if step.here:
            sheet.optional(cell, "StairLabel", part.here_label)
        fill = sheet.brand.brand if step.here else sheet.brand.tint
        below = _space_below(sheet, step, rise * index, widths[index] - 6)
        sides = (Border("bottom", fill, 0.5, below), *frame(fill, 0.5, 4, 5))
        one_each = {side.side: side for side in reversed(sides)}
        order = ("top", "left", "bottom", "right")
        look = ParagraphFormat(borders=tuple(one_each[side] for side in order), shade=fill)
        _stair(sheet, cell, step, look)


def _space_below(sheet: Sheet, step: StairStep, height_pt: float, width_mm: float) -> int:
    """Points of fill under the words, so that a name of two lines is no higher step."""
    size = sheet.measures.sizes.body
    lines = ceil(text_width_mm(f"{step.number}  {step.name}", size) / width_mm)
    return max(2, min(31, round(4 + height_pt - size * 1.3 * (lines - 1))))


def _stair(
    sheet: Sheet,
    cell: BaseOxmlElement,
    step: StairStep,
    look: ParagraphFormat,
    before: Sequence[BaseOxmlElement] = (),
) -> None:
    runs = [*before, sheet.run(f"{step.number}"), sheet.run("  "), sheet.run(step.name)]
    sheet.paragraph(cell, "StairHere" if step.here else "StairStep", runs, look)


def _stairs_as_list(sheet: Sheet, part: Stairs) -> None:
    for step in part.steps:
        fill = sheet.brand.brand if step.here else sheet.brand.tint
        look = ParagraphFormat(borders=frame(fill, 0.5, 3, 5), shade=fill)
        here = [sheet.run(part.here_label), sheet.run("  ")] if step.here else []
        _stair(sheet, sheet.body, step, look, here)


def write_glance(sheet: Sheet, part: Glance) -> None:
    """Every exercise with number, name, dose, and its picture where there is one."""
    sheet.paragraph(sheet.body, "Heading1", part.heading)
    sheet.optional(sheet.body, "HeadingNote", part.note)
    if any(item.picture for item in part.items):
        _glance_grid(sheet, part.items)
    elif part.items:
        _glance_lines(sheet, part.items)


def _glance_grid(sheet: Sheet, items: tuple[GlanceItem, ...]) -> None:
    per_row = 2 if sheet.measures.large else min(_MOST_COLUMNS, max(2, len(items)))
    widths, looks = columns(per_row, sheet.measures.text_mm)
    share = widths[-1]
    rows = -(-len(items) // per_row)
    cells = layout_table(sheet, widths, [looks] * rows)
    room = (share - _BADGE_MM, 48.0 if sheet.measures.large else _GLANCE_MM)
    height = max(fit(item.picture, *room)[1] for item in items if item.picture)
    for index, item in enumerate(items):
        cell = cells[index // per_row][index % per_row]
        line = [sheet.run(f"\u00a0{item.number}\u00a0", "Number")]
        size = (0.0, height)
        if item.picture:
            size = fit(item.picture, *room)
            line += [sheet.run("  "), sheet.pictures.run(item.picture, size)]
        look = ParagraphFormat(before_pt=(height - size[1]) * POINTS_PER_MM)
        sheet.paragraph(cell, "Picture", line, look)
        sheet.paragraph(cell, "GlanceName", item.name)
        sheet.optional(cell, "GlanceDose", item.dose)
    fill_empty_cells(sheet, cells)


def _glance_lines(sheet: Sheet, items: tuple[GlanceItem, ...]) -> None:
    """Without pictures: one line each, name left and dose right."""
    half = sheet.measures.half_mm
    rule = CellLook(borders=(Border("bottom", sheet.brand.rule, 0.5),), upright="center")
    widths = [sheet.measures.text_mm - half, half]
    cells = layout_table(sheet, widths, [[rule, rule]] * len(items))
    hang = sheet.measures.hang_mm * 1.6
    for (left, right), item in zip(cells, items, strict=True):
        badge = sheet.run(f"\u00a0{item.number}\u00a0", "Number")
        look = ParagraphFormat(left_mm=hang, hanging_mm=hang, before_pt=3, after_pt=3)
        sheet.paragraph(left, "GlanceName", [badge, sheet.tab(), sheet.run(item.name)], look)
        sheet.paragraph(right, "GlanceDose", item.dose, ParagraphFormat(before_pt=2, after_pt=2))


def write_facts(sheet: Sheet, part: Facts) -> None:
    """How often, how long, what is needed: side by side between two lines."""
    if not part.items:
        return
    if sheet.measures.large:
        for index, fact in enumerate(part.items):
            runs = [sheet.run(fact.headline, "Strong"), sheet.space(), sheet.run(fact.detail)]
            look = PLAIN if index else ParagraphFormat(before_pt=10)
            sheet.paragraph(sheet.body, "FactDetail", runs, look)
        return
    per_row = min(_MOST_COLUMNS, len(part.items))
    widths, looks = columns(per_row, sheet.measures.text_mm)
    lines = tuple(Border(side, sheet.brand.rule, 0.75) for side in ("top", "bottom"))
    ruled = [CellLook(borders=lines, padding_mm=look.padding_mm) for look in looks]
    rows = -(-len(part.items) // per_row)
    cells = layout_table(sheet, widths, [ruled] * rows)
    for index, fact in enumerate(part.items):
        cell = cells[index // per_row][index % per_row]
        sheet.optional(cell, "FactHead", fact.headline)
        sheet.optional(cell, "FactDetail", fact.detail)
    fill_empty_cells(sheet, cells)


def write_notes(sheet: Sheet, part: Notes) -> None:
    """A headed run of text; framed text stands on a tinted panel."""
    sheet.optional(sheet.body, "PanelHeading" if part.framed else "Heading1", part.heading)
    hang = sheet.measures.hang_mm
    inset = ParagraphFormat(left_mm=PANEL_INSET_MM + hang, hanging_mm=hang)
    look = inset if part.framed else ParagraphFormat()
    text, bullet, number = (
        ("Panel", "Panel", "Panel") if part.framed else ("NoteText", "ListBullet", "ListNumber")
    )
    for block in part.body:
        match block:
            case Paragraph():
                sheet.paragraph(sheet.body, text, sheet.line(block.line))
            case Bullets():
                sheet.items(sheet.body, bullet, block.items, BULLETS, look)
            case Numbered():
                sheet.items(sheet.body, number, block.items, sheet.new_list(), look)
