"""The circuits of one manifold: at their design flows, balanced, and with all valves open."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from ..pipe import Pipe
from .bends import counted_coefficients
from .fluid import FluidModel, WaterModel, fluid_model
from .friction import regime
from .inputs import Circuit, HydraulicsInputs
from .network import Branch, flow_at_pressure, flows_with_total
from .result import CircuitHydraulics, OpenFlow, OpenValves
from .valves import kv_for_drop, resistance, setting_for_kv

__all__ = ["USUAL_VALVE_KV", "BalancedManifold", "balance", "mixed_return", "open_valve_kv"]

USUAL_VALVE_KV = 1.1
"""kv [m3/h] of an open manifold valve with flow meter and return valve (common practice, no source)."""


class _Flow(NamedTuple):
    """One circuit at its design flow, before balancing."""

    circuit: Circuit
    pipe: Pipe
    branch: Branch
    drop: float
    mean: float
    density: float
    heat_capacity: float
    viscosity: float
    relative_density: float
    kv_open: float
    mass_flow: float
    volume_flow: float
    friction: float
    friction_upper: float

    @property
    def pipe_drop(self) -> float:
        return self.branch.pipe_drop(self.volume_flow, self.friction)

    @property
    def upper_drop(self) -> float:
        return self.branch.pipe_drop(self.volume_flow, self.friction_upper)

    @property
    def fixed_drop(self) -> float:
        return self.branch.fixed_resistance * self.volume_flow**2

    @property
    def open_drop(self) -> float:
        return self.branch.open_resistance * self.volume_flow**2


class BalancedManifold(NamedTuple):
    """``pressure`` [Pa] is that of the index circuit with its valve open, ``pressure_upper`` [Pa] the most that any
    circuit needs with its valve open when friction is at its upper bound."""

    circuits: tuple[CircuitHydraulics, ...]
    index: int
    pressure: float
    pressure_upper: float
    open_valves: OpenValves


def open_valve_kv(inputs: HydraulicsInputs, circuit: Circuit | None = None) -> float:
    """kv [m3/h] of a wide open presetting valve: the circuit's, the manifold's, the table's or the usual one."""
    if circuit is not None and circuit.valve_kv_open is not None:
        return circuit.valve_kv_open
    if inputs.valve_kv_open is not None:
        return inputs.valve_kv_open
    return inputs.valve_table[-1].kv if inputs.valve_table else USUAL_VALVE_KV


def balance(inputs: HydraulicsInputs) -> BalancedManifold:
    """Flows, drops and valve settings of all circuits.

    The circuit that loses most with its valve open is the index circuit and keeps it open; the valve of every
    other circuit takes the difference. Settings use Churchill's friction throughout (one method for all).
    """
    model = fluid_model(inputs.fluid)
    flows = [_design_flow(inputs, circuit, model) for circuit in inputs.circuits]
    totals = [flow.pipe_drop + flow.fixed_drop + flow.open_drop for flow in flows]
    pressure = max(totals)
    index = totals.index(pressure)
    same_pressure = [flow_at_pressure(flow.branch, pressure, flow.volume_flow) for flow in flows]
    design = [flow.volume_flow for flow in flows]
    lower, same_total = flows_with_total([flow.branch for flow in flows], math.fsum(design), pressure, design)
    circuits = tuple(
        _balanced(inputs, flow, pressure, number == index, same_pressure[number], same_total[number])
        for number, flow in enumerate(flows)
    )
    return BalancedManifold(
        circuits,
        index,
        pressure,
        max(flow.upper_drop + flow.fixed_drop + flow.open_drop for flow in flows),
        OpenValves(
            same_flow_pressure=lower,
            same_pressure_mass_flow=math.fsum(circuit.open_same_pressure.mass_flow for circuit in circuits),
        ),
    )


def _design_flow(inputs: HydraulicsInputs, circuit: Circuit, model: FluidModel) -> _Flow:
    pipe = circuit.pipe or inputs.pipe
    drop = inputs.temperature_drop if circuit.temperature_drop is None else circuit.temperature_drop
    mean = inputs.supply_temperature - drop / 2.0
    density, heat_capacity = float(model.density(mean)), float(model.heat_capacity(mean))
    viscosity = float(model.dynamic_viscosity(mean))
    mass_flow = circuit.mass_flow
    if mass_flow is None:
        assert circuit.heat_flow is not None
        mass_flow = circuit.heat_flow / (heat_capacity * drop)
    water = inputs.fluid.kind == "water"
    relative_density = 1.0 if water else density / float(WaterModel().density(mean))
    kv_open = open_valve_kv(inputs, circuit)
    branch = _branch(inputs, circuit, pipe, density, viscosity, relative_density, kv_open)
    volume_flow = mass_flow / density
    friction, upper = branch.friction(volume_flow)
    return _Flow(
        circuit, pipe, branch, drop, mean, density, heat_capacity, viscosity, relative_density, kv_open,
        mass_flow, volume_flow, friction, upper,
    )  # fmt: skip


