"""Which variant each place gets, before anything is fitted to the time."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations, islice, product

from attrs import frozen

from authoring.model.base import evolve
from authoring.model.dose import Dose
from authoring.model.load import IntRange
from authoring.model.plan import Reason
from authoring.model.vocabulary import CautionKind, Irritability
from authoring.tailoring.candidates import (
    Candidate,
    Judged,
    exclusions,
    group_of,
    judged,
    ranked,
    start_of,
    wish,
)
from authoring.tailoring.case import Case
from authoring.tailoring.cautioned import applying, plain
from authoring.tailoring.kit import size_notes
from authoring.tailoring.limb import narrowed
from authoring.tailoring.loads import with_weights
from authoring.tailoring.pain import EASES, PainFound, pain_of, worst_pain
from authoring.tailoring.place import Place
from authoring.tailoring.reasons import why
from authoring.tailoring.rules import Rules
from authoring.tailoring.substitutes import substitutes

_MOST_WAYS = 16
"""Ways to pick among either/or choices that are compared; of more, the first."""


@frozen(eq=False)
class Selected:
    """A place with the variant proposed for it, or without one.

    Attributes:
        candidate: None where nothing may be proposed.
        dose: as it fits this patient.
        permitted: ids of variants that may stand in for it on the sheet.
        reasons: why it, or why nothing.
    """

    place: Place
    candidate: Candidate | None
    dose: Dose | None
    permitted: tuple[str, ...]
    reasons: tuple[Reason, ...]


def pain_at(place: Place, rules: Sequence[Rules], case: Case) -> PainFound:
    """The pain with the place's card; of two sides the one that asks for more."""
    return worst_pain([pain_of(place, each.facts, case.clinic_rule) for each in rules])


def select(place: Place, case: Case, used: Iterable[str]) -> Selected:
    """The most preferred variant that no hard rule excludes, its dose fitted to this patient.

    Args:
        used: ids of cards that other places have.
    """
    rules = case.rules_for(place.side)
    pain = pain_at(place, rules, case)
    found = judged(place, rules, pain)
    barred = _barred(place, case)
    if barred:
        return Selected(place, None, None, (), (barred,))
    irritable = _irritability(rules, pain)
    easier = wish(irritable, pain)
    order = ranked(place, found.usable, easier)
    permitted = tuple(each.variant.id for each in found.usable)
    if order:
        chosen = order[0]
        reasons = (*chosen.reasons, *_start_out(place, chosen, found), *_pain_notes(place, pain))
        return fitted(place, chosen, case, permitted, reasons)
    other = None
    if place.entry is not None:
        others = substitutes(place, case.library.cards.values(), set(used), rules, case.clinic_rule)
        other = next(others, None)
    if other is not None:
        because = _why_nothing(place, found)
        return fitted(place, other, case, (), (*other.reasons, *because, *easier))
    return Selected(place, None, None, permitted, _why_nothing(place, found))


def _barred(place: Place, case: Case) -> Reason | None:
    if place.entry is None or place.protocol is None:
        return None
    sides = case.sides if place.side not in case.sides else (place.side,)
    key = (place.protocol.id, place.entry.id)
    return why("branch-leaves-out") if any((*key, s) in case.barred for s in sides) else None


def _irritability(rules: Sequence[Rules], pain: PainFound) -> list[Irritability | None]:
    return [each.facts.irritability for each in rules]


def _pain_notes(place: Place, pain: PainFound) -> Iterator[Reason]:
    if pain.worst is None:
        return
    if pain.action is None and not pain.text:
        yield why("pain-no-rule")
    elif pain.action not in EASES:
        yield why("pain-allows", pain.text)


def _start_out(place: Place, chosen: Candidate, found: Judged) -> Iterator[Reason]:
    """Why it is not as the protocol writes it, where a hard rule excludes the start."""
    start = start_of(place)
    for variant, reasons in found.excluded:
        if start is not None and variant.id == start.id != chosen.variant.id:
            texts = " ".join(reason.text for reason in reasons)
            yield why("start-excluded", f"Not as written: {texts}")


def _why_nothing(place: Place, found: Judged) -> tuple[Reason, ...]:
    """Why no variant may be proposed: the start's own reasons first."""
    start = start_of(place)
    if found.usable and start is not None:
        groups = {group_of(place, each.variant, start) for each in found.usable}
        code = "only-harder-left" if "harder" in groups else "hold-not-permitted"
    else:
        code = "nothing-usable"
    first = [reasons for variant, reasons in found.excluded if start and variant.id == start.id]
    rest = [reasons for variant, reasons in found.excluded if not start or variant.id != start.id]
    every = dict.fromkeys(reason for reasons in (*first, *rest) for reason in reasons)
    return (why(code), *islice(every, 58))


