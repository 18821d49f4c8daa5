"""What a form needs to know of its surroundings: languages, and what can be picked."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from attrs import frozen

from authoring.checks.result import Subject
from authoring.editor.i18n import tr
from authoring.editor.ids import fresh_id, ids_in
from authoring.editor.library_edits import with_term
from authoring.editor.parts.fields.picks import Create, Option
from authoring.editor.session import Session
from authoring.model.base import IMAGE_NAME, Fact
from authoring.model.card import Card
from authoring.model.clinic import Clinic
from authoring.model.library import Library, LibraryFile, Term
from authoring.model.protocol import Protocol
from authoring.model.text import Text
from authoring.model.vocabulary import TermKind

Root = Card | Protocol | Clinic | LibraryFile | None


@frozen
class FormContext:
    """The file that a form edits a part of.

    Attributes:
        session: the window's.
        subject, subject_id: the file.
    """

    session: Session
    subject: Subject
    subject_id: str = ""

    @classmethod
    def of_card(cls, session: Session, card_id: str) -> FormContext:
        """For a card and everything in it."""
        return cls(session, Subject.CARD, card_id)

    @classmethod
    def of_protocol(cls, session: Session, protocol_id: str) -> FormContext:
        """For a protocol and everything in it."""
        return cls(session, Subject.PROTOCOL, protocol_id)

    @classmethod
    def of_clinic(cls, session: Session) -> FormContext:
        """For the clinic's record."""
        return cls(session, Subject.CLINIC)

    @classmethod
    def of_library(cls, session: Session) -> FormContext:
        """For the library's own record and its terms."""
        return cls(session, Subject.LIBRARY)

    @property
    def library(self) -> Library:
        """The library as it stands."""
        return self.session.library

    def root(self) -> Root:
        """The file as it stands, or None."""
        match self.subject:
            case Subject.CARD:
                return self.library.cards.get(self.subject_id)
            case Subject.PROTOCOL:
                return self.library.protocols.get(self.subject_id)
            case Subject.CLINIC:
                return self.library.clinic
        return self.library.manifest

    @property
    def own(self) -> str:
        """Language of the file's plain strings."""
        root = self.root()
        return root.language if root is not None else self.library.manifest.language

    @property
    def language(self) -> str:
        """Language in which texts are edited; "" for the file's own."""
        return self.session.text_language

    def taken(self) -> frozenset[str]:
        """Inner ids that are taken in the file."""
        return ids_in(self.root())

    # ---- picking ----------------------------------------------------------------

    def picks(self, known: Fact) -> bool:
        """Whether a string field is picked from what the library holds."""
        return bool(known.term or known.points_to or known.pattern == IMAGE_NAME)

    def options(self, known: Fact, draft: Mapping[str, Any]) -> tuple[Option, ...]:
        """What can be picked for a field.

        Args:
            draft: the noun that the field belongs to, by field name: an entry's variants
                are those of its card.
        """
        if known.term:
            return self.terms(TermKind(known.term))
        if known.pattern == IMAGE_NAME:
            return tuple(Option(name, name) for name in sorted(self.library.images))
        finder = _FINDERS.get(known.points_to)
        return () if finder is None else tuple(finder(self, draft))

    def terms(self, kind: TermKind) -> tuple[Option, ...]:
        """The library's terms of a kind, by name."""
        own = self.library.manifest.language
        found = [
            Option(term.id, term.name.best(self.language or own, own), term.also)
            for term in self.library.manifest.terms
            if term.kind is kind
        ]
        return tuple(sorted(found, key=lambda option: option.words.casefold()))

    def creator(self, known: Fact) -> Create | None:
        """Makes a new term for a field that takes terms; None for other fields."""
        if not known.term:
            return None
        kind = TermKind(known.term)
        return lambda words: self.add_term(kind, words)

    def add_term(self, kind: TermKind, words: str) -> str | None:
        """Add a term to the library; its id, or None where it could not be added."""
        taken = {term.id for term in self.library.manifest.terms if term.kind is kind}
        term_id = fresh_id(words, taken, kind.value)
        name = tr("Add the term “{words}”", words=words)
        document = self.session.document
        made = document.edit(
            name,
            lambda library: with_term(library, Term(id=term_id, kind=kind, name=Text.plain(words))),
        )
        return term_id if made else None


def _variants(context: FormContext, draft: Mapping[str, Any]) -> Iterable[Option]:
    root = context.root()
    card = root if isinstance(root, Card) else context.library.cards.get(str(draft.get("card")))
    for variant in card.variants if card is not None else ():
        own = card.language if card is not None else context.own
        yield Option(variant.id, variant.name.best(own, own))


def _entries(context: FormContext, _draft: Mapping[str, Any]) -> Iterable[Option]:
    root = context.root()
    if not isinstance(root, Protocol):
        return
    numbers = root.numbers()
    for entry in root.entries():
        card = context.library.cards.get(entry.card)
        words = card.title.best(root.language, card.language) if card is not None else entry.id
        yield Option(entry.id, f"{numbers[entry.id]}, {words}")


def _choices(context: FormContext, _draft: Mapping[str, Any]) -> Iterable[Option]:
    root = context.root()
    for stage in root.stages if isinstance(root, Protocol) else ():
        for block in stage.blocks:
            for choice in block.choices:
                words = choice.words.best(context.own, context.own) if choice.words else ""
                yield Option(choice.id, words or choice.id)


def _stages(context: FormContext, _draft: Mapping[str, Any]) -> Iterable[Option]:
    root = context.root()
    for index, stage in enumerate(root.stages if isinstance(root, Protocol) else ()):
        yield Option(stage.id, f"{index + 1}, {stage.name.best(context.own, context.own)}")


def _references(context: FormContext, _draft: Mapping[str, Any]) -> Iterable[Option]:
    root = context.root()
    for reference in root.references if isinstance(root, Card | Protocol) else ():
        yield Option(reference.id, reference.citation)


def _cards(context: FormContext, _draft: Mapping[str, Any]) -> Iterable[Option]:
    for card in context.library.cards.values():
        yield Option(card.id, card.title.best(context.own, card.language))


def _protocols(context: FormContext, _draft: Mapping[str, Any]) -> Iterable[Option]:
    for protocol in context.library.protocols.values():
        yield Option(protocol.id, protocol.title.best(context.own, protocol.language))


def _broader(context: FormContext, draft: Mapping[str, Any]) -> Iterable[Option]:
    kind = draft.get("kind")
    if isinstance(kind, TermKind):
        yield from (o for o in context.terms(kind) if o.id != draft.get("id"))


_FINDERS: Mapping[str, Callable[[FormContext, Mapping[str, Any]], Iterable[Option]]] = {
    "variant": _variants,
    "entry": _entries,
    "choice": _choices,
    "stage": _stages,
    "reference": _references,
    "card": _cards,
    "protocol": _protocols,
    "term": _broader,
}
