"""The pipe of a room as it is to be laid."""

from __future__ import annotations

from tepidarium_engine.routes import RoutesInputs, RoutesResult, calculate, workings

from ..documents.part_documents import route_cad, route_pdf
from ..renderings.route_drawing import route_drawing
from ._base import DXF, PDF, SVG, Calculation

__all__ = ["ROUTES"]

ROUTES = Calculation(
    name="routes",
    operation_id="routes",
    summary="The pipe's way through a room: counterflow or serpentine, as lines and arcs",
    description=(
        "Lays the pipe of a room of any shape: from its outline with voids, the place where the pipes come in, "
        "spacing, clearance and pipe to the centre lines of its circuits, which can be laid as drawn. A room that is "
        "too long for one circuit, that movement joints divide, or for which `circuits` asks, is divided into "
        "circuits of similar length that come in side by side; their tails cross joints in `sleeves`. With a "
        "`second_entry` or a peripheral strip there are two circuits that come in apart. Say where the pipes come in "
        "by `entry`, `doorway` or `manifold_place`. `pieces` are the exact lines and arcs from flow to return, "
        "`path` the same as points that lie off it by at most `chord_error`. Every route passes an independent check "
        "of crossings, clearances, bend radii and distances; one that fails the check is refused with a reason. "
        "Movement joints that the rules ask for and that were not given are proposed as findings. Where the room "
        "does not allow the spacing asked for, `laid_spacings` says where the spacing differs and why. With `path` "
        "or `pieces` in the request that route is checked instead, and its faults come as findings with their place. "
        "Ask for `image/svg+xml` to get a drawing to scale."
    ),
    inputs=RoutesInputs,
    result=RoutesResult,
    calculate=calculate,
    workings=workings,
    renderings={SVG: route_drawing, DXF: route_cad, PDF: route_pdf},
    heavy=True,
    example={
        "outline": [[0.0, 0.0], [4.6, 0.0], [4.6, 2.9], [3.1, 2.9], [3.1, 4.2], [0.0, 4.2]],
        "voids": [[[1.2, 2.5], [1.9, 2.5], [1.9, 3.1], [1.2, 3.1]]],
        "entry": [3.7, 0.0],
        "pipe_spacing": 0.2,
        "pattern": "counterflow",
        "wall_clearance": 0.075,
        "pipe": {"outside_diameter": 0.016, "wall_thickness": 0.002, "minimum_bend_radius": 0.08},
        "tail_length": 3.5,
        "maximum_circuit_length": 100.0,
    },
)
