"""Days of the week for a plan, spread as evenly as can be."""

from __future__ import annotations

from authoring.model.vocabulary import Weekday

_WEEK = tuple(Weekday)
_SPREAD: dict[int, tuple[int, ...]] = {
    1: (0,),
    2: (0, 3),
    3: (0, 2, 4),
    4: (0, 1, 3, 4),
    5: (0, 1, 2, 3, 4),
    6: (0, 1, 2, 3, 4, 5),
    7: (0, 1, 2, 3, 4, 5, 6),
}


def spread(count: int) -> tuple[Weekday, ...]:
    """So many days of the week, from 1 to 7, with rest days between where there are few."""
    return tuple(_WEEK[index] for index in _SPREAD[count])


def alternating(days: tuple[Weekday, ...], group: int) -> tuple[Weekday, ...]:
    """The first (1) or second (2) of two alternating groups of days; none for every day (0)."""
    return days[group - 1 :: 2] if group else ()
