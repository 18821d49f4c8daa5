"""The dose that counts: in a week of the stage, in a kind of session, on which side."""

from __future__ import annotations

from attrs import frozen

from authoring.model.base import evolve
from authoring.model.dose import Dose, DoseChange, Frequency, WeekRow
from authoring.model.vocabulary import SessionLabel, Sides


def changed(dose: Dose, change: DoseChange) -> Dose:
    """The dose with what a change gives; its own table and kinds of session are gone."""
    given = {
        name: value
        for name in ("work", "loads", "rest", "tempo", "range", "sides", "frequency")
        if (value := getattr(change, name)) is not None
    }
    return evolve(dose, weeks=(), sessions=(), **given)


def row_of_week(dose: Dose, week: int) -> WeekRow | None:
    """The row of the week table that holds in a week of the stage (counted from 1), or None."""
    return next(
        (
            row
            for row in dose.weeks
            if row.from_week <= week and (row.to_week is None or week <= row.to_week)
        ),
        None,
    )


def in_week(dose: Dose, week: int | None) -> Dose:
    """The dose in a week of the stage: its row applied, its kinds of session kept.

    Weeks that no row covers, and None, have the dose as written.
    """
    if week is None or not dose.weeks:
        return evolve(dose, weeks=()) if dose.weeks else dose
    row = row_of_week(dose, week)
    if row is None:
        return evolve(dose, weeks=())
    return evolve(changed(dose, row.change), sessions=dose.sessions)


@frozen
class Kind:
    """One kind of session of a dose; ``label`` is None where there is only one."""

    label: SessionLabel | None
    dose: Dose


def kinds(dose: Dose) -> tuple[Kind, ...]:
    """Each kind of session with its own dose; the dose itself where it names none."""
    if not dose.sessions:
        return (Kind(None, dose),)
    return tuple(Kind(kind.label, changed(dose, kind.change)) for kind in dose.sessions)


def side_of(dose: Dose, elsewhere: Sides | None) -> Sides | None:
    """The side of a dose, else the one that its entry names."""
    return dose.sides if dose.sides is not None else elsewhere


def often_of(dose: Dose, *elsewhere: Frequency | None) -> Frequency | None:
    """How often: the dose's own, else the first given of its block's and its stage's."""
    return next((each for each in (dose.frequency, *elsewhere) if each is not None), None)
