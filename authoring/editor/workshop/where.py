"""Where a card is used, and what the edits since the last save touch there. No Qt here."""

from __future__ import annotations

import datetime as dt

from attrs import frozen

from authoring.model.card import Card
from authoring.model.edits.tree import path_of, path_text
from authoring.model.edits.uses import NAMING, Use, what_changes, where_used
from authoring.model.library import Library
from authoring.model.vocabulary import Status


@frozen
class UseLine:
    """One exercise of a protocol that uses the card.

    Attributes:
        protocol_id, path: its place.
        title: the protocol's title.
        stage: from 1.
        number: the exercise's number through the protocol.
        starts: whether it starts with the variant asked about.
        may_use: whether it may use that variant.
    """

    protocol_id: str
    path: str
    title: str
    stage: int
    number: int
    status: Status
    starts: bool
    may_use: bool


@frozen
class Reach:
    """What the card touches.

    Attributes:
        lines: every exercise that uses it; those that may use the variant first.
        approved: titles of approved protocols that use it.
        touched: titles of protocols that the unsaved edits change, and how many of those are
            approved.
    """

    lines: tuple[UseLine, ...]
    approved: tuple[str, ...]
    touched: tuple[str, ...]
    touched_approved: int


def reach(library: Library, saved: Library, card_id: str, variant_id: str) -> Reach:
    """Where a card is used, and what its unsaved edits change.

    Args:
        saved: the library as it is on the disk.
        variant_id: the variant being written, "" for none.
    """
    card = library.cards[card_id]
    lines = [_line(use, variant_id) for use in where_used(library, card_id)]
    lines.sort(key=lambda line: not line.may_use)
    before = saved.cards.get(card_id)
    touched = () if before in (None, card) else what_changes(library, _not_none(before), card)
    titles = {one.use.protocol.id: _title(one.use) for one in touched}
    approved = {one.use.protocol.id for one in touched if one.approved}
    return Reach(
        lines=tuple(lines),
        approved=tuple(dict.fromkeys(x.title for x in lines if x.status is Status.APPROVED)),
        touched=tuple(titles.values()),
        touched_approved=len(approved),
    )


def _not_none(card: Card | None) -> Card:
    assert card is not None  # noqa: S101 - narrows the type
    return card


def _title(use: Use) -> str:
    return use.protocol.title.best(use.protocol.language, use.protocol.language)


def _line(use: Use, variant_id: str) -> UseLine:
    entry = use.entry
    named = any(variant_id in getattr(entry, name) for name in NAMING[1:])
    starts = entry.start == variant_id
    return UseLine(
        protocol_id=use.protocol.id,
        path=path_text(path_of(use.protocol, entry.id)),
        title=_title(use),
        stage=use.stage + 1,
        number=use.number,
        status=use.protocol.status,
        starts=starts,
        may_use=bool(variant_id) and (starts or named or not entry.allowed),
    )


def newest_reference(card: Card) -> int | None:
    """Year of the card's newest publication; None where no year is given."""
    return max((r.year for r in card.references if r.year is not None), default=None)


def days_overdue(card: Card, today: dt.date) -> int:
    """Days since the card's review was due; 0 or less where it is not overdue, or has no date."""
    return 0 if card.review_due is None else (today - card.review_due).days
