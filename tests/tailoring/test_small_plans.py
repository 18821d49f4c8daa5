"""One thing at a time: what a fact of the patient does to the plan of a small protocol."""

from __future__ import annotations

import ast
import datetime as dt
from pathlib import Path
from typing import Any

import pytest

import authoring.tailoring
from authoring.model.base import evolve
from authoring.model.card import KitNeed, Support
from authoring.model.caution import Caution
from authoring.model.dose import Dose, Frequency, Repetitions
from authoring.model.load import EffortLoad, IntRange, NumberRange, WeightLoad
from authoring.model.patient import (
    ExercisePain,
    FlagAnswer,
    OwnedKit,
    Presentation,
    SideState,
    SurgeonLimit,
)
from authoring.model.protocol import Protocol
from authoring.model.text import Text
from authoring.model.vocabulary import (
    Answer,
    CautionKind,
    Irritability,
    Pathway,
    Side,
    Sides,
    SupportKind,
    TermKind,
    Unit,
    WeightBearing,
)
from authoring.tailoring.docs import PAGE, page
from authoring.tailoring.label import looks_like_identity
from authoring.tailoring.reasons import CODES
from authoring.tailoring.release import release
from authoring.tailoring.request import StageWish
from tests.checks.build import TERMS, term
from tests.tailoring.values import (
    CARD,
    CARD_ID,
    PROTOCOL,
    PROTOCOL_ID,
    TODAY,
    all_no,
    codes,
    left_codes,
    only,
    owned,
    patient,
    put,
    small_library,
    small_plan,
    variant,
)

ENTRY = "stages[1].blocks[0].entries[0]"


def test_without_anything_to_mind_it_is_as_written() -> None:
    item = only(small_plan())
    assert (item.variant, item.side, codes(item)) == ("one-leg", Side.RIGHT, ["as-written"])


# ---- hard rules ----------------------------------------------------------------------------

LATEX = Caution(
    id="latex",
    kind=CautionKind.CONTRAINDICATION,
    text=Text.plain("No latex."),
    conditions=("ankle-injury",),
)


@pytest.mark.parametrize(
    ("facts", "change", "code"),
    [
        ({"avoid_positions": ("standing",)}, {}, "position-avoided"),
        ({"avoid_demands": ("jump",)}, {"demands": ("single-leg-jump",)}, "demand-avoided"),
        ({"avoid_movements": ("plantarflexion",)}, {}, "movement-avoided"),
        ({}, {"equipment": (KitNeed(kit="step"),)}, "kit-missing"),
        (
            {"kit": owned("step")},
            {"equipment": (KitNeed(kit="step", count=2),)},
            "kit-missing",
        ),
        (
            {"kit": owned("step", sizes=(40.0,), unit=Unit.CENTIMETRES)},
            {"equipment": (KitNeed(kit="step", size=15, unit="cm"),)},
            "kit-missing",
        ),
        ({}, {"supports": (Support(kind=SupportKind.PARTNER),)}, "support-missing"),
        (
            {"hands_free": 0},
            {"supports": (Support(kind=SupportKind.WALL, hands=1),)},
            "hands-missing",
        ),
        ({"conditions": ("ankle-sprain",)}, {"cautions": (LATEX,)}, "contraindicated"),
        ({"conditions": ("ankle-fracture",)}, {}, "protocol-excludes"),
        ({"weight_bearing": WeightBearing.TOUCH}, {}, "weight-not-known"),
        (
            {"limits": (SurgeonLimit(text="Do not stand.", positions=("standing",)),)},
            {},
            "surgeon-forbids",
        ),
    ],
)
def test_a_hard_rule_leaves_the_exercise_out_and_says_why(
    facts: dict[str, Any], change: dict[str, Any], code: str
) -> None:
    changed = tuple(evolve(each, **change) for each in CARD.variants)
    plan = small_plan(patient(**facts), small_library(evolve(CARD, variants=changed)))
    assert plan.items == ()
    assert code in left_codes(plan)
    assert "no-exercise" in codes(plan)


