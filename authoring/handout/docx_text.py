"""Runs of text: literal words, line breaks, writing direction, and what a Word file can't hold."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator

from attrs import fields_dict, has
from docx.oxml.xmlchemy import BaseOxmlElement

from authoring.handout.docx_format import RunFormat, element, run_properties
from authoring.handout.errors import HandoutError

# Outside the Char production of XML 1.0 (fifth edition, 2.2).
_FORBIDDEN = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
_BETWEEN_FIGURES = re.compile(r"(?<=\d) (?=\d)")
_SPACE = "{http://www.w3.org/XML/1998/namespace}space"


def refuse_what_xml_cannot_hold(value: object) -> None:
    """Check every text of a handout tree.

    Raises:
        HandoutError: a text holds a character that XML 1.0 forbids; the message quotes it.
    """
    for text in _texts(value):
        found = _FORBIDDEN.search(text)
        if found:
            shown = _FORBIDDEN.sub("\ufffd", text)
            shown = shown if len(shown) <= 80 else f"{shown[:79]}…"
            raise HandoutError(
                f"The text “{shown}” holds the control character U+{ord(found[0]):04X}, "
                "which a Word file can’t hold; delete that character and try again."
            )


def _texts(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, tuple):
        for item in value:
            yield from _texts(item)
    elif has(kind := type(value)):
        for name in fields_dict(kind):
            yield from _texts(getattr(value, name))


def text_run(text: str, *, rtl: bool, style: str | None = None) -> BaseOxmlElement:
    """One ``w:r`` that prints ``text`` literally; line ends become line breaks.

    In a right-to-left handout a run without right-to-left letters stays left to
    right, so that a Latin name keeps its punctuation where it belongs. Groups of
    figures are joined by no-break spaces, which keep a telephone number in its
    order (Unicode Annex 9, rule W4).
    """
    if rtl:
        text = _BETWEEN_FIGURES.sub("\u00a0", text)
    backwards = rtl and not _is_left_to_right(text)
    look = RunFormat(style=style, rtl=True if backwards else None)
    return element("r", run_properties(look), *_content(text))


def _is_left_to_right(text: str) -> bool:
    kinds = {unicodedata.bidirectional(char) for char in text}
    return not kinds & {"R", "AL", "AN"} and bool(kinds & {"L", "EN"})


def _content(text: str) -> Iterator[BaseOxmlElement]:
    lines = text.replace("\r\n", "\n").replace("\r", "\n").replace("\t", " ").split("\n")
    for index, line in enumerate(lines):
        if index:
            yield element("br")
        if line:
            made = element("t")
            made.text = line
            made.set(_SPACE, "preserve")
            yield made
