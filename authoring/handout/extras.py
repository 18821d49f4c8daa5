"""Sheets that go with a handout: a card for the wallet, blank diary pages, a summary.

Each is made from the parts of the full handout, so that it never says anything else.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from authoring.handout.choices import ExtraKind
from authoring.handout.context import Context
from authoring.handout.document import (
    BlockHeading,
    Bullets,
    Diary,
    DiaryWeek,
    Exercise,
    ExtraSheet,
    Facts,
    Line,
    Notes,
    PainGuide,
    Part,
    Ready,
    Span,
    StageHeading,
    StopBox,
)
from authoring.model.base import evolve

_BLANK_WEEKS = 4
_WEEK = "______"
"""A line to write the number of the week on."""


def extra_sheets(
    parts: tuple[Part, ...], kinds: Iterable[ExtraKind], context: Context
) -> tuple[Part, ...]:
    """The sheets of these kinds, in their order.

    Args:
        parts: the parts of the full handout.
        kinds: which sheets.
        context: phrases.
    """
    made = {ExtraKind.WALLET: _wallet, ExtraKind.DIARY: _blank_diary, ExtraKind.SUMMARY: _summary}
    return tuple(part for kind in kinds for part in made[kind](parts, context))


def _opening(kind: ExtraKind, context: Context) -> ExtraSheet:
    return ExtraSheet(kind, context.say(f"extra.{kind}.heading"), context.say(f"extra.{kind}.note"))


def _wallet(parts: tuple[Part, ...], context: Context) -> Iterator[Part]:
    for part in parts:
        if isinstance(part, StopBox):
            yield _opening(ExtraKind.WALLET, context)
            yield part
            return


def _blank_diary(parts: tuple[Part, ...], context: Context) -> Iterator[Part]:
    """The weeks of each stage once more, without a number: the patient writes it."""
    diaries = [part for part in parts if isinstance(part, Diary) and part.weeks]
    if not diaries:
        return
    yield _opening(ExtraKind.DIARY, context)
    for diary in diaries:
        heading = context.say("diary.week", n=_WEEK)
        week: DiaryWeek = evolve(diary.weeks[0], heading=heading)
        yield evolve(diary, heading="", weeks=(week,) * _BLANK_WEEKS)


def _summary(parts: tuple[Part, ...], context: Context) -> Iterator[Part]:
    """One page for a colleague: what is done, how much, with which limits, what comes next."""
    yield _opening(ExtraKind.SUMMARY, context)
    title, lines = context.say("extra.summary.exercises"), list[str]()
    for part in parts:
        match part:
            case StageHeading():
                yield from _listed(title, lines)
                title, lines = f"{part.label}: {part.name}", []
            case Facts():
                lines += [f"{fact.headline} {fact.detail}" for fact in part.items]
            case BlockHeading() if part.note:
                lines.append(f"{part.name}: {part.note}")
            case Exercise():
                lines.append(_exercise_line(part))
    yield from _listed(title, lines)
    yield from _limits(parts, context)


def _exercise_line(part: Exercise) -> str:
    doses = [f"{row.weeks}: {row.dose}" for row in part.weeks] or [part.dose]
    amount = "; ".join(filter(None, doses))
    return f"{part.number} {part.name}: {amount}" if amount else f"{part.number} {part.name}"


def _limits(parts: tuple[Part, ...], context: Context) -> Iterator[Part]:
    """Pain, what is not allowed yet, what must be true to move on."""
    for part in parts:
        if isinstance(part, PainGuide):
            bands = [f"{zone.label}: {zone.action}" for zone in part.zones]
            easier = context.say("pain.how_easier")
            notes = [note for note in part.notes if note != easier]
            yield from _listed(part.heading, [*bands, *notes])
        elif isinstance(part, Notes) and part.framed:
            yield evolve(part, framed=False)
        elif isinstance(part, Ready):
            outcomes = [f"{each.question} {each.action}" for each in part.outcomes]
            yield from _listed(part.heading, [*part.ticks, *outcomes])


def _listed(heading: str, lines: list[str]) -> Iterator[Notes]:
    if lines:
        items: tuple[Line, ...] = tuple((Span(line),) for line in lines)
        yield Notes(heading, (Bullets(items),))
