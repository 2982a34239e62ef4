"""Relations between the inputs of the hydraulics that make them impossible."""

from __future__ import annotations

from ..errors import FaultList
from ..pipe import check_pipe
from .coefficients import GLYCOLS
from .expansion import final_pressure, precharge
from .fluid import MAXIMUM_TEMPERATURE, fluid_model
from .frost import HIGHEST_CONCENTRATION
from .inputs import Circuit, Fluid, HydraulicsInputs

__all__ = ["check_relations", "maximum_temperature"]


def maximum_temperature(inputs: HydraulicsInputs) -> float:
    """Highest temperature [degC] the fluid can reach: the one given, else the warmer of supply and primary."""
    if inputs.expansion.maximum_temperature is not None:
        return inputs.expansion.maximum_temperature
    return max(inputs.supply_temperature, inputs.primary_temperature or inputs.supply_temperature)


def check_relations(inputs: HydraulicsInputs) -> None:
    """Raise ``InputError`` with every contradiction found; temperatures are checked once the fluid is known."""
    faults = FaultList()
    check_pipe(inputs.pipe, "/pipe", faults)
    _check_fluid(inputs.fluid, faults)
    _check_valve_table(inputs, faults)
    ids = [circuit.id for circuit in inputs.circuits]
    first_place = {name: place for place, name in reversed(list(enumerate(ids)))}
    for place, circuit in enumerate(inputs.circuits):
        _check_circuit(circuit, f"/circuits/{place}", faults)
        faults.require(
            first_place[circuit.id] == place,
            f"/circuits/{place}/id",
            "not_unique",
            "another circuit has the same id",
        )
    faults.raise_if_any()
    _check_temperatures(inputs, faults)
    faults.raise_if_any()
    _check_vessel(inputs, faults)
    faults.raise_if_any()


def _check_fluid(fluid: Fluid, faults: FaultList) -> None:
    where = "/fluid/concentration"
    if fluid.kind == "water":
        faults.require(
            fluid.concentration == 0.0,
            where,
            "water_is_pure",
            "water has no concentration; name the glycol",
            0.0,
        )
        return
    least = GLYCOLS[fluid.kind, fluid.basis].minimum_concentration
    faults.require(
        least <= fluid.concentration <= HIGHEST_CONCENTRATION,
        where,
        "outside_published_range",
        f"the properties by {fluid.basis} are published for {least:g} to {HIGHEST_CONCENTRATION:g}",
        least if fluid.concentration < least else HIGHEST_CONCENTRATION,
    )


def _check_circuit(circuit: Circuit, where: str, faults: FaultList) -> None:
    faults.require(
        (circuit.heat_flow is None) != (circuit.mass_flow is None),
        f"{where}/heat_flow" if circuit.heat_flow is None else f"{where}/mass_flow",
        "one_of",
        "give exactly one of heat_flow and mass_flow",
    )
    faults.require(
        circuit.bends is None or circuit.bend_allowance is None,
        f"{where}/bend_allowance",
        "one_of",
        "counted bends replace the allowance; do not give both",
    )
    if circuit.pipe is not None:
        check_pipe(circuit.pipe, f"{where}/pipe", faults)


def _check_valve_table(inputs: HydraulicsInputs, faults: FaultList) -> None:
    for place, (low, high) in enumerate(zip(inputs.valve_table, inputs.valve_table[1:], strict=False)):
        faults.require(
            low.setting < high.setting and low.kv < high.kv,
            f"/valve_table/{place + 1}",
            "not_rising",
            "settings and kv must rise from line to line",
        )


def _check_temperatures(inputs: HydraulicsInputs, faults: FaultList) -> None:
    freezing = fluid_model(inputs.fluid).freezing_point
    if not faults.require(
        freezing < inputs.supply_temperature <= MAXIMUM_TEMPERATURE,
        "/supply_temperature",
        "fluid_not_liquid",
        f"the fluid is computed between its freezing point of {freezing:.1f} and {MAXIMUM_TEMPERATURE:g} degC",
        freezing if inputs.supply_temperature <= freezing else MAXIMUM_TEMPERATURE,
    ):
        return
    greatest = inputs.supply_temperature - freezing
    drops = [("/temperature_drop", inputs.temperature_drop)] + [
        (f"/circuits/{place}/temperature_drop", circuit.temperature_drop)
        for place, circuit in enumerate(inputs.circuits)
        if circuit.temperature_drop is not None
    ]
    for where, drop in drops:
        faults.require(
            drop < greatest,
            where,
            "return_frozen",
            "the return would lie below the fluid's freezing point",
            greatest,
        )
    if inputs.primary_temperature is not None:
        warmest = max(inputs.supply_temperature - drop for _, drop in drops)
        faults.require(
            warmest < inputs.primary_temperature <= MAXIMUM_TEMPERATURE,
            "/primary_temperature",
            "primary_out_of_range",
            f"must be above the warmest return of {warmest:.1f} degC and at most {MAXIMUM_TEMPERATURE:g} degC",
            warmest,
        )
    expansion = inputs.expansion
    for name in ("fill_temperature", "maximum_temperature"):
        value: float | None = getattr(expansion, name)
        faults.require(
            value is None or freezing <= value <= MAXIMUM_TEMPERATURE,
            f"/expansion/{name}",
            "fluid_not_liquid",
            f"must lie between the freezing point of {freezing:.1f} and {MAXIMUM_TEMPERATURE:g} degC",
            freezing,
        )
    faults.require(
        expansion.maximum_temperature is None or expansion.maximum_temperature > expansion.fill_temperature,
        "/expansion/maximum_temperature",
        "below_fill_temperature",
        "the fluid must be able to get warmer than when it was filled",
        expansion.fill_temperature,
    )


def _drop(inputs: HydraulicsInputs, circuit: Circuit) -> float:
    return inputs.temperature_drop if circuit.temperature_drop is None else circuit.temperature_drop


def _check_vessel(inputs: HydraulicsInputs, faults: FaultList) -> None:
    expansion = inputs.expansion
    gas = precharge(expansion, fluid_model(inputs.fluid))
    final = final_pressure(expansion.safety_valve_pressure)
    faults.require(
        gas < final,
        "/expansion/precharge_pressure"
        if expansion.precharge_pressure is not None
        else "/expansion/static_height",
        "no_room_for_vessel",
        f"the precharge of {gas:.0f} Pa must be below the final pressure of {final:.0f} Pa that the safety valve "
        "leaves",
        final,
    )
