"""What should be looked at before the hydraulics are built."""

from __future__ import annotations

from collections.abc import Iterator

from ..pipe import Pipe
from ..plan.lengths.lengths import circuit_length_rule
from ..results import Finding, Severity
from .inputs import HydraulicsInputs
from .result import CircuitHydraulics, ExpansionVessel, HydraulicsResult

__all__ = ["findings"]

_PRACTICE = "Common practice, no source"
_LIMIT = "The limits of the request; defaults by common practice, no source"

_TEXTS: dict[str, tuple[Severity, str, str]] = {
    "velocity_low": ("note", "So slow that the water does not carry air away; vent with care.", "JGJ 142"),
    "velocity_high": ("warning", "Fast for a floor circuit: pressure drop and wear rise.", _LIMIT),
    "velocity_too_high": ("violation", "So fast that the circuit may be heard.", _LIMIT),
    "long_circuit": ("warning", "Longer than usual for this size of pipe.", "length"),
    "too_long_circuit": ("violation", "Too long for this size of pipe; divide the circuit.", "length"),
    "pressure_drop_high": (
        "warning",
        "High pressure drop with the valve open, upper bound of friction counted.",
        _LIMIT,
    ),
    "pressure_drop_too_high": (
        "violation",
        "Too high a pressure drop with the valve open, upper bound of friction counted; shorten or divide "
        "the circuit, or take a wider pipe.",
        _LIMIT,
    ),
    "transitional_flow": (
        "note",
        "Neither surely laminar nor turbulent: the drop may lie anywhere up to pressure_drop_upper. Set "
        "this circuit by its flow meter, not by the valve's setting alone.",
        "Churchill 1977; Colebrook 1939",
    ),
    "below_meter_range": ("warning", "Less than the flow meter shows.", _LIMIT),
    "above_meter_range": ("warning", "More than the flow meter shows.", _LIMIT),
    "valve_may_be_heard": ("warning", "The presetting valve must take so much that it may be heard.", _LIMIT),
    "cannot_be_balanced": (
        "violation",
        "The valve cannot be set so low; lengthen the circuit, join it with another or choose a finer valve.",
        "The valve table of the request",
    ),
    "unusual_temperature_drop": ("note", "Outside the 3 to 10 K of most floors.", "JGJ 142; common practice"),
    "too_many_circuits": ("warning", "Many circuits on one manifold; think of a second one.", _LIMIT),
    "supply_above_limit": (
        "violation",
        "Hotter than the screed stands (55 degC in cement and calcium sulphate, 45 degC in mastic asphalt).",
        "EN 1264-4; DIN 18560-2",
    ),
    "primary_close_to_supply": (
        "warning",
        "So little above the supply that a thermostatic mixing valve hardly controls.",
        _PRACTICE,
    ),
    "primary_below_supply": (
        "violation",
        "The source is colder than the supply asks for: no mixing can give it.",
        "Energy balance",
    ),
    "freezes": (
        "violation",
        "The fluid freezes before the frost temperature: use more antifreeze, keep the building warm or "
        "drain.",
        "Freezing point of the fluid",
    ),
    "frost_margin_small": (
        "warning",
        "Less than 3 K between frost temperature and freezing point.",
        _PRACTICE,
    ),
    "little_glycol": (
        "warning",
        "Below about 20 % glycol many products no longer protect from corrosion and bacteria; see the "
        "maker's sheet.",
        "Common practice, value from memory",
    ),
    "vessel_for_circuits_only": (
        "note",
        "No volume outside the circuits was given; source, store and mains enlarge the vessel.",
        "EN 12828",
    ),
    "vessel_beyond_common_sizes": ("note", "Larger than the common vessels; plan it singly.", _PRACTICE),
    "little_pressure_range": (
        "warning",
        "The filling pressure leaves no room below the safety valve.",
        "EN 12828",
    ),
}

_QUANTITIES = {
    "velocity_low": "velocity",
    "velocity_high": "velocity",
    "velocity_too_high": "velocity",
    "long_circuit": "total_length",
    "too_long_circuit": "total_length",
    "pressure_drop_high": "pressure_drop_upper",
    "pressure_drop_too_high": "pressure_drop_upper",
    "transitional_flow": "reynolds",
    "below_meter_range": "volume_flow",
    "above_meter_range": "volume_flow",
    "valve_may_be_heard": "valve_pressure_drop",
    "cannot_be_balanced": "valve_kv",
    "unusual_temperature_drop": "temperature_drop",
    "too_many_circuits": "circuit_count",
    "supply_above_limit": "supply_temperature",
    "primary_close_to_supply": "primary_temperature",
    "primary_below_supply": "primary_temperature",
    "freezes": "freezing_point",
    "frost_margin_small": "freezing_point",
    "little_glycol": "concentration",
    "vessel_for_circuits_only": "additional_volume",
    "vessel_beyond_common_sizes": "minimum_volume",
    "little_pressure_range": "fill_pressure",
}

_Row = tuple[str, bool, float, float]


def _found(rows: tuple[_Row, ...], where: str, length_source: str = "") -> Iterator[Finding]:
    for code, holds, value, limit in rows:
        if holds:
            severity, message, source = _TEXTS[code]
            yield Finding.at(
                code,
                severity,
                where,
                message,
                value=value,
                limit=limit,
                source=length_source if source == "length" else source,
                quantity=_QUANTITIES[code],
            )


def findings(inputs: HydraulicsInputs, result: HydraulicsResult) -> Iterator[Finding]:
    """Findings of the circuits in their order, then of manifold, source, fluid and vessel."""
    for index, circuit in enumerate(result.circuits):
        yield from _circuit_findings(inputs, index, circuit)
    yield from _manifold_findings(inputs, result)
    yield from _fluid_findings(inputs, result)
    yield from _vessel_findings(inputs, result.expansion_vessel)


def _circuit_findings(inputs: HydraulicsInputs, index: int, result: CircuitHydraulics) -> Iterator[Finding]:
    """Findings of one circuit."""
    limits, circuit = inputs.limits, inputs.circuits[index]
    pipe: Pipe = circuit.pipe or inputs.pipe
    rule = circuit_length_rule(pipe)
    usual = rule.usual if limits.advised_length is None else limits.advised_length
    upper = rule.upper if limits.maximum_length is None else limits.maximum_length
    length_source = rule.source if limits.maximum_length is None else _LIMIT
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
    yield from _found(rows, f"/circuits/{index}", length_source)


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


def _vessel_findings(inputs: HydraulicsInputs, vessel: ExpansionVessel) -> Iterator[Finding]:
    alone = inputs.expansion.additional_volume == 0.0
    filled = vessel.final_pressure if vessel.fill_pressure is None else vessel.fill_pressure
    rows: tuple[_Row, ...] = (
        ("vessel_for_circuits_only", alone, 0.0, 0.0),
        ("vessel_beyond_common_sizes", vessel.nominal_volume is None, vessel.minimum_volume, 0.5),
        (
            "little_pressure_range",
            vessel.fill_pressure is not None and filled >= vessel.final_pressure,
            filled,
            vessel.final_pressure,
        ),
    )
    yield from _found(rows, "/expansion")
