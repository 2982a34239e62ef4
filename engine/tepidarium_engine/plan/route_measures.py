"""How good a laid pipe is: length, coverage, spacing, mixing of flow and return, bends.

Knows the path and the room, nothing of how the path was made. The definitions are our own; no standard
states figures for the quality of a route.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import Polygon

from ..checking import Point
from .pipe_neighbours import Neighbours, weighted_percentile
from .pipe_path import Line, PipePath

__all__ = ["BareSpot", "BendCount", "RouteMeasures", "bend_count", "heated_floor", "measure"]

NEAR = 0.5
"""Floor within this many spacings of the pipe lies where an even layout would have it."""
SERVED = 0.75
"""Floor further away than this many spacings is bare."""
CLOSE = 0.75
"""Pipe nearer than this many spacings to other pipe counts as close."""
MOST_SPOTS = 5
_OUTLINE_ERROR = 1e-3
"""Of the chords that stand for arcs where areas are measured [m]."""
_QUARTER_SEGMENTS = 8
_ANGLE_TOLERANCE = math.radians(15.0)
_RIGHT_ANGLE = math.pi / 2.0
_U_TURN_PITCH = 1.5
"""Two right angles the same way are a U-turn when the pipes are at most so many spacings apart."""


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
class BendCount:
    """Bends by kind: right angles, U-turns (two right angles within 1.5 spacings or one bend), all others."""

    right_angle: int
    u_turn: int
    other: int


@dataclass(frozen=True, slots=True)
class RouteMeasures:
    """Figures of a route; None where there is nothing to measure.

    - ``length`` [m] of the centre line, ``length_ratio`` of it to served area / spacing;
    - ``coverage_half``, ``coverage_three_quarters`` [0 to 1]: share of the heated floor within 0.5 and 0.75
      spacings of the pipe. The first shows stretched spacing, the second bare spots;
    - ``bare_area`` [m2] beyond 0.75 spacings, ``bare_spots`` its largest pieces, largest first;
    - ``gap_95``: 95 % of what is seen square to the pipe within 1.6 spacings is no further than this, in
      spacings; wider gaps are bare spots;
    - ``least_distance``, ``distance_1``: the least and the 1st percentile, over the length of the pipe, of
      the distance to pipe more than 2.6 spacings away along it, in spacings; None when beyond 1.6;
      ``close_share`` [0 to 1] of the length with less than 0.75. The two ends near the entry do not count
      against each other;
    - ``mixed_share`` [0 to 1]: of the length that sees pipe to either side within 1.6 spacings, the share
      that sees only pipe of the other half. A double spiral has nearly 1, a serpentine nearly 0;
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
    gap_95: float | None
    least_distance: float | None
    distance_1: float | None
    close_share: float
    mixed_share: float | None
    temperature_spread: float | None
    bends: BendCount


def measure(
    path: PipePath, beside: Neighbours, floor: Polygon, ideal_length: float, pipe_spacing: float
) -> RouteMeasures:
    """All measures of a path; ``floor`` is the heated floor, ``ideal_length`` [m] what it would take."""
    line = shapely.linestrings(path.polyline(_OUTLINE_ERROR))
    bare = _beyond(floor, line, SERVED * pipe_spacing)
    gaps = np.isfinite(beside.seen_distance)
    weight = beside.weight[: beside.samples]
    hand_weight = np.column_stack((weight, weight))[gaps]
    total = math.fsum(beside.weight)
    mixed_share, spread = _mixing(beside, path.length)
    return RouteMeasures(
        length=path.length,
        length_ratio=path.length / ideal_length,
        coverage_half=1.0 - _beyond(floor, line, NEAR * pipe_spacing).area / floor.area,
        coverage_three_quarters=1.0 - bare.area / floor.area,
        bare_area=float(bare.area),
        bare_spots=_spots(bare, line),
        gap_95=_in_spacings(weighted_percentile(beside.seen_distance[gaps], hand_weight, 0.95), pipe_spacing)
        if len(hand_weight)
        else None,
        least_distance=_in_spacings(float(beside.distance.min()), pipe_spacing),
        distance_1=_in_spacings(weighted_percentile(beside.distance, beside.weight, 0.01), pipe_spacing),
        close_share=math.fsum(beside.weight[beside.distance < CLOSE * pipe_spacing]) / total,
        mixed_share=mixed_share,
        temperature_spread=spread,
        bends=bend_count(path, pipe_spacing),
    )


def heated_floor(polygon: Polygon, pipe_spacing: float, wall_clearance: float) -> Polygon:
    """The floor whose heating is asked for: all that is within half a spacing of where pipe may lie."""
    margin = max(0.0, wall_clearance - pipe_spacing / 2.0)
    return polygon if margin < 1e-9 else shapely.buffer(polygon, -margin, quad_segs=_QUARTER_SEGMENTS)


