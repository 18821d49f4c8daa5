"""The load of one pose: every figure of every moment, or why there is none.

Bands. Contacts: 5 points of body weight on the level and 10 where hands and feet are at
different heights, from fourteen comparisons with published static press-up loads (bias 1.7,
root mean square 2.7 points); friction makes the second kind indeterminate, and against a
wall the whole range counts. Moments: 15 per cent, the spread between two published sets of
body proportions, and for every force that a contact passes on the lever that 4 degrees of a
limb make, since the angle of an ankle alone moves the knee's moment in a squat by 40 per
cent.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import Final

from attrs import frozen

from authoring.figures.contacts import PoseError, contacts_of
from authoring.figures.solver import settle
from authoring.figures.space import Vector, dot, length_of, less
from authoring.mechanics.balance import Held as Balanced
from authoring.mechanics.balance import NoBalanceError, Wrench, hold, wrench
from authoring.mechanics.estimate import Estimate, NotEstimated, Unit, What, Why
from authoring.mechanics.moments import Moment, moments
from authoring.mechanics.placed import Placed, placed
from authoring.mechanics.pulls import Pull, UnknownPullError, masses, pulls
from authoring.mechanics.segments import G, Person
from authoring.mechanics.touching import LEVEL_M, Push, Resting, touching
from authoring.model.base import ModelError, evolve
from authoring.model.pose import BasePosition, LineKind, Pose, PosePhase, Prop, PropKind
from authoring.model.vocabulary import Phase, Side

LEVEL_ERROR: Final = 0.05
RAISED_ERROR: Final = 0.10
_SAME: Final = 0.02
_LOW_M: Final = 0.14
"""A part whose centre is this near to what the body lies on may rest there."""
_MIRROR_M: Final = 0.005

MOMENT_ERROR: Final = 0.15
_LEAST_NM: Final = 0.5
"""Moments below this are not worth a line."""
_PULL_ERROR: Final = 0.1
"""Of a cable's or band's force: reading and friction (assumption)."""

SHARE_SOURCE: Final = (
    "Static equilibrium with segment masses of de Leva 1996; band from comparison with "
    "Mier 2014, Suprak 2011, Gouvali 2005 and Ebben 2011."
)
MOMENT_SOURCE: Final = (
    "Static moment with segment masses of de Leva 1996; band from the spread between "
    "published body proportions and 4 degrees of posture."
)
PULL_SOURCE: Final = "Force of the cable or measured curve as the pose gives it."

_SIDE: Final = {"l": Side.LEFT, "r": Side.RIGHT, "": Side.NONE}
_UNSTABLE: Final = frozenset({PropKind.BALL})
_REAL: Final = frozenset(
    {PropKind.BOX, PropKind.CHAIR, PropKind.TABLE, PropKind.WORKTOP, PropKind.PLINTH}
)
"""Things that do not grow with the person."""


@frozen
class MomentLoad:
    """Figures of one moment of a pose."""

    phase: Phase
    estimates: tuple[Estimate, ...]
    missing: tuple[NotEstimated, ...]


@lru_cache(maxsize=4096)
def pose_load(pose: Pose, person: Person, known_kg: float | None = None) -> tuple[MomentLoad, ...]:
    """The load of each moment of a pose.

    Args:
        known_kg: mass of each held thing that the pose gives none for.
    """
    return tuple(_moment_load(pose, moment, person, known_kg) for moment in pose.phases)


def _moment_load(
    pose: Pose, moment: PosePhase, person: Person, known_kg: float | None
) -> MomentLoad:
    why = _never(pose, moment)
    if why is not None:
        return MomentLoad(moment.phase, (), (NotEstimated(why),))
    try:
        scaled = _for_stature(pose, person)
        settled = settle(scaled, moment)
    except (PoseError, ModelError) as error:
        return MomentLoad(moment.phase, (), (NotEstimated(Why.UNREACHED, detail=str(error)),))
    body = placed(settled.body, person)
    scale = person.height_m / 170.0
    pelvis = settled.body.points["pelvis"]
    try:
        forces = [
            *masses(pose.held, body, known_kg),
            *pulls(scaled.lines, body, {p.id: p for p in scaled.supports}, (scale, pelvis)),
        ]
    except UnknownPullError as error:
        return MomentLoad(moment.phase, (), (NotEstimated(error.why),))
    return _estimated(scaled, moment, person, body, forces)


def _never(pose: Pose, moment: PosePhase) -> Why | None:
    """Why a still model can't say anything about this moment."""
    if moment.airborne:
        return Why.AIRBORNE
    on = {contact.on for contact in contacts_of(pose, moment)}
    if any(prop.kind in _UNSTABLE and prop.id in on for prop in pose.supports):
        return Why.UNSTABLE
    return None


