"""Minutes and volume of a stage of a protocol, week by week."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from attrs import frozen

from authoring.dosage.arithmetic.assumptions import USUAL, Assumptions
from authoring.dosage.arithmetic.figure import Figure
from authoring.dosage.arithmetic.weights import NOTHING_MEASURED, Known
from authoring.dosage.minutes import SessionMinutes, Timed, exercise_minutes, session_minutes
from authoring.dosage.placed_dose import dose_here
from authoring.dosage.progression.placed import is_sure, rounds_of
from authoring.dosage.volume import Trained, WeekVolume, add_up
from authoring.model.card import Card
from authoring.model.dose import Dose
from authoring.model.protocol import Block, Entry, Stage

_LONGEST_TABLE = 60


@frozen
class Week:
    """One week of a stage.

    Attributes:
        session: minutes of a session with every exercise in it.
        volume: what the week asks for.
    """

    number: int
    session: SessionMinutes
    volume: WeekVolume


def dose_of(entry: Entry, card: Card | None) -> Dose | None:
    """The dose of an entry's start variant: the entry's own where it fits, else the variant's."""
    variant = card.variant(entry.start) if card is not None else None
    if variant is not None:
        return dose_here(entry, variant)
    return entry.dose if entry.start in (entry.dose_fits or (entry.start,)) else None


def _picked(block: Block, minutes: Mapping[str, Figure], *, most: bool) -> list[Entry]:
    """The entries of a block with the shortest, or longest, of each either/or choice."""
    dropped: set[str] = set()
    for choice in block.choices:
        members = [entry for entry in block.entries if entry.choice == choice.id]
        ordered = sorted(
            members, key=lambda entry: _length(minutes[entry.id], most=most), reverse=most
        )
        dropped |= {entry.id for entry in ordered[choice.pick :]}
    return [entry for entry in block.entries if entry.id not in dropped]


def _length(figure: Figure, *, most: bool) -> float:
    if not most:
        return figure.low
    return float("inf") if figure.high is None else figure.high


def stage_minutes(
    stage: Stage,
    cards: Mapping[str, Card],
    week: int | None = None,
    assume: Assumptions = USUAL,
) -> SessionMinutes:
    """Minutes of a session with every exercise of a stage, its choices and rounds included."""
    doses = {e.id: dose_of(e, cards.get(e.card)) for e in stage.entries()}
    lengths = {
        e.id: exercise_minutes(doses[e.id], e.sides, week=week, assume=assume)
        for e in stage.entries()
    }

    def of(*, most: bool) -> SessionMinutes:
        items = [
            Timed(doses[entry.id], entry.sides, block)
            for block in stage.blocks
            for entry in _picked(block, lengths, most=most)
        ]
        return session_minutes(items, week=week, assume=assume)

    shortest, longest = of(most=False), of(most=True)
    return SessionMinutes(
        _from_to(shortest.work, longest.work),
        _from_to(shortest.rest, longest.rest),
        _from_to(shortest.change_over, longest.change_over),
        _from_to(shortest.total, longest.total),
    )


def _from_to(short: Figure, long: Figure) -> Figure:
    return Figure(min(short.low, long.low), long.high, short.notes | long.notes)


def _trained(stage: Stage, cards: Mapping[str, Card]) -> Iterator[Trained]:
    for block in stage.blocks:
        for entry in block.entries:
            card = cards.get(entry.card)
            yield Trained(
                dose=dose_of(entry, card),
                sides=entry.sides,
                often=(block.frequency, stage.frequency),
                rounds=rounds_of(block),
                regions=card.regions if card is not None else (),
                movements=card.movements if card is not None else (),
                chosen=is_sure(entry, block),
            )


def stage_week(
    stage: Stage,
    cards: Mapping[str, Card],
    week: int = 1,
    *,
    known: Known = NOTHING_MEASURED,
    assume: Assumptions = USUAL,
) -> Week:
    """Minutes and volume of one week of a stage, its week tables applied."""
    items = list(_trained(stage, cards))
    volume = add_up(items, week, known=known, assume=assume)
    return Week(week, stage_minutes(stage, cards, week, assume), volume)


def weeks_of_tables(doses: Sequence[Dose | None]) -> int:
    """The first week from which no week table changes any more; 1 where there is none."""
    starts = [row.from_week for dose in doses if dose is not None for row in dose.weeks]
    return min(max(starts, default=1), _LONGEST_TABLE)
