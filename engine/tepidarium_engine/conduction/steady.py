"""Steady heat conduction round a row of pipes in layers: multipoles with reflections, exact but for a truncation.

In the screed the field is a row of multipoles on the pipes' axes, their reflections in the layers above and below, and
a linear part. Of each order the strength follows from the wall of the pipe, whose water has one temperature all round.
The method is that of Claesson and Hellström 2011 (HVAC&R Research 17 (6), 895-911; before them Bennet, Claesson and
Hellström 1987), carried over to a periodic row between layers; order 0 alone is the line source.

With y upwards from the axis and z = y + i x, the row of unit multipoles of order m is the sum over k of
Re (z + i k T)^-m, which is for y > 0 that over n of Re beta^m / ((m-1)! n) exp(-beta z); that of order 0 is
-ln|2 sinh(pi z / T)|.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from ..elementwise import Array
from .elimination import solve_dense
from .layered import Side, Stack, decay, side_of

__all__ = ["ORDERS", "Bay", "PipeRow", "Unit", "solve_bay"]

ORDERS = 8
"""Highest multipole; a pipe that touches the insulation has its heat flows to 1e-6 then."""
_DECADES = 40.0
"""Waves are carried until exp(-40) on their way to the nearest face and back."""
_FEWEST_WAVES = 40


@dataclass(frozen=True, slots=True)
class Bay:
    """One pipe between the mid-lines to its neighbours; lengths [m], conductivities [W/(m.K)], resistances
    [m2.K/W]. ``radius`` is that of the pipe in the screed; ``above`` and ``below`` are distances from the axis to the
    faces of the screed. ``wall`` holds the film [W/(m2.K)], then rings from the bore outwards as outer radius and
    conductivity, after the radius of the bore."""

    spacing: float
    radius: float
    conductivity: float
    above: float
    below: float
    layers_above: Stack
    layers_below: Stack
    covering_resistance: float
    surface_resistance: float
    surface_resistance_below: float
    bore_radius: float
    film: float
    rings: Stack

    @property
    def pipe_resistance(self) -> float:
        """Film and wall, per metre of pipe [m.K/W]."""
        total, inner = 1.0 / (2.0 * math.pi * self.bore_radius * self.film), self.bore_radius
        for outer, conductivity in self.rings:
            total += math.log(outer / inner) / (2.0 * math.pi * conductivity)
            inner = outer
        return total


class Unit(NamedTuple):
    """The bay for 1 K of the water, or of what lies below, over the room: heat up, down and from the water
    [W/(m2.K)], mean temperatures [1] at the top and bottom face of the screed, and amplitudes of waves [1]."""

    up: float
    down: float
    water: float
    top: float
    bottom: float
    surface_waves: Array
    top_waves: Array


def solve_bay(bay: Bay) -> tuple[Unit, Unit]:
    """The bay with 1 K of the water, and with 1 K of what lies below, everything else at 0."""
    return PipeRow(bay).solve(bay)


class PipeRow:
    """A row of pipes at one spacing between its layers. What depends neither on the film in the pipe nor on the
    exchange at the surface is computed once for all of them; the field between faces and pipes once for an exchange;
    one elimination serves the water and what lies below."""

    def __init__(self, bay: Bay) -> None:
        self._count = _wave_count(bay)
        self._sources, self._echoes = _waves(bay, self._count)
        self._lower = side_of(
            bay.spacing,
            self._count,
            bay.conductivity,
            bay.below,
            bay.layers_below,
            resistance=0.0,
            surface_resistance=bay.surface_resistance_below,
        )
        self._held: tuple[float, tuple[Side, Side], list[list[float]]] | None = None
        self._solved: tuple[tuple[float, float], tuple[Unit, Unit]] | None = None

    def solve(self, bay: Bay) -> tuple[Unit, Unit]:
        """As ``solve_bay``, of this row's bay or one that differs in its film or surface resistance only."""
        asked = (bay.film, bay.surface_resistance)
        if self._solved is None or self._solved[0] != asked:
            self._solved = (asked, self._units(bay))
        return self._solved[1]

    def _units(self, bay: Bay) -> tuple[Unit, Unit]:
        sides, field = self._field(bay)
        matrix = _matrix(bay, sides, field)
        water = [1.0] + [0.0] * (ORDERS + 2)
        below = [0.0] * (ORDERS + 2) + [-sides[1].conductance]
        solutions = solve_dense(matrix, [water, below])
        waves = _surface_waves(bay, sides, self._sources, np.array(solutions)[:, : ORDERS + 1])
        return (
            _unit(bay, sides, solutions[0], 0.0, waves[0]),
            _unit(bay, sides, solutions[1], 1.0, waves[1]),
        )

    def _field(self, bay: Bay) -> tuple[tuple[Side, Side], list[list[float]]]:
        if self._held is None or self._held[0] != bay.surface_resistance:
            upper = side_of(
                bay.spacing,
                self._count,
                bay.conductivity,
                bay.above,
                bay.layers_above,
                resistance=bay.covering_resistance,
                surface_resistance=bay.surface_resistance,
            )
            sides = (upper, self._lower)
            field = _field_matrix(bay, sides, self._sources, self._echoes)
            self._held = (bay.surface_resistance, sides, field)
        return self._held[1:]


