"""A house that uses every optional part of a request for a design; all figures are invented."""

from __future__ import annotations

from typing import Any

__all__ = ["FULL_HOUSE", "without_plan"]

FULL_HOUSE: dict[str, Any] = {
    "storeys": [{"id": "low"}, {"id": "high"}],
    "rooms": [
        {
            "id": "hall",
            "storey": "low",
            "manifold": "A",
            "outline": [[0, 0], [4, 0], [4, 1.6], [0, 1.6]],
            "build_up": "tile",
            "room_temperature": 18.0,
            "movement_joints": [[[2.0, 0.0], [2.0, 1.6]]],
        },
        {
            "id": "bath",
            "storey": "low",
            "outline": [[0, 1.7], [2.4, 1.7], [2.4, 4.2], [0, 4.2]],
            "voids": [[[1.5, 3.0], [2.2, 3.0], [2.2, 4.0], [1.5, 4.0]]],
            "use": "bathroom",
            "room_temperature": 24.0,
            "build_up": "tile",
            "surface_temperature_limit": 33.0,
            "heat_demand": 300.0,
        },
        {
            "id": "study",
            "storey": "low",
            "outline": [[2.5, 1.7], [5.5, 1.7], [5.5, 4.2], [2.5, 4.2]],
            "build_up": "oak",
            "pipe_spacing": 0.15,
            "pattern": "serpentine",
            "heat_demand": 420.0,
            "entry": [3.0, 1.7],
        },
        {
            "id": "loft",
            "storey": "high",
            "area": 12.0,
            "tail_length": 4.0,
            "build_up": "oak",
            "heat_demand": 500.0,
        },
    ],
    "build_ups": [
        {
            "id": "tile",
            "covering": "ceramic",
            "covering_resistance": 0.02,
            "resistance_below": 2.5,
            "temperature_below": 10.0,
            "screed_cover": 0.045,
            "insulation": {
                "below": "ground",
                "layers": [
                    {"thickness": 0.1, "thermal_conductivity": 0.035},
                    {"thermal_resistance": 0.1, "part": "structure"},
                ],
                "temperature_below": 8.0,
                "local_limit": {"u_value": 0.35, "counts": "whole_floor"},
                "ground": {"floor_area": 60.0, "exposed_perimeter": 32.0},
                "board_conductivity": 0.03,
                "screed": {"screed_cover": 0.045},
            },
        },
        {
            "id": "oak",
            "covering": "timber",
            "covering_resistance": 0.1,
            "resistance_below": 1.5,
            "temperature_below": 20.0,
        },
    ],
    "pipe": {
        "outside_diameter": 0.016,
        "wall_thickness": 0.002,
        "sheath_diameter": 0.02,
        "sheath_conductivity": 0.3,
        "minimum_bend_radius": 0.07,
    },
    "manifolds": [
        {
            "id": "A",
            "storey": "low",
            "height": 0.4,
            "allowed_places": [{"room": "hall"}],
            "valve_table": [{"setting": 1, "kv": 0.05}, {"setting": 2, "kv": 0.4}, {"setting": 5, "kv": 1.1}],
            "flow_meter_kv": 2.0,
            "valve_kv_open": 1.0,
            "mains_pressure_drop": 2000.0,
        },
        {"id": "B", "storey": "high", "valve_kv_open": 1.0},
    ],
    "doorways": [
        {"rooms": ["hall", "bath"], "place": [1.0, 1.65], "width": 0.8},
        {"rooms": ["hall", "study"], "place": [3.2, 1.65], "width": 0.8},
    ],
    "source": {
        "maximum_supply_temperature": 45.0,
        "supply_temperature": 40.0,
        "temperature_drop": 5.0,
        "primary_temperature": 55.0,
    },
    "fluid": {"kind": "propylene_glycol", "basis": "volume", "concentration": 0.25},
    "frost_temperature": -8.0,
    "expansion": {
        "additional_volume": 0.03,
        "maximum_temperature": 60.0,
        "fill_temperature": 10.0,
        "static_height": 4.0,
        "safety_valve_pressure": 300000.0,
    },
    "limits": {
        "pipe_spacings": [0.1, 0.15, 0.2],
        "maximum_circuit_length": 90.0,
        "maximum_pressure_drop": 20000.0,
        "maximum_temperature_drop": 10.0,
        "maximum_circuits": 10,
        "wall_clearance": 0.08,
        "tail_pitch": 0.06,
        "maximum_tail_length": 20.0,
    },
    "tail_insulation": {"thickness": 0.009, "thermal_conductivity": 0.04, "insulated_pipes": "flow"},
    "screed": {
        "pour_date": "2027-05-03",
        "binder": "cement",
        "flexural_class": "F4",
        "imposed_load": 2000.0,
        "lowest_air_temperature": 10.0,
        "rule_set": "maker",
        "maker_rules": {"earliest_heating_days": 21, "start_days": 3, "hold_days": 4, "curing_days": 3},
    },
    "heat_loss": {
        "external_temperature": -10.0,
        "annual_mean_temperature": 9.0,
        "storey_height": 2.7,
        "constructions": [{"id": "w", "u_value": 0.3}],
        "rooms": [
            {
                "id": "hall",
                "room_height": 2.5,
                "air_change": 0.5,
                "walls": [
                    {"edge": 0, "construction": "w"},
                    {
                        "edge": 1,
                        "construction": "w",
                        "openings": [{"u_value": 1.1, "width": 1.0, "height": 1.2}],
                    },
                    {"edge": 2, "construction": "w"},
                    {"edge": 3, "construction": "w"},
                ],
                "floors": [{"construction": "w", "beyond": "ground"}],
                "ceilings": [{"construction": "w", "beyond": "adiabatic"}],
            }
        ],
    },
    "solve_sections": True,
}


def without_plan() -> dict[str, Any]:
    """The same house with nothing to draw and little to lay: what is quick to compute."""
    plain = {name: value for name, value in FULL_HOUSE.items() if name != "doorways"}
    manifolds = [
        {name: value for name, value in manifold.items() if name != "allowed_places"}
        for manifold in FULL_HOUSE["manifolds"]
    ]
    hall, *others = (
        {name: value for name, value in room.items() if name not in _OF_PLAN} for room in FULL_HOUSE["rooms"]
    )
    rooms = [
        hall | {"outline": FULL_HOUSE["rooms"][0]["outline"]},
        *({"area": 6.0, **room} for room in others),
    ]
    return {**plain, "manifolds": manifolds, "rooms": rooms, "solve_sections": False}


_OF_PLAN = {"outline", "voids", "entry", "movement_joints"}
