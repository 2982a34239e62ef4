"""Which circuits are cut from which coils."""

from __future__ import annotations

from tepidarium_engine.coil_plan import CoilPlanInputs, CoilPlanResult, calculate, workings

from ..documents.part_documents import coil_csv, coil_pdf, coil_workbook
from ._base import CSV, PDF, WORKBOOK, Calculation

__all__ = ["COIL_PLAN"]

COIL_PLAN = Calculation(
    name="coil-plan",
    operation_id="coil_plan",
    summary="Which circuits are cut from which coils, without a joint in the screed",
    description=(
        "Takes the circuits in the order in which they are laid and the lengths of the coils that can be bought. Each "
        "circuit is one piece, with `cutting_allowance` at both ends. What is in `stock` is used first; then the least "
        "length is bought, and for it the fewest coils are opened. Each coil lists its cuts in the order of laying "
        "with the metre marks at which they begin and end. The answer says which length no plan can go below and "
        "whether the plan is proven to be the best. A circuit that is longer than every coil is a finding; it is "
        "left out of the plan."
    ),
    inputs=CoilPlanInputs,
    result=CoilPlanResult,
    calculate=calculate,
    workings=workings,
    renderings={PDF: coil_pdf, CSV: coil_csv, WORKBOOK: coil_workbook},
    heavy=True,
    example={
        "circuits": [
            {"id": "parlour-1", "length": 84.6},
            {"id": "parlour-2", "length": 81.2},
            {"id": "kitchen", "length": 96.4},
            {"id": "washroom", "length": 41.7},
            {"id": "study", "length": 63.3},
            {"id": "hall", "length": 28.9},
        ],
        "coil_lengths": [120.0, 200.0, 240.0],
        "stock": [{"length": 47.5, "name": "rest from Mill Lane"}],
        "cutting_allowance": 0.5,
    },
)
