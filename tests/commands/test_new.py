"""``rungbook new`` starts a library that the other commands take, and never in a taken place."""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest

from authoring.files.library import open_library
from authoring.model.vocabulary import TermKind
from tests.commands.conftest import EXAMPLE, Run, told


def test_an_empty_library_opens_with_common_terms_and_a_clinic_of_its_name(
    run: Run, tmp_path: Path
) -> None:
    folder = tmp_path / "Hill Street"
    answer = run("new", folder)
    assert (answer.status, answer.out, answer.err) == (0, f"{folder}\n", "")
    library = open_library(folder).library
    assert library.manifest.name == "Hill Street"
    assert not library.manifest.invented
    assert (library.cards, library.protocols) == ({}, {})
    kinds = {term.kind for term in library.manifest.terms}
    assert TermKind.KIT in kinds
    assert TermKind.CONDITION not in kinds
    assert library.clinic is not None
    assert library.clinic.name.values[""] == "Hill Street"


def test_two_empty_libraries_are_two(run: Run, tmp_path: Path) -> None:
    for name in ("a", "b"):
        assert run("new", tmp_path / name).status == 0
    ids = {open_library(tmp_path / name).library.manifest.id for name in ("a", "b")}
    assert len(ids) == 2


def test_the_example_is_the_example_byte_for_byte_and_has_nothing_that_must_be_mended(
    run: Run, tmp_path: Path
) -> None:
    folder = tmp_path / "example"
    assert run("new", folder, "--example").status == 0
    shipped, made = (
        {path.relative_to(root) for path in root.rglob("*") if path.is_file()}
        for root in (EXAMPLE, folder)
    )
    names = {name for name in shipped if name.suffix in (".json", ".png")}
    assert {name for name in made if not name.name.startswith(".")} == names
    for name in names:
        assert (folder / name).read_bytes() == (EXAMPLE / name).read_bytes(), name
    report = run("check", folder, "--format", "json")
    assert report.status == 0
    assert json.loads(report.out)["counts"]["must"] == 0


@pytest.mark.parametrize("name", ["notes.txt", ".hidden"])
def test_a_folder_that_holds_something_is_left_as_it_is(
    run: Run, tmp_path: Path, name: str
) -> None:
    (tmp_path / name).write_text("mine", encoding="utf-8")
    answer = run("new", tmp_path, "--example")
    assert answer.status == 3
    assert "there is something here already, and it was left as it is" in told(answer)
    assert (tmp_path / name).read_text(encoding="utf-8") == "mine"
    assert not (tmp_path / "library.json").exists()


def test_a_file_or_a_link_in_its_place_is_refused(run: Run, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    (tmp_path / "link").symlink_to(tmp_path / "nowhere")
    for name in ("file", "link"):
        answer = run("new", tmp_path / name)
        assert answer.status == 3
        assert "something here already" in told(answer)


def test_a_folder_below_a_file_can_not_be_made(run: Run, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    answer = run("new", tmp_path / "file" / "library")
    assert answer.status == 3
    assert str(tmp_path / "file") in told(answer)


@pytest.mark.parametrize(
    "name", ["x" * 220, "a\tb", "ü" * 100, os.fsdecode(b"caf\xe9"), "\u202eabc", "'; drop", "-x"]
)
def test_any_name_a_folder_can_have_will_do(run: Run, tmp_path: Path, name: str) -> None:
    folder = tmp_path / name
    assert run("new", folder).status == 0
    assert open_library(folder).library.manifest.name


def test_a_name_too_long_for_the_disk_is_refused(run: Run, tmp_path: Path) -> None:
    answer = run("new", tmp_path / ("x" * 300))
    assert answer.status == 3
    assert "the name is too long for this disk" in told(answer)
