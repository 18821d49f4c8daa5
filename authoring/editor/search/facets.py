"""What cards and protocols can be sorted out by, and the sets of those that have each value.

A set is a whole number whose bits are the places of nouns in the index, so that ten
thousand nouns are counted and cut in microseconds.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping
from enum import StrEnum

from immutabledict import immutabledict

from authoring.editor.search.pieces import Noun
from authoring.model.card import Card
from authoring.model.library import Library

SOON = dt.timedelta(days=60)
"""A review this near is due soon."""


class Facet(StrEnum):
    """By what to sort out, in the order of the screen."""

    KIND = "kind"
    STATUS = "status"
    REVIEW = "review"
    REGION = "region"
    CONDITION = "condition"
    POSITION = "position"
    KIT = "kit"
    MOVEMENT = "movement"
    DEMAND = "demand"


class Review(StrEnum):
    """When the next review of a noun is due."""

    OVERDUE = "overdue"
    SOON = "soon"
    LATER = "later"
    NONE = "none"


CARD, PROTOCOL = "card", "protocol"
Key = tuple[Facet, str]
Chosen = Mapping[Facet, frozenset[str]]


def review_of(due: dt.date | None, today: dt.date) -> Review:
    """When a review is due, seen from a day."""
    if due is None:
        return Review.NONE
    if due < today:
        return Review.OVERDUE
    return Review.SOON if due <= today + SOON else Review.LATER


def conditions_by_card(library: Library) -> dict[str, frozenset[str]]:
    """The conditions of the protocols that use each card."""
    found: dict[str, set[str]] = {}
    for protocol in library.protocols.values():
        for entry in protocol.entries():
            found.setdefault(entry.card, set()).update(protocol.conditions)
    return {card: frozenset(conditions) for card, conditions in found.items()}


def keys_of(noun: Noun, used_for: Iterable[str] = ()) -> frozenset[Key]:
    """The values of a noun, without its review, which depends on the day.

    Args:
        used_for: conditions of the protocols that use a card.
    """
    return frozenset(_keys(noun, used_for))


def _keys(noun: Noun, used_for: Iterable[str]) -> Iterator[Key]:
    yield from ((Facet.REGION, region.value) for region in noun.regions)
    if not isinstance(noun, Card):
        yield Facet.KIND, PROTOCOL
        yield Facet.STATUS, noun.status.value
        yield from ((Facet.CONDITION, condition) for condition in noun.conditions)
        return
    yield Facet.KIND, CARD
    yield from ((Facet.MOVEMENT, movement) for movement in noun.movements)
    yield from ((Facet.CONDITION, condition) for condition in used_for)
    for variant in noun.variants:
        if variant.position:
            yield Facet.POSITION, variant.position
        yield from ((Facet.KIT, need.kit) for need in variant.equipment)
        yield from ((Facet.DEMAND, demand) for demand in variant.demands)


class FacetSets:
    """The sets of places by facet and value."""

    def __init__(self) -> None:
        self.every = 0
        self._sets: dict[Facet, dict[str, int]] = {facet: {} for facet in Facet}
        self._keys: dict[int, frozenset[Key]] = {}
        self._due: dict[int, dt.date | None] = {}
        self._reviews: tuple[dt.date, dict[str, int]] | None = None

    def put(self, place: int, keys: frozenset[Key], due: dt.date | None) -> None:
        """Give the noun at a place its values, in the place of those it had."""
        bit = 1 << place
        self.every |= bit
        for facet, value in self._keys.get(place, frozenset()) - keys:
            self._sets[facet][value] &= ~bit
        for facet, value in keys:
            known = self._sets[facet]
            known[value] = known.get(value, 0) | bit
        self._keys[place] = keys
        if place not in self._due or self._due[place] != due:
            self._due[place] = due
            self._reviews = None

    def drop(self, place: int) -> None:
        """Forget a place."""
        bit = 1 << place
        self.every &= ~bit
        for facet, value in self._keys.pop(place, frozenset()):
            self._sets[facet][value] &= ~bit
        self._due.pop(place, None)
        self._reviews = None

    def fitting(self, chosen: Chosen, today: dt.date, *, without: Facet | None = None) -> int:
        """Places that have one of the chosen values of each facet.

        Args:
            without: a facet whose choice does not count.
        """
        fits = self.every
        for facet, values in chosen.items():
            if values and facet is not without:
                known = self._of(facet, today)
                union = 0
                for value in values:
                    union |= known.get(value, 0)
                fits &= union
        return fits

    def counts(
        self, found: int, chosen: Chosen, today: dt.date
    ) -> Mapping[Facet, Mapping[str, int]]:
        """How many of the found places each value would leave, by facet.

        The choice within a facet does not lower the counts of that facet.
        """
        made: dict[Facet, Mapping[str, int]] = {}
        for facet in Facet:
            fits = found & self.fitting(chosen, today, without=facet)
            counted = {
                value: (places & fits).bit_count()
                for value, places in self._of(facet, today).items()
            }
            kept = chosen.get(facet, frozenset())
            made[facet] = immutabledict({v: n for v, n in counted.items() if n or v in kept})
        return immutabledict(made)

    def _of(self, facet: Facet, today: dt.date) -> Mapping[str, int]:
        if facet is not Facet.REVIEW:
            return self._sets[facet]
        if self._reviews is None or self._reviews[0] != today:
            sets: dict[str, int] = {}
            for place, due in self._due.items():
                value = review_of(due, today).value
                sets[value] = sets.get(value, 0) | 1 << place
            self._reviews = (today, sets)
        return self._reviews[1]
