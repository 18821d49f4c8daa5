"""How much: the dose of an exercise in every form that the trade writes it."""

from __future__ import annotations

from typing import ClassVar, TypeAlias

from authoring.model.base import ModelError, Node, evolve, fact, many, node, optional, slug
from authoring.model.load import IntRange, Load, NumberRange
from authoring.model.sentence import say
from authoring.model.sources import Source
from authoring.model.text import Text
from authoring.model.vocabulary import (
    Counting,
    DecidedBy,
    Extent,
    IntervalRole,
    Joint,
    Motion,
    RestUntil,
    SessionLabel,
    Sides,
    Speed,
    Until,
)

# ---- rest, tempo, range, frequency -------------------------------------------


@node
class Rest(Node):
    """Rest in seconds, relative to the work before it, or until an event.

    Exactly one of the three is given.
    """

    seconds: IntRange | None = optional("Seconds.")
    times_work: float | None = optional(
        "Times as long as the work before it (1 = as long as the set).", low=0, high=20
    )
    until: RestUntil | None = optional("What ends it.")

    def __attrs_post_init__(self) -> None:
        given = [self.seconds, self.times_work, self.until]
        if sum(value is not None for value in given) != 1:
            raise ModelError(
                "seconds", say("A rest has exactly one of seconds, times_work and until.")
            )


@node
class Tempo(Node):
    """Speed of each repetition: seconds for each part, a beat or a word."""

    lowering_s: float | None = optional("Seconds to lower, or to go back.", low=0, high=120)
    pause_low_s: float | None = optional("Seconds to wait at the bottom.", low=0, high=120)
    lifting_s: float | None = optional("Seconds to lift, or to go out.", low=0, high=120)
    pause_high_s: float | None = optional("Seconds to wait at the top.", low=0, high=120)
    beats_per_minute: int | None = optional("Beats of a metronome.", low=10, high=300)
    speed: Speed | None = optional("Speed in a word.")


@node
class AngleLimit(Node):
    """The part of a joint's range that is used, in degrees."""

    joint: Joint = fact("Joint.")
    motion: Motion = fact("Movement.")
    from_deg: float = fact("Where it starts.", low=-60, high=200)
    to_deg: float = fact("Where it ends.", low=-60, high=200)


@node
class RangeOfMovement(Node):
    """How far to move. More range is a progression of its own."""

    extent: Extent = fact("How much of the range.")
    limits: tuple[AngleLimit, ...] = many("Limits by angle.", longest=12)


@node
class Frequency(Node):
    """How often. All that is not given is left open."""

    times_per_day: IntRange | None = optional("Times a day.")
    every_hours: int | None = optional("Hours from one time to the next.", low=1, high=24)
    days_per_week: IntRange | None = optional("Days a week.")
    every_days: int | None = optional(
        "Days from one to the next (2 = every other day).", low=1, high=60
    )
    rest_days: int | None = optional("Least days of rest in between.", low=0, high=30)
    most_days_running: int | None = optional("Most days running.", low=1, high=31)

    def __attrs_post_init__(self) -> None:
        if self.days_per_week is not None and self.days_per_week.top > 7:
            raise ModelError(
                "days_per_week",
                say("days_per_week must be at most 7, and is {top}.", top=self.days_per_week.top),
            )


# ---- work -----------------------------------------------------------------------


def _one() -> IntRange:
    return IntRange(low=1)


@node
class Repetitions(Node):
    """Sets of repetitions, steps, stands, throws or contacts."""

    KIND: ClassVar[str] = "repetitions"

    sets: IntRange = fact("Sets.", factory=_one)
    reps: tuple[IntRange, ...] = many(
        "Repetitions: one for every set, or one for each set in order (12, 10, 8); with none, "
        "'until' ends the set.",
        longest=20,
    )
    counting: Counting = fact("What is counted.", default=Counting.REPETITIONS)
    until: Until = fact(
        "What ends a set; with 'good_form' the upper number is the cap.", default=Until.COUNT
    )
    last_set_until: Until | None = optional(
        "What ends the last set, where it is another thing (as many as good form allows)."
    )

    def __attrs_post_init__(self) -> None:
        if len(self.reps) > 1 and self.sets.top != len(self.reps):
            raise ModelError(
                "reps",
                say(
                    "reps lists {n} sets and sets says {top}: make them agree.",
                    n=len(self.reps),
                    top=self.sets.top,
                ),
            )
        if not self.reps and self.until is Until.COUNT:
            raise ModelError(
                "reps", say("reps is missing: give a number, or say what ends the set.")
            )


