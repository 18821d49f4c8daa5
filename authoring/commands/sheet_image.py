"""The contact sheet as one PNG."""

from __future__ import annotations

import io
import textwrap
from collections.abc import Iterator
from html import escape
from typing import Final

import resvg_py
from PIL import Image

from authoring import resources
from authoring.commands.sheet_cells import Cell, Photo, Sheet
from authoring.commands.sheet_page import data_of, used_in
from authoring.figures.drawing import Drawing

WIDTH_PX: Final = 1800
_COLUMNS: Final = 9
_MARGIN: Final = 24
_CELL_WIDTH: Final = (WIDTH_PX - 2 * _MARGIN) / _COLUMNS
_PICTURE_HEIGHT: Final = 120
_CELL_HEIGHT: Final = _PICTURE_HEIGHT + 74
_HEADING_HEIGHT: Final = 44
_LETTERS: Final = 29
"""Letters of the small print that fit beside each other in a cell."""

_COLOURS: Final = 128


def as_png(sheet: Sheet) -> bytes:
    """The sheet at 1800 pixels wide, in at most 128 colours, which keeps it small."""
    body, height = _body(sheet)
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" '
        f'xmlns:xlink="http://www.w3.org/1999/xlink" width="{WIDTH_PX}" height="{height:g}" '
        f'font-family="Noto Sans">{body}</svg>'
    )
    made = resvg_py.svg_to_bytes(
        svg_string=svg,
        background="#FFFFFF",
        skip_system_fonts=True,
        font_files=[str(path) for path in sorted(resources.fonts().glob("*.ttf"))],
    )
    image = Image.open(io.BytesIO(bytes(made))).convert("RGB").quantize(_COLOURS)
    kept = io.BytesIO()
    image.save(kept, "PNG", optimize=True)
    return kept.getvalue()


def _body(sheet: Sheet) -> tuple[str, float]:
    """The drawing, and how high it is."""
    parts = [_text(_MARGIN, 40, f"Pictures of {sheet.name}", 26, bold=True)]
    top = 60.0
    for heading, cells in sheet.groups.items():
        parts.append(_text(_MARGIN, top + 30, f"{heading} ({len(cells)})", 19, bold=True))
        top += _HEADING_HEIGHT
        for index, cell in enumerate(cells):
            row, column = divmod(index, _COLUMNS)
            parts += _cell(cell, _MARGIN + column * _CELL_WIDTH, top + row * _CELL_HEIGHT)
        top += -(-len(cells) // _COLUMNS) * _CELL_HEIGHT
    return "".join(parts), top + _MARGIN


def _cell(cell: Cell, left: float, top: float) -> Iterator[str]:
    gap = 6.0
    wide = sum(_shape(each) for each in cell.pictures)
    room = _CELL_WIDTH - 12 - gap * (len(cell.pictures) - 1)
    high = min(float(_PICTURE_HEIGHT), room / wide)
    x = left
    for picture in cell.pictures:
        width = high * _shape(picture)
        yield _picture(picture, x, top + _PICTURE_HEIGHT - high, width, high)
        x += width + gap
    line = top + _PICTURE_HEIGHT + 14
    for words in textwrap.wrap(cell.title, _LETTERS)[:2]:
        yield _text(left, line, words, 12, bold=True)
        line += 14
    yield _text(left, line, textwrap.shorten(cell.slug, _LETTERS + 2, placeholder="…"), 11)
    used = textwrap.shorten(used_in(cell), _LETTERS + 2, placeholder="…")
    yield _text(left, line + 13, used, 11)


def _shape(picture: Drawing | Photo) -> float:
    """Width against height."""
    if isinstance(picture, Drawing):
        return picture.width / picture.height
    with Image.open(io.BytesIO(picture.data)) as image:
        return image.width / image.height


def _picture(picture: Drawing | Photo, x: float, y: float, width: float, height: float) -> str:
    place = f'x="{x:.1f}" y="{y:.1f}" width="{width:.1f}" height="{height:.1f}"'
    if isinstance(picture, Photo):
        return f'<image {place} xlink:href="{data_of(picture)}"/>'
    start = picture.svg.index("viewBox=")
    return f"<svg {place} {picture.svg[start:]}"


def _text(x: float, y: float, words: str, size: int, *, bold: bool = False) -> str:
    weight = ' font-weight="700"' if bold else ""
    return f'<text x="{x:g}" y="{y:g}" font-size="{size}"{weight}>{escape(words)}</text>'
