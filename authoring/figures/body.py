"""Lengths of a body.

Segment lengths are fractions of stature from Drillis R, Contini R, Body Segment
Parameters, New York University technical report 1166.03, 1966, as given in Winter DA,
Biomechanics and Motor Control of Human Movement, figure 4.1. They come from a group that
was never validated: good enough to draw with.
"""

from __future__ import annotations

from typing import Final

STATURE_CM: Final = 170.0
"""The drawn person; distances of poses are meant for this stature."""

UPPER_ARM: Final = 0.186
FOREARM: Final = 0.146
HAND: Final = 0.108
THIGH: Final = 0.245
SHANK: Final = 0.246
FOOT: Final = 0.152
FOOT_BREADTH: Final = 0.055
TRUNK: Final = 0.288
"""Hip to shoulder."""
ANKLE_HEIGHT: Final = 0.039
NECK: Final = 0.052
HEAD: Final = 0.130
"""Chin to top; with the neck it makes up what is left above the shoulder (0.182)."""

# Where joints lie inside the body is no part of that table: assumptions for drawing.
SHOULDER_HALF: Final = 0.100
"""Half the distance between shoulder joints, of 0.1295 to the outside of the shoulder."""
HIP_HALF: Final = 0.052
PELVIS: Final = 0.30
"""Share of the trunk below the bend of the lower back."""
RIBS: Final = 0.32
"""Share of the trunk between the bends of the lower and the upper back."""
ANKLE_AT: Final = 0.26
"""Ankle in front of the heel, share of foot length."""
BALL_AT: Final = 0.72
KNUCKLE_AT: Final = 0.47
"""Knuckles from the wrist, share of hand length."""


def cm(fraction: float) -> float:
    """Centimetres for a fraction of stature."""
    return fraction * STATURE_CM
