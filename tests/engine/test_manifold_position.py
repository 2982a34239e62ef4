"""The calculation ``manifold-position``: relations, refusals and what is told. The search itself is held to exhaustive
search and networkx in the test of the manifold's place."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tepidarium_api.calculations.manifold_position import MANIFOLD_POSITION
from tepidarium_engine.errors import InputError
from tepidarium_engine.manifold_position import (
    MOST_STOREY_CIRCUITS,
    ManifoldPositionInputs,
    ManifoldRoom,
    PlanDoorway,
    WallAllowed,
    calculate,
    workings,
)

FLAT = msgspec.convert(MANIFOLD_POSITION.example, ManifoldPositionInputs, strict=True)
LOW = ManifoldRoom("low", ((0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)))
HIGH = ManifoldRoom("high", ((0.0, 3.1), (4.0, 3.1), (4.0, 6.0), (0.0, 6.0)), circuits=2)
DOOR = PlanDoorway(("low", "high"), (2.0, 3.05), 0.9)
TWO = ManifoldPositionInputs((LOW, HIGH), (DOOR,), (WallAllowed("low", ((0.0, 0.0), (4.0, 0.0))),))


def refusal(inputs: ManifoldPositionInputs) -> set[str]:
    with pytest.raises(InputError) as caught:
        calculate(inputs)
    return {fault.pointer for fault in caught.value.faults}


def test_all_circuits_get_a_port_and_the_pipe_adds_up() -> None:
    result = calculate(FLAT)
    (manifold,) = result.manifolds
    assert sorted(manifold.ports) == ["bath", "hall", "kitchen", "living-1", "living-2"]
    assert [tails.room for tails in manifold.room_tails] == ["hall", "living", "kitchen", "bath"]
    by_hand = math.fsum(2.0 * len(tails.circuit_ids) * tails.tail_length for tails in manifold.room_tails)
    assert result.tail_pipe == pytest.approx(by_hand)
    assert result.position_excess == pytest.approx((result.position_tail_pipe or 0.0) - by_hand)
    assert {finding.code for finding in result.findings} == {"better_position"}
    rows = {row.symbol: row.value for row in workings(FLAT, result)}
    assert rows["L"] == rows["L_1"] == pytest.approx(by_hand)


def test_no_way_is_shorter_than_a_bird_flies() -> None:
    (manifold,) = calculate(FLAT).manifolds
    doors = {"living": (2.0, 1.6, 0.45), "kitchen": (6.5, 1.6, 0.45), "bath": (3.0, -0.1, 0.4)}
    for tails in manifold.room_tails[1:]:
        x, y, half = doors[tails.room]
        assert tails.tail_length >= math.dist(manifold.place, (x, y)) - half


def test_a_pipe_more_to_each_room_doubles_what_tails_take() -> None:
    double = replace(TWO, rooms=(LOW, replace(HIGH, circuits=4)))
    assert calculate(double).tail_pipe == pytest.approx(2.0 * calculate(TWO).tail_pipe, rel=1e-3)


@settings(max_examples=15, deadline=None)
@given(x=st.floats(-1e5, 1e5), y=st.floats(-1e5, 1e5))
def test_a_storey_moved_as_a_whole_takes_the_same_pipe(x: float, y: float) -> None:
    def moved(points: tuple[tuple[float, float], ...]) -> tuple[tuple[float, float], ...]:
        return tuple((a + x, b + y) for a, b in points)

    there = ManifoldPositionInputs(
        tuple(replace(room, outline=moved(room.outline)) for room in TWO.rooms),
        (replace(DOOR, place=moved((DOOR.place,))[0]),),
        (WallAllowed("low", moved(((0.0, 0.0), (4.0, 0.0)))),),
    )
    assert calculate(there).tail_pipe == pytest.approx(calculate(TWO).tail_pipe, abs=1e-3)


@settings(max_examples=15, deadline=None)
@given(at=st.floats(0.3, 3.7))
def test_no_other_place_on_the_allowed_wall_is_better(at: float) -> None:
    result = calculate(replace(TWO, position=(at, 0.0)))
    assert result.position_tail_pipe is not None
    # places are compared 10 mm apart: half of that aside of the best one, over 3.1 m
    assert result.position_tail_pipe >= result.tail_pipe - 1e-4


def test_more_places_never_cost_more() -> None:
    free = replace(TWO, allowed_places=())
    assert calculate(free).tail_pipe <= calculate(TWO).tail_pipe + 1e-9


def test_rooms_that_pipes_only_pass_take_no_port() -> None:
    passed = replace(TWO, rooms=(replace(LOW, circuits=0), HIGH))
    (manifold,) = calculate(passed).manifolds
    assert set(manifold.ports) == {"high-1", "high-2"}
    assert [tails.room for tails in manifold.room_tails] == ["high"]


def test_a_position_that_reaches_not_all_is_told() -> None:
    attic = ManifoldRoom("attic", ((9.0, 0.0), (12.0, 0.0), (12.0, 3.0), (9.0, 3.0)), circuits=0)
    result = calculate(replace(TWO, rooms=(LOW, HIGH, attic), position=(10.0, 0.0)))
    assert result.position_tail_pipe is None and result.position_excess is None
    assert {finding.code for finding in result.findings} == {"position_reaches_not_all"}


@pytest.mark.parametrize(
    ("changes", "pointer"),
    [
        ({"rooms": (LOW, replace(HIGH, id="low"))}, "/rooms/1/id"),
        (
            {"rooms": (LOW, replace(HIGH, outline=((0.0, 2.0), (4.0, 2.0), (4.0, 6.0), (0.0, 6.0))))},
            "/rooms/1/outline",
        ),
        (
            {"rooms": (LOW, replace(HIGH, outline=((0.0, 3.1), (4.0, 5.0), (4.0, 3.1), (0.0, 6.0))))},
            "/rooms/1/outline",
        ),
        ({"rooms": (replace(LOW, circuits=0), replace(HIGH, circuits=0))}, "/rooms"),
        ({"doorways": (replace(DOOR, rooms=("low", "low")),)}, "/doorways/0/rooms/1"),
        ({"doorways": (replace(DOOR, place=(2.0, 1.0)),)}, "/doorways/0/place"),
        ({"doorways": ()}, "/rooms/1"),
        ({"allowed_places": (WallAllowed("cellar"),)}, "/allowed_places/0/room"),
        ({"allowed_places": (WallAllowed("low", ((1.0, 1.0), (2.0, 1.0))),)}, "/allowed_places/0/stretch"),
        ({"allowed_places": (WallAllowed("low", ((1.0, 0.0), (1.0, 0.0))),)}, "/allowed_places/0/stretch"),
        ({"position": (20.0, 0.0)}, "/position"),
        ({"tail_pitch": 0.015}, "/tail_pitch"),
        ({"maximum_ports": 1}, "/maximum_ports"),
    ],
)
def test_what_does_not_fit_names_the_field(changes: dict[str, Any], pointer: str) -> None:
    assert pointer in refusal(replace(TWO, **changes))


def test_too_many_circuits_are_refused() -> None:
    rooms = tuple(
        ManifoldRoom(
            str(n), ((5.0 * n, 0.0), (5.0 * n + 4.0, 0.0), (5.0 * n + 4.0, 4.0), (5.0 * n, 4.0)), circuits=24
        )
        for n in range(5)
    )
    assert sum(room.circuits for room in rooms) > MOST_STOREY_CIRCUITS
    assert refusal(ManifoldPositionInputs(rooms, maximum_ports=24)) == {"/rooms"}
