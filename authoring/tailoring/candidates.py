"""Variants that may be used at a place, in order of preference, and why the others may not."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from attrs import frozen

from authoring.dosage.placed_dose import dose_here
from authoring.model.card import Card, Variant
from authoring.model.dose import Dose
from authoring.model.plan import Reason
from authoring.model.vocabulary import Irritability, Mode, PainAction
from authoring.tailoring.pain import EASES, PainFound
from authoring.tailoring.place import Place
from authoring.tailoring.reasons import why
from authoring.tailoring.rules import Rules


@frozen
class Candidate:
    """A variant that no hard rule excludes here.

    Attributes:
        rank: 0 for the most preferred.
        dose: as written for it here; None where nobody wrote one.
        reasons: why it, in this place of the order.
    """

    card: Card
    variant: Variant
    dose: Dose | None
    rank: int = 0
    reasons: tuple[Reason, ...] = ()


@frozen
class Judged:
    """Every variant in scope at a place.

    Attributes:
        usable: variants that no hard rule excludes, in the card's order.
        excluded: the others, each with the hard rules that exclude it.
    """

    usable: tuple[Candidate, ...]
    excluded: tuple[tuple[Variant, tuple[Reason, ...]], ...]


def scope(place: Place) -> tuple[Variant, ...]:
    """Variants that the entry allows, its permitted holds among them; all of a single card."""
    entry = place.entry
    if entry is None or not entry.allowed:
        return place.card.variants
    names = {entry.start, *entry.allowed, *entry.may_hold}
    return tuple(variant for variant in place.card.variants if variant.id in names)


def judged(place: Place, rules: Sequence[Rules], pain: PainFound) -> Judged:
    """Hard rules over every variant in scope; with several sides every side's rules hold."""
    usable: list[Candidate] = []
    excluded: list[tuple[Variant, tuple[Reason, ...]]] = []
    for variant in scope(place):
        dose = dose_here(place.entry, variant)
        found = exclusions(place, place.card, variant, dose, rules, pain)
        if found:
            excluded.append((variant, found))
        else:
            usable.append(Candidate(place.card, variant, dose))
    return Judged(tuple(usable), tuple(excluded))


def exclusions(
    place: Place,
    card: Card,
    variant: Variant,
    dose: Dose | None,
    rules: Iterable[Rules],
    pain: PainFound,
) -> tuple[Reason, ...]:
    """Hard rules that exclude a variant, each sentence once."""
    found = (reason for each in rules for reason in each.reasons(place, card, variant, dose, pain))
    return tuple(dict.fromkeys(found))


# ---- order of preference -----------------------------------------------------------------


def start_of(place: Place) -> Variant | None:
    """The variant that the place starts with: the entry's, or the one a card is named after."""
    if place.entry is not None:
        return place.card.variant(place.entry.start)
    return min(place.card.variants, key=lambda v: (abs(v.rung), v.rung), default=None)


def wish(irritability: Iterable[Irritability | None], pain: PainFound) -> tuple[Reason, ...]:
    """Why something easier is wanted; empty where it may be as written."""
    reasons: list[Reason] = []
    if pain.action in EASES:
        step_back = pain.action is PainAction.STEP_BACK
        reasons.append(why("pain-step-back" if step_back else "pain-easier", pain.text))
    if Irritability.HIGH in irritability:
        reasons.append(why("irritability-high"))
    return tuple(reasons)


def ranked(
    place: Place, usable: Sequence[Candidate], easier: tuple[Reason, ...]
) -> tuple[Candidate, ...]:
    """Usable variants from the most preferred on; what may not be proposed is not among them.

    As written: the start, others on its rung, easier rungs from the nearest down, permitted
    holds. Something easier wanted: permitted holds, easier rungs from the nearest down, the
    start, others on its rung. A harder rung is never proposed, nor a hold that the author does
    not permit in place of movement.
    """
    start = start_of(place)
    if start is None:
        return ()
    groups = _groups(place, usable, start)
    order = ("hold", "easier", "start", "same") if easier else ("start", "same", "easier", "hold")
    found: list[Candidate] = []
    for group in order:
        for each in groups[group]:
            reasons = (*_why(group, place, start, each), *easier)
            if easier and group in ("start", "same"):
                reasons = (*reasons, why("easiest-left"))
            made = Candidate(each.card, each.variant, each.dose, len(found), reasons)
            found.append(made)
    return tuple(found)


def _groups(
    place: Place, usable: Sequence[Candidate], start: Variant
) -> dict[str, list[Candidate]]:
    groups: dict[str, list[Candidate]] = {"start": [], "same": [], "easier": [], "hold": []}
    for each in usable:
        kind = group_of(place, each.variant, start)
        if kind in groups:
            groups[kind].append(each)
    groups["easier"].sort(key=lambda each: -each.variant.rung)
    groups["hold"].sort(key=lambda each: (not _stands_in(each.variant, start), -each.variant.rung))
    return groups


def group_of(place: Place, variant: Variant, start: Variant) -> str:
    """ "start", "same", "easier", "hold" (permitted), "harder" or "no-hold" (not permitted)."""
    if variant.id == start.id:
        return "start"
    if variant.rung > start.rung:
        return "harder"
    if variant.mode is Mode.ISOMETRIC and start.mode is not Mode.ISOMETRIC:
        permitted = place.entry is not None and variant.id in place.entry.may_hold
        return "hold" if permitted else "no-hold"
    return "same" if variant.rung == start.rung else "easier"


def _stands_in(variant: Variant, start: Variant) -> bool:
    return variant.hold is not None and start.id in variant.hold.stands_in_for


def _why(group: str, place: Place, start: Variant, each: Candidate) -> tuple[Reason, ...]:
    if group == "start":
        return (why("as-written" if place.entry is not None else "single-card"),)
    if group == "hold":
        return (why("hold-permitted"),)
    if group == "same":
        return (why("same-rung"),)
    down = start.rung - each.variant.rung
    steps = "one rung" if down == 1 else f"{down} rungs"
    return (why("easier-rung", f"Easier: {steps} below the one the protocol starts with."),)
