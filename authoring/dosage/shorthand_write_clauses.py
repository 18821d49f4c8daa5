"""Writes rest, tempo, range and frequency in dose shorthand, one clause each."""

from __future__ import annotations

from collections.abc import Iterator

from authoring.dosage.shorthand_errors import UnsayableError
from authoring.dosage.shorthand_words import EXTENT, REST_UNTIL, SPEED, spelling
from authoring.dosage.shorthand_write_parts import Signs, count, number, seconds, span
from authoring.model.dose import AngleLimit, Frequency, RangeOfMovement, Rest, Tempo
from authoring.model.sentence import say
from authoring.model.vocabulary import Extent, Speed

_TIMES_PER_DAY = {1: "od", 2: "bd", 3: "tds", 4: "qds"}
_EVERY_DAYS = {1: "daily", 2: "alt days"}


def rest(value: Rest, signs: Signs) -> str:
    """A rest ("rest 90 s", "rest 1:2", "rest until ready")."""
    if value.until is not None:
        return f"rest {spelling(REST_UNTIL, value.until)}"
    if value.times_work is not None:
        times = number(value.times_work)
        # A decimal keeps "1:10" from being read as minutes and seconds.
        return f"rest 1:{times}.0" if len(times) == 2 and times.isdigit() else f"rest 1:{times}"
    if value.seconds is None:
        raise UnsayableError(say("The shorthand can't say a rest of which nothing is known."))
    return f"rest {seconds(value.seconds, signs, least=0, minutes_from=120)}"


def tempo(value: Tempo, signs: Signs) -> Iterator[str]:
    """Lowering, pause, lifting and pause as one clause where they can be, then beat and speed."""
    found = [*_tempo_parts(value, signs)]
    if value.beats_per_minute is not None:
        found.append(f"{value.beats_per_minute}{signs.gap}bpm")
    if value.speed is not None and not _lifts_fast(value):
        found.append(spelling(SPEED, value.speed))
    if not found:
        raise UnsayableError(say("The shorthand can't say a tempo of which nothing is known."))
    yield from found


def _lifts_fast(value: Tempo) -> bool:
    """Whether lifting is "X" in the row of numbers."""
    lowered = value.lowering_s is not None and value.pause_low_s is not None
    return lowered and value.lifting_s is None and value.speed is Speed.EXPLOSIVE


def _tempo_parts(value: Tempo, signs: Signs) -> Iterator[str]:
    parts = [value.lowering_s, value.pause_low_s, value.lifting_s, value.pause_high_s]
    written = ["" if part is None else number(part) for part in parts]
    if _lifts_fast(value):
        written[2] = "X"
    if all(written[:3]):
        yield f"tempo {'-'.join(part for part in written if part)}"
        return
    names = ("lower {}", "pause {} at bottom", "lift {}", "pause {} at top")
    for name, part in zip(names, written, strict=True):
        if part:
            yield name.format(f"{part}{signs.gap}s")


def movement(value: RangeOfMovement, signs: Signs) -> Iterator[str]:
    """How far to move; angles alone say that the range is limited."""
    if value.extent is not Extent.LIMITED or not value.limits:
        yield spelling(EXTENT, value.extent)
    for limit in value.limits:
        yield _angle(limit, signs)


def _angle(limit: AngleLimit, signs: Signs) -> str:
    joint = limit.joint.value.replace("_", " ")
    motion = limit.motion.value.replace("_", " ")
    below = limit.from_deg < 0 or limit.to_deg < 0
    to = " to " if below else signs.to
    ends = f"{number(limit.from_deg)}{to}{number(limit.to_deg)}"
    return f"{joint} {motion} {ends}{signs.gap}deg"


def frequency(value: Frequency, signs: Signs) -> Iterator[str]:
    """How often, one clause for each thing that is given."""
    if value == Frequency():
        raise UnsayableError(say("The shorthand can't say a frequency of which nothing is known."))
    if value.days_per_week is not None:
        yield count(value.days_per_week, signs, say("days")) + "/wk"
    if value.every_days is not None:
        yield _EVERY_DAYS.get(value.every_days) or f"every {value.every_days} days"
    if value.times_per_day is not None:
        times = value.times_per_day
        often = count(times, signs, say("times"))
        named = _TIMES_PER_DAY.get(times.low) if times.high is None else None
        yield named or f"{often}/day"
    if value.every_hours is not None:
        yield "hourly" if value.every_hours == 1 else f"{value.every_hours} hourly"
    if value.rest_days is not None:
        yield f"{span(value.rest_days, None, signs)} rest day{'' if value.rest_days == 1 else 's'}"
    if value.most_days_running is not None:
        yield f"max {value.most_days_running} days running"
