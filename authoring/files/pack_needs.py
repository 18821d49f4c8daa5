"""What protocols need to go elsewhere: cards, poses and pictures, and whether they close up."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from authoring.model.card import Card, Picture
from authoring.model.library import Term
from authoring.model.protocol import Protocol
from authoring.model.sentence import Sentence, say


def card_ids(protocols: Iterable[Protocol]) -> tuple[str, ...]:
    """Ids of the cards that protocols place, each once, in order."""
    return tuple(dict.fromkeys(e.card for protocol in protocols for e in protocol.entries()))


def pictures(cards: Iterable[Card]) -> Iterator[Picture]:
    """Every picture of every card."""
    for card in cards:
        for variant in card.variants:
            yield from variant.pictures


def image_names(cards: Iterable[Card]) -> tuple[str, ...]:
    """Names of the photos that cards show, each once, in order of name."""
    return tuple(sorted({each.image for each in pictures(cards) if each.image}))


def pose_slugs(cards: Iterable[Card]) -> tuple[str, ...]:
    """Names of the poses that cards show, each once, in order of name."""
    return tuple(sorted({each.pose for each in pictures(cards) if each.pose}))


def circle(protocols: Iterable[Protocol], terms: Iterable[Term]) -> Sentence | None:
    """A chain that comes back to its start, None where there is none."""
    for protocol in protocols:
        before = {e.id: e.builds_on for e in protocol.entries() if e.builds_on}
        found = _circle(before)
        if found:
            return say("the exercise {name} builds on itself in a circle", name=found)
    wider = {
        f"{term.kind}/{term.id}": f"{term.kind}/{term.broader}" for term in terms if term.broader
    }
    found = _circle(wider)
    return say("the term {name} is wider than itself", name=found) if found else None


def _circle(after: Mapping[str, str]) -> str:
    """A key whose chain returns to it, or ""; every key is passed at most twice."""
    done: set[str] = set()
    for start in after:
        seen: set[str] = set()
        at: str | None = start
        while at is not None and at not in done:
            if at in seen:
                return at
            seen.add(at)
            at = after.get(at)
        done |= seen
    return ""
