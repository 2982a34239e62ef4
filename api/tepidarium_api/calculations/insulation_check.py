"""Insulation below a heated floor."""

from __future__ import annotations

from tepidarium_engine.insulation_check import (
    InsulationCheckInputs,
    InsulationCheckResult,
    calculate,
    workings,
)

from ._base import Calculation

__all__ = ["INSULATION_CHECK"]


def _effort(inputs: InsulationCheckInputs) -> float:
    return 2e-4 + 1e-5 * len(inputs.layers)


INSULATION_CHECK = Calculation(
    name="insulation-check",
    operation_id="insulation_check",
    summary="Insulation below a heated floor against EN 1264-4 and a local limit",
    description=(
        "Compares the resistance of the insulation below the pipes with EN 1264-4, Table 1, for what lies"
        " below, and with a local limit (a resistance, or a U-value of the whole floor), says which rule "
        "asks for more, and how much of the given board is missing. With the floor area and exposed "
        "perimeter of the building the soil counts for a U-value (ISO 13370). A `screed` is checked "
        "against DIN 18560-2: cover for the load, compressibility of all layers. The building inspector "
        "or the local code decides."
    ),
    inputs=InsulationCheckInputs,
    result=InsulationCheckResult,
    calculate=calculate,
    workings=workings,
    effort=_effort,
    example={
        "below": "ground",
        "layers": [
            {
                "name": "impact sound board",
                "thickness": 0.03,
                "thermal_conductivity": 0.04,
                "compressibility": 0.003,
            },
            {"name": "insulation", "thickness": 0.06, "thermal_conductivity": 0.032},
            {"name": "slab", "thickness": 0.2, "thermal_conductivity": 2.3, "part": "structure"},
        ],
        "local_limit": {"u_value": 0.18},
        "ground": {
            "thermal_conductivity": 1.5,
            "wall_thickness": 0.36,
            "floor_area": 96.0,
            "exposed_perimeter": 40.0,
        },
        "board_conductivity": 0.032,
        "screed": {
            "screed_cover": 0.045,
            "binder": "cement",
            "flexural_class": "F4",
            "pipe_outside_diameter": 0.016,
            "imposed_load": 2000.0,
        },
    },
)
