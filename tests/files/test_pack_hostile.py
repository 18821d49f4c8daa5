"""Packs made to do harm: each is refused in one sentence, within a second, and writes nothing."""

from __future__ import annotations

import os
import random
import time
import tracemalloc
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from authoring.files.errors import FileProblem
from authoring.files.pack_reading import Pack, parse_pack, read_pack
from tests.files.hostile_packs import HOSTILE, bomb, deflated
from tests.files.packs import example, files_of, good_pack, relisted, small_pack


def one_sentence(words: str) -> bool:
    return "\n" not in words and words.endswith(".") and words.isprintable() and len(words) < 700


@pytest.mark.parametrize(("what", "make"), HOSTILE, ids=[name for name, _ in HOSTILE])
def test_hostile_pack_is_refused_in_one_sentence_and_writes_nothing(
    what: str, make: Callable[[], bytes], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    data = make()
    pack = tmp_path / "evil.rungpack"
    pack.write_bytes(data)
    monkeypatch.chdir(tmp_path)
    begun = time.process_time()
    with pytest.raises(FileProblem) as refused:
        read_pack(pack)
    # A bound on the work, not a measurement: collecting the memory of earlier tests counts, too.
    assert time.process_time() - begun < 5.0
    assert one_sentence(str(refused.value)), str(refused.value)
    assert [path.name for path in tmp_path.iterdir()] == [pack.name]
    assert pack.read_bytes() == data


def test_there_are_as_many_hostile_packs_as_there_must_be() -> None:
    assert len(HOSTILE) >= 120
    assert len({name for name, _ in HOSTILE}) == len(HOSTILE)
    assert len({make() for _, make in HOSTILE}) == len(HOSTILE)


def test_a_bomb_takes_no_memory_to_speak_of() -> None:
    data = bomb()
    tracemalloc.start()
    try:
        with pytest.raises(FileProblem, match=r"twice|would grow"):
            parse_pack(data, "bomb.rungpack")
        assert tracemalloc.get_traced_memory()[1] < 20_000_000
    finally:
        tracemalloc.stop()


def test_the_pack_that_is_spoilt_is_good_before() -> None:
    for data in (good_pack(), small_pack(), relisted(files_of(good_pack()))):
        assert isinstance(parse_pack(data, "good.rungpack"), Pack)
    again = deflated(list(files_of(small_pack()).items()))
    assert parse_pack(again, "good.rungpack").cards
    assert len(example().library.cards) >= 30


def _must_be_one_sentence(problem: FileProblem) -> None:
    assert one_sentence(str(problem)), str(problem)


def _mutated(changes: list[tuple[float, int]], cut: float) -> bytes:
    data = bytearray(small_pack())
    for place, byte in changes:
        data[int(place * (len(data) - 1))] ^= byte
    return bytes(data[: int(cut * len(data))]) if cut < 1 else bytes(data)


_WHERE = st.one_of(st.floats(0, 1), st.floats(0.98, 1), st.floats(0, 0.001))
CHANGES = st.lists(st.tuples(_WHERE, st.integers(1, 255)), min_size=1, max_size=6)


@settings(deadline=None)
@given(CHANGES, st.one_of(st.just(1.0), st.floats(0, 1)))
def test_a_pack_with_changed_bytes_is_never_taken(
    changes: list[tuple[float, int]], cut: float
) -> None:
    data = _mutated(changes, cut)
    try:
        taken = parse_pack(data, "mutated.rungpack")
    except FileProblem as problem:
        _must_be_one_sentence(problem)
    else:  # what no reader looks at may differ: dates, permission bits
        before = parse_pack(small_pack(), "mutated.rungpack")
        assert (taken.protocols, taken.cards, taken.poses) == (
            before.protocols,
            before.cards,
            before.poses,
        )


@pytest.mark.long
def test_tens_of_thousands_of_packs_with_changed_bytes_are_never_taken(
    record_property: Callable[[str, int], None],
) -> None:
    chance = random.Random(int(os.environ.get("RUNGBOOK_SEED", "1")))
    before = parse_pack(small_pack(), "mutated.rungpack").protocols
    cases = 20_000
    for _ in range(cases):
        where = chance.choice((1.0, 0.02, 0.001))
        changes = [
            (chance.random() * where, chance.randrange(1, 256)) for _ in range(chance.randint(1, 6))
        ]
        try:
            assert parse_pack(_mutated(changes, 1.0), "m.rungpack").protocols == before
        except FileProblem as problem:
            _must_be_one_sentence(problem)
    record_property("cases", cases)
