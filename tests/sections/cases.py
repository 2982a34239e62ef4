"""Build-ups over the whole range of the solver, made up for the tests."""

from __future__ import annotations

from tepidarium_engine.floor_section import FloorSectionInputs
from tepidarium_engine.pipe import Pipe
from tepidarium_engine.section.records import ColdEdge, SectionLayer

__all__ = ["AT_THE_EDGE", "BUILD_UPS", "FILM", "USUAL"]

FILM = 1500.0
"""Heat transfer from the water [W/(m2.K)] in all of them."""
_GAP = 2e-5
"""What is left under a pipe that lies on the insulation [m], so that elements fit there."""


def _layers(*layers: tuple[float, float]) -> tuple[SectionLayer, ...]:
    return tuple(SectionLayer(thickness, conductivity) for thickness, conductivity in layers)


_EPS_ON_SLAB = _layers((0.03, 0.04), (0.15, 2.1))
_PUR_ON_SLAB = _layers((0.08, 0.025), (0.2, 2.3))
_SLAB = _layers((0.02, 1.0), (0.2, 2.3))


def _case(
    spacing: float,
    diameter: float,
    cover: float,
    covering: float,
    *,
    below: tuple[SectionLayer, ...] = _EPS_ON_SLAB,
    under_pipe: float = _GAP,
    above: tuple[SectionLayer, ...] = (),
    wall: float = 0.002,
    pipe_conductivity: float = 0.35,
    screed: float = 1.2,
    temperature_below: float = 20.0,
    edge: ColdEdge | None = None,
) -> FloorSectionInputs:
    return FloorSectionInputs(
        pipe_spacing=spacing,
        pipe=Pipe(diameter, wall, pipe_conductivity),
        screed_cover=cover,
        screed_thickness=cover + diameter + under_pipe,
        screed_conductivity=screed,
        layers_above=above,
        layers_below=below,
        covering_resistance=covering,
        water_temperature=40.0,
        temperature_below=temperature_below,
        film_coefficient=FILM,
        cold_edge=edge,
    )


USUAL = _case(0.15, 0.016, 0.045, 0.05)

BUILD_UPS = {
    "usual": USUAL,
    "closest spacing, thin pipe": _case(0.05, 0.010, 0.03, 0.0),
    "closest spacing, thick pipe": _case(0.05, 0.025, 0.045, 0.1),
    "thinnest cover, bare": _case(0.10, 0.014, 0.010, 0.0),
    "thinnest cover, wide": _case(0.30, 0.016, 0.010, 0.0, screed=2.0),
    "thick cover": _case(0.20, 0.020, 0.150, 0.05, screed=1.6),
    "carpet": _case(0.20, 0.017, 0.045, 0.25),
    "wide": _case(0.375, 0.020, 0.065, 0.10, below=_PUR_ON_SLAB, temperature_below=5.0),
    "widest, thin pipe": _case(0.60, 0.010, 0.045, 0.0),
    "widest, thick pipe and carpet": _case(0.60, 0.025, 0.150, 0.25, temperature_below=10.0),
    "metal pipe": _case(0.15, 0.015, 0.045, 0.0, wall=0.001, pipe_conductivity=390.0),
    "pipe amid the screed": _case(0.25, 0.020, 0.050, 0.0, under_pipe=0.03),
    "timber on screed": _case(0.15, 0.016, 0.045, 0.0, above=_layers((0.015, 0.15)), below=_PUR_ON_SLAB),
    "slab without insulation": _case(0.20, 0.020, 0.080, 0.0, below=_SLAB, under_pipe=0.05),
}

AT_THE_EDGE = {
    "usual edge": _case(0.15, 0.016, 0.045, 0.05, edge=ColdEdge(0.075, -10.0, 2.0)),
    "poor edge": _case(0.20, 0.017, 0.045, 0.0, edge=ColdEdge(0.10, -10.0, 0.5)),
    "pipe far from the edge": _case(0.10, 0.016, 0.065, 0.10, edge=ColdEdge(0.20, 0.0, 1.0), under_pipe=0.02),
}
