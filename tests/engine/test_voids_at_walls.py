"""Voids that stand at walls: the changes beside the refusal lead to a request that is taken."""

from __future__ import annotations

import json
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest
import shapely
from shapely import Polygon
from tepidarium_api.answer import Answer, answer
from tepidarium_api.calculations import CALCULATIONS
from tepidarium_api.problems import MAXIMUM_BYTES, Problem, encode
from tepidarium_engine.errors import InputError
from tepidarium_engine.plan.outlines.polygons import room_outline

from tests.problems.full_house import FULL_HOUSE

Ring = list[tuple[float, float]]
FOOT = 0.3048


def rectangle(left: float, low: float, right: float, high: float) -> Ring:
    return [(left, low), (right, low), (right, high), (left, high)]


ROOM = rectangle(0.0, 0.0, 4.0, 3.0)
SLANTED: Ring = [(0.0, 0.0), (4.0, 1.1), (3.0, 4.0), (-1.0, 3.0)]
CASES: dict[str, tuple[Ring, list[Ring]]] = {
    "at a wall": (ROOM, [rectangle(1.0, 0.0, 2.0, 0.6)]),
    "in a corner": (ROOM, [rectangle(3.0, 0.0, 4.0, 1.0)]),
    "two at a wall": (ROOM, [rectangle(0.5, 0.0, 1.0, 0.6), rectangle(2.0, 0.0, 3.0, 0.6)]),
    "along two walls": (
        ROOM,
        [[(0.0, 0.0), (3.0, 0.0), (3.0, 0.6), (0.6, 0.6), (0.6, 2.4), (0.0, 2.4)]],
    ),
    "two that meet in a corner, and an island": (
        ROOM,
        [rectangle(0.6, 0.0, 3.0, 0.6), rectangle(0.0, 0.0, 0.6, 2.4), rectangle(2.0, 1.5, 2.5, 2.0)],
    ),
    "one at another one": (ROOM, [rectangle(1.0, 0.6, 2.0, 1.0), rectangle(0.5, 0.0, 2.5, 0.6)]),
    "two that overlap": (ROOM, [rectangle(1.0, 0.0, 2.0, 0.6), rectangle(1.5, 0.3, 2.5, 1.0)]),
    "half a millimetre from the wall": (ROOM, [rectangle(1.0, 0.0005, 2.0, 0.6)]),
    "half a millimetre outside": (ROOM, [rectangle(1.0, -0.0005, 2.0, 0.6)]),
    "nearly in a corner": (ROOM, [rectangle(0.0004, 0.0006, 1.0, 0.6)]),
    "half a millimetre from each other": (
        ROOM,
        [rectangle(1.0, 0.0, 2.0, 0.6), rectangle(2.0005, 0.0, 3.0, 0.6004)],
    ),
    "the whole end": (ROOM, [rectangle(3.0, 0.0, 4.0, 3.0)]),
    "clockwise": (ROOM[::-1], [rectangle(1.0, 0.0, 2.0, 0.6)]),
    "at a slanted wall": (SLANTED, [[(1.0, 0.275), (2.0, 0.55), (1.85, 1.15), (0.85, 0.875)]]),
    "nearly at a slanted wall": (SLANTED, [[(1.0, 0.2755), (2.0, 0.55), (1.85, 1.15), (0.85, 0.875)]]),
    "feet, rounded to the millimetre": (
        rectangle(0.0, 0.0, 13.5 * FOOT, 10.0 * FOOT),
        [[(round(x * FOOT, 3), round(y * FOOT, 3)) for x, y in rectangle(3.25, 8.0, 13.5, 10.0)]],
    ),
}
WITHOUT: dict[str, tuple[Ring, list[Ring]]] = {
    "from wall to wall": (ROOM, [rectangle(1.0, 0.0, 2.0, 3.0)]),
    "touches in a point": (ROOM, [[(0.0, 1.0), (1.0, 1.0), (1.0, 2.0)]]),
    "round floor of its own": (
        ROOM,
        [
            [
                (1.0, 0.0),
                (1.0, 1.0),
                (3.0, 1.0),
                (3.0, 0.0),
                (2.5, 0.0),
                (2.5, 0.5),
                (1.5, 0.5),
                (1.5, 0.0),
            ]
        ],
    ),
    "reaches outside": (ROOM, [rectangle(1.0, -0.1, 2.0, 0.6)]),
    "leaves hardly any floor": (ROOM, [rectangle(0.0, 0.0, 4.0, 2.96)]),
}
BY_NAME = {calculation.name: calculation for calculation in CALCULATIONS}
EXAMPLES = Path(__file__).parents[2] / "examples"
AWAY = ((0.0, 0.0), (2e7 - 10.0, -1.5e7), (12.345, 6.789))


def changed(request: dict[str, Any], errors: list[dict[str, Any]]) -> dict[str, Any]:
    """The request with all changes carried out as RFC 6902, section 4, says."""
    found = deepcopy(request)
    for change in (change for error in errors for change in error.get("changes", ())):
        *way, last = change["path"][1:].split("/")
        here: Any = found
        for step in way:
            here = here[int(step)] if isinstance(here, list) else here[step]
        if change["op"] == "remove":
            del here[int(last)]
        else:
            here[last] = change["value"]
    return found


