"""How much floor each tail has for itself on its way through a room: up to walls, to the floor that the room's own
circuits heat, and half the way to other pipe."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt
import shapely
from shapely import LineString, Polygon

from ..elementwise import Array
from ..plan.outlines.overlays import intersection
from ..thermal.single_pipes import FAR

__all__ = ["FreeFloor", "places"]

_STEP = 0.1
"""Between places along a tail that are looked at [m]."""
_BESIDE = 0.01
"""Nearer than this a line is the tail itself [m]."""
_ALIGNED = 1e-12
"""Below this chord times sine of the angle a chord lies along the ray [m]."""


class FreeFloor:
    """A ``room`` with all ``pipes`` in it, as lines of straight chords, and the ``own`` floor that its circuits heat,
    where heat counts as theirs."""

    def __init__(self, room: Polygon, pipes: Sequence[LineString], own: Sequence[Polygon] = ()) -> None:
        inside = shapely.get_parts(intersection(np.array(pipes, dtype=np.object_), room))
        self._walls = _Chords([ring for floor in (room, *own) for ring in (floor.exterior, *floor.interiors)])
        self._pipes = _Chords([part for part in inside if part.length > 0.0])

    def beside(self, stretches: Sequence[LineString]) -> Array:
        """Free floor [m] on the left and on the right at places evenly along the ``stretches`` of pipes, ``places`` of
        them on each, one place a row; at most ``FAR``."""
        at, ahead = _places(stretches)
        across = np.stack((-ahead[:, 1], ahead[:, 0]), axis=1)
        sides = [
            np.minimum(self._walls.distance(at, way), self._pipes.distance(at, way) / 2.0)
            for way in (across, -across)
        ]
        return np.stack(sides, axis=1)


def places(stretch: LineString) -> int:
    """At how many places along a stretch its free floor is looked for."""
    return max(1, round(float(stretch.length) / _STEP))


def _places(stretches: Sequence[LineString]) -> tuple[Array, Array]:
    """Places [m] and directions, each in the middle of an equal share of its stretch."""
    counts = [places(stretch) for stretch in stretches]
    lines = np.repeat(np.array(stretches, dtype=np.object_), counts)
    count = np.repeat(counts, counts)
    at = (np.concatenate([np.arange(each) for each in counts]) + 0.5) / count
    first, last = (
        shapely.get_coordinates(shapely.line_interpolate_point(lines, at + move / count, normalized=True))
        for move in (-0.25, 0.25)
    )
    way = last - first
    return (first + last) / 2.0, way / np.hypot(way[:, 0], way[:, 1])[:, None]


class _Chords:
    """All straight pieces of some lines."""

    def __init__(self, lines: Sequence[shapely.Geometry]) -> None:
        corners = [shapely.get_coordinates(line) for line in lines]
        self._ends = np.concatenate([np.stack((line[:-1], line[1:]), axis=1) for line in corners])
        self._tree = shapely.STRtree(shapely.linestrings(self._ends))

    def distance(self, places: Array, ways: Array) -> Array:
        """From each place in its direction to the first of the chords [m], 2 FAR where there is none so near."""
        start, end = places + _BESIDE * ways, places + 2.0 * FAR * ways
        rays: npt.NDArray[np.object_] = shapely.linestrings(np.stack((start, end), axis=1))
        ray, chord = self._tree.query(rays, predicate="intersects")
        (ax, ay), (bx, by) = self._ends[chord].transpose(1, 2, 0)
        (ux, uy), (x, y) = ways[ray].T, places[ray].T
        turn = ux * (by - ay) - uy * (bx - ax)
        slanted = np.abs(turn) > _ALIGNED
        # Of a chord along the ray the nearer end counts.
        along = np.where(
            slanted,
            ((ax - x) * (by - ay) - (ay - y) * (bx - ax)) / np.where(slanted, turn, 1.0),
            np.minimum((ax - x) * ux + (ay - y) * uy, (bx - x) * ux + (by - y) * uy),
        )
        nearest = np.full(len(places), 2.0 * FAR)
        np.minimum.at(nearest, ray, np.maximum(along, _BESIDE))
        return nearest
