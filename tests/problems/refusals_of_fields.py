"""What is refused about single fields, the envelope and the heat of a house: rows as in ``refusals``."""

from __future__ import annotations

from typing import Any

from .refusals import FLOOR, GONE, ROOM, Refusal, example, of

__all__ = ["REFUSALS"]

LOSS = example("heat-loss")
AREA_HOUSE: dict[str, Any] = {
    "rooms": [{"id": "room", "area": 14.0, "heat_demand": 640.0, "build_up": "floor"}],
    "build_ups": [{"id": "floor", "resistance_below": 2.0, "temperature_below": 8.0}],
}
COLD_HOUSE: dict[str, Any] = {
    "rooms": [
        {"id": "hall", "outline": [[0.0, 0.0], [9.0, 0.0], [9.0, 1.5], [0.0, 1.5]], "heat_demand": 900.0},
        {"id": "far", "outline": [[8.0, 1.6], [9.0, 1.6], [9.0, 3.6], [8.0, 3.6]], "heat_demand": 60.0},
    ],
    "build_ups": AREA_HOUSE["build_ups"],
    "doorways": [{"rooms": ["hall", "far"], "place": [8.5, 1.55]}],
    "manifold": {"position": [0.0, 0.75]},
    "limits": {"maximum_temperature_drop": 30.0},
}
"""At 10 degC: what the tails lose in the hall comes to more than the far room takes."""
for _room in COLD_HOUSE["rooms"]:
    _room |= {"room_temperature": 10.0, "build_up": "floor"}
STUB = [[0.5, 0.0], [0.5, 1.0]]
CURVE = [
    {"supply_temperature": 30.0, "coefficient_of_performance": 4.0},
    {"supply_temperature": 45.0, "coefficient_of_performance": 4.5},
]
HOT_SOURCE = {
    "efficiency": [
        {"supply_temperature": 58.0, "coefficient_of_performance": 3.0},
        {"supply_temperature": 60.0, "coefficient_of_performance": 2.9},
    ],
    "heating_energy": 36_000.0,
    "electricity_price": 0.3,
}

CLOSER = {"pipe_spacing": 0.1, "length": 2.0}

