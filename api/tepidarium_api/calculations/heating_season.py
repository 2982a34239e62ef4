"""A house through the heating season."""

from __future__ import annotations

from tepidarium_engine.heating_season import (
    HeatingSeasonInputs,
    HeatingSeasonResult,
    calculate,
    workings,
)

from ..documents.part_documents import season_pdf
from ..renderings.season_drawing import season_drawing
from ._base import PDF, SVG, Calculation
from ._house_by_area import HOUSE_BY_AREA

__all__ = ["HEATING_SEASON"]


def _effort(inputs: HeatingSeasonInputs) -> float:
    """Of a house by area; what outlines ask for besides goes with their corners."""
    rooms, bins = inputs.design.rooms, len(inputs.climate)
    outlined = [room for room in rooms if room.outline is not None]
    corners = sum(len(room.outline or ()) + sum(map(len, room.voids)) for room in outlined)
    by_area = 9e-4 + 4e-4 * len(rooms) + (4e-6 + 1.2e-5 * len(rooms)) * bins
    return by_area + 1e-3 * len(outlined) + 7e-5 * corners


HEATING_SEASON = Calculation(
    name="heating-season",
    operation_id="heating_season",
    summary="A house through the year: heating curve, room controls, flow, heat and electricity",
    description=(
        "Takes a request of designs and the climate of a year in bins of outside temperature, and operates the house "
        "by area on a heating curve that goes through the design. `curve` is what controls ask for: supply = basis + "
        "(design supply - basis) x load share ^ (1 / exponent), with the room that governs as basis. For each bin it "
        "gives supply, return, heat, mean flow, the pump, how long the control of each room is open, and with "
        "`efficiency` the electricity; for each room its mean over the year, and the heat that it lacks where the "
        "curve is too low for it, as for a bathroom in mild weather.\n\nDemands go with the distance between room and "
        "outside, without gains from sun and people: a real year needs less heat. Flows are those of the design while "
        "a control is open, and cooling follows the supply. Heat is what the rooms get; what is lost downwards comes "
        "on top. Take the climate from the weather service of the place, and the efficiency from the source's data "
        "sheet (EN 14825, EN 14511). Ask for `image/svg+xml` to get the heating curve as a plot with the year in a "
        "table beside it, for `application/pdf` to get that with the controls of the rooms."
    ),
    inputs=HeatingSeasonInputs,
    result=HeatingSeasonResult,
    calculate=calculate,
    workings=workings,
    renderings={SVG: season_drawing, PDF: season_pdf},
    effort=_effort,
    example={
        "design": HOUSE_BY_AREA,
        "outside_temperature": -12.0,
        "climate": [
            {"outside_temperature": -12.0, "hours": 40.0},
            {"outside_temperature": -8.0, "hours": 210.0},
            {"outside_temperature": -4.0, "hours": 620.0},
            {"outside_temperature": 0.0, "hours": 1240.0},
            {"outside_temperature": 4.0, "hours": 1510.0},
            {"outside_temperature": 8.0, "hours": 1460.0},
            {"outside_temperature": 12.0, "hours": 1390.0},
            {"outside_temperature": 16.0, "hours": 1180.0},
            {"outside_temperature": 22.0, "hours": 1110.0},
        ],
        "efficiency": [
            {"supply_temperature": 20.0, "coefficient_of_performance": 6.0},
            {"supply_temperature": 35.0, "coefficient_of_performance": 4.4},
            {"supply_temperature": 45.0, "coefficient_of_performance": 3.5},
        ],
    },
)
