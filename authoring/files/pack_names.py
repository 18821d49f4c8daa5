"""Which names may stand in a pack, and what is wrong with the others."""

from __future__ import annotations

import re
from collections.abc import Iterable

from authoring.files.zip_reading import brief
from authoring.model.pack import MEMBER_NAME
from authoring.model.sentence import Sentence, say

MANIFEST_NAME = "manifest.json"
SIGNATURE_NAME = "signature.json"
_RESERVED = re.compile(r"(con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])(\..*)?", re.IGNORECASE)
"""Names of devices (Microsoft, Naming Files, Paths, and Namespaces)."""
_PATIENT = re.compile(r"plan|presentation|review|patient", re.IGNORECASE)
_NESTED = re.compile(r"\.(zip|rungpack|docx|7z|gz|tar)$", re.IGNORECASE)


def names_fault(names: Iterable[str]) -> Sentence | None:
    """What is wrong with the names of a pack's files, None where nothing is."""
    seen: set[str] = set()
    for name in names:
        wrong = _fault(name)
        if wrong is not None:
            return wrong
        if name in seen:
            return say("{name} is in the pack twice", name=brief(name))
        seen.add(name)
    return None


def _fault(name: str) -> Sentence | None:
    if name in (MANIFEST_NAME, SIGNATURE_NAME) or re.fullmatch(MEMBER_NAME, name):
        return None
    return _path_fault(name) or _place_fault(name)


def _path_fault(name: str) -> Sentence | None:
    """What would make the name lead elsewhere on some system."""
    shown = brief(name)
    parts = name.split("/")
    if "\\" in name or ":" in name:
        return say("{name} has a backslash or colon in its name", name=shown)
    if name.startswith("/"):
        return say("{name} names a place outside the pack", name=shown)
    if ".." in parts or "." in parts or "" in parts:
        return say("{name} leads out of the pack, or is no file", name=shown)
    if any(_RESERVED.fullmatch(part.rstrip(". ")) for part in parts):
        return say("{name} is the name of a device", name=shown)
    return None


def _place_fault(name: str) -> Sentence:
    shown = brief(name)
    low = name.casefold()
    if low in (MANIFEST_NAME, SIGNATURE_NAME) or re.fullmatch(MEMBER_NAME, low):
        return say("{name} is written in capitals, which may clash with another", name=shown)
    if _PATIENT.search(name):
        return say("{name} looks like a patient's file, which never goes into a pack", name=shown)
    if _NESTED.search(name):
        return say("{name} is a pack inside a pack", name=shown)
    return say("{name} has no place in a pack", name=shown)
