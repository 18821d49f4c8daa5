"""Moves between stages, from the report to the next plan.

The stages are the small library's: "calm" until pain next morning is 2 or less and two weeks have
passed, then "strong". What follows is worked out from that by hand.
"""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from authoring.model.base import evolve
from authoring.model.pacing import PauseRule
from authoring.model.patient import SideState, TestResult
from authoring.model.plan import Plan
from authoring.model.protocol import Branch, Protocol
from authoring.model.review import ItemReview
from authoring.model.vocabulary import (
    BranchAction,
    Comparator,
    PauseAction,
    ReviewOutcome,
    Side,
    Sides,
    StageOutcome,
    Unit,
    WindowKind,
)
from authoring.tailoring.overrides import Decision
from authoring.tailoring.review import Reviewed, review
from authoring.tailoring.review_confirm import confirm
from tests.checks.build import little_pain, say
from tests.tailoring.reports import GOOD, LATER, report_of
from tests.tailoring.values import (
    PROTOCOL,
    TODAY,
    all_no,
    codes,
    only,
    patient,
    put,
    small_library,
    small_plan,
)

BY = Decision(who="J. Example", date=LATER)
CALM, STRONG = "stages[0]", "stages[1]"
LINKED = put(PROTOCOL, f"{STRONG}.blocks[0].entries[0].builds_on", "calm-raise")


def plan_in(stage: str, protocol: Protocol = LINKED, **facts: Any) -> Plan:
    given = {
        "injured": TODAY - dt.timedelta(days=30),
        "morning_pain": 1.0,
        "red_flags": all_no(protocol),
        "days_per_week": 3,
        **facts,
    }
    return small_plan(patient(**given), small_library(protocol=protocol), stage)


def pain_of(value: float, side: Side = Side.RIGHT, date: dt.date = LATER) -> TestResult:
    return TestResult(
        measure="pain",
        value=value,
        unit=Unit.PAIN_0_10,
        side=side,
        date=date,
        moment=WindowKind.NEXT_MORNING,
    )


def seen(plan: Plan, *tests: TestResult, **facts: Any) -> Reviewed:
    items = tuple(ItemReview(item=item.id, **{**GOOD, **facts}) for item in plan.items)
    library = small_library(protocol=plan.protocols[0])
    return review(plan, report_of(plan, *items, tests=tests), library)


def moved(found: Reviewed) -> Plan:
    library = small_library(protocol=found.plan.protocols[0])
    on = tuple((s.protocol, s.side) for s in found.stages if s.outcome is StageOutcome.MOVE_ON)
    return confirm(found, BY, on=on, library=library)


@pytest.mark.parametrize(
    ("tests", "outcome", "code"),
    [
        ((pain_of(1),), StageOutcome.MOVE_ON, "stage-criteria-met"),
        ((pain_of(3),), StageOutcome.STAY, "stage-not-met"),
        ((), StageOutcome.STAY, "stage-not-tested"),
        ((pain_of(1, date=TODAY - dt.timedelta(days=60)),), StageOutcome.STAY, "stage-not-tested"),
    ],
)
def test_a_stage_moves_on_by_dated_tests_alone(
    tests: tuple[TestResult, ...], outcome: StageOutcome, code: str
) -> None:
    (stage,) = seen(plan_in("calm"), *tests).stages
    assert stage.outcome is outcome
    assert code in codes(stage)


def test_the_stage_that_follows_says_that_the_clinician_confirmed_it_at_a_review() -> None:
    after = moved(seen(plan_in("calm"), pain_of(1)))
    (stage,) = after.stages
    assert (stage.stage, codes(stage)[0]) == ("strong", "stage-moved-on")
    assert "stage-asked" not in codes(stage)
    assert only(after).entry == "strong-raise"
    assert after.presentation is not None
    (so_far,) = [s for s in after.presentation.stages if s.stage == "strong"]
    assert (so_far.began, so_far.sessions_done) == (LATER, 0)


def test_a_stage_steps_back_when_its_criterion_says_so() -> None:
    worse = little_pain("worse", value=6, comparator=Comparator.AT_LEAST)
    back = put(LINKED, f"{STRONG}.step_back", (worse,))
    found = seen(plan_in("strong", back), pain_of(7))
    assert found.stages[0].outcome is StageOutcome.STEP_BACK
    after = moved(found)
    (stage,) = after.stages
    assert (stage.stage, codes(stage)[0]) == ("calm", "stage-moved-back")


def test_one_side_moves_on_alone() -> None:
    one = put(LINKED, f"{CALM}.blocks[0].entries[0].sides", Sides.AFFECTED)
    one = put(one, f"{STRONG}.blocks[0].entries[0].sides", Sides.AFFECTED)
    each = (SideState(side=Side.LEFT), SideState(side=Side.RIGHT, morning_pain=1.0))
    plan = plan_in("calm", one, side=Side.BOTH, each_side=each)
    found = seen(plan, pain_of(1, Side.LEFT), pain_of(4, Side.RIGHT))
    outcomes = {stage.side: stage.outcome for stage in found.stages}
    assert outcomes == {Side.LEFT: StageOutcome.MOVE_ON, Side.RIGHT: StageOutcome.STAY}
    after = moved(found)
    assert {(s.stage, s.side) for s in after.stages} == {
        ("strong", Side.LEFT),
        ("calm", Side.RIGHT),
    }
    mine = {item.side: item for item in after.items}
    before = {item.side: item for item in plan.items}
    assert mine[Side.LEFT].entry == "strong-raise"
    right, was = mine[Side.RIGHT], before[Side.RIGHT]
    assert (right.entry, right.variant, right.dose) == (was.entry, was.variant, was.dose)


