"""Holds, time, totals, intervals, balance, lighter weeks, caps and what is told, week by week."""

import pytest

from authoring.dosage.arithmetic.capped import amount_against
from authoring.dosage.arithmetic.figure import exactly
from authoring.dosage.arithmetic.often import often
from authoring.dosage.progression.loads import LEAST_PERCENT, MOST_PERCENT
from authoring.dosage.progression.project import Projection, Setting, project
from authoring.dosage.progression.state import Change
from authoring.dosage.shorthand import parse_dose, write_dose
from authoring.model.card import Variant
from authoring.model.pacing import Cap
from authoring.model.patient import OwnedKit
from authoring.model.protocol import Progression
from authoring.model.text import Text
from authoring.model.vocabulary import (
    CapOf,
    Mode,
    Period,
    ProgressionMethod,
    Unit,
)

M = ProgressionMethod
RACK = (OwnedKit(kit="dumbbell", sizes=tuple(range(1, 41)), count=2, unit=Unit.KILOGRAMS),)


def weeks(text: str, rule: Progression, number: int, **setting: object) -> Projection:
    return project(parse_dose(text), rule, number, Setting(**setting))


def doses(found: Projection) -> list[str]:
    return [str(write_dose(week.dose)).partition(",")[0] for week in found.weeks]


def codes(found: Projection, week: int) -> list[str]:
    return [told.code for told in found.weeks[week - 1].told]


def general(found: Projection) -> list[str]:
    return [told.code for told in found.told]


# ---- holds, time, totals, intervals, balance --------------------------------------------


def test_a_hold_grows_to_its_ceiling() -> None:
    rule = Progression(method=M.HOLD_TIME, hold_step_s=10, hold_ceiling_s=45)
    found = weeks("5 x 20 s hold, 2/wk", rule, 5)
    assert doses(found) == [
        "5 x 20 s hold",
        "5 x 30 s hold",
        "5 x 40 s hold",
        "5 x 45 s hold",
        "5 x 45 s hold",
    ]
    assert codes(found, 5)[0] == "ceiling-reached"


def test_three_sessions_running_at_twice_a_week_take_two_weeks() -> None:
    rule = Progression(method=M.HOLD_TIME, hold_step_s=2, hold_ceiling_s=16, sessions_running=3)
    found = weeks("6 x 10 s hold, 2/wk", rule, 5)
    assert [each.split(" x ")[1] for each in doses(found)] == [
        "10 s hold",
        "10 s hold",
        "12 s hold",
        "12 s hold",
        "14 s hold",
    ]


def test_a_total_grows_and_a_weekly_cap_holds_it_back() -> None:
    plain = Progression(method=M.TOTAL, total_step=10, total_ceiling=60)
    found = weeks("total 30, 3/wk", plain, 5)
    assert doses(found) == ["total 30", "total 40", "total 50", "total 60", "total 60"]
    # A tenth a week: 30, 33, 36 (36.3), 39 (39.6), 42 (42.9).
    capped = weeks(
        "total 30, 3/wk", Progression(method=M.TOTAL, total_step=10, weekly_cap_percent=10), 5
    )
    assert doses(capped) == ["total 30", "total 33", "total 36", "total 39", "total 42"]


def test_a_cap_below_one_repetition_is_told() -> None:
    # 8 to 9 repetitions is 12.5 % more work.
    rule = Progression(method=M.REPS_THEN_LOAD, reps_ceiling=12, weekly_cap_percent=10)
    found = weeks("3 x 8 @ 20 kg, 2/wk", rule, 3, owned=RACK)
    assert doses(found) == ["3 x 8 @ 20 kg"] * 3
    assert codes(found, 2)[0] == "over-weekly-cap"


def test_walking_turns_into_running() -> None:
    rule = Progression(method=M.INTERVALS, work_step_s=60, recover_step_s=30)
    found = weeks("6 x (1 min run / 2 min walk), 3/wk", rule, 6)
    assert doses(found) == [
        "6 x (1 min run / 2 min walk)",
        "6 x (2 min run / 90 s walk)",
        "6 x (3 min run / 1 min walk)",
        "6 x (4 min run / 30 s walk)",
        "6 x (5 min run)",
        "6 x (5 min run)",
    ]
    assert codes(found, 6)[0] == "ceiling-reached"


