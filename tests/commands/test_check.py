"""``rungbook check`` says everything at once, to people and to scripts."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from authoring.files.library import OpenLibrary, open_library
from tests.commands.conftest import ANKLE, CARD, Answer, Run, told


def change(path: Path, **facts: Any) -> None:
    """Set fields of a JSON file; None takes one out."""
    data = json.loads(path.read_text(encoding="utf-8"))
    data |= facts
    data = {key: value for key, value in data.items() if value is not None}
    path.write_text(json.dumps(data), encoding="utf-8")


def results(answer: Answer) -> list[dict[str, str]]:
    return list(json.loads(answer.out)["results"])


def test_the_example_has_nothing_that_must_be_mended(run: Run, library: Path) -> None:
    answer = run("check", library)
    assert answer.status == 0
    assert answer.err == ""
    assert answer.out.splitlines()[-1].startswith("Protocol checks: 0 must, ")


def test_strict_fails_on_any_should(run: Run, library: Path) -> None:
    report = json.loads(run("check", library, "--format", "json").out)
    expected = 1 if report["counts"]["should"] else 0
    assert run("check", library, "--strict").status == expected
    change(library / CARD, purpose=None)
    weaker = json.loads(run("check", library, "--format", "json").out)["counts"]
    assert (weaker["must"], weaker["should"] > report["counts"]["should"]) == (0, True)
    assert run("check", library).status == 0
    assert run("check", library, "--strict").status == 1


def test_json_tells_scripts_the_same_as_the_text(run: Run, library: Path) -> None:
    change(library / CARD, title=None, surprise=1)
    as_json = run("check", library, "--format", "json")
    as_text = run("check", library)
    report = json.loads(as_json.out)
    assert (as_json.status, as_text.status) == (1, 1)
    assert set(report) == {"counts", "results", "form_only", "unreadable"}
    assert set(report["counts"]) == {"must", "should", "may"}
    for result in report["results"]:
        assert set(result) == {"file", "strength", "code", "path", "sentence", "mend"}
        for key in ("sentence", "mend", "code"):
            assert result[key] in as_text.out
    counts = {key: sum(r["strength"] == key for r in report["results"]) for key in report["counts"]}
    assert counts == report["counts"]


def test_a_broken_card_stops_neither_the_rest_nor_hides_behind_it(run: Run, library: Path) -> None:
    (library / CARD).write_text("{", encoding="utf-8")
    change(library / "cards" / "bridge.card.json", purpose=7)
    answer = run("check", library, "--format", "json")
    assert answer.status == 1
    report = json.loads(answer.out)
    files = {Path(each["file"]).name for each in report["unreadable"]}
    assert files == {"heel-raise.card.json", "bridge.card.json"}
    checked = {Path(each["file"]).name for each in report["results"]}
    assert any(name.endswith(".protocol.json") for name in checked)
    assert "2 files could not be read" in run("check", library).out


def test_all_faults_of_a_file_are_listed_at_once_each_with_place_and_mend(
    run: Run, library: Path, tmp_path: Path
) -> None:
    data = json.loads((library / CARD).read_text(encoding="utf-8"))
    data["title"] = 7
    data["variants"][0]["rung"] = 99
    data["variants"][1]["mode"] = "isometic"
    alone = tmp_path / "alone.card.json"
    alone.write_text(json.dumps(data), encoding="utf-8")
    answer = run("check", alone)
    assert answer.status == 2
    said = told(answer)
    assert "3 faults" in said
    for place in ("title: ", "variants[0].rung: ", "variants[1].mode: "):
        assert place in said
    assert "isometric" in said


def test_several_paths_are_one_report(run: Run, library: Path) -> None:
    both = results(run("check", library / ANKLE, library / CARD, "--format", "json"))
    apart = [
        *results(run("check", library / ANKLE, "--format", "json")),
        *results(run("check", library / CARD, "--format", "json")),
    ]
    assert both == apart


def test_a_library_is_read_once_however_many_of_its_files_are_named(
    run: Run, library: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    read: list[Path] = []

    def counted(folder: Path, *more: Any) -> OpenLibrary:
        read.append(folder)
        return open_library(folder, *more)

    monkeypatch.setattr("authoring.commands.check.open_library", counted)
    cards = sorted((library / "cards").iterdir())
    assert run("check", *cards).status == 0
    assert len(read) == 1


def test_one_file_of_a_library_is_judged_with_the_rest_of_it(run: Run, library: Path) -> None:
    change(library / CARD, references=[])
    mine = results(run("check", library / CARD, "--format", "json"))
    assert "must" in {each["strength"] for each in mine}
    assert {Path(each["file"]).name for each in mine} == {CARD.name}


def test_a_file_outside_a_library_says_that_only_its_form_was_judged(
    run: Run, library: Path, tmp_path: Path
) -> None:
    alone = tmp_path / "alone.card.json"
    alone.write_bytes((library / CARD).read_bytes())
    change(alone, surprise=1)
    answer = run("check", alone)
    assert answer.status == 0
    assert f"{alone}: only its form was checked" in answer.out
    assert "surprise" in answer.out
    report = json.loads(run("check", alone, "--format", "json").out)
    assert report["form_only"] == [str(alone)]


def test_a_file_in_the_wrong_place_of_a_library_is_not_passed_in_silence(
    run: Run, library: Path
) -> None:
    astray = library / "astray.card.json"
    astray.write_bytes((library / CARD).read_bytes())
    assert f"{astray}: only its form was checked" in run("check", astray).out


def test_two_files_of_one_id_are_named(run: Run, library: Path) -> None:
    twin = library / "cards" / "twin.card.json"
    twin.write_bytes((library / CARD).read_bytes())
    answer = run("check", library)
    assert answer.status == 1
    assert "has the same id as heel-raise.card.json" in answer.out


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (("check",), "the following arguments are required"),
        (("check", "x", "--format", "yaml"), "invalid choice"),
        (("chek", "x"), "invalid choice"),
        (("handout", "x"), "the following arguments are required"),
        (("handout", "x", "-o", "y.pdf", "--stage", "two"), "invalid int value"),
    ],
)
def test_wrong_usage_is_status_2(run: Run, arguments: tuple[str, ...], message: str) -> None:
    answer = run(*arguments)
    assert answer.status == 2
    assert message in answer.err
    assert answer.out == ""


def test_help_and_version_go_to_standard_output(run: Run) -> None:
    version = run("--version")
    assert (version.status, version.err) == (0, "")
    assert version.out.startswith("rungbook ")
    told_by_help = run("--help")
    assert told_by_help.status == 0
    assert "a licensed clinician decides and signs" in told_by_help.out
