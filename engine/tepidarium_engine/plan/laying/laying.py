"""From a room and an entry to one pipe that can be laid: several ways are tried, the validator judges."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import islice
from typing import Literal, TypeVar

import numpy as np
import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ..counterflow.counterflow import counterflow_drafts
from ..counterflow.room_fit import scaled_rings
from ..joining.entry import entry_at
from ..judging.route_check import RouteCheck
from ..mapping.peripheral_mapping import CloserStrip, Stretched
from ..model.field import Draft, Engine, Entry, Field, LostPlace
from ..outlines.denser_area import DenserArea
from ..outlines.pipe_zone import WallClearance, pipe_zone
from ..outlines.polygons import RoomOutline
from ..pipes.pipe_path import PipePath
from .home_frame import Home, home_frame
from .route_choice import Chooser
from .spacing_limits import bends_fit, largest_bend
from .ways import Pattern, rescues, ways

__all__ = [
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

LONGEST_ROUTE = 10_000.0
"""Of one circuit, in spacings: 1.5 km at 150 mm, ten times what any circuit may be."""
_LONG_ROUTE = 5_000.0
"""Of one circuit, in spacings: 500 m at 100 mm, only drawn to show it. The first way that can be laid will do."""
_TAIL_REACH = 1.1
"""Longest way of a tail from the wall to where pipe may lie, in clearances."""
_ALIKE = 0.03
"""By how much pipe at other scales than the given ones may be longer or shorter."""
_MOST_RESCUES = 1
"""Kinds of drafts that are looked at where neither given nor fitted scales can be laid: in 300 random rooms pieces of
rooms came to it four times, and the first of these kinds served one of them, no other kind any. Another cut may; a
quick layout goes on to that at once."""
_REMEMBERED = 256
"""Rooms whose pipe is remembered: some 50 kB each."""


@dataclass(frozen=True, slots=True)
class LayingTask:
    """What is asked of one circuit; lengths in metres, ``entry`` on the outline in the caller's frame.

    ``outermost_pipe``: which half of the pipe runs along the walls. ``quick`` leaves out the spacing fit and
    takes the first way that can be laid. ``scales``: pipe spacings of the rings along x and y of the room's own
    frame, in terms of ``pipe_spacing``, where they are known; others are looked for where they leave floor bare or
    cannot be laid.
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

    ``lost`` is floor without pipe that could have had some, ``spacings`` [m] are those along and across the room's main
    walls where they were fitted. ``unserved`` are the walls of the closer strip (their numbers) beside which it could
    not be laid closer.
    """

    entry: Entry
    path: PipePath | None = None
    check: RouteCheck | None = None
    engine: Engine | None = None
    variant: str = ""
    spacings: tuple[float, float] | None = None
    lost: tuple[LostPlace, ...] = ()
    unserved: tuple[int, ...] = ()
    refusal: Refusal | None = None


def lay(room: RoomOutline, task: LayingTask) -> Laid:
    """Lay one circuit in a room.

    The answer is a valid route or a refusal, never a route that failed the validator.
    """
    home = home_frame(room, task.entry)
    return _carried_home(_laid(home.polygon, _local(task, home)), home)


def drafted(room: RoomOutline, task: LayingTask) -> Draft | None:
    """The first draft from which a circuit would be laid, in the frame in which it is laid: its corners tell the length
    to half a part in a hundred for a tenth of what laying costs. None where there is none."""
    home = home_frame(room, task.entry)
    local = _local(task, home)
    field = _field(home.polygon, local)
    if field.zone.free is None:
        return None
    drafts = ways(field, local.pattern, local.quick)
    return next((draft for kind in drafts for draft in kind), None)


@lru_cache(maxsize=_REMEMBERED)
def _laid(room: Polygon, task: LayingTask) -> Laid:
    """The circuit in the frame in which it is laid. As nothing else counts, the last rooms are remembered: a storey of
    equal flats costs one flat."""
    field = _field(room, task)
    refusal = _refused(field, task.pattern)
    if refusal is not None:
        return Laid(field.entry, refusal=refusal)
    strip = task.closer_strip
    denser = () if strip is None else (DenserArea(strip.area, strip.pipe_spacing),)
    free = field.zone.free
    long = free is not None and free.area > _LONG_ROUTE * field.pipe_spacing**2
    quick = task.quick or long
    chooser, stretched = Chooser(field, denser, quick), Stretched(field, strip)
    kinds = stretched.drafts(ways(stretched.image, task.pattern, quick))
    if task.scales is None:
        best = chooser.best(kinds)
    else:
        given = counterflow_drafts(field, scaled_rings(field, task.scales))
        best = chooser.best_covering(given, kinds, _ALIKE)
    if (best is None or not best.check.valid) and not long:
        most = None if task.scales is None else 0 if task.quick else _MOST_RESCUES
        others = islice(rescues(stretched.image, task.pattern, quick), most)
        best = replace(chooser, quick=True).best(stretched.drafts(others))
    if best is None:
        return Laid(field.entry, refusal=Refusal("too_narrow"))
    if not best.check.valid:
        faults = best.check.faults
        fault = next((each for each in faults if each.code == "crosses_itself"), faults[0])
        return Laid(field.entry, refusal=Refusal(fault.code, fault.place, fault.value, fault.limit))
    path = best.bends.path
    if _runs_along_walls_first(path, task, room) != (task.outermost_pipe == "flow"):
        path = path.reversed()
    return Laid(
        field.entry,
        path=path,
        check=best.check,
        engine=best.draft.engine,
        variant=best.draft.variant,
        spacings=best.draft.spacings,
        lost=best.draft.lost,
        unserved=stretched.unserved,
    )


def _local(task: LayingTask, home: Home) -> LayingTask:
    """What is asked, in the frame in which it is laid."""
    strip = task.closer_strip
    return replace(
        task,
        entry=home.local_place(task.entry),
        walls=tuple(replace(wall, stretch=home.local(wall.stretch)) for wall in task.walls),
        closer_strip=strip
        and replace(strip, walls=tuple(map(home.local, strip.walls)), area=home.local(strip.area)),
        scales=task.scales[::-1] if task.scales and home.exchanged else task.scales,
    )


def _field(room: Polygon, task: LayingTask) -> Field:
    zone = pipe_zone(room, task.pipe_spacing, task.wall_clearance, task.walls)
    reach = _TAIL_REACH * max(task.wall_clearance, *(wall.clearance for wall in task.walls), 0.0)
    return Field(
        room=room,
        pipe_spacing=task.pipe_spacing,
        wall_clearance=task.wall_clearance,
        bend_radius=task.bend_radius,
        tail_pitch=task.tail_pitch,
        entry=entry_at(room, task.entry, task.tail_pitch, zone.shell, reach),
        walls=task.walls,
    )


def _refused(field: Field, pattern: Pattern) -> Refusal | None:
    """What makes any pipe impossible."""
    spacing = field.pipe_spacing
    if not bends_fit(field.bend_radius, spacing, pattern):
        return Refusal("bend_radius", None, field.bend_radius, largest_bend(spacing, pattern))
    if field.zone.free is None:
        return Refusal("no_room_for_pipe")
    length, longest = field.zone.free.area / spacing, LONGEST_ROUTE * spacing
    return Refusal("too_long_for_one_circuit", None, length, longest) if length > longest else None


def _runs_along_walls_first(path: PipePath, task: LayingTask, room: Polygon) -> bool:
    """Whether the first half of the pipe lies along the walls for a greater length than the second."""
    count = max(2, 2 * round(path.length / task.pipe_spacing))
    at = (np.arange(count, dtype=np.float64) + 0.5) * (path.length / count)
    points = shapely.points(path.points_at(at))
    near = shapely.distance(points, room.boundary) < task.wall_clearance + task.pipe_spacing / 2.0
    half = count // 2
    return int(near[:half].sum()) >= int(near[count - half :].sum())


def _carried_home(laid: Laid, home: Home) -> Laid:
    """The same in the caller's frame."""
    refusal = laid.refusal
    if refusal is not None and refusal.place is not None:
        refusal = replace(refusal, place=home.place(refusal.place))
    path = laid.path and home.path(laid.path)
    return replace(
        laid,
        entry=home.entry(laid.entry),
        path=path,
        check=laid.check and home.check(laid.check, path.length if path else 0.0),
        lost=tuple(replace(lost, place=home.place(lost.place)) for lost in laid.lost),
        refusal=refusal,
    )
