"""What must be true, what can go wrong, and what follows."""

from enum import StrEnum


class CautionKind(StrEnum):
    """The four kinds that the trade keeps apart."""

    CONTRAINDICATION = "contraindication"
    PRECAUTION = "precaution"
    STOP_SIGN = "stop_sign"
    EXPECTED_RESPONSE = "expected_response"


class Urgency(StrEnum):
    """Where a stop sign or red flag leads, most urgent first."""

    EMERGENCY = "emergency"
    SAME_DAY = "same_day"
    CALL_CLINIC = "call_clinic"
    STOP_EXERCISE = "stop_exercise"


class PainAction(StrEnum):
    """What to do in a band of pain."""

    CARRY_ON = "carry_on"
    STAY = "stay"
    GO_EASIER = "go_easier"
    REST = "rest"
    STEP_BACK = "step_back"
    STOP_TODAY = "stop_today"
    STOP_AND_CALL = "stop_and_call"


class PauseAction(StrEnum):
    """What to do when resuming after a break."""

    CARRY_ON = "carry_on"
    GO_EASIER = "go_easier"
    STEP_BACK = "step_back"
    RESTART_STAGE = "restart_stage"
    CALL_CLINIC = "call_clinic"


class CapOf(StrEnum):
    """What is counted against a cap, exercises of all kinds together."""

    REPETITIONS = "repetitions"
    STEPS = "steps"
    THROWS = "throws"
    CONTACTS = "contacts"
    JUMPS = "jumps"
    HOPS = "hops"
    CATCHES = "catches"
    LENGTHS = "lengths"
    MINUTES = "minutes"
    METRES = "metres"
    SESSIONS = "sessions"


class Period(StrEnum):
    """Time over which something is counted."""

    SESSION = "session"
    DAY = "day"
    WEEK = "week"


class Comparator(StrEnum):
    """How a measure is compared with its value."""

    AT_LEAST = "at_least"
    ABOVE = "above"
    AT_MOST = "at_most"
    BELOW = "below"
    EQUALS = "equals"
    BETWEEN = "between"


class Unit(StrEnum):
    """Unit of a measured value."""

    PAIN_0_10 = "pain_0_10"
    EFFORT_0_10 = "effort_0_10"
    SECONDS = "s"
    MINUTES = "min"
    DAYS = "days"
    WEEKS = "weeks"
    SESSIONS = "sessions"
    CENTIMETRES = "cm"
    METRES = "m"
    KILOMETRES = "km"
    KILOGRAMS = "kg"
    POUNDS = "lb"
    NEWTONS = "N"
    NEWTON_METRES = "N.m"
    MMHG = "mmHg"
    DEGREES = "deg"
    PERCENT = "percent"
    REPETITIONS = "repetitions"
    STEPS = "steps"
    CONTACTS = "contacts"
    TIMES = "times"
    POINTS = "points"
    KM_PER_HOUR = "km/h"
    BEATS_PER_MINUTE = "bpm"
    WATTS = "W"
    CMH2O = "cmH2O"
    NEWTON_METRES_PER_KILOGRAM = "N.m/kg"
    TIMES_BODY_WEIGHT = "times_body_weight"
    FEET = "ft"
    YARDS = "yd"


class SideComparison(StrEnum):
    """Which side is measured, and against what."""

    AFFECTED = "affected"
    OTHER = "other"
    EACH = "each"
    PERCENT_OF_OTHER = "percent_of_other"
    DIFFERENCE_FROM_OTHER = "difference_from_other"
    PERCENT_OF_BASELINE = "percent_of_baseline"


class Better(StrEnum):
    """Which way a measure improves; decides how sides are compared."""

    HIGHER = "higher"
    LOWER = "lower"


class WindowKind(StrEnum):
    """When a criterion must be true."""

    NOW = "now"
    DURING = "during"
    AFTER = "after"
    NEXT_MORNING = "next_morning"
    CONSECUTIVE_SESSIONS = "consecutive_sessions"
    CONSECUTIVE_DAYS = "consecutive_days"
    LAST_WEEKS = "last_weeks"


class Since(StrEnum):
    """Where a count of time starts."""

    STAGE_START = "stage_start"
    PROGRAMME_START = "programme_start"
    INJURY = "injury"
    OPERATION = "operation"


class BranchAction(StrEnum):
    """What follows from a finding."""

    GO_TO_STAGE = "go_to_stage"
    STAY = "stay"
    STEP_BACK = "step_back"
    USE_PROTOCOL = "use_protocol"
    LEAVE_OUT = "leave_out"
    REFER = "refer"
