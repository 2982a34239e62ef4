"""The sums of each option, to be done again by hand."""

from __future__ import annotations

from collections.abc import Iterator

from ..building.option_records import DesignOption, DesignOptionsInputs, DesignOptionsResult, OptionPrices
from ..results import Working

__all__ = ["option_workings"]


def option_workings(inputs: DesignOptionsInputs, result: DesignOptionsResult) -> tuple[Working, ...]:
    return tuple(
        working
        for place, option in enumerate(result.options)
        for working in _of_option(inputs, option, f"_{place}", f"option {place}")
    )


def _of_option(inputs: DesignOptionsInputs, option: DesignOption, mark: str, name: str) -> Iterator[Working]:
    yield Working(
        f"theta_V{mark}",
        f"Supply temperature of {name}",
        option.supply_temperature,
        "degC",
        "a supply asked for, or the one at which a spacing of a room gives its heat",
        "EN 1264-3, dimensioning",
    )
    yield Working(
        f"L{mark}",
        f"Pipe of {name}",
        option.pipe_length,
        "m",
        "sum over rooms and circuits of field and both tails",
        "geometry",
    )
    yield Working(
        f"P{mark}",
        f"Pump power of {name}",
        option.pump.hydraulic_power,
        "W",
        "volume flow x pressure",
        "mechanics of fluids",
    )
    if option.material_cost is not None:
        prices = inputs.prices or OptionPrices()
        yield Working(
            f"C{mark}",
            f"Material of {name}",
            option.material_cost,
            "1",
            f"{prices.pipe:g} L + {prices.circuit:g} x {option.circuit_count} circuits + coverings x area",
            "prices as given",
        )
    yield from _of_energy(inputs, option, mark, name)


def _of_energy(inputs: DesignOptionsInputs, option: DesignOption, mark: str, name: str) -> Iterator[Working]:
    energy, heat_pump = option.energy, inputs.heat_pump
    if energy is None or heat_pump is None:
        return
    yield Working(
        f"COP{mark}",
        f"Heat over electricity of {name}",
        energy.coefficient_of_performance,
        "1",
        "straight line between the lines of the curve",
        "the curve as given",
    )
    yield Working(
        f"E{mark}",
        f"Electricity of a year with {name}",
        energy.electricity,
        "kWh",
        f"{energy.heating_energy:.6g} kWh / COP{mark}",
        "definition of the coefficient of performance",
    )
    if energy.cost_of_use is not None:
        yield Working(
            f"K{mark}",
            f"Material and {heat_pump.years:g} years of electricity of {name}",
            energy.cost_of_use,
            "1",
            f"C{mark} + {heat_pump.years:g} x {heat_pump.electricity_price:g} x E{mark}",
            "prices as given, without interest",
        )
