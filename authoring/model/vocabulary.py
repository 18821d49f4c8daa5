"""Closed lists of words. Their values stand in files, so they never change meaning.

What a clinic names for itself (conditions, kit, positions, demands, movements,
measures) is no closed list: see :class:`authoring.model.library.Term`.
"""

from enum import StrEnum


class Region(StrEnum):
    """Part of the body an exercise is for."""

    FOOT_ANKLE = "foot_ankle"
    LOWER_LEG = "lower_leg"
    KNEE = "knee"
    THIGH = "thigh"
    HIP = "hip"
    PELVIS = "pelvis"
    LOWER_BACK = "lower_back"
    UPPER_BACK = "upper_back"
    TRUNK = "trunk"
    NECK = "neck"
    SHOULDER = "shoulder"
    UPPER_ARM = "upper_arm"
    ELBOW = "elbow"
    FOREARM = "forearm"
    WRIST_HAND = "wrist_hand"
    WHOLE_BODY = "whole_body"


class Mode(StrEnum):
    """What kind of work a variant is."""

    DYNAMIC = "dynamic"
    ISOMETRIC = "isometric"
    PLYOMETRIC = "plyometric"
    BALANCE = "balance"
    STRETCH = "stretch"
    MOBILITY = "mobility"
    MOTOR_CONTROL = "motor_control"
    CARDIO = "cardio"
    BREATHING = "breathing"


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


class LimbUse(StrEnum):
    """Which limbs carry one half of a movement."""

    BOTH = "both"
    AFFECTED = "affected"
    OTHER = "other"
    WORKING = "working"
    WITH_HELP = "with_help"


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


class Extent(StrEnum):
    """How much of the range of movement is used."""

    COMFORTABLE = "comfortable"
    LIMITED = "limited"
    INNER = "inner"
    MIDDLE = "middle"
    OUTER = "outer"
    FULL = "full"


class Joint(StrEnum):
    """A joint whose angle is limited or measured."""

    ANKLE = "ankle"
    KNEE = "knee"
    HIP = "hip"
    LOWER_BACK = "lower_back"
    NECK = "neck"
    SHOULDER = "shoulder"
    ELBOW = "elbow"
    FOREARM = "forearm"
    WRIST = "wrist"
    FINGERS = "fingers"
    TOES = "toes"


class Motion(StrEnum):
    """An anatomical movement of a joint."""

    FLEXION = "flexion"
    EXTENSION = "extension"
    ABDUCTION = "abduction"
    ADDUCTION = "adduction"
    INTERNAL_ROTATION = "internal_rotation"
    EXTERNAL_ROTATION = "external_rotation"
    DORSIFLEXION = "dorsiflexion"
    PLANTARFLEXION = "plantarflexion"
    INVERSION = "inversion"
    EVERSION = "eversion"
    PRONATION = "pronation"
    SUPINATION = "supination"
    LATERAL_FLEXION = "lateral_flexion"
    ROTATION = "rotation"


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
    GO_EASIER = "go_easier"
    REST = "rest"
    STEP_BACK = "step_back"
    STOP_TODAY = "stop_today"
    STOP_AND_CALL = "stop_and_call"


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


class SideComparison(StrEnum):
    """Which side is measured, and against what."""

    AFFECTED = "affected"
    OTHER = "other"
    EACH = "each"
    PERCENT_OF_OTHER = "percent_of_other"
    DIFFERENCE_FROM_OTHER = "difference_from_other"


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
    REFER = "refer"


class CareKind(StrEnum):
    """Care beside exercise."""

    BRACE = "brace"
    SLING = "sling"
    TAPE = "tape"
    ICE = "ice"
    HEAT = "heat"
    COMPRESSION = "compression"
    ELEVATION = "elevation"
    WALKING_AID = "walking_aid"
    TEACHING = "teaching"
    LOAD_ADVICE = "load_advice"
    MANUAL_THERAPY = "manual_therapy"
    OTHER = "other"


