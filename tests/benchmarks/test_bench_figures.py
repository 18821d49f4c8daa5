"""Drawing every stock figure: time and size."""

from __future__ import annotations

import itertools

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from authoring.figures.drawing import draw
from authoring.model.base import evolve
from authoring.model.pose import Pose
from authoring.model.text import Text
from authoring.model.vocabulary import Phase
from tests.figures.values import MOMENTS, named


@pytest.mark.parametrize(("pose", "phase"), MOMENTS, ids=named)
def test_drawing_a_figure(benchmark: BenchmarkFixture, pose: Pose, phase: Phase) -> None:
    """Each round gets a pose of another title, so that nothing kept from before is used."""
    numbers = itertools.count()

    def another() -> tuple[tuple[Pose, Phase], dict[str, object]]:
        return (evolve(pose, title=Text.plain(f"{pose.slug} {next(numbers)}")), phase), {}

    made = benchmark.pedantic(draw, setup=another, rounds=3)
    size = len(made.svg.encode())
    benchmark.extra_info |= {"bytes": size, "limit_s": 0.060}
    assert size < 25_000
