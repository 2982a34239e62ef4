"""The circuits of all rooms: divided until length and pressure hold, solved together on their manifolds."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import NamedTuple

from .. import loop_length
from ..errors import FaultList, faults_at
from ..glossary import number
from ..hydraulics import Circuit, CircuitHydraulics
from ..loop_length import LoopCircuit, LoopLengthInputs, LoopLengthResult
from ..storey.model.circuit_names import circuit_name
from .floors import OperatingPoint, RoomToHeat, surface_pointer
from .house import House, HouseState
from .house_water import HouseCircuit, HouseWater, drops_with_open_valves, house_water
from .room_joints import fields_between_joints
from .spacings import spacing_pointer
from .tails import Tail, check_tail, estimated_tail
from .warm_tails import CircuitTails

__all__ = [
    "DividedRoom",
    "balance",
    "circuit_id",
    "circuit_request",
    "divided_room",
    "divided_rooms",
    "in_circuits",
    "loses_too_much",
    "pressure_with_valve",
]

_ROUNDS = 8
_GREATEST_DROP = number("temperature_drop").maximum
"""Of a circuit that can be computed [K]."""
_SOUND = 1e-6
"""Share of a demand that rounding may miss."""
_FILL = 0.96
"""Share of the ideal length that a drawn field comes to, to begin with (measured on rooms of many shapes)."""


class DividedRoom(NamedTuple):
    """A room on its operating point with its circuits; ``manifold`` is the number of the one that serves it,
    ``permitted_length`` [m] what a circuit may have, whatever number of circuits was asked for. Where manifolds that
    stand in a hall serve it together, each circuit is ``drawn_on`` one of them."""

    heated: RoomToHeat
    point: OperatingPoint
    tail: Tail
    loops: LoopLengthResult
    manifold: int
    permitted_length: float
    drawn_on: tuple[int, ...] = ()

    @property
    def manifolds(self) -> tuple[int, ...]:
        """By circuit."""
        return self.drawn_on or (self.manifold,) * len(self.loops.circuits)

    @property
    def circuit_ids(self) -> tuple[str, ...]:
        return tuple(circuit_id(self, number) for number in range(len(self.loops.circuits)))

    @property
    def heat_missing(self) -> float:
        """What another emitter must give [W]; rounding is none."""
        missing = self.heated.heat_demand - self.heated.given(self.point.heat_output)
        return missing if missing > _SOUND * self.heated.heat_demand else 0.0

    def circuit_area(self, number: int) -> float:
        """Floor of one circuit [m2]: its share of the room's own field."""
        whole = math.fsum(loop.area for loop in self.loops.circuits)
        return self.heated.field_area * self.loops.circuits[number].area / whole


def pressure_with_valve(circuit: CircuitHydraulics) -> float:
    """Upper bound of the pressure drop [Pa] with the circuit's valve wide open."""
    return circuit.pressure_drop_upper + circuit.fixed_pressure_drop + circuit.open_valve_pressure_drop


def divided_rooms(state: HouseState, points: tuple[OperatingPoint, ...]) -> tuple[DividedRoom, ...]:
    """Each room divided by its joints and the permitted length, then further while a circuit loses too much pressure.

    A room that still loses too much after ``_ROUNDS`` divisions is left as it is; the findings of the hydraulics
    name it.
    """
    asked = list(zip(state.rooms, points, state.served, strict=True))
    known = [_remembered(state, *each) for each in asked]
    fresh = [index for index, room in enumerate(known) if room is None]
    found = _divided(state, [divided_room(state.house, *asked[index]) for index in fresh])
    for index, room in zip(fresh, found, strict=True):
        known[index] = room
        if state.house.by_area:
            room.heated.divisions[_key(state, room.point, room.manifold)] = (state.house.inputs, room)
    return tuple(room for room in known if room is not None)


def _remembered(
    state: HouseState, heated: RoomToHeat, point: OperatingPoint, manifold: int
) -> DividedRoom | None:
    """The same room by area as it was divided in another design of the same house."""
    asked, room = heated.divisions.get(_key(state, point, manifold), (None, None))
    same = asked is state.house.inputs and state.house.by_area
    return room if same and isinstance(room, DividedRoom) else None


