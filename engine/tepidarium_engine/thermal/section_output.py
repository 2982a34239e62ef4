"""Heat output of a floor by its solved section, beside or in place of EN 1264-2."""

from __future__ import annotations

from typing import NamedTuple

from ..conduction.steady import Bay, Unit, solve_bay
from ..conduction.water_film import film_coefficient
from .characteristic import (
    GREATEST_COVERING,
    GREATEST_DIAMETER,
    LEAST_COVER,
    LEAST_SPACING,
    SURFACE_COEFFICIENT,
    WIDEST_SPACING,
    embedded_diameter,
)
from .floor import FloorSection

__all__ = ["SectionOutput", "bay_of", "beyond_tables", "section_output", "within_method"]

_WATER_VELOCITY = 0.3
"""Of the water in the pipe [m/s], for the film (common practice, no source); a few parts in a thousand depend on it."""

_FELT = 0.01
"""Share of the pipe's effect above it from which on the water counts for a place between two pipes."""


class SectionOutput(NamedTuple):
    """Heat up and down [W/m2], heat up per kelvin of the water and per kelvin below [W/(m2.K)], surface [degC], heat
    [W/m2] and mean excess [K] at which the warmest spot of the surface reaches its limit, its excess per kelvin of
    the water and below [1], and the resistance of film and wall [m.K/W]."""

    heat_output: float
    downward_heat_loss: float
    heat_transmittance: float
    transmittance_from_below: float
    mean_surface_temperature: float
    highest_surface_temperature: float
    limit_heat_output: float
    limit_excess_temperature: float
    peak_share: float
    peak_share_from_below: float
    pipe_resistance: float


def within_method(floor: FloorSection) -> bool:
    """Whether EN 1264-2 has any value for the floor."""
    return floor.pipe_spacing >= LEAST_SPACING and floor.screed_cover >= LEAST_COVER


def beyond_tables(floor: FloorSection) -> bool:
    """Whether it has no value, or what is taken for it is an extension of the tables."""
    return (
        not within_method(floor)
        or floor.pipe_spacing > WIDEST_SPACING
        or floor.covering_resistance > GREATEST_COVERING
        or embedded_diameter(floor.pipe) > GREATEST_DIAMETER
    )


def section_output(
    floor: FloorSection, room: float, excess: float, temperature_below: float, limit: float
) -> SectionOutput:
    """The section of ``floor`` with water of a mean ``excess`` over the ``room`` [K, degC]; ``limit`` is that of the
    surface [degC].

    The pipe lies on what is below, which counts by its resistance: heat spreads along the floor in the screed only.
    """
    bay = bay_of(floor, room + excess)
    water, below = solve_bay(bay)
    beneath = temperature_below - room
    up = water.up * excess + below.up * beneath
    film = bay.surface_resistance
    places = [_places(unit, film) for unit in (water, below)]
    excesses = [by_water * excess + by_below * beneath for by_water, by_below in zip(*places, strict=True)]
    limit_excess, by_water, by_below = min(
        ((limit - room - by_below * beneath) / by_water, by_water, by_below)
        for by_water, by_below in zip(*places, strict=True)
        if by_water > _FELT * places[0][0]  # of both places the one above the pipe feels the water more
    )
    return SectionOutput(
        heat_output=up,
        downward_heat_loss=water.down * excess + below.down * beneath,
        heat_transmittance=water.up,
        transmittance_from_below=below.up,
        mean_surface_temperature=room + up * film,
        highest_surface_temperature=room + max(*excesses, up * film),
        limit_heat_output=water.up * limit_excess + below.up * beneath,
        limit_excess_temperature=limit_excess,
        peak_share=by_water,
        peak_share_from_below=by_below,
        pipe_resistance=bay.pipe_resistance,
    )


def _places(unit: Unit, film: float) -> tuple[float, float]:
    """Excess of the surface above the pipe and midway to the next [1]: with heat from below the latter is warmer."""
    mean, waves = unit.up * film, unit.surface_waves
    above, between = float(waves.sum()), float(waves[1::2].sum() - waves[::2].sum())
    return mean + above, mean + between


def bay_of(floor: FloorSection, water: float) -> Bay:
    """The section of ``floor`` with ``water`` of this temperature [degC]: what is below counts by its resistance."""
    pipe = floor.pipe
    radius = embedded_diameter(pipe) / 2.0
    rings = [(pipe.outside_diameter / 2.0, pipe.thermal_conductivity)]
    if pipe.sheath_diameter is not None and pipe.sheath_conductivity is not None:
        rings.append((pipe.sheath_diameter / 2.0, pipe.sheath_conductivity))
    return Bay(
        spacing=floor.pipe_spacing,
        radius=radius,
        conductivity=floor.screed_conductivity,
        above=floor.screed_cover + radius,
        below=radius,
        layers_above=(),
        layers_below=(),
        covering_resistance=floor.covering_resistance,
        surface_resistance=1.0 / SURFACE_COEFFICIENT,
        surface_resistance_below=floor.resistance_below,
        bore_radius=pipe.bore / 2.0,
        film=film_coefficient(_WATER_VELOCITY, pipe.bore, water),
        rings=rings,
    )
