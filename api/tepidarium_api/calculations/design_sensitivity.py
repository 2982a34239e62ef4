"""How a design reacts to one change at a time."""

from __future__ import annotations

from tepidarium_engine.design_sensitivity import (
    DesignSensitivityInputs,
    DesignSensitivityResult,
    calculate,
    workings,
)

from ..documents.part_documents import sensitivity_pdf
from ..renderings.sensitivity_drawing import sensitivity_drawing
from ._base import PDF, SVG, Calculation
from ._house_by_area import HOUSE_BY_AREA

__all__ = ["DESIGN_SENSITIVITY"]

DESIGN_SENSITIVITY = Calculation(
    name="design-sensitivity",
    operation_id="design_sensitivity",
    summary="How a design reacts: carpet, more heat, a warmer room, thicker screed, a limited supply",
    description=(
        "Takes a request of designs and designs the house again by area, with one change at a time: for each room a "
        "carpet, a higher demand and a warmer room; for the house all demands, thicker screed and a limit of the "
        "supply. `lines` say what each change does to supply, missing heat, pipe, circuits and pump, the greatest "
        "effect first: missing heat, then supply, then pipe; `rooms` have a table each, of their own changes and "
        "those of the house. A room that is kept warmer needs more heat in proportion to its distance from "
        "`outside_temperature`.\n\n`tolerances` say by how much the demand of each room may rise at the spacing that "
        "it has: on the supply of the design, and on the warmest that the source gives. The room that governs has no "
        "tolerance on the supply of the design, as that is what it asks for. A room that cannot bear the rise looked "
        "at is a finding. `finding_tolerances` say by how much all demands together, and each alone, may rise until "
        "any finding of the house by area is new or gone, and which one: the house is designed again with each rise."
        "\n\nAsk for `image/svg+xml` to get the changes as a table with bars, for `application/pdf` to get that with "
        "the tolerances."
    ),
    inputs=DesignSensitivityInputs,
    result=DesignSensitivityResult,
    calculate=calculate,
    workings=workings,
    renderings={SVG: sensitivity_drawing, PDF: sensitivity_pdf},
    heavy=True,
    example={
        "design": HOUSE_BY_AREA,
    },
)
