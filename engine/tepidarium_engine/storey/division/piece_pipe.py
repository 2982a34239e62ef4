"""How much pipe a piece will take before any is laid, and how rings are scaled so that it takes as much as it should.

Rings alone tell the length to about half a part in a hundred, for a twentieth of what laying costs: a strip between two
rings takes away as much as it adds, so that only the bends' short cuts are left to count.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
import shapely

from ...checking import Point
from ...elementwise import Array
from ...plan.counterflow.spacing_fit import Scales, fitted_zone_scales
from ...plan.laying.laying import LayingTask, drafted
from ...plan.outlines.pipe_zone import PipeZone, pipe_zone
from ...plan.outlines.polygons import RoomOutline
from ...plan.outlines.room_frame import room_frame
from .arrangement import Stall
from .division_job import DivisionJob
from .ring_lengths import RingLengths

__all__ = ["PieceModel", "Way", "laying_task", "piece_room"]

_COMB_SHARE = 0.97
"""Pipe of a serpentine, in terms of served area over spacing: measured on rooms of three to eight metres."""
_RING_SHARE = 0.98
"""The same of rings."""
_MOST_OFF = 0.04
"""By how much the spacing may differ from what suits a piece, so that its circuit is as long as the others."""
_EVEN = 3e-3
"""By how much a length may miss what is wanted and not be looked at any more."""
_EVEN_COMB, _COMB_STEP, _MOST_COMBS = 0.012, 0.015, 3
"""The same of a serpentine, by how much its spacing is changed at least, and how many are looked at."""
_UNKNOWN: Scales = (1.0, 1.0)


@dataclass(frozen=True, slots=True)
class Way:
    """How pipe is laid in a piece: ``scales`` of the spacing of rings along both axes of the piece's own frame, or
    ``closer``, the share of the spacing that a serpentine is laid with. Without scales whatever suits best."""

    scales: Scales | None = None
    closer: float = 1.0

    def stretched(self, factor: float) -> Way:
        """The same at a spacing wider by the factor, within bounds."""
        factor = min(max(factor, 1.0 - _MOST_OFF), 1.0 + _MOST_OFF)
        if self.scales is None:
            return replace(self, closer=factor)
        return replace(self, scales=(self.scales[0] * factor, self.scales[1] * factor))


class PieceModel:
    """Lengths of pipe in pieces of one room, each looked at once."""

    def __init__(self, job: DivisionJob) -> None:
        self._job = job
        self._zones: dict[bytes, PipeZone] = {}
        self._combs: dict[tuple[bytes, Point, float], float] = {}
        self._rings: dict[bytes, tuple[RingLengths, Scales]] = {}

    def length(self, stall: Stall, way: Way) -> float:
        """Of the pipe in a piece [m]."""
        if way.scales is None:
            return self._comb_length(stall, way)
        rings, scales = self._ring_lengths(stall)
        return rings.at(way.scales[0] / scales[0])

    def _comb_length(self, stall: Stall, way: Way) -> float:
        key = (stall.outline.wkb, stall.spot, way.closer)
        if key not in self._combs:
            draft = drafted(piece_room(self._job, stall), laying_task(self._job, stall, way))
            self._combs[key] = (
                _COMB_SHARE * stall.estimate(self._job.request.pipe_spacing) / way.closer
                if draft is None
                else _bent_length(np.array(draft.corners), self._job.request.bend_radius)
            )
        return self._combs[key]

    def _ring_lengths(self, stall: Stall) -> tuple[RingLengths, Scales]:
        """Of a piece, and the scales that suit it."""
        key = stall.outline.wkb
        if key not in self._rings:
            request, scales = self._job.request, self._scales(stall)
            rings = RingLengths(self._zone(stall), request.pipe_spacing, request.bend_radius, scales)
            self._rings[key] = rings, scales
        return self._rings[key]

    def evenly(self, stall: Stall) -> float:
        """Of the pipe in a piece at the spacing asked for, if it fills the piece evenly [m]."""
        request = self._job.request
        share = _RING_SHARE if request.pattern == "counterflow" else _COMB_SHARE
        return share * stall.estimate(request.pipe_spacing)

    def near_length(self, stall: Stall, wanted: float) -> Way:
        """The way to lay a piece so that its length comes near to what is wanted [m], with spacings near to those that
        suit the piece.

        Rings do not take every length: one more is a jump. Others that take it were looked for among all spacings: in
        40 rooms they left 12 % more floor bare, and lengths as unlike but in one.
        """
        if self._job.request.pattern != "counterflow":
            return self._near_comb(stall, wanted)
        start = way = Way(self._ring_lengths(stall)[1])
        factor = 1.0
        for _ in range(3):
            if self._off(stall, way, wanted) < _EVEN:
                break
            factor *= self.length(stall, way) / wanted
            way = start.stretched(factor)
        return min((start, way), key=lambda one: self._off(stall, one, wanted))

    def _near_comb(self, stall: Stall, wanted: float) -> Way:
        """Runs are as many as come nearest to the spacing, so that lengths go in steps: one run more, or one less."""
        tried = [Way()]
        while self._off(stall, tried[-1], wanted) > _EVEN_COMB and len(tried) < _MOST_COMBS:
            stretch = self.length(stall, tried[-1]) / wanted
            step = math.copysign(max(abs(stretch - 1.0), _COMB_STEP), stretch - 1.0)
            way = Way().stretched(tried[-1].closer * (1.0 + step))
            if way in tried:
                break
            tried.append(way)
        return min(tried, key=lambda one: self._off(stall, one, wanted))

    def _off(self, stall: Stall, way: Way, wanted: float) -> float:
        """By which share of what is wanted a length misses it."""
        return round(abs(self.length(stall, way) / wanted - 1.0), 6)

    def _scales(self, stall: Stall) -> Scales:
        request = self._job.request
        return _UNKNOWN if request.quick else fitted_zone_scales(self._zone(stall), request.pipe_spacing)

    def _zone(self, stall: Stall) -> PipeZone:
        key = stall.outline.wkb
        if key not in self._zones:
            room, request = piece_room(self._job, stall), self._job.request
            local = shapely.normalize(room_frame(room.polygon).to_local(room.polygon))
            self._zones[key] = pipe_zone(
                shapely.orient_polygons(local), request.pipe_spacing, request.wall_clearance
            )
        return self._zones[key]


def laying_task(job: DivisionJob, stall: Stall, way: Way) -> LayingTask:
    """What is asked of the pipe in a piece."""
    request = job.request
    strip = request.strip
    return LayingTask(
        pipe_spacing=way.closer * request.pipe_spacing,
        wall_clearance=request.wall_clearance,
        bend_radius=request.bend_radius,
        tail_pitch=request.tail_pitch,
        entry=job.outer(stall.spot),
        pattern=request.pattern,
        quick=request.quick,
        outermost_pipe=request.outermost_pipe,
        scales=None if strip is not None else way.scales,
        closer_strip=strip and strip.within(piece_room(job, stall).placed),
    )


def _bent_length(points: Array, bend_radius: float) -> float:
    """Of a pipe round corners, with what bends cut short [m]."""
    steps = np.diff(points, axis=0)
    headings = np.arctan2(steps[:, 1], steps[:, 0])
    turns = np.abs(np.remainder(np.diff(headings) + math.pi, 2.0 * math.pi) - math.pi)
    turns = np.minimum(turns, 0.5 * math.pi)
    return float(np.hypot(*steps.T).sum() - bend_radius * (2.0 * np.tan(turns / 2.0) - turns).sum())


def piece_room(job: DivisionJob, stall: Stall) -> RoomOutline:
    """The room that a piece is to the pipe in it, in the caller's frame."""
    return RoomOutline.of(job.outer_polygon(stall.outline))