REFUSALS: tuple[Refusal, ...] = (
    *of(
        "heat-output",
        FLOOR,
        ({"/supply_temperature": "warm"}, "/supply_temperature", "type"),
        ({"/supply_temperature": GONE}, "/supply_temperature", "missing"),
        ({"/colour": "red"}, "/colour", "unknown_field"),
        ({"/method": "guess"}, "/method", "choice"),
        ({"/screed_cover": -0.045}, "/screed_cover", "too_small"),
        ({"/screed_cover": 45.0}, "/screed_cover", "too_large"),
        ({"/pipe": {"outside_diameter": 0.008, "wall_thickness": 0.003}}, "/pipe/wall_thickness", "no_bore"),
    ),
    *of(
        "curing-plan",
        example("curing-plan"),
        ({"/pour_date": "tomorrow"}, "/pour_date", "date"),
        ({"/pour_date": "1066-10-14"}, "/pour_date", "date_range"),
    ),
    *of(
        "routes",
        ROOM,
        ({"/outline": [[0.0, 0.0], [1.0, 0.0]]}, "/outline", "too_few"),
        ({"/outline": [[0.0, 0.1 * number] for number in range(2000)]}, "/outline", "too_many"),
        ({"/path": STUB, "/pieces": [{"kind": "line", "start": STUB[0], "end": STUB[1]}]}, "/path", "one_of"),
    ),
    *of(
        "designs",
        AREA_HOUSE,
        ({"/rooms/0/id": ""}, "/rooms/0/id", "text_length"),
        ({"/build_ups": AREA_HOUSE["build_ups"] * 2}, "/build_ups/1/id", "not_unique"),
        ({"/rooms/0/voids": [ROOM["outline"]]}, "/rooms/0/voids", "needs_outline"),
        (
            {"/objective": {"least": "cost_of_use", "prices": {"pipe": 2.0}, "heat_pump": HOT_SOURCE}},
            "/objective/heat_pump/efficiency",
            "efficiency_not_known",
        ),
        (
            {
                "/rooms/0/room_temperature": 10.0,
                "/rooms/0/surface_temperature_limit": 12.0,
                "/source": {"supply_temperature": 60.0},
            },
            "/rooms/0/surface_temperature_limit",
            "supply_too_warm",
        ),
        (
            {"/rooms/0/pattern": "serpentine", "/rooms/0/peripheral": CLOSER},
            "/rooms/0/peripheral",
            "with_serpentine",
        ),
        ({"/rooms/0/peripheral": {**CLOSER, "length": 90.0}}, "/rooms/0/peripheral", "strip_fills_room"),
    ),
    *of(
        "designs",
        COLD_HOUSE,
        ({"/source": {"supply_temperature": 60.0}}, "/limits/maximum_temperature_drop", "drop_too_large"),
    ),
    *of(
        "designs",
        AREA_HOUSE,
        ({"/sensitivity": {"supply_limit": 20.0}}, "/sensitivity/supply_limit", "supply_below_room"),
        (
            {"/season": {"climate": [{"outside_temperature": 0.0, "hours": 8784.0}] * 2}},
            "/season/climate",
            "too_many_hours",
        ),
        ({"/season": {}}, "/season/climate", "missing"),
    ),
    *of(
        "design-options",
        {"design": AREA_HOUSE},
        (
            {"/supply_temperatures": [59.0], "/design/source": {"maximum_supply_temperature": 45.0}},
            "/supply_temperatures/0",
            "above_source",
        ),
    ),
    *of(
        "design-sensitivity",
        example("design-sensitivity"),
        (
            {"/outside_temperature": 8.0, "/design/rooms/0/room_temperature": 7.0},
            "/outside_temperature",
            "not_colder",
        ),
    ),
    *of(
        "heating-season",
        example("heating-season"),
        ({"/climate/0/hours": 8000.0}, "/climate", "too_many_hours"),
        ({"/efficiency": CURVE}, "/efficiency/1/coefficient_of_performance", "efficiency_rises"),
    ),
    *of(
        "estimates",
        example("estimates"),
        ({"/room_count": 4}, "/room_count", "differs"),
        ({"/heat_demand": 50_000.0}, "/heat_demand", "implausible"),
    ),
    *of(
        "heat-loss",
        LOSS,
        ({"/rooms/0/walls/0/construction": "straw"}, "/rooms/0/walls/0/construction", "unknown_construction"),
        ({"/rooms/0/walls/2/neighbour": "living"}, "/rooms/0/walls/2/neighbour", "own_neighbour"),
        ({"/rooms/0/walls/2/construction": GONE}, "/rooms/0/walls/2/construction", "missing"),
        (
            {"/rooms/0/walls/2/construction": GONE, "/rooms/0/walls/2/openings": GONE},
            "/rooms/0/walls/2/construction",
            "not_given",
        ),
        ({"/rooms/1/walls/0/construction": "partition"}, "/rooms/0/walls/2/construction", "given_twice"),
        (
            {"/rooms/0/walls/0/neighbour_temperature": 5.0},
            "/rooms/0/walls/0/neighbour_temperature",
            "contradiction",
        ),
        ({"/rooms/0/walls/0/openings/0/width": 6.0}, "/rooms/0/walls/0/openings/0/width", "larger_than_wall"),
        ({"/rooms/0/walls/0/edge": 7}, "/rooms/0/walls/0/edge", "no_such_edge"),
        ({"/rooms/0/walls/0/length": 4.0}, "/rooms/0/walls", "edge_without_wall"),
        ({"/rooms/0/walls/0/length": 6.0}, "/rooms/0/walls", "longer_than_edge"),
        ({"/rooms/0/ceilings/0/beyond": "ground"}, "/rooms/0/ceilings/0/beyond", "not_on_ground"),
        ({"/rooms/0/ceilings/0/beyond": "underfloor_space"}, "/rooms/0/ceilings/0/beyond", "not_suspended"),
        (
            {"/rooms/0": {"id": "living", "area": 20.0}},
            "/rooms/0/elements",
            "no_elements",
        ),
    ),
)
