"""What an exercise is and how it is shown."""

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


class LimbUse(StrEnum):
    """Which limbs carry one half of a movement."""

    BOTH = "both"
    AFFECTED = "affected"
    OTHER = "other"
    WORKING = "working"
    WITH_HELP = "with_help"


class Phase(StrEnum):
    """Moment of a movement that a picture shows."""

    START = "start"
    MIDDLE = "middle"
    END = "end"
    HOLD = "hold"
    SET_UP = "set_up"


class Joint(StrEnum):
    """A joint whose angle is limited or measured."""

    ANKLE = "ankle"
    KNEE = "knee"
    HIP = "hip"
    LOWER_BACK = "lower_back"
    UPPER_BACK = "upper_back"
    NECK = "neck"
    SHOULDER_BLADE = "shoulder_blade"
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
    RADIAL_DEVIATION = "radial_deviation"
    ULNAR_DEVIATION = "ulnar_deviation"
    ELEVATION = "elevation"
    DEPRESSION = "depression"
    PROTRACTION = "protraction"
    RETRACTION = "retraction"


class Extent(StrEnum):
    """How much of the range of movement is used."""

    COMFORTABLE = "comfortable"
    LIMITED = "limited"
    INNER = "inner"
    MIDDLE = "middle"
    OUTER = "outer"
    FULL = "full"
