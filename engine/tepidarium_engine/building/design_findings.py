"""What should be looked at in a design, and the words on people's safety that go with it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from ..cautions import FLOOR, once
from ..results import Caution, Finding, FindingPlace
from ..thermal.dimensioning import GREATEST_DROP
from ..thermal.floor_findings import floor_findings, return_findings, surface_limit_findings, water_findings
from ..thermal.heated_room import HeatedRoom
from ..thermal.poor_insulation import section_gives_less
from .circuits import DividedRoom
from .dates import plan_findings
from .floors import RoomToHeat
from .house_water import HouseWater
from .outcome import BuildUpPlan, CircuitDesign, ManifoldDesign
from .records import DesignsInputs
from .room_strips import WIDEST_STRIP
from .spacing_findings import spacing_findings
from .supply import CommonSupply
from .tails import ASSUMED_TAIL

__all__ = ["design_cautions", "design_findings", "water_side_findings"]

_SOUND = 1e-6
_LEAST_DEMAND = 1.0
"""Heat demand for a square metre of floor [W/m2]: less is rather in kilowatts (common practice, no source)."""
_SUPPLY_STEP = 0.1
"""To which the supply that would serve all rooms is rounded up [K], so that it does when it is set as it is read."""
_OF_REQUEST = ("/pipe", "/fluid", "/frost_temperature", "/expansion")


def design_findings(
    inputs: DesignsInputs,
    divided: tuple[DividedRoom, ...],
    supply: CommonSupply,
    plans: tuple[BuildUpPlan, ...],
) -> tuple[Finding, ...]:
    """Findings of the house first, then room by room, then dates."""
    return (
        *_supply_findings(inputs, supply),
        *spacing_findings(inputs, divided),
        *(finding for room in divided for finding in _room_findings(inputs, room, supply)),
        *_poor_insulation(inputs, divided),
        *plan_findings(plans),
    )


def _supply_findings(inputs: DesignsInputs, supply: CommonSupply) -> Iterator[Finding]:
    governing = supply.governing
    if supply.temperature < supply.wanted - _SOUND:
        yield Finding.at(
            "supply_too_cold",
            governing.pointer,
            subject=governing.label,
            value=supply.temperature,
            limit=supply.wanted,
            source="EN 1264-3, supply temperature from the governing room",
            quantity="supply_temperature",
        )
    if supply.left_out and inputs.source.supply_temperature is None:
        yield from _left_out(supply)
    if inputs.source.temperature_drop > GREATEST_DROP:
        yield Finding.at(
            "design_drop_large",
            "/source/temperature_drop",
            value=inputs.source.temperature_drop,
            limit=GREATEST_DROP,
            source="EN 1264-3, temperature drop of the governing room",
            quantity="temperature_drop",
        )
    yield from water_findings(supply.temperature, supply.temperature, "/supply_temperature", "answer")
    if inputs.screed is None:
        yield Finding.at(
            "no_dates",
            "/screed",
        )


def _left_out(supply: CommonSupply) -> Iterator[Finding]:
    """The supply that would serve the rooms too that did not count when it was chosen."""
    enough = all(room.may_be_served for room in supply.left_out)
    serving = math.ceil(supply.for_all / _SUPPLY_STEP - _SOUND) * _SUPPLY_STEP
    gives = "serve all rooms" if enough else "give all rooms what their surfaces allow"
    for room in supply.left_out:
        yield Finding.at(
            "room_left_out_of_supply",
            room.pointer,
            value=supply.temperature,
            limit=serving,
            source="EN 1264-3, governing room: bathrooms are left out",
            quantity="supply_temperature",
            detail=f"A supply of {serving:.1f} °C would {gives}",
        )


def _room_findings(inputs: DesignsInputs, room: DividedRoom, supply: CommonSupply) -> Iterator[Finding]:
    heated, point = room.heated, room.point
    if (
        inputs.rooms[heated.index].heat_demand is not None
        and heated.heat_demand < _LEAST_DEMAND * heated.area
    ):
        yield Finding.at(
            "demand_small",
            heated.pointer + "/heat_demand",
            value=heated.heat_demand,
            limit=_LEAST_DEMAND * heated.area,
            source="Common practice, no source: houses of the lowest demand need about 10 W/m2",
            quantity="heat_demand",
        )
    given = heated.given(point.heat_output)
    missing = heated.heat_demand - given
    if missing > _SOUND * heated.heat_demand and (heated.own_circuits or not heated.enough_by_tails):
        yield Finding.at(
            "heat_missing",
            heated.pointer + "/heat_demand",
            detail=f"{missing:.0f} W are missing",
            value=given,
            limit=heated.heat_demand,
            source="EN 1264-3, heat output within the limit curve",
            quantity="heat_given",
        )
    elif -missing > 0.05 * heated.heat_demand and heated.own_circuits:
        yield Finding.at(
            "more_heat_than_needed",
            heated.pointer + "/heat_demand",
            value=given,
            limit=heated.heat_demand,
            source="The greatest temperature drop that the request allows",
            quantity="heat_given",
        )
    yield from return_findings(
        point.field_supply - point.temperature_drop, heated.room.room_temperature, heated.pointer
    )
    if not room.tail.known and heated.own_circuits:
        yield Finding.at(
            "tail_assumed",
            heated.pointer + "/tail_length",
            value=ASSUMED_TAIL,
            source="common practice, no source",
            quantity="tail_length",
        )
    if heated.room.surface_temperature_limit is not None:
        yield from surface_limit_findings(
            heated.surface_limit, heated.room.room_temperature, heated.pointer + "/surface_temperature_limit"
        )
    yield from _strip_findings(inputs, heated)
    yield from _section_findings(inputs, room)
    for finding in room.loops.findings:
        if finding.code not in _SAID_BY_THE_WATER and (
            finding.code != "u_turn_too_tight" or heated.room.pattern == "serpentine"
        ):
            yield finding.moved(lambda place: _of_room(place, heated))


def _strip_findings(inputs: DesignsInputs, heated: RoomToHeat) -> Iterator[Finding]:
    """A strip that is too wide to be warmer than the rest."""
    strip = heated.room.peripheral
    if strip is not None and strip.width > WIDEST_STRIP:
        yield Finding.at(
            "wide_peripheral_area",
            f"{heated.pointer}/peripheral/width" if inputs.rooms[heated.index].peripheral else heated.pointer,
            value=strip.width,
            limit=WIDEST_STRIP,
            source="EN 1264-1, peripheral area",
            quantity="peripheral_width",
            subject=heated.label,
        )


_SAID_BY_THE_WATER = ("divided", "long_circuit", "too_long_circuit")
"""What concerns lengths is said once, of the circuits as they are in the end."""
_OF_LIMITS = {
    "/maximum_circuit_length": "/limits/maximum_circuit_length",
    "/wall_clearance": "/limits/wall_clearance",
}
_OF_ROOM = ("/outline", "/pipe_spacing")


def _of_room(place: FindingPlace, heated: RoomToHeat) -> FindingPlace:
    """What the lengths of a room were computed from stands in several places of the design."""
    where = place.where
    if where.startswith(_OF_ROOM):
        where = heated.pointer + where
    elif where in _OF_LIMITS:
        where = _OF_LIMITS[where]
    return replace(place, where=where, subject=heated.label)


def _section_findings(inputs: DesignsInputs, room: DividedRoom) -> Iterator[Finding]:
    """Findings of the section point to the build-up, those of the spacing to the room."""
    heated = room.heated
    place = [build_up.id for build_up in inputs.build_ups].index(heated.build_up.id)
    for finding in floor_findings(room.point.choice.floor, heated.build_up.temperature_below):
        if finding.where == "/pipe_spacing":
            if heated.own_circuits:
                yield finding.inside(heated.pointer, heated.label)
        elif finding.where.startswith("/pipe/"):
            yield finding
        else:
            yield finding.inside(f"/build_ups/{place}")


class _CircuitNames:
    """Circuits by id: their places in the answer, and what people call them."""

    def __init__(self, divided: tuple[DividedRoom, ...], circuits: tuple[CircuitDesign, ...]) -> None:
        self.places = {circuit.id: number for number, circuit in enumerate(circuits)}
        self._rooms = {circuit: room.heated for room in divided for circuit in room.circuit_ids}

    def of(self, circuit: str) -> str:
        return self._rooms[circuit].circuit_label(circuit)


def _poor_insulation(inputs: DesignsInputs, divided: tuple[DividedRoom, ...]) -> Iterator[Finding]:
    """Rooms over too little insulation whose floors give less than the standard promises."""
    places = [build_up.id for build_up in inputs.build_ups]
    for room in divided:
        mean = room.point.heat_output / room.point.choice.heat_transmittance  # of strip and rest alike
        place = places.index(room.heated.build_up.id)
        for finding in section_gives_less(_as_heated(room), mean, "/resistance_below"):
            yield finding.inside(f"/build_ups/{place}", room.heated.label)


def _as_heated(room: DividedRoom) -> HeatedRoom:
    """The room with what its floor gives."""
    heated = room.heated
    return HeatedRoom(
        room.point.choice.floor,
        room.point.choice.rest_output(room.point.heat_output),
        heated.room.room_temperature,
        heated.build_up.temperature_below,
        heated.surface_limit,
    )


def water_side_findings(
    inputs: DesignsInputs,
    divided: tuple[DividedRoom, ...],
    water: HouseWater,
    circuits: tuple[CircuitDesign, ...],
    manifolds: tuple[ManifoldDesign, ...],
) -> Iterator[Finding]:
    """Findings of the hydraulics, pointing into the request or into the result."""
    named = _CircuitNames(divided, circuits)
    numbers = {manifold.number: place for place, manifold in enumerate(water.manifolds)}

    def in_design(place: FindingPlace) -> FindingPlace:
        head, _, rest = place.where.lstrip("/").partition("/")
        if place.where.startswith(_OF_REQUEST):
            return place
        if head == "primary_temperature":
            return replace(place, where="/source" + place.where)
        if head == "circuits":
            return replace(
                place, where=f"/circuits/{named.places[rest]}", where_in="answer", subject=named.of(rest)
            )
        if head == "manifolds":
            number = int(rest)
            return replace(
                place,
                where=f"/manifolds/{numbers[number]}",
                where_in="answer",
                subject=f"manifold {inputs.all_manifolds[number].id}",
            )
        return replace(place, where_in="answer")

    for finding in water.findings:
        yield finding.moved(in_design)
    for number, manifold in enumerate(inputs.all_manifolds):
        if number not in numbers:
            yield Finding.at(
                "manifold_without_rooms",
                inputs.manifold_pointer(number),
                subject=f"manifold {manifold.id}",
            )
    for place, design in enumerate(manifolds):
        if design.balancing_kv is not None:
            yield Finding.at(
                "balancing_valve_due",
                f"/manifolds/{place}",
                detail=f"Set the valve to kv {design.balancing_kv:.2f} m3/h",
                value=design.balancing_pressure_drop,
                source="Pressure balance of branches on one pump",
                quantity="balancing_pressure_drop",
                where_in="answer",
                subject=f"manifold {design.id}",
            )


def design_cautions(
    divided: tuple[DividedRoom, ...], water: HouseWater, plans: tuple[BuildUpPlan, ...]
) -> tuple[Caution, ...]:
    """The cautions of all parts, each code once."""
    return once(
        (
            *FLOOR,
            *(caution for room in divided for caution in room.loops.cautions),
            *water.cautions,
            *(caution for build_up in plans for caution in build_up.plan.cautions),
        )
    )
