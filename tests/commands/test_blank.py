"""An empty presentation and an empty report to fill in, for ``tailor`` and ``review``."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from tests.commands.conftest import ANKLE, Run, told


def filled(path: Path, **facts: Any) -> None:
    made = json.loads(path.read_text(encoding="utf-8"))
    for flag in made["red_flags"]:
        flag["answer"] = "no"
    path.write_text(json.dumps({**made, **facts}), encoding="utf-8")


def test_blank_files_lead_from_a_protocol_to_the_next_plan(
    run: Run, library: Path, tmp_path: Path
) -> None:
    patient, plan = tmp_path / "p.json", tmp_path / "plan.json"
    report, after = tmp_path / "r.json", tmp_path / "after.json"
    answer = run("tailor", library / ANKLE, "--blank", patient)
    assert (answer.status, answer.out) == (0, f"{patient}\n")
    asked = json.loads((library / ANKLE).read_text(encoding="utf-8"))["red_flags"]
    empty = json.loads(patient.read_text(encoding="utf-8"))["red_flags"]
    assert [each["flag"] for each in empty] == [each["id"] for each in asked]
    filled(patient, side="left", label="A17")
    made = run("tailor", library / ANKLE, "--presentation", patient, "-o", plan)
    assert (made.status, made.err) == (0, "")
    assert run("review", plan, "--blank", report).status == 0
    items = [each["id"] for each in json.loads(plan.read_text(encoding="utf-8"))["items"]]
    told_of = json.loads(report.read_text(encoding="utf-8"))["items"]
    assert [each["item"] for each in told_of] == items
    filled(report)
    assert run("review", plan, "--report", report, "-o", after).status == 0


def test_what_is_missing_says_how_to_start_one(run: Run, library: Path, tmp_path: Path) -> None:
    gone = tmp_path / "gone.json"
    for command, option in (("tailor", "--presentation"), ("review", "--report")):
        answer = run(command, library / ANKLE, option, gone, "-o", tmp_path / "x.json")
        assert answer.status == 2
        assert "start one with --blank FILE" in told(answer)
        answer = run(command, library / ANKLE, "-o", tmp_path / "x.json")
        assert answer.status == 2
        assert told(answer).startswith(f"No {option[2:]} is named: start one with --blank FILE")


def test_a_file_with_answers_is_never_written_over(run: Run, library: Path, tmp_path: Path) -> None:
    patient = tmp_path / "p.json"
    patient.write_text("{}", encoding="utf-8")
    answer = run("tailor", library / ANKLE, "--blank", patient)
    assert answer.status == 3
    assert "may hold answers" in told(answer)
    assert patient.read_text(encoding="utf-8") == "{}"
