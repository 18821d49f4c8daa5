"""Bring a body into contact: small changes of base and angles until all that is asked holds.

Damped least-norm steps (Wampler CW, IEEE Trans Syst Man Cybern 1986;16:93-101) from the
written angles, so that what is written changes as little as contacts and rules allow. The
number of steps is bounded; what is not reached by then can't be reached.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache
from typing import Final

from attrs import frozen

from authoring.figures.anchors import strap_wants
from authoring.figures.angles import Angles, angles_of, signed
from authoring.figures.contacts import contact_wants, contacts_of, touch_wants
from authoring.figures.linear import solve_linear
from authoring.figures.rules import rule_wants
from authoring.figures.seeds import seeded
from authoring.figures.skeleton import Skeleton, shifted, skeleton, with_limb
from authoring.figures.wants import Free, PoseError, Want
from authoring.model.base import evolve
from authoring.model.pose import Base, BasePosition, Pose, PosePhase
from authoring.model.vocabulary import Joint, Motion

__all__ = ["MOST_STEPS", "RANGE", "Settled", "settle", "solve_linear", "wants_of"]

MOST_STEPS: Final = 40
_STEP_DEG = 0.01
_BIGGEST_STEP_DEG = 25.0
_DAMPING = 1e-3


@frozen
class Settled:
    """A moment with its contacts made."""

    base: Base
    angles: Angles
    body: Skeleton


RANGE: Mapping[tuple[Joint, Motion], tuple[float, float]] = {
    (Joint.KNEE, Motion.FLEXION): (0, 150),
    (Joint.ELBOW, Motion.FLEXION): (0, 150),
    (Joint.HIP, Motion.FLEXION): (-30, 135),
    (Joint.HIP, Motion.ABDUCTION): (-30, 55),
    (Joint.HIP, Motion.INTERNAL_ROTATION): (-60, 45),
    (Joint.ANKLE, Motion.DORSIFLEXION): (-60, 40),
    (Joint.ANKLE, Motion.INVERSION): (-20, 35),
    (Joint.TOES, Motion.FLEXION): (-80, 45),
    (Joint.SHOULDER, Motion.FLEXION): (-60, 180),
    (Joint.SHOULDER, Motion.ABDUCTION): (-50, 150),
    (Joint.SHOULDER, Motion.INTERNAL_ROTATION): (-90, 90),
    (Joint.FOREARM, Motion.PRONATION): (-90, 90),
    (Joint.WRIST, Motion.FLEXION): (-90, 90),
    (Joint.NECK, Motion.FLEXION): (-60, 60),
}
"""How far the solver may go; what is written may go further."""

_SHIFTS: Mapping[Free, tuple[int, float]] = {
    "forward": (0, 0.5),
    "up": (1, 25.0),
    "across": (2, 0.5),
}
"""Axis of each shift of the base, and how readily it moves, against 1 for a degree."""


def settle(pose: Pose, moment: PosePhase) -> Settled:
    """A moment of a pose with its contacts made and its rules kept.

    Raises:
        PoseError: a contact or rule can't be had; the sentence names it.
    """
    return _settled(pose, moment)


def wants_of(pose: Pose, moment: PosePhase) -> tuple[Want, ...]:
    """All that a moment of a pose asks of the body.

    Raises:
        PoseError: a support is named that the pose does not have.
    """
    base = moment.base or pose.base
    return (
        *contact_wants(contacts_of(pose, moment), pose.supports),
        *touch_wants((*pose.touches, *moment.touches)),
        *strap_wants(pose.lines, pose.supports),
        *rule_wants((*pose.rules, *moment.rules), base),
    )


@lru_cache(maxsize=512)
def _settled(pose: Pose, moment: PosePhase) -> Settled:
    base = moment.base or pose.base
    wants = wants_of(pose, moment)
    angles = seeded(pose, moment, angles_of(pose, moment))
    state = Settled(base, angles, skeleton(base, angles))
    free = _free(wants, base, _fixed(pose, moment))
    for _ in range(MOST_STEPS):
        missing = [want.miss(state.body) for want in wants]
        if all(abs(far) < want.within / 10 for want, far in zip(wants, missing, strict=True)):
            return state
        state = one_step(state, free, wants, missing)
    _refuse(state.body, wants)
    return state


def _fixed(pose: Pose, moment: PosePhase) -> frozenset[Free]:
    """Angles that are written as fixed, and not written over."""
    last = {key: a.fixed for a in (*pose.angles, *moment.angles) for key, _ in signed(a)}
    return frozenset(key for key, fixed in last.items() if fixed)


def _free(wants: Sequence[Want], base: Base, fixed: frozenset[Free]) -> list[Free]:
    """What may change to fulfil these wants."""
    found: dict[Free, None] = {"forward": None, "up": None, "across": None}
    if base.position in (BasePosition.LEFT_SIDE, BasePosition.RIGHT_SIDE):
        found["side_lean"] = None
    elif base.position is not BasePosition.UPRIGHT:
        found["lean"] = None
    for want in wants:
        found |= dict.fromkeys(want.free)
    return [each for each in found if each not in fixed]


# ---- steps --------------------------------------------------------------------------------


def _changed(state: Settled, free: Sequence[Free], by: Sequence[float]) -> Settled:
    angles = dict(state.angles)
    moved: dict[str, float] = {}
    for which, amount in zip(free, by, strict=True):
        if isinstance(which, str):
            moved[which] = amount
            continue
        low, high = RANGE.get(which[:2], (-180.0, 180.0))
        before = angles.get(which, 0.0)
        angles[which] = min(max(before + amount, min(low, before)), max(high, before))
    base = _moved(state.base, moved)
    return Settled(base, angles, skeleton(base, angles))


def _moved(base: Base, by: Mapping[str, float]) -> Base:
    return evolve(
        base,
        forward_cm=_within(base.forward_cm + by.get("forward", 0.0), 300),
        up_cm=max(-50.0, _within(base.up_cm + by.get("up", 0.0), 300)),
        across_cm=_within(base.across_cm + by.get("across", 0.0), 300),
        lean_deg=_within(base.lean_deg + by.get("lean", 0.0), 180),
        side_lean_deg=_within(base.side_lean_deg + by.get("side_lean", 0.0), 90),
    )


def _within(value: float, most: float) -> float:
    return min(max(value, -most), most)


def _nudged(state: Settled, which: Free) -> tuple[Skeleton, float]:
    """The body with one thing a little changed, and by how much."""
    if isinstance(which, tuple):
        nudge = _STEP_DEG
        angles = {**state.angles, which: state.angles.get(which, 0.0) + nudge}
        joint, _, side = which
        if side:
            return with_limb(state.body, angles, joint, side), nudge
        return skeleton(state.base, angles), nudge
    if which in _SHIFTS:
        axis = _SHIFTS[which][0]
        by = (float(axis == 0), float(axis == 1), float(axis == 2))
        return shifted(state.body, by), 1.0
    now = state.base.lean_deg if which == "lean" else state.base.side_lean_deg
    nudge = -_STEP_DEG if now > 0 else _STEP_DEG
    return skeleton(_moved(state.base, {which: nudge}), state.angles), nudge


def _columns(
    state: Settled, free: Sequence[Free], wants: Sequence[Want], missing: Sequence[float]
) -> Iterator[list[float]]:
    """How much less each want is missed for one unit of each free thing."""
    for which in free:
        body, nudge = _nudged(state, which)
        yield [(far - want.miss(body)) / nudge for want, far in zip(wants, missing, strict=True)]


def one_step(
    state: Settled, free: Sequence[Free], wants: Sequence[Want], missing: Sequence[float]
) -> Settled:
    """One damped least-norm step: W Jt (J W Jt + damping) ** -1 times what is missing."""
    columns = list(_columns(state, free, wants, missing))
    costs = [_cost(state, which) for which in free]
    count = len(wants)
    normal = [[0.0] * count for _ in range(count)]
    for column, cost in zip(columns, costs, strict=True):
        moved = [i for i, value in enumerate(column) if value]
        for i in moved:
            row, weight = normal[i], cost * column[i]
            for j in moved:
                row[j] += weight * column[j]
    for i in range(count):
        normal[i][i] += _DAMPING
    weights = solve_linear(normal, list(missing))
    by = [
        cost * sum(x * w for x, w in zip(column, weights, strict=True))
        for column, cost in zip(columns, costs, strict=True)
    ]
    largest = max(map(abs, by), default=0.0)
    shrink = min(1.0, _BIGGEST_STEP_DEG / largest) if largest > 0 else 1.0
    return _changed(state, free, [each * shrink for each in by])


def _cost(state: Settled, which: Free) -> float:
    """How readily something moves; joints at the end of their range less, so others take over."""
    if isinstance(which, str):
        return _SHIFTS[which][1] if which in _SHIFTS else 1.0
    low, high = RANGE.get(which[:2], (-180.0, 180.0))
    return 1.0 if low < state.angles.get(which, 0.0) < high else 0.25


def _refuse(body: Skeleton, wants: Sequence[Want]) -> None:
    """Raise where something is missed.

    What can't be had is shared out among all wants. People stand on the floor and fail to
    reach other things, so one of those is named first, then what is missed by most.
    """
    missed = [
        (want.order, abs(far), index)
        for index, want in enumerate(wants)
        if abs(far := want.miss(body)) > want.within
    ]
    if not missed:
        return
    _, far, index = max(missed)
    mend = "change an angle, or take a rule out" if wants[index].order > 1 else _MEND
    raise PoseError(f"{wants[index].says}: it stays {max(1, round(far))} cm away; {mend}.")


_MEND = "change an angle, or move the support"
