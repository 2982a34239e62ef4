"""Tables of EN 1264-2, annex A, for pipes in the screed on flat insulation (types A and C).

Values between the entries are interpolated linearly in both directions. Outside a table its edge value is
held, never extrapolated; the caller says so in a finding or refuses.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple, overload

import numpy as np
import numpy.typing as npt

from ..elementwise import Array, Real

__all__ = [
    "COVERING",
    "COVER_FACTOR",
    "COVER_PER_CONDUCTIVITY",
    "COVER_PER_SPACING",
    "DIAMETER_FACTOR",
    "LIMIT_COEFFICIENT",
    "LIMIT_COEFFICIENT_THICK",
    "LIMIT_EXPONENT",
    "LIMIT_EXPONENT_THICK",
    "SPACING",
    "SPACING_FACTOR",
    "Axis",
    "Line",
    "Place",
    "Places",
    "Table",
]

_NUMBER = (float, int)


class Place(NamedTuple):
    """A position along an axis: the number of the interval and the fraction of it."""

    interval: int
    fraction: float


class Places(NamedTuple):
    """Positions along an axis."""

    interval: npt.NDArray[np.intp]
    fraction: Array


class Axis:
    """The entries of a table in one direction.

    With ``step`` the entries are filled up to a uniform grid, so that a position is found by one division.
    The added entries lie on the straight line between their neighbours and change no interpolated value.
    """

    def __init__(self, *entries: float, step: float | None = None) -> None:
        self.entries = entries
        self.step = step
        self._ends = first, last = entries[0], entries[-1]
        if step is None:
            self.points = entries
        else:
            self.points = tuple(first + step * k for k in range(round((last - first) / step) + 1))
        self._starts = np.array(self.points[:-1])
        self._widths = np.diff(np.array(self.points))

    @overload
    def place(self, x: float) -> Place: ...
    @overload
    def place(self, x: Array) -> Places: ...
    def place(self, x: float | Array) -> Place | Places:
        return self._place(x) if isinstance(x, _NUMBER) else self._places(x)

    def _place(self, x: float) -> Place:
        last = len(self.points) - 2
        first, end = self._ends
        x = first if x < first else end if x > end else x
        if self.step is not None:
            steps = (x - first) / self.step
            index = min(int(steps), last)
            return Place(index, steps - index)
        index = min(bisect_right(self.points, x) - 1, last)
        return Place(index, (x - self.points[index]) / (self.points[index + 1] - self.points[index]))

    def _places(self, x: Array) -> Places:
        last = len(self.points) - 2
        x = np.minimum(np.maximum(x, self.entries[0]), self.entries[-1])
        if self.step is not None:
            steps = (x - self.entries[0]) / self.step
            cells = np.minimum(steps.astype(np.intp), last)
            return Places(cells, steps - cells)
        cells = np.minimum(np.searchsorted(self.points, x, side="right") - 1, last)
        return Places(cells, (x - self._starts[cells]) / self._widths[cells])

    def fill(self, values: Sequence[float]) -> list[float]:
        """``values`` at the entries, with those of the added points between them."""
        filled = []
        for x in self.points:
            i = min(bisect_right(self.entries, x) - 1, len(self.entries) - 2)
            low, high = self.entries[i], self.entries[i + 1]
            filled.append(values[i] + (values[i + 1] - values[i]) * ((x - low) / (high - low)))
        return filled


class Table:
    """Values over ``rows`` and ``columns``; each cell is kept as value, two slopes and a cross term."""

    def __init__(self, rows: Axis, columns: Axis, *values: Sequence[float]) -> None:
        self.rows, self.columns = rows, columns
        along = [columns.fill(row) for row in values]
        grid = list(zip(*(rows.fill(column) for column in zip(*along, strict=True)), strict=True))
        self._stride = len(columns.points) - 1
        self._cells: tuple[tuple[float, float, float, float], ...] = tuple(
            (a, c - a, b - a, a - b - c + d)
            for upper, lower in pairwise(grid)
            for a, b, c, d in zip(upper[:-1], upper[1:], lower[:-1], lower[1:], strict=True)
        )
        self._arrays = tuple(np.array(part) for part in zip(*self._cells, strict=True))

    @overload
    def at(self, row: Place, column: Place) -> float: ...
    @overload
    def at(self, row: Places, column: Places) -> Array: ...
    def at(self, row: Place | Places, column: Place | Places) -> float | Array:
        if isinstance(row, Place) and isinstance(column, Place):
            cell = self._cells[row.interval * self._stride + column.interval]
            return _in_cell(cell, row.fraction, column.fraction)
        number = row.interval * self._stride + column.interval
        value, by_row, by_column, cross = (part[number] for part in self._arrays)
        down, across = np.asarray(row.fraction), np.asarray(column.fraction)
        inside: Array = _in_cell((value, by_row, by_column, cross), down, across)
        return inside


def _in_cell(cell: tuple[Real, Real, Real, Real], down: Real, across: Real) -> Real:
    value, by_row, by_column, cross = cell
    return value + down * by_row + across * (by_column + down * cross)


class Line:
    """Values along one axis."""

    def __init__(self, axis: Axis, *values: float) -> None:
        self.axis = axis
        self._points = axis.fill(values)
        self._array = np.array(self._points)

    @overload
    def at(self, place: Place) -> float: ...
    @overload
    def at(self, place: Places) -> Array: ...
    def at(self, place: Place | Places) -> float | Array:
        if isinstance(place, Place):
            low = self._points[place.interval]
            return low + place.fraction * (self._points[place.interval + 1] - low)
        lows: Array = self._array[place.interval]
        return lows + place.fraction * (self._array[place.interval + 1] - lows)


COVERING = Axis(0.0, 0.05, 0.10, 0.15, step=0.05)
"""Resistance of the covering [m2.K/W]."""
SPACING = Axis(0.05, 0.075, 0.10, 0.15, 0.20, 0.225, 0.30, 0.375, step=0.0125)
"""Pipe spacing [m]."""
_SPACING_LIMIT_EXPONENT = Axis(0.05, 0.075, 0.10, 0.15, 0.20, 0.225, 0.2625, 0.30, 0.3375, 0.375, step=0.0125)
"""Pipe spacing [m] in Table A.6, filled up to the same points: a place on ``SPACING`` serves it too."""
COVER_PER_CONDUCTIVITY = Axis(0.01, 0.0208, 0.0292, 0.0375, 0.0458, 0.0542, 0.0625, 0.0708, 0.0792)
"""Screed cover over screed conductivity [m2.K/W]."""
COVER_PER_SPACING = Axis(0.173, 0.20, 0.25, 0.30, 0.35, 0.40, 0.45, 0.50, 0.55, 0.60, 0.65, 0.70, 0.75)
"""Screed cover over pipe spacing."""

SPACING_FACTOR = Line(COVERING, 1.23, 1.188, 1.156, 1.134)
"""Table A.1: a_T."""

COVER_FACTOR = Table(
    SPACING,
    COVERING,
    (1.069, 1.056, 1.043, 1.037),
    (1.066, 1.053, 1.041, 1.035),
    (1.063, 1.050, 1.039, 1.0335),
    (1.057, 1.046, 1.035, 1.0305),
    (1.051, 1.041, 1.0315, 1.0275),
    (1.048, 1.038, 1.0295, 1.026),
    (1.0395, 1.031, 1.024, 1.021),
    (1.030, 1.0221, 1.0181, 1.015),
)
"""Table A.2: a_U."""

DIAMETER_FACTOR = Table(
    SPACING,
    COVERING,
    (1.013, 1.013, 1.012, 1.011),
    (1.021, 1.019, 1.016, 1.014),
    (1.029, 1.025, 1.022, 1.018),
    (1.040, 1.034, 1.029, 1.024),
    (1.046, 1.040, 1.035, 1.030),
    (1.049, 1.043, 1.038, 1.033),
    (1.053, 1.049, 1.044, 1.039),
    (1.056, 1.051, 1.046, 1.042),
)
"""Table A.3: a_D."""

LIMIT_COEFFICIENT = Table(
    SPACING,
    COVER_PER_CONDUCTIVITY,
    (85.0, 91.5, 96.8, 100.0, 100.0, 100.0, 100.0, 100.0, 100.0),
    (75.3, 83.5, 89.9, 96.3, 99.5, 100.0, 100.0, 100.0, 100.0),
    (66.0, 75.4, 82.9, 89.3, 95.5, 98.8, 100.0, 100.0, 100.0),
    (51.0, 61.1, 69.2, 76.3, 82.7, 87.5, 91.8, 95.1, 97.8),
    (38.5, 48.2, 56.2, 63.1, 69.1, 74.5, 81.3, 86.4, 90.0),
    (33.0, 42.5, 49.5, 56.5, 62.0, 67.5, 75.3, 81.6, 86.1),
    (20.5, 26.8, 31.6, 36.4, 41.5, 47.5, 57.5, 65.3, 72.4),
    (11.5, 13.7, 15.5, 18.2, 21.5, 27.5, 40.0, 49.1, 58.3),
)
"""Table A.4: B_G [W/m2] up to s_u/lambda_E = 0.0792."""

LIMIT_COEFFICIENT_THICK = Line(
    COVER_PER_SPACING, 27.5, 40.0, 57.5, 69.5, 78.2, 84.4, 88.3, 91.6, 94.0, 96.3, 98.6, 99.8, 100.0
)
"""Table A.5: B_G [W/m2] beyond."""

LIMIT_EXPONENT = Table(
    _SPACING_LIMIT_EXPONENT,
    COVER_PER_CONDUCTIVITY,
    (0.008, 0.005, 0.002, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0),
    (0.024, 0.021, 0.018, 0.011, 0.002, 0.0, 0.0, 0.0, 0.0),
    (0.046, 0.043, 0.041, 0.033, 0.014, 0.005, 0.0, 0.0, 0.0),
    (0.088, 0.085, 0.082, 0.076, 0.055, 0.038, 0.024, 0.014, 0.006),
    (0.131, 0.130, 0.129, 0.123, 0.105, 0.083, 0.057, 0.040, 0.028),
    (0.155, 0.154, 0.153, 0.146, 0.130, 0.110, 0.077, 0.056, 0.041),
    (0.197, 0.196, 0.196, 0.190, 0.173, 0.150, 0.110, 0.083, 0.062),
    (0.254, 0.253, 0.253, 0.245, 0.228, 0.195, 0.145, 0.114, 0.086),
    (0.322, 0.321, 0.321, 0.310, 0.293, 0.260, 0.187, 0.148, 0.115),
    (0.422, 0.421, 0.421, 0.405, 0.385, 0.325, 0.230, 0.183, 0.142),
)
"""Table A.6: n_G up to s_u/lambda_E = 0.0792."""

LIMIT_EXPONENT_THICK = Line(
    COVER_PER_SPACING, 0.32, 0.23, 0.145, 0.097, 0.067, 0.048, 0.033, 0.023, 0.015, 0.009, 0.005, 0.002, 0.0
)
"""Table A.7: n_G beyond."""
