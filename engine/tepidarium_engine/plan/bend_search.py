"""The curve of bounded curvature that serves a place best."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely

from ..elementwise import Array
from .bend_space import BendSpace
from .bend_track import Piece, Spot, Track, chords_of
from .corner_easing import COMFORTABLE_DISTANCE, LEAST_DISTANCE
from .dubins import Pose, curves_within

__all__ = ["Curve", "Search"]

_HEADINGS = (0.0, 0.35, -0.35, 0.7, -0.7, 1.05, -1.05)
"""In which the pipe may come through the wall, off the square [rad]."""
_LONGER = (1.25, 1.2)
"""Greatest length of a curve: as a share of what it replaces, and bend radii on top."""
_FURTHER_ALONG = 0.9
"""What is further along the pipe is other pipe, in spacings."""
_CROWDING_COST = 2.0
"""Straying that a comfortable distance from other pipe is worth, per distance."""
_TAILS = 0.97
"""Least distance between the tails near the entry, as a share of their pitch there."""
_STEPS = ((1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, -1), (1, -1), (-1, 1))
_GRAIN = 1e-5
"""Costs that differ by less are alike [m]: the first in order is taken."""


@dataclass(frozen=True)
class Curve:
    """``pieces`` from ``start`` to ``end`` [m along the pipe]; ``cost`` is what they stray [m], and more where
    they crowd other pipe."""

    start: float
    end: float
    pieces: tuple[Piece, ...]
    cost: float


class Search:
    """Curves for one place of the pipe, the best so far among them."""

    def __init__(self, track: Track, spot: Spot, space: BendSpace) -> None:
        self._track, self._spot, self._space = track, spot, space
        self._tried: set[tuple[float, float]] = set()
        self._best: Curve | None = None

    def best(self, reaches: Sequence[float]) -> Curve | None:
        """The best of even cuts, bettered step by step; if no even cut will do, the best of all."""
        count = range(len(reaches))
        at = self._pick(reaches, [(i, i) for i in count])
        if at is None:
            at = self._pick(reaches, [(i, j) for i in count for j in count])
        while at is not None:
            i, j = at
            at = self._pick(reaches, [(i + a, j + b) for a, b in _STEPS])
        return self._best

    def _pick(self, reaches: Sequence[float], cuts: Sequence[tuple[int, int]]) -> tuple[int, int] | None:
        """The last of the cuts that is better than all before; ``None`` if none is."""
        found = None
        for i, j in cuts:
            inside = 0 <= i < len(reaches) and 0 <= j < len(reaches)
            if inside and self.tried(reaches[i], reaches[j]) is not None:
                found = i, j
        return found

    def tried(self, before: float, behind: float) -> Curve | None:
        """The curve for a cut so many bend radii before and behind the place, if it is the best so far."""
        radius = self._space.field.bend_radius
        start = max(0.0, self._spot.start - before * radius)
        end = min(self._track.length, self._spot.end + behind * radius)
        if (start, end) in self._tried:
            return None
        self._tried.add((start, end))
        better = self._better(start, end)
        self._best = better or self._best
        return better

    def _better(self, start: float, end: float) -> Curve | None:
        """A curve better than the best so far."""
        held = self._held(start, end)
        if not held:
            return None
        spacing = self._space.field.pipe_spacing
        cut = _Cut(self._track, start, end, spacing)
        best, limit = None, math.inf if self._best is None else self._best.cost
        for pieces, points in held:
            strays = float(shapely.hausdorff_distance(shapely.linestrings(points), cut.old))
            if strays >= limit - _GRAIN:
                continue
            distance = cut.other_distance(points)
            cost = strays + _CROWDING_COST * max(0.0, COMFORTABLE_DISTANCE * spacing - distance)
            if distance >= self._least(start, end) and cost < limit - _GRAIN:
                best, limit = Curve(start, end, pieces, cost), cost
        return best

    def _held(self, start: float, end: float) -> list[tuple[tuple[Piece, ...], Array]]:
        """Curves that are not too long and keep clear of the walls, and their points."""
        track, radius = self._track, self._space.field.bend_radius
        share, extra = _LONGER
        longest = share * (end - start) + extra * radius
        held = []
        for pose in self._poses(start, 0.0):
            for goal in self._poses(end, track.length):
                for pieces in curves_within(pose, goal, radius, longest):
                    along, points = chords_of(pieces)
                    total = track.length + along[-1] - (end - start)
                    if self._space.holds_at(points, start + along, total):
                        held.append((pieces, points))
        return held

    def _poses(self, at: float, pipe_end: float) -> list[Pose]:
        """As the pipe runs there; at its very end it may come through the wall as it likes."""
        pose = self._track.pose(at)
        if at != pipe_end:
            return [pose]
        x, y = self._space.field.entry.inward
        square = math.atan2(y, x) if at == 0.0 else math.atan2(-y, -x)
        return [pose, *(Pose(pose.place, square + off) for off in _HEADINGS)]

    def _least(self, start: float, end: float) -> float:
        """Distance from other pipe [m]; the tails may be as near to each other as they come in."""
        field = self._space.field
        least = LEAST_DISTANCE * field.pipe_spacing
        fan = field.wall_clearance + field.pipe_spacing + 2.0 * field.bend_radius
        near_end = start < fan or end > self._track.length - fan
        return min(least, _TAILS * field.tail_pitch) if near_end else least


class _Cut:
    """The pipe without what lies between two places."""

    def __init__(self, track: Track, start: float, end: float, pipe_spacing: float) -> None:
        self._track, self._start, self._end, self._spacing = track, start, end, pipe_spacing
        self._low, self._high = start - _FURTHER_ALONG * pipe_spacing, end + _FURTHER_ALONG * pipe_spacing

    @cached_property
    def old(self) -> shapely.LineString:
        return shapely.linestrings(self._track.stretch(self._start, self._end)[1])

    @cached_property
    def _into(self) -> Array:
        return self._track.stretch(max(0.0, self._low), self._start)[1][:-1]

    @cached_property
    def _out(self) -> Array:
        return self._track.stretch(self._end, min(self._track.length, self._high))[1][1:]

    @cached_property
    def _others(self) -> Array:
        """Chords of other pipe, two points a row."""
        track = self._track
        from_, to, first, last = track.points[:-1], track.points[1:], track.at[:-1], track.at[1:]
        clear = (last <= self._low) | (first >= self._high)
        chords = [np.stack((from_[clear], to[clear]), axis=1)]
        for cut, ends in ((self._low, from_), (self._high, to)):
            for index in np.flatnonzero((first < cut) & (last > cut)).tolist():
                chords.append(np.array([[track.pose(cut).place, tuple(ends[index].tolist())]]))
        return np.concatenate(chords)

    def other_distance(self, points: Array) -> float:
        """From a curve in the gap to other pipe [m]; 0 when the pipe would cross itself."""
        local = np.concatenate((self._into, points, self._out))
        if not shapely.is_simple(shapely.linestrings(local)):
            return 0.0
        corner, opposite = points.min(axis=0) - self._spacing, points.max(axis=0) + self._spacing
        near = ((self._others.max(axis=1) >= corner) & (self._others.min(axis=1) <= opposite)).all(axis=1)
        if not near.any():
            return math.inf
        others = shapely.linestrings(self._others[near])
        return float(shapely.distance(shapely.linestrings(points), others).min())
