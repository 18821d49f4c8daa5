"""Edits of a whole library: its cards, protocols and terms, and what they ask of each other."""

from __future__ import annotations

from authoring.model.base import evolve
from authoring.model.card import Card
from authoring.model.clinic import Clinic
from authoring.model.edits import variants as ladder_edits
from authoring.model.edits.ladder import title_of, variant_of
from authoring.model.edits.naming import fresh_id
from authoring.model.edits.outcome import Edited, note, refuse
from authoring.model.edits.places import entry_of
from authoring.model.edits.settling import mapped_entries
from authoring.model.edits.starts import set_start
from authoring.model.edits.uses import DOSES, NAMING, Use, uses, where_used
from authoring.model.library import Library, Term
from authoring.model.protocol import Protocol
from authoring.model.vocabulary import TermKind


def with_card(library: Library, *, card: Card) -> Library:
    """The library with a card added, or put in the place of the one with its id."""
    return evolve(library, cards={**library.cards, card.id: card})


def with_protocol(library: Library, *, protocol: Protocol) -> Library:
    """The library with a protocol added, or put in the place of the one with its id."""
    return evolve(library, protocols={**library.protocols, protocol.id: protocol})


def with_clinic(library: Library, *, clinic: Clinic) -> Library:
    """The library with another clinic record."""
    return evolve(library, clinic=clinic)


def with_term(library: Library, *, term: Term) -> Library:
    """The library with a term added, or put in the place of the one of its kind and id."""
    manifest = library.manifest
    kept = [old for old in manifest.terms if (old.kind, old.id) != (term.kind, term.id)]
    if len(kept) == len(manifest.terms):
        terms: tuple[Term, ...] = (*kept, term)
    else:
        terms = tuple(
            term if (old.kind, old.id) == (term.kind, term.id) else old for old in manifest.terms
        )
    return evolve(library, manifest=evolve(manifest, terms=terms))


def without_term(library: Library, *, kind: TermKind, term: str) -> Library:
    """The library without a term; what refers to it keeps its id, and checks say so."""
    manifest = library.manifest
    kept = tuple(old for old in manifest.terms if (old.kind, old.id) != (kind, term))
    return evolve(library, manifest=evolve(manifest, terms=kept))


def free_slug(library: Library, wanted: str, *, of: str) -> str:
    """A slug for the card or protocol ``of`` that no other of the library has."""
    nouns: list[Card | Protocol] = [*library.cards.values(), *library.protocols.values()]
    return fresh_id(wanted, taken={noun.slug for noun in nouns if noun.id != of})


def remove_card(library: Library, *, card: str) -> Edited[Library]:
    """Take a card out of the library.

    Raises:
        EditError: there is no such card, or a protocol uses it.
    """
    old = _card(library, card)
    used = where_used(library, card)
    if used:
        raise refuse(
            "{card} is used in {protocol}, exercise {number}: put another card there first.",
            card=title_of(old),
            protocol=_title(used[0].protocol),
            number=used[0].number,
        )
    return Edited(
        evolve(library, cards={key: one for key, one in library.cards.items() if key != card})
    )


def _card(library: Library, card: str) -> Card:
    if card not in library.cards:
        raise refuse("The library has no card “{id}”.", id=card)
    return library.cards[card]


def _title(protocol: Protocol) -> str:
    return protocol.title.best(protocol.language, protocol.language)


def remove_protocol(library: Library, *, protocol: str) -> Edited[Library]:
    """Take a protocol out of the library.

    Raises:
        EditError: there is no such protocol.
    """
    if protocol not in library.protocols:
        raise refuse("The library has no protocol “{id}”.", id=protocol)
    kept = {key: one for key, one in library.protocols.items() if key != protocol}
    lost = [
        note(
            "A branch of {protocol} led to the protocol that is gone.",
            about=branch.id,
            protocol=_title(one),
        )
        for one in kept.values()
        for stage in one.stages
        for branch in stage.branches
        if branch.protocol == protocol
    ]
    return Edited(evolve(library, protocols=kept), (), tuple(lost))


def remove_variant(
    library: Library, *, card: str, variant: str, instead: str | None = None
) -> Edited[Library]:
    """Take a variant out of a card and out of the entries that name it.

    Args:
        instead: variant to start with where entries start with this one.

    Raises:
        EditError: entries start with it and ``instead`` is not given, or no such variant.
    """
    old = _card(library, card)
    variant_of(old, variant)
    if instead is not None and instead == variant:
        raise refuse("Choose another variant to put in its place.")
    if instead is not None:
        variant_of(old, instead)
    found = uses(library, card, variant)
    starting = [use for use in found if "start" in use.fields]
    if starting and instead is None:
        raise refuse(
            "{protocol}, exercise {number} starts with this variant: "
            "choose one to put in its place.",
            protocol=_title(starting[0].protocol),
            number=starting[0].number,
        )
    edited = ladder_edits.remove_variant(old, variant=variant)
    after = with_card(library, card=edited.value)
    notes = list(edited.notes)
    for use in found:
        protocol = after.protocols[use.protocol.id]
        changed = _unnamed(protocol, use, old, variant, instead)
        after = with_protocol(after, protocol=changed.value)
        notes += changed.notes
    return Edited(after, (), tuple(notes))


def _unnamed(
    protocol: Protocol, use: Use, card: Card, variant: str, instead: str | None
) -> Edited[Protocol]:
    """A protocol whose entry no longer names a variant."""
    notes = [
        note(
            "{protocol}, exercise {number} no longer names the variant.",
            about=use.entry.id,
            protocol=_title(protocol),
            number=use.number,
        )
    ]
    if "start" in use.fields and instead is not None:
        started = set_start(protocol, entry=use.entry.id, card=card, variant=instead)
        protocol, notes = started.value, [*notes, *started.notes]
    entry = entry_of(protocol, use.entry.id)
    lists: dict[str, tuple[str, ...]] = {
        name: tuple(each for each in getattr(entry, name) if each != variant) for name in NAMING[1:]
    }
    if entry.allowed and not lists["allowed"]:  # empty would mean "all"
        lists["allowed"] = (entry.start,)
    changed = evolve(entry, **lists)
    for name in DOSES:
        dose = getattr(entry, name)
        if dose is not None and variant in dose.week_variants():
            changed = evolve(changed, **{name: dose.without_variant(variant)})
    if entry.dose is not None and set(entry.dose_fits) == {variant}:
        changed = evolve(changed, dose=None)
        notes.append(
            note(
                "The dose written for exercise {number} is gone: it fitted no other variant.",
                about=entry.id,
                number=use.number,
            )
        )
    return Edited(mapped_entries(protocol, {entry.id: changed}), (entry.id,), tuple(notes))
