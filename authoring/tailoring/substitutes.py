"""Other cards of the same purpose, where no variant of the card itself can be used."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence

from authoring.model.base import evolve
from authoring.model.card import Card, Variant
from authoring.model.pain import PainRule
from authoring.model.vocabulary import Mode
from authoring.tailoring.candidates import Candidate, exclusions, start_of
from authoring.tailoring.cautioned import plain
from authoring.tailoring.pain import STOPS, PainFound, pain_of, worst_pain
from authoring.tailoring.place import Place
from authoring.tailoring.reasons import why
from authoring.tailoring.rules import Rules

FIRST_RANK = 1000
"""Rank of the first substitute: behind every variant of the card itself."""


def substitutes(
    place: Place,
    cards: Iterable[Card],
    used: Collection[str],
    rules: Sequence[Rules],
    clinic_rule: PainRule | None,
) -> Iterator[Candidate]:
    """Variants of other cards, the nearest first: most shared purposes, then rung 0 downwards.

    Only cards that share a purpose and, where both name regions, a region. No harder rung than
    the card is named after, and no hold in place of movement.

    Args:
        used: ids of cards that the plan has already.
    """
    start = start_of(place)
    for card in _near(place.card, cards, used):
        pain = _worst(evolve(place, card=card), rules, clinic_rule)
        if pain.action in STOPS:
            continue
        for variant in sorted(card.variants, key=lambda v: -v.rung):
            if variant.rung > 0 or _is_odd_hold(variant, start):
                continue
            if not exclusions(place, card, variant, variant.dose, rules, pain):
                name = plain(card.title, card.language)
                text = f"“{name}” instead, a card of the same purpose: nothing else can be used."
                reason = why("same-purpose", text)
                yield Candidate(card, variant, variant.dose, FIRST_RANK, (reason,))


def _near(own: Card, cards: Iterable[Card], used: Collection[str]) -> list[Card]:
    purposes, regions = set(own.purposes), set(own.regions)
    found = [
        card
        for card in cards
        if card.id != own.id
        and card.id not in used
        and purposes & set(card.purposes)
        and (not regions or not card.regions or regions & set(card.regions))
    ]
    return sorted(found, key=lambda card: (-len(purposes & set(card.purposes)), card.slug, card.id))


def _worst(place: Place, rules: Sequence[Rules], clinic_rule: PainRule | None) -> PainFound:
    found = [pain_of(place, each.facts, clinic_rule) for each in rules]
    return worst_pain(found)


def _is_odd_hold(variant: Variant, start: Variant | None) -> bool:
    return variant.mode is Mode.ISOMETRIC and start is not None and start.mode is not Mode.ISOMETRIC
