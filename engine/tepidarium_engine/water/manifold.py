"""The circuits of one manifold: at their design flows, balanced, and with all valves open."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from ..pipe import Pipe
from .bends import counted_coefficients
from .fluid import FluidModel, WaterModel
from .friction import regime
from .inputs import Circuit, HydraulicsInputs
from .network import Branch, open_flows
from .relations import circuit_drop
from .result import CircuitHydraulics, OpenFlow, OpenValves
from .valves import kv_for_drop, resistance, setting_for_kv

__all__ = [
    "USUAL_VALVE_KV",
    "BalancedManifold",
    "DesignFlow",
    "balance",
    "design_flows",
    "mixed_return",
    "open_valve_kv",
]

USUAL_VALVE_KV = 1.1
"""kv [m3/h] of an open manifold valve with flow meter and return valve (common practice, no source)."""

_USUAL_RISE = 0.55
"""Flow goes about with this power of the pressure drop: a start for the search, without effect on what is found."""
_WATER_DENSITY = float(WaterModel().density(20.0))
"""The water that valves are measured with [kg/m3]."""


class _State(NamedTuple):
    """The fluid at a circuit's mean temperature."""

    temperature: float
    density: float
    heat_capacity: float
    viscosity: float
    relative_density: float


@dataclass(slots=True)
class DesignFlow:
    """One circuit at its design flow, before balancing; drops [Pa]."""

    circuit: Circuit
    pipe: Pipe
    branch: Branch
    state: _State
    drop: float
    kv_open: float
    mass_flow: float
    volume_flow: float
    friction: float
    friction_upper: float
    pipe_drop: float
    upper_drop: float
    fixed_drop: float
    open_drop: float
    whole_drop: float

    @property
    def upper_whole_drop(self) -> float:
        """With its valve open and friction at its upper bound [Pa]."""
        return self.upper_drop + self.fixed_drop + self.open_drop


class BalancedManifold(NamedTuple):
    """``pressure`` [Pa] is that of the index circuit with its valve open, ``pressure_upper`` [Pa] the most
    that any circuit needs with its valve open when friction is at its upper bound."""

    circuits: tuple[CircuitHydraulics, ...]
    index_position: int
    pressure: float
    pressure_upper: float
    open_valves: OpenValves


def open_valve_kv(inputs: HydraulicsInputs, circuit: Circuit | None = None) -> float:
    """kv [m3/h] of a wide open presetting valve: the circuit's, the manifold's, the table's or the usual."""
    if circuit is not None and circuit.valve_kv_open is not None:
        return circuit.valve_kv_open
    if inputs.valve_kv_open is not None:
        return inputs.valve_kv_open
    return inputs.valve_table[-1].kv if inputs.valve_table else USUAL_VALVE_KV


def balance(inputs: HydraulicsInputs, model: FluidModel) -> BalancedManifold:
    """Flows, drops and valve settings of all circuits.

    The circuit that loses most with its valve open is the index circuit and keeps it open; the valve of every
    other circuit takes the difference. Settings use Churchill's friction throughout (one method for all).
    """
    flows = design_flows(inputs, model)
    totals = [flow.whole_drop for flow in flows]
    pressure = max(totals)
    opened = open_flows(
        [flow.branch for flow in flows],
        [flow.volume_flow * (pressure / flow.whole_drop) ** _USUAL_RISE for flow in flows],
        pressure,
        math.fsum(flow.volume_flow for flow in flows),
    )
    circuits = tuple(
        _balanced(inputs, flow, pressure, both)
        for flow, both in zip(flows, zip(opened.same_pressure, opened.same_total, strict=True), strict=True)
    )
    return BalancedManifold(
        circuits,
        totals.index(pressure),
        pressure,
        max(flow.upper_whole_drop for flow in flows),
        OpenValves(
            same_flow_pressure=opened.pressure_of_total,
            same_pressure_mass_flow=math.fsum(circuit.open_same_pressure.mass_flow for circuit in circuits),
        ),
    )


def design_flows(inputs: HydraulicsInputs, model: FluidModel) -> list[DesignFlow]:
    """Every circuit by itself at its design flow, before balancing."""
    states: dict[float, _State] = {}
    flows = []
    for circuit in inputs.circuits:
        drop = circuit_drop(inputs, circuit)
        state = states.get(drop)
        if state is None:
            state = states[drop] = _state(model, inputs.supply_temperature - drop / 2.0)
        flows.append(_design_flow(inputs, circuit, state, drop))
    return flows


def _state(model: FluidModel, temperature: float) -> _State:
    density = float(model.density(temperature))
    water = isinstance(model, WaterModel)
    return _State(
        temperature=temperature,
        density=density,
        heat_capacity=float(model.heat_capacity(temperature)),
        viscosity=float(model.dynamic_viscosity(temperature)),
        relative_density=1.0 if water else density / _WATER_DENSITY,
    )


