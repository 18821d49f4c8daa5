"""What each layout keeps: the same words in every format, nothing lost that is needed."""

from __future__ import annotations

from functools import cache
from itertools import product

import pytest
from attrs import evolve

from authoring.commands.handout import Wish, compose_source, extras_named
from authoring.commands.outcome import CommandError
from authoring.commands.source import Source
from authoring.handout.choices import Audience, ExtraKind, Layout
from authoring.handout.document import (
    Change,
    Diary,
    Exercise,
    ExtraSheet,
    HandoutDocument,
    PageSize,
    PainGuide,
    PrintSize,
    Ready,
    StopBox,
)
from authoring.handout.docx import write_docx
from authoring.handout.errors import HandoutError
from authoring.handout.html import write_html
from authoring.handout.pdf import count_pages, write_pdf
from authoring.handout.words import words
from tests.handout.clinic_sheets import PROTOCOLS, STAGES, TODAY, example, parts_of
from tests.handout.docx_reader import read_words
from tests.handout.html_reader import read, tokens
from tests.handout.pdf_reader import tagged_tokens

ANKLE = "lateral-ankle-sprain-back-to-running"
each_layout = pytest.mark.parametrize("layout", Layout)
each_stage = pytest.mark.parametrize(("slug", "stage"), STAGES)


@cache
def sheet(
    slug: str,
    stage: int,
    layout: Layout | None = None,
    size: PrintSize = PrintSize.STANDARD,
    page: PageSize = PageSize.A4,
    audience: Audience = Audience.ADULT,
    *extras: ExtraKind,
) -> HandoutDocument:
    wish = Wish(
        stages=(stage,) if stage else (),
        layout=layout,
        print_size=size,
        page=page,
        audience=audience,
        extras=frozenset(extras),
    )
    return compose_source(Source(PROTOCOLS[slug], example()), wish, TODAY)[0]


def letters(found: list[str]) -> str:
    """Words without the spaces between them; PDFium gives a hyphen at a line's end as U+0002."""
    return "".join(found).replace("\x02", "-")


@each_layout
@pytest.mark.parametrize("slug", PROTOCOLS)
def test_every_format_says_the_words_of_the_layout(slug: str, layout: Layout) -> None:
    document = sheet(slug, 1, layout)
    told = tokens(words(document))
    assert read_words(write_docx(document)) == told
    assert read(write_html(document)).words == told
    assert letters(tagged_tokens(write_pdf(document))) == letters(told)


@each_layout
@each_stage
def test_print_size_and_paper_change_no_word_of_a_layout(
    slug: str, stage: int, layout: Layout
) -> None:
    found = {
        words(sheet(slug, stage, layout, size, page)) for size, page in product(PrintSize, PageSize)
    }
    assert len(found) == 1


@each_layout
@each_stage
def test_no_layout_drops_a_stop_sign_a_pain_band_or_a_dose(
    slug: str, stage: int, layout: Layout
) -> None:
    full, other = sheet(slug, stage, Layout.FULL), sheet(slug, stage, layout)
    assert parts_of(other, StopBox) == parts_of(full, StopBox)
    zones = [guide.zones for guide in parts_of(full, PainGuide)]
    assert [guide.zones for guide in parts_of(other, PainGuide)] == zones
    said = words(other)
    for mine, whole in zip(parts_of(other, Exercise), parts_of(full, Exercise), strict=True):
        assert (mine.number, mine.name, mine.dose) == (whole.number, whole.name, whole.dose)
        shown = [each.data for each in whole.pictures]
        assert [each.data for each in mine.pictures] in (shown, shown[-1:])
        for row in whole.weeks:
            long = layout is Layout.OVERVIEW and len(whole.weeks) > 3
            told = (
                row.dose,
                f"{row.weeks}: {row.dose}",
                "It changes by week: see your full sheet.",
            )
            assert any(text in said for text in told[2 * long :])


@each_stage
def test_compact_keeps_how_each_exercise_is_done_and_what_to_take_care_of(
    slug: str, stage: int
) -> None:
    full, compact = sheet(slug, stage, Layout.FULL), sheet(slug, stage, Layout.COMPACT)
    for mine, whole in zip(parts_of(compact, Exercise), parts_of(full, Exercise), strict=True):
        assert (mine.start, mine.steps, mine.needs) == (whole.start, whole.steps, whole.needs)
        assert (mine.details, mine.weeks) == (whole.details, whole.weeks)
        assert (mine.cares, mine.stops, mine.changes) == (whole.cares, whole.stops, whole.changes)
    assert parts_of(compact, Diary) == parts_of(full, Diary)
    assert parts_of(compact, Ready) == parts_of(full, Ready)


