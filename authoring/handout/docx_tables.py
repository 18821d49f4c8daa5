"""Simple tables: no merged cells, none inside another, no row split over two pages."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import frozen
from docx.oxml.xmlchemy import BaseOxmlElement

from authoring.handout.docx_format import (
    Border,
    border_element,
    element,
    shading,
    twips_of_mm,
)
from authoring.handout.docx_measures import GUTTER_MM
from authoring.handout.docx_sheet import Sheet

_W = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"


@frozen
class CellLook:
    """Fill, borders, padding (top, left, bottom, right in mm) and upright place of a cell."""

    fill: str | None = None
    borders: tuple[Border, ...] = ()
    padding_mm: tuple[float, float, float, float] | None = None
    upright: str | None = None


Cells = list[list[BaseOxmlElement]]


def layout_table(
    sheet: Sheet,
    widths_mm: Sequence[float],
    looks: Sequence[Sequence[CellLook]],
) -> Cells:
    """A table that only places things side by side: one row or more, fixed widths.

    Returns the cells, still without a paragraph; each needs at least one.
    """
    properties = _table_properties(sheet, "HandoutLayout", widths_mm, header=False)
    return _add_table(sheet, properties, widths_mm, looks, header=False)


def data_table(
    sheet: Sheet,
    widths_mm: Sequence[float],
    looks: Sequence[Sequence[CellLook]],
    *,
    caption: str,
    description: str,
    first_column: bool = True,
) -> Cells:
    """A table with a header row that repeats on every page, named for screen readers."""
    properties = _table_properties(
        sheet, "HandoutTable", widths_mm, header=True, first_column=first_column
    )
    properties.append(element("tblCaption", val=caption))
    if description.strip():
        properties.append(element("tblDescription", val=description))
    return _add_table(sheet, properties, widths_mm, looks, header=True)


def columns(count: int, total_mm: float) -> tuple[tuple[float, ...], tuple[CellLook, ...]]:
    """Equal columns over ``total_mm`` with a gutter between them: widths and cell looks."""
    share = (total_mm - GUTTER_MM * (count - 1)) / count
    return split([share] * count)


def split(
    shares_mm: Sequence[float], *, gutter_mm: float = GUTTER_MM
) -> tuple[tuple[float, ...], tuple[CellLook, ...]]:
    """Columns of these widths with a gutter between them, kept as padding of the left one."""
    last = len(shares_mm) - 1
    gutters = [gutter_mm if index < last else 0.0 for index in range(len(shares_mm))]
    widths = tuple(share + gutter for share, gutter in zip(shares_mm, gutters, strict=True))
    return widths, tuple(CellLook(padding_mm=(0, 0, 0, gutter)) for gutter in gutters)


def _table_properties(
    sheet: Sheet,
    style: str,
    widths_mm: Sequence[float],
    *,
    header: bool,
    first_column: bool = False,
) -> BaseOxmlElement:
    return element(
        "tblPr",
        element("tblStyle", val=style),
        element("bidiVisual") if sheet.rtl else None,
        element("tblW", w=twips_of_mm(sum(widths_mm)), type="dxa"),
        element("tblInd", w=0, type="dxa"),
        element("tblLayout", type="fixed"),
        element(
            "tblLook",
            val=f"{0x0600 + 0x20 * header + 0x80 * first_column:04X}",
            firstRow=int(header),
            lastRow=0,
            firstColumn=int(first_column),
            lastColumn=0,
            noHBand=1,
            noVBand=1,
        ),
    )


def _add_table(
    sheet: Sheet,
    properties: BaseOxmlElement,
    widths_mm: Sequence[float],
    looks: Sequence[Sequence[CellLook]],
    *,
    header: bool,
) -> Cells:
    sheet.close_tables(sheet.body)
    grid = element("tblGrid", *(element("gridCol", w=twips_of_mm(width)) for width in widths_mm))
    table = element("tbl", properties, grid)
    cells: Cells = []
    for index, row_looks in enumerate(looks):
        row = element(
            "tr",
            element(
                "trPr",
                element("cantSplit"),
                element("tblHeader") if header and index == 0 else None,
            ),
        )
        made = [_cell(*pair) for pair in zip(widths_mm, row_looks, strict=True)]
        row.extend(made)
        table.append(row)
        cells.append(made)
    sheet.body.append(table)
    return cells


def _cell(width_mm: float, look: CellLook) -> BaseOxmlElement:
    borders = (border_element(border) for border in look.borders)
    return element(
        "tc",
        element(
            "tcPr",
            element("tcW", w=twips_of_mm(width_mm), type="dxa"),
            element("tcBorders", *borders) if look.borders else None,
            shading(look.fill),
            _padding(look.padding_mm),
            element("vAlign", val=look.upright) if look.upright else None,
        ),
    )


def _padding(padding_mm: tuple[float, float, float, float] | None) -> BaseOxmlElement | None:
    if padding_mm is None:
        return None
    sides = zip(("top", "left", "bottom", "right"), padding_mm, strict=True)
    return element("tcMar", *(element(side, w=twips_of_mm(mm), type="dxa") for side, mm in sides))


def fill_empty_cells(sheet: Sheet, cells: Cells) -> None:
    """Give every cell without words the one paragraph that the format demands."""
    for row in cells:
        for cell in row:
            if cell.find(f"{_W}p") is None:
                sheet.paragraph(cell, "Normal", [])
