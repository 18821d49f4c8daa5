"""One file to one noun and back: stable bytes, unknown fields kept, and never a traceback."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from pathlib import Path
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from authoring.files.convert import known_keys
from authoring.files.documents import (
    Invalid,
    NotThisFormat,
    document_bytes,
    parse_document,
    read_document,
    unknown_fields,
)
from authoring.files.errors import FileProblem
from authoring.files.faults import faults, place
from authoring.files.fingerprint import fingerprint
from authoring.files.formats import DOCUMENTS, Document
from authoring.files.strict_json import write_json
from authoring.model.base import Node, fields
from tests.files.corpus.cases import FOLDER, VALID
from tests.strategies.json_values import json_values, names
from tests.strategies.mutations import mutate
from tests.strategies.values import values_of

FORMATS = list(DOCUMENTS)
DATA = [json.loads(path.read_bytes()) for path in VALID]


def mix(value: Any, chance: Random) -> Any:
    """The same JSON value with the names of its objects in another order."""
    if isinstance(value, dict):
        names_of = list(value)
        chance.shuffle(names_of)
        return {name: mix(value[name], chance) for name in names_of}
    return [mix(item, chance) for item in value] if isinstance(value, list) else value


@pytest.mark.parametrize("format_name", FORMATS)
@given(data=st.data())
def test_bytes_of_any_value_read_back_to_it_and_stay_the_same(
    format_name: str, data: st.DataObject
) -> None:
    value: Document = data.draw(values_of(DOCUMENTS[format_name], strange=True))
    written = document_bytes(value)
    loaded = parse_document(written, "file.json", expected=DOCUMENTS[format_name])
    assert loaded.document == value
    assert document_bytes(loaded.document) == written
    assert loaded.fingerprint == fingerprint(written)


@given(
    st.sampled_from([path for path in VALID if "later-day" not in path.name]),
    st.randoms(use_true_random=False),
)
def test_order_of_names_in_a_file_does_not_matter(path: Path, chance: Random) -> None:
    data = json.loads(path.read_bytes())
    mixed = parse_document(write_json(mix(data, chance)), path)
    straight = parse_document(write_json(data), path)
    assert document_bytes(mixed.document) == document_bytes(straight.document)


def nouns_in(
    value: object, at: tuple[str | int, ...] = ()
) -> Iterator[tuple[Node, tuple[Any, ...]]]:
    """Every noun in a value with its place."""
    if isinstance(value, Node):
        yield value, at
        for field in fields(type(value)):
            if field.name != "extra":
                yield from nouns_in(getattr(value, field.name), (*at, field.name))
    elif isinstance(value, tuple):
        for index, item in enumerate(value):
            yield from nouns_in(item, (*at, index))


def held_at(raw: Any, at: tuple[Any, ...]) -> Any:
    """What a file holds at a place, None where it leaves out a default."""
    for step in at:
        raw = raw.get(step) if isinstance(raw, dict) else raw[step]
        if raw is None:
            return None
    return raw


def written_nouns(document: Node, raw: Any) -> Iterator[tuple[Node, tuple[Any, ...]]]:
    """The nouns that a file writes out, with their places."""
    return ((noun, at) for noun, at in nouns_in(document) if held_at(raw, at) is not None)


@given(st.sampled_from(VALID), st.data())
def test_unknown_field_in_any_noun_is_kept_and_listed(path: Path, data: st.DataObject) -> None:
    before = parse_document(path.read_bytes(), path)
    raw = json.loads(document_bytes(before.document))
    noun, at = data.draw(st.sampled_from([*written_nouns(before.document, raw)]))
    holder = held_at(raw, at)
    name = data.draw(names().filter(lambda name: name not in known_keys(type(noun)) | set(holder)))
    held = data.draw(json_values())
    holder[name] = held
    loaded = parse_document(write_json(raw), path)
    assert set(loaded.unknown) == {*before.unknown, place((*at, name))}
    again = json.loads(document_bytes(loaded.document))
    assert again == raw
    assert list(unknown_fields(loaded.document)) == list(loaded.unknown)


def told(data: bytes) -> FileProblem | None:
    """The problem with a file, or None where it loads; any other exception fails the test."""
    try:
        loaded = parse_document(data, "file.json")
    except FileProblem as problem:
        return problem
    again = parse_document(document_bytes(loaded.document), "file.json")
    assert again.document == loaded.document
    return None


def sound(problem: FileProblem | None) -> bool:
    """Whether a problem is told in one line for each fault."""
    if isinstance(problem, Invalid):
        lines = [part for fault in problem.faults for part in (fault.sentence, fault.mend)]
        return bool(lines) and all(line.strip() and len(line.splitlines()) == 1 for line in lines)
    return problem is None or len(str(problem).splitlines()) == 1


@settings(max_examples=8 * settings.default.max_examples)
@given(st.sampled_from(DATA), st.randoms(use_true_random=False))
def test_file_gone_wrong_loads_or_is_told_in_sentences(data: Any, chance: Random) -> None:
    assert sound(told(write_json(mutate(data, chance))))


@given(st.sampled_from(FORMATS), st.dictionaries(names(), json_values(), max_size=4))
def test_any_json_object_of_ours_loads_or_is_told_in_sentences(
    format_name: str, data: dict[str, Any]
) -> None:
    assert sound(told(write_json({**data, "format": format_name, "format_version": 1})))


@given(json_values(), json_values())
def test_any_head_at_all_is_told_in_sentences(format_name: Any, version: Any) -> None:
    assert sound(told(write_json({"format": format_name, "format_version": version})))


@given(st.sampled_from(VALID), st.data())
def test_file_cut_at_any_byte_is_told_in_one_sentence(path: Path, data: st.DataObject) -> None:
    whole = path.read_bytes().rstrip()
    problem = told(whole[: data.draw(st.integers(0, len(whole) - 1))])
    assert problem is not None
    assert sound(problem)


@pytest.mark.long
def test_two_hundred_thousand_files_gone_wrong_end_in_sentences(
    record_property: Callable[[str, object], None],
) -> None:
    seed = 20_260_301
    chance = Random(seed)
    cases = 200_000
    for _ in range(cases):
        assert sound(told(write_json(mutate(chance.choice(DATA), chance))))
    record_property("cases", cases)
    record_property("seed", seed)


def test_every_fault_of_a_file_is_told_at_once_and_the_first_in_the_message() -> None:
    data = {"format": "rungbook/card", "format_version": 1, "slug": "A b", "language": "en"}
    with pytest.raises(Invalid) as caught:
        parse_document(write_json({**data, "variants": [{"id": "v", "rung": 99}]}), "x.card.json")
    paths = [fault.path for fault in caught.value.faults]
    assert paths[0] in ("id", "title")
    assert sorted(paths) == sorted(
        ["id", "slug", "title", "variants[0].mode", "variants[0].name", "variants[0].rung"]
    )
    assert (
        str(caught.value)
        == f"x.card.json: at {paths[0]}, '{paths[0]}' is missing (and 5 more); add it."
    )


def test_file_with_thousands_of_faults_tells_the_first_two_hundred() -> None:
    terms = [{"id": "x"} for _ in range(1_000)]
    data = {"format": "rungbook/library", "format_version": 1, "terms": terms}
    assert len(faults("rungbook/library", data)) == 200


def test_list_far_too_long_is_one_fault_and_only_its_first_items_are_judged() -> None:
    good = json.loads((FOLDER / "valid" / "smallest.card.json").read_bytes())
    regions = ["knee"] * 15 + ["nose"] + ["ear"] * 3_000
    found = faults("rungbook/card", {**good, "regions": regions})
    assert [(fault.path, fault.rule) for fault in found] == [
        ("regions", "maxItems"),
        ("regions[15]", "enum"),
    ]
    assert found[0].sentence == "there must be at most 16 items, and there are 3016"


def test_near_miss_of_a_word_is_offered() -> None:
    base = json.loads((FOLDER / "valid" / "smallest.card.json").read_bytes())
    with pytest.raises(Invalid, match="did you mean 'shoulder'") as caught:
        parse_document(write_json({**base, "regions": ["sholder"]}), "x.json")
    assert caught.value.faults[0].sentence == '"sholder" is not one of the words allowed here'


def test_format_near_ours_is_offered() -> None:
    with pytest.raises(NotThisFormat, match="did you mean 'rungbook/library'"):
        parse_document(b'{"format": "rungbook/libary"}', "library.json")


def test_file_on_disk_reads_as_its_bytes_do(tmp_path: Path) -> None:
    path = tmp_path / "a.card.json"
    path.write_bytes((FOLDER / "valid" / "pictures-of-a-hold.card.json").read_bytes())
    assert read_document(path) == parse_document(path.read_bytes(), path)


def test_byte_order_mark_is_passed_over_and_not_written() -> None:
    whole = (FOLDER / "valid" / "smallest.card.json").read_bytes()
    loaded = parse_document(b"\xef\xbb\xbf" + whole, "a.card.json")
    assert document_bytes(loaded.document).startswith(b'{\n  "format": "rungbook/card"')
