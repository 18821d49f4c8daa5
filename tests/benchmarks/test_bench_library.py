"""Opening and checking libraries of 1,000 and 10,000 cards."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from authoring.checks.library import check_library
from authoring.files.documents import document_bytes
from authoring.files.library import open_library
from authoring.model.base import evolve
from authoring.model.text import Text
from tests.handout.clinic_sheets import example

TODAY = dt.date(2026, 3, 2)
SIZES = (1_000, 10_000)


@pytest.fixture(scope="module", params=SIZES)
def folder(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The example clinic grown to so many cards, each with its own id, name and words."""
    library = example().library
    made: Path = tmp_path_factory.mktemp(f"cards-{request.param}")
    for room in ("cards", "protocols", "images"):
        (made / room).mkdir()
    (made / "library.json").write_bytes(document_bytes(library.manifest))
    assert library.clinic is not None
    (made / "clinic.json").write_bytes(document_bytes(library.clinic))
    for protocol in library.protocols.values():
        path = made / "protocols" / f"{protocol.slug}.protocol.json"
        path.write_bytes(document_bytes(protocol))
    first = list(library.cards.values())
    for number in range(request.param):
        card = first[number % len(first)]
        if number >= len(first):
            card = evolve(
                card,
                id=f"00000000-0000-4000-8000-{number:012d}",
                slug=f"{card.slug}-{number}",
                title=Text.plain(f"{card.title.values['']} {number}"),
                purpose=Text.plain(f"It keeps number {number} strong."),
            )
        (made / "cards" / f"{card.slug}.card.json").write_bytes(document_bytes(card))
    for name in library.images:
        (made / "images" / name).write_bytes((example().folder / "images" / name).read_bytes())
    return made


def count(folder: Path) -> int:
    return len(list((folder / "cards").iterdir()))


def test_opening(benchmark: BenchmarkFixture, folder: Path) -> None:
    size = count(folder)
    benchmark.extra_info |= {"cards": size, "limit_s": 0.004 * size}
    opened = benchmark.pedantic(open_library, args=(folder,), rounds=3 if size <= 1000 else 1)
    assert len(opened.library.cards) == size
    assert opened.problems == ()


def test_checking(benchmark: BenchmarkFixture, folder: Path) -> None:
    size = count(folder)
    library = open_library(folder).library
    benchmark.extra_info |= {"cards": size, "limit_s": 0.006 * size}
    results = benchmark.pedantic(
        check_library, args=(library, TODAY), rounds=3 if size <= 1000 else 1
    )
    assert results
