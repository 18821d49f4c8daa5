"""Linear programmes of a few rows: the least of a sum over all amounts that fit.

The simplex method on a dense table with Bland's rule (Bland RG, Math Oper Res
1977;2:103-107), which can't run in circles; steps are bounded all the same.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from attrs import frozen

_TINY: Final = 1e-9
_MOST_PIVOTS: Final = 400


class UnboundedError(Exception):
    """The sum has no least value, or was not found within the bounded steps."""


@frozen
class Corner:
    """Amounts that fit: a basic solution of ``A x = b`` with no amount below 0.

    Attributes:
        rows: the table, each row ending with the amount of its basic column.
        basis: the basic column of each row.
        count: number of columns that stand for amounts; further ones are helpers.
    """

    rows: tuple[tuple[float, ...], ...]
    basis: tuple[int, ...]
    count: int

    @property
    def amounts(self) -> list[float]:
        found = [0.0] * self.count
        for row, column in zip(self.rows, self.basis, strict=True):
            if column < self.count:
                found[column] = max(row[-1], 0.0)
        return found


def _pivot(rows: list[list[float]], basis: list[int], at: int, column: int) -> None:
    scale = rows[at][column]
    rows[at] = [value / scale for value in rows[at]]
    for index, row in enumerate(rows):
        factor = row[column]
        if index != at and factor:
            rows[index] = [a - factor * b for a, b in zip(row, rows[at], strict=True)]
    basis[at] = column


def _improve(rows: list[list[float]], basis: list[int], costs: Sequence[float]) -> None:
    """Walk to the corner of least cost, among columns that ``costs`` names."""
    for _ in range(_MOST_PIVOTS):
        priced = [(costs[col] if col < len(costs) else 0.0) for col in basis]
        entering = next(
            (
                column
                for column in range(len(costs))
                if column not in basis and _gain(rows, priced, costs, column) < -_TINY
            ),
            None,
        )
        if entering is None:
            return
        ratios = [
            (row[-1] / row[entering], basis[index], index)
            for index, row in enumerate(rows)
            if row[entering] > _TINY
        ]
        if not ratios:
            raise UnboundedError
        least = min(ratios)[0]
        _, _, leaving = min(r for r in ratios if r[0] <= least + _TINY and r[0] >= least)
        _pivot(rows, basis, leaving, entering)
    raise UnboundedError


def _gain(
    rows: list[list[float]], priced: Sequence[float], costs: Sequence[float], column: int
) -> float:
    carried = sum(p * row[column] for p, row in zip(priced, rows, strict=True) if p)
    return costs[column] - carried


def corner(
    columns: Sequence[Sequence[float]], right: Sequence[float], prices: Sequence[float]
) -> tuple[Corner, list[float]]:
    """Amounts that come as near to ``A x = right`` as they can.

    Args:
        columns: the columns of A.
        right: one number a row.
        prices: how much a row's shortfall counts.

    Returns:
        The corner, and the shortfall of each row: right minus A x. Where all are 0 the
        corner can be improved by :func:`least`.

    Raises:
        UnboundedError: not found within the bounded steps.
    """
    size, count = len(right), len(columns)
    flat = [
        [column[i] for column in columns]
        + [1.0 if j == i else 0.0 for j in range(size)]
        + [-1.0 if j == i else 0.0 for j in range(size)]
        + [right[i]]
        for i in range(size)
    ]
    rows = [[-v for v in row] if row[-1] < 0 else row for row in flat]
    basis = [count + i + (size if right[i] < 0 else 0) for i in range(size)]
    _improve(rows, basis, [0.0] * count + [*prices, *prices])
    short = [0.0] * size
    for row, column in zip(rows, basis, strict=True):
        if column >= count:
            index = column - count
            short[index % size] += row[-1] if index < size else -row[-1]
    kept = _without_helpers(rows, basis, count)
    return kept, short


def _without_helpers(rows: list[list[float]], basis: list[int], count: int) -> Corner:
    """Helpers leave the basis where a real column can take over; else the row says nothing."""
    for index in range(len(rows)):
        if basis[index] >= count:
            able = [c for c in range(count) if abs(rows[index][c]) > 1e-7 and c not in basis]
            if able and abs(rows[index][-1]) <= 1e-7:
                _pivot(rows, basis, index, max(able, key=lambda c: abs(rows[index][c])))
    keep = [index for index in range(len(rows)) if basis[index] < count]
    return Corner(
        tuple((*rows[index][:count], rows[index][-1]) for index in keep),
        tuple(basis[index] for index in keep),
        count,
    )


def least(start: Corner, costs: Sequence[float]) -> Corner:
    """The corner where the sum of costs times amounts is least.

    Raises:
        UnboundedError: there is no least, or it was not found within the bounded steps.
    """
    rows, basis = [list(row) for row in start.rows], list(start.basis)
    _improve(rows, basis, costs)
    return Corner(tuple(map(tuple, rows)), tuple(basis), start.count)
