"""Floors as drawn, made into outlines that a design takes: gaps closed, overlaps cut, corners that say nothing left
out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import shapely
from shapely import Polygon

from ..errors import InputError
from ..places import Point
from ..plan.outlines.overlays import difference, intersection, union
from ..plan.outlines.polygons import MAXIMUM_RING_VERTICES, room_outline
from .drawn_plan import DrawnRoom

__all__ = ["OutlinedRoom", "outlined", "without_overlaps"]

_DECIMALS = 4
"""Of the metre in outlines: finer than anybody builds, coarser than what a change of unit blurs."""
_STRAIGHT = 0.002
"""A corner this near to the line between its neighbours says nothing [m]."""
_THIN = 0.005
"""Corners nearer to each other are one, and parts that are narrower are no floor [m]."""
_SMALL_OVERLAP = 0.05
"""Share of the smaller room up to which an overlap is cut off the later one, and reported; common practice, no
source."""
_LEAST_VOID = 0.01
"""A hole of less is a joint of the drawing [m2]."""


@dataclass(slots=True)
class OutlinedRoom:
    """A room with its floor as one polygon. ``closed`` [m2] is what snapping added or took, ``lost`` [m2] the parts
    that do not hang together with the rest."""

    room: DrawnRoom
    floor: Polygon
    closed: float = 0.0
    lost: float = 0.0

    @property
    def outline(self) -> tuple[Point, ...]:
        return _points(self.floor.exterior)

    @property
    def voids(self) -> tuple[tuple[Point, ...], ...]:
        return tuple(_points(ring) for ring in self.floor.interiors)


def outlined(room: DrawnRoom, tolerance: float) -> OutlinedRoom | str:
    """The room with a sound outline; gaps of no more than ``tolerance`` [m] are closed. A text says why there is
    none."""
    if room.fault:
        return room.fault
    if not room.floor:
        return "the file gives no flat floor for it"
    parts = [shapely.make_valid(part) for part in room.floor]
    drawn = union(parts)
    floor = _cleaned(union([drawn, _gaps(drawn, tolerance)]), tolerance)
    if floor is None:
        return "its floor has no area"
    whole = max(float(drawn.area), 1e-9)
    made = OutlinedRoom(room, floor, lost=max(0.0, whole - float(intersection(floor, drawn).area)))
    made.closed = abs(float(floor.area) - whole + made.lost)
    return _fault(floor) or made


def without_overlaps(rooms: Sequence[OutlinedRoom], tolerance: float) -> dict[str, str]:
    """Cut overlaps that are small, or no wider than ``tolerance`` [m], off the later room; by id, why a room must be
    left out because it overlaps one before it."""
    reasons: dict[str, str] = {}
    floors = [made.floor for made in rooms]
    pairs = shapely.STRtree(floors).query(floors, predicate="intersects").T.tolist() if floors else []
    for first, second in sorted(pairs):
        one, other = rooms[first], rooms[second]
        if first >= second or {one.room.id, other.room.id} & reasons.keys():
            continue
        common = intersection(one.floor, other.floor)
        if common.area <= 1e-9:
            continue
        rest = None
        small = common.area <= _SMALL_OVERLAP * min(one.floor.area, other.floor.area)
        if small or not common.buffer(-tolerance / 2.0).area:
            rest = _cleaned(difference(other.floor, one.floor), tolerance)
        if rest is None or _fault(rest):
            reasons[other.room.id] = f"it overlaps {one.room.name or one.room.id} by {common.area:.2f} m2"
            continue
        other.closed += float(common.area)
        other.floor = rest
    return reasons


def _gaps(drawn: shapely.Geometry, tolerance: float) -> shapely.Geometry:
    """What lies between parts that are no further apart than ``tolerance``."""
    half = tolerance / 2.0
    grown = shapely.buffer(drawn, half, join_style="mitre", mitre_limit=2.0)
    closed = shapely.buffer(grown, -half * 1.001, join_style="mitre", mitre_limit=2.0)
    return difference(closed, drawn) if shapely.get_num_geometries(drawn) > 1 else Polygon()


def _cleaned(floor: shapely.Geometry, tolerance: float) -> Polygon | None:
    """The largest part, without corners that say nothing and without spikes; None: nothing is left."""
    for straight in (_STRAIGHT, tolerance, 2.0 * tolerance):
        part = _largest(floor)
        if part is None:
            return None
        part = _largest(part.buffer(-_THIN, join_style="mitre").buffer(_THIN, join_style="mitre"))
        if part is None:
            return None
        filled = part.buffer(_THIN, join_style="mitre").buffer(-_THIN, join_style="mitre")
        part = _largest(shapely.remove_repeated_points(shapely.simplify(filled, straight), _THIN))
        if part is None:
            return None
        kept = [ring for ring in part.interiors if Polygon(ring).area >= _LEAST_VOID]
        rounded = shapely.make_valid(_rounded(Polygon(part.exterior, kept)))
        part = _largest(rounded)
        if part is None or len(part.exterior.coords) <= MAXIMUM_RING_VERTICES:
            return part
    return part


def _rounded(polygon: Polygon) -> Polygon:
    return shapely.transform(polygon, lambda points: points.round(_DECIMALS) + 0.0)


def _largest(geometry: shapely.Geometry) -> Polygon | None:
    parts = [part for part in shapely.get_parts(geometry) if isinstance(part, Polygon) and part.area > 0.0]
    return max(parts, key=lambda part: float(part.area), default=None)


def _fault(floor: Polygon) -> str:
    try:
        room_outline(_points(floor.exterior), [_points(ring) for ring in floor.interiors])
    except InputError as error:
        return "its outline is no room: " + error.faults[0].detail
    return ""


def _points(ring: shapely.LinearRing) -> tuple[Point, ...]:
    return tuple((float(x), float(y)) for x, y in shapely.get_coordinates(ring)[:-1])
