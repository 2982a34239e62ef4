"""How the cost of a design grows with its rooms, with the search for a manifold's place, and with HTTP around it.

Times are of the processor, in turns and the least of a few, but for HTTP, where two processes take part. The bounds:
60 rooms cost at most 1.5 times as much each as 12, ten flats that are alike at most 2.3 times as much as one; HTTP adds
at most 5 %.
"""

from __future__ import annotations

import http.client
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from functools import partial

import msgspec
from tepidarium_engine import manifold_position
from tepidarium_engine.designs import (
    BuildUp,
    DesignRoom,
    DesignsInputs,
    DesignsResult,
    Manifold,
    PlanDoorway,
    Storey,
    calculate,
)
from tepidarium_engine.manifold_position import ManifoldPositionInputs, ManifoldRoom

from .ratio import Ratio
from .servers import server

__all__ = ["ratios"]

FLAT = 6
"""Rooms of a flat."""
SIZES = (6, 12, 24, 48, 60)
"""Rooms of a house."""
ROUNDS = 2
HTTP_ROUNDS = 7
_FLOOR = BuildUp("floor", resistance_below=2.5, temperature_below=8.0)
_ASIDE = 20.0
"""From flat to flat of a storey [m]."""

_Ring = tuple[tuple[float, float], ...]


def ratios() -> Iterator[Ratio]:
    for name, house in HOUSES:
        yield _growth(name, partial(_designed, house))
    for count, seconds in _each((12, 60), lambda count: manifold_position.calculate(along_corridor(count))):
        print(f"{f'{count} rooms, manifold-position':<44} {1000.0 * seconds:8.1f} ms a room", flush=True)
    yield _ten_flats()
    yield _found_beside_given()
    yield _over_http()


