"""Flows, pressure drops, balancing, pump, mixing and expansion of the circuits of one manifold.

Sources: Churchill 1977 and Colebrook 1939 (friction), Rennels and Hudson 2012 (bends), IEC 60534-2-1 (kv),
EN 12828 (expansion vessel); fluids as named in ``water.fluid`` and ``water.coefficients``.
"""

from __future__ import annotations

import math
from dataclasses import replace

from .cautions import water_cautions
from .checking import check
from .gathering import gathered
from .results import Working
from .water.duty import mixing, pump_duty
from .water.expansion import expansion_vessel
from .water.frost import frost_protection
from .water.hydraulic_findings import findings
from .water.hydraulic_workings import hydraulic_workings
from .water.inputs import (
    Circuit,
    CountedBends,
    Expansion,
    Fluid,
    HydraulicsInputs,
    HydraulicsLimits,
    ValveSetting,
)
from .water.manifold import balance, design_flows, mixed_return
from .water.relations import check_relations, maximum_temperature
from .water.result import (
    CircuitHydraulics,
    ExpansionVessel,
    FrostProtection,
    HydraulicsResult,
    Mixing,
    OpenFlow,
    OpenValves,
    Pump,
)

__all__ = [
    "Circuit",
    "CircuitHydraulics",
    "CountedBends",
    "Expansion",
    "ExpansionVessel",
    "Fluid",
    "FrostProtection",
    "HydraulicsInputs",
    "HydraulicsLimits",
    "HydraulicsResult",
    "Mixing",
    "OpenFlow",
    "OpenValves",
    "Pump",
    "ValveSetting",
    "balanced",
    "calculate",
    "drops_with_open_valves",
    "workings",
]


def calculate(inputs: HydraulicsInputs) -> HydraulicsResult:
    """The manifold balanced at its design flows; see the records for units.

    The pump is sized with the upper bound of friction in the transition zone. Raises ``InputError`` for what
    ``water.relations`` refuses: circuits with both or neither of heat and mass flow, a name used twice, a
    pipe without bore, a fluid outside its published range or frozen, a valve table that does not rise, a
    primary no warmer than a return, a vessel without room between its pressures.
    """
    result = balanced(inputs)
    return replace(result, findings=gathered(findings(inputs, result), inputs))


def drops_with_open_valves(inputs: HydraulicsInputs) -> list[float]:
    """Upper bound of the pressure drop [Pa] of each circuit with its valve wide open. Raises ``InputError`` as
    ``calculate``."""
    check(inputs)
    return [flow.upper_whole_drop for flow in design_flows(inputs, check_relations(inputs))]


def balanced(inputs: HydraulicsInputs) -> HydraulicsResult:
    """``calculate`` without findings."""
    check(inputs)
    model = check_relations(inputs)
    manifold = balance(inputs, model)
    circuits = manifold.circuits
    mass_flow = math.fsum(circuit.mass_flow for circuit in circuits)
    volume_flow = math.fsum(circuit.volume_flow for circuit in circuits)
    back = mixed_return(circuits)
    outside = inputs.manifold_pressure_drop + inputs.mains_pressure_drop
    volume = math.fsum(circuit.water_content for circuit in circuits) + inputs.expansion.additional_volume
    frost = inputs.frost_temperature
    return HydraulicsResult(
        circuits=circuits,
        index_circuit=circuits[manifold.index_position].id,
        manifold_pressure=manifold.pressure,
        mass_flow=mass_flow,
        volume_flow=volume_flow,
        heat_flow=math.fsum(circuit.heat_flow for circuit in circuits),
        return_temperature=back,
        system_volume=volume,
        freezing_point=model.freezing_point,
        pump=pump_duty(
            volume_flow,
            mass_flow / volume_flow,
            manifold.pressure_upper + outside,
            manifold.pressure + outside,
        ),
        open_valves=manifold.open_valves,
        mixing=mixing(inputs.supply_temperature, back, inputs.primary_temperature, mass_flow, model),
        expansion_vessel=expansion_vessel(volume, maximum_temperature(inputs), inputs.expansion, model),
        frost_protection=None if frost is None else frost_protection(inputs.fluid, model, frost, volume),
        findings=(),
        cautions=water_cautions(glycol=inputs.fluid.kind != "water"),
    )


def workings(inputs: HydraulicsInputs, result: HydraulicsResult) -> tuple[Working, ...]:
    """The chain from each circuit's heat to its valve, and on to pump, mixing and vessel."""
    return hydraulic_workings(inputs, result)
