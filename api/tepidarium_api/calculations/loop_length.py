"""Pipe length and circuits from an area, or measured on a route laid in an outline."""

from __future__ import annotations

from tepidarium_engine.loop_length import LoopLengthInputs, LoopLengthResult, calculate, workings

from ._base import Calculation

__all__ = ["LOOP_LENGTH"]

LOOP_LENGTH = Calculation(
    name="loop-length",
    operation_id="loop_length",
    summary="Pipe length and number of circuits from an area or an outline",
    description=(
        "Gives the pipe for a floor at a spacing, divided into the least number of equally long circuits "
        "that keep the permitted length. The way to and from the manifold counts as circuit length: "
        "`tail_length` in the request is one way, in each circuit of the answer it is both ways together. "
        "With an `outline` a route is laid in it and measured (`measured: false`: the area that the pipe serves "
        "over spacing); with an `area` it is area over spacing. Also gives the spacer between neighbouring "
        "pipes, the spacing at which a counterflow is laid inwards, and the fixings."
    ),
    inputs=LoopLengthInputs,
    result=LoopLengthResult,
    calculate=calculate,
    workings=workings,
    heavy=True,
    example={
        "outline": [[0.0, 0.0], [6.2, 0.0], [6.2, 4.1], [3.8, 4.1], [3.8, 5.3], [0.0, 5.3]],
        "voids": [[[1.4, 3.0], [2.6, 3.0], [2.6, 3.9], [1.4, 3.9]]],
        "pipe_spacing": 0.15,
        "tail_length": 6.5,
        "pipe": {"outside_diameter": 0.016, "wall_thickness": 0.002},
        "maximum_circuit_length": 100.0,
        "wall_clearance": 0.075,
    },
)
