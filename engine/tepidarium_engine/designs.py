"""The whole house in one request: spacings, common supply, circuits, flows, dates (EN 1264-2, -3 and -4).

The rooms are served from one manifold. The governing room sets the supply temperature; every other room gets the
widest spacing that gives its heat on that supply. Circuits are divided until length and pressure hold, and their
flows are solved together.
"""

from __future__ import annotations

import math

from .building.assembly import circuit_designs, room_design
from .building.build_up_checks import BuildUpCheck, build_up_checks, check_findings
from .building.circuits import divide_and_balance
from .building.dates import build_up_plans
from .building.design_findings import design_cautions, design_findings
from .building.design_workings import design_workings
from .building.drawn_storey import design_layout, draw_storey
from .building.floors import rooms_to_heat
from .building.label_places import label_places
from .building.layout_findings import layout_findings
from .building.layout_outcome import DesignLayout, DrawnCircuit
from .building.outcome import BuildUpPlan, CircuitDesign, DesignsResult, Remedy, RoomDesign
from .building.records import (
    BuildUp,
    DesignLimits,
    DesignRoom,
    DesignScreed,
    DesignsInputs,
    HeatSource,
    Manifold,
)
from .building.storey_input import storey_of
from .building.supply import choose_supply, operate_rooms
from .checking import check
from .results import Working
from .storey.position_records import PlanDoorway

__all__ = [
    "BuildUp",
    "BuildUpCheck",
    "BuildUpPlan",
    "CircuitDesign",
    "DesignLayout",
    "DesignLimits",
    "DesignRoom",
    "DesignScreed",
    "DesignsInputs",
    "DesignsResult",
    "DrawnCircuit",
    "HeatSource",
    "Manifold",
    "PlanDoorway",
    "Remedy",
    "RoomDesign",
    "calculate",
    "label_places",
    "workings",
]


def calculate(inputs: DesignsInputs) -> DesignsResult:
    """Design the floor heating of a house; see the records for units.

    A room whose floor cannot give its heat is designed as far as it goes; ``heat_missing`` and ``remedies`` say how
    much is missing and what would help. Raises ``InputError`` for geometry that is no room, floors outside the
    method, ids that are not unique or name nothing, a supply no warmer than a room, tails that use up a circuit.
    """
    check(inputs)
    rooms = rooms_to_heat(inputs)
    supply = choose_supply(rooms, inputs.source)
    points = operate_rooms(rooms, supply.temperature, inputs.source, inputs.limits)
    divided, balanced = divide_and_balance(inputs, rooms, points, supply.temperature)
    storey = storey_of(inputs, rooms)
    drawn = None if storey is None else draw_storey(inputs, storey, divided, supply.temperature)
    if drawn is not None:
        divided, balanced = drawn.divided, drawn.balanced
    designs = tuple(room_design(room, supply.temperature, inputs.source) for room in divided)
    plans = build_up_plans(inputs, rooms, supply.temperature)
    checks = build_up_checks(inputs, divided, supply.temperature)
    return DesignsResult(
        supply_temperature=supply.temperature,
        return_temperature=balanced.return_temperature,
        governing_room=supply.governing.room.id,
        heat_demand=math.fsum(room.heat_demand for room in designs),
        heat_given=math.fsum(room.heat_given for room in designs),
        heat_missing=math.fsum(room.heat_missing for room in designs),
        heat_flow=balanced.heat_flow,
        mass_flow=balanced.mass_flow,
        volume_flow=balanced.volume_flow,
        pipe_length=math.fsum(room.pipe_length for room in designs),
        rooms=designs,
        circuits=circuit_designs(divided, balanced, {} if drawn is None else drawn.ports),
        index_circuit=balanced.index_circuit,
        pump=balanced.pump,
        mixing=balanced.mixing,
        system_volume=balanced.system_volume,
        expansion_vessel=balanced.expansion_vessel,
        frost_protection=balanced.frost_protection,
        curing_plans=plans,
        layout=None if drawn is None else design_layout(drawn),
        build_up_checks=checks,
        findings=(
            *design_findings(inputs, divided, supply, balanced, plans),
            *check_findings(inputs, checks),
            *(() if drawn is None else layout_findings(inputs, drawn, supply.temperature)),
        ),
        cautions=design_cautions(divided, balanced, plans),
    )


def workings(inputs: DesignsInputs, result: DesignsResult) -> tuple[Working, ...]:
    """How supply, outputs, flows and lengths follow from each other, room by room."""
    return design_workings(inputs, result)
