"""A staged protocol: stages, blocks, entries, criteria and rules."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import ClassVar

from authoring.model.base import (
    LANGUAGE_TAG,
    VERSION,
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
from authoring.model.caution import Caution, RedFlag
from authoring.model.criterion import Criterion
from authoring.model.dose import Dose, Frequency, Rest
from authoring.model.limits import LimbLimit
from authoring.model.load import IntRange
from authoring.model.pacing import Cap, PauseRule
from authoring.model.pain import PainRule
from authoring.model.sentence import say
from authoring.model.sources import Reference, Source
from authoring.model.text import Text
from authoring.model.vocabulary import (
    Adherence,
    BlockKind,
    BranchAction,
    CareKind,
    Pathway,
    People,
    ProgressionMethod,
    Region,
    Setting,
    Sides,
    Status,
    Supervision,
    WeightUnit,
)


@node
class Progression(Node):
    """Rule by which an entry's dose grows, and whether the patient may apply it alone."""

    method: ProgressionMethod = fact("The rule.")
    reps_ceiling: int | None = optional("Repetitions at which the load grows.", low=1, high=1000)
    extra_reps: int | None = optional(
        "Repetitions above target that count as easy.", low=1, high=50
    )
    sessions_running: int | None = optional(
        "Sessions running in which it must be easy.", low=1, high=50
    )
    step_percent: float | None = optional(
        "Step as percent of the load, or the least step.", low=0, high=100
    )
    step_percent_high: float | None = optional(
        "The largest step as percent of the load, where it is a range (2 to 10).", low=0, high=100
    )
    step_amount: float | None = optional("Step as a weight.", low=0, high=200)
    step_unit: WeightUnit = fact("Unit of step_amount.", default=WeightUnit.KG)
    hold_step_s: int | None = optional("Seconds a hold grows by.", low=1, high=600)
    hold_ceiling_s: int | None = optional("Longest hold in seconds.", low=1, high=3600)
    minutes_step: float | None = optional("Minutes a session grows by.", low=0, high=120)
    total_step: int | None = optional("Repetitions a total grows by.", low=1, high=1000)
    total_ceiling: int | None = optional("Most repetitions in all.", low=1, high=10_000)
    work_step_s: int | None = optional("Seconds each work interval grows by.", low=1, high=3600)
    work_ceiling_s: int | None = optional("Longest work interval in seconds.", low=1, high=36_000)
    recover_step_s: int | None = optional(
        "Seconds each recovery interval shrinks by.", low=0, high=3600
    )
    sets_ceiling: int | None = optional("Most sets.", low=1, high=50)
    minimum_sessions: int | None = optional("Sessions to do before a step.", low=1, high=200)
    weekly_cap_percent: float | None = optional("Most growth in a week, percent.", low=0, high=500)
    lighter_week_every: int | None = optional(
        "Every how many weeks one is lighter.", low=2, high=52
    )
    lighter_week_percent: float | None = optional(
        "How much less is done in a lighter week, percent.", low=0, high=100
    )
    patient_may_step_up: bool = fact(
        "Whether the patient may step up alone; 'If it feels easy' prints only then.", default=False
    )
    easy_sessions: int | None = optional(
        "Easy sessions after which the patient steps up.", low=1, high=50
    )
    sources: tuple[Source, ...] = many("What it rests on.", longest=12)

    def __attrs_post_init__(self) -> None:
        if self.step_percent_high is None:
            return
        if self.step_percent is None or self.step_percent_high < self.step_percent:
            raise ModelError(
                "step_percent_high",
                say("step_percent_high needs a step_percent that is not above it."),
            )


