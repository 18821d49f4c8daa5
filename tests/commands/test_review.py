"""``rungbook review`` on the three invented patients of the guide, and on odd reports."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from authoring import resources
from tests.commands.conftest import Run, told
from tests.handout.html_reader import read

PATIENTS = resources.examples() / "invented-patients"
PROTOCOLS = {
    "acute-no-kit": ("lateral-ankle-sprain-back-to-running", 1),
    "middle-dumbbells": ("patellofemoral-pain", 2),
    "late-other-side": ("lateral-ankle-sprain-back-to-running", 3),
}
MADE = "2026-10-05"
"""Day of the first plan of each."""


@pytest.fixture
def plan_of(run: Run, library: Path, tmp_path: Path) -> Any:
    """Makes the first plan of one of them."""

    def make(name: str) -> Path:
        protocol, stage = PROTOCOLS[name]
        plan = tmp_path / f"{name}.plan.json"
        source = library / "protocols" / f"{protocol}.protocol.json"
        patient = PATIENTS / f"{name}.presentation.json"
        answer = run(
            *("tailor", source, "--presentation", patient, "-o", plan, "--stage", stage),
            *("--date", MADE, "--clinician", "D. Therapist"),
        )
        assert answer.status == 0, answer.err
        return plan

    return make


@pytest.mark.parametrize(
    ("name", "more", "says", "prints"),
    [
        (
            "acute-no-kit",
            ("--confirm", "all"),
            ("stop and reassess", "a step down", "[review-adherence-low]", "a step up"),
            ("leave this out until we have seen you", "easier for now"),
        ),
        (
            "middle-dumbbells",
            ("--confirm", "k11"),
            ("a step up, waits for --confirm k14", "wk 1: @ 4 kg each hand", "an easier rung"),
            ("Small split squat: a step up.", "in place of Wall sit"),
        ),
        (
            "late-other-side",
            ("--move-on",),
            ("move on to “Back to running”", "[stage-criteria-met]"),
            ("You move on to: Back to running.",),
        ),
    ],
)
def test_an_invented_patient_is_reviewed_and_the_next_handout_says_what_is_new(
    run: Run,
    library: Path,
    plan_of: Any,
    name: str,
    more: tuple[str, ...],
    says: tuple[str, ...],
    prints: tuple[str, ...],
) -> None:
    plan = plan_of(name)
    after, page = plan.with_name("next.plan.json"), plan.with_name("next.html")
    report = PATIENTS / f"{name}.review.json"
    wanted = ("--report", report, "-o", after, "--library", library, "--explain")
    answer = run("review", plan, *wanted, *more)
    assert (answer.status, answer.err) == (0, "")
    out = " ".join(answer.out.split()).casefold()
    for words in says:
        assert words.casefold() in out, words
    assert run("handout", after, "-o", page, "--library", library).status == 0
    text = " ".join(read(page.read_bytes()).words)
    assert "Since last time" in text
    for words in prints:
        assert words in text


def test_nothing_steps_up_or_moves_on_unless_it_is_confirmed(
    run: Run, library: Path, plan_of: Any
) -> None:
    plan = plan_of("late-other-side")
    after = plan.with_name("next.plan.json")
    report = PATIENTS / "late-other-side.review.json"
    assert run("review", plan, "--report", report, "-o", after, "--library", library).status == 0
    before, made = (json.loads(path.read_text(encoding="utf-8")) for path in (plan, after))
    assert [stage["stage"] for stage in made["stages"]] == ["spring-hop"]
    assert [i["variant"] for i in made["items"]] == [i["variant"] for i in before["items"]]
    codes = {reason["code"] for item in made["items"] for reason in item["reasons"]}
    assert "review-waits-for-confirmation" in codes
    assert "review-confirmed" not in codes


def test_a_move_on_without_the_library_says_what_is_missing(run: Run, plan_of: Any) -> None:
    plan = plan_of("late-other-side")
    made = json.loads(plan.read_text(encoding="utf-8"))
    used = {item["card"] for item in made["items"]}
    made["cards"] = [card for card in made["cards"] if card["id"] in used]
    plan.write_text(json.dumps({**made, "left_out": []}), encoding="utf-8")
    report = PATIENTS / "late-other-side.review.json"
    after = plan.with_name("next.plan.json")
    answer = run("review", plan, "--report", report, "-o", after, "--move-on")
    assert answer.status == 2
    assert "name its library" in told(answer)
    assert not after.exists()


@pytest.mark.parametrize(
    ("change", "sentence"),
    [
        ({"plan": "00000000-0000-4000-8000-0000000000ff"}, "name the report of this plan"),
        ({"date": "2020-01-01"}, "correct the report's date"),
        ({"items": [{"item": "ghost"}]}, "that the plan does not have"),
        ({"items": [{"item": "s1-heel", "pain_during": 11}]}, "at most 10"),
        ({"items": [{"item": "s1-heel", "pain_during": "a lot"}]}, "number"),
        ({"format": "rungbook/card"}, "rungbook/card"),
    ],
)
def test_an_odd_report_is_told_in_one_sentence(
    run: Run, plan_of: Any, change: dict[str, Any], sentence: str
) -> None:
    plan = plan_of("acute-no-kit")
    report = json.loads((PATIENTS / "acute-no-kit.review.json").read_text(encoding="utf-8"))
    odd, after = plan.with_name("odd.json"), plan.with_name("next.plan.json")
    odd.write_text(json.dumps({**report, **change}), encoding="utf-8")
    answer = run("review", plan, "--report", odd, "-o", after)
    assert answer.status == 2
    assert sentence in told(answer)
    assert not after.exists()


def test_a_step_up_that_is_not_proposed_can_not_be_confirmed(run: Run, plan_of: Any) -> None:
    plan = plan_of("acute-no-kit")
    report = PATIENTS / "acute-no-kit.review.json"
    wanted = ("--report", report, "-o", plan.with_name("next.json"), "--confirm", "s1-heel")
    answer = run("review", plan, *wanted)
    assert answer.status == 2
    assert "No step up is proposed for 's1-heel'" in told(answer)


def test_a_red_flag_in_the_report_withholds_the_exercises(
    run: Run, library: Path, plan_of: Any
) -> None:
    plan = plan_of("acute-no-kit")
    report = json.loads((PATIENTS / "acute-no-kit.review.json").read_text(encoding="utf-8"))
    report["red_flags"][0]["answer"] = "yes"
    raised, after = plan.with_name("raised.json"), plan.with_name("next.plan.json")
    raised.write_text(json.dumps(report), encoding="utf-8")
    answer = run("review", plan, "--report", raised, "-o", after, "--explain")
    assert "the exercise pages are withheld" in answer.err
    assert "everything stops" in answer.out
    page = plan.with_name("next.html")
    assert run("handout", after, "-o", page, "--library", library).status == 0
    text = " ".join(read(page.read_bytes()).words)
    assert "Before you start any exercise" in text
    assert "sets of" not in text
