"""Closed lists, nouns and fields in the words of the screens. No Qt here.

Most words follow from the names in the files; what would read badly has words of its
own here. All of them are in the catalogues (see :mod:`authoring.editor.catalogue`).
"""

from __future__ import annotations

import enum
import re
from collections.abc import Mapping

from authoring.editor.i18n import mark, tr
from authoring.model.base import Node
from authoring.model.figure_look import Age, Build, Footwear, Hair, HairColour, Legwear, Skin
from authoring.model.pose import (
    ArrowForm,
    BodyPoint,
    Direction,
    Face,
    HeldKind,
    LineKind,
    Other,
    PropKind,
    View,
    Width,
)
from authoring.model.vocabulary import (
    Better,
    CapOf,
    CautionKind,
    Comparator,
    Counting,
    LimbUse,
    Mode,
    Paper,
    PauseAction,
    ProgressionMethod,
    Quantity,
    ReferenceKind,
    Region,
    RestUntil,
    SessionLabel,
    SideComparison,
    Sides,
    Unit,
    Until,
    Urgency,
    WeightUnit,
)

_MEMBERS: tuple[tuple[enum.Enum, str], ...] = (
    (Unit.PAIN_0_10, mark("Pain, 0 to 10")),
    (Unit.EFFORT_0_10, mark("Effort, 0 to 10")),
    (Unit.SECONDS, mark("Seconds")),
    (Unit.MINUTES, mark("Minutes")),
    (Unit.CENTIMETRES, mark("Centimetres")),
    (Unit.METRES, mark("Metres")),
    (Unit.KILOMETRES, mark("Kilometres")),
    (Unit.KILOGRAMS, mark("Kilograms")),
    (Unit.POUNDS, mark("Pounds")),
    (Unit.NEWTONS, mark("Newtons")),
    (Unit.NEWTON_METRES, mark("Newton metres")),
    (Unit.MMHG, mark("Millimetres of mercury")),
    (Unit.DEGREES, mark("Degrees")),
    (Unit.KM_PER_HOUR, mark("Kilometres an hour")),
    (Unit.BEATS_PER_MINUTE, mark("Beats a minute")),
    (Unit.WATTS, mark("Watts")),
    (Unit.CMH2O, mark("Centimetres of water")),
    (Unit.NEWTON_METRES_PER_KILOGRAM, mark("Newton metres per kilogram")),
    (Unit.STEPS, mark("Steps taken")),
    (Unit.FEET, mark("Feet")),
    (Unit.YARDS, mark("Yards")),
    (Quantity.ONE_RM, mark("One-repetition maximum")),
    (Quantity.N_RM, mark("Maximum for a number of repetitions")),
    (Quantity.OTHER, mark("Another test")),
    (Until.COUNT, mark("The number is reached")),
    (Until.GOOD_FORM, mark("Form is lost (the number is the most)")),
    (Until.FATIGUE, mark("The muscle is tired")),
    (Until.QUALITY, mark("Quality drops")),
    (Sides.EACH, mark("Each side")),
    (Sides.AFFECTED, mark("The affected side")),
    (Sides.OTHER, mark("The other side")),
    (Sides.AFFECTED_THEN_OTHER, mark("Affected side, then the other")),
    (SideComparison.AFFECTED, mark("The affected side")),
    (SideComparison.OTHER, mark("The other side")),
    (SideComparison.EACH, mark("Each side")),
    (SideComparison.PERCENT_OF_OTHER, mark("Percent of the other side")),
    (SideComparison.DIFFERENCE_FROM_OTHER, mark("Difference from the other side")),
    (SideComparison.PERCENT_OF_BASELINE, mark("Percent of the person's own baseline")),
    (LimbUse.BOTH, mark("Both sides")),
    (LimbUse.AFFECTED, mark("The affected side")),
    (LimbUse.OTHER, mark("The other side")),
    (Better.HIGHER, mark("Higher is better")),
    (Better.LOWER, mark("Lower is better")),
    (Comparator.AT_LEAST, mark("At least (≥)")),
    (Comparator.ABOVE, mark("Above (>)")),
    (Comparator.AT_MOST, mark("At most (≤)")),
    (Comparator.BELOW, mark("Below (<)")),
    (Comparator.EQUALS, mark("Exactly (=)")),
    (Urgency.EMERGENCY, mark("Emergency")),
    (Urgency.SAME_DAY, mark("Medical care the same day")),
    (Urgency.CALL_CLINIC, mark("Call the clinic")),
    (Urgency.STOP_EXERCISE, mark("Stop this exercise")),
    (PauseAction.CALL_CLINIC, mark("Call the clinic")),
    (CautionKind.CONTRAINDICATION, mark("Contraindication (not for these)")),
    (CautionKind.PRECAUTION, mark("Precaution (take care)")),
    (CautionKind.STOP_SIGN, mark("Stop sign (what to watch for)")),
    (CautionKind.EXPECTED_RESPONSE, mark("Expected response (what is normal)")),
    (RestUntil.BREATH_SETTLES, mark("Until the breath settles")),
    (RestUntil.WALK_BACK, mark("The walk back")),
    (RestUntil.READY, mark("Until ready")),
    (RestUntil.OTHER_SIDE_DONE, mark("While the other side works")),
    (WeightUnit.KG, mark("Kilograms")),
    (WeightUnit.LB, mark("Pounds")),
    (ProgressionMethod.REPS_THEN_LOAD, mark("Repetitions first, then load")),
    (ProgressionMethod.TWO_FOR_TWO, mark("Two for two")),
    (Paper.A4, mark("A4")),
    # One English word would be several in other languages: "steps" of a text and of a walk.
    (CapOf.STEPS, mark("Steps taken")),
    (Counting.STEPS, mark("Steps taken")),
    (ReferenceKind.REVIEW, mark("Review of studies")),
    (SessionLabel.LIGHT, mark("Light session")),
    (SessionLabel.MODERATE, mark("Moderate session")),
    (SessionLabel.HEAVY, mark("Heavy session")),
    (SessionLabel.TECHNIQUE, mark("Technique session")),
    (Mode.DYNAMIC, mark("Moving")),
    (Mode.ISOMETRIC, mark("Holding")),
    (Mode.PLYOMETRIC, mark("Jumping")),
    (Mode.STRETCH, mark("Stretching")),
    (Mode.MOBILITY, mark("Loosening")),
    (Mode.MOTOR_CONTROL, mark("Movement control")),
    (Mode.CARDIO, mark("Paced")),
    # Each with its noun: other languages give the word an ending by it.
    (Skin.LIGHT, mark("Light skin")),
    (Skin.TAN, mark("Tan skin")),
    (Skin.OLIVE, mark("Olive skin")),
    (Skin.BROWN, mark("Brown skin")),
    (Skin.DARK, mark("Dark skin")),
    (Hair.SHORT, mark("Short hair")),
    (Hair.CURLY, mark("Curly hair")),
    (Hair.BOB, mark("Chin-length hair")),
    (Hair.TIED, mark("Hair tied back")),
    (Hair.BUN, mark("Hair in a bun")),
    (Hair.SCARF, mark("Head scarf")),
    (Hair.NONE, mark("Bald head")),
    (HairColour.BLACK, mark("Black hair")),
    (HairColour.BROWN, mark("Brown hair")),
    (HairColour.SAND, mark("Fair hair")),
    (HairColour.GREY, mark("Grey hair")),
    (Build.SLIM, mark("Slim build")),
    (Build.MEDIUM, mark("Medium build")),
    (Build.BROAD, mark("Broad build")),
    (Age.ADULT, mark("Younger face")),
    (Age.OLDER, mark("Older face")),
    (Legwear.SHORTS, mark("Shorts")),
    (Legwear.LEGGINGS, mark("Leggings")),
    (Footwear.SHOES, mark("Shoes")),
    (Footwear.BARE, mark("Bare feet")),
    (BodyPoint.BALL, mark("Ball of the foot")),
    (BodyPoint.BACK, mark("Upper back")),
    (BodyPoint.GRIP, mark("Closed hand")),
    (BodyPoint.OUTER_FOOT, mark("Outer edge of the foot")),
    (BodyPoint.SEAT, mark("Seat of the body")),
    (Direction.FORWARD, mark("Forwards")),
    (Direction.BACK, mark("Backwards")),
    (Direction.UP, mark("Upwards")),
    (Direction.DOWN, mark("Downwards")),
    (Direction.OUT, mark("Outwards")),
    (Direction.IN, mark("Inwards")),
    (Face.FRONT, mark("Its front")),
    (Face.BACK, mark("Its back")),
    (Face.OUTER, mark("Its outer side")),
    (Face.INNER, mark("Its inner side")),
    (View.SIDE, mark("From the side")),
    (View.FRONT, mark("From the front")),
    (View.THREE_QUARTER, mark("Three-quarter view")),
    (View.BACK, mark("From behind")),
    (Width.TOGETHER, mark("Not at all")),
    (Width.HIP, mark("Hip-width")),
    (Width.SHOULDER, mark("Shoulder-width")),
    (Width.WIDE, mark("Wider than the shoulders")),
    (Width.VERY_WIDE, mark("Very wide")),
    (ArrowForm.WAY, mark("The way it takes")),
    (ArrowForm.STRAIGHT, mark("Straight line")),
    (ArrowForm.PUSH, mark("Push or pull")),
    (Other.SAME, mark("Same side")),
    (Other.OTHER, mark("Other side")),
    (PropKind.BOX, mark("Box or step")),
    (PropKind.BALL, mark("Gym ball")),
    (HeldKind.BALL, mark("Ball in the hand")),
    (LineKind.BAND, mark("Band")),
    (Region.FOOT_ANKLE, mark("Foot and ankle")),
    (Region.WRIST_HAND, mark("Wrist and hand")),
)

