"""The PDF says every word of the handout, in its order, and shows nothing else but furniture."""

from __future__ import annotations

import pytest
from attrs import evolve
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from authoring.handout.document import (
    BlockHeading,
    Exercise,
    HandoutDocument,
    PageSize,
    Paragraph,
    PrintSize,
    Span,
    StageHeading,
)
from authoring.handout.pdf import write_pdf
from authoring.handout.words import alt_texts, page_furniture, words
from tests.handout.pdf_reader import artifact_tokens, tagged_tokens, tags
from tests.handout.pdf_stage import stage_document, stop_box
from tests.handout.sample import (
    BALANCE,
    BRIDGE,
    FACTS,
    HEEL_RAISE,
    NOTES,
    PAIN,
    READY,
    STOP,
    diary,
    exercise,
    glance,
    sample_document,
    sample_with_pictures,
)

HOSTILE = (
    "<script>alert(1)</script>",
    '#import "kit.typ": *',
    "#panic()",
    "$ x^2 $ *strong* _slanted_ `code` @reference <label>",
    "= Heading",
    "- item",
    r"back\slash \u{41}",
    "&amp; &lt;b&gt;",
    "{page} of {pages}",
    "// no comment /* none */",
    "https://larkfield.example/?a=1&b=2",
    "two\nlines",
    "three --- two -- ... 'quoted' \"twice\" ~tilde",
)


def tokens(document: HandoutDocument) -> list[str]:
    return " ".join(words(document)).split()


def many_exercises(count: int) -> HandoutDocument:
    """Several stages and blocks with ``count`` exercises of unlike lengths."""
    exercises = tuple(
        exercise(
            number,
            f"Exercise {number}" if number % 7 else "A long name that needs a second line " * 2,
            "3 sets of 12",
            steps=("Stand tall, hands on a chair.",) * (1 + number % 6),
            cares=HEEL_RAISE.cares * (number % 3),
            changes=BALANCE.changes if number % 2 else (),
        )
        for number in range(1, count + 1)
    )
    half = count // 2
    parts = (
        glance(exercises),
        FACTS,
        evolve(PAIN, zones=()),
        STOP,
        StageHeading(1, "Stage 1", "Settle", "Calm the ankle."),
        BlockHeading("Warm-up", "Five minutes."),
        *exercises[:half],
        StageHeading(2, "Stage 2", "Strong", ""),
        *exercises[half:],
        diary(exercises, weeks=2),
        READY,
    )
    return sample_document(parts=parts)


def long_exercise() -> HandoutDocument:
    """One exercise that no page can hold."""
    steps = tuple(f"Step {number}: stand tall and lift your heel." for number in range(1, 80))
    return sample_document(parts=(evolve(HEEL_RAISE, steps=steps), BRIDGE))


DOCUMENTS = {
    "plain": sample_document(),
    "pictures": sample_with_pictures(),
    "letter": sample_with_pictures(page_size=PageSize.LETTER, banner="Draft, not for patients"),
    "large print": sample_with_pictures(print_size=PrintSize.LARGE),
    "large print without pictures": sample_document(print_size=PrintSize.LARGE),
    "one exercise": many_exercises(1),
    "sixty exercises": many_exercises(60),
    "longer than a page": long_exercise(),
    "notes longer than a page": sample_document(
        parts=(evolve(NOTES, body=NOTES.body * 40), evolve(NOTES, body=NOTES.body * 8, framed=True))
    ),
    "twelve weeks": sample_document(parts=(diary((HEEL_RAISE, BRIDGE), weeks=12, days=7),)),
    "stage": stage_document(),
    "stage in large print": stage_document(print_size=PrintSize.LARGE),
    "stage of eleven": stage_document(11, 7, page_size=PageSize.LETTER),
    **{
        f"signs {groups}": sample_document(parts=(stop_box(*groups), BRIDGE))
        for groups in ((2, 3, 4, 1), (0, 1, 1, 8), (10, 0, 0, 0), (0, 0, 0, 10), (1, 1, 1, 1))
    },
    "nothing but a title": sample_document(parts=(), lead=""),
}


