"""Criteria against dated tests: what is not tested is never met."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from authoring.model.criterion import AllOf, AnyOf, InWords, Measured, TimePassed, Window
from authoring.model.patient import SeenCriterion, StageSoFar, TestResult
from authoring.model.text import Text
from authoring.model.vocabulary import (
    Better,
    Comparator,
    Side,
    SideComparison,
    Since,
    Unit,
    WindowKind,
)
from authoring.tailoring.criteria import Known, Verdict, converted, judge
from tests.tailoring.values import PROTOCOL_ID, TODAY, patient

MET, NOT_MET, NOT_TESTED = Verdict.MET, Verdict.NOT_MET, Verdict.NOT_TESTED


def known(**facts: Any) -> Known:
    return Known(patient(**facts), PROTOCOL_ID, facts.get("side", Side.RIGHT), TODAY, 28)


def result_of(value: float, days_ago: int = 1, side: Side = Side.RIGHT, **facts: Any) -> TestResult:
    return TestResult(
        **{
            "measure": "raises",
            "value": value,
            "unit": Unit.REPETITIONS,
            "side": side,
            "date": TODAY - dt.timedelta(days_ago),
            **facts,
        }
    )


def measured(value: float = 20, **facts: Any) -> Measured:
    return Measured(
        **{
            "id": "c",
            "measure": "raises",
            "comparator": Comparator.AT_LEAST,
            "value": value,
            "unit": Unit.REPETITIONS,
            **facts,
        }
    )


def symmetry(comparator: Comparator, **facts: Any) -> Measured:
    return measured(
        90,
        unit=Unit.PERCENT,
        side=SideComparison.PERCENT_OF_OTHER,
        comparator=comparator,
        **facts,
    )


BOTH_SIDES = (result_of(45), result_of(50, side=Side.LEFT))


@pytest.mark.parametrize(
    ("comparator", "verdict"), [(Comparator.AT_LEAST, MET), (Comparator.ABOVE, NOT_MET)]
)
def test_45_of_50_is_a_limb_symmetry_of_90_percent(
    comparator: Comparator, verdict: Verdict
) -> None:
    """Affected / other × 100, at the threshold (Gokeler A et al. 2017, PMC5315711)."""
    assert judge(symmetry(comparator), known(tests=BOTH_SIDES)) is verdict


def test_where_lower_is_better_the_ratio_is_turned_round() -> None:
    """50 s against 45 s for ten hops is 45 / 50 = 90 % (common practice, no source)."""
    slow = (result_of(50), result_of(45, side=Side.LEFT))
    lower = symmetry(Comparator.AT_LEAST, better=Better.LOWER)
    assert judge(lower, known(tests=slow)) is MET
    assert judge(lower, known(tests=(result_of(51), slow[1]))) is NOT_MET


@pytest.mark.parametrize("tests", [(), BOTH_SIDES[:1], BOTH_SIDES[1:]])
def test_a_comparison_with_a_side_that_was_not_tested_is_not_tested(
    tests: tuple[TestResult, ...],
) -> None:
    assert judge(symmetry(Comparator.AT_LEAST), known(tests=tests)) is NOT_TESTED


@pytest.mark.parametrize(
    ("test", "verdict"),
    [
        (result_of(20), MET),
        (result_of(19), NOT_MET),
        (result_of(30, days_ago=29), NOT_TESTED),  # too old
        (result_of(30, days_ago=-1), NOT_TESTED),  # tomorrow
        (result_of(30, unit=Unit.KILOGRAMS), NOT_TESTED),  # another thing
        (result_of(30, measure="hops"), NOT_TESTED),
        (result_of(30, moment=WindowKind.AFTER), NOT_TESTED),
        (result_of(30, side=Side.LEFT), NOT_TESTED),  # the other side's
        (result_of(30, side=Side.NONE), MET),
    ],
)
def test_only_a_fresh_result_of_the_same_thing_counts(test: TestResult, verdict: Verdict) -> None:
    assert judge(measured(), known(tests=(test,))) is verdict


def test_the_latest_result_counts_and_of_one_day_the_worst() -> None:
    assert judge(measured(), known(tests=(result_of(25, 5), result_of(19, 1)))) is NOT_MET
    assert judge(measured(), known(tests=(result_of(25, 1), result_of(19, 1)))) is NOT_MET
    assert judge(measured(), known(tests=(result_of(19, 5), result_of(25, 1)))) is MET


@pytest.mark.parametrize(
    ("days", "kind", "verdict"),
    [
        ((1, 2, 3), WindowKind.CONSECUTIVE_SESSIONS, MET),
        ((1, 4, 9), WindowKind.CONSECUTIVE_SESSIONS, MET),
        ((1, 4), WindowKind.CONSECUTIVE_SESSIONS, NOT_TESTED),
        ((1, 2, 3), WindowKind.CONSECUTIVE_DAYS, MET),
        ((1, 2, 4), WindowKind.CONSECUTIVE_DAYS, NOT_TESTED),
    ],
)
def test_a_run_of_three_needs_three(
    days: tuple[int, ...], kind: WindowKind, verdict: Verdict
) -> None:
    criterion = measured(window=Window(kind=kind, count=3))
    assert judge(criterion, known(tests=tuple(result_of(20, day) for day in days))) is verdict


def test_a_bound_must_not_be_passed_even_while_the_criterion_is_met() -> None:
    criterion = measured(20, must_not_pass=40)
    assert judge(criterion, known(tests=(result_of(40),))) is MET
    assert judge(criterion, known(tests=(result_of(41),))) is NOT_MET


def test_a_share_of_the_own_baseline_is_of_the_marked_first_result() -> None:
    criterion = measured(150, unit=Unit.PERCENT, side=SideComparison.PERCENT_OF_BASELINE)
    first = result_of(10, 60, baseline=True)
    assert judge(criterion, known(tests=(first, result_of(15)))) is MET
    assert judge(criterion, known(tests=(first, result_of(14)))) is NOT_MET
    assert judge(criterion, known(tests=(result_of(10, 60), result_of(15)))) is NOT_TESTED


@pytest.mark.parametrize(
    ("value", "unit", "wanted", "becomes"),
    [
        (1, Unit.POUNDS, Unit.KILOGRAMS, 0.45359237),  # NIST SP 811, appendix B
        (1, Unit.FEET, Unit.CENTIMETRES, 30.48),
        (1, Unit.YARDS, Unit.METRES, 0.9144),
        (2, Unit.WEEKS, Unit.DAYS, 14),
    ],
)
def test_units_of_one_kind_are_turned_into_each_other(
    value: float, unit: Unit, wanted: Unit, becomes: float
) -> None:
    assert converted(value, unit, wanted) == pytest.approx(becomes)


def passed(since: Since, at_least: int, unit: Unit = Unit.WEEKS) -> TimePassed:
    return TimePassed(id="t", since=since, at_least=at_least, unit=unit)


@pytest.mark.parametrize(
    ("criterion", "facts", "verdict"),
    [
        (passed(Since.INJURY, 2), {"injured": TODAY - dt.timedelta(14)}, MET),
        (passed(Since.INJURY, 2), {"injured": TODAY - dt.timedelta(13)}, NOT_MET),
        (passed(Since.OPERATION, 2), {"injured": TODAY - dt.timedelta(99)}, NOT_TESTED),
        (passed(Since.INJURY, 2), {"injured": TODAY + dt.timedelta(1)}, NOT_TESTED),
        (passed(Since.STAGE_START, 6, Unit.SESSIONS), {}, NOT_TESTED),
        (
            passed(Since.STAGE_START, 6, Unit.SESSIONS),
            {"stages": (StageSoFar(protocol=PROTOCOL_ID, stage="calm", sessions_done=6),)},
            MET,
        ),
    ],
)
def test_time_counts_from_a_day_that_is_known(
    criterion: TimePassed, facts: dict[str, Any], verdict: Verdict
) -> None:
    assert judge(criterion, known(**facts)) is verdict


def seen(criterion: str, *, met: bool) -> SeenCriterion:
    return SeenCriterion(protocol=PROTOCOL_ID, criterion=criterion, met=met, date=TODAY)


def words(criterion: str) -> InWords:
    return InWords(id=criterion, words=Text.plain("Walks well"))


@pytest.mark.parametrize(
    ("seen_ones", "every", "one_of_two"),
    [
        ((), NOT_TESTED, NOT_TESTED),
        ((("a", True),), NOT_TESTED, MET),
        ((("a", False),), NOT_MET, NOT_TESTED),
        ((("a", True), ("b", False)), NOT_MET, MET),
        ((("a", False), ("b", False)), NOT_MET, NOT_MET),
        ((("a", True), ("b", True)), MET, MET),
    ],
)
def test_several_criteria_are_judged_with_three_values(
    seen_ones: tuple[tuple[str, bool], ...], every: Verdict, one_of_two: Verdict
) -> None:
    """Kleene's strong logic of three values (Introduction to Metamathematics, 1952, §64)."""
    facts = known(seen=tuple(seen(name, met=met) for name, met in seen_ones))
    parts = (words("a"), words("b"))
    assert judge(AllOf(id="x", parts=parts), facts) is every
    assert judge(AnyOf(id="x", parts=parts), facts) is one_of_two
