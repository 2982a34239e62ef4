"""Measured moisture judged against the limit of the covering."""

from __future__ import annotations

from tepidarium_engine.moisture_reading import (
    MoistureReadingInputs,
    MoistureReadingResult,
    calculate,
    workings,
)

from ..documents.part_documents import moisture_csv, moisture_pdf, moisture_workbook
from ._base import CSV, PDF, WORKBOOK, Calculation

__all__ = ["MOISTURE_READING"]


def _effort(inputs: MoistureReadingInputs) -> float:
    return 1e-4 + 12e-6 * len(inputs.readings)


MOISTURE_READING = Calculation(
    name="moisture-reading",
    operation_id="moisture_reading",
    summary="Is the screed dry enough for its covering? Readings against the limit of the method",
    description=(
        "Judges readings of a screed by the carbide method (`carbide_moisture`, 1.8 CM-% is 0.018) or under a sealed "
        "hygrometer (`relative_humidity`) against the limit for binder, covering and floor heating. `rule` says whose "
        "limits of the carbide method hold; `limits` shows those of other rules beside them. With the floor's `area` "
        "the answer says how many points are needed; it has `passed` only if no point is missing. As PDF it is the "
        "record to sign."
    ),
    inputs=MoistureReadingInputs,
    result=MoistureReadingResult,
    calculate=calculate,
    workings=workings,
    effort=_effort,
    renderings={PDF: moisture_pdf, CSV: moisture_csv, WORKBOOK: moisture_workbook},
    example={
        "binder": "cement",
        "covering": "timber",
        "area": 28.9,
        "readings": [
            {"point": "P1", "carbide_moisture": 0.0165},
            {"point": "P2", "carbide_moisture": 0.0195},
        ],
    },
)