def _branch(
    inputs: HydraulicsInputs,
    circuit: Circuit,
    pipe: Pipe,
    density: float,
    viscosity: float,
    relative_density: float,
    kv_open: float,
) -> Branch:
    bore = pipe.bore
    per_area = 4.0 / (math.pi * bore * bore)
    straight = circuit.length / bore
    if circuit.bends is None:
        allowance = inputs.bend_allowance if circuit.bend_allowance is None else circuit.bend_allowance
        constant, per_friction = 0.0, straight * (1.0 + allowance)
    else:
        constant, factor = counted_coefficients(circuit.bends, pipe)
        per_friction = straight + factor
    meter = inputs.flow_meter_kv
    return Branch(
        reynolds_per_flow=density * per_area * bore / viscosity,
        relative_roughness=pipe.roughness / bore,
        dynamic=density / 2.0 * per_area * per_area,
        loss_constant=constant,
        loss_per_friction=per_friction,
        fixed_resistance=0.0 if meter is None else resistance(meter, relative_density),
        open_resistance=resistance(kv_open, relative_density),
    )


def _balanced(
    inputs: HydraulicsInputs,
    flow: _Flow,
    pressure: float,
    is_index: bool,
    same_pressure: float,
    same_total: float,
) -> CircuitHydraulics:
    pipe_drop, open_drop = flow.pipe_drop, flow.open_drop
    valve = open_drop if is_index else pressure - pipe_drop - flow.fixed_drop
    kv = flow.kv_open if is_index else kv_for_drop(flow.volume_flow, valve, flow.relative_density)
    reynolds = flow.branch.reynolds_per_flow * flow.volume_flow
    bore = flow.pipe.bore
    velocity = 4.0 * flow.volume_flow / (math.pi * bore * bore)
    return CircuitHydraulics(
        id=flow.circuit.id,
        heat_flow=flow.mass_flow * flow.heat_capacity * flow.drop,
        mass_flow=flow.mass_flow,
        volume_flow=flow.volume_flow,
        temperature_drop=flow.drop,
        return_temperature=inputs.supply_temperature - flow.drop,
        mean_temperature=flow.mean,
        density=flow.density,
        heat_capacity=flow.heat_capacity,
        dynamic_viscosity=flow.viscosity,
        velocity=velocity,
        reynolds=reynolds,
        regime=regime(reynolds),
        friction_factor=flow.friction,
        friction_factor_upper=flow.friction_upper,
        pressure_gradient=flow.friction / bore * flow.density / 2.0 * velocity * velocity,
        pressure_drop=pipe_drop,
        pressure_drop_upper=flow.upper_drop,
        fixed_pressure_drop=flow.fixed_drop,
        open_valve_pressure_drop=open_drop,
        valve_pressure_drop=valve,
        total_pressure_drop=pipe_drop + flow.fixed_drop + valve,
        valve_kv=kv,
        valve_setting=setting_for_kv(inputs.valve_table, kv) if inputs.valve_table else None,
        valve_authority=open_drop / (pipe_drop + flow.fixed_drop + open_drop),
        water_content=flow.circuit.length * flow.pipe.water_content,
        open_same_pressure=_open_flow(flow, same_pressure),
        open_same_flow=_open_flow(flow, same_total),
    )


def _open_flow(flow: _Flow, volume_flow: float) -> OpenFlow:
    ratio = volume_flow / flow.volume_flow
    return OpenFlow(volume_flow * flow.density, ratio, flow.drop / ratio)


def mixed_return(circuits: Sequence[CircuitHydraulics]) -> float:
    """Temperature [degC] of all returns together: the mean weighted by mass flow."""
    total = math.fsum(circuit.mass_flow for circuit in circuits)
    return math.fsum(circuit.mass_flow * circuit.return_temperature for circuit in circuits) / total
