"""Where a projection stands, and what it stands on."""

from __future__ import annotations

from enum import StrEnum

from attrs import evolve, frozen

from authoring.dosage.progression.kit import RealSteps
from authoring.dosage.progression.told import Told
from authoring.model.card import Variant
from authoring.model.dose import Dose
from authoring.model.protocol import Progression


class Change(StrEnum):
    """What a week changes from the week before."""

    START = "start"
    REPS = "repetitions"
    LOAD = "load"
    SETS = "sets"
    HOLD = "hold"
    TIME = "time"
    TOTAL = "total"
    INTERVALS = "intervals"
    RUNG = "rung"
    TABLE = "week-table"
    STAY = "stay"
    LIGHTER = "lighter-week"


@frozen
class Ground:
    """What does not change in a projection.

    Attributes:
        start: the dose of the first week.
        steps: real steps of its load, or None.
        ladder: variants allowed, in rising order, the one that is done first among them.
        cap_percent: most growth of the work in a week, or None.
    """

    rule: Progression
    start: Dose
    steps: RealSteps | None = None
    ladder: tuple[Variant, ...] = ()
    cap_percent: float | None = None

    def next_rung(self, variant: Variant | None) -> Variant | None:
        """The first variant on a higher rung, or None."""
        if variant is None:
            return None
        return next((each for each in self.ladder if each.rung > variant.rung), None)


@frozen
class At:
    """A week's dose, and how it came about.

    Attributes:
        told: remarks and proposals of this week.
        stuck: nothing more to step to; what follows is the clinician's to decide.
    """

    dose: Dose
    variant: Variant | None = None
    change: Change = Change.START
    told: tuple[Told, ...] = ()
    stuck: bool = False

    def to(self, dose: Dose, change: Change, *told: Told) -> At:
        """The next week with another dose."""
        return evolve(self, dose=dose, change=change, told=told)

    def stay(self, *told: Told, stuck: bool = False) -> At:
        """The next week with the same dose."""
        return evolve(self, change=Change.STAY, told=told, stuck=stuck)
