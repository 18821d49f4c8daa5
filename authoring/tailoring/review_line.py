"""A line of progression that goes on in the next stage, from the rung that was reached."""

from __future__ import annotations

from authoring.dosage.placed_dose import dose_here
from authoring.model.base import evolve
from authoring.model.plan import Plan, PlanItem
from authoring.model.vocabulary import Side
from authoring.tailoring.candidates import Candidate, exclusions, scope
from authoring.tailoring.case import Case
from authoring.tailoring.cautioned import plain
from authoring.tailoring.filled import place_of
from authoring.tailoring.review_reasons import because
from authoring.tailoring.select import fitted, pain_at


def continued(plan: Plan, case: Case, item: PlanItem) -> PlanItem:
    """An exercise of the stage that follows, on the rung reached where it builds on another.

    Only where both are of the same card, the rung is allowed in the next stage, no hard rule
    excludes it and it is movement as the start is. A rung above what is proposed counts only
    where the exercise is proposed as written: what pain made easier stays so.

    Args:
        plan: the plan before, with the steps that were confirmed.
        case: the case of the stage that follows.
    """
    place = place_of(case, item)
    if place is None or place.entry is None or place.card.id != item.card:
        return item
    entry, card = place.entry, place.card
    base = next((each for each in plan.items if _is_base(each, item, entry.builds_on)), None)
    now = card.variant(item.variant)
    reached = card.variant(base.variant) if base is not None else None
    if now is None or reached is None or reached not in scope(place):
        return item
    if reached.rung == now.rung or reached.mode is not now.mode:
        return item
    if reached.rung > now.rung and now.id != entry.start:
        return item
    rules = case.rules_for(item.side)
    dose = dose_here(entry, reached)
    if exclusions(place, card, reached, dose, rules, pain_at(place, rules, case)):
        return item
    words = plain(reached.name, card.language)
    reason = because("review-line-goes-on", f"It goes on from the rung that was reached: {words}")
    made = fitted(place, Candidate(card, reached, dose), case, item.permitted or (), (reason,))
    return evolve(item, variant=reached.id, dose=made.dose, reasons=made.reasons)


def _is_base(each: PlanItem, item: PlanItem, entry: str | None) -> bool:
    here = entry is not None and (each.protocol, each.entry) == (item.protocol, entry)
    sides = each.side is item.side or {each.side, item.side} & {Side.BOTH, Side.NONE}
    return here and each.card == item.card and bool(sides)
