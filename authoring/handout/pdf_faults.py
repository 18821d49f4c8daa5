"""Turns what the page maker says into one sentence for the user."""

from __future__ import annotations

import re
import unicodedata

from authoring.handout.document import HandoutDocument, Picture
from authoring.handout.words import page_furniture, words

_MISSING = re.compile(r'the text `"(.*)"` could not be displayed', re.DOTALL)
_ESCAPE = re.compile(r"\\(?:u\{([0-9a-fA-F]+)\}|(.))", re.DOTALL)
_ESCAPED = {"n": "\n", "r": "\r", "t": "\t", "0": "\0"}


def sentence(message: str, document: HandoutDocument) -> str:
    """One sentence for ``message`` of the page maker: what, where, and how to mend it."""
    missing = _MISSING.search(message)
    if missing:
        return _letter_sentence(_unescaped(missing.group(1)), document)
    if "unknown font family" in message:
        return (
            f"The font “{document.brand.font}” is not one of those that come with the program; "
            "choose another font for the clinic."
        )
    return f"The handout “{document.title}” can't be set as a PDF: {message}."


def picture_sentence(picture: Picture) -> str:
    """Says that ``picture`` can't be read, by its alternative text."""
    return (
        f"The picture “{picture.alt}” ({picture.media_type}) can't be read; "
        "choose it again as a PNG or JPEG file."
    )


def _letter_sentence(text: str, document: HandoutDocument) -> str:
    letter = text[:1]
    name = unicodedata.name(letter, "no name") if letter else "no name"
    where = next((whole for whole in _printed(document) if text in whole), text)
    return (
        f"The sign “{letter if letter.isprintable() else '?'}” (U+{ord(letter or chr(0)):04X}, "
        f"{name.lower()}) in “{where}” is not in the font {document.brand.font}, so it can't be "
        "printed; write it in another way."
    )


def _printed(document: HandoutDocument) -> tuple[str, ...]:
    return (*words(document), *page_furniture(document), document.page_label)


def _unescaped(text: str) -> str:
    def one(match: re.Match[str]) -> str:
        code, letter = match.groups()
        return chr(int(code, 16)) if code else _ESCAPED.get(letter, letter)

    return _ESCAPE.sub(one, text)
