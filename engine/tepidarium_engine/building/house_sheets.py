"""The laying sheets of a design."""

from __future__ import annotations

from ..laying_sheets import CircuitToLay, LayingRoom, LayingSheet, LayingSheetsInputs, sheets_of
from ..ordering.coil_records import CUTTING_ALLOWANCE
from ..ordering.material_outcome import MaterialsResult
from .house_order import drawn_pieces, storey_id
from .whole_design import WholeDesign

__all__ = ["house_sheets"]


def house_sheets(design: WholeDesign, materials: MaterialsResult | None) -> tuple[LayingSheet, ...]:
    """One sheet for each circuit that is drawn, with the coil that it is cut from where there is a plan of coils."""
    inputs, house, pieces = design.inputs, design.sited.house, drawn_pieces(design.layout)
    if not pieces:
        return ()
    numbers = {room.id: number for number, room in enumerate(inputs.rooms)}
    divided = {room.heated.room.id: room for room in design.solved.divided}
    heights = {manifold.id: manifold.height for manifold in house.manifolds}
    cuts = {} if materials is None else {own.circuit: own for own in materials.circuits}
    circuits = []
    for circuit in design.circuits:
        if circuit.id not in pieces:
            continue
        cut, room = cuts.get(circuit.id), divided[circuit.room]
        circuits.append(
            CircuitToLay(
                id=circuit.id,
                room=circuit.room,
                pieces=pieces[circuit.id],
                pipe_spacing=room.point.choice.pipe_spacing,
                pattern=room.heated.room.pattern,
                port_height=heights[circuit.manifold],
                storey=storey_id(house, numbers[circuit.room]),
                manifold=circuit.manifold,
                port=circuit.port,
                coil=None if cut is None else cut.coil,
                coil_start_mark=0.0 if cut is None or cut.start_mark is None else cut.start_mark,
            )
        )
    rooms = tuple(
        LayingRoom(room.id, room.outline, room.voids, storey_id(house, number), room.name)
        for number, room in enumerate(inputs.rooms)
        if room.outline is not None
    )
    ordering = inputs.ordering
    return sheets_of(
        LayingSheetsInputs(
            circuits=tuple(circuits),
            rooms=rooms,
            pipe=inputs.pipe,
            fixing_distance=0.4 if ordering is None else ordering.fixing_distance,
            cutting_allowance=CUTTING_ALLOWANCE if ordering is None else ordering.cutting_allowance,
        )
    ).sheets
