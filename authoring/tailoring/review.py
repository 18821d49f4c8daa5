"""A plan and a report become outcomes, each with its rule, and a proposal for the next plan.

``review`` proposes; ``confirm`` (``authoring.tailoring.review_confirm``) makes the next plan of it.
A step up and a move on are only ever proposed: the clinician confirms each.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from attrs import frozen

from authoring.model.base import evolve
from authoring.model.library import Library
from authoring.model.patient import Presentation
from authoring.model.plan import Plan, PlanItem, Reason
from authoring.model.review import ItemReview, Review, StageReview
from authoring.model.vocabulary import Answer, ProgressionMethod, ReviewOutcome
from authoring.tailoring.case import Case
from authoring.tailoring.cautioned import plain
from authoring.tailoring.filled import place_of
from authoring.tailoring.overrides import case_of_plan
from authoring.tailoring.pain import rule_for
from authoring.tailoring.place import Place
from authoring.tailoring.release import answers_of
from authoring.tailoring.review_break import break_findings, days_missed
from authoring.tailoring.review_facts import (
    ReviewError,
    flags_not_asked,
    presentation_now,
    refuse_odd,
    reported,
)
from authoring.tailoring.review_pain import WORSE, Finding, before_of, pain_findings, worst
from authoring.tailoring.review_reasons import because
from authoring.tailoring.review_stages import stage_reviews
from authoring.tailoring.review_steps import (
    Stand,
    Step,
    dose_of_week,
    rule_of,
    step_down,
    step_to_hold,
    step_up,
    table_step,
)
from authoring.tailoring.review_work import (
    asked_of,
    planned_sessions,
    session_findings,
    work_findings,
)

__all__ = ["ItemOutcome", "ReviewError", "Reviewed", "review"]


@frozen
class ItemOutcome:
    """What is proposed for one exercise.

    Attributes:
        before: the exercise as it is in the plan.
        outcome: what is proposed; UP waits for the clinician.
        next: the exercise after it; None where it waits (STOP).
        same: the exercise where a step up is not confirmed.
        reasons: the rules, gravest first, each with a code and its source.
    """

    before: PlanItem
    outcome: ReviewOutcome
    next: PlanItem | None
    same: PlanItem
    reasons: tuple[Reason, ...]


@frozen(eq=False)
class Reviewed:
    """All that a review proposes.

    Attributes:
        report: the report, with the outcome and reasons of every exercise and stage filled in.
        presentation: the facts about the patient with what the report says of them.
        items: by exercise, in the plan's order.
        stages: by stage and side; MOVE_ON waits for the clinician.
        raised: reasons of red flags that are answered yes; then everything stops.
    """

    plan: Plan
    report: Review
    presentation: Presentation
    items: tuple[ItemOutcome, ...]
    stages: tuple[StageReview, ...]
    raised: tuple[Reason, ...]

    def steps_up(self) -> tuple[str, ...]:
        """Ids of the exercises whose step up waits for the clinician."""
        return tuple(i.before.id for i in self.items if i.outcome is ReviewOutcome.UP)


def review(plan: Plan, report: Review, library: Library | None = None) -> Reviewed:
    """What follows from a report, for every exercise and every stage.

    Everything that stands against a step up is looked for; the gravest decides. What was not
    asked, done or tested is never taken as good. The same input gives the same outcome.

    Args:
        library: cards beside those that the plan embeds.

    Raises:
        ReviewError: the report is of another plan, or contradicts itself.
    """
    refuse_odd(plan, report)
    now = presentation_now(plan, report)
    current = evolve(plan, presentation=now, created=report.date)
    case = case_of_plan(current, library)
    raised = tuple(_raised(now, plan))
    open_flags = bool(flags_not_asked(plan, report))
    items = tuple(
        _item(case, plan, item, report, raised, open_flags=open_flags) for item in plan.items
    )
    outcomes = {each.before.id: each.outcome for each in items}
    stages = tuple(
        stage_reviews(
            case,
            report,
            plan.items,
            outcomes,
            _stops(raised),
            flags_open=open_flags,
            missed=days_missed(plan, report),
        )
    )
    filled = evolve(report, items=tuple(_filled(report, items)), stages=stages)
    return Reviewed(plan, filled, now, items, stages, raised)


def _raised(now: Presentation, plan: Plan) -> Iterator[Reason]:
    for each, answer in answers_of(now, plan.protocols):
        if answer is Answer.YES:
            language = each.protocol.language
            question = plain(each.flag.question, language)
            action = plain(each.flag.action, language)
            yield because("review-red-flag", f"Yes to: {question} {action}")


def _stops(raised: Sequence[Reason]) -> tuple[Reason, ...]:
    return tuple(because("stage-red-flag", each.text) for each in raised)


def _filled(report: Review, items: Sequence[ItemOutcome]) -> Iterator[ItemReview]:
    for each in items:
        found = reported(report.items, each.before.id) or ItemReview(item=each.before.id)
        yield evolve(found, outcome=each.outcome, reasons=each.reasons[:60])


# ---- one exercise ------------------------------------------------------------------------


def _item(
    case: Case,
    plan: Plan,
    item: PlanItem,
    report: Review,
    raised: Sequence[Reason],
    *,
    open_flags: bool,
) -> ItemOutcome:
    if raised:
        return ItemOutcome(item, ReviewOutcome.STOP, item, item, tuple(raised))
    place = place_of(case, item)
    at = _stand(case, plan, item, place, report)
    found = reported(report.items, item.id)
    findings = list(_findings(case, plan, at, place, report, found))
    if open_flags:
        text = (
            f"Red flags were not asked again since the plan of {plan.created:%d %B %Y}: the "
            "answers from then still let it print, and nothing steps up."
        )
        findings.append(Finding(ReviewOutcome.SAME, because("review-flag-not-asked", text)))
    same = _same(at, item)
    if at is None:
        return _at_most_same(item, same, findings)
    return _resolved(at, same, findings)


def _at_most_same(item: PlanItem, same: PlanItem, findings: Sequence[Finding]) -> ItemOutcome:
    """An exercise whose card, variant or dose is not known: it stays, or stops."""
    outcome = worst([*findings, Finding(ReviewOutcome.SAME, because("review-no-rule"))])
    stops = WORSE.index(outcome) > WORSE.index(ReviewOutcome.SAME)
    outcome = ReviewOutcome.STOP if stops else ReviewOutcome.SAME
    reasons = tuple(each.reason for each in findings) or (because("review-no-rule"),)
    return ItemOutcome(item, outcome, None if stops else same, same, reasons)


def _same(at: Stand | None, item: PlanItem) -> PlanItem:
    """The exercise as it is; a week table is counted anew from the row done last."""
    if at is None or item.dose is None or not item.dose.weeks:
        return item
    return table_step(at, up=False).item or item


def _stand(
    case: Case, plan: Plan, item: PlanItem, place: Place | None, report: Review
) -> Stand | None:
    card = case.library.cards.get(item.card)
    variant = card.variant(item.variant) if card is not None else None
    if place is None or card is None or variant is None:
        return None
    entry = place.entry if place.card.id == card.id else None
    week = max(1, (report.date - plan.created).days // 7)
    dose = dose_of_week(item, entry, variant, week)
    if dose is None:
        return None
    written = dose_of_week(evolve(item, dose=None), entry, variant, 1) or dose
    return Stand(
        case=case,
        plan=plan,
        item=item,
        place=place,
        card=card,
        variant=variant,
        dose=dose,
        rule=rule_of(place, card, dose),
        written=written,
        week=week,
    )


def _findings(
    case: Case,
    plan: Plan,
    at: Stand | None,
    place: Place | None,
    report: Review,
    found: ItemReview | None,
) -> Iterator[Finding]:
    """Everything that stands for or against a step up."""
    if at is not None:
        excluded = at.excluded(at.variant, at.dose)
        if any(reason.code != "pain-stop" for reason in excluded):
            text = " ".join(reason.text for reason in excluded)
            yield Finding(ReviewOutcome.STOP, because("review-excluded-now", text))
    yield from break_findings(place.stage if place else None, days_missed(plan, report))
    if found is None or place is None:
        yield Finding(ReviewOutcome.SAME, because("review-not-reported"))
        return
    item = next(each for each in plan.items if each.id == found.item)
    before = _before(plan, case, item)
    yield from pain_findings(rule_for(place, case.clinic_rule), place.protocol, found, before)
    if at is None or at.rule is None:
        return
    asked = asked_of(at.rule, at.dose, place.protocol)
    yield from session_findings(found, asked, planned_sessions(plan, item, place, report.date))
    yield from work_findings(found, at.dose, asked)


def _before(plan: Plan, case: Case, item: PlanItem) -> tuple[float | None, float | None]:
    """Pain last time and the usual pain in the morning, from before the report."""
    old = plan.presentation
    if old is None:
        return None, None
    own = next((state for state in old.each_side if state.side is item.side), None)
    usual = own.morning_pain if own is not None and own.morning_pain is not None else None
    return before_of(old.pains, item, usual if usual is not None else old.morning_pain)


def _resolved(at: Stand, same: PlanItem, findings: Sequence[Finding]) -> ItemOutcome:
    """The gravest finding turned into the next exercise."""
    outcome = worst(findings)
    own = tuple(f.reason for f in findings if f.outcome is outcome)
    if outcome is ReviewOutcome.STOP:
        return ItemOutcome(at.item, outcome, None, same, own)
    if outcome is ReviewOutcome.SAME:
        return ItemOutcome(at.item, outcome, same, same, own)
    if outcome is ReviewOutcome.UP:
        return _up(at, same, findings)
    step = step_down(at) if outcome is ReviewOutcome.DOWN else step_to_hold(at)
    final = step.outcome or outcome
    reasons = tuple(dict.fromkeys((*own, *step.reasons)))
    return ItemOutcome(at.item, final, step.item, same, reasons)


def _up(at: Stand, same: PlanItem, findings: Sequence[Finding]) -> ItemOutcome:
    step: Step = step_up(at)
    asked = asked_of(at.rule, at.dose, at.place.protocol) if at.rule is not None else None
    source = asked.source if asked is not None else ""
    method = at.rule.method if at.rule is not None else ProgressionMethod.CLINICIAN
    words = method.value.replace("_", " ")
    met = because("review-rule-met", f"What the rule “{words}” asks for was reached.", source)
    allows = tuple(each.reason for each in findings)
    if step.item is None or step.outcome is not None:
        reasons = (*step.reasons, *allows)
        return ItemOutcome(at.item, ReviewOutcome.SAME, step.item or same, same, reasons)
    reasons = tuple(dict.fromkeys((met, *step.reasons, *allows)))
    return ItemOutcome(at.item, ReviewOutcome.UP, step.item, same, reasons)
