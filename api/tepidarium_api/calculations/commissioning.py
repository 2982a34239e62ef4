"""From the laid pipe to the running floor."""

from __future__ import annotations

from tepidarium_engine.commissioning import CommissioningInputs, CommissioningResult, calculate, workings

from ..documents.part_documents import record_pdf, record_workbook
from ._base import PDF, WORKBOOK, Calculation

__all__ = ["COMMISSIONING"]


def _effort(inputs: CommissioningInputs) -> float:
    areas = sum(len(screed.curing.room_areas) for screed in inputs.screeds)
    return (
        4e-4 + 70e-6 * (len(inputs.circuits) + len(inputs.joints)) + 1e-4 * len(inputs.screeds) + 1e-6 * areas
    )


COMMISSIONING = Calculation(
    name="commissioning",
    operation_id="commissioning",
    summary="Leak test, flushing, filling, frost protection, water limits and the records to fill in",
    description=(
        "Plans what is done between the laid pipe and the running floor, with the system's own litres. `leak_test` "
        "compares what the editions of the standards ask for and plans one test: pressures, duration, what to isolate, "
        "the pressure kept while the screed is poured, and how far the reading of a tight system moves with "
        "temperature. `flushing` gives flow and time for each circuit, `antifreeze` the concentration of both glycols "
        "for `frost_temperature`, `water_limits` the hardness that the litres per kilowatt allow, `backflow` the "
        "protection of drinking water. `balancing`, `heat_up_log` and `moisture_points` are the rows of records; "
        "`forms` says which fields they have, what is printed in them and what is written on site. `joint_movements` "
        "is how far screed moves at joints."
    ),
    inputs=CommissioningInputs,
    result=CommissioningResult,
    calculate=calculate,
    workings=workings,
    effort=_effort,
    renderings={PDF: record_pdf, WORKBOOK: record_workbook},
    example={
        "project": "House at the mill",
        "circuits": [
            {"id": "parlour-1", "length": 84.6, "volume_flow": 3.6e-5, "room": "Parlour", "port": 1},
            {"id": "parlour-2", "length": 81.2, "volume_flow": 3.4e-5, "room": "Parlour", "port": 2},
            {"id": "washroom", "length": 41.7, "volume_flow": 2.1e-5, "room": "Washroom", "port": 3},
        ],
        "pipe": {"outside_diameter": 0.016, "wall_thickness": 0.002},
        "pipe_material": "PE-RT",
        "additional_volume": 0.035,
        "frost_temperature": -12.0,
        "water_side": {"source_output": 5000.0, "hardness": 2.4, "fill_pressure": 150000.0},
        "screeds": [
            {
                "name": "Ground floor",
                "rooms": ["Parlour", "Washroom"],
                "curing": {
                    "binder": "cement",
                    "thickness": 0.065,
                    "pour_date": "2027-04-12",
                    "maximum_supply_temperature": 38.0,
                    "covering": "timber",
                    "room_areas": [28.9, 6.4],
                },
            }
        ],
        "joints": [{"id": "parlour door", "room": "Parlour", "lengths": [6.2, 2.4]}],
    },
)
