"""Pasting what was copied, into the same library or another one.

Cards and terms are matched by id: the library's own stay as they are, and those it lacks
come along. Ids that are taken are made fresh, and links inside the clip follow them.
"""

from __future__ import annotations

from collections.abc import Collection
from typing import TypeVar

from authoring.model.base import Node, evolve
from authoring.model.card import Card, Variant
from authoring.model.edits.clip import Clip, in_language, missing_terms
from authoring.model.edits.library import free_slug, with_card, with_protocol
from authoring.model.edits.naming import INNER, ids_in, renewed, repointed
from authoring.model.edits.outcome import Edited, Note, note, refuse
from authoring.model.edits.places import block_at, block_of, clamped, with_block
from authoring.model.edits.settling import settled
from authoring.model.edits.stages import COPIED
from authoring.model.edits.uses import named_variants
from authoring.model.edits.variants import unnamed
from authoring.model.library import Library
from authoring.model.protocol import Block, Choice, Entry, Protocol, Stage
from authoring.model.sources import Reference

_N = TypeVar("_N", bound=Node)


# ---- what comes along -----------------------------------------------------------------


def with_needs(library: Library, clip: Clip) -> Edited[Library]:
    """The library with the cards and terms of a clip that it lacks.

    Notes name cards that the library has in another form, which stay as they are.
    """
    after = library
    terms = missing_terms(library, clip)
    if terms:
        manifest = evolve(library.manifest, terms=(*library.manifest.terms, *terms))
        after = evolve(after, manifest=manifest)
    notes = []
    for card in clip.cards:
        own = library.cards.get(card.id)
        if own is None:
            slug = free_slug(after, card.slug, of=card.id)
            after = with_card(after, card=evolve(card, slug=slug))
        elif own != card:
            title = own.title.best(own.language, own.language)
            notes.append(
                note(
                    "{card} is not the same in this library; this library’s stays.",
                    about=card.id,
                    card=title,
                )
            )
    return Edited(after, (), tuple(notes))


def _with_references(
    pieces: tuple[_N, ...], clip: Clip, own: tuple[Reference, ...], taken: Collection[str]
) -> tuple[tuple[_N, ...], tuple[Reference, ...]]:
    """Pieces that name the file's publications, and those publications that come along.

    The same publication, by its DOI or by all its fields, is not taken twice.
    """
    changed: dict[str, str] = {}
    used = set(taken)
    new: list[Reference] = []
    for reference in clip.references:
        same = next((each for each in own if _same_publication(each, reference)), None)
        if same is None:
            (made,), _ = renewed((reference,), taken=used, points=())
            new.append(made)
            used.add(made.id)
            changed[reference.id] = made.id
        else:
            changed[reference.id] = same.id
    named = tuple(repointed(piece, changed, points={"reference"}) for piece in pieces)
    return named, tuple(new)


def _same_publication(one: Reference, other: Reference) -> bool:
    if one.doi is not None and other.doi is not None:
        return one.doi.lower() == other.doi.lower()
    return evolve(one, id=other.id) == other


# ---- entries ------------------------------------------------------------------------------


def paste_entries(
    library: Library, clip: Clip, *, protocol: str, block: str, index: int | None = None
) -> Edited[Library]:
    """Put copied entries into a block, with the cards, terms and publications they need.

    Args:
        index: place in the block; the end unless given.

    Raises:
        EditError: the clip holds no entries, or there is no such block.
    """
    if not clip.entries:
        raise refuse("No exercises were copied.")
    home = library.protocols[protocol]
    place, old = block_at(home, block), block_of(home, block)
    carrier = Block(id="clip", entries=clip.entries, choices=clip.choices)
    (carrier,), references = _fit((carrier,), clip, home)
    entries = _loose(carrier.entries, clip, home, {choice.id for choice in carrier.choices})
    at = clamped(index, len(old.entries))
    changed = evolve(
        old,
        entries=(*old.entries[:at], *entries, *old.entries[at:]),
        choices=(*old.choices, *carrier.choices),
    )
    after = evolve(with_block(home, place, changed), references=(*home.references, *references))
    done = settled(home, after, select=tuple(entry.id for entry in entries))
    return _joined(library, clip, done, entries)


def _fit(
    pieces: tuple[_N, ...], clip: Clip, home: Protocol | Card
) -> tuple[tuple[_N, ...], tuple[Reference, ...]]:
    """Pieces in the file's language, naming its publications, with ids that are free there."""
    said = tuple(in_language(each, own=clip.language, to=home.language) for each in pieces)
    taken = ids_in(home)
    named, references = _with_references(said, clip, home.references, taken)
    used = taken | {reference.id for reference in references}
    points = COPIED if isinstance(home, Protocol) else INNER - COPIED - {"reference"}
    fresh, _ = renewed(named, taken=used, points=points)
    return fresh, references