def refused(calculation: str, request: dict[str, Any]) -> list[dict[str, Any]]:
    found = answer(BY_NAME[calculation], json.dumps(request).encode(), "application/json")
    assert isinstance(found, Problem)
    document = encode(found, "0" * 32)
    assert len(document) <= MAXIMUM_BYTES
    errors: list[dict[str, Any]] = json.loads(document)["errors"]
    return errors


def moved(ring: Ring, by: tuple[float, float]) -> Ring:
    return [(round(x + by[0], 4), round(y + by[1], 4)) for x, y in ring]


@pytest.mark.parametrize("away", AWAY)
@pytest.mark.parametrize("case", CASES)
def test_the_changes_lead_to_a_request_that_is_taken(case: str, away: tuple[float, float]) -> None:
    outline, voids = CASES[case]
    room = {
        "outline": moved(outline, away),
        "voids": [moved(void, away) for void in voids],
        "pipe_spacing": 0.1,
        "tail_length": 4.0,
    }
    errors = refused("loop-length", room)
    assert [len(error.get("changes", ())) > 0 for error in errors] == [True] + [False] * (len(errors) - 1)
    now = changed(room, errors)
    left = room_outline(now["outline"], now["voids"])
    whole = Polygon(room["outline"]).difference(shapely.union_all([Polygon(void) for void in room["voids"]]))
    assert left.area == pytest.approx(whole.area, abs=0.003)
    sent = {tuple(place) for ring in (room["outline"], *room["voids"]) for place in ring}
    odd = [place for place in now["outline"] if tuple(place) not in sent]
    assert all(abs(value * 1e4 - round(value * 1e4)) < 1e-3 for place in odd for value in place)
    found = answer(BY_NAME["loop-length"], json.dumps(now).encode(), "application/json")
    assert isinstance(found, Answer), found


@pytest.mark.parametrize("case", WITHOUT)
def test_no_changes_where_no_single_outline_is_left(case: str) -> None:
    with pytest.raises(InputError) as caught:
        room_outline(*WITHOUT[case])
    assert all(not fault.changes for fault in caught.value.faults)


def test_a_changed_outline_begins_where_it_began() -> None:
    outline, voids = CASES["two at a wall"]
    with pytest.raises(InputError) as caught:
        room_outline(outline, voids, "/rooms/3")
    change, *removed = caught.value.faults[0].changes
    assert change.value is not None
    assert (change.path, change.value[0], change.value[-1]) == ("/rooms/3/outline", (0.0, 0.0), (0.0, 3.0))
    assert [each.path for each in removed] == ["/rooms/3/voids/1", "/rooms/3/voids/0"]


def house_with_voids() -> dict[str, Any]:
    house = deepcopy(FULL_HOUSE)
    for room in house["rooms"][:2]:
        _, _, right, high = Polygon(room["outline"]).bounds
        room["voids"] = [rectangle(right - 0.5, high - 0.4, right, high)]
    return house


def test_every_room_of_a_house_has_its_own_changes() -> None:
    house = house_with_voids()
    del house["heat_loss"]
    for room in house["rooms"]:
        room.setdefault("heat_demand", 200.0)
    errors = refused("designs", house)
    assert [error["pointer"] for error in errors] == ["/rooms/0/voids/0", "/rooms/1/voids/0"]
    whole = answer(BY_NAME["designs"], json.dumps(changed(house, errors)).encode(), "application/json")
    assert isinstance(whole, Answer), whole
    (first, second) = refused("design-options", {"design": house})
    assert [each["changes"][0]["path"] for each in (first, second)] == [
        "/design/rooms/0/outline",
        "/design/rooms/1/outline",
    ]


def test_no_changes_where_walls_are_named_by_number() -> None:
    errors = refused("designs", house_with_voids())
    assert [(error["pointer"], "changes" in error) for error in errors] == [
        ("/rooms/0/voids/0", False),
        ("/rooms/1/voids/0", True),
    ]
    strip = {"edges": [2], "width": 1.0, "pipe_spacing": 0.1}
    room = {
        "outline": ROOM,
        "voids": [rectangle(1.0, 0.0, 2.0, 0.6)],
        "entry": [0.5, 0.0],
        "pipe_spacing": 0.2,
    }
    assert "changes" in refused("routes", room)[0]
    assert "changes" not in refused("routes", {**room, "peripheral": strip})[0]


def test_changes_that_do_not_fit_are_left_off_before_errors() -> None:
    fine = [(round(0.04 * number, 4), 0.0) for number in range(240)]
    room = {"outline": [*fine, (9.56, 3.0), (0.0, 3.0)], "voids": [rectangle(1.0, 2.0, 2.0, 3.0)]}
    rooms = [{"id": str(number), **room} for number in range(4)]
    errors = refused(
        "manifold-position", {**json.loads((EXAMPLES / "manifold-position.json").read_text()), "rooms": rooms}
    )
    assert [error["pointer"] for error in errors] == [f"/rooms/{number}/voids/0" for number in range(4)]
    assert ["changes" in error for error in errors] == [True, True, False, False]
