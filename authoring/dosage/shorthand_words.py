"""The words of the dose shorthand, for its reader and its writer alike.

Every table maps a spelling (lower case, tokens parted by one space) to its meaning.
Where a meaning has several spellings the writer takes the first.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeVar

from authoring.model.sentence import Sentence, say
from authoring.model.vocabulary import (
    Carried,
    Counting,
    DecidedBy,
    Extent,
    IntervalRole,
    Joint,
    Motion,
    PaceWord,
    Quantity,
    RestUntil,
    SessionLabel,
    SettingKind,
    Sides,
    Speed,
    Unit,
    Until,
    WeightUnit,
)

_T = TypeVar("_T")


def spelling(table: Mapping[str, _T], meaning: _T) -> str:
    """The first spelling of a meaning; "" where the table has none."""
    return next((words for words, value in table.items() if value == meaning), "")


def _each(table: Mapping[_T, str]) -> dict[str, _T]:
    """Spellings parted by ``|`` turned into one entry each."""
    return {words: value for value, line in table.items() for words in line.split("|")}


TIME: Mapping[str, int] = _each(
    {
        1: "s|sec|secs|second|seconds",
        60: "min|mins|minute|minutes",
        3600: "h|hr|hrs|hour|hours",
    }
)
DISTANCE: Mapping[str, int] = _each(
    {1: "m|metre|metres|meter|meters", 1000: "km|kms|kilometre|kilometres|kilometer|kilometers"}
)
WEIGHT: Mapping[str, WeightUnit] = _each(
    {WeightUnit.KG: "kg|kgs|kilo|kilos", WeightUnit.LB: "lb|lbs|pound|pounds"}
)
MEASURED: Mapping[str, Unit] = _each(
    {
        Unit.CENTIMETRES: "cm|cms",
        Unit.METRES: "m|metre|metres|meter|meters",
        Unit.KILOMETRES: "km",
        Unit.NEWTONS: "N|n|newtons",
        Unit.NEWTON_METRES: "Nm|nm",
        Unit.MMHG: "mmHg|mmhg|mm hg",
        Unit.DEGREES: "deg|degs|degree|degrees",
    }
)
SPEED_UNIT: Mapping[str, bool] = dict.fromkeys(("km / h", "kph", "kmh", "km / hr"), True)

COUNTING: Mapping[str, Counting] = {
    **_each({Counting.REPETITIONS: "reps|rep|repetition|repetitions|times"}),
    **{
        words: kind
        for kind in Counting
        if kind is not Counting.REPETITIONS
        for words in (kind.value, "catch" if kind is Counting.CATCHES else kind.value[:-1])
    },
}

SET_WORDS = ("sets", "set", "rounds", "round", "bouts", "bout")

UNTIL: Mapping[str, Until] = _each(
    {
        Until.GOOD_FORM: "max good form|good form|max reps good form|as many as good form"
        "|as many as good form allows|to good form|until form goes",
        Until.FATIGUE: "to fatigue|until fatigue|till fatigue|to failure|until failure",
        Until.QUALITY: "quality|quality reps|quality only|good quality|stop before failure",
    }
)

_LIMBS = ("side", "leg", "arm", "foot", "hand", "knee", "hip", "ankle", "shoulder", "elbow")

SIDES: Mapping[str, Sides] = {
    **_each(
        {
            Sides.EACH: "each side|each|ea|/ side|/ leg|/ arm",
            Sides.BOTH_TOGETHER: "both together|both|together|bilateral",
            Sides.AFFECTED: "affected side|affected|aff side|involved side",
            Sides.OTHER: "other side|unaffected side|sound side|uninvolved side",
            Sides.ALTERNATE: "alternate|alternating|alternate sides|alternating sides|alt sides"
            "|alt legs|alt arms|alternate legs|alternate arms|alternating legs|alternating arms",
            Sides.AFFECTED_THEN_OTHER: "affected then other|affected then other side",
        }
    ),
    **{f"{each} {limb}": Sides.EACH for each in ("each", "per", "ea") for limb in _LIMBS},
    **{f"affected {limb}": Sides.AFFECTED for limb in _LIMBS},
    **{f"both {limb}": Sides.BOTH_TOGETHER for limb in ("legs", "arms", "feet", "hands")},
}

CARRIED: Mapping[str, Carried] = _each(
    {
        Carried.EACH_HAND: "each hand|per hand|in each hand|ea hand",
        Carried.ONE_HAND: "one hand|in one hand|1 hand",
        Carried.BAR: "bar|barbell|on bar",
        Carried.CUFF: "cuff|ankle cuff|wrist cuff",
        Carried.BACKPACK: "backpack|rucksack|in backpack",
        Carried.VEST: "vest|weight vest|weighted vest",
        Carried.MACHINE: "machine|on machine|stack",
    }
)

REST_UNTIL: Mapping[str, RestUntil] = _each(
    {
        RestUntil.BREATH_SETTLES: "until breath settles|until breathing settles",
        RestUntil.WALK_BACK: "walk back|walk-back|until walked back",
        RestUntil.READY: "until ready|as needed",
        RestUntil.OTHER_SIDE_DONE: "until other side done|while other side works|other side",
    }
)

EXTENT: Mapping[str, Extent] = {
    f"{word} {noun}": extent
    for extent, words in {
        Extent.COMFORTABLE: ("comfortable", "pain-free"),
        Extent.LIMITED: ("limited", "part", "partial"),
        Extent.INNER: ("inner",),
        Extent.MIDDLE: ("mid", "middle"),
        Extent.OUTER: ("outer",),
        Extent.FULL: ("full",),
    }.items()
    for word in words
    for noun in ("range", "rom")
}

JOINT: Mapping[str, Joint] = {
    **{joint.value.replace("_", " "): joint for joint in Joint},
    **_each({Joint.FINGERS: "finger", Joint.TOES: "toe", Joint.LOWER_BACK: "lumbar"}),
}
MOTION: Mapping[str, Motion] = {
    **{motion.value.replace("_", " "): motion for motion in Motion},
    **_each(
        {
            Motion.FLEXION: "flex",
            Motion.EXTENSION: "ext",
            Motion.ABDUCTION: "abd",
            Motion.ADDUCTION: "add",
            Motion.INTERNAL_ROTATION: "ir",
            Motion.EXTERNAL_ROTATION: "er",
            Motion.DORSIFLEXION: "df",
            Motion.PLANTARFLEXION: "pf",
        }
    ),
}
USUAL_MOTION: Mapping[Joint, Motion] = {Joint.KNEE: Motion.FLEXION, Joint.ELBOW: Motion.FLEXION}
"""Joints where the trade writes an angle without its movement."""

SPEED: Mapping[str, Speed] = _each(
    {
        Speed.SLOW: "slow|slowly",
        Speed.MODERATE: "moderate speed",
        Speed.OWN_PACE: "own pace",
        Speed.FAST: "fast|quick",
        Speed.EXPLOSIVE: "explosive|explosively",
    }
)
TEMPO_PART: Mapping[str, str] = _each(
    {
        "lowering_s": "lower|lowering|down|eccentric|ecc",
        "lifting_s": "lift|lifting|up|concentric|con",
        "pause_low_s": "pause at bottom|pause bottom|pause low",
        "pause_high_s": "pause at top|pause top|pause high",
    }
)

PACE: Mapping[str, PaceWord] = {
    **{f"{pace.value} pace": pace for pace in PaceWord},
    **{pace.value: pace for pace in PaceWord},
}
TALK: Mapping[str, bool] = _each(
    {True: "can talk|able to talk", False: "can't talk|cannot talk|no talking"}
)

SETTING: Mapping[str, SettingKind] = {kind.value: kind for kind in SettingKind}

SHARE_OF: Mapping[str, Quantity] = _each(
    {
        Quantity.MAX_EFFORT: "MVC|mvc|mvic|max effort|max",
        Quantity.BODY_WEIGHT: "BW|bw|bodyweight|body weight|body mass",
        Quantity.MAX_HEART_RATE: "HRmax|hrmax|max hr|hr max|mhr|max heart rate",
        Quantity.BEST_TIME: "best time",
        Quantity.BEST_DISTANCE: "best distance",
        Quantity.TOP_SPEED: "top speed|max speed",
        Quantity.PAIN_FREE_FORCE: "pain-free force|pain free force",
    }
)
BODY_WEIGHT: Mapping[str, bool] = dict.fromkeys(("bw", "bodyweight", "body weight"), True)

OPEN: Mapping[str, DecidedBy] = _each(
    {
        DecidedBy.PATIENT: "as tolerated|as able|per patient",
        DecidedBy.CLINICIAN: "per clinician|as advised|per physio",
        DecidedBy.SURGEON: "per surgeon|as per surgeon",
    }
)

ROLE: Mapping[str, IntervalRole] = _each(
    {
        IntervalRole.WARM_UP: "warm-up|warm up|warmup|w / u",
        IntervalRole.COOL_DOWN: "cool-down|cool down|cooldown|c / d|warm-down",
    }
)
PART_ROLE: Mapping[str, IntervalRole] = _each(
    {IntervalRole.WORK: "work", IntervalRole.RECOVER: "recover|recovery"}
)

WEEK = ("wk", "wks", "week", "weeks", "w")
DAY = ("day", "d")
SESSION: Mapping[str, SessionLabel] = {label.value: label for label in SessionLabel}

FREQUENCY: Mapping[str, tuple[str, int]] = _each(
    {
        ("times_per_day", 1): "od|once daily|once a day|once per day",
        ("times_per_day", 2): "bd|bid|twice daily|twice a day|twice per day",
        ("times_per_day", 3): "tds|tid|thrice daily|three times a day",
        ("times_per_day", 4): "qds|qid|four times a day",
        ("every_days", 1): "daily|every day|each day",
        ("every_days", 2): "alt days|alternate days|eod|every other day|every second day|alt day",
        ("every_hours", 1): "hourly|every hour",
        ("days_per_week", 1): "weekly|once a week|once weekly|once per week",
        ("days_per_week", 2): "twice a week|twice weekly|twice per week",
        ("days_per_week", 3): "three times a week|thrice weekly|three times per week",
    }
)
"""Latin abbreviations as the British National Formulary lists them (od, bd, tds, qds),
and the American bid, tid, qid."""

_ONE_SIDE = (
    say("A dose does not name left or right."),
    say("Write 'affected side' or 'other side', so that it fits both."),
)


def _twofold(words: str, mend: Sentence) -> tuple[Sentence, Sentence]:
    return say("'{words}' can be read in two ways.", words=words), mend


MISREAD: Mapping[str, tuple[Sentence, Sentence]] = {
    "qd": _twofold("qd", say("Write 'od' for once a day or 'qds' for four times a day.")),
    "qod": _twofold("qod", say("Write 'alt days'.")),
    "alt": _twofold("alt", say("Write 'alternate' for the sides or 'alt days' for the days.")),
    "moderate": _twofold("moderate", say("Write 'moderate speed', or the effort as 'RPE 5'.")),
    "both sides": _twofold("both sides", say("Write 'both together' or 'each side'.")),
    "amrap": (
        say("'AMRAP' does not say what ends the set."),
        say("Write 'to fatigue' or 'max good form'."),
    ),
    "prn": (
        say("'prn' does not say how often."),
        say("Write how often, such as 'od' or '3/wk'."),
    ),
    **dict.fromkeys(("left", "right", "l", "r"), _ONE_SIDE),
}
"""What is not taken: what was wrong, how to mend it. qd and qod are on the Joint
Commission's "Do Not Use" list."""
