"""The style sheet of one HTML handout: brand colours, embedded fonts, page size.

The fixed rules are ``templates/handout/handout.css``; what differs from one
handout to the next is put in front as custom properties, so that the page needs
no style attribute and its Content-Security-Policy can name one hash.
"""

from __future__ import annotations

import base64
import hashlib
import math
from collections.abc import Mapping
from colorsys import hls_to_rgb, rgb_to_hls
from functools import cache
from unicodedata import east_asian_width

from attrs import fields, frozen

from authoring import resources
from authoring.checks.contrast import AAA_TEXT, contrast_ratio, parse_hex, to_hex
from authoring.handout.document import BrandStyle, Direction, HandoutDocument, PageSize, PrintSize

WHITE_PAPER = "#FFFFFF"
PRINT_BLACK = "#15191C"

# Surfaces of the dark page, darkest first; neutral, so that any brand sits on them.
DARK_DESK, DARK_SHEET, DARK_PANEL = "#0C0F11", "#15191C", "#23292E"
DARK_TEXT, DARK_SECOND, DARK_LINE = "#F1F3F4", "#B9C1C7", "#59636A"

_PAGES: Mapping[PageSize, tuple[str, str]] = {
    PageSize.A4: ("A4", "18mm"),
    PageSize.LETTER: ("letter", "21mm"),
}
_LIGHTEN_STEPS = 100


@frozen
class FontRange:
    """The code points one embedded font file covers, as CSS writes them."""

    file: str
    css: str

    def holds(self, point: int) -> bool:
        """Whether the code point lies in the range."""
        return any(first <= point <= last for first, last in self.spans())

    def spans(self) -> tuple[tuple[int, int], ...]:
        """First and last code point of each stretch."""
        stretches = (part.strip()[2:].split("-") for part in self.css.split(","))
        return tuple((int(ends[0], 16), int(ends[-1], 16)) for ends in stretches)


FONT_RANGES = (
    FontRange("latin", "U+20-7E, U+A0-FF, U+2009-200A, U+2010-2027, U+202F-203A, U+20AC, U+2212"),
    FontRange("latin-more", "U+100-24F, U+2BB-2BD, U+2C6-2DD, U+1E00-1EFF"),
    FontRange("greek", "U+370-3FF"),
    FontRange("cyrillic", "U+400-52F"),
)
WEIGHTS = (400, 700)


def style_sheet(document: HandoutDocument, characters: frozenset[str]) -> str:
    """The whole CSS of a handout that shows ``characters``.

    Colours must have been checked to be ``#RRGGBB``.

    Raises:
        ColourError: a colour of the brand is not ``#RRGGBB``.
        ResourceMissing: the program's own templates are missing.
    """
    rules = (resources.templates() / "handout" / "handout.css").read_text(encoding="utf-8")
    blocks = [
        *_fonts(characters),
        _properties(document),
        _page(document),
        *_blanks(document),
        rules,
    ]
    # One line: some checkers hash a style only up to its first line end.
    return " ".join(line.strip() for block in blocks for line in block.splitlines())


def source_hash(text: str) -> str:
    """The source expression that lets a Content-Security-Policy admit ``text`` alone."""
    digest = hashlib.sha256(text.encode("utf-8")).digest()
    return f"'sha256-{base64.b64encode(digest).decode('ascii')}'"


def css_string(text: str) -> str:
    """``text`` as a quoted CSS string that can close neither the string nor the style element.

    CSS Syntax Module Level 3, section 4.3.7: a backslash, the code point in
    hexadecimal and a space stand for any character.
    """
    plain = "".join(
        sign if sign.isalnum() or sign in " .,:-" else f"\\{ord(sign):X} " for sign in text
    )
    return f'"{plain}"'


