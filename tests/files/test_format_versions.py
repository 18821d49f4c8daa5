"""Every past version of every format loads for ever, and a newer one is refused in a sentence."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from authoring.files.documents import NotThisFormat, document_bytes, parse_document, read_document
from authoring.files.formats import DOCUMENTS, FORMAT_VERSION, migrate
from authoring.files.schema import schema_name

FROZEN = Path(__file__).parent / "frozen"
SAMPLES = sorted(FROZEN.glob("*/*.json"))


def named(path: Path) -> str:
    return f"{path.parent.name}-{path.stem}"


@pytest.mark.parametrize("version", range(1, FORMAT_VERSION + 1))
def test_every_version_has_a_frozen_sample_of_every_format(version: int) -> None:
    held = {path.stem for path in FROZEN.joinpath(str(version)).glob("*.json")}
    assert held >= {schema_name(name).removesuffix(".schema.json") for name in DOCUMENTS}


@pytest.mark.parametrize("path", SAMPLES, ids=named)
def test_frozen_sample_says_its_version(path: Path) -> None:
    data = json.loads(path.read_bytes())
    assert data["format"] == f"rungbook/{path.stem}"
    assert data["format_version"] == int(path.parent.name)


@pytest.mark.parametrize("path", SAMPLES, ids=named)
def test_frozen_sample_loads_with_all_it_says_and_is_written_as_the_newest(path: Path) -> None:
    loaded = read_document(path)
    assert loaded.unknown == ()
    written = document_bytes(loaded.document)
    assert json.loads(written)["format_version"] == FORMAT_VERSION
    assert parse_document(written, path).document == loaded.document


@pytest.mark.parametrize(
    "path", [p for p in SAMPLES if p.parent.name == str(FORMAT_VERSION)], ids=named
)
def test_sample_of_the_present_version_is_written_as_it_stands(path: Path) -> None:
    assert document_bytes(read_document(path).document).decode() == path.read_text(encoding="utf-8")


@pytest.mark.parametrize("format_name", DOCUMENTS)
@pytest.mark.parametrize("version", [FORMAT_VERSION + 1, 1_000_000])
def test_newer_version_is_refused_with_what_to_do(format_name: str, version: int) -> None:
    data = json.dumps({"format": format_name, "format_version": version}).encode()
    with pytest.raises(
        NotThisFormat, match=rf"version {version}, made by a newer Rungbook"
    ) as caught:
        parse_document(data, "file.json")
    assert caught.value.mend == "update Rungbook, or ask for the file in an older version"


def test_version_without_a_step_to_the_present_is_a_fault_of_ours() -> None:
    with pytest.raises(ValueError, match="no step leads from format version 0"):
        migrate({}, 0)
