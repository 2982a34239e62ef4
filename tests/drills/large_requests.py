"""Requests for the light calculations, as large as they may be: growing lists, and records with all that they allow."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from copy import deepcopy
from typing import Any

from tepidarium_api.calculations import CALCULATIONS

__all__ = ["LARGE", "body"]

Body = dict[str, Any]
EXAMPLES = {calculation.name: calculation.example for calculation in CALCULATIONS}


def body(name: str, count: int) -> Body:
    """The example of a light calculation with its lists stretched to about ``count`` items, at most as allowed."""
    request = deepcopy(dict(EXAMPLES[name]))
    LARGE[name](request, count)
    return request


def _rooms_on_one_supply(request: Body, count: int) -> None:
    spacings = [0.05, 0.075, 0.1, 0.125, 0.15, 0.175, 0.2, 0.225, 0.25, 0.275, 0.3, 0.35]
    request["pipe_spacings"] = spacings[: max(1, min(12, count))]
    room = {"required_heat_output": 44.0, "area": 11.2}
    request["other_rooms"] = [room | {"id": str(index)} for index in range(min(200, count))]
    request["workings"] = True


def _circuits(request: Body, count: int) -> None:
    circuits = request["circuits"]
    request["circuits"] = [
        circuits[i % len(circuits)] | {"id": str(i)} for i in range(max(1, min(200, count)))
    ]
    request["workings"] = True


def _rooms_that_lose_heat(request: Body, count: int) -> None:
    outer = {"construction": "outer wall", "openings": [{"u_value": 0.9, "width": 0.8, "height": 1.0}] * 4}
    corners = [[0.0, 0.0], [5.2, 0.0], [5.2, 4.6], [0.0, 4.6]]
    request["rooms"] = [
        {
            "id": str(index),
            "outline": [[x + 6.0 * index, y] for x, y in corners],
            "walls": [outer | {"edge": edge} for edge in range(4)],
            "floors": [{"construction": "floor", "beyond": "ground"}],
            "ceilings": [{"construction": "roof"}],
        }
        for index in range(max(1, min(64, count)))
    ]
    request["workings"] = True


def _layers(request: Body, count: int) -> None:
    layer = {"thickness": 0.01, "thermal_conductivity": 0.04}
    request["layers"] = [layer | {"name": str(index)} for index in range(max(1, min(24, count)))]
    request["workings"] = True


def _dates(request: Body, count: int) -> None:
    request["room_areas"] = [20.0 + index % 40 for index in range(min(500, count))]
    request["thickness"] = 0.1
    request["workings"] = True


def _readings(request: Body, count: int) -> None:
    request["readings"] = [
        {"point": f"P{index}", "carbide_moisture": 0.0165} for index in range(max(1, min(200, count)))
    ]
    request["workings"] = True


def _commissioned(request: Body, count: int) -> None:
    many = max(1, min(256, count))
    circuit = {"length": 84.6, "volume_flow": 3.6e-05, "room": "Parlour"}
    request["circuits"] = [circuit | {"id": str(index), "port": 1 + index % 12} for index in range(many)]
    (screed,) = request["screeds"]
    curing = screed["curing"] | {"room_areas": [20.0] * min(500, count)}
    request["screeds"] = [
        screed | {"name": f"Floor {index}", "rooms": ["Parlour"] * 1, "curing": curing}
        for index in range(max(1, min(16, count // 8)))
    ]
    request["joints"] = [
        {"id": f"joint {index}", "room": "Parlour", "lengths": [6.2, 2.4]} for index in range(min(64, count))
    ]
    request["workings"] = True


def _one_floor(request: Body, count: int) -> None:
    request["workings"] = True
    request["pipe_spacing"] = 0.04 if count > 1 else 0.15  # below those of the standard the section is solved


def _rooms_to_estimate(request: Body, count: int) -> None:
    request["rooms"] = [{"name": str(index), "area": 18.0} for index in range(max(1, min(64, count)))]
    request["workings"] = True


def _rooms_through_the_year(request: Body, count: int) -> None:
    """With bins of the year in step."""
    design = request["design"] = dict(request["design"])
    rooms = design["rooms"]
    many = max(1, min(64, count))
    design["rooms"] = [rooms[i % len(rooms)] | {"id": str(i)} for i in range(many)]
    design["limits"] = design["limits"] | {"maximum_circuits": 64}
    bins = max(2, min(40, count))
    request["climate"] = [
        {"outside_temperature": -12.0 + index, "hours": 8000.0 / bins} for index in range(bins)
    ]
    request["workings"] = True


LARGE: Mapping[str, Callable[[Body, int], None]] = {
    "heat-loss": _rooms_that_lose_heat,
    "insulation-check": _layers,
    "heat-output": _one_floor,
    "supply-temperature": _rooms_on_one_supply,
    "curing-plan": _dates,
    "moisture-reading": _readings,
    "hydraulics": _circuits,
    "commissioning": _commissioned,
    "estimates": _rooms_to_estimate,
    "heating-season": _rooms_through_the_year,
}
