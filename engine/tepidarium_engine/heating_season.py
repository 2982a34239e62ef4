"""A house through the heating season: the heating curve, room controls, flow, heat and electricity.

The supply follows the outside temperature by a heating curve that goes through the design. Heat after EN 1264-2,
demands in proportion to the distance between room and outside (EN 12831-1), without gains from sun and people.
"""

from __future__ import annotations

from .building.season_records import (
    ClimateBin,
    HeatingCurve,
    HeatingSeasonInputs,
    HeatingSeasonResult,
    SeasonBin,
    SeasonRoom,
)
from .building.solving import first_division
from .checking import check
from .errors import faults_at
from .options.asked_options import house_by_area
from .options.house_season import check_season, season_of
from .own_place import at_own_place, lower_left
from .results import Working

__all__ = [
    "ClimateBin",
    "HeatingCurve",
    "HeatingSeasonInputs",
    "HeatingSeasonResult",
    "SeasonBin",
    "SeasonRoom",
    "calculate",
    "workings",
]


def calculate(inputs: HeatingSeasonInputs) -> HeatingSeasonResult:
    """The year of a design; see the records for units.

    Raises ``InputError`` as ``designs.calculate``, with pointers below ``/design``, for a climate of more hours than a
    year has, an outside temperature that no room loses heat to, an efficiency that rises with the supply.
    """
    check(inputs)
    check_season(inputs)
    origin = lower_left(room.outline or () for room in inputs.design.rooms)
    return at_own_place(inputs, origin, _calculated, "/design/rooms")


def _calculated(inputs: HeatingSeasonInputs) -> HeatingSeasonResult:
    house = house_by_area(inputs.design)
    with faults_at({}, "/design"):
        division = first_division(house)
    return season_of(inputs, division)


def workings(inputs: HeatingSeasonInputs, result: HeatingSeasonResult) -> tuple[Working, ...]:
    """The curve, and the supply of each bin."""
    curve = result.curve
    slope = Working(
        "s",
        "Slope of the heating curve",
        curve.slope,
        "1",
        "(theta_V - theta_i) / (theta_i - theta_e) at the design",
        "definition",
    )
    return (
        slope,
        *(
            Working(
                f"theta_V_{place}",
                f"Supply at {each.outside_temperature:g} degC outside",
                each.supply_temperature,
                "degC",
                "theta_i + (theta_V of the design - theta_i) x load share ^ (1 / n), as far as the source gives it",
                "EN 1264-2: heat in proportion to the excess temperature",
            )
            for place, each in enumerate(result.bins)
            if each.supply_temperature is not None
        ),
    )
