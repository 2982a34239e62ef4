"""What is wrong with a laid storey, found by general geometry: it knows nothing of how pipes are laid."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations

import numpy as np
import shapely
from shapely import LineString, MultiPoint, Polygon
from tepidarium_engine.plan.pipes.pipe_path import Arc, Line, PipePath
from tepidarium_engine.storey.model.layout_records import StoreyCircuit, StoreyLayout, StoreyTask

__all__ = ["violations"]

NEAREST = 0.6
"""Of two pipes in fields, in spacings."""
TAIL_SLACK = 0.005
"""By which any two pipes may be nearer than the pitch of tails [m]."""
BY_THE_ENTRY = 0.6
"""About the places where pairs come in, pipes lie at the pitch of tails [m]."""
AT_THE_PORT = 0.3
"""From the manifold on, no clearance is asked for [m]."""
MOST_ASLANT = 1e-3
"""Of a pipe to the square of the manifold's wall [rad]: it comes straight down from its port."""
STEP = 0.02
HAIR = 1e-5


def violations(task: StoreyTask, layout: StoreyLayout) -> Iterator[str]:
    """One sentence each, none for a sound storey."""
    yield from _books(task, layout)
    yield from _pitch(task, layout)
    task = replace(task, tail_pitch=layout.tail_pitch)
    floors = _free_floors(task)
    lines = [_line(circuit.path) for circuit in layout.circuits]
    for circuit, line in zip(layout.circuits, lines, strict=True):
        for fault in (
            *_one_pipe(task, circuit.path),
            *_length(circuit, line),
            *_ends(task, circuit),
            *_way(task, circuit, line, *floors),
            *_itself(task, line),
        ):
            yield f"{circuit.id}: {fault}"
    yield from _neighbours(task, layout, lines)


def _books(task: StoreyTask, layout: StoreyLayout) -> Iterator[str]:
    """Every room has its circuits, each once, drawn or refused with a reason."""
    drawn = [circuit.id for circuit in layout.circuits]
    refused = [one.id for one in layout.unplaced]
    if len(set(drawn + refused)) != len(drawn) + len(refused):
        yield f"a circuit is reported twice: {sorted(drawn + refused)}"
    ports = [(circuit.manifold, circuit.port) for circuit in layout.circuits]
    if len(set(ports)) != len(ports) or not all(1 <= port <= len(drawn) + len(refused) for _, port in ports):
        yield f"ports {ports} for {len(drawn) + len(refused)} circuits"
    for index, room in enumerate(task.rooms):
        told = [one.room for one in layout.circuits].count(index)
        told += [one.room for one in layout.unplaced].count(index)
        if (told == 0) != (room.count == 0):
            yield f"{room.id}: {told} circuits"
    for one in layout.unplaced:
        if not one.code or len(one.message) < 10:
            yield f"{one.id}: refused without a reason"
    if layout.settled:
        for circuit in layout.circuits:
            limit = task.rooms[circuit.room].maximum_circuit_length
            if circuit.path.length > limit + 1e-6:
                yield f"{circuit.id}: {circuit.path.length:.2f} m though settled at {limit:.0f} m"


def _pitch(task: StoreyTask, layout: StoreyLayout) -> Iterator[str]:
    """Tails come closer than asked for only at narrow places, and as far as is permitted."""
    pitch = layout.tail_pitch
    if not min(task.least_tail_pitch, task.tail_pitch) <= pitch <= task.tail_pitch:
        yield f"tails {pitch * 1000.0:.1f} mm apart"
    if (pitch < task.tail_pitch) != bool(layout.narrow):
        yield f"tails {pitch * 1000.0:.1f} mm apart for {len(layout.narrow)} narrow places"


def _free_floors(task: StoreyTask) -> tuple[Polygon, Polygon]:
    """Rooms and the passages between them, a hair wider, and what of them keeps the clearance."""
    passages = [
        MultiPoint([*doorway.stretches[0], *doorway.stretches[1]]).convex_hull
        for doorway in task.plan.doorways
    ]
    whole = shapely.union_all([*task.plan.rooms, *passages])
    # A hair is closed where they meet.
    free = shapely.buffer(shapely.buffer(whole, 1e-6, join_style="mitre"), -1e-6, join_style="mitre")
    return shapely.buffer(free, 1e-4), shapely.buffer(free, -(task.wall_clearance - 0.003))


