"""Bring a body into contact: small changes of base and angles until every contact holds.

Damped least-norm steps (Wampler CW, IEEE Trans Syst Man Cybern 1986;16:93-101) from the
written angles, so that what is written changes as little as contacts allow. The number of
steps is bounded; what is not reached by then can't be reached.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import Final, TypeAlias

from attrs import frozen

from authoring.figures.angles import Angles, Key, angles_of
from authoring.figures.contacts import PoseError, Want, contacts_of, wants
from authoring.figures.skeleton import Skeleton, skeleton
from authoring.model.base import evolve
from authoring.model.pose import FLOOR, Base, BasePosition, BodyPoint, Contact, Pose, PosePhase
from authoring.model.vocabulary import Joint, Motion, Side

REACHED_CM: Final = 0.1
"""A contact holds when every coordinate is within this."""

MOST_STEPS: Final = 40
_STEP_DEG = 0.01
_BIGGEST_STEP_DEG = 25.0

Free: TypeAlias = Key | str
"""An angle's key, or "forward", "up", "lean" for the base."""


@frozen
class Settled:
    """A moment with its contacts made."""

    base: Base
    angles: Angles
    body: Skeleton


_RANGE: Mapping[tuple[Joint, Motion], tuple[float, float]] = {
    (Joint.KNEE, Motion.FLEXION): (0, 150),
    (Joint.ELBOW, Motion.FLEXION): (0, 150),
    (Joint.HIP, Motion.FLEXION): (-30, 135),
    (Joint.ANKLE, Motion.DORSIFLEXION): (-60, 40),
    (Joint.TOES, Motion.FLEXION): (-80, 45),
    (Joint.SHOULDER, Motion.FLEXION): (-60, 180),
    (Joint.SHOULDER, Motion.ABDUCTION): (-30, 150),
    (Joint.WRIST, Motion.FLEXION): (-90, 90),
}
"""How far the solver may go; what is written may go further."""

_ARM = (
    (Joint.SHOULDER, Motion.FLEXION),
    (Joint.ELBOW, Motion.FLEXION),
)
_LEG = ((Joint.HIP, Motion.FLEXION), (Joint.KNEE, Motion.FLEXION))
_FOOT = (*_LEG, (Joint.ANKLE, Motion.DORSIFLEXION))

_MOVES: Mapping[BodyPoint, tuple[tuple[Joint, Motion], ...]] = {
    BodyPoint.HEEL: _FOOT,
    BodyPoint.BALL: _FOOT,
    BodyPoint.TOE: (*_FOOT, (Joint.TOES, Motion.FLEXION)),
    BodyPoint.KNEE: (_LEG[0],),
    BodyPoint.ELBOW: (_ARM[0],),
    BodyPoint.FOREARM: _ARM,
    BodyPoint.PALM: (*_ARM, (Joint.WRIST, Motion.FLEXION)),
    BodyPoint.GRIP: _ARM,
    BodyPoint.FINGERTIPS: (*_ARM, (Joint.WRIST, Motion.FLEXION)),
    BodyPoint.HEAD: ((Joint.NECK, Motion.FLEXION),),
}

_SHIFTS: Mapping[Free, int] = {"forward": 0, "up": 1}

_COST: Mapping[str, float] = {"forward": 0.5, "up": 25.0, "lean": 1.0}
"""How readily the base moves, against 1 for a degree of a joint."""


def settle(pose: Pose, moment: PosePhase) -> Settled:
    """A moment of a pose with its contacts made.

    Raises:
        PoseError: a contact can't be reached; the sentence names it.
    """
    return _settled(pose, moment)


@lru_cache(maxsize=512)
def _settled(pose: Pose, moment: PosePhase) -> Settled:
    base = moment.base or pose.base
    contacts = contacts_of(pose, moment)
    targets = list(wants(contacts, pose.supports))
    state = Settled(base, angles_of(pose, moment), skeleton(base, angles_of(pose, moment)))
    free = _free(contacts, base)
    for _ in range(MOST_STEPS):
        missing = _missing(state.body, targets)
        if max(map(abs, missing), default=0.0) < REACHED_CM / 10:
            return state
        state = _step(state, free, targets, missing)
    _refuse(state.body, targets)
    return state


def _free(contacts: Sequence[Contact], base: Base) -> list[Free]:
    """What may change to make these contacts."""
    found: dict[Free, None] = {"forward": None, "up": None}
    if base.position is not BasePosition.UPRIGHT:
        found["lean"] = None
    for contact in contacts:
        for joint, motion in _MOVES.get(contact.point, ()):
            sides = ("",) if joint is Joint.NECK else _sides_of(contact)
            found |= {(joint, motion, side): None for side in sides}
    return list(found)


def _sides_of(contact: Contact) -> tuple[str, ...]:
    return {Side.LEFT: ("l",), Side.RIGHT: ("r",)}.get(contact.side, ("l", "r"))


def _missing(body: Skeleton, targets: Sequence[Want]) -> list[float]:
    return [want.value - body.points[want.place][want.axis] for want in targets]


