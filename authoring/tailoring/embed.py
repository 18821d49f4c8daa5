"""What a plan takes along, so that it prints unchanged without the library."""

from __future__ import annotations

from collections.abc import Iterable

from authoring.checks.walk import walk
from authoring.model.base import Node
from authoring.model.card import Card
from authoring.model.library import Term
from authoring.model.vocabulary import TermKind
from authoring.tailoring.terms import Terms


def terms_used(parts: Iterable[Node], terms: Terms) -> tuple[Term, ...]:
    """Terms that nouns refer to, and all wider ones, in the order of kind and id."""
    keys: set[tuple[TermKind, str]] = set()
    for part in parts:
        for use in walk(part).terms:
            keys.update((use.kind, term) for term in terms.wider(use.kind, use.id))
    found = [terms.by_id[key] for key in keys if key in terms.by_id]
    measures = [term for term in found if term.kind is TermKind.MEASURE]
    for term in measures:  # what testing asks for is looked up in a plan, too
        for kind, ids in ((TermKind.DEMAND, term.demands), (TermKind.MOVEMENT, term.movements)):
            keys.update((kind, wide) for each in ids for wide in terms.wider(kind, each))
    kept = sorted(key for key in keys if key in terms.by_id)
    return tuple(terms.by_id[key] for key in kept)


def cards_by_id(cards: Iterable[Card]) -> tuple[Card, ...]:
    """Each card once, in the order in which they come."""
    return tuple({card.id: card for card in cards}.values())
