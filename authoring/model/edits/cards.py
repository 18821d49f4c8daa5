"""Edits of a whole card: making one, copying one, and its plain fields."""

from __future__ import annotations

from collections.abc import Collection
from typing import Any

from authoring.model.base import evolve
from authoring.model.card import Card, ForbiddenSetUp
from authoring.model.edits.naming import fresh_id, slug_of_text, with_fresh_ids
from authoring.model.edits.outcome import Edited, refuse
from authoring.model.edits.tree import insert_item, set_fields
from authoring.model.edits.variants import add_variant
from authoring.model.sources import Reference
from authoring.model.text import Text
from authoring.model.vocabulary import Mode


def new_card(
    *,
    card_id: str,
    title: Text,
    language: str,
    slugs: Collection[str],
    mode: Mode = Mode.DYNAMIC,
    **facts: Any,
) -> Card:
    """A card with one variant on rung 0, named as the card.

    Args:
        card_id: a new UUID.
        slugs: slugs of the library's cards; the new one's is unlike them.
        facts: other fields (owner, regions, purposes …).
    """
    slug = fresh_id(slug_of_text(title, otherwise="exercise"), taken=slugs)
    card = Card(id=card_id, slug=slug, language=language, title=title, **facts)
    return add_variant(card, rung=0, mode=mode, name=title).value


def copied_card(card: Card, *, card_id: str, title: Text, slugs: Collection[str]) -> Card:
    """A copy of a card under another id and title; reviews are not copied, they are of the old."""
    slug = fresh_id(slug_of_text(title, otherwise="exercise"), taken=slugs)
    return evolve(card, id=card_id, slug=slug, title=title, last_review=None, review_due=None)


def set_card(card: Card, **changes: Any) -> Edited[Card]:
    """Change fields of a card: title, purpose, regions, faults, owner, review dates …

    Raises:
        EditError: no such field, or one with edits of its own (id, variants, cautions).
        ModelError: a value is outside the limits of its field.
    """
    for name in ("id", "variants", "cautions"):
        if name in changes:
            raise refuse("{field} has an edit of its own.", field=name)
    return Edited(set_fields(card, (), **changes), (card.id,))


def add_forbidden(card: Card, *, set_up: Text, why: Text) -> Edited[Card]:
    """Record a set-up that must not be used."""
    new = with_fresh_ids(
        card,
        ForbiddenSetUp(id=slug_of_text(set_up, otherwise="set-up"), set_up=set_up, why=why),
    )
    return Edited(insert_item(card, ("forbidden",), new), (new.id,))


def add_reference(card: Card, *, reference: Reference) -> Edited[Card]:
    """Add a publication; its id is made fresh if taken."""
    new = with_fresh_ids(card, reference)
    return Edited(insert_item(card, ("references",), new), (new.id,))