@node
class Entry(Node):
    """A card placed in a stage."""

    id: str = slug("Id, unique in the file.")
    card: str = uuid("The card.", points_to="card")
    number: int | None = optional(
        "Number through the whole protocol, frozen at approval; counted while none.",
        low=1,
        high=999,
    )
    start: str = slug("Variant to start with.", points_to="variant")
    allowed: tuple[str, ...] = slugs("Variants allowed; empty means all.", points_to="variant")
    together: tuple[str, ...] = slugs(
        "Variants done side by side with the first in the same session.", points_to="variant"
    )
    may_hold: tuple[str, ...] = slugs(
        "Isometric variants that may replace movement in this stage.", points_to="variant"
    )
    dose: Dose | None = optional("Dose here; it replaces the variant's whole dose.")
    hold_dose: Dose | None = optional("Dose of the hold where it replaces movement here.")
    dose_fits: tuple[str, ...] = slugs(
        "Variants the dose fits; for others their own counts. Empty means the start variant only.",
        points_to="variant",
    )
    sides: Sides | None = optional("Which side works here, where the dose does not say.")
    builds_on: str | None = slug(
        "Earlier entry this one grows from.", default=None, points_to="entry"
    )
    choice: str | None = slug("Either/or choice it belongs to.", default=None, points_to="choice")
    priority: int = fact("1 must be done, 2 should, 3 may be left out.", default=2, low=1, high=3)
    progression: Progression | None = optional("Rule by which it grows.")
    pain: PainRule | None = optional("Pain rule of this exercise.")
    note: Text | None = optional("Note for the patient.")
    sources: tuple[Source, ...] = many("What its place here rests on.", longest=12)


@node
class Choice(Node):
    """An either/or choice among entries of a block."""

    id: str = slug("Id, unique in the file.")
    pick: int = fact("How many to do.", default=1, low=1, high=20)
    words: Text | None = optional("How to choose.")


@node
class Block(Node):
    """A group of entries: warm-up, main part, circuit with rounds, scripted session."""

    id: str = slug("Id, unique in the file.")
    kind: BlockKind = fact("Kind of block.", default=BlockKind.MAIN)
    name: Text | None = optional("Name, where the kind does not say enough.")
    rounds: IntRange | None = optional("Rounds of a circuit.")
    rest_between_rounds: Rest | None = optional("Rest between rounds.")
    rest_between_entries: Rest | None = optional("Rest between exercises.")
    minutes: IntRange | None = optional("Minutes for the block.")
    frequency: Frequency | None = optional("How often the block is done, where not every session.")
    in_order: bool = fact("Whether the order must be kept.", default=False)
    entries: tuple[Entry, ...] = many("Exercises.", longest=120)
    choices: tuple[Choice, ...] = many("Either/or choices among them.", longest=20)
    note: Text | None = optional("Note for the patient.")


@node
class WeekSpan(Node):
    """Usual weeks of a stage; spans of neighbouring stages may overlap."""

    from_week: int = fact("First week, counted from the start of the programme.", low=0, high=520)
    to_week: int | None = optional("Last week; none means open.", low=0, high=520)

    def __attrs_post_init__(self) -> None:
        if self.to_week is not None and self.to_week < self.from_week:
            raise ModelError(
                "to_week",
                say(
                    "to_week must not be before from_week ({from_week}).", from_week=self.from_week
                ),
            )


@node
class Restriction(Node):
    """Something not allowed in a stage."""

    id: str = slug("Id, unique in the file.")
    text: Text = fact("What, in the patient's words.")
    demands: tuple[str, ...] = slugs("Demands it rules out.", term="demand")
    movements: tuple[str, ...] = slugs("Movements it rules out.", term="movement")
    positions: tuple[str, ...] = slugs("Positions it rules out.", term="position")
    limb: LimbLimit | None = optional("How far and how heavily the limb may be used.")
    until_week: int | None = optional("Week until which it holds.", low=1, high=520)
    sources: tuple[Source, ...] = many("What it rests on.", longest=12)


@node
class Activity(Node):
    """Activity allowed beside the exercises."""

    id: str = slug("Id, unique in the file.")
    text: Text = fact("What, in the patient's words.")
    most_minutes: int | None = optional("Most minutes at a time.", low=1, high=1440)
    most_pain: float | None = optional("Most pain during it, 0 to 10.", low=0, high=10)
    frequency: Frequency | None = optional("How often.")
    sources: tuple[Source, ...] = many("What it rests on.", longest=12)


