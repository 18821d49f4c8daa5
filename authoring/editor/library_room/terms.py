"""The terms of a library for showing: which fit, and how often each is used. No Qt here."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping

from authoring.editor.ids import fresh_id
from authoring.editor.search.index import folded
from authoring.editor.search.pieces import TermKey, names_of
from authoring.model.base import Node
from authoring.model.edits.tree import leaves
from authoring.model.library import Library, Term
from authoring.model.text import Text
from authoring.model.vocabulary import TermKind


def uses_of_terms(
    library: Library, step: Callable[[], None] = lambda: None
) -> Mapping[TermKey, int]:
    """In how many cards and protocols each term is used, by kind and id.

    Args:
        step: called between two files; may raise to stop.
    """
    found: Counter[TermKey] = Counter()
    nouns: list[Node] = [*library.cards.values(), *library.protocols.values()]
    for noun in nouns:
        step()
        keys = {(known.term, str(value)) for _, known, value in leaves(noun) if known.term}
        found.update(keys)
    return found


def fitting(library: Library, kind: TermKind, words: str) -> tuple[Term, ...]:
    """The terms of a kind that have these words in a name or look-alike, by name."""
    own, wanted = library.manifest.language, folded(words).split()
    found = [term for term in library.manifest.terms if term.kind is kind and _fits(term, wanted)]
    return tuple(sorted(found, key=lambda term: folded(term.name.best(own, own))))


def _fits(term: Term, wanted: list[str]) -> bool:
    names = folded(" ".join(names_of(term))) if wanted else ""
    return all(word in names for word in wanted)


def new_term(library: Library, kind: TermKind, name: str) -> Term:
    """A term of this name, with an id that no other of its kind has."""
    taken = {term.id for term in library.manifest.terms if term.kind is kind}
    return Term(id=fresh_id(name, taken, kind.value), kind=kind, name=Text.plain(name))


def one_line(term: Term, own: str) -> str:
    """What else a term is called, and what it is for."""
    parts = []
    if term.patient_name is not None:
        parts.append(f"“{term.patient_name.best(own, own)}”")
    parts += term.also
    return ", ".join(parts)
