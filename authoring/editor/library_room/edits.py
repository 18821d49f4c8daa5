"""Pure edits of the library as a whole. No Qt here."""

from __future__ import annotations

from authoring.editor.i18n import tr
from authoring.editor.search.pieces import Noun
from authoring.model.base import evolve
from authoring.model.card import Card
from authoring.model.edits import library as library_edits
from authoring.model.edits.cards import copied_card, new_card
from authoring.model.edits.protocols import copied_protocol, new_protocol
from authoring.model.library import Library, Term
from authoring.model.protocol import Protocol
from authoring.model.text import Text
from authoring.model.vocabulary import TermKind


def noun_of(library: Library, noun_id: str) -> Noun | None:
    """The card or protocol with this id, or None."""
    return library.cards.get(noun_id) or library.protocols.get(noun_id)


def _put(library: Library, noun: Noun) -> Library:
    if isinstance(noun, Card):
        return library_edits.with_card(library, card=noun)
    return library_edits.with_protocol(library, protocol=noun)


def with_new_card(library: Library, *, card_id: str, title: str) -> Library:
    """The library with a new card of one variant."""
    return _put(
        library,
        new_card(
            card_id=card_id,
            title=Text.plain(title),
            language=library.manifest.language,
            slugs={card.slug for card in library.cards.values()},
        ),
    )


def with_new_protocol(library: Library, *, protocol_id: str, title: str) -> Library:
    """The library with a new draft of one stage."""
    return _put(
        library,
        new_protocol(
            protocol_id=protocol_id,
            title=Text.plain(title),
            language=library.manifest.language,
            slugs={protocol.slug for protocol in library.protocols.values()},
            stages=(Text.plain(tr("Stage 1")),),
        ),
    )


def with_copy(library: Library, *, noun_id: str, copy_id: str) -> Library:
    """The library with a copy of a card or protocol, titled as one in each of its languages."""
    noun = noun_of(library, noun_id)
    if noun is None:
        return library
    title = Text(
        {tag: tr("{title}, copy", title=words) for tag, words in noun.title.values.items()}
    )
    if isinstance(noun, Card):
        slugs = {card.slug for card in library.cards.values()}
        return _put(library, copied_card(noun, card_id=copy_id, title=title, slugs=slugs))
    slugs = {protocol.slug for protocol in library.protocols.values()}
    return _put(library, copied_protocol(noun, protocol_id=copy_id, title=title, slugs=slugs))


def without_noun(library: Library, *, noun_id: str) -> Library:
    """The library without a card or protocol.

    Raises:
        EditError: it is a card that a protocol uses, or there is none of this id.
    """
    if noun_id in library.protocols:
        return library_edits.remove_protocol(library, protocol=noun_id).value
    return library_edits.remove_card(library, card=noun_id).value


# ---- terms ------------------------------------------------------------------------------


def with_edited_term(library: Library, term: Term) -> Library:
    """The library with a term in the place of the one of its kind and id."""
    return library_edits.with_term(library, term=term)


def without_term(library: Library, *, kind: TermKind, term_id: str) -> Library:
    """The library without a term; narrower terms lose their wider one."""
    after = library_edits.without_term(library, kind=kind, term=term_id)
    terms = tuple(
        evolve(term, broader=None) if term.kind is kind and term.broader == term_id else term
        for term in after.manifest.terms
    )
    return evolve(after, manifest=evolve(after.manifest, terms=terms))


def is_protocol(noun: Noun) -> bool:
    """Whether a noun is a protocol."""
    return isinstance(noun, Protocol)
