"""Linear equations solved without the machine's linear algebra, whose last bits change with the processor."""

from __future__ import annotations

import numpy as np

from ..elementwise import Array

__all__ = ["solve_banded", "solve_dense"]


def solve_dense(matrix: list[list[float]], right_sides: list[list[float]]) -> list[list[float]]:
    """Solutions of a small regular system, one for each right side: Gauss with row pivoting, in floats."""
    size = len(matrix)
    rows = [[*matrix[row], *(side[row] for side in right_sides)] for row in range(size)]
    for pivot in range(size):
        sizes = [abs(row[pivot]) for row in rows]
        best = max(range(pivot, size), key=sizes.__getitem__)
        rows[pivot], rows[best] = rows[best], rows[pivot]
        lead = rows[pivot]
        for other in rows[pivot + 1 :]:
            factor = other[pivot] / lead[pivot]
            if factor != 0.0:
                other[pivot:] = [a - factor * b for a, b in zip(other[pivot:], lead[pivot:], strict=True)]
    solutions = [[0.0] * size for _ in right_sides]
    for number, solution in enumerate(solutions):
        for row in range(size - 1, -1, -1):
            rest = rows[row][size + number]
            for column in range(row + 1, size):
                rest -= rows[row][column] * solution[column]
            solution[row] = rest / rows[row][row]
    return solutions


def solve_banded(bands: Array, right_sides: Array) -> Array:
    """Solve a symmetric positive definite band system for all right sides at once.

    ``bands[i, j]`` is the element of row ``i`` and column ``i + j``; ``right_sides`` has a row for each
    equation. LDL' by whole bands.
    """
    size, width = bands.shape
    # Twice as wide and longer by a band: what lies below the diagonal of a trailing square falls into the spare half.
    table = np.zeros((size + width, 2 * width))
    table[:size, :width] = bands
    line, item = table.strides
    squares = np.lib.stride_tricks.as_strided(
        table, (size + 1, width - 1, width - 1), (line, line - item, item)
    )
    solution = np.zeros((size + width, right_sides.shape[1]))
    solution[:size] = right_sides
    for row in range(size):
        lead = table[row, 1:width]
        factors = lead / table[row, 0]
        squares[row + 1] -= factors[:, None] * lead
        solution[row + 1 : row + width] -= factors[:, None] * solution[row]
        lead[:] = factors
    solution[:size] /= table[:size, :1]
    for row in range(size - 2, -1, -1):
        solution[row] -= (table[row, 1:width, None] * solution[row + 1 : row + width]).sum(axis=0)
    return solution[:size]