def _for_stature(pose: Pose, person: Person) -> Pose:
    """The pose for the drawn stature, with real things as large as they are to this person."""
    by = 170.0 / person.height_cm
    if by == 1.0:
        return pose
    return evolve(pose, supports=tuple(_resized(prop, by) for prop in pose.supports))


def _resized(prop: Prop, by: float) -> Prop:
    if prop.kind not in _REAL:
        return prop
    return evolve(prop, height_cm=prop.height_cm * by, raised_cm=prop.raised_cm * by)


def _estimated(
    pose: Pose, moment: PosePhase, person: Person, body: Placed, forces: Sequence[Pull]
) -> MomentLoad:
    places, lying = touching(pose, moment, body, person.height_m)
    resting = {part for each in lying for part in each.parts}
    missing: list[NotEstimated] = []
    found: list[Estimate] = []
    balance: Balanced | None = None
    try:
        balance = hold(
            places,
            _load(body, forces, person, resting),
            {side: body.points[f"shoulder.{side}"] for side in ("l", "r")},
            mirrored=_mirrored(body, forces),
            dragged=any(force.kind is not None for force in forces),
            leaning=(moment.base or pose.base).position is BasePosition.UPRIGHT,
        )
        found += _shares(balance)
        found += (_lying(each, body) for each in lying)
    except NoBalanceError:
        balance = None
        missing += [NotEstimated(Why.UNBALANCED, what) for what in _touched(places)]
    touched = {push.part for push in places}
    if balance is None:
        touched |= _low(body, places)
    try:
        for each in moments(body, forces, balance, person.weight_n, (touched, resting)):
            _sort(each, person, loaded=bool(forces), into=(found, missing))
    except NoBalanceError:
        missing.append(NotEstimated(Why.UNBALANCED))
    found += _pulled(forces)
    if not found and not missing:
        missing.append(NotEstimated(Why.UNBALANCED))
    return MomentLoad(moment.phase, tuple(found), tuple(missing))


def _low(body: Placed, places: Sequence[Push]) -> set[str]:
    """Parts that may lie on something without the pose saying so, and the trunk."""
    under = min((push.at[1] for push in places), default=-math.inf)
    low = {part.name for part in body.parts if part.centre[1] - under < _LOW_M}
    return low | {"chest"}


def _touched(places: Sequence[Push]) -> list[What]:
    return list(dict.fromkeys(push.what for push in places))


def _load(body: Placed, forces: Sequence[Pull], person: Person, resting: set[str]) -> Wrench:
    """All weights and pulls in shares of body weight, but for parts that rest."""
    total = [0.0] * 6
    weights = [
        ((0.0, -part.mass_kg * G, 0.0), part.centre)
        for part in body.parts
        if part.name not in resting
    ]
    for force, at in [*weights, *((pull.force, pull.at) for pull in forces)]:
        for index, value in enumerate(wrench(force, at)):
            total[index] += value / person.weight_n
    return tuple(total)


# ---- contacts ---------------------------------------------------------------------------


def _shares(balance: Balanced) -> Iterator[Estimate]:
    """Share of body weight of each kind of contact; of each side too where they differ."""
    error = LEVEL_ERROR if _level(balance) else RAISED_ERROR
    for what in _touched(balance.pushes):
        sides = {push.side for push in balance.pushes if push.what is what}
        both = Side.BOTH if len(sides) == 2 else _SIDE[next(iter(sides))]
        yield _share(balance, what, sides, both, error)
        each = [_share(balance, what, {s}, _SIDE[s], error) for s in sorted(sides)]
        if len(each) == 2 and abs(each[0].value - each[1].value) > _SAME:
            yield from each


