"""``rungbook progress`` shows the weeks ahead of a card, a plan and a protocol."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from authoring.commands.outcome import CommandError
from authoring.commands.progress import kit_of
from authoring.model.vocabulary import Unit
from tests.commands.conftest import ANKLE, CARD, Run

CORPUS = Path(__file__).resolve().parents[1] / "files" / "corpus" / "valid"
CLINIC_ID = "00000000-0000-4000-8000-0000000000aa"


def card_file(folder: Path, dose: dict, **variant: object) -> Path:
    """A card on its own, with one variant and a dose."""
    card = {
        "format": "rungbook/card",
        "format_version": 1,
        "id": CLINIC_ID,
        "slug": "lift",
        "language": "en",
        "title": "Lift",
        "variants": [
            {"id": "plain", "rung": 0, "name": "Lift", "mode": "dynamic", "dose": dose, **variant}
        ],
    }
    path = folder / "lift.card.json"
    path.write_text(json.dumps(card), encoding="utf-8")
    return path


DUMBBELL = {
    "work": {"kind": "repetitions", "sets": {"low": 3}, "reps": [{"low": 8, "high": 9}]},
    "loads": [{"kind": "weight", "amount": {"low": 4}, "carried": "each_hand"}],
    "rest": {"seconds": {"low": 60}},
    "tempo": {"lowering_s": 2, "lifting_s": 1},
    "frequency": {"days_per_week": {"low": 3}},
}


def test_a_card_on_its_own_is_projected_by_the_usual_rule(run: Run, tmp_path: Path) -> None:
    answer = run(
        "progress", card_file(tmp_path, DUMBBELL), "--weeks", 3, "--kit", "dumbbell=2,4,6kg"
    )
    assert (answer.status, answer.err) == (0, "")
    lines = answer.out.splitlines()
    assert "[rule-assumed]" in answer.out
    # 3 x 8 at 3 s with two rests of 60 s: 192 s; 9 sets a week; 72 repetitions; with 4 kg in
    # each hand 576 kg.
    row = next(line for line in lines if line.startswith("  1 "))
    assert " ".join(row.split()).endswith(" 9 72 576 kg 3.2 start")
    assert "The next real step, from 4 kg to 6 kg, is 50 % more" in answer.out
    assert "[propose-tempo]" in answer.out


def test_json_has_both_ends_of_each_figure(run: Run, tmp_path: Path) -> None:
    answer = run("progress", card_file(tmp_path, DUMBBELL), "--weeks", 2, "--format", "json")
    week = json.loads(answer.out)[0]["exercises"][0]["weeks"][1]
    assert week["change"] == "repetitions"
    assert week["dose"].startswith("3 x 9 @ 4 kg each hand")
    assert week["repetitions_per_week"] == {"low": 81, "high": 81, "notes": []}


def test_what_is_not_known_is_null_and_never_nought(run: Run, tmp_path: Path) -> None:
    open_dose = {"work": {"kind": "open", "decided_by": "patient"}}
    answer = run("progress", card_file(tmp_path, open_dose), "--weeks", 1, "--format", "json")
    week = json.loads(answer.out)[0]["exercises"][0]["weeks"][0]
    assert week["minutes"] == {"low": None, "high": None, "notes": ["left-open"]}
    assert "left-open" in week["sets_per_week"]["notes"]


def test_a_card_in_a_library_has_a_line_for_each_place(run: Run, library: Path) -> None:
    answer = run("progress", library / CARD, "--weeks", 4, "--format", "json")
    (found,) = json.loads(answer.out)
    assert len(found["exercises"]) > 1
    assert len({each["entry"] for each in found["exercises"]}) > 1
    assert all(len(each["weeks"]) == 4 for each in found["exercises"])


def test_a_protocol_shows_every_exercise(run: Run, library: Path) -> None:
    answer = run("progress", library / ANKLE, "--weeks", 2)
    assert answer.status == 0
    protocol = json.loads((library / ANKLE).read_text(encoding="utf-8"))
    entries = sum(
        len(block["entries"]) for stage in protocol["stages"] for block in stage["blocks"]
    )
    assert answer.out.count("\nExercise ") == entries


def test_a_plan_is_projected_with_all_it_embeds(run: Run) -> None:
    plan = CORPUS / "embedded.plan.json"
    answer = run("progress", plan, "--weeks", 3, "--format", "json")
    (found,) = json.loads(answer.out)
    items = json.loads(plan.read_text(encoding="utf-8"))["items"]
    assert [each["card"] for each in found["exercises"]] == [item["card"] for item in items]


@pytest.mark.parametrize("weeks", [0, 53, -1])
def test_weeks_that_can_not_be_are_refused(run: Run, library: Path, weeks: int) -> None:
    answer = run("progress", library / CARD, "--weeks", weeks)
    assert answer.status == 2
    assert answer.err == (f"rungbook: {weeks} weeks can't be projected; ask for 1 to 52.\n")


def test_another_kind_of_file_is_refused(run: Run, library: Path) -> None:
    answer = run("progress", library / "clinic.json")
    assert answer.status == 2
    assert answer.out == ""


@pytest.mark.parametrize(
    ("words", "sizes", "unit", "count"),
    [
        ("dumbbell=2,4,6kg", (2, 4, 6), Unit.KILOGRAMS, 2),
        ("plate=1.25,2.5kgx4", (1.25, 2.5), Unit.KILOGRAMS, 4),
        ("ankle-cuff=5lb", (5,), Unit.POUNDS, 2),
        ("band=20,30N", (20, 30), Unit.NEWTONS, 2),
        ("step=10,20cm", (10, 20), Unit.CENTIMETRES, 2),
    ],
)
def test_kit_is_written_in_one_word(words: str, sizes: tuple, unit: Unit, count: int) -> None:
    kit = kit_of(words)
    assert (kit.sizes, kit.unit, kit.count) == (sizes, unit, count)


@pytest.mark.parametrize(
    "words", ["dumbbell", "dumbbell=", "dumbbell=2", "a b=2kg", "x=2kgx0", "x=2kgx"]
)
def test_other_kit_is_refused_with_an_example(words: str) -> None:
    with pytest.raises(CommandError, match=r"dumbbell=2,4,6kg"):
        kit_of(words)


def test_sets_are_added_up_by_region_and_week(run: Run, library: Path) -> None:
    answer = run("progress", library / ANKLE, "--weeks", 2)
    assert "Sets a week by region (an exercise for two regions counts for each)" in answer.out
    (found,) = json.loads(run("progress", library / ANKLE, "--weeks", 2, "--format", "json").out)
    stages = json.loads((library / ANKLE).read_text(encoding="utf-8"))["stages"]
    assert len(found["totals"]) == 2 * len(stages)
    first = found["totals"][0]
    assert first["stage"].startswith("stage 1")
    every = sum(
        each["weeks"][0]["sets_per_week"]["low"]
        for each in found["exercises"]
        if each["stage"] == stages[0]["id"]
    )
    assert first["all"]["sets"]["low"] == every
