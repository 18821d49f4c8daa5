"""Table styles, and the defaults that every Word file names."""

from __future__ import annotations

from collections.abc import Iterator

from docx.oxml.xmlchemy import BaseOxmlElement

from authoring.handout.document import BrandStyle
from authoring.handout.docx_format import RunFormat, element, run_properties


def default_styles() -> Iterator[BaseOxmlElement]:
    """Styles of text and lists that have no style of their own."""
    yield _default_character_style()
    yield _default_list_style()


def _default_character_style() -> BaseOxmlElement:
    return element(
        "style",
        element("name", val="Default Paragraph Font"),
        element("uiPriority", val=1),
        element("semiHidden"),
        type="character",
        default=1,
        styleId="DefaultParagraphFont",
    )


def _default_list_style() -> BaseOxmlElement:
    return element(
        "style",
        element("name", val="No List"),
        element("uiPriority", val=99),
        element("semiHidden"),
        type="numbering",
        default=1,
        styleId="NoList",
    )


def table_styles(brand: BrandStyle) -> Iterator[BaseOxmlElement]:
    """A bare style for layout and a ruled one, with a bold header row, for data."""
    none = ("top", "left", "bottom", "right")
    margins = element("tblCellMar", *(element(side, w=0, type="dxa") for side in none))
    yield element(
        "style",
        element("name", val="Normal Table"),
        element("uiPriority", val=99),
        element("semiHidden"),
        element("tblPr", margins),
        type="table",
        default=1,
        styleId="TableNormal",
    )
    yield element(
        "style",
        element("name", val="Handout Layout"),
        element("basedOn", val="TableNormal"),
        type="table",
        customStyle=1,
        styleId="HandoutLayout",
    )
    sides = (*none, "insideH", "insideV")
    lines = (_line(side, brand.soft) for side in sides)
    padding = element("tblCellMar", *(element(side, w=85, type="dxa") for side in none[1::2]))
    yield element(
        "style",
        element("name", val="Handout Table"),
        element("basedOn", val="TableNormal"),
        element("tblPr", element("tblBorders", *lines), padding),
        _first_row(),
        type="table",
        customStyle=1,
        styleId="HandoutTable",
    )


def _line(side: str, colour: str) -> BaseOxmlElement:
    return element(side, val="single", sz=6, space=0, color=colour.removeprefix("#"))


def _first_row() -> BaseOxmlElement:
    return element("tblStylePr", run_properties(RunFormat(bold=True)), type="firstRow")
