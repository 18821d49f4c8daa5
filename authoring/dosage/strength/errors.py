"""Why a strength can't be estimated."""

from __future__ import annotations


class StrengthError(ValueError):
    """No equation holds for what was given.

    Attributes:
        code: stable code.
        sentence: what is wrong, one sentence.
        mend: how to mend it, one sentence.
    """

    def __init__(self, code: str, sentence: str, mend: str) -> None:
        super().__init__(code, sentence, mend)
        self.code = code
        self.sentence = sentence
        self.mend = mend

    def __str__(self) -> str:
        return f"{self.sentence} {self.mend}"
