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
from .room_frame import room_frame
from .settling import levelled_frame, settled

__all__ = ["Rings", "on_grid", "room_on_grid", "settled_rings"]

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
    frame = levelled_frame(room)
    corners = frame.local_points(shapely.get_coordinates(room.exterior))
    low = frame.outer_points(corners.min(axis=0)[None, :])[0].tolist()
    frame = replace(frame, origin=(low[0], low[1]))
    local = settled(shapely.transform(room, frame.local_points))
    return tuple(
        tuple((x, y) for x, y in frame.outer_points(shapely.get_coordinates(ring)[:-1]).tolist())
        for ring in (local.exterior, *local.interiors)
    )


def _snapped(rings: list[Array]) -> list[Array]:
    frame = room_frame(Polygon(rings[0], rings[1:]))
    corners = [frame.on_grid(ring, GRID) for ring in rings]
    x, y = stepped(np.array(frame.origin), GRID).tolist()
    return [replace(frame, origin=(x, y)).outer_points(ring) for ring in corners]
