"""What is reported about the options of a house."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..results import Finding
from .energy import coefficient_at
from .front import FrontSearch
from .house_options import Front
from .option_records import DesignOption, DesignOptionsInputs

__all__ = ["option_findings"]


def option_findings(search: FrontSearch, front: Front) -> Iterator[Finding]:
    """About the search as a whole, then about single options."""
    inputs = search.inputs
    if search.too_few_ports:
        yield Finding.at(
            "ports_too_few",
            "violation",
            "/design/limits/maximum_circuits",
            "On every supply the rooms need more circuits than the manifolds have ports, so the options have more. Add "
            "a manifold, or allow longer circuits or a higher pressure.",
        )
    if search.pump_too_small:
        yield Finding.at(
            "pump_stages_too_small",
            "violation",
            "/pump_stages",
            "No stage of the pump gives pressure and flow for all rooms, so the options are without the stages. Take "
            "a stronger pump, or allow more circuits.",
        )
    if inputs.design.doorways:
        yield Finding.at(
            "options_by_area",
            "note",
            "/design/doorways",
            "The options follow from areas and estimated tails, and drawn pipes are a little longer or shorter. Send "
            "the spacings and the supply of an option to designs to have it drawn.",
        )
    yield from _front_findings(search, front)
    yield from _money_findings(inputs, front.options)


def _front_findings(search: FrontSearch, front: Front) -> Iterator[Finding]:
    if len(front.options) == 1:
        yield Finding.at(
            "single_option",
            "note",
            "/design/limits/pipe_spacings",
            "One house beats all others, so there is nothing to weigh. Permit more spacings, supplies or coverings to "
            "see others.",
        )
    if search.supplies_left_out:
        yield Finding.at(
            "supplies_left_out",
            "note",
            "/supply_temperatures",
            "More supply temperatures change the choice of a room than can be looked at, so some between the others "
            "were left out. Give those that you want to see.",
            detail=f"{search.supplies} of {search.supplies + search.supplies_left_out}",
        )
    if front.left_out:
        yield Finding.at(
            "options_left_out",
            "note",
            "/maximum_options",
            "There are more options than asked for; those that differ most are shown. Ask for more to see the rest.",
            detail=f"{len(front.options)} of {len(front.options) + front.left_out}",
        )
    for place, option in enumerate(front.options):
        if not option.proven:
            yield Finding.at(
                "option_not_proven",
                "warning",
                f"/options/{place}",
                "The search stopped before it had proven this option to be the best of its kind. Allow more nodes to "
                "have the proof.",
                value=option.gap,
                limit=0.0,
                quantity="option_gap",
                limit_is="when proven",
                where_in="answer",
            )


def _money_findings(inputs: DesignOptionsInputs, options: Sequence[DesignOption]) -> Iterator[Finding]:
    prices = inputs.prices
    if prices is not None and not (prices.pipe or prices.circuit):
        yield Finding.at(
            "prices_are_zero",
            "warning",
            "/prices",
            "Neither pipe nor circuits cost anything, so the options use as much of them as helps. Give prices, or "
            "leave them out to count metres.",
        )
    heat_pump = inputs.heat_pump
    if heat_pump is None:
        return
    for place, option in enumerate(options):
        if coefficient_at(heat_pump, option.supply_temperature) is None:
            yield Finding.at(
                "efficiency_not_known",
                "warning",
                f"/options/{place}/supply_temperature",
                "The efficiency of the heat pump is not given for this supply, so its energy stays open. Give a curve "
                "that covers all supplies.",
                value=option.supply_temperature,
                limit=_end(
                    option.supply_temperature, [each.supply_temperature for each in heat_pump.efficiency]
                ),
                quantity="supply_temperature",
                where_in="answer",
            )


def _end(supply: float, known: Sequence[float]) -> float:
    """The end of the curve that is nearer to the supply [degC]."""
    return known[0] if supply < known[0] else known[-1]
