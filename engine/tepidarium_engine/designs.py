"""The whole house in one request: spacings, common supply, circuits, flows, dates (EN 1264-2, -3 and -4).

The rooms are served from one manifold or several on a common supply. The governing room sets the supply
temperature; every other room gets the widest spacing that gives its heat on that supply. Circuits are divided until
length and pressure hold, and their flows are solved together.
"""

from __future__ import annotations

import math

from .building import build_up_checks as checking
from .building import dates
from .building.assembly import circuit_designs, manifold_designs, room_design
from .building.build_up_checks import BuildUpCheck, build_up_checks, check_findings
from .building.dates import build_up_plans
from .building.design_findings import design_cautions, design_findings, water_side_findings
from .building.design_workings import design_workings
from .building.drawing_record import design_layout
from .building.floors import rooms_to_heat
from .building.joints_told import joints_told
from .building.label_places import label_places
from .building.layout_findings import layout_findings
from .building.layout_outcome import (
    DesignLayout,
    DrawnCircuit,
    DrawnDoorway,
    DrawnManifold,
    DrawnSleeve,
    StoreySiting,
    UnplacedCircuit,
)
from .building.outcome import (
    BuildUpPlan,
    CircuitDesign,
    DesignConvergence,
    DesignsResult,
    ManifoldDesign,
    Remedy,
    RoomDesign,
)
from .building.records import (
    BuildUp,
    DesignLimits,
    DesignRoom,
    DesignScreed,
    DesignsInputs,
    HeatSource,
    Manifold,
    Storey,
    TailInsulation,
)
from .building.room_joints import joint_length
from .building.siting import sited_house
from .building.siting_told import siting_findings, storey_sitings
from .building.solving import solve_house
from .building.tail_heat import insulated_length
from .checking import check
from .gathering import gathered
from .results import Working
from .spreading import Spread
from .storey.position_records import PlanDoorway, WallAllowed

__all__ = [
    "BuildUp",
    "BuildUpCheck",
    "BuildUpPlan",
    "CircuitDesign",
    "DesignConvergence",
    "DesignLayout",
    "DesignLimits",
    "DesignRoom",
    "DesignScreed",
    "DesignsInputs",
    "DesignsResult",
    "DrawnCircuit",
    "DrawnDoorway",
    "DrawnManifold",
    "DrawnSleeve",
    "HeatSource",
    "Manifold",
    "ManifoldDesign",
    "PlanDoorway",
    "Remedy",
    "RoomDesign",
    "Storey",
    "StoreySiting",
    "TailInsulation",
    "UnplacedCircuit",
    "WallAllowed",
    "calculate",
    "label_places",
    "workings",
]


def calculate(inputs: DesignsInputs, *, spread: Spread = map) -> DesignsResult:
    """Design the floor heating of a house; see the records for units.

    A room whose floor cannot give its heat is designed as far as it goes; ``heat_missing`` and ``remedies`` say how
    much is missing and what would help. Raises ``InputError`` for geometry that is no room, floors outside the
    method, ids that are not unique or name nothing, a supply no warmer than a room, tails that use up a circuit.
    ``spread`` may lay rooms on several cores, with the same result.
    """
    check(inputs)
    rooms = rooms_to_heat(inputs)
    sited = sited_house(inputs, rooms, spread)
    house, inputs = sited.house, sited.house.inputs
    solved = solve_house(house, sited.draughtsman)
    supply, divided, water, drawn = solved.supply, solved.divided, solved.water, solved.drawn
    tails = solved.state.tails
    designs = tuple(room_design(inputs, room, supply.temperature) for room in divided)
    plans = build_up_plans(inputs, rooms, supply.temperature)
    checks = build_up_checks(inputs, divided, supply.temperature)
    sitings = () if drawn is None else storey_sitings(sited, drawn)
    layout = None if drawn is None else design_layout(sited, drawn, sitings)
    circuits = circuit_designs(inputs, divided, water, tails, {} if drawn is None else drawn.ports)
    manifolds = manifold_designs(inputs, divided, water)
    whole = water.whole
    return DesignsResult(
        supply_temperature=supply.temperature,
        return_temperature=whole.return_temperature,
        governing_room=supply.governing.room.id,
        heat_demand=math.fsum(room.heat_demand for room in designs),
        heat_given=math.fsum(room.heat_given for room in designs),
        heat_missing=math.fsum(room.heat_missing for room in designs),
        heat_flow=whole.heat_flow,
        mass_flow=whole.mass_flow,
        volume_flow=whole.volume_flow,
        pipe_length=math.fsum(room.pipe_length for room in designs),
        rooms=designs,
        circuits=circuits,
        index_circuit=whole.index_circuit,
        pump=whole.pump,
        mixing=whole.mixing,
        system_volume=whole.system_volume,
        expansion_vessel=whole.expansion_vessel,
        frost_protection=whole.frost_protection,
        curing_plans=tuple(map(dates.without_findings, plans)),
        layout=layout,
        build_up_checks=tuple(map(checking.without_findings, checks)),
        manifolds=manifolds,
        sleeve_count=0 if layout is None else len(layout.sleeves),
        movement_joint_length=joint_length(rooms),
        insulated_tail_length=insulated_length(inputs, tails),
        convergence=solved.convergence,
        findings=gathered(
            (
                *design_findings(inputs, divided, supply, plans),
                *water_side_findings(inputs, divided, water, circuits, manifolds),
                *check_findings(inputs, checks),
                *joints_told(house, drawn),
                *(() if drawn is None else siting_findings(sited, sitings)),
                *(
                    ()
                    if drawn is None
                    else layout_findings(solved.state, drawn, solved.convergence, solved.kept)
                ),
            ),
            inputs,
        ),
        cautions=design_cautions(divided, water, plans),
    )


def workings(inputs: DesignsInputs, result: DesignsResult) -> tuple[Working, ...]:
    """How supply, outputs, flows and lengths follow from each other, room by room."""
    return design_workings(inputs, result)
