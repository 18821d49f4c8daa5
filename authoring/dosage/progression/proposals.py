"""What else makes an exercise harder where the next step of its load is too large, or none."""

from __future__ import annotations

from collections.abc import Iterator

from authoring.dosage.progression.state import At, Ground
from authoring.dosage.progression.told import NSCA, Told
from authoring.model.base import said
from authoring.model.dose import Holds, Repetitions
from authoring.model.load import SettingLoad
from authoring.model.vocabulary import Extent

MOST_REPS = 15
"""Repetitions up to which more of them stand in for load: beyond, the load is light for
strength, and no equation compares it (authoring.dosage.strength)."""

_SLOWEST_S = 5.0


def proposals(at: At, ground: Ground) -> tuple[Told, ...]:
    """Ways to go on without a step of the load, in the order in which they are tried."""
    return (*_reps(at), *_tempo(at), *_range(at), *_lever(at), *_rung(at, ground))


def _reps(at: At) -> Iterator[Told]:
    work = at.dose.work
    if isinstance(work, Repetitions) and work.reps and work.reps[0].low < MOST_REPS:
        yield Told(
            "propose-repetitions", f"More repetitions with the same load, up to {MOST_REPS}.", NSCA
        )


def _tempo(at: At) -> Iterator[Told]:
    if not isinstance(at.dose.work, Repetitions):
        return
    tempo = at.dose.tempo
    now = tempo.lowering_s if tempo is not None else None
    slower = min(_SLOWEST_S, 3.0 if now is None else now + 1)
    if now is None or slower > now:
        yield Told("propose-tempo", f"Lower in {said(slower)} s with the same load.")


def _range(at: At) -> Iterator[Told]:
    extent = at.dose.range
    if extent is not None and extent.extent is not Extent.FULL:
        yield Told("propose-range", "More of the range, as far as the stage allows.")


def _lever(at: At) -> Iterator[Told]:
    setting = any(isinstance(load, SettingLoad) for load in at.dose.loads)
    if setting or isinstance(at.dose.work, Holds | Repetitions):
        yield Told(
            "propose-lever", "A longer lever, a lower support or less help, with the same load."
        )


def _rung(at: At, ground: Ground) -> Iterator[Told]:
    higher = ground.next_rung(at.variant)
    if higher is not None:
        yield Told(
            "propose-next-rung", f"The next variant of the ladder: {higher.name.best('en', 'en')}."
        )
