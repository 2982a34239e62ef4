"""The chain of intermediate values behind the hydraulics of a manifold."""

from __future__ import annotations

from collections.abc import Iterator

from ..pipe import Pipe
from ..results import Working
from .fluid import fluid_model
from .inputs import Circuit, HydraulicsInputs
from .relations import maximum_temperature
from .result import CircuitHydraulics, HydraulicsResult

__all__ = ["hydraulic_workings"]

_Row = tuple[str, str, float, str, str, str]

_ARITHMETIC = "Arithmetic"
_BALANCE = "Energy balance of the water"
_KV = "IEC 60534-2-1, flow coefficient"
_VESSEL = "EN 12828, annex D"


def hydraulic_workings(inputs: HydraulicsInputs, result: HydraulicsResult) -> tuple[Working, ...]:
    """The index circuit step by step, the balancing of every circuit, then pump, mixing set and vessel."""
    names = [circuit.id for circuit in result.circuits]
    index = names.index(result.index_circuit)
    rows: list[_Row] = []
    rows.extend(_circuit_rows(inputs, inputs.circuits[index], result.circuits[index]))
    rows.append(
        (
            "dp_M",
            f"pressure across the manifold, set by circuit {result.index_circuit}",
            result.manifold_pressure,
            "Pa",
            "largest dp + dp_fix + dp_open",
            _ARITHMETIC,
        )
    )
    for position, circuit in enumerate(result.circuits, start=1):
        rows.extend(_balancing_rows(position, circuit))
    rows.extend(_pump_rows(inputs, result))
    rows.extend(_mixing_rows(inputs, result))
    rows.extend(_vessel_rows(inputs, result))
    return tuple(Working(*row) for row in rows)


def _circuit_rows(inputs: HydraulicsInputs, circuit: Circuit, result: CircuitHydraulics) -> Iterator[_Row]:
    pipe: Pipe = circuit.pipe or inputs.pipe
    source = fluid_model(inputs.fluid).source
    heat_given = circuit.heat_flow is not None
    heat = "given" if heat_given else "m cp sigma"
    mass = "Q / (cp sigma)" if heat_given else "given"
    if circuit.bends is None:
        share = inputs.bend_allowance if circuit.bend_allowance is None else circuit.bend_allowance
        drop, by = f"R L (1 + {share:g})", "Darcy and Weisbach; allowance by common practice"
    else:
        drop, by = "R L + sum of zeta rho v2 / 2", "Darcy and Weisbach; Rennels and Hudson 2012, ch. 15"
    bounded = "as dp, with the larger of f by Churchill and by Colebrook-White for 2000 < Re < 4000"
    yield from (
        ("Q", "heat of the circuit", result.heat_flow, "W", heat, _BALANCE),
        ("sigma", "temperature drop", result.temperature_drop, "K", "given", "Input"),
        ("theta_m", "mean temperature", result.mean_temperature, "degC", "theta_V - sigma / 2", _ARITHMETIC),
        ("rho", "density", result.density, "kg/m3", "at theta_m", source),
        ("cp", "heat capacity", result.heat_capacity, "J/(kg.K)", "at theta_m", source),
        ("mu", "dynamic viscosity", result.dynamic_viscosity, "Pa.s", "at theta_m", source),
        ("m", "mass flow", result.mass_flow, "kg/s", mass, _BALANCE),
        ("V", "volume flow", result.volume_flow, "m3/s", "m / rho", _ARITHMETIC),
        ("D", "bore", pipe.bore, "m", "outside diameter - 2 walls", _ARITHMETIC),
        ("v", "velocity", result.velocity, "m/s", "4 V / (pi D2)", _ARITHMETIC),
        ("Re", "Reynolds number", result.reynolds, "1", "rho v D / mu", "Definition"),
        ("eps/D", "relative roughness", pipe.roughness / pipe.bore, "1", "eps / D", "Definition"),
        (
            "f",
            "friction factor",
            result.friction_factor,
            "1",
            "8 ((8/Re)^12 + 1/(A + B)^1.5)^(1/12), A = (2.457 ln(1/((7/Re)^0.9 + 0.27 eps/D)))^16, "
            "B = (37530/Re)^16",
            "Churchill 1977",
        ),
        (
            "R",
            "pressure gradient",
            result.pressure_gradient,
            "Pa/m",
            "f / D rho v2 / 2",
            "Darcy and Weisbach",
        ),
        ("L", "length", circuit.length, "m", "given, tails included", "Input"),
        ("dp", "pressure drop of pipe and bends", result.pressure_drop, "Pa", drop, by),
        ("dp_up", "the same, upper bound", result.pressure_drop_upper, "Pa", bounded, "Colebrook 1939"),
        (
            "dp_fix",
            "flow meter",
            result.fixed_pressure_drop,
            "Pa",
            "1e5 d (3600 V / kv)2, d: density against water",
            _KV,
        ),
        (
            "dp_open",
            "presetting valve open",
            result.open_valve_pressure_drop,
            "Pa",
            "1e5 d (3600 V / kv_open)2",
            _KV,
        ),
    )


