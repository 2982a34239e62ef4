"""The curve of bounded curvature that serves a place best."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np
import shapely

from ...elementwise import Array
from ..pipes.dubins import Pose, curves_within
from ..pipes.pipe_path import Line
from ..pipes.pipe_table import Index
from .bend_space import BendSpace
from .bend_track import Piece, Spot, Track, chords_of
from .corner_easing import COMFORTABLE_DISTANCE, LEAST_DISTANCE

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
_MOST_CURVES = 1500
"""To look at for one place; a few dozen do, a few hundred at the ends of the pipe."""
_SURROUNDINGS = 12.0
"""How far about a place most of its curves stay, with what they keep clear of, in bend radii."""
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
    """Curves for one place of the pipe, the best so far among them; ``curves`` were looked at."""

    def __init__(self, track: Track, spot: Spot, space: BendSpace) -> None:
        self._track, self._spot, self._space = track, spot, space
        self._tried: set[tuple[float, float]] = set()
        self._best: Curve | None = None
        self.curves = 0
        self._near = _Near(track, spot, _SURROUNDINGS * space.field.bend_radius)

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
        if (start, end) in self._tried or self.curves >= _MOST_CURVES:
            return None
        self._tried.add((start, end))
        better = self._better(start, end)
        self._best = better or self._best
        return better

    def _better(self, start: float, end: float) -> Curve | None:
        """A curve better than the best so far, that keeps clear of the walls and of other pipe."""
        cut = _Cut(self._track, start, end, self._space.field.pipe_spacing, self._near)
        best, limit = None, math.inf if self._best is None else self._best.cost
        least, comfortable = self._least(start, end), COMFORTABLE_DISTANCE * cut.spacing
        for pieces in self._curves(start, end):
            self.curves += 1
            joints = _joints(pieces)
            if self._leaves_floor(joints, start, end) or cut.strays_further(joints, limit - _GRAIN):
                continue
            along, points = chords_of(pieces)
            strays = cut.strays(points)
            if strays >= limit - _GRAIN:
                continue
            total = self._track.length + along[-1] - (end - start)
            if not self._space.holds_at(points, start + along, total):
                continue
            distance = cut.other_distance(points)
            cost = strays + _CROWDING_COST * max(0.0, comfortable - distance)
            if distance >= least and cost < limit - _GRAIN:
                best, limit = Curve(start, end, pieces, cost), cost
        return best

    def _curves(self, start: float, end: float) -> Iterator[tuple[Piece, ...]]:
        """Curves that are not too long."""
        radius, (share, extra) = self._space.field.bend_radius, _LONGER
        longest = share * (end - start) + extra * radius
        for pose in self._poses(start, 0.0):
            for goal in self._poses(end, self._track.length):
                yield from curves_within(pose, goal, radius, longest)

    def _leaves_floor(self, joints: Array, start: float, end: float) -> bool:
        """By a quick look at the joints of the curve, where no doorway excuses it."""
        doorway = self._space.doorway
        if not len(joints) or start < doorway or self._track.length - end < doorway:
            return False
        return not bool(shapely.intersects_xy(self._space.tolerated, joints).all())

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


def _joints(pieces: tuple[Piece, ...]) -> Array:
    """Where the pieces of a curve meet [m]."""
    pairs = pairwise(pieces)
    return np.array([after.start if isinstance(after, Line) else before.end for before, after in pairs])


class _Near:
    """The chords of the pipe in a square about a place, with their numbers."""

    def __init__(self, track: Track, spot: Spot, reach: float) -> None:
        place = np.array(track.pose((spot.start + spot.end) / 2.0).place)
        self._low, self._high = place - reach, place + reach
        self._track = track

    @cached_property
    def _inside(self) -> Index:
        low, high = self._track.chord_boxes
        return np.flatnonzero(((high >= self._low) & (low <= self._high)).all(axis=1))

    def chords(self, low: Array, high: Array) -> Index:
        """Numbers of the chords whose boxes meet a box [m]."""
        lows, highs = self._track.chord_boxes
        if (low >= self._low).all() and (high <= self._high).all():
            inside = self._inside
            return inside[((highs[inside] >= low) & (lows[inside] <= high)).all(axis=1)]
        return np.flatnonzero(((highs >= low) & (lows <= high)).all(axis=1))


class _Cut:
    """The pipe without what lies between two places."""

    def __init__(self, track: Track, start: float, end: float, pipe_spacing: float, near: _Near) -> None:
        self._track, self._start, self._end, self._near = track, start, end, near
        self.spacing = pipe_spacing
        self._low, self._high = start - _FURTHER_ALONG * pipe_spacing, end + _FURTHER_ALONG * pipe_spacing

    @cached_property
    def _old(self) -> shapely.LineString:
        return shapely.linestrings(self._track.stretch(self._start, self._end)[1])

    def strays(self, points: Array) -> float:
        """How far a curve in the gap leaves what was there [m]."""
        return float(shapely.hausdorff_distance(shapely.linestrings(points), self._old))

    def strays_further(self, joints: Array, limit: float) -> bool:
        """Whether a curve strays further than the limit [m], by a quick look at its joints."""
        if limit == math.inf or not len(joints):
            return False
        return float(shapely.distance(shapely.points(joints), self._old).max()) >= limit

    @cached_property
    def _into(self) -> Array:
        return self._track.stretch(max(0.0, self._low), self._start)[1][:-1]

    @cached_property
    def _out(self) -> Array:
        return self._track.stretch(self._end, min(self._track.length, self._high))[1][1:]

    @cached_property
    def _halves(self) -> Array:
        """What other pipe there is of the chords that are cut, two points a row."""
        track = self._track
        first, last = track.at[:-1], track.at[1:]
        halves = np.empty((0, 2, 2))
        for cut, ends in ((self._low, track.points[:-1]), (self._high, track.points[1:])):
            for index in np.flatnonzero((first < cut) & (last > cut)).tolist():
                half = np.array([[track.pose(cut).place, tuple(ends[index].tolist())]])
                halves = np.concatenate((halves, half))
        return halves

    def other_distance(self, points: Array) -> float:
        """From a curve in the gap to other pipe [m]; 0 when the pipe would cross itself."""
        local = np.concatenate((self._into, points, self._out))
        if not shapely.is_simple(shapely.linestrings(local)):
            return 0.0
        track, low, high = self._track, points.min(axis=0) - self.spacing, points.max(axis=0) + self.spacing
        index = self._near.chords(low, high)
        index = index[(track.at[index + 1] <= self._low) | (track.at[index] >= self._high)]
        halves = self._halves
        halves = halves[((halves.max(axis=1) >= low) & (halves.min(axis=1) <= high)).all(axis=1)]
        chords = np.stack((track.points[index], track.points[index + 1]), axis=1)
        if not len(index) + len(halves):
            return math.inf
        others = shapely.linestrings(np.concatenate((chords, halves)))
        return float(shapely.distance(shapely.linestrings(points), others).min())
