"""Cautions that apply to a variant, and conditions that no caution speaks of."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from authoring.model.card import Card, Variant
from authoring.model.caution import Caution
from authoring.model.plan import NotCovered
from authoring.model.protocol import Protocol
from authoring.model.text import Text
from authoring.model.vocabulary import CautionKind, TermKind
from authoring.tailoring.facts import Facts
from authoring.tailoring.place import Place
from authoring.tailoring.terms import Terms


def plain(text: Text, language: str) -> str:
    """Words of a text in its file's own language."""
    return text.best(language, language).strip()


def cautions_on(place: Place, card: Card, variant: Variant) -> Iterator[tuple[Caution, str]]:
    """Cautions that may concern a variant here, each with the language of its file."""
    for caution in (*variant.cautions, *card.cautions):
        yield caution, card.language
    protocol = place.protocol
    if protocol is None:
        return
    for caution in protocol.cautions:
        stage = place.stage.id if place.stage is not None else ""
        if not caution.stages or stage in caution.stages:
            yield caution, protocol.language


def applies(caution: Caution, variant: Variant, facts: Facts, terms: Terms) -> bool:
    """Whether a caution applies: its conditions are met and its demands are made.

    A wider condition or demand covers a narrower one. None named means any.
    """
    if caution.conditions and not facts.conditions & set(caution.conditions):
        return False
    if not caution.demands:
        return True
    return bool(terms.all_wider(TermKind.DEMAND, variant.demands) & set(caution.demands))


def applying(
    kind: CautionKind, place: Place, card: Card, variant: Variant, facts: Facts, terms: Terms
) -> Iterator[tuple[Caution, str]]:
    """Cautions of one kind that apply to a variant here, each with its language."""
    for caution, language in cautions_on(place, card, variant):
        if caution.kind is kind and applies(caution, variant, facts, terms):
            yield caution, language


def not_covered(
    facts: Facts, terms: Terms, protocols: Iterable[Protocol], cards: Iterable[Card]
) -> tuple[NotCovered, ...]:
    """Conditions of the patient that nothing in the plan's protocols and cards speaks of.

    A condition is covered where a protocol is for it or excludes it, or a caution names it or
    a wider one. A condition in free text that no term covers never is.
    """
    spoken: set[str] = set()
    for protocol in protocols:
        spoken.update(protocol.conditions, protocol.excluded)
        spoken.update(c for caution in protocol.cautions for c in caution.conditions)
    for card in cards:
        for caution in (*card.cautions, *(c for v in card.variants for c in v.cautions)):
            spoken.update(caution.conditions)
    unknown = [
        NotCovered(condition=condition)
        for condition in facts.presentation.conditions
        if not terms.wider(TermKind.CONDITION, condition) & spoken
    ]
    free = [NotCovered(words=words) for words in facts.presentation.unmapped_conditions]
    return (*unknown, *free)
