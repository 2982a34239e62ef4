"""The section as cells one upon another and waves along the floor: what the course in time is computed on.

Each wave cos(beta x) of the temperature runs by itself through the layers, in finite volumes of second order. The pipe
joins them: its heat enters on the circle of its outside, and what the circle has as its mean temperature is what the
water sees through the pipe's resistance. That resistance is matched so that the steady heat from the water is exactly
that of ``steady``; it takes up what the cells do not resolve. The bore counts as screed.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
import scipy

from ..elementwise import Array
from .steady import Bay

__all__ = ["LEAST_LINK", "Network", "Tridiagonal", "cells_upwards", "network"]

_MOST_WAVES = 12
_ARC_POINTS = 24
LEAST_LINK = 1e-5
"""Resistance [m2.K/W] of the link to the water, at least: a source that holds the circle's temperature."""


class Tridiagonal:
    """Symmetric positive definite tridiagonal systems side by side, factorised once.

    LAPACK's routines for them are plain recurrences without the machine's linear algebra underneath.
    """

    def __init__(self, diagonal: Array, off_diagonal: Array) -> None:
        self._shape = diagonal.shape
        off = np.zeros(diagonal.shape)
        off[:, :-1] = off_diagonal
        self._d, self._e, _ = scipy.linalg.lapack.dpttrf(diagonal.ravel(), off.ravel()[:-1])

    def solve(self, right_side: Array) -> Array:
        solution, _ = scipy.linalg.lapack.dpttrs(self._d, self._e, right_side.ravel())
        return np.asarray(solution).reshape(self._shape)


class Network(NamedTuple):
    """Rows are waves, columns cells from the bottom to the top of the section.

    ``diagonal`` and ``off_diagonal`` [W/(m2.K)] hold conduction and the exchange below, without that at the top;
    ``injection`` spreads the heat of the pipe; ``capacity`` [J/(m2.K)] by cell; ``link`` [m2.K/W] leads to the water;
    ``half_cell`` [m2.K/W] from the topmost cell to the air less the surface resistance; ``bottom`` [W/(m2.K)] from the
    lowest cell to what lies below.
    """

    diagonal: Array
    off_diagonal: Array
    injection: Array
    capacity: Array
    link: float
    half_cell: float
    bottom: float


def network(
    bay: Bay,
    water_conductance: float,
    capacities_below: Sequence[float],
    screed_capacity: float,
    capacities_above: Sequence[float],
    *,
    fineness: int = 1,
) -> Network:
    """Cells and waves of ``bay``, whose heat from the water per kelvin [W/(m2.K)] is known. Heat capacities
    [J/(m3.K)] in the order of the bay's layers. As many waves as pipes would fit between two, but for bounds.
    ``fineness`` divides every cell."""
    height, conductivity = cells_upwards(bay, fineness)
    capacity = np.repeat(
        [*reversed(capacities_below), screed_capacity, *capacities_above],
        [count * fineness for *_, count in _rows(bay)],
    )
    half = height / (2.0 * conductivity)
    waves = max(2, min(math.ceil(bay.spacing / (2.0 * bay.radius)), _MOST_WAVES)) * fineness
    beta = 2.0 * math.pi / bay.spacing * np.arange(waves + 1, dtype=np.float64)
    between = 1.0 / (half[1:] + half[:-1])
    bottom = 1.0 / (float(half[0]) + bay.surface_resistance_below)
    diagonal = (beta * beta)[:, None] * (conductivity * height)
    diagonal[:, 1:] += between
    diagonal[:, :-1] += between
    diagonal[:, 0] += bottom
    injection = _injection(bay, beta, height, fineness)
    half_cell = float(half[-1]) + bay.covering_resistance
    whole = diagonal.copy()
    whole[:, -1] += 1.0 / (half_cell + bay.surface_resistance)
    response = Tridiagonal(whole, -between).solve(injection)
    link = 1.0 / water_conductance - float((injection * response).sum())
    return Network(diagonal, -between, injection, height * capacity, max(link, LEAST_LINK), half_cell, bottom)


def cells_upwards(bay: Bay, fineness: int = 1) -> tuple[Array, Array]:
    """Height [m] and conductivity [W/(m.K)] of the cells, bottom to top."""
    rows = _rows(bay)
    counts = [count * fineness for *_, count in rows]
    height: Array = np.repeat([d / (count * fineness) for d, _, count in rows], counts)
    return height, np.repeat([conductivity for _, conductivity, _ in rows], counts)


def _rows(bay: Bay) -> list[tuple[float, float, int]]:
    """Thickness, conductivity and number of cells by layer, bottom to top: half a radius high at most in the screed and
    12 mm elsewhere, but for bounds of their number."""
    thickness = bay.above + bay.below
    screed_cells = min(max(math.ceil(2.0 * thickness / bay.radius), 10), 24)
    return [
        *((d, conductivity, _count(d)) for d, conductivity in reversed(bay.layers_below)),
        (thickness, bay.conductivity, screed_cells),
        *((d, conductivity, _count(d)) for d, conductivity in bay.layers_above),
    ]


def _count(thickness: float) -> int:
    return min(max(math.ceil(thickness / 0.012), 2), 10)


def _injection(bay: Bay, beta: Array, height: Array, fineness: int) -> Array:
    """Share of the pipe's heat by wave and cell: points of the half circle, each on its two nearest cells."""
    top_of_below = math.fsum(d for d, _ in bay.layers_below)
    edges = np.concatenate(([0.0], np.add.accumulate(height)))
    middles = (edges[1:] + edges[:-1]) / 2.0
    axis = top_of_below + bay.below
    screed = np.flatnonzero((middles > top_of_below) & (middles < axis + bay.above))
    first, last = int(screed[0]), int(screed[-1])
    injection = np.zeros((len(beta), len(height)))
    points = _ARC_POINTS * fineness
    for point in range(points):
        angle = math.pi * (point + 0.5) / points
        y = axis + bay.radius * math.cos(angle)
        # Beyond the outermost middles of the screed the two cells there serve, by extrapolation.
        cell = min(max(int(np.searchsorted(middles, y, side="right")) - 1, first), last - 1)
        share = (y - float(middles[cell])) / float(middles[cell + 1] - middles[cell])
        for row, wave in enumerate(beta.tolist()):
            weight = math.cos(wave * bay.radius * math.sin(angle)) / points
            injection[row, cell] += weight * (1.0 - share)
            injection[row, cell + 1] += weight * share
    injection[1:] *= math.sqrt(2.0)
    return injection
