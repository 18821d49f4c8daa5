"""Words that look like data of a patient: a net with wide meshes, never a proof of absence.

NHS numbers have ten digits, the last a check digit of modulus 11 (NHS Data Dictionary, NHS
NUMBER). The other shapes are common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from attrs import frozen

from authoring.files.strict_json import JsonValue
from authoring.model.sentence import Sentence, say

_NHS = re.compile(r"(?<![\w./-])(\d{3})[ -]?(\d{3})[ -]?(\d{4})(?![\w/-])")
_MAIL = re.compile(r"[\w.+-]{1,64}@[\w-]{1,63}\.[\w.-]{2,63}")
_PHONE = re.compile(r"(?<![\w./:;-])(\+|00|0)\d{2,4}[ ()-]{0,2}\d[\d ()-]{4,12}\d(?![\w/-])")
_DAY = (
    r"(\d{1,2}[./-]\d{1,2}[./-](19|20)?\d\d|(19|20)\d\d-\d\d-\d\d"
    r"|\d{1,2} [A-Za-z]{3,9} (19|20)\d\d)"
)
_BORN = re.compile(
    r"\b(d\.?o\.?b\b\.?|born( on)?|date of birth|birth ?date)\W{0,6}" + _DAY, re.IGNORECASE
)
_NAMED = re.compile(
    r"\b(NHS|hospital|medical record|patient|MRN)\W{0,2}(no|number|id|name)\b\W{0,4}\w",
    re.IGNORECASE,
)
_SKIPPED = frozenset({"id", "doi", "sha256", "image", "citation", "card", "format"})
"""Fields whose digits name files and publications."""


@frozen
class Suspicion:
    """Words that look like a patient's: where they stand and what they look like."""

    at: str
    what: Sentence

    @property
    def sentence(self) -> Sentence:
        """Both in words, without quoting what was found."""
        return say("{at} looks like {what}", at=self.at, what=self.what)


def suspicions(value: JsonValue, at: str) -> Iterator[Suspicion]:
    """Whatever in a JSON value looks like a patient's data; ``at`` names the value."""
    if isinstance(value, str):
        what = looks_like(value)
        if what is not None:
            yield Suspicion(at, what)
    elif isinstance(value, dict):
        for key, item in value.items():
            if key not in _SKIPPED:
                yield from suspicions(item, f"{at}.{key[:40]}")
    elif isinstance(value, list):
        for index, item in enumerate(value):
            yield from suspicions(item, f"{at}[{index}]")


def looks_like(words: str) -> Sentence | None:
    """What data of a patient some words look like, None where none."""
    if _MAIL.search(words):
        return say("an e-mail address")
    if _BORN.search(words):
        return say("a date of birth")
    if any(is_nhs_number("".join(found.groups())) for found in _NHS.finditer(words)):
        return say("an NHS number")
    if _PHONE.search(words):
        return say("a telephone number")
    if _NAMED.search(words):
        return say("a patient's number or name")
    return None


def is_nhs_number(digits: str) -> bool:
    """Whether ten digits pass the check of an NHS number."""
    total = sum(
        int(digit) * weight for digit, weight in zip(digits[:9], range(10, 1, -1), strict=True)
    )
    check = (11 - total % 11) % 11
    return check != 10 and check == int(digits[9])
