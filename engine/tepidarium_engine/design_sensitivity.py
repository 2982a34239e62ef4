"""How a design reacts: what happens if a covering, a demand, a room's temperature, the screed or the supply changes.

Each line is the whole house designed again by area, by the rule of designs. Heat after EN 1264-2 and EN 1264-3.
"""

from __future__ import annotations

from .building.sensitivity_records import (
    ChangeKind,
    DesignSensitivityInputs,
    DesignSensitivityResult,
    FindingTolerance,
    RoomEffect,
    RoomSensitivity,
    RoomTolerance,
    SensitivityLine,
    ToleranceChange,
)
from .checking import check
from .options.asked_options import house_by_area
from .options.house_sensitivity import check_sensitivity, sensitivity_of
from .own_place import at_own_place, lower_left
from .results import Working

__all__ = [
    "ChangeKind",
    "DesignSensitivityInputs",
    "DesignSensitivityResult",
    "FindingTolerance",
    "RoomEffect",
    "RoomSensitivity",
    "RoomTolerance",
    "SensitivityLine",
    "ToleranceChange",
    "calculate",
    "workings",
]


def calculate(inputs: DesignSensitivityInputs) -> DesignSensitivityResult:
    """The design with one change at a time; see the records for units.

    Raises ``InputError`` as ``designs.calculate``, with pointers below ``/design``, and for a supply limit or an
    outside temperature that the rooms do not allow.
    """
    check(inputs)
    check_sensitivity(inputs)
    origin = lower_left(room.outline or () for room in inputs.design.rooms)
    return at_own_place(inputs, origin, _calculated, "/design/rooms")


def _calculated(inputs: DesignSensitivityInputs) -> DesignSensitivityResult:
    return sensitivity_of(inputs, house_by_area(inputs.design))


def workings(inputs: DesignSensitivityInputs, result: DesignSensitivityResult) -> tuple[Working, ...]:
    """The tolerance of each room."""
    return tuple(
        Working(
            f"t_{room.id}",
            f"Tolerance of {room.name or room.id}",
            room.tolerance_at_most,
            "1",
            "heat of the floor on the warmest supply within the surface limit / heat demand - 1",
            "EN 1264-2, characteristic and limit curve",
        )
        for room in result.tolerances
    )
