"""Heat output of a heated floor."""

from __future__ import annotations

from tepidarium_engine.heat_output import HeatOutputInputs, HeatOutputResult, calculate, workings

from ._base import Calculation

__all__ = ["HEAT_OUTPUT"]

HEAT_OUTPUT = Calculation(
    name="heat-output",
    operation_id="heat_output",
    summary="Heat output, surface temperature and limit of a floor at given water temperatures",
    description=(
        "Follows EN 1264-2 for pipes in the screed on flat insulation (type A): the factors of covering, "
        "spacing, cover and diameter, pipe wall and sheath, thick cover, spacings beyond 0.375 m, and the "
        "limit curve of the surface. The output is not cut off at the limit: a floor beyond it carries the "
        "finding `surface_limit_exceeded`. `temperature_below` defaults to the room temperature, "
        "`surface_temperature_limit` to the room temperature plus 9 K; peripheral areas have 35 degC. "
        "Beyond the tables (spacing above 0.375 m, covering above 0.15 m2.K/W, pipe above 0.030 m) the numbers of "
        "the solved two-dimensional section stand in `by_section` beside those of the standard in `by_standard`; "
        "where the standard has no value at all (spacing below 0.05 m, cover below 0.010 m) the section leads, as "
        "it does when `method` is `section`. `leading_method` says which of them gave the numbers outside. With "
        "`method` `standard` the section is left out and what the standard has no value for is refused."
    ),
    inputs=HeatOutputInputs,
    result=HeatOutputResult,
    calculate=calculate,
    workings=workings,
    example={
        "pipe_spacing": 0.15,
        "pipe": {"outside_diameter": 0.016, "wall_thickness": 0.002, "thermal_conductivity": 0.35},
        "screed_cover": 0.045,
        "screed_conductivity": 1.2,
        "covering_resistance": 0.05,
        "resistance_below": 1.85,
        "room_temperature": 20.0,
        "temperature_below": 12.0,
        "supply_temperature": 38.0,
        "return_temperature": 33.0,
        "surface_temperature_limit": 29.0,
    },
)
