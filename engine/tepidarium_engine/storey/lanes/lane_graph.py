"""Straight runs over free floor from which the way of a pair of pipes is put together.

Runs lie on tracks along the room's walls through the corners of the floor, and, on the slant, between points
that see each other. Everything is in a frame whose axes are the room's.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import pairwise
from typing import NamedTuple, TypeAlias

import numpy as np
import shapely
from shapely import Polygon

from ...checking import Point
from ...elementwise import Array
from .visibility import SIGHT_TOLERANCE, corners_of, sees

__all__ = ["LaneGraph", "Run", "lane_graph"]

_SAME = 2e-6
"""Tracks nearer to each other are one [m]."""
_HUGGED = 1e-4
"""So much farther than need be from the edge of the floor a run still keeps along it [m]."""
_BESIDE, _BESIDE_SHARE = 0.2, 0.8
"""Up to so much farther it is still beside it [m], which counts as so much of along it: a strip no field is laid in."""
_LEAST_WALL = 0.15
"""Shorter walls have no track of their own unless the floor bends round them [m]."""


class Run(NamedTuple):
    """A straight piece of way to node ``end``: ``length`` [m], of which ``hugging`` is along the wall;
    ``slant``: 0 along an axis, 1 halfway between two. Headings 0 to 3 are +x, +y, -x, -y."""

    end: int
    length: float
    hugging: float
    slant: float = 0.0


_Steps: TypeAlias = dict[tuple[int, int], tuple[float, float]]
"""Length [m] between neighbours on a track that are joined by floor, and how much of it is along the wall."""


@dataclass
class LaneGraph:
    """Nodes, the first ``wanted`` ones asked for; runs that leave each.

    The others lie where tracks cross: ``number`` has the node of each crossing, -1 where there is no floor, and
    ``steps`` join neighbours. ``crossings`` are those at which wanted nodes stand. Runs on the slant lie between
    ``corners``, numbers of nodes, where the ``sight`` allows it.
    """

    nodes: Array
    wanted: int
    number: list[list[int]]
    steps: _Steps
    crossings: dict[int, int]
    corners: Array
    sight: _Sight
    _found: dict[tuple[int, int], list[Run]] = field(default_factory=dict)
    _slanted: dict[int, list[Run]] = field(default_factory=dict)

    @cached_property
    def _places(self) -> dict[int, tuple[int, int]]:
        rows = enumerate(self.number)
        return {node: (row, column) for row, line in rows for column, node in enumerate(line) if node >= 0}

    @cached_property
    def _lines(self) -> tuple[list[list[int]], list[list[int]]]:
        """Nodes of the tracks along x, and of those along y."""
        return [list(line) for line in zip(*self.number, strict=True)], self.number

    def straight(self, node: int, heading: int) -> list[Run]:
        """Runs with a heading, found when a way first comes to the node: to all of its track as far as floor goes."""
        key = (node, heading)
        if key not in self._found:
            runs = self._runs(self.crossings.get(node, node), heading)
            ends = {run.end: run for run in runs}
            wanted = ((each, ends.get(crossing)) for each, crossing in self.crossings.items())
            self._found[key] = [*runs, *(run._replace(end=each) for each, run in wanted if run is not None)]
        return self._found[key]

    @cached_property
    def _slanting(self) -> frozenset[int]:
        return frozenset(self.corners.tolist())

    def slanted(self, node: int) -> list[Run]:
        """Runs on the slant, found when a way comes to the node: few of all corners are ever reached."""
        if node not in self._slanted:
            self._slanted[node] = self._slanted_from(node) if node in self._slanting else []
        return self._slanted[node]

    def _slanted_from(self, node: int) -> list[Run]:
        steps = self.nodes[self.corners] - self.nodes[node]
        ends = self.corners[np.abs(steps).min(axis=1) > 2.0 * _SAME]
        start = np.broadcast_to(self.nodes[node], (len(ends), 2))
        ends = ends[sees(self.sight.floor, start, self.nodes[ends])]
        start = start[: len(ends)]
        steps = self.nodes[ends] - start
        lengths = np.hypot(*steps.T)
        along = np.where(sees(self.sight.edge.near, start, self.nodes[ends]), lengths, 0.0)
        slants = 2.0 * np.abs(steps[:, 0] * steps[:, 1]) / lengths**2
        rows = zip(ends.tolist(), lengths.tolist(), along.tolist(), slants.tolist(), strict=True)
        return [Run(*row) for row in rows]

    def _runs(self, node: int, heading: int) -> list[Run]:
        place = self._places.get(node)
        if place is None:
            return []
        along, ahead = heading % 2, heading < 2
        line, at = self._lines[along][place[1 - along]], place[along]
        found: list[Run] = []
        length = hugging = 0.0
        for one, other in pairwise(line[at:] if ahead else line[at::-1]):
            step = self.steps.get((one, other) if ahead else (other, one))
            if step is None:
                break
            length += step[0]
            hugging += step[1]
            found.append(Run(other, length, hugging))
        return found if ahead else found[::-1]


class _Edge:
    """The edge of the floor that a way should keep to."""

    def __init__(self, hugged: shapely.Geometry, reach: float) -> None:
        self.near, self.beside = (
            shapely.buffer(hugged, reach + away, cap_style="square") for away in (_HUGGED, _BESIDE)
        )
        shapely.prepare(self.near)
        shapely.prepare(self.beside)

    def share(self, starts: Array, ends: Array) -> Array:
        """Of runs, row by row, that counts as along the edge."""
        beside = np.where(sees(self.beside, starts, ends), _BESIDE_SHARE, 0.0)
        share: Array = np.where(sees(self.near, starts, ends), 1.0, beside)
        return share


class _Sight(NamedTuple):
    """The floor, widened and prepared, and its edge."""

    floor: shapely.Geometry
    edge: _Edge


def lane_graph(floor: Polygon, wanted: Sequence[Point], hugged: shapely.Geometry, reach: float) -> LaneGraph:
    """Runs over the floor through its corners and the ``wanted`` points, which are the first nodes.

    What lies within ``reach`` [m] of ``hugged`` keeps along it.
    """
    wide = shapely.buffer(floor, 3.0 * SIGHT_TOLERANCE, join_style="mitre")
    shapely.prepare(wide)
    edge = _Edge(hugged, reach)
    tracks = [
        _tracks(np.concatenate((_track_corners(floor, axis), np.array([p[axis] for p in wanted]))))
        for axis in (0, 1)
    ]
    grid = np.stack(np.meshgrid(*tracks, indexing="ij"), axis=-1).reshape(-1, 2)
    kept = shapely.intersects_xy(wide, grid[:, 0], grid[:, 1])
    number = np.where(kept, np.cumsum(kept) - 1 + len(wanted), -1).reshape(len(tracks[0]), len(tracks[1]))
    nodes = np.concatenate((np.array(wanted).reshape(-1, 2), grid[kept]))
    steps: _Steps = {}
    for lines in (number, number.T):
        steps |= _steps(nodes, lines, wide, edge)
    crossings = _crossings(nodes[: len(wanted)], number, tracks)
    nodes, corners = _with_corners(nodes, floor, len(wanted))
    return LaneGraph(nodes, len(wanted), number.tolist(), steps, crossings, corners, _Sight(wide, edge))


def _track_corners(floor: Polygon, axis: int) -> Array:
    """Coordinates of what tracks go through: walls square to the axis, and corners round which ways bend."""
    found = [corners_of(floor)[:, axis]]
    for ring in (floor.exterior, *floor.interiors):
        points = shapely.get_coordinates(ring)
        steps = np.diff(points, axis=0)
        walls = (np.abs(steps[:, axis]) < 1e-5) & (np.abs(steps[:, 1 - axis]) > _LEAST_WALL)
        found.append(points[:-1][walls, axis])
    return np.concatenate(found)


def _tracks(values: Array) -> Array:
    ordered = np.sort(values)
    kept: Array = ordered[np.concatenate(([True], np.diff(ordered) > _SAME))]
    return kept


def _steps(nodes: Array, lines: Array, wide: shapely.Geometry, edge: _Edge) -> _Steps:
    """Between neighbours on tracks that are joined by floor."""
    first, second = lines[:, :-1].ravel(), lines[:, 1:].ravel()
    there = (first >= 0) & (second >= 0)
    first, second = first[there], second[there]
    if not len(first):
        return {}
    joined = sees(wide, nodes[first], nodes[second])
    first, second = first[joined], second[joined]
    starts, ends = nodes[first], nodes[second]
    lengths = np.hypot(*(ends - starts).T)
    along = lengths * edge.share(starts, ends)
    pairs = zip(first.tolist(), second.tolist(), strict=True)
    return dict(zip(pairs, zip(lengths.tolist(), along.tolist(), strict=True), strict=True))


def _crossings(wanted: Array, number: Array, tracks: Sequence[Array]) -> dict[int, int]:
    """The wanted nodes stand where two tracks cross: where there is floor, these nodes by theirs."""
    found = {}
    for index, place in enumerate(wanted):
        x, y = (
            int(np.abs(track - coordinate).argmin()) for track, coordinate in zip(tracks, place, strict=True)
        )
        if number[x, y] >= 0:
            found[index] = int(number[x, y])
    return found


def _with_corners(nodes: Array, floor: Polygon, wanted: int) -> tuple[Array, Array]:
    """The nodes with all corners of the floor, and the numbers of the corners and the wanted ones in order."""
    places = {(round(x, 5), round(y, 5)): i for i, (x, y) in reversed(list(enumerate(nodes.tolist())))}
    chosen = set(range(wanted))
    added: list[Point] = []
    for x, y in corners_of(floor, reflex_only=False).tolist():
        key = (round(x, 5), round(y, 5))
        if key not in places:
            places[key] = len(nodes) + len(added)
            added.append((x, y))
        chosen.add(places[key])
    return np.concatenate((nodes, np.array(added).reshape(-1, 2))), np.array(sorted(chosen))
