"""The one place where rings of points become polygons.

Everything that is drawn passes through ``room_outline``. What it returns is a valid polygon of bounded size,
in a frame of its own near the origin, with nothing in it narrower than a millimetre. What is not valid is
refused with the ring and the place; nothing is repaired on the quiet: a repaired outline is another room.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely import Polygon

from ...checking import Point
from ...elementwise import Array
from ...errors import Fault, FaultList, InputError
from ..tolerances import LEAST_DISTANCE
from .ring_checks import (
    LARGEST_COORDINATE,
    MAXIMUM_AREA,
    MAXIMUM_EXTENT,
    MAXIMUM_RING_VERTICES,
    MAXIMUM_VERTICES,
    MAXIMUM_VOIDS,
    MINIMUM_AREA,
    check_voids,
    check_whole,
    checked_ring,
    read_rings,
)
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
    rings = read_rings(outline, voids, pointer, faults)
    faults.raise_if_any()
    origin = _lower_left(rings[0][1])
    closed = [(where, checked_ring(points - origin, where, origin, faults)) for where, points in rings]
    faults.raise_if_any()
    shell_at, shell = closed[0]
    if len(closed) > 1:
        check_voids([(where, Polygon(ring)) for where, ring in closed], origin, faults)
    polygon = Polygon(shell, [ring for _, ring in closed[1:]])
    if not faults.faults:
        check_whole(polygon, closed, shell_at, origin, faults)
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
