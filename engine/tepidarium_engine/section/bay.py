"""From the inputs to the steady bay, with the exchange at the surface as it comes out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal

from ..thermal.characteristic import SURFACE_COEFFICIENT, basic_heat_output, embedded_diameter
from .contract import FloorSectionInputs
from .records import SectionLayer
from .steady import Bay, Unit, solve_bay
from .water_film import film_coefficient

__all__ = ["Case", "exchange_of", "solved"]

_LEAST_EXCESS = 0.01
"""The basic curve is taken no lower than this [K]: it has no slope at 0."""
_ROUNDS = 30


@dataclass(frozen=True, slots=True)
class Case:
    """A bay with its two unit solutions, and the excess over the room [K] of the water and of what lies below."""

    bay: Bay
    water: Unit
    below: Unit
    water_excess: float
    excess_below: float

    def mix(self, name: Literal["up", "down", "water", "top", "bottom"]) -> float:
        """A quantity of the bay at its temperatures."""
        by_water: float = getattr(self.water, name)
        by_below: float = getattr(self.below, name)
        return by_water * self.water_excess + by_below * self.excess_below


def exchange_of(inputs: FloorSectionInputs) -> Callable[[float], float]:
    """Coefficient from the surface to the room [W/(m2.K)] by the mean excess of the surface [K]."""
    if inputs.surface_exchange == "basic_curve":
        return _by_basic_curve
    coefficient = SURFACE_COEFFICIENT if inputs.surface_coefficient is None else inputs.surface_coefficient
    return lambda _: coefficient


def _by_basic_curve(excess: float) -> float:
    held = max(excess, _LEAST_EXCESS)
    return float(basic_heat_output(held)) / held


def solved(inputs: FloorSectionInputs) -> Case:
    """The steady bay of inputs that have been checked."""
    assert inputs.temperature_below is not None
    room, exchange = inputs.room_temperature, exchange_of(inputs)
    coefficient = exchange(5.0)
    bay = _bay(inputs, coefficient)
    tried: list[float] = []
    for _ in range(_ROUNDS):
        case = Case(bay, *solve_bay(bay), inputs.water_temperature - room, inputs.temperature_below - room)
        better = exchange(case.mix("up") / coefficient)
        if abs(better - coefficient) <= 1e-10 * coefficient:
            break
        tried.append(coefficient)
        if len(tried) % 2 == 0:  # Aitken: the limit of three values that close in geometrically
            bend = better - 2.0 * coefficient + tried[-2]
            better -= (better - coefficient) ** 2 / bend if bend != 0.0 else 0.0
        coefficient = better
        bay = replace(bay, surface_resistance=1.0 / coefficient)
    return case


def _bay(inputs: FloorSectionInputs, coefficient: float) -> Bay:
    pipe = inputs.pipe
    radius, thickness = embedded_diameter(pipe) / 2.0, inputs.screed_thickness
    below = 0.0 if thickness is None else thickness - inputs.screed_cover - 2.0 * radius
    film = inputs.film_coefficient
    if film is None:
        film = film_coefficient(inputs.water_velocity, pipe.bore, inputs.water_temperature)
    rings = [(pipe.outside_diameter / 2.0, pipe.thermal_conductivity)]
    if pipe.sheath_diameter is not None and pipe.sheath_conductivity is not None:
        rings.append((pipe.sheath_diameter / 2.0, pipe.sheath_conductivity))
    return Bay(
        spacing=inputs.pipe_spacing,
        radius=radius,
        conductivity=inputs.screed_conductivity,
        above=inputs.screed_cover + radius,
        below=max(below, 0.0) + radius,
        layers_above=_stack(inputs.layers_above),
        layers_below=_stack(inputs.layers_below),
        covering_resistance=inputs.covering_resistance,
        surface_resistance=1.0 / coefficient,
        surface_resistance_below=inputs.surface_resistance_below,
        bore_radius=pipe.bore / 2.0,
        film=film,
        rings=rings,
    )


def _stack(layers: tuple[SectionLayer, ...]) -> tuple[tuple[float, float], ...]:
    return tuple((layer.thickness, layer.thermal_conductivity) for layer in layers)
