"""Angles of a pose's moment as one signed number for each way a joint can move."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import TypeAlias

from authoring.model.pose import JointAngle, Pose, PosePhase
from authoring.model.vocabulary import Joint, Motion, Side

Key: TypeAlias = tuple[Joint, Motion, str]
"""Joint, the motion that counts as positive, and side: "l", "r", or "" for the trunk."""

Angles: TypeAlias = dict[Key, float]

OPPOSITE: Mapping[Motion, Motion] = {
    Motion.EXTENSION: Motion.FLEXION,
    Motion.ADDUCTION: Motion.ABDUCTION,
    Motion.EXTERNAL_ROTATION: Motion.INTERNAL_ROTATION,
    Motion.PLANTARFLEXION: Motion.DORSIFLEXION,
    Motion.EVERSION: Motion.INVERSION,
    Motion.SUPINATION: Motion.PRONATION,
    Motion.ULNAR_DEVIATION: Motion.RADIAL_DEVIATION,
    Motion.DEPRESSION: Motion.ELEVATION,
    Motion.RETRACTION: Motion.PROTRACTION,
}
"""Motions that count as negative, and the motion they are the opposite of."""

MIDLINE = frozenset({Joint.LOWER_BACK, Joint.UPPER_BACK, Joint.NECK})
SIDEWAYS = frozenset({Motion.LATERAL_FLEXION, Motion.ROTATION})
SIDES: Mapping[Side, tuple[str, ...]] = {
    Side.LEFT: ("l",),
    Side.RIGHT: ("r",),
    Side.BOTH: ("l", "r"),
    Side.NONE: ("l", "r"),
}


def signed(angle: JointAngle) -> Iterator[tuple[Key, float]]:
    """An angle under each key it sets."""
    motion, degrees = angle.motion, angle.degrees
    if motion in OPPOSITE:
        motion, degrees = OPPOSITE[motion], -degrees
    if angle.joint in MIDLINE:
        turned = motion in SIDEWAYS and angle.side is Side.LEFT
        yield (angle.joint, motion, ""), -degrees if turned else degrees
        return
    for side in SIDES[angle.side]:
        yield (angle.joint, motion, side), degrees


def collect(angles: Iterable[JointAngle]) -> Angles:
    """Angles by key; of two for one key the later counts."""
    return {key: degrees for angle in angles for key, degrees in signed(angle)}


def angles_of(pose: Pose, moment: PosePhase) -> Angles:
    """All angles of one moment of a pose."""
    return collect((*pose.angles, *moment.angles))
