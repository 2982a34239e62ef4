"""Where the manifold of a storey should stand."""

from __future__ import annotations

from tepidarium_engine.manifold_position import (
    ManifoldPositionInputs,
    ManifoldPositionResult,
    calculate,
    workings,
)

from ._base import Calculation

__all__ = ["MANIFOLD_POSITION"]

MANIFOLD_POSITION = Calculation(
    name="manifold-position",
    operation_id="manifold_position",
    summary="Where the manifold of a storey should stand: least pipe in all tails",
    description=(
        "Finds the best place for the manifold of a storey among the walls that are allowed: from the rooms with "
        "their circuits and the doorways between them to the place with the least pipe in all tails, flow and "
        "return, over free floor, round voids and through doorways. Ports come in an order in which tails need "
        "not cross. Where one manifold has too few ports, or a tail would be too long, several share the rooms. "
        "With `position` the cost of that place stands beside the best."
    ),
    inputs=ManifoldPositionInputs,
    result=ManifoldPositionResult,
    calculate=calculate,
    workings=workings,
    heavy=True,
    example={
        "rooms": [
            {"id": "hall", "outline": [[0.0, 0.0], [8.0, 0.0], [8.0, 1.5], [0.0, 1.5]], "circuits": 1},
            {"id": "living", "outline": [[0.0, 1.6], [4.9, 1.6], [4.9, 6.0], [0.0, 6.0]], "circuits": 2},
            {"id": "kitchen", "outline": [[5.0, 1.6], [8.0, 1.6], [8.0, 6.0], [5.0, 6.0]], "circuits": 1},
            {"id": "bath", "outline": [[0.0, -3.1], [3.9, -3.1], [3.9, -0.1], [0.0, -0.1]], "circuits": 1},
        ],
        "doorways": [
            {"rooms": ["hall", "living"], "place": [2.0, 1.55], "width": 0.9},
            {"rooms": ["hall", "kitchen"], "place": [6.5, 1.55], "width": 0.9},
            {"rooms": ["hall", "bath"], "place": [3.0, -0.05], "width": 0.8},
        ],
        "allowed_places": [{"room": "hall"}],
        "position": [0.0, 0.75],
        "maximum_ports": 12,
    },
)
