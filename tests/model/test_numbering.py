"""Exercises are counted through all stages; numbers frozen at approval stay."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.model.protocol import Block, Entry, Protocol, Stage
from authoring.model.text import Text

CARD = "00000000-0000-4000-8000-000000000001"


def protocol(*stages: tuple[tuple[int | None, ...], ...]) -> Protocol:
    """A protocol of stages of blocks of entries, each given by its frozen number or None."""
    made, count = [], 0
    for stage in stages:
        blocks = []
        for block in stage:
            entries = []
            for number in block:
                count += 1
                entries.append(Entry(id=f"e{count}", card=CARD, start="plain", number=number))
            blocks.append(Block(id=f"b{len(made)}-{len(blocks)}", entries=tuple(entries)))
        made.append(Stage(id=f"s{len(made)}", name=Text.plain("S"), blocks=tuple(blocks)))
    return Protocol(id=CARD, slug="p", language="en", title=Text.plain("P"), stages=tuple(made))


@pytest.mark.parametrize(
    ("stages", "numbers"),
    [
        ([], []),
        ([((),)], []),
        ([((None, None),), ((None,),)], [1, 2, 3]),
        ([((None,), (None, None)), ((None,), (None,))], [1, 2, 3, 4, 5]),
        ([((5, 6),), ((7,),)], [5, 6, 7]),
        ([((4, None),), ((None, 9),)], [4, 5, 6, 9]),
        ([((1, None),), ((2, None),)], [1, 3, 2, 4]),
        ([((None, None),), ((1, 2),)], [3, 4, 1, 2]),
        ([((5, None),), ((3, None, None),)], [5, 6, 3, 4, 7]),
    ],
)
def test_exercises_are_numbered_through_blocks_and_stages(
    stages: list[tuple[tuple[int | None, ...], ...]], numbers: list[int]
) -> None:
    made = protocol(*stages)
    assert list(made.numbers().values()) == numbers
    assert list(made.numbers()) == [entry.id for entry in made.entries()]


@given(
    st.lists(st.none() | st.integers(1, 12), max_size=12).filter(
        lambda numbers: len([n for n in numbers if n]) == len({n for n in numbers if n})
    )
)
def test_no_number_is_given_twice_unless_frozen_twice(numbers: list[int | None]) -> None:
    counted = protocol((tuple(numbers),)).numbers()
    assert len(set(counted.values())) == len(numbers)
    assert [n for n, frozen in zip(counted.values(), numbers, strict=True) if frozen] == [
        n for n in numbers if n
    ]


def test_entries_of_a_stage_come_block_by_block() -> None:
    made = protocol(((None, None), (None,)), ((None,),))
    assert [entry.id for entry in made.stages[0].entries()] == ["e1", "e2", "e3"]
    assert [entry.id for entry in made.stages[1].entries()] == ["e4"]
