"""``rungbook compare`` and ``rungbook merge``, as a user types them."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.commands.conftest import ANKLE, Run


def version(library: Path, name: str, edit: Callable[[dict[str, Any]], None]) -> Path:
    """The example protocol after an edit, as a file beside the library's own."""
    made = json.loads((library / ANKLE).read_text(encoding="utf-8"))
    edit(made)
    path = library.parent / f"{name}.json"
    path.write_text(json.dumps(made), encoding="utf-8")
    return path


def rename(words: str) -> Callable[[dict[str, Any]], None]:
    return lambda made: made.update(title=words)


def owned(name: str) -> Callable[[dict[str, Any]], None]:
    return lambda made: made.update(owner=name)


def test_what_differs_is_said_in_sentences(library: Path, run: Run) -> None:
    new = version(library, "new", owned("Mara Holt (invented)"))
    answer = run("compare", library / ANKLE, new)
    assert answer.status == 0
    assert answer.out.startswith("Owner “Mara Holt (invented)”, was ")
    assert len(answer.out.splitlines()) == 1


def test_what_differs_is_told_to_scripts_as_json(library: Path, run: Run) -> None:
    new = version(library, "new", owned("Mara Holt (invented)"))
    (only,) = json.loads(run("compare", library / ANKLE, new, "--format", "json").out)
    assert (only["change"], only["field"]) == ("changed", "owner")


def test_a_library_compared_with_itself_differs_in_nothing(library: Path, run: Run) -> None:
    assert run("compare", library, library).out == "Nothing differs.\n"


def test_two_peoples_edits_become_one_file(library: Path, run: Run, tmp_path: Path) -> None:
    mine, theirs = version(library, "m", rename("Ankle")), version(library, "t", owned("Holt"))
    answer = run("merge", library / ANKLE, mine, theirs, "-o", tmp_path / "out.json")
    made = json.loads((tmp_path / "out.json").read_text(encoding="utf-8"))
    assert (answer.status, answer.err) == (0, "")
    assert (made["title"], made["owner"]) == ("Ankle", "Holt")


def test_a_conflict_is_said_and_nothing_is_written(library: Path, run: Run, tmp_path: Path) -> None:
    mine, theirs = version(library, "m", rename("Ankle")), version(library, "t", rename("Foot"))
    answer = run("merge", library / ANKLE, mine, theirs, "-o", tmp_path / "out.json")
    assert answer.status == 1
    assert "The document: title is “Ankle” here and “Foot” there." in answer.err
    assert not (tmp_path / "out.json").exists()


@pytest.mark.parametrize(("side", "title"), [("mine", "Ankle"), ("theirs", "Foot")])
def test_a_side_may_be_preferred(
    library: Path, run: Run, tmp_path: Path, side: str, title: str
) -> None:
    mine, theirs = version(library, "m", rename("Ankle")), version(library, "t", rename("Foot"))
    out = tmp_path / "out.json"
    answer = run("merge", library / ANKLE, mine, theirs, "-o", out, "--prefer", side)
    assert answer.status == 0
    assert json.loads(out.read_text(encoding="utf-8"))["title"] == title
    assert f"Settled for {side}." in answer.err


def test_files_of_two_kinds_are_refused(library: Path, run: Run, tmp_path: Path) -> None:
    clinic = library / "clinic.json"
    answer = run("merge", library / ANKLE, clinic, clinic, "-o", tmp_path / "out.json")
    assert answer.status == 2
    assert "not three versions of one document" in answer.err


def test_a_folder_that_is_no_library_is_refused(library: Path, run: Run, tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    assert run("compare", tmp_path / "empty", library).status == 2