def bend_count(path: PipePath, pipe_spacing: float) -> BendCount:
    """Bends by kind. Arcs of one hand that touch are one bend; 15 degrees are allowed to either side.

    The bulb of an omega, which follows on a bend to the other hand and turns by more than half a circle, is a
    U-turn and its two shoulders are other bends.
    """
    right_angle = u_turn = other = 0
    corner: _Turn | None = None  # a right angle that may be the first half of a U-turn
    for turn in _turns(path):
        quarters = turn.quarters
        if quarters == 0:
            bulb = abs(turn.angle) > 2.0 * _RIGHT_ANGLE
            u_turn, other = u_turn + bulb, other + (not bulb)
        u_turn += quarters // 2
        if quarters % 2 == 0:
            corner = None
        elif corner is not None and corner.pitch_to(turn) <= _U_TURN_PITCH * pipe_spacing:
            right_angle, u_turn, corner = right_angle - 1, u_turn + 1, None
        else:
            right_angle, corner = right_angle + 1, turn
    return BendCount(right_angle, u_turn, other)


@dataclass(frozen=True, slots=True)
class _Turn:
    """A bend by ``angle`` [rad] between two positions along the pipe [m].

    ``reverse`` when it starts where a bend to the other hand ends.
    """

    angle: float
    start: float
    end: float
    reverse: bool

    @property
    def quarters(self) -> int:
        """Number of right angles, 0 when it is not a whole number of them."""
        if self.reverse and abs(self.angle) > 2.0 * _RIGHT_ANGLE + _ANGLE_TOLERANCE:
            return 0
        count = round(abs(self.angle) / _RIGHT_ANGLE)
        return count if abs(abs(self.angle) - count * _RIGHT_ANGLE) <= _ANGLE_TOLERANCE else 0

    def pitch_to(self, after: _Turn) -> float:
        """Distance between the pipes before and after two right angles; infinite if they oppose [m]."""
        if self.angle * after.angle < 0.0:
            return math.inf
        radii = sum((turn.end - turn.start) / abs(turn.angle) for turn in (self, after))
        return radii + after.start - self.end


def _turns(path: PipePath) -> list[_Turn]:
    turns: list[_Turn] = []
    touching = False
    for piece, start, end in zip(path.pieces, path.offsets[:-1], path.offsets[1:], strict=True):
        if isinstance(piece, Line):
            touching = touching and piece.length <= _OUTLINE_ERROR
            continue
        if touching and turns[-1].angle * piece.sweep > 0.0:
            before = turns.pop()
            turns.append(_Turn(before.angle + piece.sweep, before.start, float(end), before.reverse))
        else:
            turns.append(_Turn(piece.sweep, float(start), float(end), reverse=touching))
        touching = True
    return turns


def _mixing(beside: Neighbours, length: float) -> tuple[float | None, float | None]:
    """Mixed share and temperature spread, over the samples that see pipe at all."""
    seen = np.isfinite(beside.seen_at)
    any_seen = seen.any(axis=1)
    if not any_seen.any():
        return None, None
    at, weight = beside.at[: len(seen)][any_seen], beside.weight[: len(seen)][any_seen]
    seen, seen_at = seen[any_seen], beside.seen_at[any_seen]
    total = math.fsum(weight)
    half = length / 2.0
    same_half = ((seen_at > half) == (at > half)[:, None]) & seen
    mixed = math.fsum(weight[~same_half.any(axis=1)]) / total
    seen_sum = np.where(seen, seen_at, 0.0).sum(axis=1)
    middle = (at + seen_sum / seen.sum(axis=1)) / (2.0 * length)
    mean = math.fsum(weight * middle) / total
    return mixed, math.sqrt(math.fsum(weight * (middle - mean) ** 2) / total)


def _beyond(floor: Polygon, line: shapely.LineString, distance: float) -> shapely.Geometry:
    """Floor more than ``distance`` [m] from the line."""
    return shapely.difference(floor, shapely.buffer(line, distance, quad_segs=_QUARTER_SEGMENTS))


def _spots(bare: shapely.Geometry, line: shapely.LineString) -> tuple[BareSpot, ...]:
    parts = [part for part in shapely.get_parts(bare) if part.area > _OUTLINE_ERROR**2]
    parts.sort(key=lambda part: (-part.area, part.bounds))
    spots = []
    for part in parts[:MOST_SPOTS]:
        radius = shapely.maximum_inscribed_circle(part, tolerance=_OUTLINE_ERROR)
        x, y = radius.coords[0]
        away = float(shapely.distance(shapely.Point(x, y), line))
        spots.append(BareSpot(float(part.area), (x, y), 2.0 * float(radius.length), away))
    return tuple(spots)


def _in_spacings(distance: float, pipe_spacing: float) -> float | None:
    return distance / pipe_spacing if math.isfinite(distance) else None
