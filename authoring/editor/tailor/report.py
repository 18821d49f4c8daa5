"""A review's report as it is filled in, and what is proposed for it. No Qt here."""

from __future__ import annotations

import datetime as dt

from attrs import frozen

from authoring.dosage.shorthand import write_dose
from authoring.editor.i18n import ltr
from authoring.editor.ids import new_file_id
from authoring.editor.vocabulary_words import words_of
from authoring.model.base import evolve
from authoring.model.patient import FlagAnswer
from authoring.model.plan import Plan, PlanItem
from authoring.model.review import ItemReview, Review
from authoring.model.vocabulary import Answer, ReviewOutcome, StageOutcome
from authoring.tailoring.review import Reviewed

COLUMNS = (
    "sessions_done",
    "sessions_running",
    "pain_during",
    "pain_after",
    "pain_next_morning",
    "reps_reached",
    "seconds_reached",
    "load_reached",
)
"""What is asked of each exercise, in the order of the table."""


def blank_report(plan: Plan, clinician: str, today: dt.date) -> Review:
    """A report in which nothing was said yet: no red flag was asked again."""
    return Review(
        id=new_file_id(), plan=plan.id, date=max(today, plan.created), clinician=clinician
    )


@frozen
class Draft:
    """A review that is not ended: what was said, and what the clinician ticked.

    Attributes:
        up: ids of exercises whose step up is confirmed.
        on: places in the plan's list of stages whose move on is confirmed.
    """

    report: Review
    up: frozenset[str] = frozenset()
    on: frozenset[int] = frozenset()


def fitted(draft: Draft, plan: Plan) -> Draft:
    """The draft with only what the plan still has, where an answer changed meanwhile."""
    there = {item.id for item in plan.items}
    kept = tuple(each for each in draft.report.items if each.item in there)
    return evolve(
        draft,
        report=evolve(draft.report, items=kept),
        up=draft.up & there,
        on=frozenset(at for at in draft.on if at < len(plan.stages)),
    )


def row_of(report: Review, item: str) -> ItemReview:
    """What is reported of an exercise."""
    return next((each for each in report.items if each.item == item), ItemReview(item=item))


def with_row(report: Review, item: str, column: str, value: object) -> Review:
    """The report with one figure or answer about one exercise; None takes it away."""
    new = evolve(row_of(report, item), **{column: value})
    others = tuple(each for each in report.items if each.item != item)
    return evolve(report, items=(*others, new))


def flag_answer(report: Review, protocol: str, flag: str) -> Answer:
    """The answer to a red flag at this review."""
    given = [a.answer for a in report.red_flags if (a.protocol, a.flag) == (protocol, flag)]
    return given[-1] if given else Answer.NOT_ASKED


def with_flag(report: Review, protocol: str, flag: str, answer: Answer) -> Review:
    """The report with one red flag answered again."""
    kept = tuple(a for a in report.red_flags if (a.protocol, a.flag) != (protocol, flag))
    return evolve(
        report, red_flags=(*kept, FlagAnswer(protocol=protocol, flag=flag, answer=answer))
    )


@frozen
class OutcomeFace:
    """What is proposed for one exercise or stage.

    Attributes:
        what: the outcome in words.
        dose: the dose that follows, "" where it is the same.
        waits: whether the clinician has to confirm it.
    """

    what: str
    dose: str
    reasons: tuple[str, ...]
    waits: bool


def item_faces(reviewed: Reviewed) -> dict[str, OutcomeFace]:
    """What is proposed by exercise."""
    return {
        each.before.id: OutcomeFace(
            what=words_of(each.outcome),
            dose=_dose(each.before, each.next),
            reasons=tuple(_said(reason.text, reason.source) for reason in each.reasons),
            waits=each.outcome is ReviewOutcome.UP,
        )
        for each in reviewed.items
    }


def stage_faces(reviewed: Reviewed) -> tuple[OutcomeFace, ...]:
    """What is proposed by stage, in the report's order."""
    return tuple(
        OutcomeFace(
            what=words_of(each.outcome),
            dose="",
            reasons=tuple(_said(reason.text, reason.source) for reason in each.reasons),
            waits=each.outcome is StageOutcome.MOVE_ON,
        )
        for each in reviewed.stages
    )


def _dose(before: PlanItem, after: PlanItem | None) -> str:
    if after is None or after.dose is None or after.dose == before.dose:
        return ""
    return ltr(write_dose(after.dose, pretty=True) or "")


def _said(text: str, source: str) -> str:
    return f"{text} ({source})" if source else text
