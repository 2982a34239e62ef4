"""The pipe of a circuit: laid in its piece, joined to its tails."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import product

import numpy as np
import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...errors import required
from ...plan.judging.route_check import check_route
from ...plan.judging.route_faults import CLEARANCE_TOLERANCE, ENTRY_TOLERANCE
from ...plan.laying.laying import Laid, LayingTask, Refusal, lay
from ...plan.outlines.denser_area import DenserArea
from ...plan.outlines.overlays import difference, intersection, union
from ...plan.outlines.polygons import RoomOutline
from ...plan.pipes.pipe_path import Line, PipePath
from ..model.division_records import DividedCircuit, JointCrossing
from ..model.records import PairPlace
from .arrangement import Site, Stall
from .division_job import DivisionJob
from .inner_tails import Gate
from .piece_pipe import PieceModel, Way, laying_task, piece_room
from .pipe_ends import Joint, bent_lane

__all__ = ["CircuitMaker", "joint_crossings"]

_BEYOND_JOINT = 0.03
"""Pipe runs straight for this long after it passes the edge of a piece that is a joint [m]."""
_ONWARD = (0.0, 0.5, 1.0, 2.0)
"""How far into a piece its own pipe may be replaced, in bend radii."""
_GRID = 1e-8
"""Lanes end on edges of pieces but for rounding [m]."""
_ON_FLOOR = 1e-5
"""What lies no further outside a room is on its edge but for rounding [m]."""


class CircuitMaker:
    """Makes the circuits of one room; a piece is laid in one way once."""

    def __init__(self, job: DivisionJob) -> None:
        self.job = job
        self.model = PieceModel(job)
        self.refused: Counter[int] = Counter()
        """How often each pair's circuit could not be laid: with such a one a plan is begun."""
        self._laid: dict[tuple[bytes, Point, Way], Laid] = {}

    def circuit(
        self, site: Site, stall: Stall, others: Sequence[LineString], way: Way
    ) -> DividedCircuit | Refusal:
        """The circuit of a stall, its pipe laid in a ``way``; ``others`` are the lanes of all others."""
        found = self._circuit(site, stall, others, self._pipe(stall, way))
        self.refused[stall.index] += isinstance(found, Refusal)
        return found

    def _circuit(
        self, site: Site, stall: Stall, others: Sequence[LineString], laid: Laid
    ) -> DividedCircuit | Refusal:
        if laid.path is None:
            return laid.refusal or Refusal("too_narrow")
        whole = _whole_pipe(self.job, site.hallway.gate, stall, others, laid)
        if whole is None:
            return Refusal("no_way_for_tails", laid.entry.place)
        path, inside = whole
        gate = site.hallway.gate
        return DividedCircuit(
            id=stall.index,
            piece=self.job.outer_polygon(_own_floor(stall.piece, others, site.spacing.pitch)),
            outline=self.job.outer_polygon(stall.outline),
            laid=laid,
            path=path,
            length=path.length,
            tail_length=path.length - inside,
            place=PairPlace(self.job.outer(gate.pair(stall.index)), self.job.outer_direction(gate.inward)),
        )

    def _pipe(self, stall: Stall, way: Way) -> Laid:
        key = (stall.outline.wkb, stall.spot, way)
        if key not in self._laid:
            self._laid[key] = _laid(self.job, stall, way)
        return self._laid[key]


def _own_floor(piece: Polygon, others: Sequence[LineString], pitch: float) -> Polygon:
    """A piece without what the lanes of others take of it."""
    if not others:
        return piece
    lanes = union(shapely.buffer(others, pitch / 2.0, cap_style="flat", join_style="mitre"))
    left = shapely.get_parts(shapely.difference(piece, lanes, grid_size=_GRID))
    own: Polygon = max(left, key=lambda part: part.area)
    return own


def _laid(job: DivisionJob, stall: Stall, way: Way) -> Laid:
    """The pipe in a piece: rings as scaled where they can be laid and cover well, else what suits best."""
    outline, task = piece_room(job, stall), laying_task(job, stall, way)
    laid = lay(outline, task)
    return laid if way.closer == 1.0 else _as_asked(laid, outline, task, job.request.pipe_spacing)


def _as_asked(laid: Laid, outline: RoomOutline, task: LayingTask, pipe_spacing: float) -> Laid:
    """A pipe laid at a spacing a little off the one asked for, judged by the latter."""
    if laid.path is None:
        return laid
    strip = task.closer_strip
    check = check_route(
        laid.path,
        outline,
        pipe_spacing=pipe_spacing,
        wall_clearance=task.wall_clearance,
        bend_radius=task.bend_radius,
        entry=laid.entry.place,
        tail_pitch=task.tail_pitch,
        denser=() if strip is None else (DenserArea(strip.area, strip.pipe_spacing),),
    )
    if not check.valid:
        fault = check.faults[0]
        return Laid(laid.entry, refusal=Refusal(fault.code, fault.place, fault.value, fault.limit))
    spacings = laid.spacings or (task.pipe_spacing, task.pipe_spacing)
    return replace(laid, check=check, spacings=spacings)


