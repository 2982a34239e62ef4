"""Rooms and circuits of the result, from the parts that were computed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import count

from ..errors import required
from ..thermal.characteristic import mean_surface_temperature
from ..water.result import CircuitHydraulics
from .circuits import DividedRoom
from .house_water import HouseWater
from .outcome import CircuitDesign, ManifoldDesign, Remedy, RoomDesign, StripDesign
from .records import DesignsInputs
from .warm_tails import CircuitTails, HouseTails

__all__ = ["circuit_designs", "manifold_designs", "room_design"]


def room_design(inputs: DesignsInputs, room: DividedRoom, remedies: tuple[Remedy, ...]) -> RoomDesign:
    heated, point = room.heated, room.point
    given, missing = heated.given(point.heat_output), room.heat_missing
    laid = heated.own_circuits
    # Of a room that tails alone heat, the whole floor counts.
    output = point.heat_output if laid else given / heated.area
    return RoomDesign(
        id=heated.room.id,
        name=heated.room.name,
        area=heated.area,
        pipe_spacing=point.choice.pipe_spacing if laid else None,
        spacer_length=room.loops.spacer_length if laid else None,
        heat_demand=heated.heat_demand,
        heat_given=given,
        heat_missing=missing,
        required_heat_output=heated.required_heat_output,
        heat_output=point.heat_output,
        limit_heat_output=point.choice.limit_heat_output if laid else None,
        downward_heat_flow=point.downward_heat_loss * heated.field_area + heated.tails.downward,
        mean_surface_temperature=float(mean_surface_temperature(output, heated.room.room_temperature)),
        surface_temperature_limit=heated.surface_limit,
        temperature_drop=point.temperature_drop if laid else None,
        return_temperature=point.field_supply - point.temperature_drop if laid else None,
        pipe_length=room.loops.pipe_length,
        circuit_ids=room.circuit_ids,
        remedies=remedies,
        manifold=inputs.all_manifolds[room.manifold].id,
        field_supply_temperature=point.field_supply if laid else None,
        tails_heat=heated.tails.heat,
        tails_area=heated.area - heated.field_area,
        pattern=heated.room.pattern if laid else None,
        peripheral=_strip_design(room) if laid else None,
    )


def _strip_design(room: DividedRoom) -> StripDesign | None:
    heated, point = room.heated, room.point
    strip, inside = point.choice.strip, heated.room.room_temperature
    if strip is None:
        return None
    close, rest = point.heat_output * strip.output_ratio, point.choice.rest_output(point.heat_output)
    return StripDesign(
        strip=required(heated.room.peripheral, "the strip of a room that has one"),
        area=strip.share * heated.field_area,
        pipe_spacing=strip.pipe_spacing,
        heat_output=close,
        mean_surface_temperature=float(mean_surface_temperature(close, inside)),
        surface_temperature_limit=heated.strip_limit,
        rest_heat_output=rest,
        rest_surface_temperature=float(mean_surface_temperature(rest, inside)),
    )


def circuit_designs(
    inputs: DesignsInputs,
    divided: tuple[DividedRoom, ...],
    water: HouseWater,
    tails: HouseTails,
    ports: Mapping[str, int],
) -> tuple[CircuitDesign, ...]:
    """The circuits in the order of manifolds and ports: those of the drawing, then, in the order of the rooms,
    those that are not drawn."""
    found: list[CircuitDesign] = []
    for number, manifold in enumerate(inputs.all_manifolds):
        served = [
            (room, place, circuit)
            for room in divided
            for place, (circuit, on) in enumerate(zip(room.circuit_ids, room.manifolds, strict=True))
            if on == number
        ]
        own = {circuit: ports[circuit] for _, _, circuit in served if circuit in ports}
        spare = (port for port in count(1) if port not in own.values())
        circuits = [
            _circuit(
                room,
                place,
                water.circuits[circuit],
                own,
                spare,
                manifold=manifold.id,
                tails=tails.circuit(circuit),
            )
            for room, place, circuit in served
        ]
        found += sorted(circuits, key=lambda circuit: circuit.port)
    return tuple(found)


def manifold_designs(
    inputs: DesignsInputs, divided: tuple[DividedRoom, ...], water: HouseWater
) -> tuple[ManifoldDesign, ...]:
    """The manifolds that serve rooms."""
    return tuple(
        ManifoldDesign(
            id=inputs.all_manifolds[manifold.number].id,
            room_ids=tuple(room.heated.room.id for room in divided if manifold.number in room.manifolds),
            circuit_count=len(manifold.result.circuits),
            heat_flow=manifold.result.heat_flow,
            mass_flow=manifold.result.mass_flow,
            volume_flow=manifold.result.volume_flow,
            return_temperature=manifold.result.return_temperature,
            index_circuit=manifold.result.index_circuit,
            manifold_pressure=manifold.result.manifold_pressure,
            balancing_pressure_drop=manifold.balancing_pressure_drop,
            balancing_kv=manifold.balancing_kv,
        )
        for manifold in water.manifolds
    )


def _circuit(
    room: DividedRoom,
    number: int,
    water: CircuitHydraulics,
    ports: Mapping[str, int],
    spare: Iterator[int],
    *,
    manifold: str,
    tails: CircuitTails,
) -> CircuitDesign:
    loop = room.loops.circuits[number]
    return CircuitDesign(
        id=water.id,
        port=ports[water.id] if water.id in ports else next(spare),
        room=room.heated.room.id,
        area=room.circuit_area(number),
        field_length=loop.field_length,
        tail_length=loop.tail_length,
        total_length=loop.total_length,
        heat_flow=water.heat_flow,
        mass_flow=water.mass_flow,
        volume_flow=water.volume_flow,
        temperature_drop=water.temperature_drop,
        return_temperature=water.return_temperature,
        velocity=water.velocity,
        pressure_drop=water.pressure_drop,
        pressure_drop_upper=water.pressure_drop_upper,
        valve_pressure_drop=water.valve_pressure_drop,
        total_pressure_drop=water.total_pressure_drop,
        valve_kv=water.valve_kv,
        valve_setting=water.valve_setting,
        open_flow_ratio=water.open_same_pressure.flow_ratio,
        manifold=manifold,
        lost_on_the_way=tails.heat,
    )
