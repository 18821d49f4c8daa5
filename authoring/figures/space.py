"""Vectors and rotations of three-dimensional space, as plain tuples.

Axes follow the recommendation of the International Society of Biomechanics (Wu G,
Cavanagh PR, J Biomech 1995;28:1257-1261): X forward, Y up, Z to the person's right.
Angles are degrees, right-handed about the axis. Tuples beat arrays at this size.
"""

from __future__ import annotations

import math
from typing import TypeAlias

Vector: TypeAlias = tuple[float, float, float]
Matrix: TypeAlias = tuple[Vector, Vector, Vector]

IDENTITY: Matrix = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
FORWARD: Vector = (1.0, 0.0, 0.0)
UP: Vector = (0.0, 1.0, 0.0)
RIGHT: Vector = (0.0, 0.0, 1.0)


def about_x(degrees: float) -> Matrix:
    """Rotation about the forward axis."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return ((1.0, 0.0, 0.0), (0.0, c, -s), (0.0, s, c))


def about_y(degrees: float) -> Matrix:
    """Rotation about the upward axis."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return ((c, 0.0, s), (0.0, 1.0, 0.0), (-s, 0.0, c))


def about_z(degrees: float) -> Matrix:
    """Rotation about the axis to the right."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return ((c, -s, 0.0), (s, c, 0.0), (0.0, 0.0, 1.0))


def times(a: Matrix, b: Matrix) -> Matrix:
    """The product ``a b``: ``b`` is applied first."""
    (b00, b01, b02), (b10, b11, b12), (b20, b21, b22) = b
    return tuple(  # type: ignore[return-value]  # three rows
        (
            x * b00 + y * b10 + z * b20,
            x * b01 + y * b11 + z * b21,
            x * b02 + y * b12 + z * b22,
        )
        for x, y, z in a
    )


def column(m: Matrix, index: int) -> Vector:
    """Where the rotation takes the axis of this number."""
    return (m[0][index], m[1][index], m[2][index])


def along(start: Vector, direction: Vector, length: float) -> Vector:
    """The point ``length`` from ``start`` in a direction."""
    return (
        start[0] + direction[0] * length,
        start[1] + direction[1] * length,
        start[2] + direction[2] * length,
    )


def between(a: Vector, b: Vector, share: float) -> Vector:
    """The point at a share of the way from ``a`` to ``b``."""
    return (
        a[0] + (b[0] - a[0]) * share,
        a[1] + (b[1] - a[1]) * share,
        a[2] + (b[2] - a[2]) * share,
    )


def dot(a: Vector, b: Vector) -> float:
    """Scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vector, b: Vector) -> Vector:
    """Vector product."""
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def less(a: Vector, b: Vector) -> Vector:
    """The vector from ``b`` to ``a``."""
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def length_of(a: Vector) -> float:
    """Length of a vector."""
    return math.sqrt(dot(a, a))