# ---- the line of progression -------------------------------------------------------------------


def on_rung(plan: Plan, variant: str) -> Plan:
    return evolve(plan, items=(evolve(only(plan), variant=variant),))


def test_the_next_stage_goes_on_from_an_easier_rung_that_was_reached() -> None:
    after = moved(seen(on_rung(plan_in("calm"), "two-legs"), pain_of(1)))
    assert only(after).variant == "two-legs"
    assert "review-line-goes-on" in codes(only(after))


def test_the_next_stage_goes_on_from_a_harder_rung_that_was_reached() -> None:
    low = put(LINKED, f"{STRONG}.blocks[0].entries[0].start", "two-legs")
    after = moved(seen(plan_in("calm", low), pain_of(1)))
    assert only(after).variant == "one-leg"
    assert "review-line-goes-on" in codes(only(after))


def test_without_a_line_the_next_stage_starts_as_it_is_written() -> None:
    after = moved(seen(on_rung(plan_in("calm", PROTOCOL), "two-legs"), pain_of(1)))
    assert only(after).variant == "one-leg"
    assert "review-line-goes-on" not in codes(only(after))


# ---- findings and breaks -----------------------------------------------------------------------


def branching(to: str) -> Branch:
    return Branch(
        id="found",
        finding=say("Pain is low."),
        when=little_pain("low"),
        then=BranchAction.GO_TO_STAGE,
        stage=to,
    )


def test_a_finding_that_names_a_later_stage_is_proposed_and_waits_for_the_clinician() -> None:
    again = evolve(PROTOCOL.stages[1], id="last", blocks=(), entry=(), move_on=())
    three = evolve(PROTOCOL, stages=(*PROTOCOL.stages, again))
    there = put(three, f"{CALM}.branches", (branching("last"),))
    found = seen(plan_in("calm", there), pain_of(1))
    (stage,) = found.stages
    assert (stage.outcome, stage.to) == (StageOutcome.MOVE_ON, "last")
    assert "stage-branch" in codes(stage)
    assert [s.stage for s in confirm(found, BY).stages] == ["calm"]
    assert [s.stage for s in moved(found).stages] == ["last"]


def test_a_finding_that_names_an_earlier_stage_leads_back() -> None:
    there = put(LINKED, f"{STRONG}.branches", (branching("calm"),))
    (stage,) = seen(plan_in("strong", there), pain_of(1)).stages
    assert (stage.outcome, stage.to) == (StageOutcome.STEP_BACK, "calm")


@pytest.mark.parametrize(
    ("after_days", "action", "of_stage", "of_item"),
    [
        (14, PauseAction.GO_EASIER, StageOutcome.STAY, ReviewOutcome.DOWN),
        (7, PauseAction.STEP_BACK, StageOutcome.STEP_BACK, ReviewOutcome.SAME),
        (14, PauseAction.RESTART_STAGE, StageOutcome.STAY, ReviewOutcome.SAME),
        (14, PauseAction.CALL_CLINIC, StageOutcome.STAY, ReviewOutcome.SAME),
    ],
)
def test_after_a_break_the_protocols_own_rule_holds(
    after_days: int, action: PauseAction, of_stage: StageOutcome, of_item: ReviewOutcome
) -> None:
    rule = PauseRule(after_days=after_days, action=action)
    paused = put(LINKED, f"{STRONG}.pauses", (rule,))
    report = seen(plan_in("strong", paused), sessions_done=0, sessions_running=0)
    (stage,), (item,) = report.stages, report.items
    assert (stage.outcome, item.outcome) == (of_stage, of_item)
    assert "stage-pause" in codes(stage)
    assert "review-pause" in codes(item)


@pytest.mark.parametrize(("after_days", "done"), [(15, 0), (14, 1)])
def test_a_shorter_break_or_any_session_is_no_break(after_days: int, done: int) -> None:
    rule = PauseRule(after_days=after_days, action=PauseAction.GO_EASIER)
    paused = put(LINKED, f"{STRONG}.pauses", (rule,))
    report = seen(plan_in("strong", paused), sessions_done=done, sessions_running=done)
    assert "review-pause" not in codes(report.items[0])
    assert report.items[0].outcome is ReviewOutcome.SAME


def test_flags_not_asked_again_say_since_when() -> None:
    plan = plan_in("strong")
    item = ItemReview(item=only(plan).id, **GOOD)
    found = review(plan, report_of(plan, item, red_flags=()))
    texts = [reason.text for reason in found.items[0].reasons]
    assert any(f"since the plan of {TODAY:%d %B %Y}" in text for text in texts)
