"""Where cards and variants are used, and what a changed card touches there."""

from __future__ import annotations

from collections.abc import Collection, Iterable

import attrs

from authoring.model.card import Card, Variant
from authoring.model.edits.steps import dose_of
from authoring.model.library import Library
from authoring.model.pose import Pose
from authoring.model.protocol import Entry, Protocol
from authoring.model.vocabulary import Status


@attrs.frozen
class Use:
    """One entry that uses a card.

    Attributes:
        stage: index of its stage, from 0.
        number: the entry's number through the protocol.
        fields: where the entry names the variant asked about ("start", "allowed" …); empty
            where the card as a whole was asked about.
    """

    protocol: Protocol
    stage: int
    entry: Entry
    number: int
    fields: tuple[str, ...] = ()


NAMING = ("start", "allowed", "together", "may_hold", "dose_fits")
"""Fields of an entry that name variants; week tables of its doses may, too."""

DOSES = ("dose", "hold_dose")


def named_variants(entry: Entry) -> tuple[str, ...]:
    """Ids of all variants that an entry names, its start first."""
    lists = (variant for name in NAMING[1:] for variant in getattr(entry, name))
    doses = (getattr(entry, name) for name in DOSES)
    weeks = (variant for dose in doses if dose is not None for variant in dose.week_variants())
    return tuple(dict.fromkeys((entry.start, *lists, *weeks)))


def where_used(library: Library, card_id: str) -> tuple[Use, ...]:
    """Every entry that uses a card, by protocol in the library's order."""
    found = []
    for protocol in library.protocols.values():
        if all(entry.card != card_id for entry in protocol.entries()):
            continue
        numbers = protocol.numbers()
        found += [
            Use(protocol, index, entry, numbers[entry.id])
            for index, stage in enumerate(protocol.stages)
            for entry in stage.entries()
            if entry.card == card_id
        ]
    return tuple(found)


def uses(library: Library, card_id: str, variant_id: str) -> tuple[Use, ...]:
    """Every entry that names a variant, and in which fields."""
    named = ((use, _fields(use.entry, variant_id)) for use in where_used(library, card_id))
    return tuple(attrs.evolve(use, fields=found) for use, found in named if found)


def _fields(entry: Entry, variant_id: str) -> tuple[str, ...]:
    named = {name: getattr(entry, name) for name in NAMING[1:]}
    for name in DOSES:
        dose = getattr(entry, name)
        named[name] = dose.week_variants() if dose is not None else ()
    start = ("start",) if entry.start == variant_id else ()
    return (*start, *(name for name, variants in named.items() if variant_id in variants))


@attrs.frozen
class Touched:
    """An entry for which a changed card is not the same.

    Attributes:
        variants: ids of the variants it may use that changed.
        missing: ids of variants it names that the card has no more.
        dose_changed: whether the dose that counts for its start changed.
        approved: whether its protocol is approved, and so asks for a fresh look.
    """

    use: Use
    variants: tuple[str, ...]
    missing: tuple[str, ...]
    dose_changed: bool
    approved: bool


def what_changes(library: Library, before: Card, after: Card) -> tuple[Touched, ...]:
    """The entries that a changed card touches.

    An entry is touched by its allowed variants (all, where it names none), and by everything
    on the card that all variants share (cautions, title, forbidden set-ups). What no patient
    reads (owner, authors, review dates, licence, slug, references) touches nothing.
    """
    shared = _shared(before) != _shared(after)
    changed = _changed_variants(before, after)
    found = []
    for use in where_used(library, before.id):
        wanted = set(named_variants(use.entry))
        open_to_all = not use.entry.allowed
        variants = tuple(v for v in changed if open_to_all or v in wanted)
        kept = {variant.id for variant in after.variants}
        missing = tuple(v.id for v in before.variants if v.id in wanted and v.id not in kept)
        dose = dose_of(use.entry, before) != dose_of(use.entry, after)
        if shared or variants or missing:
            approved = use.protocol.status is Status.APPROVED
            found.append(Touched(use, variants, missing, dose, approved))
    return tuple(found)


def redrawn(library: Library, poses: Iterable[Pose]) -> frozenset[str]:
    """Slugs of the poses, as they were kept, that the library draws otherwise or not at all."""
    return frozenset(pose.slug for pose in poses if library.pose_called(pose.slug) != pose)


def shows(card: Card, poses: Collection[str]) -> bool:
    """Whether a picture of the card is drawn from one of these poses."""
    pictures = (picture for variant in card.variants for picture in variant.pictures)
    return any(picture.pose in poses for picture in pictures)


def _changed_variants(before: Card, after: Card) -> tuple[str, ...]:
    """Ids of variants that are new, gone or different, in the order of both cards."""
    old: dict[str, Variant] = {variant.id: variant for variant in before.variants}
    new = {variant.id: variant for variant in after.variants}
    return tuple(key for key in {**old, **new} if old.get(key) != new.get(key))


def _shared(card: Card) -> tuple[object, ...]:
    return (card.title, card.purpose, card.faults, card.cautions, card.forbidden, card.language)
