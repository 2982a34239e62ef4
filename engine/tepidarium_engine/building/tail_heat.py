"""Heat that tails give on their way through rooms of others: estimated from the drawing, offered to those rooms.

A tail gives what the solved section says for the floor that it has for itself on either side; its water is as warm as
at the manifold. Insulation round it lies in series with that floor (conduction through a hollow cylinder).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple

from ..thermal.characteristic import embedded_diameter
from ..thermal.floor import floor_downward_loss
from ..thermal.single_pipes import SinglePipe, single_pipe
from .drawn_house import DrawnHouse
from .drawn_storey import DrawnStorey
from .floors import FloorChoice, RoomToHeat
from .records import DesignsInputs, TailInsulation
from .warm_tails import CircuitTails, HouseTails, RoomTails

__all__ = ["heat_of_tails", "insulated_length"]

_CLOSEST = 0.05
"""Least spacing of EN 1264-2 [m]: its limit for tails that lie closer is that of pipes at this spacing."""


_REMEMBERED = 1024
"""Stretches of tails: those of parts of a house that are alike, and from round to round, have the same floor."""


class _Piece(NamedTuple):
    """Pipe of a circuit in a room of others: its length [m], its water's temperature [degC], and the floor [m] that is
    free on its left and right, at places evenly along it."""

    circuit: str
    room: RoomToHeat
    flow: bool
    length: float
    temperature: float
    free: tuple[tuple[float, float], ...]


class _Warm(NamedTuple):
    """A piece, the heat that it gives up and down [W], and the heat up right above it [W/m2]."""

    piece: _Piece
    up: float
    down: float
    above: float


def heat_of_tails(inputs: DesignsInputs, drawn: DrawnHouse, supply: float) -> HouseTails:
    """Of all circuits that are drawn, at a supply temperature [degC] and their returns."""
    rooms: dict[int, RoomTails] = {}
    circuits: dict[str, CircuitTails] = {}
    for storey in drawn.storeys:
        warm = [_warm(inputs, piece, supply, storey.tail_pitch) for piece in _pieces(drawn, storey, supply)]
        for place, room in enumerate(storey.site.rooms):
            if place in storey.drawing.cut_off:
                own = [one for one in warm if one.piece.room is room]
                rooms[room.index] = _room_tails(storey, place, own)
        for name in sorted({one.piece.circuit for one in warm}):
            own = [one for one in warm if one.piece.circuit == name]
            circuits[name] = CircuitTails(
                flow=math.fsum(one.up + one.down for one in own if one.piece.flow),
                back=math.fsum(one.up + one.down for one in own if not one.piece.flow),
            )
    return HouseTails(rooms, circuits)


def _room_tails(storey: DrawnStorey, place: int, own: Sequence[_Warm]) -> RoomTails:
    length = math.fsum(one.piece.length for one in own)
    above = math.fsum(one.above * one.piece.length for one in own)
    taken = (*storey.drawing.lanes(place), *storey.drawing.cut_off[place])
    area = math.fsum(float(floor.area) for floor in taken)
    return RoomTails(
        heat=math.fsum(one.up for one in own),
        downward=math.fsum(one.down for one in own),
        area=min(area, storey.site.rooms[place].area),
        length=length,
        output=above / length if length else 0.0,
        limit=_floor(storey.site.rooms[place], storey.tail_pitch).limit_heat_output,
    )


def _pieces(drawn: DrawnHouse, storey: DrawnStorey, supply: float) -> Iterator[_Piece]:
    for circuit, place, flow, length, free in storey.passed:
        # Without water of its own name: its room was divided otherwise in the end.
        water = drawn.water.circuits.get(circuit)
        if water is not None:
            temperature = supply if flow else water.return_temperature
            yield _Piece(circuit, storey.site.rooms[place], flow, length, temperature, free)


def _floor(room: RoomToHeat, tail_pitch: float) -> FloorChoice:
    """The floor of a room with pipes at the pitch of tails [m]."""
    return room.choice(max(tail_pitch, _CLOSEST))


def _warm(inputs: DesignsInputs, piece: _Piece, supply: float, tail_pitch: float) -> _Warm:
    """Heat up and down, averaged along the piece; insulation takes the same share off both."""
    room, floor = piece.room, _floor(piece.room, tail_pitch).floor
    pipe = single_pipe(floor, supply)
    warmth, below = room.room.room_temperature, room.build_up.temperature_below
    excess = max(piece.temperature - warmth, 0.0)
    bare, above = _means(pipe, piece.free)
    share = _share(inputs.tail_insulation, piece, bare, embedded_diameter(floor.pipe))
    of_area = bare * excess / floor.pipe_spacing
    down = max(floor_downward_loss(floor, of_area, warmth, below), 0.0) * floor.pipe_spacing
    length = share * piece.length
    return _Warm(piece, bare * excess * length, down * length, share * above * excess)


@lru_cache(maxsize=_REMEMBERED)
def _means(pipe: SinglePipe, free: tuple[tuple[float, float], ...]) -> tuple[float, float]:
    """Heat along a pipe [W/(m.K)], and right above it [W/(m2.K)], with so much ``free`` floor at its places."""
    return (
        math.fsum(pipe.output(*each) for each in free) / len(free),
        math.fsum(pipe.output_above(*each) for each in free) / len(free),
    )


def _share(insulation: TailInsulation | None, piece: _Piece, bare: float, diameter: float) -> float:
    """Heat of the tail over that of a ``bare`` one [W/(m.K)]: the hollow cylinder in series with the floor."""
    if insulation is None or (insulation.insulated_pipes == "flow" and not piece.flow):
        return 1.0
    shell = math.log(1.0 + 2.0 * insulation.thickness / diameter) / (
        2.0 * math.pi * insulation.thermal_conductivity
    )
    return 1.0 / (1.0 + bare * shell)


def insulated_length(inputs: DesignsInputs, tails: HouseTails) -> float:
    """Insulation for all tails on their way through rooms of others [m]."""
    if inputs.tail_insulation is None:
        return 0.0
    share = 0.5 if inputs.tail_insulation.insulated_pipes == "flow" else 1.0
    return share * math.fsum(room.length for room in tails.rooms.values())
