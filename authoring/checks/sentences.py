"""Sentences and words of patient text, with their places in it.

Handout text is short and informal: steps stand without full stops, doses hold
decimals, ranges and units. So a line break ends a sentence unless the line
plainly runs on, and a full stop ends one only where it is not part of a number
or an abbreviation. Offsets count characters from 0; ``end`` is past the last.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

from attrs import frozen

from authoring.checks.language import NotForLanguage, is_english

LONGEST_SENTENCE = 20
"""Words in a sentence that patients still follow easily (common practice, no source)."""


@frozen
class Piece:
    """A sentence or word and where it stands in its text."""

    text: str
    start: int
    end: int


@frozen
class LongSentence:
    """A sentence of more words than the limit."""

    text: str
    start: int
    end: int
    words: int


# Addresses are not words to read; masking keeps every offset.
_ADDRESS = re.compile(
    r"(?:https?://|www\.|mailto:|tel:)[^\s)>\]]+|[\w.+-]{1,64}@[\w-]{1,63}\.[\w.]{2,63}"
)
# Letters and digits, each with the accents that may follow it as signs of their own.
_RUN = r"(?:[^\W_][\u0300-\u036f]*)+"
_WORD = re.compile(
    rf"""
    (?:[^\W\d_]\.){{2,}}(?:[^\W\d_]\b)?       # e.g.  a.m.  p.m
  | {_RUN}(?:                                 # knee, then as long as a letter or digit follows
        (?:['’\-‐‑‒–]|(?<=\d)[.,](?=\d))     # apostrophe, hyphen, range; 2.5 and 1,000
        {_RUN}
    )*
    """,
    re.VERBOSE,
)
_LINE = re.compile(r"[^\r\n\u2028\u2029]+")
_BULLET = re.compile(r"\s*(?:[-*+•–—>#☐]+\s+|\(?\d{1,3}[.)]\s+|\(?[a-zA-Z]\)\s+)+")
_STOP = re.compile(r"(?<![.!?…])[.!?…]+[\"'”’)\]*_»]*(?=\s|$)|[。！？।؟]+")
_ENDED = re.compile(r"[.!?…:;。！？।؟][\"'”’)\]*_»]*\s*$")
_LAST_TOKEN = re.compile(r"\S+$")

# End no sentence before a word in lower case or a number.
_SHORTENED = """
    e.g eg i.e ie etc approx vs cf no nos fig figs min mins sec secs hr hrs wk wks rep reps
    max ca al incl excl ext tel st a.m p.m am pm kg cm mm ft in lb lbs deg vol
"""
# End no sentence at all: a name or an example follows.
_BEFORE_NAMES = "dr mr mrs ms mx prof st rev sr jr e.g eg i.e ie vs cf fig figs approx"
_ABBREVIATIONS = frozenset(_SHORTENED.split())
_LEADS_ON = frozenset(_BEFORE_NAMES.split())
_LOOK_AHEAD = 32


# Several checks read the same text one after another.
@lru_cache(maxsize=4096)
def words(text: str) -> tuple[Piece, ...]:
    """The words of a text in order.

    A hyphenated word, a number with its decimals, a range (8–12) and initials
    with stops (e.g.) are one word each; web and mail addresses are none.
    """
    return tuple(
        Piece(found.group(), found.start(), found.end())
        for found in _WORD.finditer(_without_addresses(text))
    )


@lru_cache(maxsize=1024)
def sentences(text: str) -> tuple[Piece, ...]:
    """The sentences of a text that hold a word, without list marks or outer blanks."""
    return tuple(
        Piece(text[start:end], start, end)
        for start, end in _spans(text)
        if _WORD.search(_without_addresses(text[start:end]))
    )


def long_sentences(
    text: str, language: str, limit: int = LONGEST_SENTENCE
) -> tuple[LongSentence, ...] | NotForLanguage:
    """Sentences of more than ``limit`` words; English only."""
    if not is_english(language):
        return NotForLanguage(language)
    counted = ((piece, len(words(piece.text))) for piece in sentences(text))
    return tuple(
        LongSentence(piece.text, piece.start, piece.end, count)
        for piece, count in counted
        if count > limit
    )


def _without_addresses(text: str) -> str:
    if "@" not in text and "/" not in text and "www" not in text and "tel:" not in text:
        return text
    return _ADDRESS.sub(lambda found: " " * len(found.group()), text)


def _spans(text: str) -> Iterator[tuple[int, int]]:
    for start, end in _blocks(text):
        mark = _BULLET.match(text, start, end)
        yield from _within_block(text, mark.end() if mark else start, end)


def _blocks(text: str) -> Iterator[tuple[int, int]]:
    """Lines, each joined with the next while it plainly runs on."""
    open_start: int | None = None
    last_end = 0
    for line in _LINE.finditer(text):
        if open_start is not None and not _runs_on(text, open_start, last_end, line):
            yield open_start, last_end
            open_start = None
        if open_start is None:
            open_start = line.start()
        last_end = line.end()
    if open_start is not None:
        yield open_start, last_end


def _runs_on(text: str, start: int, end: int, line: re.Match[str]) -> bool:
    """A wrapped line: one line break, no closing mark before it, lower case after it."""
    gap = text[end : line.start()]
    if gap not in {"\n", "\r\n", "\r"} or _ENDED.search(text, max(start, end - 8), end):
        return False
    follower = line.group().lstrip()
    return follower[:1].islower() and not _BULLET.match(line.group())


def _within_block(text: str, start: int, end: int) -> Iterator[tuple[int, int]]:
    begin = start
    for stop in _STOP.finditer(text, start, end):
        if _ends_sentence(text, begin, stop, end):
            yield _trimmed(text, begin, stop.end())
            begin = stop.end()
    yield _trimmed(text, begin, end)


def _ends_sentence(text: str, begin: int, stop: re.Match[str], end: int) -> bool:
    following = text[stop.end() : min(end, stop.end() + _LOOK_AHEAD)]
    if not stop.group().startswith(".") or stop.group().startswith(".."):
        return not following.lstrip()[:1].islower()
    rest = following.lstrip(" \t\"'“‘([*_«")
    if not rest:
        return True
    before = _LAST_TOKEN.search(text[max(begin, stop.start() - 12) : stop.start()])
    last = before.group().lstrip("([\"'“‘*_").lower() if before else ""
    if last in _LEADS_ON or (len(last) == 1 and last.isalpha() and last != "i"):
        return False
    return not (last in _ABBREVIATIONS and (rest[0].islower() or rest[0].isdigit()))


def _trimmed(text: str, start: int, end: int) -> tuple[int, int]:
    piece = text[start:end]
    lead = len(piece) - len(piece.lstrip())
    return start + lead, start + max(lead, len(piece.rstrip()))
