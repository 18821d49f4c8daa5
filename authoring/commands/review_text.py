"""A review in plain English: what follows, by which rule, from which source."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from authoring.commands.review import Made
from authoring.dosage.shorthand import write_dose
from authoring.model.plan import Plan, PlanItem, Reason
from authoring.model.review import StageReview
from authoring.model.vocabulary import ReviewOutcome, Side, StageOutcome
from authoring.tailoring.review import ItemOutcome

_ITEM = {
    ReviewOutcome.UP: "a step up",
    ReviewOutcome.SAME: "the same",
    ReviewOutcome.DOWN: "a step down",
    ReviewOutcome.HOLD_INSTEAD: "a hold instead of movement",
    ReviewOutcome.STOP: "stop and reassess",
}
_STAGE = {
    StageOutcome.MOVE_ON: "move on",
    StageOutcome.STAY: "stay",
    StageOutcome.STEP_BACK: "a stage back",
    StageOutcome.STOP: "stop and reassess",
}


def review_explained(made: Made) -> str:
    """The whole review as lines."""
    return "\n".join(_lines(made))


def _lines(made: Made) -> Iterator[str]:
    reviewed, after = made.reviewed, made.plan
    plan, day = reviewed.plan, reviewed.report.date
    yield f"Review of {plan.label or 'a patient without a label'}, {day:%d %B %Y}"
    if reviewed.raised:
        yield "A red flag is answered yes: everything stops."
        yield from _reasons(reviewed.raised)
        return
    for stage in reviewed.stages:
        yield from _stage(plan, after, stage)
    names = {(item.protocol, item.entry, item.card, item.side): item for item in after.items}
    for number, item in enumerate(reviewed.items, 1):
        key = (item.before.protocol, item.before.entry, item.before.card, item.before.side)
        yield from _item(plan, number, item, names.get(key))


def _stage(plan: Plan, after: Plan, found: StageReview) -> Iterator[str]:
    protocol = next((each for each in plan.protocols if each.id == found.protocol), None)
    if protocol is None:
        return
    names = {stage.id: stage.name.best(protocol.language, "en") for stage in protocol.stages}
    waits = ""
    now = {(each.protocol, each.stage) for each in after.stages}
    if found.outcome is StageOutcome.MOVE_ON and (found.protocol, found.to) not in now:
        waits = ", waits for --move-on"
    to = f" to “{names[found.to]}”" if found.to in names else ""
    yield ""
    yield f"Stage “{names[found.stage]}”{_on(found.side)}: {_STAGE[found.outcome]}{to}{waits}"
    yield from _reasons(found.reasons)


def _item(plan: Plan, number: int, found: ItemOutcome, after: PlanItem | None) -> Iterator[str]:
    up = found.outcome is ReviewOutcome.UP
    confirmed = after is not None and any(r.code == "review-confirmed" for r in after.reasons)
    waits = f", waits for --confirm {found.before.id}" if up and not confirmed else ""
    yield ""
    yield f"{number}. {_name(plan, found.before)}: {_ITEM[found.outcome]}{waits}"
    yield f"   before: {_dose(found.before)}"
    then = found.next
    if then is not None and found.outcome is not ReviewOutcome.SAME:
        other = f"{_name(plan, then)}, " if then.variant != found.before.variant else ""
        yield f"   {'then' if waits else 'now'}: {other}{_dose(then)}"
    yield from _reasons(found.reasons)


def _dose(item: PlanItem) -> str:
    return (write_dose(item.dose, pretty=True) if item.dose is not None else "") or "as the card"


def _name(plan: Plan, item: PlanItem) -> str:
    card = next((each for each in plan.cards if each.id == item.card), None)
    variant = card.variant(item.variant) if card is not None else None
    name = variant.name.best(card.language, card.language) if card and variant else item.variant
    return f"{name}{_on(item.side)}"


def _on(side: Side) -> str:
    return f", {side.value}" if side in (Side.LEFT, Side.RIGHT) else ""


def _reasons(reasons: Iterable[Reason]) -> Iterator[str]:
    for reason in reasons:
        yield f"     {reason.text} [{reason.code}]"
        if reason.source:
            yield f"       Source: {reason.source}"
