"""The section on a grid across and upwards: for the bay with a cold edge, and for pictures.

Finite volumes on rectangles that grow away from the pipe. The pipe is as in ``network``: its heat enters on the circle
of its outside, and its resistance is matched so that the grid, closed to a bay among its like, takes exactly the heat
that ``steady`` says. With the cold edge the same grid round the pipe keeps that resistance.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..elementwise import Array
from .elimination import solve_banded
from .network import LEAST_LINK, cells_upwards
from .steady import Bay

__all__ = ["Plane", "Sides", "Solution", "solve_plane"]

_GROWTH = 1.35
_ARC_POINTS = 48


@dataclass(frozen=True, slots=True)
class Sides:
    """What surrounds the grid, as excess over the room [K], and how the edge is: ``distance`` [m] from the axis and
    ``resistance`` [m2.K/W], ``None`` for the mirror at the pipe's axis."""

    water: float
    below: float
    edge: float = 0.0
    distance: float | None = None
    resistance: float = 0.0


@dataclass(frozen=True, slots=True)
class Plane:
    """The grid: cell edges along the floor from the cold edge (or the axis) and upwards from the bottom [m],
    conductivity by row of cells, and where the axis is."""

    across: Array
    upwards: Array
    conductivity: Array
    axis: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Solution:
    """Excess over the room by cell (rows upwards) [K], and heat flows per metre of pipe [W/m]."""

    plane: Plane
    excess: Array
    water: float
    up: float
    down: float
    edge: float
    surface: Array
    """Excess of the surface by column [K]."""


def solve_plane(bay: Bay, water_conductance: float, sides: Sides) -> Solution:
    """The field of one bay whose heat from the water per kelvin [W/(m2.K)] among its like is known."""
    alone = _plane(bay, None)
    response = _responses(bay, alone, None)[0]
    ring = _ring(bay, alone)
    link = max(2.0 / (water_conductance * bay.spacing) - float((ring * response).sum()), LEAST_LINK)
    if sides.distance is None:
        plane, resistance = alone, None
    else:
        plane, resistance = _plane(bay, sides.distance), sides.resistance
        link *= 0.5
        ring = _ring(bay, plane)
    by_pipe, by_below, by_edge = _responses(bay, plane, resistance)
    base = by_below * sides.below + by_edge * sides.edge
    heat = (sides.water - float((ring * base).sum())) / (link + float((ring * by_pipe).sum()))
    return _solution(bay, plane, base + heat * by_pipe, heat, sides)


def _solution(bay: Bay, plane: Plane, excess: Array, heat: float, sides: Sides) -> Solution:
    width, height = np.diff(plane.across), np.diff(plane.upwards)
    top, bottom, edge = _outside(bay, plane, sides.resistance if sides.distance is not None else None)
    up = top * width * excess[-1]
    down = bottom * width * (excess[0] - sides.below)
    lost = edge * height * (excess[:, 0] - sides.edge)
    return Solution(
        plane=plane,
        excess=excess,
        water=heat,
        up=float(up.sum()),
        down=float(down.sum()),
        edge=float(lost.sum()),
        surface=top * bay.surface_resistance * excess[-1],
    )


def _plane(bay: Bay, edge_distance: float | None) -> Plane:
    height, conductivity = cells_upwards(bay)
    upwards = np.concatenate(([0.0], np.add.accumulate(height)))
    right = _offsets(bay, bay.spacing / 2.0)
    axis_height = math.fsum(d for d, _ in bay.layers_below) + bay.below
    if edge_distance is None:
        return Plane(right, upwards, conductivity, (0.0, axis_height))
    left = edge_distance - _offsets(bay, edge_distance, edge=True)[::-1]
    return Plane(
        np.concatenate((left[:-1], edge_distance + right)),
        upwards,
        conductivity,
        (edge_distance, axis_height),
    )


def _offsets(bay: Bay, length: float, edge: bool = False) -> Array:
    """Cell edges from the axis outwards: half a radius wide at the pipe, then growing, towards an edge small again."""
    fine = bay.radius / 2.0
    near = [fine * count for count in range(5) if fine * count < length - fine / 2.0]
    rest = length - near[-1]
    widths, greatest = [fine], max(bay.spacing / 12.0, fine)
    while math.fsum(widths) < (rest / 2.0 if edge else rest):
        widths.append(min(widths[-1] * _GROWTH, greatest))
    if edge:
        widths += [*reversed(widths), fine / 2.0, fine / 4.0, fine / 4.0]
    scale = rest / math.fsum(widths)
    return np.array([*near, *(near[-1] + scale * np.add.accumulate(np.array(widths))).tolist()])


