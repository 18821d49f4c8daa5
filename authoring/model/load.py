"""How hard: everything that the trade writes for the load of an exercise.

A dose may carry several loads at once (20 kg at an effort of 7). None of them is
free text: what has no number is a :class:`SettingLoad` with its kind.
"""

from __future__ import annotations

from typing import ClassVar, TypeAlias

from authoring.model.base import ModelError, Node, fact, many, node, optional, said, slug
from authoring.model.sentence import say
from authoring.model.text import Text
from authoring.model.vocabulary import (
    Carried,
    PaceWord,
    Quantity,
    SettingKind,
    Unit,
    WeightUnit,
)


@node
class IntRange(Node):
    """A whole number, or a range of them, both ends included."""

    low: int = fact("The number, or the lower end.", low=0, high=1_000_000)
    high: int | None = optional("The upper end, where it is a range.", low=0, high=1_000_000)

    def __attrs_post_init__(self) -> None:
        if self.high is not None and self.high < self.low:
            raise ModelError(
                "high",
                say(
                    "high must not be below low ({low}), and is {high}.",
                    low=self.low,
                    high=self.high,
                ),
            )

    @property
    def top(self) -> int:
        """The upper end, or the number itself."""
        return self.low if self.high is None else self.high


@node
class NumberRange(Node):
    """A number, or a range of numbers, both ends included."""

    low: float = fact("The number, or the lower end.", low=0, high=1_000_000)
    high: float | None = optional("The upper end, where it is a range.", low=0, high=1_000_000)

    def __attrs_post_init__(self) -> None:
        if self.high is not None and self.high < self.low:
            raise ModelError(
                "high",
                say(
                    "high must not be below low ({low}), and is {high}.",
                    low=said(self.low),
                    high=said(self.high),
                ),
            )

    @property
    def top(self) -> float:
        """The upper end, or the number itself."""
        return self.low if self.high is None else self.high


@node
class BodyWeightLoad(Node):
    """Body weight, then added weight with its step and cap."""

    KIND: ClassVar[str] = "body_weight"

    added: NumberRange | None = optional("Weight added to the body, where some is.")
    assisted: NumberRange | None = optional(
        "Weight that a machine, band or helper takes off the body, where one does."
    )
    unit: WeightUnit = fact(
        "Unit of added or assisted weight, step and cap.", default=WeightUnit.KG
    )
    step: float | None = optional("Smallest change.", low=0, high=500)
    cap: float | None = optional("Most added weight.", low=0, high=500)
    carried: Carried = fact("How the added weight is held or worn.", default=Carried.TOTAL)

    def __attrs_post_init__(self) -> None:
        if self.added is not None and self.assisted is not None:
            raise ModelError(
                "assisted",
                say("assisted and added can't both be given: weight is taken off or put on."),
            )


@node
class WeightLoad(Node):
    """A weight, with its step and cap."""

    KIND: ClassVar[str] = "weight"

    amount: NumberRange = fact("Weight, or that of the first set.")
    per_set: tuple[NumberRange, ...] = many(
        "Weight of each set in order, where the sets differ (20, 25, 30).", longest=20
    )
    unit: WeightUnit = fact("Unit of amount, step and cap.", default=WeightUnit.KG)
    step: float | None = optional("Smallest increase.", low=0, high=500)
    cap: float | None = optional("Most weight in this stage.", low=0, high=1000)
    carried: Carried = fact("How it is held or worn.", default=Carried.TOTAL)


@node
class Measure(Node):
    """A dated measured value that a dose is a share of."""

    quantity: Quantity = fact("What was measured.")
    reps: int | None = optional(
        "Repetitions of the maximum, for an n-repetition maximum.", low=1, high=100
    )
    name: Text | None = optional("The test in words, where the list has no name for it.")
    measure: str | None = slug(
        "The same among the library's terms, so that a dated result can be found.",
        default=None,
        term="measure",
    )
    unit: Unit | None = optional("Unit of the measured value.")
    valid_weeks: int | None = optional(
        "Weeks after which it must be measured again.", low=1, high=104
    )


@node
class PercentLoad(Node):
    """A share of a measured value, the same in every set or one for each set."""

    KIND: ClassVar[str] = "percent"

    of: Measure = fact("The measured value.")
    per_set: tuple[NumberRange, ...] = fact(
        "Percent, one for all sets or one for each set in order.", fewest=1, longest=20
    )


@node
class RepMaxLoad(Node):
    """The heaviest load that can be moved this many times (8RM)."""

    KIND: ClassVar[str] = "rep_max"

    reps: IntRange = fact("Repetitions of the maximum.")


@node
class BandLoad(Node):
    """An elastic band. Colours are no calibrated step: a force needs a measured curve."""

    KIND: ClassVar[str] = "band"

    band: str | None = slug("The band among the library's kit.", default=None, term="kit")
    strength: Text | None = optional("Strength in words.")
    force_n: NumberRange | None = optional("Force in newtons, where a measured curve is known.")


@node
class EffortLoad(Node):
    """How hard it feels, from 0 (no effort) to 10 (as hard as can be)."""

    KIND: ClassVar[str] = "effort"

    rating: NumberRange = fact("Effort from 0 to 10.")

    def __attrs_post_init__(self) -> None:
        if self.rating.top > 10:
            raise ModelError(
                "rating", say("rating must be at most 10, and is {top}.", top=said(self.rating.top))
            )


@node
class ReserveLoad(Node):
    """Repetitions that could still be done at the end of a set."""

    KIND: ClassVar[str] = "reps_in_reserve"

    reps: IntRange = fact("Repetitions left.")


@node
class PaceLoad(Node):
    """Pace of walking, running, cycling or swimming."""

    KIND: ClassVar[str] = "pace"

    word: PaceWord | None = optional("Pace in a word.")
    speed_km_h: NumberRange | None = optional("Speed in kilometres an hour.")
    seconds_per_km: NumberRange | None = optional("Seconds for one kilometre.")
    can_talk: bool | None = optional("Whether talking must stay possible.")


@node
class UnitLoad(Node):
    """Steps of another unit: pressure, height, a machine's level."""

    KIND: ClassVar[str] = "unit"

    amount: NumberRange = fact("Amount, or that of the first set.")
    per_set: tuple[NumberRange, ...] = many(
        "Amount for each set in order, where the sets differ.", longest=20
    )
    unit: Unit = fact("Unit of amount, step and cap.")
    step: float | None = optional("Smallest increase.", low=0, high=10_000)
    cap: float | None = optional("Most.", low=0, high=100_000)
    what: Text | None = optional("What the amount is of.")


@node
class SettingLoad(Node):
    """A load without a number: lean, surface, speed, push, lever, height, support."""

    KIND: ClassVar[str] = "setting"

    what: SettingKind = fact("What makes it harder or easier.")
    words: Text = fact("The setting, as the patient should make it.")


Load: TypeAlias = (
    BodyWeightLoad
    | WeightLoad
    | PercentLoad
    | RepMaxLoad
    | BandLoad
    | EffortLoad
    | ReserveLoad
    | PaceLoad
    | UnitLoad
    | SettingLoad
)
