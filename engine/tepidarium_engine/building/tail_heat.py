"""Heat that tails give on their way through rooms of others: estimated from the drawing, offered to those rooms.

A tail is taken as pipe of a floor with pipes at the pitch of tails (EN 1264-2), its water as warm as at the
manifold. Insulation round it lies in series with that floor (conduction through a hollow cylinder).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import shapely
from shapely import LineString
from shapely.ops import substring

from ..storey.layout_records import StoreyCircuit
from ..thermal.floor import floor_downward_loss
from .drawn_house import DrawnHouse, DrawnStorey
from .floors import FloorChoice, RoomToHeat
from .records import DesignsInputs, TailInsulation
from .warm_tails import CircuitTails, HouseTails, RoomTails

__all__ = ["heat_of_tails", "insulated_length"]

_CLOSEST = 0.05
"""Least spacing of the method [m]: tails that lie closer are taken as pipes at this spacing."""
_CHORD_ERROR = 1e-3
_LEAST = 0.01
"""Shorter pieces of pipe in a room of others are rounding at the doorway [m]."""


@dataclass(frozen=True, slots=True)
class _Piece:
    """Pipe of a circuit in a room of others: its length [m] and its water's temperature [degC]."""

    circuit: str
    room: RoomToHeat
    flow: bool
    length: float
    temperature: float


def heat_of_tails(inputs: DesignsInputs, drawn: DrawnHouse, supply: float) -> HouseTails:
    """Of all circuits that are drawn, at a supply temperature [degC] and their returns."""
    rooms: dict[int, RoomTails] = {}
    circuits: dict[str, CircuitTails] = {}
    for storey in drawn.storeys:
        pieces = [
            piece for circuit in storey.layout.circuits for piece in _pieces(drawn, storey, circuit, supply)
        ]
        floors = {
            room.index: room.choice(max(inputs.limits.tail_pitch, _CLOSEST)) for room in storey.site.rooms
        }
        given = [(piece, *_heat(inputs, piece, floors[piece.room.index])) for piece in pieces]
        for place, room in enumerate(storey.site.rooms):
            own = [(piece, up, down) for piece, up, down in given if piece.room.index == room.index]
            area = math.fsum(lane.floor.area for lane in storey.layout.tails.lanes if lane.room == place)
            if own or area:
                rooms[room.index] = RoomTails(
                    heat=math.fsum(up for _, up, _ in own),
                    downward=math.fsum(down for _, _, down in own),
                    area=min(area, room.area),
                    length=math.fsum(piece.length for piece, _, _ in own),
                    output=_output(inputs, own),
                    limit=floors[room.index].limit_heat_output,
                )
        for circuit in storey.layout.circuits:
            of_circuit = [one for one in given if one[0].circuit == circuit.id]
            if of_circuit:
                circuits[circuit.id] = CircuitTails(
                    flow=math.fsum(up + down for piece, up, down in of_circuit if piece.flow),
                    back=math.fsum(up + down for piece, up, down in of_circuit if not piece.flow),
                )
    return HouseTails(rooms, circuits)


def _pieces(
    drawn: DrawnHouse, storey: DrawnStorey, circuit: StoreyCircuit, supply: float
) -> Iterator[_Piece]:
    """The flow is the first half of the pipe, the return the second."""
    line = LineString(circuit.path.polyline(_CHORD_ERROR))
    middle = line.length / 2.0
    # A circuit without water of its own name is one of a room that is not drawn as a whole.
    water = drawn.water.circuits.get(circuit.id)
    if water is None:
        return
    for place, room in enumerate(storey.site.rooms):
        if place == circuit.room:
            continue
        floor = storey.site.plan.rooms[place]
        if not shapely.intersects(line, floor):
            continue
        for flow, half in (
            (True, substring(line, 0.0, middle)),
            (False, substring(line, middle, line.length)),
        ):
            length = float(shapely.intersection(half, floor).length)
            if length > _LEAST:
                yield _Piece(circuit.id, room, flow, length, supply if flow else water.return_temperature)


def _heat(inputs: DesignsInputs, piece: _Piece, floor: FloorChoice) -> tuple[float, float]:
    """Heat up and down [W]; down no more than goes with what the bare pipe gives up."""
    room = piece.room
    width = floor.pipe_spacing
    bare = floor.heat_transmittance * max(piece.temperature - room.room.room_temperature, 0.0)
    down = floor_downward_loss(floor.floor, bare, room.room.room_temperature, room.build_up.temperature_below)
    share = _share(inputs.tail_insulation, piece, floor)
    return bare * width * piece.length * share, max(down, 0.0) * width * piece.length * share


def _share(insulation: TailInsulation | None, piece: _Piece, floor: FloorChoice) -> float:
    """Heat of the tail over that of a bare one: the hollow cylinder in series with the floor."""
    if insulation is None or (insulation.insulated_pipes == "flow" and not piece.flow):
        return 1.0
    bare = 1.0 / (floor.heat_transmittance * floor.pipe_spacing)
    diameter = floor.floor.pipe.outside_diameter
    shell = math.log(1.0 + 2.0 * insulation.thickness / diameter) / (
        2.0 * math.pi * insulation.thermal_conductivity
    )
    return bare / (bare + shell)


def _output(inputs: DesignsInputs, own: Sequence[tuple[_Piece, float, float]]) -> float:
    """Mean heat output over the tails [W/m2]."""
    length = math.fsum(piece.length for piece, _, _ in own)
    width = max(inputs.limits.tail_pitch, _CLOSEST)
    return math.fsum(up for _, up, _ in own) / (length * width) if length else 0.0


def insulated_length(inputs: DesignsInputs, tails: HouseTails) -> float:
    """Insulation for all tails on their way through rooms of others [m]."""
    if inputs.tail_insulation is None:
        return 0.0
    share = 0.5 if inputs.tail_insulation.insulated_pipes == "flow" else 1.0
    return share * math.fsum(room.length for room in tails.rooms.values())
