"""How much pain is all right, when to stop and whom to call."""

from __future__ import annotations

from docx.oxml.xmlchemy import BaseOxmlElement

from authoring.handout.document import Contact, PainGuide, StopBox, StopGroup
from authoring.handout.docx_format import Border, ParagraphFormat
from authoring.handout.docx_marks import stop_mark
from authoring.handout.docx_measures import text_width_mm
from authoring.handout.docx_numbering import BULLETS, STOP_BULLETS
from authoring.handout.docx_sheet import Sheet
from authoring.handout.docx_styles import WHITE
from authoring.handout.docx_tables import CellLook, data_table, layout_table

_MARK_MM = 4.2
_SCALE = range(11)
_CONTACT_MM = 64.0
_MOST_SIGNS_BESIDE = 14
_SIDES = ("top", "left", "bottom", "right")


def write_pain(sheet: Sheet, part: PainGuide) -> None:
    """The 0 to 10 scale in three tones that survive grey print, then each band in words."""
    sheet.paragraph(sheet.body, "Heading1", part.heading)
    if part.zones:
        _scale(sheet, part)
        sheet.gap(sheet.body, 3)
        _zones(sheet, part)
    for note in part.notes:
        sheet.optional(sheet.body, "PainNote", note)


def _fill(sheet: Sheet, tone: int) -> str:
    return {0: WHITE, 1: sheet.brand.middle}.get(tone, sheet.brand.ink)


def _ink(tone: int) -> str | None:
    return "OnDark" if tone == 2 else None


def _scale(sheet: Sheet, part: PainGuide) -> None:
    tones = [
        next((zone.tone for zone in part.zones if zone.low <= number <= zone.high), 0)
        for number in _SCALE
    ]
    share = sheet.measures.text_mm / len(_SCALE)
    looks = [CellLook(fill=_fill(sheet, tone), padding_mm=(0, 0, 0, 0)) for tone in tones]
    cells = data_table(
        sheet,
        [share] * len(_SCALE),
        [looks],
        caption=part.heading,
        description=part.scale_alt,
        first_column=False,
    )
    for number, (cell, tone) in enumerate(zip(cells[0], tones, strict=True)):
        sheet.paragraph(cell, "PainNumber", [sheet.run(str(number), _ink(tone))])


def _zones(sheet: Sheet, part: PainGuide) -> None:
    """What to do in each band: below its part of the scale, or row by row where words need room."""
    total = sheet.measures.text_mm
    spans = [zone.high - zone.low + 1 for zone in part.zones]
    below = [total * span / len(_SCALE) for span in spans]
    if sheet.measures.large or sum(spans) != len(_SCALE):
        _zone_rows(sheet, part)
    elif _fits(sheet, part, below):
        _zone_columns(sheet, part, below)
    elif _fits(sheet, part, [total / len(spans)] * len(spans)):
        _zone_columns(sheet, part, [total / len(spans)] * len(spans))
    else:
        _zone_rows(sheet, part)


def _fits(sheet: Sheet, part: PainGuide, widths_mm: list[float]) -> bool:
    """Whether each band takes one line for its numbers and at most two for its words."""
    size = sheet.measures.sizes.body
    return all(
        text_width_mm(zone.label, size) <= width - 3
        and text_width_mm(zone.action, size) <= 1.8 * (width - 3)
        for zone, width in zip(part.zones, widths_mm, strict=True)
    )


def _zone_columns(sheet: Sheet, part: PainGuide, widths_mm: list[float]) -> None:
    look = CellLook(padding_mm=(0, 0, 0, 3))
    cells = layout_table(sheet, widths_mm, [[look] * len(widths_mm)])
    for cell, zone in zip(cells[0], part.zones, strict=True):
        sheet.paragraph(cell, "Normal", [sheet.run(zone.label, "Strong")])
        sheet.paragraph(cell, "Normal", zone.action)