def _key(state: HouseState, point: OperatingPoint, manifold: int) -> tuple[float, ...]:
    return manifold, state.supply, point.choice.pipe_spacing, point.heat_output, point.temperature_drop


def _divided(state: HouseState, divided: list[DividedRoom]) -> list[DividedRoom]:
    """Rooms divided further until their pressure holds."""
    limit = state.house.inputs.limits.maximum_pressure_drop
    finer = list(range(len(divided)))
    for _ in range(_ROUNDS):
        if not finer:
            break
        circuits = _house_circuits(state, [divided[index] for index in finer])
        drops = drops_with_open_valves(state.house.inputs, circuits, state.supply)
        finer = [
            index for index in finer if any(drops[circuit] > limit for circuit in divided[index].circuit_ids)
        ]
        for index in finer:
            divided[index] = in_circuits(divided[index], len(divided[index].loops.circuits) + 1)
    return divided


def loses_too_much(room: DividedRoom, water: HouseWater, limit: float) -> bool:
    """Whether a circuit of the room loses more pressure than ``limit`` [Pa] with its valve open."""
    return any(pressure_with_valve(water.circuits[circuit]) > limit for circuit in room.circuit_ids)


def divided_room(house: House, heated: RoomToHeat, point: OperatingPoint, manifold: int) -> DividedRoom:
    """The room in the fewest circuits that its length and its joints allow, whatever pressure they lose.

    No circuit crosses a joint: there are as many as fields at least. What will be drawn is not laid before.
    """
    inputs = house.inputs
    tail = estimated_tail(heated, house.manifolds[manifold])
    if not heated.own_circuits:
        loops = _loops(house, heated, point, Tail(0.0, True), manifold, measured=False)
        return in_circuits(DividedRoom(heated, point, tail, loops, manifold, loops.maximum_circuit_length), 0)
    check_tail(inputs, heated, tail, inputs.manifold_pointer(manifold))
    drawn = house.is_drawn(heated)
    loops = _loops(house, heated, point, tail, manifold, measured=not (drawn or house.by_area))
    room = DividedRoom(heated, point, tail, loops, manifold, loops.maximum_circuit_length)
    count = len(loops.circuits)
    if point.choice.strip is not None:
        closer = point.choice.strip_length(loops.ideal_length * point.choice.pipe_spacing)
        loops = replace(
            loops, field_length=loops.field_length + closer, ideal_length=loops.ideal_length + closer
        )
        count = max(count, _circuits_for(room, loops.field_length))
        room = room._replace(loops=loops)
    if drawn:
        field_length = _FILL * loops.field_length
        count = _circuits_for(room, field_length)
        room = room._replace(loops=replace(loops, field_length=field_length))
    kept = min(heated.kept_circuits(point.choice.pipe_spacing), count + _ROUNDS)
    return in_circuits(room, max(count, fields_between_joints(heated), kept))


def _circuits_for(room: DividedRoom, field_length: float) -> int:
    """The fewest circuits for so much pipe in the field [m]."""
    return math.ceil(field_length / (room.permitted_length - 2.0 * room.tail.length) - 1e-9)


def _loops(
    house: House,
    heated: RoomToHeat,
    point: OperatingPoint,
    tail: Tail,
    manifold: int,
    *,
    measured: bool,
) -> LoopLengthResult:
    inputs = house.inputs
    request = LoopLengthInputs(
        pipe_spacing=point.choice.pipe_spacing,
        tail_length=tail.length,
        area=heated.room.area,
        outline=heated.room.outline,
        voids=heated.room.voids,
        pipe=inputs.pipe,
        maximum_circuit_length=inputs.limits.maximum_circuit_length,
        wall_clearance=inputs.limits.wall_clearance,
        entry=heated.room.entry or inputs.all_manifolds[manifold].position,
        pattern=heated.room.pattern,
        measured=measured,
    )
    places = {
        "/pipe": "/pipe",
        "/pipe_spacing": spacing_pointer(inputs, heated.index, point.choice.pipe_spacing),
        "/maximum_circuit_length": "/limits/maximum_circuit_length",
        "/wall_clearance": "/limits/wall_clearance",
    }
    if request not in house.measured:
        with faults_at(places, heated.pointer):
            house.measured[request] = loop_length.calculate(request)
    return house.measured[request]


