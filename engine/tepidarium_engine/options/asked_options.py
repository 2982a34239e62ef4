"""The house that options are sought for, checked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields, replace
from itertools import pairwise

from ..building.asked_rooms import rooms_to_heat
from ..building.house import House, house_of
from ..building.option_records import DesignOptionsInputs, EfficiencyPoint
from ..building.records import DesignsInputs, HouseToDesign
from ..building.supply import LEAST_EXCESS
from ..errors import FaultList, faults_at

__all__ = ["check_efficiency", "check_options", "house_asked", "house_by_area"]


def check_options(inputs: DesignOptionsInputs) -> None:
    """What does not fit together, beyond the ranges of the numbers."""
    faults = FaultList()
    source = inputs.design.source
    most = source.maximum_supply_temperature
    least = max(room.room_temperature for room in inputs.design.rooms) + LEAST_EXCESS
    for place, supply in enumerate(inputs.supply_temperatures):
        faults.require(
            supply >= least,
            f"/supply_temperatures/{place}",
            "supply_below_room",
            f"must be at least {LEAST_EXCESS:g} K above the warmest room",
            least,
        )
        faults.require(
            supply <= most,
            f"/supply_temperatures/{place}",
            "above_source",
            f"is warmer than the {most:g} degC that the source gives at most",
            most,
        )
    faults.require(
        source.supply_temperature is None or not inputs.supply_temperatures,
        "/supply_temperatures",
        "one_of",
        "the source of the design has a given supply_temperature: give one of the two",
    )
    ids = {room.id for room in inputs.design.rooms}
    named = [
        (f"/{group}/{place}/rooms/{number}", name)
        for group, listed in (
            ("coverings", [option.rooms for option in inputs.coverings]),
            ("patterns", [option.rooms for option in inputs.patterns]),
        )
        for place, rooms in enumerate(listed)
        for number, name in enumerate(rooms)
    ]
    named += [(f"/strips/{place}/room", option.room) for place, option in enumerate(inputs.strips)]
    for where, name in named:
        faults.require(name in ids, where, "unknown_room", f"there is no room {name!r} in the design")
    if inputs.heat_pump is not None:
        check_efficiency(inputs.heat_pump.efficiency, "/heat_pump/efficiency", faults)
        given = inputs.heat_pump.heating_energy, inputs.heat_pump.heating_hours
        faults.require(
            any(one is not None for one in given),
            "/heat_pump/heating_energy",
            "missing",
            "give the heat of a year, or heating_hours",
        )
        faults.require(
            not all(one is not None for one in given),
            "/heat_pump/heating_hours",
            "one_of",
            "heating_energy is the heat of a year already: give one of the two",
        )
    faults.raise_if_any()


def check_efficiency(curve: Sequence[EfficiencyPoint], at: str, faults: FaultList) -> None:
    """No source gives more heat for its electricity the warmer its water is. ``at``: where the curve stands."""
    for place, (one, other) in enumerate(pairwise(curve), 1):
        faults.require(
            other.supply_temperature > one.supply_temperature,
            f"{at}/{place}/supply_temperature",
            "not_rising",
            "the curve begins with the coldest supply, and no supply comes twice",
            one.supply_temperature,
        )
        faults.require(
            other.coefficient_of_performance <= one.coefficient_of_performance,
            f"{at}/{place}/coefficient_of_performance",
            "efficiency_rises",
            "a warmer supply cannot be more efficient: check the order of the curve",
            one.coefficient_of_performance,
        )


def house_asked(inputs: DesignsInputs) -> HouseToDesign:
    """The request without what it is compared with and what is asked beside it."""
    return HouseToDesign(**{item.name: getattr(inputs, item.name) for item in fields(HouseToDesign)})


def house_by_area(request: HouseToDesign) -> House:
    """The house by area: nothing is drawn or measured. Raises ``InputError`` as designs does, below ``/design``."""
    design = _without_drawing(request)
    with faults_at({}, "/design"):
        return replace(house_of(design, rooms_to_heat(design)), by_area=True)


def _without_drawing(request: HouseToDesign) -> DesignsInputs:
    asked = {item.name: getattr(request, item.name) for item in fields(HouseToDesign)}
    without = {
        "doorways": (),
        "screed": None,
        "solve_sections": False,
        "ordering": None,
        "commissioning": None,
        "laying_sheets": False,
        "manifold": replace(request.manifold, allowed_places=()),
        "manifolds": tuple(replace(manifold, allowed_places=()) for manifold in request.manifolds),
    }
    return DesignsInputs(**{**asked, **without})
