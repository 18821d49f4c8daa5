"""Minutes and volume of one week of a plan."""

from __future__ import annotations

from authoring.dosage.arithmetic.assumptions import USUAL, Assumptions
from authoring.dosage.arithmetic.weights import NOTHING_MEASURED, Known
from authoring.dosage.minutes import Timed, session_minutes
from authoring.dosage.placed_dose import dose_here
from authoring.dosage.programme import Week
from authoring.dosage.progression.placed import days_of, place_of, rounds_of
from authoring.dosage.volume import Trained, add_up
from authoring.model.plan import Plan


def plan_week(
    plan: Plan, week: int = 1, *, known: Known = NOTHING_MEASURED, assume: Assumptions = USUAL
) -> Week:
    """Minutes and volume of one week of a plan, all of its exercises in one session.

    Rounds are those of the exercises' blocks; how often is the dose's own, else the plan's
    days, else the block's and the stage's.

    Args:
        week: counted from 1, for week tables.
        known: measured values in kg that a share of a load is taken of.
    """
    cards = {card.id: card for card in plan.cards}
    timed: list[Timed] = []
    items: list[Trained] = []
    for item in plan.items:
        card = cards.get(item.card)
        place = place_of(plan, item)
        _, stage, block, entry = place if place is not None else (None, None, None, None)
        variant = card.variant(item.variant) if card is not None else None
        dose = item.dose
        if dose is None and variant is not None:
            dose = dose_here(entry, variant)
        sides = entry.sides if entry is not None else None
        timed.append(Timed(dose, sides, block))
        elsewhere = (block.frequency if block else None, stage.frequency if stage else None)
        items.append(
            Trained(
                dose=dose,
                sides=sides,
                often=(days_of(plan, item), *elsewhere),
                rounds=rounds_of(block),
                regions=card.regions if card is not None else (),
                movements=card.movements if card is not None else (),
            )
        )
    minutes = session_minutes(timed, week=week, assume=assume)
    return Week(week, minutes, add_up(items, week, known=known, assume=assume))
