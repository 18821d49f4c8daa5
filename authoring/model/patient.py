"""The patient in front of you: facts alone, under a label. No name has a place here."""

from __future__ import annotations

import datetime as dt
from typing import ClassVar

from authoring.model.base import (
    LANGUAGE_TAG,
    ModelError,
    Node,
    fact,
    many,
    node,
    optional,
    slug,
    slugs,
    uuid,
)
from authoring.model.limits import LimbLimit
from authoring.model.sentence import say
from authoring.model.vocabulary import (
    Answer,
    Irritability,
    Region,
    Side,
    SupportKind,
    TypeSize,
    Unit,
    WeightBearing,
    WindowKind,
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
    variant: str | None = slug(
        "The variant that was tried, where it is known.", default=None, points_to="variant"
    )
    movement: str | None = slug("The movement.", default=None, term="movement")
    side: Side = fact("Side that was tried; none means that it is not known.", default=Side.NONE)
    during: float | None = optional("Pain during it.", low=0, high=10)
    next_morning: float | None = optional("Pain on the next morning.", low=0, high=10)


@node
class OwnedKit(Node):
    """Kit at hand, with its real steps."""

    kit: str = slug("The kit.", term="kit")
    sizes: tuple[float, ...] = many("Sizes at hand (weights, heights).", longest=60)
    unit: Unit | None = optional("Unit of sizes (kg, lb, cm).")
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
    moment: WindowKind = fact(
        "Moment it is of: now, during, after or on the next morning.", default=WindowKind.NOW
    )
    baseline: bool = fact("Whether later results are compared with it.", default=False)


@node
class SeenCriterion(Node):
    """A criterion in words that the clinician has looked at."""

    protocol: str = uuid("Protocol that sets it.", points_to="protocol")
    criterion: str = slug("The criterion.", points_to="criterion")
    met: bool = fact("Whether it is met.")
    side: Side = fact("Side it was seen on; none means both or neither.", default=Side.NONE)
    date: dt.date = fact("Day.")


@node
class StageSoFar(Node):
    """A stage that the patient is in already."""

    protocol: str = uuid("The protocol.", points_to="protocol")
    stage: str = slug("The stage.", points_to="stage")
    side: Side = fact("Side it is for, where sides differ.", default=Side.NONE)
    began: dt.date | None = optional("Day the stage began.")
    programme_began: dt.date | None = optional("Day the programme began.")
    sessions_done: int | None = optional("Sessions done in the stage.", low=0, high=5000)
    sessions_in_all: int | None = optional("Sessions done in the programme.", low=0, high=5000)


@node
class SurgeonLimit(Node):
    """A limit set by the surgeon; it outranks every protocol."""

    text: str = fact("The limit.", longest=500)
    demands: tuple[str, ...] = slugs("Demands it rules out.", term="demand")
    movements: tuple[str, ...] = slugs("Movements it rules out.", term="movement")
    positions: tuple[str, ...] = slugs("Positions it rules out.", term="position")
    limb: LimbLimit | None = optional("How far and how heavily the limb may be used.")
    side: Side = fact("Side it is for; none means the affected side.", default=Side.NONE)
    until: dt.date | None = optional("Day until which it holds.")


@node
class SideState(Node):
    """What differs on one side, where both are affected. What is not given is as for both."""

    side: Side = fact("Left or right.")
    irritability: Irritability | None = optional("How easily it flares up.")
    rest_pain: float | None = optional("Pain at rest, 0 to 10.", low=0, high=10)
    morning_pain: float | None = optional("Pain next morning, 0 to 10.", low=0, high=10)
    injured: dt.date | None = optional("Day of the injury.")
    operated: dt.date | None = optional("Day of the operation.")
    weight_bearing: WeightBearing | None = optional("How much weight the limb may take.")

    def __attrs_post_init__(self) -> None:
        if self.side not in (Side.LEFT, Side.RIGHT):
            raise ModelError("side", say("side must be left or right."))


@node
class Presentation(Node):
    """What is known of the patient, under a label and never a name."""

    FORMAT: ClassVar[str] = "rungbook/presentation"

    id: str = uuid("Id of the file.")
    label: str = fact("The clinic's own label; never a name.", default="", longest=60)
    side: Side = fact("Affected side.", default=Side.NONE)
    each_side: tuple[SideState, ...] = many(
        "What differs between the sides, where both are affected.", longest=2
    )
    irritability: Irritability | None = optional("How easily it flares up.")
    rest_pain: float | None = optional("Pain at rest, 0 to 10.", low=0, high=10)
    morning_pain: float | None = optional("Pain next morning, 0 to 10.", low=0, high=10)
    pains: tuple[ExercisePain, ...] = many("Pain by exercise or movement.", longest=200)
    red_flags: tuple[FlagAnswer, ...] = many("Red flags answered.", longest=200)
    injured: dt.date | None = optional("Day of the injury.")
    operated: dt.date | None = optional("Day of the operation.")
    weight_bearing: WeightBearing | None = optional("How much weight the limb may take.")
    limb: tuple[Region, ...] = many(
        "Limb that the weight and the surgeon's limits are for; empty means that of the protocols.",
        longest=16,
    )
    limits: tuple[SurgeonLimit, ...] = many("Surgeon's limits.", longest=40)
    tests: tuple[TestResult, ...] = many("Dated test results.", longest=500)
    seen: tuple[SeenCriterion, ...] = many("Criteria in words, as seen.", longest=500)
    stages: tuple[StageSoFar, ...] = many("Stages that the patient is in already.", longest=40)
    conditions: tuple[str, ...] = slugs("Conditions.", term="condition")
    unmapped_conditions: tuple[str, ...] = many(
        "Conditions in free text that no term covers; they count as not covered.", longest=60
    )
    avoid_positions: tuple[str, ...] = slugs("Positions to avoid.", term="position")
    avoid_demands: tuple[str, ...] = slugs("Demands to avoid.", term="demand")
    avoid_movements: tuple[str, ...] = slugs("Movements to avoid.", term="movement")
    kit: tuple[OwnedKit, ...] = many("Kit at hand.", longest=100)
    supports: tuple[SupportKind, ...] | None = optional(
        "Supports and helpers at hand; none given means that nobody asked.", longest=20
    )
    hands_free: int | None = optional("Hands that can hold on or carry.", low=0, high=2)
    minutes: int | None = optional("Minutes for a session.", low=1, high=480)
    days_per_week: int | None = optional("Days a week.", low=1, high=7)
    body_mass_kg: float | None = optional("Body mass.", low=1, high=400)
    height_cm: float | None = optional("Height.", low=40, high=260)
    language: str | None = optional("Language of the handout.", pattern=LANGUAGE_TAG)
    print_size: TypeSize = fact("Print size.", default=TypeSize.STANDARD)

    def __attrs_post_init__(self) -> None:
        sides = [state.side for state in self.each_side]
        if len(set(sides)) != len(sides):
            raise ModelError("each_side", say("each_side must give a side once."))
