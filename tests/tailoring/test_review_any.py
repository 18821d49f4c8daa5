"""Any report on any plan: no crash, more pain is never milder, a red flag always stops."""

from __future__ import annotations

import datetime as dt
from random import Random
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from authoring.files.documents import document_bytes, parse_document
from authoring.model.base import evolve
from authoring.model.patient import FlagAnswer, TestResult
from authoring.model.plan import Plan
from authoring.model.review import ItemReview, Review
from authoring.model.vocabulary import Answer, ReviewOutcome, Side, StageOutcome, Unit, WindowKind
from authoring.tailoring.overrides import Decision, hard_reasons
from authoring.tailoring.propose import propose
from authoring.tailoring.review import Reviewed, review
from authoring.tailoring.review_confirm import confirm
from authoring.tailoring.review_pain import WORSE
from authoring.tailoring.review_stages import GRAVITY
from tests.tailoring.patients import any_patient, any_request, pain, perhaps
from tests.tailoring.reports import REPORT_ID
from tests.tailoring.values import all_no, clinic_library

seeds = st.integers(0, 2**32)


def any_plan(random: Random) -> Plan:
    library = clinic_library()
    return propose(library, any_patient(random, library), any_request(random, library))


def any_item(random: Random, item_id: str) -> ItemReview:
    good = random.random() < 0.6
    done = random.randint(6, 40) if good else perhaps(random, random.randint(0, 30))
    running = None if done is None else perhaps(random, random.randint(0, done), 0.8)
    return ItemReview(
        item=item_id,
        sessions_done=done,
        sessions_running=done if good else running,
        reps_reached=1000 if good else perhaps(random, random.randint(0, 40)),
        seconds_reached=9000 if good else perhaps(random, random.randint(0, 90)),
        load_reached=100 if good else perhaps(random, random.randint(0, 20)),
        pain_during=random.randint(0, 4) / 2 if good else pain(random),
        pain_after=pain(random),
        pain_next_morning=pain(random),
        settled=True if good else perhaps(random, random.random() < 0.5),
    )


def any_report(random: Random, plan: Plan) -> Review:
    names = [item.id for item in plan.items if random.random() < 0.9]
    day = plan.created + dt.timedelta(days=random.randint(0, 60))
    measures = [
        m for p in plan.protocols for s in p.stages for m in ("pain-rest", s.id[:1] + "-test")
    ]
    return Review(
        id=REPORT_ID,
        plan=plan.id,
        date=day,
        items=tuple(any_item(random, name) for name in names),
        red_flags=all_no(*plan.protocols) if random.random() < 0.8 else (),
        tests=tuple(
            TestResult(
                measure=measure,
                value=random.randint(0, 50),
                unit=Unit.REPETITIONS,
                side=random.choice(list(Side)),
                date=day,
                moment=random.choice((WindowKind.NOW, WindowKind.NEXT_MORNING)),
            )
            for measure in measures[:4]
        ),
    )


def without_flags(plan: Plan) -> Plan:
    """The plan with no red flag answered yes."""
    old = plan.presentation
    return plan if old is None else evolve(plan, presentation=evolve(old, red_flags=()))


def by(report: Review) -> Decision:
    return Decision(who="J. Example", date=report.date)


def confirmed(found: Reviewed) -> Plan:
    """The next plan with every step up and every move on confirmed."""
    on = [(s.protocol, s.side) for s in found.stages if s.outcome is StageOutcome.MOVE_ON]
    return confirm(found, by(found.report), up=found.steps_up(), on=on, library=clinic_library())


@given(seeds)
def test_any_report_gives_the_same_next_plan_that_keeps_every_rule(seed: int) -> None:
    random = Random(seed)
    plan = without_flags(any_plan(random))
    report = any_report(random, plan)
    found = review(plan, report, clinic_library())
    again = review(plan, report, clinic_library())
    assert (found.items, found.stages, found.report) == (again.items, again.stages, again.report)
    after = confirmed(found)
    assert after == confirmed(again)
    assert parse_document(document_bytes(after), "plan.json").document == after
    assert parse_document(document_bytes(found.report), "r.json").document == found.report
    assert all(reason.text for each in found.items for reason in each.reasons)
    assert all(each.reasons for each in found.items)
    for each in found.items:
        if each.outcome is ReviewOutcome.UP and each.next is not None:
            stepped = evolve(plan, presentation=found.presentation, created=report.date)
            assert hard_reasons(stepped, each.next, clinic_library()) == ()


@given(seeds, st.integers(0, 30))
def test_more_pain_never_gives_a_milder_outcome(seed: int, more: int) -> None:
    random = Random(seed)
    plan = without_flags(any_plan(random))
    report = any_report(random, plan)
    fields = ("pain_during", "pain_after", "pain_next_morning")

    def worse(item: ItemReview) -> ItemReview:
        raised: dict[str, Any] = {
            name: min(10.0, value + more / 3)
            for name in fields
            if (value := getattr(item, name)) is not None
        }
        return evolve(item, **raised)

    sore = evolve(report, items=tuple(worse(item) for item in report.items))
    mild, hard = review(plan, report), review(plan, sore)
    for before, after in zip(mild.items, hard.items, strict=True):
        assert WORSE.index(after.outcome) >= WORSE.index(before.outcome), before.before.id
    for one, other in zip(mild.stages, hard.stages, strict=True):
        assert GRAVITY.index(other.outcome) >= GRAVITY.index(one.outcome)


@given(seeds)
def test_a_red_flag_always_stops(seed: int) -> None:
    random = Random(seed)
    plan = any_plan(random)
    flags = [(p.id, flag.id) for p in plan.protocols for flag in p.red_flags]
    if not flags:
        return
    protocol, flag = random.choice(flags)
    yes = FlagAnswer(protocol=protocol, flag=flag, answer=Answer.YES)
    report = any_report(random, plan)
    found = review(plan, evolve(report, red_flags=(*report.red_flags, yes)))
    assert {each.outcome for each in found.items} <= {ReviewOutcome.STOP}
    assert {each.outcome for each in found.stages} <= {StageOutcome.STOP}
    assert found.steps_up() == ()


@given(seeds)
def test_a_report_of_nothing_changes_nothing(seed: int) -> None:
    random = Random(seed)
    plan = without_flags(any_plan(random))
    report = Review(id=REPORT_ID, plan=plan.id, date=plan.created)
    found = review(plan, report)
    assert {each.outcome for each in found.items} <= {ReviewOutcome.SAME, ReviewOutcome.STOP}
    assert StageOutcome.MOVE_ON not in {each.outcome for each in found.stages}
