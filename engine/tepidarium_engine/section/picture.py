"""What there is to draw of a section: layers, pipe, isotherms."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..checking import Point
from ..conduction.plane import Sides, Solution, solve_plane
from ..elementwise import Array
from .bay import Case
from .contract import FloorSectionInputs
from .edge import edge_sides
from .isolines import isolines, round_levels

__all__ = ["Band", "Isotherm", "SectionPicture", "section_picture"]


@dataclass(frozen=True, slots=True)
class Band:
    """A layer from ``low`` to ``high`` [m] above the bottom of the section."""

    kind: str
    low: float
    high: float
    conductivity: float


@dataclass(frozen=True, slots=True)
class Isotherm:
    """Lines of one temperature [degC]; points from the left and the bottom of the section [m]."""

    temperature: float
    lines: tuple[tuple[Point, ...], ...]


@dataclass(frozen=True, slots=True)
class SectionPicture:
    """The bay from its left to its right end. Without a cold edge the pipe stands in its middle."""

    width: float
    height: float
    pipe: Point
    radius: float
    bore_radius: float
    bands: tuple[Band, ...]
    isotherms: tuple[Isotherm, ...]
    lowest: float
    highest: float
    cold_edge: bool


def section_picture(inputs: FloorSectionInputs, case: Case) -> SectionPicture:
    """Isotherms at round temperatures between the coldest and the warmest place of the section."""
    sides = edge_sides(inputs, case)
    field = solve_plane(case.bay, case.water.water, sides)
    across, upwards, values = _with_borders(case, field, sides)
    values = values + inputs.room_temperature
    axis = field.plane.axis
    if sides.distance is None:  # mirrored, with the pipe in the middle
        middle = float(across[-1])
        across = np.concatenate((middle - across[:0:-1], middle + across))
        values = np.concatenate((values[:, :0:-1], values), axis=1)
        axis = (middle, axis[1])
    low, high = float(values.min()), float(values.max())
    return SectionPicture(
        width=float(across[-1]),
        height=float(upwards[-1]),
        pipe=axis,
        radius=case.bay.radius,
        bore_radius=case.bay.bore_radius,
        bands=tuple(_bands(case)),
        isotherms=tuple(
            Isotherm(level, tuple(tuple(line) for line in isolines(across, upwards, values, level)))
            for level in round_levels(low, high)
        ),
        lowest=low,
        highest=high,
        cold_edge=sides.distance is not None,
    )


def _with_borders(case: Case, field: Solution, sides: Sides) -> tuple[Array, Array, Array]:
    """Cell middles with the section's borders, where the excess follows from the heat through them."""
    plane, bay = field.plane, case.bay
    middles = [
        np.concatenate((edges[:1], (edges[1:] + edges[:-1]) / 2.0, edges[-1:]))
        for edges in (plane.across, plane.upwards)
    ]
    height = np.diff(plane.upwards)
    half = height / (2.0 * plane.conductivity)
    below = bay.surface_resistance_below / (bay.surface_resistance_below + half[0])
    bottom = sides.below + (field.excess[0] - sides.below) * below
    outside = bay.covering_resistance + bay.surface_resistance
    top = field.excess[-1] * outside / (outside + half[-1])
    rows = np.concatenate((bottom[None, :], field.excess, top[None, :]))
    left = rows[:, 0]
    if sides.distance is not None:
        half_width = float(plane.across[1] - plane.across[0]) / 2.0
        share = sides.resistance / (sides.resistance + half_width / plane.conductivity)
        left = sides.edge + (left - sides.edge) * np.concatenate((share[:1], share, share[-1:]))
    return middles[0], middles[1], np.concatenate((left[:, None], rows, rows[:, -1:]), axis=1)


def _bands(case: Case) -> list[Band]:
    bay = case.bay
    rows = [("below", d, c) for d, c in reversed(bay.layers_below)]
    rows.append(("screed", bay.above + bay.below, bay.conductivity))
    rows += [("above", d, c) for d, c in bay.layers_above]
    bands, low = [], 0.0
    for kind, thickness, conductivity in rows:
        bands.append(Band(kind, low, low + thickness, conductivity))
        low += thickness
    return bands
