"""The house that has least of what was asked for: the best by area, designed completely and held to the rule.

The search is that of design-options: every supply at which a choice of a room changes, and on each the best house as a
whole. What it decides goes into the design as what is kept does; drawn pipe and heat of tails then have the last word.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, replace

from ..building.floors import KeptRoom, RoomToHeat
from ..building.objective_records import DesignObjective, Least, ObjectiveOutcome
from ..building.records import DesignsInputs
from ..building.room_strips import heated_strip
from ..building.solving import first_division
from ..building.whole_design import WholeDesign
from ..errors import Fault, FaultList, InputError
from ..hydraulics import Pump
from ..results import Finding
from .asked_options import check_options, house_asked, house_by_area
from .coils_bought import coils_of, cuts_for, stock_of
from .energy import energy_of_year
from .front import FrontSearch
from .front_result import front_result
from .house_options import Weighed, beside, best_in, cost_of_use, evaluated, front_of
from .objective_findings import objective_findings, uneven_floors
from .option_records import (
    DesignOption,
    DesignOptionsInputs,
    DesignOptionsResult,
    EnergyOfYear,
    OptionRoom,
)
from .room_variants import room_variants

__all__ = ["Aimed", "design_for"]

_MOST, _SHOWN = 40, 12
"""Options of a front: all that are any use, and those that are answered."""
_SAME_HEAT, _SAME_SHARE = 1.0, 1e-6
"""Heat [W] that may be missing beside the rule, and the share by which a house must be better."""


@dataclass(frozen=True)
class Aimed:
    """The design that is answered, and what is said about it."""

    design: WholeDesign
    outcome: ObjectiveOutcome
    options: DesignOptionsResult
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class _Best:
    """The best house by area; ``gap`` None where no bound is known."""

    option: DesignOption
    proven: bool
    gap: float | None
    front: DesignOptionsResult


@dataclass(frozen=True)
class _Whole:
    """A complete design with what it is weighed by."""

    supply_temperature: float
    pipe_length: float
    circuit_count: int
    heat_missing: float
    pump: Pump
    material_cost: float | None
    energy: EnergyOfYear | None


def design_for(
    inputs: DesignsInputs,
    objective: DesignObjective,
    rooms: tuple[RoomToHeat, ...],
    designed: Callable[[tuple[RoomToHeat, ...]], WholeDesign],
) -> Aimed:
    """The best house, ``designed`` with what its rooms keep; the house by the rule where that is no worse.

    Raises ``InputError`` for an objective that contradicts other fields or lacks prices, and as designs does.
    """
    _check(inputs, objective)
    best = _best(inputs, objective)
    by_rule = designed(rooms)
    ruled = _weighed(by_rule, objective)
    if not math.isfinite(_value(ruled, objective.least)):
        raise _not_covered(ruled.supply_temperature)
    taken, weighed = by_rule, ruled
    found = _designed(best.option, rooms, designed)
    if found is not None:
        other = _weighed(found, objective)
        evener = uneven_floors(found, objective) - uneven_floors(by_rule, objective)
        if (
            evener <= 0
            and (evener or _better(other, ruled, objective.least))
            and not _violations(found) - _violations(by_rule)
        ):
            taken, weighed = found, other
    outcome = ObjectiveOutcome(
        least=objective.least,
        taken="rule" if taken is by_rule else "best",
        value=_value(weighed, objective.least),
        value_by_rule=_value(ruled, objective.least),
        beside_rule=beside(weighed, ruled),
        proven=best.proven,
        gap=best.gap,
        solver=best.front.solver,
    )
    return Aimed(taken, outcome, best.front, tuple(objective_findings(objective, outcome, taken)))


def _check(inputs: DesignsInputs, objective: DesignObjective) -> None:
    faults = FaultList()
    faults.require(
        inputs.former is None,
        "/objective",
        "one_of",
        "would decide anew what the former design decided: give one of the two",
    )
    faults.require(
        objective.least != "supply_temperature" or inputs.source.supply_temperature is None,
        "/objective/least",
        "one_of",
        "the source has a given supply_temperature: leave it out to get the least",
    )
    if objective.least == "cost_of_use":
        faults.require(objective.prices is not None, "/objective/prices", "missing", "cost needs prices")
        pump = objective.heat_pump
        faults.require(
            pump is not None, "/objective/heat_pump", "missing", "cost needs the efficiency of the source"
        )
        faults.require(
            pump is None or pump.electricity_price is not None,
            "/objective/heat_pump/electricity_price",
            "missing",
            "cost needs the price of electricity",
        )
    faults.raise_if_any()


def _best(inputs: DesignsInputs, objective: DesignObjective) -> _Best:
    """Of the front by area."""
    house_inputs = house_asked(inputs)
    asked = DesignOptionsInputs(
        house_inputs,
        patterns=objective.patterns,
        strips=objective.strips,
        maximum_surface_range=objective.maximum_surface_range,
        prices=objective.prices,
        heat_pump=objective.heat_pump,
    )
    try:
        check_options(asked)
        house = house_by_area(house_inputs)
        search = FrontSearch(asked, house, room_variants(asked, house))
        division = first_division(house)
        found = search.options(division)
        ruled = evaluated(search, search.by_rule(division))
        options = [evaluated(search, option) for option in found]
    except InputError as error:
        raise InputError(*map(_placed, error.faults)) from error
    front = front_of(options, ruled, _MOST).options
    material, supply, power, use = best_in(front)
    numbers: dict[Least, int | None] = {
        "material": material,
        "supply_temperature": supply,
        "pump_power": power,
        "cost_of_use": use,
    }
    number = numbers[objective.least]
    if number is None or not math.isfinite(_value(ruled, objective.least)):
        raise _not_covered(ruled.supply_temperature)
    option = front[number - 1]
    shown = front_result(search, front_of(options, ruled, _SHOWN), ruled)
    if objective.least == "pump_power":  # no measure of the search: it seeks the least flow
        return _Best(option, proven=False, gap=None, front=shown)
    gap = _gap(options, option, objective.least)
    return _Best(option, proven=gap == 0.0 and not search.supplies_left_out, gap=gap, front=shown)


def _not_covered(supply: float) -> InputError:
    detail = f"must cover the supplies of this house, such as the {supply:.1f} degC of the design by the rule"
    return InputError(Fault("/objective/heat_pump/efficiency", "efficiency_not_known", detail, supply))


def _placed(fault: Fault) -> Fault:
    if fault.pointer.startswith("/design"):
        return replace(fault, pointer=fault.pointer.removeprefix("/design"))
    return replace(fault, pointer=f"/objective{fault.pointer}")


def _gap(options: list[DesignOption], best: DesignOption, least: Least) -> float:
    """Share by which a house on some supply could be better than the best."""
    value = _value(best, least)
    bound = min(
        _value(option, least) * (1.0 - option.gap)
        for option in options
        if least != "cost_of_use" or cost_of_use(option) is not None
    )
    unproven = any(not option.proven for option in options)
    return max(0.0, 1.0 - bound / value) if unproven and value > 0.0 else 0.0


def _designed(
    option: DesignOption,
    rooms: tuple[RoomToHeat, ...],
    designed: Callable[[tuple[RoomToHeat, ...]], WholeDesign],
) -> WholeDesign | None:
    """``None`` where it cannot be designed completely."""
    kept = tuple(
        _kept(room, own, option.supply_temperature) for room, own in zip(rooms, option.rooms, strict=True)
    )
    try:
        design = designed(kept)
        _violations(design)
    except InputError:
        return None
    return design


def _kept(room: RoomToHeat, own: OptionRoom, supply: float) -> RoomToHeat:
    """The room with what was decided for it."""
    laid = replace(room.room, pattern=own.pattern, peripheral=own.peripheral)
    return replace(
        room,
        room=laid,
        strip=heated_strip(laid, room.outline, room.area),
        kept=KeptRoom(supply, own.pipe_spacing, own.circuit_count, own.manifold),
    )


def _weighed(design: WholeDesign, objective: DesignObjective) -> _Whole:
    solved = design.solved
    pipe = math.fsum(room.loops.pipe_length for room in solved.divided)
    circuits = sum(len(room.loops.circuits) for room in solved.divided)
    cost = _material_cost(design, objective, pipe, circuits)
    supply = solved.supply.temperature
    return _Whole(
        supply_temperature=supply,
        pipe_length=pipe,
        circuit_count=circuits,
        heat_missing=math.fsum(room.heat_missing for room in solved.divided),
        pump=solved.water.whole.pump,
        material_cost=cost,
        energy=energy_of_year(
            objective.heat_pump, supply, math.fsum(room.heated.heat_demand for room in solved.divided), cost
        ),
    )


def _material_cost(
    design: WholeDesign, objective: DesignObjective, pipe: float, circuits: int
) -> float | None:
    """Of pipe [m], circuits, coils and patterns beside those asked for; None without any price."""
    prices, divided = objective.prices, design.solved.divided
    if prices is None and not any(option.price for option in objective.patterns):
        return None
    cost = 0.0 if prices is None else prices.pipe * pipe + prices.circuit * circuits
    stock = stock_of(prices)
    if stock is not None:
        cuts = [cuts_for(one.total_length, 1) for room in divided for one in room.loops.circuits]
        cost += coils_of(stock, cuts).coils_price
    asked = design.sited.house.inputs.rooms
    return cost + math.fsum(
        _price_of_pattern(objective, room.heated)
        for room in divided
        if room.heated.room.pattern != asked[room.heated.index].pattern
    )


def _price_of_pattern(objective: DesignObjective, room: RoomToHeat) -> float:
    return room.area * min(
        option.price
        for option in objective.patterns
        if option.pattern == room.room.pattern and (not option.rooms or room.room.id in option.rooms)
    )


def _value(house: Weighed, least: Least) -> float:
    """What is to be least; infinite where it is not known."""
    values: dict[Least, float | None] = {
        "supply_temperature": house.supply_temperature,
        "material": house.pipe_length if house.material_cost is None else house.material_cost,
        "pump_power": house.pump.hydraulic_power,
        "cost_of_use": cost_of_use(house),
    }
    value = values[least]
    return math.inf if value is None else value


def _better(one: Weighed, other: Weighed, least: Least) -> bool:
    enough = one.heat_missing <= other.heat_missing + _SAME_HEAT
    return enough and _value(one, least) < _value(other, least) * (1.0 - _SAME_SHARE)


def _violations(design: WholeDesign) -> Counter[str]:
    return Counter(
        finding.code for finding in design.findings if finding.severity == "violation" for _ in finding.places
    )
