"""The circuits of a drawing: each the pipe of its block, joined to the tails that lead to it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

import numpy as np
import shapely
from shapely import LineString

from ..checking import Point
from ..plan.laying.laying import Refusal
from ..plan.pipes.pipe_path import PipePath
from ..spreading import Spread
from .cells.block_memory import laid_blocks
from .cells.block_records import BlockCircuit
from .cells.cell_fields import joined_field
from .division_records import JointCrossing
from .lanes.bent_ways import bent_way
from .lanes.cell_lanes import Stub
from .layout_records import RoomTask, StoreyCircuit, Unplaced
from .refusals import no_floor, refused
from .storey_drawing import StoreyDrawing

__all__ = ["circuits_of"]

_CHORD_ERROR = 5e-4
_SAME = 1e-5
"""Pipe goes on at the same place and in the same direction, if both differ by less [m, rad]."""


def circuits_of(drawing: StoreyDrawing, spread: Spread) -> tuple[list[StoreyCircuit], list[Unplaced]]:
    """The circuits of all rooms that have a way, by manifold and port, and those that cannot be laid."""
    rooms = [index for index in range(len(drawing.counts)) if drawing.own(index)]
    with_floor = [index for index in rooms if index in drawing.fields]
    blocks = dict(
        zip(with_floor, laid_blocks([drawing.block(index) for index in with_floor], spread), strict=True)
    )
    circuits: list[StoreyCircuit] = []
    unplaced: list[Unplaced] = []
    for index in rooms:
        own = drawing.own(index)
        if index not in blocks:
            unplaced += [no_floor(drawing, index, circuit) for circuit in own]
            continue
        block = blocks[index]
        unplaced += [refused(drawing, index, own[pair], refusal) for pair, refusal in block.refused.items()]
        for one in block.circuits:
            whole = _circuit(drawing, index, own[one.pair], one)
            if isinstance(whole, Refusal):
                unplaced.append(refused(drawing, index, own[one.pair], whole))
            else:
                circuits.append(whole)
    circuits.sort(key=lambda one: (drawing.task.rooms[one.room].manifold, one.port))
    return circuits, unplaced


def _circuit(drawing: StoreyDrawing, index: int, name: str, laid: BlockCircuit) -> StoreyCircuit | Refusal:
    rules, field = drawing.walkways.rules, drawing.fields[index]
    corners = [_distinct(pipe) for pipe in drawing.corners(index, name)]
    whole: tuple[PipePath, float] | None
    if len(corners[0]) < 2:
        whole = laid.path, laid.field_length
    else:
        pipes = [bent_way(pipe, rules.bend_radius) for pipe in corners]
        if pipes[0] is None or pipes[1] is None:
            return Refusal("no_way_for_tails", field.entry)
        stub = Stub(corners[0][-1], corners[1][-1], field.ahead)
        floor, over = drawing.walkways.plan.rooms[index], drawing.lanes.lanes[index]
        whole = _joined(laid, (pipes[0], pipes[1]))
        if whole is None:
            bent = joined_field(laid.path, (pipes[0], pipes[1]), floor, over, stub, rules)
            if bent is None:
                return Refusal("no_joint", field.entry)
            whole = bent[0], bent[1] - (laid.path.length - laid.field_length)
    path, inside = whole
    return StoreyCircuit(
        name,
        index,
        drawing.ports[name],
        path,
        inside,
        laid.floor,
        laid.measures,
        tuple(_crossings(drawing.task.rooms[index], path)),
    )


def _joined(laid: BlockCircuit, tails: tuple[PipePath, PipePath]) -> tuple[PipePath, float] | None:
    """Where the pipe goes straight on from its tails."""
    path = laid.path
    if math.dist(path.start, tails[0].end) > math.dist(path.start, tails[1].end):
        path = path.reversed()
    away = tails[1].reversed()
    for before, after in ((tails[0], path), (path, away)):
        turn = math.remainder(after.pieces[0].start_heading - before.pieces[-1].end_heading, 2.0 * math.pi)
        if math.dist(before.end, after.start) > _SAME or abs(turn) > _SAME:
            return None
    return PipePath(tails[0].pieces + path.pieces + away.pieces), laid.field_length


def _distinct(corners: Sequence[Point]) -> list[Point]:
    return [corners[0], *(b for a, b in pairwise(corners) if math.dist(a, b) > 1e-6)]


def _crossings(room: RoomTask, path: PipePath) -> Iterator[JointCrossing]:
    """Where the pipe crosses the room's movement joints, in order along it."""
    if not room.joints:
        return
    drawn = LineString(path.polyline(_CHORD_ERROR))
    found = []
    for number, joint in enumerate(room.joints):
        for x, y in shapely.get_coordinates(shapely.intersection(drawn, LineString(joint))).tolist():
            along = float(drawn.project(shapely.Point(x, y))) * path.length / drawn.length
            found.append((along, number, (x, y)))
    for along, number, place in sorted(found):
        _, ahead = path.poses_at(np.array([along]))
        yield JointCrossing(0, place, (float(ahead[0, 0]), float(ahead[0, 1])))
