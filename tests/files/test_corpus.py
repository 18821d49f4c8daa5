"""Files written by hand: the good ones load whole, each bad one is told exactly what is wrong."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from enum import StrEnum
from functools import cache
from pathlib import Path
from typing import Any

import attrs
import pytest

from authoring.files.documents import Invalid, document_bytes, parse_document
from authoring.files.errors import FileProblem
from authoring.files.formats import DOCUMENTS
from authoring.files.reference import all_nouns
from authoring.model.base import Node, fields
from tests.files.corpus.cases import VALID, Case, invalid_cases

CASES = list(invalid_cases())

# What a person must never be shown: names of Python, and its way to write values.
PYTHON = re.compile(
    r"Traceback|Error\b|Exception|\bNone|\bTrue\b|\bFalse\b|<class|object at 0x|authoring\."
)


# Defaults that good files spell out: left out when written back, and so the same.
DEFAULTS: dict[str, tuple[Any, ...]] = {
    "action": ("go_easier",),
    "conditions": ([],),
    "decided_by": ("clinician",),
    "hands": (0,),
    "holds": ({"low": 1},),
    "lifting": ("both",),
    "pick": (1,),
    "priority": (2,),
    "sets": ({"low": 1},),
    "settles_within_h": (24,),
    "side": ("none",),
    "step_unit": ("kg",),
    "unit": ("weeks", "kg"),
    "until": ("quality",),
}


def named(case: Case | Path) -> str:
    return case.stem if isinstance(case, Path) else f"{case.book}: {case.name}"


def one_sentence(words: str) -> bool:
    return (
        bool(words.strip())
        and words == words.strip()
        and "\n" not in words
        and not words.endswith(".")
        and not PYTHON.search(words)
    )


def test_corpus_is_as_large_as_it_must_be() -> None:
    assert len(VALID) >= 60
    assert len(CASES) >= 120
    assert sum(case.whole for case in CASES) >= 40


def test_names_of_cases_are_not_used_twice() -> None:
    assert len({named(case) for case in CASES}) == len(CASES)


@pytest.mark.parametrize("path", VALID, ids=named)
def test_good_file_loads_and_writes_back_the_same_values(path: Path) -> None:
    first = parse_document(path.read_bytes(), path)
    again = parse_document(document_bytes(first.document), path)
    assert again.document == first.document
    assert again.unknown == first.unknown
    assert document_bytes(again.document) == document_bytes(first.document)


@pytest.mark.parametrize("path", VALID, ids=named)
def test_every_value_of_a_good_file_is_in_the_file_written_back(path: Path) -> None:
    mine = json.loads(path.read_bytes())
    written = json.loads(document_bytes(parse_document(path.read_bytes(), path).document))
    assert list(lost(mine, written)) == []


def lost(mine: Any, written: Any, at: str = "") -> Iterator[str]:
    """Places of values that were not written back as they were."""
    if isinstance(mine, dict) and isinstance(written, dict):
        for key, value in mine.items():
            if key in written:
                yield from lost(value, written[key], f"{at}.{key}")
            elif not stands_by_default(key, value):
                yield f"{at}.{key}"
    elif isinstance(mine, list) and isinstance(written, list) and len(mine) == len(written):
        for index, (one, other) in enumerate(zip(mine, written, strict=True)):
            yield from lost(one, other, f"{at}[{index}]")
    elif mine != written:
        yield at


def stands_by_default(key: str, value: Any) -> bool:
    """Whether the format reference says that this is what a field is when it is left out."""
    return value in DEFAULTS.get(key, ())


def test_only_the_file_from_a_later_day_has_unknown_fields() -> None:
    unknown = {path.stem: parse_document(path.read_bytes(), path).unknown for path in VALID}
    assert {name: paths for name, paths in unknown.items() if paths} == {
        "fields-from-a-later-day.card": (
            "mood",
            "variants[0].kind",
            "variants[0].extra",
            "variants[0].dose.work.velocity_m_s",
            "variants[0].dose.work.reps[0].zone",
        )
    }


def used(value: object) -> Iterator[str]:
    """Nouns, fields that differ from their default, and words of closed lists in a value."""
    if isinstance(value, Node):
        name = type(value).__name__
        yield name
        for field in fields(type(value)):
            held = getattr(value, field.name)
            if held != default_of(field):
                yield f"{name}.{field.name}"
            yield from used(held)
    elif isinstance(value, tuple):
        for item in value:
            yield from used(item)
    elif isinstance(value, StrEnum):
        yield f"{type(value).__name__}: {value.value}"


def default_of(field: attrs.Attribute[Any]) -> object:
    factory = getattr(field.default, "factory", None)
    return factory() if factory else field.default


def test_good_files_use_every_noun_every_field_and_every_word_of_the_contract() -> None:
    seen = {
        each for path in VALID for each in used(parse_document(path.read_bytes(), path).document)
    }
    wanted: set[str] = set()
    for noun in all_nouns():
        if issubclass(noun, StrEnum):
            wanted |= {f"{noun.__name__}: {word.value}" for word in noun}
        elif issubclass(noun, Node):
            wanted |= {noun.__name__} | {f"{noun.__name__}.{each.name}" for each in fields(noun)}
    # Unknown fields have a file of their own, and need not stand in every noun.
    wanted -= {each for each in wanted if each.endswith(".extra")}
    assert sorted(wanted - seen) == []


@cache
def problem_of(case: Case) -> FileProblem:
    with pytest.raises(FileProblem) as caught:
        parse_document(case.data, "file.json")
    return caught.value


@pytest.mark.parametrize("case", [c for c in CASES if c.faults], ids=named)
def test_bad_file_shows_exactly_its_faults(case: Case) -> None:
    problem = problem_of(case)
    assert isinstance(problem, Invalid)
    assert {(fault.path, fault.rule) for fault in problem.faults} == case.faults
    for fault in problem.faults:
        assert one_sentence(fault.sentence), fault
        assert one_sentence(fault.mend), fault


@pytest.mark.parametrize("case", [c for c in CASES if c.refused], ids=named)
def test_file_that_is_none_of_ours_is_refused_in_words(case: Case) -> None:
    problem = problem_of(case)
    assert type(problem).__name__ == case.refused
    said = f"{problem.sentence}; {problem.mend}"
    for words in case.words:
        assert words in said
    assert one_sentence(problem.sentence)
    assert one_sentence(problem.mend)


@pytest.mark.parametrize("case", CASES, ids=named)
def test_whole_message_is_one_line_that_names_the_file(case: Case) -> None:
    words = str(problem_of(case))
    assert words.startswith("file.json: ")
    assert words.endswith(".")
    assert len(words.splitlines()) == 1
    assert len(words) < 600


@pytest.mark.parametrize("case", [c for c in CASES if c.faults], ids=named)
def test_faults_come_in_the_order_of_the_file(case: Case) -> None:
    problem = problem_of(case)
    assert isinstance(problem, Invalid)
    text = case.data.decode()
    firsts = [
        text.find(f'"{top}"')
        for fault in problem.faults
        if fault.rule != "required" and (top := re.split(r"[.\[]", fault.path)[0])
    ]
    assert firsts == sorted(firsts)


@pytest.mark.parametrize("path", VALID, ids=named)
def test_file_of_one_kind_is_refused_where_another_is_wanted(path: Path) -> None:
    name = json.loads(path.read_bytes())["format"]
    other = next(cls for each, cls in DOCUMENTS.items() if each != name)
    with pytest.raises(FileProblem, match=f"this is a {name} file, and a {other.FORMAT}"):
        parse_document(path.read_bytes(), path, expected=other)
    loaded = parse_document(path.read_bytes(), path, DOCUMENTS[name])
    assert isinstance(loaded.document, DOCUMENTS[name])