@node
class TotalRepetitions(Node):
    """A total to build up to over any number of sets."""

    KIND: ClassVar[str] = "total"

    total: IntRange = fact("Total.")
    most_sets: int | None = optional("Most sets it may be spread over.", low=1, high=100)
    counting: Counting = fact("What is counted.", default=Counting.REPETITIONS)
    until: Until = fact("What ends one set on the way.", default=Until.QUALITY)


@node
class Holds(Node):
    """Sets of holds."""

    KIND: ClassVar[str] = "holds"

    sets: IntRange = fact("Sets.", factory=_one)
    holds: IntRange = fact("Holds in a set.", factory=_one)
    holds_by_set: tuple[IntRange, ...] = many(
        "Holds in each set in order, where the sets differ (8, 6, 4); 'holds' is then left out.",
        longest=20,
    )
    hold_s: tuple[IntRange, ...] = many(
        "Seconds of a hold: one for all, or one for each hold in order; with none, 'until' "
        "ends the hold.",
        longest=20,
    )
    until: Until = fact("What ends a hold.", default=Until.COUNT)
    rest_between_holds: Rest | None = optional("Rest between holds of a set.")

    def __attrs_post_init__(self) -> None:
        if self.holds_by_set:
            _check_holds_by_set(self)
        if len(self.hold_s) > 1 and self.holds.top != len(self.hold_s):
            raise ModelError(
                "hold_s",
                say(
                    "hold_s lists {n} holds, and holds says {top}: make them agree.",
                    n=len(self.hold_s),
                    top=self.holds.top,
                ),
            )
        if not self.hold_s and self.until is Until.COUNT:
            raise ModelError(
                "hold_s", say("hold_s is missing: give seconds, or say what ends the hold.")
            )


def _check_holds_by_set(work: Holds) -> None:
    if work.holds != _one():
        raise ModelError("holds_by_set", say("holds_by_set and holds can't both be given."))
    if work.sets.top != len(work.holds_by_set):
        raise ModelError(
            "holds_by_set",
            say(
                "holds_by_set lists {n} sets and sets says {top}: make them agree.",
                n=len(work.holds_by_set),
                top=work.sets.top,
            ),
        )


@node
class Duration(Node):
    """Work for a time."""

    KIND: ClassVar[str] = "duration"

    bouts: IntRange = fact("Bouts.", factory=_one)
    seconds: IntRange = fact("Seconds of one bout.")


@node
class Distance(Node):
    """Work over a distance."""

    KIND: ClassVar[str] = "distance"

    bouts: IntRange = fact("Bouts.", factory=_one)
    metres: NumberRange = fact("Metres of one bout.")


@node
class Interval(Node):
    """One part of an interval: a time or a distance of one activity."""

    role: IntervalRole = fact("Work, recovery, warm-up or cool-down.")
    activity: Text = fact("What is done ('run', 'walk').")
    seconds: IntRange | None = optional("Seconds.")
    metres: NumberRange | None = optional("Metres.")
    loads: tuple[Load, ...] = many("Pace or effort.", longest=6)

    def __attrs_post_init__(self) -> None:
        if (self.seconds is None) == (self.metres is None):
            raise ModelError(
                "seconds", say("An interval has seconds or metres, exactly one of them.")
            )


@node
class Intervals(Node):
    """Rounds of work and recovery; warm-up and cool-down parts are done once."""

    KIND: ClassVar[str] = "intervals"

    sets: IntRange = fact("Sets of so many rounds.", factory=_one)
    rounds: IntRange = fact("Rounds in a set.")
    parts: tuple[Interval, ...] = fact("Parts in order.", fewest=1, longest=20)
    rest_between_sets: Rest | None = optional("Rest between sets of rounds.")


@node
class Either(Node):
    """One of several doses, the patient's or the clinician's choice."""

    KIND: ClassVar[str] = "either"

    doses: tuple[Dose, ...] = fact("The doses to choose from.", fewest=2, longest=6)


@node
class LeftOpen(Node):
    """A dose deliberately left open."""

    KIND: ClassVar[str] = "open"

    decided_by: DecidedBy = fact("Who decides it.", default=DecidedBy.CLINICIAN)
    words: Text | None = optional("How it is decided.")


Work: TypeAlias = (
    Repetitions | TotalRepetitions | Holds | Duration | Distance | Intervals | Either | LeftOpen
)

