"""Laying sheets: drawn circuits as a fitter follows them."""

from __future__ import annotations

from tepidarium_engine.laying_sheets import LayingSheetsInputs, LayingSheetsResult, calculate, workings

from ..documents.part_documents import laying_csv, laying_pdf, laying_workbook
from ._base import CSV, PDF, WORKBOOK, Calculation

__all__ = ["LAYING_SHEETS"]

LAYING_SHEETS = Calculation(
    name="laying-sheets",
    operation_id="laying_sheets",
    summary="A sheet for each drawn circuit: straights and turns with metre marks, distances from the walls",
    description=(
        "Takes circuits as lines and arcs, as routes and designs answer them, and the rooms that they run through. "
        "Each sheet lists straights and turns in the order of laying with their metre marks, counted from the port "
        "and, with `coil` and `coil_start_mark`, on the coil. A counterflow is laid inwards at `infeed_spacing`, "
        "twice the spacing, up to `core_mark`, and fills the gaps on its way back. `wall_distances` are dimension "
        "lines from the walls to the first pipe beside them; `from_datum` counts from a corner of the room. The pipe "
        "can be rebuilt from the sheet alone."
    ),
    inputs=LayingSheetsInputs,
    result=LayingSheetsResult,
    calculate=calculate,
    workings=workings,
    renderings={PDF: laying_pdf, CSV: laying_csv, WORKBOOK: laying_workbook},
    heavy=True,
    example={
        "rooms": [
            {
                "id": "closet",
                "name": "Closet",
                "outline": [[0.0, 0.0], [1.4, 0.0], [1.4, 1.0], [0.0, 1.0]],
            }
        ],
        "circuits": [
            {
                "id": "closet",
                "room": "closet",
                "pipe_spacing": 0.2,
                "port_height": 0.5,
                "port": 1,
                "coil": "1",
                "coil_start_mark": 82.4,
                "pieces": [
                    {"kind": "line", "start": [0.1, 0.0], "end": [0.1, 0.82]},
                    {
                        "kind": "arc",
                        "start": [0.1, 0.82],
                        "end": [0.18, 0.9],
                        "centre": [0.18, 0.82],
                        "radius": 0.08,
                        "sweep": -1.570796,
                    },
                    {"kind": "line", "start": [0.18, 0.9], "end": [1.22, 0.9]},
                    {
                        "kind": "arc",
                        "start": [1.22, 0.9],
                        "end": [1.3, 0.82],
                        "centre": [1.22, 0.82],
                        "radius": 0.08,
                        "sweep": -1.570796,
                    },
                    {"kind": "line", "start": [1.3, 0.82], "end": [1.3, 0.18]},
                    {
                        "kind": "arc",
                        "start": [1.3, 0.18],
                        "end": [1.22, 0.1],
                        "centre": [1.22, 0.18],
                        "radius": 0.08,
                        "sweep": -1.570796,
                    },
                    {"kind": "line", "start": [1.22, 0.1], "end": [0.58, 0.1]},
                    {
                        "kind": "arc",
                        "start": [0.58, 0.1],
                        "end": [0.5, 0.18],
                        "centre": [0.58, 0.18],
                        "radius": 0.08,
                        "sweep": -1.570796,
                    },
                    {"kind": "line", "start": [0.5, 0.18], "end": [0.5, 0.32]},
                    {
                        "kind": "arc",
                        "start": [0.5, 0.32],
                        "end": [0.58, 0.4],
                        "centre": [0.58, 0.32],
                        "radius": 0.08,
                        "sweep": -1.570796,
                    },
                    {"kind": "line", "start": [0.58, 0.4], "end": [1.0, 0.4]},
                    {
                        "kind": "arc",
                        "start": [1.0, 0.4],
                        "end": [1.0, 0.6],
                        "centre": [1.0, 0.5],
                        "radius": 0.1,
                        "sweep": 3.141593,
                    },
                    {"kind": "line", "start": [1.0, 0.6], "end": [0.38, 0.6]},
                    {
                        "kind": "arc",
                        "start": [0.38, 0.6],
                        "end": [0.3, 0.52],
                        "centre": [0.38, 0.52],
                        "radius": 0.08,
                        "sweep": 1.570796,
                    },
                    {"kind": "line", "start": [0.3, 0.52], "end": [0.3, 0.0]},
                ],
            }
        ],
        "pipe": {"outside_diameter": 0.016, "wall_thickness": 0.002},
    },
)
