"""The laying sheet of one circuit, put together from its steps."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from shapely import Polygon

from ..checking import Point
from ..elementwise import Array
from ..plan.lengths.lengths import laid_diameter
from ..plan.outlines.room_frame import RoomFrame, room_frame
from ..plan.pipes.pipe_path import PipePath
from .core import core_mark
from .fixings import fixing_marks
from .laying_steps import Step, steps_of
from .sheet_records import CircuitToLay, LayingPart, LayingSheet, LayingSheetsInputs, LayingStep
from .wall_distances import wall_distances

__all__ = ["RoomFloor", "Rooms", "laying_sheet"]


@dataclass(frozen=True)
class RoomFloor:
    """A room as a polygon and as the rings that were given, in the frame of the request."""

    polygon: Polygon
    rings: tuple[tuple[Point, ...], ...]


@dataclass(frozen=True)
class Rooms:
    """The rooms of one storey by id."""

    floors: dict[str, RoomFloor]

    def at(self, points: Array) -> list[str]:
        """Id of the room at each point; empty in a doorway."""
        found = [""] * len(points)
        for name, floor in self.floors.items():
            for place in np.flatnonzero(shapely.intersects_xy(floor.polygon, points)).tolist():
                found[place] = found[place] or name
        return found


def laying_sheet(
    inputs: LayingSheetsInputs, circuit: CircuitToLay, path: PipePath, rooms: Rooms
) -> LayingSheet:
    """Marks count from the port: the pipe up to it is not drawn."""
    counterflow, own = circuit.pattern == "counterflow", rooms.floors[circuit.room]
    frame = _at_corner(room_frame(own.polygon), own.polygon)
    steps, fixings = steps_of(path), fixing_marks(path, inputs.fixing_distance)
    places = rooms.at(np.array([_middle(step) for step in steps]))
    local = frame.local_points(np.array([step.start for step in steps])).tolist()
    core = core_mark(path, circuit.pipe_spacing) if counterflow else None
    height, total = circuit.port_height, path.length + 2.0 * circuit.port_height
    begin = None if circuit.coil is None else circuit.coil_start_mark + inputs.cutting_allowance
    at_bends = sum(mark.at_bend for mark in fixings)
    # A fixing at the very start, where a bend begins on the wall, belongs to the first step.
    numbers = [
        0,
        *(bisect_right([mark.mark for mark in fixings], step.at) for step in steps[1:]),
        len(fixings),
    ]
    counts = [after - before for before, after in pairwise(numbers)]
    diameter, infeed = laid_diameter(inputs.pipe), 2.0 * circuit.pipe_spacing
    return LayingSheet(
        circuit=circuit.id,
        room=circuit.room,
        manifold=circuit.manifold,
        port=circuit.port,
        coil=circuit.coil,
        coil_start_mark=None if circuit.coil is None else circuit.coil_start_mark,
        coil_end_mark=None if begin is None else begin + total + inputs.cutting_allowance,
        total_length=total,
        pipe_spacing=circuit.pipe_spacing,
        spacer_length=circuit.pipe_spacing - diameter,
        infeed_spacing=infeed if counterflow else None,
        infeed_spacer_length=infeed - diameter if counterflow else None,
        core_mark=None if core is None else core + height,
        datum=frame.origin,
        datum_direction=frame.axis,
        fixings_on_straights=len(fixings) - at_bends,
        fixings_at_bends=at_bends,
        steps=tuple(
            _laying_step(number, step, height, begin=begin, room=room, part=part, fixings=count, local=(x, y))
            for number, (step, room, part, count, (x, y)) in enumerate(
                zip(steps, places, _parts(steps, places, circuit.room, core), counts, local, strict=True),
                start=1,
            )
        ),
        wall_distances=tuple(wall_distances(own.polygon, own.rings, steps, circuit.pipe_spacing)),
    )


def _at_corner(frame: RoomFrame, room: Polygon) -> RoomFrame:
    """The frame from the corner nearest to its origin, which lies in the air where the room has none there."""
    corners = shapely.get_coordinates(room.exterior)[:-1]
    x, y = corners[np.hypot(*(corners - frame.origin).T).argmin()].tolist()
    return RoomFrame((x, y), frame.axis)


def _parts(steps: Sequence[Step], places: Sequence[str], room: str, core: float | None) -> list[LayingPart]:
    """Tails until the pipe first comes into the circuit's own room and from where it last leaves it."""
    own = [place == room for place in places]
    first = own.index(True) if True in own else 0
    last = len(own) - 1 - own[::-1].index(True) if True in own else len(own) - 1
    turn = sum(step.length for step in steps) / 2.0 if core is None else core
    parts: list[LayingPart] = []
    for number, step in enumerate(steps):
        if not first <= number <= last:
            parts.append("tail")
        elif step.at + step.length <= turn:
            parts.append("flow")
        elif step.at >= turn:
            parts.append("return")
        else:
            parts.append("core" if core is not None else "flow")
    return parts


def _middle(step: Step) -> tuple[float, float]:
    if step.arc is not None:
        return step.arc.middle
    return ((step.start[0] + step.end[0]) / 2.0, (step.start[1] + step.end[1]) / 2.0)


def _laying_step(
    number: int,
    step: Step,
    height: float,
    *,
    begin: float | None,
    room: str,
    part: LayingPart,
    fixings: int,
    local: Point,
) -> LayingStep:
    mark, arc = height + step.at, step.arc
    return LayingStep(
        number=number,
        kind="straight" if arc is None else "turn",
        mark=mark,
        coil_mark=None if begin is None else begin + mark,
        step_length=step.length,
        start=step.start,
        end=step.end,
        from_datum=local,
        heading=_degrees(step.heading),
        hand=None if arc is None else "left" if arc.sweep > 0.0 else "right",
        angle=None if arc is None else math.degrees(abs(arc.sweep)),
        radius=None if arc is None else arc.radius,
        room=room,
        part=part,
        fixings=fixings,
    )


def _degrees(heading: float) -> float:
    """From 0 up to 360, also for what rounding puts just below 0."""
    return math.degrees(heading) % 360.0 % 360.0
