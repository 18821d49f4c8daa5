"""What is different since the plan before, for the front of the next handout."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from authoring.model.plan import Plan, PlanItem, SinceItem, SinceLast, SinceStage
from authoring.model.review import StageReview
from authoring.model.vocabulary import ReviewOutcome, Side, StageOutcome
from authoring.tailoring.review import ItemOutcome, Reviewed


def since_of(
    reviewed: Reviewed,
    outcomes: Mapping[str, ReviewOutcome],
    moves: Mapping[tuple[str, Side], StageReview],
    plan: Plan,
) -> SinceLast:
    """What changed, stage by stage and exercise by exercise.

    Exercises of a stage that is left are not listed: the line of the stage speaks for them.

    Args:
        outcomes: what was decided for each exercise of the plan before, by id.
        moves: stages that changed, by protocol and side.
        plan: the next plan.
    """
    stages = tuple(
        SinceStage(
            protocol=each.protocol,
            stage=(each.to if key in moves else None) or each.stage,
            side=each.side,
            outcome=each.outcome if key in moves else StageOutcome.STAY,
        )
        for each in reviewed.stages
        for key in ((each.protocol, each.side),)
    )
    return SinceLast(
        plan=reviewed.plan.id,
        made=reviewed.plan.created,
        stages=stages[:40],
        items=tuple(_items(reviewed, outcomes, plan))[:60],
    )


def _items(
    reviewed: Reviewed, outcomes: Mapping[str, ReviewOutcome], plan: Plan
) -> Iterator[SinceItem]:
    now = {_key(item): item for item in plan.items}
    for each in reviewed.items:
        outcome = outcomes[each.before.id]
        after = now.get(_key(each.before))
        if after is None and outcome is not ReviewOutcome.STOP:
            continue
        yield _line(each, outcome, after)


def _line(each: ItemOutcome, outcome: ReviewOutcome, after: PlanItem | None) -> SinceItem:
    before = each.before
    changed = after is not None and (
        after.variant != before.variant
        or (after.dose != before.dose and outcome is not ReviewOutcome.SAME)
    )
    return SinceItem(
        card=before.card,
        variant=before.variant,
        side=before.side,
        outcome=outcome,
        item=after.id if after is not None else None,
        dose=before.dose if changed else None,
    )


def _key(item: PlanItem) -> tuple[str | None, str | None, str, Side]:
    return item.protocol, item.entry, item.card, item.side