def test_minutes_grow_to_the_limit_of_a_session() -> None:
    rule = Progression(method=M.DURATION, minutes_step=5)
    found = weeks("10 min, max 20 min, 5/wk", rule, 4)
    assert doses(found) == ["10 min", "15 min", "20 min", "20 min"]


def _rung(number: int, text: str | None = None) -> Variant:
    return Variant(
        id=f"rung-{number}",
        rung=number,
        name=Text.plain(f"Rung {number}"),
        mode=Mode.BALANCE,
        dose=None if text is None else parse_dose(text),
    )


def test_balance_goes_on_to_the_next_rung() -> None:
    ladder = (_rung(0), _rung(1, "3 x 10 s hold, 3/wk"))
    rule = Progression(method=M.BALANCE, hold_step_s=10, hold_ceiling_s=30)
    found = weeks("3 x 20 s hold, 3/wk", rule, 5, variant=ladder[0], ladder=ladder)
    assert [week.variant.id for week in found.weeks] == ["rung-0"] * 2 + ["rung-1"] * 3
    assert doses(found) == [
        "3 x 20 s hold",
        "3 x 30 s hold",
        "3 x 10 s hold",
        "3 x 20 s hold",
        "3 x 30 s hold",
    ]
    assert codes(found, 3) == ["next-rung"]


def test_the_ladder_ends() -> None:
    ladder = (_rung(0), _rung(1))
    found = weeks(
        "3 x 8, 2/wk", Progression(method=M.NEXT_RUNG), 4, variant=ladder[0], ladder=ladder
    )
    assert [week.change for week in found.weeks] == [
        Change.START,
        Change.RUNG,
        Change.STAY,
        Change.STAY,
    ]
    assert codes(found, 3)[0] == "ladder-at-its-end"


# ---- lighter weeks, tables, what is not computed ------------------------------------------


def test_every_fourth_week_is_lighter_and_counts_for_none() -> None:
    rule = Progression(
        method=M.REPS_THEN_LOAD, reps_ceiling=12, lighter_week_every=4, lighter_week_percent=50
    )
    found = weeks("4 x 8 @ 20 kg, 2/wk", rule, 6, owned=RACK)
    assert doses(found) == [
        "4 x 8 @ 20 kg",
        "4 x 9 @ 20 kg",
        "4 x 10 @ 20 kg",
        "2 x 10 @ 20 kg",
        "4 x 11 @ 20 kg",
        "4 x 12 @ 20 kg",
    ]
    assert found.weeks[3].change is Change.LIGHTER


@pytest.mark.parametrize(
    ("text", "half"),
    [
        ("1 x 10", "1 x 5"),
        ("30 s hold", "15 s hold"),
        ("10 x 10 s hold", "5 x 10 s hold"),
        ("20 min", "10 min"),
        ("total 50", "total 25"),
        ("400 m", "200 m"),
        ("6 x (1 min run / 2 min walk)", "3 x (1 min run / 2 min walk)"),
    ],
)
def test_a_lighter_week_is_less_of_any_work(text: str, half: str) -> None:
    rule = Progression(method=M.DURATION, lighter_week_every=2, lighter_week_percent=50)
    assert doses(weeks(text, rule, 2))[1] == half


def test_a_week_table_is_shown_row_by_row() -> None:
    found = weeks("3/wk; wk 1-2: 3 x 8; wk 3+: 3 x 12", Progression(method=M.WEEK_TABLE), 4)
    assert doses(found) == ["3 x 8", "3 x 8", "3 x 12", "3 x 12"]
    assert [week.change for week in found.weeks] == [
        Change.START,
        Change.STAY,
        Change.TABLE,
        Change.STAY,
    ]


@pytest.mark.parametrize(
    ("rule", "code"),
    [
        (None, "no-rule"),
        (Progression(method=M.CLINICIAN), "clinician-decides"),
        (Progression(method=M.RANGE_OF_MOVEMENT), "range-by-comfort"),
        (Progression(method=M.WEEK_TABLE), "no-week-table"),
    ],
)
def test_what_has_no_rule_stays_and_says_so(rule: Progression | None, code: str) -> None:
    found = project(parse_dose("3 x 8"), rule, 3)
    assert general(found) == [code]
    assert doses(found) == ["3 x 8"] * 3


