"""The water side of a house: each manifold balanced by itself, all of them on one supply and one pump."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, partial
from typing import NamedTuple, TypeVar

from .. import hydraulics
from ..errors import faults_at
from ..gathering import gathered
from ..hydraulics import Circuit, CircuitHydraulics, HydraulicsInputs, HydraulicsLimits, HydraulicsResult
from ..results import Caution, Finding, FindingPlace
from ..water.duty import mixing, pump_duty
from ..water.expansion import expansion_vessel
from ..water.fluid import WaterModel, fluid_model
from ..water.frost import frost_protection
from ..water.hydraulic_findings import findings
from ..water.relations import maximum_temperature
from ..water.valves import kv_for_drop
from .records import DesignsInputs
from .supply import supply_pointer

__all__ = [
    "HouseCircuit",
    "HouseWater",
    "ManifoldWater",
    "drops_with_open_valves",
    "house_water",
    "manifold_request",
]

_Computed = TypeVar("_Computed")
_OF_MANIFOLD = ("valve_table", "valve_kv_open", "flow_meter_kv", "mains_pressure_drop")
_SAME = 1e-9
_LEAST_SET = 1000.0
"""Pressure that a balancing valve takes at least [Pa]: it is set by a measured difference, and less changes the flows
by less than the readings err (common practice, no source)."""


class HouseCircuit(NamedTuple):
    """A circuit on the manifold of this number; ``room`` is where its room stands in the request."""

    circuit: Circuit
    manifold: int
    room: str


@dataclass(frozen=True)
class ManifoldWater:
    """A manifold balanced by itself. ``balancing_pressure_drop`` [Pa]: what it needs less than the one that needs
    most; a valve with ``balancing_kv`` [m3/h] takes it, ``None`` where that is too little to be set."""

    number: int
    request: HydraulicsInputs
    result: HydraulicsResult
    balancing_pressure_drop: float
    balancing_kv: float | None


@dataclass(frozen=True)
class HouseWater:
    """``circuits`` by id; ``whole`` holds pump, mixing and volumes of the house, as ``request`` asks for them; its own
    circuits are those of all manifolds in order."""

    circuits: dict[str, CircuitHydraulics]
    request: HydraulicsInputs
    whole: HydraulicsResult
    manifolds: tuple[ManifoldWater, ...]
    cautions: tuple[Caution, ...]

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """Those about a circuit point to ``/circuits/<id>``, those about a manifold to ``/manifolds/<number>``."""
        by_manifold = [gathered(findings(each.request, each.result), each.request) for each in self.manifolds]
        of_house = by_manifold[0] if len(by_manifold) == 1 else findings(self.request, self.whole)
        return (
            *(
                finding.moved(partial(_about, manifold=manifold))
                for manifold, found in zip(self.manifolds, by_manifold, strict=True)
                for finding in found
                if finding.where.startswith("/circuits")
            ),
            *(finding for finding in of_house if not finding.where.startswith("/circuits")),
        )


def _on_manifolds(
    inputs: DesignsInputs,
    circuits: Sequence[HouseCircuit],
    supply: float,
    computed: Callable[[HydraulicsInputs], _Computed],
) -> list[tuple[int, HydraulicsInputs, _Computed]]:
    """By number of the manifold its request, and what is computed of it; faults point into the design."""
    found = []
    for number in sorted({circuit.manifold for circuit in circuits}):
        own = [circuit for circuit in circuits if circuit.manifold == number]
        request = manifold_request(inputs, number, tuple(each.circuit for each in own), supply)
        with faults_at(_places(inputs, number, own)):
            found.append((number, request, computed(request)))
    return found


def drops_with_open_valves(
    inputs: DesignsInputs, circuits: Sequence[HouseCircuit], supply: float
) -> dict[str, float]:
    """Upper bound of the pressure drop [Pa] of each circuit with its valve wide open, by id."""
    found = _on_manifolds(inputs, circuits, supply, hydraulics.drops_with_open_valves)
    return {
        circuit.id: drop
        for _, request, drops in found
        for circuit, drop in zip(request.circuits, drops, strict=True)
    }


def house_water(inputs: DesignsInputs, circuits: Sequence[HouseCircuit], supply: float) -> HouseWater:
    """All circuits on a supply temperature [degC]."""
    found = _on_manifolds(inputs, circuits, supply, hydraulics.balanced)
    requests, results = [request for _, request, _ in found], [result for _, _, result in found]
    asked, whole = (requests[0], results[0]) if len(results) == 1 else _together(requests, results)
    most = max(result.pump.pressure_best_estimate for result in results)
    return HouseWater(
        circuits={circuit.id: circuit for result in results for circuit in result.circuits},
        request=asked,
        whole=whole,
        manifolds=tuple(_manifold(*each, most) for each in found),
        cautions=tuple({caution.code: caution for result in results for caution in result.cautions}.values()),
    )


def manifold_request(
    inputs: DesignsInputs, number: int, circuits: tuple[Circuit, ...], supply: float
) -> HydraulicsInputs:
    limits, manifold = inputs.limits, inputs.all_manifolds[number]
    return HydraulicsInputs(
        pipe=inputs.pipe,
        circuits=circuits,
        supply_temperature=supply,
        temperature_drop=inputs.source.temperature_drop,
        fluid=inputs.fluid,
        valve_kv_open=manifold.valve_kv_open,
        flow_meter_kv=manifold.flow_meter_kv,
        valve_table=manifold.valve_table,
        mains_pressure_drop=manifold.mains_pressure_drop,
        primary_temperature=inputs.source.primary_temperature,
        frost_temperature=inputs.frost_temperature,
        expansion=inputs.expansion,
        limits=HydraulicsLimits(
            maximum_pressure_drop=limits.maximum_pressure_drop,
            advised_pressure_drop=min(HydraulicsLimits().advised_pressure_drop, limits.maximum_pressure_drop),
            maximum_length=limits.maximum_circuit_length,
            maximum_circuits=limits.maximum_circuits,
        ),
    )


def _places(inputs: DesignsInputs, number: int, circuits: Sequence[HouseCircuit]) -> dict[str, str]:
    """Fields of the request for those of a manifold's hydraulics."""
    manifold = inputs.manifold_pointer(number)
    return {
        **{f"/{name}": f"{manifold}/{name}" for name in _OF_MANIFOLD},
        **{f"/circuits/{place}": circuit.room for place, circuit in enumerate(circuits)},
        "/circuits": "/rooms",
        "/primary_temperature": "/source/primary_temperature",
        "/supply_temperature": supply_pointer(inputs.source),
        "/temperature_drop": "/source/temperature_drop",
        "/limits/maximum_length": "/limits/maximum_circuit_length",
    }


