"""Any library: the example clinic's with its facts dealt out anew."""

from __future__ import annotations

from random import Random

from authoring.model.base import evolve
from authoring.model.card import Card, KitNeed, Support, Variant
from authoring.model.library import Library
from authoring.model.pacing import Cap
from authoring.model.protocol import Block, Choice, Entry, Protocol, Stage
from authoring.model.vocabulary import CapOf, Mode, Period, Sides, SupportKind, TermKind
from tests.tailoring.patients import perhaps, some


def any_library(random: Random, library: Library) -> Library:
    """The library with other rungs, modes, demands, kit, priorities, choices and caps."""
    ids = {kind: [t.id for t in library.manifest.terms if t.kind is kind] for kind in TermKind}
    cards = {key: _card(random, card, ids) for key, card in library.cards.items()}
    protocols = {key: _protocol(random, each, cards) for key, each in library.protocols.items()}
    return evolve(library, cards=cards, protocols=protocols)


def _card(random: Random, card: Card, ids: dict[TermKind, list[str]]) -> Card:
    variants = tuple(_variant(random, each, ids) for each in card.variants)
    return evolve(card, variants=variants, movements=some(random, ids[TermKind.MOVEMENT], 2))


def _variant(random: Random, variant: Variant, ids: dict[TermKind, list[str]]) -> Variant:
    kit = some(random, ids[TermKind.KIT], 2)
    needs = tuple(KitNeed(kit=each, count=random.randint(1, 2)) for each in kit)
    supports = some(random, SupportKind, 1)
    return evolve(
        variant,
        rung=random.randint(-2, 2),
        mode=random.choice((variant.mode, variant.mode, Mode.ISOMETRIC, Mode.DYNAMIC)),
        demands=some(random, ids[TermKind.DEMAND], 2),
        position=perhaps(random, random.choice(ids[TermKind.POSITION])),
        equipment=needs,
        supports=tuple(Support(kind=each, hands=random.randint(0, 1)) for each in supports),
    )


def _protocol(random: Random, protocol: Protocol, cards: dict[str, Card]) -> Protocol:
    return evolve(protocol, stages=tuple(_stage(random, stage, cards) for stage in protocol.stages))


def _stage(random: Random, stage: Stage, cards: dict[str, Card]) -> Stage:
    cap = Cap(of=CapOf.MINUTES, most=random.randint(1, 40), per=Period.SESSION)
    blocks = tuple(_block(random, block, cards) for block in stage.blocks)
    return evolve(stage, blocks=blocks, caps=perhaps(random, (cap,), 0.2) or ())


def _block(random: Random, block: Block, cards: dict[str, Card]) -> Block:
    choice = Choice(id="either", pick=random.randint(1, 2))
    entries = tuple(_entry(random, entry, cards[entry.card]) for entry in block.entries)
    return evolve(block, entries=entries, choices=(choice,))


def _entry(random: Random, entry: Entry, card: Card) -> Entry:
    names = [variant.id for variant in card.variants]
    return evolve(
        entry,
        start=random.choice(names),
        allowed=some(random, names, len(names)),
        may_hold=some(random, names, 2),
        together=some(random, names, 1),
        priority=random.randint(1, 3),
        choice=perhaps(random, "either", 0.3),
        sides=perhaps(random, random.choice(list(Sides))),
    )
