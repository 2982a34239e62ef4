"""What each rule asks of the insulation below a heated floor."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from ..practice.insulation_requirements import LEAST_RESISTANCE, resistance_over_cold_air
from . import ground as soil
from .check_records import CheckLayer, InsulationCheckInputs
from .records import Ground, Layer
from .u_values import EXTERNAL_RESISTANCE, INTERNAL_RESISTANCE, layer_resistance

__all__ = ["FloorBelow", "Rule", "RuleRequirement", "floor_below", "plain_layer", "requirements"]

Rule = Literal["en_1264_4", "local_resistance", "local_u_value"]

_MOST = 100.0
"""Resistance [m2.K/W] beyond which no floor is looked for."""
_STEP = 1e-12
"""How closely it is found [m2.K/W]."""


@dataclass(frozen=True, slots=True)
class RuleRequirement:
    """A rule and the resistance [m2.K/W] that it asks of the insulation alone; 0 when the rest is enough."""

    rule: Rule
    required_resistance: float
    source: str


@dataclass(frozen=True, slots=True)
class FloorBelow:
    """Resistances [m2.K/W] of insulation, structure and both surfaces; B' [m] when the soil counts."""

    insulation: float
    structure: float
    surfaces: float
    ground: Ground | None
    dimension: float | None

    def u_value(self, insulation: float) -> float:
        """Of the whole floor with ``insulation`` [m2.K/W] in place of its own [W/(m2.K)]."""
        resistance = self.surfaces + self.structure + insulation
        if self.ground is None or self.dimension is None:
            return 1.0 / resistance
        given, conductivity = self.ground, self.ground.thermal_conductivity
        thickness = soil.equivalent_thickness(given.wall_thickness, conductivity, resistance)
        return float(
            soil.insulated_floor_u_value(self.dimension, thickness, conductivity, given.edge_insulation)
        )

    def insulation_for(self, u_value: float) -> float:
        """Least insulation [m2.K/W] that keeps the floor's U-value [W/(m2.K)]; 0 when none is needed."""
        if self.u_value(0.0) <= u_value:
            return 0.0
        if self.dimension is None:
            return 1.0 / u_value - self.surfaces - self.structure
        steps = range(round(_MOST / _STEP))
        return bisect_left(steps, -u_value, key=lambda step: -self.u_value(step * _STEP)) * _STEP


def plain_layer(layer: CheckLayer) -> Layer:
    return Layer(layer.thickness, layer.thermal_conductivity, layer.thermal_resistance)


def floor_below(inputs: InsulationCheckInputs) -> FloorBelow:
    """Sums over the checked layers. Towards soil that is not counted the surface has no resistance."""
    parts = {"insulation": 0.0, "structure": 0.0}
    for layer in inputs.layers:
        parts[layer.part] += layer_resistance(plain_layer(layer))
    given = inputs.ground if inputs.below == "ground" else None
    dimension = None
    if given is not None and given.floor_area is not None and given.exposed_perimeter is not None:
        dimension = float(soil.characteristic_dimension(given.floor_area, given.exposed_perimeter))
    inner = INTERNAL_RESISTANCE["floor"]
    if inputs.below == "outside" or dimension is not None:
        outer = EXTERNAL_RESISTANCE
    else:
        outer = 0.0 if inputs.below == "ground" else inner
    return FloorBelow(parts["insulation"], parts["structure"], inner + outer, given, dimension)


def requirements(inputs: InsulationCheckInputs, floor: FloorBelow) -> tuple[RuleRequirement, ...]:
    return (_standard(inputs), *_local(inputs, floor))


def _standard(inputs: InsulationCheckInputs) -> RuleRequirement:
    below, temperature = inputs.below, inputs.temperature_below
    least = LEAST_RESISTANCE.get(below, 0.0)
    if below in ("outside", "unheated_room") and temperature is not None:
        least = max(least, resistance_over_cold_air(temperature))
    return RuleRequirement("en_1264_4", least, "EN 1264-4, Table 1")


def _local(inputs: InsulationCheckInputs, floor: FloorBelow) -> Iterator[RuleRequirement]:
    limit = inputs.local_limit
    if limit is None:
        return
    source = limit.name or "Local rule, as stated in the request"
    if limit.resistance is not None:
        rest = floor.structure if limit.counts == "whole_floor" else 0.0
        yield RuleRequirement("local_resistance", max(0.0, limit.resistance - rest), source)
    elif limit.u_value is not None:
        yield RuleRequirement("local_u_value", max(0.0, floor.insulation_for(limit.u_value)), source)
