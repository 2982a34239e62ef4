"""What should be looked at in the drawing of a storey, and how warm its tails make the floors they cross."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ..results import Finding
from ..storey.plan_input import narrow_doorways
from .drawn_house import DrawnHouse
from .drawn_storey import DrawnStorey
from .floors import RoomToHeat
from .house import House, HouseState
from .outcome import DesignConvergence
from .ports_told import ports_told

__all__ = ["layout_findings"]

_WORTH_TELLING = 0.5
"""Floor that tails cut off before it is told [m2]."""


def layout_findings(
    state: HouseState, drawn: DrawnHouse, convergence: DesignConvergence, kept: Mapping[int, float]
) -> Iterator[Finding]:
    """Circuits that are not drawn, rooms without an outline, a search that did not settle, warm tails, spacings
    ``kept`` although the wider one given there [m] would do in turn."""
    house = state.house
    for storey in drawn.storeys:
        yield from _not_drawn(house, storey)
        yield from _fewer(storey)
        yield from ports_told(house, drawn, storey)
        yield from narrow_doorways(
            storey.site.plan.doorways,
            [house.inputs.doorways[number].width for number in storey.site.doorways],
            [f"/doorways/{number}" for number in storey.site.doorways],
        )
    if not drawn.settled:
        yield Finding.at(
            "drawing_not_settled",
            "warning",
            "/limits",
            "After the last round a circuit is still longer than permitted or loses too much pressure; see the "
            "circuits. More circuits, a wider pipe or a second manifold would help.",
        )
    if not convergence.settled:
        yield Finding.at(
            "design_not_settled",
            "warning",
            "/convergence",
            f"After {convergence.rounds} rounds the heat of tails still changed by {convergence.residual:.1f} W from "
            "round to round: rooms that hold tails may get more or less by as much. Give the spacing of the rooms "
            "whose circuits change, or insulate the tails.",
            value=convergence.residual,
            limit=convergence.tolerance,
            source="Fixed point of this calculation",
            quantity="residual",
            where_in="answer",
        )
    for room in state.rooms:
        yield from _warm_tails(room)
        if room.index in kept:
            yield _kept(room, kept[room.index])


def _not_drawn(house: House, storey: DrawnStorey) -> Iterator[Finding]:
    for one in storey.layout.unplaced:
        room = storey.site.rooms[one.room]
        yield Finding.at(
            f"not_drawn_{one.code}",
            "violation",
            room.pointer,
            f"Circuit {one.id} could not be drawn, its length is estimated. {one.message}",
            source="Geometry",
            point=one.place,
        )
    for room in house.rooms:
        if room.outline is None and house.storey_of[room.index] == storey.site.number:
            yield Finding.at(
                "not_drawn_no_outline",
                "note",
                f"{room.pointer}/outline",
                f"{room.label} has no outline: it is not drawn, and its circuits come after the drawn ones on the "
                "manifold.",
            )


def _fewer(storey: DrawnStorey) -> Iterator[Finding]:
    """Rooms that were laid with as many circuits as have a way."""
    for one in storey.layout.fewer:
        room = storey.site.rooms[one.room]
        yield Finding.at(
            "fewer_circuits",
            "note",
            room.pointer,
            f"{room.label} gets {one.laid} circuits instead of {one.asked}, each within the permitted length: no more "
            f"have a way. {one.message}",
            value=float(one.laid),
            limit=float(one.asked),
            source="Geometry",
            point=one.place,
            quantity="circuit_count",
        )


def _kept(room: RoomToHeat, wider: float) -> Finding:
    closer = room.pipe_spacings[0]
    return Finding.at(
        "closer_spacing_kept",
        "note",
        f"{room.pointer}/pipe_spacing",
        f"{room.label} keeps {closer * 1000.0:.0f} mm: with the tails that go with it {wider * 1000.0:.0f} mm would "
        "do, but with those that go with that it would not. Give pipe_spacing to decide.",
        value=closer,
        limit=wider,
        source="Fixed point of this calculation",
        quantity="pipe_spacing",
    )


def _warm_tails(room: RoomToHeat) -> Iterator[Finding]:
    """Heat from tails of others in a room, and floors that they make too warm."""
    tails = room.tails
    if not tails.length:
        return
    if tails.cut_off > _WORTH_TELLING:
        yield Finding.at(
            "floor_cut_off",
            "warning",
            room.pointer,
            f"Tails cut {tails.cut_off:.1f} m2 of {room.label} off from its own circuits: it stays without pipe but "
            "for the tails. Move the manifold to that end of the wall, or the doorway.",
            value=tails.cut_off,
            limit=_WORTH_TELLING,
            source="Geometry",
            point=tails.cut_off_place,
            quantity="bare_area",
        )
    yield Finding.at(
        "tails_heat",
        "note",
        room.pointer,
        f"Tails to other rooms take {tails.area:.1f} m2 of {room.label} and give it about {tails.heat:.0f} W of the "
        f"{room.heat_demand:.0f} W it needs; its own circuits are designed for the rest.",
        value=tails.heat,
        limit=room.heat_demand,
        source="EN 1264-2, characteristic of a floor with pipe at the pitch of the tails",
        quantity="tails_heat",
    )
    if tails.heat > room.heat_demand:
        yield Finding.at(
            "tails_give_too_much",
            "warning",
            room.pointer,
            f"Tails alone give {room.label} about {tails.heat - room.heat_demand:.0f} W more than it needs, whatever "
            "its room control does: insulate them (tail_insulation), or lead some another way. It can do "
            "without circuits of its own.",
            value=tails.heat,
            limit=room.heat_demand,
            source="EN 1264-2, characteristic of a floor with pipe at the pitch of the tails",
            quantity="tails_heat",
        )
    if tails.output > tails.limit:
        yield Finding.at(
            "tails_too_warm",
            "warning",
            room.pointer,
            f"Above the tails in {room.label} the floor gives about {tails.output:.0f} W/m2, more than its surface "
            "limit allows: insulate the flow tails or part them.",
            value=tails.output,
            limit=tails.limit,
            source="EN 1264-2, limit curve",
            quantity="heat_output",
        )