def in_circuits(room: DividedRoom, count: int) -> DividedRoom:
    """The room in so many circuits of equal length; without any where tails of others heat it."""
    loops, tails = room.loops, 2.0 * room.tail.length
    if not count:
        return room._replace(loops=replace(loops, circuits=(), pipe_length=0.0, findings=()), drawn_on=())
    share = loops.field_length / count
    circuits = tuple(
        LoopCircuit(str(number), loops.area / count, share, share + tails, tails)
        for number in range(1, count + 1)
    )
    findings = tuple(finding for finding in loops.findings if finding.code != "divided" or count > 1)
    return room._replace(
        loops=replace(loops, circuits=circuits, pipe_length=count * (share + tails), findings=findings),
        drawn_on=(),
    )


def circuit_id(room: DividedRoom, number: int) -> str:
    """Name of a circuit: the room's, and the number in it where there are several."""
    heated = room.heated
    return circuit_name(heated.room.id, heated.numbered, number + 1, len(room.loops.circuits))


def balance(state: HouseState, divided: Iterable[DividedRoom]) -> HouseWater:
    """All circuits on their manifolds, solved together at the state's supply temperature.

    Raises ``InputError`` where a room bears the name of a circuit of another room that has several.
    """
    circuits = _house_circuits(state, tuple(divided))
    return house_water(state.house.inputs, circuits, state.supply)


def _house_circuits(state: HouseState, divided: Sequence[DividedRoom]) -> list[HouseCircuit]:
    """What is asked of the water side for these rooms."""
    _check_names(divided)
    circuits = [
        HouseCircuit(
            circuit_request(room, number, loop, state.tails.circuit(circuit_id(room, number))),
            manifold,
            room.heated.pointer,
        )
        for room in divided
        for number, (loop, manifold) in enumerate(zip(room.loops.circuits, room.manifolds, strict=True))
    ]
    _check_drops(state, divided, circuits)
    return circuits


def _check_drops(state: HouseState, divided: Sequence[DividedRoom], circuits: Sequence[HouseCircuit]) -> None:
    """No circuit may cool its water by more than can be computed."""
    faults = FaultList()
    rooms = {room.heated.pointer: room for room in divided}
    for circuit in circuits:
        drop, room = circuit.circuit.temperature_drop or 0.0, rooms[circuit.room]
        if drop <= _GREATEST_DROP or any(fault.pointer.startswith(circuit.room) for fault in faults.faults):
            continue
        if room.point.temperature_drop <= state.house.inputs.limits.maximum_temperature_drop:
            faults.add(
                "/limits/maximum_temperature_drop",
                "drop_too_large",
                f"is too much for {room.heated.label}: with what its tails lose on the way the water would cool by "
                f"more than {_GREATEST_DROP:g} K, the most that can be computed",
                _GREATEST_DROP,
            )
            continue
        faults.add(
            surface_pointer(room.heated.room, circuit.room),
            "supply_too_warm",
            f"is too low for the common supply of {state.supply:.1f} degC: to keep the floor at "
            f"{room.heated.surface_limit:.1f} degC the water would have to cool by more than "
            f"{_GREATEST_DROP:g} K, the most that can be computed",
            _GREATEST_DROP,
        )
    faults.raise_if_any()


def _check_names(divided: Sequence[DividedRoom]) -> None:
    owners = {circuit: room.heated for room in divided for circuit in room.circuit_ids}
    faults = FaultList()
    for room in divided:
        for circuit in room.circuit_ids:
            owner = owners[circuit]
            if owner is not room.heated:
                single = owner if owner.room.id == circuit else room.heated
                faults.add(
                    f"{single.pointer}/id",
                    "not_unique",
                    f"is also the name of a circuit of another room ({circuit!r}): choose another",
                )
    faults.raise_if_any()


def circuit_request(room: DividedRoom, number: int, loop: LoopCircuit, tails: CircuitTails) -> Circuit:
    """The field decides the flow; from port to port the water cools by what its tails leave on the way as well."""
    field = room.circuit_area(number) * (room.point.heat_output + room.point.downward_heat_loss)
    whole = field + tails.heat
    return Circuit(
        id=circuit_id(room, number),
        length=loop.total_length,
        heat_flow=whole,
        temperature_drop=room.point.temperature_drop * whole / field,
    )