def _wave_count(bay: Bay) -> int:
    reach = 2.0 * min(bay.above, bay.below) * 2.0 * math.pi / bay.spacing
    return max(_FEWEST_WAVES, math.ceil((2.0 * ORDERS + _DECADES) / reach))


def _waves(bay: Bay, count: int) -> tuple[Array, Array]:
    """By order and wave: amplitude of a unit multipole (scaled by radius^m), and what a wave has of each order
    round the pipe (scaled by radius^k)."""
    number = np.arange(1, count + 1)
    step = 2.0 * math.pi * bay.radius / bay.spacing * number
    sources, echoes = np.empty((ORDERS + 1, count)), np.empty((ORDERS + 1, count))
    sources[0], echoes[0] = 1.0 / number, 1.0
    for order in range(1, ORDERS + 1):
        echoes[order] = echoes[order - 1] * step / order
        sources[order] = step / number if order == 1 else sources[order - 1] * step / (order - 1)
    return sources, echoes


_SIGNS = np.array([(-1.0) ** order for order in range(ORDERS + 1)])


def _field_matrix(bay: Bay, sides: tuple[Side, Side], sources: Array, echoes: Array) -> list[list[float]]:
    """Regular field of order k at the pipe by the unit multipole of order m: reflections and neighbours."""
    count = sources.shape[1]
    up, down = (side.reflection * decay(bay.spacing, 2.0 * side.distance, count) for side in sides)
    both = up * down
    rest = 1.0 / (1.0 - both)
    rising = down * rest * _SIGNS[:, None] + both * rest  # by source order: downward wave, once reflected
    sinking = up * rest + both * rest * _SIGNS[:, None]
    field = (
        echoes[:, None, :]
        * sources[None, :, :]
        * (_SIGNS[:, None, None] * rising[None, :, :] + sinking[None, :, :])
    ).sum(axis=2)
    ratio = bay.radius / bay.spacing
    neighbours = _neighbours()
    return [
        [float(field[k, m]) + neighbours[k][m] * ratio ** (k + m) for m in range(ORDERS + 1)]
        for k in range(ORDERS + 1)
    ]


@lru_cache(maxsize=1)
def _neighbours() -> list[list[float]]:
    """Regular field of order k at one pipe by unit multipoles of order m at all the others, spacing 1."""
    rows = [[0.0] * (ORDERS + 1) for _ in range(ORDERS + 1)]
    zeta = _even_zeta(ORDERS)
    for k in range(ORDERS + 1):
        for m in range(k % 2, ORDERS + 1, 2):
            if k + m == 0:
                continue
            half = (k + m) // 2
            lattice = 2.0 * (-1.0) ** half * zeta[half]
            rows[k][m] = lattice / k if m == 0 else lattice * (-1.0) ** k * math.comb(m + k - 1, k)
    return rows


