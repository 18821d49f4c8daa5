"""Small systems of linear equations."""

from __future__ import annotations


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
