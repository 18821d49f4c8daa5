""" "Since last time": what a review changed, in a few short lines at the front."""

from __future__ import annotations

from collections.abc import Iterator

from authoring.handout.context import Context
from authoring.handout.document import Bullets, Notes, Span
from authoring.handout.front import dose_headline, exercise_name
from authoring.handout.sheet import Item, Sheet
from authoring.model.base import evolve
from authoring.model.plan import Plan, SinceItem, SinceLast, SinceStage
from authoring.model.vocabulary import ReviewOutcome, Side, StageOutcome


def since_notes(sheet: Sheet, context: Context) -> Notes | None:
    """The comparison of a plan with the one before it; None where nothing came before."""
    plan = sheet.plan
    if plan is None or plan.since is None:
        return None
    lines = (*_stages(plan, plan.since, context), *_items(plan, plan.since, sheet, context))
    if not lines:
        return None
    body = (Bullets(tuple((Span(line),) for line in lines)),)
    return Notes(context.say("since.heading"), body, framed=True)


def _stages(plan: Plan, since: SinceLast, context: Context) -> Iterator[str]:
    for each in since.stages:
        protocol = next((p for p in plan.protocols if p.id == each.protocol), None)
        stage = next((s for s in protocol.stages if s.id == each.stage), None) if protocol else None
        if protocol is None or stage is None or each.outcome is StageOutcome.STAY:
            continue
        name = context.text(stage.name, protocol.language)
        line = _stage_words(each, name, context)
        yield _on(each.side, line, context) if _apart(plan) else line


def _stage_words(each: SinceStage, name: str, context: Context) -> str:
    if each.outcome is StageOutcome.MOVE_ON:
        return context.say("since.moved_on", name=name)
    return context.say("since.moved_back", name=name)


def _items(plan: Plan, since: SinceLast, sheet: Sheet, context: Context) -> Iterator[str]:
    placed = {item.id: item for item in plan.items}
    printed = {(item.card.id, item.variant.id, item.side): item for item in sheet.items()}
    same = [each for each in since.items if each.outcome is ReviewOutcome.SAME]
    for each in (each for each in since.items if each not in same):
        after = placed.get(each.item or "")
        key = (after.card, after.variant, after.side) if after is not None else None
        found = printed.get(key) if key is not None else None
        name = _name(plan, each, context)
        if not name:
            continue
        line = _line(each, name, found, context)
        yield _on(each.side, line, context) if _apart(plan) else line
    names = dict.fromkeys(name for each in same if (name := _name(plan, each, context)))
    if names:
        yield context.say("since.same", names=", ".join(names))


def _name(plan: Plan, each: SinceItem, context: Context) -> str:
    card = next((card for card in plan.cards if card.id == each.card), None)
    variant = card.variant(each.variant) if card is not None else None
    return context.text(variant.name, card.language) if card and variant else ""


def _line(each: SinceItem, name: str, found: Item | None, context: Context) -> str:
    if each.outcome is ReviewOutcome.STOP or found is None:
        return context.say("since.stop", name=name)
    after = exercise_name(found, context)
    if after != name:
        return context.say(_CHANGED[each.outcome], name=name, after=after)
    before = _as_before(found, each)
    was = dose_headline(before, context) if before is not None else ""
    now = dose_headline(found, context)
    if was and now and was != now:
        return context.say(_DOSED[each.outcome], name=name, before=was, after=now)
    return context.say(_PLAIN[each.outcome], name=name)


_CHANGED = {
    ReviewOutcome.UP: "since.up_to",
    ReviewOutcome.DOWN: "since.down_to",
    ReviewOutcome.HOLD_INSTEAD: "since.hold_instead",
}
_DOSED = {
    ReviewOutcome.UP: "since.up_dose",
    ReviewOutcome.DOWN: "since.down_dose",
    ReviewOutcome.HOLD_INSTEAD: "since.down_dose",
}
_PLAIN = {
    ReviewOutcome.UP: "since.up",
    ReviewOutcome.DOWN: "since.down",
    ReviewOutcome.HOLD_INSTEAD: "since.down",
}


def _as_before(found: Item, each: SinceItem) -> Item | None:
    """The exercise with the dose that it had before, None where that is not kept."""
    return evolve(found, dose=each.dose) if each.dose is not None else None


def _apart(plan: Plan) -> bool:
    """Whether the plan tells the sides apart."""
    sides = {item.side for item in plan.items} | {each.side for each in plan.stages}
    return {Side.LEFT, Side.RIGHT} <= sides


def _on(side: Side, line: str, context: Context) -> str:
    """The line, with its side in front where the plan tells sides apart."""
    if side is Side.LEFT:
        return context.say("since.left", line=line)
    return context.say("since.right", line=line) if side is Side.RIGHT else line
