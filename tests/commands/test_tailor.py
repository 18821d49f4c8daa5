"""``rungbook tailor`` writes a plan that the handout command takes."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from tests.commands.conftest import ANKLE, CARD, Run, told
from tests.handout.html_reader import read

PATIENT = {
    "format": "rungbook/presentation",
    "format_version": 1,
    "id": "00000000-0000-4000-8000-000000000191",
    "label": "A17",
    "side": "right",
    "irritability": "moderate",
    "minutes": 20,
    "days_per_week": 3,
    "kit": [{"kit": "chair"}, {"kit": "towel"}, {"kit": "mat"}, {"kit": "cushion", "count": 2}],
}


def flags(library: Path, answer: str) -> list[dict[str, str]]:
    protocol = json.loads((library / ANKLE).read_text(encoding="utf-8"))
    return [
        {"protocol": protocol["id"], "flag": flag["id"], "answer": answer}
        for flag in protocol["red_flags"]
    ]


def tailored(run: Run, library: Path, *more: object, **facts: Any) -> Any:
    source, plan = library.parent / "a.presentation.json", library.parent / "a.plan.json"
    source.write_text(json.dumps({**PATIENT, **facts}), encoding="utf-8")
    wanted = ("--presentation", source, "-o", plan, "--clinician", "J. Example")
    return run("tailor", library / ANKLE, *wanted, *more)


def test_a_plan_is_written_and_printed_with_only_this_patients_exercises(
    run: Run, library: Path
) -> None:
    answer = tailored(run, library, red_flags=flags(library, "no"))
    plan = library.parent / "a.plan.json"
    assert (answer.status, answer.out, answer.err) == (0, f"{plan}\n", "")
    made = json.loads(plan.read_text(encoding="utf-8"))
    page = library.parent / "a.html"
    printed = run("handout", plan, "-o", page, "--library", library)
    assert (printed.status, printed.err) == (0, "")
    text = " ".join(read(page.read_bytes()).words)
    assert "Monday, Wednesday and Friday" in text
    headings = [words for _, words in read(page.read_bytes()).headings]
    cards = {card["id"]: card for card in made["cards"]}
    for number, item in enumerate(made["items"], 1):
        variants = {each["id"]: each["name"] for each in cards[item["card"]]["variants"]}
        assert any(variants[item["variant"]] in words for words in headings), number
    assert "Draft, not for patients" not in text


def test_a_red_flag_that_was_not_asked_blocks_the_print(run: Run, library: Path) -> None:
    answer = tailored(run, library)
    assert answer.status == 0
    assert answer.err.startswith("rungbook: not to be printed yet: Not asked: Could you not take 4")
    page = library.parent / "a.html"
    plan = library.parent / "a.plan.json"
    printed = run("handout", plan, "-o", page, "--library", library)
    assert printed.status == 1
    assert "red flags were not asked" in told(printed)
    assert not page.exists()


def test_a_red_flag_answered_yes_prints_its_action_and_no_exercise(run: Run, library: Path) -> None:
    answers = flags(library, "no")
    answers[0]["answer"] = "yes"
    answer = tailored(run, library, red_flags=answers)
    assert "the exercise pages are withheld" in answer.err
    page = library.parent / "a.html"
    plan = library.parent / "a.plan.json"
    assert run("handout", plan, "-o", page, "--library", library).status == 0
    text = " ".join(read(page.read_bytes()).words)
    protocol = json.loads((library / ANKLE).read_text(encoding="utf-8"))
    assert protocol["red_flags"][0]["action"] in text
    assert "Before you start any exercise" in text
    assert "What to do" not in text
    assert "sets of" not in text


def test_explain_says_what_why_and_what_was_left_out(run: Run, library: Path) -> None:
    out = tailored(run, library, "--explain", "--stage", 2, avoid_positions=["sitting"]).out
    assert "Stage 2, Load and balance, right" in out
    assert "The clinician asked for this stage. [stage-asked]" in out
    assert "Left out, " in out
    assert "[kit-missing]" in out
    assert "To know before this goes out" in out


@pytest.mark.parametrize(
    ("more", "sentence"),
    [
        (("--stage", 9), "There is no stage 9"),
        (("--stage", 1, "--stage", 2), "2 stages are asked for and 1 protocols named"),
        (("--most", 0), "--most is a number from 1 to 60."),
    ],
)
def test_a_wish_that_can_not_be_met_is_told(
    run: Run, library: Path, more: tuple[object, ...], sentence: str
) -> None:
    answer = tailored(run, library, *more)
    assert answer.status == 2
    assert told(answer).startswith(sentence)


def test_a_single_card_is_tailored_too(run: Run, library: Path) -> None:
    source, plan = library.parent / "p.json", library.parent / "plan.json"
    source.write_text(json.dumps(PATIENT), encoding="utf-8")
    assert run("tailor", library / CARD, "--presentation", source, "-o", plan).status == 0
    made = json.loads(plan.read_text(encoding="utf-8"))
    assert [item["reasons"][0]["code"] for item in made["items"]] == ["single-card"]


def test_a_file_of_another_kind_is_refused(run: Run, library: Path) -> None:
    answer = run(
        "tailor", library / ANKLE, "--presentation", library / CARD, "-o", library.parent / "x"
    )
    assert answer.status == 2
    assert "rungbook/presentation" in told(answer)
