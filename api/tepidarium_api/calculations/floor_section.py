"""The section of a heated floor."""

from __future__ import annotations

from tepidarium_engine.floor_section import FloorSectionInputs, FloorSectionResult, calculate, workings

from ..renderings.section_drawing import section_drawing
from ._base import Calculation

__all__ = ["FLOOR_SECTION"]

FLOOR_SECTION = Calculation(
    name="floor-section",
    operation_id="floor_section",
    summary="Heat conduction in the section of a floor: temperatures, heat up and down, warm-up",
    description=(
        "Solves the two-dimensional heat conduction between parallel pipes in a screed with any layers above and "
        "below, the wall of the pipe and the film of the water included: it uses no correlation, so it also serves "
        "spacings, covers and coverings that EN 1264-2 has no value for. The surface gives off heat with 10.8 "
        "W/(m2.K), by the basic characteristic curve, or with a given coefficient (`surface_exchange`). "
        "`screed_thickness` beyond cover and pipe puts the pipe inside the screed. `cold_edge` adds the outermost "
        "bay with the loss through its edge. `warm_up` follows the section in time from cold, with the water held at "
        "its temperature or the source limited to `source_power`, and `setback` follows a setback at night. "
        "`compared_spacings` and `compared_water_temperatures` solve the same floor, steady, at every one of these "
        "spacings with every one of these waters (`comparison`), for little more than one of them. Ask for "
        "`image/svg+xml` to get the isotherms as a drawing to scale."
    ),
    inputs=FloorSectionInputs,
    result=FloorSectionResult,
    calculate=calculate,
    workings=workings,
    renderings={"image/svg+xml": section_drawing},
    heavy=True,
    example={
        "pipe_spacing": 0.15,
        "pipe": {"outside_diameter": 0.016, "wall_thickness": 0.002, "thermal_conductivity": 0.35},
        "screed_cover": 0.045,
        "screed_conductivity": 1.2,
        "layers_above": [
            {"thickness": 0.01, "thermal_conductivity": 1.3, "volumetric_heat_capacity": 2000000.0}
        ],
        "covering_resistance": 0.0,
        "layers_below": [
            {"thickness": 0.06, "thermal_conductivity": 0.035, "volumetric_heat_capacity": 30000.0},
            {"thickness": 0.18, "thermal_conductivity": 2.3, "volumetric_heat_capacity": 2300000.0},
        ],
        "water_temperature": 35.0,
        "room_temperature": 20.0,
        "temperature_below": 12.0,
        "surface_exchange": "basic_curve",
        "compared_spacings": [0.1, 0.2, 0.3],
        "compared_water_temperatures": [30.0, 35.0, 40.0],
        "cold_edge": {"distance": 0.1, "temperature": -10.0, "resistance": 2.5},
        "warm_up": {"duration": 86400.0, "time_step": 900.0, "setback": {"duration": 28800.0}},
    },
)
