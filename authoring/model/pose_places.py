"""Places on the body, parts of it, and ways in space: what contacts, rules and loads name."""

from __future__ import annotations

from enum import StrEnum


class BodyPoint(StrEnum):
    """A place on the body that touches something, or that an arrow follows."""

    HEEL = "heel"
    BALL = "ball"
    TOE = "toe"
    OUTER_FOOT = "outer_foot"
    INSTEP = "instep"
    ANKLE = "ankle"
    SHIN = "shin"
    KNEE = "knee"
    THIGH = "thigh"
    SEAT = "seat"
    HIP = "hip"
    BELLY = "belly"
    CHEST = "chest"
    BACK = "back"
    SHOULDER = "shoulder"
    HEAD = "head"
    NOSE = "nose"
    ELBOW = "elbow"
    FOREARM = "forearm"
    WRIST = "wrist"
    PALM = "palm"
    GRIP = "grip"
    THUMB = "thumb"
    FINGERTIPS = "fingertips"


class Segment(StrEnum):
    """A part of the body with a length, from its upper to its lower end."""

    HEAD = "head"
    TRUNK = "trunk"
    UPPER_ARM = "upper_arm"
    FOREARM = "forearm"
    HAND = "hand"
    THIGH = "thigh"
    SHIN = "shin"
    FOOT = "foot"


class Direction(StrEnum):
    """A way from the person as they stand; out is away from the middle of the body."""

    FORWARD = "forward"
    BACK = "back"
    UP = "up"
    DOWN = "down"
    OUT = "out"
    IN = "in"


class Face(StrEnum):
    """The side of a part of the body, as in the anatomical position."""

    FRONT = "front"
    BACK = "back"
    OUTER = "outer"
    INNER = "inner"
