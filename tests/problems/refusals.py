"""What is refused, a row for each code: an example with a few fields changed, and the field that the problem points at.

Each row is what a person may well get wrong; what is asked for stands in the fault's ``detail``.
"""

from __future__ import annotations

import json
from copy import deepcopy
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from .full_house import FULL_HOUSE

__all__ = ["REFUSALS", "Refusal"]

EXAMPLES = Path(__file__).parents[2] / "examples"
GONE = object()
"""In place of a value: the field is left out."""


@dataclass(frozen=True)
class Refusal:
    """``changes`` by JSON pointer of the request; ``pointer`` and ``code`` of the fault that they cause."""

    calculation: str
    base: dict[str, Any]
    changes: dict[str, Any]
    pointer: str
    code: str

    @property
    def request(self) -> dict[str, Any]:
        request = deepcopy(self.base)
        for pointer, value in self.changes.items():
            *way, last = pointer[1:].split("/")
            here: Any = request
            for step in way:
                here = here[int(step)] if isinstance(here, list) else here[step]
            if value is GONE:
                del here[last]
            elif isinstance(here, list):
                here[int(last) :] = [value, *here[int(last) + 1 :]]
            else:
                here[last] = value
        return request


def example(name: str) -> dict[str, Any]:
    read: dict[str, Any] = json.loads((EXAMPLES / f"{name}.json").read_text())
    return read


def of(calculation: str, base: dict[str, Any], *rows: tuple[dict[str, Any], str, str]) -> list[Refusal]:
    return [Refusal(calculation, base, *row) for row in rows]


ROOM: dict[str, Any] = {
    "outline": [[0.0, 0.0], [5.0, 0.0], [5.0, 4.0], [0.0, 4.0]],
    "entry": [0.5, 0.0],
    "pipe_spacing": 0.2,
}
STRIP = {"edges": [2], "width": 1.0, "pipe_spacing": 0.1, "own_circuit": True}
LAYER = {"thickness": 0.1, "thermal_conductivity": 0.04}
BRIDGED = {**LAYER, "bridge_share": 0.1, "bridge_conductivity": 0.13}
FLOOR: dict[str, Any] = {
    "pipe_spacing": 0.15,
    "pipe": {"outside_diameter": 0.016, "wall_thickness": 0.002},
    "screed_cover": 0.045,
    "resistance_below": 1.5,
    "supply_temperature": 40.0,
    "return_temperature": 35.0,
}