def in_storeys(count: int) -> DesignsInputs:
    """Two flats a storey, no two of the same size, a manifold in the hall of each."""
    return _house([(flat // 2, flat % 2) for flat in range(count // FLAT)])


def side_by_side(count: int) -> DesignsInputs:
    """All flats on one storey."""
    return _house([(0, flat) for flat in range(count // FLAT)])


def alike(count: int) -> DesignsInputs:
    """So many equal flats on one storey."""
    house = side_by_side(FLAT * count)
    rooms = [
        replace(
            room,
            outline=tuple((x + _ASIDE * flat, y) for x, y in first.outline or ()),
            heat_demand=first.heat_demand,
        )
        for flat in range(count)
        for room, first in zip(house.rooms[FLAT * flat : FLAT * (flat + 1)], house.rooms[:FLAT], strict=True)
    ]
    return replace(house, rooms=tuple(rooms))


def found(count: int) -> DesignsInputs:
    """One flat a storey but for the last ones, with places for the manifolds to be found."""
    house = _house([(flat % 8, flat // 8) for flat in range(count // FLAT)])
    return replace(house, manifolds=tuple(replace(one, position=None) for one in house.manifolds))


def _house(flats: list[tuple[int, int]]) -> DesignsInputs:
    rooms: list[DesignRoom] = []
    doorways: list[PlanDoorway] = []
    manifolds: list[Manifold] = []
    for number, (storey, column) in enumerate(flats):
        x, grown = _ASIDE * column, 0.02 * number
        names = [f"{number}-{room}" for room in range(FLAT)]
        rooms += [
            DesignRoom(
                name,
                "floor",
                45.0 * (outline[2][0] - outline[0][0]) * (outline[2][1] - outline[0][1]),
                outline=outline,
                pipe_spacing=0.2,
                storey=str(storey),
                manifold=f"m{number}",
            )
            for name, outline in zip(names, _outlines(x, grown), strict=True)
        ]
        doorways += [
            PlanDoorway((names[0], name), (x + at, y))
            for name, (at, y) in zip(names[1:], _DOORS, strict=True)
        ]
        manifolds.append(Manifold(id=f"m{number}", position=(x, 0.85), storey=str(storey)))
    storeys = tuple(Storey(name) for name in sorted({room.storey or "" for room in rooms}))
    return DesignsInputs(
        tuple(rooms),
        (_FLOOR,),
        doorways=tuple(doorways),
        storeys=storeys,
        manifolds=tuple(manifolds),
    )


_DOORS = ((1.3, 1.75), (4.0, 1.75), (6.7, 1.75), (2.0, -0.05), (6.0, -0.05))


def _outlines(x: float, grown: float) -> list[_Ring]:
    """A hall with three rooms on one side and two on the other; the rooms are so much deeper [m]."""
    high, low = 5.0 + grown, -2.9 - grown
    spans = (
        (0.0, 0.0, 8.0, 1.7),
        (0.0, 1.8, 2.6, high),
        (2.7, 1.8, 5.3, high),
        (5.4, 1.8, 8.0, high),
        (0.0, low, 3.9, -0.1),
        (4.0, low, 8.0, -0.1),
    )
    return [((x + a, b), (x + c, b), (x + c, d), (x + a, d)) for a, b, c, d in spans]


def along_corridor(count: int) -> ManifoldPositionInputs:
    """Rooms on both sides of a corridor, a circuit each: as many manifolds as their ports ask for."""
    pairs = (count - 1) // 2
    rooms = [ManifoldRoom("corridor", ((0.0, 0.0), (4.0 * pairs, 0.0), (4.0 * pairs, 2.0), (0.0, 2.0)))]
    doorways = []
    for number in range(2 * pairs):
        x, south = 4.0 * (number // 2), bool(number % 2)
        low, high = (-4.1, -0.1) if south else (2.1, 6.1)
        name = f"room {number}"
        rooms.append(ManifoldRoom(name, ((x, low), (x + 3.9, low), (x + 3.9, high), (x, high))))
        doorways.append(PlanDoorway(("corridor", name), (x + 1.0, -0.05 if south else 2.05)))
    return ManifoldPositionInputs(tuple(rooms), tuple(doorways))


def _designed(house: Callable[[int], DesignsInputs], count: int) -> DesignsResult:
    return calculate(house(count))


HOUSES = (
    ("on storeys", in_storeys),
    ("side by side", side_by_side),
    ("places found", found),
)


def _least(rounds: int, *works: Callable[[], object]) -> list[float]:
    """Seconds of the processor, in turns."""
    times: list[list[float]] = [[] for _ in works]
    for _ in range(rounds):
        for work, spent in zip(works, times, strict=True):
            started = time.process_time()
            work()
            spent.append(time.process_time() - started)
    return [min(spent) for spent in times]


def _each(counts: Sequence[int], work: Callable[[int], object]) -> list[tuple[int, float]]:
    """Seconds for each room."""
    work(counts[0])
    spent = _least(ROUNDS, *(partial(work, count) for count in counts))
    return [(count, seconds / count) for count, seconds in zip(counts, spent, strict=True)]


def _growth(name: str, work: Callable[[int], object]) -> Ratio:
    """Cost of a room among 60 over that among 12."""
    each = _each(SIZES, work)
    for count, seconds in each:
        print(f"{f'{count} rooms, {name}':<44} {1000.0 * seconds:8.1f} ms a room", flush=True)
    at = dict(each)
    return Ratio(f"cost of a room of 60 / of 12, {name}", at[60] / at[12], 1.5, at_least=False)


def _ten_flats() -> Ratio:
    one, ten = _least(ROUNDS, lambda: calculate(alike(1)), lambda: calculate(alike(10)))
    print(f"{'a flat, and ten that are alike':<44} {1000.0 * one:8.1f} ms, {1000.0 * ten:.1f} ms", flush=True)
    return Ratio("ten equal flats / one", ten / one, 2.3, at_least=False)


def _found_beside_given() -> Ratio:
    """A design whose places are found beside the same with the places given."""
    asked = found(12)
    layout = calculate(asked).layout
    assert layout is not None
    at = {one.id: one.position for one in layout.placed_manifolds}
    given = replace(asked, manifolds=tuple(replace(one, position=at[one.id]) for one in asked.manifolds))
    search, plain = _least(ROUNDS, lambda: calculate(asked), lambda: calculate(given))
    return Ratio("design with places found / given", search / plain, 1.5, at_least=False)


def _over_http() -> Ratio:
    """The whole of a request over the engine alone, each the least of a few [s of the clock]."""
    body = msgspec.json.encode(in_storeys(12))
    inputs = msgspec.json.decode(body, type=DesignsInputs)
    alone, over = [], []
    with server("tepidarium_api.app:create_app", TEPIDARIUM_PROCESSES="1") as service:
        connection = http.client.HTTPConnection("127.0.0.1", service.port, timeout=60)
        for _ in range(HTTP_ROUNDS):
            alone.append(_clocked(lambda: calculate(inputs)))
            over.append(_clocked(lambda: _asked(connection, body)))
        connection.close()
    print(f"{'12 rooms over HTTP':<44} {1000.0 * min(over):8.1f} ms, alone {1000.0 * min(alone):.1f} ms")
    return Ratio("design over HTTP / engine alone", min(over) / min(alone), 1.05, at_least=False)


def _clocked(work: Callable[[], object]) -> float:
    started = time.perf_counter()
    work()
    return time.perf_counter() - started


def _asked(connection: http.client.HTTPConnection, body: bytes) -> None:
    connection.request("POST", "/v1/designs", body, {"Content-Type": "application/json"})
    answer = connection.getresponse()
    answer.read()
    assert answer.status == 200
