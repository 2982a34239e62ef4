"""Tails against shapely's predicates and, for single pairs, shortest paths found by networkx (visibility graph,
de Berg et al., Computational Geometry, 3rd ed., chapter 15): no table is published for such drawings."""

from __future__ import annotations

import itertools
import math
import random
from collections.abc import Sequence

import networkx
import numpy as np
import pytest
import shapely
from shapely import LineString, Polygon, box
from shapely.ops import substring
from tepidarium_engine.errors import InvariantError
from tepidarium_engine.plan.pipes.pipe_path import Arc
from tepidarium_engine.storey.lanes.tail_pipes import has_length, pair_pipes
from tepidarium_engine.storey.lanes.tail_routes import routed_tails
from tepidarium_engine.storey.lanes.visibility import WalkGraph
from tepidarium_engine.storey.model.records import Doorway
from tepidarium_engine.storey.model.tail_records import (
    ManifoldPlace,
    RoutedTails,
    StoreyPlan,
    TailDemand,
    TailRules,
)

PITCH, CLEARANCE, RADIUS = 0.05, 0.075, 0.08
ALLOWED_OFF = 2e-4
"""Chords of arcs and rounding [m]."""


def tails(plan: StoreyPlan, manifold: ManifoldPlace, demands: Sequence[TailDemand]) -> RoutedTails:
    return routed_tails(
        plan, manifold, demands, tail_pitch=PITCH, wall_clearance=CLEARANCE, bend_radius=RADIUS
    )


def hall_outline(rng: random.Random, kind: str) -> Polygon:
    a, b, c = (rng.uniform(4.0, 9.0) for _ in range(3))
    v, w = (rng.uniform(1.4, 2.6) for _ in range(2))
    if kind == "I":
        return box(0.0, 0.0, a, v)
    if kind == "L":
        return Polygon([(0, 0), (a, 0), (a, v), (w, v), (w, b), (0, b)])
    if kind == "Z":
        return Polygon(
            [(0, 0), (a, 0), (a, b - v), (a + c, b - v), (a + c, b), (a - w, b), (a - w, v), (0, v)]
        )
    x = rng.uniform(1.0, a - w - 1.0)
    return Polygon([(0, 0), (a, 0), (a, v), (x + w, v), (x + w, v + b), (x, v + b), (x, v), (0, v)])


