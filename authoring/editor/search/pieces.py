"""What of a card or protocol can be found: its words, each with what it is and where."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from enum import StrEnum

from attrs import frozen

from authoring.model.base import Fact
from authoring.model.card import Card
from authoring.model.edits.tree import Path, leaves
from authoring.model.library import Library, Term
from authoring.model.protocol import Protocol
from authoring.model.text import Text
from authoring.model.vocabulary import TermKind

Noun = Card | Protocol
TermKey = tuple[str, str]
Terms = Mapping[TermKey, Term]


class Part(StrEnum):
    """What words are; most telling first."""

    TITLE = "title"
    ALSO = "also"
    NAME = "name"
    PURPOSE = "purpose"
    TERM = "term"
    STEP = "step"
    CUE = "cue"
    TEXT = "text"
    REFERENCE = "reference"


@frozen
class Piece:
    """Some words of a noun.

    Attributes:
        part: what they are.
        words: the words themselves, in one language.
        path: where they stand.
        term: kind and id of the term they name, or None.
    """

    part: Part
    words: str
    path: Path
    term: TermKey | None = None


TOP: Mapping[str, Part] = {
    "title": Part.TITLE,
    "trade_name": Part.ALSO,
    "patient_title": Part.ALSO,
    "purpose": Part.PURPOSE,
    "lead": Part.PURPOSE,
    "for_whom": Part.PURPOSE,
    "references": Part.REFERENCE,
}
_INNER: Mapping[str, Part] = {"steps": Part.STEP, "cues": Part.CUE}
NO_WORDS = frozenset({"unit", "system", "code", "language", "version", "licence"})


def terms_of(library: Library) -> dict[TermKey, Term]:
    """The library's terms by kind and id."""
    return {(term.kind.value, term.id): term for term in library.manifest.terms}


def pieces(noun: Noun, terms: Terms) -> Iterator[Piece]:
    """All words of a noun in every language, the names and look-alikes of its terms too."""
    for path, known, value in leaves(noun):
        if known.term:
            yield from _term_pieces(path, (known.term, str(value)), terms)
        elif _is_words(path, known):
            part = _part(path)
            for words in value.values.values() if isinstance(value, Text) else (value,):
                if words:
                    yield Piece(part, words, path)


def _is_words(path: Path, known: Fact) -> bool:
    return not (known.pattern or known.points_to or path[-1] in NO_WORDS)


def _term_pieces(path: Path, key: TermKey, terms: Terms) -> Iterator[Piece]:
    term = terms.get(key)
    if term is None:
        yield Piece(Part.TERM, key[1].replace("-", " "), path, key)
        return
    for words in names_of(term):
        yield Piece(Part.TERM, words, path, key)


def names_of(term: Term) -> Iterator[str]:
    """Every name of a term, in every language, and its look-alikes."""
    for text in (term.name, term.patient_name):
        if text is not None:
            yield from text.values.values()
    yield from term.also


def _part(path: Path) -> Part:
    top = TOP.get(str(path[0]))
    if top is not None:
        return top
    if len(path) == 3 and path[2] == "name":
        return Part.NAME
    return _INNER.get(str(path[-2] if len(path) > 1 else ""), Part.TEXT)


def kind_of_term(key: TermKey) -> TermKind:
    """The kind in a term's key."""
    return TermKind(key[0])
