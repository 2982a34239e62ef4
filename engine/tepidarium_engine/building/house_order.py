"""The materials of a design, from its drawing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..materials import (
    InsulationLayer,
    MaterialArea,
    MaterialBuildUp,
    MaterialCircuit,
    MaterialJoint,
    MaterialManifold,
    MaterialsInputs,
    MaterialsResult,
    order,
)
from ..ordering.order_options import Ordering
from ..plan.asking.route_records import PathPiece
from ..results import FindingPlace
from .house import House
from .layout_outcome import DesignJoint, DesignLayout
from .records import BuildUp, DesignRoom, DesignsInputs
from .tail_heat import insulated_length
from .whole_design import WholeDesign

__all__ = ["drawn_pieces", "house_order", "storey_id"]


def house_order(design: WholeDesign, joints: Sequence[DesignJoint], ordering: Ordering) -> MaterialsResult:
    """What to order. Findings point into the design."""
    inputs, house, whole = design.inputs, design.sited.house, design.solved.water.whole
    pieces = drawn_pieces(design.layout)
    storeys = {room.room.id: storey_id(house, room.index) for room in house.rooms}
    request = MaterialsInputs(
        circuits=tuple(
            MaterialCircuit(
                id=circuit.id,
                length=circuit.total_length,
                area_id=circuit.room,
                manifold=circuit.manifold,
                storey=storeys[circuit.room],
                pieces=pieces.get(circuit.id),
            )
            for circuit in design.circuits
        ),
        areas=tuple(_area(room, design.layout, storeys[room.id]) for room in inputs.rooms),
        build_ups=tuple(_build_up(build_up, inputs) for build_up in inputs.build_ups),
        pipe=inputs.pipe,
        joints=tuple(
            MaterialJoint(length=joint.length, sleeves=joint.sleeve_count, due=joint.state == "due")
            for joint in joints
        ),
        manifolds=tuple(
            MaterialManifold(manifold.id, manifold.balancing_kv is not None) for manifold in design.manifolds
        ),
        fluid=inputs.fluid,
        system_volume=whole.system_volume,
        mixing_set=whole.mixing is not None,
        expansion_vessel=whole.expansion_vessel.nominal_volume,
        tail_insulation=insulated_length(inputs, design.solved.state.tails),
        ordering=ordering,
    )
    result = order(request)
    return replace(result, findings=tuple(finding.moved(_in_design) for finding in result.findings))


def storey_id(house: House, room: int) -> str | None:
    """Of a room by its number; None where there is one storey."""
    storeys = house.inputs.storeys
    return storeys[house.storey_of[room]].id if storeys else None


def drawn_pieces(layout: DesignLayout | None) -> dict[str, tuple[PathPiece, ...]]:
    """Lines and arcs by circuit."""
    return {} if layout is None else {circuit.id: circuit.pieces for circuit in layout.drawn_circuits}


def _area(room: DesignRoom, layout: DesignLayout | None, storey: str | None) -> MaterialArea:
    stretches = () if layout is None else layout.doorway_stretches
    openings = [
        doorway.jambs if doorway.rooms[0] == room.id else doorway.opposite_jambs
        for doorway in stretches
        if room.id in doorway.rooms
    ]
    return MaterialArea(
        id=room.id,
        build_up=room.build_up,
        outline=room.outline,
        voids=room.voids,
        area=room.area,
        openings=tuple(openings) if room.outline is not None else (),
        storey=storey,
        name=room.name,
    )


def _build_up(build_up: BuildUp, inputs: DesignsInputs) -> MaterialBuildUp:
    request = build_up.insulation
    layers = None
    if request is not None:
        boards = [layer for layer in request.layers if layer.part == "insulation"]
        layers = tuple(InsulationLayer(layer.thickness, None, layer.name) for layer in reversed(boards))
    return MaterialBuildUp(
        id=build_up.id,
        screed_thickness=build_up.screed_cover + inputs.pipe.outside_diameter,
        binder="cement" if inputs.screed is None else inputs.screed.binder,
        insulation=layers,
    )


def _in_design(place: FindingPlace) -> FindingPlace:
    """Circuits are those of the answer, areas the rooms of the request; ``ordering`` has the same name in both."""
    if place.where.startswith("/circuits"):
        return replace(place, where_in="answer")
    if place.where.startswith("/areas"):
        return replace(place, where=place.where.replace("/areas", "/rooms", 1))
    return place