def hall_case(seed: int, kind: str, void: bool) -> tuple[StoreyPlan, ManifoldPlace, list[TailDemand]]:
    """A hall with doorways on its walls, small rooms behind them, and a manifold on a free stretch."""
    rng = random.Random(seed)
    hall = hall_outline(rng, kind)
    corners = list(hall.exterior.coords)
    if not hall.exterior.is_ccw:
        corners = corners[::-1]
    pairs = rng.randint(4, 20)
    edges = list(itertools.pairwise(corners))
    used: list[tuple[int, float, float]] = []

    def free(edge: int, start: float, end: float) -> bool:
        return not any(edge == other and start < b and end > a for other, a, b in used)

    def on_wall(width: float, margin: float) -> tuple[int, float] | None:
        for _ in range(300):
            edge = rng.randrange(len(edges))
            length = math.dist(*edges[edge])
            if length < width + 2.0 * margin:
                continue
            start = rng.uniform(margin, length - width - margin)
            if free(edge, start - margin, start + width + margin):
                used.append((edge, start, start + width))
                return edge, start
        return None

    def at(edge: int, along: float, out: float) -> tuple[float, float]:
        (x0, y0), (x1, y1) = edges[edge]
        length = math.dist(*edges[edge])
        u, v = (x1 - x0) / length, (y1 - y0) / length
        return (x0 + u * along + v * out, y0 + v * along - u * out)

    place = on_wall(2 * CLEARANCE + (pairs + 1) * 2 * PITCH, 0.05)
    assert place is not None
    edge, start = place
    middle = start + CLEARANCE + (pairs + 1) * PITCH
    inside = at(edge, middle, -1.0)
    foot = at(edge, middle, 0.0)
    manifold = ManifoldPlace(foot, (inside[0] - foot[0], inside[1] - foot[1]), 0)
    rooms, doorways = [], []
    for _ in range(max(2, pairs // 2)):
        width = rng.choice([0.8, 0.9, 1.0])
        door = on_wall(width, 0.2)
        if door is None:
            continue
        edge, s = door
        rooms.append(
            Polygon([at(edge, t, o) for t, o in ((s, 0.1), (s, 1.0), (s + width, 1.0), (s + width, 0.1))])
        )
        stretches = tuple((at(edge, s, out), at(edge, s + width, out)) for out in (0.0, 0.1))
        doorways.append(Doorway((0, len(rooms)), (stretches[0], stretches[1])))
    demands = [TailDemand(f"{i}", 1 + rng.randrange(len(rooms))) for i in range(pairs)]
    if rng.random() < 0.5:
        demands.append(TailDemand("hall", 0))
    if void:
        x0, y0, x1, y1 = hall.bounds
        for _ in range(200):
            x, y = rng.uniform(x0, x1), rng.uniform(y0, y1)
            column = box(x, y, x + rng.uniform(0.2, 0.4), y + rng.uniform(0.2, 0.4))
            if hall.contains(column) and hall.exterior.distance(column) > 0.35:
                hall = hall.difference(column)
                break
    return StoreyPlan((hall, *rooms), tuple(doorways)), manifold, demands


def centre_lines(found: RoutedTails) -> list[LineString]:
    """Of all pipes, from the manifold to the field."""
    pipes = [pipe for route in found.routes for pipe in (route.flow, route.back.reversed())]
    return [LineString(pipe.polyline(1e-5)) for pipe in pipes]


def assert_sound(plan: StoreyPlan, found: RoutedTails) -> None:
    """No two pipes nearer than the pitch, none nearer to walls than the clearance, every radius exact."""
    lines = centre_lines(found)
    for one, other in itertools.combinations(lines, 2):
        assert one.distance(other) >= PITCH - ALLOWED_OFF
    openings = [
        Polygon([*door.stretches[0], *reversed(door.stretches[1])]).buffer(1e-6) for door in plan.doorways
    ]
    floor = shapely.union_all([*plan.rooms, *(shapely.convex_hull(opening) for opening in openings)])
    rings = [ring for room in plan.rooms for ring in (room.exterior, *room.interiors)]
    passed = shapely.union_all([opening.buffer(0.15) for opening in openings])
    walls = shapely.difference(shapely.union_all(rings), passed)
    for line in lines:
        assert line.is_simple
        assert floor.buffer(1e-6).covers(line)
        # The first bend at the manifold aside; an inner bend may cut a corner's clearance by 0.41 (R - c).
        rest = substring(line, 2.0 * (RADIUS + PITCH), line.length)
        off = 0.42 * max(0.0, RADIUS - CLEARANCE) + ALLOWED_OFF
        assert rest.distance(walls) >= CLEARANCE - off
    for route in found.routes:
        for pipe in (route.flow, route.back):
            assert all(piece.radius == RADIUS for piece in pipe.pieces if isinstance(piece, Arc))
            assert all(joint.gap < 1e-6 and joint.kink < 1e-4 for joint in pipe.joints())


def assert_in_door_order(plan: StoreyPlan, manifold: ManifoldPlace, found: RoutedTails) -> None:
    """Ports from the right: circuits of one doorway together, doorways as met round the hall."""
    ring = shapely.orient_polygons(plan.rooms[0]).exterior
    start = ring.project(shapely.Point(manifold.place))
    rooms = {place.circuit: place.room for place in found.places}
    met = {
        door.rooms[1]: (ring.project(LineString(door.stretches[0]).centroid) - start) % ring.length
        for door in plan.doorways
    }
    order = [met[rooms[circuit]] for circuit in found.ports if rooms[circuit] != 0]
    assert order == sorted(order)


@pytest.mark.parametrize("void", [False, True])
@pytest.mark.parametrize("kind", ["I", "L", "Z", "T"])
@pytest.mark.parametrize("seed", [11])
def test_pairs_in_random_halls_never_cross_and_keep_their_pitch(seed: int, kind: str, void: bool) -> None:
    plan, manifold, demands = hall_case(seed, kind, void)
    found = tails(plan, manifold, demands)
    assert_sound(plan, found)
    assert_in_door_order(plan, manifold, found)
    circuits = {place.circuit for place in found.places} | {tail.circuit for tail in found.unrouted}
    assert circuits == {demand.circuit for demand in demands}
    for tail in found.unrouted:
        assert tail.named in {"doorway", "room", "manifold"}
        assert tail.width_needed == pytest.approx(2 * CLEARANCE + tail.pairs * 2 * PITCH)
        assert tail.remedy


def shortest_by_networkx(floor: Polygon, start: tuple[float, float], end: tuple[float, float]) -> float:
    """Over all corners of the floor, whether ways bend there or not."""
    nodes = [start, end]
    for ring in (floor.exterior, *floor.interiors):
        nodes += list(ring.coords)[:-1]
    graph = networkx.Graph()
    wide = floor.buffer(1e-6)
    for a, b in itertools.combinations(range(len(nodes)), 2):
        if wide.covers(LineString([nodes[a], nodes[b]])):
            graph.add_edge(a, b, weight=math.dist(nodes[a], nodes[b]))
    return float(networkx.dijkstra_path_length(graph, 0, 1))


@pytest.mark.parametrize("kind", ["I", "L", "Z", "T"])
@pytest.mark.parametrize("void", [False, True])
def test_walks_are_as_short_as_networkx_finds(kind: str, void: bool) -> None:
    plan, _, _ = hall_case(5, kind, void)
    floor = plan.rooms[0].buffer(-CLEARANCE - PITCH / 2.0, join_style="mitre")
    assert isinstance(floor, Polygon)
    points = [
        floor.exterior.interpolate(share, normalized=True).coords[0] for share in np.linspace(0, 0.9, 6)
    ]
    graph = WalkGraph(floor, np.array(points))
    lengths = graph.lengths(np.array(points))
    for i, j in itertools.combinations(range(len(points)), 2):
        assert lengths[i, j] == pytest.approx(shortest_by_networkx(floor, points[i], points[j]), abs=1e-5)


@pytest.mark.parametrize("pairs", [1, 2])
@pytest.mark.parametrize("width", [1.6, 2.0, 2.6])
@pytest.mark.parametrize("at", [10.5, 14.0])
def test_every_room_on_both_sides_of_a_long_hall_gets_its_pairs(pairs: int, width: float, at: float) -> None:
    hall = box(0.0, 0.0, 24.5, width)
    rooms, doorways = [hall], []
    for number in range(14):
        x, (y, out) = 1.75 + 3.5 * (number // 2), ((0.0, -0.1), (width, 0.1))[number % 2]
        rooms.append(box(x - 1.7, min(y + out, y + 30.0 * out), x + 1.7, max(y + out, y + 30.0 * out)))
        stretches = [((x - 0.45, level), (x + 0.45, level)) for level in (y, y + out)]
        doorways.append(Doorway((0, number + 1), (stretches[0], stretches[1])))
    rng = random.Random(5)
    served = sorted(rng.sample(range(1, 15), 9))
    plan = StoreyPlan(tuple(rooms), tuple(doorways))
    demands = [TailDemand(f"{room}-{number}", room) for room in served for number in range(pairs)]
    found = tails(plan, ManifoldPlace((at, 0.0), (0.0, 1.0), 0), demands)
    assert not found.unrouted
    assert_sound(plan, found)


@pytest.mark.parametrize("kind", ["I", "L", "Z", "T"])
@pytest.mark.parametrize("void", [False, True])
def test_a_single_pair_is_little_longer_than_the_shortest_way(kind: str, void: bool) -> None:
    """A way square to the walls is at most sqrt(2) times the straight one (Cauchy's inequality); the rest is
    for bends that have to clear the wall and for keeping along walls (common practice, no source)."""
    plan, manifold, _ = hall_case(5, kind, void)
    inset = CLEARANCE + PITCH / 2.0
    floor = plan.rooms[0].buffer(-inset, join_style="mitre")
    for door in plan.doorways:
        room = door.rooms[1]
        found = tails(plan, manifold, [TailDemand("a", room)])
        route = found.routes[0]
        (x0, y0), (x1, y1) = door.stretches[0]
        (x2, y2), (x3, y3) = door.stretches[1]
        out = ((x2 + x3 - x0 - x1) / 0.2, (y2 + y3 - y0 - y1) / 0.2)
        foot = ((x0 + x1) / 2 - inset * out[0], (y0 + y1) / 2 - inset * out[1])
        first = tuple(p + inset * a for p, a in zip(manifold.place, manifold.ahead, strict=True))
        shortest = shortest_by_networkx(floor, (first[0], first[1]), foot) + 2.0 * inset + 0.1
        mean = (route.flow.length + route.back.length) / 2.0
        # Each right-angled bend saves (2 - pi/2) R over the corner.
        assert mean >= shortest - 0.02 - 6 * 0.43 * RADIUS
        assert mean <= math.sqrt(2.0) * shortest + 0.5


def row_of_rooms(widths: Sequence[float]) -> tuple[StoreyPlan, ManifoldPlace]:
    """Rooms in a row, each entered from the one before, through doorways of these widths in walls of 0.1 m."""
    rooms = tuple(box(4.1 * i, 0.0, 4.1 * i + 4.0, 3.0) for i in range(len(widths) + 1))
    doorways = tuple(
        Doorway(
            (i, i + 1),
            (
                ((4.1 * i + 4.0, 0.5), (4.1 * i + 4.0, 0.5 + width)),
                ((4.1 * i + 4.1, 0.5), (4.1 * i + 4.1, 0.5 + width)),
            ),
        )
        for i, width in enumerate(widths)
    )
    return StoreyPlan(rooms, doorways), ManifoldPlace((2.0, 0.0), (0.0, 1.0), 0)


def test_pairs_pass_every_doorway_side_by_side_square_to_the_wall_and_clear_of_jambs() -> None:
    plan, manifold = row_of_rooms([0.9, 0.8, 1.0])
    demands = [TailDemand(f"{room}", room) for room in (0, 1, 2, 2, 3)]
    demands = [TailDemand(f"{i}", demand.room) for i, demand in enumerate(demands)]
    found = tails(plan, manifold, demands)
    assert not found.unrouted
    assert_sound(plan, found)
    for i, door in enumerate(plan.doorways):
        x = 4.1 * i + 4.0
        heights = []
        for line in centre_lines(found):
            inside = shapely.intersection(line, box(x, 0.0, x + 0.1, 3.0))
            if not inside.is_empty:
                (xa, ya), (xb, yb) = inside.coords[0], inside.coords[-1]
                assert abs(xa - xb) == pytest.approx(0.1, abs=1e-6)
                assert ya == pytest.approx(yb, abs=1e-6)
                heights.append(ya)
        heights.sort()
        assert len(heights) == 2 * sum(demand.room > i for demand in demands)
        assert np.diff(heights) == pytest.approx([PITCH] * (len(heights) - 1), abs=1e-5)
        (_, y0), (_, y1) = door.stretches[0]
        low, high = sorted((y0, y1))
        assert low + CLEARANCE - 1e-5 <= heights[0] and heights[-1] <= high - CLEARANCE + 1e-5


def test_routes_end_at_the_places_where_circuits_enter_and_name_the_rooms_passed() -> None:
    plan, manifold = row_of_rooms([0.9, 0.8])
    found = tails(plan, manifold, [TailDemand("a", 2), TailDemand("b", 1), TailDemand("c", 0)])
    places = {place.circuit: place.pair for place in found.places}
    assert {route.circuit: route.rooms for route in found.routes} == {"a": (0, 1, 2), "b": (0, 1)}
    for route in found.routes:
        pair = places[route.circuit]
        ends = (route.flow.end, route.back.start)
        assert math.dist(*ends) == pytest.approx(PITCH)
        assert np.mean(ends, axis=0) == pytest.approx(pair.place)
        # Flow on the right, looking ahead.
        right = (pair.ahead[1], -pair.ahead[0])
        assert (ends[0][0] - ends[1][0]) * right[0] + (ends[0][1] - ends[1][1]) * right[1] > 0.0
    assert places["c"].place[1] == pytest.approx(0.0)


def test_lanes_hold_the_tails_that_cross_a_room_and_leave_the_rest_in_one_piece() -> None:
    plan, manifold = row_of_rooms([0.9, 0.8])
    found = tails(plan, manifold, [TailDemand("a", 2), TailDemand("b", 1), TailDemand("c", 0)])
    for room in (0, 1):
        lanes = shapely.union_all([lane.floor for lane in found.lanes if lane.room == room])
        for line in centre_lines(found):
            inside = shapely.intersection(line, plan.rooms[room].buffer(-1e-6))
            if inside.length > 0.5:
                assert lanes.buffer(1e-6).covers(inside)
        rest = shapely.difference(plan.rooms[room], lanes).buffer(-CLEARANCE)
        assert isinstance(rest, Polygon)
        own = next(place.pair for place in found.places if place.room == room)
        ahead = [p + 0.3 * a for p, a in zip(own.place, own.ahead, strict=True)]
        assert rest.distance(shapely.Point(ahead)) < CLEARANCE
    assert {lane.room for lane in found.lanes} == {0, 1}


def test_a_doorway_that_takes_fewer_pairs_is_named_with_what_it_needs() -> None:
    plan, manifold = row_of_rooms([0.36])
    found = tails(plan, manifold, [TailDemand(f"{i}", 1) for i in range(4)])
    assert [place.circuit for place in found.places] == ["0", "1"]
    for tail in found.unrouted:
        assert (tail.named, tail.index, tail.pairs) == ("doorway", 0, 4)
        assert tail.width_there == pytest.approx(0.36)
        assert tail.width_needed == pytest.approx(2 * 0.075 + 4 * 0.1)


def test_a_room_that_no_doorway_reaches_is_named() -> None:
    plan, manifold = row_of_rooms([0.2])
    found = tails(plan, manifold, [TailDemand("a", 1), TailDemand("b", 0)])
    assert [(tail.circuit, tail.named, tail.index) for tail in found.unrouted] == [("a", "no_way", 1)]
    assert found.ports == ("b",)


def test_a_wall_too_short_for_all_ports_is_named() -> None:
    plan, _ = row_of_rooms([0.9])
    short = ManifoldPlace((4.0, 0.25), (-1.0, 0.0), 0)
    found = tails(plan, short, [TailDemand(f"{i}", 1) for i in range(5)])
    assert {tail.named for tail in found.unrouted} == {"manifold"}
    assert all(tail.width_there == pytest.approx(0.5) for tail in found.unrouted)
    assert len(found.places) == 3
    assert_sound(plan, found)


def test_the_same_request_gives_the_same_tails() -> None:
    plan, manifold, demands = hall_case(7, "T", True)
    assert tails(plan, manifold, demands) == tails(plan, manifold, demands)


def test_a_turned_and_moved_storey_has_the_same_lengths() -> None:
    plan, manifold, demands = hall_case(7, "L", False)
    angle = math.radians(33.0)
    c, s = math.cos(angle), math.sin(angle)

    def turned(point: tuple[float, float]) -> tuple[float, float]:
        return (c * point[0] - s * point[1] + 12.0, s * point[0] + c * point[1] - 7.0)

    def turned_stretch(
        stretch: Sequence[tuple[float, float]],
    ) -> tuple[tuple[float, float], tuple[float, float]]:
        return (turned(stretch[0]), turned(stretch[1]))

    matrix = np.array([[c, s], [-s, c]])
    rooms = tuple(shapely.transform(room, lambda p: p @ matrix + [12.0, -7.0]) for room in plan.rooms)
    doorways = tuple(
        Doorway(door.rooms, (turned_stretch(door.stretches[0]), turned_stretch(door.stretches[1])))
        for door in plan.doorways
    )
    u, v = manifold.ahead
    moved = ManifoldPlace(turned(manifold.place), (c * u - s * v, s * u + c * v), 0)
    before, after = tails(plan, manifold, demands), tails(StoreyPlan(rooms, doorways), moved, demands)
    assert before.ports == after.ports
    for one, other in zip(before.routes, after.routes, strict=True):
        assert one.flow.length == pytest.approx(other.flow.length, abs=1e-3)


def test_a_room_behind_a_full_doorway_is_entered_another_way_round() -> None:
    """Plain counting: the near doorway takes one pair, and there are two."""
    rooms = (box(0.0, 0.0, 6.0, 2.0), box(0.0, 2.1, 2.0, 4.0), box(2.1, 2.1, 6.0, 4.0))
    doorways = (
        Doorway((0, 1), (((0.75, 2.0), (1.05, 2.0)), ((0.75, 2.1), (1.05, 2.1)))),
        Doorway((1, 2), (((2.0, 2.6), (2.0, 3.4)), ((2.1, 2.6), (2.1, 3.4)))),
        Doorway((0, 2), (((5.0, 2.0), (5.8, 2.0)), ((5.0, 2.1), (5.8, 2.1)))),
    )
    plan, manifold = StoreyPlan(rooms, doorways), ManifoldPlace((0.9, 0.0), (0.0, 1.0), 0)
    alone = tails(plan, manifold, [TailDemand("far", 2)])
    assert alone.routes[0].rooms == (0, 1, 2)
    both = tails(plan, manifold, [TailDemand("near", 1), TailDemand("far", 2)])
    assert not both.unrouted
    assert {route.circuit: route.rooms for route in both.routes} == {"near": (0, 1), "far": (0, 2)}
    assert_sound(plan, both)


def test_pairs_run_straight_through_a_doorway_that_faces_the_manifold() -> None:
    """Two square bends take twice their radius sideways: 0.1 m aside there is no room for them."""
    rooms = (box(0.0, 0.0, 3.0, 3.0), box(0.0, 3.1, 3.0, 5.0))
    doorway = Doorway((0, 1), (((1.2, 3.0), (2.0, 3.0)), ((1.2, 3.1), (2.0, 3.1))))
    plan, manifold = StoreyPlan(rooms, (doorway,)), ManifoldPlace((1.5, 0.0), (0.0, 1.0), 0)
    found = tails(plan, manifold, [TailDemand("a", 1), TailDemand("b", 1)])
    assert not found.unrouted
    assert_sound(plan, found)
    assert not any(isinstance(piece, Arc) for route in found.routes for piece in route.flow.pieces)


def test_pairs_that_fill_a_doorway_go_on_aside_square_to_the_walls() -> None:
    """Five pairs of 0.1 m with 75 mm clearance fill 0.65 m. On the slant they would come out of it nearer to each
    other than their pitch (their distance times the cosine); square to the walls there is room for all."""
    rooms = (box(0.0, 0.0, 3.0, 3.0), box(3.1, 0.0, 5.4, 3.0), box(5.5, 0.0, 8.0, 3.0))
    doorways = tuple(
        Doorway((index, index + 1), (((x, low), (x, low + 0.65)), ((x + 0.1, low), (x + 0.1, low + 0.65))))
        for index, (x, low) in enumerate(((3.0, 0.3), (5.4, 1.1)))
    )
    plan, manifold = StoreyPlan(rooms, doorways), ManifoldPlace((0.0, 1.2), (1.0, 0.0), 0)
    found = tails(plan, manifold, [TailDemand(f"{i}", 2) for i in range(5)])
    assert not found.unrouted
    assert_sound(plan, found)


def test_tails_go_round_a_field_that_they_would_part() -> None:
    """Straight across to the doorway that faces the manifold they would leave the room's own circuit one half."""
    rooms = (box(0.0, 0.0, 8.0, 2.0), box(0.0, 2.1, 8.0, 4.0))
    doorway = Doorway((0, 1), (((3.6, 2.0), (4.4, 2.0)), ((3.6, 2.1), (4.4, 2.1))))
    plan, manifold = StoreyPlan(rooms, (doorway,)), ManifoldPlace((4.0, 0.0), (0.0, 1.0), 0)
    found = tails(plan, manifold, [TailDemand("a", 1), TailDemand("own", 0)])
    assert not found.unrouted
    assert_sound(plan, found)
    lanes = shapely.union_all([lane.floor for lane in found.lanes])
    rest = shapely.get_parts(shapely.difference(rooms[0], lanes).buffer(-CLEARANCE))
    own = next(place.pair for place in found.places if place.circuit == "own")
    ahead = shapely.Point(own.place[0] + 0.4 * own.ahead[0], own.place[1] + 0.4 * own.ahead[1])
    assert sum(part.area for part in rest if part.distance(ahead) < CLEARANCE) > 0.9 * sum(
        part.area for part in rest
    )


@pytest.mark.parametrize("aside", [0.0, 1e-15, 1e-9])
def test_a_way_without_length_has_no_pipes(aside: float) -> None:
    way = [(1.0, 2.0), (1.0, 2.0 + aside)]
    assert not has_length(way)
    with pytest.raises(InvariantError):
        pair_pipes(way, TailRules(PITCH, CLEARANCE, RADIUS))


def test_a_short_way_has_two_pipes_beside_each_other() -> None:
    pipes = pair_pipes([(0.0, 0.0), (0.0, 0.01)], TailRules(PITCH, CLEARANCE, RADIUS))
    assert pipes is not None
    assert [pipe.length for pipe in pipes] == pytest.approx([0.01, 0.01])
    assert pipes[0].polyline(1e-3)[0] == pytest.approx((PITCH / 2.0, 0.0))


@pytest.mark.parametrize(("void_top", "goes"), [(2.995, False), (2.2, True), (1.6, True)])
def test_no_tail_crosses_a_void_before_a_doorway(void_top: float, goes: bool) -> None:
    """From a doorway 5 mm behind a shaft the floor that pairs reach lies beyond the shaft. With room before the doorway
    they pass beside it: every pipe on the floor of both rooms (shapely)."""
    hall = Polygon(box(0.0, 0.0, 5.0, 3.0).exterior, [box(1.5, 1.0, 3.5, void_top).exterior.coords])
    behind = box(0.0, 3.0, 5.0, 6.0)
    stretch = ((2.0, 3.0), (3.0, 3.0))
    plan = StoreyPlan((hall, behind), (Doorway((0, 1), (stretch, stretch)),))
    found = tails(plan, ManifoldPlace((0.6, 0.0), (0.0, 1.0), 0), [TailDemand("behind", 1)])
    assert [route.circuit for route in found.routes] == ["behind"] * goes
    assert len(found.unrouted) == 1 - goes
    floor = shapely.union(hall, behind).buffer(ALLOWED_OFF)
    assert all(
        floor.covers(LineString(pipe.polyline(ALLOWED_OFF)))
        for route in found.routes
        for pipe in (route.flow, route.back)
    )


def test_a_way_that_turns_straight_back_has_no_pipes() -> None:
    """Of a pair on the way back one pipe would lie on the other: no bend fits, whatever its radius."""
    assert pair_pipes([(0.0, 0.0), (0.0, 1.0), (0.0, 0.5)], TailRules(PITCH, CLEARANCE, RADIUS)) is None
