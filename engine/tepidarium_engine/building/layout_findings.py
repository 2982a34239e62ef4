"""What should be looked at in the drawing of a storey, and how warm its tails make the floors they cross."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..results import Finding
from ..thermal.characteristic import mean_excess_temperature
from .drawn_house import DrawnHouse, DrawnStorey
from .house import House

__all__ = ["layout_findings"]

_CLOSEST = 0.05
"""Least spacing of the method [m]; tails lie closer at times, and the floor above them is hardly warmer."""


def layout_findings(house: House, drawn: DrawnHouse, supply: float) -> Iterator[Finding]:
    """Circuits that are not drawn, rooms without an outline, a search that did not settle, warm tails."""
    for storey in drawn.storeys:
        yield from _not_drawn(house, storey)
    if not drawn.settled:
        yield Finding(
            "drawing_not_settled",
            "warning",
            "/limits",
            "After the last round a circuit is still longer than permitted or loses too much pressure; see the "
            "circuits. More circuits, a wider pipe or a second manifold would help.",
        )
    for storey in drawn.storeys:
        yield from _warm_tails(house, drawn, storey, supply)


def _not_drawn(house: House, storey: DrawnStorey) -> Iterator[Finding]:
    for one in storey.layout.unplaced:
        room = storey.site.rooms[one.room]
        yield Finding(
            f"not_drawn_{one.code}",
            "violation",
            room.pointer,
            f"Circuit {one.id} could not be drawn, its length is estimated. {one.message}",
            source="Geometry",
            place=one.place,
        )
    for room in house.rooms:
        if room.outline is None and house.storey_of[room.index] == storey.site.number:
            yield Finding(
                "not_drawn_no_outline",
                "note",
                f"{room.pointer}/outline",
                f"{room.label} has no outline: it is not drawn, and its circuits come after the drawn ones on the "
                "manifold.",
            )


def _warm_tails(house: House, drawn: DrawnHouse, storey: DrawnStorey, supply: float) -> Iterator[Finding]:
    """Heat from tails in the rooms they cross, as from a floor with pipe at their pitch."""
    for index, room in enumerate(storey.site.rooms):
        area = math.fsum(lane.floor.area for lane in storey.layout.tails.lanes if lane.room == index)
        if area < 0.05:
            continue
        spacing = max(house.inputs.limits.tail_pitch, _CLOSEST)
        choice = room.choice(spacing)
        room_temperature = room.room.room_temperature
        back = max(drawn.water.whole.return_temperature, room_temperature)
        output = choice.heat_transmittance * float(mean_excess_temperature(supply, back, room_temperature))
        heat = output * area
        yield Finding(
            "tails_heat",
            "note",
            room.pointer,
            f"Tails to other rooms cover {area:.1f} m2 of {room.label} and give it about {heat:.0f} W of the "
            f"{room.heat_demand:.0f} W it needs; insulate them where that is too much.",
            heat,
            room.heat_demand,
            "EN 1264-2, characteristic of a floor with pipe at the pitch of the tails",
        )
        if output > choice.limit_heat_output:
            yield Finding(
                "tails_too_warm",
                "warning",
                room.pointer,
                f"Above the tails in {room.label} the floor gives about {output:.0f} W/m2, more than its surface "
                "limit allows: insulate the flow tails or part them.",
                output,
                choice.limit_heat_output,
                "EN 1264-2, limit curve",
            )
