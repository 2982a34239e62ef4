"""Heat that tails give on their way through rooms of others: estimated from the drawing, offered to those rooms.

A tail is taken as pipe of a floor with pipes at the pitch of tails (EN 1264-2), its water as warm as at the
manifold. Insulation round it lies in series with that floor (conduction through a hollow cylinder).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

import shapely

from ..thermal.characteristic import embedded_diameter
from ..thermal.floor import floor_downward_loss
from .drawn_house import DrawnHouse
from .drawn_storey import DrawnStorey
from .floors import FloorChoice, RoomToHeat
from .records import DesignsInputs, TailInsulation
from .warm_tails import CircuitTails, HouseTails, RoomTails

__all__ = ["heat_of_tails", "insulated_length"]

_CLOSEST = 0.05
"""Least spacing of the method [m]: tails that lie closer are taken as pipes at this spacing."""


class _Piece(NamedTuple):
    """Pipe of a circuit in a room of others: its length [m] and its water's temperature [degC]."""

    circuit: str
    room: RoomToHeat
    flow: bool
    length: float
    temperature: float


class _Warm(NamedTuple):
    """A piece and the heat that it gives up and down [W]."""

    piece: _Piece
    up: float
    down: float


def heat_of_tails(inputs: DesignsInputs, drawn: DrawnHouse, supply: float) -> HouseTails:
    """Of all circuits that are drawn, at a supply temperature [degC] and their returns."""
    rooms: dict[int, RoomTails] = {}
    circuits: dict[str, CircuitTails] = {}
    for storey in drawn.storeys:
        warm = [_warm(inputs, piece) for piece in _pieces(drawn, storey, supply)]
        for place, room in enumerate(storey.site.rooms):
            if place in storey.cut_off:
                own = [one for one in warm if one.piece.room is room]
                rooms[room.index] = _room_tails(inputs, storey, place, own)
        for name in sorted({one.piece.circuit for one in warm}):
            own = [one for one in warm if one.piece.circuit == name]
            circuits[name] = CircuitTails(
                flow=math.fsum(one.up + one.down for one in own if one.piece.flow),
                back=math.fsum(one.up + one.down for one in own if not one.piece.flow),
            )
    return HouseTails(rooms, circuits)


def _room_tails(inputs: DesignsInputs, storey: DrawnStorey, place: int, own: Sequence[_Warm]) -> RoomTails:
    length = math.fsum(one.piece.length for one in own)
    heat = math.fsum(one.up for one in own)
    width = max(inputs.limits.tail_pitch, _CLOSEST)
    cut_off = storey.cut_off[place]
    area = math.fsum(float(floor.area) for floor in (*storey.lanes(place), *cut_off))
    largest = max(cut_off, key=lambda part: round(float(part.area), 6), default=None)
    middle = None if largest is None else shapely.point_on_surface(largest)
    return RoomTails(
        heat=heat,
        downward=math.fsum(one.down for one in own),
        area=min(area, storey.site.rooms[place].area),
        length=length,
        output=heat / (length * width) if length else 0.0,
        limit=_floor(inputs, storey.site.rooms[place]).limit_heat_output,
        cut_off=math.fsum(float(part.area) for part in cut_off),
        cut_off_place=None if middle is None else (float(middle.x), float(middle.y)),
    )


def _pieces(drawn: DrawnHouse, storey: DrawnStorey, supply: float) -> Iterator[_Piece]:
    for circuit, place, flow, length in storey.passed:
        # Without water of its own name: its room was divided otherwise in the end.
        water = drawn.water.circuits.get(circuit)
        if water is not None:
            temperature = supply if flow else water.return_temperature
            yield _Piece(circuit, storey.site.rooms[place], flow, length, temperature)


def _floor(inputs: DesignsInputs, room: RoomToHeat) -> FloorChoice:
    """The floor of a room with pipes at the pitch of tails."""
    return room.choice(max(inputs.limits.tail_pitch, _CLOSEST))


def _warm(inputs: DesignsInputs, piece: _Piece) -> _Warm:
    """Heat up and down; insulation takes the same share off both."""
    room, floor = piece.room, _floor(inputs, piece.room)
    warmth = piece.room.room.room_temperature
    bare = floor.heat_transmittance * max(piece.temperature - warmth, 0.0)
    down = max(floor_downward_loss(floor.floor, bare, warmth, room.build_up.temperature_below), 0.0)
    of_area = floor.pipe_spacing * piece.length * _share(inputs.tail_insulation, piece, floor)
    return _Warm(piece, bare * of_area, down * of_area)


def _share(insulation: TailInsulation | None, piece: _Piece, floor: FloorChoice) -> float:
    """Heat of the tail over that of a bare one: the hollow cylinder in series with the floor."""
    if insulation is None or (insulation.insulated_pipes == "flow" and not piece.flow):
        return 1.0
    bare = 1.0 / (floor.heat_transmittance * floor.pipe_spacing)
    diameter = embedded_diameter(floor.floor.pipe)
    shell = math.log(1.0 + 2.0 * insulation.thickness / diameter) / (
        2.0 * math.pi * insulation.thermal_conductivity
    )
    return bare / (bare + shell)


def insulated_length(inputs: DesignsInputs, tails: HouseTails) -> float:
    """Insulation for all tails on their way through rooms of others [m]."""
    if inputs.tail_insulation is None:
        return 0.0
    share = 0.5 if inputs.tail_insulation.insulated_pipes == "flow" else 1.0
    return share * math.fsum(room.length for room in tails.rooms.values())
