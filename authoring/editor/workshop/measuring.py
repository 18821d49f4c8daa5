"""What is found out about a card on a thread. No widgets here."""

from __future__ import annotations

from attrs import frozen

from authoring.editor.workers import Token
from authoring.editor.workshop.ladder_load import Weighed, weigh
from authoring.editor.workshop.reading import CardReading, read
from authoring.editor.workshop.where import Reach, reach
from authoring.model.library import Library


@frozen
class Question:
    """A card and one of its variants in a library, and the library on the disk."""

    library: Library
    saved: Library
    card: str
    variant: str


@frozen
class Measured:
    """How a card reads, what it touches, and its ladder by load."""

    card: str
    variant: str
    reading: CardReading
    reach: Reach
    weighed: Weighed


def measure(question: Question, token: Token) -> Measured:
    """The answer to a question; stops where it is not wanted any more."""
    card = question.library.cards[question.card]
    known = frozenset(word.lower() for word in question.library.manifest.clinic_words)
    reading = read(card, question.variant, known)
    token.check()
    found = reach(question.library, question.saved, question.card, question.variant)
    token.check()
    weighed = weigh(question.library, card)
    return Measured(question.card, question.variant, reading, found, weighed)
