"""How sentences name things: quoted, cut short, and a few of many."""

from __future__ import annotations

from collections.abc import Sequence

from authoring.model.sentence import Sentence, say
from authoring.model.text import Text

_LONGEST = 60
_MOST = 3


def quoted(words: str) -> Sentence:
    """Words in quotation marks, on one line and cut short."""
    line = " ".join(words.split())
    short = line if len(line) <= _LONGEST else f"{line[: _LONGEST - 1].rstrip()}…"
    return say("“{words}”", words=short)


def named(text: Text | None, language: str, otherwise: str) -> Sentence:
    """The words of a text in quotation marks, or the id in their place where it has none."""
    words = text.best(language, language).strip() if text is not None else ""
    return quoted(words or otherwise)


def listed(names: Sequence[str]) -> str:
    """Some names as a phrase: the first few, then how many more."""
    once = list(dict.fromkeys(names))
    if len(once) == 1:
        return once[0]
    if len(once) <= _MOST:
        return say("{names} and {last}", names=joined(once[:-1]), last=once[-1])
    return say("{names} and {more} more", names=joined(once[:_MOST]), more=len(once) - _MOST)


def joined(names: Sequence[str]) -> str:
    """Names one after another, with commas between them."""
    row = names[0]
    for name in names[1:]:
        row = say("{names}, {name}", names=row, name=name)
    return row
