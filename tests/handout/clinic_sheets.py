"""Handouts of the example clinic and of a small invented protocol, made as the command does."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from functools import cache
from typing import TypeVar

from authoring import resources
from authoring.commands.handout import Wish, compose_source, draft_reason
from authoring.commands.source import Source
from authoring.files.library import OpenLibrary, open_library
from authoring.handout.catalogue import load_phrases
from authoring.handout.choices import Layout
from authoring.handout.compose import Options, compose
from authoring.handout.context import Context
from authoring.handout.document import HandoutDocument, PageSize, Part, PrintSize
from authoring.handout.sheet import Sheet, sheet_of_protocol
from authoring.model.base import evolve
from authoring.model.card import Card, Variant
from authoring.model.clinic import Clinic
from authoring.model.protocol import Protocol
from tests.checks.build import CARD, CARD_ID, CLINIC, PROTOCOL, TERMS

EXAMPLE = resources.examples() / "larkfield"
TODAY = dt.date(2026, 3, 2)
_P = TypeVar("_P", bound=Part)


@cache
def example() -> OpenLibrary:
    """The example clinic's library."""
    return open_library(EXAMPLE)


PROTOCOLS: Mapping[str, Protocol] = {
    protocol.slug: protocol for protocol in example().library.protocols.values()
}
CARDS: Mapping[str, Card] = {card.slug: card for card in example().library.cards.values()}
STAGES = [
    (slug, number)
    for slug, protocol in PROTOCOLS.items()
    for number in range(1, len(protocol.stages) + 1)
]


@cache
def printed(
    slug: str,
    stages: tuple[int, ...] = (),
    page: PageSize | None = None,
    size: PrintSize | None = None,
) -> HandoutDocument:
    """The handout of an example protocol or card, in the full layout."""
    source = Source(PROTOCOLS.get(slug) or CARDS[slug], example())
    wish = Wish(stages=stages, page=page, print_size=size, layout=Layout.FULL)
    return compose_source(source, wish, TODAY)[0]


def why_draft(document: Protocol | Card) -> str:
    """Why a protocol or card, put into the example library, would print as a draft."""
    library = example().library
    if isinstance(document, Protocol):
        library = evolve(library, protocols={**library.protocols, document.id: document})
    return draft_reason(Source(document, evolve(example(), library=library)), TODAY)


# ---- a small invented protocol, its pictures left out ---------------------------------------


def _without_pictures(variant: Variant) -> Variant:
    return evolve(variant, pictures=())


SMALL_CARD = evolve(CARD, variants=tuple(map(_without_pictures, CARD.variants)))
SMALL = PROTOCOL


def small_context(clinic: Clinic = CLINIC, language: str = "en") -> Context:
    """Wording for the small protocol."""
    terms = {(term.kind, term.id): term for term in TERMS}
    return Context(load_phrases(language), "en", clinic, terms, {})


def small_sheet(protocol: Protocol = SMALL, card: Card = SMALL_CARD, *stages: int) -> Sheet:
    """The sheet of the small protocol, all stages unless some are named."""
    return sheet_of_protocol(protocol, {CARD_ID: card}, stages)


def small(
    protocol: Protocol = SMALL,
    card: Card = SMALL_CARD,
    *stages: int,
    clinic: Clinic = CLINIC,
) -> HandoutDocument:
    """The handout of the small protocol."""
    return compose(small_sheet(protocol, card, *stages), small_context(clinic), Options())


def parts_of(document: HandoutDocument, kind: type[_P]) -> list[_P]:
    """The parts of one kind, in order."""
    return [part for part in document.parts if isinstance(part, kind)]
