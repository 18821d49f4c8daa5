"""A figure that is computed: a low and a high end, and all that had to be assumed for it.

What can't be known has no high end; it is never written as nought.
"""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum

from attrs import frozen

from authoring.model.base import said
from authoring.model.load import IntRange, NumberRange


class Note(StrEnum):
    """What was assumed for a figure, or why it is not known; the value is a stable code."""

    NO_DOSE = "no-dose"
    LEFT_OPEN = "left-open"
    UNTIL_FATIGUE = "until-fatigue"
    CAP_ONLY = "cap-only"
    SETS_OPEN = "sets-open"
    NO_FREQUENCY = "no-frequency"
    WAKING_DAY = "waking-day-assumed"
    LOAD_UNKNOWN = "load-unknown"
    BODY_LOAD = "body-weight-left-out"
    TEMPO = "tempo-assumed"
    SPEED = "speed-assumed"
    REST = "rest-assumed"
    REST_EVENT = "rest-until-event"
    CHANGE_OVER = "change-over-assumed"
    ALTERNATE = "alternate-sides"
    BLOCK_MINUTES = "block-minutes-stated"
    CHOICE = "choice"

    @property
    def sentence(self) -> str:
        """The same to a clinician, one sentence."""
        return _SENTENCES[self]


_SENTENCES = {
    Note.NO_DOSE: "An exercise has no dose.",
    Note.LEFT_OPEN: "A dose is left open.",
    Note.UNTIL_FATIGUE: "A set or hold goes on until fatigue or for as many as good form allows, "
    "so that its end is not known.",
    Note.CAP_ONLY: "Only the most is given: a set may end sooner.",
    Note.SETS_OPEN: "A total may be spread over several sets: for their time, at least "
    "five at once are assumed.",
    Note.NO_FREQUENCY: "Nothing says how often.",
    Note.WAKING_DAY: "Every so many hours: a waking day of 14 to 16 hours is assumed.",
    Note.LOAD_UNKNOWN: "The load has no weight (band, effort, share of a maximum).",
    Note.BODY_LOAD: "The body's own weight is not counted, only what is added.",
    Note.TEMPO: "No tempo is given: the usual time of a repetition is assumed.",
    Note.SPEED: "No pace is given: easy walking to running is assumed.",
    Note.REST: "No rest is given: the usual rest is assumed.",
    Note.REST_EVENT: "A rest lasts until something happens: its usual time is assumed.",
    Note.CHANGE_OVER: "The time to change from one exercise to the next is assumed.",
    Note.ALTERNATE: "In turn, left and right: the count is read as that of both sides together or "
    "of each.",
    Note.BLOCK_MINUTES: "What can't be computed takes the minutes that its block states.",
    Note.CHOICE: "There is a choice: the figure covers every one.",
}


@frozen
class Figure:
    """An amount that is at least ``low`` and at most ``high``, both at least 0.

    Attributes:
        high: None where no upper end is known.
        notes: what was assumed, or why there is no upper end.
    """

    low: float = 0
    high: float | None = None
    notes: frozenset[Note] = frozenset()

    @property
    def unknown(self) -> bool:
        """Whether nothing at all is known."""
        return self.low == 0 and self.high is None

    @property
    def known(self) -> bool:
        """Whether both ends are known."""
        return self.high is not None

    def __add__(self, other: Figure) -> Figure:
        high = None if self.high is None or other.high is None else self.high + other.high
        return Figure(self.low + other.low, high, self.notes | other.notes)

    def __mul__(self, other: Figure | float) -> Figure:
        if not isinstance(other, Figure):
            other = exactly(other)
        notes = self.notes | other.notes
        if self.high == 0 or other.high == 0:
            return ZERO
        high = None if self.high is None or other.high is None else self.high * other.high
        return Figure(self.low * other.low, high, notes)

    def noted(self, *notes: Note) -> Figure:
        """The same with more notes."""
        return Figure(self.low, self.high, self.notes | frozenset(notes))

    def at_most(self, most: float) -> Figure:
        """The same with both ends cut to ``most``; where the high end is unknown it becomes it."""
        high = most if self.high is None else min(self.high, most)
        return Figure(min(self.low, most), high, self.notes)

    def words(self, unit: str = "") -> str:
        """ "12", "8 to 12 min", "at least 8" or "unknown", one decimal at most."""
        after = f" {unit}" if unit else ""
        if self.unknown:
            return "unknown"
        low = said(round(self.low, 1))
        if self.high is None:
            return f"at least {low}{after}"
        high = said(round(self.high, 1))
        return f"{low}{after}" if low == high else f"{low} to {high}{after}"


ZERO = Figure(0, 0)


def exactly(amount: float, *notes: Note) -> Figure:
    """A figure that is known."""
    return Figure(amount, amount, frozenset(notes))


def between(low: float, high: float, *notes: Note) -> Figure:
    """A figure with both ends known."""
    return Figure(low, high, frozenset(notes))


def unknown(*notes: Note) -> Figure:
    """A figure of which nothing is known, and why."""
    return Figure(0, None, frozenset(notes))


def of_range(span: IntRange | NumberRange) -> Figure:
    """The figure of a number or range of a dose."""
    return Figure(span.low, span.top)


def total(figures: Iterable[Figure]) -> Figure:
    """The sum; nought for none."""
    return sum(figures, ZERO)


def covering(figures: Iterable[Figure], *notes: Note) -> Figure:
    """The least range that covers every one of at least one figure."""
    found = tuple(figures)
    highs = [each.high for each in found if each.high is not None]
    every = frozenset[Note]().union(*(each.notes for each in found), notes)
    high = max(highs) if len(highs) == len(found) else None
    return Figure(min(each.low for each in found), high, every)
