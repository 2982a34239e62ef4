"""Lines of a lattice that fits a room's walls: pipe can run along any of them, one spacing apart.

Along an axis the lines pair up: between the two lines of a pair lie cells, and a pattern that goes round cells
has pipe on both of them. A leg of the room is therefore filled from wall to wall when its first wall lies at
the first line of a pair and the other one at the second line of a pair. Lines that come nearest to that for
all walls at once, with even gaps, are found by dynamic programming (Bellman 1957) over pairs of lines.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from ...elementwise import Array
from ..outlines.edges import Walls, walls_across

__all__ = [
    "LARGEST_STEP",
    "SMALLEST_STEP",
    "cheapest_lines",
    "lattice_lines",
]

SMALLEST_STEP = 0.8
"""Least distance between lines, in spacings."""
LARGEST_STEP = 1.25
GRID = 24
"""Positions of lines that are looked at, a spacing."""
_WIDER = 0.3
"""Cost of a gap wider than the spacing, by the excess and (below) its square, beside that of floor left bare."""
_STRETCH = 3.0
_SQUEEZE = 2.0
"""Cost of a narrower gap, by the square of what is missing: it takes more pipe, but heats all floor."""
_SLACK = 1e-9
"""Of positions that are equal but for rounding [m]."""

_Index = npt.NDArray[np.intp]


def lattice_lines(edges: Array, axis: int, pipe_spacing: float, grid: int = GRID) -> Array | None:
    """Positions of the lines square to an axis [m], in pairs; ``None`` when not one pair finds a place.

    Neighbours are ``SMALLEST_STEP`` to ``LARGEST_STEP`` spacings apart. Each wall lies on one of the positions looked
    at, about 1 / ``grid`` of a spacing apart.
    """
    walls = walls_across(edges, axis)
    ends = edges[:, [axis, 2 + axis]]
    places = _places(np.concatenate((walls.places, [ends.min(), ends.max()])), pipe_spacing / grid)
    if places[-1] - places[0] < SMALLEST_STEP * pipe_spacing - _SLACK:
        return None
    lines = cheapest_lines(places, _floor_before(places, edges, axis), walls, pipe_spacing)
    return None if lines is None else _evened(lines, walls)


def cheapest_lines(places: Array, floor: Array, walls: Walls, pipe_spacing: float) -> Array | None:
    """Of all ways to put lines in pairs at ``places`` [m], ``SMALLEST_STEP`` to ``LARGEST_STEP`` spacings apart, the
    cheapest.

    ``floor`` [m2] is the area before each place. What counts: gaps off the spacing, by the floor between;
    floor before the first and beyond the last line; walls that wait, by their length and the distance to the
    first line of a pair (near walls) or the second one (far walls) that can serve them, or to the other end
    where none can. ``None``: there is no way.
    """
    return _Search.of(places, floor, walls, pipe_spacing).best()


def _places(knots: Array, step: float) -> Array:
    """Positions about one step apart such that every knot is one of them."""
    knots = np.unique(np.round(knots, 9))
    stretches = [
        np.linspace(start, end, max(1, round((end - start) / step)), endpoint=False)
        for start, end in pairwise(knots.tolist())
    ]
    return np.concatenate((*stretches, knots[-1:]))


def _floor_before(places: Array, edges: Array, axis: int) -> Array:
    """Area of floor at smaller coordinates than each place [m2]."""
    start, end = edges[:, axis], edges[:, 2 + axis]
    slanted = start != end
    start, end = start[slanted], end[slanted]
    low, high = edges[slanted, 1 - axis], edges[slanted, 3 - axis]
    middles = (places[:-1] + places[1:])[:, None] / 2.0
    share = (middles - start) / (end - start)
    heights = np.where((share >= 0.0) & (share < 1.0), low + share * (high - low), 0.0)
    # The floor lies to the left of an edge: above one that runs to the right.
    extent = (heights * np.sign(start - end)).sum(axis=1) * (1.0 if axis == 0 else -1.0)
    return np.concatenate(([0.0], np.cumsum(np.maximum(extent, 0.0) * np.diff(places))))


@dataclass(frozen=True)
class _Search:
    """Best way to reach each pair of neighbouring lines.

    Row b, column k of a table stands for the line at place b whose line before is at place ``before[b, k]``.
    ``steps`` is the cost of that gap. ``near`` and ``far`` hold, for each place, the length of wall before it
    and that length times position, and last the same for all walls; near walls at the place itself count,
    far ones do not. All costs are whole numbers, so that equal ways are equal to the last bit.
    """

    places: Array
    floor: Array
    before: _Index
    steps: Array
    near: tuple[Array, Array]
    far: tuple[Array, Array]
    smallest_step: float

    @classmethod
    def of(cls, places: Array, floor: Array, walls: Walls, pipe_spacing: float) -> _Search:
        first = np.searchsorted(places, places - LARGEST_STEP * pipe_spacing - _SLACK)
        beyond = np.searchsorted(places, places - SMALLEST_STEP * pipe_spacing + _SLACK, side="right")
        columns = first[:, None] + np.arange(max(1, int((beyond - first).max())))
        before = np.minimum(columns, len(places) - 1)
        stretch = (places[:, None] - places[before]) / pipe_spacing - 1.0
        wide, narrow = np.maximum(stretch, 0.0), np.minimum(stretch, 0.0)
        penalty = _WIDER * wide + _STRETCH * wide**2 + _SQUEEZE * narrow**2
        steps = _whole(penalty * (floor[:, None] - floor[before]))
        return cls(
            places,
            floor,
            before,
            np.where(columns < beyond[:, None], steps, np.inf),
            _before(places, walls, walls.near, "right"),
            _before(places, walls, ~walls.near, "left"),
            SMALLEST_STEP * pipe_spacing,
        )

    def best(self) -> Array | None:
        """The cheapest lines, if there are any."""
        count, width = self.steps.shape
        # By parity of the line: 0 for the first of a pair. ``cheapest`` is the best of each row.
        costs = np.full((2, count, width), np.inf)
        costs[1] = self._opening()
        origins = np.full((2, count, width), -1, dtype=np.intp)
        cheapest, columns = np.full((2, count), np.inf), np.zeros((2, count), dtype=np.intp)
        start = 0
        while start < count:
            # Lines nearer to each other than the smallest step do not build on each other.
            reach = self.places[start] + self.smallest_step - 2.0 * _SLACK
            end = max(start + 1, int(np.searchsorted(self.places, reach)))
            block, rows = slice(start, end), self.before[start:end]
            if self._quiet(int(self.before[rows[0, 0], 0]), end - 1):
                origin, cost = columns[::-1, rows], cheapest[::-1, rows]
            else:
                ways = costs[::-1, rows] + self._waiting(
                    self.before[rows], np.arange(start, end)[:, None, None]
                )
                origin = ways.argmin(axis=3)
                cost = np.take_along_axis(ways, origin[..., None], axis=3)[..., 0]
            cost = cost + self.steps[block]
            better = cost < costs[:, block]
            costs[:, block] = np.where(better, cost, costs[:, block])
            origins[:, block] = np.where(better, origin, -1)
            columns[:, block] = costs[:, block].argmin(axis=2)
            cheapest[:, block] = costs[:, block].min(axis=2)
            start = end
        return self._traced(costs[1] + self._closing(), origins)

    def _quiet(self, first: int, last: int) -> bool:
        """Whether there is no wall between two places."""
        return all(sums[0][first] == sums[0][last] for sums in (self.near, self.far))

    def _opening(self) -> Array:
        """Cost of starting with a line and the one before it: floor and walls passed over."""
        lengths, moments = (sums[:-1] for sums in self.near)
        waited = self.places * lengths - moments + self.floor
        lengths, moments = (sums[:-1] for sums in self.far)
        missed = moments - self.places[0] * lengths
        return self.steps + _whole(waited[self.before] + missed[:, None])

    def _waiting(self, line: _Index, following: _Index) -> Array:
        """Length of walls that wait for pipe, between a line and the next but one, times how far it is off.

        For first lines of pairs it is the near walls that wait, for the others the far ones.
        """
        (near, near_moments), (far, far_moments) = self.near, self.far
        first = self.places[following] * (near[following] - near[line])
        first = first - (near_moments[following] - near_moments[line])
        second = far_moments[following] - far_moments[line] - self.places[line] * (far[following] - far[line])
        return _whole(np.stack((first, second)))

    def _closing(self) -> Array:
        """Cost of the floor and the walls beyond a last line."""
        lengths, moments = (sums[-1] - sums[:-1] for sums in self.far)
        beyond = moments - self.places * lengths + self.floor[-1] - self.floor
        lengths, moments = (sums[-1] - sums[:-1] for sums in self.near)
        missed = self.places[-1] * lengths - moments
        return _whole(beyond[:, None] + missed[self.before])

    def _traced(self, costs: Array, origins: _Index) -> Array | None:
        line, column = divmod(int(costs.argmin()), costs.shape[1])
        if not np.isfinite(costs[line, column]):
            return None
        parity, found = 1, [line]
        while True:
            origin = int(origins[parity, line, column])
            line, column, parity = int(self.before[line, column]), origin, 1 - parity
            found.append(line)
            if origin < 0:
                lines: Array = self.places[found[::-1]]
                return lines


def _whole(costs: Array) -> Array:
    """In square millimetres and thousandths of them."""
    rounded: Array = np.rint(costs * 1e9)
    return rounded


def _before(places: Array, walls: Walls, chosen: npt.NDArray[np.bool_], side: str) -> tuple[Array, Array]:
    """Total length of the chosen walls before each place, and of length times position; last, of all."""
    order = np.argsort(walls.places[chosen], kind="stable")
    at, lengths = walls.places[chosen][order], walls.lengths[chosen][order]
    count = np.searchsorted(at - _SLACK if side == "right" else at + _SLACK, np.append(places, np.inf))
    totals = np.concatenate(([0.0], np.cumsum(lengths)))
    moments = np.concatenate(([0.0], np.cumsum(lengths * at)))
    return totals[count], moments[count]


def _evened(lines: Array, walls: Walls) -> Array:
    """Lines between two that a wall holds in place are spread evenly."""
    index = np.arange(len(lines))
    held = (index == 0) | (index == len(lines) - 1)
    for parity, near in ((0, True), (1, False)):
        mine = lines[parity::2]
        places = walls.places[walls.near == near]
        if near:
            served = np.searchsorted(mine, places - _SLACK)
        else:
            served = np.searchsorted(mine, places + _SLACK, side="right") - 1
        served = served[(served >= 0) & (served < len(mine))]
        held[2 * served + parity] = True
    evened: Array = np.interp(index, index[held], lines[held])
    return evened
