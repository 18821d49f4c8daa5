"""Where pages end: no exercise in two, no heading alone, no page left blank."""

from __future__ import annotations

from collections import defaultdict
from itertools import pairwise

import pytest
from attrs import evolve

from authoring.handout.document import (
    BlockHeading,
    Exercise,
    HandoutDocument,
    PageSize,
    PrintSize,
    StageHeading,
)
from authoring.handout.pdf import write_pdf
from tests.handout.pdf_reader import Tag, tags
from tests.handout.pdf_stage import stage_document, stop_box
from tests.handout.sample import (
    BRIDGE,
    EXERCISES,
    HEEL_RAISE,
    diary,
    sample_document,
    sample_parts,
    sample_with_pictures,
)

HEADINGS = {"H1", "H2", "H3", "Title"}
SHEETS = {
    "plain": sample_document(),
    "pictures": sample_with_pictures(),
    "letter": sample_with_pictures(page_size=PageSize.LETTER),
    "draft": sample_document(banner="Draft, not for patients", page_size=PageSize.LETTER),
    "stage": stage_document(),
    "stage on letter": stage_document(page_size=PageSize.LETTER, count=11),
    "twelve exercises": sample_document(
        parts=sample_parts(tuple(evolve(each, number=n) for n, each in enumerate(EXERCISES * 3, 1)))
    ),
}
each_sheet = pytest.mark.parametrize("document", SHEETS.values(), ids=SHEETS.keys())


def sections(document: HandoutDocument) -> list[list[Tag]]:
    """What stands under each heading, the heading first; empty nodes left out."""
    found: list[list[Tag]] = []
    for tag in tags(write_pdf(document)):
        if tag.role in HEADINGS:
            found.append([tag])
        elif found and (tag.text.strip() or tag.role == "Figure"):
            found[-1].append(tag)
    return found


@each_sheet
def test_an_exercise_stays_on_one_page_with_its_heading_and_pictures(
    document: HandoutDocument,
) -> None:
    headings = {
        f"{part.number} {part.name}" for part in document.parts if isinstance(part, Exercise)
    }
    found = [tags for tags in sections(document) if " ".join(tags[0].text.split()) in headings]
    assert len(found) == len(headings) >= 4
    for section in found:
        assert len({tag.page for tag in section}) == 1


@each_sheet
@pytest.mark.parametrize("size", PrintSize)
def test_no_heading_is_the_last_thing_on_its_page(
    document: HandoutDocument, size: PrintSize
) -> None:
    everything = [tag for section in sections(evolve(document, print_size=size)) for tag in section]
    for heading, after in pairwise(everything):
        if heading.role in HEADINGS:
            assert heading.page == after.page


@pytest.mark.parametrize("weeks", range(1, 13))
def test_a_week_of_the_diary_is_never_split(weeks: int) -> None:
    document = sample_document(parts=(BRIDGE, diary(EXERCISES, weeks=weeks)))
    found = [tags for tags in sections(document) if tags[0].text.split()[:1] == ["Week"]]
    assert len(found) == weeks
    for section in found:
        assert len({tag.page for tag in section}) == 1


def test_a_diary_of_four_weeks_keeps_to_one_sheet() -> None:
    pages = {
        tag.page
        for section in sections(sample_document())
        if section[0].text.split()[:1] == ["Week"]
        for tag in section
    }
    assert len(pages) == 1


def test_the_whole_plan_of_four_exercises_fits_the_first_page() -> None:
    for document in (sample_document(), sample_with_pictures()):
        first = [section for section in sections(document) if section[0].page == 0]
        text = " ".join(tag.text for section in first for tag in section)
        assert "01632 960 417" in " ".join(text.split())


@pytest.mark.parametrize("lines", range(1, 40, 3))
@pytest.mark.parametrize("size", PrintSize)
def test_headings_of_stage_and_block_stay_with_the_exercise(lines: int, size: PrintSize) -> None:
    """However tall the exercise is, up to one that no page holds."""
    tall = evolve(HEEL_RAISE, steps=("Stand tall, hands on a chair.",) * lines)
    parts = (BRIDGE, StageHeading(2, "Stage 2", "Run", ""), BlockHeading("Main part", ""), tall)
    found = sections(sample_document(parts=parts, print_size=size))
    pages = [section[0].page for section in found][-3:]
    assert len(set(pages)) == 1


@pytest.mark.parametrize("groups", [(2, 3, 5, 0), (1, 4, 5, 0), (2, 0, 8, 0), (0, 5, 5, 0)])
def test_eight_exercises_and_ten_signs_fit_the_first_page(
    groups: tuple[int, int, int, int],
) -> None:
    document = stage_document(8)
    parts = tuple(
        stop_box(*groups) if type(part).__name__ == "StopBox" else part for part in document.parts
    )
    first = [tag for tag in tags(write_pdf(evolve(document, parts=parts))) if tag.page == 0]
    text = " ".join(" ".join(tag.text.split()) for tag in first)
    assert "You start to limp." in text
    assert "01632 960 417" in text


@pytest.mark.parametrize(("count", "days"), [(8, 5), (8, 3), (6, 5), (4, 7)])
def test_a_diary_of_three_weeks_keeps_to_one_page(count: int, days: int) -> None:
    found = sections(stage_document(count, days))
    weeks = [section for section in found if section[0].text.split()[:1] == ["Week"]]
    assert len(weeks) == 3
    assert len({tag.page for section in weeks for tag in section}) == 1


def test_a_stage_of_eight_exercises_takes_no_more_than_nine_pages() -> None:
    """One for the plan, four for the exercises, and what notes, diary and ticks need."""
    assert max(tag.page or 0 for tag in tags(write_pdf(stage_document()))) + 1 <= 9


@each_sheet
def test_every_page_holds_something(document: HandoutDocument) -> None:
    words: dict[int | None, int] = defaultdict(int)
    for section in sections(document):
        for tag in section:
            words[tag.page] += len(tag.text.split())
    pages = [page for page in words if page is not None]
    assert sorted(pages) == list(range(max(pages) + 1))
    assert min(words[page] for page in pages) >= 20


@pytest.mark.parametrize("size", PageSize)
def test_two_exercises_share_a_page(size: PageSize) -> None:
    ordinary = tuple(evolve(each, tips=(), weeks=(), dose="3 sets of 10") for each in EXERCISES)
    pages: dict[int | None, int] = defaultdict(int)
    for section in sections(sample_document(parts=ordinary * 3, page_size=size)):
        pages[section[0].page] += section[0].role != "Title"
    assert min(count for page, count in pages.items() if page not in {0, len(pages) - 1}) >= 2
