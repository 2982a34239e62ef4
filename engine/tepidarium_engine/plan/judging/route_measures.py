"""How good a laid pipe is: length, coverage, spacing, mixing of flow and return, bends.

Knows the path and the room, nothing of how the path was made. The definitions are our own; no standard
states figures for the quality of a route.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from ...checking import Point
from ...elementwise import Array
from ..outlines.overlays import difference, union
from ..pipes.bend_count import BendCount, bend_count
from ..pipes.pipe_path import PipePath
from ..pipes.pipe_table import PipeTable
from ..pipes.turns import Turns
from ..tolerances import QUARTER_SEGMENTS
from .craft import Craft, craft_of, wall_directions
from .pipe_neighbours import Neighbours, weighted_percentile

__all__ = [
    "CHORD_ERROR",
    "BareSpot",
    "BendCount",
    "RouteMeasures",
    "band_of",
    "bare_spot",
    "bend_count",
    "measure",
    "mixing",
]

NEAR = 0.5 * (1.0 - 1e-6)
"""Floor within this many spacings of the pipe lies where an even layout would have it.

A hair less than half, so that strips of evenly laid pipe do not touch: that takes the library long, and what
comes of it hangs on the last bits.
"""
SERVED = 0.75
"""Floor further away than this many spacings is bare."""
CLOSE = 0.75
"""Pipe nearer than this many spacings to other pipe counts as close."""
MOST_SPOTS = 5
MOST_LEFT_OUT = 20
CHORD_ERROR = 1e-5
"""Of the chords that stand for arcs where areas are measured [m]: chords lie inside their arcs, so that a millimetre
makes the coverage up to two thousandths too low."""
_LEAST_AREA = 1e-6
"""Smaller pieces of bare floor are rounding [m2]."""
_OVERLAP = 1.0 + 1e-6
_PIECE = 8
"""Chords in a piece of a band."""
_ROUNDNESS = 1e-3
"""To which the largest circle in a bare spot is looked for [m]."""


@dataclass(frozen=True, slots=True)
class BareSpot:
    """A piece of floor more than 0.75 spacings from the pipe.

    ``area`` [m2]; ``place`` is its point that is furthest from its edges [m], ``width`` the diameter of the
    largest circle in it, ``pipe_distance`` from the place to the pipe [m].
    """

    area: float
    place: Point
    width: float
    pipe_distance: float


@dataclass(frozen=True, slots=True)
class RouteMeasures:
    """Figures of a route; None where there is nothing to measure. Spacings are those asked for at the place.

    - ``length`` [m] of the centre line, ``length_ratio`` of it to served area / spacing;
    - ``coverage_half``, ``coverage_three_quarters`` [0 to 1]: share of the heated floor within 0.5 and 0.75
      spacings of the pipe. The first shows stretched spacing, the second bare spots;
    - ``bare_area`` [m2] beyond 0.75 spacings, ``bare_spots`` its 5 largest pieces, largest first;
    - ``left_out``: those bare spots that are larger than what a rounded right angle leaves in the corner of
      its own strip, (1 - pi / 4) (bend radius + half a spacing)^2; largest first, 20 at most;
      ``left_out_area`` [m2] of all of them, named or not;
    - ``gap_95``: 95 % of what is seen square to the pipe within 1.6 spacings is no further than this, in
      spacings; wider gaps are bare spots;
    - ``least_distance``, ``distance_1``: the least and the 1st percentile, over the length of the pipe, of
      the distance to pipe more than 2.6 spacings away along it, in spacings; None when beyond 1.6;
      ``close_share`` [0 to 1] of the length with less than 0.75. The two ends near the entry do not count
      against each other;
    - ``mixed_share`` [0 to 1]: of the length that sees pipe to either side within 1.6 spacings, the share
      that sees only pipe of the other half. A double spiral has nearly 1, a serpentine nearly 0;
    - ``craft``: how handy the pipe is to lay, see there;
    - ``temperature_spread`` [0 to 0.5]: standard deviation of the mean position, as a share of the length,
      of a stretch and what it sees beside it. As the water cools evenly along the pipe, this is the share
      of the temperature drop by which the floor differs from place to place. A serpentine has nearly
      sqrt(1/12).
    """

    length: float
    length_ratio: float
    coverage_half: float
    coverage_three_quarters: float
    bare_area: float
    bare_spots: tuple[BareSpot, ...]
    left_out: tuple[BareSpot, ...]
    left_out_area: float
    gap_95: float | None
    least_distance: float | None
    distance_1: float | None
    close_share: float
    mixed_share: float | None
    temperature_spread: float | None
    bends: BendCount
    craft: Craft


def measure(
    path: PipePath,
    table: PipeTable,
    beside: Neighbours,
    *,
    floor: shapely.Polygon,
    heated: Sequence[tuple[shapely.Geometry, float]],
    ideal_length: float,
    bend_radius: float,
) -> RouteMeasures:
    """All measures of a path.

    ``heated`` is the heated floor by the spacing asked for, the widest one last; ``ideal_length`` [m] is what
    that would take. ``table`` is the path in the frame of ``floor``, the whole of it, and of ``heated``.
    """
    pipe_spacing = heated[-1][1]
    line = shapely.linestrings(table.poses(table.cut(CHORD_ERROR, math.inf)[1])[0])
    total = math.fsum(part.area for part, _ in heated)
    bare = _beyond(heated, line, SERVED)
    parts = [part for part in shapely.get_parts(bare) if part.area > _LEAST_AREA]
    parts.sort(key=lambda part: (-part.area, part.bounds))
    more_than_a_bend = (1.0 - math.pi / 4.0) * (bend_radius + pipe_spacing / 2.0) ** 2
    left_out = [part for part in parts if part.area > more_than_a_bend]
    spots = [bare_spot(part, line) for part in parts[: max(MOST_SPOTS, min(len(left_out), MOST_LEFT_OUT))]]
    distance = beside.distance / beside.spacing
    mixed_share, spread = mixing(beside, path.length)
    return RouteMeasures(
        length=path.length,
        length_ratio=path.length / ideal_length,
        coverage_half=1.0 - _beyond(heated, line, NEAR).area / total,
        coverage_three_quarters=1.0 - bare.area / total,
        bare_area=float(bare.area),
        bare_spots=tuple(spots[:MOST_SPOTS]),
        left_out=tuple(spots[: min(len(left_out), MOST_LEFT_OUT)]),
        left_out_area=math.fsum(part.area for part in left_out),
        gap_95=_gap_95(beside),
        least_distance=_finite(float(distance.min())),
        distance_1=_finite(weighted_percentile(distance, beside.weight, 0.01)),
        close_share=_sum(beside.weight[distance < CLOSE]) / _sum(beside.weight),
        mixed_share=mixed_share,
        temperature_spread=spread,
        bends=bend_count(path, pipe_spacing),
        craft=craft_of(Turns.of_pipe(table), wall_directions(floor), bend_radius, floor.area),
    )


def _gap_95(beside: Neighbours) -> float | None:
    gaps = beside.seen_distance / beside.own_spacing[:, None]
    seen = np.isfinite(gaps)
    weight = beside.weight[: beside.samples]
    hand_weight = np.column_stack((weight, weight))[seen]
    return weighted_percentile(gaps[seen], hand_weight, 0.95) if len(hand_weight) else None


def mixing(beside: Neighbours, length: float) -> tuple[float | None, float | None]:
    """Mixed share and temperature spread, over the samples that see pipe at all."""
    seen = np.isfinite(beside.seen_at)
    any_seen = seen[:, 0] | seen[:, 1]
    if not any_seen.any():
        return None, None
    at, weight = beside.at[: len(seen)][any_seen], beside.weight[: len(seen)][any_seen]
    seen, seen_at = seen[any_seen], beside.seen_at[any_seen]
    total = _sum(weight)
    half = length / 2.0
    same_half = ((seen_at > half) == (at > half)[:, None]) & seen
    mixed = _sum(weight[~(same_half[:, 0] | same_half[:, 1])]) / total
    seen_at = np.where(seen, seen_at, 0.0)
    count = seen[:, 0].astype(np.float64) + seen[:, 1]
    middle = (at + (seen_at[:, 0] + seen_at[:, 1]) / count) / (2.0 * length)
    mean = _sum(weight * middle) / total
    return mixed, math.sqrt(_sum(weight * (middle - mean) ** 2) / total)


def _sum(values: Array) -> float:
    """One after the other: numpy's own sum may add up in another order on another processor."""
    return float(np.cumsum(values)[-1]) if len(values) else 0.0


