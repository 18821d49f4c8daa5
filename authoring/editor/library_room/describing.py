"""What the preview says of a card or protocol. No Qt here."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from attrs import frozen

from authoring.checks.result import Subject
from authoring.editor.i18n import tr, tr_n
from authoring.editor.library_room.words import due_words, said, title_of
from authoring.editor.parts.gauge import rung_words
from authoring.editor.place import Place
from authoring.editor.search.pieces import Noun, terms_of
from authoring.editor.vocabulary_words import words_of
from authoring.model.card import Card
from authoring.model.edits.tree import path_of, path_text
from authoring.model.edits.uses import where_used
from authoring.model.library import Library
from authoring.model.protocol import Protocol
from authoring.model.vocabulary import TermKind

_MOST_USES = 8


@frozen
class Fact:
    """A name and what stands beside it."""

    name: str
    words: str


@frozen
class UsedIn:
    """A protocol that uses a card.

    Attributes:
        words: its title.
        where: stages and numbers of the exercises ("Stage 2, exercise 6").
        place: its first exercise with the card.
    """

    words: str
    where: str
    place: Place


@frozen
class Description:
    """The preview.

    Attributes:
        title: the title.
        other: what a clinician calls it, "" for the same.
        summary: what it is for.
        facts: facts in order.
        uses: protocols that use a card.
        more_uses: how many more there are.
    """

    title: str
    other: str
    summary: str
    facts: tuple[Fact, ...]
    uses: tuple[UsedIn, ...] = ()
    more_uses: int = 0


def describe(noun: Noun, library: Library, today: dt.date) -> Description:
    """What the preview says of a noun."""
    if isinstance(noun, Card):
        uses = _uses(noun, library)
        return Description(
            title_of(noun, library),
            said(noun.trade_name, noun.language, library),
            said(noun.purpose, noun.language, library),
            tuple(_card_facts(noun, library, today)),
            uses[:_MOST_USES],
            max(len(uses) - _MOST_USES, 0),
        )
    return Description(
        title_of(noun, library),
        said(noun.patient_title, noun.language, library),
        said(noun.for_whom, noun.language, library) or said(noun.lead, noun.language, library),
        tuple(_protocol_facts(noun, library, today)),
    )


def _card_facts(card: Card, library: Library, today: dt.date) -> Iterator[Fact]:
    if card.regions:
        yield Fact(tr("Regions"), ", ".join(words_of(region) for region in card.regions))
    if card.variants:
        rungs = [variant.rung for variant in card.variants]
        count = tr_n("{n} variant", "{n} variants", len(rungs))
        low, high = rung_words(min(rungs)), rung_words(max(rungs))
        ladder = count if low == high else tr("{n}, {low} to {high}", n=count, low=low, high=high)
        yield Fact(tr("Ladder"), ladder)
    kit = dict.fromkeys(need.kit for variant in card.variants for need in variant.equipment)
    if kit:
        yield Fact(tr("Kit"), _terms(TermKind.KIT, list(kit), library))
    demands = dict.fromkeys(one for variant in card.variants for one in variant.demands)
    if demands:
        yield Fact(tr("Demands"), _terms(TermKind.DEMAND, list(demands), library))
    yield from _kept(card, today)


def _protocol_facts(protocol: Protocol, library: Library, today: dt.date) -> Iterator[Fact]:
    status = tr(
        "{status}, version {version}", status=words_of(protocol.status), version=protocol.version
    )
    yield Fact(tr("Status"), status)
    if protocol.conditions:
        conditions = _terms(TermKind.CONDITION, list(protocol.conditions), library)
        yield Fact(tr("Conditions"), conditions)
    stages = tr_n("{n} stage", "{n} stages", len(protocol.stages))
    number = sum(1 for _ in protocol.entries())
    exercises = tr_n("{n} exercise", "{n} exercises", number)
    cards = tr_n("{n} card", "{n} cards", len({entry.card for entry in protocol.entries()}))
    yield Fact(tr("Holds"), f"{stages}, {exercises}, {cards}")
    yield from _kept(protocol, today)


def _kept(noun: Noun, today: dt.date) -> Iterator[Fact]:
    yield Fact(tr("Review"), due_words(noun.review_due, today))
    if noun.owner:
        yield Fact(tr("Owner"), noun.owner)
    if noun.references:
        yield Fact(tr("References"), str(len(noun.references)))


def _terms(kind: TermKind, ids: list[str], library: Library) -> str:
    terms, language = terms_of(library), library.manifest.language
    found = ((terms.get((kind.value, one)), one) for one in ids)
    return ", ".join(
        term.name.best(language, language) if term is not None else one.replace("-", " ")
        for term, one in found
    )


def _uses(card: Card, library: Library) -> tuple[UsedIn, ...]:
    found: dict[str, list[tuple[int, int, str]]] = {}
    for use in where_used(library, card.id):
        spot = (use.stage + 1, use.number, use.entry.id)
        found.setdefault(use.protocol.id, []).append(spot)
    return tuple(_used_in(library, key, spots) for key, spots in found.items())


def _used_in(library: Library, protocol_id: str, spots: list[tuple[int, int, str]]) -> UsedIn:
    protocol = library.protocols[protocol_id]
    where = "; ".join(
        tr("stage {stage}, exercise {number}", stage=stage, number=number)
        for stage, number, _ in spots[:3]
    )
    if len(spots) > 3:
        where = tr("{where} and {n} more", where=where, n=len(spots) - 3)
    status = words_of(protocol.status)
    path = path_text(path_of(protocol, spots[0][2]))
    place = Place(Subject.PROTOCOL, protocol_id, path)
    return UsedIn(title_of(protocol, library), f"{where[:1].upper()}{where[1:]}. {status}.", place)
