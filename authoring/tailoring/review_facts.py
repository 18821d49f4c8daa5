"""What a report changes in the presentation, and whether it can be of this plan at all."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from authoring.model.base import evolve
from authoring.model.criterion import AllOf, AnyOf, Criterion, InWords
from authoring.model.patient import (
    ExercisePain,
    FlagAnswer,
    Presentation,
    SeenCriterion,
    SideState,
    StageSoFar,
)
from authoring.model.plan import Plan
from authoring.model.review import ItemReview, Review
from authoring.model.vocabulary import Answer, Side


class ReviewError(ValueError):
    """A report that can't be used with a plan; one sentence says how to mend it."""


def refuse_odd(plan: Plan, report: Review) -> None:
    """Refuse a report that can't be of this plan, or contradicts itself.

    Raises:
        ReviewError: it is of another plan, earlier than it, or names what the plan lacks.
    """
    if report.plan != plan.id:
        raise ReviewError(
            f"The report is of the plan {report.plan}, and this is {plan.id}; name the report of "
            "this plan."
        )
    if report.date < plan.created:
        raise ReviewError(
            f"The report is of {report.date:%d %B %Y} and the plan was made on "
            f"{plan.created:%d %B %Y}; correct the report's date."
        )
    _refuse_items(plan, report)
    protocols = {each.id for each in plan.protocols}
    named = {each.protocol for each in report.red_flags}
    named |= {each.protocol for each in report.seen}
    if named - protocols:
        raise ReviewError(
            f"The report speaks of the protocol {min(named - protocols)}, which the plan does not "
            "follow; take that out of the report."
        )


def _refuse_items(plan: Plan, report: Review) -> None:
    known = {item.id for item in plan.items}
    seen: set[str] = set()
    for found in report.items:
        if found.item not in known:
            raise ReviewError(
                f"The report has an exercise {found.item!r} that the plan does not have; its "
                f"exercises are: {', '.join(sorted(known)) or 'none'}."
            )
        if found.item in seen:
            raise ReviewError(
                f"The report has the exercise {found.item!r} twice; give it once, with its worst "
                "pain."
            )
        seen.add(found.item)
        running, done = found.sessions_running, found.sessions_done
        if running is not None and done is not None and running > done:
            raise ReviewError(
                f"The report has {running} sessions running of {found.item!r} and {done} sessions "
                "done; correct one of the two."
            )


# ---- the presentation as it is now -------------------------------------------------------


def presentation_now(plan: Plan, report: Review) -> Presentation:
    """The facts about the patient with what the report says of them.

    Pains of exercises are those of the report; red flags asked again replace the answers
    before; tests and criteria seen are added.
    """
    before = plan.presentation or Presentation(id=plan.id)
    changed: dict[str, object] = {
        name: value
        for name in ("irritability", "rest_pain", "morning_pain")
        if (value := getattr(report, name)) is not None
    }
    return evolve(
        before,
        pains=_pains(plan, before, report)[-200:],
        red_flags=_flags(before, report)[:200],
        tests=(*before.tests, *report.tests)[-500:],
        seen=(*before.seen, *report.seen, *_met(plan, report))[-500:],
        stages=_so_far(plan, before, report)[:40],
        each_side=_each_side(before, report),
        **changed,
    )


def _pains(plan: Plan, before: Presentation, report: Review) -> tuple[ExercisePain, ...]:
    by_id = {item.id: item for item in plan.items}
    fresh = [
        ExercisePain(
            card=by_id[found.item].card,
            variant=by_id[found.item].variant,
            side=by_id[found.item].side,
            during=found.pain_during,
            next_morning=found.pain_next_morning,
        )
        for found in report.items
        if found.pain_during is not None or found.pain_next_morning is not None
    ]
    gone = {(pain.card, pain.side) for pain in fresh}
    kept = [
        pain
        for pain in before.pains
        if (pain.card, pain.side) not in gone
        and (pain.card, Side.NONE) not in gone
        and not (pain.side is Side.NONE and any(pain.card == card for card, _ in gone))
    ]
    return (*kept, *fresh)


def _flags(before: Presentation, report: Review) -> tuple[FlagAnswer, ...]:
    asked = [each for each in report.red_flags if each.answer is not Answer.NOT_ASKED]
    names = {(each.protocol, each.flag) for each in asked}
    kept = [each for each in before.red_flags if (each.protocol, each.flag) not in names]
    return (*kept, *asked)


def _each_side(before: Presentation, report: Review) -> tuple[SideState, ...]:
    named = {state.side for state in report.each_side}
    return (*(each for each in before.each_side if each.side not in named), *report.each_side)


def words_in(criterion: Criterion) -> Iterator[InWords]:
    """Criteria in words, those inside others among them."""
    if isinstance(criterion, InWords):
        yield criterion
    elif isinstance(criterion, AllOf | AnyOf):
        for part in criterion.parts:
            yield from words_in(part)


def _met(plan: Plan, report: Review) -> Iterator[SeenCriterion]:
    """Criteria in words that the report lists as met; a measure needs its test."""
    for name in report.criteria_met:
        owners = [
            protocol.id
            for protocol in plan.protocols
            for stage in protocol.stages
            for top in (*stage.entry, *stage.move_on, *stage.step_back)
            for words in words_in(top)
            if words.id == name
        ]
        if len(set(owners)) == 1:
            yield SeenCriterion(protocol=owners[0], criterion=name, met=True, date=report.date)


def _so_far(plan: Plan, before: Presentation, report: Review) -> tuple[StageSoFar, ...]:
    known = {(each.protocol, each.stage, each.side): each for each in before.stages}
    found = dict(known)
    done = sessions_of(report)
    for chosen in plan.stages:
        key = next(
            (
                each
                for each in known
                if each[:2] == (chosen.protocol, chosen.stage)
                and each[2] in (chosen.side, Side.NONE, Side.BOTH)
            ),
            (chosen.protocol, chosen.stage, chosen.side),
        )
        old = known.get(key)
        first = StageSoFar(
            protocol=chosen.protocol,
            stage=chosen.stage,
            side=chosen.side,
            began=plan.created,
            programme_began=plan.created,
            sessions_done=0,
            sessions_in_all=0,
        )
        base = old or first
        found[key] = evolve(
            base,
            began=base.began or plan.created,
            sessions_done=_plus(base.sessions_done, done),
            sessions_in_all=_plus(base.sessions_in_all, done),
        )
    return tuple(found.values())


def _plus(before: int | None, done: int | None) -> int | None:
    if before is None and done is None:
        return None
    return min(5000, (before or 0) + (done or 0))


def sessions_of(report: Review) -> int | None:
    """Sessions done since the plan was made: as said, else the most of any exercise."""
    if report.sessions_done is not None:
        return report.sessions_done
    done = [each.sessions_done for each in report.items if each.sessions_done is not None]
    return max(done, default=None)


def flags_not_asked(plan: Plan, report: Review) -> tuple[str, ...]:
    """Red flags of the plan's protocols that the report does not answer."""
    asked = {
        (each.protocol, each.flag)
        for each in report.red_flags
        if each.answer is not Answer.NOT_ASKED
    }
    return tuple(
        flag.id
        for protocol in plan.protocols
        for flag in protocol.red_flags
        if (protocol.id, flag.id) not in asked
    )


def reported(items: Iterable[ItemReview], item_id: str) -> ItemReview | None:
    """What the report says of an exercise."""
    return next((each for each in items if each.item == item_id), None)
