"""Reports on the small plan: one exercise, a heel raise of 3 sets of 8 to 12."""

from __future__ import annotations

import datetime as dt
from typing import Any

from authoring.model.base import evolve
from authoring.model.plan import Plan
from authoring.model.protocol import Progression, Protocol, Stage
from authoring.model.review import ItemReview, Review
from authoring.model.vocabulary import ProgressionMethod
from authoring.tailoring.review import ItemOutcome, review
from tests.tailoring.values import PROTOCOL, TODAY, all_no, only, patient, small_library, small_plan

REPORT_ID = "00000000-0000-4000-8000-000000000800"
LATER = TODAY + dt.timedelta(days=14)
GOOD: dict[str, Any] = {
    "sessions_done": 6,
    "sessions_running": 4,
    "reps_reached": 14,
    "seconds_reached": 60,
    "pain_during": 1.0,
    "pain_next_morning": 1.0,
    "settled": True,
}
"""A report with nothing against a step up."""


def strong(**facts: Any) -> Protocol:
    """The small protocol with other facts on the entry of its stage "strong"."""

    def stage(each: Stage) -> Stage:
        if each.id != "strong":
            return each
        blocks = tuple(
            evolve(block, entries=tuple(evolve(e, **facts) for e in block.entries))
            for block in each.blocks
        )
        return evolve(each, blocks=blocks)

    return evolve(PROTOCOL, stages=tuple(stage(each) for each in PROTOCOL.stages))


def by(method: ProgressionMethod, **facts: Any) -> Progression:
    return Progression(method=method, **facts)


def plan_of(protocol: Protocol = PROTOCOL, **facts: Any) -> Plan:
    given = {"morning_pain": 1.0, "red_flags": all_no(protocol), "days_per_week": 3, **facts}
    return small_plan(patient(**given), small_library(protocol=protocol))


def report_of(plan: Plan, *items: ItemReview, **facts: Any) -> Review:
    flags = all_no(*plan.protocols)
    given = {"date": LATER, "red_flags": flags, "clinician": "J. Example", **facts}
    return Review(id=REPORT_ID, plan=plan.id, items=items, **given)


def outcome(plan: Plan, flags: Any = None, **facts: Any) -> ItemOutcome:
    """What follows for the only exercise; of the good report only what is named differs."""
    found = ItemReview(item=only(plan).id, **{**GOOD, **facts})
    more = {} if flags is None else {"red_flags": flags}
    (each,) = review(plan, report_of(plan, found, **more)).items
    return each
