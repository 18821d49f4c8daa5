"""What must be known of a plan as a whole: time, reach of criteria, flags, what is not covered."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from authoring.model.criterion import AllOf, AnyOf, Criterion, Measured
from authoring.model.pacing import Cap
from authoring.model.patient import Presentation
from authoring.model.plan import LeftOut, NotCovered, PlanItem, Reason
from authoring.model.protocol import Protocol, Stage
from authoring.model.vocabulary import CautionKind, Side, Sides, SupportKind, TermKind, Weekday
from authoring.tailoring.case import Case
from authoring.tailoring.criterion_text import criterion_text
from authoring.tailoring.cuts import change_over_s, rounds_of, seconds_of, times_of, use_of
from authoring.tailoring.facts import HOUSEHOLD
from authoring.tailoring.filled import entry_of, place_of
from authoring.tailoring.label import looks_like_identity
from authoring.tailoring.reasons import HARD, why
from authoring.tailoring.release import flag_reasons
from authoring.tailoring.stages import branch_reasons, branches_met, known_for


def plan_reasons(
    case: Case,
    items: Sequence[PlanItem],
    left_out: Sequence[LeftOut],
    not_covered: Sequence[NotCovered],
) -> tuple[Reason, ...]:
    """Everything that the clinician must know before the plan goes out, gravest first."""
    found = (
        *flag_reasons(case.presentation, case.protocols),
        *set_aside(items),
        *([] if items else [why("no-exercise")]),
        *_branches(case),
        *_uncovered(case, not_covered),
        *limits_broken(case, items),
        *_criteria(case, items, left_out),
        *_gaps(case, items),
        *_oddities(case),
    )
    return tuple(dict.fromkeys(found))[:200]


def set_aside(items: Sequence[PlanItem]) -> Iterator[Reason]:
    """Hard rules that a clinician set aside."""
    for item in items:
        codes = sorted({code for each in item.overrides for code in each.rules})
        if codes:
            by = item.overrides[-1]
            text = f"{by.who} set aside for “{item.id}”: {', '.join(codes)}. {by.why}".strip()
            yield why("hard-rule-set-aside", text)


def _uncovered(case: Case, not_covered: Sequence[NotCovered]) -> Iterator[Reason]:
    for each in not_covered:
        name = case.terms.name(TermKind.CONDITION, each.condition) if each.condition else each.words
        yield why("not-covered", f"“{name}” is not covered: no caution here speaks of it.")


def _branches(case: Case) -> Iterator[Reason]:
    for protocol, stage, side in case.followed():
        for own in case.sides if side not in case.sides else (side,):
            known = known_for(case.facts[own].presentation, protocol, own, case.ask)
            yield from branch_reasons(protocol, branches_met(stage, known))


def _gaps(case: Case, items: Sequence[PlanItem]) -> Iterator[Reason]:
    presentation = case.presentation
    assumed = sorted({name for item in items for name in _assumed(case, item)})
    if assumed:
        listed = ", ".join(assumed)
        yield why("supports-assumed", f"Nobody asked what is at hand; assumed are: {listed}.")
    one_sided = any(_sides(case, item) in (Sides.AFFECTED, Sides.OTHER) for item in items)
    if presentation.side is Side.NONE and one_sided:
        yield why("side-not-given")


def _assumed(case: Case, item: PlanItem) -> Iterator[str]:
    """Supports of an exercise that are only assumed to be at hand, listed as such or as kit."""
    card = case.library.cards.get(item.card)
    variant = card.variant(item.variant) if card is not None else None
    if variant is None:
        return
    for rules in case.rules_for(item.side):
        if not rules.facts.supports_asked:
            yield from (_word(each.kind) for each in variant.supports if each.kind in HOUSEHOLD)
        needed = {need.kit for need in variant.equipment if not need.spare}
        for kit in sorted(needed & rules.facts.assumed):
            yield case.terms.name(TermKind.KIT, kit).casefold()


def _word(kind: SupportKind) -> str:
    return kind.value.replace("_", " ")


def _sides(case: Case, item: PlanItem) -> Sides | None:
    entry = entry_of(case, item)
    own = item.dose.sides if item.dose is not None else None
    return own or (entry.sides if entry is not None else None)


def _oddities(case: Case) -> Iterator[Reason]:
    presentation, today = case.presentation, case.ask.today
    if looks_like_identity(presentation.label):
        yield why("label-like-a-name")
    days = [
        presentation.injured,
        presentation.operated,
        *(test.date for test in presentation.tests),
        *(seen.date for seen in presentation.seen),
        *(stage.began for stage in presentation.stages),
        *(stage.programme_began for stage in presentation.stages),
    ]
    if any(day is not None and day > today for day in days):
        yield why("date-in-future")
    unknown = [
        term_id
        for kind, ids in _named(presentation)
        for term_id in ids
        if (kind, term_id) not in case.terms.by_id
    ]
    if unknown:
        listed = ", ".join(sorted(set(unknown))[:10])
        yield why("term-not-known", f"The library has no term: {listed}.")
    asked = {*case.ask.protocols, *case.ask.cards}
    there = {protocol.id for protocol in case.protocols} | {card.id for card in case.cards}
    for lost in sorted(asked - there):
        yield why("unknown-card", f"The library has no protocol or card {lost}.")


def _named(presentation: Presentation) -> tuple[tuple[TermKind, Iterable[str]], ...]:
    return (
        (TermKind.CONDITION, presentation.conditions),
        (TermKind.POSITION, presentation.avoid_positions),
        (TermKind.DEMAND, presentation.avoid_demands),
        (TermKind.MOVEMENT, presentation.avoid_movements),
        (TermKind.KIT, (item.kit for item in presentation.kit)),
    )


# ---- criteria out of reach ---------------------------------------------------------------


def _criteria(
    case: Case, items: Sequence[PlanItem], left_out: Sequence[LeftOut]
) -> Iterator[Reason]:
    """Criteria to move on whose test is ruled out, or that nothing in the plan trains for."""
    for protocol, stage, side in case.followed():
        for measured in (each for top in stage.move_on for each in _measures(top)):
            text = criterion_text(measured, case.terms, protocol.language)
            barred = _barred_demands(case, side, measured)
            if barred:
                words = case.terms.names(TermKind.DEMAND, barred)
                yield why("criterion-out-of-reach", f"Out of reach: {text}. It asks for: {words}.")
            elif _is_untrained(case, protocol, stage, measured, items, left_out):
                yield why("criterion-not-trained", f"Nothing left in the plan trains for: {text}.")


def _measures(criterion: Criterion) -> Iterator[Measured]:
    if isinstance(criterion, Measured):
        yield criterion
    elif isinstance(criterion, AllOf | AnyOf):
        for part in criterion.parts:
            yield from _measures(part)


def _barred_demands(case: Case, side: Side, criterion: Measured) -> frozenset[str]:
    """Demands of the test that the patient, the surgeon or a contraindication rules out."""
    term = case.terms.by_id.get((TermKind.MEASURE, criterion.measure))
    if term is None:
        return frozenset()
    wide = {demand: case.terms.wider(TermKind.DEMAND, demand) for demand in term.demands}
    barred: set[str] = set()
    for own in case.rules_for(side):
        facts = own.facts
        barred.update(facts.presentation.avoid_demands)
        barred.update(d for limit in facts.limits for d in limit.demands)
        barred.update(_contraindicated(case, facts.conditions))
    return frozenset(demand for demand, wider in wide.items() if wider & barred)


def _contraindicated(case: Case, conditions: frozenset[str]) -> Iterator[str]:
    """Demands that contraindications of the protocols and their cards rule out."""
    used = (entry.card for protocol in case.protocols for entry in protocol.entries())
    cards = [case.library.cards[i] for i in dict.fromkeys(used) if i in case.library.cards]
    for caution in (
        *(each for protocol in case.protocols for each in protocol.cautions),
        *(each for card in cards for each in card.cautions),
    ):
        meant = not caution.conditions or conditions & set(caution.conditions)
        if caution.kind is CautionKind.CONTRAINDICATION and meant:
            yield from caution.demands


def _is_untrained(
    case: Case,
    protocol: Protocol,
    stage: Stage,
    criterion: Measured,
    items: Sequence[PlanItem],
    left_out: Sequence[LeftOut],
) -> bool:
    term = case.terms.by_id.get((TermKind.MEASURE, criterion.measure))
    if term is None or not term.movements:
        return False
    wanted = set(term.movements)

    def trains(card_id: str) -> bool:
        card = case.library.cards.get(card_id)
        return card is not None and bool(
            case.terms.all_wider(TermKind.MOVEMENT, card.movements) & wanted
        )

    entries = [entry for entry in stage.entries() if trains(entry.card)]
    kept = any(trains(item.card) for item in items)
    excluded = {
        (each.entry, reason.code in HARD)
        for each in left_out
        for reason in each.reasons
        if each.protocol == protocol.id
    }
    return bool(entries) and not kept and any((e.id, True) in excluded for e in entries)


# ---- limits of the whole plan --------------------------------------------------------------


def limits_broken(case: Case, items: Sequence[PlanItem]) -> Iterator[Reason]:
    """Time, number of exercises and caps that the plan goes beyond."""
    yield from _time(case, items)
    most = case.most_exercises
    if most is not None and len(items) > most:
        yield why("too-many", f"There are {len(items)} exercises, and at most {most} were wanted.")
    for cap in case.caps():
        used = sum(_use(cap, case, item) for item in items)
        if used > cap.most + 1e-9:
            unit = f"{cap.of.value} a {cap.per.value}"
            yield why("cap-over", f"The plan has {round(used)} {unit}, and {cap.most} are allowed.")


def _use(cap: Cap, case: Case, item: PlanItem) -> float:
    place = place_of(case, item)
    if place is None:
        return 0.0
    rounds = rounds_of(place) * times_of(place)
    return use_of(cap, place, item.dose, rounds, len(item.days) or None)


def _time(case: Case, items: Sequence[PlanItem]) -> Iterator[Reason]:
    """Whether a session is longer than there is time for, or may be when it goes slowly."""
    minutes = case.presentation.minutes
    if minutes is None or not items:
        return
    days: set[Weekday | None] = {day for item in items for day in item.days}
    times = [
        session_s(case, [i for i in items if day is None or not i.days or day in i.days])
        for day in (days or {None})
    ]
    usual, most = (max(each) for each in zip(*times, strict=True))
    on = "On the longest day it" if days else "It"
    if usual > minutes * 60:
        yield why("time-over", f"{on} takes about {_min(usual)} minutes, and there are {minutes}.")
    elif most > minutes * 60:
        text = f"{on} takes about {_min(usual)} minutes, up to {_min(most)} when done slowly."
        yield why("time-may-run-over", text)


def session_s(case: Case, items: Sequence[PlanItem]) -> tuple[int, int]:
    """Usual and most seconds of a session of these exercises, changes between them included."""
    usual = most = 0
    for item in items:
        place = place_of(case, item)
        entry = place.entry if place is not None else None
        rounds = rounds_of(place) * times_of(place) if place is not None else 1
        one, slow, _ = seconds_of(item.dose, entry.sides if entry is not None else None, rounds)
        usual += one + change_over_s()
        most += slow + change_over_s()
    return max(0, usual - change_over_s()), max(0, most - change_over_s())


def _min(seconds: int) -> int:
    return -(-seconds // 60)
