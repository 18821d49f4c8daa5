"""The plan for a patient: what was chosen and left out, each with its reasons."""

from __future__ import annotations

import datetime as dt
from typing import ClassVar

from authoring.model.base import (
    LANGUAGE_TAG,
    SLUG,
    Node,
    fact,
    many,
    node,
    optional,
    slug,
    slugs,
    uuid,
)
from authoring.model.card import Card
from authoring.model.dose import Dose
from authoring.model.library import Term
from authoring.model.pain import PainRule
from authoring.model.patient import Presentation
from authoring.model.pose import Pose
from authoring.model.protocol import Protocol
from authoring.model.text import Text
from authoring.model.vocabulary import OverrideKind, ReviewOutcome, Side, StageOutcome, Weekday


@node
class Reason(Node):
    """Why something was chosen or left out."""

    code: str = slug("Stable code of the rule.")
    text: str = fact("One sentence.", longest=500)
    source: str = fact("What the rule rests on, where a source is known.", default="", longest=300)


@node
class Countersign(Node):
    """A second clinician's sign under an override."""

    who: str = fact("Who.", fewest=1, longest=200)
    date: dt.date = fact("Day.")


@node
class Override(Node):
    """A clinician's decision against the proposal."""

    what: OverrideKind = fact("What was decided.", default=OverrideKind.VARIANT)
    who: str = fact("Who.", fewest=1, longest=200)
    why: str = fact("Why.", default="", longest=1000)
    date: dt.date = fact("Day.")
    rules: tuple[str, ...] = slugs("Codes of the hard rules that it sets aside.")
    countersign: Countersign | None = optional("The second clinician's sign, where one is needed.")


@node
class PlanItem(Node):
    """One exercise of a plan."""

    id: str = slug("Id, unique in the plan.")
    protocol: str | None = uuid("Protocol it comes from.", default=None, points_to="protocol")
    stage: str | None = slug("Stage it comes from.", default=None, points_to="stage")
    entry: str | None = slug("Entry it comes from.", default=None, points_to="entry")
    card: str = uuid("The card.", points_to="card")
    variant: str = slug("The variant chosen.", points_to="variant")
    proposed: str | None = slug(
        "The variant proposed, where the clinician chose another.",
        default=None,
        points_to="variant",
    )
    permitted: tuple[str, ...] | None = optional(
        "Variants that may stand in for it on the sheet; none given means those of its entry.",
        points_to="variant",
        pattern=SLUG,
        longest=500,
    )
    side: Side = fact("Side that works.", default=Side.NONE)
    dose: Dose | None = optional("Dose.")
    days: tuple[Weekday, ...] = many("Days it is done; empty means every day of the plan.")
    seen_done: dt.date | None = optional("Day it was seen done in the room.")
    reasons: tuple[Reason, ...] = many("Why.", longest=60)
    overrides: tuple[Override, ...] = many("The clinician's own choices, oldest first.", longest=40)


@node
class LeftOut(Node):
    """What was left out of a plan, and why. Nothing is dropped silently."""

    protocol: str | None = uuid("Protocol it comes from.", default=None, points_to="protocol")
    stage: str | None = slug("Stage it comes from.", default=None, points_to="stage")
    entry: str | None = slug("Entry it comes from.", default=None, points_to="entry")
    card: str = uuid("The card.", points_to="card")
    side: Side = fact("Side it is for.", default=Side.NONE)
    later: bool = fact("Whether it may come back later.", default=False)
    reasons: tuple[Reason, ...] = many("Why.", longest=60)
    overrides: tuple[Override, ...] = many("The clinician's own choices, oldest first.", longest=40)


@node
class NotCovered(Node):
    """A condition that no caution in the plan speaks of. It is not passed as safe."""

    condition: str | None = slug("The condition.", default=None, term="condition")
    words: str = fact("The condition in free text, where no term covers it.", default="")


@node
class ChosenStage(Node):
    """A stage of a protocol version that a plan follows."""

    protocol: str = uuid("The protocol.", points_to="protocol")
    version: str = fact("Its version.", longest=20)
    stage: str = slug("The stage.", points_to="stage")
    side: Side = fact("Side it is for, where sides differ.", default=Side.NONE)
    reasons: tuple[Reason, ...] = many("Why this stage.", longest=60)


@node
class SinceItem(Node):
    """What a review changed in one exercise."""

    card: str = uuid("The card before.", points_to="card")
    variant: str = slug("The variant before.", points_to="variant")
    side: Side = fact("Side that works.", default=Side.NONE)
    outcome: ReviewOutcome = fact("What follows.")
    item: str | None = slug("The exercise now; none where it waits.", default=None)
    dose: Dose | None = optional("The dose before, where it has changed.")


@node
class SinceStage(Node):
    """What a review changed in one stage."""

    protocol: str = uuid("The protocol.", points_to="protocol")
    stage: str = slug("The stage that is followed now.", points_to="stage")
    side: Side = fact("Side it is for, where sides differ.", default=Side.NONE)
    outcome: StageOutcome = fact("What followed.")


@node
class SinceLast(Node):
    """What is different since the plan before."""

    plan: str = uuid("The plan before.", points_to="plan")
    made: dt.date = fact("Day the plan before was made.")
    stages: tuple[SinceStage, ...] = many("By stage.", longest=40)
    items: tuple[SinceItem, ...] = many("By exercise of the plan before.", longest=60)


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
    most_exercises: int | None = optional("Most exercises asked for.", low=1, high=60)
    pain: PainRule | None = optional("The clinic's pain rule when it was made.")
    items: tuple[PlanItem, ...] = many("Exercises in order.", longest=60)
    left_out: tuple[LeftOut, ...] = many("What was left out, and why.", longest=500)
    reasons: tuple[Reason, ...] = many("What must be known of the plan as a whole.", longest=200)
    not_covered: tuple[NotCovered, ...] = many("Conditions that nobody covers.", longest=200)
    days: tuple[Weekday, ...] = many("Days of the week it is done.")
    review_on: dt.date | None = optional("Day of the review.")
    note: Text | None = optional("Note for the patient.")
    since: SinceLast | None = optional("What is different since the plan before.")
    protocols: tuple[Protocol, ...] = many("Protocols embedded as used.", longest=20)
    cards: tuple[Card, ...] = many("Cards embedded as used.", longest=500)
    terms: tuple[Term, ...] = many("Terms embedded as used.", longest=5000)
    poses: tuple[Pose, ...] = many("Poses embedded as used.", longest=500)
