"""Lists of the Word handout: real numbering, restarted for every list."""

from __future__ import annotations

from docx.oxml.xmlchemy import BaseOxmlElement

from authoring.handout.document import BrandStyle
from authoring.handout.docx_format import (
    ParagraphFormat,
    RunFormat,
    element,
    paragraph_properties,
    run_properties,
)
from authoring.handout.docx_measures import Measures

STEPS, BULLETS, TICKS, STOP_BULLETS = 1, 2, 3, 4
# Word and LibreOffice swap in another font that has the box where this one is missing.
_BOX_FONT = "Segoe UI Symbol"


def numbering_root(brand: BrandStyle, measures: Measures) -> BaseOxmlElement:
    """``w:numbering`` with one list of each kind; :func:`restart` adds more."""
    hang = measures.hang_mm
    number = RunFormat(bold=True, colour=brand.brand_text)
    box = RunFormat(font=_BOX_FONT, size_pt=measures.sizes.lead)
    inset = 4.0
    kinds = (
        (STEPS, "decimal", "%1", number, hang, hang),
        (BULLETS, "bullet", "•", RunFormat(), hang, hang),
        (TICKS, "bullet", "☐", box, hang * 1.2, hang * 1.2),
        (STOP_BULLETS, "bullet", "•", RunFormat(), inset + hang, hang),
    )
    return element(
        "numbering",
        *(_abstract(*kind) for kind in kinds),
        *(_instance(kind[0], kind[0]) for kind in kinds),
    )


def _abstract(
    number: int, form: str, text: str, look: RunFormat, left_mm: float, hanging_mm: float
) -> BaseOxmlElement:
    indent = ParagraphFormat(left_mm=left_mm, hanging_mm=hanging_mm)
    level = element(
        "lvl",
        element("start", val=1),
        element("numFmt", val=form),
        element("lvlText", val=text),
        element("lvlJc", val="left"),
        paragraph_properties(indent),
        run_properties(look),
        ilvl=0,
    )
    return element(
        "abstractNum", element("multiLevelType", val="singleLevel"), level, abstractNumId=number
    )


def _instance(number: int, abstract: int) -> BaseOxmlElement:
    return element("num", element("abstractNumId", val=abstract), numId=number)


def restart(numbering: BaseOxmlElement) -> int:
    """Add a numbered list that counts from 1 again; its ``w:numId``."""
    number = len(numbering.xpath("./w:num")) + 1
    again = element("lvlOverride", element("startOverride", val=1), ilvl=0)
    numbering.append(element("num", element("abstractNumId", val=STEPS), again, numId=number))
    return number