# By class too: members of two closed lists are equal where their words in the files are.
_WORDS = {(type(member), member.value): words for member, words in _MEMBERS}

_FIELDS: Mapping[str, str] = {
    "id": mark("Short id"),
    "slug": mark("Short name in files"),
    "doi": mark("DOI"),
    "alt": mark("Words for people who can't see it"),
    "high": mark("Upper end"),
    "low": mark("Lower end"),
    "also": mark("Also called"),
    "then": mark("Then"),
    "when": mark("When"),
    "extra": mark("Unknown fields"),
    "kind": mark("Kind"),
    "Card.id": mark("Id of the file"),
    "Protocol.id": mark("Id of the file"),
    "LibraryFile.id": mark("Id of the library"),
    "Branch.then": mark("What follows"),
    "Variant.rung": mark("Rung"),
    "Variant.mode": mark("Kind of work"),
    "Variant.in_short": mark("In short"),
    "Variant.hold": mark("Stands in for"),
    "Card.faults": mark("Common faults"),
    "Card.variants": mark("Ladder"),
    "Card.forbidden": mark("Set-ups that must not be used"),
    "Entry.start": mark("Variant to start with"),
    "Entry.allowed": mark("Variants allowed"),
    "Entry.together": mark("Done side by side"),
    "Entry.may_hold": mark("Holds that may replace movement"),
    "Entry.choice": mark("Either/or choice"),
    "Holds.hold_s": mark("Seconds of a hold"),
    "Cap.of": mark("What is counted"),
    "Cap.per": mark("In what time"),
    "step": mark("Smallest step"),
    "Stage.caps": mark("At most"),
    "Stage.care": mark("Care beside exercise"),
    "Stage.entry": mark("To enter"),
    "Stage.pauses": mark("After a break"),
    "Progression.step_percent": mark("Step of the load"),
    "Progression.step_percent_high": mark("Largest step percent"),
    "Protocol.not_for": mark("For whom not"),
    "Protocol.excluded": mark("Conditions it is not for"),
    "KitNeed.spare": mark("Can be done without"),
    "Measured.high": mark("Upper value"),
    "Measured.better": mark("Which way is better"),
    "Term.needs_caution": mark("Needs a caution"),
    "Term.side_lying": mark("Loads the side that is lain on"),
    "Clinic.second_approver": mark("An author alone can't approve"),
    "Clinic.protocol_numbers": mark("A patient's plan keeps the protocol's numbers"),
    "Progression.patient_may_step_up": mark("The patient may step up alone"),
    "Block.in_order": mark("The order must be kept"),
    "LimbLimit.passive_only": mark("Only moved for the patient"),
    "Clinic.figure": mark("People in drawn pictures"),
    "FigureLook.skins": mark("Skin"),
    "FigureLook.hair": mark("Hair"),
    "FigureLook.hair_colours": mark("Colour of hair"),
    "FigureLook.builds": mark("Body build"),
    "FigureLook.ages": mark("Age"),
    "FigureLook.legwear": mark("Clothes of the legs"),
    "FigureLook.footwear": mark("On the feet"),
    "FigureLook.top": mark("Colour of the shirt"),
    "FigureLook.bottom": mark("Colour of shorts or leggings"),
    "FigureLook.mark_side": mark("Bands show the affected side"),
    "Contact.on": mark("Rests on"),
    "Prop.beside": mark("Runs beside the person"),
    "Prop.forward_cm": mark("Near edge, forward"),
    "Prop.across_cm": mark("Middle, to the right"),
    "forward_cm": mark("Forward"),
    "up_cm": mark("Up"),
    "across_cm": mark("To the right"),
    "PosePhase.phase": mark("Moment"),
    "PosePhase.hold": mark("Held still"),
    "Pose.phases": mark("Moments"),
    "Pose.lines": mark("What pulls"),
    "Pose.held": mark("Held or worn"),
    "Pose.earlier": mark("Earlier moment to compare with"),
    "Pose.ghost": mark("Pale earlier body"),
    "Pose.dashed": mark("Dashed earlier limbs"),
    "Pose.slug": mark("Short name in files"),
    "Pose.id": mark("Id of the file"),
    "ApartBy.width": mark("How far apart"),
    "PaceLoad.can_talk": mark("Talking must stay possible"),
}

