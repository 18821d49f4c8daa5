"""What each layout keeps of a handout's parts.

The full layout is the handout as it is composed. The others leave parts out or say them in
fewer words; since they do so here, in the neutral tree, every format and print size of one
layout says the same words.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from authoring.handout.choices import Layout
from authoring.handout.context import Context
from authoring.handout.document import (
    Change,
    Exercise,
    Facts,
    Glance,
    Line,
    Notes,
    PainGuide,
    Paragraph,
    Part,
    Span,
    StageHeading,
    Stairs,
    StopBox,
)
from authoring.handout.errors import HandoutError
from authoring.model.base import evolve

_APART = "  ·  "
"""Between the facts of one line."""

_MOST_WEEKS = 3
"""Rows of a dose by week that an overview still prints."""

_MOST_WITH_WAYS = 4
"""Exercises of an overview that still say what to change; with more, the page has no room."""


def arranged(
    parts: Iterable[Part], layout: Layout, place: str, context: Context
) -> tuple[Part, ...]:
    """The parts that stand on the sheet in a layout.

    Args:
        parts: those of the full layout.
        layout: the layout.
        place: where the patient is ("Stage 2 of 4: Load and balance"), "" where that is unknown.
        context: phrases.

    Raises:
        HandoutError: an overview of several stages was asked for.
    """
    whole = tuple(parts)
    if layout is Layout.FULL:
        return whole
    if layout is Layout.COMPACT:
        return tuple(_compact(whole, place))
    if any(isinstance(part, StageHeading) for part in whole):
        raise HandoutError(
            "An overview is one page for one stage, and this handout holds several; choose one "
            "stage, or another layout."
        )
    return tuple(_overview(whole, place, context))


def _facts(facts: Facts | None, place: str) -> Iterator[Notes]:
    """How often, how long, with what, in one paragraph that opens with where the patient is."""
    spans: list[Span] = [Span(place, strong=True)] if place else []
    for fact in facts.items if facts is not None else ():
        spans += [Span(_APART)] if spans else []
        spans += [Span(fact.headline, strong=True), Span(f" {fact.detail}")]
    if spans:
        line: Line = tuple(spans)
        yield Notes("", (Paragraph(line),))


def _compact(parts: tuple[Part, ...], place: str) -> Iterator[Part]:
    """All that the patient must know, without what says it a second time or only explains."""
    several = any(isinstance(part, StageHeading) for part in parts)
    facts = next((part for part in parts if isinstance(part, Facts)), None)
    if not several:
        yield from _facts(facts, place)
    for part in parts:
        match part:
            case Stairs() | Glance():
                continue
            case Facts():
                yield from _facts(part, "") if several else ()
            case Exercise():
                yield _captionless(evolve(part, why="", tips_heading="", tips=()))
            case _:
                yield part


def _overview(parts: tuple[Part, ...], place: str, context: Context) -> Iterator[Part]:
    """Which, how much, what if it hurts, how much pain, when to stop: for those who know how."""
    facts = next((part for part in parts if isinstance(part, Facts)), None)
    alone: Line = (Span(context.say("overview.never_alone"), strong=True),)
    yield from _facts(facts, place)
    yield Notes("", (Paragraph(alone),))
    exercises = [part for part in parts if isinstance(part, Exercise)]
    ways = len(exercises) <= _MOST_WITH_WAYS
    yield from (_bare(part, context, ways=ways) for part in exercises)
    for part in parts:
        if isinstance(part, PainGuide):
            yield evolve(part, notes=())
        elif isinstance(part, StopBox):
            yield part


def _bare(exercise: Exercise, context: Context, *, ways: bool) -> Exercise:
    """An exercise without how it is done.

    Both pictures and an easier and a harder way stay where there is room; a hold does not.
    """
    still = context.say("exercise.hold_still")
    changes = (_moving(change, still) for change in exercise.changes if ways)
    return _captionless(
        evolve(
            exercise,
            why="",
            pictures=exercise.pictures if ways else exercise.pictures[-1:],
            details=tuple(_weeks(exercise, context)),
            weeks=(),
            needs="",
            start="",
            steps=(),
            tips_heading="",
            tips=(),
            cares=(),
            stops=(),
            changes=tuple(change for change in changes if change.options),
        )
    )


def _weeks(exercise: Exercise, context: Context) -> Iterator[str]:
    """The dose week by week, or where to read it."""
    if len(exercise.weeks) > _MOST_WEEKS:
        yield context.say("overview.weeks")
        return
    yield from (f"{row.weeks}: {row.dose}" for row in exercise.weeks)


def _captionless(exercise: Exercise) -> Exercise:
    """Small pictures stand side by side without a word: the first, then the last."""
    return evolve(exercise, pictures=tuple(evolve(each, caption="") for each in exercise.pictures))


def _moving(change: Change, still: str) -> Change:
    kept = tuple(option for option in change.options if option.label != still)
    return evolve(change, options=kept)
