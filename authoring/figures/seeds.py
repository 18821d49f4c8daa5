"""Where the solver starts for what the author left open."""

from __future__ import annotations

from typing import Final

from authoring.figures.angles import Angles
from authoring.figures.contacts import contacts_of
from authoring.figures.rules import looks, way_of
from authoring.figures.skeleton import skeleton
from authoring.figures.space import dot
from authoring.figures.wants import sides_of
from authoring.model.pose import BodyPoint, Facing, Pose, PosePhase, Segment
from authoring.model.vocabulary import Joint, Motion

_PRONE_HAND_DEG: Final = 80.0
"""Forearm of a hand that is put down flat (palm away from the body)."""

_TRIES: Final = (0.0, -80.0, -40.0, 40.0, 80.0)


def seeded(pose: Pose, moment: PosePhase, angles: Angles) -> Angles:
    """Angles with a start for forearms whose turn is not written.

    Flat hands start palm down; a palm that must look somewhere starts as near as the forearm
    turns, since there the solver can only go downhill.
    """
    made = dict(angles)
    for contact in contacts_of(pose, moment):
        if contact.point is BodyPoint.PALM:
            for side in sides_of(contact.side):
                made.setdefault((Joint.FOREARM, Motion.PRONATION, side), _PRONE_HAND_DEG)
    for rule in (*pose.rules, *moment.rules):
        if isinstance(rule, Facing) and rule.part is Segment.HAND:
            for side in sides_of(rule.side):
                _turn(pose, moment, rule, side, made)
    return made


def _turn(pose: Pose, moment: PosePhase, rule: Facing, side: str, angles: Angles) -> None:
    key = (Joint.FOREARM, Motion.PRONATION, side)
    way, look = way_of(rule.way, side), looks(rule.part, side)
    base = moment.base or pose.base

    def near(degrees: float) -> float:
        return dot(look(skeleton(base, {**angles, key: degrees})), way)

    tries = (angles[key],) if key in angles else _TRIES
    angles[key] = max(tries, key=near)
