"""What makes the hydraulic inputs impossible, beyond the range of each number."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from ..errors import FaultList
from ..pipe import check_pipe
from .coefficients import GLYCOLS
from .expansion import final_pressure, precharge
from .fluid import FluidModel, fluid_model
from .inputs import Circuit, Fluid, HydraulicsInputs, ValveSetting

__all__ = ["LOWEST_TEMPERATURE", "check_fluid", "check_relations", "circuit_drop", "maximum_temperature"]

LOWEST_TEMPERATURE = -35.0
"""Lower end of the published property sets by volume [degC]."""

_LEAST_DIFFERENCE = 0.01
"""Least temperature of the source above the return [K] at which a mixing share makes sense."""


def check_relations(inputs: HydraulicsInputs) -> FluidModel:
    """The fluid's model; ``InputError`` with every relation that does not hold."""
    faults = FaultList()
    check_pipe(inputs.pipe, "/pipe", faults)
    _check_valve_table(inputs.valve_table, faults)
    _check_open_kv(inputs.valve_kv_open, inputs.valve_table, "/valve_kv_open", faults)
    seen: dict[str, int] = {}
    for place, circuit in enumerate(inputs.circuits):
        first = seen.setdefault(circuit.id, place)
        if first != place:
            faults.add(f"/circuits/{place}/id", "not_unique", f"is also the name of circuit {first}")
        _check_circuit(circuit, inputs.valve_table, f"/circuits/{place}", faults)
    check_fluid(inputs.fluid, faults)
    faults.raise_if_any()
    model = fluid_model(inputs.fluid)
    _check_returns(inputs, model, faults)
    _check_expansion(inputs, model, faults)
    faults.raise_if_any()
    return model


def circuit_drop(inputs: HydraulicsInputs, circuit: Circuit) -> float:
    """Temperature drop [K] of a circuit: its own, or that of the manifold."""
    return inputs.temperature_drop if circuit.temperature_drop is None else circuit.temperature_drop


def maximum_temperature(inputs: HydraulicsInputs) -> float:
    """Highest temperature that the fluid can reach [degC]: as given, or the highest that is known."""
    if inputs.expansion.maximum_temperature is not None:
        return inputs.expansion.maximum_temperature
    known = (inputs.supply_temperature, inputs.primary_temperature, inputs.expansion.fill_temperature)
    return max(temperature for temperature in known if temperature is not None)


def _check_circuit(circuit: Circuit, table: Sequence[ValveSetting], where: str, faults: FaultList) -> None:
    if (circuit.heat_flow is None) == (circuit.mass_flow is None):
        name = "heat_flow" if circuit.heat_flow is None else "mass_flow"
        faults.add(f"{where}/{name}", "one_of", "give exactly one of heat_flow and mass_flow")
    if circuit.bends is not None and circuit.bend_allowance is not None:
        detail = "counted bends replace the allowance; do not give both"
        faults.add(f"{where}/bend_allowance", "one_of", detail)
    if circuit.pipe is not None:
        check_pipe(circuit.pipe, f"{where}/pipe", faults)
    if circuit.valve_kv_open is not None:
        _check_open_kv(circuit.valve_kv_open, table, f"{where}/valve_kv_open", faults)


def _check_open_kv(kv: float | None, table: Sequence[ValveSetting], where: str, faults: FaultList) -> None:
    if kv is not None and table and not table[0].kv <= kv <= table[-1].kv:
        detail = "must lie within the flow coefficients of valve_table"
        faults.add(where, "outside_valve_table", detail, table[-1].kv)


def _check_valve_table(table: Sequence[ValveSetting], faults: FaultList) -> None:
    faults.require(len(table) != 1, "/valve_table", "too_few", "must have at least 2 lines, or none", 2)
    for place, (low, high) in enumerate(pairwise(table), start=1):
        for name in ("setting", "kv"):
            least: float = getattr(low, name)
            if not getattr(high, name) > least:
                where = f"/valve_table/{place}/{name}"
                faults.add(where, "not_rising", "must be above that of the line before", least)


def check_fluid(fluid: Fluid, faults: FaultList) -> None:
    """Kind, basis and concentration of ``/fluid`` must fit together."""
    data = GLYCOLS.get((fluid.kind, fluid.basis))
    least = 0.0 if data is None else data.minimum_concentration
    faults.require(
        fluid.concentration == 0.0 if data is None else fluid.concentration >= least,
        "/fluid/concentration",
        "water_is_pure" if data is None else "outside_published_range",
        "must be 0 with water; or name a glycol as kind"
        if data is None
        else f"must be at least {least:g} by {fluid.basis}, where the published properties begin",
        least,
    )


def _check_returns(inputs: HydraulicsInputs, model: FluidModel, faults: FaultList) -> None:
    """Every return above freezing, and the source above every return."""
    least = max(model.freezing_point, LOWEST_TEMPERATURE)
    supply, warmest = inputs.supply_temperature, -float("inf")
    for place, circuit in enumerate(inputs.circuits):
        returned = supply - circuit_drop(inputs, circuit)
        warmest = max(warmest, returned)
        if returned <= least:
            own = circuit.temperature_drop is not None and supply > least
            faults.add(
                f"/circuits/{place}/temperature_drop" if own else "/supply_temperature",
                "fluid_frozen",
                f"the return of circuit {place} must be above {least:.2f} °C, where the fluid freezes",
                supply - least if own else least,
            )
    if inputs.primary_temperature is not None:
        faults.require(
            inputs.primary_temperature >= warmest + _LEAST_DIFFERENCE,
            "/primary_temperature",
            "primary_below_return",
            f"must be above the warmest return of {warmest:.2f} °C",
            warmest + _LEAST_DIFFERENCE,
        )


def _check_expansion(inputs: HydraulicsInputs, model: FluidModel, faults: FaultList) -> None:
    expansion = inputs.expansion
    faults.require(
        expansion.fill_temperature > model.freezing_point,
        "/expansion/fill_temperature",
        "fluid_frozen",
        "must be above the freezing point of the fluid",
        model.freezing_point,
    )
    floor = max(inputs.supply_temperature, expansion.fill_temperature)
    faults.require(
        maximum_temperature(inputs) >= floor,
        "/expansion/maximum_temperature",
        "below_supply",
        "must not be below supply_temperature and fill_temperature",
        floor,
    )
    gas, final = precharge(expansion, model), final_pressure(expansion.safety_valve_pressure)
    faults.require(
        gas < final,
        "/expansion/safety_valve_pressure",
        "no_room_for_expansion",
        f"leaves {final:.0f} Pa to work at, which must be above the vessel's precharge of {gas:.0f} Pa",
        gas,
    )