def _whole_pipe(
    job: DivisionJob, gate: Gate, stall: Stall, others: Sequence[LineString], laid: Laid
) -> tuple[PipePath, float] | None:
    """The circuit's pipe from the entry and back, and how much of it is laid in the piece [m]."""
    path = required(laid.path, "the pipe of a piece")
    lanes = [bent_lane(job.outer_points(lane.corners), job.request.bend_radius) for lane in stall.tail.lanes]
    if stall.tail_length < 1e-3:
        return path, path.length
    if lanes[0] is None or lanes[1] is None:
        return None
    # To the right of who looks into the piece lies the lane that is later along the outline.
    tails = (lanes[1], lanes[0]) if _starts_right(laid) else (lanes[0], lanes[1])
    led = _led_back(job, laid, stall.lead) if stall.lead > 0.0 else None
    drawn = min(lane.run for lane in stall.tail.lanes)
    bends = job.request.bend_radius, job.request.tail_pitch
    # Others leave tails no more floor than the lanes were drawn with. A bend nearer to a wall is the last resort.
    ways = (
        (led, stall.lead, (0.0,), drawn),
        (path, 0.0, _ONWARD, drawn),
        (path, 0.0, _ONWARD, math.inf),
    )
    joints = [
        (Joint(tails, pipe, *bends, onward=onward, most_back=most_back), lead)
        for pipe, lead, onward, most_back in ways
        if pipe is not None
    ]
    for floor, (joint, lead) in product(_floors_for_bends(job, gate, others), joints):
        joined = joint.on(floor)
        if joined is not None:
            return joined[0], joined[1] - 2.0 * lead
    return None


def _floors_for_bends(
    job: DivisionJob, gate: Gate, others: Sequence[LineString]
) -> Iterator[shapely.Geometry]:
    """Where pipe between a tail and its field may lie: off the walls, but for the wall that it comes from, and off the
    lanes of others; else nearer to walls, or to lanes, whose pipes may leave them before their end."""
    room, clearance = job.room.placed, job.request.wall_clearance
    lanes = [LineString(job.outer_points(shapely.get_coordinates(lane))) for lane in others]
    taken = union(shapely.buffer(lanes, job.request.tail_pitch - ENTRY_TOLERANCE))
    pairs = LineString([job.outer(gate.pipes(0)[0]), job.outer(gate.pipes(gate.count - 1)[1])])
    before_entry = shapely.buffer(pairs, clearance, cap_style="square", join_style="mitre")
    off_walls = shapely.buffer(room, CLEARANCE_TOLERANCE - clearance, join_style="mitre")
    best = union([off_walls, intersection(before_entry, room)])
    for floor in (difference(best, taken), difference(room, taken), room):
        found = shapely.buffer(floor, _ON_FLOOR)
        shapely.prepare(found)
        yield found


def _starts_right(laid: Laid) -> bool:
    start = required(laid.path, "the pipe of a piece").start
    return math.dist(start, laid.entry.ends[0]) < math.dist(start, laid.entry.ends[1])


def _led_back(job: DivisionJob, laid: Laid, lead: float) -> PipePath | None:
    """The pipe of a piece with ends that run straight over the joint before it, from ``lead`` [m] before the piece."""
    path = required(laid.path, "the pipe of a piece")
    inward, ends = laid.entry.inward, laid.entry.ends if _starts_right(laid) else laid.entry.ends[::-1]
    beyond = _BEYOND_JOINT + 0.5 * job.request.bend_radius
    stubs = [PipePath((Line(_ahead(end, inward, -lead), _ahead(end, inward, beyond)),)) for end in ends]
    joined = Joint(
        (stubs[0], stubs[1]), path, job.request.bend_radius, job.request.tail_pitch, onward=_ONWARD
    ).on(None)
    return None if joined is None else joined[0]


def _ahead(place: Point, direction: Point, distance: float) -> Point:
    return (place[0] + distance * direction[0], place[1] + distance * direction[1])


def joint_crossings(job: DivisionJob, circuits: Sequence[DividedCircuit]) -> Iterator[JointCrossing]:
    for joint in job.joints:
        line = LineString(job.outer_points(shapely.get_coordinates(joint)))
        for circuit in circuits:
            at = circuit.path.positions(1e-4, 0.05)
            drawn = LineString(circuit.path.points_at(at))
            met = shapely.get_coordinates(intersection(drawn, line)).tolist()
            for x, y in met:
                along = float(shapely.line_locate_point(drawn, shapely.Point(x, y)))
                _, ahead = circuit.path.poses_at(np.array([along]))
                yield JointCrossing(circuit.id, (x, y), (float(ahead[0, 0]), float(ahead[0, 1])))