# ---- changes by week and kind of session ----------------------------------------


@node
class DoseChange(Node):
    """What differs from the dose; all that is not given stays as it is."""

    work: Work | None = optional("Other work.")
    loads: tuple[Load, ...] | None = optional("Other loads.", longest=6)
    rest: Rest | None = optional("Other rest between sets.")
    tempo: Tempo | None = optional("Other tempo.")
    range: RangeOfMovement | None = optional("Other range of movement.")
    sides: Sides | None = optional("Other side that works.")
    frequency: Frequency | None = optional("Other frequency.")


@node
class WeekRow(Node):
    """One row of a week table. The last row may have no end."""

    from_week: int = fact("First week of the stage, counted from 1.", low=1, high=520)
    to_week: int | None = optional("Last week; none means from then on.", low=1, high=520)
    variant: str | None = slug(
        "Variant done in these weeks, where it is another one.", default=None, points_to="variant"
    )
    change: DoseChange = fact("What differs in these weeks.")

    def __attrs_post_init__(self) -> None:
        if self.to_week is not None and self.to_week < self.from_week:
            raise ModelError(
                "to_week",
                say(
                    "to_week must not be before from_week ({from_week}), and is {to_week}.",
                    from_week=self.from_week,
                    to_week=self.to_week,
                ),
            )


@node
class SessionKind(Node):
    """One of several kinds of session side by side (light daily, heavy thrice a week)."""

    label: SessionLabel = fact("Kind of session.")
    change: DoseChange = fact("What differs in it, its frequency included.")


@node
class Dose(Node):
    """How much, how often, how hard and how fast."""

    work: Work = fact("Sets, holds, time, distance, intervals.")
    loads: tuple[Load, ...] = many("How hard; several may hold at once.", longest=6)
    rest: Rest | None = optional("Rest between sets or bouts.")
    tempo: Tempo | None = optional("Speed of each repetition.")
    range: RangeOfMovement | None = optional("How far to move.")
    sides: Sides | None = optional("Which side works.")
    frequency: Frequency | None = optional("How often, where it differs from the stage's.")
    weeks: tuple[WeekRow, ...] = many("Dose by week of the stage.", longest=60)
    sessions: tuple[SessionKind, ...] = many("Kinds of session side by side.", longest=4)
    session_limit_min: int | None = optional("Most minutes in one session.", low=1, high=480)
    minimum_sessions: int | None = optional("Sessions to do before a step up.", low=1, high=200)
    sources: tuple[Source, ...] = many("What this dose rests on.", longest=12)

    def __attrs_post_init__(self) -> None:
        for earlier, later in zip(self.weeks, self.weeks[1:], strict=False):
            if earlier.to_week is None or later.from_week <= earlier.to_week:
                raise ModelError(
                    "weeks",
                    say("weeks must follow one another, and only the last row may have no end."),
                )
        _check_loads_by_set(self.work, self.loads)
        for change in (
            *(row.change for row in self.weeks),
            *(kind.change for kind in self.sessions),
        ):
            loads = self.loads if change.loads is None else change.loads
            _check_loads_by_set(change.work or self.work, loads)

    def week_variants(self) -> tuple[str, ...]:
        """Ids of the variants that the week table changes to, in order."""
        return tuple(row.variant for row in self.weeks if row.variant is not None)

    def without_variant(self, variant: str) -> Dose:
        """The dose whose week table no longer changes to a variant."""
        weeks = tuple(
            evolve(row, variant=None) if row.variant == variant else row for row in self.weeks
        )
        return evolve(self, weeks=weeks)


def sets_of(work: Work) -> int | None:
    """How many sets a load may be listed for; None where the work has no sets of its own.

    Holds in one set count one by one, as the trade lists them.
    """
    match work:
        case Repetitions(sets=sets):
            return sets.top
        case Holds(sets=sets, holds=holds):
            return holds.top if sets.top == 1 else sets.top
        case Duration(bouts=bouts) | Distance(bouts=bouts):
            return bouts.top
    return None


def _check_loads_by_set(work: Work, loads: tuple[Load, ...]) -> None:
    sets = sets_of(work)
    for load in loads:
        listed = len(getattr(load, "per_set", ()))
        if sets is not None and listed > 1 and listed != sets:
            raise ModelError(
                "loads",
                say(
                    "loads list {listed} sets and the work has {sets}: list one for each set, or "
                    "one for all.",
                    listed=listed,
                    sets=sets,
                ),
            )
