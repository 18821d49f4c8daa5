"""The patient in front of you, the plan for them and its review. No name has a place here."""

from __future__ import annotations

import datetime as dt
from typing import ClassVar

from authoring.model.base import LANGUAGE_TAG, Node, fact, many, node, optional, slug, slugs, uuid
from authoring.model.card import Card
from authoring.model.dose import Dose
from authoring.model.library import Term
from authoring.model.limits import LimbLimit
from authoring.model.protocol import Protocol
from authoring.model.text import Text
from authoring.model.vocabulary import (
    Answer,
    Irritability,
    ReviewOutcome,
    Side,
    TypeSize,
    Unit,
    WeightBearing,
    WeightUnit,
)


@node
class FlagAnswer(Node):
    """The answer to one red-flag question."""

    protocol: str = uuid("Protocol that asks it.", points_to="protocol")
    flag: str = slug("The red flag.", points_to="red_flag")
    answer: Answer = fact("No, yes or not asked.", default=Answer.NOT_ASKED)


@node
class ExercisePain(Node):
    """Pain with one exercise or movement, 0 to 10."""

    card: str | None = uuid("The exercise.", default=None, points_to="card")
    movement: str | None = slug("The movement.", default=None, term="movement")
    during: float | None = optional("Pain during it.", low=0, high=10)
    next_morning: float | None = optional("Pain on the next morning.", low=0, high=10)


@node
class OwnedKit(Node):
    """Kit at hand, with its real steps."""

    kit: str = slug("The kit.", term="kit")
    sizes: tuple[float, ...] = many("Sizes at hand (weights, heights).", longest=60)
    unit: WeightUnit | None = optional("Unit of sizes, for weights.")
    count: int = fact("How many of each.", default=1, low=1, high=20)


@node
class TestResult(Node):
    """A dated test result."""

    __test__: ClassVar[bool] = False  # not a test class, whatever its name

    measure: str = slug("What was measured.", term="measure")
    value: float = fact("Value.", low=-1_000_000, high=1_000_000)
    unit: Unit = fact("Unit.")
    side: Side = fact("Side.", default=Side.NONE)
    date: dt.date = fact("Day.")


@node
class SurgeonLimit(Node):
    """A limit set by the surgeon; it outranks every protocol."""

    text: str = fact("The limit.", longest=500)
    demands: tuple[str, ...] = slugs("Demands it rules out.", term="demand")
    movements: tuple[str, ...] = slugs("Movements it rules out.", term="movement")
    positions: tuple[str, ...] = slugs("Positions it rules out.", term="position")
    limb: LimbLimit | None = optional("How far and how heavily the limb may be used.")
    until: dt.date | None = optional("Day until which it holds.")


@node
class Presentation(Node):
    """What is known of the patient, under a label and never a name."""

    FORMAT: ClassVar[str] = "rungbook/presentation"

    id: str = uuid("Id of the file.")
    label: str = fact("The clinic's own label; never a name.", default="", longest=60)
    side: Side = fact("Affected side.", default=Side.NONE)
    irritability: Irritability | None = optional("How easily it flares up.")
    rest_pain: float | None = optional("Pain at rest, 0 to 10.", low=0, high=10)
    morning_pain: float | None = optional("Pain next morning, 0 to 10.", low=0, high=10)
    pains: tuple[ExercisePain, ...] = many("Pain by exercise or movement.", longest=200)
    red_flags: tuple[FlagAnswer, ...] = many("Red flags answered.", longest=200)
    injured: dt.date | None = optional("Day of the injury.")
    operated: dt.date | None = optional("Day of the operation.")
    weight_bearing: WeightBearing | None = optional("How much weight the limb may take.")
    limits: tuple[SurgeonLimit, ...] = many("Surgeon's limits.", longest=40)
    tests: tuple[TestResult, ...] = many("Dated test results.", longest=500)
    conditions: tuple[str, ...] = slugs("Conditions.", term="condition")
    unmapped_conditions: tuple[str, ...] = many(
        "Conditions in free text that no term covers; they count as not covered.", longest=60
    )
    avoid_positions: tuple[str, ...] = slugs("Positions to avoid.", term="position")
    avoid_demands: tuple[str, ...] = slugs("Demands to avoid.", term="demand")
    avoid_movements: tuple[str, ...] = slugs("Movements to avoid.", term="movement")
    kit: tuple[OwnedKit, ...] = many("Kit at hand.", longest=100)
    minutes: int | None = optional("Minutes for a session.", low=1, high=480)
    days_per_week: int | None = optional("Days a week.", low=1, high=7)
    body_mass_kg: float | None = optional("Body mass.", low=1, high=400)
    height_cm: float | None = optional("Height.", low=40, high=260)
    language: str | None = optional("Language of the handout.", pattern=LANGUAGE_TAG)
    print_size: TypeSize = fact("Print size.", default=TypeSize.STANDARD)