@node
class CareItem(Node):
    """Care that is no exercise: brace, sling, ice, teaching."""

    id: str = slug("Id, unique in the file.")
    kind: CareKind = fact("Kind of care.")
    text: Text = fact("What to do, in the patient's words.")
    minutes: IntRange | None = optional("Minutes at a time.")
    frequency: Frequency | None = optional("How often.")
    limb: LimbLimit | None = optional("What a brace, sling or aid allows the limb.")
    until_week: int | None = optional("Week until which it is done.", low=1, high=520)
    sources: tuple[Source, ...] = many("What it rests on.", longest=12)


@node
class Branch(Node):
    """What to do on a finding."""

    id: str = slug("Id, unique in the file.")
    finding: Text = fact("The finding.")
    when: Criterion | None = optional("The finding as a measure.")
    then: BranchAction = fact("What follows.")
    stage: str | None = slug("Stage to go to.", default=None, points_to="stage")
    protocol: str | None = uuid("Protocol to use.", default=None, points_to="protocol")
    entries: tuple[str, ...] = slugs("Exercises to leave out.", points_to="entry")
    words: Text | None = optional("What to tell the patient.")


@node
class Stage(Node):
    """One stage of a protocol."""

    id: str = slug("Id, unique in the file.")
    name: Text = fact("Name in the patient's words.")
    lead: Text | None = optional("What this stage is for, one sentence to the patient.")
    aims: tuple[Text, ...] = many("Aims, for the clinician.", longest=20)
    usual_weeks: WeekSpan | None = optional("Usual weeks.")
    session_minutes: IntRange | None = optional("Minutes of a session.")
    frequency: Frequency | None = optional("How often the session is done.")
    entry: tuple[Criterion, ...] = many("What must be true to enter.", longest=40)
    move_on: tuple[Criterion, ...] = many("What must be true to move on.", longest=40)
    step_back: tuple[Criterion, ...] = many("What leads a stage back.", longest=40)
    blocks: tuple[Block, ...] = many("Groups of exercises.", longest=40)
    not_allowed: tuple[Restriction, ...] = many("What is not allowed yet.", longest=40)
    activities: tuple[Activity, ...] = many("What may be done beside the exercises.", longest=40)
    care: tuple[CareItem, ...] = many("Care beside exercise.", longest=40)
    branches: tuple[Branch, ...] = many("What to do on a finding.", longest=40)
    pain: PainRule | None = optional("Pain rule of this stage.")
    pauses: tuple[PauseRule, ...] = many("What to do after a break, by its length.", longest=10)
    caps: tuple[Cap, ...] = many("The most of one thing over all exercises.", longest=20)
    minimum_sessions: int | None = optional("Sessions to do before moving on.", low=1, high=500)
    weekly_cap_percent: float | None = optional("Most growth in a week, percent.", low=0, high=500)
    sources: tuple[Source, ...] = many("What it rests on.", longest=12)

    def entries(self) -> Iterator[Entry]:
        """The entries of all blocks, in order."""
        for block in self.blocks:
            yield from block.entries


@node
class Lesson(Node):
    """A piece of education for the patient; ``text`` may hold Markdown."""

    id: str = slug("Id, unique in the file.")
    title: Text = fact("Heading.")
    text: Text = fact("Text (CommonMark, no raw HTML, no remote images).")
    stages: tuple[str, ...] = slugs("Stages it is for; empty means all.", points_to="stage")
    sources: tuple[Source, ...] = many("What it rests on.", longest=12)


