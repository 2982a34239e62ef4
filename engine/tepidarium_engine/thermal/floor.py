"""The section of a heated floor: what EN 1264-2 refuses, and its two curves."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Protocol

from ..errors import FaultList
from ..pipe import Pipe, check_pipe
from ..quick_records import quickly_made
from . import characteristic as curve
from . import limit_curves

__all__ = [
    "Floor",
    "FloorSection",
    "check_floor",
    "check_section",
    "check_spacing",
    "check_surface_limit",
    "check_touching",
    "floor_characteristic",
    "floor_downward_loss",
    "floor_limit",
    "floor_resistance_above",
]


class FloorSection(Protocol):
    """What the formulas need of a floor; inputs that carry these fields can be handed over as they are."""

    @property
    def pipe_spacing(self) -> float: ...
    @property
    def pipe(self) -> Pipe: ...
    @property
    def screed_cover(self) -> float: ...
    @property
    def screed_conductivity(self) -> float: ...
    @property
    def covering_resistance(self) -> float: ...
    @property
    def resistance_below(self) -> float: ...


@quickly_made
@dataclass(frozen=True, slots=True)
class Floor:
    """A floor's section [m, W/(m.K), m2.K/W]; see the glossary for the range of each field."""

    pipe_spacing: float
    pipe: Pipe
    screed_cover: float
    resistance_below: float
    screed_conductivity: float = 1.2
    covering_resistance: float = 0.1


# Rooms of a house, rounds of its design and house after house ask for the same few floors.
_characteristic = lru_cache(maxsize=2048)(curve.characteristic)
_limit_curve = lru_cache(maxsize=2048)(limit_curves.limit_curve)


def floor_characteristic(floor: FloorSection) -> curve.Characteristic[float]:
    """Characteristic curve of ``floor``; the floor must have passed ``check_floor``."""
    return _characteristic(
        floor.pipe_spacing,
        floor.pipe,
        floor.screed_cover,
        floor.screed_conductivity,
        floor.covering_resistance,
    )


def floor_limit(
    floor: FloorSection, heat_transmittance: float, surface_excess: float
) -> limit_curves.LimitCurve[float]:
    """Limit curve of ``floor`` for a permitted ``surface_excess`` [K] over the room."""
    return _limit_curve(
        floor.pipe_spacing, floor.screed_cover, floor.screed_conductivity, heat_transmittance, surface_excess
    )


def floor_resistance_above(floor: FloorSection) -> float:
    """R_o of ``floor`` [m2.K/W]."""
    return float(
        curve.resistance_above(floor.screed_cover, floor.screed_conductivity, floor.covering_resistance)
    )


def floor_downward_loss(
    floor: FloorSection, heat_output: float, room_temperature: float, temperature_below: float
) -> float:
    """q_u [W/m2] of ``floor`` while it gives ``heat_output`` [W/m2] to the room. EN 1264-2 and EN 1264-3."""
    return float(
        curve.downward_heat_loss(
            heat_output,
            floor_resistance_above(floor),
            floor.resistance_below,
            room_temperature,
            temperature_below,
        )
    )


def check_floor(floor: FloorSection, pointer: str, faults: FaultList) -> None:
    """Fault what the method of EN 1264-2 has no value for, not even on the safe side."""
    check_spacing(floor.pipe_spacing, floor.pipe, f"{pointer}/pipe_spacing", faults)
    check_section(floor.pipe, floor.screed_cover, pointer, faults)


def check_spacing(pipe_spacing: float, pipe: Pipe, pointer: str, faults: FaultList) -> None:
    """Fault a spacing [m] below the method or at which the pipes touch; ``pointer`` leads to the spacing."""
    if pipe_spacing < curve.LEAST_SPACING:
        detail = f"EN 1264-2 has no value for pipes closer than {curve.LEAST_SPACING * 1000.0:g} mm"
        faults.add(pointer, "outside_method", detail, curve.LEAST_SPACING)
    check_touching(pipe_spacing, pipe, pointer, faults)


def check_touching(pipe_spacing: float, pipe: Pipe, pointer: str, faults: FaultList) -> None:
    """Fault a spacing [m] at which the pipes touch; ``pointer`` leads to the spacing."""
    diameter = curve.embedded_diameter(pipe)
    if pipe_spacing <= diameter:
        faults.add(
            pointer, "pipes_touch", f"pipes of {diameter * 1000.0:g} mm touch at this spacing", diameter
        )


def check_section(pipe: Pipe, screed_cover: float, pointer: str, faults: FaultList) -> None:
    """Fault an impossible pipe and a cover [m] below the method; ``pointer`` leads to the floor."""
    if screed_cover < curve.LEAST_COVER:
        detail = (
            f"EN 1264-2 has no value for less than {curve.LEAST_COVER * 1000.0:g} mm of screed above the pipe"
        )
        faults.add(f"{pointer}/screed_cover", "outside_method", detail, curve.LEAST_COVER)
    check_pipe(pipe, f"{pointer}/pipe", faults)


def check_surface_limit(limit: float, room_temperature: float, pointer: str, faults: FaultList) -> None:
    """Fault a surface limit [degC] that does not lie above the room."""
    if limit <= room_temperature:
        detail = f"the permitted surface must be warmer than the room of {room_temperature:g} °C"
        faults.add(f"{pointer}/surface_temperature_limit", "not_above_room", detail, room_temperature)
