"""Circuits are called like their rooms: rooms that are numbered themselves do not get in the way."""

from __future__ import annotations

import pytest
from tepidarium_engine.designs import BuildUp, DesignRoom, DesignsInputs, calculate
from tepidarium_engine.storey.circuit_names import circuit_name, number_prefix


@pytest.mark.parametrize(
    ("others", "expected"),
    [
        (["bed"], "bed-1"),
        (["bed", "bedroom-1", "bed-a"], "bed-1"),
        (["bed", "bed-2", "bed-3"], "bed--1"),
        (["bed", "bed-2", "bed--7"], "bed---1"),
    ],
)
def test_numbers_are_put_after_what_no_other_room_is_called(others: list[str], expected: str) -> None:
    assert circuit_name("bed", number_prefix("bed", others), 1, 2) == expected
    assert circuit_name("bed", number_prefix("bed", others), 1, 1) == "bed"


def test_a_house_whose_rooms_are_numbered_is_designed() -> None:
    areas = {"bed": 30.0, "bed-1": 4.0, "bed-2": 5.0}
    rooms = tuple(DesignRoom(name, "floor", 40.0 * area, area=area) for name, area in areas.items())
    result = calculate(DesignsInputs(rooms, (BuildUp("floor", resistance_below=2.0, temperature_below=5.0),)))
    names = [circuit.id for circuit in result.circuits]
    assert len(set(names)) == len(names) > len(areas)
    assert {"bed-1", "bed-2"} < set(names)
