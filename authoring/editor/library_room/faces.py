"""What one row of the results says. No Qt here."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from attrs import field, frozen

from authoring.editor.i18n import tr
from authoring.editor.library_room.words import due_words, part_words, review_words, said, title_of
from authoring.editor.search.facets import Review, review_of
from authoring.editor.search.index import Wanted
from authoring.editor.search.pieces import Noun, Terms
from authoring.editor.search.showing import Span, best_piece, spans
from authoring.editor.vocabulary_words import words_of
from authoring.model.card import Card
from authoring.model.library import Library
from authoring.model.vocabulary import Status


@frozen
class Line:
    """Words of which some letters are marked."""

    words: str
    marks: tuple[Span, ...] = ()


EMPTY = Line("")


@frozen
class Face:
    """One row.

    Attributes:
        title: the title.
        kind: "Card" or "Protocol".
        lead: what the words below are ("Step"), "" for a summary.
        below: what matched, or a summary.
        regions: parts of the body.
        status: of a protocol; None for a card.
        review: when the next review is due, in words.
        due: the same beside other words, "" for no date.
        is_overdue: whether that day is past.
        path: place of what matched, "" for the whole.
    """

    title: Line
    kind: str
    lead: str
    below: Line
    regions: str
    status: Status | None
    review: str
    due: str
    is_overdue: bool
    path: str = field(default="")

    @property
    def spoken(self) -> str:
        """The row as a screen reader says it."""
        status = words_of(self.status) if self.status is not None else ""
        below = f"{self.lead}: {self.below.words}" if self.lead else self.below.words
        parts = (self.title.words, self.kind, status, below, self.regions, self.review)
        return ". ".join(part.rstrip(".") for part in parts if part)


def face_of(
    noun: Noun, library: Library, terms: Terms, wanted: Sequence[Wanted], today: dt.date
) -> Face:
    """The row of a card or protocol that a query found."""
    shown = best_piece(noun, terms, wanted)
    title = title_of(noun, library)
    if shown is None:
        lead, below, path = "", Line(_summary(noun, library)), ""
    else:
        lead, path = part_words(shown.part, noun, shown.path), shown.path
        below = Line(shown.words, shown.marks)
    return Face(
        title=Line(title, spans(title, wanted)),
        kind=tr("Card") if isinstance(noun, Card) else tr("Protocol"),
        lead=lead,
        below=below,
        regions=", ".join(words_of(region) for region in noun.regions),
        status=None if isinstance(noun, Card) else noun.status,
        review=review_words(noun.review_due, today),
        due=due_words(noun.review_due, today) if noun.review_due else "",
        is_overdue=review_of(noun.review_due, today) is Review.OVERDUE,
        path=path,
    )


def _summary(noun: Noun, library: Library) -> str:
    if isinstance(noun, Card):
        texts = (noun.purpose, noun.trade_name)
    else:
        texts = (noun.for_whom, noun.lead)
    found = (said(text, noun.language, library) for text in texts)
    return " ".join(next((words for words in found if words), "").split())
