"""The whole house in one request: spacings, common supply, circuits, flows, dates (EN 1264-2, -3 and -4).

The rooms are served from one manifold or several on a common supply. The governing room sets the supply
temperature; every other room gets the widest spacing that gives its heat on that supply. Circuits are divided until
length and pressure hold, and their flows are solved together.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from functools import partial

from . import __version__
from .building import build_up_checks as checking
from .building import dates
from .building.asked_rooms import rooms_to_heat
from .building.assembly import room_design
from .building.build_up_checks import BuildUpCheck
from .building.chosen_floors import ChosenFloor, floors_told, with_floors
from .building.compared_designs import Compared
from .building.comparison import compared
from .building.comparison_records import DesignChange, DesignComparison, FindingChange
from .building.design_findings import design_cautions
from .building.design_workings import design_workings
from .building.floors import RoomToHeat
from .building.former_answers import former_findings, former_of
from .building.former_records import FormerDesign
from .building.handover import handover
from .building.handover_records import Commissioning
from .building.house_joints import design_joint, joint_length, with_proposed_joints
from .building.keeping import design_keeping, floors_kept, former_rooms, keeps, untouched_rooms
from .building.label_places import label_places
from .building.layout_outcome import (
    DesignJoint,
    DesignLayout,
    DrawnCircuit,
    DrawnDoorway,
    DrawnManifold,
    DrawnSleeve,
    StoreySiting,
    UnplacedCircuit,
)
from .building.objective_records import DesignObjective
from .building.outcome import (
    BuildUpPlan,
    CircuitDesign,
    DesignConvergence,
    DesignsResult,
    ManifoldDesign,
    Remedy,
    RoomDesign,
    StripDesign,
)
from .building.records import (
    BuildUp,
    DesignLimits,
    DesignRoom,
    DesignScreed,
    DesignsInputs,
    HeatSource,
    HouseToDesign,
    Manifold,
    PeripheralStrip,
    Storey,
    TailInsulation,
)
from .building.remedies import remedies
from .building.sited_design import sited_design
from .building.tail_heat import insulated_length
from .building.whole_design import WholeDesign
from .cautions import once
from .checking import check
from .drawing_sheet import DrawingSheet
from .gathering import gathered
from .options.beside_design import beside_design, check_beside
from .options.objective import design_for
from .own_place import at_own_place, lower_left
from .results import Working
from .spreading import Spread
from .storey.manifold.position_records import PlanDoorway, WallAllowed

__all__ = [
    "BuildUp",
    "BuildUpCheck",
    "BuildUpPlan",
    "ChosenFloor",
    "CircuitDesign",
    "Commissioning",
    "DesignChange",
    "DesignComparison",
    "DesignConvergence",
    "DesignJoint",
    "DesignLayout",
    "DesignLimits",
    "DesignRoom",
    "DesignScreed",
    "DesignsInputs",
    "DesignsResult",
    "DrawingSheet",
    "DrawnCircuit",
    "DrawnDoorway",
    "DrawnManifold",
    "DrawnSleeve",
    "FindingChange",
    "FormerDesign",
    "HeatSource",
    "HouseToDesign",
    "Manifold",
    "ManifoldDesign",
    "PeripheralStrip",
    "PlanDoorway",
    "Remedy",
    "RoomDesign",
    "Storey",
    "StoreySiting",
    "StripDesign",
    "TailInsulation",
    "UnplacedCircuit",
    "WallAllowed",
    "as_designed",
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
    check_beside(inputs)
    return at_own_place(
        inputs,
        lower_left(room.outline or () for room in inputs.rooms),
        partial(_calculated, spread=spread),
        "/rooms",
    )


def _calculated(inputs: DesignsInputs, spread: Spread) -> DesignsResult:
    if inputs.objective is not None:
        return _aimed(inputs, inputs.objective, spread)
    if inputs.former is not None:
        return _kept(inputs, inputs.former, spread)
    design = _designed(inputs, lambda rooms: rooms, spread)
    return _beside(inputs, design, _outcome(design))


def _designed(
    inputs: DesignsInputs, decided: Callable[[tuple[RoomToHeat, ...]], tuple[RoomToHeat, ...]], spread: Spread
) -> WholeDesign:
    """The design of the house with what was ``decided`` for its rooms."""
    rooms, due = with_proposed_joints(inputs, rooms_to_heat(inputs))
    return sited_design(inputs, decided(rooms), due, spread)


def _aimed(inputs: DesignsInputs, objective: DesignObjective, spread: Spread) -> DesignsResult:
    aimed = design_for(inputs, objective, partial(_designed, spread=spread))
    own = with_floors(inputs, aimed.floors)
    result = _beside(own, aimed.design, _outcome(aimed.design))
    findings = gathered((*result.findings, *aimed.findings), own)
    result = replace(result, objective=aimed.outcome, options=aimed.options, findings=findings)
    return _told(inputs, result, aimed.floors)


def _kept(inputs: DesignsInputs, former: FormerDesign, spread: Spread) -> DesignsResult:
    former = former_of(former, __version__, partial(_calculated, spread=spread))
    floors = floors_kept(inputs, former)
    former = replace(former, inputs=with_floors(former.inputs, former.chosen_floors))
    own = replace(with_floors(inputs, floors), former=former)
    rooms, due = with_proposed_joints(own, rooms_to_heat(own))
    design = design_keeping(own, rooms, due, former, spread)
    result = _beside(own, design, _outcome(design))
    return _told(inputs, _compared(own, design, result, former), floors)


def _told(inputs: DesignsInputs, result: DesignsResult, floors: tuple[ChosenFloor, ...]) -> DesignsResult:
    """The result with the floors that were chosen, to which what is said about them points."""
    found = tuple(floors_told(finding, len(inputs.build_ups)) for finding in result.findings)
    return replace(result, chosen_floors=floors, findings=found) if floors else result


def as_designed(inputs: DesignsInputs, result: DesignsResult) -> DesignsInputs:
    """The request as it was designed: with floors, patterns and strips that were chosen for its rooms, without the
    build-ups in whose place all rooms have others."""
    own = with_floors(inputs, result.chosen_floors)
    rooms = tuple(
        replace(
            room,
            pattern=made.pattern or room.pattern,
            peripheral=room.peripheral if made.peripheral is None else made.peripheral.strip,
        )
        for room, made in zip(own.rooms, result.rooms, strict=True)
    )
    left = {floor.like for floor in result.chosen_floors} - {room.build_up for room in rooms}
    floors = tuple(build_up for build_up in own.build_ups if build_up.id not in left)
    return replace(own, rooms=rooms, build_ups=floors)


def _beside(inputs: DesignsInputs, design: WholeDesign, result: DesignsResult) -> DesignsResult:
    """The result with what was asked for beside it."""
    beside = beside_design(inputs, design)
    findings = gathered((*result.findings, *beside.findings), inputs) if beside.findings else result.findings
    return replace(result, sensitivity=beside.sensitivity, season=beside.season, findings=findings)


def _compared(
    inputs: DesignsInputs, design: WholeDesign, result: DesignsResult, former: FormerDesign
) -> DesignsResult:
    """The result with what has changed since the former answer."""
    kept = keeps(design)
    found = former_findings(former, __version__, design, kept=kept)
    result = replace(result, findings=gathered((*result.findings, *found), inputs))
    if not former_rooms(inputs, former):
        return result
    untouched = untouched_rooms(inputs, design.sited.house.rooms, former)
    return replace(result, comparison=compared(Compared(inputs, former, result, untouched, kept)))


def _outcome(design: WholeDesign) -> DesignsResult:
    """The answer of a design, compared with nothing."""
    helped = remedies(design)
    inputs, solved = design.inputs, design.solved
    designs = tuple(
        room_design(inputs, room, helped.by_room.get(room.heated.index, ())) for room in solved.divided
    )
    whole, layout = solved.water.whole, design.layout
    sleeved = Counter(crossing.joint.key for crossing in design.crossings if crossing.tail)
    joints = tuple(design_joint(inputs, joint, sleeved[joint.key]) for joint in design.joints)
    made = handover(design, joints)
    return DesignsResult(
        supply_temperature=solved.supply.temperature,
        return_temperature=whole.return_temperature,
        governing_room=solved.supply.governing.room.id,
        heat_demand=math.fsum(room.heat_demand for room in designs),
        heat_given=math.fsum(room.heat_given for room in designs),
        heat_missing=math.fsum(room.heat_missing for room in designs),
        heat_flow=whole.heat_flow,
        mass_flow=whole.mass_flow,
        volume_flow=whole.volume_flow,
        pipe_length=math.fsum(room.pipe_length for room in designs),
        rooms=designs,
        circuits=design.circuits,
        index_circuit=whole.index_circuit,
        pump=whole.pump,
        mixing=whole.mixing,
        system_volume=whole.system_volume,
        expansion_vessel=whole.expansion_vessel,
        frost_protection=whole.frost_protection,
        curing_plans=tuple(map(dates.without_findings, design.plans)),
        layout=layout,
        build_up_checks=tuple(map(checking.without_findings, design.checks)),
        manifolds=design.manifolds,
        sleeve_count=0 if layout is None else len(layout.sleeves),
        movement_joint_length=joint_length(design.joints, due=False),
        due_sleeve_count=sum(joint.sleeve_count for joint in joints if joint.state == "due"),
        due_joint_length=joint_length(design.joints, due=True),
        joints=joints,
        insulated_tail_length=insulated_length(inputs, solved.state.tails),
        materials=made.materials,
        commissioning=made.commissioning,
        laying_sheets=made.laying_sheets,
        convergence=solved.convergence,
        chosen_floors=(),
        objective=None,
        comparison=None,
        options=None,
        sensitivity=None,
        season=None,
        findings=gathered((*design.findings, *made.findings, *helped.findings()), inputs),
        cautions=once((*design_cautions(solved.divided, solved.water, design.plans), *made.cautions)),
    )


def workings(inputs: DesignsInputs, result: DesignsResult) -> tuple[Working, ...]:
    """How supply, outputs, flows and lengths follow from each other, room by room."""
    return design_workings(as_designed(inputs, result), result)
