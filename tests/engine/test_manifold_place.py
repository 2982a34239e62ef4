"""The manifold's place against exhaustive search along all walls, with ways found by networkx: no table is
published for such plans."""

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
from tepidarium_engine.storey.lanes.tail_routes import routed_tails
from tepidarium_engine.storey.manifold.manifold_assignment import Siting, assigned
from tepidarium_engine.storey.manifold.manifold_place import AllowedWall, ManifoldChoice, best_manifold_place
from tepidarium_engine.storey.model.records import Doorway
from tepidarium_engine.storey.model.tail_records import ManifoldPlace, StoreyPlan, TailDemand

PITCH, CLEARANCE, RADIUS = 0.05, 0.075, 0.08
INSET = CLEARANCE + PITCH / 2.0
Place = tuple[float, float]


def best(
    plan: StoreyPlan, demands: Sequence[TailDemand], rooms: Sequence[int], **more: object
) -> ManifoldChoice:
    return best_manifold_place(
        plan,
        demands,
        [AllowedWall(room) for room in rooms],
        tail_pitch=PITCH,
        wall_clearance=CLEARANCE,
        bend_radius=RADIUS,
        **more,  # type: ignore[arg-type]
    )


def corridor_plan(seed: int) -> tuple[StoreyPlan, list[TailDemand]]:
    """A corridor, straight or bent, with rooms on both sides of its first leg."""
    rng = random.Random(seed)
    length, width = rng.uniform(5.0, 8.0), rng.uniform(1.2, 1.8)
    leg = rng.choice([0.0, 3.0])
    hall = Polygon(
        [
            (0, 0),
            (length + 1.5, 0),
            (length + 1.5, width + leg),
            (length, width + leg),
            (length, width),
            (0, width),
        ]
    )
    if not leg:
        hall = box(0, 0, length, width)
    rooms, doorways = [hall], []
    for y, out in ((0.0, -0.1), (width, 0.1)):
        x = 0.0
        while x < length - 2.0:
            wide = rng.uniform(1.8, 3.0)
            if x + wide > length:
                break
            door = x + rng.uniform(0.1, wide - 1.0)
            far = y + out + math.copysign(3.0, out)
            rooms.append(box(x, min(y + out, far), x + wide - 0.1, max(y + out, far)))
            doorways.append(
                Doorway(
                    (0, len(rooms) - 1),
                    (((door, y), (door + 0.8, y)), ((door, y + out), (door + 0.8, y + out))),
                )
            )
            x += wide
    demands = [
        TailDemand(f"{room}.{number}", room)
        for room in range(len(rooms))
        for number in range(rng.randint(1, 2))
    ]
    return StoreyPlan(tuple(rooms), tuple(doorways)), demands


def corridor_graph(plan: StoreyPlan) -> tuple[networkx.Graph, Polygon]:
    """Corners of the corridor's free floor and feet of the ways into its doorways."""
    floor = plan.rooms[0].buffer(-INSET, join_style="mitre")
    graph = networkx.Graph()
    wide = floor.buffer(1e-6)
    nodes: dict[object, Place] = {("corner", i): c for i, c in enumerate(list(floor.exterior.coords)[:-1])}
    for door in plan.doorways:
        (x0, y0), (x1, _) = door.stretches[0]
        nodes["room", door.rooms[1]] = ((x0 + x1) / 2, y0 + (INSET if y0 == 0.0 else -INSET))
    for (a, p), (b, q) in itertools.combinations(nodes.items(), 2):
        if wide.covers(LineString([p, q])):
            graph.add_edge(a, b, weight=math.dist(p, q))
    graph.graph["nodes"] = nodes
    return graph, wide


def exhaustive(plan: StoreyPlan, demands: Sequence[TailDemand], step: float) -> float:
    """Least pipe in all tails over places ``step`` apart on the corridor's walls, clear of doorways."""
    graph, wide = corridor_graph(plan)
    nodes = graph.graph["nodes"]
    half = CLEARANCE + len(demands) * PITCH
    ring = shapely.orient_polygons(plan.rooms[0]).exterior
    doors = shapely.union_all([LineString(door.stretches[0]) for door in plan.doorways])
    ways = dict(networkx.all_pairs_dijkstra_path_length(graph))
    least = math.inf
    for (x0, y0), (x1, y1) in itertools.pairwise(ring.coords):
        length = math.dist((x0, y0), (x1, y1))
        u, v = (x1 - x0) / length, (y1 - y0) / length
        for along in np.arange(half, length - half + 1e-9, step):
            x, y = x0 + u * along, y0 + v * along
            block = LineString([(x - u * half, y - v * half), (x + u * half, y + v * half)])
            if shapely.intersection(block, doors).length > 2e-3:
                continue
            foot = (x - v * INSET, y + u * INSET)
            seen = [n for n, p in nodes.items() if wide.covers(LineString([foot, p]))]
            total = 0.0
            for demand in demands:
                if demand.room:
                    way = min(
                        math.dist(foot, nodes[n]) + ways[n].get(("room", demand.room), math.inf) for n in seen
                    )
                    total += 2.0 * (way + 2.0 * INSET + 0.1)
            least = min(least, total)
    return least


