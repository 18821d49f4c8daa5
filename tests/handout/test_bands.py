"""Bands on a drawn limb are explained wherever they are printed, and nowhere else."""

from pathlib import Path

import pytest

from authoring.commands.source import Source, context_of, sheet_of
from authoring.files.library import open_library
from authoring.handout.exercises import exercise
from authoring.model.base import evolve
from authoring.model.figure_look import FigureLook
from authoring.model.vocabulary import Side

LARKFIELD = Path(__file__).parents[2] / "examples" / "larkfield"
WORDS = "In the pictures, bands mark the arm or leg that this is for."


@pytest.mark.parametrize(
    ("marked", "side", "said"),
    [(True, Side.LEFT, True), (True, Side.NONE, False), (False, Side.LEFT, False)],
)
def test_bands_are_explained_where_they_are_drawn(marked: bool, side: Side, said: bool) -> None:
    opened = open_library(LARKFIELD)
    protocol = next(iter(opened.library.protocols.values()))
    source = Source(protocol, opened)
    sheet = sheet_of(source, ())
    context = context_of(source, sheet, None)
    clinic = evolve(context.clinic, figure=FigureLook(mark_side=marked))
    from attrs import evolve as with_values

    context = with_values(context, clinic=clinic)
    group, item = next(
        (group, item)
        for stage in sheet.stages
        for group in stage.groups
        for item in group.items
        if any(p.pose for p in item.variant.pictures)
    )
    made = exercise(with_values(item, side=side), group, None, context)
    assert (WORDS in made.details) is said
