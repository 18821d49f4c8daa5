"""The proposal: protocols, single cards or both, and a presentation, become a plan."""

from __future__ import annotations

import uuid
from collections.abc import Iterator, Sequence

from attrs import frozen

from authoring.model.base import evolve
from authoring.model.dose import Dose
from authoring.model.library import Library
from authoring.model.patient import Presentation
from authoring.model.plan import LeftOut, Plan, PlanItem, Reason
from authoring.model.vocabulary import Side, Weekday
from authoring.tailoring.case import Case, Places, case_of, places_of
from authoring.tailoring.cautioned import not_covered
from authoring.tailoring.cuts import change_over_s, cuts_of, seconds_of, times_of
from authoring.tailoring.days import alternating, spread
from authoring.tailoring.embed import cards_by_id, terms_used
from authoring.tailoring.fit import Cost, Job, Placing, Room, fit
from authoring.tailoring.place import Place
from authoring.tailoring.reasons import hard, why
from authoring.tailoring.request import Request
from authoring.tailoring.select import Selected, choices, select
from authoring.tailoring.whole import plan_reasons


def propose(library: Library, presentation: Presentation, ask: Request) -> Plan:
    """The plan with the least loss for this patient, with a reason for every choice.

    Hard rules first, over the whole plan; then the order of preference; then the fit to
    minutes, days, caps and the most exercises. The plan minimises, in this order: exclusions
    without a reason (there are none), preference rank, exercises that must or should be done
    and wait, sets taken off, exercises that may be left out and wait, exercises on alternating
    days; ties by entry number. The same input gives the same plan.

    Args:
        library: protocols, cards, terms and the clinic's settings.
        presentation: facts about the patient.
        ask: what is wanted.
    """
    case = case_of(library, presentation, ask)
    places = places_of(case)
    selected = _selected(case, places)
    days = _days(case)
    fitting = _best_fit(case, selected, days)
    items = tuple(_items(case, selected, fitting, days))
    left_out = tuple(_left_out(case, places, selected, fitting))
    return _plan(case, items, left_out, days)


def _selected(case: Case, places: Places) -> list[Selected]:
    """Every place with its variant; the same exercise of another protocol is taken once."""
    taken = {place.card.id for place in places.open}
    done: dict[tuple[str, str, Side], Selected] = {}
    found: list[Selected] = []
    for place in places.open:
        each = select(place, case, taken)
        if each.candidate is not None:
            key = (each.candidate.card.id, each.candidate.variant.id, place.side)
            before = done.setdefault(key, each)
            taken.add(each.candidate.card.id)
            if before is not each and before.place.protocol is not place.protocol:
                each = evolve(each, candidate=None, dose=None, reasons=(why("already-there"),))
        found.append(each)
    return found


# ---- fit ---------------------------------------------------------------------------------


@frozen(eq=False)
class _Fitting:
    """What becomes of the places that are kept by choice: index of the place to its placing."""

    cost: Cost
    placings: dict[int, Placing]
    doses: dict[int, Dose | None]


def _days(case: Case) -> tuple[Weekday, ...]:
    """Days of the plan: as many as the patient has, else as the stages ask for."""
    wanted = case.presentation.days_per_week
    if wanted is None:
        asked = [
            stage.frequency.days_per_week.top
            for _, stage, _ in case.followed()
            if stage.frequency is not None and stage.frequency.days_per_week is not None
        ]
        wanted = max(asked, default=0)
    return spread(wanted) if wanted else ()


def _room(case: Case) -> Room:
    minutes = case.presentation.minutes
    seconds = minutes * 60 + change_over_s() if minutes is not None else None
    return Room(seconds, case.most_exercises, tuple(cap.most for cap in case.caps()))


def _best_fit(case: Case, selected: Sequence[Selected], days: tuple[Weekday, ...]) -> _Fitting:
    """The fit of least cost over the ways to pick among either/or choices."""
    jobs: dict[int, tuple[Job, tuple[Dose | None, ...]]] = {}
    fits: dict[tuple[Job, ...], tuple[Cost, tuple[Placing, ...]]] = {}
    room = _room(case)
    best: _Fitting | None = None
    for way in choices(selected):
        order = sorted(way, key=lambda index: selected[index].place.number)
        for index in order:
            if index not in jobs:
                jobs[index] = _job(case, selected[index], days)
        looking = tuple(jobs[index][0] for index in order)
        if looking not in fits:  # picks that are alike in time and sets fit alike
            fits[looking] = fit(looking, room)
        cost, placings = fits[looking]
        if best is None or cost < best.cost:
            doses = {
                index: jobs[index][1][placing.cut or 0]
                for index, placing in zip(order, placings, strict=True)
            }
            best = _Fitting(cost, dict(zip(order, placings, strict=True)), doses)
        if best.cost == Cost():
            break
    return best or _Fitting(Cost(), {}, {})


def _job(
    case: Case, each: Selected, days: tuple[Weekday, ...]
) -> tuple[Job, tuple[Dose | None, ...]]:
    place = each.place
    week = len(days) or None
    cuts, doses = cuts_of(place, each.dose, case.caps(), week, times_of(place))
    often = place.often(each.dose) if each.dose is not None else None
    least = often.days_per_week.low if often is not None and often.days_per_week else None
    known = case.presentation.days_per_week is not None and least is not None
    enough = known and least is not None and 0 < least <= len(days) // 2
    return Job(place.priority, cuts, may_alternate=enough), doses


# ---- items and what is left out -----------------------------------------------------------


