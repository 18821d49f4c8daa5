"""Writes work in dose shorthand, but for choices, which hold whole doses."""

from __future__ import annotations

from collections.abc import Iterator
from functools import singledispatch

from authoring.dosage.shorthand_errors import UnsayableError
from authoring.dosage.shorthand_words import OPEN, PART_ROLE, ROLE, UNTIL, spelling
from authoring.dosage.shorthand_write_parts import (
    Signs,
    count,
    load,
    metres,
    seconds,
    words,
)
from authoring.model.dose import (
    Distance,
    Duration,
    Holds,
    Interval,
    Intervals,
    LeftOpen,
    Repetitions,
    TotalRepetitions,
    Work,
)
from authoring.model.load import IntRange
from authoring.model.sentence import say
from authoring.model.vocabulary import Counting, IntervalRole, Until

_ONE = IntRange(low=1)
_SHORT_WAY = 10
"""Metres below which 'm' could be meant as minutes in intervals."""


@singledispatch
def work(value: object, signs: Signs) -> str:
    """The work as one clause; parts done once stand in clauses of their own."""
    raise UnsayableError(say("The shorthand has no words for {kind}.", kind=type(value).__name__))


def _noun(counting: Counting, top: int) -> str:
    if counting is Counting.REPETITIONS:
        return ""
    one = "catch" if counting is Counting.CATCHES else counting.value[:-1]
    return f" {one if top == 1 else counting.value}"


def _ending(until: Until) -> str:
    return "" if until is Until.COUNT else f" {spelling(UNTIL, until)}"


# ---- repetitions ------------------------------------------------------------------


@work.register
def _(value: Repetitions, signs: Signs) -> str:
    sets = count(value.sets, signs, say("sets")) + signs.times
    if not value.reps:
        noun = "" if value.counting is Counting.REPETITIONS else value.counting.value
        return sets + f"{noun}{_ending(value.until)}".strip()
    reps = value.reps
    amount = "/".join(count(one, signs, say("repetitions")) for one in reps)
    plain = value.counting is Counting.REPETITIONS
    if value.until is Until.GOOD_FORM and plain and len(reps) == 1 and reps[0].high is None:
        return f"{sets}{spelling(UNTIL, value.until)} (cap {amount})"
    implied = IntRange(low=len(reps))
    unclear = _like_days(reps) if len(reps) > 1 else plain
    prefix = "" if value.sets == implied and not unclear else sets
    return f"{prefix}{amount}{_noun(value.counting, reps[-1].top)}{_ending(value.until)}"


def _like_days(reps: tuple[IntRange, ...]) -> bool:
    """Whether two sets alone would look like days, weeks or months (3/7, 2/52, 6/12)."""
    first, last = reps[0].low, reps[-1].low
    return len(reps) == 2 and (last in (7, 52) or (last == 12 and first <= 12))


@work.register
def _(value: TotalRepetitions, signs: Signs) -> str:
    if value.until is Until.COUNT:
        raise UnsayableError(
            say("The shorthand can't say a total whose sets end at a count that is not given.")
        )
    total = count(value.total, signs, say("repetitions"))
    spread = "" if value.most_sets is None else f" in up to {value.most_sets} sets"
    ending = "" if value.until is Until.QUALITY else _ending(value.until)
    return f"total {total}{_noun(value.counting, value.total.top)}{spread}{ending}"


# ---- holds, times, distances --------------------------------------------------------


@work.register
def _(value: Holds, signs: Signs) -> str:
    if value.holds_by_set:
        raise UnsayableError(say("The shorthand can't list holds by set."))
    factors = []
    if value.sets != _ONE:
        factors.append(count(value.sets, signs, say("sets")))
    if factors or value.holds != _ONE:
        factors.append(count(value.holds, signs, say("holds")))
    ending = f"hold{_ending(value.until)}"
    times = _hold_times(value.hold_s, signs)
    return signs.times.join([*factors, f"{times} {ending}" if times else ending])


def _hold_times(hold_s: tuple[IntRange, ...], signs: Signs) -> str:
    if len(hold_s) == 1:
        return seconds(hold_s[0], signs, minutes_from=120)
    listed = "/".join(count(one, signs, say("seconds")) for one in hold_s)
    return f"{listed}{signs.gap}s" if listed else ""


def _bouts(bouts: IntRange, amount: str, signs: Signs) -> str:
    return amount if bouts == _ONE else count(bouts, signs, say("bouts")) + signs.times + amount


@work.register
def _(value: Duration, signs: Signs) -> str:
    return _bouts(value.bouts, seconds(value.seconds, signs), signs)


@work.register
def _(value: Distance, signs: Signs) -> str:
    return _bouts(value.bouts, metres(value.metres, signs), signs)


@work.register
def _(value: LeftOpen, signs: Signs) -> str:
    decided = spelling(OPEN, value.decided_by)
    if value.words is None:
        return decided
    said = words(value.words, say("an open dose"))
    return f"{decided}: {said}"


# ---- intervals ----------------------------------------------------------------------

_REPEATED = (IntervalRole.WORK, IntervalRole.RECOVER)


@work.register
def _(value: Intervals, signs: Signs) -> str:
    if value.sets != _ONE or value.rest_between_sets is not None:
        raise UnsayableError(say("The shorthand can't say sets of intervals."))
    roles = [part.role for part in value.parts]
    order = [
        0 if role is IntervalRole.WARM_UP else 2 if role is IntervalRole.COOL_DOWN else 1
        for role in roles
    ]
    repeated = [part for part in value.parts if part.role in _REPEATED]
    if order != sorted(order) or not repeated:
        raise UnsayableError(
            say("The shorthand can only say intervals with warm-up first and cool-down last.")
        )
    parts = (_part(part, place, signs) for place, part in enumerate(repeated))
    return count(value.rounds, signs, say("rounds")) + signs.times + f"({' / '.join(parts)})"


def _part(part: Interval, place: int, signs: Signs) -> str:
    named = part.role is not _REPEATED[place % 2]
    prefix = f"{spelling(PART_ROLE, part.role)} " if named else ""
    return prefix + _amount_and_activity(part, signs)


def _amount_and_activity(part: Interval, signs: Signs) -> str:
    if part.seconds is not None:
        amount = seconds(part.seconds, signs)
    elif part.metres is not None:
        unit = "metres" if part.metres.low < _SHORT_WAY else "m"
        amount = metres(part.metres, signs, unit)
    else:
        raise UnsayableError(say("The shorthand can't say an interval without time or distance."))
    activity = words(part.activity, say("an interval's activity"))
    if not activity[0].isalpha():
        raise UnsayableError(
            say("The shorthand needs an interval's activity to start with a letter.")
        )
    loads = "".join(f" @ {load(one, signs)}" for one in part.loads)
    return f"{amount} {activity}{loads}"


def done_once(value: Work | None, role: IntervalRole, signs: Signs) -> Iterator[str]:
    """A clause for every warm-up, or every cool-down, of intervals."""
    if isinstance(value, Intervals):
        for part in value.parts:
            if part.role is role:
                yield f"{spelling(ROLE, role)} {_amount_and_activity(part, signs)}"
