"""Write a handout as one self-contained HTML file.

The page holds its style, fonts and pictures, runs one fixed script and asks for
nothing from outside; its Content-Security-Policy says so to the browser too.
Its text is escaped by the template engine, in the order of
:func:`authoring.handout.words.words`.
"""

from __future__ import annotations

import base64
import hashlib
import re
from functools import cache

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from authoring import resources
from authoring.handout.document import (
    Bullets,
    HandoutDocument,
    Numbered,
    PainZone,
    Picture,
    PrintSize,
    RichBlock,
)
from authoring.handout.html_limits import refuse_unwritable
from authoring.handout.html_outline import outline
from authoring.handout.html_style import source_hash, style_sheet
from authoring.handout.words import alt_texts, page_furniture, words

_POLICY = (
    "default-src 'none'; style-src {style}; script-src {script}; img-src data:; font-src data:; "
    "base-uri 'none'; form-action 'none'"
)
# Wider than it is high by so much, a picture shows somebody lying.
_LYING_RATIO = 1.6


def write_html(document: HandoutDocument) -> bytes:
    """The handout as a whole HTML page, UTF-8; the same document gives the same bytes.

    Raises:
        HandoutError: something in the document can't stand in a web page.
        ResourceMissing: the program's own templates are missing.
    """
    refuse_unwritable(document)
    style = style_sheet(document, _characters(document))
    page = (
        _environment()
        .get_template("handout.html.jinja")
        .render(
            doc=document,
            large=document.print_size is PrintSize.LARGE,
            outline=outline(document.parts),
            key=diary_key(document),
            policy=Markup(  # noqa: S704 - no text of a user
                _POLICY.format(style=source_hash(style), script=source_hash(script()))
            ),
            script=Markup(script()),  # noqa: S704 - a file of our own
            style=Markup(style),  # noqa: S704 - user's strings are CSS strings without < or &
        )
    )
    return page.encode("utf-8")


@cache
def script() -> str:
    """The script of every page: always the same, and no text of a handout is in it.

    Raises:
        ResourceMissing: the program's own templates are missing.
    """
    written = (resources.templates() / "handout" / "handout.js").read_text(encoding="utf-8")
    lines = (line.strip() for line in written.splitlines())
    # One line: some checkers hash a script only up to its first line end.
    return " ".join(line for line in lines if line and not line.startswith("//"))


def diary_key(document: HandoutDocument) -> str:
    """What ticks are kept under: another plan is another diary, another print size is not."""
    told = "\n".join(words(document))
    return f"diary-{hashlib.sha256(told.encode('utf-8')).hexdigest()[:32]}"


@cache
def _environment() -> Environment:
    environment = Environment(
        loader=FileSystemLoader(resources.templates() / "handout"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    environment.filters |= {
        "arrangement": _arrangement,
        "data_uri": _data_uri,
        "list_tag": _list_tag,
        "tel_address": tel_address,
        "tones": _tones,
    }
    return environment


def _characters(document: HandoutDocument) -> frozenset[str]:
    texts = (*words(document), *page_furniture(document), *alt_texts(document))
    return frozenset("".join((document.page_label, "0123456789", *texts)))


def tel_address(phone: str) -> str:
    """The ``tel:`` address of a telephone number, or "" where the text is more than one number.

    Digits and a leading plus sign, without the visual separators of RFC 3966, section 5.1.1.
    """
    plain = re.sub(r"[\s().\-–/]", "", phone)
    return f"tel:{plain}" if re.fullmatch(r"\+?[0-9]{3,15}", plain) else ""


def _data_uri(picture: Picture) -> str:
    return f"data:{picture.media_type};base64,{base64.b64encode(picture.data).decode('ascii')}"


def _list_tag(block: RichBlock) -> str:
    match block:
        case Bullets():
            return "ul"
        case Numbered():
            return "ol"
    return ""


def _tones(zones: tuple[PainZone, ...]) -> tuple[int, ...]:
    """The tone of each number from 0 to 10; white where no band holds it."""
    return tuple(
        next((zone.tone for zone in zones if zone.low <= number <= zone.high), 0)
        for number in range(11)
    )


def _arrangement(pictures: tuple[Picture, ...]) -> str:
    """How the pictures of an exercise stand: side by side, one alone, or lying ones stacked."""
    if all(picture.width_px >= _LYING_RATIO * picture.height_px for picture in pictures):
        return "lying"
    return "single" if len(pictures) == 1 else "upright"
