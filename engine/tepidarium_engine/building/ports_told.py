"""Manifolds whose ports are not drawn where they were asked for."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import shapely
from shapely import LineString

from ..checking import Point
from ..results import Finding
from ..storey.manifold.position_findings import moved_to_wall
from ..storey.model.layout_records import StoreyCircuit
from ..storey.model.tail_records import ManifoldPlace
from .drawn_house import DrawnHouse
from .drawn_storey import DrawnStorey
from .house import House

__all__ = ["ports_told"]

_ON_WALL = 1e-3
"""A place on a wall that is nearer to a doorway stands in it [m]."""
_WORTH_TELLING = 0.05
"""From the place of a manifold to the middle of its ports [m]."""


def ports_told(house: House, drawn: DrawnHouse, storey: DrawnStorey) -> Iterator[Finding]:
    """Those that were given away from a wall, that would stand in a doorway, or whose ports stand aside."""
    for number, place in zip(storey.site.numbers, storey.site.manifolds, strict=True):
        where = f"{house.inputs.manifold_pointer(number)}/position"
        name = f"manifold {house.manifolds[number].id}"
        position = house.manifolds[number].position
        if position is not None:
            yield from moved_to_wall(name, position, place.place, where)
        middle = _middle(drawn, storey, number)
        if _in_doorway(storey, place):
            yield Finding.at(
                "manifold_in_doorway",
                where,
                subject=name,
                source="Geometry",
                point=place.place,
            )
        elif middle is not None and math.dist(middle, place.place) > _WORTH_TELLING:
            away = math.dist(middle, place.place)
            yield Finding.at(
                "ports_moved",
                where,
                detail=f"Middle of the ports at [{middle[0]:.2f}, {middle[1]:.2f}] m: {_reason(storey, place, away)}",
                subject=name,
                value=away,
                source="Geometry",
                point=middle,
                quantity="ports_shift",
            )


def _in_doorway(storey: DrawnStorey, place: ManifoldPlace) -> bool:
    return any(
        room == place.room and shapely.dwithin(LineString(stretch), shapely.Point(place.place), _ON_WALL)
        for doorway in storey.site.plan.doorways
        for room, stretch in zip(doorway.rooms, doorway.stretches, strict=True)
    )


def _middle(drawn: DrawnHouse, storey: DrawnStorey, number: int) -> Point | None:
    """Of the ports of a manifold; ``None`` where not all of its circuits are drawn."""
    rooms = [drawn.divided[room.index] for room in storey.site.rooms]
    names = {
        circuit
        for room in rooms
        for circuit, on in zip(room.circuit_ids, room.manifolds, strict=True)
        if on == number
    }
    circuits = [one for one in storey.circuits if storey.site.numbers[one.manifold] == number]
    if not circuits or {one.id for one in circuits} != names:
        return None
    ends = _ends(circuits)
    return (math.fsum(x for x, _ in ends) / len(ends), math.fsum(y for _, y in ends) / len(ends))


def _ends(circuits: Sequence[StoreyCircuit]) -> list[Point]:
    return [
        end for circuit in circuits for end in (circuit.path.pieces[0].start, circuit.path.pieces[-1].end)
    ]


def _reason(storey: DrawnStorey, place: ManifoldPlace, away: float) -> str:
    at = shapely.Point(place.place)
    if any(shapely.dwithin(LineString(joint), at, away) for joint in storey.site.rooms[place.room].joints):
        return "a movement joint ends at the wall there, and pipes begin on one side of it"
    return "a corner or a doorway is too near for all pipes side by side"
