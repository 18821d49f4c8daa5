"""Which pieces of a text are words to be spelled, and which of them are unknown. No Qt here."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from authoring.editor.spelling.dictionaries import Dictionary

Span = tuple[int, int]

_NO_WORDS = re.compile(r"https?://\S+|www\.\S+|\S+@\S+|\S*\d\S*")
"""Addresses, and whatever holds a digit."""
_WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)*")
_LONGEST_SHORT_FORM = 6


def words_in(text: str) -> Iterator[tuple[int, int, str]]:
    """The words of a text: characters from and up to, and the word.

    Addresses, numbers with their units, single letters, short forms in capitals and names
    with capitals inside are left out.
    """
    skipped = [hit.span() for hit in _NO_WORDS.finditer(text)]
    for hit in _WORD.finditer(text):
        if not _is_spelled(hit[0]):
            continue
        if not any(start <= hit.start() < end for start, end in skipped):
            yield hit.start(), hit.end(), hit[0]


def _is_spelled(word: str) -> bool:
    if len(word) < 2:
        return False
    if word.isupper():
        return len(word) > _LONGEST_SHORT_FORM
    return word[1:].islower() or not word.isalpha()


def _plain(word: str) -> str:
    return word.casefold().replace("’", "'")


class Speller:
    """A dictionary and the clinic's own words."""

    def __init__(self, dictionary: Dictionary, accepted: Iterable[str] = ()) -> None:
        self.dictionary = dictionary
        self._accepted = frozenset(_plain(word) for word in accepted)
        self._known: dict[str, bool] = {}

    def accepts(self, word: str) -> bool:
        """Whether a word is one of the clinic's own, in any case, or its genitive or plural."""
        plain = _plain(word)
        if plain in self._accepted:
            return True
        return any(
            plain.endswith(ending) and plain.removesuffix(ending) in self._accepted
            for ending in ("'s", "s")
        )

    def knows(self, word: str) -> bool:
        """Whether a word is spelled right."""
        if word not in self._known:
            self._known[word] = self.accepts(word) or self.dictionary.knows(word)
        return self._known[word]

    def unknown(self, text: str) -> Iterator[tuple[int, int, str]]:
        """The words of a text that are not known: characters from and up to, and the word."""
        for start, end, word in words_in(text):
            if not self.knows(word):
                yield start, end, word
