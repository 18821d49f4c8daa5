"""How often, in plain words: days, times a day, rest days, weeks."""

from __future__ import annotations

from collections.abc import Iterator

from authoring.dosage.phrases import Phrases
from authoring.model.dose import Frequency


def frequency_sentences(phrases: Phrases, frequency: Frequency | None) -> Iterator[str]:
    """How often, as one sentence, and rest days as another."""
    if frequency is None:
        return
    often = frequency_phrase(phrases, frequency)
    if often:
        yield phrases.say("detail.often", often=often)
    yield from rest_day_sentences(phrases, frequency)


def rest_day_sentences(phrases: Phrases, frequency: Frequency) -> Iterator[str]:
    """Days of rest, and how many days running at most; never the same thing twice."""
    if frequency.rest_days:
        yield phrases.count("often.rest_days", frequency.rest_days)
    running = frequency.most_days_running
    if running and not (frequency.rest_days and running == 1):
        yield phrases.count("often.most_running", running)


def frequency_phrase(phrases: Phrases, frequency: Frequency) -> str:
    """ "3 days a week, 2 times a day", or "" where nothing is said."""
    days = [*_days(phrases, frequency)]
    times = [*_times(phrases, frequency)]
    if not days and not times and frequency.times_per_day is not None:
        return phrases.say("often.once")
    return ", ".join([*days, *times])


def _days(phrases: Phrases, frequency: Frequency) -> Iterator[str]:
    days = frequency.days_per_week
    if days is not None and days.low == 7:
        yield phrases.say("often.every_day")
    elif days is not None:
        yield phrases.count("often.days", days.top, n=phrases.span(days.low, days.high))
    elif frequency.every_days == 1:
        yield phrases.say("often.every_day")
    elif frequency.every_days == 2:
        yield phrases.say("often.other_day")
    elif frequency.every_days:
        yield phrases.count("often.every_days", frequency.every_days)


def _times(phrases: Phrases, frequency: Frequency) -> Iterator[str]:
    times = frequency.times_per_day
    if times is not None and times.top > 1:
        yield phrases.count("often.times", times.top, n=phrases.span(times.low, times.high))
    if frequency.every_hours:
        yield phrases.count("often.hours", frequency.every_hours)


def week_label(phrases: Phrases, first: int, last: int | None) -> str:
    """ "Week 1", "Weeks 1 and 2", "Weeks 1 to 4", "From week 5"."""
    if last is None:
        return phrases.say("week.from", n=first)
    if first == last:
        return phrases.say("week.one", n=first)
    key = "week.two" if last == first + 1 else "week.span"
    return phrases.say(key, low=first, high=last)
