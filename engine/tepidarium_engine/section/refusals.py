"""Sections that cannot be, and those that would take too much work."""

from __future__ import annotations

from ..elementwise import ROUND_OFF
from ..errors import FaultList
from ..pipe import check_pipe
from ..thermal.characteristic import embedded_diameter
from ..thermal.floor import check_touching
from .contract import FloorSectionInputs

__all__ = ["GREATEST_EDGE_DISTANCE", "LEAST_RESISTANCE_BELOW", "MOST_STEPS", "check_relations"]

MOST_STEPS = 1000
"""Steps of time of one warm-up or lowering."""
GREATEST_EDGE_DISTANCE = 2.0
"""From the outermost pipe to the edge of the floor, in spacings."""
LEAST_RESISTANCE_BELOW = 0.02
"""From the underside of the screed to what lies below [m2.K/W]."""


def check_relations(inputs: FloorSectionInputs) -> None:
    """Raise ``InputError`` with all that fields in their ranges still get wrong together."""
    faults = FaultList()
    check_pipe(inputs.pipe, "/pipe", faults)
    _check_space(inputs, faults)
    _check_exchange(inputs, faults)
    _check_edge(inputs, faults)
    _check_time(inputs, faults)
    faults.raise_if_any()


def _check_space(inputs: FloorSectionInputs, faults: FaultList) -> None:
    diameter = embedded_diameter(inputs.pipe)
    check_touching(inputs.pipe_spacing, inputs.pipe, "/pipe_spacing", faults)
    for index, spacing in enumerate(inputs.compared_spacings):
        check_touching(spacing, inputs.pipe, f"/compared_spacings/{index}", faults)
    if inputs.screed_thickness is not None:
        least = inputs.screed_cover + diameter
        faults.require(
            inputs.screed_thickness >= least - ROUND_OFF,
            "/screed_thickness",
            "pipe_does_not_fit",
            f"cover and pipe alone take {least:g} m",
            least,
        )
    below = inputs.surface_resistance_below + sum(
        layer.thickness / layer.thermal_conductivity for layer in inputs.layers_below
    )
    faults.require(
        below >= LEAST_RESISTANCE_BELOW,
        "/layers_below",
        "no_resistance_below",
        f"layers and surface below have a resistance of less than {LEAST_RESISTANCE_BELOW:g} m2.K/W",
        LEAST_RESISTANCE_BELOW,
    )


def _check_exchange(inputs: FloorSectionInputs, faults: FaultList) -> None:
    given = inputs.surface_exchange == "given"
    faults.require(
        given == (inputs.surface_coefficient is not None),
        "/surface_coefficient",
        "exchange_and_coefficient",
        "goes with the surface exchange 'given', and only with it",
    )
    if inputs.surface_exchange == "basic_curve":
        waters = [("/water_temperature", inputs.water_temperature)]
        waters += [
            (f"/compared_water_temperatures/{index}", temperature)
            for index, temperature in enumerate(inputs.compared_water_temperatures)
        ]
        detail = "the basic characteristic curve holds for floors warmer than the room"
        for pointer, temperature in waters:
            if temperature <= inputs.room_temperature:
                faults.add(pointer, "not_above_room", detail, inputs.room_temperature)


def _check_edge(inputs: FloorSectionInputs, faults: FaultList) -> None:
    if inputs.cold_edge is None:
        return
    radius = embedded_diameter(inputs.pipe) / 2.0
    faults.require(
        inputs.cold_edge.distance > radius,
        "/cold_edge/distance",
        "pipe_outside_floor",
        f"the pipe reaches over the edge: its radius is {radius * 1000.0:g} mm",
        radius,
    )
    greatest = GREATEST_EDGE_DISTANCE * inputs.pipe_spacing
    faults.require(
        inputs.cold_edge.distance <= greatest,
        "/cold_edge/distance",
        "section_edge_distance",
        f"the outermost pipe lies more than {GREATEST_EDGE_DISTANCE:g} spacings from the edge",
        greatest,
    )


def _check_time(inputs: FloorSectionInputs, faults: FaultList) -> None:
    if inputs.warm_up is None:
        return
    step, setback = inputs.warm_up.time_step, inputs.warm_up.setback
    spans = [("/warm_up/duration", inputs.warm_up.duration)]
    if setback is not None:
        spans.append(("/warm_up/setback/duration", setback.duration))
    for pointer, duration in spans:
        faults.require(
            duration <= MOST_STEPS * step,
            pointer,
            "section_steps",
            f"takes more than {MOST_STEPS} steps of {step:g} s",
            MOST_STEPS * step,
        )