def test_a_surgeons_limit_ends_with_its_day() -> None:
    ended = SurgeonLimit(
        text="Do not stand.", positions=("standing",), until=TODAY - dt.timedelta(1)
    )
    assert only(small_plan(patient(limits=(ended,)))).variant == "one-leg"


def test_what_a_stage_forbids_holds_for_every_card_of_the_plan() -> None:
    hopping = evolve(
        CARD,
        id="00000000-0000-4000-8000-00000000000c",
        slug="hop",
        variants=(variant("hop", 0, demands=("single-leg-jump",)),),
    )
    library = small_library(CARD, PROTOCOL, hopping)
    calm = small_plan(library=library, stage="calm", cards=(hopping.id,))
    assert [item.card for item in calm.items] == [CARD_ID]
    assert "stage-forbids" in left_codes(calm)
    strong = small_plan(library=library, cards=(hopping.id,))
    assert [item.card for item in strong.items] == [CARD_ID, hopping.id]


@pytest.mark.parametrize(
    ("allowed", "variants"), [("touch", []), ("partial", ["one-leg"]), ("full", ["one-leg"])]
)
def test_weight_bearing_is_held_against_what_the_position_puts_on_the_leg(
    allowed: str, variants: list[str]
) -> None:
    standing = term(TermKind.POSITION, "standing", leg_weight=WeightBearing.PARTIAL)
    terms = (*(t for t in TERMS if t.id != "standing"), standing)
    plan = small_plan(patient(weight_bearing=WeightBearing(allowed)), small_library(terms=terms))
    assert [item.variant for item in plan.items] == variants


# ---- preference -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("stage", "facts", "chosen", "code"),
    [
        ("strong", {"irritability": Irritability.LOW}, "one-leg", "as-written"),
        ("strong", {"irritability": Irritability.HIGH}, "two-legs", "irritability-high"),
        ("calm", {"irritability": Irritability.HIGH}, "two-legs-still", "hold-permitted"),
        ("strong", {"pains": 2}, "one-leg", "pain-allows"),
        ("strong", {"pains": 2.5}, "two-legs", "pain-easier"),
        ("strong", {"pains": 6}, "two-legs", "pain-easier"),
    ],
)
def test_irritability_and_own_pain_choose_a_regression_a_permitted_hold_or_as_written(
    stage: str, facts: dict[str, Any], chosen: str, code: str
) -> None:
    """Bands of the protocol: to 2 carry on, above 2 to 5 go easier, above 5 stop."""
    if "pains" in facts:
        facts = {"pains": (ExercisePain(card=CARD_ID, during=facts["pains"]),)}
    item = only(small_plan(patient(**facts), stage=stage))
    assert item.variant == chosen
    assert code in codes(item)


def test_pain_that_says_stop_rules_out_the_rung_that_hurt_and_all_above() -> None:
    pains = (ExercisePain(card=CARD_ID, variant="two-legs", during=8),)
    plan = small_plan(patient(pains=pains))
    assert plan.items == ()
    assert "pain-stop" in left_codes(plan)


def test_after_an_operation_no_band_is_assumed() -> None:
    operated = evolve(PROTOCOL, pathway=Pathway.POST_OPERATIVE, pain=None)
    pains = (ExercisePain(card=CARD_ID, during=9),)
    item = only(small_plan(patient(pains=pains), small_library(protocol=operated)))
    assert (item.variant, codes(item)) == ("one-leg", ["as-written", "pain-no-rule"])


def test_another_card_of_the_same_purpose_stands_in() -> None:
    own = evolve(CARD, purposes=("calf",), variants=(variant("one-leg", 0, position="kneeling"),))
    other = evolve(CARD, id="00000000-0000-4000-8000-00000000000d", slug="x", purposes=("calf",))
    library = small_library(own, PROTOCOL, other)
    item = only(small_plan(patient(avoid_positions=("kneeling",)), library))
    assert (item.card, item.entry, item.variant) == (other.id, "strong-raise", "one-leg")
    assert "same-purpose" in codes(item)


