"""A house through the heating season."""

from __future__ import annotations

from tepidarium_engine.heating_season import (
    HeatingSeasonInputs,
    HeatingSeasonResult,
    calculate,
    workings,
)

from ._base import Calculation

__all__ = ["HEATING_SEASON"]

HEATING_SEASON = Calculation(
    name="heating-season",
    operation_id="heating_season",
    summary="A house through the year: heating curve, room controls, flow, heat and electricity",
    description=(
        "Takes a request of designs and the climate of a year in bins of outside temperature, and operates the house "
        "by area on a heating curve that goes through the design. `curve` is what controls ask for: supply = basis + "
        "(design supply - basis) x load share ^ (1 / exponent), with the room that governs as basis. For each bin it "
        "gives supply, return, heat, mean flow, and with `efficiency` the electricity; for each room how long its "
        "control is open, and the heat that it lacks where the curve is too low for it, as for a bathroom in mild "
        "weather.\n\nDemands go with the distance between room and outside, without gains from sun and people: a real "
        "year needs less heat. Flows are those of the design while a control is open, and cooling follows the supply. "
        "Heat is what the rooms get; what is lost downwards comes on top. Take the climate from the weather service of "
        "the place, and the efficiency from the source's data sheet (EN 14825, EN 14511)."
    ),
    inputs=HeatingSeasonInputs,
    result=HeatingSeasonResult,
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
        "outside_temperature": -12.0,
        "climate": [
            {"outside_temperature": -12.0, "hours": 40.0},
            {"outside_temperature": -8.0, "hours": 210.0},
            {"outside_temperature": -4.0, "hours": 620.0},
            {"outside_temperature": 0.0, "hours": 1240.0},
            {"outside_temperature": 4.0, "hours": 1510.0},
            {"outside_temperature": 8.0, "hours": 1460.0},
            {"outside_temperature": 12.0, "hours": 1390.0},
            {"outside_temperature": 16.0, "hours": 1180.0},
            {"outside_temperature": 22.0, "hours": 1110.0},
        ],
        "efficiency": [
            {"supply_temperature": 20.0, "coefficient_of_performance": 6.0},
            {"supply_temperature": 35.0, "coefficient_of_performance": 4.4},
            {"supply_temperature": 45.0, "coefficient_of_performance": 3.5},
        ],
    },
)
