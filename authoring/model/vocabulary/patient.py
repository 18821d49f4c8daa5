"""What is known of a patient and what a review decides."""

from enum import StrEnum


class Irritability(StrEnum):
    """How easily the tissue flares up."""

    LOW = "low"
    MODERATE = "moderate"
    HIGH = "high"


class Side(StrEnum):
    """Affected side of a person."""

    LEFT = "left"
    RIGHT = "right"
    BOTH = "both"
    NONE = "none"


class Answer(StrEnum):
    """Answer to a red-flag question."""

    NO = "no"
    YES = "yes"
    NOT_ASKED = "not_asked"


class WeightBearing(StrEnum):
    """How much weight a limb may take."""

    NONE = "none"
    TOUCH = "touch"
    PARTIAL = "partial"
    AS_COMFORTABLE = "as_comfortable"
    FULL = "full"


class ReviewOutcome(StrEnum):
    """What a review decides for one exercise."""

    UP = "up"
    SAME = "same"
    DOWN = "down"
    HOLD_INSTEAD = "hold_instead"
    STOP = "stop"


class StageOutcome(StrEnum):
    """What a review decides for a stage."""

    MOVE_ON = "move_on"
    STAY = "stay"
    STEP_BACK = "step_back"
    STOP = "stop"


class OverrideKind(StrEnum):
    """What a clinician decided against the proposal."""

    VARIANT = "variant"
    EXERCISE = "exercise"
    DOSE = "dose"
    ADDED = "added"
    REMOVED = "removed"


class Weekday(StrEnum):
    """Day of the week."""

    MONDAY = "monday"
    TUESDAY = "tuesday"
    WEDNESDAY = "wednesday"
    THURSDAY = "thursday"
    FRIDAY = "friday"
    SATURDAY = "saturday"
    SUNDAY = "sunday"
