"""Heat loss of rooms."""

from __future__ import annotations

from tepidarium_engine.heat_loss import HeatLossInputs, HeatLossResult, calculate, workings

from ..documents.part_documents import loss_csv, loss_pdf
from ._base import CSV, PDF, Calculation

__all__ = ["HEAT_LOSS"]


def _effort(inputs: HeatLossInputs) -> float:
    parts = sum(
        2 + len(room.walls) + len(room.elements) + len(room.floors) + len(room.ceilings)
        for room in inputs.rooms
    )
    openings = sum(len(wall.openings) for room in inputs.rooms for wall in room.walls)
    return 4e-4 + 60e-6 * (parts + len(inputs.constructions)) + 5e-6 * openings


HEAT_LOSS = Calculation(
    name="heat-loss",
    operation_id="heat_loss",
    summary="Heat loss of rooms, by room and by element",
    description=(
        "Follows EN 12831-1 room by room, with U-values or layers (ISO 6946, bridged layers by the "
        "combined method) and ground floors, basements and edge insulation after ISO 13370. From an "
        "outline and a storey height follow the walls: each edge names what lies `beyond` (outside, "
        "ground, underfloor_space, unheated, heated_neighbour, another room of the request, adiabatic), so that only "
        "constructions, windows and doors are given. What lies between two rooms of the request is given "
        "by one of them; the other only names its neighbour. The loss through a heated floor is no part "
        "of `heat_loss` and `heat_demand` (EN 1264-3) and stands apart in `heated_floor_loss`. Losses to "
        "the ground are those of the coldest time: 1.45 times those to the annual mean. Suspended floors lie over an "
        "`underfloor_space` and unheated basements have a `ground_contact`, both by their heat balance."
    ),
    inputs=HeatLossInputs,
    result=HeatLossResult,
    calculate=calculate,
    workings=workings,
    renderings={PDF: loss_pdf, CSV: loss_csv},
    effort=_effort,
    example={
        "external_temperature": -10.0,
        "annual_mean_temperature": 9.5,
        "storey_height": 2.8,
        "thermal_bridge_supplement": 0.05,
        "constructions": [
            {
                "id": "outer wall",
                "layers": [
                    {"name": "plaster", "thickness": 0.015, "thermal_conductivity": 0.7},
                    {"name": "brick", "thickness": 0.175, "thermal_conductivity": 0.5},
                    {"name": "insulation", "thickness": 0.16, "thermal_conductivity": 0.035},
                    {"name": "render", "thickness": 0.01, "thermal_conductivity": 0.8},
                ],
            },
            {"id": "partition", "u_value": 1.6},
            {
                "id": "roof",
                "layers": [
                    {"name": "board", "thickness": 0.0125, "thermal_conductivity": 0.25},
                    {
                        "name": "insulation between joists",
                        "thickness": 0.24,
                        "thermal_conductivity": 0.035,
                        "bridge_share": 0.1,
                        "bridge_conductivity": 0.13,
                    },
                ],
            },
            {
                "id": "floor",
                "layers": [
                    {"name": "screed", "thickness": 0.065, "thermal_conductivity": 1.2},
                    {"name": "insulation", "thickness": 0.12, "thermal_conductivity": 0.032},
                    {"name": "slab", "thickness": 0.2, "thermal_conductivity": 2.3},
                ],
            },
        ],
        "ground": {
            "thermal_conductivity": 1.5,
            "wall_thickness": 0.36,
            "edge_insulation": {
                "placement": "vertical",
                "extent": 0.6,
                "thickness": 0.08,
                "thermal_conductivity": 0.035,
            },
        },
        "unheated_spaces": [
            {"id": "garage", "external_transmittance": 28.0, "volume": 42.0, "air_change": 1.0}
        ],
        "rooms": [
            {
                "id": "living",
                "name": "Living room",
                "outline": [[0.0, 0.0], [5.2, 0.0], [5.2, 4.6], [0.0, 4.6]],
                "walls": [
                    {
                        "edge": 0,
                        "construction": "outer wall",
                        "openings": [{"u_value": 0.9, "width": 2.4, "height": 2.2}],
                    },
                    {"edge": 1, "construction": "partition", "beyond": "unheated", "neighbour": "garage"},
                    {
                        "edge": 2,
                        "construction": "partition",
                        "beyond": "room",
                        "neighbour": "bath",
                        "length": 2.4,
                        "openings": [{"surface": "door", "u_value": 2.0, "area": 1.8}],
                    },
                    {"edge": 2, "beyond": "adiabatic"},
                    {
                        "edge": 3,
                        "construction": "outer wall",
                        "openings": [
                            {"u_value": 0.9, "width": 1.2, "height": 1.4},
                            {"u_value": 0.9, "width": 1.2, "height": 1.4},
                        ],
                    },
                ],
                "floors": [{"construction": "floor", "beyond": "ground"}],
                "ceilings": [{"construction": "roof"}],
            },
            {
                "id": "bath",
                "name": "Bathroom",
                "room_temperature": 24.0,
                "outline": [[2.8, 4.6], [5.2, 4.6], [5.2, 7.6], [2.8, 7.6]],
                "walls": [
                    {"edge": 0, "beyond": "room", "neighbour": "living"},
                    {"edge": 1, "construction": "outer wall"},
                    {
                        "edge": 2,
                        "construction": "outer wall",
                        "openings": [{"u_value": 0.9, "width": 0.8, "height": 1.0}],
                    },
                    {
                        "edge": 3,
                        "construction": "partition",
                        "beyond": "heated_neighbour",
                        "neighbour_temperature": 20.0,
                    },
                ],
                "floors": [{"construction": "floor", "beyond": "ground"}],
                "ceilings": [{"construction": "roof"}],
                "air_change": 0.5,
                "air_flow": 0.008,
                "supply_air_temperature": 14.0,
                "reheat_per_area": 10.0,
            },
        ],
    },
)
