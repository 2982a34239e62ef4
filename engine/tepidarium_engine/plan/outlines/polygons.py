"""The one place where rings of points become polygons.

Everything that is drawn passes through ``room_outline``. What it returns is a valid polygon of bounded size,
in a frame of its own near the origin, with nothing in it narrower than a millimetre. What is not valid is
refused with the ring and the place; nothing is repaired on the quiet: a repaired outline is another room.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely import LinearRing, Polygon

from ...checking import Point
from ...elementwise import Array
from ...errors import Fault, FaultList, InputError
from ..tolerances import LEAST_DISTANCE
from .overlays import difference, intersection
from .voids_at_walls import outline_round_voids

__all__ = [
    "LARGEST_COORDINATE",
    "LEAST_DISTANCE",
    "MAXIMUM_AREA",
    "MAXIMUM_EXTENT",
    "MAXIMUM_RING_VERTICES",
    "MAXIMUM_VERTICES",
    "MAXIMUM_VOIDS",
    "MINIMUM_AREA",
    "RoomOutline",
    "interior_width",
    "room_outline",
    "room_polygon",
    "served_area",
    "sound_outline",
]

MAXIMUM_RING_VERTICES = 256
MAXIMUM_VERTICES = 512
"""Of a room, voids included."""
MAXIMUM_VOIDS = 32
MAXIMUM_EXTENT = 200.0
"""Of the outline along x and along y [m]."""
MINIMUM_AREA = 0.25
"""Net of voids [m2]."""
MAXIMUM_AREA = 10_000.0
LARGEST_COORDINATE = 2e7
"""Of the plan, beyond any national grid; there a double still resolves 4e-9 m [m]."""

_SLACK = LEAST_DISTANCE - 1e-8
"""The least distance less what the greatest coordinates blur of a difference [m]."""


@dataclass(frozen=True, slots=True)
class RoomOutline:
    """A checked room: outline counter-clockwise, voids clockwise, in the room's own frame.

    ``origin`` is the lower left corner of the outline's bounding box in the caller's frame; add it to a local
    point to get back.
    """

    polygon: Polygon
    origin: Point

    @classmethod
    def of(cls, floor: Polygon) -> RoomOutline:
        """Sound floor [m] in the caller's frame."""
        low = (float(floor.bounds[0]), float(floor.bounds[1]))
        return cls(shapely.orient_polygons(shapely.transform(floor, lambda points: points - low)), low)

    @property
    def area(self) -> float:
        """Floor area net of voids [m2]."""
        return float(self.polygon.area)

    @property
    def perimeter(self) -> float:
        """Length of the outline and of all voids' edges [m]."""
        return float(self.polygon.length)

    @property
    def placed(self) -> Polygon:
        """The polygon in the caller's frame."""
        return shapely.transform(self.polygon, lambda points: points + self.origin)


def room_polygon(outline: Sequence[Point], voids: Sequence[Sequence[Point]] = ()) -> Polygon:
    """The polygon of ``room_outline``, for callers that need no way back to their frame."""
    return room_outline(outline, voids).polygon


def room_outline(
    outline: Sequence[Point],
    voids: Sequence[Sequence[Point]] = (),
    pointer: str = "",
    *,
    numbered_walls: bool = False,
) -> RoomOutline:
    """Check the rings [m] and build the room.

    A last point that repeats the first exactly is dropped, as many formats close their rings that way; every
    other distance under ``LEAST_DISTANCE`` is refused. Raises ``InputError`` with all faults found; they
    point to ``{pointer}/outline`` and ``{pointer}/voids/{i}`` and tell the place in the caller's coordinates. Where
    voids stand at the outline, the first fault has the changes that mend it, unless the caller has
    ``numbered_walls``: those of another outline have other numbers.
    """
    faults = FaultList()
    rings = _read_rings(outline, voids, pointer, faults)
    faults.raise_if_any()
    origin = _lower_left(rings[0][1])
    closed = [(where, _ring(points - origin, where, origin, faults)) for where, points in rings]
    faults.raise_if_any()
    shell_at, shell = closed[0]
    if len(closed) > 1:
        _check_voids([(where, Polygon(ring)) for where, ring in closed], origin, faults)
    polygon = Polygon(shell, [ring for _, ring in closed[1:]])
    if not faults.faults:
        _check_whole(polygon, closed, shell_at, origin, faults)
    if faults.faults and voids and not numbered_walls:
        faults.faults[0] = _with_changes(faults.faults[0], [points for _, points in rings], pointer)
    faults.raise_if_any()
    return RoomOutline(shapely.orient_polygons(polygon), origin)


def _with_changes(fault: Fault, rings: Sequence[Array], pointer: str) -> Fault:
    """The fault with the changes by which the outline goes round the voids that stand at it; as it is where a fault
    would stay."""
    outline, *voids = rings
    found = outline_round_voids(outline, voids)
    if found is None:
        return fault
    left = [void.tolist() for number, void in enumerate(voids) if number not in found.round]
    try:
        room_outline(found.outline, left)
    except InputError:
        return fault
    return replace(fault, changes=found.changes(pointer))