# ---- dose, time, days ------------------------------------------------------------------------


def weighted(*loads: Any) -> Dose:
    work = Repetitions(sets=IntRange(low=3), reps=(IntRange(low=8, high=10),))
    return Dose(work=work, loads=loads, frequency=Frequency(days_per_week=IntRange(low=5)))


def with_dose(dose: Dose) -> Any:
    card = evolve(
        CARD,
        variants=(variant("one-leg", 0, dose=dose, equipment=(KitNeed(kit="dumbbell"),)),),
    )
    return small_library(card)


TEN = WeightLoad(amount=NumberRange(low=10))
HARD = EffortLoad(rating=NumberRange(low=7))


@pytest.mark.parametrize(
    ("loads", "sizes", "kg", "top", "code"),
    [
        ((TEN, HARD), (2.0, 10.0), 10, 10, "as-written"),
        ((TEN, HARD), (2.0, 8.0), 8, 13, "load-lighter"),  # 10 / (8 / 10) = 12.5, rounded up
        ((TEN,), (2.0, 8.0), 8, 10, "load-too-light"),  # no effort says when to stop
        ((TEN, HARD), (2.0, 4.0), 4, 10, "load-too-light"),  # less than half
    ],
)
def test_a_lighter_weight_follows_the_effort_or_is_called_too_light(
    loads: tuple[Any, ...], sizes: tuple[float, ...], kg: float, top: int, code: str
) -> None:
    kit = (OwnedKit(kit="dumbbell", sizes=sizes, unit=Unit.KILOGRAMS),)
    item = only(small_plan(patient(kit=kit), with_dose(weighted(*loads))))
    assert item.dose is not None
    load, work = item.dose.loads[0], item.dose.work
    assert isinstance(load, WeightLoad)
    assert isinstance(work, Repetitions)
    assert (load.amount.low, work.reps[0].top) == (kg, top)
    assert code in codes(item)


def test_a_heavier_weight_is_never_taken() -> None:
    kit = (OwnedKit(kit="dumbbell", sizes=(12.0,), unit=Unit.KILOGRAMS),)
    plan = small_plan(patient(kit=kit), with_dose(weighted(TEN)))
    assert plan.items == ()
    assert "kit-missing" in left_codes(plan)


def test_fewer_days_than_are_written_are_said() -> None:
    kit = owned("dumbbell")
    item = only(small_plan(patient(kit=kit, days_per_week=2), with_dose(weighted(HARD))))
    assert item.dose is not None
    assert item.dose.frequency == Frequency(days_per_week=IntRange(low=2))
    assert "fewer-days" in codes(item)


def test_what_there_is_no_time_for_stays_as_later() -> None:
    plan = small_plan(patient(minutes=1))
    assert plan.items == ()
    (left,) = plan.left_out
    assert (left.later, codes(left)) == (True, ["time-short"])


# ---- sides -----------------------------------------------------------------------------------


def one_sided() -> Protocol:
    protocol = PROTOCOL
    for path in ("stages[0].blocks[0].entries[0]", ENTRY):
        protocol = put(protocol, f"{path}.sides", Sides.AFFECTED)
    return protocol


BOTH = {
    "side": Side.BOTH,
    "each_side": (
        SideState(side=Side.LEFT, irritability=Irritability.HIGH),
        SideState(side=Side.RIGHT, injured=TODAY - dt.timedelta(30)),
    ),
}


def test_each_side_follows_its_own_stage_with_its_own_variant() -> None:
    plan = small_plan(patient(**BOTH), small_library(protocol=one_sided()), stage="")
    assert [(c.stage, c.side) for c in plan.stages] == [
        ("calm", Side.LEFT),
        ("strong", Side.RIGHT),
    ]
    assert [(i.entry, i.side, i.variant) for i in plan.items] == [
        ("calm-raise", Side.LEFT, "two-legs-still"),
        ("strong-raise", Side.RIGHT, "one-leg"),
    ]