def _changed(state: Settled, free: Sequence[Free], by: Sequence[float]) -> Settled:
    angles = dict(state.angles)
    moved = {"forward": 0.0, "up": 0.0, "lean": 0.0}
    for which, amount in zip(free, by, strict=True):
        if isinstance(which, str):
            moved[which] = amount
            continue
        low, high = _RANGE.get(which[:2], (-180.0, 180.0))
        before = angles.get(which, 0.0)
        angles[which] = min(max(before + amount, min(low, before)), max(high, before))
    base = evolve(
        state.base,
        forward_cm=_within(state.base.forward_cm + moved["forward"], -300, 300),
        up_cm=_within(state.base.up_cm + moved["up"], -50, 300),
        lean_deg=_within(state.base.lean_deg + moved["lean"], -180, 180),
    )
    return Settled(base, angles, skeleton(base, angles))


def _within(value: float, low: float, high: float) -> float:
    return min(max(value, low), high)


def _column(state: Settled, which: Free, targets: Sequence[Want]) -> list[float]:
    """How far each target's place moves for one unit of a free value."""
    if which in _SHIFTS:
        return [1.0 if want.axis == _SHIFTS[which] else 0.0 for want in targets]
    moved, nudge = _nudge(state, which)
    before = state.body.points
    return [
        (moved.points[want.place][want.axis] - before[want.place][want.axis]) / nudge
        for want in targets
    ]


def _nudge(state: Settled, which: Free) -> tuple[Skeleton, float]:
    """The body with one angle a little changed, and by how many degrees."""
    if isinstance(which, str):
        nudge = _STEP_DEG if state.base.lean_deg < 90 else -_STEP_DEG
        base = evolve(state.base, lean_deg=state.base.lean_deg + nudge)
        return skeleton(base, state.angles), nudge
    angle = state.angles.get(which, 0.0)
    return skeleton(state.base, {**state.angles, which: angle + _STEP_DEG}), _STEP_DEG


def _step(
    state: Settled, free: Sequence[Free], targets: Sequence[Want], missing: Sequence[float]
) -> Settled:
    """One damped least-norm step: W Jt (J W Jt + damping) ** -1 times what is missing."""
    columns = [_column(state, which, targets) for which in free]
    costs = [_COST.get(which, 1.0) if isinstance(which, str) else 1.0 for which in free]
    _hold_ends(state, free, costs)
    count = len(targets)
    normal = [
        [
            sum(c * col[i] * col[j] for col, c in zip(columns, costs, strict=True))
            + (1e-3 if i == j else 0.0)
            for j in range(count)
        ]
        for i in range(count)
    ]
    weights = solve_linear(normal, list(missing))
    by = [
        c * sum(x * w for x, w in zip(col, weights, strict=True))
        for col, c in zip(columns, costs, strict=True)
    ]
    largest = max(map(abs, by), default=0.0)
    shrink = min(1.0, _BIGGEST_STEP_DEG / largest) if largest > 0 else 1.0
    return _changed(state, free, [each * shrink for each in by])


def _hold_ends(state: Settled, free: Sequence[Free], costs: list[float]) -> None:
    """Let joints at the end of their range move less, so that others take over."""
    for index, which in enumerate(free):
        if isinstance(which, str):
            continue
        low, high = _RANGE.get(which[:2], (-180.0, 180.0))
        if not low < state.angles.get(which, 0.0) < high:
            costs[index] = 0.25


def solve_linear(matrix: list[list[float]], right: list[float]) -> list[float]:
    """Solve a small system by Gaussian elimination with row exchange.

    A row that carries nothing gives 0, so that any input has an answer.
    """
    size = len(right)
    rows = [[*row, value] for row, value in zip(matrix, right, strict=True)]
    for i in range(size):
        pivot = max(range(i, size), key=lambda r: abs(rows[r][i]))
        rows[i], rows[pivot] = rows[pivot], rows[i]
        if abs(rows[i][i]) < 1e-12:
            continue
        for r in range(i + 1, size):
            factor = rows[r][i] / rows[i][i]
            if factor:
                rows[r] = [a - factor * b for a, b in zip(rows[r], rows[i], strict=True)]
    found = [0.0] * size
    for i in reversed(range(size)):
        if abs(rows[i][i]) >= 1e-12:
            rest = sum(rows[i][j] * found[j] for j in range(i + 1, size))
            found[i] = (rows[i][size] - rest) / rows[i][i]
    return found


def _refuse(body: Skeleton, targets: Sequence[Want]) -> None:
    """Raise where a contact is missed.

    What can't be had is shared out among all contacts. People stand on the floor and fail to
    reach other things, so one of those is named first, then what is missed by most.
    """
    missed = [
        (want.contact.on != FLOOR, abs(far), index)
        for index, (want, far) in enumerate(zip(targets, _missing(body, targets), strict=True))
        if abs(far) > REACHED_CM
    ]
    if not missed:
        return
    _, far, index = max(missed)
    want = targets[index]
    raise PoseError(
        f"The {_named(want)} can't be on the {_support(want.contact)}: it stays "
        f"{max(1, round(far))} cm away; change an angle, or move the support."
    )


def _named(want: Want) -> str:
    side = {"l": "left ", "r": "right "}.get(want.place.rpartition(".")[2], "")
    if want.contact.point is BodyPoint.BALL:
        return f"ball of the {side}foot"
    return side + ("hand" if want.contact.point is BodyPoint.GRIP else want.contact.point.value)


def _support(contact: Contact) -> str:
    return "floor" if contact.on == FLOOR else f"support {contact.on!r}"
