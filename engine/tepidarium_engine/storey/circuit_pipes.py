"""The pipe of a circuit: laid in its piece, joined to its tails."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np
import shapely
from shapely import LineString

from ..plan.judging.route_check import check_route
from ..plan.laying.laying import Laid, LayingTask, Refusal, lay
from ..plan.outlines.polygons import RoomOutline
from ..plan.pipes.pipe_path import Line, PipePath
from .arrangement import Site, Stall
from .division_job import DivisionJob
from .division_records import DividedCircuit, JointCrossing
from .pipe_ends import bent_lane, joined_ends
from .records import PairPlace

__all__ = ["circuit_of", "joint_crossings"]

_SQUARE = 5e-5
"""Pipe that enters a piece at this angle to the square enters it squarely [rad]."""
_AHEAD = 0.15
"""Joints no further before a piece are those at its edge [m]."""
_BEFORE_JOINT = 0.03
"""A tail runs straight for this long before it passes a joint [m]: a sleeve is not bent."""


def circuit_of(
    job: DivisionJob,
    site: Site,
    stall: Stall,
    others: Sequence[LineString],
    *,
    closer: float = 1.0,
    plain: bool = False,
) -> DividedCircuit | Refusal:
    """The circuit of a stall; ``others`` are the lanes of all others, ``closer`` scales the spacing laid,
    ``plain`` leaves out the spacing fit."""
    laid = _laid(job, stall, closer, plain)
    if laid.path is None:
        return laid.refusal or Refusal("too_narrow")
    whole = _whole_pipe(job, stall, laid)
    if whole is None:
        return Refusal("no_way_for_tails", laid.entry.place)
    path, inside = whole
    piece = stall.piece
    if others:
        width = site.spacing.pitch / 2.0
        piece = shapely.difference(
            piece, shapely.union_all(shapely.buffer(others, width, cap_style="flat", join_style="mitre"))
        )
        piece = max(shapely.get_parts(piece), key=lambda part: part.area)
    gate = site.hallway.gate
    return DividedCircuit(
        id=stall.index,
        piece=job.outer_polygon(piece),
        outline=job.outer_polygon(stall.outline),
        laid=laid,
        path=path,
        length=path.length,
        tail_length=path.length - inside,
        place=PairPlace(job.outer(gate.pair(stall.index)), job.outer_direction(gate.inward)),
    )


def _laid(job: DivisionJob, stall: Stall, closer: float, plain: bool) -> Laid:
    request = job.request
    polygon = job.outer_polygon(stall.outline)
    low = (polygon.bounds[0], polygon.bounds[1])
    local = shapely.transform(polygon, lambda points: points - low)
    task = LayingTask(
        pipe_spacing=closer * request.pipe_spacing,
        wall_clearance=request.wall_clearance,
        bend_radius=request.bend_radius,
        tail_pitch=request.tail_pitch,
        entry=job.outer(stall.spot),
        pattern=request.pattern,
        quick=request.quick or plain,
        outermost_pipe=request.outermost_pipe,
    )
    outline = RoomOutline(shapely.orient_polygons(local), low)
    laid = lay(outline, task)
    return laid if closer == 1.0 else _as_asked(laid, outline, task, request.pipe_spacing)


def _as_asked(laid: Laid, outline: RoomOutline, task: LayingTask, pipe_spacing: float) -> Laid:
    """A pipe laid at a spacing a little off the one asked for, judged by the latter."""
    if laid.path is None:
        return laid
    check = check_route(
        laid.path,
        outline,
        pipe_spacing=pipe_spacing,
        wall_clearance=task.wall_clearance,
        bend_radius=task.bend_radius,
        entry=laid.entry.place,
        tail_pitch=task.tail_pitch,
    )
    if not check.valid:
        fault = check.faults[0]
        return Laid(laid.entry, refusal=Refusal(fault.code, fault.place, fault.value, fault.limit))
    spacings = laid.spacings or (task.pipe_spacing, task.pipe_spacing)
    return replace(laid, check=check, spacings=spacings)


def _whole_pipe(job: DivisionJob, stall: Stall, laid: Laid) -> tuple[PipePath, float] | None:
    """The circuit's pipe from the entry and back, and how much of it is laid in the piece [m]."""
    assert laid.path is not None
    lanes = [bent_lane(job.outer_points(lane.corners), job.request.bend_radius) for lane in stall.tail.lanes]
    if stall.tail_length < 1e-3:
        return laid.path, laid.path.length
    if lanes[0] is None or lanes[1] is None:
        return None
    # To the right of who looks into the piece lies the lane that is later along the outline.
    starts_right = math.dist(laid.path.start, laid.entry.ends[0]) < math.dist(
        laid.path.start, laid.entry.ends[1]
    )
    tails = (lanes[1], lanes[0]) if starts_right else (lanes[0], lanes[1])
    lead = _lead(job, laid)
    joined = joined_ends(
        tails, _led_back(laid.path, laid, lead), job.request.bend_radius, job.request.tail_pitch
    )
    return None if joined is None else (joined[0], joined[1] - 2.0 * lead)


def _lead(job: DivisionJob, laid: Laid) -> float:
    """How far before the piece its pipe has to run straight to pass a joint squarely [m]; 0 where there is none."""
    assert laid.path is not None
    (x, y), (dx, dy) = laid.entry.place, laid.entry.inward
    ends = (laid.path.pieces[0].start_heading, laid.path.pieces[-1].end_heading + math.pi)
    if any(abs(math.remainder(end - math.atan2(dy, dx), 2.0 * math.pi)) > _SQUARE for end in ends):
        return 0.0
    back = LineString([(x + 1e-3 * dx, y + 1e-3 * dy), (x - _AHEAD * dx, y - _AHEAD * dy)])
    for joint in job.joints:
        line = LineString(job.outer_points(shapely.get_coordinates(joint)))
        if shapely.intersects(line, back):
            return float(shapely.distance(shapely.Point(x, y), line)) + _BEFORE_JOINT
    return 0.0


def _led_back(path: PipePath, laid: Laid, lead: float) -> PipePath:
    """The path with straight ends, longer by ``lead`` [m] each."""
    if lead == 0.0:
        return path
    dx, dy = lead * laid.entry.inward[0], lead * laid.entry.inward[1]
    (x0, y0), (x1, y1) = path.start, path.end
    first, last = Line((x0 - dx, y0 - dy), path.start), Line(path.end, (x1 - dx, y1 - dy))
    return PipePath((first, *path.pieces, last))


def joint_crossings(job: DivisionJob, circuits: Sequence[DividedCircuit]) -> Iterator[JointCrossing]:
    for joint in job.joints:
        line = LineString(job.outer_points(shapely.get_coordinates(joint)))
        for circuit in circuits:
            at = circuit.path.positions(1e-4, 0.05)
            drawn = LineString(circuit.path.points_at(at))
            met = shapely.get_coordinates(shapely.intersection(drawn, line)).tolist()
            for x, y in met:
                along = float(shapely.line_locate_point(drawn, shapely.Point(x, y)))
                _, ahead = circuit.path.poses_at(np.array([along]))
                yield JointCrossing(circuit.id, (x, y), (float(ahead[0, 0]), float(ahead[0, 1])))
