"""Supply temperature and spacing of floors on one supply."""

from __future__ import annotations

from tepidarium_engine.supply_temperature import (
    SupplyTemperatureInputs,
    SupplyTemperatureResult,
    calculate,
    workings,
)

from ._base import Calculation

__all__ = ["SUPPLY_TEMPERATURE"]


def _effort(inputs: SupplyTemperatureInputs) -> float:
    return 3e-4 + 30e-6 * (1 + len(inputs.pipe_spacings or ())) * (1 + len(inputs.other_rooms))


SUPPLY_TEMPERATURE = Calculation(
    name="supply-temperature",
    operation_id="supply_temperature",
    summary="Supply temperature and pipe spacing for a heat demand, and the other rooms on that supply",
    description=(
        "Follows EN 1264-3. The request describes the governing room: the one that asks for most heat "
        "per area, "
        "bathrooms excepted. Every spacing in `pipe_spacings` (and `pipe_spacing`) is compared; chosen "
        "is the "
        "lowest supply temperature at which every room keeps its surface limit, with the pipe length "
        "beside it. "
        "`other_rooms` share the supply: each is throttled to the temperature drop at which it gives its own "
        "demand; what a room leaves out it takes from the governing room, except its surface limit, "
        "which is its "
        "own temperature plus 9 K. Where no spacing suffices, a finding says what the floor may give and "
        "what is missing, and the other figures are those of the full demand."
    ),
    inputs=SupplyTemperatureInputs,
    result=SupplyTemperatureResult,
    calculate=calculate,
    workings=workings,
    effort=_effort,
    example={
        "pipe": {"outside_diameter": 0.016, "wall_thickness": 0.002, "thermal_conductivity": 0.35},
        "screed_cover": 0.045,
        "screed_conductivity": 1.2,
        "covering_resistance": 0.1,
        "resistance_below": 1.85,
        "required_heat_output": 58.0,
        "pipe_spacings": [0.1, 0.15, 0.2],
        "room_temperature": 20.0,
        "temperature_below": 12.0,
        "temperature_drop": 5.0,
        "area": 24.5,
        "other_rooms": [
            {"id": "study", "required_heat_output": 44.0, "area": 11.2},
            {
                "id": "bathroom",
                "required_heat_output": 68.0,
                "area": 6.4,
                "pipe_spacing": 0.1,
                "covering_resistance": 0.01,
                "room_temperature": 24.0,
            },
        ],
    },
)