_CLASSES: Mapping[str, str] = {
    "Prop": mark("Support"),
    "Held": mark("Held or worn thing"),
    "Line": mark("What pulls"),
    "ApartBy": mark("How far apart"),
    "Facing": mark("Facing a way"),
    "Pointing": mark("Slope of a part"),
    "Straight": mark("In one line"),
    "PlaceAnchor": mark("Fixed place"),
    "BodyAnchor": mark("Place on the body"),
    "PosePhase": mark("Moment"),
    "Base": mark("Pelvis and position"),
    "InWords": mark("In words"),
    "TimePassed": mark("Time passed"),
    "AllOf": mark("All of several"),
    "AnyOf": mark("Any of several"),
    "TotalRepetitions": mark("Total to build up to"),
    "LeftOpen": mark("Left open"),
    "Either": mark("Either of several"),
    "BodyWeightLoad": mark("Body weight"),
    "WeightLoad": mark("Weight"),
    "PercentLoad": mark("Percent of a measured value"),
    "RepMaxLoad": mark("Repetition maximum"),
    "BandLoad": mark("Elastic band"),
    "EffortLoad": mark("Effort, 0 to 10"),
    "ReserveLoad": mark("Repetitions in reserve"),
    "PaceLoad": mark("Pace"),
    "UnitLoad": mark("Steps of another unit"),
    "SettingLoad": mark("Setting without a number"),
    "Measured": mark("Measured value"),
    "PainRule": mark("Pain rule"),
    "FigureLook": mark("Drawn person"),
    "KitNeed": mark("Kit"),
    "WeekSpan": mark("Weeks"),
    "LibraryFile": mark("Library"),
}

