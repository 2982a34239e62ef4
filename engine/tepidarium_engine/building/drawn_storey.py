"""A part of a storey with its drawing, and what is measured on the drawing once: pipe in rooms of others, floor cut off
by it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import shapely
from shapely import LineString, Polygon
from shapely.ops import substring

from ..checking import Point
from ..plan.judging.route_measures import SERVED
from ..plan.outlines.overlays import intersection, union
from ..plan.outlines.regions import minus, opened, parts_of
from ..storey.halls.bare_halls import LEAST_BARE, MOST_BARE
from ..storey.judging.room_bare import bare_floor
from ..storey.judging.room_coverage import CoveredFloor
from ..storey.model.layout_records import (
    FewerCircuits,
    StoreyCircuit,
    StoreyLayout,
    StoreyTask,
    Unplaced,
)
from ..storey.model.tail_records import StoreyPlan, UnroutedTail
from ..storey.own_frame import OwnFrame
from .drawn_crossings import DrawnCrossing, drawn_crossings
from .floors import RoomToHeat
from .house import StoreySite
from .tail_neighbours import FreeFloor, places

__all__ = ["BareFloor", "Drawing", "DrawnStorey", "PassedPipe"]

_CHORD_ERROR = 1e-3
_TOUCHED = 0.01
"""Share of a part of the floor that a field must lie in at least to have it."""
_LEAST = 0.01
"""Shorter pieces of pipe in a room of others are rounding at the doorway [m]."""
_DUST = 1e-6
"""Shorter parts of a piece have no direction [m]."""


class PassedPipe(NamedTuple):
    """So much [m] of a circuit's flow, or of its return, lies in a room that it only passes; ``free`` floor [m] on its
    left and right at places evenly along it."""

    circuit: str
    place: int
    flow: bool
    length: float
    free: tuple[tuple[float, float], ...]


class _Inside(NamedTuple):
    """The same with its ``stretches``."""

    circuit: str
    place: int
    flow: bool
    length: float
    stretches: list[LineString]


class BareFloor(NamedTuple):
    """Floor of a room that lies ``away`` [m] and more from all pipe: its ``area`` [m2] and that of its ``largest`` part
    [m2], with a ``place`` in it."""

    area: float
    largest: float
    place: Point
    away: float

    @property
    def words(self) -> str:
        at = f"[{self.place[0]:.2f}, {self.place[1]:.2f}]"
        return (
            f"{self.area:.1f} m2 of its floor lie more than {self.away * 1000.0:.0f} mm from all pipe and stay cold, "
            f"most of it near {at}"
        )


@dataclass(frozen=True)
class Drawing:
    """The layout of a task, and what is measured on it whatever its rooms need. Rooms go by their place on the plan."""

    task: StoreyTask
    layout: StoreyLayout

    @property
    def plan(self) -> StoreyPlan:
        return self.task.plan

    @cached_property
    def passed(self) -> tuple[PassedPipe, ...]:
        """Pipe of all circuits in rooms of others."""
        inside = [each for circuit in self.layout.circuits for each in self._inside(circuit)]
        free = self._free(inside)
        return tuple(
            PassedPipe(one.circuit, one.place, one.flow, one.length, beside)
            for one, beside in zip(inside, free, strict=True)
        )

    def _inside(self, circuit: StoreyCircuit) -> Iterator[_Inside]:
        """The flow is the first half of the pipe, the return the second."""
        line = self.lines[circuit.id]
        middle = line.length / 2.0
        for place, floor in enumerate(self.plan.rooms):
            if place == circuit.room or not shapely.intersects(line, floor):
                continue
            for flow, half in (
                (True, substring(line, 0.0, middle)),
                (False, substring(line, middle, line.length)),
            ):
                inside = intersection(half, floor)
                length = float(inside.length)
                if length > _LEAST:
                    stretches = [part for part in shapely.get_parts(inside) if part.length > _DUST]
                    yield _Inside(circuit.id, place, flow, length, stretches)

    def _free(self, inside: Sequence[_Inside]) -> list[tuple[tuple[float, float], ...]]:
        """Free floor beside each of them, looked for in a room at once."""
        found: list[tuple[tuple[float, float], ...]] = [()] * len(inside)
        for place in sorted({one.place for one in inside}):
            own, _ = self._left(place)
            room = FreeFloor(self.plan.rooms[place], tuple(self.lines.values()), own)
            numbers = [number for number, one in enumerate(inside) if one.place == place]
            rows = room.beside([part for number in numbers for part in inside[number].stretches]).tolist()
            for number in numbers:
                count = sum(map(places, inside[number].stretches))
                found[number], rows = tuple(map(tuple, rows[:count])), rows[count:]
        return found

    @cached_property
    def lines(self) -> dict[str, LineString]:
        """The centre line of each circuit."""
        return {one.id: LineString(one.path.polyline(_CHORD_ERROR)) for one in self.layout.circuits}

    def bare_floor(self, place: int, pipe_spacing: float) -> BareFloor | None:
        """Floor of a room that would be bare at a spacing [m], by the measure of rooms with circuits; ``None``: there
        is none."""
        if (place, pipe_spacing) not in self._bare:
            self._bare[place, pipe_spacing] = self._bare_floor(place, pipe_spacing)
        return self._bare[place, pipe_spacing]

    @cached_property
    def _bare(self) -> dict[tuple[int, float], BareFloor | None]:
        return {}

    def _bare_floor(self, place: int, pipe_spacing: float) -> BareFloor | None:
        floor = self.plan.rooms[place]
        near = [one.path for one in self.layout.circuits if self.lines[one.id].dwithin(floor, pipe_spacing)]
        found = CoveredFloor(self.task.rooms[place].room, near, pipe_spacing, self.task.wall_clearance)
        spot = next(iter(found.spots), None)
        if spot is None:
            return None
        return BareFloor(float(found.bare.area), spot.area, spot.place, SERVED * pipe_spacing)

    def crossed(self, points: tuple[Point, ...]) -> tuple[DrawnCrossing, ...]:
        """Pipes on a movement joint through ``points`` [m]."""
        if points not in self._crossed:
            self._crossed[points] = tuple(drawn_crossings(self.layout.circuits, points))
        return self._crossed[points]

    @cached_property
    def _crossed(self) -> dict[tuple[Point, ...], tuple[DrawnCrossing, ...]]:
        return {}

    def is_covered(self, place: int, pipe_spacing: float) -> bool:
        """Whether pipe of others leaves no more of a room's floor bare at a spacing [m] than a hall may have."""
        if (place, pipe_spacing) not in self._covered:
            floor = self.plan.rooms[place]
            others = (self.lines[one.id] for one in self.layout.circuits if one.room != place)
            bare = float(bare_floor(floor, others, pipe_spacing).area)
            self._covered[place, pipe_spacing] = bare <= max(MOST_BARE * floor.area, LEAST_BARE)
        return self._covered[place, pipe_spacing]

    @cached_property
    def _covered(self) -> dict[tuple[int, float], bool]:
        return {}

    def lanes(self, place: int) -> list[Polygon]:
        """Floor of a room that tails to others take."""
        return [lane.floor for lane in self.layout.tails.lanes if lane.room == place]

    @cached_property
    def cut_off(self) -> dict[int, list[Polygon]]:
        """What lanes leave of rooms and their own circuits do not lie in, by room with lanes."""
        crossed = sorted({lane.room for lane in self.layout.tails.lanes})
        return {place: self._left(place)[1] for place in crossed}

    def cold_floor(self, place: int, pipe_spacing: float) -> BareFloor | None:
        """What is cut off of a room and lies too far from any pipe at a spacing [m]; ``None``: nothing does."""
        cut_off = shapely.MultiPolygon(self.cut_off.get(place, []))
        parts = shapely.get_parts(bare_floor(cut_off, self.lines.values(), pipe_spacing))
        largest = max(parts, key=lambda part: round(float(part.area), 6), default=None)
        if largest is None or not largest.area:
            return None
        middle = shapely.point_on_surface(largest)
        area = math.fsum(float(part.area) for part in parts)
        return BareFloor(area, float(largest.area), (middle.x, middle.y), SERVED * pipe_spacing)

    def _left(self, place: int) -> tuple[list[Polygon], list[Polygon]]:
        if place not in self._known:
            self._known[place] = self._parted(place)
        return self._known[place]

    @cached_property
    def _known(self) -> dict[int, tuple[list[Polygon], list[Polygon]]]:
        return {}

    def _parted(self, place: int) -> tuple[list[Polygon], list[Polygon]]:
        """What lanes leave of a room: for its own circuits, and cut off from them. Neither where it has none."""
        fields = [circuit.floor for circuit in self.layout.circuits if circuit.room == place]
        if not fields:
            return [], []
        left = opened(minus(self.plan.rooms[place], union(self.lanes(place))), self.task.wall_clearance)
        field = union(fields)
        own: list[Polygon] = []
        cut_off: list[Polygon] = []
        for part in parts_of(left):
            touched = intersection(part, field).area >= _TOUCHED * part.area
            (own if touched else cut_off).append(part)
        return own, cut_off


