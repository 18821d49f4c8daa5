"""Minutes of a session: work, rest and the changes from one exercise to the next."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from attrs import frozen

from authoring.dosage.arithmetic.assumptions import USUAL, Assumptions
from authoring.dosage.arithmetic.effective import in_week, kinds
from authoring.dosage.arithmetic.figure import (
    ZERO,
    Figure,
    Note,
    between,
    covering,
    of_range,
    total,
    unknown,
)
from authoring.dosage.arithmetic.rests import less_one, seconds_of
from authoring.dosage.arithmetic.timing import Timing, timing
from authoring.model.dose import Dose
from authoring.model.protocol import Block
from authoring.model.vocabulary import BlockKind, Sides


@frozen
class Timed:
    """One exercise of a session.

    Attributes:
        sides: side that works, where the dose does not say.
        block: the block it stands in; exercises that follow one another with the same block
            share its rounds. None stands alone.
    """

    dose: Dose | None
    sides: Sides | None = None
    block: Block | None = None


@frozen
class SessionMinutes:
    """Minutes of a session, both ends, with what was assumed in their notes.

    Attributes:
        work: doing the exercises.
        rest: between sets, holds and rounds.
        change_over: from one exercise to the next, set-up included.
        total: all of it; no high end where a part can't be known.
    """

    work: Figure
    rest: Figure
    change_over: Figure
    total: Figure


def session_minutes(
    items: Sequence[Timed], *, week: int | None = None, assume: Assumptions = USUAL
) -> SessionMinutes:
    """Minutes of the exercises done one after another in one session.

    A dose with several kinds of session counts with the range over them. The minutes that a
    block states stand in only where its own can't be known.

    Args:
        items: exercises in order.
        week: week of the stage, for week tables; None takes the doses as written.
        assume: what is assumed where a dose is silent.
    """
    parts = [
        _of_block(block, list(found), week, assume)
        for block, found in groupby(items, key=lambda item: item.block)
    ]
    changes = less_one(_count(len(parts))) * between(*assume.change_over_s, Note.CHANGE_OVER)
    work = total(part.work for part in parts)
    rest = total(part.rest for part in parts)
    change_over = total(part.change_over for part in parts) + changes
    whole = total(part.total for part in parts) + changes
    return SessionMinutes(*(_minutes(each) for each in (work, rest, change_over, whole)))


def exercise_minutes(
    dose: Dose | None,
    sides: Sides | None = None,
    *,
    week: int | None = None,
    assume: Assumptions = USUAL,
) -> Figure:
    """Minutes of one exercise without changing to it; unknown without a dose."""
    return _minutes(_seconds(_timings(Timed(dose, sides), week, assume)))


def _minutes(seconds: Figure) -> Figure:
    return seconds * (1 / 60)


def _count(number: int) -> Figure:
    return Figure(number, number)


def _timings(item: Timed, week: int | None, assume: Assumptions) -> tuple[Timing, ...]:
    if item.dose is None:
        nothing = unknown(Note.NO_DOSE)
        return (Timing(nothing, nothing, ZERO, nothing),)
    dose = in_week(item.dose, week)
    return tuple(timing(kind.dose, item.sides, assume) for kind in kinds(dose))


def _seconds(found: Sequence[Timing]) -> Figure:
    return covering(each.seconds for each in found)


def _of_block(
    block: Block | None, items: Sequence[Timed], week: int | None, assume: Assumptions
) -> SessionMinutes:
    """Seconds (not minutes) of the exercises of one block, its rounds included."""
    times = [_timings(item, week, assume) for item in items]
    rounds = of_range(block.rounds) if block is not None and block.rounds else _count(1)
    work = total(covering(each.work for each in found) for found in times)
    rest = total(covering(each.rest for each in found) for found in times)
    whole = total(_seconds(found) for found in times)
    change = less_one(_count(len(items))) * _change(block, assume)
    pauses = _between_rounds(block, rounds, whole, assume)
    done = whole * rounds + change * rounds + pauses
    if block is not None and block.minutes is not None and not done.known:
        done = _as_stated(done, of_range(block.minutes) * 60)
    return SessionMinutes(work * rounds, rest * rounds + pauses, change * rounds, done)


def _as_stated(done: Figure, stated: Figure) -> Figure:
    """The minutes that a block states, where the least that was computed is not above them."""
    if stated.high is None or stated.high < done.low:
        return done
    return Figure(max(done.low, stated.low), stated.high, done.notes).noted(Note.BLOCK_MINUTES)


def _change(block: Block | None, assume: Assumptions) -> Figure:
    if block is not None and block.rest_between_entries is not None:
        return seconds_of(block.rest_between_entries, assume.station_s, _count(0), assume)
    if block is not None and block.kind is BlockKind.CIRCUIT:
        return between(*assume.station_s, Note.CHANGE_OVER)
    return between(*assume.change_over_s, Note.CHANGE_OVER)


def _between_rounds(
    block: Block | None, rounds: Figure, work: Figure, assume: Assumptions
) -> Figure:
    gaps = less_one(rounds)
    if gaps.high == 0 or block is None:
        return ZERO
    return gaps * seconds_of(block.rest_between_rounds, assume.set_rest_s, work, assume)


def assumed(minutes: SessionMinutes) -> Iterator[Note]:
    """What the minutes rest on, each once, in a fixed order."""
    return (note for note in Note if note in minutes.total.notes)