def _points(piece: Line | Arc) -> list[tuple[float, float]]:
    """Start to end, arcs by their own trigonometry in chords of about 3 degrees."""
    if isinstance(piece, Line):
        return [piece.start, piece.end]
    (x, y), radius = piece.centre, piece.radius
    steps = max(2, math.ceil(abs(piece.sweep) / 0.05))
    angles = [piece.start_angle + piece.sweep * step / steps for step in range(steps + 1)]
    return [(x + radius * math.cos(angle), y + radius * math.sin(angle)) for angle in angles]


def _heading(piece: Line | Arc, at_end: bool) -> float:
    if isinstance(piece, Line):
        return math.atan2(piece.end[1] - piece.start[1], piece.end[0] - piece.start[0])
    angle = piece.start_angle + (piece.sweep if at_end else 0.0)
    return angle + math.copysign(math.pi / 2.0, piece.sweep)


def _line(path: PipePath) -> LineString:
    """A hair's breadth between pieces, which is judged elsewhere, is not drawn: it could turn back on itself."""
    corners: list[tuple[float, float]] = []
    for piece in path.pieces:
        corners += [point for point in _points(piece) if not corners or math.dist(point, corners[-1]) > HAIR]
    return LineString(corners)


def _one_pipe(task: StoreyTask, path: PipePath) -> Iterator[str]:
    """No gap, no kink, no bend tighter than the pipe allows."""
    for piece in path.pieces:
        if isinstance(piece, Arc) and piece.radius < task.bend_radius - 1e-6:
            yield f"bend of {piece.radius * 1000.0:.2f} mm at {piece.centre}"
    for before, after in zip(path.pieces, path.pieces[1:], strict=False):
        end, start = _points(before)[-1], _points(after)[0]
        if math.dist(end, start) > 1e-5:
            yield f"gap of {math.dist(end, start) * 1000.0:.3f} mm at {end}"
        turn = _heading(after, False) - _heading(before, True)
        kink = abs(math.remainder(turn, 2.0 * math.pi))
        if kink > 2e-3:
            yield f"kink of {math.degrees(kink):.2f} degrees at {end}"


def _length(circuit: StoreyCircuit, line: LineString) -> Iterator[str]:
    lengths = (
        math.dist(piece.start, piece.end) if isinstance(piece, Line) else piece.radius * abs(piece.sweep)
        for piece in circuit.path.pieces
    )
    exact = math.fsum(lengths)
    if abs(exact - circuit.path.length) > 1e-6 or not 0.0 <= exact - line.length < 1e-3 * exact:
        yield f"length told {circuit.path.length}, summed {exact}, of its points {line.length}"
    if not 0.0 < circuit.field_length <= exact + 1e-6:
        yield f"field of {circuit.field_length} m in a pipe of {exact} m"


def _ends(task: StoreyTask, circuit: StoreyCircuit) -> Iterator[str]:
    """Both ends on the wall of the manifold, a pitch apart, into its room; it serves that room, or stands in it."""
    path, manifold, room = circuit.path, task.manifolds[circuit.manifold], task.rooms[circuit.room]
    if circuit.manifold != room.manifold and (room.only or manifold.room != circuit.room):
        yield f"on manifold {circuit.manifold}, which is not that of its room"
    (x, y), (dx, dy) = manifold.place, manifold.ahead
    for point in (path.start, path.end):
        away = (point[0] - x) * dx + (point[1] - y) * dy
        if abs(away) > 1e-3:
            yield f"ends {away * 1000.0:.1f} mm from the manifold's wall at {point}"
    apart = math.dist(path.start, path.end)
    if abs(apart - task.tail_pitch) > TAIL_SLACK:
        yield f"flow and return {apart * 1000.0:.1f} mm apart at the manifold"
    square = math.atan2(dy, dx)
    for heading in (_heading(path.pieces[0], False), _heading(path.pieces[-1], True) + math.pi):
        aslant = abs(math.remainder(heading - square, 2.0 * math.pi))
        if aslant > MOST_ASLANT:
            yield f"leaves the manifold {math.degrees(aslant):.1f} degrees askew"