class BlockKind(StrEnum):
    """What a group of exercises is."""

    WARM_UP = "warm_up"
    MAIN = "main"
    CIRCUIT = "circuit"
    SCRIPT = "script"
    SKILLS = "skills"
    COOL_DOWN = "cool_down"


class ProgressionMethod(StrEnum):
    """Rule by which a dose grows."""

    REPS_THEN_LOAD = "reps_then_load"
    TWO_FOR_TWO = "two_for_two"
    PERCENT_STEP = "percent_step"
    SETS_FIRST = "sets_first"
    HOLD_TIME = "hold_time"
    TOTAL = "total"
    INTERVALS = "intervals"
    WEEK_TABLE = "week_table"
    NEXT_RUNG = "next_rung"
    CLINICIAN = "clinician"


class SupportKind(StrEnum):
    """A support or helper in an exercise."""

    CHAIR = "chair"
    WALL = "wall"
    TABLE = "table"
    RAIL = "rail"
    STICK = "stick"
    WALKING_AID = "walking_aid"
    PARTNER = "partner"
    CLINICIAN = "clinician"
    OTHER_LIMB = "other_limb"
    BRACE = "brace"
    TAPE = "tape"
    FLOAT = "float"


class Phase(StrEnum):
    """Moment of a movement that a picture shows."""

    START = "start"
    MIDDLE = "middle"
    END = "end"
    HOLD = "hold"
    SET_UP = "set_up"


class Pathway(StrEnum):
    """What kind of programme a protocol is; decides which defaults apply."""

    CONSERVATIVE = "conservative"
    PREVENTION = "prevention"
    FALLS = "falls"
    POST_OPERATIVE = "post_operative"
    BONE_STRESS = "bone_stress"
    PERFORMANCE = "performance"


class Status(StrEnum):
    """Where a protocol is in its life."""

    DRAFT = "draft"
    IN_REVIEW = "in_review"
    APPROVED = "approved"
    RETIRED = "retired"


class Basis(StrEnum):
    """What a statement rests on."""

    PUBLISHED = "published"
    COMMON_PRACTICE = "common_practice"
    LOCAL_PROTOCOL = "local_protocol"
    EXPERT_OPINION = "expert_opinion"


class ReferenceKind(StrEnum):
    """Kind of publication."""

    GUIDELINE = "guideline"
    REVIEW = "review"
    TRIAL = "trial"
    STUDY = "study"
    CONSENSUS = "consensus"
    TEXTBOOK = "textbook"
    STANDARD = "standard"
    LOCAL = "local"


class TermKind(StrEnum):
    """What a term of the library names."""

    CONDITION = "condition"
    DEMAND = "demand"
    POSITION = "position"
    KIT = "kit"
    MOVEMENT = "movement"
    MEASURE = "measure"
    PURPOSE = "purpose"


class People(StrEnum):
    """Alone or in a group (CERT item 3)."""

    ALONE = "alone"
    GROUP = "group"
    EITHER = "either"


class Supervision(StrEnum):
    """Supervised or not (CERT item 4)."""

    SUPERVISED = "supervised"
    UNSUPERVISED = "unsupervised"
    MIXED = "mixed"


class Setting(StrEnum):
    """Where the programme is done (CERT item 12)."""

    HOME = "home"
    CLINIC = "clinic"
    GYM = "gym"
    POOL = "pool"
    SPORTS_GROUND = "sports_ground"
    WARD = "ward"
    REMOTE = "remote"


class Adherence(StrEnum):
    """How it is known that the exercises are done (CERT item 5)."""

    DIARY = "diary"
    ATTENDANCE = "attendance"
    REPORT_AT_REVIEW = "report_at_review"
    NONE = "none"


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


class Paper(StrEnum):
    """Paper size."""

    A4 = "a4"
    LETTER = "letter"


class TypeSize(StrEnum):
    """Print size of a handout."""

    STANDARD = "standard"
    LARGE = "large"
