"""The next plan of a review: what the clinician confirmed steps up or moves on, the rest stays."""

from __future__ import annotations

import uuid
from collections.abc import Collection, Iterator, Mapping, Sequence

from attrs import frozen

from authoring.model.base import evolve
from authoring.model.library import Library
from authoring.model.patient import Presentation, StageSoFar
from authoring.model.plan import LeftOut, Plan, PlanItem, Reason
from authoring.model.review import StageReview
from authoring.model.vocabulary import ReviewOutcome, Side, StageOutcome
from authoring.tailoring.embed import cards_by_id, terms_used
from authoring.tailoring.overrides import Decision, case_of_plan, checked
from authoring.tailoring.reasons import CODES
from authoring.tailoring.review import ItemOutcome, Reviewed
from authoring.tailoring.review_facts import ReviewError
from authoring.tailoring.review_move import with_stages
from authoring.tailoring.review_reasons import because
from authoring.tailoring.review_since import since_of

StageKey = tuple[str, Side]
"""A protocol's id and the side that its stage is for."""


def confirm(
    reviewed: Reviewed,
    by: Decision,
    *,
    up: Collection[str] = (),
    on: Collection[StageKey] = (),
    library: Library | None = None,
) -> Plan:
    """The next plan.

    Steps down, holds and stops are taken as proposed; the clinician overrules them with
    ``authoring.tailoring.overrides``. A step up that is not in ``up`` stays the same, a stage
    not in ``on`` stays. With a red flag answered yes nothing changes but the answers: the
    exercise pages are then withheld.

    Args:
        by: who confirms, and when.
        up: ids of exercises whose step up is confirmed.
        on: protocol and side of each stage whose move on is confirmed.
        library: cards of the next stage, where the plan does not embed them.

    Raises:
        ReviewError: something is confirmed that is not proposed, nobody confirms, or a card of
            the stage that follows is not there.
    """
    _refuse(reviewed, by, up, on)
    if reviewed.raised:
        return _next(reviewed, by, reviewed.plan.items, reviewed.plan.left_out, library)
    done = [_taken(each, by, confirmed=each.before.id in up) for each in reviewed.items]
    items = tuple(each.item for each in done if each.item is not None)
    gone = tuple(each.left for each in done if each.left is not None)
    moves = _moves(reviewed, on)
    plan = _next(reviewed, by, items, (*reviewed.plan.left_out, *gone)[-500:], library)
    if moves:
        plan = with_stages(plan, _with_stages_begun(plan, moves), moves, library)
    outcomes = {each.before.before.id: each.outcome for each in done}
    since = since_of(reviewed, outcomes, moves, plan)
    return evolve(plan, since=since)


def _refuse(
    reviewed: Reviewed, by: Decision, up: Collection[str], on: Collection[StageKey]
) -> None:
    odd = sorted(set(up) - set(reviewed.steps_up()))
    if odd:
        raise ReviewError(
            f"No step up is proposed for {odd[0]!r}, so there is none to confirm; take it out, or "
            "change the plan by hand."
        )
    proposed = {
        (each.protocol, each.side)
        for each in reviewed.stages
        if each.outcome is StageOutcome.MOVE_ON
    }
    if set(on) - proposed:
        raise ReviewError(
            "No move to the next stage is proposed there, so there is none to confirm; take it "
            "out, or choose the stage by hand."
        )
    if (up or on) and not by.who.strip():
        raise ReviewError("Say who confirms: a step up is kept with a name.")


def _moves(reviewed: Reviewed, on: Collection[StageKey]) -> Mapping[StageKey, StageReview]:
    return {
        (each.protocol, each.side): each
        for each in reviewed.stages
        if each.to is not None
        and (each.outcome is StageOutcome.STEP_BACK or (each.protocol, each.side) in on)
    }


@frozen
class _Taken:
    """What became of one exercise."""

    before: ItemOutcome
    outcome: ReviewOutcome
    item: PlanItem | None
    left: LeftOut | None = None


def _taken(each: ItemOutcome, by: Decision, *, confirmed: bool) -> _Taken:
    outcome, item, reasons = each.outcome, each.next, each.reasons
    if outcome is ReviewOutcome.UP:
        if confirmed:
            reasons = (because("review-confirmed", f"{by.who} confirmed the step up."), *reasons)
        else:
            outcome, item = ReviewOutcome.SAME, each.same
            reasons = (because("review-waits-for-confirmation"), *reasons)
    if item is None:
        return _Taken(each, outcome, None, _waits(each.before, reasons))
    changed = item.variant != each.before.variant
    kept = tuple(_kept(each.before.reasons, changed=changed))
    item = evolve(
        item,
        reasons=(*reasons, *kept)[:60],
        seen_done=None if changed else item.seen_done,
    )
    return _Taken(each, outcome, item)


def _waits(item: PlanItem, reasons: tuple[Reason, ...]) -> LeftOut:
    return LeftOut(
        protocol=item.protocol,
        stage=item.stage,
        entry=item.entry,
        card=item.card,
        side=item.side,
        later=True,
        reasons=reasons[:60],
        overrides=item.overrides,
    )


_OF_VARIANT = frozenset(
    {
        "as-written",
        "same-rung",
        "easier-rung",
        "start-excluded",
        "easiest-left",
        "hold-permitted",
        "irritability-high",
    }
)
_OF_PAIN = frozenset({"pain-allows", "pain-easier", "pain-step-back", "pain-no-rule"})


def _kept(reasons: Sequence[Reason], *, changed: bool) -> Iterator[Reason]:
    """Reasons that still hold: not those of the review before, nor of another variant."""
    gone = _OF_PAIN | (_OF_VARIANT if changed else frozenset())
    return (each for each in reasons if each.code in CODES and each.code not in gone)


def _next(
    reviewed: Reviewed,
    by: Decision,
    items: tuple[PlanItem, ...],
    left_out: tuple[LeftOut, ...],
    library: Library | None,
) -> Plan:
    plan, report = reviewed.plan, reviewed.report
    made = evolve(
        plan,
        id=str(uuid.uuid5(uuid.NAMESPACE_OID, f"{plan.id}/{report.id}/{report.date}")),
        created=report.date,
        clinician=by.who or report.clinician or plan.clinician,
        presentation=reviewed.presentation,
        items=items,
        left_out=left_out,
        review_on=None,
        since=None,
    )
    case = case_of_plan(made, library)
    cards = cards_by_id(plan.cards)
    terms = terms_used((*made.protocols, *cards, reviewed.presentation), case.terms)
    return checked(evolve(made, terms=terms), case)


def _with_stages_begun(plan: Plan, moves: Mapping[StageKey, StageReview]) -> Presentation:
    """The presentation with the day on which each stage that follows begins."""
    presentation = plan.presentation or Presentation(id=plan.id)
    so_far = list(presentation.stages)
    for (protocol, side), move in moves.items():
        mine = [s for s in so_far if s.protocol == protocol and s.side in (side, Side.NONE)]
        shared = [s for s in so_far if s.protocol == protocol and s.side is Side.BOTH]
        last = next(iter((*mine, *shared)), None)
        so_far = [each for each in so_far if each not in mine]
        so_far.append(
            StageSoFar(
                protocol=protocol,
                stage=move.to or move.stage,
                side=side,
                began=plan.created,
                programme_began=last.programme_began if last is not None else None,
                sessions_done=0,
                sessions_in_all=last.sessions_in_all if last is not None else None,
            )
        )
    return evolve(presentation, stages=tuple(so_far[-40:]))
