"""A small room far from its manifold: its tails give more heat than its field, and its water must still arrive warm.

Oracles: the limit of the request, and the heat that water gives up by its flow and its drop (energy balance).
"""

from __future__ import annotations

import pytest
from tepidarium_engine import designs
from tepidarium_engine.designs import (
    BuildUp,
    DesignLimits,
    DesignRoom,
    DesignsInputs,
    HeatSource,
    Manifold,
    PlanDoorway,
)


def far_room(heat_demand: float, limit: float, supply: float | None = None) -> DesignsInputs:
    """A toilet at the far end of a hall, whose tails run the whole hall through."""
    hall = ((0.0, 0.0), (9.0, 0.0), (9.0, 1.4), (0.0, 1.4))
    toilet = ((7.4, 1.52), (9.0, 1.52), (9.0, 3.0), (7.4, 3.0))
    return DesignsInputs(
        (
            DesignRoom(
                "hall", "tile", 500.0, outline=hall, room_temperature=18.0, surface_temperature_limit=45.0
            ),
            DesignRoom("toilet", "tile", heat_demand, outline=toilet, surface_temperature_limit=45.0),
        ),
        (BuildUp("tile", resistance_below=3.0, temperature_below=9.0, covering_resistance=0.02),),
        manifold=Manifold(position=(0.0, 0.7)),
        doorways=(PlanDoorway(("hall", "toilet"), (8.2, 1.46), 0.7),),
        limits=DesignLimits(maximum_temperature_drop=limit),
        source=HeatSource(supply_temperature=supply),
    )


@pytest.mark.parametrize("limit", [6.0, 10.0, 20.0])
@pytest.mark.parametrize("heat_demand", [40.0, 120.0])
def test_water_cools_by_no_more_than_the_limit_from_port_to_port(heat_demand: float, limit: float) -> None:
    result = designs.calculate(far_room(heat_demand, limit))
    for circuit in result.circuits:
        assert circuit.temperature_drop <= limit
        assert circuit.heat_flow == pytest.approx(
            circuit.mass_flow * 4180.0 * circuit.temperature_drop, rel=5e-3
        )
    assert result.rooms[1].heat_missing == pytest.approx(0.0, abs=1.0)


def test_a_small_far_room_is_no_reason_to_refuse_the_house() -> None:
    """Its tails would cool the water of 60 degC by more than can be computed, if its field alone set the flow."""
    result = designs.calculate(far_room(15.0, 20.0, 60.0))
    toilet = next(circuit for circuit in result.circuits if circuit.room == "toilet")
    assert toilet.lost_on_the_way > 0.4 * toilet.heat_flow
    assert toilet.temperature_drop <= 20.1  # heats come to rest within one watt
