"""Units of gbXML (schema 7.03) in those of the engine."""

from __future__ import annotations

from types import MappingProxyType

from .records import LengthUnit

__all__ = ["AREAS", "CONDUCTIVITIES", "LENGTHS", "METRES", "RESISTANCES", "U_VALUES", "VOLUMES", "celsius"]

METRES: MappingProxyType[LengthUnit, float] = MappingProxyType(
    {
        "m": 1.0,
        "dm": 0.1,
        "cm": 0.01,
        "mm": 0.001,
        "ft": 0.3048,
        "in": 0.0254,
        "yd": 0.9144,
        "km": 1000.0,
        "mi": 1609.344,
    }
)
"""Metres in one of each; foot, inch, yard and mile as agreed in 1959."""

LENGTHS = MappingProxyType(
    {
        "Meters": 1.0,
        "Centimeters": 0.01,
        "Millimeters": 0.001,
        "Kilometers": 1000.0,
        "Feet": 0.3048,
        "Inches": 0.0254,
        "Yards": 0.9144,
        "Miles": 1609.344,
    }
)
AREAS = MappingProxyType({f"Square{name}": metres**2 for name, metres in LENGTHS.items()})
VOLUMES = MappingProxyType({f"Cubic{name}": metres**3 for name, metres in LENGTHS.items()})

_BTU_PER_HOUR = 0.29307107
"""Watts in one British thermal unit (International Table) an hour."""
_FAHRENHEIT = 5.0 / 9.0
_FOOT = 0.3048

U_VALUES = MappingProxyType(
    {"WPerSquareMeterK": 1.0, "BtuPerHourSquareFtF": _BTU_PER_HOUR / (_FOOT**2 * _FAHRENHEIT)}
)
RESISTANCES = MappingProxyType(
    {"SquareMeterKPerW": 1.0, "HrSquareFtFPerBTU": _FOOT**2 * _FAHRENHEIT / _BTU_PER_HOUR}
)
CONDUCTIVITIES = MappingProxyType(
    {"WPerMeterK": 1.0, "WPerCmC": 100.0, "BtuPerHourFtF": _BTU_PER_HOUR / (_FOOT * _FAHRENHEIT)}
)


def celsius(value: float, unit: str) -> float | None:
    """A temperature level [degC]; None in a unit that is not known."""
    match unit:
        case "C":
            return value
        case "F":
            return (value - 32.0) / 1.8
        case "K":
            return value - 273.15
        case "R":
            return value / 1.8 - 273.15
    return None
