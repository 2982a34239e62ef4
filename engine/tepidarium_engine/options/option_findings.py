"""What is reported about the options of a house."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from ..building.option_records import (
    CoveringOption,
    DesignOption,
    DesignOptionsInputs,
    OptionPrices,
    PatternOption,
)
from ..ordering.coil_records import CUTTING_ALLOWANCE
from ..results import Finding
from .energy import coefficient_at
from .front import FrontSearch
from .house_options import Front

__all__ = ["free_of_cost", "option_findings"]


def option_findings(search: FrontSearch, front: Front) -> Iterator[Finding]:
    """About the search as a whole, then about single options."""
    inputs = search.inputs
    if search.too_few_ports:
        yield Finding.at(
            "ports_too_few",
            "/design/limits/maximum_circuits",
        )
    if search.pump_too_small:
        yield Finding.at(
            "pump_stages_too_small",
            "/pump_stages",
        )
    if inputs.design.doorways:
        yield Finding.at(
            "options_by_area",
            "/design/doorways",
        )
    if inputs.patterns and inputs.maximum_surface_range is None:
        yield Finding.at("patterns_alike", "/patterns")
    yield from _front_findings(search, front)
    yield from _uneven(inputs, front.options)
    yield from _too_long(inputs, front.options)
    yield from _money_findings(inputs, front.options)


def _front_findings(search: FrontSearch, front: Front) -> Iterator[Finding]:
    if len(front.options) == 1:
        yield Finding.at(
            "single_option",
            "/design/limits/pipe_spacings",
        )
    if search.supplies_left_out:
        yield Finding.at(
            "supplies_left_out",
            "/supply_temperatures",
            detail=f"{search.supplies} of {search.supplies + search.supplies_left_out}",
        )
    if front.left_out:
        yield Finding.at(
            "options_left_out",
            "/maximum_options",
            detail=f"{len(front.options)} of {len(front.options) + front.left_out}",
        )
    for place, option in enumerate(front.options):
        if not option.proven:
            yield Finding.at(
                "option_not_proven" if option.coils is None else "coils_not_proven",
                f"/options/{place}",
                value=option.gap,
                limit=0.0,
                quantity="option_gap",
                limit_is="when proven",
                where_in="answer",
            )


def _uneven(inputs: DesignOptionsInputs, options: Sequence[DesignOption]) -> Iterator[Finding]:
    """Rooms that no permitted choice makes even enough."""
    most = inputs.maximum_surface_range
    for place, option in enumerate(options):
        for number, room in enumerate(option.rooms):
            if most is not None and room.surface_range > most:
                yield Finding.at(
                    "floor_not_even",
                    f"/options/{place}/rooms/{number}",
                    value=room.surface_range,
                    limit=most,
                    source="EN 1264-2, basic characteristic curve",
                    quantity="surface_range",
                    where_in="answer",
                    subject=f"{room.name or room.id}, option {option.number}",
                )


def _too_long(inputs: DesignOptionsInputs, options: Sequence[DesignOption]) -> Iterator[Finding]:
    """Circuits that no coil holds."""
    coils = () if inputs.prices is None else inputs.prices.coils
    longest = max((coil.length for coil in coils), default=math.inf) - 2.0 * CUTTING_ALLOWANCE
    for place, option in enumerate(options):
        for number, room in enumerate(option.rooms):
            if room.circuit_length > longest:
                yield Finding.at(
                    "circuit_longer_than_coils",
                    f"/options/{place}/rooms/{number}/circuit_length",
                    value=room.circuit_length,
                    limit=longest,
                    quantity="circuit_length",
                    where_in="answer",
                    subject=f"{room.name or room.id}, option {option.number}",
                )


def _money_findings(inputs: DesignOptionsInputs, options: Sequence[DesignOption]) -> Iterator[Finding]:
    if free_of_cost(inputs.prices, (*inputs.coverings, *inputs.patterns)):
        yield Finding.at(
            "prices_are_zero",
            "/prices",
        )
    heat_pump = inputs.heat_pump
    if heat_pump is None:
        return
    for place, option in enumerate(options):
        if coefficient_at(heat_pump.efficiency, option.supply_temperature) is None:
            yield Finding.at(
                "efficiency_not_known",
                f"/options/{place}/supply_temperature",
                value=option.supply_temperature,
                limit=_end(
                    option.supply_temperature, [each.supply_temperature for each in heat_pump.efficiency]
                ),
                quantity="supply_temperature",
                where_in="answer",
            )


def free_of_cost(prices: OptionPrices | None, chosen: Sequence[CoveringOption | PatternOption]) -> bool:
    """Whether money is counted, and neither pipe nor circuits cost any: where only coverings or patterns have a price,
    too."""
    if prices is None:
        return any(option.price for option in chosen)
    return not (prices.pipe or prices.circuit or any(coil.coil_price for coil in prices.coils))


def _end(supply: float, known: Sequence[float]) -> float:
    """The end of the curve that is nearer to the supply [degC]."""
    return known[0] if supply < known[0] else known[-1]
