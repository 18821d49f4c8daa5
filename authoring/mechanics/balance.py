"""Static equilibrium of a whole body over its contacts.

Forces are shares of body weight, places metres. Where several sets of pushes keep the body
still, the statics leave them open: every figure then has a range (a linear programme over
all pushes within friction) and, inside it, the most even one: least sum of squares.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Final, TypeAlias

from attrs import evolve, frozen

from authoring.figures.linear import solve_linear
from authoring.figures.space import Vector, along, cross, length_of
from authoring.mechanics.estimate import What
from authoring.mechanics.programme import Corner, UnboundedError, corner, least
from authoring.mechanics.touching import Push, ways_of

Wrench: TypeAlias = tuple[float, ...]
"""Force (3) and moment about the origin (3)."""

MOST_SHIFT_M: Final = 0.16
"""How far a drawn body may be out of balance: on one leg a person moves over the foot by
half the hips' width, which drawings leave out."""

_PRICES: Final = (100.0, 100.0, 100.0, 1.0, 100.0, 1.0)
"""A drawn body may miss balance sideways or forward; all else must hold."""

_CLOSE: Final = 1e-6
_EXTRA_M: Final = 0.004
_EVEN_M: Final = 0.001
_ARM_EASE: Final = 0.02
"""How readily an arm's push makes a moment at the shoulder, m², against a push of 1: people
push along the arm, which fits press-ups with raised hands (Ebben 2011) better than an upright
push does."""

Driver: TypeAlias = tuple[tuple[int, Vector], ...]
"""Pushes that act together, each by its number and its way: mirrored ones where the body is."""


class NoBalanceError(Exception):
    """Nothing that the contacts can do holds this body still."""


def wrench(force: Vector, at: Vector) -> Wrench:
    """Force and moment about the origin of a force at a place."""
    return (*force, *cross(at, force))


@frozen
class Held:
    """A body that its contacts hold still.

    Attributes:
        pushes: where something pushes, moved under the body where it was drawn off balance.
        drivers: what each amount moves.
        start: a corner of all amounts that fit.
        even: the most even amounts.
        shift: how far the contacts were moved to make it balance, m.
    """

    pushes: tuple[Push, ...]
    drivers: tuple[Driver, ...]
    start: Corner
    even: tuple[float, ...]
    shift: Vector

    def forces(self) -> list[Vector]:
        """The force of each push where they are most even."""
        found: list[Vector] = [(0.0, 0.0, 0.0)] * len(self.pushes)
        for driver, amount in zip(self.drivers, self.even, strict=True):
            for index, way in driver:
                found[index] = along(found[index], way, amount)
        return found

    def bounds(self, worth: Callable[[Push, Vector], float]) -> tuple[float, float, float]:
        """Least, most even and greatest of a sum over pushes that is linear in their forces.

        Args:
            worth: what a force at a push adds to the sum.

        Raises:
            NoBalanceError: there is no least or greatest, as where a body is wedged.
        """
        costs = [sum(worth(self.pushes[i], way) for i, way in each) for each in self.drivers]
        middle = _total(costs, self.even)
        try:
            low = _total(costs, least(self.start, costs).amounts)
            high = _total(costs, least(self.start, [-c for c in costs]).amounts)
        except UnboundedError as error:
            raise NoBalanceError from error
        return min(low, middle), middle, max(high, middle)


def _total(costs: Sequence[float], amounts: Sequence[float]) -> float:
    return sum(c * a for c, a in zip(costs, amounts, strict=True))


def hold(
    pushes: Sequence[Push],
    load: Wrench,
    shoulders: Mapping[str, Vector],
    *,
    mirrored: bool,
    dragged: bool,
    leaning: bool,
) -> Held:
    """The pushes that hold a load.

    Args:
        pushes: where something can push.
        load: all other forces on the body and what it holds, and their moment about the
            origin.
        shoulders: where the shoulder of each side is, m.
        mirrored: whether the body is its own mirror image, so that its pushes are too.
        dragged: whether something pulls at it.
        leaning: whether it may have been drawn off balance, as a person on the feet is who
            leans; of one who lies, contacts are missing then.

    Raises:
        NoBalanceError: the contacts can't hold it, or only far from where they are drawn.
    """
    if not pushes:
        raise NoBalanceError
    right = [-value for value in load]
    drivers = _drivers(pushes, mirrored=mirrored, dragged=dragged)
    start, short = _try(pushes, drivers, right)
    shift: Vector = (0.0, 0.0, 0.0)
    if max(map(abs, short)) > _CLOSE:
        if not leaning:
            raise NoBalanceError
        shift, pushes, start = _moved(pushes, drivers, load, short)
    even = _even(pushes, drivers, right, shoulders) or _middle(start)
    return Held(tuple(pushes), tuple(drivers), start, tuple(even), shift)


def _drivers(pushes: Sequence[Push], *, mirrored: bool, dragged: bool) -> list[Driver]:
    found: list[Driver] = []
    ways = ways_of(pushes, dragged=dragged)
    for index, push in enumerate(pushes):
        other = _mirror(pushes, push) if mirrored else None
        if other is None:
            found += [((index, way),) for way in ways[index]]
        elif index <= other:
            found += [((index, way), (other, (way[0], way[1], -way[2]))) for way in ways[index]]
    return found


