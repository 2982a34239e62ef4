"""What is refused about outlines, doorways, manifolds and pipe in a plan: rows as in ``refusals``."""

from __future__ import annotations

import math
from typing import Any

from .refusals import GONE, ROOM, STRIP, Refusal, example, of

__all__ = ["REFUSALS"]

Ring = list[list[float]]


def rectangle(x0: float, y0: float, x1: float, y1: float) -> Ring:
    return [[x0, y0], [x1, y0], [x1, y1], [x0, y1]]


def across(x: float) -> Ring:
    """A movement joint from wall to wall."""
    return [[x, 0.0], [x, 4.0]]


def joint(*points: tuple[float, float]) -> list[list[float]]:
    return [list(point) for point in points]


VOID = rectangle(2.0, 1.0, 3.0, 2.0)
FLAT: dict[str, Any] = {
    "rooms": [
        {"id": "hall", "outline": rectangle(0.0, 0.0, 4.0, 4.0), "circuits": 1},
        {"id": "room", "outline": rectangle(4.1, 0.0, 8.1, 4.0), "circuits": 1},
    ],
    "doorways": [{"rooms": ["hall", "room"], "place": [4.05, 2.0]}],
}
AWAY = rectangle(4.1, 4.1, 8.1, 8.0)
ROUND = [[1.5 * math.cos(turn / 24 * math.tau), 1.5 * math.sin(turn / 24 * math.tau)] for turn in range(24)]
STAR = [
    [1.87, 1.74],
    [3.0, 2.43],
    [1.72, 2.09],
    [1.7, 3.48],
    [1.34, 2.14],
    [0.27, 2.7],
    [1.11, 1.83],
    [0.0, 1.15],
]
STAR += [[1.26, 1.48], [1.27, 0.0], [1.64, 1.43], [2.87, 0.75]]
ARM = [[0.0, 0.0], [1.88, 0.0], [1.88, 0.12], [0.89, 0.12], [0.89, 2.56], [0.0, 2.56]]
TALL_ARM = [[0.0, 0.0], [1.803, 0.0], [1.803, 4.42], [1.371, 4.42], [1.371, 2.845], [0.0, 2.845]]
COMB = [
    [2.379, 1.982],
    [2.379, 1.354],
    [2.377, 1.354],
    [2.377, 2.286],
    [1.554, 2.286],
    [1.554, 1.295],
    [1.524, 1.295],
]
COMB += [
    [1.524, 2.525],
    [0.0, 2.525],
    [0.0, 0.0],
    [1.524, 0.0],
    [1.524, 1.278],
    [1.554, 1.278],
    [1.554, 0.284],
]
COMB += [[2.377, 0.284], [2.377, 1.025], [2.379, 1.025], [2.379, 0.017], [4.575, 0.017], [4.575, 1.982]]
BURST = [
    [1.434, 0.764],
    [1.936, 0.0],
    [1.943, 1.099],
    [2.62, 1.179],
    [2.03, 1.521],
    [2.627, 2.278],
    [1.695, 2.03],
]
BURST += [
    [1.193, 2.794],
    [1.019, 1.95],
    [0.429, 2.292],
    [0.764, 1.783],
    [0.0, 1.28],
    [0.844, 1.106],
    [0.67, 0.261],
]
CASTLE = [
    [0.0, 3.042],
    [0.456, 3.042],
    [0.456, 4.092],
    [1.211, 4.092],
    [1.211, 3.042],
    [1.241, 3.042],
    [1.241, 2.222],
]
CASTLE += [
    [2.307, 2.222],
    [2.307, 1.821],
    [5.029, 1.821],
    [5.029, 4.168],
    [5.281, 4.168],
    [5.281, 0.0],
    [2.306, 0.0],
]
CASTLE += [[2.306, 1.819], [1.161, 1.819], [1.161, 1.924], [0.0, 1.924]]
NICHE = [[0.0, 0.0], [1.8, 0.0], [1.8, -0.4], [2.3, -0.4], [2.3, 0.0], [4.0, 0.0], [4.0, 3.0], [0.0, 3.0]]
TENT = [[2.474, 0.0], [2.474, 0.74], [0.0, 0.74], [0.0, 0.0], [1.237, 0.252]]
SPECK = [[1.142, 0.541], [1.142, 0.555], [1.162, 0.555]]
TOUGH, WIDE, THIN = (
    {"outside_diameter": outside, "wall_thickness": 0.002, "minimum_bend_radius": radius}
    for outside, radius in ((0.016, 0.175), (0.017, 0.1), (0.014, 0.04))
)