def _ring(bay: Bay, plane: Plane) -> Array:
    """Share of the circle round the pipe by cell; on the mirror only its half."""
    across, upwards = ((edges[1:] + edges[:-1]) / 2.0 for edges in (plane.across, plane.upwards))
    low = math.fsum(d for d, _ in bay.layers_below)
    screed = np.flatnonzero((upwards > low) & (upwards < low + bay.below + bay.above))
    shares = np.zeros((len(upwards), len(across)))
    whole = plane.axis[0] > 0.0
    for point in range(_ARC_POINTS):
        angle = (2.0 if whole else 1.0) * math.pi * (point + 0.5) / _ARC_POINTS
        place = plane.axis[0] + bay.radius * math.sin(angle)
        if not whole:  # before the first middle both neighbours are that cell and its mirror image
            place = max(place, float(across[0]))
        column, right = _between(across, place, 0, len(across) - 1)
        row, upper = _between(
            upwards, plane.axis[1] + bay.radius * math.cos(angle), int(screed[0]), int(screed[-1])
        )
        for up, weight in ((0, 1.0 - upper), (1, upper)):
            shares[row + up, column] += weight * (1.0 - right) / _ARC_POINTS
            shares[row + up, column + 1] += weight * right / _ARC_POINTS
    return shares


def _between(middles: Array, place: float, first: int, last: int) -> tuple[int, float]:
    """The cell before ``place`` and the share of the next; beyond the outermost two by extrapolation."""
    index = min(max(int(np.searchsorted(middles, place, side="right")) - 1, first), last - 1)
    return index, (place - float(middles[index])) / float(middles[index + 1] - middles[index])


def _outside(bay: Bay, plane: Plane, edge_resistance: float | None) -> tuple[float, float, Array]:
    """Conductances [W/(m2.K)] from the outermost cells: up, down, and through the edge by row."""
    width, height = float(plane.across[1] - plane.across[0]), np.diff(plane.upwards)
    half = height / (2.0 * plane.conductivity)
    top = 1.0 / (float(half[-1]) + bay.covering_resistance + bay.surface_resistance)
    bottom = 1.0 / (float(half[0]) + bay.surface_resistance_below)
    if edge_resistance is None:
        return top, bottom, np.zeros(len(height))
    return top, bottom, 1.0 / (width / (2.0 * plane.conductivity) + edge_resistance)


def _responses(bay: Bay, plane: Plane, edge_resistance: float | None) -> tuple[Array, Array, Array]:
    """Excess by cell for 1 W/m from the pipe (half of it on the mirror), 1 K below, and 1 K beyond the edge."""
    width, height = np.diff(plane.across), np.diff(plane.upwards)
    rows, columns = len(height), len(width)
    top, bottom, edge = _outside(bay, plane, edge_resistance)
    half = height / (2.0 * plane.conductivity)
    vertical = np.zeros((rows, columns))  # to the cell above
    vertical[:-1] = width / (half[1:] + half[:-1])[:, None]
    sideways = np.zeros((rows, columns))  # to the cell on the right
    sideways[:, :-1] = (plane.conductivity * height)[:, None] / ((width[1:] + width[:-1]) / 2.0)
    diagonal = vertical + sideways
    diagonal[1:] += vertical[:-1]
    diagonal[:, 1:] += sideways[:, :-1]
    diagonal[-1] += top * width
    diagonal[0] += bottom * width
    diagonal[:, 0] += edge * height
    sources = np.zeros((3, rows, columns))
    sources[0] = _ring(bay, plane)
    sources[1, 0] = bottom * width
    sources[2, :, 0] = edge * height
    bands = np.zeros((rows * columns, columns + 1))
    bands[:, 0], bands[:, 1], bands[:, columns] = diagonal.ravel(), -sideways.ravel(), -vertical.ravel()
    solved = solve_banded(bands, sources.reshape(3, -1).T)
    by_pipe, by_below, by_edge = (solved[:, column].reshape(rows, columns) for column in range(3))
    return by_pipe, by_below, by_edge