def dark_brand(brand: str) -> str:
    """The clinic's colour, lightened until it reaches 7:1 on the panels of the dark page.

    ``brand`` and the result are ``#RRGGBB``. Raises ColourError.
    """
    hue, lightness, saturation = rgb_to_hls(*(part / 255 for part in parse_hex(brand)))
    for step in range(_LIGHTEN_STEPS):
        lighter = lightness + (1 - lightness) * step / _LIGHTEN_STEPS
        red, green, blue = (round(part * 255) for part in hls_to_rgb(hue, lighter, saturation))
        colour = to_hex((red, green, blue))
        if contrast_ratio(colour, DARK_PANEL) >= AAA_TEXT:
            return colour
    return WHITE_PAPER


def _properties(document: HandoutDocument) -> str:
    brand = document.brand
    colours = {
        field.name.replace("_", "-"): getattr(brand, field.name)
        for field in fields(BrandStyle)
        if field.name not in {"font", "logo"}
    }
    colours |= {
        "paper": WHITE_PAPER,
        "black": PRINT_BLACK,
        "dark-desk": DARK_DESK,
        "dark-sheet": DARK_SHEET,
        "dark-panel": DARK_PANEL,
        "dark-text": DARK_TEXT,
        "dark-second": DARK_SECOND,
        "dark-line": DARK_LINE,
        "dark-brand": dark_brand(brand.brand),
    }
    for colour in colours.values():
        parse_hex(colour)
    family = ", ".join(
        [*([css_string(brand.font)] if brand.font.strip() else []), '"Noto Sans"', "sans-serif"]
    )
    banner, footer = (_printed_lines(document, text) for text in (document.banner, document.footer))
    listed = "".join(f"  --{name}: {value};\n" for name, value in colours.items())
    return (
        f":root {{\n{listed}  --family: {family};\n"
        f"  --banner-lines: {banner};\n  --footer-lines: {footer};\n}}"
    )


def _printed_lines(document: HandoutDocument, text: str) -> int:
    """Lines a repeated text takes on paper, so that the page keeps room for them.

    Lines of 150 mm and letters half as wide as high (ideographs as wide as high):
    a little more than Noto Sans needs.
    """
    points = 14 if document.print_size is PrintSize.LARGE else 10
    halves = sum(2 if east_asian_width(sign) in "WF" else 1 for sign in text)
    return max(1, math.ceil(halves * points / 2 * 25.4 / 72 / 150))


def _page(document: HandoutDocument) -> str:
    size, side = _PAGES[document.page_size]
    corner = "right" if document.direction is Direction.LTR else "left"
    top = "5mm" if document.banner.strip() else "11mm"
    points = 14 if document.print_size is PrintSize.LARGE else 10
    number = _page_number(document.page_label)
    return (
        f"@page {{ size: {size}; margin: {top} {side} 12mm; @bottom-{corner} {{ "
        f"content: {number}; vertical-align: top; margin-top: -5mm; color: {document.brand.soft}; "
        f'font: {points}pt/1.2 "Noto Sans", sans-serif; }} }}'
    )


def _page_number(label: str) -> str:
    """The page label as a CSS content value: strings and counters in turn."""
    pieces = label.replace("{pages}", "\0pages\0").replace("{page}", "\0page\0").split("\0")
    return " ".join(
        f"counter({piece})" if piece in {"page", "pages"} else css_string(piece)
        for piece in pieces
        if piece
    )


def _blanks(document: HandoutDocument) -> list[str]:
    return [
        f".blank-{index} {{ width: {int(blank.width_mm)}mm; }}"
        for index, blank in enumerate(document.masthead.blanks, 1)
    ]


def _fonts(characters: frozenset[str]) -> list[str]:
    points = {ord(character) for character in characters}
    used = [block for block in FONT_RANGES if any(block.holds(point) for point in points)]
    return [
        '@font-face { font-family: "Noto Sans"; font-style: normal; '
        f"font-weight: {weight}; unicode-range: {block.css}; "
        f'src: url("data:font/woff2;base64,{_font_data(block.file, weight)}") format("woff2"); }}'
        for block in used
        for weight in WEIGHTS
    ]


@cache
def _font_data(name: str, weight: int) -> str:
    path = resources.templates() / "handout" / "fonts" / f"noto-sans-{name}-{weight}.woff2"
    return base64.b64encode(path.read_bytes()).decode("ascii")
