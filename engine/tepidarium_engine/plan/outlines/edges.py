"""Edges of floor as rows of numbers, and the walls among them that stand square to an axis."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import shapely
from shapely import Polygon

from ...elementwise import Array
from .regions import Region, parts_of

__all__ = ["Walls", "edges_of", "is_square", "walls_across"]

_WALL_SLOPE = 0.035
"""A wall stands square to an axis when it strays by no more than this share of its length (2 degrees)."""
_SHARE_SQUARE = 0.85


@dataclass(frozen=True)
class Walls:
    """Walls square to an axis, by their ``places`` along it and their ``lengths`` [m].

    ``near`` walls have the floor on the side of the greater coordinates, the others on the other side.
    """

    places: Array
    lengths: Array
    near: npt.NDArray[np.bool_]


def edges_of(region: Region) -> Array:
    """Edges of all outlines as rows (x0, y0, x1, y1) [m]; the floor lies to their left."""
    rows = []
    for part in parts_of(region):
        turned: Polygon = shapely.orient_polygons(part)
        for ring in (turned.exterior, *turned.interiors):
            points = shapely.get_coordinates(ring)
            rows.append(np.hstack((points[:-1], points[1:])))
    return np.concatenate(rows)


def walls_across(edges: Array, axis: int) -> Walls:
    """The walls square to the x axis (0) or the y axis (1), each at its place furthest into the room."""
    start, end = edges[:, axis], edges[:, 2 + axis]
    across = edges[:, 3 - axis] - edges[:, 1 - axis]
    square = np.abs(end - start) <= _WALL_SLOPE * np.abs(across)
    near = (across < 0.0) == (axis == 0)
    places = np.where(near, np.maximum(start, end), np.minimum(start, end))
    return Walls(places[square], np.abs(across[square]), near[square])


def is_square(room: Polygon) -> bool:
    """Whether at least 85 % of the walls' length, voids included, lies along the room's own axes."""
    edges = edges_of(room)
    steps = np.abs(edges[:, 2:] - edges[:, :2])
    lengths = np.hypot(steps[:, 0], steps[:, 1])
    along = steps.min(axis=1) <= _WALL_SLOPE * lengths
    return float(lengths[along].sum()) >= _SHARE_SQUARE * float(lengths.sum())