def _beyond(
    heated: Sequence[tuple[shapely.Geometry, float]], line: shapely.LineString, share: float
) -> shapely.Geometry:
    """Floor that is more than ``share`` of its spacing from the line."""
    beyond = [difference(part, band_of(line, share * spacing)) for part, spacing in heated]
    return beyond[0] if len(beyond) == 1 else union(beyond)


def band_of(line: shapely.LineString, reach: float) -> shapely.Geometry:
    """All within ``reach`` [m] of the line.

    Where pipes lie exactly twice the reach apart their bands would only touch, and what the library makes of
    that is not always an area: they are slightly wider. A band that is still none is put together piecemeal.
    """
    band = shapely.buffer(line, reach * _OVERLAP, quad_segs=QUARTER_SEGMENTS)
    if band.is_valid:
        return band
    points = shapely.get_coordinates(line)
    pieces = [
        shapely.LineString(points[start : start + _PIECE + 1]) for start in range(0, len(points) - 1, _PIECE)
    ]
    return union(shapely.buffer(pieces, reach * _OVERLAP, quad_segs=QUARTER_SEGMENTS))


def bare_spot(part: shapely.Polygon, line: shapely.Geometry) -> BareSpot:
    """A bare piece of floor as it is reported; ``line`` is the pipe."""
    radius = shapely.maximum_inscribed_circle(part, tolerance=_ROUNDNESS)
    x, y = radius.coords[0]
    away = float(shapely.distance(shapely.Point(x, y), line))
    return BareSpot(float(part.area), (x, y), 2.0 * float(radius.length), away)


def _finite(number: float) -> float | None:
    return number if math.isfinite(number) else None
