"""How sentences name things: quoted, cut short, and a few of many."""

from __future__ import annotations

from collections.abc import Sequence

from authoring.model.text import Text

_LONGEST = 60
_MOST = 3


def quoted(words: str) -> str:
    """Words in quotation marks, on one line and cut short."""
    line = " ".join(words.split())
    return f"“{line}”" if len(line) <= _LONGEST else f"“{line[: _LONGEST - 1].rstrip()}…”"


def named(text: Text | None, language: str, otherwise: str) -> str:
    """The words of a text in quotation marks, or the id in their place where it has none."""
    words = text.best(language, language).strip() if text is not None else ""
    return quoted(words or otherwise)


def listed(names: Sequence[str]) -> str:
    """Some names as a phrase: the first few, then how many more."""
    once = list(dict.fromkeys(names))
    if len(once) == 1:
        return once[0]
    if len(once) <= _MOST:
        return f"{', '.join(once[:-1])} and {once[-1]}"
    return f"{', '.join(once[:_MOST])} and {len(once) - _MOST} more"


def having(number: int, noun: str) -> str:
    """A number, its noun and "has" or "have" (``1 step has``, ``3 steps have``)."""
    return f"{count(number, noun)} {'has' if number == 1 else 'have'}"


def count(number: int, one: str, many: str = "") -> str:
    """A number and its noun (``1 step``, ``3 steps``)."""
    return f"{number} {one if number == 1 else many or f'{one}s'}"
