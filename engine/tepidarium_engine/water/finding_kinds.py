"""The kinds of finding about the water side: of which quantity, and by which source."""

from __future__ import annotations

from typing import NamedTuple

__all__ = ["KINDS", "OF_LENGTH", "OF_REQUEST", "Kind"]

_PRACTICE = "Common practice, no source"
OF_REQUEST = "The limits of the request; defaults by common practice, no source"


class Kind(NamedTuple):
    quantity: str | None
    source: str


OF_LENGTH = ""
"""The source of a finding about lengths is that of the rule for the pipe's size."""
KINDS = {
    "velocity_low": Kind("velocity", "JGJ 142"),
    "velocity_high": Kind("velocity", OF_REQUEST),
    "velocity_too_high": Kind("velocity", OF_REQUEST),
    "long_circuit": Kind("total_length", OF_LENGTH),
    "too_long_circuit": Kind("total_length", OF_LENGTH),
    "pressure_drop_high": Kind("pressure_drop_upper", OF_REQUEST),
    "pressure_drop_too_high": Kind("pressure_drop_upper", OF_REQUEST),
    "transitional_flow": Kind("reynolds", "Churchill 1977; Colebrook 1939"),
    "below_meter_range": Kind("volume_flow", OF_REQUEST),
    "above_meter_range": Kind("volume_flow", OF_REQUEST),
    "valve_may_be_heard": Kind("valve_pressure_drop", OF_REQUEST),
    "cannot_be_balanced": Kind("valve_kv", "The valve table of the request"),
    "unusual_temperature_drop": Kind("temperature_drop", "JGJ 142; common practice"),
    "too_many_circuits": Kind("circuit_count", OF_REQUEST),
    "supply_above_limit": Kind("supply_temperature", "EN 1264-4; DIN 18560-2"),
    "primary_close_to_supply": Kind("primary_temperature", _PRACTICE),
    "primary_below_supply": Kind("primary_temperature", "Energy balance"),
    "freezes": Kind("freezing_point", "Freezing point of the fluid"),
    "frost_margin_small": Kind("freezing_point", _PRACTICE),
    "little_glycol": Kind("concentration", "Common practice, value from memory"),
    "vessel_for_circuits_only": Kind(None, "EN 12828"),
    "vessel_beyond_common_sizes": Kind("minimum_volume", _PRACTICE),
    "growth_too_small": Kind("expansion_ratio", "Densities of the fluid"),
    "reserve_too_small": Kind("water_reserve", "EN 12828, annex D"),
    "little_pressure_range": Kind("fill_pressure", "EN 12828"),
}
