"""What to order for the floors of a house."""

from __future__ import annotations

from tepidarium_engine.materials import MaterialsInputs, MaterialsResult, calculate, workings

from ..documents.part_documents import material_csv, material_pdf, material_workbook
from ._base import CSV, PDF, WORKBOOK, Calculation

__all__ = ["MATERIALS"]

MATERIALS = Calculation(
    name="materials",
    operation_id="materials",
    summary="What to order: quantities with rule, source and waste, and the plan of coils",
    description=(
        "Takes circuits, floors and their layers and answers one line for each item: quantity, waste, packs and what "
        "to order, with the rule and its source. Where circuits come with `pieces` and floors with an `outline`, "
        "quantities follow the geometry: boards and film are laid over the outline, fixings are put along the drawn "
        "pipe, screed leaves out the pipe in it. Otherwise they follow from lengths and areas. Movement joints that "
        "are due but that nobody has decided on stand apart (`status`: due). `ordering` holds the sizes in which "
        "things are sold; `overrides` replaces quantity, waste or pack of single items, named as in `quantities`. "
        "With a `price_list` the lines have prices; without one there is no money in the answer. The `coil_plan` is "
        "that of coil-plan."
    ),
    inputs=MaterialsInputs,
    result=MaterialsResult,
    calculate=calculate,
    workings=workings,
    renderings={PDF: material_pdf, CSV: material_csv, WORKBOOK: material_workbook},
    heavy=True,
    example={
        "circuits": [
            {"id": "parlour-1", "length": 84.6, "area_id": "parlour"},
            {"id": "parlour-2", "length": 81.2, "area_id": "parlour"},
            {"id": "washroom", "length": 41.7, "area_id": "washroom", "right_angle_bends": 34},
        ],
        "areas": [
            {
                "id": "parlour",
                "build_up": "ground",
                "outline": [[0.0, 0.0], [6.2, 0.0], [6.2, 4.1], [3.8, 4.1], [3.8, 5.3], [0.0, 5.3]],
                "voids": [[[1.4, 3.0], [2.6, 3.0], [2.6, 3.9], [1.4, 3.9]]],
                "openings": [[[6.2, 1.0], [6.2, 1.9]]],
            },
            {"id": "washroom", "build_up": "ground", "area": 6.4, "wall_length": 9.7},
        ],
        "build_ups": [
            {
                "id": "ground",
                "screed_thickness": 0.065,
                "insulation": [
                    {"thickness": 0.08, "name": "EPS board"},
                    {
                        "thickness": 0.03,
                        "name": "Impact sound roll",
                        "board": {"length": 10.0, "width": 1.0},
                    },
                ],
            }
        ],
        "pipe": {"outside_diameter": 0.016, "wall_thickness": 0.002},
        "joints": [{"length": 0.9, "sleeves": 2}, {"length": 4.1, "sleeves": 4, "due": True}],
        "expansion_vessel": 0.012,
        "ordering": {
            "coil_lengths": [120.0, 200.0, 240.0],
            "overrides": [{"item": "tape", "waste_share": 0.2}],
        },
    },
)
