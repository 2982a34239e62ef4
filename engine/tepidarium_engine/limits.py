"""Limits that hold for several fields together: what is computed at all, beside the range of each number.

They bound the work of one request before it is done. The constants stand beside the code that keeps them.
"""

from __future__ import annotations

from typing import NamedTuple

from .envelope.u_values import MOST_BRIDGED_LAYERS
from .fitting.drawn_pipe import MOST_LENGTH
from .loop_length import MAXIMUM_CIRCUITS, MAXIMUM_PIPE_LENGTH
from .materials import MOST_BOARDS
from .plan.asking.route_refusals import MOST_SQUARES
from .plan.outlines import polygons
from .section import refusals as section
from .storey.manifold.position_plan import MOST_STOREY_CIRCUITS
from .storey.rooms.route_division import MOST_DIVIDED_CIRCUITS, MOST_DIVIDED_SQUARES

__all__ = ["WORK_LIMITS", "WorkLimit"]


class WorkLimit(NamedTuple):
    name: str
    value: float
    unit: str
    description: str


WORK_LIMITS = (
    WorkLimit("ring_vertices", polygons.MAXIMUM_RING_VERTICES, "1", "Corners of an outline or void, at most"),
    WorkLimit(
        "room_vertices", polygons.MAXIMUM_VERTICES, "1", "Corners of a room with all its voids, at most"
    ),
    WorkLimit("room_voids", polygons.MAXIMUM_VOIDS, "1", "Voids of a room, at most"),
    WorkLimit("room_extent", polygons.MAXIMUM_EXTENT, "m", "Outline along x and along y, at most"),
    WorkLimit("least_room_area", polygons.MINIMUM_AREA, "m2", "Area of a room net of voids, at least"),
    WorkLimit("greatest_room_area", polygons.MAXIMUM_AREA, "m2", "Area of a room net of voids, at most"),
    WorkLimit(
        "least_distance", polygons.LEAST_DISTANCE, "m", "Edge, neck of a room, gap between rings, at least"
    ),
    WorkLimit("circuits", MAXIMUM_CIRCUITS, "1", "Circuits of one area or outline, at most"),
    WorkLimit(
        "route_squares",
        MOST_SQUARES,
        "1",
        "Area of a room over the square of the pipe spacing, at most, where the pipe's way is laid",
    ),
    WorkLimit("bridged_layers", MOST_BRIDGED_LAYERS, "1", "Layers of one construction with bridges, at most"),
    WorkLimit(
        "divided_circuits", MOST_DIVIDED_CIRCUITS, "1", "Circuits of a room that a route divides, at most"
    ),
    WorkLimit(
        "divided_squares",
        MOST_DIVIDED_SQUARES,
        "1",
        "Area of a room over the square of the pipe spacing, at most, where it is divided in circuits",
    ),
    WorkLimit(
        "storey_circuits",
        MOST_STOREY_CIRCUITS,
        "1",
        "Circuits of a storey whose manifolds are placed, at most",
    ),
    WorkLimit("boards", MOST_BOARDS, "1", "Boards of insulation that are laid over outlines, at most"),
    WorkLimit("drawn_circuit", MOST_LENGTH, "m", "Pipe of a drawn circuit that is ordered or laid, at most"),
    WorkLimit("pipe_length", MAXIMUM_PIPE_LENGTH, "m", "Pipe of one area or outline, at most"),
    WorkLimit("section_steps", section.MOST_STEPS, "1", "Steps of time of a warm-up or a lowering, at most"),
    WorkLimit(
        "section_edge_distance",
        section.GREATEST_EDGE_DISTANCE,
        "1",
        "Distance from the outermost pipe to a cold edge, over the pipe spacing, at most",
    ),
    WorkLimit(
        "least_resistance_below",
        section.LEAST_RESISTANCE_BELOW,
        "m2.K/W",
        "Resistance from the screed's underside to what lies below a section, at least",
    ),
)
"""Published with the service's other limits; each is refused with a pointer to the field that passes it."""
