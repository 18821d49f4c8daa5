"""A week of a plan, and the weeks ahead of its exercises with the patient's own kit."""

import datetime as dt

import pytest

from authoring.dosage.plan_week import plan_week
from authoring.dosage.progression.placed import card_lines, plan_lines, protocol_lines, usual_rule
from authoring.dosage.progression.state import Change
from authoring.dosage.shorthand import parse_dose, write_dose
from authoring.model.base import evolve
from authoring.model.card import Card, Variant
from authoring.model.dose import Frequency
from authoring.model.load import IntRange
from authoring.model.patient import OwnedKit, Presentation
from authoring.model.plan import Plan, PlanItem
from authoring.model.protocol import Block, Choice, Entry, Progression, Protocol, Stage
from authoring.model.text import Text
from authoring.model.vocabulary import (
    BlockKind,
    Mode,
    ProgressionMethod,
    Region,
    Unit,
    Weekday,
)

CARD, OTHER, PROTOCOL, PLAN, SHOWN = (
    f"00000000-0000-4000-8000-00000000000{n}" for n in range(1, 6)
)
M = ProgressionMethod


def variant(name: str, rung: int, dose: str | None = None) -> Variant:
    return Variant(
        id=name,
        rung=rung,
        name=Text.plain(name),
        mode=Mode.DYNAMIC,
        dose=None if dose is None else parse_dose(dose),
    )


LIFT = Card(
    id=CARD,
    slug="lift",
    language="en",
    title=Text.plain("Lift"),
    regions=(Region.SHOULDER,),
    movements=("press",),
    variants=(variant("plain", 0, "2 x 10"), variant("harder", 1), variant("still", 2)),
)
STEP = evolve(
    LIFT, id=OTHER, slug="step", title=Text.plain("Step"), regions=(Region.KNEE,), movements=()
)


def protocol(*entries: Entry, **block: object) -> Protocol:
    main = Block(id="main", entries=entries, frequency=block.pop("frequency", None), **block)
    stage = Stage(
        id="one",
        name=Text.plain("One"),
        blocks=(main,),
        frequency=Frequency(days_per_week=IntRange(low=3)),
    )
    return Protocol(id=PROTOCOL, slug="p", language="en", title=Text.plain("P"), stages=(stage,))


def plan(used: Protocol | None, *items: PlanItem, **facts: object) -> Plan:
    return Plan(
        id=PLAN,
        language="en",
        created=dt.date(2026, 1, 5),
        items=items,
        protocols=() if used is None else (used,),
        cards=(LIFT, STEP),
        **facts,
    )


PRESS = Entry(
    id="press",
    card=CARD,
    start="plain",
    dose=parse_dose("3 x 8-10 @ 4 kg each hand, tempo 2-0-1-0, rest 60 s"),
    may_hold=("still",),
    progression=Progression(method=M.REPS_THEN_LOAD),
)
OF_PRESS = PlanItem(id="a", protocol=PROTOCOL, entry="press", card=CARD, variant="plain")
OF_STEP = PlanItem(
    id="b", card=OTHER, variant="plain", dose=parse_dose("2 x 10, tempo 2-0-1-0, rest 30 s, 2/wk")
)


def test_a_week_of_a_plan_adds_up() -> None:
    # The dose comes from the entry, how often from its stage: 3 x 8 to 10 at 4 kg in each hand
    # three times is 576 to 720 kg; the single card has 2 x 10 twice.
    week = plan_week(plan(protocol(PRESS), OF_PRESS, OF_STEP)).volume
    assert week.by_region[Region.SHOULDER].sets.words() == "9"
    assert week.by_movement["press"].repetitions.words() == "72 to 90"
    assert week.by_movement["press"].load_kg.words() == "576 to 720"
    assert week.by_region[Region.KNEE].repetitions.words() == "40"


def test_days_of_a_plan_say_how_often() -> None:
    days = (Weekday.MONDAY, Weekday.THURSDAY)
    week = plan_week(plan(protocol(PRESS), OF_PRESS, days=days)).volume
    assert week.by_movement["press"].sets.words() == "6"
    other = plan_week(plan(protocol(PRESS), evolve(OF_PRESS, days=days[:1]), days=days)).volume
    assert other.by_movement["press"].sets.words() == "3"


def test_a_circuit_of_a_plan_goes_round() -> None:
    circuit = protocol(
        evolve(PRESS, dose=parse_dose("1 x 10 @ 4 kg, tempo 2-0-1-0")),
        kind=BlockKind.CIRCUIT,
        rounds=IntRange(low=2),
    )
    week = plan_week(plan(circuit, OF_PRESS))
    assert week.volume.total.sets.words() == "6"
    assert week.session.work.words("min") == "1 min"


def test_a_plan_is_projected_with_the_patient_s_kit() -> None:
    kit = (OwnedKit(kit="dumbbell", sizes=(2, 4, 6), unit=Unit.KILOGRAMS, count=2),)
    shown = Presentation(id=SHOWN, kit=kit)
    (line,) = plan_lines(plan(protocol(PRESS), OF_PRESS, presentation=shown), 4)
    assert line.projection is not None
    weeks = line.projection.weeks
    assert [week.change for week in weeks] == [
        Change.START,
        Change.REPS,
        Change.REPS,
        Change.STAY,
    ]
    # 4 to 6 kg is 50 %; the next rung is the harder variant, not the hold that may stand in.
    assert [told.code for told in weeks[3].told] == [
        "next-step-too-large",
        "propose-repetitions",
        "propose-tempo",
        "propose-lever",
        "propose-next-rung",
    ]
    assert "harder" in weeks[3].told[-1].text
    assert line.trained(3).dose == weeks[2].dose


def test_an_entry_of_a_choice_is_not_sure() -> None:
    chosen = [evolve(PRESS, id=name, choice="pick") for name in ("a", "b")]
    either = protocol(*chosen, choices=(Choice(id="pick"),))
    assert [line.chosen for line in protocol_lines(either, {CARD: LIFT}, 1)] == [False, False]
    both = protocol(*chosen, choices=(Choice(id="pick", pick=2),))
    assert [line.chosen for line in protocol_lines(both, {CARD: LIFT}, 1)] == [True, True]


def test_what_is_missing_is_told() -> None:
    (line,) = protocol_lines(protocol(PRESS), {}, 2)
    assert [told.code for told in line.told] == ["no-card"]
    bare = evolve(PRESS, dose=None, start="harder")
    (line,) = protocol_lines(protocol(bare), {CARD: LIFT}, 2)
    assert [told.code for told in line.told] == ["no-dose"]
    assert line.trained(1).dose is None


@pytest.mark.parametrize(
    ("text", "method"),
    [
        ("3 x 10", M.REPS_THEN_LOAD),
        ("30 s hold", M.HOLD_TIME),
        ("10 min", M.DURATION),
        ("6 x (1 min run / 2 min walk)", M.INTERVALS),
        ("as tolerated", M.CLINICIAN),
    ],
)
def test_a_card_on_its_own_has_a_usual_rule(text: str, method: ProgressionMethod) -> None:
    assert usual_rule(parse_dose(text)).method is method


def test_a_card_on_its_own_starts_nearest_to_its_name() -> None:
    (line,) = card_lines(LIFT, 2)
    assert line.projection is not None
    assert write_dose(line.projection.weeks[1].dose) == "2 x 11"
    assert [told.code for told in line.told] == ["rule-assumed"]
    (none,) = card_lines(evolve(LIFT, variants=()), 2)
    assert [told.code for told in none.told] == ["no-dose"]
