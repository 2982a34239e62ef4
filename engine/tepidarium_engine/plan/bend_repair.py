"""Places where the bends of a pipe do not fit, laid anew by curves of bounded curvature.

The pipe is cut on both sides of the place and a curve of the bend radius put in between; a turn between two
pipes that lie nearer than two radii then widens like the letter omega. Of all curves that leave the floor
and the other pipe alone, the one that strays least from the pipe as it was drafted is taken.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from ..checking import Point
from ..elementwise import Array
from .bend_space import BendSpace
from .bend_track import Piece, Spot, Track, chords_of, merged_spots
from .corner_easing import COMFORTABLE_DISTANCE, LEAST_DISTANCE
from .dubins import Pose, curves_within
from .fillets import RADIUS_TOLERANCE

__all__ = ["bad_spots", "repaired"]

_ONE_SPOT = 0.5
"""Places less than this apart are one, in bend radii."""
_REACHES: tuple[tuple[float, ...], ...] = (
    (0.2, 0.4, 0.6, 0.8, 1.0, 1.25, 1.5, 1.75, 2.0, 2.3, 2.6, 3.0),
    (0.5, 1.0, 1.7, 2.4, 3.2, 4.0, 5.0, 6.0),
)
"""How far before and behind the place to cut, in bend radii: near first, then wide."""
_FAR_REACHES = (7.0, 8.0, 9.0, 10.0, 12.0, 14.0, 17.0, 20.0)
"""How far to cut back a finger of two pipes, alike on both, in bend radii."""
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
_STEPS = ((0, 0), (1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, -1), (1, -1), (-1, 1))
_GRAIN = 1e-5
"""Costs that differ by less are alike [m]: the first in order is taken."""


def repaired(track: Track, space: BendSpace) -> Track:
    """The pipe with as many of its tight places laid anew as the floor and other pipe allow."""
    for _ in range(2):
        given_up: list[Point] = []
        changed = False
        while True:
            spots = [
                spot
                for spot in bad_spots(track, space)
                if not any(math.dist(_middle(track, spot), place) < 1e-3 for place in given_up)
            ]
            if not spots:
                break
            spot = min(spots, key=lambda spot: (round(spot.radius, 6), spot.start))
            better = _relaid(track, spot, space)
            if better is None:
                given_up.append(_middle(track, spot))
            else:
                track, changed = better, True
        if not (given_up and changed):
            break
    return track


def bad_spots(track: Track, space: BendSpace) -> list[Spot]:
    """Where the pipe bends too tightly or comes too near to a wall, in the order of flow."""
    radius = space.field.bend_radius
    lacking = space.shortfall(track.points) > 0.0
    lacking &= np.minimum(track.at, track.length - track.at) > space.doorway
    near = [Spot(at, at, radius) for at in track.at[lacking].tolist()]
    return merged_spots([*track.tight_spots(radius * (1.0 - RADIUS_TOLERANCE)), *near], _ONE_SPOT * radius)


def _middle(track: Track, spot: Spot) -> Point:
    return track.pose((spot.start + spot.end) / 2.0).place


@dataclass(frozen=True)
class _Curve:
    """A candidate from ``start`` to ``end`` [m along the pipe]; ``cost`` is what it strays [m], and more where
    it crowds other pipe."""

    start: float
    end: float
    pieces: tuple[Piece, ...]
    points: Array
    cost: float


def _relaid(track: Track, spot: Spot, space: BendSpace) -> Track | None:
    """With the best curve that a search finds: from cuts alike before and behind to uneven ones."""
    search = _Search(track, spot, space)
    for reaches in _REACHES:
        best = search.best(reaches)
        if best is not None:
            return track.replaced(best.start, best.end, best.pieces)
    for reach in _FAR_REACHES:
        best = search.tried(reach, reach)
        if best is not None:
            return track.replaced(best.start, best.end, best.pieces)
    return None


class _Search:
    """Curves for one place of the pipe."""

    def __init__(self, track: Track, spot: Spot, space: BendSpace) -> None:
        self.track, self.spot, self.space = track, spot, space
        self.known: dict[tuple[float, float], _Curve | None] = {}

    def best(self, reaches: Sequence[float]) -> _Curve | None:
        """The best of even cuts, bettered step by step; if no even cut will do, the best of all."""
        count = range(len(reaches))
        best = self._pick(reaches, [(i, i) for i in count])
        if best is None:
            best = self._pick(reaches, [(i, j) for i in count for j in count])
        while best is not None:
            i, j = best
            better = self._pick(reaches, [(i + a, j + b) for a, b in _STEPS])
            if better == best:
                return self.tried(reaches[i], reaches[j])
            best = better
        return None

    def _pick(self, reaches: Sequence[float], cuts: Sequence[tuple[int, int]]) -> tuple[int, int] | None:
        """The first of the cuts of least cost."""
        best, least = None, math.inf
        for i, j in cuts:
            if 0 <= i < len(reaches) and 0 <= j < len(reaches):
                curve = self.tried(reaches[i], reaches[j])
                if curve is not None and curve.cost < least - _GRAIN:
                    best, least = (i, j), curve.cost
        return best

    def tried(self, before: float, behind: float) -> _Curve | None:
        """The best curve for a cut so many bend radii before and behind the place."""
        radius = self.space.field.bend_radius
        start = max(0.0, self.spot.start - before * radius)
        end = min(self.track.length, self.spot.end + behind * radius)
        if (start, end) not in self.known:
            self.known[start, end] = self._best_between(start, end)
        return self.known[start, end]

    def _best_between(self, start: float, end: float) -> _Curve | None:
        field, track = self.space.field, self.track
        share, extra = _LONGER
        longest = share * (end - start) + extra * field.bend_radius
        held = []
        for pose in self._poses(start, 0.0):
            for goal in self._poses(end, track.length):
                for pieces in curves_within(pose, goal, field.bend_radius, longest):
                    along, points = chords_of(pieces)
                    total = track.length + along[-1] - (end - start)
                    if self.space.holds_at(points, start + along, total):
                        held.append((pieces, points))
        if not held:
            return None
        old = shapely.linestrings(track.stretch(start, end)[1])
        best = None
        for pieces, points in held:
            strays = float(shapely.hausdorff_distance(shapely.linestrings(points), old))
            if best is None or strays < best.cost - _GRAIN:
                distance = other_distance(track, start, end, points, field.pipe_spacing)
                crowding = max(0.0, COMFORTABLE_DISTANCE * field.pipe_spacing - distance)
                cost = strays + _CROWDING_COST * crowding
                if distance >= self._least(start, end) and (best is None or cost < best.cost - _GRAIN):
                    best = _Curve(start, end, pieces, points, cost)
        return best

    def _poses(self, at: float, pipe_end: float) -> list[Pose]:
        """As the pipe runs there; at its very end it may come through the wall as it likes."""
        pose = self.track.pose(at)
        if at != pipe_end:
            return [pose]
        x, y = self.space.field.entry.inward
        square = math.atan2(y, x) if at == 0.0 else math.atan2(-y, -x)
        return [pose, *(Pose(pose.place, square + off) for off in _HEADINGS)]

    def _least(self, start: float, end: float) -> float:
        """Distance from other pipe [m]; the tails may be as near to each other as they come in."""
        field = self.space.field
        least = LEAST_DISTANCE * field.pipe_spacing
        fan = field.wall_clearance + field.pipe_spacing + 2.0 * field.bend_radius
        near_end = start < fan or end > self.track.length - fan
        return min(least, _TAILS * field.tail_pitch) if near_end else least


def other_distance(track: Track, start: float, end: float, points: Array, pipe_spacing: float) -> float:
    """From a curve between two places of the pipe to other pipe [m]; 0 when the pipe would cross itself."""
    low, high = start - _FURTHER_ALONG * pipe_spacing, end + _FURTHER_ALONG * pipe_spacing
    into = track.stretch(max(0.0, low), start)[1]
    out = track.stretch(end, min(track.length, high))[1]
    local = np.concatenate((into[:-1], points, out[1:]))
    if not shapely.is_simple(shapely.linestrings(local)):
        return 0.0
    corner, opposite = points.min(axis=0) - pipe_spacing, points.max(axis=0) + pipe_spacing
    from_, to = track.points[:-1], track.points[1:]
    near = ((np.maximum(from_, to) >= corner) & (np.minimum(from_, to) <= opposite)).all(axis=1)
    first, last = track.at[:-1], track.at[1:]
    clear = near & ((last <= low) | (first >= high))
    chords = [np.stack((from_[clear], to[clear]), axis=1)]
    for cut, ends in ((low, from_), (high, to)):
        for index in np.flatnonzero(near & (first < cut) & (last > cut)).tolist():
            chords.append(np.array([[track.pose(cut).place, tuple(ends[index].tolist())]]))
    others = np.concatenate(chords)
    if not len(others):
        return math.inf
    return float(shapely.distance(shapely.linestrings(points), shapely.linestrings(others)).min())
