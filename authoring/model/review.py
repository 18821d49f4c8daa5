"""What happened since a plan was made."""

from __future__ import annotations

import datetime as dt
from typing import ClassVar

from authoring.model.base import Node, fact, many, node, optional, slug, slugs, uuid
from authoring.model.patient import FlagAnswer, SeenCriterion, SideState, TestResult
from authoring.model.plan import Reason
from authoring.model.vocabulary import Irritability, ReviewOutcome, Side, StageOutcome, WeightUnit


@node
class ItemReview(Node):
    """What happened with one exercise, and what follows."""

    item: str = slug("The plan's item.", points_to="item")
    sessions_done: int | None = optional("Sessions done.", low=0, high=1000)
    sessions_running: int | None = optional(
        "Last sessions running that were done as asked, with good form.", low=0, high=1000
    )
    reps_reached: int | None = optional(
        "Repetitions reached in the last set; in all, where the dose is a total.",
        low=0,
        high=10_000,
    )
    seconds_reached: int | None = optional(
        "Seconds reached in the longest hold or bout.", low=0, high=36_000
    )
    load_reached: float | None = optional("Load reached.", low=0, high=1000)
    load_unit: WeightUnit = fact("Unit of load_reached.", default=WeightUnit.KG)
    pain_during: float | None = optional("Worst pain during it.", low=0, high=10)
    pain_after: float | None = optional("Worst pain after it, on the same day.", low=0, high=10)
    pain_next_morning: float | None = optional("Worst pain on a next morning.", low=0, high=10)
    settled: bool | None = optional(
        "Whether pain was back to its usual level in the time that the pain rule gives."
    )
    outcome: ReviewOutcome | None = optional("What follows.")
    reasons: tuple[Reason, ...] = many("Why.", longest=60)


@node
class StageReview(Node):
    """What follows for one stage."""

    protocol: str = uuid("The protocol.", points_to="protocol")
    stage: str = slug("The stage that was followed.", points_to="stage")
    side: Side = fact("Side it is for, where sides differ.", default=Side.NONE)
    outcome: StageOutcome = fact("What follows.")
    to: str | None = slug("The stage that follows, where it is another.", default=None)
    reasons: tuple[Reason, ...] = many("Why.", longest=60)


@node
class Review(Node):
    """What happened since the plan was made."""

    FORMAT: ClassVar[str] = "rungbook/review"

    id: str = uuid("Id of the file.")
    plan: str = uuid("The plan.", points_to="plan")
    date: dt.date = fact("Day.")
    clinician: str = fact("Who.", default="", longest=200)
    sessions_done: int | None = optional("Sessions done since the plan was made.", low=0, high=5000)
    items: tuple[ItemReview, ...] = many("By exercise.", longest=60)
    tests: tuple[TestResult, ...] = many("Tests done.", longest=200)
    red_flags: tuple[FlagAnswer, ...] = many("Red flags asked again.", longest=200)
    seen: tuple[SeenCriterion, ...] = many("Criteria in words, as seen.", longest=200)
    criteria_met: tuple[str, ...] = slugs(
        "Criteria in words that were seen to be met on every side.", points_to="criterion"
    )
    irritability: Irritability | None = optional("How easily it flares up now.")
    rest_pain: float | None = optional("Pain at rest now, 0 to 10.", low=0, high=10)
    morning_pain: float | None = optional("Usual pain in the morning now, 0 to 10.", low=0, high=10)
    each_side: tuple[SideState, ...] = many(
        "What differs between the sides now, where both are affected.", longest=2
    )
    stages: tuple[StageReview, ...] = many("By stage, what follows.", longest=40)
    note: str = fact("Note.", default="", longest=2000)
