"""Where the weight of a body is, for poses that must stand by themselves.

Shares of body mass and places of the segments' centres: Dempster WT, Space Requirements of
the Seated Operator, WADC technical report 55-159, 1955, as given in Winter DA, Biomechanics
and Motor Control of Human Movement, table 4.1; they go with the lengths of
:mod:`authoring.figures.body`.
"""

from __future__ import annotations

from typing import Final

from authoring.figures.skeleton import Skeleton
from authoring.figures.space import Vector, between

LIMBS: Final = (
    ("shoulder", "elbow", 0.028, 0.436),
    ("elbow", "wrist", 0.016, 0.430),
    ("wrist", "knuckle", 0.006, 0.506),
    ("hip", "knee", 0.100, 0.433),
    ("knee", "ankle", 0.0465, 0.433),
    ("ankle", "ball", 0.0145, 0.500),
)
"""Upper end, lower end, share of body mass, centre from the upper end."""

MIDDLE: Final = (("neck", "vertex", 0.081, 0.5), ("pelvis", "neck", 0.497, 0.5))
"""The same for head with neck, and trunk."""


def weight_of(body: Skeleton) -> Vector:
    """Centre of mass of the whole body, cm."""
    x = y = z = 0.0
    points = body.points
    segments = [(a, b, m, c) for a, b, m, c in MIDDLE]
    for side in ("l", "r"):
        segments += [(f"{a}.{side}", f"{b}.{side}", m, c) for a, b, m, c in LIMBS]
    for upper, lower, mass, centre in segments:
        at = between(points[upper], points[lower], centre)
        x, y, z = x + mass * at[0], y + mass * at[1], z + mass * at[2]
    return (x, y, z)
