"""Words a patient may not know, with everyday ones, and instructions too vague to follow.

A word is reported where it is on the lists of
:mod:`authoring.checks.plain_word_pairs`, or where it counts as hard by Gunning's
rule and is not known as a common one. All of it is for a person to judge.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Set
from enum import StrEnum
from itertools import pairwise

from attrs import frozen

from authoring.checks import plain_word_pairs as pairs
from authoring.checks.language import NotForLanguage, is_english
from authoring.checks.readability import is_hard_word
from authoring.checks.sentences import Piece, sentences, words
from authoring.checks.syllables import syllables

Phrase = tuple[str, ...]


class Basis(StrEnum):
    """Why a word is reported."""

    GUIDE = "everyday-word pair of the PEMAT user's guide"
    TRADE = "jargon of the trade (common practice, no source)"
    LONG = "three syllables or more"
    VAGUE = "too vague to act on (common practice, no source)"


@frozen
class HardWord:
    """A word or phrase of a text, ``text[start:end]``, and what to write instead, if known."""

    word: str
    start: int
    end: int
    suggestion: str | None
    basis: Basis


@frozen
class _Entry:
    suggestion: str | None
    basis: Basis


def hard_words(
    text: str, language: str, known: Set[str] = frozenset()
) -> tuple[HardWord, ...] | NotForLanguage:
    """Hard words of English text in order, each place it stands.

    ``known`` holds more words, in lower case, that are explained or familiar
    (a glossary, the names of a clinic). A listed phrase is reported once, as a whole.
    """
    if not is_english(language):
        return NotForLanguage(language)
    return tuple(_hard_words(text, known))


def letter_runs(text: str) -> frozenset[str]:
    """The runs of letters in a text, in lower case."""
    return frozenset(_LETTERS.findall(text.lower()))


def may_be_listed(runs: Set[str]) -> bool:
    """Whether a text of these :func:`letter_runs` can hold a listed or vague phrase at all.

    Quick, for checks over many texts: most texts can't.
    """
    return not _SIGNS.isdisjoint(runs)


def vague_phrases(text: str, language: str) -> tuple[HardWord, ...] | NotForLanguage:
    """Instructions a patient can't act on ("as tolerated"), with what to say instead."""
    if not is_english(language):
        return NotForLanguage(language)
    return tuple(
        found
        for sentence in sentences(text)
        for found, _ in _listed(text, _words_at(sentence), _VAGUE)
    )


def _hard_words(text: str, known: Set[str]) -> Iterator[HardWord]:
    for sentence in sentences(text):
        found = _words_at(sentence)
        taken: set[int] = set()
        listed: dict[int, HardWord] = {}
        for hard, places in _listed(text, found, _LISTED):
            taken.update(places)
            if hard.word.lower() not in known:
                listed[places.start] = hard
        for place, word in enumerate(found):
            if place in listed:
                yield listed[place]
            elif place not in taken and _is_long(word.text, known, opens=place == 0):
                yield HardWord(word.text, word.start, word.end, None, Basis.LONG)


def _words_at(sentence: Piece) -> list[Piece]:
    """The words of a sentence with their places in the whole text."""
    offset = sentence.start
    return [
        Piece(word.text, offset + word.start, offset + word.end) for word in words(sentence.text)
    ]


def _is_long(word: str, known: Set[str], *, opens: bool) -> bool:
    plain = _key(word)
    base = plain.removesuffix("'s")
    if not {plain, base}.isdisjoint(_KNOWN) or plain in known:
        return False
    return is_hard_word(word, syllables(word), opens=opens)


def _listed(
    text: str, found: list[Piece], table: Mapping[Phrase, _Entry]
) -> Iterator[tuple[HardWord, range]]:
    """Listed phrases, the longest at each place, with the places of their words."""
    keys = [_key(word.text) for word in found]
    place = 0
    while place < len(keys):
        length = _longest_at(text, found, keys, place, table)
        if length:
            first, last = found[place], found[place + length - 1]
            entry = table[tuple(keys[place : place + length])]
            yield (
                HardWord(
                    text[first.start : last.end],
                    first.start,
                    last.end,
                    entry.suggestion,
                    entry.basis,
                ),
                range(place, place + length),
            )
        place += length or 1


def _longest_at(
    text: str,
    found: list[Piece],
    keys: list[str],
    place: int,
    table: Mapping[Phrase, _Entry],
) -> int:
    """Words in the longest phrase of the table that starts at ``place``; 0 for none."""
    longest = _LONGEST_FROM.get(keys[place], 0)
    for length in range(min(longest, len(keys) - place), 0, -1):
        phrase = tuple(keys[place : place + length])
        if phrase not in table:
            continue
        together = found[place : place + length]
        if all(text[one.end : other.start].isspace() for one, other in pairwise(together)):
            # "Prone to" is about being likely, not about lying.
            return 0 if phrase == ("prone",) and keys[place + 1 : place + 2] == ["to"] else length
    return 0


def _key(word: str) -> str:
    plain = word.lower().replace("’", "'")
    return plain.replace("‑", "-").replace("‐", "-")


def _table(lines: str, basis: Basis) -> dict[Phrase, _Entry]:
    table = {}
    for line in lines.strip().splitlines():
        forms, _, suggestion = (part.strip() for part in line.partition("="))
        for form in forms.split(","):
            table[tuple(form.split())] = _Entry(suggestion or None, basis)
    return table


_LISTED = _table(pairs.TRADE, Basis.TRADE) | _table(pairs.GUIDE, Basis.GUIDE)
_VAGUE = _table(pairs.VAGUE, Basis.VAGUE)
_KNOWN = frozenset(pairs.KNOWN.split())
_LETTERS = re.compile(r"[^\W\d_]+")
# The longest run of letters of each phrase: a text without it can't hold the phrase.
_SIGNS = frozenset(
    max(_LETTERS.findall(" ".join(phrase)), key=len) for phrase in (*_LISTED, *_VAGUE)
)
# Most words open no phrase at all, and cost one look-up only.
_LONGEST_FROM: dict[str, int] = {}
for _phrase in (*_LISTED, *_VAGUE):
    _LONGEST_FROM[_phrase[0]] = max(len(_phrase), _LONGEST_FROM.get(_phrase[0], 0))
