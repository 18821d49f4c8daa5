"""Angles of a pose beyond what joints normally do.

Source: American Academy of Orthopaedic Surgeons, Joint Motion: Method of Measuring and
Recording, 1965. The shoulder, elbow, forearm and wrist are as quoted in Norkin CC, White
DJ, Measurement of Joint Motion, table A.1; the rest are values from memory. People go
further, so an angle is questioned only beyond 1.15 times the normal (design choice).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from authoring.figures.angles import OPPOSITE, Key
from authoring.figures.solver import settle
from authoring.model.pose import Pose
from authoring.model.vocabulary import Joint, Motion

TOLERANCE: Final = 1.15
_LEAST_SLACK_DEG: Final = 5.0
"""Slack where the normal range ends at 0, as at the straight knee and elbow."""

NORMAL: Final[Mapping[tuple[Joint, Motion], tuple[float, float]]] = {
    (Joint.SHOULDER, Motion.FLEXION): (60, 180),
    # The opposite way counts from the raised arm: horizontal adduction.
    (Joint.SHOULDER, Motion.ABDUCTION): (135, 180),
    (Joint.SHOULDER, Motion.INTERNAL_ROTATION): (90, 70),
    (Joint.ELBOW, Motion.FLEXION): (0, 150),
    (Joint.FOREARM, Motion.PRONATION): (80, 80),
    (Joint.WRIST, Motion.FLEXION): (70, 80),
    (Joint.WRIST, Motion.RADIAL_DEVIATION): (30, 20),
    (Joint.HIP, Motion.FLEXION): (30, 120),
    (Joint.HIP, Motion.ABDUCTION): (30, 45),
    (Joint.HIP, Motion.INTERNAL_ROTATION): (45, 45),
    (Joint.KNEE, Motion.FLEXION): (0, 135),
    (Joint.ANKLE, Motion.DORSIFLEXION): (50, 20),
    (Joint.ANKLE, Motion.INVERSION): (15, 35),
    (Joint.TOES, Motion.FLEXION): (70, 45),
    (Joint.NECK, Motion.FLEXION): (45, 45),
    (Joint.NECK, Motion.LATERAL_FLEXION): (45, 45),
    (Joint.NECK, Motion.ROTATION): (60, 60),
    # The shoulder blade is not in that table: values from memory.
    (Joint.SHOULDER_BLADE, Motion.ELEVATION): (10, 40),
    (Joint.SHOULDER_BLADE, Motion.PROTRACTION): (25, 30),
    # Nor is the upper back by itself; with the lower back it makes up the thoracolumbar spine.
    (Joint.UPPER_BACK, Motion.FLEXION): (25, 45),
    (Joint.UPPER_BACK, Motion.LATERAL_FLEXION): (35, 35),
    (Joint.UPPER_BACK, Motion.ROTATION): (45, 45),
    (Joint.LOWER_BACK, Motion.FLEXION): (25, 80),
    (Joint.LOWER_BACK, Motion.LATERAL_FLEXION): (35, 35),
    (Joint.LOWER_BACK, Motion.ROTATION): (45, 45),
}
"""Degrees the opposite way and degrees this way."""

_SIDES: Final = {"l": "left ", "r": "right ", "": ""}


def warnings(pose: Pose) -> Iterator[str]:
    """One sentence for each angle, written or solved, that is beyond the normal range.

    Raises:
        PoseError: a contact can't be reached.
    """
    for moment in pose.phases:
        for key, degrees in sorted(settle(pose, moment).angles.items()):
            words = beyond(key, degrees)
            if words:
                yield f"At the {moment.phase.value.replace('_', ' ')}, {words}."


def beyond(key: Key, degrees: float) -> str:
    """What is unusual about an angle, "" where nothing is."""
    joint, motion, side = key
    normal = NORMAL.get((joint, motion))
    if normal is None:
        return ""
    most = normal[1] if degrees >= 0 else normal[0]
    if abs(degrees) <= max(most * TOLERANCE, most + _LEAST_SLACK_DEG):
        return ""
    way = motion if degrees >= 0 else _opposite(motion)
    limb = f"{_SIDES[side]}{joint.value.replace('_', ' ')}"
    return (
        f"the {limb} has {round(abs(degrees))} degrees of {way.value.replace('_', ' ')}, "
        f"and {most:g} is the usual most"
    )


def _opposite(motion: Motion) -> Motion:
    return next((other for other, one in OPPOSITE.items() if one is motion), motion)
