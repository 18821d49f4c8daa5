"""What follows for each stage: move on, stay, a stage back, or stop."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from attrs import frozen

from authoring.model.criterion import Criterion
from authoring.model.plan import PlanItem, Reason
from authoring.model.protocol import Protocol, Stage
from authoring.model.review import Review, StageReview
from authoring.model.vocabulary import BranchAction, PauseAction, ReviewOutcome, Side, StageOutcome
from authoring.tailoring.case import Case
from authoring.tailoring.criteria import Known, Verdict, judge
from authoring.tailoring.criterion_text import criterion_text
from authoring.tailoring.filled import place_of
from authoring.tailoring.pain import rule_for
from authoring.tailoring.review_break import pause_rule, pause_text
from authoring.tailoring.review_facts import reported
from authoring.tailoring.review_pain import steps_back
from authoring.tailoring.review_reasons import because, cited
from authoring.tailoring.stages import branch_reasons, branches_met, gate_to, known_for

GRAVITY = (StageOutcome.MOVE_ON, StageOutcome.STAY, StageOutcome.STEP_BACK, StageOutcome.STOP)
"""Outcomes of a stage, mildest first."""


@frozen
class _Found:
    outcome: StageOutcome
    reason: Reason
    to: str | None = None  # the stage that is meant, where it is not the neighbour


def stage_reviews(
    case: Case,
    report: Review,
    items: Sequence[PlanItem],
    outcomes: Mapping[str, ReviewOutcome],
    flags: Sequence[Reason],
    *,
    flags_open: bool,
    missed: int = 0,
) -> Iterator[StageReview]:
    """What follows for every stage that is followed, side by side where the sides differ.

    Args:
        items: exercises of the plan.
        outcomes: what follows for each exercise, by id.
        flags: reasons of red flags that are answered yes.
        flags_open: whether a red flag was not asked again.
        missed: days without a session up to the review.
    """
    for protocol, stage, side in case.followed():
        for own in (side,) if side in case.sides else case.sides:
            mine = [item for item in items if _is_of(item, protocol, stage, own)]
            if flags:
                found = [_Found(StageOutcome.STOP, each) for each in flags]
            else:
                found = [
                    *_findings(case, missed, protocol, stage, own),
                    *_pain(case, report, mine, outcomes),
                    *_flags_open(flags_open=flags_open),
                ]
            yield _decided(protocol, stage, own, found)


def _flags_open(*, flags_open: bool) -> Iterator[_Found]:
    if flags_open:
        yield _Found(StageOutcome.STAY, because("stage-flag-not-asked"))


def _is_of(item: PlanItem, protocol: Protocol, stage: Stage, side: Side) -> bool:
    here = item.protocol == protocol.id and item.stage == stage.id
    return here and (item.side is side or Side.BOTH in (item.side, side) or side is Side.NONE)


def _decided(protocol: Protocol, stage: Stage, side: Side, found: Sequence[_Found]) -> StageReview:
    at = protocol.stages.index(stage)
    outcome = max((each.outcome for each in found), key=GRAVITY.index, default=StageOutcome.STAY)
    reasons = [each.reason for each in found if each.outcome is outcome]
    if outcome is StageOutcome.STEP_BACK and at == 0:
        outcome = StageOutcome.STAY
        reasons.append(because("stage-first"))
    to = _leads_to(protocol, at, outcome, found)
    return StageReview(
        protocol=protocol.id,
        stage=stage.id,
        side=side,
        outcome=outcome,
        to=protocol.stages[to].id if to is not None else None,
        reasons=tuple(dict.fromkeys(reasons))[:60],
    )


def _leads_to(
    protocol: Protocol, at: int, outcome: StageOutcome, found: Sequence[_Found]
) -> int | None:
    """Index of the stage that follows; of several that findings name the earliest."""
    usual = {StageOutcome.MOVE_ON: at + 1, StageOutcome.STEP_BACK: at - 1}.get(outcome)
    names = [stage.id for stage in protocol.stages]
    meant = [names.index(each.to) for each in found if each.outcome is outcome and each.to in names]
    return usual if usual is None else min(meant, default=usual)


def _findings(
    case: Case, missed: int, protocol: Protocol, stage: Stage, side: Side
) -> Iterator[_Found]:
    known = known_for(case.facts[side].presentation, protocol, side, case.ask)
    back = [each for each in stage.step_back if judge(each, known) is Verdict.MET]
    if back:
        text = f"This leads a stage back: {_texts(back, case, protocol)}."
        yield _Found(
            StageOutcome.STEP_BACK, because("stage-back-met", text, _source(back, protocol))
        )
    branches = tuple(_branches(protocol, stage, known))
    yield from branches
    yield from _after_break(stage, missed)
    if not any(each.to for each in branches if each.outcome is StageOutcome.MOVE_ON):
        yield from _gates(case, protocol, stage, known)
        yield from _sessions(stage, known)


def _after_break(stage: Stage, missed: int) -> Iterator[_Found]:
    rule = pause_rule(stage, missed)
    if rule is None or rule.action is PauseAction.CARRY_ON:
        return
    back = rule.action is PauseAction.STEP_BACK
    outcome = StageOutcome.STEP_BACK if back else StageOutcome.STAY
    yield _Found(outcome, because("stage-pause", pause_text(rule)))


def _branches(protocol: Protocol, stage: Stage, known: Known) -> Iterator[_Found]:
    leads = {
        BranchAction.STAY: StageOutcome.STAY,
        BranchAction.STEP_BACK: StageOutcome.STEP_BACK,
        BranchAction.REFER: StageOutcome.STOP,
        BranchAction.USE_PROTOCOL: StageOutcome.STAY,
    }
    names = [each.id for each in protocol.stages]
    for branch in branches_met(stage, known):
        text = next(branch_reasons(protocol, (branch,))).text
        reason = because("stage-branch", text)
        if branch.then is BranchAction.GO_TO_STAGE:
            yield _goes_to(branch.stage, stage, names, reason)
        else:
            yield _Found(leads.get(branch.then, StageOutcome.MOVE_ON), reason)


def _goes_to(to: str | None, stage: Stage, names: Sequence[str], reason: Reason) -> _Found:
    """A finding that names a stage: a later one is proposed, an earlier one is a step back."""
    if to not in names or to == stage.id:
        return _Found(StageOutcome.STAY, reason)
    later = names.index(to) > names.index(stage.id)
    return _Found(StageOutcome.MOVE_ON if later else StageOutcome.STEP_BACK, reason, to)


def _gates(case: Case, protocol: Protocol, stage: Stage, known: Known) -> Iterator[_Found]:
    """Criteria to move on from here and to enter the next stage, all of which must be met."""
    at = protocol.stages.index(stage)
    if at + 1 == len(protocol.stages):
        yield _Found(StageOutcome.STAY, because("stage-last"))
        return
    gate = tuple(dict.fromkeys((*stage.move_on, *gate_to(protocol, at + 1))))
    if not gate:
        yield _Found(StageOutcome.STAY, because("stage-no-criteria"))
        return
    for verdict, code, words in (
        (Verdict.NOT_MET, "stage-not-met", "Not met"),
        (Verdict.NOT_TESTED, "stage-not-tested", "Not tested"),
    ):
        found = [each for each in gate if judge(each, known) is verdict]
        if found:
            text = f"{words}: {_texts(found, case, protocol)}."
            yield _Found(StageOutcome.STAY, because(code, text))
    text = f"Met: {_texts(gate, case, protocol)}."
    yield _Found(StageOutcome.MOVE_ON, because("stage-criteria-met", text, _source(gate, protocol)))


def _texts(criteria: Iterable[Criterion], case: Case, protocol: Protocol) -> str:
    texts = (criterion_text(each, case.terms, protocol.language) for each in criteria)
    return "; ".join(dict.fromkeys(texts))


def _source(criteria: Iterable[Criterion], protocol: Protocol) -> str:
    return cited((source for each in criteria for source in each.sources), protocol)


def _sessions(stage: Stage, known: Known) -> Iterator[_Found]:
    least = stage.minimum_sessions
    if least is None:
        return
    so_far = known.so_far
    done = so_far.sessions_done if so_far is not None and so_far.stage == stage.id else None
    if done is None:
        yield _Found(StageOutcome.STAY, because("stage-sessions-not-known"))
    elif done < least:
        text = f"{done} sessions were done in the stage, and {least} come before moving on."
        yield _Found(StageOutcome.STAY, because("stage-sessions-few", text))


_EASES = frozenset({ReviewOutcome.DOWN, ReviewOutcome.HOLD_INSTEAD, ReviewOutcome.STOP})


def _pain(
    case: Case, report: Review, items: Sequence[PlanItem], outcomes: Mapping[str, ReviewOutcome]
) -> Iterator[_Found]:
    """Pain with the stage's exercises: it never moves on while one asks for something easier."""
    for item in items:
        place = place_of(case, item)
        found = reported(report.items, item.id)
        rule = rule_for(place, case.clinic_rule) if place is not None else None
        if steps_back(rule, found):
            text = f"Pain with “{item.id}” lies in a band that asks for the stage before."
            yield _Found(StageOutcome.STEP_BACK, because("stage-pain-back", text))
        if outcomes.get(item.id) in _EASES:
            text = f"“{item.id}” asks for something easier or a stop."
            yield _Found(StageOutcome.STAY, because("stage-pain", text))
        if found is None or found.pain_during is None:
            text = f"Pain with “{item.id}” is not known."
            yield _Found(StageOutcome.STAY, because("stage-pain-not-known", text))
