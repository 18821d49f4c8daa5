"""Differences are said in the trade's words, and make the new version from the old one."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from authoring.exchange.compare import applied, compare
from authoring.exchange.words import Words
from authoring.model.base import ModelError, Node, evolve
from authoring.model.criterion import Measured
from authoring.model.edits.entries import move_entry
from authoring.model.protocol import Protocol
from authoring.model.vocabulary import Comparator, Unit
from tests.exchange.test_merge import KINDS, edited
from tests.model.edit_values import (
    CARD_IDS,
    block,
    bridge,
    entry,
    heel_raise,
    protocol,
    protocols,
    reps,
    stage,
)
from tests.strategies.values import values_of


def told(old: Node, new: Node) -> list[str]:
    words = Words(old, new, {CARD_IDS[0]: "Heel raise", CARD_IDS[1]: "Bridge"})
    return [str(words.sentence(each)) for each in compare(old, new) if each.told]


@pytest.mark.parametrize("kind", KINDS)
def test_applying_what_differs_gives_the_other_version(kind: type[Any]) -> None:
    @settings(max_examples=25)
    @given(values_of(kind), values_of(kind))
    def check(old: Any, new: Any) -> None:
        found = compare(old, new)
        assert applied(old, found) == new
        assert bool(found) == (old != new)
        words = Words(old, new)
        assert all(words.sentence(each) for each in found)

    check()


@settings(max_examples=80)
@given(protocols(), st.data())
def test_applying_what_named_edits_changed_gives_the_edited_protocol(
    old: Protocol, data: st.DataObject
) -> None:
    new = edited(old, data)
    assert applied(old, compare(old, new)) == new


def pain(most: float) -> Measured:
    return Measured(
        id="pain",
        measure="pain",
        comparator=Comparator.AT_MOST,
        value=most,
        unit=Unit.PAIN_0_10,
    )


def two_stages(most_pain: float) -> Protocol:
    return protocol(
        stage("early", block("main", entry("lift"))),
        stage("late", block("strong", entry("more")), move_on=(pain(most_pain),)),
    )


def test_a_changed_criterion_is_said_with_what_it_was() -> None:
    assert told(two_stages(4), two_stages(3)) == [
        "Stage 2: move-on criterion pain at most 3/10, was pain at most 4/10."
    ]


def test_an_exercise_moved_to_another_stage_is_moved_and_not_removed() -> None:
    old = two_stages(3)
    new = move_entry(old, entry="lift", block="strong", index=0).value
    assert told(old, new) == ["Heel raise moved from stage 1 to stage 2."]


def test_a_dose_is_said_as_it_is_written() -> None:
    old, new = (
        protocol(stage("early", block("main", entry("lift", dose=reps(3, count)))))
        for count in (10, 12)
    )
    assert told(old, new) == ["Stage 1, Heel raise: dose 3\u00a0× 12, was 3\u00a0× 10."]


def test_two_kinds_of_file_are_not_compared() -> None:
    with pytest.raises(ModelError, match="of two kinds"):
        compare(heel_raise(), two_stages(3))


def test_a_card_compared_with_itself_differs_in_nothing() -> None:
    assert compare(bridge(), evolve(bridge())) == ()
