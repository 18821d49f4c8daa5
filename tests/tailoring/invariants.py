"""What must hold of any plan, read from plan and library without the rules under test."""

from __future__ import annotations

from collections.abc import Iterator

from authoring.dosage.arithmetic.timing import timing
from authoring.model.card import Card, Variant
from authoring.model.library import Library
from authoring.model.patient import Presentation
from authoring.model.plan import Plan, PlanItem
from authoring.model.protocol import Entry, Protocol, Stage
from authoring.model.vocabulary import Answer, CautionKind, Mode, Side, TermKind
from authoring.tailoring.reasons import CODES
from authoring.tailoring.release import release
from authoring.tailoring.request import Request

HOUSEHOLD = {"chair", "wall", "table", "other_limb"}
"""What is taken to be in every home where nobody asked (common practice, no source)."""


def up(library: Library, kind: TermKind, term_id: str) -> set[str]:
    """A term and all wider ones."""
    found: set[str] = set()
    at: str | None = term_id
    while at and at not in found:
        found.add(at)
        term = library.manifest.term(kind, at)
        at = term.broader if term else None
    return found


def ups(library: Library, kind: TermKind, ids: object) -> set[str]:
    return {wide for each in ids for wide in up(library, kind, each)}  # type: ignore[attr-defined]


def faults(library: Library, patient: Presentation, ask: Request, plan: Plan) -> Iterator[str]:
    """Every invariant that a plan breaks."""
    for item in plan.items:
        card = library.cards[item.card]
        variant = card.variant(item.variant)
        if variant is None:
            yield f"{item.id}: the variant is not there"
            continue
        yield from excluded(library, patient, plan, item, card, variant)
        yield from unexplained(library, item, card, variant)
    yield from accounted(library, ask, plan)
    yield from limits(library, patient, ask, plan)
    yield from flags(patient, plan)
    yield from reasons(plan)


def excluded(
    library: Library,
    patient: Presentation,
    plan: Plan,
    item: PlanItem,
    card: Card,
    variant: Variant,
) -> Iterator[str]:
    conditions = ups(library, TermKind.CONDITION, patient.conditions)
    demands = ups(library, TermKind.DEMAND, variant.demands)
    movements = ups(library, TermKind.MOVEMENT, card.movements)
    position = ups(library, TermKind.POSITION, [variant.position] if variant.position else [])
    for caution in (*card.cautions, *variant.cautions):
        if caution.kind is CautionKind.CONTRAINDICATION:
            meant = not caution.conditions or conditions & set(caution.conditions)
            if meant and (not caution.demands or demands & set(caution.demands)):
                yield f"{item.id}: contraindicated"
    if demands & set(patient.avoid_demands) or position & set(patient.avoid_positions):
        yield f"{item.id}: to be avoided"
    if movements & set(patient.avoid_movements):
        yield f"{item.id}: movement to be avoided"
    yield from not_at_hand(library, patient, item, variant)
    yield from not_yet(library, patient, plan, item, demands)


def not_at_hand(
    library: Library, patient: Presentation, item: PlanItem, variant: Variant
) -> Iterator[str]:
    supports = HOUSEHOLD if patient.supports is None else {e.value for e in patient.supports}
    names = [*(each.kit for each in patient.kit), *(e.replace("_", "-") for e in supports)]
    owned = {wide for each in names for wide in up(library, TermKind.KIT, each)}
    for need in variant.equipment:
        if not need.spare and need.kit not in owned:
            yield f"{item.id}: {need.kit} is not owned"
    kit = {each.kit.replace("-", "_") for each in patient.kit}
    for support in variant.supports if patient.supports is not None else ():
        if support.kind not in (patient.supports or ()) and support.kind.value not in kit:
            yield f"{item.id}: {support.kind} is not at hand"


def not_yet(
    library: Library, patient: Presentation, plan: Plan, item: PlanItem, demands: set[str]
) -> Iterator[str]:
    """What a stage followed on this side, or the surgeon, rules out."""
    for chosen in plan.stages:
        here = chosen.side in (item.side, Side.NONE, Side.BOTH) or item.side is Side.BOTH
        stage = stage_of(library.protocols[chosen.protocol], chosen.stage)
        bans = [ban for ban in stage.not_allowed if ban.until_week is None]
        if here and any(demands & set(ban.demands) for ban in bans):
            yield f"{item.id}: not allowed in {stage.id}"
    for limit in patient.limits:
        current = limit.until is None or limit.until >= plan.created
        if current and limit.side in (Side.NONE, Side.BOTH) and demands & set(limit.demands):
            yield f"{item.id}: against the surgeon's limit"


