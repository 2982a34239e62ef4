"""From the inputs to the steady bay, with the exchange at the surface as it comes out."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Literal

from ..conduction.steady import Bay, PipeRow, Unit
from ..conduction.water_film import film_coefficient
from ..errors import required
from ..thermal.characteristic import SURFACE_COEFFICIENT, basic_heat_output, embedded_diameter
from .contract import FloorSectionInputs
from .records import SectionLayer

__all__ = ["Case", "compared", "exchange_of", "solved"]

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
    bay = _bay(inputs)
    return _case(inputs, PipeRow(bay), bay, inputs.water_temperature)


def compared(inputs: FloorSectionInputs) -> Iterator[tuple[float, Case]]:
    """Mean temperature of the water [degC] and the steady bay, by spacing and by water. A spacing's row of pipes is
    prepared once for all waters, whose films differ; each exchange begins where that of the water before ended."""
    temperatures = inputs.compared_water_temperatures or (inputs.water_temperature,)
    films = [_film(inputs, temperature) for temperature in temperatures]
    first = _bay(inputs)
    for spacing in inputs.compared_spacings or (inputs.pipe_spacing,):
        bay = replace(first, spacing=spacing)
        row = PipeRow(bay)
        for temperature, film in zip(temperatures, films, strict=True):
            case = _case(inputs, row, replace(bay, film=film), temperature)
            bay = case.bay
            yield temperature, case


def _case(inputs: FloorSectionInputs, row: PipeRow, bay: Bay, water_temperature: float) -> Case:
    """``bay`` with the exchange at its surface as it comes out; its own is where the search begins."""
    beneath = required(inputs.temperature_below, "the temperature below")
    room, exchange = inputs.room_temperature, exchange_of(inputs)
    tried: list[tuple[float, float]] = []
    for _ in range(_ROUNDS):
        case = Case(bay, *row.solve(bay), water_temperature - room, beneath - room)
        up, film = case.mix("up"), bay.surface_resistance
        better = exchange(up * film)
        if abs(better * film - 1.0) <= 1e-10:
            break
        tried.append((up, film))
        bay = replace(bay, surface_resistance=_next_resistance(tried, case, exchange))
    return case


def _next_resistance(
    tried: list[tuple[float, float]], case: Case, exchange: Callable[[float], float]
) -> float:
    """Of the surface [m2.K/W], by the heat up and the resistance of the tries so far. All below the surface acts nearly
    like one resistance in series with it; the last two tries tell it."""
    up, film = tried[-1]
    rest = 1.0 / case.water.up - film
    if len(tried) > 1:
        before, film_before = tried[-2]
        if up != before:
            rest = (before * film_before - up * film) / (up - before)
    rest = max(rest, 0.0)
    resistance = film
    for _ in range(_ROUNDS):
        resistance = 1.0 / exchange(up * (rest + film) / (rest + resistance) * resistance)
    return resistance


def _film(inputs: FloorSectionInputs, water_temperature: float) -> float:
    """From the water to the bore [W/(m2.K)]."""
    if inputs.film_coefficient is not None:
        return inputs.film_coefficient
    return film_coefficient(inputs.water_velocity, inputs.pipe.bore, water_temperature)


def _bay(inputs: FloorSectionInputs) -> Bay:
    """With the exchange of a surface as warm as the water, to begin with."""
    coefficient = exchange_of(inputs)(inputs.water_temperature - inputs.room_temperature)
    pipe = inputs.pipe
    radius, thickness = embedded_diameter(pipe) / 2.0, inputs.screed_thickness
    below = 0.0 if thickness is None else thickness - inputs.screed_cover - 2.0 * radius
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
        film=_film(inputs, inputs.water_temperature),
        rings=rings,
    )


def _stack(layers: tuple[SectionLayer, ...]) -> tuple[tuple[float, float], ...]:
    return tuple((layer.thickness, layer.thermal_conductivity) for layer in layers)