def fitted(
    place: Place,
    chosen: Candidate,
    case: Case,
    permitted: tuple[str, ...],
    reasons: tuple[Reason, ...],
) -> Selected:
    """A chosen variant with its dose as it fits: limb limits, weights, weeks, days."""
    rules = case.rules_for(place.side)
    more: list[Reason] = []
    dose = chosen.dose
    if dose is not None:
        for each in rules:
            dose, cut = narrowed(chosen.card, dose, each.limits)
            more += cut
        dose, weights = with_weights(chosen.variant, dose, rules[0].facts)
        dose, weeks = _without_barred_weeks(place, chosen, dose, case)
        dose, days = _within_days(place, dose, case)
        more += [*weights, *weeks, *days]
    more += _together_out(place, chosen, permitted)
    more += _notes(place, chosen, rules)
    every = tuple(dict.fromkeys((*reasons, *more)))[:60]
    return Selected(place, chosen, dose, permitted, every)


def _notes(place: Place, chosen: Candidate, rules: Sequence[Rules]) -> Iterator[Reason]:
    """Precautions that apply, and kit whose size must be checked."""
    for each in rules:
        facts, terms, card, variant = each.facts, each.terms, chosen.card, chosen.variant
        found = applying(CautionKind.PRECAUTION, place, card, variant, facts, terms)
        for caution, language in found:
            if caution.conditions or caution.demands:
                how = f" {plain(caution.how, language)}" if caution.how is not None else ""
                yield why("precaution", f"Take care: {plain(caution.text, language)}{how}")
        yield from size_notes(variant, facts, terms)


def _without_barred_weeks(
    place: Place, chosen: Candidate, dose: Dose, case: Case
) -> tuple[Dose, list[Reason]]:
    """The dose without rows of its week table that change to a variant which is excluded."""
    reasons: list[Reason] = []
    rules = case.rules_for(place.side)
    for name in dict.fromkeys(dose.week_variants()):
        variant = chosen.card.variant(name)
        pain = pain_at(place, rules, case)
        if variant is None or exclusions(place, chosen.card, variant, None, rules, pain):
            dose = dose.without_variant(name)
            words = plain(variant.name, chosen.card.language) if variant is not None else name
            text = f"The week table changes to “{words}”, which can't be used; that is left out."
            reasons.append(why("week-variant-out", text))
    return dose, reasons


def _together_out(place: Place, chosen: Candidate, permitted: tuple[str, ...]) -> Iterator[Reason]:
    """Variants that the entry does side by side with this one and that can't be used."""
    for name in place.entry.together if place.entry is not None else ():
        variant = place.card.variant(name)
        if variant is not None and name not in permitted and name != chosen.variant.id:
            words = plain(variant.name, place.card.language)
            yield why("together-out", f"“{words}”, done side by side with it, can't be used.")


def _within_days(place: Place, dose: Dose, case: Case) -> tuple[Dose, list[Reason]]:
    days = case.presentation.days_per_week
    often = place.often(dose)
    if days is None or often is None or often.days_per_week is None:
        return dose, []
    least = often.days_per_week.low
    if least <= days:
        return dose, []
    fewer = evolve(often, days_per_week=IntRange(low=days))
    text = f"{least} days a week are written, and the patient has {days}."
    return evolve(dose, frequency=fewer), [why("fewer-days", text)]


# ---- either/or choices --------------------------------------------------------------------


def choices(selected: Sequence[Selected]) -> Iterator[frozenset[int]]:
    """Ways to pick among either/or choices that the protocol prefers most, as places kept.

    Of each choice as many as it says are picked, those of the lowest rank; where several picks
    are equal, each is a way of its own.
    """
    groups: dict[object, list[int]] = {}
    free: list[int] = []
    for index, each in enumerate(selected):
        if each.candidate is None:
            continue
        choice = each.place.choice
        if choice is None:
            free.append(index)
        else:
            groups.setdefault(choice, []).append(index)
    best = [_best_picks(members, selected) for members in groups.values()]
    for way in islice(product(*best), _MOST_WAYS):
        yield frozenset((*free, *(index for pick in way for index in pick)))


def _best_picks(members: Sequence[int], selected: Sequence[Selected]) -> list[tuple[int, ...]]:
    count = min(_pick(selected[members[0]].place), len(members))
    picks = list(islice(combinations(members, count), _MOST_WAYS * 16))
    ranks = [sum(_rank(selected[index]) for index in pick) for pick in picks]
    return [pick for pick, rank in zip(picks, ranks, strict=True) if rank == min(ranks)]


def _pick(place: Place) -> int:
    block, entry = place.block, place.entry
    choices_here = block.choices if block is not None and entry is not None else ()
    return next((c.pick for c in choices_here if entry and c.id == entry.choice), 1)


def _rank(each: Selected) -> int:
    return each.candidate.rank if each.candidate is not None else 0
