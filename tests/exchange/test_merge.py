"""The laws a three-way merge keeps, over any document and over series of named edits."""

from __future__ import annotations

import os
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, seed, settings
from hypothesis import strategies as st

from authoring.exchange.conflict import Side
from authoring.exchange.merge import merge, prefer
from authoring.exchange.table import built, table_of
from authoring.model.base import ModelError, evolve
from authoring.model.card import Card
from authoring.model.clinic import Clinic
from authoring.model.edits.outcome import EditError
from authoring.model.library import LibraryFile
from authoring.model.pose import Pose
from authoring.model.protocol import Protocol
from tests.model.edit_values import protocols
from tests.model.test_edits_sequences import edits_of
from tests.strategies.values import values_of

KINDS = (Card, Protocol, Clinic, LibraryFile, Pose)


def edited(made: Protocol, data: st.DataObject) -> Protocol:
    """A protocol after one to three named edits, those that can't be made left out."""
    for _ in range(data.draw(st.integers(1, 3))):
        edit = data.draw(st.sampled_from(range(24)))
        try:
            made = edits_of(made, data)[edit]().value
        except (EditError, ModelError):
            continue
    return made


@pytest.mark.parametrize("kind", KINDS)
def test_a_document_laid_out_flat_is_put_together_again_the_same(kind: type[Any]) -> None:
    @settings(max_examples=20)
    @given(values_of(kind))
    def check(value: Any) -> None:
        assert built(table_of(value)) == value

    check()


@pytest.mark.parametrize("kind", KINDS)
def test_an_untouched_side_gives_way_to_the_other(kind: type[Any]) -> None:
    @settings(max_examples=20)
    @given(values_of(kind), values_of(kind))
    def check(base: Any, other: Any) -> None:
        if hasattr(base, "id"):
            other = evolve(other, id=base.id)
        for merged in (
            merge(base, other, base),
            merge(base, base, other),
            merge(base, other, other),
        ):
            assert merged.value == other
            assert not merged.conflicts

    check()


@pytest.mark.parametrize("kind", KINDS)
def test_any_two_versions_merge_alike_from_either_side(kind: type[Any]) -> None:
    @settings(max_examples=25)
    @given(values_of(kind), values_of(kind), values_of(kind))
    def check(base: Any, mine: Any, theirs: Any) -> None:
        if hasattr(base, "id"):
            mine, theirs = evolve(mine, id=base.id), evolve(theirs, id=base.id)
        there, back = merge(base, mine, theirs), merge(base, theirs, mine)
        assert {c.name for c in there.conflicts} == {c.name for c in back.conflicts}
        assert prefer(there, Side.THEIRS).value == prefer(back, Side.MINE).value
        assert not prefer(there, Side.MINE).open

    check()


def _check_laws(base: Protocol, mine: Protocol, theirs: Protocol) -> None:
    for one, two, result in ((mine, base, mine), (base, theirs, theirs), (mine, mine, mine)):
        merged = merge(base, one, two)
        assert (merged.value, merged.conflicts) == (result, ())
    there, back = merge(base, mine, theirs), merge(base, theirs, mine)
    assert {c.name for c in there.conflicts} == {c.name for c in back.conflicts}
    if not there.conflicts:
        assert there.value == back.value
    assert prefer(there, Side.THEIRS).value == prefer(back, Side.MINE).value
    if there.value is not None:
        _check_no_edit_lost(there)


def _check_no_edit_lost(merged: Any) -> None:
    """Every change of either side is in the result, unless a conflict names its part."""
    base, value = table_of(merged.base), table_of(merged.value)
    named = {c.key for c in merged.conflicts}
    for side in map(table_of, (merged.mine, merged.theirs)):
        for key in side.nodes:
            covered = key in named or any(
                up in named for up in (*side.above(key), *base.above(key))
            )
            if covered:
                continue
            if key not in base.nodes:
                assert key in value.nodes
                continue
            for name, atom in side.atoms[key].items():
                if atom != base.atoms[key][name] and not isinstance(atom, tuple):
                    assert value.atoms[key][name] == atom
            if key in side.places and side.places[key] != base.places[key]:
                assert value.places[key] == side.places[key]
        for key in base.nodes.keys() - side.nodes.keys():
            if key not in named and not any(up in named for up in base.above(key)):
                assert key not in value.nodes


@settings(max_examples=150)
@given(protocols(), st.data())
def test_named_edits_of_two_people_keep_every_law(base: Protocol, data: st.DataObject) -> None:
    _check_laws(base, edited(base, data), edited(base, data))


@pytest.mark.long
def test_the_laws_hold_over_very_many_seeded_cases(
    record_property: Callable[[str, object], None],
) -> None:
    cases = 0
    start = int(os.environ.get("RUNGBOOK_SEED", "0") or 0)

    @seed(start)
    @settings(max_examples=20_000, deadline=None)
    @given(protocols(), st.data())
    def check(base: Protocol, data: st.DataObject) -> None:
        nonlocal cases
        cases += 1
        _check_laws(base, edited(base, data), edited(base, data))

    check()
    record_property("cases", cases)
