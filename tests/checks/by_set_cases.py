"""Broken and sound libraries for what differs by set, by week, by stage, and for caps and breaks.

Each row was written from the rule that its check states, by hand.
"""

from __future__ import annotations

from authoring.model.base import evolve
from authoring.model.caution import Caution
from authoring.model.dose import DoseChange, Duration, Repetitions, WeekRow
from authoring.model.library import Library
from authoring.model.load import NumberRange, UnitLoad, WeightLoad
from authoring.model.pacing import Cap, PauseRule
from authoring.model.vocabulary import (
    BranchAction,
    CapOf,
    CautionKind,
    Counting,
    Period,
    Unit,
    Until,
)
from tests.checks.breaking import FIRST, SECOND, branching, entry_dose, growing, stretched
from tests.checks.build import (
    PROTOCOL,
    REPETITIONS,
    card_with,
    number,
    protocol_with,
    put,
    say,
    with_protocol,
)

_NOT_HERE = Caution(
    id="later", kind=CautionKind.PRECAUTION, text=say("Take care."), stages=("gone",)
)
_HERE = evolve(_NOT_HERE, stages=("calm", "strong"))
_WEEK = WeekRow(from_week=1, variant="gone", change=DoseChange())
_THROWS = Cap(of=CapOf.THROWS, most=75, per=Period.SESSION)


def by_set(*kilos: float, first: float = 10) -> Library:
    weights = tuple(NumberRange(low=each) for each in kilos)
    return entry_dose(loads=(WeightLoad(amount=NumberRange(low=first), per_set=weights),))


def last_set(until: Until) -> Library:
    work = Repetitions(sets=number(low=3), reps=(number(low=10),), last_set_until=until)
    return entry_dose(work=work)


def capped(cap: Cap, work: Repetitions | Duration) -> Library:
    stage = evolve(PROTOCOL.stages[0], caps=(cap,))
    dosed = put(put(PROTOCOL, "stages[0]", stage), f"{FIRST}.dose", evolve(REPETITIONS, work=work))
    return with_protocol(dosed)


def thrown(sets: int, counting: Counting = Counting.THROWS) -> Repetitions:
    return Repetitions(sets=number(low=sets), reps=(number(low=25),), counting=counting)


def paused(*days: int) -> Library:
    return protocol_with("stages[0].pauses", tuple(PauseRule(after_days=each) for each in days))


def numbered(first: int | None, second: int | None) -> Library:
    return with_protocol(put(put(PROTOCOL, f"{FIRST}.number", first), f"{SECOND}.number", second))


def stretched_by_set(*holds: int) -> Library:
    counts = tuple(number(low=each) for each in holds)
    return stretched(
        holds=number(low=1),
        sets=number(low=len(holds)),
        holds_by_set=counts,
        hold_s=(number(low=10),),
    )


# code, broken library, place where it must be said
BROKEN_ROWS: list[tuple[str, Library, str]] = [
    (
        "reference-missing-variant",
        entry_dose(weeks=(_WEEK,)),
        f"{FIRST}.dose.weeks[0].variant",
    ),
    (
        "reference-missing-week-variant",
        card_with("variants[0].dose", evolve(REPETITIONS, weeks=(_WEEK,))),
        "variants[0].dose.weeks[0].variant",
    ),
    (
        "reference-missing-stage",
        protocol_with("cautions[0].stages", ("calm", "gone")),
        "cautions[0].stages[1]",
    ),
    (
        "reference-missing-stage",
        card_with("cautions[0].stages", ("calm",)),
        "cautions[0].stages[0]",
    ),
    (
        "reference-missing-stage",
        protocol_with("education[0].stages", ("gone",)),
        "education[0].stages[0]",
    ),
    (
        "branch-without-target",
        branching(then=BranchAction.LEAVE_OUT),
        "stages[0].branches[0].entries",
    ),
    (
        "branch-without-target",
        branching(then=BranchAction.LEAVE_OUT, entries=("calm-raise", "gone")),
        "stages[0].branches[0].entries[1]",
    ),
    ("entry-number-twice", numbered(1, 1), f"{SECOND}.number"),
    ("load-first-set-differs", by_set(15, 20, 25), f"{FIRST}.dose.loads[0].per_set"),
    ("dose-last-set-same", last_set(Until.COUNT), f"{FIRST}.dose.work.last_set_until"),
    ("pause-days-twice", paused(3, 7, 3), "stages[0].pauses[2].after_days"),
    ("cap-below-dose", capped(_THROWS, thrown(4)), f"{FIRST}.dose"),
    (
        "cap-below-dose",
        capped(Cap(of=CapOf.MINUTES, most=9, per=Period.DAY), Duration(seconds=number(low=600))),
        f"{FIRST}.dose",
    ),
    ("stretch-total-short", stretched_by_set(3, 2), "variants[2].dose.work"),
    # American College of Sports Medicine 2009: steps of 2 to 10 percent.
    (
        "load-step-large",
        growing(step_percent=2, step_percent_high=11),
        f"{FIRST}.progression.step_percent_high",
    ),
]

# code, why it is silent, sound library
SILENT_ROWS: list[tuple[str, str, Library]] = [
    ("reference-missing-stage", "stages there are", protocol_with("cautions", (_HERE,))),
    (
        "reference-missing-variant",
        "a variant of the card",
        entry_dose(weeks=(evolve(_WEEK, variant="two-legs"),)),
    ),
    (
        "branch-without-target",
        "exercises that are left out",
        branching(then=BranchAction.LEAVE_OUT, entries=("strong-raise",)),
    ),
    ("entry-number-twice", "a number that another would have had", numbered(None, 1)),
    ("load-first-set-differs", "the first set's own amount", by_set(10, 15, 20)),
    (
        "load-first-set-differs",
        "no list",
        entry_dose(loads=(UnitLoad(amount=NumberRange(low=3), unit=Unit.FEET),)),
    ),
    ("dose-last-set-same", "another end", last_set(Until.GOOD_FORM)),
    # Garber CE et al. 2011, table 2: 60 seconds in all.
    ("stretch-total-short", "60 seconds by set", stretched_by_set(4, 2)),
    ("pause-days-twice", "three lengths", paused(3, 7, 14)),
    ("cap-below-dose", "just the cap", capped(_THROWS, thrown(3))),
    ("cap-below-dose", "counted otherwise", capped(_THROWS, thrown(9, Counting.STEPS))),
    (
        "hold-stands-in-for-nothing",
        "several variants",
        card_with("variants[1].hold.stands_in_for", ("two-legs", "one-leg")),
    ),
    (
        "load-step-large",
        "2 to 10 percent",
        growing(step_percent=2, step_percent_high=10),
    ),
]
