"""The sample handout in the shapes that an HTML page must hold."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, TypeVar

from attrs import evolve, fields, has

from authoring.handout.document import (
    BlockHeading,
    BrandStyle,
    Change,
    Direction,
    Exercise,
    HandoutDocument,
    Option,
    PageSize,
    Picture,
    PrintSize,
    StageHeading,
)
from tests.handout import sample

T = TypeVar("T")
DRAFT = "Draft, not for patients"
# Closes every context the page has: element, attribute, style, comment, template, entity.
HOSTILE = (
    "</style></title></p><script>document.title='ran'</script>\"'><img src=x onerror=alert(1)>"
    "<svg onload=alert(1)> {{ 7 * 7 }} {% raw %} {# #} &amp; &lt; <!-- ]]> \\3c url(//x.test/)"
)


def staged() -> HandoutDocument:
    """Two stages, one with a circuit, and a strip that offers a choice."""
    choice = Change(
        0,
        "Or choose",
        "",
        tuple(Option(f"Way {way}", "Do it so.", "2 sets of 6") for way in "ABC"),
    )
    parts = (
        sample.STAIRS,
        sample.glance(sample.EXERCISES),
        StageHeading(1, "Stage 1", "Settle", "Calm the ankle."),
        BlockHeading("Warm-up", "5 minutes"),
        evolve(sample.HEEL_RAISE, number=1, changes=(choice,)),
        sample.READY,
        StageHeading(2, "Stage 2", "Strong and steady", "Load the ankle."),
        evolve(sample.BALANCE, number=2),
        BlockHeading("Circuit", "3 rounds"),
        evolve(sample.STEP_UP, number=3),
        sample.diary(sample.EXERCISES, weeks=2, days=7),
        sample.SMALL_PRINT,
    )
    return sample.sample_document(parts=parts, banner=DRAFT)


def many(count: int = 60) -> HandoutDocument:
    """A handout of ``count`` exercises."""
    exercises = tuple(evolve(sample.HEEL_RAISE, number=number) for number in range(1, count + 1))
    return sample.sample_document(parts=sample.sample_parts(exercises))


def hostile() -> HandoutDocument:
    """Pictures, draft banner and stages, with hostile markup in every text there is."""
    pictured = sample.sample_with_pictures(banner=DRAFT)
    whole = evolve(pictured, parts=pictured.parts + staged().parts[2:])
    marked: HandoutDocument = change_texts(whole, lambda text: f"{HOSTILE} {text}".strip())
    return evolve(marked, language="en-GB")


def right_to_left() -> HandoutDocument:
    """Direction and language alone: the words stay English."""
    return sample.sample_with_pictures(language="ar", direction=Direction.RTL, banner=DRAFT)


VARIANTS: Mapping[str, Callable[[], HandoutDocument]] = {
    "plain": sample.sample_document,
    "pictures": sample.sample_with_pictures,
    "draft": lambda: sample.sample_document(banner=DRAFT, page_size=PageSize.LETTER),
    "large": lambda: sample.sample_with_pictures(print_size=PrintSize.LARGE),
    "staged": staged,
    "right to left": right_to_left,
    "hostile": hostile,
    "many": many,
    "single": lambda: sample.sample_document(
        parts=(sample.exercise(1, "Bridge", "3 sets of 10"),), footer="", lead=""
    ),
}


def change_texts(value: T, change: Callable[[str], str]) -> T:
    """``value`` with ``change`` done to every text a person could have typed."""
    result: Any = value
    if isinstance(value, str) and type(value) is str:
        result = change(value) if value else value
    elif isinstance(value, tuple):
        result = tuple(change_texts(item, change) for item in value)
    elif has(type(value)):
        names = [each.name for each in fields(type(value)) if not _fixed(value, each.name)]
        result = evolve(
            result, **{name: change_texts(getattr(value, name), change) for name in names}
        )
    return result  # type: ignore[no-any-return]


def _fixed(value: object, name: str) -> bool:
    """Fields that hold no words: colours, picture data, addresses, the language tag."""
    if isinstance(value, BrandStyle):
        return name not in {"font", "logo"}
    return name in {"href", "media_type", "data", "language"} and not isinstance(value, Exercise)


def exercises_of(document: HandoutDocument) -> list[Exercise]:
    """The exercises in order."""
    return [part for part in document.parts if isinstance(part, Exercise)]


def picture_of(document: HandoutDocument) -> Picture:
    """The first picture of the first exercise."""
    return exercises_of(document)[0].pictures[0]
