"""Edits of what an entry starts with, and of the variants that are allowed there."""

from __future__ import annotations

from authoring.model.base import evolve
from authoring.model.card import Card, Variant
from authoring.model.edits.ladder import (
    Way,
    counterpart,
    first_variant,
    is_hold,
    next_variant,
    title_of,
    variant_of,
)
from authoring.model.edits.outcome import Edited, Note, note, refuse
from authoring.model.edits.places import entry_at, entry_of, with_entry
from authoring.model.protocol import Entry, Protocol


def start_of_new(card: Card, base: Entry | None) -> Variant:
    """Where a new entry starts: as the entry of the same card before it, else near rung 0."""
    if base is not None and base.card == card.id:
        before = card.variant(base.start)
        if before is not None:
            return before
    return first_variant(card)


def allowed_variants(entry: Entry, card: Card) -> tuple[Variant, ...]:
    """The variants an entry allows, in the card's order; all where it names none."""
    if not entry.allowed:
        return card.variants
    wanted = {entry.start, *entry.allowed, *entry.together, *entry.may_hold}
    return tuple(variant for variant in card.variants if variant.id in wanted)


def set_start(protocol: Protocol, *, entry: str, card: Card, variant: str) -> Edited[Protocol]:
    """Let an entry start with another variant of its card.

    The variant becomes allowed. A dose that was written for the old start alone counts for
    the new one where both move or both are held; else it stays with the old one, and the new
    one brings its own.

    Raises:
        EditError: no such entry or variant, or the entry is of another card.
    """
    old = entry_of(protocol, entry)
    _same_card(old, card)
    new = variant_of(card, variant)
    if new.id == old.start:
        return Edited(protocol, (entry,))
    changed, notes = _restarted(protocol, old, card, new)
    return Edited(with_entry(protocol, entry_at(protocol, entry), changed), (entry,), notes)


def _same_card(entry: Entry, card: Card) -> None:
    if entry.card != card.id:
        raise refuse("This exercise is not of the card {card}.", card=title_of(card))


def _restarted(
    protocol: Protocol, old: Entry, card: Card, new: Variant
) -> tuple[Entry, tuple[Note, ...]]:
    notes: list[Note] = []
    number = protocol.numbers()[old.id]
    changed = evolve(old, start=new.id, together=_without(old.together, new.id))
    if old.allowed and new.id not in (*old.allowed, *old.may_hold):
        changed = evolve(changed, allowed=(*old.allowed, new.id))
        notes.append(
            note("Exercise {number} allows this variant now.", about=old.id, number=number)
        )
    if old.dose is not None and new.id not in old.dose_fits:
        was = card.variant(old.start)
        if was is None or is_hold(was) == is_hold(new):
            fits = tuple(new.id if each == old.start else each for each in old.dose_fits)
            fits = fits if new.id in fits or not fits else (*fits, new.id)
            changed = evolve(changed, dose_fits=fits)
            notes.append(
                note(
                    "The dose written for exercise {number} counts for this variant now: "
                    "check that it fits.",
                    about=old.id,
                    number=number,
                )
            )
        else:
            changed = evolve(changed, dose_fits=old.dose_fits or (old.start,))
            notes.append(
                note(
                    "The dose written for exercise {number} stays with the variant before; "
                    "this one has its own.",
                    about=old.id,
                    number=number,
                )
            )
    return changed, tuple(notes)


def _without(ids: tuple[str, ...], gone: str) -> tuple[str, ...]:
    return tuple(each for each in ids if each != gone)


def step_start(protocol: Protocol, *, entry: str, card: Card, way: Way) -> Edited[Protocol]:
    """Let an entry start one rung harder or easier, among the variants it allows.

    Raises:
        EditError: there is none that is harder or easier.
    """
    old = entry_of(protocol, entry)
    _same_card(old, card)
    start = variant_of(card, old.start)
    new = next_variant(card, start, way=way, among=allowed_variants(old, card))
    return set_start(protocol, entry=entry, card=card, variant=new.id)


def switch_hold(protocol: Protocol, *, entry: str, card: Card) -> Edited[Protocol]:
    """Let an entry start with the hold for its moving variant, or the other way round.

    Raises:
        EditError: the card has no counterpart.
    """
    old = entry_of(protocol, entry)
    _same_card(old, card)
    new = counterpart(card, variant_of(card, old.start))
    return set_start(protocol, entry=entry, card=card, variant=new.id)


def set_variants(
    protocol: Protocol,
    *,
    entry: str,
    card: Card,
    allowed: tuple[str, ...] | None = None,
    may_hold: tuple[str, ...] | None = None,
    together: tuple[str, ...] | None = None,
    dose_fits: tuple[str, ...] | None = None,
) -> Edited[Protocol]:
    """Say which variants an entry allows, may hold, does side by side, or fits its dose to.

    Lists that are None stay as they are. Each list is kept in the card's order, except
    ``together``, which is in the order given.

    Raises:
        EditError: the card lacks a variant, one that may be held is no hold, or the start
            is not among the allowed.
    """
    old = entry_of(protocol, entry)
    _same_card(old, card)
    given = {
        "allowed": allowed,
        "may_hold": may_hold,
        "together": together,
        "dose_fits": dose_fits,
    }
    lists = {
        name: _in_order(card, ids) if name != "together" else tuple(dict.fromkeys(ids))
        for name, ids in given.items()
        if ids is not None
    }
    for ids in lists.values():
        for each in ids:
            variant_of(card, each)
    for each in lists.get("may_hold", ()):
        if not is_hold(variant_of(card, each)):
            raise refuse("“{id}” is not a hold.", id=each)
    if lists.get("allowed") and old.start not in lists["allowed"]:
        raise refuse("The variant that the exercise starts with must stay allowed.")
    if old.start in lists.get("together", ()):
        raise refuse("The variant that the exercise starts with is done anyway.")
    changed = evolve(old, **lists)
    return Edited(with_entry(protocol, entry_at(protocol, entry), changed), (entry,))


def _in_order(card: Card, ids: tuple[str, ...]) -> tuple[str, ...]:
    for each in ids:
        variant_of(card, each)
    return tuple(variant.id for variant in card.variants if variant.id in ids)


def change_card(protocol: Protocol, *, entry: str, card: Card) -> Edited[Protocol]:
    """Put another card in an entry's place; its link, choice, priority and note stay.

    The variants and the dose that were written for the old card go.
    """
    old = entry_of(protocol, entry)
    if old.card == card.id:
        return Edited(protocol, (entry,))
    changed = evolve(
        old,
        card=card.id,
        start=first_variant(card).id,
        allowed=(),
        together=(),
        may_hold=(),
        dose=None,
        hold_dose=None,
        dose_fits=(),
    )
    said = note(
        "The variants and dose of exercise {number} start anew.",
        about=entry,
        number=protocol.numbers()[entry],
    )
    place = entry_at(protocol, entry)
    return Edited(with_entry(protocol, place, changed), (entry,), (said,))