@pytest.mark.parametrize("document", DOCUMENTS.values(), ids=DOCUMENTS.keys())
def test_tagged_order_says_every_word_of_the_tree(document: HandoutDocument) -> None:
    assert tagged_tokens(write_pdf(document)) == tokens(document)


@pytest.mark.parametrize("index", range(0, 14, 3))
def test_a_dropped_part_is_noticed(index: int) -> None:
    document = sample_document()
    shorter = evolve(document, parts=document.parts[:index] + document.parts[index + 1 :])
    assert tagged_tokens(write_pdf(shorter)) != tokens(document)


def test_one_dropped_word_is_noticed() -> None:
    document = sample_document()
    steps = ("Stand, hands on a chair.", *HEEL_RAISE.steps[1:])  # "tall" is gone
    parts = tuple(
        evolve(part, steps=steps) if isinstance(part, Exercise) and part.number == 5 else part
        for part in document.parts
    )
    assert tagged_tokens(write_pdf(evolve(document, parts=parts))) != tokens(document)


def test_two_swapped_steps_are_noticed() -> None:
    document = sample_document()
    swapped = evolve(HEEL_RAISE, steps=HEEL_RAISE.steps[::-1])
    parts = tuple(swapped if part is HEEL_RAISE else part for part in document.parts)
    read = tagged_tokens(write_pdf(evolve(document, parts=parts)))
    assert sorted(read) == sorted(tokens(document))
    assert read != tokens(document)


@pytest.mark.parametrize("text", HOSTILE)
def test_code_typed_into_any_text_prints_literally(text: str) -> None:
    hostile = exercise(
        1, text, text, why=text, details=(text,), steps=(text,), tips=(text,), needs=text
    )
    note = evolve(NOTES, heading=text, body=(Paragraph((Span(text, strong=True),)),))
    document = sample_document(title=text, lead=text, parts=(note, hostile))
    read = "".join(tagged_tokens(write_pdf(document)))
    assert read == "".join(tokens(document))


def test_a_word_wider_than_its_column_still_reads_whole() -> None:
    word = "Sternocleidomastoid" * 6
    document = sample_document(parts=(exercise(1, word, word, steps=(word,)),))
    assert "".join(tagged_tokens(write_pdf(document))) == "".join(tokens(document))


@settings(max_examples=15, deadline=None, suppress_health_check=list(HealthCheck))
@given(
    text=st.text(
        st.characters(min_codepoint=0x21, max_codepoint=0x17E, exclude_categories=("C", "Z")),
        min_size=1,
        max_size=40,
    )
)
def test_any_latin_text_is_read_back_as_typed(text: str) -> None:
    document = sample_document(parts=(exercise(1, text, text, steps=(text, text)),))
    assert "".join(tagged_tokens(write_pdf(document))) == "".join(tokens(document))


@pytest.mark.parametrize("banner", ["", "Draft, not for patients"])
def test_banner_and_footer_stand_on_every_page_as_artifacts(banner: str) -> None:
    document = sample_document(banner=banner)
    pages = artifact_tokens(write_pdf(document))
    furniture = sorted(" ".join(page_furniture(document)).split())
    assert len(pages) > 2
    for number, page in enumerate(pages, 1):
        assert sorted(page) == sorted([*furniture, str(number), "of", str(len(pages))])


@pytest.mark.parametrize("size", PrintSize)
def test_every_picture_is_a_figure_with_its_alternative_text_in_order(size: PrintSize) -> None:
    document = sample_with_pictures(print_size=size)
    figures = [tag.alt for tag in tags(write_pdf(document)) if tag.role == "Figure"]
    assert [alt for alt in figures if alt != PAIN.scale_alt] == list(alt_texts(document))
    assert PAIN.scale_alt in figures
