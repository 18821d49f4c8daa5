"""WordprocessingML in small pieces: elements, lengths, paragraph and run properties.

The order of children inside ``w:pPr`` and ``w:rPr`` is fixed by ECMA-376 part 1
(17.3.1.26 and 17.3.2.28); the two functions here keep it, so that nobody else
needs to know it.
"""

from __future__ import annotations

from attrs import frozen
from docx.oxml.parser import OxmlElement
from docx.oxml.xmlchemy import BaseOxmlElement

POINTS_PER_MM = 72 / 25.4
EMU_PER_MM = 36_000


def element(tag: str, *children: BaseOxmlElement | None, **attributes: object) -> BaseOxmlElement:
    """A ``w:`` element (``tag`` without prefix); its attributes are all in that namespace too."""
    made: BaseOxmlElement = OxmlElement(
        f"w:{tag}", attrs={_name(key): str(value) for key, value in attributes.items()}
    )
    made.extend(child for child in children if child is not None)
    return made


def _name(key: str) -> str:
    return f"{{http://schemas.openxmlformats.org/wordprocessingml/2006/main}}{key.rstrip('_')}"


def twips(points: float) -> int:
    """Points to twentieths of a point."""
    return round(points * 20)


def twips_of_mm(length_mm: float) -> int:
    """Millimetres to twentieths of a point."""
    return round(length_mm * POINTS_PER_MM * 20)


def hexadecimal(colour: str) -> str:
    """``#RRGGBB`` as Word wants it."""
    return colour.removeprefix("#").upper()


@frozen
class Border:
    """One side of a frame. ``width_pt`` up to 12, ``space_pt`` (to the text) up to 31.

    A ``colour`` of "" takes away the line that a style would give.
    """

    side: str
    colour: str
    width_pt: float
    space_pt: int = 0


def frame(colour: str, width_pt: float, upright_pt: int, sideways_pt: int) -> tuple[Border, ...]:
    """Four equal borders with their distance to the text."""
    return (
        Border("top", colour, width_pt, upright_pt),
        Border("left", colour, width_pt, sideways_pt),
        Border("bottom", colour, width_pt, upright_pt),
        Border("right", colour, width_pt, sideways_pt),
    )


@frozen
class Tab:
    """A tab stop; ``leader`` is "" or "underscore"."""

    at_mm: float
    align: str = "left"
    leader: str = ""


@frozen
class ParagraphFormat:
    """What a style or one paragraph says about itself; None leaves it as inherited.

    Attributes:
        before_pt, after_pt: space above and below.
        line: line spacing as a multiple of the font's own.
        exact_pt: exact line height instead of ``line``.
        left_mm, hanging_mm, right_mm: indents.
        number: list this paragraph belongs to (``w:numId``).
        outline: 0 for the first heading level.
    """

    style: str | None = None
    keep_next: bool | None = None
    keep_lines: bool | None = None
    page_break: bool | None = None
    number: int | None = None
    borders: tuple[Border, ...] = ()
    shade: str | None = None
    tabs: tuple[Tab, ...] = ()
    bidi: bool | None = None
    before_pt: float | None = None
    after_pt: float | None = None
    line: float | None = None
    exact_pt: float | None = None
    left_mm: float | None = None
    hanging_mm: float | None = None
    right_mm: float | None = None
    align: str | None = None
    outline: int | None = None


@frozen
class RunFormat:
    """Look of a run; None leaves it as inherited. ``size_pt`` may be a half."""

    style: str | None = None
    font: str | None = None
    bold: bool | None = None
    colour: str | None = None
    size_pt: float | None = None
    underline: bool | None = None
    shade: str | None = None
    rtl: bool | None = None
    lang: str | None = None


def switch(tag: str, on: bool | None) -> BaseOxmlElement | None:
    """A true-or-false property, or nothing."""
    if on is None:
        return None
    return element(tag) if on else element(tag, val="0")


def shading(colour: str | None) -> BaseOxmlElement | None:
    """A flat fill behind text, a paragraph or a cell."""
    if colour is None:
        return None
    return element("shd", val="clear", color="auto", fill=hexadecimal(colour))


def border_element(border: Border) -> BaseOxmlElement:
    """One side of ``w:pBdr``, ``w:tblBorders`` or ``w:tcBorders``."""
    if not border.colour:
        return element(border.side, val="nil")
    return element(
        border.side,
        val="single",
        sz=round(border.width_pt * 8),
        space=border.space_pt,
        color=hexadecimal(border.colour),
    )


def paragraph_properties(look: ParagraphFormat) -> BaseOxmlElement:
    """``w:pPr`` in the order the standard asks for."""
    return element(
        "pPr",
        element("pStyle", val=look.style) if look.style else None,
        switch("keepNext", look.keep_next),
        switch("keepLines", look.keep_lines),
        switch("pageBreakBefore", look.page_break),
        _list(look.number),
        element("pBdr", *map(border_element, look.borders)) if look.borders else None,
        shading(look.shade),
        element("tabs", *map(_tab, look.tabs)) if look.tabs else None,
        switch("bidi", look.bidi),
        _spacing(look),
        _indent(look),
        element("jc", val=look.align) if look.align else None,
        None if look.outline is None else element("outlineLvl", val=look.outline),
    )


def run_properties(look: RunFormat) -> BaseOxmlElement:
    """``w:rPr`` in the order the standard asks for."""
    size = None if look.size_pt is None else round(look.size_pt * 2)
    fonts = dict.fromkeys(("ascii", "hAnsi", "eastAsia", "cs"), look.font)
    return element(
        "rPr",
        element("rStyle", val=look.style) if look.style else None,
        element("rFonts", **fonts) if look.font else None,
        switch("b", look.bold),
        switch("bCs", look.bold),
        element("color", val=hexadecimal(look.colour)) if look.colour else None,
        None if size is None else element("sz", val=size),
        None if size is None else element("szCs", val=size),
        element("u", val="single") if look.underline else None,
        shading(look.shade),
        switch("rtl", look.rtl),
        element("lang", val=look.lang, eastAsia=look.lang, bidi=look.lang) if look.lang else None,
    )


def _list(number: int | None) -> BaseOxmlElement | None:
    if number is None:
        return None
    return element("numPr", element("ilvl", val=0), element("numId", val=number))


def _tab(tab: Tab) -> BaseOxmlElement:
    leader = {"leader": tab.leader} if tab.leader else {}
    return element("tab", val=tab.align, **leader, pos=twips_of_mm(tab.at_mm))


def _spacing(look: ParagraphFormat) -> BaseOxmlElement | None:
    values: dict[str, object] = {}
    if look.before_pt is not None:
        values["before"] = twips(look.before_pt)
    if look.after_pt is not None:
        values["after"] = twips(look.after_pt)
    if look.exact_pt is not None:
        values |= {"line": twips(look.exact_pt), "lineRule": "exact"}
    elif look.line is not None:
        values |= {"line": round(look.line * 240), "lineRule": "auto"}
    return element("spacing", **values) if values else None


def _indent(look: ParagraphFormat) -> BaseOxmlElement | None:
    lengths = {"left": look.left_mm, "right": look.right_mm, "hanging": look.hanging_mm}
    values = {key: twips_of_mm(value) for key, value in lengths.items() if value is not None}
    return element("ind", **values) if values else None
