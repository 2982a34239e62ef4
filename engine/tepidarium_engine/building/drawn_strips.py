"""Whether the pipe that is drawn lies closer along the walls of a strip."""

from __future__ import annotations

from collections.abc import Iterator

import shapely
from shapely import LineString

from ..errors import required
from ..plan.outlines.overlays import intersection, union
from ..results import Finding
from ..storey.judging.room_bare import line_of
from .drawn_house import DrawnHouse
from .drawn_storey import DrawnStorey
from .house import House
from .room_strips import drawn_strip

__all__ = ["strips_not_closer"]

_CLOSER = 0.25
"""Share of the further pipe that a strip must have at least: at its ends rings cross it, at the spacing of the room."""


def strips_not_closer(house: House, storey: DrawnStorey, drawn: DrawnHouse) -> Iterator[Finding]:
    """Walls beside which there is hardly more pipe than elsewhere in the room."""
    for place, room in enumerate(storey.site.rooms):
        choice = drawn.divided[room.index].point.choice
        if choice.strip is None:
            continue
        floor = storey.site.plan.rooms[place]
        pipe = union([line_of(one) for one in storey.circuits if one.room == place])
        strip = drawn_strip(room.room, required(room.outline, "the outline of a room that is drawn"))
        wanted = _CLOSER / choice.strip.pipe_spacing + (1.0 - _CLOSER) / choice.pipe_spacing
        edges = required(room.room.peripheral, "the strip of a room that has one").edges
        numbers = sorted(range(len(edges)), key=edges.__getitem__)
        for number, wall in zip(numbers, strip.walls, strict=True):
            band = intersection(floor, _beside(wall, strip.width))
            if band.area > 0.0 and intersection(pipe, band).length / band.area < wanted:
                asked = house.inputs.rooms[room.index].peripheral is not None
                yield Finding.at(
                    "strip_not_closer",
                    f"{room.pointer}/peripheral/edges/{number}" if asked else room.pointer,
                    subject=f"{room.label}, wall {edges[number] + 1}",
                    source="Geometry",
                )


def _beside(wall: LineString, width: float) -> shapely.Geometry:
    """All within ``width`` [m] square to a wall."""
    return shapely.buffer(wall, width, cap_style="flat")