REFUSALS: tuple[Refusal, ...] = (
    *of(
        "heat-output",
        FLOOR,
        ({"/return_temperature": 19.0}, "/return_temperature", "not_above_room"),
        ({"/return_temperature": 41.0}, "/return_temperature", "not_below_supply"),
        ({"/surface_temperature_limit": 20.0}, "/surface_temperature_limit", "not_above_room"),
        ({"/method": "standard", "/pipe_spacing": 0.04}, "/pipe_spacing", "outside_method"),
        ({"/method": "standard", "/screed_cover": 0.009}, "/screed_cover", "outside_method"),
        ({"/pipe_spacing": 0.03, "/pipe/outside_diameter": 0.03}, "/pipe_spacing", "pipes_touch"),
        ({"/pipe/sheath_diameter": 0.02}, "/pipe/sheath_conductivity", "incomplete"),
        (
            {"/pipe/sheath_diameter": 0.015, "/pipe/sheath_conductivity": 0.3},
            "/pipe/sheath_diameter",
            "sheath_inside_pipe",
        ),
    ),
    *of(
        "supply-temperature",
        example("supply-temperature"),
        ({"/other_rooms/1/id": "study"}, "/other_rooms/1/id", "duplicate"),
        (
            {"/required_heat_output": 1.0, "/temperature_below": 60.0, "/resistance_below": 0.1},
            "/temperature_below",
            "heated_from_below",
        ),
    ),
    *of(
        "floor-section",
        example("floor-section"),
        ({"/surface_coefficient": 10.8}, "/surface_coefficient", "exchange_and_coefficient"),
        ({"/layers_below": [], "/surface_resistance_below": 0.0}, "/layers_below", "no_resistance_below"),
        ({"/screed_thickness": 0.05}, "/screed_thickness", "pipe_does_not_fit"),
        ({"/water_temperature": 20.0}, "/water_temperature", "not_above_room"),
        (
            {"/cold_edge/distance": 0.012, "/pipe/outside_diameter": 0.03},
            "/cold_edge/distance",
            "pipe_outside_floor",
        ),
        ({"/cold_edge/distance": 1.0}, "/cold_edge/distance", "section_edge_distance"),
        ({"/warm_up/time_step": 30.0}, "/warm_up/duration", "section_steps"),
    ),
    *of(
        "heat-loss",
        example("heat-loss"),
        ({"/rooms/0/room_height": 3.5}, "/rooms/0/room_height", "above_storey"),
        ({"/rooms/0/ceilings/0/area": 20.0}, "/rooms/0/ceilings", "area_without_slab"),
        ({"/rooms/0/ceilings/0/area": 30.0}, "/rooms/0/ceilings", "larger_than_room"),
        (
            {"/rooms/0/ceilings": [{"construction": "roof", "area": 23.92}, {"construction": "roof"}]},
            "/rooms/0/ceilings/1/area",
            "nothing_left",
        ),
        ({"/rooms/0/walls/2/length": 5.2}, "/rooms/0/walls/3/length", "nothing_left"),
        ({"/rooms/0/walls/2/neighbour": "cellar"}, "/rooms/0/walls/2/neighbour", "unknown_neighbour"),
        ({"/constructions/0/layers": [BRIDGED] * 7}, "/constructions/0/layers", "too_many_bridged"),
        (
            {"/constructions/0/layers/0/bridge_share": 0.1},
            "/constructions/0/layers/0/bridge_conductivity",
            "incomplete",
        ),
    ),
    *of(
        "hydraulics",
        example("hydraulics"),
        ({"/valve_table/1/kv": 0.08}, "/valve_table/1/kv", "not_rising"),
        ({"/circuits/0/valve_kv_open": 2.0}, "/circuits/0/valve_kv_open", "outside_valve_table"),
        ({"/fluid/kind": "water"}, "/fluid/concentration", "water_is_pure"),
        ({"/fluid/concentration": 0.01}, "/fluid/concentration", "outside_published_range"),
        ({"/supply_temperature": 10.0, "/temperature_drop": 30.0}, "/supply_temperature", "fluid_frozen"),
        (
            {"/supply_temperature": 10.0, "/circuits/2/temperature_drop": 30.0},
            "/circuits/2/temperature_drop",
            "fluid_frozen",
        ),
        ({"/primary_temperature": 30.0}, "/primary_temperature", "primary_below_return"),
        (
            {"/fluid": {"kind": "water"}, "/expansion/fill_temperature": 0.0},
            "/expansion/fill_temperature",
            "fluid_frozen",
        ),
        ({"/expansion/maximum_temperature": 30.0}, "/expansion/maximum_temperature", "below_supply"),
        (
            {"/expansion/safety_valve_pressure": 150000.0},
            "/expansion/safety_valve_pressure",
            "no_room_for_expansion",
        ),
    ),
    *of(
        "curing-plan",
        example("curing-plan"),
        ({"/pipe_outside_diameter": 0.03, "/thickness": 0.03}, "/thickness", "thinner_than_pipe"),
        ({"/start_temperature": 43.0}, "/start_temperature", "above_maximum"),
        ({"/planned_heating_date": "2025-03-02"}, "/planned_heating_date", "outside_plan"),
        (
            {"/rule_set": "maker", "/maker_rules": {"earliest_heating_days": 7, "curing_days": 8}},
            "/maker_rules/curing_days",
            "longer_than_waiting",
        ),
    ),
    *of(
        "routes",
        ROOM,
        (
            {"/wall_clearance": 0.1, "/wall_stretches": [{"edge": 0, "wall_clearance": 0.09}]},
            "/wall_stretches/0/wall_clearance",
            "below_room",
        ),
        ({"/wall_stretches": [{"edge": 4, "wall_clearance": 0.3}]}, "/wall_stretches/0/edge", "no_such_wall"),
        ({"/circuits": 2, "/path": [[0.5, 0.0], [0.5, 1.0]]}, "/circuits", "with_given_path"),
        ({"/circuits": 2, "/second_entry": [1.5, 0.0]}, "/circuits", "with_second_entry"),
        (
            {
                "/peripheral": STRIP,
                "/second_entry": [4.0, 4.0],
                "/movement_joints": [[[2.5, 0.0], [2.5, 4.0]]],
            },
            "/peripheral",
            "with_joints",
        ),
        (
            {"/peripheral": {**STRIP, "pipe_spacing": 0.25}, "/second_entry": [4.0, 4.0]},
            "/peripheral/pipe_spacing",
            "wider_than_room",
        ),
        (
            {
                "/peripheral": {**STRIP, "pipe_spacing": 0.05},
                "/second_entry": [4.0, 4.0],
                "/pipe_spacing": 0.6,
            },
            "/peripheral/pipe_spacing",
            "much_closer_than_room",
        ),
        (
            {"/peripheral": {**STRIP, "own_circuit": False}, "/second_entry": [4.0, 4.0]},
            "/second_entry",
            "one_circuit",
        ),
        (
            {"/peripheral": {**STRIP, "edges": [2, 2]}, "/second_entry": [4.0, 4.0]},
            "/peripheral/edges",
            "repeated",
        ),
        ({"/peripheral": STRIP, "/second_entry": [2.0, 0.0]}, "/second_entry", "outside_strip"),
        ({"/peripheral": STRIP, "/second_entry": [4.0, 4.0], "/entry": [1.0, 4.0]}, "/entry", "inside_strip"),
        (
            {"/movement_joints": [[[2.5, 0.0], [2.5, 4.0]]], "/second_entry": [1.5, 0.0]},
            "/second_entry",
            "same_field",
        ),
    ),
    *of(
        "materials",
        example("materials"),
        ({"/circuits/0/area_id": "cellar"}, "/circuits/0/area_id", "unknown_area"),
        ({"/areas/0/build_up": "cellar"}, "/areas/0/build_up", "unknown_build_up"),
        ({"/ordering/overrides/0/item": "anvil"}, "/ordering/overrides/0/item", "unknown_item"),
        (
            {"/manifolds": [{"id": "A"}], "/circuits/0/manifold": "B", "/circuits/1/manifold": "A"},
            "/circuits/0/manifold",
            "unknown_manifold",
        ),
        (
            {
                "/areas/0/outline": [[0.0, 0.0], [90.0, 0.0], [90.0, 90.0], [0.0, 90.0]],
                "/areas/0/openings": [],
                "/ordering/board": {"length": 0.2, "width": 0.2},
            },
            "/areas",
            "too_many_boards",
        ),
    ),
    *of(
        "laying-sheets",
        example("laying-sheets"),
        ({"/circuits/0/room": "cellar"}, "/circuits/0/room", "unknown_room"),
        (
            {"/circuits/0/pieces": [{"kind": "line", "start": [0.0, 0.0], "end": [1200.0, 0.0]}]},
            "/circuits/0/pieces",
            "too_long",
        ),
        (
            {"/circuits/0/pieces/1/centre": [0.1, 0.82], "/circuits/0/pieces/1/radius": GONE},
            "/circuits/0/pieces/1/centre",
            "no_radius",
        ),
    ),
    *of(
        "manifold-position",
        example("manifold-position"),
        ({f"/rooms/{number}/circuits": 0 for number in range(4)}, "/rooms", "no_circuits"),
        ({"/rooms/1/id": "hall"}, "/rooms/1/id", "repeated"),
        ({"/doorways/0/rooms": ["hall", "hall"]}, "/doorways/0/rooms/1", "same_room"),
        ({"/doorways/0/rooms": ["hall", "cellar"]}, "/doorways/0/rooms/1", "unknown_room"),
    ),
    *of(
        "designs",
        FULL_HOUSE,
        ({"/rooms/0/storey": "attic"}, "/rooms/0/storey", "unknown_storey"),
        ({"/rooms/0/manifold": "Z"}, "/rooms/0/manifold", "unknown_manifold"),
        ({"/rooms/0/manifold": "B"}, "/rooms/0/manifold", "other_storey"),
        ({"/manifolds/1/storey": "low"}, "/storeys/1", "no_manifold"),
        ({"/doorways/0/rooms": ["hall", "loft"]}, "/doorways/0/rooms/1", "other_storey"),
        (
            {"/manifolds/1/allowed_places": [{"room": "loft"}]},
            "/manifolds/1/allowed_places",
            "needs_doorways",
        ),
        ({"/rooms/1/build_up": "cork"}, "/rooms/1/build_up", "unknown_build_up"),
        ({"/rooms/1/surface_temperature_limit": 23.0}, "/rooms/1/surface_temperature_limit", "below_room"),
        ({"/source/supply_temperature": 24.0}, "/source/supply_temperature", "supply_below_room"),
    ),
)
