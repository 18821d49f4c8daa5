"""What changes from one entry of a line to the next."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum

import attrs

from authoring.model.card import Card, Variant
from authoring.model.dose import Dose
from authoring.model.protocol import Entry


class Changed(StrEnum):
    """One thing that differs between two linked entries."""

    VARIANT = "variant"
    MODE = "mode"
    POSITION = "position"
    KIT = "kit"
    SUPPORT = "support"
    LIMBS = "limbs"
    SIDES = "sides"
    WORK = "work"
    LOADS = "loads"
    REST = "rest"
    TEMPO = "tempo"
    RANGE = "range"
    FREQUENCY = "frequency"
    OTHER = "other"


@attrs.frozen
class Step:
    """The difference between two linked entries of the same card.

    Attributes:
        rungs: how many rungs higher the later one starts; below 0 for lower.
        changed: what differs, in the order of :class:`Changed`.
        before, after: the variants they start with.
        dose_before, dose_after: the doses that count for them, or None for none.
    """

    rungs: int
    changed: tuple[Changed, ...]
    before: Variant
    after: Variant
    dose_before: Dose | None
    dose_after: Dose | None


def dose_of(entry: Entry, card: Card | None, variant_id: str | None = None) -> Dose | None:
    """The dose that counts for a variant of an entry, its start unless given.

    The entry's, where it fits the variant; else the variant's own; None where there is none.
    """
    wanted = entry.start if variant_id is None else variant_id
    if entry.dose is not None and wanted in (entry.dose_fits or (entry.start,)):
        return entry.dose
    variant = card.variant(wanted) if card is not None else None
    return variant.dose if variant is not None else None


def step(before: Entry, after: Entry, cards: Mapping[str, Card]) -> Step | None:
    """What changes between linked entries.

    None where they are of different cards, whose heights can't be compared, or where the card
    or a variant is missing.
    """
    card = cards.get(before.card)
    if card is None or after.card != before.card:
        return None
    first, second = card.variant(before.start), card.variant(after.start)
    if first is None or second is None:
        return None
    doses = dose_of(before, card), dose_of(after, card)
    found = {
        **_variant_pairs(first, second),
        **_dose_pairs(*doses),
        Changed.SIDES: (_sides(before, doses[0]), _sides(after, doses[1])),
    }
    changed = tuple(what for what in Changed if what in found and found[what][0] != found[what][1])
    return Step(second.rung - first.rung, changed, first, second, *doses)


Pairs = dict[Changed, tuple[object, object]]


def _variant_pairs(first: Variant, second: Variant) -> Pairs:
    return {
        Changed.VARIANT: (first.id, second.id),
        Changed.MODE: (first.mode, second.mode),
        Changed.POSITION: (first.position, second.position),
        Changed.KIT: (first.equipment, second.equipment),
        Changed.SUPPORT: (first.supports, second.supports),
        Changed.LIMBS: (first.limbs, second.limbs),
    }


def _dose_pairs(first: Dose | None, second: Dose | None) -> Pairs:
    names = {
        Changed.WORK: "work",
        Changed.LOADS: "loads",
        Changed.REST: "rest",
        Changed.TEMPO: "tempo",
        Changed.RANGE: "range",
        Changed.FREQUENCY: "frequency",
    }
    pairs: Pairs = {
        what: (getattr(first, name, None), getattr(second, name, None))
        for what, name in names.items()
    }
    pairs[Changed.OTHER] = (_rest_of(first), _rest_of(second))
    return pairs


def _rest_of(dose: Dose | None) -> object:
    if dose is None:
        return ((), (), None, None)
    return (dose.weeks, dose.sessions, dose.session_limit_min, dose.minimum_sessions)


def _sides(entry: Entry, dose: Dose | None) -> object:
    return (dose.sides if dose is not None else None) or entry.sides
