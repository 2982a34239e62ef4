"""How a house by area reacts to one change at a time."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..building.house import House
from ..building.sensitivity_records import DesignSensitivityInputs, DesignSensitivityResult, RoomTolerance
from ..building.solving import first_division
from ..building.supply import LEAST_EXCESS
from ..cautions import FLOOR, LENGTHS, once
from ..errors import FaultList, faults_at
from ..gathering import gathered
from ..results import Finding
from .finding_tolerance import finding_tolerances
from .sensitivity import figures, sensitivity, tolerances

__all__ = ["check_sensitivity", "sensitivity_of"]


def check_sensitivity(inputs: DesignSensitivityInputs) -> None:
    """What does not fit together, beyond the ranges of the numbers."""
    faults = FaultList()
    temperatures = [room.room_temperature for room in inputs.design.rooms]
    faults.require(
        inputs.outside_temperature < min(temperatures),
        "/outside_temperature",
        "not_colder",
        "must be colder than every room: a room's demand grows with its distance from it",
        min(temperatures),
    )
    least = max(temperatures) + inputs.warmer_by + LEAST_EXCESS
    given = inputs.design.source.supply_temperature
    warmest = inputs.design.source.maximum_supply_temperature if given is None else given
    for pointer, supply in (("/supply_limit", inputs.supply_limit), ("/warmer_by", warmest)):
        faults.require(
            supply is None or supply >= least,
            pointer,
            "supply_below_room",
            f"the supply must be at least {LEAST_EXCESS:g} K above the warmest room when that is kept warmer, "
            f"which is {least:g} degC",
            least,
        )
    faults.raise_if_any()


def sensitivity_of(inputs: DesignSensitivityInputs, house: House) -> DesignSensitivityResult:
    """Of a ``house`` by area; what its rooms keep stays as long as it holds."""
    with faults_at({}, "/design"):
        division = first_division(house)
    before = figures(division)
    found = sensitivity(inputs, house, division)
    rooms = tuple(tolerances(house, division))
    return DesignSensitivityResult(
        supply_temperature=before.supply,
        heat_missing=before.missing,
        pipe_length=before.pipe,
        circuit_count=before.circuits,
        pump_power=before.power,
        lines=found.lines,
        rooms=found.rooms,
        tolerances=rooms,
        demand_tolerance=min(room.tolerance_at_most for room in rooms),
        finding_tolerances=tuple(finding_tolerances(_with_dates(inputs, house))),
        findings=gathered(_findings(inputs, rooms, found.impossible), inputs),
        cautions=once((*FLOOR, *LENGTHS)),
    )


def _with_dates(inputs: DesignSensitivityInputs, house: House) -> House:
    """Findings of dates depend on the supply, too."""
    return replace(house, inputs=replace(house.inputs, screed=inputs.design.screed))


def _findings(
    inputs: DesignSensitivityInputs, rooms: tuple[RoomTolerance, ...], impossible: tuple[str, ...]
) -> Iterator[Finding]:
    if impossible:
        yield Finding.at(
            "change_not_computed",
            "/design",
            detail=" ".join(impossible)[:1000],
        )
    for place, room in enumerate(rooms):
        if room.tolerance_at_most < inputs.demand_rise:
            yield Finding.at(
                "little_reserve",
                f"/design/rooms/{place}/heat_demand",
                value=room.tolerance_at_most,
                limit=inputs.demand_rise,
                quantity="tolerance_at_most",
                limit_is="looked at",
            )