@node
class Delivery(Node):
    """Who gives the programme, where and how: the reporting items of CERT and TIDieR."""

    provider: Text | None = optional("Qualification of those who give it (CERT 2).")
    people: People | None = optional("Alone or in a group (CERT 3).")
    supervision: Supervision | None = optional("Supervised or not (CERT 4).")
    settings: tuple[Setting, ...] = many("Where (CERT 9 and 12).", longest=8)
    adherence: Adherence | None = optional("How adherence is known (CERT 5).")
    motivation: Text | None = optional("How patients are kept going (CERT 6).")
    tailoring: Text | None = optional("How it is fitted to the person (CERT 14).")
    starting_level: Text | None = optional("How the starting level is found (CERT 15).")
    fidelity: Text | None = optional("How it is checked that it is done as planned (CERT 16a).")
    harms: Text | None = optional("How harm is reported (CERT 11).")
    sources: tuple[Source, ...] = many("What it rests on.", longest=12)


@node
class ChangeNote(Node):
    """What changed in a version, and why."""

    version: str = fact("Version.", pattern=VERSION, longest=20)
    date: dt.date = fact("Day.")
    author: str = fact("Who.", longest=200)
    text: str = fact("What changed and why.", longest=2000)


@node
class Approval(Node):
    """Who approved a version, when."""

    reviewer: str = fact("Who.", fewest=1, longest=200)
    date: dt.date = fact("Day.")
    note: str = fact("Note.", default="", longest=2000)


@node
class Protocol(Node):
    """A staged programme for one condition."""

    FORMAT: ClassVar[str] = "rungbook/protocol"

    id: str = uuid("Id of the file.")
    slug: str = slug("Short name; the file is called after it.")
    language: str = fact("Language of plain strings (BCP 47).", pattern=LANGUAGE_TAG)
    title: Text = fact("Title for clinicians.")
    patient_title: Text | None = optional("Title on the handout.")
    lead: Text | None = optional("Main message of the handout, one or two sentences.")
    pathway: Pathway = fact("Kind of programme.", default=Pathway.CONSERVATIVE)
    conditions: tuple[str, ...] = slugs("Conditions it is for.", term="condition")
    regions: tuple[Region, ...] = many("Parts of the body.", longest=16)
    for_whom: Text | None = optional("For whom.")
    not_for: Text | None = optional("For whom not.")
    excluded: tuple[str, ...] = slugs("Conditions it is not for.", term="condition")
    stages: tuple[Stage, ...] = many("Stages in order.", longest=20)
    education: tuple[Lesson, ...] = many("What the patient should know.", longest=20)
    cautions: tuple[Caution, ...] = many(
        "Stop rules, precautions and expected responses.", longest=60
    )
    red_flags: tuple[RedFlag, ...] = many("Red flags to ask about.", longest=40)
    pain: PainRule | None = optional("Pain rule of the protocol.")
    delivery: Delivery | None = optional("Who gives it, where and how.")
    references: tuple[Reference, ...] = many("Publications.", longest=200)
    authors: tuple[str, ...] = many("Who wrote it.", longest=40)
    owner: str = fact("Who looks after it.", default="", longest=200)
    status: Status = fact("Where it is in its life.", default=Status.DRAFT)
    version: str = fact("Version.", default="0.1", pattern=VERSION, longest=20)
    approvals: tuple[Approval, ...] = many("Who approved this version.", longest=20)
    last_review: dt.date | None = optional("Day of the last review.")
    review_due: dt.date | None = optional("Day the next review is due.")
    changes: tuple[ChangeNote, ...] = many("What changed, newest first.", longest=500)
    licence: str = fact("Licence.", default="", longest=200)
    invented: bool = fact("Whether this is an invented sample.", default=False)

    def entries(self) -> Iterator[Entry]:
        """The entries of all stages, in order."""
        for stage in self.stages:
            yield from stage.entries()

    def numbers(self) -> dict[str, int]:
        """Number of each entry by id, counted through the protocol.

        Frozen numbers win; an entry without one takes the next after the entry before it that
        no other entry has.
        """
        taken = {entry.number for entry in self.entries()}
        numbers: dict[str, int] = {}
        last = 0
        for entry in self.entries():
            if entry.number is not None:
                last = entry.number
            else:
                last += 1
                while last in taken:
                    last += 1
                taken.add(last)
            numbers[entry.id] = last
        return numbers
