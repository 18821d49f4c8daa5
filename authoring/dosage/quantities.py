"""Counts, times and distances in words."""

from __future__ import annotations

from authoring.dosage.phrases import Phrases
from authoring.model.dose import Rest
from authoring.model.load import IntRange, NumberRange
from authoring.model.vocabulary import Counting, Unit

_MINUTE = 60


def count_phrase(phrases: Phrases, counting: Counting, count: IntRange, *, bare: bool) -> str:
    """A count and what is counted ("12 steps"); ``bare`` leaves repetitions without a noun.

    "3 sets of 12" needs no noun, "12 times" alone does.
    """
    amount = phrases.span(count.low, count.high)
    if bare and counting is Counting.REPETITIONS:
        return amount
    return phrases.count(f"count.{counting}", count.top, n=amount)


def seconds_phrase(phrases: Phrases, seconds: IntRange) -> str:
    """Seconds, or minutes where both ends are whole minutes."""
    low, high = seconds.low, seconds.high
    if low >= _MINUTE and low % _MINUTE == 0 and (high is None or high % _MINUTE == 0):
        top = None if high is None else high // _MINUTE
        amount = phrases.span(low // _MINUTE, top)
        return phrases.count("unit.minute", seconds.top // _MINUTE, n=amount)
    return phrases.count("unit.second", seconds.top, n=phrases.span(low, high))


def distance_phrase(phrases: Phrases, metres: NumberRange) -> str:
    """Metres, or kilometres from 1,000 metres on where that leaves no long decimals."""
    low, high = metres.low, metres.high
    if low >= 1000 and low % 100 == 0 and (high is None or high % 100 == 0):
        amount = phrases.span(low / 1000, None if high is None else high / 1000)
        return phrases.count("unit.kilometre", metres.top / 1000, n=amount)
    return phrases.count("unit.metre", metres.top, n=phrases.span(low, high))


def measured_phrase(phrases: Phrases, unit: Unit, low: float, high: float | None = None) -> str:
    """An amount with its unit ("1 session", "5 to 10 kg")."""
    top = low if high is None else high
    return phrases.count(f"measured.{unit}", top, n=phrases.span(low, high))


def rest_time(phrases: Phrases, rest: Rest) -> str:
    """The time of a rest that is given in seconds; "" for any other."""
    return seconds_phrase(phrases, rest.seconds) if rest.seconds else ""