REFUSALS: tuple[Refusal, ...] = (
    *of(
        "routes",
        ROOM,
        ({"/outline/0": [3e7, 0.0]}, "/outline/0/0", "too_large"),
        ({"/outline": [*ROOM["outline"], [0.0, 3.9999]]}, "/outline", "repeated_point"),
        ({"/outline": [[0.0, 0.0], [5.0, 4.0], [5.0, 0.0], [0.0, 4.0]]}, "/outline", "self_crossing"),
        ({"/outline": rectangle(0.0, 0.0, 0.05, 0.05)}, "/outline", "area_too_small"),
        ({"/outline": rectangle(0.0, 0.0, 150.0, 150.0)}, "/outline", "area_too_large"),
        ({"/voids": [rectangle(0.0005, 1.0, 1.0, 2.0)]}, "/voids/0", "too_narrow"),
        ({"/voids": [ROOM["outline"]]}, "/voids/0", "void_is_outline"),
        ({"/voids": [rectangle(2.0, 0.0, 3.0, 1.0)]}, "/voids/0", "void_touches_outline"),
        ({"/voids": [rectangle(4.0, 1.0, 6.0, 2.0)]}, "/voids/0", "void_outside"),
        ({"/voids": [VOID, rectangle(2.5, 1.0, 3.5, 2.0)]}, "/voids/1", "voids_meet"),
        ({"/entry": [0.5, 0.5]}, "/entry", "off_outline"),
        (
            {"/outline": rectangle(0.0, 0.0, 5.0, 1.0), "/wall_clearance": 0.6},
            "/wall_clearance",
            "clearance_fills_room",
        ),
        ({"/outline": rectangle(0.0, 0.0, 5.0, 0.26)}, "/pipe_spacing", "no_pipe_fits"),
        ({"/tail_pitch": 0.015}, "/tail_pitch", "pipes_overlap"),
        ({"/pipe_spacing": 0.05}, "/pipe_spacing", "bend_too_wide"),
        ({"/tail_length": 80.0}, "/tail_length", "tails_too_long"),
        ({"/movement_joints": [joint((1.0, 1.0), (9.0, 1.0))]}, "/movement_joints/0", "outside_room"),
        (
            {"/movement_joints": [joint((1.0, 0.0), (1.0, 3.0), (2.0, 3.0), (2.0, 2.0), (0.0, 2.0))]},
            "/movement_joints/0",
            "crosses_itself",
        ),
        ({"/movement_joints": [joint((2.5, 0.0), (2.5, 4.0))] * 2}, "/movement_joints/1", "repeated_joint"),
        ({"/movement_joints": [joint((2.5, 1.0), (2.5, 1.01))]}, "/movement_joints/0", "too_short"),
        ({"/second_entry": [0.6, 0.0]}, "/second_entry", "no_cut"),
        (
            {
                "/movement_joints": [joint((1.5, 0.0), (1.5, 4.0)), joint((3.0, 0.0), (3.0, 4.0))],
                "/second_entry": [4.0, 0.0],
            },
            "/movement_joints",
            "too_many_fields",
        ),
        ({"/circuits": 17}, "/circuits", "too_many_circuits"),
        (
            {"/outline": rectangle(0.0, 0.0, 24.0, 24.0), "/maximum_circuit_length": 200.0, "/circuits": 16},
            "/outline",
            "too_much_to_divide",
        ),
        (
            {
                "/peripheral": STRIP | {"width": 2.7},
                "/outline": rectangle(0.0, 0.0, 5.0, 2.6),
                "/second_entry": [4.0, 2.6],
            },
            "/peripheral",
            "not_one_piece",
        ),
        (
            {"/outline": rectangle(0.0, 0.0, 60.0, 60.0), "/circuits": 1, "/pipe_spacing": 0.5},
            "/pipe_spacing",
            "too_much_pipe",
        ),
        ({"/doorway": joint((1.0, 0.0), (1.0, 0.9))}, "/doorway", "one_of"),
    ),
    *of(
        "manifold-position",
        FLAT,
        ({"/rooms/1/outline": rectangle(3.5, 0.0, 8.1, 4.0)}, "/rooms/1/outline", "rooms_overlap"),
        ({"/doorways": FLAT["doorways"] * 2}, "/doorways/1/place", "doorways_overlap"),
        ({"/rooms/1/outline": AWAY, "/doorways/0/place": [4.05, 4.05]}, "/doorways/0/place", "not_facing"),
        ({"/doorways/0/place": [2.0, 2.0]}, "/doorways/0/place", "not_on_wall"),
        ({"/position": [90.0, 0.0]}, "/position", "outside"),
        ({"/rooms/0/circuits": 13}, "/maximum_ports", "too_few_ports"),
        ({"/doorways": [], "/allowed_places": [{"room": "hall"}]}, "/rooms/1", "unreached"),
        (
            {"/rooms": [{"id": "tower", "outline": ROUND, "circuits": 5}], "/doorways": []},
            "/rooms",
            "no_wall_wide_enough",
        ),
        (
            {
                "/rooms": [*FLAT["rooms"], {"id": "end", "outline": rectangle(8.2, 0.0, 12.2, 4.0)}],
                "/doorways": [*FLAT["doorways"], {"rooms": ["room", "end"], "place": [8.15, 2.0]}],
                "/allowed_places": [{"room": "hall"}],
                "/maximum_tail_length": 3.0,
            },
            "/maximum_tail_length",
            "no_place",
        ),
    ),
    *of(
        "laying-sheets",
        example("laying-sheets"),
        ({"/circuits/0/pieces/2/start": [0.2, 0.9]}, "/circuits/0/pieces/2/start", "gap"),
    ),
    *of(
        "routes",
        ROOM,
        (
            {"/outline": NICHE, "/circuits": 6, "/entry": [2.05, -0.4]},
            "/entry",
            "no_division_entry_too_narrow",
        ),
        (
            {"/circuits": 6, "/entry": GONE, "/doorway": joint((1.0, 0.0), (1.4, 0.0))},
            "/doorway",
            "no_division_doorway_too_narrow",
        ),
        (
            {"/circuits": 2, "/movement_joints": [across(1.5), across(3.0)]},
            "/circuits",
            "no_division_too_few_circuits",
        ),
        ({"/maximum_circuit_length": 14.5, "/tail_length": 4.0}, "/outline", "no_division_too_many_circuits"),
        ({"/circuits": 2, "/maximum_circuit_length": 30.0}, "/circuits", "no_division_circuit_too_long"),
        ({"/movement_joints": [across(4.9)]}, "/movement_joints", "no_division_field_too_narrow"),
        ({"/circuits": 2, "/movement_joints": [across(0.5)]}, "/entry", "no_division_joint_at_entry"),
        (
            {
                "/outline": [[0.0, 1.89], [4.27, 0.07], [0.06, 0.0]],
                "/entry": [0.03, 0.88],
                "/pipe_spacing": 0.1,
            }
            | {"/circuits": 6},
            "/entry",
            "no_division_no_way_for_tails",
        ),
        (
            {"/outline": rectangle(0.0, 0.0, 4.876, 1.723), "/entry": [2.938, 0.0], "/pipe_spacing": 0.25}
            | {"/pipe": TOUGH, "/wall_clearance": 0.2, "/tail_pitch": 0.041, "/circuits": 6},
            "/outline",
            "no_division_tail_distance",
        ),
        (
            {"/outline": rectangle(0.0, 0.0, 0.826, 2.81), "/entry": [0.826, 0.3], "/wall_clearance": 0.345},
            "/outline",
            "no_route_too_narrow",
        ),
        (
            {"/outline": STAR, "/entry": [1.72, 2.22], "/pipe_spacing": 0.29, "/wall_clearance": 0.26},
            "/wall_clearance",
            "no_route_no_room_for_pipe",
        ),
        (
            {"/outline": ARM, "/entry": [0.14, 2.54], "/wall_clearance": 0.34},
            "/wall_clearance",
            "no_route_wall_clearance",
        ),
        (
            {"/outline": TALL_ARM, "/entry": [0.008, 2.845], "/pipe_spacing": 0.25, "/wall_clearance": 0.785}
            | {"/pipe": WIDE, "/tail_pitch": 0.182, "/quick": True},
            "/pipe/minimum_bend_radius",
            "no_route_bend_radius",
        ),
        (
            {
                "/outline": COMB,
                "/entry": [1.554, 1.699],
                "/pipe_spacing": 0.3,
                "/tail_pitch": 0.137,
                "/quick": True,
            },
            "/pipe_spacing",
            "no_route_pipe_distance",
        ),
        (
            {"/outline": BURST, "/entry": [1.719, 0.331], "/wall_clearance": 0.2, "/tail_pitch": 0.107}
            | {"/pipe": {**THIN, "minimum_bend_radius": 0.081}, "/quick": True},
            "/tail_pitch",
            "no_route_tail_distance",
        ),
        (
            {"/outline": CASTLE, "/entry": [1.241, 3.042], "/pipe_spacing": 0.11, "/wall_clearance": 0.558},
            "/outline",
            "no_route_crosses_itself",
        ),
        (
            {"/outline": TENT, "/voids": [SPECK], "/entry": [2.33, 0.74], "/pipe_spacing": 0.15}
            | {"/wall_clearance": 0.02, "/circuits": 2},
            "/outline",
            "no_division_bend_radius",
        ),
    ),
)
