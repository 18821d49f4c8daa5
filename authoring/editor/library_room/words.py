"""What the library room calls things. No Qt here."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

from authoring.editor.i18n import day_words, mark, tr
from authoring.editor.search.facets import CARD, Facet, Review, review_of
from authoring.editor.search.pieces import Noun, Part, Terms
from authoring.editor.vocabulary_words import class_words, field_words, words_of
from authoring.model.base import Node
from authoring.model.card import Card
from authoring.model.edits.tree import Path, get_field, parsed_path
from authoring.model.library import Library
from authoring.model.text import Text
from authoring.model.vocabulary import Region, Status, TermKind

_FACETS: Mapping[Facet, str] = {
    Facet.KIND: mark("Kind"),
    Facet.STATUS: mark("Status"),
    Facet.REVIEW: mark("Review"),
    Facet.REGION: mark("Region"),
    Facet.CONDITION: mark("Condition"),
    Facet.POSITION: mark("Position"),
    Facet.KIT: mark("Kit"),
    Facet.MOVEMENT: mark("Movement"),
    Facet.DEMAND: mark("Demand"),
}
_PARTS: Mapping[Part, str] = {
    Part.ALSO: mark("Also called"),
    Part.NAME: mark("Name inside"),
    Part.PURPOSE: mark("Purpose"),
    Part.TERM: mark("Words and kit"),
    Part.STEP: mark("Step"),
    Part.CUE: mark("Cue"),
    Part.REFERENCE: mark("Reference"),
}
_REVIEWS: Mapping[Review, str] = {
    Review.OVERDUE: mark("Overdue"),
    Review.SOON: mark("Due within 60 days"),
    Review.LATER: mark("Due later"),
    Review.NONE: mark("No date"),
}
_PLAIN_FIELDS = frozenset({"text", "words", "how", "set_up", "finding", "question", "name"})
TERM_KINDS: Mapping[TermKind, tuple[str, str]] = {
    TermKind.CONDITION: (mark("Conditions"), mark("condition")),
    TermKind.KIT: (mark("Kit"), mark("piece of kit")),
    TermKind.POSITION: (mark("Positions"), mark("position")),
    TermKind.MOVEMENT: (mark("Movements"), mark("movement")),
    TermKind.DEMAND: (mark("Demands"), mark("demand")),
    TermKind.MEASURE: (mark("Measures"), mark("measure")),
    TermKind.PURPOSE: (mark("Purposes"), mark("purpose")),
}
"""Kinds of terms in the order of the screen: many, and one."""


def facet_words(facet: Facet) -> str:
    """A filter's name."""
    return tr(_FACETS[facet])


def part_words(part: Part, noun: Noun, path: str) -> str:
    """What some words of a noun are."""
    if part is Part.NAME:
        return tr("Variant") if isinstance(noun, Card) else tr("Stage")
    if part is Part.PURPOSE and not isinstance(noun, Card):
        return tr("Message")
    return field_of(noun, parsed_path(path)) if part is Part.TEXT else tr(_PARTS[part])


def field_of(noun: Node, path: Path) -> str:
    """The field that a path leads to, by its label; the noun it is in where that says more."""
    way = path
    while way and isinstance(way[-1], int):
        way = way[:-1]
    if not way:
        return ""
    name, owner = str(way[-1]), type(get_field(noun, way[:-1]))
    plain = len(way) == 1 or name not in _PLAIN_FIELDS
    return field_words(owner, name) if plain else class_words(owner)


def value_words(facet: Facet, value: str, terms: Terms, language: str) -> str:
    """A filter's value in words."""
    if facet is Facet.KIND:
        return tr("Cards") if value == CARD else tr("Protocols")
    if facet is Facet.STATUS:
        return words_of(Status(value))
    if facet is Facet.REVIEW:
        return tr(_REVIEWS[Review(value)])
    if facet is Facet.REGION:
        return words_of(Region(value))
    term = terms.get((facet.value, value))
    return value.replace("-", " ") if term is None else term.name.best(language, language)


def title_of(noun: Noun, library: Library) -> str:
    """A noun's title in the library's language where it has one."""
    return said(noun.title, noun.language, library) or tr("Untitled")


def said(text: Text | None, own: str, library: Library) -> str:
    """A text in the library's language where it has one; "" for none."""
    return "" if text is None else text.best(library.manifest.language, own).strip()


def due_words(due: dt.date | None, today: dt.date) -> str:
    """When the next review is due, beside the word "Review"."""
    match review_of(due, today):
        case Review.NONE:
            return tr("No date")
        case Review.OVERDUE:
            return tr("Overdue since {date}", date=day_words(due or today))
    return tr("Due {date}", date=day_words(due or today))


def review_words(due: dt.date | None, today: dt.date) -> str:
    """When the next review is due, on its own."""
    match review_of(due, today):
        case Review.NONE:
            return tr("No review date")
        case Review.OVERDUE:
            return tr("Review overdue since {date}", date=day_words(due or today))
    return tr("Review due {date}", date=day_words(due or today))
