"""The kinds of finding about the water side: how urgent, of which quantity, in which words."""

from __future__ import annotations

from typing import NamedTuple

from ..results import Severity

__all__ = ["KINDS", "OF_LENGTH", "OF_REQUEST", "Kind"]

_PRACTICE = "Common practice, no source"
OF_REQUEST = "The limits of the request; defaults by common practice, no source"


class Kind(NamedTuple):
    severity: Severity
    quantity: str | None
    message: str
    source: str


OF_LENGTH = ""
"""The source of a finding about lengths is that of the rule for the pipe's size."""
KINDS = {
    "velocity_low": Kind(
        "note",
        "velocity",
        "Water is too slow to carry air to the manifold. Flush and vent these circuits one by one.",
        "JGJ 142",
    ),
    "velocity_high": Kind(
        "warning",
        "velocity",
        "Water is fast for a floor circuit, and pressure drop rises. Shorten or divide the circuit.",
        OF_REQUEST,
    ),
    "velocity_too_high": Kind(
        "violation",
        "velocity",
        "Water is so fast that the circuit may be heard. Shorten or divide the circuit, or take a wider pipe.",
        OF_REQUEST,
    ),
    "long_circuit": Kind(
        "warning",
        "total_length",
        "Circuits are longer than usual for this pipe size and may lose too much pressure. Check their pressure "
        "drop, or divide them.",
        OF_LENGTH,
    ),
    "too_long_circuit": Kind(
        "violation",
        "total_length",
        "Circuits are too long for this pipe size. Divide them.",
        OF_LENGTH,
    ),
    "pressure_drop_high": Kind(
        "warning",
        "pressure_drop_upper",
        "Pressure drop is high even with the valve fully open, so all other circuits must be throttled. Shorten or "
        "divide the circuit.",
        OF_REQUEST,
    ),
    "pressure_drop_too_high": Kind(
        "violation",
        "pressure_drop_upper",
        "Pressure drop is too high even with the valve fully open. Shorten or divide the circuit, or take a wider "
        "pipe.",
        OF_REQUEST,
    ),
    "transitional_flow": Kind(
        "note",
        "reynolds",
        "Flow is in the transition range, so its pressure drop is uncertain. Set these circuits by the flow meter.",
        "Churchill 1977; Colebrook 1939",
    ),
    "below_meter_range": Kind(
        "warning",
        "volume_flow",
        "Flow is below the flow meter's lowest mark, so it cannot be set by the meter. Set it by the valve, or serve "
        "the room together with another one.",
        OF_REQUEST,
    ),
    "above_meter_range": Kind(
        "warning",
        "volume_flow",
        "Flow is above the flow meter's highest mark. Divide the circuit, or take a meter with a wider range.",
        OF_REQUEST,
    ),
    "valve_may_be_heard": Kind(
        "warning",
        "valve_pressure_drop",
        "The balancing valve takes so much pressure that it may be heard. Make the circuits of this manifold more "
        "alike, or choose a pump with less pressure.",
        OF_REQUEST,
    ),
    "cannot_be_balanced": Kind(
        "violation",
        "valve_kv",
        "The valve cannot be set low enough, so this circuit takes water from the others. Join it with another "
        "circuit, or choose a finer valve.",
        "The valve table of the request",
    ),
    "unusual_temperature_drop": Kind(
        "note",
        "temperature_drop",
        "Water cools by less or more than the usual 3 to 10 K. Check that the room's control can hold it.",
        "JGJ 142; common practice",
    ),
    "too_many_circuits": Kind(
        "warning",
        "circuit_count",
        "The manifold has more circuits than usual. Consider a second manifold.",
        OF_REQUEST,
    ),
    "supply_above_limit": Kind(
        "violation",
        "supply_temperature",
        "The supply is hotter than the screed can bear: 55 °C in cement and calcium sulphate, 45 °C in mastic asphalt. "
        "Lower it, with closer pipes or a lighter covering.",
        "EN 1264-4; DIN 18560-2",
    ),
    "primary_close_to_supply": Kind(
        "warning",
        "primary_temperature",
        "The source is hardly warmer than the supply, so a thermostatic mixing valve controls poorly. Raise the source "
        "by a few kelvin, or leave out the mixing.",
        _PRACTICE,
    ),
    "primary_below_supply": Kind(
        "violation",
        "primary_temperature",
        "The source is colder than the supply, so the floor does not get its heat. Raise the source or lower the "
        "supply.",
        "Energy balance",
    ),
    "freezes": Kind(
        "violation",
        "freezing_point",
        "The fluid freezes above the frost temperature and the pipes burst. Use more antifreeze, keep the building "
        "warm or drain it.",
        "Freezing point of the fluid",
    ),
    "frost_margin_small": Kind(
        "warning",
        "freezing_point",
        "The fluid freezes less than 3 K below the frost temperature. Use more antifreeze.",
        _PRACTICE,
    ),
    "little_glycol": Kind(
        "warning",
        "concentration",
        "With so little glycol many products no longer protect from corrosion and bacteria. Follow the maker's sheet.",
        "Common practice, value from memory",
    ),
    "vessel_for_circuits_only": Kind(
        "note",
        None,
        "The vessel is sized for the floor circuits alone. Add the water of source, store and mains.",
        "EN 12828",
    ),
    "vessel_beyond_common_sizes": Kind(
        "note",
        "minimum_volume",
        "The vessel is larger than common sizes. Have it planned by a specialist, or use several.",
        _PRACTICE,
    ),
    "growth_too_small": Kind(
        "warning",
        "expansion_ratio",
        "The fluid grows more than the given expansion, so the safety valve may open. Use the expansion of the fluid.",
        "Densities of the fluid",
    ),
    "reserve_too_small": Kind(
        "warning",
        "water_reserve",
        "The vessel keeps so little water in reserve that the system soon loses pressure. Keep that of EN 12828.",
        "EN 12828, annex D",
    ),
    "little_pressure_range": Kind(
        "warning",
        "fill_pressure",
        "The fill pressure leaves no room below the safety valve, so the valve blows when the water warms up. Take a "
        "larger vessel or a safety valve with a higher pressure.",
        "EN 12828",
    ),
}
