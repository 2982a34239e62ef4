"""What is said about the floor that a route leaves bare, heats unevenly or crosses where it must not."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
import shapely
from shapely import LineString

from ...checking import Point
from ...results import Finding, Severity
from ..judging.route_check import RouteCheck
from ..judging.route_measures import BareSpot
from ..laying.laying import Laid
from ..outlines.overlays import intersection
from ..outlines.polygons import RoomOutline
from ..pipes.pipe_path import PipePath
from .route_fields import CircuitField, parting_joints
from .route_records import LaidSpacing, RouteCircuit, RoutesInputs

__all__ = [
    "BARE_AREA",
    "GEOMETRY",
    "OWN_RULE",
    "Route",
    "at_place",
    "bare_finding",
    "floor_findings",
    "in_millimetres",
]

_SPREAD_LIMIT = 0.15
"""Share of the temperature drop by which a counterflow's floor may differ before it is told: our own rule."""
_TOLD_AREA = 0.01
"""Smaller bare spots go without a word [m2]."""
BARE_AREA = 0.25
"""Bare spots from here on are a warning [m2]."""

OWN_RULE = "Rule of this calculation; no standard states one"
GEOMETRY = "Geometry"


class Route(NamedTuple):
    """A circuit on its way to the answer: what it was to fill, the pipe and the judge's word."""

    field: CircuitField
    path: PipePath
    check: RouteCheck
    spacings: tuple[LaidSpacing, ...]
    laid: Laid | None
    """None for a path that came with the request."""


def in_millimetres(length: float) -> str:
    return f"{length * 1000.0:.0f} mm"


def at_place(place: Point) -> str:
    return f"Near [{place[0]:.2f}, {place[1]:.2f}] m"


def floor_findings(
    inputs: RoutesInputs, route: Route, circuit: RouteCircuit, where: str, room: RoomOutline
) -> Iterator[Finding]:
    """What is said about the floor of one circuit; ``room`` is the whole room, to name what lies beside a
    place, ``where`` points to the circuit."""
    yield from _bare(route, where, room)
    yield from _lost(route, where)
    yield from _spacings(route, where)
    yield from _unserved(inputs, route)
    yield from _mixing(inputs, route, circuit, where)
    yield from _joints(inputs, route, room)


def _bare(route: Route, where: str, room: RoomOutline) -> Iterator[Finding]:
    for spot in route.check.measures.left_out:
        if spot.area < _TOLD_AREA:
            continue
        yield bare_finding(spot, where, _beside(spot.place, room))


def bare_finding(spot: BareSpot, where: str, beside: str) -> Finding:
    """A piece of floor without pipe; ``beside``: what it lies beside."""
    severity: Severity = "warning" if spot.area >= BARE_AREA else "note"
    return Finding.at(
        "bare_spot",
        where,
        severity=severity,
        detail=f"{at_place(spot.place)} {beside}: {in_millimetres(spot.width)} wide, "
        f"{in_millimetres(spot.pipe_distance)} from the pipe",
        value=spot.area,
        source=OWN_RULE,
        point=spot.place,
        quantity="bare_area",
        where_in="answer",
    )


def _beside(place: Point, room: RoomOutline) -> str:
    """What edge of the room is nearest to a place."""
    here = shapely.Point(place[0] - room.origin[0], place[1] - room.origin[1])
    rings = (room.polygon.exterior, *room.polygon.interiors)
    distances = [round(float(shapely.distance(ring, here)), 6) for ring in rings]
    nearest = distances.index(min(distances))
    return f"beside void {nearest}" if nearest else "along the wall"


_LOST = {
    "narrow": "too narrow for pipe there and back; a closer spacing or a smaller clearance may reach it",
    "small": "hardly larger than a bend; a pipe that bends tighter may reach it",
    "enclosed": "walled in by voids; it needs a circuit of its own, or stays cold",
    "unreached": "could not be joined to the pipe; a second circuit or another entry may reach it",
}


