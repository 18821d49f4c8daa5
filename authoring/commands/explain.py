"""A plan in plain English for a physiotherapist: what, why, what was left out and why."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from authoring.dosage.shorthand import write_dose
from authoring.model.plan import ChosenStage, LeftOut, Plan, PlanItem, Reason
from authoring.model.text import Text
from authoring.model.vocabulary import Side
from authoring.tailoring.cuts import change_over_s
from authoring.tailoring.overrides import case_of_plan
from authoring.tailoring.release import release
from authoring.tailoring.whole import session_s


def explained(plan: Plan) -> str:
    """The whole plan as lines."""
    return "\n".join(_lines(plan))


def _lines(plan: Plan) -> Iterator[str]:
    yield f"Plan for {plan.label or 'a patient without a label'}, {plan.created:%d %B %Y}"
    freed = release(plan)
    if freed.withheld:
        yield "The exercise pages are withheld: a red flag is answered yes."
    elif not freed.may_print:
        yield "Not to be printed yet."
    for chosen in plan.stages:
        yield from _stage(plan, chosen)
    yield from _time(plan)
    for number, item in enumerate(plan.items, 1):
        yield from _item(plan, number, item)
    yield ""
    left = len(plan.left_out)
    yield f"Left out, {left} of {left + len(plan.items)}" if left else "Nothing was left out."
    for each in plan.left_out:
        yield from _left(plan, each)
    if plan.reasons:
        yield ""
        yield "To know before this goes out"
        yield from _reasons(plan.reasons)


def _stage(plan: Plan, chosen: ChosenStage) -> Iterator[str]:
    protocol = next((each for each in plan.protocols if each.id == chosen.protocol), None)
    stage = next((s for s in protocol.stages if s.id == chosen.stage), None) if protocol else None
    if protocol is None or stage is None:
        return
    title = _words(protocol.title, protocol.language)
    name = _words(stage.name, protocol.language)
    number = protocol.stages.index(stage) + 1
    yield ""
    yield f"Stage {number}, {name}{_on(chosen.side)}: {title}, version {chosen.version}"
    yield from _reasons(chosen.reasons)


def _time(plan: Plan) -> Iterator[str]:
    if not plan.items:
        return
    usual, most = session_s(case_of_plan(plan), plan.items)
    wanted = plan.presentation.minutes if plan.presentation is not None else None
    given = f", of {wanted}" if wanted is not None else ""
    days = ", ".join(day.value.capitalize() for day in plan.days)
    yield ""
    yield (
        f"About {-(-usual // 60)} minutes (up to {-(-most // 60)}){given}, with "
        f"{change_over_s()} s from one exercise to the next{'; ' + days if days else ''}"
    )


def _item(plan: Plan, number: int, item: PlanItem) -> Iterator[str]:
    card = next((each for each in plan.cards if each.id == item.card), None)
    variant = card.variant(item.variant) if card is not None else None
    name = item.variant
    rung = ""
    if card is not None and variant is not None:
        name = _words(variant.name, card.language)
        rung = f", {_rung(variant.rung)}"
    yield ""
    yield f"{number}. {name}{_on(item.side)}{rung}"
    dose = write_dose(item.dose, pretty=True) if item.dose is not None else ""
    yield f"   {dose or 'dose as the card says'}"
    yield from _reasons(item.reasons)


def _rung(rung: int) -> str:
    if rung == 0:
        return "as the card is named"
    return f"progression {rung}" if rung > 0 else f"regression {-rung}"


def _left(plan: Plan, left: LeftOut) -> Iterator[str]:
    card = next((each for each in plan.cards if each.id == left.card), None)
    name = _words(card.title, card.language) if card is not None else left.card
    later = " (later)" if left.later else ""
    yield f" - {name}{_on(left.side)}{later}"
    yield from _reasons(left.reasons)


def _reasons(reasons: Iterable[Reason]) -> Iterator[str]:
    for reason in reasons:
        yield f"     {reason.text} [{reason.code}]"


def _on(side: Side) -> str:
    return f", {side.value}" if side in (Side.LEFT, Side.RIGHT) else ""


def _words(text: Text, language: str) -> str:
    return text.best(language, language).strip()
