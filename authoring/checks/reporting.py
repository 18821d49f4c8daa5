"""Reporting checklists over a protocol: how many items are present, never "compliant".

CERT: Slade SC, Dionne CE, Underwood M, Buchbinder R. Consensus on Exercise Reporting
Template. Br J Sports Med 2016;50:1428-1437. Item 16b (delivered as planned) is for trial
reports and is left out: 18 items of 19.

TIDieR: Hoffmann TC, Glasziou PP, Boutron I, et al. Template for Intervention Description and
Replication. BMJ 2014;348:g1687. Item 12 is left out for the same reason: 11 items of 12.

The items are in our own words. That an item is present does not say that it is good.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from attrs import frozen

from authoring.checks.check import Spot, check
from authoring.checks.context import Context
from authoring.checks.naming import joined
from authoring.checks.result import Strength, Subject
from authoring.checks.stages import leaves
from authoring.model.card import Card, Variant
from authoring.model.criterion import Measured
from authoring.model.protocol import Delivery, Entry, Protocol, Stage
from authoring.model.sentence import Sentence, say
from authoring.model.vocabulary import CautionKind, Setting

PROTOCOL = Subject.PROTOCOL


_CERT = {
    "1": say("the equipment of every exercise"),
    "2": say("who gives it"),
    "3": say("alone or in a group"),
    "4": say("supervised or not"),
    "5": say("how adherence is known"),
    "6": say("how patients are kept going"),
    "7a": say("the rule for progressing"),
    "7b": say("how every exercise grows"),
    "8": say("every exercise described"),
    "9": say("the home part"),
    "10": say("parts that are no exercise"),
    "11": say("how harm is noticed and reported"),
    "12": say("where it is done"),
    "13": say("dose and frequency of every exercise"),
    "14a": say("generic or fitted to the person"),
    "14b": say("how it is fitted"),
    "15": say("the rule for the starting level"),
    "16a": say("how it is seen that it is done as planned"),
}
_TIDIER = {
    "1": say("a name"),
    "2": say("aims of every stage, and what they rest on"),
    "3": say("materials"),
    "4": say("the procedures of every stage"),
    "5": say("who gives it"),
    "6": say("alone or in a group, supervised or not"),
    "7": say("where it is done"),
    "8": say("when and how much"),
    "9": say("how it is fitted to the person"),
    "10": say("what was changed, and why"),
    "11": say("how it is seen that it is done as planned"),
}


@frozen
class Item:
    """One item of a checklist.

    Attributes:
        number: as in the checklist ("7a").
        asks: what it asks for, in our words.
        present: whether the protocol's data answer it.
        where: place in the protocol where the answer stands, or belongs.
    """

    number: str
    asks: Sentence
    present: bool
    where: str


@frozen
class _Exercise:
    """An entry with what its card says; ``start`` is None where that is missing."""

    stage: Stage
    entry: Entry
    card: Card | None
    start: Variant | None

    @property
    def has_dose(self) -> bool:
        own = self.start is not None and self.start.dose is not None
        return self.entry.dose is not None or own

    @property
    def has_frequency(self) -> bool:
        dose = self.entry.dose or (self.start.dose if self.start else None)
        return self.stage.frequency is not None or (dose is not None and dose.frequency is not None)

    @property
    def can_grow(self) -> bool:
        """By a rule for its dose, by the weeks, or by a harder variant of the card."""
        dose = self.entry.dose or (self.start.dose if self.start else None)
        if self.entry.progression is not None or (dose is not None and dose.weeks):
            return True
        if self.card is None or self.start is None:
            return False
        return any(variant.rung > self.start.rung for variant in self.card.variants)

    @property
    def is_described(self) -> bool:
        return self.start is not None and bool(self.start.start) and len(self.start.steps) >= 2

    @property
    def has_ways(self) -> bool:
        other = {*self.entry.allowed, *self.entry.may_hold} - {self.entry.start}
        return bool(other) or (
            not self.entry.allowed and bool(self.card and self.card.variants[1:])
        )


def _exercises(protocol: Protocol, cards: Mapping[str, Card]) -> tuple[_Exercise, ...]:
    found = []
    for stage in protocol.stages:
        for entry in stage.entries():
            card = cards.get(entry.card)
            found.append(_Exercise(stage, entry, card, card.variant(entry.start) if card else None))
    return tuple(found)


def _progresses(protocol: Protocol, exercises: Sequence[_Exercise]) -> bool:
    """Whether every stage but the last is left by a measure; a single stage grows by rules."""
    if len(protocol.stages) < 2:
        return any(one.entry.progression is not None for one in exercises)
    return all(
        any(isinstance(each, Measured) for each in leaves(stage.move_on))
        for stage in protocol.stages[:-1]
    )


def _kit_is_told(exercises: Sequence[_Exercise]) -> bool:
    return bool(exercises) and all(
        one.start is not None
        and all(need.size is None or need.unit for need in one.start.equipment)
        for one in exercises
    )


def cert_report(protocol: Protocol, cards: Mapping[str, Card]) -> tuple[Item, ...]:
    """The 18 CERT items that can apply to a protocol; ``cards`` holds its cards by id."""
    given = protocol.delivery or Delivery()
    exercises = _exercises(protocol, cards)
    some = bool(exercises)
    home = Setting.HOME not in given.settings or all(one.has_frequency for one in exercises)
    signs = any(caution.kind is CautionKind.STOP_SIGN for caution in protocol.cautions)
    care = any(stage.care for stage in protocol.stages)
    entry = bool(protocol.stages and protocol.stages[0].entry)
    dosed = some and all(one.has_dose and one.has_frequency for one in exercises)
    ways = any(one.has_ways for one in exercises)
    rows = (
        ("1", _kit_is_told(exercises), "stages"),
        ("2", bool(given.provider), "delivery.provider"),
        ("3", given.people is not None, "delivery.people"),
        ("4", given.supervision is not None, "delivery.supervision"),
        ("5", given.adherence is not None, "delivery.adherence"),
        ("6", bool(given.motivation), "delivery.motivation"),
        ("7a", _progresses(protocol, exercises), "stages"),
        ("7b", some and all(o.can_grow for o in exercises), "stages"),
        ("8", some and all(o.is_described for o in exercises), "stages"),
        ("9", bool(given.settings) and home, "delivery.settings"),
        ("10", bool(protocol.education) or care, "education"),
        ("11", signs and bool(given.harms), "delivery.harms"),
        ("12", bool(given.settings), "delivery.settings"),
        ("13", dosed, "stages"),
        ("14a", bool(given.tailoring), "delivery.tailoring"),
        ("14b", bool(given.tailoring) and ways, "delivery.tailoring"),
        ("15", bool(given.starting_level) or entry, "delivery.starting_level"),
        ("16a", bool(given.fidelity), "delivery.fidelity"),
    )
    return tuple(Item(number, _CERT[number], met, where) for number, met, where in rows)


def tidier_report(protocol: Protocol, cards: Mapping[str, Card]) -> tuple[Item, ...]:
    """The 11 TIDieR items that can apply to a protocol; ``cards`` holds its cards by id."""
    cert = {item.number: item.present for item in cert_report(protocol, cards)}
    stages = protocol.stages
    aims = bool(stages) and all(stage.aims for stage in stages) and bool(protocol.references)
    described = bool(stages) and cert["8"] and all(any(s.entries()) for s in stages)
    rows = (
        ("1", bool(protocol.title), "title"),
        ("2", aims, "stages"),
        ("3", cert["1"], "stages"),
        ("4", described, "stages"),
        ("5", cert["2"], "delivery.provider"),
        ("6", cert["3"] and cert["4"], "delivery"),
        ("7", cert["12"], "delivery.settings"),
        ("8", cert["13"], "stages"),
        ("9", cert["14b"], "delivery.tailoring"),
        ("10", bool(protocol.changes), "changes"),
        ("11", cert["16a"], "delivery.fidelity"),
    )
    return tuple(Item(number, _TIDIER[number], met, where) for number, met, where in rows)


def in_words(name: str, items: Sequence[Item]) -> Sentence:
    """The count as a sentence, and what is missing."""
    missing = [
        say("{item} ({asks})", item=item.number, asks=item.asks)
        for item in items
        if not item.present
    ]
    present, of = len(items) - len(missing), len(items)
    if not missing:
        return say("{present} of {of} {name} items are present.", present=present, of=of, name=name)
    return say(
        "{present} of {of} {name} items are present; missing: {missing}.",
        present=present,
        of=of,
        name=name,
        missing=joined(missing),
    )


def _spot(name: str, items: Sequence[Item]) -> Iterator[Spot]:
    missing = [item for item in items if not item.present]
    if missing:
        yield Spot(missing[0].where, in_words(name, items), say("Fill in what applies."))


def _cards(protocol: Protocol, context: Context) -> dict[str, Card]:
    found = ((entry.card, context.card(entry.card)) for entry in protocol.entries())
    return {card_id: card for card_id, card in found if card is not None}


@check(
    "cert-items-missing",
    Strength.MAY,
    PROTOCOL,
    says="Items of the CERT checklist are missing, counted out of 18.",
    why="Slade SC et al. Br J Sports Med 2016;50:1428-1437, without item 16b.",
)
def missing_cert(protocol: Protocol, context: Context) -> Iterator[Spot]:
    yield from _spot("CERT", cert_report(protocol, _cards(protocol, context)))


@check(
    "tidier-items-missing",
    Strength.MAY,
    PROTOCOL,
    says="Items of the TIDieR checklist are missing, counted out of 11.",
    why="Hoffmann TC et al. BMJ 2014;348:g1687, without item 12.",
)
def missing_tidier(protocol: Protocol, context: Context) -> Iterator[Spot]:
    yield from _spot("TIDieR", tidier_report(protocol, _cards(protocol, context)))
