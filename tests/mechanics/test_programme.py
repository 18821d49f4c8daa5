"""The simplex method against worked examples and against all corners of small programmes."""

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from authoring.figures.linear import solve_linear
from authoring.mechanics.programme import UnboundedError, corner, least


def test_a_textbook_programme_has_its_textbook_answer() -> None:
    # Hillier FS, Lieberman GJ, Introduction to Operations Research, the glass company:
    # most of 3x + 5y with x <= 4, 2y <= 12, 3x + 2y <= 18 is 36 at (2, 6) (from memory).
    columns = [[1, 0, 3], [0, 2, 2], [1, 0, 0], [0, 1, 0], [0, 0, 1]]
    start, short = corner(columns, [4, 12, 18], [1, 1, 1])
    assert short == pytest.approx([0, 0, 0])
    best = least(start, [-3, -5, 0, 0, 0]).amounts
    assert best[:2] == pytest.approx([2, 6])


def test_what_can_not_be_met_is_told_as_a_shortfall() -> None:
    _, short = corner([[1.0, 1.0]], [1.0, 3.0], [1.0, 1.0])
    assert sum(map(abs, short)) == pytest.approx(2.0)


def test_a_sum_without_a_least_is_refused() -> None:
    start, _ = corner([[1.0], [-1.0]], [1.0], [1.0])
    with pytest.raises(UnboundedError):
        least(start, [-1.0, 0.0])


NUMBERS = st.integers(-4, 4).map(float)


@given(
    st.lists(st.lists(NUMBERS, min_size=2, max_size=2), min_size=2, max_size=6),
    st.lists(st.integers(0, 3).map(float), min_size=6, max_size=6),
    st.lists(st.integers(0, 5).map(float), min_size=6, max_size=6),
)
def test_no_corner_is_better_than_the_least(
    columns: list[list[float]], amounts: list[float], costs: list[float]
) -> None:
    """Costs are not below 0, so there is a least; some corner has it."""
    right = [sum(c[i] * a for c, a in zip(columns, amounts, strict=False)) for i in (0, 1)]
    start, short = corner(columns, right, [1.0, 1.0])
    assert max(map(abs, short)) < 1e-6
    found = least(start, costs[: len(columns)]).amounts
    price = sum(c * a for c, a in zip(costs, found, strict=False))
    for i in (0, 1):
        made = sum(c[i] * a for c, a in zip(columns, found, strict=True))
        assert made == pytest.approx(right[i], abs=1e-6)
    for a, b in combinations(range(len(columns)), 2):
        matrix = [[columns[a][i], columns[b][i]] for i in (0, 1)]
        if abs(matrix[0][0] * matrix[1][1] - matrix[0][1] * matrix[1][0]) < 1e-9:
            continue
        x, y = solve_linear(matrix, right)
        if x >= -1e-9 and y >= -1e-9:
            assert price <= costs[a] * x + costs[b] * y + 1e-6
