"""What should be looked at before the hydraulics are built."""

from __future__ import annotations

from collections.abc import Iterator

from ..elementwise import ROUND_OFF
from ..pipe import Pipe
from ..plan.lengths.lengths import circuit_length_rule
from ..results import Finding
from .expansion import fluid_growth, least_reserve
from .finding_kinds import KINDS, OF_REQUEST
from .fluid import fluid_model
from .inputs import HydraulicsInputs
from .relations import maximum_temperature
from .result import CircuitHydraulics, HydraulicsResult

__all__ = ["findings"]

_Row = tuple[str, bool, float | None, float | None]


def _found(rows: tuple[_Row, ...], where: str, subject: str = "", length_source: str = "") -> list[Finding]:
    return [
        Finding.at(
            code,
            where,
            value=value,
            limit=limit,
            source=KINDS[code].source or length_source,
            quantity=KINDS[code].quantity,
            subject=subject,
        )
        for code, holds, value, limit in rows
        if holds
    ]


def findings(inputs: HydraulicsInputs, result: HydraulicsResult) -> Iterator[Finding]:
    """Findings of the circuits in their order, then of manifold, source, fluid and vessel."""
    for index, circuit in enumerate(result.circuits):
        yield from _circuit_findings(inputs, index, circuit)
    yield from _manifold_findings(inputs, result)
    yield from _fluid_findings(inputs, result)
    yield from _vessel_findings(inputs, result)


def _circuit_findings(inputs: HydraulicsInputs, index: int, result: CircuitHydraulics) -> list[Finding]:
    """Findings of one circuit."""
    limits, circuit = inputs.limits, inputs.circuits[index]
    pipe: Pipe = circuit.pipe or inputs.pipe
    rule = circuit_length_rule(pipe)
    usual = rule.usual if limits.advised_length is None else limits.advised_length
    upper = rule.upper if limits.maximum_length is None else limits.maximum_length
    length_source = rule.source if limits.maximum_length is None else OF_REQUEST
    drop = result.pressure_drop_upper + result.fixed_pressure_drop + result.open_valve_pressure_drop
    speed, flow, valve = result.velocity, result.volume_flow, result.valve_pressure_drop
    warn, most = limits.advised_pressure_drop, limits.maximum_pressure_drop
    table = inputs.valve_table
    usual_drop = min(max(result.temperature_drop, 3.0), 10.0)
    rows: tuple[_Row, ...] = (
        ("velocity_low", speed < limits.minimum_velocity, speed, limits.minimum_velocity),
        (
            "velocity_high",
            limits.advised_velocity < speed <= limits.maximum_velocity,
            speed,
            limits.advised_velocity,
        ),
        ("velocity_too_high", speed > limits.maximum_velocity, speed, limits.maximum_velocity),
        ("long_circuit", usual < circuit.length <= upper, circuit.length, usual),
        ("too_long_circuit", circuit.length > upper, circuit.length, upper),
        ("pressure_drop_high", warn < drop <= most, drop, warn),
        ("pressure_drop_too_high", drop > most, drop, most),
        ("transitional_flow", result.regime == "transitional", result.reynolds, 4000.0),
        ("below_meter_range", flow < limits.minimum_meter_flow, flow, limits.minimum_meter_flow),
        ("above_meter_range", flow > limits.maximum_meter_flow, flow, limits.maximum_meter_flow),
        (
            "valve_may_be_heard",
            valve > limits.maximum_valve_pressure_drop,
            valve,
            limits.maximum_valve_pressure_drop,
        ),
        (
            "cannot_be_balanced",
            bool(table) and result.valve_setting is None,
            result.valve_kv,
            table[0].kv if table else 0.0,
        ),
        (
            "unusual_temperature_drop",
            usual_drop != result.temperature_drop,
            result.temperature_drop,
            usual_drop,
        ),
    )
    return _found(rows, f"/circuits/{index}", circuit.id, length_source)


def _manifold_findings(inputs: HydraulicsInputs, result: HydraulicsResult) -> Iterator[Finding]:
    limits, count = inputs.limits, len(inputs.circuits)
    supply, most = inputs.supply_temperature, limits.supply_temperature_limit
    many = count > limits.maximum_circuits
    yield from _found((("too_many_circuits", many, count, limits.maximum_circuits),), "/circuits")
    yield from _found((("supply_above_limit", supply > most, supply, most),), "/supply_temperature")
    primary = inputs.primary_temperature
    if primary is not None:
        rows: tuple[_Row, ...] = (
            ("primary_below_supply", primary < supply, primary, supply),
            ("primary_close_to_supply", supply < primary < supply + 3.0, primary, supply + 3.0),
        )
        yield from _found(rows, "/primary_temperature")


def _fluid_findings(inputs: HydraulicsInputs, result: HydraulicsResult) -> Iterator[Finding]:
    fluid, frost = inputs.fluid, inputs.frost_temperature
    little = fluid.kind != "water" and fluid.concentration < 0.2
    yield from _found((("little_glycol", little, fluid.concentration, 0.2),), "/fluid/concentration")
    if frost is not None:
        freezing = result.freezing_point
        rows: tuple[_Row, ...] = (
            ("freezes", freezing > frost, freezing, frost),
            ("frost_margin_small", frost - 3.0 < freezing <= frost, freezing, frost - 3.0),
        )
        yield from _found(rows, "/frost_temperature")


def _vessel_findings(inputs: HydraulicsInputs, result: HydraulicsResult) -> Iterator[Finding]:
    vessel, expansion = result.expansion_vessel, inputs.expansion
    alone = expansion.additional_volume == 0.0
    reserve = least_reserve(result.system_volume, vessel.nominal_volume or vessel.minimum_volume)
    growth = fluid_growth(maximum_temperature(inputs), expansion, fluid_model(inputs.fluid))
    filled = vessel.final_pressure if vessel.fill_pressure is None else vessel.fill_pressure
    rows: tuple[_Row, ...] = (
        ("vessel_for_circuits_only", alone, None, None),
        ("vessel_beyond_common_sizes", vessel.nominal_volume is None, vessel.minimum_volume, 0.5),
        (
            "reserve_too_small",
            vessel.water_reserve < reserve * (1.0 - ROUND_OFF),
            vessel.water_reserve,
            reserve,
        ),
        ("growth_too_small", vessel.expansion_ratio < 0.98 * growth, vessel.expansion_ratio, growth),
        (
            "little_pressure_range",
            vessel.fill_pressure is not None and filled >= vessel.final_pressure,
            filled,
            vessel.final_pressure,
        ),
    )
    yield from _found(rows, "/expansion")