def sound_outline(outline: Sequence[Point], voids: Sequence[Sequence[Point]] = ()) -> RoomOutline:
    """The room of rings [m] that are known to be sound, and of the bounded size that ``room_outline`` checks."""
    rings = [np.array(ring, dtype=np.float64) for ring in (outline, *voids)]
    origin = _lower_left(rings[0])
    shell, *inner = (ring - origin for ring in rings)
    return RoomOutline(shapely.orient_polygons(Polygon(shell, inner)), origin)


def _lower_left(points: Array) -> Point:
    along, across = points.T.tolist()
    return min(along), min(across)


def interior_width(polygon: Polygon) -> float:
    """Diameter of the largest circle inside the polygon [m], to a millimetre: the greatest clear width."""
    return 2.0 * float(shapely.maximum_inscribed_circle(polygon, tolerance=0.0005).length)


def served_area(polygon: Polygon, pipe_spacing: float, wall_clearance: float) -> float:
    """Area that pipe at ``pipe_spacing`` covers when the outermost pipe keeps ``wall_clearance`` [m2].

    Each pipe serves half a spacing to either side, so the edge of what is served lies half a spacing outside
    the outermost pipe: the outline moved outwards by ``pipe_spacing / 2 - wall_clearance``, or inwards when
    that is negative. Divided by the spacing it gives the length of pipe. Plain area over spacing is the case
    of a clearance of half a spacing.
    """
    shift = pipe_spacing / 2.0 - wall_clearance
    if abs(shift) < 1e-9:
        return float(polygon.area)
    if shift > 0.0:
        return float(shapely.buffer(polygon, shift, join_style="mitre", mitre_limit=2.5).area)
    # Round joins: an inward offset with mitred joins can lose parts of a room that are wide enough.
    return float(shapely.buffer(polygon, shift).area)


def _read_rings(
    outline: Sequence[Point], voids: Sequence[Sequence[Point]], pointer: str, faults: FaultList
) -> list[tuple[str, Array]]:
    """All rings as arrays, each with its pointer; lengths are judged before a point is looked at."""
    if not faults.require(
        len(voids) <= MAXIMUM_VOIDS,
        f"{pointer}/voids",
        "too_many",
        f"must have at most {MAXIMUM_VOIDS} items",
        MAXIMUM_VOIDS,
    ):
        return []
    named = [
        (f"{pointer}/outline", outline),
        *((f"{pointer}/voids/{index}", void) for index, void in enumerate(voids)),
    ]
    for where, ring in named:
        if len(ring) < 3:
            faults.add(where, "too_few", "must have at least 3 points", 3)
        elif len(ring) > MAXIMUM_RING_VERTICES + 1:
            faults.add(
                where, "too_many", f"must have at most {MAXIMUM_RING_VERTICES} points", MAXIMUM_RING_VERTICES
            )
    faults.raise_if_any()
    rings = [(where, _read_points(ring, where, faults)) for where, ring in named]
    faults.raise_if_any()
    if sum(len(points) for _, points in rings) > MAXIMUM_VERTICES:
        faults.add(
            f"{pointer}/voids",
            "too_many",
            f"outline and voids must have at most {MAXIMUM_VERTICES} points together",
            MAXIMUM_VERTICES,
        )
    if max(max(values) - min(values) for values in rings[0][1].T.tolist()) > MAXIMUM_EXTENT:
        faults.add(
            f"{pointer}/outline",
            "too_large",
            f"must not extend over more than {MAXIMUM_EXTENT:g} m along x or y (metres, not millimetres?)",
            MAXIMUM_EXTENT,
        )
    return rings


def _read_points(ring: Sequence[Point], where: str, faults: FaultList) -> Array:
    try:
        points = np.array(ring, dtype=np.float64)
    except (TypeError, ValueError, OverflowError):
        points = np.empty(0)
    if points.ndim != 2 or points.shape[1] != 2:
        faults.add(where, "type", "must be points [x, y] in metres")
        return np.empty((0, 2))
    if not all(-LARGEST_COORDINATE <= value <= LARGEST_COORDINATE for value in points.ravel().tolist()):
        faults.add(
            where,
            "coordinate",
            f"coordinates must be finite and within {LARGEST_COORDINATE:g} m",
            LARGEST_COORDINATE,
        )
        return np.empty((0, 2))
    if points[0, 0] == points[-1, 0] and points[0, 1] == points[-1, 1]:
        points = points[:-1]
    faults.require(len(points) >= 3, where, "too_few", "must have at least 3 different points", 3)
    if len(points) > MAXIMUM_RING_VERTICES:
        faults.add(
            where, "too_many", f"must have at most {MAXIMUM_RING_VERTICES} points", MAXIMUM_RING_VERTICES
        )
    return points


