"""What an estimate of load is: a value that always carries its error band and its source."""

from __future__ import annotations

from enum import StrEnum

from attrs import frozen

from authoring.model.vocabulary import Side


class What(StrEnum):
    """What is estimated."""

    HANDS = "hands"
    FOREARMS = "forearms"
    KNEES = "knees"
    FEET = "feet"
    TRUNK = "trunk"
    HEAD = "head"
    STRAPS = "straps"
    SHOULDER = "shoulder"
    SHOULDER_ROTATION = "shoulder_rotation"
    ELBOW = "elbow"
    WRIST = "wrist"
    LOWER_BACK = "lower_back"
    HIP = "hip"
    KNEE = "knee"
    ANKLE = "ankle"
    CABLE = "cable"
    BAND = "band"


CONTACTS = frozenset(
    {What.HANDS, What.FOREARMS, What.KNEES, What.FEET, What.TRUNK, What.HEAD, What.STRAPS}
)
"""Where the body rests; the others are joints and pulls."""


class Unit(StrEnum):
    """Unit of an estimate."""

    BODY_WEIGHT = "body_weight"
    NM = "nm"
    NM_PER_KG = "nm_per_kg"
    NEWTON = "newton"
    RATIO = "ratio"


class Why(StrEnum):
    """Why there is no estimate: a still model of this body would mislead."""

    NO_POSE = "no_pose"
    UNREACHED = "unreached"
    SPEED = "speed"
    AIRBORNE = "airborne"
    BOUNCE = "bounce"
    UNSTABLE = "unstable"
    BAND = "band"
    PULL_UNKNOWN = "pull_unknown"
    MASS_UNKNOWN = "mass_unknown"
    NOT_DRAWN = "not_drawn"
    HELP = "help"
    UNBALANCED = "unbalanced"
    OPEN = "open"
    NO_MEASURE = "no_measure"


@frozen
class Estimate:
    """One figure, never without its error.

    Attributes:
        what: what it is of.
        side: limb; BOTH for both together, NONE where there is only one.
        value: the middle, in ``unit``.
        low, high: the band that the true value is claimed to lie in.
        source: where model and band come from, one sentence.
    """

    what: What
    side: Side
    value: float
    low: float
    high: float
    unit: Unit
    source: str

    @property
    def error(self) -> float:
        """The wider half of the band."""
        return max(self.high - self.value, self.value - self.low)


@frozen
class NotEstimated:
    """No figure, and why.

    Attributes:
        of: what has none; None for everything.
        detail: the sentence of a pose that can't be settled, else "".
    """

    why: Why
    of: What | None = None
    side: Side = Side.NONE
    detail: str = ""
