"""A break from the exercises, and what the protocol says to do after it."""

from __future__ import annotations

from collections.abc import Iterator

from authoring.model.pacing import PauseRule
from authoring.model.plan import Plan
from authoring.model.protocol import Stage
from authoring.model.review import Review
from authoring.model.vocabulary import PauseAction, ReviewOutcome
from authoring.tailoring.review_facts import sessions_of
from authoring.tailoring.review_pain import Finding
from authoring.tailoring.review_reasons import because


def days_missed(plan: Plan, report: Review) -> int:
    """Days without a session: since the plan was made where none was done, else 0.

    A report says how many sessions were done and not on which days, so that a shorter break
    between sessions is not known.
    """
    return (report.date - plan.created).days if sessions_of(report) == 0 else 0


def pause_rule(stage: Stage | None, missed: int) -> PauseRule | None:
    """The rule with the most days that were missed; None where none is reached."""
    reached = [each for each in (stage.pauses if stage else ()) if 0 < each.after_days <= missed]
    return max(reached, key=lambda each: each.after_days, default=None)


def pause_text(rule: PauseRule) -> str:
    """What the rule says, in one sentence."""
    action = rule.action.value.replace("_", " ")
    return f"No session for {rule.after_days} days or more. The protocol says: {action}."


def break_findings(stage: Stage | None, missed: int) -> Iterator[Finding]:
    """What a break means for one exercise: something easier, or at least no step up."""
    rule = pause_rule(stage, missed)
    if rule is None or rule.action is PauseAction.CARRY_ON:
        return
    easier = rule.action is PauseAction.GO_EASIER
    outcome = ReviewOutcome.DOWN if easier else ReviewOutcome.SAME
    yield Finding(outcome, because("review-pause", pause_text(rule)))