def _loose(
    entries: tuple[Entry, ...], clip: Clip, home: Protocol, choices: Collection[str]
) -> tuple[Entry, ...]:
    """Entries without numbers, and without links and choices that are not there."""
    known = {entry.id for entry in entries}
    if clip.source == home.id:
        known |= {entry.id for entry in home.entries()}
    return tuple(
        evolve(
            entry,
            number=None,
            choice=entry.choice if entry.choice in choices else None,
            builds_on=entry.builds_on if entry.builds_on in known else None,
        )
        for entry in entries
    )


def _joined(
    library: Library, clip: Clip, done: Edited[Protocol], entries: tuple[Entry, ...]
) -> Edited[Library]:
    needed = with_needs(library, clip)
    after = with_protocol(needed.value, protocol=done.value)
    lost = _lost_variants(after, done.value, entries)
    return Edited(after, done.select, (*done.notes, *needed.notes, *lost))


def _lost_variants(
    library: Library, protocol: Protocol, entries: tuple[Entry, ...]
) -> tuple[Note, ...]:
    """Notes on pasted entries that name variants which the library's card lacks."""
    numbers = protocol.numbers()
    found = []
    for entry in entries:
        card = library.cards.get(entry.card)
        named = set(named_variants(entry))
        number = numbers[entry.id]
        if card is None:
            found.append(
                note(
                    "The card of exercise {number} is not in this library.",
                    about=entry.id,
                    number=number,
                )
            )
        elif not named <= {variant.id for variant in card.variants}:
            found.append(
                note(
                    "Exercise {number} names a variant that this library’s card does not have.",
                    about=entry.id,
                    number=number,
                )
            )
    return tuple(found)


# ---- stages -------------------------------------------------------------------------------


def paste_stages(
    library: Library, clip: Clip, *, protocol: str, index: int | None = None
) -> Edited[Library]:
    """Put copied stages into a protocol, with the cards, terms and publications they need.

    Args:
        index: place among the stages; the end unless given.

    Raises:
        EditError: the clip holds no stages.
    """
    if not clip.stages:
        raise refuse("No stages were copied.")
    home = library.protocols[protocol]
    stages, references = _fit(clip.stages, clip, home)
    every = tuple(entry for stage in stages for entry in stage.entries())
    loose = {entry.id: entry for entry in _loose(every, clip, home, _choices(stages))}
    targets = {stage.id for stage in stages}
    if clip.source == home.id:
        targets |= {stage.id for stage in home.stages}
    entries = set(loose)
    if clip.source == home.id:
        entries |= {entry.id for entry in home.entries()}
    made = tuple(_settled_stage(stage, loose, targets, entries) for stage in stages)
    at = clamped(index, len(home.stages))
    after = evolve(
        home,
        stages=(*home.stages[:at], *made, *home.stages[at:]),
        references=(*home.references, *references),
    )
    done = settled(home, after, select=tuple(stage.id for stage in made))
    return _joined(library, clip, done, tuple(loose.values()))


def _choices(stages: tuple[Stage, ...]) -> set[str]:
    blocks = (block for stage in stages for block in stage.blocks)
    choices: tuple[Choice, ...] = tuple(choice for block in blocks for choice in block.choices)
    return {choice.id for choice in choices}


def _settled_stage(
    stage: Stage, entries: dict[str, Entry], targets: Collection[str], known: Collection[str]
) -> Stage:
    blocks = tuple(
        evolve(block, entries=tuple(entries[entry.id] for entry in block.entries))
        for block in stage.blocks
    )
    branches = tuple(
        evolve(
            branch,
            stage=branch.stage if branch.stage in targets else None,
            entries=tuple(entry for entry in branch.entries if entry in known),
        )
        for branch in stage.branches
    )
    return evolve(stage, blocks=blocks, branches=branches)


def _tied(variant: Variant, known: Collection[str]) -> Variant:
    """A variant that names no variant that is not there."""
    held = variant.hold.stands_in_for if variant.hold is not None else ()
    named = {*held, *(variant.dose.week_variants() if variant.dose is not None else ())}
    for gone in named - set(known):
        variant = unnamed(variant, gone)
    return variant


# ---- variants -------------------------------------------------------------------------------


def paste_variants(library: Library, clip: Clip, *, card: str) -> Edited[Library]:
    """Add copied variants to a card, on the rungs they had, with the terms they need.

    Holds that stood in for a variant which was not copied stand in for none, unless they
    are pasted into the card they came from.

    Raises:
        EditError: the clip holds no variants.
    """
    if not clip.variants:
        raise refuse("No variants were copied.")
    home = library.cards[card]
    variants, references = _fit(clip.variants, clip, home)
    known = {variant.id for variant in variants}
    if clip.source == home.id:
        known |= {variant.id for variant in home.variants}
    made = tuple(_tied(each, known) for each in variants)
    new = evolve(
        home,
        variants=(*home.variants, *made),
        references=(*home.references, *references),
    )
    needed = with_needs(library, clip)
    after = with_card(needed.value, card=new)
    return Edited(after, tuple(variant.id for variant in made), needed.notes)
