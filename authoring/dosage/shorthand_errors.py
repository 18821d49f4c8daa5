"""What is said where the dose shorthand can't be read or written."""

from __future__ import annotations

from collections.abc import Mapping
from difflib import get_close_matches

_LONGEST_GUESS = 24


class ShorthandError(ValueError):
    """Text that is no dose.

    Attributes:
        sentence: what is wrong.
        start, end: characters that failed, ``text[start:end]``; equal where something is
            missing.
        mend: how to mend it, one sentence.
    """

    def __init__(self, sentence: str, start: int, end: int, mend: str) -> None:
        super().__init__(sentence, start, end, mend)
        self.sentence = sentence
        self.start = start
        self.end = end
        self.mend = mend

    def __str__(self) -> str:
        return f"{self.sentence} {self.mend}"


class UnsayableError(ValueError):
    """A dose that holds something the shorthand has no words for; the message says what."""


def near(word: str, meanings: Mapping[str, str]) -> str:
    """ "Did you mean 's' (seconds)?", or "" where no spelling comes close.

    Args:
        word: what was written, in lower case.
        meanings: what each spelling stands for; "" where the spelling says it itself.
    """
    if len(word) > _LONGEST_GUESS:
        return ""
    found = get_close_matches(word, meanings, n=1, cutoff=0.6)
    if not found:
        return ""
    meaning = meanings[found[0]]
    return f"Did you mean '{found[0]}' ({meaning})?" if meaning else f"Did you mean '{found[0]}'?"
