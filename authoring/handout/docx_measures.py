"""Type sizes and lengths of the Word handout, standard and large print."""

from __future__ import annotations

from attrs import frozen

from authoring.handout.choices import Layout
from authoring.handout.document import HandoutDocument, PageSize, PrintSize
from authoring.handout.docx_format import POINTS_PER_MM

GUTTER_MM = 6.0
HANG_MM = 7.5


@frozen
class TypeSizes:
    """Sizes in points, one per rank of text."""

    title: float
    name: float
    phone: float
    section: float
    lead: float
    body: float
    footer: float


STANDARD = TypeSizes(title=30, name=22, phone=20, section=16, lead=14, body=12.5, footer=10)
CLOSE = TypeSizes(title=24, name=16, phone=18, section=14, lead=12.5, body=12, footer=10)
OVERVIEW = TypeSizes(title=20, name=14, phone=18, section=13, lead=12, body=12, footer=10)
LARGE = TypeSizes(title=36, name=32, phone=30, section=24, lead=20, body=18, footer=14)


@frozen
class Measures:
    """Paper, margins and sizes of one handout.

    Attributes:
        width_mm, height_mm: the sheet.
        side_mm, top_mm, bottom_mm: margins.
        large: large print, laid out in one column.
        close: the compact sheet and the overview, set closely; large print never is.
        hang_mm: indent that list items, cautions and marks share.
    """

    sizes: TypeSizes
    large: bool
    width_mm: float
    height_mm: float
    side_mm: float
    hang_mm: float
    top_mm: float = 16
    bottom_mm: float = 19
    close: bool = False

    @property
    def text_mm(self) -> float:
        """Width between the margins."""
        return self.width_mm - 2 * self.side_mm

    @property
    def half_mm(self) -> float:
        """Width of one of two columns."""
        return (self.text_mm - GUTTER_MM) / 2


def measures_of(document: HandoutDocument) -> Measures:
    """The measures for the paper and print size that ``document`` asks for."""
    large = document.print_size is PrintSize.LARGE
    letter = document.page_size is PageSize.LETTER
    close = document.layout is not Layout.FULL and not large
    near = OVERVIEW if document.layout is Layout.OVERVIEW else CLOSE
    side = (17 if close else 21) if letter else (15 if close else 18)
    return Measures(
        sizes=LARGE if large else near if close else STANDARD,
        large=large,
        width_mm=215.9 if letter else 210,
        height_mm=279.4 if letter else 297,
        side_mm=side,
        hang_mm=HANG_MM * (1.4 if large else 0.8 if close else 1),
        top_mm=14 if close else 16,
        bottom_mm=16 if close else 19,
        close=close,
    )


# Advance widths in Noto Sans Bold, in parts of the type size.
# Only used to decide whether two texts fit side by side, so close is enough.
_ADVANCES = {
    char: width
    for width, chars in (
        (0.26, " '’"),
        (0.31, "ijl.,:;!"),
        (0.34, "J-()[]"),
        (0.40, "fI"),
        (0.45, "rt/"),
        (0.51, "csz?–"),
        (0.575, "0123456789+|evxyEFLST"),
        (0.62, "akoCPYZ"),
        (0.66, "bdghnpquBKRVX"),
        (0.75, "ADGU&"),
        (0.81, "HNOQ"),
        (0.88, "w…"),
        (0.98, "mMW%@—"),
    )
    for char in chars
}


def text_width_mm(text: str, size_pt: float) -> float:
    """Estimated width of bold ``text`` on one line."""
    ems = sum(_ADVANCES.get(char, 1.0 if ord(char) >= 0x2E80 else 0.66) for char in text)
    return ems * size_pt / POINTS_PER_MM
