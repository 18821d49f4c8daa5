"""The contact sheet as one web page that needs nothing but itself, and prints."""

from __future__ import annotations

import base64
from html import escape
from typing import Final

from authoring.commands.sheet_cells import Cell, Photo, Sheet
from authoring.figures.drawing import Drawing

_STYLE: Final = """
:root { color-scheme: light; }
body { font: 14px/1.35 "Noto Sans", system-ui, sans-serif; margin: 2rem; color: #15191c;
  background: #fff; }
h1 { font-size: 1.6rem; margin: 0 0 .3rem; }
h2 { font-size: 1.2rem; margin: 1.8rem 0 .6rem; border-bottom: 2px solid #22303a;
  break-after: avoid; }
ul { display: grid; grid-template-columns: repeat(auto-fill, minmax(15rem, 1fr)); gap: 1.2rem;
  list-style: none; margin: 0; padding: 0; }
li { break-inside: avoid; }
.pair { display: flex; align-items: flex-end; gap: .3rem; height: 9.5rem; }
.pair svg, .pair img { flex: 0 1 auto; min-width: 0; max-height: 100%; width: auto;
  height: auto; }
h3 { font-size: 1rem; margin: .4rem 0 0; }
p { margin: .1rem 0; }
code { font-size: .85em; color: #3d4a53; }
@media print {
  @page { size: A4; margin: 12mm; }
  body { margin: 0; font-size: 8.5pt; }
  ul { grid-template-columns: repeat(4, 1fr); gap: 4mm; }
  .pair { height: 26mm; }
}
"""


def as_html(sheet: Sheet) -> str:
    """The whole page; pictures stand in it as drawings, photos as data."""
    groups = "".join(
        f"<section><h2>{escape(heading)} ({len(cells)})</h2>"
        f"<ul>{''.join(map(_cell, cells))}</ul></section>"
        for heading, cells in sheet.groups.items()
    )
    name = escape(sheet.name)
    return (
        '<!doctype html><html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width">'
        f"<title>Pictures of {name}</title><style>{_STYLE}</style></head><body>"
        f"<h1>Pictures of {name}</h1><p>{len(sheet.cells)} poses and photos, the stock poses "
        f"included.</p><main>{groups}</main></body></html>\n"
    )


def used_in(cell: Cell) -> str:
    """Which cards show it, in words."""
    if not cell.uses:
        return "In no card"
    return f"In {', '.join(cell.uses)}"


def _cell(cell: Cell) -> str:
    label = escape(cell.title, quote=True)
    pictures = "".join(_picture(each, label) for each in cell.pictures)
    return (
        f'<li><div class="pair">{pictures}</div><h3>{escape(cell.title)}</h3>'
        f"<p><code>{escape(cell.slug)}</code> · {cell.origin}</p>"
        f"<p>{escape(used_in(cell))}</p></li>"
    )


def _picture(picture: Drawing | Photo, label: str) -> str:
    if isinstance(picture, Photo):
        return f'<img src="{data_of(picture)}" alt="{label}">'
    return picture.svg.replace("<svg ", f'<svg role="img" aria-label="{label}" ', 1)


def data_of(photo: Photo) -> str:
    """A photo as an address that holds it."""
    kind = "png" if photo.data.startswith(b"\x89PNG") else "jpeg"
    return f"data:image/{kind};base64,{base64.b64encode(photo.data).decode()}"
