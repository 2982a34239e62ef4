"""Resistances and U-values of layered constructions (ISO 6946:2017)."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import product
from typing import NamedTuple

from ..errors import FaultList, required
from .records import Construction, Layer, Surface

__all__ = [
    "EXTERNAL_RESISTANCE",
    "INTERNAL_RESISTANCE",
    "MOST_BRIDGED_LAYERS",
    "ResistanceBounds",
    "check_construction",
    "check_layer",
    "construction_u_value",
    "layer_resistance",
    "resistance_bounds",
    "unheated_resistance",
]

INTERNAL_RESISTANCE: dict[Surface, float] = {
    "wall": 0.13,
    "window": 0.13,
    "door": 0.13,
    "floor": 0.17,
    "ceiling": 0.10,
}
"""Surface resistance of the room's side [m2.K/W] for heat that flows sideways, down or up; ISO 6946:2017,
conventional surface resistances."""

EXTERNAL_RESISTANCE = 0.04
"""Surface resistance in the open [m2.K/W], ISO 6946:2017, conventional surface resistances."""

MOST_BRIDGED_LAYERS = 6
"""Each doubles the sections that heat can take; 64 of them take microseconds."""

LEAST_RATIO = 1.5
"""ISO 6946: the method holds while the upper limit of the resistance is at most this much above the lower."""


class ResistanceBounds(NamedTuple):
    """Upper and lower limit of a total resistance [m2.K/W]; ISO 6946 takes their mean."""

    upper: float
    lower: float

    @property
    def mean(self) -> float:
        return (self.upper + self.lower) / 2.0


def layer_resistance(layer: Layer) -> float:
    """Resistance of a checked layer beside its bridges [m2.K/W]."""
    if layer.thermal_resistance is not None:
        return layer.thermal_resistance
    thickness = required(layer.thickness, "the thickness of a layer")
    return thickness / required(layer.thermal_conductivity, "the conductivity of a layer")


def _paths(layer: Layer) -> tuple[tuple[float, float], ...]:
    """Share of the area and resistance [m2.K/W] of each material in the layer."""
    beside = layer_resistance(layer)
    if layer.bridge_share == 0.0:
        return ((1.0, beside),)
    thickness = required(layer.thickness, "the thickness of a layer with bridges")
    through = thickness / required(layer.bridge_conductivity, "the conductivity of a layer's bridges")
    return (
        (1.0 - layer.bridge_share, beside),
        (layer.bridge_share, through),
    )


def resistance_bounds(layers: Sequence[Layer], surfaces: float) -> ResistanceBounds:
    """Limits of the resistance from air to air [m2.K/W]; ``surfaces`` is the sum of both surface resistances.

    Upper limit: heat keeps to its section. Lower limit: it spreads evenly at every joint between layers. Without
    bridges both are the plain sum. Bridges of different layers are taken as crossing at random. ISO 6946:2017,
    inhomogeneous layers.
    """
    paths = [_paths(layer) for layer in layers]
    lower = surfaces + sum(1.0 / sum(share / resistance for share, resistance in one) for one in paths)
    conductance = 0.0
    for section in product(*(one for one in paths if len(one) > 1)):
        share, resistance = 1.0, surfaces + sum(one[0][1] for one in paths if len(one) == 1)
        for part, of_part in section:
            share *= part
            resistance += of_part
        conductance += share / resistance
    return ResistanceBounds(1.0 / conductance, lower)


@lru_cache(maxsize=1024)
def construction_u_value(construction: Construction, surface: Surface, external_resistance: float) -> float:
    """U-value [W/(m2.K)] of a checked construction for the direction of heat flow of ``surface``."""
    if construction.u_value is not None:
        return construction.u_value
    surfaces = INTERNAL_RESISTANCE[surface] + external_resistance
    return 1.0 / resistance_bounds(construction.layers, surfaces).mean


def unheated_resistance(
    area: float, external_transmittance: float, air_change: float, volume: float
) -> float:
    """Resistance that an unheated space adds to the element before it [m2.K/W] (ISO 6946:2017, unheated spaces).

    ``area`` [m2] of all elements between room and space, ``external_transmittance`` [W/K] of the space towards
    the outside, ``air_change`` [1/h] of its ``volume`` [m3].
    """
    return area / (external_transmittance + 0.33 * air_change * volume)


def check_construction(construction: Construction, pointer: str, faults: FaultList) -> None:
    """Either a U-value or layers; each layer whole."""
    if (construction.u_value is not None) == bool(construction.layers):
        faults.add(f"{pointer}/layers", "one_of", "give a U-value or layers, one of the two")
    for index, layer in enumerate(construction.layers):
        check_layer(layer, f"{pointer}/layers/{index}", faults)
    if sum([layer.bridge_share > 0.0 for layer in construction.layers]) > MOST_BRIDGED_LAYERS:
        detail = f"at most {MOST_BRIDGED_LAYERS} layers may have bridges"
        faults.add(f"{pointer}/layers", "too_many_bridged", detail, MOST_BRIDGED_LAYERS)


def check_layer(layer: Layer, pointer: str, faults: FaultList) -> None:
    """Thickness and conductivity, or a resistance; bridges with their conductivity and a thickness."""
    if layer.thermal_resistance is None:
        if layer.thickness is None or layer.thermal_conductivity is None:
            missing = "thickness" if layer.thickness is None else "thermal_conductivity"
            detail = "a layer has a thickness and a conductivity, or a resistance"
            faults.add(f"{pointer}/{missing}", "missing", detail)
    elif layer.thermal_conductivity is not None:
        detail = "give the conductivity or the resistance, not both"
        faults.add(f"{pointer}/thermal_resistance", "one_of", detail)
    bridged = layer.bridge_share > 0.0
    if bridged != (layer.bridge_conductivity is not None):
        detail = "bridges have a share and a conductivity"
        faults.add(f"{pointer}/bridge_conductivity", "incomplete", detail)
    if bridged and layer.thickness is None:
        faults.add(f"{pointer}/thickness", "missing", "a layer with bridges needs its thickness")
