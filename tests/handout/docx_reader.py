"""Reads a written Word file back without the writer's code: plain zip and XML.

Names follow ECMA-376 part 1. Words come in the order of the file, which is the
order a screen reader follows; numbers of lists are counted as Word counts them.
"""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from xml.etree.ElementTree import Element
from zipfile import ZipFile

from attrs import frozen
from defusedxml.ElementTree import fromstring

W = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"
WP = "{http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing}"
DC = "{http://purl.org/dc/elements/1.1/}"
DECORATIVE = "{http://schemas.microsoft.com/office/drawing/2017/decorative}decorative"


@frozen
class Block:
    """One paragraph: its style, its list number ("3", "•" or "") and its words."""

    style: str
    number: str
    text: str


class WordFile:
    """The parts of one .docx, parsed."""

    def __init__(self, data: bytes) -> None:
        with ZipFile(BytesIO(data)) as package:
            self.raw = {name: package.read(name) for name in package.namelist()}
        self.body = self.part("word/document.xml").find(f"{W}body")
        self.styles = self.part("word/styles.xml")
        self._formats, self._starts = _lists(self.part("word/numbering.xml"))

    def part(self, name: str) -> Element:
        root: Element = fromstring(self.raw[name])
        return root

    def paragraphs(self) -> list[Element]:
        """Every paragraph of the body, those in tables where the table stands."""
        return list(self.body.iter(f"{W}p"))

    def blocks(self) -> list[Block]:
        """Style, list number and words of each paragraph, in reading order."""
        counts: dict[str, int] = {}
        return [self._block(paragraph, counts) for paragraph in self.paragraphs()]

    def _block(self, paragraph: Element, counts: dict[str, int]) -> Block:
        return Block(style_of(paragraph), self._number(paragraph, counts), text_of(paragraph))

    def _number(self, paragraph: Element, counts: dict[str, int]) -> str:
        found = paragraph.find(f"{W}pPr/{W}numPr/{W}numId")
        if found is None:
            return ""
        number = found.get(f"{W}val", "")
        form, text = self._formats[number]
        if form == "bullet":
            return text
        counts[number] = counts.get(number, self._starts[number] - 1) + 1
        return text.replace("%1", str(counts[number]))

    def furniture(self, kind: str) -> list[str]:
        """Texts of every header or footer part, fields left out."""
        names = sorted(name for name in self.raw if name.startswith(f"word/{kind}"))
        return [text_of(paragraph) for name in names for paragraph in self.part(name).iter(f"{W}p")]

    def outline(self) -> dict[str, int]:
        """Heading level, from 1, of each style that is a heading, through its ancestors."""
        styles = {style.get(f"{W}styleId", ""): style for style in self.styles.iter(f"{W}style")}
        levels = {name: _level(name, styles) for name in styles}
        return {name: level for name, level in levels.items() if level is not None}

    def headings(self) -> list[tuple[int, str]]:
        """Level and words of each heading."""
        levels = self.outline()
        return [
            (levels[block.style], block.text) for block in self.blocks() if block.style in levels
        ]

    def exercises(self) -> list[list[str]]:
        """For each exercise (second-level heading and what follows) the longer lines of text."""
        found: list[list[str]] = []
        levels = self.outline()
        inside = False
        for block in self.blocks():
            if block.style in levels:
                inside = block.style == "Heading2"
                found += [[]] if inside else []
            elif inside and block.style in {"Why", "Steps", "Caution", "OptionDose"}:
                found[-1].append(" ".join(block.text.split()))
        return found


def _level(name: str, styles: dict[str, Element]) -> int | None:
    while name in styles:
        found = styles[name].find(f"{W}pPr/{W}outlineLvl")
        if found is not None:
            return int(found.get(f"{W}val", "0")) + 1
        parent = styles[name].find(f"{W}basedOn")
        name = parent.get(f"{W}val", "") if parent is not None else ""
    return None


def _lists(numbering: Element) -> tuple[dict[str, tuple[str, str]], dict[str, int]]:
    abstract = {
        each.get(f"{W}abstractNumId"): each.find(f"{W}lvl")
        for each in numbering.iter(f"{W}abstractNum")
    }
    formats, starts = {}, {}
    for each in numbering.iter(f"{W}num"):
        number = each.get(f"{W}numId", "")
        level = abstract[_value(each, "abstractNumId")]
        formats[number] = (_value(level, "numFmt"), _value(level, "lvlText"))
        again = each.find(f"{W}lvlOverride/{W}startOverride")
        starts[number] = int(_value(level, "start") if again is None else again.get(f"{W}val"))
    return formats, starts


def _value(parent: Element, tag: str) -> str:
    return parent.find(f"{W}{tag}").get(f"{W}val", "")


def style_of(paragraph: Element) -> str:
    found = paragraph.find(f"{W}pPr/{W}pStyle")
    return "Normal" if found is None else found.get(f"{W}val", "")


def text_of(paragraph: Element) -> str:
    """The words of one paragraph; tabs and breaks are spaces, values of fields are left out."""
    return "".join(_pieces(paragraph))


def _pieces(paragraph: Element) -> Iterator[str]:
    in_field = False
    for node in paragraph.iter():
        if node.tag == f"{W}fldChar":
            in_field = node.get(f"{W}fldCharType") != "end"
        elif node.tag == f"{W}t" and not in_field:
            yield node.text or ""
        elif node.tag in {f"{W}br", f"{W}tab"}:
            yield " "


def read_words(data: bytes) -> list[str]:
    """Every word of the body with the numbers of steps, as a patient reads them.

    Numbers of a list in running text and bullets are marks, not words of the handout.
    """
    words: list[str] = []
    for block in WordFile(data).blocks():
        if block.style == "Steps":
            words.append(block.number)
        words += block.text.split()
    return words
