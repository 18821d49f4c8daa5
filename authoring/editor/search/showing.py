"""Where the words of a query stand in a noun, for showing them marked."""

from __future__ import annotations

import re
from collections.abc import Sequence

from attrs import frozen

from authoring.editor.search.index import Wanted, folded
from authoring.editor.search.pieces import Noun, Part, Piece, Terms, pieces
from authoring.model.edits.tree import path_text

Span = tuple[int, int]
_WORD = re.compile(r"[^\W_]+")
_BEFORE = 24


@frozen
class Shown:
    """The words of a noun that tell best why it was found.

    Attributes:
        part: what they are.
        words: the words, cut to an excerpt.
        marks: characters from and up to which match.
        path: where they stand, "" for the title.
    """

    part: Part
    words: str
    marks: tuple[Span, ...]
    path: str


def spans(words: str, wanted: Sequence[Wanted]) -> tuple[Span, ...]:
    """The characters that match a query: beginnings of words, or whole words."""
    found = []
    for hit in _WORD.finditer(words):
        token = folded(hit[0])
        size = max((_fit(token, hit[0], one) for one in wanted), default=0)
        if size:
            found.append((hit.start(), hit.start() + size))
    return tuple(found)


def _fit(token: str, written: str, wanted: Wanted) -> int:
    if wanted.begins and token.startswith(wanted.word):
        return len(wanted.word) if len(token) == len(written) else len(written)
    return len(written) if token in wanted.others else 0


def _covers(words: str, wanted: Sequence[Wanted]) -> int:
    """How many words of the query stand in some words."""
    tokens = [(folded(hit[0]), hit[0]) for hit in _WORD.finditer(words)]
    return sum(any(_fit(token, written, one) for token, written in tokens) for one in wanted)


def best_piece(noun: Noun, terms: Terms, wanted: Sequence[Wanted]) -> Shown | None:
    """What beside its title tells best why a noun was found; None where its title says it all."""
    if not wanted:
        return None
    best: Piece | None = None
    most = 0
    for piece in pieces(noun, terms):
        covered = _covers(piece.words, wanted)
        if piece.part is Part.TITLE and covered == len(wanted):
            return None
        if piece.part is not Part.TITLE and covered > most:
            best, most = piece, covered
    if best is None:
        return None
    words, marks = excerpt(best.words, spans(best.words, wanted))
    return Shown(best.part, words, marks, path_text(best.path))


def excerpt(words: str, marks: Sequence[Span]) -> tuple[str, tuple[Span, ...]]:
    """Words in one line that begin not far before the first mark."""
    flat = re.sub(r"\s", " ", words)
    first = marks[0][0] if marks else 0
    if first <= _BEFORE:
        return flat, tuple(marks)
    cut = flat.find(" ", first - _BEFORE)
    cut = first if cut < 0 or cut > first else cut + 1
    shift = cut - 2
    return f"… {flat[cut:]}", tuple((start - shift, end - shift) for start, end in marks)
