"""Run the checks on one file, or on a whole library."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from authoring.checks.context import Context, Shelf
from authoring.checks.memo import Memo
from authoring.checks.registry import BY_SUBJECT
from authoring.checks.result import CheckResult, Strength, Subject
from authoring.model.base import Node
from authoring.model.card import Card
from authoring.model.clinic import Clinic
from authoring.model.library import Library
from authoring.model.protocol import Protocol

_ORDER = {strength: place for place, strength in enumerate(Strength)}


def _run(
    value: object, subject: Subject, subject_id: str, context: Context
) -> tuple[CheckResult, ...]:
    """Results of all checks for one file: the strongest first, then in the order of the page."""
    found = [
        result
        for each in BY_SUBJECT[subject]
        for result in each.results(value, context, subject, subject_id)
    ]
    return tuple(sorted(found, key=lambda result: _ORDER[result.strength]))


def _file(
    value: Node, subject: Subject, subject_id: str, shelf: Shelf, memo: Memo | None
) -> tuple[CheckResult, ...]:
    def run(context: Context) -> tuple[CheckResult, ...]:
        return _run(value, subject, subject_id, context)

    return run(Context(shelf)) if memo is None else memo.results(value, shelf, run)


def check_card(card: Card, shelf: Shelf, memo: Memo | None = None) -> tuple[CheckResult, ...]:
    """What is wrong with a card; ``shelf`` is the library it stands in."""
    return _file(card, Subject.CARD, card.id, shelf, memo)


def check_protocol(
    protocol: Protocol, shelf: Shelf, memo: Memo | None = None
) -> tuple[CheckResult, ...]:
    """What is wrong with a protocol, with its cards as they are in the library."""
    return _file(protocol, Subject.PROTOCOL, protocol.id, shelf, memo)


def check_clinic(clinic: Clinic, shelf: Shelf, memo: Memo | None = None) -> tuple[CheckResult, ...]:
    """What is wrong with the clinic."""
    return _file(clinic, Subject.CLINIC, "", shelf, memo)


def check_terms(library: Library, today: dt.date) -> tuple[CheckResult, ...]:
    """What is wrong with the library as a whole, its files apart: terms, names, clinic."""
    context = Context(Shelf.of(library, today))
    return _run(library, Subject.LIBRARY, library.manifest.id, context)


def iter_library(
    library: Library, today: dt.date, memo: Memo | None = None
) -> Iterator[tuple[CheckResult, ...]]:
    """Results one file after another, for progress: the whole, clinic, protocols, cards."""
    shelf = Shelf.of(library, today)
    yield _run(library, Subject.LIBRARY, library.manifest.id, Context(shelf))
    if library.clinic is not None:
        yield check_clinic(library.clinic, shelf, memo)
    for protocol in library.protocols.values():
        yield check_protocol(protocol, shelf, memo)
    for card in library.cards.values():
        yield check_card(card, shelf, memo)


def check_library(
    library: Library, today: dt.date, memo: Memo | None = None
) -> tuple[CheckResult, ...]:
    """Every result of a library on one day.

    Args:
        today: the day that dates are compared with; nothing here reads a clock.
        memo: keeps results from one call to the next; the results are the same without.
    """
    return tuple(result for found in iter_library(library, today, memo) for result in found)