def test_what_works_both_sides_waits_for_the_slower_one() -> None:
    plan = small_plan(patient(**BOTH), stage="")
    assert [(item.entry, item.side) for item in plan.items] == [("calm-raise", Side.BOTH)]
    assert left_codes(plan) == ["other-side-behind"]


# ---- stages, flags, labels -------------------------------------------------------------------


@pytest.mark.parametrize(("days", "stage"), [(13, "calm"), (14, "strong")])
def test_the_start_stage_is_the_last_whose_entry_criteria_are_met(days: int, stage: str) -> None:
    plan = small_plan(patient(injured=TODAY - dt.timedelta(days)), stage="")
    assert [chosen.stage for chosen in plan.stages] == [stage]


def flagged(*answers: Answer) -> Presentation:
    return patient(
        red_flags=tuple(
            FlagAnswer(protocol=PROTOCOL_ID, flag="steps", answer=each) for each in answers
        )
    )


@pytest.mark.parametrize(
    ("answers", "may_print", "withheld"),
    [
        ((), False, False),
        ((Answer.NOT_ASKED,), False, False),
        ((Answer.NO,), True, False),
        ((Answer.YES,), True, True),
        ((Answer.NO, Answer.YES), True, True),
    ],
)
def test_each_red_flag_blocks_or_withholds(
    answers: tuple[Answer, ...], may_print: bool, withheld: bool
) -> None:
    freed = release(small_plan(flagged(*answers)))
    assert (freed.may_print, freed.withheld) == (may_print, withheld)
    assert all_no(PROTOCOL)[0].answer is Answer.NO


@pytest.mark.parametrize(
    ("label", "warns"),
    [
        ("", False),
        ("A17", False),
        ("A17, evening runner", False),
        ("Blue 7", False),
        ("Jane Doe", True),
        ("Doe, Jane", True),
        ("Mrs D.", True),
        ("943 476 5919", True),
        ("12.03.1980", True),
        ("j@example.org", True),
    ],
)
def test_a_label_that_looks_like_a_name_or_number_of_identity_is_warned_of(
    label: str, warns: bool
) -> None:
    assert looks_like_identity(label) is warns


def test_a_condition_that_no_caution_speaks_of_is_not_covered() -> None:
    plan = small_plan(
        patient(conditions=("ankle-sprain", "gout"), unmapped_conditions=("clicky toe",))
    )
    assert [(each.condition, each.words) for each in plan.not_covered] == [
        ("gout", ""),
        (None, "clicky toe"),
    ]


def test_an_exclusion_that_puts_a_criterion_to_move_on_out_of_reach_is_said() -> None:
    pain = term(TermKind.MEASURE, "pain", demands=("single-leg-jump",))
    terms = (*(t for t in TERMS if t.id != "pain"), pain)
    plan = small_plan(patient(avoid_demands=("jump",)), small_library(terms=terms), stage="calm")
    assert "criterion-out-of-reach" in codes(plan)


def test_with_nothing_asked_for_the_plan_is_empty_and_says_so() -> None:
    plan = small_plan(protocols=(), stages=())
    assert (plan.items, codes(plan)) == ((), ["no-exercise"])


def test_two_stages_wanted_on_one_side_take_the_first() -> None:
    wishes = (StageWish(PROTOCOL_ID, "calm"), StageWish(PROTOCOL_ID, "strong"))
    assert [c.stage for c in small_plan(stages=wishes).stages] == ["calm"]


def test_the_page_of_reasons_is_up_to_date() -> None:
    assert PAGE.read_text(encoding="utf-8") == page()


def test_every_code_in_the_source_is_in_the_registry_and_every_code_is_used() -> None:
    folder = Path(authoring.tailoring.__file__).parent
    found: set[str] = set()
    for path in folder.glob("*.py"):
        if path.name in ("reasons.py", "docs.py"):
            continue
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and node.value in CODES:
                found.add(str(node.value))
    built = {f"{place}-{end}" for place in ("entry", "next") for end in ("not-met", "not-tested")}
    assert set(CODES) - found - built == set()
