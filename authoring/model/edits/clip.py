"""What is on the clipboard: pieces of a file with all they need in another library."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar, TypeVar

from authoring.model.base import LANGUAGE_TAG, Fact, Node, evolve, fact, many, node, uuid
from authoring.model.card import Card, Picture, Variant
from authoring.model.clinic import Logo
from authoring.model.edits.ladder import variant_of
from authoring.model.edits.places import entry_of, stage_of
from authoring.model.edits.tree import leaves, nodes, with_leaves
from authoring.model.library import Library, Term
from authoring.model.protocol import Choice, Entry, Protocol, Stage
from authoring.model.sources import Reference
from authoring.model.text import OWN, Text
from authoring.model.vocabulary import TermKind

_N = TypeVar("_N", bound=Node)


@node
class Clip(Node):
    """Copied entries, stages or variants; only one of the three lists is filled."""

    FORMAT: ClassVar[str] = "rungbook/clip"

    source: str = uuid("Id of the protocol or card they were copied from.")
    language: str = fact("Language of their plain strings (BCP 47).", pattern=LANGUAGE_TAG)
    entries: tuple[Entry, ...] = many("Exercises, in order.")
    choices: tuple[Choice, ...] = many("Either/or choices among the exercises.")
    stages: tuple[Stage, ...] = many("Stages, in order.")
    variants: tuple[Variant, ...] = many("Variants, in order.")
    cards: tuple[Card, ...] = many("Every card they use.")
    references: tuple[Reference, ...] = many("Every publication they name.")
    terms: tuple[Term, ...] = many("Every term they and their cards use.", longest=5000)
    terms_language: str = fact("Language of plain strings of the terms.", pattern=LANGUAGE_TAG)


def clip_entries(library: Library, *, protocol: str, entries: Iterable[str]) -> Clip:
    """Copy entries of a protocol, in the protocol's order, with the choices among them."""
    home = library.protocols[protocol]
    wanted = set(entries)
    for each in wanted:
        entry_of(home, each)
    copied = tuple(entry for entry in home.entries() if entry.id in wanted)
    chosen = [entry.choice for entry in copied]
    choices = tuple(
        choice
        for stage in home.stages
        for block in stage.blocks
        for choice in block.choices
        if chosen.count(choice.id) > 1
    )
    return _with_needs(library, _empty(library, home, entries=copied, choices=choices), home)


def clip_stages(library: Library, *, protocol: str, stages: Iterable[str]) -> Clip:
    """Copy whole stages of a protocol, in the protocol's order."""
    home = library.protocols[protocol]
    wanted = set(stages)
    for each in wanted:
        stage_of(home, each)
    copied = tuple(stage for stage in home.stages if stage.id in wanted)
    return _with_needs(library, _empty(library, home, stages=copied), home)


def clip_variants(library: Library, *, card: str, variants: Iterable[str]) -> Clip:
    """Copy variants of a card, in the card's order."""
    home = library.cards[card]
    wanted = set(variants)
    for each in wanted:
        variant_of(home, each)
    copied = tuple(variant for variant in home.variants if variant.id in wanted)
    return _with_needs(library, _empty(library, home, variants=copied), home)


def _empty(library: Library, home: Protocol | Card, **pieces: tuple[Node, ...]) -> Clip:
    clip = Clip(source=home.id, language=home.language, terms_language=library.manifest.language)
    return evolve(clip, **pieces)


def _with_needs(library: Library, clip: Clip, home: Protocol | Card) -> Clip:
    used = {value for _, known, value in leaves(clip) if known.points_to == "card"}
    cards = tuple(card for card in library.cards.values() if card.id in used)
    named = {value for _, known, value in leaves(clip) if known.points_to == "reference"}
    references = tuple(each for each in home.references if each.id in named)
    whole = evolve(clip, cards=cards, references=references)
    return evolve(whole, terms=_terms(library, whole))


def _terms(library: Library, clip: Clip) -> tuple[Term, ...]:
    """The terms that a clip uses, and the wider ones above them."""
    wanted = {(known.term, value) for _, known, value in leaves(clip) if known.term}
    manifest = library.manifest
    while True:
        found = tuple(term for term in manifest.terms if (term.kind, term.id) in wanted)
        wider = {(term.kind, term.broader) for term in found if term.broader is not None}
        if wider <= wanted:
            return found
        wanted |= wider


def images_in(clip: Clip) -> frozenset[str]:
    """Names of the picture files that a clip needs beside it."""
    found = (each for _, each in nodes(clip) if isinstance(each, Picture | Logo))
    return frozenset(each.image for each in found if each.image is not None)


def in_language(piece: _N, *, own: str, to: str) -> _N:
    """A piece whose plain texts, which are in ``own``, may stand in a file in language ``to``."""
    if own == to:
        return piece

    def change(_: str, __: Fact, value: Text | str) -> Text | str:
        if isinstance(value, Text) and OWN in value.values:
            return Text({own: value.values[OWN]})
        return value

    return with_leaves(piece, change)


def missing_terms(library: Library, clip: Clip) -> tuple[Term, ...]:
    """Terms of a clip that the library does not have, fit for its language."""
    known = {(term.kind, term.id) for term in library.manifest.terms}
    own, to = clip.terms_language, library.manifest.language
    return tuple(
        in_language(term, own=own, to=to)
        for term in clip.terms
        if (TermKind(term.kind), term.id) not in known
    )
