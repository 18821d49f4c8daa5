"""What a week asks for: sets, counts, time under tension and load, by region and movement."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import TypeVar

from attrs import frozen
from immutabledict import immutabledict

from authoring.dosage.arithmetic.amounts import contacts, holds, over_sides, repetitions, sets
from authoring.dosage.arithmetic.assumptions import USUAL, Assumptions
from authoring.dosage.arithmetic.effective import Kind, in_week, kinds, often_of, side_of
from authoring.dosage.arithmetic.figure import ZERO, Figure, Note, exactly, unknown
from authoring.dosage.arithmetic.often import often
from authoring.dosage.arithmetic.timing import timing
from authoring.dosage.arithmetic.weights import NOTHING_MEASURED, Known, volume_kg
from authoring.model.dose import Dose, Frequency
from authoring.model.vocabulary import Region, Sides

_K = TypeVar("_K")


@frozen
class Volume:
    """How much work, in one session or in one week.

    Attributes:
        sets: sets, bouts or rounds of one side, as the trade counts them.
        repetitions: what is counted, of both sides.
        contacts: landings among them (contacts, jumps, hops), of both sides.
        holds: holds, of both sides.
        tension_s: seconds under tension, of both sides.
        load_kg: repetitions times kilograms, of both sides.
        minutes: work and rest, without changing from one exercise to the next.
    """

    sets: Figure = ZERO
    repetitions: Figure = ZERO
    contacts: Figure = ZERO
    holds: Figure = ZERO
    tension_s: Figure = ZERO
    load_kg: Figure = ZERO
    minutes: Figure = ZERO

    def _with(self, change: Callable[[Figure], Figure]) -> Volume:
        return Volume(
            change(self.sets),
            change(self.repetitions),
            change(self.contacts),
            change(self.holds),
            change(self.tension_s),
            change(self.load_kg),
            change(self.minutes),
        )

    def __add__(self, other: Volume) -> Volume:
        return Volume(
            self.sets + other.sets,
            self.repetitions + other.repetitions,
            self.contacts + other.contacts,
            self.holds + other.holds,
            self.tension_s + other.tension_s,
            self.load_kg + other.load_kg,
            self.minutes + other.minutes,
        )

    def times(self, number: Figure) -> Volume:
        """The same done so many times."""
        return self._with(lambda figure: figure * number)

    def or_none(self) -> Volume:
        """The same, or nothing of it: one of several to choose from."""
        return self._with(lambda figure: Figure(0, figure.high, figure.notes | {Note.CHOICE}))


NOTHING = Volume()
_ONCE = exactly(1)


@frozen(kw_only=True)
class Trained:
    """One exercise of a week.

    Attributes:
        dose: its dose; None is unknown.
        sides: side that works, where the dose does not say.
        often: how often, where the dose does not say; the first given counts.
        rounds: rounds of its circuit.
        regions, movements: what it trains; each counts in full.
        chosen: False where it is one of several to choose from.
    """

    dose: Dose | None
    sides: Sides | None = None
    often: tuple[Frequency | None, ...] = ()
    rounds: Figure = _ONCE
    regions: tuple[Region, ...] = ()
    movements: tuple[str, ...] = ()
    chosen: bool = True


def session_volume(
    dose: Dose,
    sides: Sides | None = None,
    *,
    known: Known = NOTHING_MEASURED,
    assume: Assumptions = USUAL,
) -> Volume:
    """Volume of a dose in one session, as written.

    Args:
        known: measured values in kg that a share of the load is taken of.
    """
    times = over_sides(side_of(dose, sides))
    made = timing(dose, sides, assume)
    return Volume(
        sets=sets(dose.work),
        repetitions=repetitions(dose.work) * times,
        contacts=contacts(dose.work) * times,
        holds=holds(dose.work) * times,
        tension_s=made.tension,
        load_kg=volume_kg(dose, known) * times,
        minutes=made.seconds * (1 / 60),
    )


def week_volume(
    item: Trained,
    week: int | None = None,
    *,
    known: Known = NOTHING_MEASURED,
    assume: Assumptions = USUAL,
) -> Volume:
    """Volume of an exercise in one week of the stage, all kinds of session and rounds together.

    Unknown where there is no dose, or where nothing says how often.
    """
    if item.dose is None:
        return NOTHING._with(lambda _: unknown(Note.NO_DOSE))
    found = NOTHING
    for kind in kinds(in_week(item.dose, week)):
        found = found + _of_kind(item, kind, known, assume)
    return found if item.chosen else found.or_none()


def _of_kind(item: Trained, kind: Kind, known: Known, assume: Assumptions) -> Volume:
    times = often(often_of(kind.dose, *item.often), assume).times
    one = session_volume(kind.dose, item.sides, known=known, assume=assume)
    return one.times(item.rounds).times(times)


@frozen
class WeekVolume:
    """A week of several exercises.

    Attributes:
        total: all of it.
        by_region, by_movement: an exercise for two regions counts in full for each, so that
            these add up to more than the total.
    """

    total: Volume
    by_region: Mapping[Region, Volume]
    by_movement: Mapping[str, Volume]


def add_up(
    items: Sequence[Trained],
    week: int | None = None,
    *,
    known: Known = NOTHING_MEASURED,
    assume: Assumptions = USUAL,
) -> WeekVolume:
    """The week's volume of several exercises, in all and by what they train."""
    each = [(item, week_volume(item, week, known=known, assume=assume)) for item in items]
    return WeekVolume(
        total=sum((volume for _, volume in each), NOTHING),
        by_region=_by((region, volume) for item, volume in each for region in item.regions),
        by_movement=_by((name, volume) for item, volume in each for name in item.movements),
    )


def _by(pairs: Iterable[tuple[_K, Volume]]) -> Mapping[_K, Volume]:
    sums: dict[_K, Volume] = {}
    for key, volume in pairs:
        sums[key] = sums.get(key, NOTHING) + volume
    return immutabledict(sums)