@each_stage
def test_an_overview_says_no_step_no_hold_and_that_it_is_never_given_alone(
    slug: str, stage: int
) -> None:
    document = sheet(slug, stage, Layout.OVERVIEW)
    for exercise in parts_of(document, Exercise):
        assert exercise.steps == ()
        assert exercise.cares == ()
        assert exercise.stops == ()
        changes: tuple[Change, ...] = exercise.changes
        labels = [option.label for change in changes for option in change.options]
        assert "Hold still" not in labels
    assert not any(isinstance(part, Diary | Ready) for part in document.parts)
    assert any(text.startswith("For the wall only.") for text in words(document))


def test_an_overview_of_several_stages_is_refused_in_a_sentence() -> None:
    with pytest.raises(HandoutError, match="choose one stage"):
        sheet(ANKLE, 0, Layout.OVERVIEW)


@each_stage
def test_without_a_wish_the_layout_is_compact_where_only_that_fits_one_sheet(
    slug: str, stage: int
) -> None:
    full, compact = (
        count_pages(sheet(slug, stage, layout)) for layout in (Layout.FULL, Layout.COMPACT)
    )
    fitting = Layout.COMPACT if full > 2 >= compact else Layout.FULL
    assert sheet(slug, stage).layout is fitting


def test_large_print_is_full_unless_compact_is_asked_for() -> None:
    assert sheet(ANKLE, 1, None, PrintSize.LARGE).layout is Layout.FULL
    assert sheet(ANKLE, 1, Layout.COMPACT, PrintSize.LARGE).layout is Layout.COMPACT


@each_stage
def test_an_overview_of_each_example_stage_is_one_page(slug: str, stage: int) -> None:
    assert count_pages(sheet(slug, stage, Layout.OVERVIEW)) == 1


# ---- sheets that go with it, readers ---------------------------------------------------------


def test_sheets_that_go_with_it_follow_in_order_and_are_said_in_every_format() -> None:
    document = sheet(
        ANKLE, 2, Layout.FULL, PrintSize.STANDARD, PageSize.A4, Audience.ADULT, *ExtraKind
    )
    assert [part.sheet for part in parts_of(document, ExtraSheet)] == list(ExtraKind)
    told = tokens(words(document))
    assert read_words(write_docx(document)) == told
    assert read(write_html(document)).words == told
    assert letters(tagged_tokens(write_pdf(document))) == letters(told)
    front, wallet = parts_of(document, StopBox)
    assert wallet == front


@pytest.mark.parametrize("layout", [Layout.COMPACT, Layout.OVERVIEW])
def test_a_summary_names_every_exercise_whatever_the_layout(layout: Layout) -> None:
    kind = ExtraKind.SUMMARY
    args = (PrintSize.STANDARD, PageSize.A4, Audience.ADULT, kind)
    document = sheet(ANKLE, 2, layout, *args)
    at = next(i for i, part in enumerate(document.parts) if isinstance(part, ExtraSheet))
    text = " ".join(words(evolve(document, parts=document.parts[at:])))
    for exercise in parts_of(document, Exercise):
        assert f"{exercise.number} {exercise.name}" in text


def test_a_sheet_that_is_not_known_is_named_with_those_there_are() -> None:
    assert extras_named(" wallet, DIARY ,") == {ExtraKind.WALLET, ExtraKind.DIARY}
    assert extras_named("") == frozenset()
    with pytest.raises(CommandError, match=r"no sheet 'poster'.* wallet, diary, summary"):
        extras_named("wallet,poster")


@pytest.mark.parametrize(
    ("audience", "said"),
    [
        (Audience.ADULT, "How much pain is OK?"),
        (Audience.CHILD, "How much can it hurt?"),
        (Audience.CARER, "How much pain is OK? Ask them."),
    ],
)
def test_the_programs_own_phrases_speak_to_the_reader(audience: Audience, said: str) -> None:
    document = sheet(ANKLE, 2, Layout.FULL, PrintSize.STANDARD, PageSize.A4, audience)
    (guide,) = parts_of(document, PainGuide)
    assert guide.heading == said
