"""What follows from a report, row by row against what the trade publishes."""

from __future__ import annotations

from typing import Any

import pytest

from authoring.model.base import evolve
from authoring.model.dose import Repetitions
from authoring.model.patient import FlagAnswer
from authoring.model.review import ItemReview
from authoring.model.vocabulary import (
    Answer,
    PainAction,
    Pathway,
    ProgressionMethod,
    ReviewOutcome,
    StageOutcome,
)
from authoring.tailoring.overrides import Decision
from authoring.tailoring.release import release
from authoring.tailoring.review import review
from authoring.tailoring.review_confirm import confirm
from authoring.tailoring.review_facts import ReviewError
from authoring.tailoring.review_pain import worst_action
from authoring.tailoring.review_work import planned_sessions
from tests.checks.build import PAIN, PROTOCOL_ID
from tests.tailoring.reports import GOOD, LATER, by, outcome, plan_of, report_of, strong
from tests.tailoring.values import codes, only

UP, SAME, DOWN = ReviewOutcome.UP, ReviewOutcome.SAME, ReviewOutcome.DOWN
TWO_FOR_TWO = strong(progression=by(ProgressionMethod.TWO_FOR_TWO))
REPS = strong(progression=by(ProgressionMethod.REPS_THEN_LOAD))
RUNG = strong(progression=by(ProgressionMethod.NEXT_RUNG))
BY = Decision(who="J. Example", date=LATER)


# Two-for-two: two repetitions or more above the target in the last set of two sessions running
# (Haff GG, Triplett NT, eds., Essentials of Strength Training and Conditioning; value from memory).
# The dose is 8 to 12, so 14 are asked for.
@pytest.mark.parametrize(
    ("reps", "running", "expected", "code"),
    [
        (13, 2, SAME, "review-work-short"),
        (14, 1, SAME, "review-running-few"),
        (14, 2, UP, "review-rule-met"),
        (16, 5, UP, "review-rule-met"),
    ],
)
def test_two_for_two_asks_for_two_more_in_two_sessions_running(
    reps: int, running: int, expected: ReviewOutcome, code: str
) -> None:
    found = outcome(plan_of(TWO_FOR_TWO), reps_reached=reps, sessions_running=running)
    assert found.outcome is expected
    assert code in [reason.code for reason in found.reasons]


# Pain-monitoring model: up to 2 safe, up to 5 acceptable, above 5 too much; back to usual by the
# next morning; no rise from week to week (Thomeé R, Phys Ther 1997;77:1690-1703; Silbernagel KG et
# al., Am J Sports Med 2007;35:897-906; values from memory).
@pytest.mark.parametrize(
    ("pain", "expected"),
    [(0, UP), (2, UP), (2.5, DOWN), (5, DOWN), (5.5, DOWN), (10, DOWN)],
)
def test_the_band_in_force_decides(pain: float, expected: ReviewOutcome) -> None:
    assert outcome(plan_of(RUNG), pain_during=pain).outcome is expected


@pytest.mark.parametrize(
    ("facts", "expected", "code"),
    [
        ({"settled": False}, DOWN, "review-not-settled"),
        ({"pain_next_morning": 2.0}, DOWN, "review-not-settled"),
        ({"settled": None, "pain_next_morning": None}, SAME, "review-morning-not-asked"),
        ({"pain_during": None}, SAME, "review-pain-not-asked"),
        ({"sessions_done": None, "sessions_running": 4}, SAME, "review-sessions-not-known"),
        ({"sessions_done": 1, "sessions_running": 1}, SAME, "review-sessions-few"),
        ({"sessions_running": None}, SAME, "review-running-not-known"),
        ({"reps_reached": None}, SAME, "review-work-not-known"),
        ({"reps_reached": 11}, SAME, "review-work-short"),
        ({"sessions_done": 4}, SAME, "review-adherence-low"),
    ],
)
def test_what_is_not_known_or_too_little_never_steps_up(
    facts: dict[str, Any], expected: ReviewOutcome, code: str
) -> None:
    found = outcome(plan_of(RUNG), **facts)
    assert found.outcome is expected
    assert code in [reason.code for reason in found.reasons]


def test_what_nobody_reported_stays() -> None:
    plan = plan_of(RUNG)
    (found,) = review(plan, report_of(plan)).items
    assert (found.outcome, found.next) == (SAME, only(plan))
    assert [reason.code for reason in found.reasons] == ["review-not-reported"]


# 3 days a week for 14 days are 6 sessions; 80 % of them are 4.8.
def test_sessions_planned_are_counted_from_the_days_of_the_plan() -> None:
    plan = plan_of(RUNG)
    assert planned_sessions(plan, only(plan), None, LATER) == 6
    assert outcome(plan, sessions_done=5).outcome is UP
    assert outcome(plan, sessions_done=4).outcome is SAME


@pytest.mark.parametrize("pathway", [Pathway.POST_OPERATIVE, Pathway.BONE_STRESS])
def test_without_a_pain_rule_nothing_steps_up(pathway: Pathway) -> None:
    bare = evolve(RUNG, pathway=pathway, pain=None)
    found = outcome(plan_of(bare), pain_during=0)
    assert found.outcome is SAME
    assert "review-no-pain-rule" in [reason.code for reason in found.reasons]