@pytest.mark.parametrize("seed", range(6))
def test_no_place_on_a_fine_grid_saves_more_than_a_hundredth(seed: int) -> None:
    plan, demands = corridor_plan(seed)
    choice = best(plan, demands, [0], ports_maximum=30)
    least = exhaustive(plan, demands, 0.02)
    assert math.isfinite(least)
    assert len(choice.manifolds) == 1
    assert choice.tail_length == pytest.approx(least, rel=0.01)


def test_the_given_position_is_priced_beside_the_best() -> None:
    plan, demands = corridor_plan(2)
    corner = ManifoldPlace((0.0, 0.6), (1.0, 0.0), 0)
    choice = best(plan, demands, [0], ports_maximum=30, given=corner)
    assert choice.given_tail_length is not None
    assert choice.given_tail_length > choice.tail_length
    chosen = choice.manifolds[0].manifold
    again = best(plan, demands, [0], ports_maximum=30, given=chosen)
    assert again.given_tail_length == pytest.approx(choice.tail_length)


def test_a_manifold_stands_clear_of_doorways_and_its_tails_can_be_drawn() -> None:
    plan, demands = corridor_plan(4)
    choice = best(plan, demands, [0], ports_maximum=30)
    manifold = choice.manifolds[0].manifold
    half = CLEARANCE + len(demands) * PITCH
    for door in plan.doorways:
        assert LineString(door.stretches[0]).distance(shapely.Point(manifold.place)) >= half - 2e-3
    found = routed_tails(
        plan, manifold, demands, tail_pitch=PITCH, wall_clearance=CLEARANCE, bend_radius=RADIUS
    )
    assert not found.unrouted
    drawn = sum(route.flow.length + route.back.length for route in found.routes)
    assert drawn >= 0.95 * choice.tail_length


def test_only_the_allowed_stretch_is_taken() -> None:
    plan, demands = corridor_plan(1)
    stretch = ((0.0, 0.0), (0.0, 5.0))
    choice = best_manifold_place(
        plan,
        demands[:3],
        [AllowedWall(0, stretch)],
        tail_pitch=PITCH,
        wall_clearance=CLEARANCE,
        bend_radius=RADIUS,
    )
    assert choice.manifolds[0].manifold.place[0] == pytest.approx(0.0, abs=1e-6)


def test_ports_ask_for_more_manifolds_and_no_room_is_shared() -> None:
    plan, demands = corridor_plan(3)
    choice = best(plan, demands, range(len(plan.rooms)), ports_maximum=4)
    assert len(choice.manifolds) >= math.ceil(len(demands) / 4)
    rooms = {demand.circuit: demand.room for demand in demands}
    served = [{rooms[circuit] for circuit in sited.circuits} for sited in choice.manifolds]
    assert all(len(sited.circuits) <= 4 for sited in choice.manifolds)
    assert all(one.isdisjoint(other) for one, other in itertools.combinations(served, 2))
    assert sum(len(sited.circuits) for sited in choice.manifolds) == len(demands)


def test_a_length_limit_asks_for_another_manifold() -> None:
    plan, demands = corridor_plan(0)
    one = best(plan, demands, [0], ports_maximum=30)
    longest = 2.0
    more = best(plan, demands, [0], ports_maximum=30, tail_length_maximum=longest)
    assert len(more.manifolds) > len(one.manifolds) == 1
    assert more.tail_length < one.tail_length


def test_rooms_that_nothing_reaches_are_told() -> None:
    plan, demands = corridor_plan(0)
    island = StoreyPlan((*plan.rooms, box(50.0, 50.0, 54.0, 54.0)), plan.doorways)
    choice = best(island, [*demands, TailDemand("far", len(plan.rooms))], [0], ports_maximum=30)
    assert choice.unreached == ("far",)
    assert choice.manifolds


@pytest.mark.parametrize("seed", range(8))
def test_exchange_is_within_a_hundredth_of_every_assignment_tried(seed: int) -> None:
    """Two manifolds among eight places for six rooms: all choices tried."""
    rng = np.random.default_rng(seed)
    places, rooms = rng.uniform(0, 10, (8, 2)), rng.uniform(0, 10, (6, 2))
    circuits = rng.integers(1, 3, 6).astype(float)
    ports = math.ceil(int(circuits.sum()) / 2) + 1
    costs = np.hypot(*(places[:, None] - rooms[None]).transpose(2, 0, 1)) * circuits
    numbers = np.arange(8)
    least = math.inf
    for a, b in itertools.combinations(range(8), 2):
        for chosen in itertools.product((0, 1), repeat=6):
            mask = np.array(chosen, dtype=bool)
            if circuits[mask].sum() <= ports and circuits[~mask].sum() <= ports:
                least = min(least, float(costs[a, ~mask].sum() + costs[b, mask].sum()))
    found = assigned(Siting(costs, circuits, ports, lambda row: numbers != row), 2)
    assert found is not None
    assert found.cost <= 1.01 * least
