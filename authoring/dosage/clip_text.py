"""Copied entries, stages and variants as plain text, for pasting into any other program."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from authoring.dosage.phrases import Phrases
from authoring.dosage.words import DoseWords
from authoring.model.card import Card, Variant
from authoring.model.dose import Dose
from authoring.model.edits.clip import Clip
from authoring.model.edits.steps import dose_of
from authoring.model.protocol import Entry
from authoring.model.text import Text
from authoring.model.vocabulary import Sides

_INDENT = "   "


def as_text(clip: Clip, phrases: Phrases) -> str:
    """A clip as lines of text, in the language of the phrases where the words are there.

    A stage is its name, then its numbered exercises; an exercise its card, the variant it
    starts with and its dose in words; a variant its name, dose and numbered steps.
    """
    return "\n".join(_lines(clip, phrases)).strip() + "\n"


def _lines(clip: Clip, phrases: Phrases) -> Iterator[str]:
    cards = {card.id: card for card in clip.cards}
    number = 0
    for stage in clip.stages:
        yield from ("", _said(stage.name, clip.language, phrases), "")
        for entry in stage.entries():
            number += 1
            yield from _entry(number, entry, clip, cards, phrases)
    for number, entry in enumerate(clip.entries, start=1):
        yield from _entry(number, entry, clip, cards, phrases)
    for variant in clip.variants:
        yield from _variant(variant, clip.language, phrases)


def _said(text: Text, own: str, phrases: Phrases) -> str:
    return text.best(phrases.language, own)


def _entry(
    number: int, entry: Entry, clip: Clip, cards: Mapping[str, Card], phrases: Phrases
) -> Iterator[str]:
    card = cards.get(entry.card)
    yield f"{number}. {_title(entry, card, phrases)}"
    dose = dose_of(entry, card)
    if dose is not None:
        own = clip.language if dose is entry.dose or card is None else card.language
        yield from _dose(dose, own, phrases, entry.sides)
    if entry.note is not None:
        yield _INDENT + _said(entry.note, clip.language, phrases)


def _title(entry: Entry, card: Card | None, phrases: Phrases) -> str:
    if card is None:
        return entry.id
    title = _said(card.title, card.language, phrases)
    variant = card.variant(entry.start)
    name = _said(variant.name, card.language, phrases) if variant is not None else entry.start
    return title if name == title else f"{title}: {name}"


def _dose(dose: Dose, own: str, phrases: Phrases, sides: Sides | None = None) -> Iterator[str]:
    words = DoseWords(phrases, own)
    yield _INDENT + words.headline(dose)
    yield from (_INDENT + sentence for sentence in words.details(dose, sides))
    yield from (f"{_INDENT}{label}: {line}" for label, line in words.weeks(dose))


def _variant(variant: Variant, own: str, phrases: Phrases) -> Iterator[str]:
    yield from ("", _said(variant.name, own, phrases))
    if variant.dose is not None:
        yield from _dose(variant.dose, own, phrases)
    if variant.start is not None:
        yield _INDENT + _said(variant.start, own, phrases)
    for number, step in enumerate(variant.steps, start=1):
        yield f"{_INDENT}{number}. {_said(step, own, phrases)}"
