"""Circuits are called like their rooms: rooms that are numbered themselves do not get in the way."""

from __future__ import annotations

import pytest
from tepidarium_engine.designs import (
    BuildUp,
    DesignLimits,
    DesignRoom,
    DesignsInputs,
    Manifold,
    PlanDoorway,
    calculate,
)
from tepidarium_engine.storey.model.circuit_names import circuit_name, number_prefix


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


def rectangle(left: float, right: float, top: float) -> tuple[tuple[float, float], ...]:
    return ((left, 0.0), (right, 0.0), (right, top), (left, top))


@pytest.mark.parametrize("most", [64.0, 72.0])
def test_what_is_not_drawn_is_called_as_the_design_calls_it(most: float) -> None:
    """Tails find no way into the room behind the others, which needs more circuits than was estimated."""
    outlines = {
        "hall": rectangle(0.0, 1.5, 4.0),
        "living": rectangle(1.62, 5.5, 4.0),
        "store": rectangle(5.62, 8.2, 3.0),
    }
    result = calculate(
        DesignsInputs(
            tuple(DesignRoom(name, "tile", 400.0, outline=outline) for name, outline in outlines.items()),
            (BuildUp("tile", resistance_below=3.0, temperature_below=9.0, covering_resistance=0.02),),
            manifold=Manifold(position=(0.0, 2.0)),
            doorways=(
                PlanDoorway(("hall", "living"), (1.56, 2.0), 0.4),
                PlanDoorway(("living", "store"), (5.56, 1.5)),
            ),
            limits=DesignLimits(pipe_spacings=(0.15,), maximum_circuit_length=most),
        )
    )
    assert result.layout is not None
    unplaced = {one.id for one in result.layout.unplaced}
    assert unplaced
    assert unplaced <= {circuit.id for circuit in result.circuits}
    assert result.rooms[2].circuit_ids == tuple(
        circuit.id for circuit in result.circuits if circuit.room == "store"
    )
