"""Flows, balancing and water side of a manifold."""

from __future__ import annotations

from tepidarium_engine.hydraulics import HydraulicsInputs, HydraulicsResult, calculate, workings

from ..documents.part_documents import flow_csv, flow_pdf
from ._base import CSV, PDF, Calculation

__all__ = ["HYDRAULICS"]


def _effort(inputs: HydraulicsInputs) -> float:
    bends = sum(len(circuit.bends or ()) for circuit in inputs.circuits)
    return 4e-4 + 70e-6 * len(inputs.circuits) + 3e-6 * (bends + len(inputs.valve_table or ()))


HYDRAULICS = Calculation(
    name="hydraulics",
    operation_id="hydraulics",
    summary="Flows, pressure drops, balancing, pump, mixing and expansion vessel of a manifold",
    description=(
        "Gives every circuit of a manifold its flow, pressure drop and valve setting. Each circuit names its "
        "`length` (arcs and both tails included) and either its `heat_flow` or its `mass_flow`. The circuit with the "
        "highest pressure drop keeps its valve open (`index_circuit`); `valve_kv` of the others takes up the "
        "difference, and `volume_flow` is what the flow meter must show. Friction is Churchill's; between Reynolds "
        "2000 and 4000, where the flow may be laminar or turbulent, `pressure_drop_upper` is the higher one, which "
        "pump and findings use. `open_same_pressure` and `open_same_flow` say what each circuit gets while all "
        "valves are open: with a pump that holds the pressure across the manifold, and with the design flow in "
        "total. Flow coefficients are in m3/h at a drop of 1 bar; pressures of the closed system are above "
        "atmospheric."
    ),
    inputs=HydraulicsInputs,
    result=HydraulicsResult,
    calculate=calculate,
    workings=workings,
    renderings={PDF: flow_pdf, CSV: flow_csv},
    effort=_effort,
    example={
        "pipe": {"outside_diameter": 0.016, "wall_thickness": 0.002},
        "supply_temperature": 36.0,
        "temperature_drop": 5.0,
        "circuits": [
            {"id": "living room, south", "length": 86.0, "heat_flow": 800.0},
            {"id": "living room, north", "length": 81.5, "heat_flow": 770.0},
            {"id": "kitchen", "length": 71.0, "heat_flow": 610.0, "temperature_drop": 6.0},
            {
                "id": "bathroom",
                "length": 58.0,
                "heat_flow": 640.0,
                "bends": [{"count": 34, "angle": 90.0}, {"count": 1, "angle": 180.0, "radius": 0.1}],
            },
            {"id": "hall", "length": 39.0, "heat_flow": 310.0},
        ],
        "valve_table": [
            {"setting": 1.0, "kv": 0.08},
            {"setting": 2.0, "kv": 0.2},
            {"setting": 3.0, "kv": 0.42},
            {"setting": 4.0, "kv": 0.74},
            {"setting": 5.0, "kv": 1.1},
        ],
        "mains_pressure_drop": 4500.0,
        "primary_temperature": 50.0,
        "fluid": {"kind": "propylene_glycol", "concentration": 0.3, "basis": "volume"},
        "frost_temperature": -10.0,
        "expansion": {"additional_volume": 0.06, "maximum_temperature": 60.0, "static_height": 4.0},
    },
)