def _balancing_rows(position: int, circuit: CircuitHydraulics) -> Iterator[_Row]:
    of = f"of circuit {circuit.id}"
    yield from (
        (f"V_{position}", f"volume flow {of}", circuit.volume_flow, "m3/s", "Q / (cp sigma rho)", _BALANCE),
        (
            f"dp_{position}",
            f"pipe and bends {of}",
            circuit.pressure_drop,
            "Pa",
            "as for the index circuit",
            "Churchill 1977",
        ),
        (
            f"dp_v_{position}",
            f"presetting valve {of}",
            circuit.valve_pressure_drop,
            "Pa",
            "dp_M - dp - dp_fix",
            _ARITHMETIC,
        ),
        (
            f"kv_{position}",
            f"flow coefficient to set {of}",
            circuit.valve_kv,
            "m3/h",
            "3600 V (1e5 d / dp_v)^0.5",
            _KV,
        ),
    )


def _pump_rows(inputs: HydraulicsInputs, result: HydraulicsResult) -> Iterator[_Row]:
    pump = result.pump
    outside = inputs.manifold_pressure_drop + inputs.mains_pressure_drop
    density = result.mass_flow / result.volume_flow
    pressure = "largest dp_up + dp_fix + dp_open, + dp_out"
    yield from (
        ("V_P", "volume flow of the pump", pump.volume_flow, "m3/s", "sum of V_i", "Conservation of mass"),
        ("dp_out", "manifold and mains", outside, "Pa", "given", "Input"),
        ("dp_P", "pressure of the pump, upper bound", pump.pressure, "Pa", pressure, _ARITHMETIC),
        ("rho_P", "density in the pump", density, "kg/m3", "sum of m_i / V_P", _ARITHMETIC),
        ("H", "head", pump.head, "m", "dp_P / (rho_P g), g = 9.80665 m/s2", "Definition"),
        ("P_hyd", "hydraulic power", pump.hydraulic_power, "W", "V_P dp_P", "Definition"),
    )


def _mixing_rows(inputs: HydraulicsInputs, result: HydraulicsResult) -> Iterator[_Row]:
    if result.mixing is None or inputs.primary_temperature is None:
        return
    share = result.mixing.primary_share
    formula = "(theta_V - theta_R) / (theta_P - theta_R)"
    yield from (
        ("theta_V", "supply", inputs.supply_temperature, "degC", "given", "Input"),
        (
            "theta_R",
            "mixed return",
            result.return_temperature,
            "degC",
            "sum of m_i theta_R,i / sum of m_i",
            _BALANCE,
        ),
        ("theta_P", "primary", inputs.primary_temperature, "degC", "given", "Input"),
        ("x", "primary share", share, "1", formula, _BALANCE),
    )


def _vessel_rows(inputs: HydraulicsInputs, result: HydraulicsResult) -> Iterator[_Row]:
    vessel = result.expansion_vessel
    hottest = maximum_temperature(inputs)
    volume = "sum of pi/4 D2 L + volume outside the circuits"
    least = "(V_e + V_WR) (p_e + 1 bar) / (p_e - p_0)"
    given = inputs.expansion
    ratio = "rho(theta_fill) / rho(theta_max) - 1" if given.expansion_ratio is None else "given"
    reserve = "0.005 V_sys, at least 3 l" if given.water_reserve is None else "given"
    yield from (
        ("V_sys", "volume of the system", result.system_volume, "m3", volume, _ARITHMETIC),
        (
            "theta_max",
            "highest temperature",
            hottest,
            "degC",
            "given, or the higher of supply and primary",
            "Input",
        ),
        ("e", "expansion", vessel.expansion_ratio, "1", ratio, _VESSEL),
        ("V_e", "growth", vessel.expansion_volume, "m3", "e V_sys", _VESSEL),
        ("V_WR", "water reserve", vessel.water_reserve, "m3", reserve, _VESSEL),
        (
            "p_0",
            "precharge, gauge",
            vessel.precharge_pressure,
            "Pa",
            "given, or rho g h + 0.3 bar, at least 1 bar",
            _VESSEL,
        ),
        (
            "p_e",
            "final pressure, gauge",
            vessel.final_pressure,
            "Pa",
            "p_SV - 0.5 bar, at most 0.9 p_SV",
            _VESSEL,
        ),
        ("V_min", "least vessel", vessel.minimum_volume, "m3", least, _VESSEL),
    )