def _way(
    task: StoreyTask, circuit: StoreyCircuit, line: LineString, free: Polygon, clear: Polygon
) -> Iterator[str]:
    """Clear of walls, voids and jambs; in and out by doorways; its own room reached."""
    at_ports = shapely.buffer(MultiPoint([circuit.path.start, circuit.path.end]), AT_THE_PORT)
    outside = shapely.difference(line, free)
    if outside.length > 1e-3:
        yield f"{outside.length:.3f} m in walls or voids at {_place(outside)}"
    near = shapely.difference(shapely.difference(line, at_ports), clear)
    if near.length > 0.01:
        yield f"{near.length:.3f} m too near to walls at {_place(near)}"
    own = shapely.buffer(task.plan.rooms[circuit.room], 1e-3).intersection(line).length
    if own < circuit.field_length - 0.5:
        yield f"{own:.2f} m in its own room, field of {circuit.field_length:.2f} m"
    for number, doorway in enumerate(task.plan.doorways):
        middles = [((a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0) for a, b in _facing(doorway.stretches)]
        crossings = shapely.get_num_geometries(shapely.intersection(line, LineString(middles)))
        met = 0 if not line.intersects(LineString(middles)) else crossings
        if met not in (0, 2):
            yield f"passes doorway {number} {met} times"


def _facing(stretches: tuple) -> list:  # type: ignore[type-arg]
    (a, b), (c, d) = stretches
    return [(a, c), (b, d)] if math.dist(a, c) < math.dist(a, d) else [(a, d), (b, c)]


def _place(shape: shapely.Geometry) -> str:
    x, y = shapely.get_coordinates(shape)[0]
    return f"({x:.2f}, {y:.2f})"


def _itself(task: StoreyTask, line: LineString) -> Iterator[str]:
    """A pipe near itself, further along than half a turn of its tightest bend."""
    if not line.is_simple:
        yield "crosses itself"
        return
    at = np.arange(0.0, line.length, STEP)
    corners = shapely.get_coordinates(line)
    along = np.concatenate(([0.0], np.cumsum(np.hypot(*np.diff(corners, axis=0).T))))
    points = shapely.points(np.stack([np.interp(at, along, axis) for axis in corners.T], axis=1))
    limit = task.tail_pitch - TAIL_SLACK
    first, second = shapely.STRtree(points).query(points, predicate="dwithin", distance=limit - 0.002)
    far = at[second] - at[first] > math.pi * task.bend_radius
    if np.any(far):
        worst = min(
            zip(first[far].tolist(), second[far].tolist(), strict=True),
            key=lambda p: points[p[0]].distance(points[p[1]]),
        )
        yield (
            f"{points[worst[0]].distance(points[worst[1]]) * 1000.0:.1f} mm from itself at {_place(points[worst[0]])}"
        )


def _neighbours(task: StoreyTask, layout: StoreyLayout, lines: list[LineString]) -> Iterator[str]:
    """Distances between circuits: of fields, and of whatever else."""
    entries = (
        shapely.buffer(MultiPoint([place.pair.place for place in layout.tails.places]), BY_THE_ENTRY)
        if layout.tails.places
        else Polygon()
    )
    fields = [
        shapely.difference(shapely.intersection(line, circuit.floor), entries)
        for line, circuit in zip(lines, layout.circuits, strict=True)
    ]
    for one, other in combinations(range(len(lines)), 2):
        first, second = layout.circuits[one], layout.circuits[other]
        apart = lines[one].distance(lines[other])
        if apart < task.tail_pitch - TAIL_SLACK - 5e-4:
            a, _ = shapely.shortest_line(lines[one], lines[other]).coords
            yield f"{first.id} and {second.id}: {apart * 1000.0:.1f} mm apart at ({a[0]:.2f}, {a[1]:.2f})"
        spacing = min(task.rooms[first.room].pipe_spacing, task.rooms[second.room].pipe_spacing)
        if not fields[one].is_empty and not fields[other].is_empty:
            between = fields[one].distance(fields[other])
            if between < NEAREST * spacing - 1e-3:
                a, _ = shapely.shortest_line(fields[one], fields[other]).coords
                yield (
                    f"{first.id} and {second.id}: fields {between * 1000.0:.1f} mm apart at ({a[0]:.2f}, {a[1]:.2f})"
                )
