"""What is said about a room that is divided in circuits."""

from __future__ import annotations

import math
from collections.abc import Iterator

import shapely

from ...checking import Point
from ...plan.asking.floor_findings import BARE_AREA, OWN_RULE, bare_finding
from ...plan.asking.route_entries import EntryPlace
from ...plan.asking.route_findings import moved_entry
from ...plan.asking.route_records import RouteCircuit, RouteCoverage
from ...results import Finding
from ..model.division_records import DividedRoom

__all__ = ["division_findings"]

_EQUAL_LENGTHS = 0.08
"""Circuits of one room whose lengths spread by more are told: our own rule."""


def division_findings(
    room: DividedRoom,
    circuits: tuple[RouteCircuit, ...],
    coverage: RouteCoverage,
    first: EntryPlace,
) -> Iterator[Finding]:
    """What is said about the division as a whole."""
    yield from _bare_between(room, coverage)
    yield from moved_entry(first, _along_wall(first.place, circuits[0].entry, circuits[-1].entry))
    if room.spread > _EQUAL_LENGTHS and len(circuits) > 1:
        lengths = sorted(circuit.total_length for circuit in circuits)
        yield Finding.at(
            "unequal_circuits",
            "/length_spread",
            detail=f"{lengths[0]:.1f} m to {lengths[-1]:.1f} m",
            value=room.spread,
            limit=_EQUAL_LENGTHS,
            source=OWN_RULE,
            quantity="length_spread",
            where_in="answer",
        )
    if room.crossings:
        count = len(room.crossings)
        yield Finding.at(
            "sleeves_due",
            "/sleeves",
            value=float(count),
            source="Common practice with EN 1264-4, movement joints; length from memory of trade guides",
            point=room.crossings[0].place,
            quantity="crossing_count",
            where_in="answer",
        )


def _bare_between(room: DividedRoom, coverage: RouteCoverage) -> Iterator[Finding]:
    """Bare floor beside tails that is no circuit's own, where a room is laid in pieces."""
    for spot in coverage.bare_spots if room.in_pieces else ():
        here = shapely.Point(spot.place)
        if spot.area < BARE_AREA or any(shapely.covers(one.outline, here) for one in room.circuits):
            continue
        yield bare_finding(spot, "/coverage", "beside tails")


def _along_wall(asked: Point, start: Point, end: Point) -> Point:
    """The middle of the pipes that come in between two places, square to the wall as far off it as what was asked for:
    a curved wall lies a little behind them."""
    (ax, ay), (bx, by) = start, end
    width = math.dist(start, end)
    middle = ((ax + bx) / 2.0, (ay + by) / 2.0)
    if not width:
        return middle
    along = ((bx - ax) / width, (by - ay) / width)
    way = (middle[0] - asked[0]) * along[0] + (middle[1] - asked[1]) * along[1]
    return (asked[0] + way * along[0], asked[1] + way * along[1])