@dataclass(frozen=True)
class DrawnStorey:
    """A part of a storey, or all of it, and its drawing in a ``frame`` of its own. Rooms go by their place on the site,
    and all but the drawing is where it lies on the storey and as it is called there."""

    site: StoreySite
    drawing: Drawing
    frame: OwnFrame

    @cached_property
    def indices(self) -> frozenset[int]:
        """Of its rooms in the house."""
        return frozenset(room.index for room in self.site.rooms)

    @property
    def tail_pitch(self) -> float:
        """Of its tails as laid [m]."""
        return self.drawing.layout.tail_pitch

    @cached_property
    def circuits(self) -> tuple[StoreyCircuit, ...]:
        return tuple(map(self.frame.circuit, self.drawing.layout.circuits))

    @cached_property
    def unplaced(self) -> tuple[Unplaced, ...]:
        return tuple(map(self.frame.unplaced, self.drawing.layout.unplaced))

    @property
    def fewer(self) -> Iterator[FewerCircuits]:
        """Rooms that were laid with as many circuits as have a way."""
        return map(self.frame.fewer, self.drawing.layout.fewer)

    @property
    def narrow(self) -> Iterator[UnroutedTail]:
        """Places for which tails lie closer than asked for."""
        return map(self.frame.unrouted, self.drawing.layout.narrow)

    @property
    def passed(self) -> Iterator[PassedPipe]:
        """Pipe of all circuits in rooms of others."""
        return (one._replace(circuit=self.frame.name(one.circuit)) for one in self.drawing.passed)

    def bare_floor(self, room: RoomToHeat, pipe_spacing: float) -> BareFloor | None:
        """Floor of a room that is bare at a spacing [m] as pipe of others lies there: all of it, or of what their tails
        cut off from its own circuits."""
        place = self.site.place_of(room)
        measure = self.drawing.cold_floor if room.own_circuits else self.drawing.bare_floor
        bare = measure(place, pipe_spacing)
        return bare and bare._replace(place=self.frame.place(bare.place))
