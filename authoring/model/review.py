"""What happened since a plan was made."""

from __future__ import annotations

import datetime as dt
from typing import ClassVar

from authoring.model.base import Node, fact, many, node, optional, slug, slugs, uuid
from authoring.model.patient import FlagAnswer, TestResult
from authoring.model.plan import Reason
from authoring.model.vocabulary import ReviewOutcome, WeightUnit


@node
class ItemReview(Node):
    """What happened with one exercise, and what follows."""

    item: str = slug("The plan's item.", points_to="item")
    sessions_done: int | None = optional("Sessions done.", low=0, high=1000)
    reps_reached: int | None = optional("Repetitions reached in the last set.", low=0, high=10_000)
    load_reached: float | None = optional("Load reached.", low=0, high=1000)
    load_unit: WeightUnit = fact("Unit of load_reached.", default=WeightUnit.KG)
    pain_during: float | None = optional("Worst pain during it.", low=0, high=10)
    pain_next_morning: float | None = optional("Worst pain on a next morning.", low=0, high=10)
    outcome: ReviewOutcome | None = optional("What follows.")
    reasons: tuple[Reason, ...] = many("Why.", longest=60)


@node
class Review(Node):
    """What happened since the plan was made."""

    FORMAT: ClassVar[str] = "rungbook/review"

    id: str = uuid("Id of the file.")
    plan: str = uuid("The plan.", points_to="plan")
    date: dt.date = fact("Day.")
    clinician: str = fact("Who.", default="", longest=200)
    items: tuple[ItemReview, ...] = many("By exercise.", longest=60)
    tests: tuple[TestResult, ...] = many("Tests done.", longest=200)
    red_flags: tuple[FlagAnswer, ...] = many("Red flags asked again.", longest=200)
    criteria_met: tuple[str, ...] = slugs("Criteria found to be met.", points_to="criterion")
    note: str = fact("Note.", default="", longest=2000)