_UNITS: tuple[tuple[str, str], ...] = (
    ("_cm", "cm"),
    ("_km_h", "km/h"),
    ("_percent", "%"),
    ("_deg", "°"),
    ("_min", "min"),
    ("_kg", "kg"),
    ("_s", "s"),
    ("_n", "N"),
    ("_h", "h"),
)


def humane(name: str) -> str:
    """A name of the files as words: ``rest_between_sets`` is "Rest between sets"."""
    spaced = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", name).replace("_", " ").lower()
    return spaced[:1].upper() + spaced[1:]


def english_of_member(member: enum.Enum) -> str:
    """The English words of a member of a closed list; also its key in the catalogues."""
    return _WORDS.get((type(member), member.value)) or humane(str(member.value))


def words_of(member: enum.Enum) -> str:
    """A member of a closed list in words."""
    return tr(english_of_member(member))


def unit_of(field: str) -> str:
    """The unit that a field's name carries ("s", "kg"), "" for none."""
    return next((unit for ending, unit in _UNITS if field.endswith(ending)), "")


def english_of_field(cls: type[Node], field: str) -> str:
    """The English label of a field; also its key in the catalogues."""
    own = _FIELDS.get(f"{cls.__name__}.{field}") or _FIELDS.get(field)
    if own:
        return own
    ending = next((ending for ending, _ in _UNITS if field.endswith(ending)), "")
    return humane(field.removesuffix(ending) or field)


def field_words(cls: type[Node], field: str) -> str:
    """The label of a field."""
    return tr(english_of_field(cls, field))


def english_of_class(cls: type[Node]) -> str:
    """The English name of a noun; also its key in the catalogues."""
    return _CLASSES.get(cls.__name__) or humane(cls.__name__)


def class_words(cls: type[Node]) -> str:
    """A noun's name."""
    return tr(english_of_class(cls))
