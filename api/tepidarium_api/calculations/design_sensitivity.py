"""How a design reacts to one change at a time."""

from __future__ import annotations

from tepidarium_engine.design_sensitivity import (
    DesignSensitivityInputs,
    DesignSensitivityResult,
    calculate,
    workings,
)

from ._base import Calculation

__all__ = ["DESIGN_SENSITIVITY"]

DESIGN_SENSITIVITY = Calculation(
    name="design-sensitivity",
    operation_id="design_sensitivity",
    summary="How a design reacts: carpet, more heat, a warmer room, thicker screed, a limited supply",
    description=(
        "Takes a request of designs and designs the house again by area, with one change at a time: for each room a "
        "carpet, a higher demand and a warmer room; for the house all demands, thicker screed and a limit of the "
        "supply. `lines` say what each change does to supply, missing heat, pipe, circuits and pump, the greatest "
        "effect first: missing heat, then supply, then pipe. A room that is kept warmer needs more heat in proportion "
        "to its distance from `outside_temperature`.\n\n`tolerances` say by how much the demand of each room may "
        "rise at the spacing that it has: on the supply of the design, and on the warmest that the source gives. "
        "The room that governs has no tolerance on the supply of the design, as that is what it asks for. A room that "
        "cannot bear the rise looked at is a finding."
    ),
    inputs=DesignSensitivityInputs,
    result=DesignSensitivityResult,
    calculate=calculate,
    workings=workings,
    heavy=True,
    example={
        "design": {
            "rooms": [
                {"id": "parlour", "name": "Parlour", "area": 24.0, "heat_demand": 1250.0, "build_up": "oak"},
                {"id": "kitchen", "name": "Kitchen", "area": 16.0, "heat_demand": 780.0, "build_up": "stone"},
                {"id": "study", "name": "Study", "area": 12.0, "heat_demand": 640.0, "build_up": "oak"},
                {
                    "id": "washroom",
                    "name": "Washroom",
                    "area": 7.0,
                    "use": "bathroom",
                    "room_temperature": 24.0,
                    "heat_demand": 420.0,
                    "build_up": "stone",
                },
            ],
            "build_ups": [
                {
                    "id": "oak",
                    "covering": "timber",
                    "covering_resistance": 0.1,
                    "resistance_below": 2.8,
                    "temperature_below": 8.0,
                },
                {
                    "id": "stone",
                    "covering": "natural_stone",
                    "covering_resistance": 0.02,
                    "resistance_below": 2.8,
                    "temperature_below": 8.0,
                },
            ],
            "pipe": {"outside_diameter": 0.016, "wall_thickness": 0.002},
            "source": {"maximum_supply_temperature": 48.0, "temperature_drop": 5.0},
            "limits": {"pipe_spacings": [0.1, 0.15, 0.2, 0.25], "maximum_circuits": 8},
        },
    },
)
