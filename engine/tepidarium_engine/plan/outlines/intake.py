"""Rooms as they are computed: right after the checks their corners are put on a grid of the room's own frame.

Walls that are meant to be level, square or as long as each other then are so exactly, whatever the unit in which the
room was measured, its place, and its direction in the drawing. The room as a whole lies on the grid of the drawing, so
that rooms that share a wall still do. No corner moves by more than 0.15 mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import shapely
from shapely import Polygon

from ...elementwise import Array
from ...places import Point
from ..tolerances import BLUR, GRID, stepped
from .polygons import RoomOutline, sound_outline
from .room_frame import RoomFrame, room_frame
from .settling import common_frame, levelled_frame, settled

__all__ = ["Rings", "on_grid", "room_on_grid", "settled_rings", "settled_rooms"]

Rings = tuple[tuple[tuple[float, float], ...], ...]
"""Corners [m] of rings, each counted as the caller does."""

_ROUNDS = 3
"""A corner that moves may turn the wall that the frame goes by, and so once more at most."""


def room_on_grid(outline: Sequence[Point], voids: Sequence[Sequence[Point]]) -> RoomOutline:
    """The room of rings that ``room_outline`` accepts [m], on the grid."""
    shell, *inner = on_grid(outline, voids)
    return sound_outline(shell, inner)


def on_grid(outline: Sequence[Point], voids: Sequence[Sequence[Point]]) -> Rings:
    """Outline and voids [m] on the grid, corner by corner, of rings that ``room_outline`` accepts; they lie near the
    origin."""
    rings = [np.array(ring, dtype=np.float64) for ring in (outline, *voids)]
    for _ in range(_ROUNDS):
        before, rings = rings, _snapped(rings)
        if all(abs(now - then).max() < BLUR for now, then in zip(rings, before, strict=True)):
            break
    return tuple(tuple((x, y) for x, y in ring.tolist()) for ring in rings)


def settled_rings(outline: Sequence[Point], voids: Sequence[Sequence[Point]]) -> Rings:
    """Outline and voids [m] on the grid, corner by corner, with walls that are meant to be level or upright on lines of
    whole millimetres: drawings that differ by less give one room, which then is divided and laid alike."""
    shell, *inner = on_grid(outline, voids)
    room = Polygon(shell, inner)
    return _settled_in(levelled_frame(room), [room])[0]


def settled_rooms(rooms: Sequence[tuple[Sequence[Point], Sequence[Sequence[Point]]]]) -> list[RoomOutline]:
    """The rooms of a storey from outlines and voids [m]: those that lie square to each other are settled in one frame,
    so that walls of rooms side by side are parallel, each of the others in its own."""
    if not rooms:
        return []
    floors = [Polygon(shell, inner) for shell, *inner in (on_grid(*rings) for rings in rooms)]
    frame, square = common_frame(floors)
    together = dict(zip(square, _settled_in(frame, [floors[number] for number in square]), strict=True))
    found = (together.get(number) or settled_rings(*rings) for number, rings in enumerate(rooms))
    return [sound_outline(shell, inner) for shell, *inner in found]


def _settled_in(frame: RoomFrame, rooms: Sequence[Polygon]) -> list[Rings]:
    """Rings of rooms [m] that are settled in a frame, on lines counted from their lowest corner."""
    corners = frame.local_points(shapely.get_coordinates(rooms))
    low = frame.outer_points(corners.min(axis=0)[None, :])[0].tolist()
    frame = replace(frame, origin=(low[0], low[1]))
    local = (settled(shapely.transform(room, frame.local_points)) for room in rooms)
    return [
        tuple(
            tuple((x, y) for x, y in frame.outer_points(shapely.get_coordinates(ring)[:-1]).tolist())
            for ring in (room.exterior, *room.interiors)
        )
        for room in local
    ]


def _snapped(rings: list[Array]) -> list[Array]:
    frame = room_frame(Polygon(rings[0], rings[1:]))
    corners = [frame.on_grid(ring, GRID) for ring in rings]
    x, y = stepped(np.array(frame.origin), GRID).tolist()
    return [replace(frame, origin=(x, y)).outer_points(ring) for ring in corners]