def _together(
    requests: list[HydraulicsInputs], results: list[HydraulicsResult]
) -> tuple[HydraulicsInputs, HydraulicsResult]:
    """Manifolds side by side on one pump: flows add up, the manifold that needs most decides the pressure."""
    inputs = replace(
        requests[0], circuits=tuple(circuit for request in requests for circuit in request.circuits)
    )
    model = fluid_model(inputs.fluid)
    circuits = tuple(circuit for result in results for circuit in result.circuits)
    deciding = max(results, key=lambda result: result.pump.pressure_best_estimate)
    mass_flow = math.fsum(circuit.mass_flow for circuit in circuits)
    volume_flow = math.fsum(circuit.volume_flow for circuit in circuits)
    back = math.fsum(circuit.mass_flow * circuit.return_temperature for circuit in circuits) / mass_flow
    volume = math.fsum(circuit.water_content for circuit in circuits) + inputs.expansion.additional_volume
    frost = inputs.frost_temperature
    return inputs, replace(
        deciding,
        circuits=circuits,
        mass_flow=mass_flow,
        volume_flow=volume_flow,
        heat_flow=math.fsum(circuit.heat_flow for circuit in circuits),
        return_temperature=back,
        system_volume=volume,
        pump=pump_duty(
            volume_flow,
            mass_flow / volume_flow,
            max(result.pump.pressure for result in results),
            deciding.pump.pressure_best_estimate,
        ),
        mixing=mixing(inputs.supply_temperature, back, inputs.primary_temperature, mass_flow, model),
        expansion_vessel=expansion_vessel(volume, maximum_temperature(inputs), inputs.expansion, model),
        frost_protection=None if frost is None else frost_protection(inputs.fluid, model, frost, volume),
    )


def _about(place: FindingPlace, manifold: ManifoldWater) -> FindingPlace:
    """Circuits by their ids: in the house they come in another order."""
    _, _, *rest = place.where.split("/")
    if not rest:
        return replace(place, where=f"/manifolds/{manifold.number}")
    return replace(place, where=f"/circuits/{manifold.result.circuits[int(rest[0])].id}")


def _manifold(number: int, request: HydraulicsInputs, result: HydraulicsResult, most: float) -> ManifoldWater:
    spare = most - result.pump.pressure_best_estimate
    if spare <= _SAME * most:
        return ManifoldWater(number, request, result, 0.0, None)
    density = result.mass_flow / result.volume_flow
    relative = 1.0 if request.fluid.kind == "water" else density / float(WaterModel().density(20.0))
    kv = kv_for_drop(result.volume_flow, spare, relative) if spare >= _LEAST_SET else None
    return ManifoldWater(number, request, result, spare, kv)
