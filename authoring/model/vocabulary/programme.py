"""What a programme is, who gives it, and what it rests on."""

from enum import StrEnum


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


class Paper(StrEnum):
    """Paper size."""

    A4 = "a4"
    LETTER = "letter"


class TypeSize(StrEnum):
    """Print size of a handout."""

    STANDARD = "standard"
    LARGE = "large"
