"""How far EN 1264-2 lies from the solved section: the floor of the comparison, and an older one by finite elements."""

from __future__ import annotations

import math
from dataclasses import replace

from tepidarium_engine.floor_section import FloorSectionInputs, calculate
from tepidarium_engine.pipe import Pipe
from tepidarium_engine.section.records import SectionLayer
from tepidarium_engine.thermal.characteristic import characteristic

__all__ = ["EN_OVER_ELEMENTS", "SPACINGS", "THICK", "THIN", "standard_over_section"]

THICK, THIN = Pipe(0.020, 0.002, 0.35), Pipe(0.016, 0.002, 0.35)
SPACINGS = (0.05, 0.10, 0.15, 0.20, 0.30, 0.375)
EN_OVER_ELEMENTS = {
    0.0: (6.7, 4.8, 5.5, 6.9, 8.3, 6.6),
    0.05: (3.4, 1.3, 1.4, 2.5, 4.6, 4.8),
    0.10: (1.4, -0.5, -0.4, 0.8, 4.0, 5.6),
    0.15: (0.0, -1.7, -1.4, -0.2, 3.5, 6.0),
}
"""EN 1264-2 over independent finite elements (P1 triangles), per cent more, by covering and spacing: the thick pipe,
whose wall is taken as one resistance behind an outside of one temperature."""

_FLOOR = FloorSectionInputs(
    pipe_spacing=0.15,
    pipe=THICK,
    screed_cover=0.045,
    layers_below=(SectionLayer(0.03, 0.04), SectionLayer(0.15, 2.1)),
    water_temperature=40.0,
    film_coefficient=1e6,
)


def standard_over_section(
    pipe: Pipe, spacing: float, covering: float, *, even_outside: bool = False
) -> float:
    """Heat transmittance by EN 1264-2 over that of the section without a water film, per cent more.

    ``even_outside``: the pipe's outside has one temperature, and all of its wall lies behind it. A real wall lets less
    heat through where the pipe lies on insulation, and the floor gets a little less than so.
    """
    standard = characteristic(spacing, pipe, 0.045, 1.2, covering).heat_transmittance
    inputs = replace(_FLOOR, pipe=pipe, pipe_spacing=spacing, covering_resistance=covering)
    if not even_outside:
        return float(100.0 * (standard / calculate(inputs).heat_transmittance - 1.0))
    metal = calculate(replace(inputs, pipe=replace(pipe, thermal_conductivity=500.0)))
    wall = math.log(pipe.outside_diameter / pipe.bore) / (2.0 * math.pi * pipe.thermal_conductivity)
    behind = 1.0 + metal.total_heat_output / 20.0 * spacing * wall
    return float(100.0 * (standard * behind / metal.heat_transmittance - 1.0))
