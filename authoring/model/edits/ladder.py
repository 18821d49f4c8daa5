"""Walking a card's ladder: where to start, what is harder, what holds instead of moving."""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum

from authoring.model.card import Card, Variant
from authoring.model.edits.outcome import refuse
from authoring.model.vocabulary import Mode


class Way(StrEnum):
    """Which way along the ladder."""

    HARDER = "harder"
    EASIER = "easier"


def is_hold(variant: Variant) -> bool:
    """Whether a variant is held instead of moved."""
    return variant.mode is Mode.ISOMETRIC


def title_of(card: Card) -> str:
    """A card's title in its own language."""
    return card.title.best(card.language, card.language)


def variant_of(card: Card, variant_id: str) -> Variant:
    """The variant with this id; refused where the card has none."""
    found = card.variant(variant_id)
    if found is None:
        raise refuse("{card} has no variant “{id}”.", card=title_of(card), id=variant_id)
    return found


def first_variant(card: Card) -> Variant:
    """The variant to start with where nothing else is known: moving, nearest to rung 0.

    Of two as near, the easier one.

    Raises:
        EditError: the card has no variant.
    """
    if not card.variants:
        raise refuse("{card} has no variant yet: add one first.", card=title_of(card))
    return min(card.variants, key=lambda v: (is_hold(v), abs(v.rung), v.rung > 0))


def next_variant(card: Card, start: Variant, *, way: Way, among: Iterable[Variant]) -> Variant:
    """The first variant on the next rung that has one of the same way to work.

    Holds lead to holds and moving ones to moving ones; on a rung the start's own mode comes
    first, then the author's order.

    Raises:
        EditError: no variant among those is harder (or easier).
    """
    up = 1 if way is Way.HARDER else -1
    further = [v for v in among if is_hold(v) == is_hold(start) and (v.rung - start.rung) * up > 0]
    if further:
        return min(further, key=lambda v: (abs(v.rung - start.rung), v.mode is not start.mode))
    elsewhere = any(
        is_hold(v) == is_hold(start) and (v.rung - start.rung) * up > 0 for v in card.variants
    )
    if way is Way.HARDER:
        if elsewhere:
            raise refuse("No harder variant of {card} is allowed here.", card=title_of(card))
        raise refuse("{card} has no harder variant.", card=title_of(card))
    if elsewhere:
        raise refuse("No easier variant of {card} is allowed here.", card=title_of(card))
    raise refuse("{card} has no easier variant.", card=title_of(card))


def counterpart(card: Card, start: Variant) -> Variant:
    """The hold for a moving variant, or the moving variant for a hold.

    A hold that says what it stands in for goes before one on the same rung, and that before
    one on the nearest rung, the easier of two as near.

    Raises:
        EditError: the card has none.
    """
    wanted = [v for v in card.variants if is_hold(v) != is_hold(start)]
    if not wanted:
        if is_hold(start):
            raise refuse("{card} has no variant that moves.", card=title_of(card))
        raise refuse("{card} has no variant that is held.", card=title_of(card))

    def linked(other: Variant) -> bool:
        hold, moving = (start, other) if is_hold(start) else (other, start)
        return hold.hold is not None and moving.id in hold.hold.stands_in_for

    return min(
        wanted,
        key=lambda v: (not linked(v), abs(v.rung - start.rung), v.rung > start.rung),
    )
