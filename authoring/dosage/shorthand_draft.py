"""A dose while it is being read: what has been given, and what may not be given twice."""

from __future__ import annotations

from typing import Any

import attrs

from authoring.dosage.shorthand_amounts import at_characters
from authoring.dosage.shorthand_errors import ShorthandError
from authoring.model.base import evolve
from authoring.model.dose import (
    AngleLimit,
    Dose,
    DoseChange,
    Frequency,
    Holds,
    Interval,
    Intervals,
    RangeOfMovement,
    Repetitions,
    Rest,
    Tempo,
    Work,
)
from authoring.model.load import Load, PercentLoad
from authoring.model.sentence import Sentence, opened, say
from authoring.model.vocabulary import Extent, IntervalRole, Sides, Until

_MOST_LOADS = 6
_MOST_ANGLES = 12


@attrs.define
class Draft:
    """Parts of a dose by name, and where in the text each was given."""

    work: Work | None = None
    loads: list[Load] = attrs.Factory(list)
    no_load: bool = False
    rest: Rest | None = None
    between: Rest | None = None
    last_set: Until | None = None
    tempo: dict[str, Any] = attrs.Factory(dict)
    extent: Extent | None = None
    angles: list[AngleLimit] = attrs.Factory(list)
    sides: Sides | None = None
    often: dict[str, Any] = attrs.Factory(dict)
    once: list[Interval] = attrs.Factory(list)
    session_limit_min: int | None = None
    minimum_sessions: int | None = None
    places: dict[str, tuple[int, int]] = attrs.Factory(dict)

    def given(self, what: Sentence, start: int, end: int, *, again: bool = False) -> None:
        """Note that a part is given there.

        Args:
            what: the part in words, as the error says it.
            again: whether it may be given several times.

        Raises:
            ShorthandError: it was given before.
        """
        if what in self.places and not again:
            raise ShorthandError(
                say("{what} is given twice.", what=opened(what)),
                start,
                end,
                say("Leave one out."),
            )
        self.places[what] = (start, end)

    def fault(self, what: str, sentence: Sentence, mend: Sentence) -> ShorthandError:
        """An error where a part was given."""
        start, end = self.places[what]
        return ShorthandError(sentence, start, end, mend)

    # ---- the parts as nouns ------------------------------------------------------

    def whole_work(self) -> Work | None:
        """The work with its warm-up, cool-down and rest between holds."""
        work = self.work
        if self.between is not None:
            if not isinstance(work, Holds):
                raise self.fault(
                    "the rest between holds",
                    say("There are no holds to rest between."),
                    say("Write 'rest' alone for the rest between sets."),
                )
            work = evolve(work, rest_between_holds=self.between)
        if self.last_set is not None:
            work = self._with_last_set(work, self.last_set)
        if self.once:
            work = self._around(work)
        return work

    def _with_last_set(self, work: Work | None, until: Until) -> Work:
        if not isinstance(work, Repetitions):
            raise self.fault(
                "the last set",
                say("There are no sets of repetitions whose last could end otherwise."),
                say("Write the sets too, such as '3 x 10, last set to fatigue'."),
            )
        return evolve(work, last_set_until=until)

    def _around(self, work: Work | None) -> Intervals:
        if not isinstance(work, Intervals):
            raise self.fault(
                "a warm-up or cool-down",
                say("A warm-up or cool-down belongs to intervals."),
                say("Write the intervals too, such as 6 x (1 min run / 2 min walk)."),
            )
        before = [part for part in self.once if part.role is IntervalRole.WARM_UP]
        after = [part for part in self.once if part.role is IntervalRole.COOL_DOWN]
        with at_characters(*self.places["a warm-up or cool-down"]):
            return evolve(work, parts=(*before, *work.parts, *after))

    def _range(self) -> RangeOfMovement | None:
        if self.extent is None and not self.angles:
            return None
        if len(self.angles) > _MOST_ANGLES:
            raise self.fault(
                "an angle", say("A dose has at most 12 angles."), say("Leave some out.")
            )
        return RangeOfMovement(extent=self.extent or Extent.LIMITED, limits=tuple(self.angles))

    def shared(self, start: int, end: int) -> dict[str, Any]:
        """The fields that a dose and a change of it have in common, but for work and loads.

        Args:
            start, end: characters of the whole, for a fault of the model.
        """
        if len(self.loads) > _MOST_LOADS:
            raise self.fault("a load", say("A dose has at most 6 loads."), say("Leave some out."))
        with at_characters(start, end):
            return {
                "rest": self.rest,
                "tempo": Tempo(**self.tempo) if self.tempo else None,
                "range": self._range(),
                "frequency": Frequency(**self.often) if self.often else None,
            }

    def check_sets(self, work: Work | None) -> None:
        """Raise where percentages are listed and their number is not that of the sets."""
        if not isinstance(work, Repetitions | Holds):
            return
        sets = work.holds if isinstance(work, Holds) and work.sets.top == 1 else work.sets
        for load in self.loads:
            listed = len(getattr(load, "per_set", ()))
            if not isinstance(load, PercentLoad) and listed > 1 and listed != sets.top:
                raise self.fault(
                    "a load",
                    say("{listed} loads are listed for {sets} sets.", listed=listed, sets=sets.top),
                    say("List one for each set, or one for all."),
                )
            if isinstance(load, PercentLoad) and len(load.per_set) not in (1, sets.top):
                raise self.fault(
                    "a load",
                    say(
                        "{n} percentages are listed for {top} sets.",
                        n=len(load.per_set),
                        top=sets.top,
                    ),
                    say("List one for each set, or one for all."),
                )

    def dose(self, work: Work, start: int, end: int, **more: Any) -> Dose:
        """The dose.

        Args:
            work: its work, from here or from its first row.
            start, end: characters of the whole.
            more: its rows.
        """
        if self.no_load:
            raise self.fault(
                "a load", say("'no load' only changes a dose in some weeks."), say("Leave it out.")
            )
        self.check_sets(work)
        with at_characters(start, end):
            return Dose(
                work=work,
                loads=tuple(self.loads),
                sides=self.sides,
                session_limit_min=self.session_limit_min,
                minimum_sessions=self.minimum_sessions,
                **self.shared(start, end),
                **more,
            )

    def change(self, start: int, end: int) -> DoseChange:
        """What a row changes.

        Raises:
            ShorthandError: the row gives something that stays the same in all weeks.
        """
        for what in (
            say("the side"),
            say("the limit of a session"),
            say("the least number of sessions"),
        ):
            if what in self.places:
                raise self.fault(
                    what,
                    say("{what} can't change from row to row.", what=opened(what)),
                    say("Write it before the first row."),
                )
        work = self.whole_work()
        self.check_sets(work)
        loads = tuple(self.loads) if self.loads or self.no_load else None
        with at_characters(start, end):
            return DoseChange(work=work, loads=loads, **self.shared(start, end))