def _mirror(pushes: Sequence[Push], push: Push) -> int | None:
    """The number of the push on the other side."""
    for index, each in enumerate(pushes):
        gap = along(each.at, (push.at[0], push.at[1], -push.at[2]), -1.0)
        same = each.what is push.what and (each.side != push.side or not push.side)
        if same and max(map(abs, gap)) < _EVEN_M:
            return index
    return None


def _columns(pushes: Sequence[Push], drivers: Sequence[Driver]) -> list[list[float]]:
    found = []
    for driver in drivers:
        parts = [wrench(way, pushes[index].at) for index, way in driver]
        found.append([sum(each) for each in zip(*parts, strict=True)])
    return found


def _try(
    pushes: Sequence[Push], drivers: Sequence[Driver], right: Sequence[float]
) -> tuple[Corner, list[float]]:
    try:
        return corner(_columns(pushes, drivers), right, _PRICES)
    except UnboundedError as error:
        raise NoBalanceError from error


def _moved(
    pushes: Sequence[Push], drivers: Sequence[Driver], load: Wrench, short: Sequence[float]
) -> tuple[Vector, Sequence[Push], Corner]:
    """The contacts moved together until they hold the body, or just so far and no more.

    Raises:
        NoBalanceError: they can't, or only far from where they are drawn.
    """
    shift = _shift(short, load)
    for extra in (0.0, _EXTRA_M):  # a little further helps where the edge is hit by rounding
        far = length_of(shift)
        by = along(shift, shift, extra / far)
        moved = [evolve(push, at=along(push.at, by, 1.0)) for push in pushes]
        start, left = _try(moved, drivers, [-value for value in load])
        if max(map(abs, left)) <= _CLOSE:
            return by, moved, start
    raise NoBalanceError


def _shift(short: Sequence[float], load: Wrench) -> Vector:
    """How far the contacts must move for the moments that are short."""
    down = -load[1]
    others = [abs(value) for index, value in enumerate(short) if index not in (3, 5)]
    if max(others) > _CLOSE or down <= _CLOSE:
        raise NoBalanceError
    ahead, right = short[5] / down, -short[3] / down
    if abs(ahead) > MOST_SHIFT_M or abs(right) > MOST_SHIFT_M:
        raise NoBalanceError
    return (ahead, 0.0, right)


# ---- the most even pushes ---------------------------------------------------------------


def _even(
    pushes: Sequence[Push],
    drivers: Sequence[Driver],
    right: Sequence[float],
    shoulders: Mapping[str, Vector],
) -> list[float] | None:
    """The amounts of least squares that fit, none below 0; None where the search fails.

    An arm's moment at the shoulder counts among the squares. Amounts that come out below 0
    are left out and the rest solved again, so there are at most as many rounds as amounts.
    """
    arms = _arms(pushes, drivers, shoulders)
    columns = [
        [*column, *(arm[k] for arm in arms)] for k, column in enumerate(_columns(pushes, drivers))
    ]
    wanted = [*right, *(0.0 for _ in arms)]
    soft = [0.0] * len(right) + [_ARM_EASE] * len(arms)
    live = list(range(len(columns)))
    for _ in range(len(columns)):
        found = _least_squares([columns[k] for k in live], wanted, soft)
        if min(found, default=0.0) >= -1e-7:
            amounts = [0.0] * len(columns)
            for k, value in zip(live, found, strict=True):
                amounts[k] = max(value, 0.0)
            return amounts if _fits(columns, right, amounts) else None
        live = [k for k, value in zip(live, found, strict=True) if value > 0.0]
    return None


def _arms(
    pushes: Sequence[Push], drivers: Sequence[Driver], shoulders: Mapping[str, Vector]
) -> list[list[float]]:
    """For each arm that bears weight: the moment of each amount about its shoulder."""
    rows = []
    for side, shoulder in shoulders.items():
        row = [
            sum(
                cross(along(pushes[i].at, shoulder, -1.0), way)[2]
                for i, way in driver
                if pushes[i].what in (What.HANDS, What.FOREARMS) and pushes[i].side == side
            )
            for driver in drivers
        ]
        if any(row):
            rows.append(row)
    return rows


def _least_squares(
    columns: Sequence[Sequence[float]], wanted: Sequence[float], soft: Sequence[float]
) -> list[float]:
    """Amounts of least squares with A x = wanted; a soft row may miss it at a price."""
    size = len(wanted)
    normal = [
        [
            sum(column[i] * column[j] for column in columns)
            + ((soft[i] or 1e-10) if i == j else 0.0)
            for j in range(size)
        ]
        for i in range(size)
    ]
    pull = solve_linear(normal, list(wanted))
    return [sum(c * p for c, p in zip(column, pull, strict=True)) for column in columns]


def _fits(
    columns: Sequence[Sequence[float]], right: Sequence[float], amounts: Sequence[float]
) -> bool:
    made = [
        sum(column[i] * amount for column, amount in zip(columns, amounts, strict=True))
        for i in range(len(right))
    ]
    return all(abs(a - b) < 1e-4 for a, b in zip(made, right, strict=True))


def _middle(start: Corner) -> list[float]:
    """The mean of the corners where each amount in turn is greatest: it fits too."""
    seen = [start.amounts]
    for index in range(start.count):
        costs = [-1.0 if k == index else 0.0 for k in range(start.count)]
        try:
            seen.append(least(start, costs).amounts)
        except UnboundedError as error:
            raise NoBalanceError from error
    return [sum(each) / len(seen) for each in zip(*seen, strict=True)]
