"""Places where the bends of a pipe do not fit, laid anew by curves of bounded curvature.

The pipe is cut on both sides of the place and a curve of the bend radius put in between; a turn between two
pipes that lie nearer than two radii then widens like the letter omega. Of all curves that leave the floor
and the other pipe alone, the one that strays least from the pipe as it was drafted is taken.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import shapely

from ..checking import Point
from ..elementwise import Array
from .bend_space import BendSpace
from .bend_track import Piece, Spot, Track, chords_of
from .corner_easing import COMFORTABLE_DISTANCE, LEAST_DISTANCE
from .dubins import curves_within

__all__ = ["repaired"]

_ONE_SPOT = 0.5
"""Tight bends less than this apart are one place, in bend radii."""
_REACHES: tuple[tuple[float, ...], ...] = (
    (0.2, 0.45, 0.7, 1.0, 1.4, 1.9, 2.4, 3.0),
    (0.5, 1.0, 1.7, 2.4, 3.2, 4.0, 5.0, 6.0),
)
"""How far before and behind the place to cut, in bend radii: near first, then wide."""
_FAR_REACHES = (7.0, 8.0, 9.0, 10.0, 12.0, 14.0, 17.0, 20.0)
"""How far to cut back a finger of two pipes, alike on both, in bend radii."""
_LONGER = (1.25, 1.2)
"""Greatest length of a curve: as a share of what it replaces, and bend radii on top."""
_FURTHER_ALONG = 0.9
"""What is further along the pipe is other pipe, in spacings."""
_CROWDING_COST = 2.0
"""Straying that a comfortable distance from other pipe is worth, per distance."""
_GRAIN = 1e-5
"""Costs that differ by less are alike [m]: the first in order is taken."""


def repaired(track: Track, space: BendSpace) -> Track:
    """The pipe with as many of its tight places laid anew as the floor and other pipe allow."""
    radius = space.field.bend_radius
    for _ in range(2):
        given_up: list[Point] = []
        changed = False
        while True:
            spots = [
                spot
                for spot in track.tight_spots(radius, _ONE_SPOT * radius)
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


def _middle(track: Track, spot: Spot) -> Point:
    return track.pose((spot.start + spot.end) / 2.0).place


def _relaid(track: Track, spot: Spot, space: BendSpace) -> Track | None:
    for pairs in _cuts(space.field.bend_radius):
        best = _best(_Trial.at(track, spot, pairs, space))
        if best is not None:
            return track.replaced(best.start, best.end, best.pieces)
    return None


def _cuts(radius: float) -> Iterator[list[tuple[float, float]]]:
    """Lengths before and behind the place, in rounds [m]."""
    for reaches in _REACHES:
        yield [(radius * a, radius * b) for a in reaches for b in reaches]
    yield [(radius * reach, radius * reach) for reach in _FAR_REACHES]


@dataclass(frozen=True)
class _Curve:
    """A candidate from ``start`` to ``end`` [m along the pipe]; ``strays`` [m] from the pipe as it is."""

    start: float
    end: float
    pieces: tuple[Piece, ...]
    at: Array
    points: Array
    strays: float


@dataclass(frozen=True)
class _Trial:
    """All curves for a place that keep to the floor, those that stray least first, and the pipe near by."""

    track: Track
    space: BendSpace
    curves: list[_Curve]
    near: npt.NDArray[np.intp]

    @classmethod
    def at(cls, track: Track, spot: Spot, pairs: Sequence[tuple[float, float]], space: BendSpace) -> _Trial:
        raw = []
        seen = set()
        for before, behind in pairs:
            start, end = max(0.0, spot.start - before), min(track.length, spot.end + behind)
            if (start, end) not in seen:
                seen.add((start, end))
                raw.extend(_curves(track, start, end, space))
        curves = sorted(raw, key=lambda curve: (round(curve.strays / _GRAIN), curve.end - curve.start))
        return cls(track, space, curves, _near(track, curves, space.field.pipe_spacing))


def _curves(track: Track, start: float, end: float, space: BendSpace) -> list[_Curve]:
    """The curves between two places of the pipe that are not too long and keep to the floor."""
    share, extra = _LONGER
    radius = space.field.bend_radius
    longest = share * (end - start) + extra * radius
    found = curves_within(track.pose(start), track.pose(end), radius, longest)
    if not found:
        return []
    old = shapely.linestrings(track.stretch(start, end)[1])
    curves = []
    for pieces in found:
        along, points = chords_of(pieces)
        total = track.length + along[-1] - (end - start)
        if space.holds_at(points, start + along, total):
            strays = float(shapely.hausdorff_distance(shapely.linestrings(points), old))
            curves.append(_Curve(start, end, pieces, start + along, points, strays))
    return curves


def _near(track: Track, curves: Sequence[_Curve], pipe_spacing: float) -> npt.NDArray[np.intp]:
    """Chords of the pipe that come near any of the curves."""
    if not curves:
        return np.zeros(0, dtype=np.intp)
    points = np.concatenate([curve.points for curve in curves])
    low, high = points.min(axis=0) - pipe_spacing, points.max(axis=0) + pipe_spacing
    a, b = track.points[:-1], track.points[1:]
    return np.flatnonzero(((np.maximum(a, b) >= low) & (np.minimum(a, b) <= high)).all(axis=1))


def _best(trial: _Trial) -> _Curve | None:
    """The curve of least cost; none is looked at that strays by more than the best so far costs."""
    spacing = trial.space.field.pipe_spacing
    best, least = None, math.inf
    for curve in trial.curves:
        if curve.strays >= least:
            break
        distance = _distance(trial, curve)
        if distance < LEAST_DISTANCE * spacing:
            continue
        cost = curve.strays + _CROWDING_COST * max(0.0, COMFORTABLE_DISTANCE * spacing - distance)
        if cost < least - _GRAIN:
            best, least = curve, cost
    return best


def _distance(trial: _Trial, curve: _Curve) -> float:
    """From the curve to other pipe [m]; 0 when the pipe would cross or crowd itself."""
    track, spacing = trial.track, trial.space.field.pipe_spacing
    low, high = curve.start - _FURTHER_ALONG * spacing, curve.end + _FURTHER_ALONG * spacing
    into = track.stretch(max(0.0, low), curve.start)[1]
    out = track.stretch(curve.end, min(track.length, high))[1]
    local = np.concatenate((into, curve.points[1:-1], out))
    if not shapely.is_simple(shapely.linestrings(local)):
        return 0.0
    a, b = trial.near, trial.near + 1
    chords = [
        np.stack((track.points[a], track.points[b]), axis=1)[(track.at[b] <= low) | (track.at[a] >= high)]
    ]
    for cut, first in ((low, True), (high, False)):
        across = trial.near[(track.at[a] < cut) & (track.at[b] > cut)]
        for index in across.tolist():
            place, end = track.pose(cut).place, track.points[index if first else index + 1]
            chords.append(np.array([[place, tuple(end.tolist())]]))
    others = np.concatenate(chords)
    if not len(others):
        return math.inf
    return float(shapely.distance(shapely.linestrings(curve.points), shapely.linestrings(others)).min())
