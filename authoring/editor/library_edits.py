"""Pure edits of a whole library: each gives a new value. No Qt here."""

from __future__ import annotations

from collections.abc import Iterable

from authoring.model.base import evolve
from authoring.model.card import Card
from authoring.model.clinic import Clinic
from authoring.model.edits.protocols import reopened_if_changed
from authoring.model.library import Library, LibraryFile, Term
from authoring.model.pose import Pose
from authoring.model.protocol import Protocol


def with_card(library: Library, card: Card) -> Library:
    """The library with a card added, or put in the place of the one with its id."""
    return evolve(library, cards={**library.cards, card.id: card})


def without_card(library: Library, card_id: str) -> Library:
    """The library without a card; the same where it has none of this id."""
    kept = {key: card for key, card in library.cards.items() if key != card_id}
    return evolve(library, cards=kept)


def with_protocol(library: Library, protocol: Protocol) -> Library:
    """The library with a protocol added, or put in the place of the one with its id."""
    return evolve(library, protocols={**library.protocols, protocol.id: protocol})


def without_protocol(library: Library, protocol_id: str) -> Library:
    """The library without a protocol; the same where it has none of this id."""
    kept = {key: one for key, one in library.protocols.items() if key != protocol_id}
    return evolve(library, protocols=kept)


def with_pose(library: Library, pose: Pose) -> Library:
    """The library with a pose added, or put in the place of the one with its id."""
    return evolve(library, poses={**library.poses, pose.id: pose})


def with_clinic(library: Library, clinic: Clinic) -> Library:
    """The library with another clinic record."""
    return evolve(library, clinic=clinic)


def with_manifest(library: Library, manifest: LibraryFile) -> Library:
    """The library with another manifest (terms, name)."""
    return evolve(library, manifest=manifest)


def with_term(library: Library, term: Term) -> Library:
    """The library with a term added, or put in the place of the one of its kind and id."""
    terms = library.manifest.terms
    same = [(old.kind, old.id) == (term.kind, term.id) for old in terms]
    if any(same):
        new = tuple(term if matches else old for old, matches in zip(terms, same, strict=True))
    else:
        new = (*terms, term)
    return with_manifest(library, evolve(library.manifest, terms=new))


def with_images(library: Library, names: Iterable[str]) -> Library:
    """The library whose images folder also holds files of these names."""
    return evolve(library, images=library.images | frozenset(names))


def uses_of(library: Library, card_id: str) -> tuple[Protocol, ...]:
    """The protocols with an entry that names this card."""
    return tuple(
        protocol
        for protocol in library.protocols.values()
        if any(entry.card == card_id for entry in protocol.entries())
    )


def with_reopened(before: Library, after: Library) -> tuple[Library, tuple[Protocol, ...]]:
    """The library after an edit, every approved protocol that it changed a draft again.

    Returns:
        The library, and the drafts.
    """
    drafts = []
    for key, protocol in after.protocols.items():
        was = before.protocols.get(key)
        if was is not None and was is not protocol:
            settled = reopened_if_changed(was, protocol).value
            if settled is not protocol:
                drafts.append(settled)
    if not drafts:
        return after, ()
    changed = {draft.id: draft for draft in drafts}
    return evolve(after, protocols={**after.protocols, **changed}), tuple(drafts)