def _lost(route: Route, where: str) -> Iterator[Finding]:
    for lost in route.laid.lost if route.laid is not None else ():
        yield Finding.at(
            "floor_left_out",
            where,
            severity="note" if lost.reason in ("narrow", "small") else "warning",
            value=lost.area,
            source=GEOMETRY,
            point=lost.place,
            quantity="bare_area",
            detail=f"{at_place(lost.place)}: {_LOST[lost.reason]}",
            where_in="answer",
        )


def _spacings(route: Route, where: str) -> Iterator[Finding]:
    for laid in route.spacings:
        asked = float(route.field.spacings.at(np.array([laid.place]))[0])
        yield Finding.at(
            "spacing_differs",
            where,
            value=laid.pipe_spacing,
            limit=asked,
            limit_is="asked for",
            detail=f"{laid.area:.1f} m2 {at_place(laid.place).lower()}: {laid.reason}",
            source=GEOMETRY,
            point=laid.place,
            quantity="pipe_spacing",
            where_in="answer",
        )


def _unserved(inputs: RoutesInputs, route: Route) -> Iterator[Finding]:
    """Walls of a peripheral strip beside which the pipe is not closer."""
    strip = inputs.peripheral
    if route.laid is None or strip is None:
        return
    for number in route.laid.unserved:
        yield Finding.at(
            "strip_not_closer",
            f"/peripheral/edges/{number}",
            subject=f"wall {strip.edges[number] + 1}",
            source=GEOMETRY,
        )


def _mixing(inputs: RoutesInputs, route: Route, circuit: RouteCircuit, where: str) -> Iterator[Finding]:
    spread = circuit.quality.temperature_spread
    if inputs.pattern != "counterflow" or route.laid is None or spread is None or spread <= _SPREAD_LIMIT:
        return
    neck = _neck(route.field.room, inputs.wall_clearance, route.field.pipe_spacing)
    yield Finding.at(
        "two_circuits_better",
        where,
        detail="" if neck is None else at_place(neck),
        value=spread,
        limit=_SPREAD_LIMIT,
        source=OWN_RULE,
        point=neck,
        quantity="temperature_spread",
        where_in="answer",
    )


def _neck(room: RoomOutline, clearance: float, spacing: float) -> Point | None:
    """The middle of the narrowest passage between the two largest parts of the floor."""
    zone = shapely.buffer(room.polygon, -clearance, join_style="mitre")
    for width in (2.0, 3.0, 4.0, 6.0):
        core = shapely.buffer(zone, -width / 2.0 * spacing, join_style="mitre")
        parts = sorted(
            (part for part in shapely.get_parts(core) if part.area >= spacing**2),
            key=lambda part: (-round(part.area, 6), part.bounds),
        )
        if len(parts) > 1:
            line = shapely.shortest_line(parts[0], parts[1])
            middle = shapely.line_interpolate_point(line, 0.5, normalized=True)
            return (float(middle.x) + room.origin[0], float(middle.y) + room.origin[1])
    return None


def _joints(inputs: RoutesInputs, route: Route, room: RoomOutline) -> Iterator[Finding]:
    """Joints that a pipe crosses; one that was laid keeps to the fields that joints part the room in."""
    line = _line(route)
    kept = parting_joints(inputs, room) if route.laid is not None else ()
    for number, joint in enumerate(inputs.movement_joints):
        if number in kept:
            continue
        met = intersection(line, LineString(np.array(joint)))
        points = shapely.get_coordinates(met)
        if len(points) == 0:
            continue
        place = (float(points[0, 0]), float(points[0, 1]))
        yield Finding.at(
            "crosses_movement_joint",
            f"/movement_joints/{number}",
            detail=f"First {at_place(place).lower()}",
            value=float(len(shapely.get_parts(met))),
            limit=0.0,
            source="EN 1264-4, movement joints",
            point=place,
            quantity="crossing_count",
        )


def _line(route: Route) -> LineString:
    return shapely.linestrings(route.path.polyline(0.001))
