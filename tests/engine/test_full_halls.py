"""A hall whose floor tails of others fill and heat gets no circuit of its own that could not be laid."""

from __future__ import annotations

from shapely import Polygon
from tepidarium_engine.designs import BuildUp, DesignRoom, DesignsInputs, PlanDoorway, calculate

from tests.storeys.corridor_storeys import corridor_storey


def test_no_circuit_is_planned_where_tails_leave_no_floor() -> None:
    """With its circuit, loops of others lay on its floor and it was warm enough without; without it there were none,
    and it lacked a little."""
    case = corridor_storey(3)
    rooms = tuple(
        DesignRoom(
            name, "floor", 45.0 * Polygon(room.outline).area, outline=room.outline, pipe_spacing=room.spacing
        )
        for name, room in case.rooms.items()
    )
    doorways = tuple(PlanDoorway((door.one, door.other), door.place, door.width) for door in case.doors)
    floor = BuildUp("floor", resistance_below=2.5, temperature_below=8.0)
    result = calculate(DesignsInputs(rooms, (floor,), doorways=doorways))
    assert result.layout is not None
    assert not result.layout.unplaced
    hall = next(room for room in result.rooms if room.id == "corridor")
    assert not hall.circuit_ids
    assert "heat_missing" not in {finding.code for finding in result.findings if finding.where == "/rooms/0"}
