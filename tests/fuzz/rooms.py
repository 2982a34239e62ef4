"""Requests for one hard room: all that is drawn in it, and what is asked of the pipe."""

from __future__ import annotations

import random
from typing import Any

import shapely
from shapely import Polygon
from tepidarium_engine.checking import Point

from tests.fuzz.case import Case
from tests.fuzz.places import Place, any_place
from tests.fuzz.rings import fine, hard_room
from tests.rooms.case import Ring

__all__ = ["room_case"]

_CALCULATIONS = ("routes",) * 14 + ("loop-length",) * 3 + ("heat-loss", "manifold-position", "designs")


def room_case(seed: int) -> Case:
    """The request with this number: another calculation, room and place for each."""
    lot = random.Random(f"room {seed}")
    rings = hard_room(lot)
    place = any_place(lot)
    calculation = lot.choice(_CALCULATIONS)
    body = _BODIES[calculation](lot, rings, place)
    if lot.random() < 0.1:
        body["workings"] = True
    drawn = calculation in {"routes", "designs"} and lot.random() < 0.15
    return Case(f"room {seed}", calculation, body, drawn)


def _ring(ring: Ring, place: Place) -> list[list[float]]:
    return [list(place(point)) for point in ring]


def _outline(rings: list[Ring], place: Place) -> dict[str, Any]:
    found: dict[str, Any] = {"outline": _ring(rings[0], place)}
    if rings[1:]:
        found["voids"] = [_ring(ring, place) for ring in rings[1:]]
    return found


def _pipe(lot: random.Random, spacing: float) -> dict[str, float]:
    """A pipe that bends tightly enough for its spacing, nearly always."""
    diameter = lot.choice((0.010, 0.012, 0.014, 0.016, 0.017, 0.020))
    share = lot.choice((0.2, 0.4, 0.5, 0.5, 0.7, 0.8))
    pipe = {"outside_diameter": diameter, "wall_thickness": 0.0015}
    if lot.random() < 0.97:
        pipe["minimum_bend_radius"] = max(share * spacing, 0.011)
    return pipe


def _clearance(lot: random.Random, rings: list[Ring]) -> float:
    """Usual, or what closes the narrowest place of the room or just leaves it open, or what closes others, too, and
    leaves a few places wide enough for pipe."""
    floor = Polygon(rings[0], rings[1:])
    narrow = float(shapely.minimum_clearance(floor)) / 2.0
    widest = float(shapely.maximum_inscribed_circle(floor, tolerance=0.01).length)
    closing = narrow * lot.choice((1.0, 1.0 - 1e-6, 1.0 + 1e-6, 0.97, 1.03))
    parting = widest * lot.uniform(0.2, 0.9)
    wanted = lot.choice((0.075, 0.075, 0.05, 0.1, 0.02, closing, parting, parting))
    return min(max(wanted, 0.02), 1.0)


def _on_outline(lot: random.Random, rings: list[Ring]) -> Point:
    """Anywhere, a corner sometimes, a void now and then, a little beside."""
    ring = lot.choice(rings) if lot.random() < 0.03 else rings[0]
    if lot.random() < 0.15:
        return lot.choice(ring)
    at = shapely.line_interpolate_point(shapely.LinearRing(ring), lot.random(), normalized=True)
    off = lot.choice((0.0, 0.0, 1e-5, 0.02))
    return (float(at.x) + off, float(at.y) - off)


def _routes(lot: random.Random, rings: list[Ring], place: Place) -> dict[str, Any]:
    area = float(Polygon(rings[0], rings[1:]).area)
    spacing = lot.choice((0.05, 0.075, 0.1, 0.1, 0.125, 0.15, 0.15, 0.2, 0.25, 0.3, lot.uniform(0.05, 0.3)))
    if area / spacing**2 > 700.0:  # thousands are to be tried
        spacing = min(0.3, (area / 700.0) ** 0.5)
    body: dict[str, Any] = {
        **_outline(rings, place),
        "pipe_spacing": spacing,
        "pattern": lot.choice(("counterflow", "counterflow", "serpentine")),
        "wall_clearance": _clearance(lot, rings),
        "pipe": _pipe(lot, spacing),
        "quick": lot.random() < 0.5,
    }
    entry = _on_outline(lot, rings)
    how = lot.random()
    if how < 0.8:
        body["entry"] = list(place(entry))
    elif how < 0.9:
        other = (entry[0] + lot.choice((0.0, 0.8)), entry[1] + lot.choice((0.0, 0.8)))
        body["doorway"] = [list(place(entry)), list(place(other))]
    else:
        body["manifold_place"] = list(place((entry[0] + lot.uniform(-2.0, 2.0), entry[1])))
    body.update(_divided(lot, rings, place, spacing))
    body.update(_besides(lot, rings, place, body["wall_clearance"]))
    return body


