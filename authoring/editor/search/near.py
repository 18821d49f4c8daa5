"""Words of a vocabulary that a mistyped word may stand for."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable

MOST = 12
"""Most words that one mistyped word may stand for."""
_FEWEST_INSIDE = 4
_FORGIVEN = ((12, 3), (8, 2), (4, 1))


def forgiven(word: str) -> int:
    """How many slips are forgiven in a word: none in short ones, three in the longest."""
    return next((slips for least, slips in _FORGIVEN if len(word) >= least), 0)


def distance(one: str, other: str, most: int) -> int:
    """Slips between two words, ``most + 1`` where there are more than ``most``.

    A slip is a letter too many, one too few, a wrong one, or two neighbours swapped
    (optimal string alignment: no letter is touched twice).
    """
    if abs(len(one) - len(other)) > most:
        return most + 1
    before: list[int] = []
    last = list(range(len(other) + 1))
    for i, letter in enumerate(one, 1):
        row = [i]
        for j, facing in enumerate(other, 1):
            cost = min(last[j] + 1, row[j - 1] + 1, last[j - 1] + (letter != facing))
            swapped = i > 1 and j > 1 and letter == other[j - 2] and one[i - 2] == facing
            row.append(min(cost, before[j - 2] + 1) if swapped else cost)
        if min(row) > most and min(last) > most:
            return most + 1
        before, last = last, row
    return min(last[-1], most + 1)


def _letters(word: str) -> int:
    """Which letters a word has, as bits: one slip changes at most two of them."""
    bits = 0
    for letter in word:
        bits |= 1 << (ord(letter) & 63)
    return bits


class Vocabulary:
    """Every word that stands in a library, folded."""

    def __init__(self, words: Iterable[str] = ()) -> None:
        self._words = sorted(set(words))
        self._by_length: dict[int, list[tuple[int, str]]] = {}
        self._near: dict[str, list[str]] = {}
        self._inside: dict[str, list[str]] = {}
        for word in self._words:
            self._by_length.setdefault(len(word), []).append((_letters(word), word))

    def __len__(self) -> int:
        return len(self._words)

    def begins(self, start: str) -> bool:
        """Whether a word begins so."""
        at = bisect_left(self._words, start)
        return at < len(self._words) and self._words[at].startswith(start)

    def holding(self, part: str) -> list[str]:
        """Words that hold a part further in ("flexion" in "dorsiflexion"); none for short parts."""
        if len(part) < _FEWEST_INSIDE:
            return []
        if part not in self._inside:
            found = [word for word in self._words if part in word and not word.startswith(part)]
            self._inside[part] = found[:MOST]
        return list(self._inside[part])

    def near(self, word: str) -> list[str]:
        """The words nearest to a mistyped one, else words whose beginning is near to it."""
        if word not in self._near:
            self._near[word] = self._nearest(word)
        return list(self._near[word])

    def _nearest(self, word: str) -> list[str]:
        found: list[str] = []
        for slips in range(1, forgiven(word) + 1):
            found = found or self._whole(word, slips)
        for slips in range(1, forgiven(word) + 1):
            found = found or self._begun(word, slips)
        return sorted(found, key=lambda other: (other[:1] != word[:1], other))[:MOST]

    def _whole(self, word: str, slips: int) -> list[str]:
        letters, most = _letters(word), 2 * slips
        alike = [
            other
            for length in range(len(word) - slips, len(word) + slips + 1)
            for bits, other in self._by_length.get(length, ())
            if (letters ^ bits).bit_count() <= most
        ]
        return [other for other in alike if 0 < distance(word, other, slips) <= slips]

    def _begun(self, word: str, slips: int) -> list[str]:
        letters, size = _letters(word), len(word)
        low = bisect_left(self._words, word[0])
        high = bisect_left(self._words, chr(ord(word[0]) + 1))
        alike = [
            other
            for other in self._words[low:high]
            if len(other) > size and (letters & ~_letters(other)).bit_count() <= slips
        ]
        cuts = (size, size - 1, size + 1)
        return [
            other
            for other in alike
            if min(distance(word, other[:cut], slips) for cut in cuts) <= slips
        ]
