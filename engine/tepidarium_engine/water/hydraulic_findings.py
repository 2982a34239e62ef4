"""What should be looked at before the hydraulics are built."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from ..elementwise import ROUND_OFF
from ..plan.lengths.lengths import LengthRule, circuit_length_rule
from ..results import Finding
from .expansion import fluid_growth, least_reserve
from .finding_kinds import KINDS, OF_REQUEST
from .fluid import fluid_model
from .inputs import HydraulicsInputs
from .relations import maximum_temperature
from .result import CircuitHydraulics, HydraulicsResult

__all__ = ["findings"]

_Row = tuple[str, float | None, float | None] | None
"""Code, value and limit of what is found; None where all is in order."""


def _found(rows: Iterable[_Row], where: str, subject: str = "", length_source: str = "") -> list[Finding]:
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
        for code, value, limit in filter(None, rows)
    ]


def findings(inputs: HydraulicsInputs, result: HydraulicsResult) -> Iterator[Finding]:
    """Findings of the circuits in their order, then of manifold, source, fluid and vessel."""
    rule = circuit_length_rule(inputs.pipe)
    for index, (asked, circuit) in enumerate(zip(inputs.circuits, result.circuits, strict=True)):
        own = rule if asked.pipe is None else circuit_length_rule(asked.pipe)
        yield from _circuit_findings(inputs, index, circuit, own)
    yield from _manifold_findings(inputs, result)
    yield from _fluid_findings(inputs, result)
    yield from _vessel_findings(inputs, result)


def _circuit_findings(
    inputs: HydraulicsInputs, index: int, result: CircuitHydraulics, rule: LengthRule
) -> list[Finding]:
    """Findings of one circuit, whose pipe goes by ``rule``."""
    limits, circuit = inputs.limits, inputs.circuits[index]
    usual = rule.usual if limits.advised_length is None else limits.advised_length
    upper = rule.upper if limits.maximum_length is None else limits.maximum_length
    length_source = rule.source if limits.maximum_length is None else OF_REQUEST
    drop = result.pressure_drop_upper + result.fixed_pressure_drop + result.open_valve_pressure_drop
    speed, flow, valve = result.velocity, result.volume_flow, result.valve_pressure_drop
    warn, most = limits.advised_pressure_drop, limits.maximum_pressure_drop
    heard = limits.maximum_valve_pressure_drop
    table = inputs.valve_table
    usual_drop = min(max(result.temperature_drop, 3.0), 10.0)
    rows = (
        ("velocity_low", speed, limits.minimum_velocity) if speed < limits.minimum_velocity else None,
        ("velocity_high", speed, limits.advised_velocity)
        if limits.advised_velocity < speed <= limits.maximum_velocity
        else None,
        ("velocity_too_high", speed, limits.maximum_velocity) if speed > limits.maximum_velocity else None,
        ("long_circuit", circuit.length, usual) if usual < circuit.length <= upper else None,
        ("too_long_circuit", circuit.length, upper) if circuit.length > upper else None,
        ("pressure_drop_high", drop, warn) if warn < drop <= most else None,
        ("pressure_drop_too_high", drop, most) if drop > most else None,
        ("transitional_flow", result.reynolds, 4000.0) if result.regime == "transitional" else None,
        ("below_meter_range", flow, limits.minimum_meter_flow) if flow < limits.minimum_meter_flow else None,
        ("above_meter_range", flow, limits.maximum_meter_flow) if flow > limits.maximum_meter_flow else None,
        ("valve_may_be_heard", valve, heard) if valve > heard else None,
        ("cannot_be_balanced", result.valve_kv, table[0].kv)
        if table and result.valve_setting is None
        else None,
        ("unusual_temperature_drop", result.temperature_drop, usual_drop)
        if usual_drop != result.temperature_drop
        else None,
    )
    return _found(rows, f"/circuits/{index}", circuit.id, length_source)


def _manifold_findings(inputs: HydraulicsInputs, result: HydraulicsResult) -> Iterator[Finding]:
    limits, count = inputs.limits, len(inputs.circuits)
    supply, most = inputs.supply_temperature, limits.supply_temperature_limit
    if count > limits.maximum_circuits:
        yield from _found([("too_many_circuits", count, limits.maximum_circuits)], "/circuits")
    if supply > most:
        yield from _found([("supply_above_limit", supply, most)], "/supply_temperature")
    primary = inputs.primary_temperature
    if primary is not None:
        rows = (
            ("primary_below_supply", primary, supply) if primary < supply else None,
            ("primary_close_to_supply", primary, supply + 3.0) if supply < primary < supply + 3.0 else None,
        )
        yield from _found(rows, "/primary_temperature")


def _fluid_findings(inputs: HydraulicsInputs, result: HydraulicsResult) -> Iterator[Finding]:
    fluid, frost = inputs.fluid, inputs.frost_temperature
    if fluid.kind != "water" and fluid.concentration < 0.2:
        yield from _found([("little_glycol", fluid.concentration, 0.2)], "/fluid/concentration")
    if frost is not None:
        freezing = result.freezing_point
        rows = (
            ("freezes", freezing, frost) if freezing > frost else None,
            ("frost_margin_small", freezing, frost - 3.0) if frost - 3.0 < freezing <= frost else None,
        )
        yield from _found(rows, "/frost_temperature")


def _vessel_findings(inputs: HydraulicsInputs, result: HydraulicsResult) -> list[Finding]:
    vessel, expansion = result.expansion_vessel, inputs.expansion
    reserve = least_reserve(result.system_volume, vessel.nominal_volume or vessel.minimum_volume)
    ratio, filled, final = vessel.expansion_ratio, vessel.fill_pressure, vessel.final_pressure
    growth = ratio
    if expansion.expansion_ratio is not None:
        growth = fluid_growth(maximum_temperature(inputs), expansion, fluid_model(inputs.fluid))
    rows: tuple[_Row, ...] = (
        ("vessel_for_circuits_only", None, None) if expansion.additional_volume == 0.0 else None,
        ("vessel_beyond_common_sizes", vessel.minimum_volume, 0.5) if vessel.nominal_volume is None else None,
        ("reserve_too_small", vessel.water_reserve, reserve)
        if vessel.water_reserve < reserve * (1.0 - ROUND_OFF)
        else None,
        ("growth_too_small", ratio, growth) if ratio < 0.98 * growth else None,
        ("little_pressure_range", filled, final) if filled is not None and filled >= final else None,
    )
    return _found(rows, "/expansion")
