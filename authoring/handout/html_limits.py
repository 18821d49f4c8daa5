"""What a web page can't hold, found before anything is written."""

from __future__ import annotations

import re
from collections.abc import Iterator
from enum import Enum
from typing import cast
from urllib.parse import urlsplit

from attrs import AttrsInstance, fields, has

from authoring.checks.contrast import ColourError, parse_hex
from authoring.handout.document import BrandStyle, HandoutDocument, PainGuide, Picture, Span
from authoring.handout.errors import HandoutError

# WHATWG HTML, 13.2.3.5 "Preprocessing the input stream": surrogates, noncharacters
# and controls other than white space are parse errors in a document.
_UNWRITABLE = re.compile(
    "[\x00-\x08\x0b\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufdd0-\ufdef"
    + "".join(chr(plane << 16 | 0xFFFE) + chr(plane << 16 | 0xFFFF) for plane in range(17))
    + "]"
)
_SIGNATURES = {
    "image/png": b"\x89PNG\r\n\x1a\n",
    "image/jpeg": b"\xff\xd8\xff",
    "image/svg+xml": b"<svg",
}
_SCHEMES = frozenset({"http", "https", "mailto", "tel"})


def refuse_unwritable(document: HandoutDocument) -> None:
    """Do nothing if an HTML page can say all of ``document``.

    Raises:
        HandoutError: for the first text, colour, link, pain band or picture that it can't.
    """
    if not document.title.strip():
        raise HandoutError("The handout has no title. Give it one and write it again.")
    for path, value in _values(document, "handout"):
        match value:
            case str():
                _refuse_text(path, value)
            case Span():
                _refuse_link(path, value)
            case Picture():
                _refuse_picture(path, value)
            case PainGuide():
                _refuse_zones(path, value)
            case BrandStyle():
                _refuse_colours(path, value)


def _values(value: object, path: str) -> Iterator[tuple[str, object]]:
    """Every value inside ``value`` with its path, outermost first."""
    yield path, value
    if isinstance(value, Enum):
        return
    if isinstance(value, tuple):
        for index, item in enumerate(value):
            yield from _values(item, f"{path}[{index}]")
    elif has(type(value)):
        for each in fields(cast("AttrsInstance", value).__class__):
            yield from _values(getattr(value, each.name), f"{path}.{each.name}")


def _refuse_text(path: str, text: str) -> None:
    found = _UNWRITABLE.search(text)
    if found:
        raise HandoutError(
            f"{path} holds the character U+{ord(found.group()):04X}, which a web page can’t show. "
            "Delete it and write the handout again."
        )


def _refuse_link(path: str, span: Span) -> None:
    if span.href is None:
        return
    try:
        scheme = urlsplit(span.href).scheme.lower()
    except ValueError:
        scheme = ""
    if scheme not in _SCHEMES or re.search(r"\s", span.href):
        raise HandoutError(
            f"{path} links to “{span.href[:80]}”, which is no web, mail or telephone address. "
            "Write an address that starts with https:, mailto: or tel:, or take the link away."
        )


def _refuse_picture(path: str, picture: Picture) -> None:
    signature = _SIGNATURES.get(picture.media_type)
    head = picture.data if picture.media_type == "image/svg+xml" else picture.data[:8]
    if signature is None or signature not in head:
        raise HandoutError(
            f"{path} is not the {picture.media_type or 'picture'} it says it is. "
            "Replace it by a PNG, JPEG or SVG picture."
        )
    if not picture.alt.strip():
        raise HandoutError(
            f"{path} has no alternative text. Say in a sentence what the picture shows."
        )
    if picture.width_px < 1 or picture.height_px < 1:
        raise HandoutError(f"{path} has no size. Replace it by a picture of at least one pixel.")


def _refuse_zones(path: str, guide: PainGuide) -> None:
    for index, zone in enumerate(guide.zones):
        if not 0 <= zone.low <= zone.high <= 10 or zone.tone not in {0, 1, 2}:
            raise HandoutError(
                f"{path}.zones[{index}] is no band of the 0 to 10 pain scale. "
                "Give it a low and a high end between 0 and 10, and a tone from 0 to 2."
            )


def _refuse_colours(path: str, brand: BrandStyle) -> None:
    for each in fields(BrandStyle):
        if each.name in {"font", "logo"}:
            continue
        try:
            parse_hex(getattr(brand, each.name))
        except ColourError as error:
            raise HandoutError(f"{path}.{each.name}: {error}") from error
