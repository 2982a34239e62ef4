"""Storeys that cannot be: refused with the same pointers in a design and for a manifold alone, or told
where a design still exists. What fits together is decided by hand on squares of 4 m."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from tepidarium_engine import designs, manifold_position
from tepidarium_engine.designs import BuildUp, DesignRoom, DesignsInputs, Manifold, PlanDoorway
from tepidarium_engine.errors import InputError
from tepidarium_engine.manifold_position import ManifoldPositionInputs, ManifoldRoom

Ring = tuple[tuple[float, float], ...]


def _rect(x0: float, y0: float, x1: float, y1: float) -> Ring:
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


HALL = _rect(0.0, 0.0, 4.0, 4.0)
ROOM = _rect(4.1, 0.0, 8.1, 4.0)
DOOR = PlanDoorway(("hall", "room"), (4.05, 2.0))


def _design(room: Ring, doorways: tuple[PlanDoorway, ...], **changes: Any) -> DesignsInputs:
    return DesignsInputs(
        tuple(
            DesignRoom(name, "floor", 300.0, outline=outline, pipe_spacing=0.2)
            for name, outline in (("hall", HALL), ("room", room))
        ),
        (BuildUp("floor", 2.0, 10.0),),
        doorways=doorways,
        **{"manifold": Manifold(position=(1.0, 0.0)), **changes},
    )


def _question(room: Ring, doorways: tuple[PlanDoorway, ...]) -> ManifoldPositionInputs:
    return ManifoldPositionInputs((ManifoldRoom("hall", HALL), ManifoldRoom("room", room)), doorways)


def _told(calculate: Any, inputs: Any) -> list[tuple[str, str]]:
    with pytest.raises(InputError) as refusal:
        calculate(inputs)
    return [(fault.pointer, fault.code) for fault in refusal.value.faults]


@pytest.mark.parametrize(
    ("room", "doorways", "expected"),
    [
        (_rect(3.5, 0.0, 8.1, 4.0), (DOOR,), ("/rooms/1/outline", "rooms_overlap")),
        (HALL, (DOOR,), ("/rooms/1/outline", "rooms_overlap")),
        (ROOM, (replace(DOOR, place=(2.0, 2.0)),), ("/doorways/0/place", "not_on_wall")),
        (ROOM, (replace(DOOR, place=(0.0, 2.0)),), ("/doorways/0/place", "not_on_wall")),
        (ROOM, (replace(DOOR, width=5.0),), ("/doorways/0/place", "not_on_wall")),
        (
            _rect(4.1, 4.1, 8.1, 8.0),
            (replace(DOOR, place=(4.05, 4.05)),),
            ("/doorways/0/place", "not_facing"),
        ),
        (ROOM, (DOOR, replace(DOOR, place=(4.05, 2.4))), ("/doorways/1/place", "doorways_overlap")),
        (ROOM, (DOOR, DOOR), ("/doorways/1/place", "doorways_overlap")),
    ],
)
def test_rooms_and_doorways_that_do_not_fit_are_refused_alike(
    room: Ring, doorways: tuple[PlanDoorway, ...], expected: tuple[str, str]
) -> None:
    of_design = _told(designs.calculate, _design(room, doorways))
    assert expected in of_design
    assert _told(manifold_position.calculate, _question(room, doorways)) == of_design


def test_a_doorway_wider_than_the_wall_that_both_rooms_share_is_told() -> None:
    """Rooms that face each other over 0.5 m, a doorway of 0.8 m."""
    room, doorways = _rect(4.1, 3.5, 8.1, 7.5), (replace(DOOR, place=(4.05, 3.75)),)
    for result in (
        designs.calculate(_design(room, doorways)),
        manifold_position.calculate(_question(room, doorways)),
    ):
        told = next(finding for finding in result.findings if finding.code == "doorway_narrower")
        assert (told.where, told.limit) == ("/doorways/0/place", 0.8)
        assert told.value == pytest.approx(0.5)


@pytest.mark.parametrize(
    ("changes", "expected"),
    [
        ({"manifold": Manifold(position=(20.0, 20.0))}, ("/manifold/position", "outside")),
        (
            {"manifold": Manifold(position=(90.0, 0.0)), "doorways": ()},
            ("/manifold/position", "tails_too_long"),
        ),
        (
            {"manifold": Manifold(position=(900.0, 0.0)), "doorways": ()},
            ("/manifold/position", "tails_too_long"),
        ),
    ],
)
def test_a_manifold_out_of_reach_points_to_its_position(
    changes: dict[str, Any], expected: tuple[str, str]
) -> None:
    assert expected in _told(designs.calculate, replace(_design(ROOM, (DOOR,)), **changes))


def test_an_entry_off_the_room_points_to_it() -> None:
    house = _design(ROOM, ())
    rooms = (replace(house.rooms[0], entry=(2.0, -0.1)), replace(house.rooms[1], entry=(2.0, -0.1)))
    assert _told(designs.calculate, replace(house, rooms=rooms)) == [("/rooms/1/entry", "outside")]


def test_a_room_with_more_circuits_than_a_manifold_has_ports_points_to_the_ports() -> None:
    question = _question(ROOM, (DOOR,))
    rooms = (question.rooms[0], replace(question.rooms[1], circuits=13))
    assert _told(manifold_position.calculate, replace(question, rooms=rooms)) == [
        ("/maximum_ports", "too_few_ports")
    ]