def _divided(lot: random.Random, rings: list[Ring], place: Place, spacing: float) -> dict[str, Any]:
    """What may make several circuits of it."""
    extra, walls = lot.random(), len(rings[0]) - 1
    if extra < 0.25:
        length = float(Polygon(rings[0], rings[1:]).area) / spacing
        return {"maximum_circuit_length": max(5.0, length * lot.uniform(0.2, 0.7))}
    if extra < 0.35:
        return {"circuits": lot.randint(1, 6)}
    if extra < 0.45:
        return {"second_entry": list(place(_on_outline(lot, rings)))}
    if extra > 0.55:
        return {}
    strip = {
        "edges": sorted(lot.sample(range(walls), min(walls, lot.randint(1, 2)))),
        "width": lot.uniform(0.2, 1.2),
        "pipe_spacing": max(0.03, spacing * lot.uniform(0.4, 1.0)),
        "own_circuit": lot.random() < 0.3,
    }
    second = {"second_entry": list(place(_on_outline(lot, rings)))} if strip["own_circuit"] else {}
    return {"peripheral": strip, **second}


def _besides(lot: random.Random, rings: list[Ring], place: Place, clearance: float) -> dict[str, Any]:
    found: dict[str, Any] = {}
    if lot.random() < 0.2:
        found["movement_joints"] = [
            [list(place(_on_outline(lot, rings))), list(place(_on_outline(lot, rings)))]
            for _ in range(lot.randint(1, 3))
        ]
    if lot.random() < 0.1:
        wall = lot.randrange(len(rings[0]) - 1)
        found["wall_stretches"] = [{"edge": wall, "wall_clearance": min(1.0, clearance + fine(lot))}]
    if lot.random() < 0.05:
        found["tail_pitch"] = lot.uniform(0.03, 0.3)
    if lot.random() < 0.1:
        found["tail_length"] = lot.uniform(0.0, 3.0)
    if lot.random() < 0.03:
        x0, y0, x1, y1 = Polygon(rings[0]).bounds
        found["path"] = [
            list(place((lot.uniform(x0, x1), lot.uniform(y0, y1)))) for _ in range(lot.randint(2, 30))
        ]
    return found


def _loop_length(lot: random.Random, rings: list[Ring], place: Place) -> dict[str, Any]:
    routes = _routes(lot, rings, place)
    return {
        **_outline(rings, place),
        "pipe_spacing": routes["pipe_spacing"],
        "tail_length": lot.uniform(0.0, 8.0),
        "pipe": routes["pipe"],
        "wall_clearance": routes["wall_clearance"],
        "pattern": routes["pattern"],
        "quick": routes["quick"],
        **({"entry": routes["entry"]} if "entry" in routes and lot.random() < 0.7 else {}),
        **({"maximum_circuit_length": lot.uniform(10.0, 60.0)} if lot.random() < 0.5 else {}),
    }


def _heat_loss(lot: random.Random, rings: list[Ring], place: Place) -> dict[str, Any]:
    walls = len(rings[0]) - (rings[0][0] == rings[0][-1])
    return {
        "external_temperature": lot.uniform(-20.0, 5.0),
        "annual_mean_temperature": 9.0,
        "storey_height": 2.6,
        "constructions": [{"id": "c", "u_value": lot.uniform(0.1, 2.0)}],
        "rooms": [
            {
                "id": "a",
                **_outline(rings, place),
                "walls": [{"edge": edge, "construction": "c"} for edge in range(walls)],
                "floors": [{"construction": "c", "beyond": "ground"}],
                "ceilings": [{"construction": "c"}],
            }
        ],
    }


def _manifold_position(lot: random.Random, rings: list[Ring], place: Place) -> dict[str, Any]:
    return {
        "rooms": [{"id": "a", **_outline(rings, place), "circuits": lot.randint(1, 6)}],
        "wall_clearance": _clearance(lot, rings),
        "tail_pitch": lot.uniform(0.03, 0.1),
        **({"position": list(place(_on_outline(lot, rings)))} if lot.random() < 0.5 else {}),
    }


def _designs(lot: random.Random, rings: list[Ring], place: Place) -> dict[str, Any]:
    return {
        "rooms": [
            {
                "id": "a",
                **_outline(rings, place),
                "heat_demand": float(Polygon(rings[0], rings[1:]).area) * lot.uniform(10.0, 90.0),
                "build_up": "b",
            }
        ],
        "build_ups": [{"id": "b", "covering": "ceramic", "resistance_below": 2.0, "temperature_below": 10.0}],
        "pipe": {"outside_diameter": 0.014, "wall_thickness": 0.002},
        "manifold": {"position": list(place(_on_outline(lot, rings)))},
    }


_BODIES = {
    "routes": _routes,
    "loop-length": _loop_length,
    "heat-loss": _heat_loss,
    "manifold-position": _manifold_position,
    "designs": _designs,
}
