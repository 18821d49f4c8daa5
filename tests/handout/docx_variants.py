"""Handouts of every shape that the tests of the Word writer run over."""

from __future__ import annotations

import pytest
from attrs import evolve

from authoring.handout.document import (
    BlockHeading,
    Direction,
    HandoutDocument,
    PageSize,
    PrintSize,
    StageHeading,
)
from authoring.handout.words import words
from tests.handout.sample import (
    BRIDGE,
    EXERCISES,
    HEEL_RAISE,
    PAIN,
    SMALL_PRINT,
    STEP_UP,
    STOP,
    exercise,
    glance,
    lying_picture,
    sample_document,
    sample_parts,
    sample_with_pictures,
    upright_picture,
)

DRAFT = "Draft, not for patients"
START = upright_picture(raised=False, alt="Start of it", caption="Start")
END = upright_picture(raised=True, alt="End of it", caption="End")
LYING = lying_picture(raised=True, alt="Lying", caption="")


def staged() -> HandoutDocument:
    """Two stages and a circuit."""
    parts = sample_parts()
    return sample_document(
        parts=(
            *parts[:5],
            StageHeading(1, "Stage 1", "Settle", "Calm it down."),
            BlockHeading("Warm-up", "5 minutes"),
            HEEL_RAISE,
            StageHeading(2, "Stage 2", "Strong and steady", ""),
            *EXERCISES[1:],
            *parts[-3:],
        )
    )


def with_pictures(count: int) -> HandoutDocument:
    many = (START, END, LYING, START, END)[:count]
    exercises = (evolve(HEEL_RAISE, pictures=many), evolve(BRIDGE, pictures=(LYING,) * count))
    return sample_document(parts=sample_parts(exercises))


def right_to_left() -> HandoutDocument:
    """Invented Arabic words; the clinic's name stays Latin."""
    lift = exercise(1, "رفع الكعب", "3 مجموعات من 12", steps=("قف مستقيما.", "ارفع الكعبين."))
    parts = (glance((lift,)), PAIN, STOP, lift, SMALL_PRINT)
    return sample_document(
        language="ar", direction=Direction.RTL, title="التواء الكاحل", parts=parts, banner=DRAFT
    )


VARIANTS = {
    "plain": sample_document(),
    "draft": sample_document(banner=DRAFT),
    "pictures": sample_with_pictures(),
    "letter": sample_with_pictures(page_size=PageSize.LETTER),
    "large": sample_with_pictures(print_size=PrintSize.LARGE),
    "one picture": with_pictures(1),
    "three pictures": with_pictures(3),
    "five pictures": with_pictures(5),
    "stages": staged(),
    "one card": sample_document(parts=(STEP_UP, SMALL_PRINT)),
    "right to left": right_to_left(),
    "nothing but a title": sample_document(parts=()),
}
each_variant = pytest.mark.parametrize("document", VARIANTS.values(), ids=VARIANTS.keys())


def spoken(document: HandoutDocument) -> list[str]:
    return " ".join(words(document)).split()
