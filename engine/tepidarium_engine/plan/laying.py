"""From a room and an entry to one pipe that can be laid: several ways are tried, the validator judges."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
import shapely

from ..checking import Point
from .bending import Bent, bent
from .entry import entry_at
from .field import Draft, Engine, Entry, Field
from .fillets import TightCorner
from .pipe_path import PipePath
from .pipe_zone import WallClearance, pipe_zone
from .polygons import RoomOutline
from .rings import LostPlace
from .room_frame import RoomFrame, room_frame
from .route_check import RouteCheck, check_route
from .ways import Pattern, rescues, ways

__all__ = ["LARGEST_BEND_SHARE", "Laid", "LayingTask", "Pattern", "Refusal", "lay"]

LARGEST_BEND_SHARE = 0.8
"""Greatest bend radius, in spacings: beyond it turns would touch their neighbours."""
_TAIL_REACH = 1.2
"""Longest way of a tail from the wall to where pipe may lie, in clearances."""
_LEAST_SERVED = 0.975
_GOOD_SERVED = 0.995
_GOOD_NEAR = 0.97
_GOOD_DISTANCE = 0.76
_GOOD_SPREAD = 0.035
"""Coverage within 0.75 and 0.5 spacings, least distance in spacings, spread of the water temperature as a share
of its drop: what a pipe reaches that need not be laid another way."""


@dataclass(frozen=True, slots=True)
class LayingTask:
    """What is asked of one circuit; lengths in metres, ``entry`` on the outline in the caller's frame.

    ``outermost_pipe``: which half of the pipe runs along the walls. ``quick`` leaves out the spacing fit and
    takes the first way that can be laid.
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
    ``spacings`` [m] along and across the room's main walls where they were fitted.
    """

    entry: Entry
    path: PipePath | None = None
    check: RouteCheck | None = None
    engine: Engine | None = None
    variant: str = ""
    spacings: tuple[float, float] | None = None
    lost: tuple[LostPlace, ...] = ()
    unresolved: tuple[TightCorner, ...] = ()
    refusal: Refusal | None = None


@dataclass(frozen=True, slots=True)
class _Candidate:
    draft: Draft
    bends: Bent
    check: RouteCheck
    badness: float


def lay(room: RoomOutline, task: LayingTask) -> Laid:
    """Lay one circuit in a room.

    The answer is a valid route or a refusal, never a route that failed the validator.
    """
    frame = room_frame(room.polygon)
    field = _field(room, task, frame)
    entry = _outer_entry(field.entry, frame, room.origin)
    if task.bend_radius > LARGEST_BEND_SHARE * task.pipe_spacing * (1.0 + 1e-9):
        limit = LARGEST_BEND_SHARE * task.pipe_spacing
        return Laid(entry, refusal=Refusal("bend_radius", None, task.bend_radius, limit))
    if field.zone.free is None:
        return Laid(entry, refusal=Refusal("no_room_for_pipe"))
    best = _best(ways(field, task.pattern, task.quick), field, task, None)
    if best is None or not best.check.valid:
        best = _best(rescues(field, task.pattern), field, task, best)
    if best is None:
        return Laid(entry, refusal=Refusal("too_narrow"))
    return _answer(best, entry, frame, room, task)


def _field(room: RoomOutline, task: LayingTask, frame: RoomFrame) -> Field:
    polygon = shapely.orient_polygons(frame.to_local(room.polygon))
    (x, y), (ox, oy) = task.entry, room.origin
    entry = frame.local_points(np.array([[x - ox, y - oy]]))[0].tolist()
    walls = tuple(
        replace(
            wall, stretch=frame.to_local(shapely.transform(wall.stretch, lambda points: points - room.origin))
        )
        for wall in task.walls
    )
    zone = pipe_zone(polygon, task.pipe_spacing, task.wall_clearance, walls)
    reach = _TAIL_REACH * max(task.wall_clearance, *(wall.clearance for wall in walls), 0.0)
    return Field(
        room=polygon,
        pipe_spacing=task.pipe_spacing,
        wall_clearance=task.wall_clearance,
        bend_radius=task.bend_radius,
        tail_pitch=task.tail_pitch,
        entry=entry_at(polygon, (entry[0], entry[1]), task.tail_pitch, zone.shell, reach),
        walls=walls,
    )


def _best(
    kinds: Iterator[Iterator[Draft]], field: Field, task: LayingTask, best: _Candidate | None
) -> _Candidate | None:
    """The best of the drafts and of what there is.

    A kind is left once one of its drafts runs in good order, and all of them once one also covers the floor.
    """
    for kind in kinds:
        for draft in kind:
            candidate = _judged(draft, field)
            if best is None or _better(candidate, best):
                best = candidate
            if candidate.check.valid and (task.quick or _is_orderly(candidate, task)):
                break
        if best is not None and best.check.valid and (task.quick or _is_good(best, task)):
            break
    return best


def _judged(draft: Draft, field: Field) -> _Candidate:
    bends = bent(draft, field)
    check = check_route(
        bends.path,
        field.room,
        pipe_spacing=field.pipe_spacing,
        wall_clearance=field.wall_clearance,
        bend_radius=field.bend_radius,
        entry=field.entry.place,
        tail_pitch=field.tail_pitch,
        walls=field.walls,
    )
    return _Candidate(draft, bends, check, _badness(draft, bends, check))


def _badness(draft: Draft, bends: Bent, check: RouteCheck) -> float:
    """The lower the better; of valid routes with all rings a good one comes to about -0.9."""
    measures = check.measures
    badness = 2.0 * (1.0 - measures.coverage_half) + 6.0 * (1.0 - measures.coverage_three_quarters)
    badness += 15.0 * max(0.0, _LEAST_SERVED - measures.coverage_three_quarters)
    badness += 0.3 * _dropped(draft) + 0.03 * len(bends.unresolved)
    if draft.engine != "comb":
        badness += 4.0 * (measures.temperature_spread or 0.0) - (measures.mixed_share or 0.0)
    if measures.least_distance is not None:
        badness += 2.0 * max(0.0, 0.8 - measures.least_distance)
    return round(badness, 6)


def _dropped(draft: Draft) -> int:
    """Number of places that were to have pipe and got none; what is too small for it is bare floor."""
    return sum(lost.reason == "unreached" for lost in draft.lost)


def _better(one: _Candidate, other: _Candidate) -> bool:
    return (not one.check.valid, one.badness) < (not other.check.valid, other.badness)


def _is_good(candidate: _Candidate, task: LayingTask) -> bool:
    """Whether no other kind needs to be tried."""
    measures = candidate.check.measures
    return (
        _is_orderly(candidate, task)
        and measures.coverage_three_quarters >= _GOOD_SERVED
        and measures.coverage_half >= _GOOD_NEAR
        and not _dropped(candidate.draft)
    )


def _is_orderly(candidate: _Candidate, task: LayingTask) -> bool:
    """Whether no other draft of the same kind needs to be tried."""
    measures = candidate.check.measures
    return (
        candidate.check.valid
        and not candidate.bends.unresolved
        and (measures.least_distance or 1.0) >= _GOOD_DISTANCE
        and (task.pattern == "serpentine" or (measures.temperature_spread or 0.0) <= _GOOD_SPREAD)
    )


def _answer(best: _Candidate, entry: Entry, frame: RoomFrame, room: RoomOutline, task: LayingTask) -> Laid:
    if not best.check.valid:
        fault = best.check.faults[0]
        place = _outer(fault.place, frame, room.origin)
        return Laid(entry, refusal=Refusal(fault.code, place, fault.value, fault.limit))
    path = best.bends.path
    if _runs_along_walls_first(path, task, frame.to_local(room.polygon)) != (task.outermost_pipe == "flow"):
        path = path.reversed()
    return Laid(
        entry,
        path=path.turned(frame.axis).moved(_sum(frame.origin, room.origin)),
        check=_outer_check(best.check, frame, room.origin),
        engine=best.draft.engine,
        variant=best.draft.variant,
        spacings=best.draft.spacings,
        lost=tuple(replace(lost, place=_outer(lost.place, frame, room.origin)) for lost in best.draft.lost),
        unresolved=tuple(
            corner._replace(place=_outer(corner.place, frame, room.origin))
            for corner in best.bends.unresolved
        ),
    )


def _runs_along_walls_first(path: PipePath, task: LayingTask, polygon: shapely.Polygon) -> bool:
    """Whether the first half of the pipe lies along the walls for a greater length than the second."""
    count = max(2, 2 * round(path.length / task.pipe_spacing))
    at = (np.arange(count, dtype=np.float64) + 0.5) * (path.length / count)
    points = shapely.points(path.points_at(at))
    near = shapely.distance(points, polygon.boundary) < task.wall_clearance + task.pipe_spacing / 2.0
    half = count // 2
    return int(near[:half].sum()) >= int(near[count - half :].sum())


def _outer_check(check: RouteCheck, frame: RoomFrame, origin: Point) -> RouteCheck:
    bare_spots, left_out = (
        tuple(replace(spot, place=_outer(spot.place, frame, origin)) for spot in spots)
        for spots in (check.measures.bare_spots, check.measures.left_out)
    )
    return replace(check, measures=replace(check.measures, bare_spots=bare_spots, left_out=left_out))


def _outer_entry(entry: Entry, frame: RoomFrame, origin: Point) -> Entry:
    (x, y), (c, s) = entry.inward, frame.axis
    first, last = (_outer(end, frame, origin) for end in entry.ends)
    return Entry(_outer(entry.place, frame, origin), (first, last), (c * x - s * y, s * x + c * y))


def _outer(place: Point, frame: RoomFrame, origin: Point) -> Point:
    x, y = frame.outer_points(np.array([place]))[0].tolist()
    return _sum((x, y), origin)


def _sum(a: Point, b: Point) -> Point:
    return (a[0] + b[0], a[1] + b[1])
