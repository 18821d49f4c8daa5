"""Whether patients can read a card: its grade, and the words they may not know. No Qt here."""

from __future__ import annotations

import re
from collections.abc import Iterator, Set

from attrs import frozen

from authoring.checks.language import NotForLanguage, is_english
from authoring.checks.patient_text import own_words
from authoring.checks.plain_words import HardWord, hard_words, vague_phrases
from authoring.checks.readability import Reading, TooShort, grade
from authoring.model.card import Card, Variant
from authoring.model.caution import Caution
from authoring.model.text import Text


@frozen
class PlacedWord:
    """A hard word of the card.

    Attributes:
        path: place of its text ("variants[2].steps[0]").
        found: the word and where it stands in the text.
        instead: plain words that can take its place as they are, "" where none are known.
    """

    path: str
    found: HardWord
    instead: str


@frozen
class CardReading:
    """What is known about the reading of a card and of one variant of it.

    Attributes:
        language: the card's own, which is measured.
        variant, card: the grades; ``variant`` is None where none is chosen.
        words: hard words of the variant, in the order of its fields.
        others: how many the rest of the card has.
    """

    language: str
    variant: Reading | None
    card: Reading
    words: tuple[PlacedWord, ...]
    others: int


Placed = tuple[str, Text]


def variant_texts(variant: Variant, path: str) -> Iterator[Placed]:
    """Running text of a variant that prints for patients, each with its place.

    Names and picture descriptions are labels, not sentences.
    """
    if variant.start is not None:
        yield f"{path}.start", variant.start
    for name in ("steps", "cues"):
        for index, text in enumerate(getattr(variant, name)):
            yield f"{path}.{name}[{index}]", text
    for name in ("breathing", "in_short"):
        text = getattr(variant, name)
        if text is not None:
            yield f"{path}.{name}", text
    if variant.hold is not None:
        for name in ("where", "against"):
            text = getattr(variant.hold, name)
            if text is not None:
                yield f"{path}.hold.{name}", text
    yield from _caution_texts(variant.cautions, f"{path}.cautions")


def card_texts(card: Card) -> Iterator[Placed]:
    """Running text that all variants share."""
    if card.purpose is not None:
        yield "purpose", card.purpose
    yield from _caution_texts(card.cautions, "cautions")


def _caution_texts(cautions: tuple[Caution, ...], path: str) -> Iterator[Placed]:
    for index, caution in enumerate(cautions):
        yield f"{path}[{index}].text", caution.text
        if caution.how is not None:
            yield f"{path}[{index}].how", caution.how


_OPENINGS = re.compile(r"\s*,\s*or\s+|\s+\(")


def instead_of(found: HardWord) -> str:
    """Plain words that can stand where the hard ones stood, the first of several; else ""."""
    suggestion = found.suggestion or ""
    return _OPENINGS.split(suggestion)[0].strip()


def words_of_text(words: str, language: str, known: Set[str] = frozenset()) -> tuple[HardWord, ...]:
    """Hard words and vague phrases of a text, in order; none in other languages than English."""
    hard = hard_words(words, language, known)
    vague = vague_phrases(words, language)
    if isinstance(hard, NotForLanguage) or isinstance(vague, NotForLanguage):
        return ()
    taken = {place for one in vague for place in range(one.start, one.end)}
    kept = [one for one in hard if one.start not in taken]
    return tuple(sorted([*kept, *vague], key=lambda one: one.start))


def read(card: Card, variant_id: str, known: Set[str] = frozenset()) -> CardReading:
    """Measure a card and one of its variants in the card's own language.

    Args:
        variant_id: the variant being written, "" for none.
        known: words of the clinic that patients know, in lower case.
    """
    language = card.language
    places = {variant.id: f"variants[{i}]" for i, variant in enumerate(card.variants)}
    by_variant = {v.id: list(variant_texts(v, places[v.id])) for v in card.variants}
    shared = list(card_texts(card))
    mine = by_variant.get(variant_id)
    whole = [*shared, *(placed for texts in by_variant.values() for placed in texts)]
    words = tuple(_hard(mine or (), language, known))
    return CardReading(
        language=language,
        variant=None if mine is None else _grade(mine, language),
        card=_grade(whole, language),
        words=words,
        others=len(tuple(_hard(whole, language, known))) - len(words),
    )


def _grade(texts: list[Placed], language: str) -> Reading:
    # Variants share many sentences: each counts once, as on a handout.
    distinct = dict.fromkeys(own_words(text, language) for _, text in texts)
    return grade(distinct, language)


def _hard(texts: list[Placed] | tuple[()], language: str, known: Set[str]) -> Iterator[PlacedWord]:
    if not is_english(language):
        return
    for path, text in texts:
        for found in words_of_text(own_words(text, language), language, known):
            yield PlacedWord(path, found, instead_of(found))


def missing_words(reading: Reading) -> int:
    """How many words a text has where it is too short to be graded; 0 where it is graded."""
    return reading.counts.words if isinstance(reading, TooShort) else 0
