"""From a room and an entry to one pipe that can be laid: several ways are tried, the validator judges."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal, TypeVar

import numpy as np
import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ..joining.entry import entry_at
from ..judging.route_check import RouteCheck
from ..mapping.peripheral_mapping import CloserStrip, Stretched
from ..model.field import Draft, Engine, Entry, Field, LostPlace
from ..outlines.denser_area import DenserArea
from ..outlines.pipe_zone import WallClearance, pipe_zone
from ..outlines.polygons import RoomOutline
from ..outlines.room_frame import room_frame
from ..pipes.fillets import TightCorner
from ..pipes.pipe_path import PipePath
from .route_choice import Candidate, Chooser
from .ways import Pattern, rescues, ways

__all__ = [
    "LARGEST_BEND_SHARE",
    "LONGEST_ROUTE",
    "CloserStrip",
    "Laid",
    "LayingTask",
    "Pattern",
    "Refusal",
    "drafted",
    "lay",
]

_Geometry = TypeVar("_Geometry", LineString, Polygon)

LARGEST_BEND_SHARE = 1.1
"""Greatest bend radius, in spacings: beyond it turns would touch their neighbours."""
LONGEST_ROUTE = 10_000.0
"""Of one circuit, in spacings: 1.5 km at 150 mm, ten times what any circuit may be."""
_TAIL_REACH = 1.2
"""Longest way of a tail from the wall to where pipe may lie, in clearances."""


@dataclass(frozen=True, slots=True)
class LayingTask:
    """What is asked of one circuit; lengths in metres, ``entry`` on the outline in the caller's frame.

    ``outermost_pipe``: which half of the pipe runs along the walls. ``quick`` leaves out the spacing fit and
    takes the first way that can be laid. ``scales``: pipe spacings of the rings along x and y of the room's own
    frame, in terms of ``pipe_spacing``, where they are known; they are not fitted then.
    """

    pipe_spacing: float
    wall_clearance: float
    bend_radius: float
    tail_pitch: float
    entry: Point
    pattern: Pattern = "counterflow"
    quick: bool = False
    outermost_pipe: Literal["flow", "return"] = "flow"
    walls: tuple[WallClearance, ...] = ()
    closer_strip: CloserStrip | None = None
    scales: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class Refusal:
    """Why no pipe can be laid. ``value`` missed ``limit``, where there is a number to it [m]."""

    code: str
    place: Point | None = None
    value: float | None = None
    limit: float | None = None


@dataclass(frozen=True)
class Laid:
    """A pipe in the caller's frame with the validator's word on it, or the refusal.

    ``unresolved`` are bends tighter than asked for, ``lost`` floor without pipe that could have had some,
    ``spacings`` [m] along and across the room's main walls where they were fitted. ``unserved`` are the walls
    of the closer strip (their numbers) beside which it could not be laid closer.
    """

    entry: Entry
    path: PipePath | None = None
    check: RouteCheck | None = None
    engine: Engine | None = None
    variant: str = ""
    spacings: tuple[float, float] | None = None
    lost: tuple[LostPlace, ...] = ()
    unresolved: tuple[TightCorner, ...] = ()
    unserved: tuple[int, ...] = ()
    refusal: Refusal | None = None


def lay(room: RoomOutline, task: LayingTask) -> Laid:
    """Lay one circuit in a room.

    The answer is a valid route or a refusal, never a route that failed the validator.
    """
    home = _Home(room)
    field = _field(home, task)
    home.entry = home.outer_entry(field.entry)
    if task.bend_radius > LARGEST_BEND_SHARE * task.pipe_spacing * (1.0 + 1e-9):
        limit = LARGEST_BEND_SHARE * task.pipe_spacing
        return Laid(home.entry, refusal=Refusal("bend_radius", None, task.bend_radius, limit))
    if field.zone.free is None:
        return Laid(home.entry, refusal=Refusal("no_room_for_pipe"))
    length, longest = field.zone.free.area / task.pipe_spacing, LONGEST_ROUTE * task.pipe_spacing
    if length > longest:
        return Laid(home.entry, refusal=Refusal("too_long_for_one_circuit", None, length, longest))
    strip = _local_strip(home, task.closer_strip)
    denser = () if strip is None else (DenserArea(strip.area, strip.pipe_spacing),)
    chooser, stretched = Chooser(field, denser, task.quick), Stretched(field, strip)
    best = chooser.best(stretched.drafts(ways(stretched.image, task.pattern, task.quick, task.scales)))
    if best is None or not best.check.valid:
        best = chooser.best(stretched.drafts(rescues(stretched.image, task.pattern))) or best
    if best is None:
        return Laid(home.entry, refusal=Refusal("too_narrow"))
    return replace(_answer(best, home, room, task), unserved=stretched.unserved)


def drafted(room: RoomOutline, task: LayingTask) -> Draft | None:
    """The first draft from which a circuit would be laid, in the room's own frame: its corners tell the length to
    half a part in a hundred for a tenth of what laying costs. None where there is none."""
    field = _field(_Home(room), task)
    if field.zone.free is None:
        return None
    stretched = Stretched(field, None)
    drafts = stretched.drafts(ways(stretched.image, task.pattern, task.quick, task.scales))
    return next((draft for kind in drafts for draft in kind), None)


def _field(home: _Home, task: LayingTask) -> Field:
    walls = tuple(replace(wall, stretch=home.local(wall.stretch)) for wall in task.walls)
    zone = pipe_zone(home.polygon, task.pipe_spacing, task.wall_clearance, walls)
    reach = _TAIL_REACH * max(task.wall_clearance, *(wall.clearance for wall in walls), 0.0)
    place = home.local_place(task.entry)
    return Field(
        room=home.polygon,
        pipe_spacing=task.pipe_spacing,
        wall_clearance=task.wall_clearance,
        bend_radius=task.bend_radius,
        tail_pitch=task.tail_pitch,
        entry=entry_at(home.polygon, place, task.tail_pitch, zone.shell, reach),
        walls=walls,
    )


def _local_strip(home: _Home, strip: CloserStrip | None) -> CloserStrip | None:
    if strip is None:
        return None
    return replace(strip, walls=tuple(map(home.local, strip.walls)), area=home.local(strip.area))


def _answer(best: Candidate, home: _Home, room: RoomOutline, task: LayingTask) -> Laid:
    entry = home.entry
    if not best.check.valid:
        fault = best.check.faults[0]
        return Laid(entry, refusal=Refusal(fault.code, home.place(fault.place), fault.value, fault.limit))
    path = home.path(best.bends.path)
    if _runs_along_walls_first(path, task, room) != (task.outermost_pipe == "flow"):
        path = path.reversed()
    return Laid(
        entry,
        path=path,
        check=home.check(best.check),
        engine=best.draft.engine,
        variant=best.draft.variant,
        spacings=best.draft.spacings,
        lost=tuple(replace(lost, place=home.place(lost.place)) for lost in best.draft.lost),
        unresolved=tuple(corner._replace(place=home.place(corner.place)) for corner in best.bends.unresolved),
    )


def _runs_along_walls_first(path: PipePath, task: LayingTask, room: RoomOutline) -> bool:
    """Whether the first half of the pipe lies along the walls for a greater length than the second."""
    count = max(2, 2 * round(path.length / task.pipe_spacing))
    at = (np.arange(count, dtype=np.float64) + 0.5) * (path.length / count)
    points = shapely.points(path.points_at(at) - room.origin)
    near = shapely.distance(points, room.polygon.boundary) < task.wall_clearance + task.pipe_spacing / 2.0
    half = count // 2
    return int(near[:half].sum()) >= int(near[count - half :].sum())


class _Home:
    """The way between the caller's frame and the room's own."""

    def __init__(self, room: RoomOutline) -> None:
        self._frame = room_frame(room.polygon)
        self._origin = room.origin
        # Normalized, so that it does not count where the caller's rings start and which void comes first.
        self.polygon = shapely.orient_polygons(shapely.normalize(self._frame.to_local(room.polygon)))
        self.entry = Entry((0.0, 0.0), ((0.0, 0.0), (0.0, 0.0)), (1.0, 0.0))

    def local(self, geometry: _Geometry) -> _Geometry:
        """A line or area of the caller's frame in the room's own."""
        moved = shapely.transform(geometry, lambda points: points - self._origin)
        local: _Geometry = self._frame.to_local(moved)
        return local

    def local_place(self, place: Point) -> Point:
        x, y = self._frame.local_points(np.array([place]) - self._origin)[0].tolist()
        return x, y

    def place(self, place: Point) -> Point:
        """A place of the room's own frame in the caller's."""
        x, y = (self._frame.outer_points(np.array([place]))[0] + self._origin).tolist()
        return x, y

    def path(self, path: PipePath) -> PipePath:
        (x, y), (ox, oy) = self._frame.origin, self._origin
        return path.turned(self._frame.axis).moved((x + ox, y + oy))

    def outer_entry(self, entry: Entry) -> Entry:
        (x, y), (c, s) = entry.inward, self._frame.axis
        first, last = (self.place(end) for end in entry.ends)
        return Entry(self.place(entry.place), (first, last), (c * x - s * y, s * x + c * y))

    def check(self, check: RouteCheck) -> RouteCheck:
        bare_spots, left_out = (
            tuple(replace(spot, place=self.place(spot.place)) for spot in spots)
            for spots in (check.measures.bare_spots, check.measures.left_out)
        )
        return replace(check, measures=replace(check.measures, bare_spots=bare_spots, left_out=left_out))
