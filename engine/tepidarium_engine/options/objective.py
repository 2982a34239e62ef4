"""The house that has least of what was asked for: the best by area, designed completely and held to the rule.

The search is that of design-options: every supply at which a choice of a room changes, and on each the best house as a
whole. What it decides goes into the design as what is kept does; drawn pipe and heat of tails then have the last word.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from ..building.chosen_floors import ChosenFloor, floors_chosen, with_floors
from ..building.floors import KeptRoom, RoomToHeat
from ..building.objective_records import DesignObjective, Least, ObjectiveOutcome
from ..building.option_records import (
    DesignOption,
    DesignOptionsInputs,
    DesignOptionsResult,
    OptionRoom,
)
from ..building.records import DesignsInputs
from ..building.room_strips import heated_strip
from ..building.solving import first_division
from ..building.whole_design import WholeDesign
from ..errors import Fault, FaultList, InputError
from ..results import Finding, FindingPlace
from .asked_options import check_options, house_asked, house_by_area
from .front import FrontSearch
from .front_result import front_result
from .house_options import Weighed, beside, best_in, cost_of_use, evaluated, front_of
from .objective_findings import objective_findings, uneven_floors
from .objective_weighing import better, lacks_more, value_of, weighed
from .pump_stages import stage_for
from .room_variants import room_variants

__all__ = ["Aimed", "design_for"]

_MOST, _SHOWN = 40, 12
"""Options of a front: all that are any use, and those that are answered."""


_Rooms = tuple[RoomToHeat, ...]
_Designed = Callable[[DesignsInputs, Callable[[_Rooms], _Rooms]], WholeDesign]
"""A request, and what is decided for its rooms."""


@dataclass(frozen=True)
class Aimed:
    """The design that is answered, with the ``floors`` whose covering was chosen, and what is said about it."""

    design: WholeDesign
    floors: tuple[ChosenFloor, ...]
    outcome: ObjectiveOutcome
    options: DesignOptionsResult
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class _Best:
    """The best house by area; ``gap`` None where no bound is known; ``left_out``: supplies that were not looked at."""

    option: DesignOption
    proven: bool
    gap: float | None
    front: DesignOptionsResult
    left_out: int


def design_for(inputs: DesignsInputs, objective: DesignObjective, designed: _Designed) -> Aimed:
    """The best house, ``designed`` with what was decided for its rooms, floors and source; the house by the rule where
    that is no worse.

    Raises ``InputError`` for an objective that contradicts other fields or lacks prices, and as designs does.
    """
    _check(inputs, objective)
    best = _best(inputs, objective)
    by_rule = designed(inputs, lambda rooms: rooms)
    ruled = weighed(by_rule, objective, 0.0)
    if not math.isfinite(value_of(ruled, objective.least)):
        raise _not_covered(ruled.supply_temperature)
    taken, house = by_rule, ruled
    floors: tuple[ChosenFloor, ...] = ()
    chosen = floors_chosen(inputs, objective.coverings, [room.covering_option for room in best.option.rooms])
    found = _completed(with_floors(inputs, chosen), best.option, designed, ruled)
    if found is not None:
        other = weighed(found, objective, _beside_own(objective, found, best.option))
        nearer = _unmet(found, objective) - _unmet(by_rule, objective)
        if (
            nearer <= 0
            and (nearer or better(other, ruled, objective.least))
            and not _violations(found, chosen) - _violations(by_rule)
        ):
            taken, house, floors = found, other, chosen
    outcome = ObjectiveOutcome(
        least=objective.least,
        taken="rule" if taken is by_rule else "best",
        value=value_of(house, objective.least),
        value_by_rule=value_of(ruled, objective.least),
        beside_rule=beside(house, ruled),
        design_drop=taken.inputs.source.temperature_drop,
        pump_stage=stage_for(objective.pump_stages, house.pump),
        proven=best.proven,
        gap=best.gap,
        solver=best.front.solver,
    )
    found_out = (*objective_findings(objective, outcome, taken), *_left_out(best))
    return Aimed(taken, floors, outcome, best.front, found_out)


def _left_out(best: _Best) -> Iterator[Finding]:
    looked_at = best.front.supplies_considered
    if best.left_out:
        detail = f"{looked_at} of {looked_at + best.left_out}"
        yield Finding.at("supplies_left_out", "/objective", detail=detail)


def _unmet(design: WholeDesign, objective: DesignObjective) -> int:
    """How many floors are less even than asked for, and whether no stage of the pump does."""
    stages, pump = objective.pump_stages, design.solved.water.whole.pump
    return uneven_floors(design, objective) + (bool(stages) and stage_for(stages, pump) is None)


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
        temperature_drops=objective.temperature_drops,
        pump_stages=objective.pump_stages,
        coverings=objective.coverings,
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
    if number is None or not math.isfinite(value_of(ruled, objective.least)):
        raise _not_covered(ruled.supply_temperature)
    option = front[number - 1]
    shown = front_result(search, front_of(options, ruled, _SHOWN), ruled)
    if objective.least == "pump_power":  # no measure of the search: it seeks the least flow
        return _Best(option, proven=False, gap=None, front=shown, left_out=search.supplies_left_out)
    gap = _gap(options, option, objective.least)
    left_out = search.supplies_left_out
    return _Best(option, proven=gap == 0.0 and not left_out, gap=gap, front=shown, left_out=left_out)


def _not_covered(supply: float) -> InputError:
    detail = f"must cover the supplies of this house, such as the {supply:.1f} degC of the design by the rule"
    return InputError(Fault("/objective/heat_pump/efficiency", "efficiency_not_known", detail, supply))


def _placed(fault: Fault) -> Fault:
    if fault.pointer.startswith("/design"):
        return replace(fault, pointer=fault.pointer.removeprefix("/design"))
    return replace(fault, pointer=f"/objective{fault.pointer}")


def _gap(options: list[DesignOption], best: DesignOption, least: Least) -> float:
    """Share by which a house on some supply could be better than the best."""
    value = value_of(best, least)
    bound = min(
        value_of(option, least) * (1.0 - option.gap)
        for option in options
        if least != "cost_of_use" or cost_of_use(option) is not None
    )
    unproven = any(not option.proven for option in options)
    return max(0.0, 1.0 - bound / value) if unproven and value > 0.0 else 0.0


def _completed(
    inputs: DesignsInputs, option: DesignOption, designed: _Designed, ruled: Weighed
) -> WholeDesign | None:
    """The option designed completely; on the supply that serves all rooms where those that do not count for it lack
    heat, as drawn pipe gives them a little less than by area."""
    design = _designed(inputs, option, option.supply_temperature, designed)
    if design is None or not lacks_more(
        math.fsum(room.heat_missing for room in design.solved.divided), ruled
    ):
        return design
    supply = design.solved.supply
    return _designed(inputs, option, supply.for_all, designed) if supply.left_out else design


def _designed(
    inputs: DesignsInputs, option: DesignOption, supply: float, designed: _Designed
) -> WholeDesign | None:
    """On the supply [degC]; ``None`` where it cannot be designed completely."""

    def decided(rooms: _Rooms) -> _Rooms:
        return tuple(_kept(room, own, supply) for room, own in zip(rooms, option.rooms, strict=True))

    source = replace(inputs.source, temperature_drop=option.design_drop)
    try:
        design = designed(replace(inputs, source=source), decided)
        _violations(design)
    except InputError:
        return None
    return design


def _beside_own(objective: DesignObjective, design: WholeDesign, option: DesignOption) -> float:
    """Price of coverings and patterns beside those of the rooms."""
    return math.fsum(
        room.area * offered[number].price
        for room, own in zip(design.sited.house.rooms, option.rooms, strict=True)
        for offered, number in (
            (objective.coverings, own.covering_option),
            (objective.patterns, own.pattern_option),
        )
        if number is not None
    )


def _kept(room: RoomToHeat, own: OptionRoom, supply: float) -> RoomToHeat:
    """The room with what was decided for it."""
    laid = replace(room.room, pattern=own.pattern, peripheral=own.peripheral)
    return replace(
        room,
        room=laid,
        strip=heated_strip(laid, room.outline, room.area),
        kept=KeptRoom(supply, own.pipe_spacing, own.circuit_count, own.manifold),
    )


def _violations(design: WholeDesign, floors: Sequence[ChosenFloor] = ()) -> Counter[str]:
    """How often which limit is broken; a floor with another covering breaks once what its like breaks, too."""
    ids = [build_up.id for build_up in design.inputs.build_ups]
    likes = {str(ids.index(floor.build_up.id)): str(ids.index(floor.like)) for floor in floors}

    def place(one: FindingPlace) -> tuple[str, ...]:
        _, head, number, *rest = (*one.where.split("/"), "", "")
        floor = head == "build_ups"
        return (head, likes.get(number, number), *rest) if floor else (one.where_in, one.where, one.subject)

    broken = {
        (finding.code, place(one))
        for finding in design.findings
        if finding.severity == "violation"
        for one in finding.places
    }
    return Counter(code for code, _ in broken)
