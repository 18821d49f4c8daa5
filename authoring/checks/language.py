"""Which texts the English measures are for."""

from __future__ import annotations

from attrs import frozen


@frozen
class NotForLanguage:
    """The measure is made for English, and the text is in ``language`` (a BCP 47 tag)."""

    language: str


def is_english(language: str) -> bool:
    """Whether a BCP 47 tag names English, of any region (``en``, ``en-GB``, ``EN_us``)."""
    return language.strip().lower().replace("_", "-").split("-", 1)[0] == "en"
