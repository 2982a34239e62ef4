"""All curves of bounded curvature for some cuts of a pipe, and the best of them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from operator import itemgetter

import numpy as np
import shapely

from ...elementwise import Array
from ..pipes.curve_table import CurveTable, Pose
from ..pipes.pipe_table import Index, Mask
from .bend_space import BendSpace
from .bend_track import Cut, Piece, Track, widest_step
from .corner_easing import COMFORTABLE_DISTANCE, LEAST_DISTANCE
from .other_pipe import Lines, OtherPipe

__all__ = ["GRAIN", "Curve", "Trial"]

GRAIN = 1e-5
"""Costs that differ by less are alike [m]: the first in order is taken."""
_HEADINGS = (0.0, 0.35, -0.35, 0.7, -0.7, 1.05, -1.05)
"""In which the pipe may come through the wall, off the square [rad]."""
_LONGER = (1.25, 1.2)
"""Greatest length of a curve: as a share of what it replaces, and bend radii on top."""
_CROWDING_COST = 2.0
"""Straying that a comfortable distance from other pipe is worth, per distance."""
_SHORTER_COST = 0.3
"""Straying that pipe is worth which a curve is shorter than what it replaces, per length: floor without pipe."""
_TAILS = 0.97
"""Least distance between the tails near the entry, as a share of their pitch there."""
_SHARES = (4, 12, 28, 60, 124, 252, 508)
"""Of the curves, the most hopeful first, so many are looked at together, then more."""


@dataclass(frozen=True)
class Curve:
    """``pieces`` from ``start`` to ``end`` [m along the pipe]; ``cost`` is what they stray [m], and more where
    they crowd other pipe or are shorter than what they replace."""

    start: float
    end: float
    pieces: tuple[Piece, ...]
    cost: float


class Trial:
    """All curves for some cuts of the pipe, ``most`` of them at most: ``table``, and in which ``cut`` each is.

    For all of them at once, as one question about many curves takes hardly longer than about one.
    """

    def __init__(self, track: Track, space: BendSpace, cuts: Sequence[Cut], most: int) -> None:
        self._track, self._space, self._cuts = track, space, cuts
        self._ends = np.array(cuts)
        from_end = np.minimum(self._ends[:, 0], track.length - self._ends[:, 1])
        self._near_end = from_end < space.doorway
        field = space.field
        fan = field.wall_clearance + field.pipe_spacing + 2.0 * field.bend_radius
        least = LEAST_DISTANCE * field.pipe_spacing
        # The tails may be as near to each other as they come in.
        self._least = np.where(from_end < fan, min(least, _TAILS * field.tail_pitch), least)
        poses: list[Pose] = []
        numbers: dict[float, range] = {}
        for at in dict.fromkeys(at for cut in cuts for at in cut):
            new = self._poses(at)
            numbers[at] = range(len(poses), len(poses) + len(new))
            poses.extend(new)
        pairs = [
            (index, *pair)
            for index, (start, end) in enumerate(cuts)
            for pair in product(numbers[start], numbers[end])
        ]
        cut, first, last = np.array(pairs).T
        (share, extra), radius = _LONGER, field.bend_radius
        longest = share * (self._ends[:, 1] - self._ends[:, 0]) + extra * radius
        table = CurveTable.between(poses, (first, last), radius, longest[cut])
        self.table = table.of(np.arange(most)) if most < len(table) else table
        self.cut = cut[self.table.pair]

    def _poses(self, at: float) -> list[Pose]:
        """As the pipe runs there; at its very end it may come through the wall as it likes."""
        pose = self._track.pose(at)
        if 0.0 < at < self._track.length:
            return [pose]
        x, y = self._space.field.entry.inward
        square = math.atan2(y, x) if at == 0.0 else math.atan2(-y, -x)
        return [pose, *(Pose(pose.place, square + off) for off in _HEADINGS)]

    def best(self, limit: float) -> Curve | None:
        """The curve of least cost that keeps clear, if that is less than the limit [m].

        Cost is never less than straying, nor that than what some points stray: those come first of which these
        stray least, and where they do by more than the best costs, no more are looked at.
        """
        other, probes = self._other_pipe(), shapely.points(self.table.probes())
        rows = np.flatnonzero(self._is_hopeful(probes, other))
        strays = self._least_strays(probes[rows])
        order = np.argsort(strays, kind="stable")
        sound: dict[int, Curve] = {}
        for share in np.split(order, _SHARES):
            hopeful = rows[share[strays[share] < limit]]
            if not len(hopeful):
                break
            for cost, row, chain in sorted(self._costs(hopeful, limit, other), key=itemgetter(0, 1)):
                start, end = self._cuts[self.cut[row]]
                if cost < limit and not other.is_crossed(chain, (start, end)):
                    sound[row] = Curve(start, end, self.table.pieces(row), cost)
                    limit = min(limit, cost + GRAIN)
        least = min((curve.cost for curve in sound.values()), default=math.inf)
        return next((sound[row] for row in sorted(sound) if sound[row].cost <= least + GRAIN), None)

    def _other_pipe(self) -> OtherPipe:
        """What the curves may come near to: no point of an arc is further than two radii from its end."""
        spacing, joints = self._space.field.pipe_spacing, self.table.joints.reshape(-1, 2)
        reach = 2.0 * self.table.radius + COMFORTABLE_DISTANCE * spacing
        low, high = joints.min(axis=0) - reach, joints.max(axis=0) + reach
        return OtherPipe(self._track, self._cuts, spacing, low, high)

    def _is_hopeful(self, probes: Lines, other: OtherPipe) -> Mask:
        """By a quick look at some points: on the floor, if no doorway excuses it, and off other pipe."""
        on_floor = shapely.intersects(self._space.tolerated, probes) | self._near_end[self.cut][:, None]
        off_pipe = ~other.is_near(probes, self._least[self.cut][:, None])
        hopeful: Mask = (on_floor & off_pipe).all(axis=1)
        return hopeful

    def _least_strays(self, probes: Lines) -> Array:
        """How far points of curves leave what was there between the furthest cuts [m]."""
        old = shapely.linestrings(self._track.stretch(self._ends[:, 0].min(), self._ends[:, 1].max())[1])
        strays: Array = shapely.distance(probes, old).max(axis=1, initial=0.0)
        return strays

    def _costs(self, rows: Index, limit: float, other: OtherPipe) -> Iterator[tuple[float, int, Array]]:
        """Of the curves of these rows that keep clear and cost less than the limit [m], with their vertices."""
        chains = _Chains.of_table(self.table.of(rows))
        least = self._least[self.cut[rows]]
        sound = ~other.is_near(chains.lines, least)
        sound[sound] = self._held(rows[sound], chains.of(sound))
        if not sound.any():
            return
        rows, chains = rows[sound], chains.of(sound)
        distances = other.distances(chains.lines, [self._cuts[cut] for cut in self.cut[rows].tolist()])
        spacing = self._space.field.pipe_spacing
        cost = _CROWDING_COST * np.maximum(0.0, COMFORTABLE_DISTANCE * spacing - distances)
        replaced = (self._ends[:, 1] - self._ends[:, 0])[self.cut[rows]]
        cost += _SHORTER_COST * np.maximum(0.0, replaced - self.table.total[rows])
        better = np.flatnonzero((distances >= least[sound]) & (cost < limit))
        cost[better] += self._strays(rows[better], chains.lines[better])
        for index in better[cost[better] < limit].tolist():
            yield float(cost[index]), int(rows[index]), chains.points[index]

    def _strays(self, rows: Index, lines: Lines) -> Array:
        """How far each curve leaves what was there [m]."""
        cut = self.cut[rows].tolist()
        old = {one: shapely.linestrings(self._track.stretch(*self._cuts[one])[1]) for one in set(cut)}
        strays: Array = shapely.hausdorff_distance(lines, [old[one] for one in cut])
        return strays

    def _held(self, rows: Index, chains: _Chains) -> Mask:
        """Which curves keep the clearance."""
        near_end = self._near_end[self.cut[rows]]
        held = np.zeros(len(rows), dtype=bool)
        held[~near_end] = self._space.holds(chains.lines[~near_end])
        for index in np.flatnonzero(near_end).tolist():
            start, end = self._cuts[self.cut[rows[index]]]
            along = chains.along[index]
            total = self._track.length + along[-1] - (end - start)
            held[index] = self._space.holds_at(chains.points[index], start + along, total)
        return held


@dataclass(frozen=True, slots=True)
class _Chains:
    """Curves as chains of chords: of each the points [m], how far along it they are [m], and the line."""

    points: list[Array]
    along: list[Array]
    lines: Lines

    @classmethod
    def of_table(cls, table: CurveTable) -> _Chains:
        vertices = table.vertices(widest_step(table.radius))
        breaks = np.searchsorted(vertices.row, np.arange(1, len(table)))
        lines = shapely.linestrings(vertices.points, indices=vertices.row)
        return cls(np.split(vertices.points, breaks), np.split(vertices.along, breaks), lines)

    def of(self, some: Mask) -> _Chains:
        """Some of them."""
        numbers = np.flatnonzero(some).tolist()
        return _Chains([self.points[i] for i in numbers], [self.along[i] for i in numbers], self.lines[some])
