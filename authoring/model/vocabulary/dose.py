"""How much, how hard, how fast and how often."""

from enum import StrEnum


class Counting(StrEnum):
    """What is counted in a set."""

    REPETITIONS = "repetitions"
    STEPS = "steps"
    STANDS = "stands"
    THROWS = "throws"
    CONTACTS = "contacts"
    JUMPS = "jumps"
    HOPS = "hops"
    CATCHES = "catches"
    BREATHS = "breaths"
    LENGTHS = "lengths"
    TURNS = "turns"


class Until(StrEnum):
    """What ends a set."""

    COUNT = "count"
    GOOD_FORM = "good_form"
    FATIGUE = "fatigue"
    QUALITY = "quality"


class Sides(StrEnum):
    """Which side works."""

    BOTH_TOGETHER = "both_together"
    EACH = "each"
    AFFECTED = "affected"
    OTHER = "other"
    ALTERNATE = "alternate"
    AFFECTED_THEN_OTHER = "affected_then_other"


class WeightUnit(StrEnum):
    """Unit of a load."""

    KG = "kg"
    LB = "lb"


class Carried(StrEnum):
    """How a weight is held or worn."""

    TOTAL = "total"
    EACH_HAND = "each_hand"
    ONE_HAND = "one_hand"
    BAR = "bar"
    CUFF = "cuff"
    BACKPACK = "backpack"
    VEST = "vest"
    MACHINE = "machine"


class Quantity(StrEnum):
    """A measured value that a dose is a share of."""

    ONE_RM = "one_rm"
    N_RM = "n_rm"
    MAX_EFFORT = "max_effort"
    BODY_WEIGHT = "body_weight"
    BEST_TIME = "best_time"
    BEST_DISTANCE = "best_distance"
    TOP_SPEED = "top_speed"
    MAX_HEART_RATE = "max_heart_rate"
    PAIN_FREE_FORCE = "pain_free_force"
    OTHER = "other"


class SettingKind(StrEnum):
    """A load that has no number."""

    LEAN = "lean"
    SURFACE = "surface"
    SPEED = "speed"
    PUSH = "push"
    LEVER = "lever"
    HEIGHT = "height"
    SUPPORT = "support"
    RESISTANCE = "resistance"


class Speed(StrEnum):
    """Speed of a movement in a word."""

    SLOW = "slow"
    MODERATE = "moderate"
    OWN_PACE = "own_pace"
    FAST = "fast"
    EXPLOSIVE = "explosive"


class PaceWord(StrEnum):
    """Pace of walking, running or cycling in a word."""

    EASY = "easy"
    STEADY = "steady"
    BRISK = "brisk"
    HARD = "hard"
    SPRINT = "sprint"


class RestUntil(StrEnum):
    """Rest that ends with an event instead of a time."""

    BREATH_SETTLES = "breath_settles"
    WALK_BACK = "walk_back"
    READY = "ready"
    OTHER_SIDE_DONE = "other_side_done"


class IntervalRole(StrEnum):
    """Part an interval plays."""

    WARM_UP = "warm_up"
    WORK = "work"
    RECOVER = "recover"
    COOL_DOWN = "cool_down"


class SessionLabel(StrEnum):
    """Kinds of session that one dose may have side by side."""

    LIGHT = "light"
    MODERATE = "moderate"
    HEAVY = "heavy"
    TECHNIQUE = "technique"


class DecidedBy(StrEnum):
    """Who fills a dose that is left open."""

    CLINICIAN = "clinician"
    SURGEON = "surgeon"
    PATIENT = "patient"


class ProgressionMethod(StrEnum):
    """Rule by which a dose grows."""

    REPS_THEN_LOAD = "reps_then_load"
    TWO_FOR_TWO = "two_for_two"
    PERCENT_STEP = "percent_step"
    SETS_FIRST = "sets_first"
    HOLD_TIME = "hold_time"
    DURATION = "duration"
    RANGE_OF_MOVEMENT = "range_of_movement"
    TOTAL = "total"
    INTERVALS = "intervals"
    BALANCE = "balance"
    WEEK_TABLE = "week_table"
    NEXT_RUNG = "next_rung"
    CLINICIAN = "clinician"
