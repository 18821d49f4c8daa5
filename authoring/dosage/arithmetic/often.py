"""How many times a week, and on how many days."""

from __future__ import annotations

from math import floor

from attrs import frozen

from authoring.dosage.arithmetic.assumptions import USUAL, Assumptions
from authoring.dosage.arithmetic.figure import (
    Figure,
    Note,
    between,
    exactly,
    of_range,
    unknown,
)
from authoring.model.dose import Frequency

DAYS = 7


@frozen
class Often:
    """How often in a week.

    Attributes:
        days: days a week.
        times: sessions a week.
    """

    days: Figure
    times: Figure


def often(frequency: Frequency | None, assume: Assumptions = USUAL) -> Often:
    """Days and sessions a week of a frequency; unknown where it is left open.

    "3 times a day" alone means every day; days alone mean once on each. Days of rest in
    between, and most days running, give only the most.
    """
    if frequency is None:
        return Often(unknown(Note.NO_FREQUENCY), unknown(Note.NO_FREQUENCY))
    a_day = _a_day(frequency, assume)
    days = _days(frequency, daily=a_day is not None)
    return Often(days, days * (exactly(1) if a_day is None else a_day))


def _a_day(frequency: Frequency, assume: Assumptions) -> Figure | None:
    if frequency.times_per_day is not None:
        return of_range(frequency.times_per_day)
    if frequency.every_hours is None:
        return None
    # The first time is at the start of the day, and the last before its end.
    low, high = (floor(hours / frequency.every_hours) + 1 for hours in assume.waking_h)
    return between(low, high, Note.WAKING_DAY)


def _days(frequency: Frequency, *, daily: bool) -> Figure:
    if frequency.days_per_week is not None:
        return of_range(frequency.days_per_week)
    if frequency.every_days is not None:
        return exactly(DAYS / frequency.every_days)
    most = float(DAYS)
    if frequency.rest_days:
        most = DAYS / (1 + frequency.rest_days)
    elif frequency.most_days_running:
        running = frequency.most_days_running
        most = DAYS * running / (running + 1)
    if most < DAYS:
        return Figure(0, most, frozenset({Note.NO_FREQUENCY}))
    return exactly(DAYS) if daily else unknown(Note.NO_FREQUENCY)