def _design_flow(inputs: HydraulicsInputs, circuit: Circuit, state: _State, drop: float) -> DesignFlow:
    pipe = circuit.pipe or inputs.pipe
    mass_flow = circuit.mass_flow
    if mass_flow is None:
        mass_flow = (circuit.heat_flow or 0.0) / (state.heat_capacity * drop)
    kv_open = open_valve_kv(inputs, circuit)
    branch = _branch(inputs, circuit, state, kv_open)
    volume_flow = mass_flow / state.density
    friction, upper = branch.friction(volume_flow)
    square = volume_flow * volume_flow
    pipe_drop = branch.pipe_drop(volume_flow, friction)
    fixed_drop, open_drop = branch.fixed_resistance * square, branch.open_resistance * square
    return DesignFlow(
        circuit=circuit,
        pipe=pipe,
        branch=branch,
        state=state,
        drop=drop,
        kv_open=kv_open,
        mass_flow=mass_flow,
        volume_flow=volume_flow,
        friction=friction,
        friction_upper=upper,
        pipe_drop=pipe_drop,
        upper_drop=branch.pipe_drop(volume_flow, upper),
        fixed_drop=fixed_drop,
        open_drop=open_drop,
        whole_drop=pipe_drop + fixed_drop + open_drop,
    )


def _branch(inputs: HydraulicsInputs, circuit: Circuit, state: _State, kv_open: float) -> Branch:
    pipe = circuit.pipe or inputs.pipe
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
        reynolds_per_flow=state.density * per_area * bore / state.viscosity,
        relative_roughness=pipe.roughness / bore,
        dynamic=state.density / 2.0 * per_area * per_area,
        loss_constant=constant,
        loss_per_friction=per_friction,
        fixed_resistance=0.0 if meter is None else resistance(meter, state.relative_density),
        open_resistance=resistance(kv_open, state.relative_density),
    )


def _balanced(
    inputs: HydraulicsInputs, flow: DesignFlow, pressure: float, open_flows: tuple[float, float]
) -> CircuitHydraulics:
    """The circuit with its valve set; ``open_flows`` [m3/s] at the same pressure and at the same total."""
    state, volume_flow, bore = flow.state, flow.volume_flow, flow.pipe.bore
    rest = flow.pipe_drop + flow.fixed_drop
    # Rounding must not take from the valve what it loses when open.
    needed = max(pressure - rest, flow.open_drop)
    is_open = flow.whole_drop == pressure
    kv = flow.kv_open if is_open else kv_for_drop(volume_flow, needed, state.relative_density)
    valve = resistance(kv, state.relative_density) * volume_flow * volume_flow
    reynolds = flow.branch.reynolds_per_flow * volume_flow
    velocity = 4.0 * volume_flow / (math.pi * bore * bore)
    return CircuitHydraulics(
        id=flow.circuit.id,
        heat_flow=flow.mass_flow * state.heat_capacity * flow.drop,
        mass_flow=flow.mass_flow,
        volume_flow=volume_flow,
        temperature_drop=flow.drop,
        return_temperature=inputs.supply_temperature - flow.drop,
        mean_temperature=state.temperature,
        density=state.density,
        heat_capacity=state.heat_capacity,
        dynamic_viscosity=state.viscosity,
        velocity=velocity,
        reynolds=reynolds,
        regime=regime(reynolds),
        friction_factor=flow.friction,
        friction_factor_upper=flow.friction_upper,
        pressure_gradient=flow.friction / bore * state.density / 2.0 * velocity * velocity,
        pressure_drop=flow.pipe_drop,
        pressure_drop_upper=flow.upper_drop,
        fixed_pressure_drop=flow.fixed_drop,
        open_valve_pressure_drop=flow.open_drop,
        valve_pressure_drop=valve,
        total_pressure_drop=rest + valve,
        valve_kv=kv,
        valve_setting=setting_for_kv(inputs.valve_table, kv) if inputs.valve_table else None,
        valve_authority=flow.open_drop / flow.whole_drop,
        water_content=flow.circuit.length * flow.pipe.water_content,
        open_same_pressure=_open_flow(flow, open_flows[0]),
        open_same_flow=_open_flow(flow, open_flows[1]),
    )


def _open_flow(flow: DesignFlow, volume_flow: float) -> OpenFlow:
    ratio = volume_flow / flow.volume_flow
    return OpenFlow(volume_flow * flow.state.density, ratio, flow.drop / ratio)


def mixed_return(circuits: Sequence[CircuitHydraulics]) -> float:
    """Temperature [degC] of all returns together: the mean weighted by mass flow."""
    total = math.fsum(circuit.mass_flow for circuit in circuits)
    return math.fsum(circuit.mass_flow * circuit.return_temperature for circuit in circuits) / total
