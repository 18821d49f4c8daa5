"""Seconds of one repetition, and metres a second."""

from __future__ import annotations

from collections.abc import Sequence

from authoring.dosage.arithmetic.assumptions import Assumptions
from authoring.dosage.arithmetic.figure import (
    Figure,
    Note,
    between,
    exactly,
    total,
)
from authoring.model.dose import Tempo
from authoring.model.load import Load, NumberRange, PaceLoad
from authoring.model.vocabulary import Counting


def seconds_of_rep(tempo: Tempo | None, counting: Counting, assume: Assumptions) -> Figure:
    """Seconds of one repetition.

    The parts of a tempo add up; where only one way of the movement has a time, the other is
    assumed. A metronome gives one beat for the whole repetition or one for each way.
    """
    if tempo is None:
        return between(*assume.counted_s[counting], Note.TEMPO)
    pauses = (tempo.pause_low_s or 0) + (tempo.pause_high_s or 0)
    ways = (tempo.lowering_s, tempo.lifting_s)
    if any(way is not None for way in ways):
        return exactly(pauses) + total(
            between(*assume.phase_s, Note.TEMPO) if way is None else exactly(way) for way in ways
        )
    if tempo.beats_per_minute is not None:
        beat = 60 / tempo.beats_per_minute
        return between(beat + pauses, 2 * beat + pauses)
    if tempo.speed is not None:
        return between(*assume.speed_s[tempo.speed], Note.TEMPO) + exactly(pauses)
    return between(*assume.counted_s[counting], Note.TEMPO) + exactly(pauses)


def metres_per_second(loads: Sequence[Load], assume: Assumptions) -> Figure:
    """Speed over the ground by the pace of a dose; never 0."""
    pace = next((load for load in loads if isinstance(load, PaceLoad)), None)
    if pace is not None and pace.speed_km_h is not None and pace.speed_km_h.low > 0:
        return between(pace.speed_km_h.low / 3.6, pace.speed_km_h.top / 3.6)
    if pace is not None and pace.seconds_per_km is not None and pace.seconds_per_km.low > 0:
        return between(1000 / pace.seconds_per_km.top, 1000 / pace.seconds_per_km.low)
    if pace is not None and pace.word is not None:
        return between(*assume.speed_m_s[pace.word], Note.SPEED)
    return between(*assume.any_speed_m_s, Note.SPEED)


def seconds_over(metres: NumberRange, loads: Sequence[Load], assume: Assumptions) -> Figure:
    """Seconds for a distance at the pace of a dose."""
    speed = metres_per_second(loads, assume)
    fastest = speed.low if speed.high is None else speed.high
    return between(metres.low / fastest, metres.top / speed.low, *speed.notes)
