"""The public contract: sound schemas, committed as generated, read alike by two validators."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from random import Random
from typing import Any

import jsonschema_rs
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from authoring.files.contract import contract_files
from authoring.files.convert import to_json
from authoring.files.faults import explainer, gate, place
from authoring.files.formats import DOCUMENTS
from authoring.files.reference import all_nouns
from authoring.files.schema import schema_name
from authoring.files.strict_json import read_json
from tests.files.corpus.cases import VALID, Case, invalid_cases
from tests.strategies.json_values import json_values
from tests.strategies.mutations import mutate
from tests.strategies.values import values_of

SCHEMAS = Path(__file__).resolve().parents[2] / "schemas"
FORMATS = list(DOCUMENTS)
DATA = [json.loads(path.read_bytes()) for path in VALID]
BAD = [case for case in invalid_cases() if case.faults]


@cache
def committed(format_name: str) -> dict[str, Any]:
    schema: dict[str, Any] = json.loads((SCHEMAS / schema_name(format_name)).read_bytes())
    return schema


def agreed(format_name: str, data: Any) -> bool:
    """What both validators say; fails where they say two things."""
    fast = gate(format_name).is_valid(data)
    errors = list(explainer(format_name).iter_errors(data))
    assert fast == (not errors), [(place(each.absolute_path), each.message) for each in errors]
    return fast


def test_committed_contract_is_what_the_model_says() -> None:
    mend = "run python -m authoring.files.contract"
    committed_files = {
        path.name: path.read_text(encoding="utf-8") for path in SCHEMAS.iterdir() if path.is_file()
    }
    assert sorted(committed_files) == sorted(contract_files()), mend
    for name, text in contract_files().items():
        assert committed_files[name] == text, f"{name} differs: {mend}"


@pytest.mark.parametrize("format_name", FORMATS)
def test_schema_is_sound_by_the_meta_schema(format_name: str) -> None:
    schema = committed(format_name)
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    Draft202012Validator.check_schema(schema)
    jsonschema_rs.meta.validate(schema)


@pytest.mark.parametrize("format_name", FORMATS)
def test_schema_refers_only_to_what_it_defines(format_name: str) -> None:
    schema = committed(format_name)
    references: set[str] = set()
    waiting: list[Any] = [schema]
    while waiting:
        part = waiting.pop()
        if isinstance(part, dict):
            references |= {part["$ref"]} if isinstance(part.get("$ref"), str) else set()
            waiting += part.values()
        elif isinstance(part, list):
            waiting += part
    assert references == {f"#/$defs/{name}" for name in schema["$defs"]}


@pytest.mark.parametrize("format_name", FORMATS)
def test_every_field_in_the_schema_says_what_it_is(format_name: str) -> None:
    schema = committed(format_name)
    for noun in [schema, *schema["$defs"].values()]:
        for name, rules in noun.get("properties", {}).items():
            assert name == "kind" or rules["description"].strip().endswith((".", ")")), name


def test_reference_page_has_a_section_for_every_noun_and_no_other() -> None:
    page = (SCHEMAS / "README.md").read_text(encoding="utf-8")
    sections = [line.removeprefix("## ") for line in page.splitlines() if line.startswith("## ")]
    assert sections == [noun.__name__ for noun in all_nouns()]


@pytest.mark.parametrize("path", VALID, ids=lambda path: path.stem)
def test_both_validators_pass_a_good_file(path: Path) -> None:
    data = json.loads(path.read_bytes())
    assert agreed(data["format"], data)


@pytest.mark.parametrize("case", BAD, ids=lambda case: f"{case.book}: {case.name}")
def test_both_validators_judge_a_bad_file_alike(case: Case) -> None:
    data = read_json(case.data)
    assert isinstance(data, dict)
    schema_faults = {rule for _, rule in case.faults} - {"value"}
    # The sentence about a missing or odd version is the reader's own; the schema objects too.
    assert agreed(str(data["format"]), data) == (not schema_faults)


@pytest.mark.parametrize("format_name", FORMATS)
@settings(max_examples=settings.default.max_examples // 3)
@given(data=st.data())
def test_both_validators_pass_any_value_of_the_model(format_name: str, data: st.DataObject) -> None:
    assert agreed(format_name, to_json(data.draw(values_of(DOCUMENTS[format_name], strange=True))))


@settings(max_examples=8 * settings.default.max_examples)
@given(st.sampled_from(DATA), st.randoms(use_true_random=False))
def test_both_validators_judge_a_file_gone_wrong_alike(good: Any, chance: Random) -> None:
    agreed(good["format"], mutate(good, chance))


@given(st.sampled_from(FORMATS), json_values())
@example("rungbook/card", {"references": [{"id": "a", "citation": "c", "doi": "10.1000/a\ufeffb"}]})
@example("rungbook/card", {"last_review": "0000-01-01"})
@example("rungbook/card", {"slug": "heel-raise\n"})
@example("rungbook/card", {"title": {"en\n": "x"}})
@example("rungbook/card", {"slug": "a" * 80 + "\U0001f9b6"})
@example("rungbook/protocol", {"format_version": 1.0})
def test_both_validators_judge_any_json_alike(format_name: str, data: Any) -> None:
    agreed(format_name, data)