def _zone_rows(sheet: Sheet, part: PainGuide) -> None:
    size = sheet.measures.sizes.body
    widest = max(text_width_mm(zone.label, size) for zone in part.zones)
    label = min(widest + 9, sheet.measures.text_mm / 2)
    top, left, bottom, right = (Border(side, sheet.brand.ink, 0.75) for side in _SIDES)
    looks = [
        [
            CellLook(_fill(sheet, zone.tone), (top, left, bottom), (0, 3, 0, 3)),
            CellLook(_fill(sheet, zone.tone), (top, bottom, right), (0, 0, 0, 3)),
        ]
        for zone in part.zones
    ]
    cells = layout_table(sheet, [label, sheet.measures.text_mm - label], looks)
    for (first, second), zone in zip(cells, part.zones, strict=True):
        strong = "OnDarkStrong" if zone.tone == 2 else "Strong"
        sheet.paragraph(first, "PainZone", [sheet.run(zone.label, strong)])
        sheet.paragraph(second, "PainZone", [sheet.run(zone.action, _ink(zone.tone))])


def write_stop(sheet: Sheet, part: StopBox) -> None:
    """One frame: stop signs by urgency, then the clinic's number as large as it can be.

    The number stands beside a short list and below a long one or large print.
    """
    signs = sum(1 + len(group.signs) for group in part.groups)
    if sheet.measures.large or signs > _MOST_SIGNS_BESIDE or not any(_contact_texts(part.contact)):
        _stop_below(sheet, part)
    else:
        _stop_beside(sheet, part)


def _contact_texts(contact: Contact) -> tuple[str, str, str]:
    return contact.phone, contact.hours, contact.closed


def _stop_beside(sheet: Sheet, part: StopBox) -> None:
    frame = [Border(side, sheet.brand.ink, 2) for side in _SIDES]
    looks = (
        CellLook(None, (frame[0], frame[1], frame[2]), (2.5, 4, 2.5, 2)),
        CellLook(None, (frame[0], frame[2], frame[3]), (2.5, 0, 2.5, 2)),
    )
    sheet.gap(sheet.body)
    widths = (sheet.measures.text_mm - _CONTACT_MM, _CONTACT_MM)
    ((left, right),) = layout_table(sheet, widths, [looks])
    for index, group in enumerate(part.groups):
        look = ParagraphFormat(before_pt=6 if index else 0)
        sheet.paragraph(left, "StopCellLead", _lead(sheet, group), look)
        for sign in group.signs:
            sheet.paragraph(left, "StopCellSign", sign, ParagraphFormat(number=BULLETS))
    phone, hours, closed = _contact_texts(part.contact)
    sheet.optional(right, "Normal", part.contact.label)
    sheet.optional(right, "StopCellPhone", phone)
    sheet.optional(right, "Normal", hours)
    sheet.optional(right, "Normal", closed)


def _stop_below(sheet: Sheet, part: StopBox) -> None:
    start = sheet.mark
    for index, group in enumerate(part.groups):
        look = ParagraphFormat(before_pt=7 if index else 18)
        sheet.paragraph(sheet.body, "StopLead", _lead(sheet, group), look)
        for sign in group.signs:
            look = ParagraphFormat(number=STOP_BULLETS)
            sheet.paragraph(sheet.body, "StopSign", sign, look)
    phone, hours, closed = _contact_texts(part.contact)
    if part.contact.label:
        label = ParagraphFormat(before_pt=7)
        sheet.paragraph(sheet.body, "Stop", part.contact.label, label)
    if phone:
        before = 0 if part.contact.label else 7
        sheet.paragraph(sheet.body, "StopPhone", phone, ParagraphFormat(before_pt=before))
    sheet.optional(sheet.body, "Stop", hours)
    sheet.optional(sheet.body, "Stop", closed)
    sheet.hold_together(start)


def _lead(sheet: Sheet, group: StopGroup) -> list[BaseOxmlElement]:
    mark = sheet.pictures.mark(stop_mark(sheet.brand), (_MARK_MM, _MARK_MM))
    return [mark, sheet.tab(), sheet.run(group.lead)]
