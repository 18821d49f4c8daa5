"""What is said where the dose shorthand can't be read or written."""

from __future__ import annotations

from collections.abc import Mapping
from difflib import get_close_matches

from authoring.model.sentence import Sentence, say

_LONGEST_GUESS = 24


class ShorthandError(ValueError):
    """Text that is no dose.

    Attributes:
        sentence: what is wrong.
        start, end: characters that failed, ``text[start:end]``; equal where something is
            missing.
        mend: how to mend it, one sentence.
    """

    def __init__(self, sentence: Sentence, start: int, end: int, mend: Sentence) -> None:
        super().__init__(sentence, start, end, mend)
        self.sentence = sentence
        self.start = start
        self.end = end
        self.mend = mend

    def __str__(self) -> str:
        return self.whole

    @property
    def whole(self) -> Sentence:
        """What is wrong and how to mend it."""
        return say("{sentence} {mend}", sentence=self.sentence, mend=self.mend)


class UnsayableError(ValueError):
    """A dose that holds something the shorthand has no words for; ``sentence`` says what."""

    def __init__(self, sentence: Sentence) -> None:
        super().__init__(sentence)
        self.sentence = sentence


def near(word: str, meanings: Mapping[str, str], cutoff: float = 0.75) -> Sentence | None:
    """ "Did you mean 's' (seconds)?", or None where no spelling comes close.

    Args:
        word: what was written, in lower case.
        meanings: what each spelling stands for; "" where the spelling says it itself.
        cutoff: how alike the spellings must be, from 0 to 1; short units need less.
    """
    if len(word) > _LONGEST_GUESS:
        return None
    spelled = {spelling.casefold(): spelling for spelling in meanings}
    found = get_close_matches(word, spelled, n=1, cutoff=cutoff)
    if not found:
        return None
    spelling = spelled[found[0]]
    meaning = meanings[spelling]
    if meaning:
        return say("Did you mean '{spelling}' ({meaning})?", spelling=spelling, meaning=meaning)
    return say("Did you mean '{spelling}'?", spelling=spelling)