@pytest.mark.parametrize("text", ["as tolerated", "(3 x 10) or (5 min)", "3 x to fatigue"])
@pytest.mark.parametrize("method", list(M))
def test_every_rule_meets_every_work_without_fail(method: M, text: str) -> None:
    found = weeks(text, Progression(method=method), 6)
    assert len(found.weeks) == 6


@pytest.mark.parametrize(
    ("text", "rule", "code"),
    [
        # Ratamess NA et al., Med Sci Sports Exerc 2009;41:687-708: load +2 to 10 %, 2 to 5 days
        # a week, 3 to 5 minutes of rest with heavy loads.
        ("3 x 8 @ 20 kg, 2/wk", {"step_percent": 15}, "step-above-guidance"),
        ("3 x 8 @ 20 kg, 2/wk", {"step_percent": 1}, "step-below-guidance"),
        ("3 x 8 @ 20 kg, 1/wk", {"step_percent": 5}, "days-below-guidance"),
        ("3 x 8 @ 20 kg, daily", {"step_percent": 5}, "days-above-guidance"),
        ("3 x 3 @ 90% 1RM, rest 60 s, 2/wk", {"step_percent": 5}, "rest-below-guidance"),
        ("3 x 5 @ 5RM, rest 60 s, 2/wk", {"step_percent": 5}, "rest-below-guidance"),
        ("3 x 8 @ 20 kg", {"step_percent": 5}, "frequency-unknown"),
    ],
)
def test_what_leaves_guidance_is_told(text: str, rule: dict, code: str) -> None:
    found = weeks(text, Progression(method=M.PERCENT_STEP, **rule), 2, owned=RACK)
    assert code in general(found)


def test_guidance_is_two_to_ten_percent() -> None:
    assert (LEAST_PERCENT, MOST_PERCENT) == (2, 10)
    within = weeks(
        "3 x 8 @ 20 kg, rest 120 s, 3/wk",
        Progression(method=M.PERCENT_STEP, step_percent=2, step_percent_high=10),
        2,
        owned=RACK,
    )
    assert general(within) == ["step-asks-for"]


def test_a_cap_of_the_stage_is_never_passed() -> None:
    # 40 contacts three times a week are 120; 50 would be 150, above 130.
    cap = Cap(of=CapOf.CONTACTS, most=130, per=Period.WEEK)
    rule = Progression(method=M.TOTAL, total_step=10)
    found = weeks("total 30 contacts, 3/wk", rule, 4, caps=(cap,))
    assert doses(found) == ["total 30 contacts"] + ["total 40 contacts"] * 3
    assert found.weeks[2].told[0].text == (
        "The next step would ask for 150 contacts a week, and the stage allows at most 130."
    )


@pytest.mark.parametrize(
    ("text", "of", "per", "amount"),
    [
        ("3 x 10 hops each side, 2/wk", CapOf.HOPS, Period.SESSION, 60),
        ("3 x 10 hops, bd", CapOf.HOPS, Period.DAY, 60),
        ("3 x 10 hops, bd", CapOf.HOPS, Period.WEEK, 420),
        ("3 x 10 hops, bd", CapOf.JUMPS, Period.WEEK, 0),
        ("10 min, 3/wk", CapOf.MINUTES, Period.WEEK, 30),
        ("4 x 100 m, 2/wk", CapOf.METRES, Period.WEEK, 800),
        ("10 min, 3/wk", CapOf.SESSIONS, Period.WEEK, 3),
    ],
)
def test_what_an_exercise_takes_of_a_cap(text: str, of: CapOf, per: Period, amount: float) -> None:
    dose = parse_dose(text)
    cap = Cap(of=of, most=1, per=per)
    taken = amount_against(cap, dose, None, exactly(1), often(dose.frequency))
    assert (taken.low, taken.high) == (amount, amount)


def test_kinds_of_session_are_told() -> None:
    found = weeks(
        "3 x 8 @ 20 kg; heavy: 3 x 6, 2/wk; light: 2 x 15, 2/wk",
        Progression(method=M.TWO_FOR_TWO),
        2,
    )
    assert "kinds-of-session" in general(found)