def _level(balance: Balanced) -> bool:
    """Whether all contacts are at one height, so that friction decides nothing."""
    heights = [push.at[1] for push in balance.pushes]
    upright = all(push.out[1] for push in balance.pushes)
    return upright and max(heights) - min(heights) <= LEVEL_M


def _share(balance: Balanced, what: What, sides: set[str], side: Side, error: float) -> Estimate:
    """How hard contacts of a kind press on what they rest on: along its normal."""

    def worth(push: Push, force: Vector) -> float:
        counted = push.what is what and push.side in sides
        return dot(force, push.out) if counted else 0.0

    low, middle, high = balance.bounds(worth)
    low, high = max(min(low, middle - error), 0.0), max(high, middle + error)
    return Estimate(what, side, middle, low, high, Unit.BODY_WEIGHT, SHARE_SOURCE)


def _lying(each: Resting, body: Placed) -> Estimate:
    """A part that lies somewhere presses with its own weight."""
    share = sum(part.mass_kg for part in body.parts if part.name in each.parts) / body.mass_kg
    side = _SIDE[each.side]
    return Estimate(
        each.what,
        side,
        share,
        max(share - LEVEL_ERROR, 0.0),
        share + LEVEL_ERROR,
        Unit.BODY_WEIGHT,
        SHARE_SOURCE,
    )


def _mirrored(body: Placed, forces: Sequence[Pull]) -> bool:
    """Whether the body and what pulls at it are their own mirror image."""
    weights = [(part.name, part.centre) for part in body.parts]
    weights += [(f"{pull.part} {round(1000 * pull.force[1])}", pull.at) for pull in forces]
    turned = {"l": "r", "r": "l"}
    for name, at in weights:
        words = name.partition(".")
        other = name if not words[1] else f"{words[0]}.{turned[words[2][0]]}{words[2][1:]}"
        want = (at[0], at[1], -at[2])
        near = [place for each, place in weights if each == other]
        if not any(max(map(abs, less(want, place))) < _MIRROR_M for place in near):
            return False
    return True


# ---- joints -----------------------------------------------------------------------------


def _sort(
    each: Moment,
    person: Person,
    *,
    loaded: bool,
    into: tuple[list[Estimate], list[NotEstimated]],
) -> None:
    """Put a moment among the estimates, or among what is open: a band that reaches 0."""
    found, missing = into
    error = MOMENT_ERROR * each.value + each.slack
    low, high = max(min(each.low, each.value - error), 0.0), max(each.high, each.value + error)
    if high < _LEAST_NM:
        return
    side = _SIDE[each.side]
    if low == 0.0:
        missing.append(NotEstimated(Why.OPEN, each.what, side))
        return
    found.append(Estimate(each.what, side, each.value, low, high, Unit.NM, MOMENT_SOURCE))
    bare = each.value if not loaded else each.bare
    if bare is None:
        return
    if loaded:
        if bare < _LEAST_NM:
            return
        low, high = bare * (1 - MOMENT_ERROR), bare * (1 + MOMENT_ERROR)
    kg = person.mass_kg
    found.append(
        Estimate(each.what, side, bare / kg, low / kg, high / kg, Unit.NM_PER_KG, MOMENT_SOURCE)
    )


def _pulled(forces: Sequence[Pull]) -> Iterator[Estimate]:
    """Pull of cables as given and of bands as their curve says; the band is a tenth."""
    seen = set()
    for pull in forces:
        if pull.kind is None or (pull.kind, pull.side) in seen:
            continue
        seen.add((pull.kind, pull.side))
        value = length_of(pull.force)
        what = What.CABLE if pull.kind is LineKind.CABLE else What.BAND
        low, high = value * (1 - _PULL_ERROR), value * (1 + _PULL_ERROR)
        yield Estimate(what, _SIDE[pull.side], value, low, high, Unit.NEWTON, PULL_SOURCE)
