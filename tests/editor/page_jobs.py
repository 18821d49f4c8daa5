"""Pages for the tests of the page room: of the example clinic, with this or that changed."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from functools import cache

from authoring import resources
from authoring.checks.result import Subject
from authoring.editor.page.wish import PageJob, PageWish
from authoring.editor.workers import Token
from authoring.files.library import OpenLibrary, open_library
from authoring.model.base import evolve
from authoring.model.card import Card
from authoring.model.clinic import Clinic
from authoring.model.library import Library
from authoring.model.protocol import Protocol
from authoring.model.text import Text

TODAY = dt.date(2026, 3, 2)
EXAMPLE = resources.examples() / "larkfield"


@cache
def example() -> OpenLibrary:
    """The example clinic's library."""
    return open_library(EXAMPLE)


def protocol() -> Protocol:
    """Its first protocol with several stages."""
    return next(p for p in example().library.protocols.values() if len(p.stages) > 1)


def used_card() -> Card:
    """The card of that protocol's first exercise."""
    return example().library.cards[next(iter(protocol().entries())).card]


def job(library: Library | None = None, **wish: object) -> PageJob:
    """A page of the first protocol, of the library as given."""
    chosen = PageWish(Subject.PROTOCOL, protocol().id, **wish)  # type: ignore[arg-type]
    return PageJob(library or example().library, example(), {}, chosen, today=TODAY)


def with_protocol(change: Callable[[Protocol], Protocol]) -> Library:
    """The example library with its first protocol changed."""
    library, old = example().library, protocol()
    return evolve(library, protocols={**library.protocols, old.id: change(old)})


def with_card(change: Callable[[Card], Card]) -> Library:
    """The example library with the first used card changed."""
    library, old = example().library, used_card()
    return evolve(library, cards={**library.cards, old.id: change(old)})


def with_clinic(change: Callable[[Clinic], Clinic]) -> Library:
    """The example library with its clinic changed."""
    library = example().library
    assert library.clinic is not None
    return evolve(library, clinic=change(library.clinic))


def titled(words: str) -> Library:
    """The example library with another title for patients on its first protocol."""
    return with_protocol(lambda old: evolve(old, patient_title=Text.plain(words)))


def idle() -> Token:
    """A token that nobody stops."""
    return Token(lambda _done, _of: None)