def _ring(points: Array, where: str, origin: Point, faults: FaultList) -> LinearRing:
    """The closed ring, checked by itself: edges long enough, no crossing, no spike, no touching."""
    ring = LinearRing(points)
    corners = points.tolist()
    lengths = list(map(math.dist, corners[-1:] + corners[:-1], corners))
    if min(lengths) < _SLACK:
        at = next(index for index, length in enumerate(lengths) if length < _SLACK)
        faults.add(
            where,
            "repeated_point",
            f"points {(at - 1) % len(points)} and {at} near {_place(points[at], origin)} lie less than "
            f"{LEAST_DISTANCE:g} m apart",
            LEAST_DISTANCE,
        )
    elif not ring.is_simple:
        faults.add(
            where,
            "self_crossing",
            f"the ring crosses, touches or doubles back on itself near {_first_crossing(ring, origin)}",
        )
    return ring


def _check_voids(areas: list[tuple[str, Polygon]], origin: Point, faults: FaultList) -> None:
    """Every void wholly inside the outline, all of them apart."""
    shell = areas[0][1]
    voids = np.array([polygon for _, polygon in areas[1:]], dtype=object)
    shapely.prepare(shell)
    for index in np.flatnonzero(~shapely.contains_properly(shell, voids)):
        where, void = areas[int(index) + 1]
        code, detail = _void_fault(shell, void, origin)
        faults.add(where, code, detail)
    if len(voids) == 1:
        return
    first, second = np.triu_indices(len(voids), k=1)
    meets = shapely.intersects(voids[first], voids[second])
    for a, b in zip(first[meets], second[meets], strict=True):
        where, void = areas[int(b) + 1]
        place = _place(_common_point(void, voids[a]), origin)
        faults.add(where, "voids_meet", f"overlaps, touches or contains void {int(a)} near {place}")


def _void_fault(shell: Polygon, void: Polygon, origin: Point) -> tuple[str, str]:
    if shapely.equals(shell, void):
        return "void_is_outline", "is the outline itself"
    if shapely.disjoint(shell, void):
        return "void_outside", f"lies outside the outline near {_place(_some_point(void), origin)}"
    outside = difference(void, shell)
    # What reaches outside by less than the grid of overlays touches the outline.
    if outside.is_empty or shapely.contains(shell, void):
        place = _place(_common_point(shell.exterior, void.exterior), origin)
        return (
            "void_touches_outline",
            f"touches the outline near {place}; let the outline go round it and leave it out of the voids",
        )
    return "void_outside", f"reaches outside the outline near {_place(_some_point(outside), origin)}"


def _check_whole(
    polygon: Polygon, rings: list[tuple[str, LinearRing]], shell_at: str, origin: Point, faults: FaultList
) -> None:
    area = float(polygon.area)
    if area < MINIMUM_AREA:
        detail = f"encloses {area:.4g} m2 net of voids, must be at least {MINIMUM_AREA:g} m2"
        faults.add(shell_at, "area_too_small", detail, MINIMUM_AREA)
    if area > MAXIMUM_AREA:
        detail = f"encloses {area:.6g} m2, must be at most {MAXIMUM_AREA:g} m2"
        faults.add(shell_at, "area_too_large", detail, MAXIMUM_AREA)
    if not polygon.is_valid:  # pragma: no cover - the checks before leave no known way here
        faults.add(shell_at, "invalid", f"is not a valid area: {shapely.is_valid_reason(polygon)}")
    elif float(shapely.minimum_clearance(polygon)) < _SLACK:
        gap = shapely.minimum_clearance_line(polygon)
        where = min(reversed(rings), key=lambda item: float(shapely.distance(item[1], gap)))[0]
        faults.add(
            where,
            "too_narrow",
            f"leaves less than {LEAST_DISTANCE:g} m between two of its edges or to another ring near "
            f"{_place(gap.coords[0], origin)}",
            LEAST_DISTANCE,
        )


def _first_crossing(ring: LinearRing, origin: Point) -> str:
    """The place where a ring is not simple: GEOS names it in brackets after the reason."""
    reason = str(shapely.is_valid_reason(Polygon(ring)))
    start, end = reason.find("["), reason.find("]")
    try:
        x, y = map(float, reason[start + 1 : end].split())
    except ValueError:
        x, y = ring.coords[0]
    return _place((x, y), origin)


def _some_point(geometry: shapely.Geometry) -> tuple[float, float]:
    point = shapely.point_on_surface(geometry)
    return (point.x, point.y)


def _common_point(first: shapely.Geometry, second: shapely.Geometry) -> tuple[float, float]:
    """Of two that meet, though it be by less than the grid of overlays."""
    common = intersection(first, second)
    return _some_point(shapely.shortest_line(first, second) if common.is_empty else common)


def _place(local: Sequence[float], origin: Point) -> str:
    x, y = float(local[0]) + origin[0], float(local[1]) + origin[1]
    return f"[{x:.3f}, {y:.3f}]"