def _items(
    case: Case, selected: Sequence[Selected], fitting: _Fitting, days: tuple[Weekday, ...]
) -> Iterator[PlanItem]:
    used: dict[str, int] = {}
    for index, placing in fitting.placings.items():
        each = selected[index]
        if placing.cut is None or each.candidate is None:
            continue
        place = each.place
        dose = fitting.doses[index]
        name = place.entry.id if place.entry is not None else each.candidate.card.slug
        used[name] = used.get(name, 0) + 1
        ending = f"-{used[name]}" if used[name] > 1 else ""
        yield PlanItem(
            id=f"{name[: 80 - len(ending)]}".strip("-") + ending,
            protocol=place.protocol.id if place.protocol is not None else None,
            stage=place.stage.id if place.stage is not None else None,
            entry=place.entry.id if place.entry is not None else None,
            card=each.candidate.card.id,
            variant=each.candidate.variant.id,
            permitted=each.permitted[:500],
            side=place.side,
            dose=dose,
            days=alternating(days, placing.day),
            reasons=(*each.reasons[:56], *_fit_reasons(each, dose, placing, days)),
        )


def _fit_reasons(
    each: Selected, dose: Dose | None, placing: Placing, days: tuple[Weekday, ...]
) -> Iterator[Reason]:
    if placing.cut and dose != each.dose:
        yield why("sets-cut")
    if placing.day:
        names = ", ".join(day.value.capitalize() for day in alternating(days, placing.day))
        yield why("days-alternate", f"Done on {names} only, to fit the time.")
    if not seconds_of(dose, None)[2]:
        yield why("time-not-known")


def _left_out(
    case: Case, places: Places, selected: Sequence[Selected], fitting: _Fitting
) -> Iterator[LeftOut]:
    waits: tuple[Reason, ...] | None = None
    for index, each in enumerate(selected):
        placing = fitting.placings.get(index)
        if each.candidate is None:
            yield _left(each.place, each.reasons, later=False)
        elif placing is None:
            yield _left(each.place, (why("choice-other"), *hard(each.reasons)), later=True)
        elif placing.cut is None:
            if waits is None:
                waits = tuple(_why_waits(case, selected, fitting))
            yield _left(each.place, waits, later=True)
    for place in places.behind:
        yield _left(place, (why("other-side-behind"),), later=True)
    for protocol, stage, entry, card in places.missing:
        yield LeftOut(
            protocol=protocol or None,
            stage=stage or None,
            entry=entry or None,
            card=card,
            reasons=(why("card-missing"),),
        )


def _left(place: Place, reasons: tuple[Reason, ...], *, later: bool) -> LeftOut:
    return LeftOut(
        protocol=place.protocol.id if place.protocol is not None else None,
        stage=place.stage.id if place.stage is not None else None,
        entry=place.entry.id if place.entry is not None else None,
        card=place.card.id,
        side=place.side,
        later=later,
        reasons=reasons[:60],
    )


def _why_waits(case: Case, selected: Sequence[Selected], fitting: _Fitting) -> Iterator[Reason]:
    """Which limits all that was picked would break."""
    room = _room(case)
    kept = list(fitting.placings)
    cuts = [
        cuts_of(s.place, s.dose, case.caps(), None, times_of(s.place))[0][0]
        for s in (selected[index] for index in kept)
    ]
    found = False
    if room.seconds is not None and sum(cut.seconds for cut in cuts) > room.seconds:
        found = True
        yield why("time-short", f"There are {case.presentation.minutes} minutes: it waits.")
    if room.most is not None and len(kept) > room.most:
        found = True
        yield why("most-exercises", f"At most {room.most} exercises were asked for: it waits.")
    for position, cap in enumerate(case.caps()):
        if sum(cut.uses[position] for cut in cuts) > cap.most:
            found = True
            words = f"{cap.most} {cap.of.value} a {cap.per.value}"
            yield why("stage-cap", f"The stage allows {words} at most: it waits.")
    if not found:
        yield why("stage-cap")


# ---- the whole ---------------------------------------------------------------------------


def _plan(
    case: Case,
    items: tuple[PlanItem, ...],
    left_out: tuple[LeftOut, ...],
    days: tuple[Weekday, ...],
) -> Plan:
    library, ask, presentation = case.library, case.ask, case.presentation
    named = (*(item.card for item in items), *(left.card for left in left_out))
    cards = cards_by_id(library.cards[i] for i in named if i in library.cards)
    facts = case.facts[case.sides[0]]
    uncovered = not_covered(facts, case.terms, case.protocols, cards)
    return Plan(
        id=ask.plan_id or _id(presentation, ask),
        label=presentation.label,
        language=library.manifest.language,
        created=ask.today,
        clinician=ask.clinician,
        presentation=presentation,
        stages=case.stages[:20],
        most_exercises=case.most_exercises,
        pain=case.clinic_rule,
        items=items[:60],
        left_out=left_out[:500],
        reasons=plan_reasons(case, items, left_out, uncovered),
        not_covered=uncovered[:200],
        days=days,
        protocols=case.protocols[:20],
        cards=cards[:500],
        terms=terms_used((*case.protocols, *cards, presentation), case.terms),
    )


def _id(presentation: Presentation, ask: Request) -> str:
    """An id that follows from the patient's file, the day and what is asked for."""
    parts = (presentation.id, ask.today.isoformat(), *ask.protocols, *ask.cards)
    return str(uuid.uuid5(uuid.NAMESPACE_OID, "/".join(parts)))
