"""The house in the examples of what is computed beside designs, by area; all figures are invented."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

__all__ = ["HOUSE_BY_AREA"]

HOUSE_BY_AREA: Mapping[str, Any] = {
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
}
