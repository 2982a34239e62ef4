"""A part of a hall as a room of its own: what becomes of the doorways beside it."""

from __future__ import annotations

import pytest
from shapely import box
from tepidarium_engine.storey.halls.floor_apart import with_part

from tests.storeys.case import Door, Room, StoreyCase, rect


@pytest.mark.parametrize("right", [3.0, 4.4, 6.0, 8.0])
def test_a_part_may_lie_before_a_whole_doorway(right: float) -> None:
    """From beside the doorway of the northern room to past both of its jambs."""
    rooms = {"hall": Room(rect(0.0, 0.0, 9.0, 3.0)), "north": Room(rect(0.0, 3.12, 9.0, 6.0))}
    case = StoreyCase("hall", rooms, (Door("hall", "north", (4.5, 3.06)),), "hall", (0.0, 0.5))
    task = case.task()
    for parted in with_part(task, 0, box(2.0, 1.5, right, 3.0)):
        assert len(parted.plan.rooms) == len(parted.rooms) == 3
        assert parted.plan.rooms[0].area + parted.plan.rooms[2].area <= task.plan.rooms[0].area