def _even_zeta(most: int) -> list[float]:
    """Riemann's zeta function of 2, 4 to 2 ``most`` in the places from 1 (Euler: each by those before)."""
    found = [0.0, math.pi**2 / 6.0]
    for n in range(2, most + 1):
        found.append(math.fsum(found[k] * found[n - k] for k in range(1, n)) / (n + 0.5))
    return found


def _matrix(bay: Bay, sides: tuple[Side, Side], field: list[list[float]]) -> list[list[float]]:
    """Rows: the pipe by order, then the mean at the top and at the bottom face. Columns: multipoles by order, then
    mean and slope of the linear part."""
    pi_over = math.pi / bay.spacing
    rows = []
    for k in range(ORDERS + 1):
        if k == 0:
            row = [*field[0], 1.0, 0.0]
            row[0] += 2.0 * math.pi * bay.conductivity * bay.pipe_resistance
            row[0] -= math.log(2.0 * math.pi * bay.radius / bay.spacing)
        else:
            share = _wall_share(bay, k)
            row = [-share * value for value in field[k]] + [0.0, -share * bay.radius if k == 1 else 0.0]
            row[k] += 1.0
        rows.append(row)
    for side, sign in zip(sides, (1.0, -1.0), strict=True):
        u, s = side.conductance, side.distance
        row = [0.0] * (ORDERS + 3)
        row[0] = pi_over * (bay.conductivity + u * s)
        row[1] = -sign * u * bay.radius * pi_over
        row[ORDERS + 1] = -u
        row[ORDERS + 2] = -sign * (bay.conductivity + u * s)
        rows.append(row)
    return rows


def _wall_share(bay: Bay, order: int) -> float:
    """Multipole over regular field of the same order at the pipe: 1 for a pipe that takes no heat, -1 for one
    whose outside has one temperature. Film and rings as the layers of a plane, in the logarithm of the radius."""
    coefficient, inner = bay.film * bay.bore_radius, bay.bore_radius
    for outer, conductivity in bay.rings:
        wave = conductivity * order
        power = (inner / outer) ** (2 * order)
        tanh = (1.0 - power) / (1.0 + power)
        coefficient = wave * (coefficient + wave * tanh) / (wave + coefficient * tanh)
        inner = outer
    wave = bay.conductivity * order
    return (wave - coefficient) / (wave + coefficient)


def _surface_waves(bay: Bay, sides: tuple[Side, Side], sources: Array, poles: Array) -> Array:
    """Amplitudes of the waves on the top face of the screed, for each row of multipoles."""
    top, bottom = sides
    count = sources.shape[1]
    upwards, downwards = (
        (strengths[:, :, None] * sources[None]).sum(axis=1) for strengths in (poles, poles * _SIGNS)
    )
    once = decay(bay.spacing, top.distance, count)
    up, down = (
        top.reflection * once * once,
        bottom.reflection * decay(bay.spacing, 2.0 * bottom.distance, count),
    )
    waves: Array = (upwards + down * downwards) / (1.0 - up * down) * once * (1.0 + top.reflection)
    return waves


def _unit(bay: Bay, sides: tuple[Side, Side], solution: list[float], below: float, waves: Array) -> Unit:
    mean, slope = solution[ORDERS + 1], solution[ORDERS + 2]
    top, bottom = sides
    fall, jump = math.pi / bay.spacing * solution[0], math.pi / bay.spacing * bay.radius * solution[1]
    at_top = mean + (slope - fall) * top.distance + jump
    at_bottom = mean - (slope + fall) * bottom.distance - jump
    return Unit(
        up=top.conductance * at_top,
        down=bottom.conductance * (at_bottom - below),
        water=2.0 * math.pi * bay.conductivity * solution[0] / bay.spacing,
        top=at_top,
        bottom=at_bottom,
        surface_waves=waves * top.surface_share,
        top_waves=waves,
    )