@node
class Reason(Node):
    """Why something was chosen or left out."""

    code: str = slug("Stable code of the rule.")
    text: str = fact("One sentence.", longest=500)


@node
class Override(Node):
    """A clinician's decision against the proposal."""

    who: str = fact("Who.", fewest=1, longest=200)
    why: str = fact("Why.", default="", longest=1000)
    date: dt.date = fact("Day.")


@node
class PlanItem(Node):
    """One exercise of a plan."""

    id: str = slug("Id, unique in the plan.")
    protocol: str | None = uuid("Protocol it comes from.", default=None, points_to="protocol")
    entry: str | None = slug("Entry it comes from.", default=None, points_to="entry")
    card: str = uuid("The card.", points_to="card")
    variant: str = slug("The variant chosen.", points_to="variant")
    side: Side = fact("Side that works.", default=Side.NONE)
    dose: Dose | None = optional("Dose.")
    reasons: tuple[Reason, ...] = many("Why.", longest=60)
    override: Override | None = optional("The clinician's own choice.")


@node
class LeftOut(Node):
    """What was left out of a plan, and why. Nothing is dropped silently."""

    protocol: str | None = uuid("Protocol it comes from.", default=None, points_to="protocol")
    entry: str | None = slug("Entry it comes from.", default=None, points_to="entry")
    card: str = uuid("The card.", points_to="card")
    later: bool = fact("Whether it may come back later.", default=False)
    reasons: tuple[Reason, ...] = many("Why.", longest=60)


@node
class ChosenStage(Node):
    """A stage of a protocol version that a plan follows."""

    protocol: str = uuid("The protocol.", points_to="protocol")
    version: str = fact("Its version.", longest=20)
    stage: str = slug("The stage.", points_to="stage")
    side: Side = fact("Side it is for, where sides differ.", default=Side.NONE)


@node
class Plan(Node):
    """What a patient does until the review, with all it needs to reprint unchanged."""

    FORMAT: ClassVar[str] = "rungbook/plan"

    id: str = uuid("Id of the file.")
    label: str = fact("The clinic's own label; never a name.", default="", longest=60)
    language: str = fact("Language of plain strings (BCP 47).", pattern=LANGUAGE_TAG)
    created: dt.date = fact("Day it was made.")
    clinician: str = fact("Who decided it.", default="", longest=200)
    presentation: Presentation | None = optional("What it was made for.")
    stages: tuple[ChosenStage, ...] = many("Stages followed; none for single cards.", longest=20)
    items: tuple[PlanItem, ...] = many("Exercises in order.", longest=60)
    left_out: tuple[LeftOut, ...] = many("What was left out, and why.", longest=500)
    review_on: dt.date | None = optional("Day of the review.")
    note: Text | None = optional("Note for the patient.")
    protocols: tuple[Protocol, ...] = many("Protocols embedded as used.", longest=20)
    cards: tuple[Card, ...] = many("Cards embedded as used.", longest=500)
    terms: tuple[Term, ...] = many("Terms embedded as used.", longest=5000)


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
