"""Pictures of an exercise with their captions, at one scale."""

from __future__ import annotations

from docx.oxml.xmlchemy import BaseOxmlElement

from authoring.handout.document import Picture
from authoring.handout.docx_format import ParagraphFormat, Tab
from authoring.handout.docx_measures import text_width_mm
from authoring.handout.docx_pictures import fit
from authoring.handout.docx_sheet import Sheet

_LEAST_WIDTH_MM = 20.0


def common_scale(pictures: tuple[Picture, ...], box_mm: tuple[float, float]) -> float:
    """One scale (mm for a pixel) for all, so that a figure does not grow from start to end."""
    return min(fit(picture, *box_mm)[0] / picture.width_px for picture in pictures)


def scaled(picture: Picture, scale: float) -> tuple[float, float]:
    """Width and height in mm, never too narrow to be understood."""
    width = max(picture.width_px * scale, _LEAST_WIDTH_MM)
    return width, width * picture.height_px / picture.width_px


def write_picture(sheet: Sheet, parent: BaseOxmlElement, picture: Picture, scale: float) -> None:
    """Append the caption, if any, and the picture under it."""
    sheet.optional(parent, "PictureLabel", picture.caption)
    sheet.paragraph(parent, "Picture", [sheet.pictures.run(picture, scaled(picture, scale))])


def write_side_by_side(
    sheet: Sheet,
    parent: BaseOxmlElement,
    pictures: tuple[Picture, ...],
    box_mm: tuple[float, float],
    gap_mm: float,
) -> None:
    """Append one line of captions and one of pictures, which then stand on one floor.

    Where a caption is wider than its place, the pictures go below one another.
    """
    scale = common_scale(pictures, box_mm)
    size = sheet.measures.sizes.body
    if any(text_width_mm(picture.caption, size) > box_mm[0] for picture in pictures):
        for picture in pictures:
            write_picture(sheet, parent, picture, scale)
        return
    stops = tuple(Tab((box_mm[0] + gap_mm) * place) for place in range(1, len(pictures)))
    look = ParagraphFormat(tabs=stops, keep_next=True)
    captions = [sheet.run(picture.caption) for picture in pictures]
    if any(picture.caption.strip() for picture in pictures):
        sheet.paragraph(parent, "PictureLabel", _tabbed(sheet, captions), look)
    shown = [sheet.pictures.run(picture, scaled(picture, scale)) for picture in pictures]
    sheet.paragraph(parent, "Picture", _tabbed(sheet, shown), look)


def _tabbed(sheet: Sheet, runs: list[BaseOxmlElement]) -> list[BaseOxmlElement]:
    first, *rest = runs
    return [first, *(piece for run in rest for piece in (sheet.tab(), run))]
