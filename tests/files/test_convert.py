"""Any value of any noun -> JSON -> the same value, and what it says is what the schema allows."""

from __future__ import annotations

from functools import cache
from typing import Any

import jsonschema_rs
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator, FormatChecker

from authoring.files.convert import from_json, known_keys, to_json
from authoring.files.formats import DOCUMENTS
from authoring.files.reference import all_nouns
from authoring.files.schema import DIALECT, schema_files
from authoring.files.strict_json import read_json, write_json
from authoring.model.base import Node, fields
from authoring.model.dose import Dose, Repetitions
from authoring.model.load import EffortLoad, IntRange, NumberRange, SettingLoad
from authoring.model.text import Text
from authoring.model.vocabulary import SettingKind
from tests.strategies.values import texts, values_of

INNER = [noun for noun in all_nouns() if issubclass(noun, Node) and noun not in DOCUMENTS.values()]

# There are many nouns; each needs fewer cases than a property that stands alone.
SHARE = settings(max_examples=max(8, settings.default.max_examples // 8))


@cache
def schema_of(noun: type[Node]) -> dict[str, Any]:
    """The schema of a noun that stands inside files, from the schemas that define it."""
    definitions: dict[str, Any] = {}
    for schema in schema_files().values():
        definitions |= schema["$defs"]
    return {"$schema": DIALECT, "$ref": f"#/$defs/{noun.__name__}", "$defs": definitions}


@cache
def judges(noun: type[Node]) -> tuple[jsonschema_rs.Validator, Draft202012Validator]:
    fast = jsonschema_rs.Draft202012Validator(schema_of(noun), validate_formats=True)
    slow = Draft202012Validator(schema_of(noun), format_checker=FormatChecker(["date"]))
    return fast, slow


@pytest.mark.parametrize("noun", INNER, ids=lambda noun: noun.__name__)
@SHARE
@given(data=st.data())
def test_value_comes_back_equal_and_is_valid_for_both_validators(
    noun: type[Node], data: st.DataObject
) -> None:
    value = data.draw(values_of(noun, strange=True))
    written = to_json(value)
    assert from_json(noun, written) == value
    assert from_json(noun, written, detailed=True) == value
    assert from_json(noun, read_json(write_json(written))) == value
    fast, slow = judges(noun)
    assert [error.message for error in slow.iter_errors(written)] == []
    assert fast.is_valid(written)
    assert list(written) == order_of(noun, written)


def order_of(noun: type[Node], written: dict[str, Any]) -> list[str]:
    """Keys as they must stand: what it is, the noun's own fields in order, unknown ones."""
    known = known_keys(noun)
    names = [field.name for field in fields(noun) if field.name in known and field.name in written]
    head = [name for name in ("kind", "format", "format_version") if name not in names]
    head = [name for name in head if name in known and name in written]
    return head + names + [key for key in written if key not in known]


@pytest.mark.parametrize("noun", DOCUMENTS.values(), ids=lambda noun: noun.FORMAT)
@SHARE
@given(data=st.data())
def test_file_comes_back_equal_and_its_fields_stand_in_the_order_of_its_noun(
    noun: type[Node], data: st.DataObject
) -> None:
    value = data.draw(values_of(noun, strange=True))
    written = to_json(value)
    assert from_json(noun, written, detailed=True) == value
    assert list(written) == order_of(noun, written)
    assert list(written)[:2] == ["format", "format_version"]


@given(texts())
def test_words_come_back_equal(text: Text) -> None:
    setting = SettingLoad(what=SettingKind.LEAN, words=text)
    assert from_json(SettingLoad, to_json(setting)).words == text


def test_fields_at_their_default_are_left_out() -> None:
    dose = Dose(work=Repetitions(reps=(IntRange(low=10),)), loads=())
    assert to_json(dose) == {"work": {"kind": "repetitions", "reps": [{"low": 10}]}}


def test_default_that_carries_an_unknown_field_is_written() -> None:
    one = IntRange(low=1, extra={"zone": "x"})
    assert to_json(Repetitions(sets=one, reps=(one,)))["sets"] == {"low": 1, "zone": "x"}


@pytest.mark.parametrize(
    ("number", "written"),
    [(5.0, b"5"), (2.5, b"2.5"), (0.1, b"0.1"), (9.75, b"9.75"), (0.0, b"0")],
)
def test_whole_numbers_are_written_without_a_point(number: float, written: bytes) -> None:
    load = EffortLoad(rating=NumberRange(low=number))
    assert b'"low": ' + written + b"\n" in write_json(to_json(load))


def test_languages_are_written_in_the_order_of_their_tags() -> None:
    words = Text({"fr": "a", "de": "b", "en-GB": "c", "en": "d"})
    written = to_json(SettingLoad(what=SettingKind.PUSH, words=words))
    assert list(written["words"]) == ["de", "en", "en-GB", "fr"]
