"""Another stage for a protocol on a side; every other exercise stays as it is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from authoring.model.base import evolve
from authoring.model.library import Library
from authoring.model.patient import Presentation
from authoring.model.plan import ChosenStage, LeftOut, Plan, PlanItem
from authoring.model.review import StageReview
from authoring.model.vocabulary import Side, StageOutcome
from authoring.tailoring.case import Case
from authoring.tailoring.embed import cards_by_id, terms_used
from authoring.tailoring.overrides import case_of_plan, checked, named_once
from authoring.tailoring.propose import propose
from authoring.tailoring.request import Request, StageWish
from authoring.tailoring.review_facts import ReviewError
from authoring.tailoring.review_line import continued
from authoring.tailoring.review_reasons import because

Moves = Mapping[tuple[str, Side], StageReview]


def with_stages(
    plan: Plan, presentation: Presentation, moves: Moves, library: Library | None
) -> Plan:
    """The plan with the stages that follow, tailored by the same rules as a new one.

    Raises:
        ReviewError: a card of a stage that follows is neither in the plan nor in the library.
    """
    case = case_of_plan(plan, library)
    made = propose(case.library, presentation, _asked(plan, case, moves))
    if any(_is_missing(left) and _is_moved(left, moves) for left in made.left_out):
        raise ReviewError(
            "The plan does not hold the cards of the stage that follows; name its library, so "
            "that they are found."
        )
    before = {_key(item): item for item in plan.items}
    items = [item for item in plan.items if not _is_moved(item, moves)]
    follows = case_of_plan(evolve(made, cards=cards_by_id((*made.cards, *plan.cards))), library)
    items += [
        before.get(_key(item)) or continued(plan, follows, item)
        for item in made.items
        if _is_moved(item, moves)
    ]
    left_out = [left for left in plan.left_out if not _is_moved(left, moves)]
    left_out += [left for left in made.left_out if _is_moved(left, moves)]
    cards = cards_by_id((*made.cards, *plan.cards))
    ordered = sorted(items, key=lambda item: _order(plan, item))
    changed = evolve(
        plan,
        presentation=presentation,
        stages=tuple(_reasoned(plan, each, moves) for each in made.stages),
        items=named_once(tuple(ordered))[:60],
        left_out=tuple(left_out)[:500],
        cards=cards,
        days=plan.days or made.days,
        terms=terms_used((*plan.protocols, *cards, presentation), case.terms),
    )
    return checked(changed, case_of_plan(changed, library))


def _reasoned(plan: Plan, made: ChosenStage, moves: Moves) -> ChosenStage:
    """A stage with why it is followed: the review, or what the plan said before."""
    mine = [
        move
        for (protocol, side), move in moves.items()
        if (protocol, move.to) == (made.protocol, made.stage)
        and (side is made.side or made.side in (Side.BOTH, Side.NONE))
    ]
    if not mine:
        same = [e for e in plan.stages if (e.protocol, e.stage) == (made.protocol, made.stage)]
        return evolve(made, reasons=same[0].reasons) if same else made
    back = mine[0].outcome is StageOutcome.STEP_BACK
    reason = because("stage-moved-back" if back else "stage-moved-on")
    gaps = tuple(each for each in made.reasons if each.code != "stage-asked")
    return evolve(made, reasons=(reason, *mine[0].reasons, *gaps)[:60])


def _asked(plan: Plan, case: Case, moves: Moves) -> Request:
    return Request(
        today=plan.created,
        protocols=tuple(each.id for each in plan.protocols),
        cards=tuple(item.card for item in plan.items if item.protocol is None),
        stages=tuple(_wishes(plan, case, moves)),
        most_exercises=plan.most_exercises,
        clinician=plan.clinician,
        plan_id=plan.id,
    )


def _wishes(plan: Plan, case: Case, moves: Moves) -> Iterator[StageWish]:
    for chosen in plan.stages:
        for side in (chosen.side,) if chosen.side in case.sides else case.sides:
            move = moves.get((chosen.protocol, side))
            stage = (move.to if move is not None else None) or chosen.stage
            yield StageWish(chosen.protocol, stage, side)


def _is_missing(left: LeftOut) -> bool:
    return any(reason.code == "card-missing" for reason in left.reasons)


def _is_moved(each: PlanItem | LeftOut, moves: Moves) -> bool:
    """Whether an exercise belongs to a protocol and side whose stage changes."""
    return any(
        each.protocol == protocol
        and (each.side is side or Side.BOTH in (each.side, side) or Side.NONE in (each.side, side))
        for protocol, side in moves
    )


def _key(item: PlanItem) -> tuple[str | None, str | None, str, Side]:
    return item.protocol, item.entry, item.card, item.side


def _order(plan: Plan, item: PlanItem) -> tuple[int, int]:
    for number, protocol in enumerate(plan.protocols):
        if protocol.id == item.protocol:
            names = [entry.id for entry in protocol.entries()]
            return number, names.index(item.entry) if item.entry in names else len(names)
    return len(plan.protocols), 0