def test_the_exercises_own_rule_comes_before_the_protocols() -> None:
    bands = (
        evolve(PAIN.during[0], up_to=4),
        evolve(PAIN.during[1], up_to=10, action=PainAction.STOP_AND_CALL),
    )
    own = strong(progression=by(ProgressionMethod.NEXT_RUNG), pain=evolve(PAIN, during=bands))
    assert outcome(plan_of(own), pain_during=4).outcome is UP
    assert outcome(plan_of(own), pain_during=4.5).outcome is ReviewOutcome.STOP


def test_a_band_below_that_is_graver_still_counts() -> None:
    odd = (
        evolve(PAIN.during[0], action=PainAction.STOP_TODAY),
        evolve(PAIN.during[1], up_to=10, action=PainAction.CARRY_ON),
    )
    assert worst_action(odd, 7) is PainAction.STOP_TODAY


def test_pain_that_rose_since_last_time_does_not_step_up() -> None:
    plan = plan_of(RUNG)
    first = confirm(review(plan, report_of(plan, ItemReview(item=only(plan).id, **GOOD))), BY)
    again = evolve(
        report_of(first, ItemReview(item=only(first).id, **{**GOOD, "pain_during": 1.5})),
        date=LATER.replace(day=30),
    )
    (found,) = review(first, again).items
    assert found.outcome is SAME
    assert "review-pain-rose" in [reason.code for reason in found.reasons]


# ---- confirmed by the clinician ------------------------------------------------------------


def test_a_step_up_waits_for_the_clinician() -> None:
    plan = plan_of(REPS)
    done = {**GOOD, "reps_reached": 12}
    found = review(plan, report_of(plan, ItemReview(item=only(plan).id, **done)))
    assert only(confirm(found, BY)).dose == only(plan).dose
    assert found.steps_up() == (only(plan).id,)
    stepped = only(confirm(found, BY, up=found.steps_up()))
    assert "review-confirmed" in codes(stepped)
    assert (stepped.dose, stepped.variant) != (only(plan).dose, only(plan).variant)


def test_what_is_not_proposed_is_not_confirmed() -> None:
    plan = plan_of(RUNG)
    found = review(plan, report_of(plan))
    with pytest.raises(ReviewError, match="No step up is proposed"):
        confirm(found, BY, up=(only(plan).id,))
    with pytest.raises(ReviewError, match="No move to the next stage"):
        confirm(found, BY, on=((PROTOCOL_ID, only(plan).side),))


def test_more_repetitions_come_one_at_a_time() -> None:
    plan = plan_of(strong(progression=by(ProgressionMethod.REPS_THEN_LOAD, reps_ceiling=20)))
    found = outcome(plan, reps_reached=12)
    assert found.outcome is UP
    assert found.next is not None
    assert found.next.dose is not None
    work = found.next.dose.work
    assert isinstance(work, Repetitions)
    assert [each.low for each in work.reps] == [13]  # 12 were mastered


# ---- red flags -----------------------------------------------------------------------------


def test_a_red_flag_stops_everything_and_prints_its_action() -> None:
    plan = plan_of(RUNG)
    flag = RUNG.red_flags[0]
    yes = (FlagAnswer(protocol=PROTOCOL_ID, flag=flag.id, answer=Answer.YES),)
    found = review(plan, report_of(plan, ItemReview(item=only(plan).id, **GOOD), red_flags=yes))
    assert {each.outcome for each in found.items} == {ReviewOutcome.STOP}
    assert {each.outcome for each in found.stages} == {StageOutcome.STOP}
    assert any(flag.action.values[""] in reason.text for reason in found.raised)
    after = confirm(found, BY)
    assert release(after).withheld
    assert after.items == plan.items


def test_a_red_flag_not_asked_again_allows_no_step_up() -> None:
    found = outcome(plan_of(RUNG), flags=())
    assert found.outcome is SAME
    assert "review-flag-not-asked" in [reason.code for reason in found.reasons]


# ---- reports that can't be -----------------------------------------------------------------


@pytest.mark.parametrize(
    ("facts", "sentence"),
    [
        ({"plan": "00000000-0000-4000-8000-0000000000ff"}, "name the report of this plan"),
        ({"date": LATER.replace(year=2020)}, "correct the report's date"),
        ({"items": (ItemReview(item="ghost"),)}, "does not have; its exercises are"),
        (
            {"red_flags": (FlagAnswer(protocol="00000000-0000-4000-8000-0000000000ff", flag="x"),)},
            "take that out of the report",
        ),
    ],
)
def test_a_report_that_can_not_be_is_told_in_a_sentence(
    facts: dict[str, Any], sentence: str
) -> None:
    plan = plan_of(RUNG)
    with pytest.raises(ReviewError, match=sentence):
        review(plan, evolve(report_of(plan), **facts))


def test_a_report_against_itself_is_refused() -> None:
    plan = plan_of(RUNG)
    odd = ItemReview(item=only(plan).id, sessions_done=2, sessions_running=3)
    with pytest.raises(ReviewError, match="correct one of the two"):
        review(plan, report_of(plan, odd))
    with pytest.raises(ReviewError, match="twice"):
        review(plan, report_of(plan, ItemReview(item=odd.item), ItemReview(item=odd.item)))
