"""Pictures of an exercise with their captions, at one scale."""

from __future__ import annotations

from docx.oxml.xmlchemy import BaseOxmlElement

from authoring.handout.document import Picture
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
