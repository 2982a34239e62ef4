"""What is said about a route that can be laid, or that the caller brings: each with its place and a remedy."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ...checking import Point
from ...results import Finding
from ..lengths.lengths import circuit_length_rule, laid_diameter
from ..lengths.loop_findings import loop_finding
from ..outlines.polygons import RoomOutline
from .floor_findings import GEOMETRY, OWN_RULE, Route, at_place, floor_findings
from .route_entries import EntryPlace
from .route_records import RouteCircuit, RoutesInputs
from .route_refusals import length_limit

__all__ = ["field_findings", "moved_entry", "pair_findings", "request_findings"]

_EQUAL = 0.75
"""Circuits are alike when the shorter has at least this share of the longer one's length."""
_MOVED = 0.001
"""Entries moved by more are told [m]."""
_PERIPHERAL_WIDTH = 1.0
_LENGTH_TOLERANCE = 1e-6


def request_findings(inputs: RoutesInputs) -> Iterator[Finding]:
    """What can be said without a route."""
    rule = circuit_length_rule(inputs.pipe)
    spacing, radius = inputs.pipe_spacing, inputs.pipe.bend_radius
    edge = inputs.wall_clearance - laid_diameter(inputs.pipe) / 2.0
    if not 0.05 <= spacing <= 0.3:
        yield loop_finding("unusual_spacing", spacing, min(max(spacing, 0.05), 0.3), rule.source)
    if edge < 0.05 - 1e-9:
        yield loop_finding("close_to_wall", edge, 0.05, rule.source)
    if radius > spacing / 2.0 * (1.0 + 1e-9):
        yield Finding.at(
            "bend_wider_than_half_spacing",
            "/pipe_spacing",
            value=radius,
            limit=spacing / 2.0,
            source="Geometry; a bend radius of five outside diameters is common practice, the maker's sheet decides",
            quantity="bend_radius",
        )
    if inputs.peripheral is not None and inputs.peripheral.width > _PERIPHERAL_WIDTH:
        yield Finding.at(
            "wide_peripheral_area",
            "/peripheral/width",
            value=inputs.peripheral.width,
            limit=_PERIPHERAL_WIDTH,
            source="EN 1264-1, peripheral area",
            quantity="peripheral_width",
        )


def field_findings(
    inputs: RoutesInputs, number: int, route: Route, circuit: RouteCircuit, room: RoomOutline
) -> Iterator[Finding]:
    """What is said about one circuit; ``room`` is the whole room, to name what lies beside a place."""
    where = f"/circuits/{number}"
    yield from _faults(route, where)
    yield from _entry(route)
    yield from _length(inputs, circuit, where)
    yield from floor_findings(inputs, route, circuit, where, room)


def pair_findings(inputs: RoutesInputs, circuits: tuple[RouteCircuit, ...]) -> Iterator[Finding]:
    """Two circuits of one spacing that a cut made of very different length."""
    if len(circuits) < 2 or inputs.peripheral is not None or inputs.movement_joints:
        return
    short, long = sorted(circuit.total_length for circuit in circuits)
    if short < _EQUAL * long:
        yield Finding.at(
            "unequal_circuits",
            "/second_entry",
            detail=f"{short:.1f} m and {long:.1f} m",
            value=(long - short) / (0.5 * (long + short)),
            limit=2.0 * (1.0 - _EQUAL) / (1.0 + _EQUAL),
            source=OWN_RULE,
            quantity="length_spread",
        )


_FAULT_QUANTITIES = {
    "gap": "pipe_side_distance",
    "kink": "kink_angle",
    "start_off_entry": "pipe_side_distance",
    "end_off_entry": "pipe_side_distance",
    "tail_pitch": "tail_pitch",
    "wall_clearance": "wall_clearance",
    "bend_radius": "least_radius",
    "pipe_distance": "pipe_side_distance",
    "tail_distance": "pipe_side_distance",
}
"""By fault: what its numbers are of, where they mean something to people."""


def _faults(route: Route, where: str) -> Iterator[Finding]:
    for fault in route.check.faults:
        quantity = _FAULT_QUANTITIES.get(fault.code)
        yield Finding.at(
            f"route_{fault.code}",
            where,
            value=None if quantity is None else fault.value,
            limit=None if quantity is None else fault.limit,
            quantity=quantity,
            detail=at_place(fault.place),
            source=OWN_RULE,
            point=fault.place,
            where_in="answer",
        )


def _entry(route: Route) -> Iterator[Finding]:
    if route.laid is not None:
        yield from moved_entry(route.field.entry, route.laid.entry.place)


def moved_entry(asked: EntryPlace, place: Point) -> Iterator[Finding]:
    """An entry that was moved on to the outline, or along it to where its pipes stand on one wall."""
    moved = math.hypot(math.dist(place, asked.place), asked.shift)
    if moved > _MOVED:
        yield Finding.at(
            "entry_moved",
            asked.pointer,
            value=moved,
            detail=at_place(place),
            source=GEOMETRY,
            point=place,
            quantity="entry_shift",
        )


def _length(inputs: RoutesInputs, circuit: RouteCircuit, where: str) -> Iterator[Finding]:
    rule, limit = circuit_length_rule(inputs.pipe), length_limit(inputs)
    total, tails = circuit.total_length, circuit.tail_length
    if total <= limit + _LENGTH_TOLERANCE:
        if total > rule.usual + _LENGTH_TOLERANCE:
            yield loop_finding("long_circuit", total, rule.usual, rule.source)
        return
    count = math.ceil(circuit.length / (limit - tails) - 1e-9)
    given = inputs.maximum_circuit_length is not None
    yield Finding.at(
        "circuit_too_long",
        "/maximum_circuit_length" if given else where,
        severity="violation" if given or total > rule.upper else "warning",
        detail=f"{count} circuits of about {circuit.area / count:.1f} m2 each do",
        value=total,
        limit=limit,
        source="Given with the request" if given else rule.source,
        quantity="total_length",
        where_in="request" if given else "answer",
    )
