"""Exercises are counted through all stages; numbers frozen at approval stay."""

from __future__ import annotations

import pytest

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
    ],
)
def test_exercises_are_numbered_through_blocks_and_stages(
    stages: list[tuple[tuple[int | None, ...], ...]], numbers: list[int]
) -> None:
    made = protocol(*stages)
    assert list(made.numbers().values()) == numbers
    assert list(made.numbers()) == [entry.id for entry in made.entries()]


def test_entries_of_a_stage_come_block_by_block() -> None:
    made = protocol(((None, None), (None,)), ((None,),))
    assert [entry.id for entry in made.stages[0].entries()] == ["e1", "e2", "e3"]
    assert [entry.id for entry in made.stages[1].entries()] == ["e4"]
