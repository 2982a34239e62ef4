"""Whether a divided room can be laid as drawn: by shapely's predicates on the drawn lines alone."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations, pairwise

import shapely
from shapely import LineString, Polygon
from shapely.ops import substring
from tepidarium_engine.plan.outlines.polygons import room_outline
from tepidarium_engine.plan.pipes.pipe_path import Arc
from tepidarium_engine.storey.division.division import DividedCircuit, DividedRoom

from tests.division.fields import FieldCase

__all__ = ["complaints"]

_CHORD_ERROR = 2e-4
_WALL_DISTANCE = 0.073
"""Of field pipe from walls: the clearance of 75 mm less 2 mm of rounding."""


def complaints(case: FieldCase, found: DividedRoom) -> Iterator[str]:
    """All that is wrong with the drawing of a divided room; nothing for a sound one."""
    room = room_outline(case.outline, case.voids)
    floor = shapely.transform(room.polygon, lambda points: points + room.origin)
    lines = [LineString(circuit.path.polyline(_CHORD_ERROR)) for circuit in found.circuits]
    yield from _areas(floor, found)
    for circuit, line in zip(found.circuits, lines, strict=True):
        yield from _pipe(case, floor, circuit, line)
    for one, other in combinations(range(len(lines)), 2):
        yield from _neighbours(case, found, lines, (one, other))
    yield from _joints(case, found, lines)
    pitch = case.tail_pitch
    places = [circuit.place.place for circuit in found.circuits]
    for before, after in pairwise(places):
        if abs(math.dist(before, after) - 2.0 * pitch) > 1e-6:
            yield f"pairs at the entry are {math.dist(before, after):.4f} m apart"


def _areas(floor: Polygon, found: DividedRoom) -> Iterator[str]:
    pieces = [circuit.piece for circuit in found.circuits]
    for one, other in combinations(pieces, 2):
        if shapely.intersection(one, other).area > 1e-6:
            yield "pieces overlap"
    together = shapely.union_all(pieces)
    if abs(together.area + found.bands - floor.area) > 1e-6:
        yield f"areas: {together.area} + {found.bands} is not {floor.area}"
    if shapely.difference(together, shapely.buffer(floor, 1e-6)).area > 1e-9:
        yield "a piece leaves the floor"


def _pipe(case: FieldCase, floor: Polygon, circuit: DividedCircuit, line: LineString) -> Iterator[str]:
    who = f"circuit {circuit.id}"
    if not line.is_simple:
        yield f"{who} crosses itself"
    if not shapely.covers(shapely.buffer(floor, 1e-5), line):
        yield f"{who} leaves the floor"
    worst = max(circuit.path.joints(), key=lambda joint: max(joint.gap, joint.kink))
    if worst.gap > 1e-6 or worst.kink > 1e-4:
        yield f"{who}: gap {worst.gap:.2g} m, kink {worst.kink:.2g} at {worst.place}"
    tightest = min(
        (piece.radius for piece in circuit.path.pieces if isinstance(piece, Arc)), default=math.inf
    )
    if tightest < case.bend_radius * (1.0 - 1e-6):
        yield f"{who}: radius {tightest:.4f} m"
    if abs(math.dist(circuit.path.start, circuit.path.end) - case.tail_pitch) > 1e-6:
        yield f"{who} does not start and end at tail pitch"
    whole = circuit.length + 2.0 * case.request.outer_tail(circuit.id)
    if whole > case.longest + 1e-9:
        yield f"{who} is {whole:.1f} m long"
    near = line.interpolate(0.3), line.interpolate(line.length - 0.3)
    inner = substring(line, 0.3, line.length - 0.3)
    if shapely.distance(inner, floor.boundary) < _WALL_DISTANCE:
        away = shapely.distance(inner, floor.boundary)
        yield f"{who} is {away:.3f} m from a wall, near {near[0].coords[0]}"


def _neighbours(
    case: FieldCase, found: DividedRoom, lines: list[LineString], pair: tuple[int, int]
) -> Iterator[str]:
    """Fields 0.6 spacings apart, tails at their pitch less 5 mm from everything."""
    one, other = (lines[index] for index in pair)
    fields = [_field(case, found.circuits[index], lines[index]) for index in pair]
    away = shapely.distance(*fields)
    if away < 0.6 * case.pipe_spacing - 1e-3:
        yield f"fields of {pair} are {away:.3f} m apart"
    away = shapely.distance(one, other)
    if away < min(0.6 * case.pipe_spacing, case.tail_pitch - 0.005):
        spot = shapely.shortest_line(one, other).coords[0]
        yield f"pipes of {pair} are {away:.3f} m apart at ({spot[0]:.2f}, {spot[1]:.2f})"


def _field(case: FieldCase, circuit: DividedCircuit, line: LineString) -> LineString:
    ends = circuit.tail_length / 2.0 + 0.5
    return substring(line, ends, line.length - ends)


def _joints(case: FieldCase, found: DividedRoom, lines: list[LineString]) -> Iterator[str]:
    """Only tails cross joints, square to them, and each crossing is named."""
    count = 0
    for joint in case.joints:
        drawn = LineString(joint)
        for circuit, line in zip(found.circuits, lines, strict=True):
            met = shapely.get_coordinates(shapely.intersection(line, drawn))
            count += len(met)
            if shapely.intersects(_field(case, circuit, line), drawn):
                yield f"field of circuit {circuit.id} crosses a joint"
    if count != len(found.crossings):
        yield f"{count} crossings of joints, {len(found.crossings)} named"
    for crossing in found.crossings:
        joint = min(
            case.joints, key=lambda one: shapely.distance(LineString(one), shapely.Point(crossing.place))
        )
        (x0, y0), (x1, y1) = joint
        slant = abs((x1 - x0) * crossing.ahead[0] + (y1 - y0) * crossing.ahead[1]) / math.dist(*joint)
        if slant > math.sin(math.radians(20.0)):
            yield f"circuit {crossing.circuit} crosses a joint on the slant ({slant:.2f})"
