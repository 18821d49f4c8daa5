"""Edits of the workshop that the model has no edit for. Pure; no Qt here."""

from __future__ import annotations

from authoring.editor.place import value_at, with_value_at
from authoring.model.base import evolve, fields
from authoring.model.card import Card, HoldDetail, Variant
from authoring.model.edits.ladder import counterpart, variant_of
from authoring.model.edits.outcome import EditError, refuse
from authoring.model.edits.variants import place_of
from authoring.model.text import OWN, Text
from authoring.model.vocabulary import Mode


def replaced(card: Card, new: Variant) -> Card:
    """The card with a variant in the place of the one with its id.

    Another rung moves it among the others as if it had been carried there.

    Raises:
        EditError: the card has no such variant.
    """
    index = place_of(card, new.id)
    kept = card.variants
    return evolve(card, variants=(*kept[:index], new, *kept[index + 1 :]))


def with_mode(card: Card, variant_id: str, mode: Mode) -> Card:
    """The card whose variant is another kind of work.

    One that becomes a hold stands in for the moving variant of its rung, or of the nearest; one
    that is a hold no more stands in for none.

    Raises:
        EditError: the card has no such variant.
    """
    old = variant_of(card, variant_id)
    hold = old.hold
    if mode is Mode.ISOMETRIC and hold is None:
        hold = HoldDetail(stands_in_for=_moving_beside(card, old))
    elif mode is not Mode.ISOMETRIC:
        hold = None
    return replaced(card, evolve(old, mode=mode, hold=hold))


def _moving_beside(card: Card, variant: Variant) -> tuple[str, ...]:
    as_hold = evolve(variant, mode=Mode.ISOMETRIC)
    others = tuple(one for one in card.variants if one.id != variant.id)
    try:
        return (counterpart(evolve(card, variants=others), as_hold).id,)
    except EditError:
        return ()


_OWN_FIELDS = ("id", "extra")


def differing(one: Variant, other: Variant) -> tuple[str, ...]:
    """Names of the fields in which two variants differ, in the model's order; ids count not."""
    return tuple(
        field.name
        for field in fields(Variant)
        if field.name not in _OWN_FIELDS
        and _without_ids(getattr(one, field.name)) != _without_ids(getattr(other, field.name))
    )


def _without_ids(value: object) -> object:
    """Cautions of a copy have ids of their own, which is no difference to an author."""
    if isinstance(value, tuple):
        return tuple(_without_ids(item) for item in value)
    return evolve(value, id="x") if hasattr(value, "id") else value


def with_word_changed(card: Card, path: str, old: str, start: int, new: str) -> Card:
    """The card with other words in a text of its own language.

    Args:
        path: place of the text ("variants[2].steps[0]").
        old: the words that go.
        start: where they begin in the text.
        new: the words that come; they take the old ones' capital.

    Raises:
        EditError: the text has changed and no longer holds the words there.
    """
    text = value_at(card, path)
    words = text.to(card.language, card.language) if isinstance(text, Text) else None
    if not isinstance(text, Text) or words is None or words[start : start + len(old)] != old:
        raise refuse("The text has changed; “{old}” is not there any more.", old=old)
    put = new[:1].upper() + new[1:] if old[:1].isupper() else new
    changed = words[:start] + put + words[start + len(old) :]
    tag = OWN if OWN in text.values else _tag(text, words)
    return with_value_at(card, path, Text({**text.values, tag: changed}))


def _tag(text: Text, words: str) -> str:
    return next(tag for tag, value in text.values.items() if value == words)
