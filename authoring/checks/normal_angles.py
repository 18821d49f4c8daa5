"""Normal ranges of movement, for spotting angles that are likely typing errors.

Source: American Academy of Orthopaedic Surgeons, Joint Motion: Method of Measuring
and Recording, 1965. The shoulder, elbow, forearm and wrist are as quoted in Norkin
CC, White DJ, Measurement of Joint Motion, table A.1; the rest are values from
memory and must not be relied on beyond this use.
"""

from __future__ import annotations

from collections.abc import Mapping

from attrs import frozen

from authoring.model.vocabulary import Joint, Motion

TOLERANCE = 1.15
"""Share of the normal range beyond which an angle is queried (design choice).

Children and very mobile people go further, so it is never more than a question.
"""


@frozen
class Normal:
    """Degrees at the end of the range, and whether the value is from memory."""

    degrees: float
    from_memory: bool


def _quoted(degrees: float) -> Normal:
    return Normal(degrees, from_memory=False)


def _memory(degrees: float) -> Normal:
    return Normal(degrees, from_memory=True)


NORMAL: Mapping[tuple[Joint, Motion], Normal] = {
    (Joint.SHOULDER, Motion.FLEXION): _quoted(180),
    (Joint.SHOULDER, Motion.EXTENSION): _quoted(60),
    (Joint.SHOULDER, Motion.ABDUCTION): _quoted(180),
    (Joint.SHOULDER, Motion.INTERNAL_ROTATION): _quoted(70),
    (Joint.SHOULDER, Motion.EXTERNAL_ROTATION): _quoted(90),
    (Joint.ELBOW, Motion.FLEXION): _quoted(150),
    (Joint.FOREARM, Motion.PRONATION): _quoted(80),
    (Joint.FOREARM, Motion.SUPINATION): _quoted(80),
    (Joint.WRIST, Motion.FLEXION): _quoted(80),
    (Joint.WRIST, Motion.EXTENSION): _quoted(70),
    (Joint.HIP, Motion.FLEXION): _memory(120),
    (Joint.HIP, Motion.EXTENSION): _memory(30),
    (Joint.HIP, Motion.ABDUCTION): _memory(45),
    (Joint.HIP, Motion.ADDUCTION): _memory(30),
    (Joint.HIP, Motion.INTERNAL_ROTATION): _memory(45),
    (Joint.HIP, Motion.EXTERNAL_ROTATION): _memory(45),
    (Joint.KNEE, Motion.FLEXION): _memory(135),
    (Joint.ANKLE, Motion.DORSIFLEXION): _memory(20),
    (Joint.ANKLE, Motion.PLANTARFLEXION): _memory(50),
    (Joint.ANKLE, Motion.INVERSION): _memory(35),
    (Joint.ANKLE, Motion.EVERSION): _memory(15),
    (Joint.TOES, Motion.FLEXION): _memory(45),
    (Joint.TOES, Motion.EXTENSION): _memory(70),
    (Joint.NECK, Motion.FLEXION): _memory(45),
    (Joint.NECK, Motion.EXTENSION): _memory(45),
    (Joint.NECK, Motion.LATERAL_FLEXION): _memory(45),
    (Joint.NECK, Motion.ROTATION): _memory(60),
    (Joint.LOWER_BACK, Motion.FLEXION): _memory(80),
    (Joint.LOWER_BACK, Motion.EXTENSION): _memory(25),
    (Joint.LOWER_BACK, Motion.LATERAL_FLEXION): _memory(35),
    (Joint.LOWER_BACK, Motion.ROTATION): _memory(45),
}
"""Full straightening of elbow and knee is 0 and left out: a share of it says nothing."""


def highest_plausible(joint: Joint, motion: Motion) -> float | None:
    """Degrees beyond which an angle is queried; None where no normal range is known."""
    normal = NORMAL.get((joint, motion))
    return None if normal is None else TOLERANCE * normal.degrees
