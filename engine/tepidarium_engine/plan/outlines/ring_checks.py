"""Checks of the rings of a room: each by itself, voids against the outline and each other, the whole."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import shapely
from shapely import LinearRing, Polygon

from ...checking import Point
from ...elementwise import Array
from ...errors import FaultList
from ..tolerances import LEAST_DISTANCE
from .overlays import difference, intersection

__all__ = [
    "LARGEST_COORDINATE",
    "MAXIMUM_AREA",
    "MAXIMUM_EXTENT",
    "MAXIMUM_RING_VERTICES",
    "MAXIMUM_VERTICES",
    "MAXIMUM_VOIDS",
    "MINIMUM_AREA",
    "check_voids",
    "check_whole",
    "checked_ring",
    "read_rings",
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


def read_rings(
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


def checked_ring(points: Array, where: str, origin: Point, faults: FaultList) -> LinearRing:
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


def check_voids(areas: list[tuple[str, Polygon]], origin: Point, faults: FaultList) -> None:
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


def check_whole(
    polygon: Polygon, rings: list[tuple[str, LinearRing]], shell_at: str, origin: Point, faults: FaultList
) -> None:
    """Area and least clearance of a room [m2, m] whose rings are in order."""
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