def stage_of(protocol: Protocol, stage_id: str) -> Stage:
    return next(stage for stage in protocol.stages if stage.id == stage_id)


def entry_of(library: Library, item: PlanItem) -> Entry | None:
    protocol = library.protocols.get(item.protocol or "")
    return next((e for e in protocol.entries() if e.id == item.entry), None) if protocol else None


def unexplained(library: Library, item: PlanItem, card: Card, variant: Variant) -> Iterator[str]:
    """No harder rung than is written, no hold that is not permitted, never without a reason."""
    if not item.reasons:
        yield f"{item.id}: no reason"
    entry = entry_of(library, item)
    if entry is None or entry.card != card.id:
        return
    start = card.variant(entry.start)
    if start is None:
        return
    if variant.rung > start.rung:
        yield f"{item.id}: harder than written"
    moves = start.mode is not Mode.ISOMETRIC
    if moves and variant.mode is Mode.ISOMETRIC and variant.id not in entry.may_hold:
        yield f"{item.id}: a hold that nobody permitted"
    allowed = {entry.start, *entry.allowed, *entry.may_hold}
    if entry.allowed and variant.id not in allowed:
        yield f"{item.id}: not allowed by its entry"


def accounted(library: Library, ask: Request, plan: Plan) -> Iterator[str]:
    """Every entry of the stages followed, and every card asked for, is in the plan or left out."""
    there = {(x.protocol, x.entry) for x in plan.items}
    there |= {(x.protocol, x.entry) for x in plan.left_out}
    for chosen in plan.stages:
        for entry in stage_of(library.protocols[chosen.protocol], chosen.stage).entries():
            if (chosen.protocol, entry.id) not in there:
                yield f"{entry.id}: dropped silently"
    cards = {x.card for x in plan.items} | {x.card for x in plan.left_out}
    yield from (f"{card}: dropped silently" for card in ask.cards if card not in cards)
    yield from (f"{x.card}: left out for no reason" for x in plan.left_out if not x.reasons)


def limits(library: Library, patient: Presentation, ask: Request, plan: Plan) -> Iterator[str]:
    """Never over the time or the number without saying so."""
    said = {reason.code for reason in plan.reasons}
    most = ask.most_exercises
    if most is not None and len(plan.items) > most and "too-many" not in said:
        yield "more exercises than asked for"
    if patient.minutes is None:
        return
    for day in plan.days or (None,):
        items = [i for i in plan.items if not i.days or day in i.days]
        known = [
            timing(item.dose, entry.sides if (entry := entry_of(library, item)) else None).seconds
            for item in items
            if item.dose is not None
        ]
        high = sum(each.high or 0 for each in known)
        if high > patient.minutes * 60 and not said & {"time-over", "time-may-run-over"}:
            yield f"{high} s do not fit {patient.minutes} minutes, and nobody says so"


def flags(patient: Presentation, plan: Plan) -> Iterator[str]:
    answers = {(a.protocol, a.flag): a.answer for a in patient.red_flags}
    asked = [
        answers.get((protocol.id, flag.id), Answer.NOT_ASKED)
        for protocol in plan.protocols
        for flag in protocol.red_flags
    ]
    freed = release(plan)
    if (Answer.YES in asked) != freed.withheld:
        yield "a red flag answered yes must withhold the exercises"
    if Answer.NOT_ASKED in asked and Answer.YES not in asked and freed.may_print:
        yield "a red flag that was not asked must block the print"


def reasons(plan: Plan) -> Iterator[str]:
    found = [
        *plan.reasons,
        *(reason for item in plan.items for reason in item.reasons),
        *(reason for left in plan.left_out for reason in left.reasons),
        *(reason for stage in plan.stages for reason in stage.reasons),
    ]
    yield from (f"{each.code} is not in the registry" for each in found if each.code not in CODES)
    yield from (f"{each.code} says nothing" for each in found if not each.text.strip())
