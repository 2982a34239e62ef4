"""Numbers as the trade reads them (mm, m, kPa, l/min, days), from SI values and the glossary's names."""

from __future__ import annotations

import math
from functools import cache
from typing import NamedTuple

from .glossary import Number, lookup

__all__ = ["in_trade_units", "value_and_limit"]


class _TradeUnit(NamedTuple):
    """SI value times ``factor``, with so many ``decimals``."""

    name: str
    factor: float = 1.0
    decimals: int = 1


_BY_SI_UNIT = {
    "1": _TradeUnit("", decimals=2),
    "d": _TradeUnit("days", decimals=0),
    "degC": _TradeUnit("°C"),
    "K": _TradeUnit("K"),
    "m": _TradeUnit("m"),
    "m2": _TradeUnit("m2"),
    "m3": _TradeUnit("l", 1e3),
    "m/s": _TradeUnit("m/s", decimals=2),
    "kg/s": _TradeUnit("kg/h", 3600.0),
    "m3/s": _TradeUnit("l/min", 6e4, 2),
    "Pa": _TradeUnit("kPa", 1e-3),
    "W": _TradeUnit("W", decimals=0),
    "W/m2": _TradeUnit("W/m2"),
    "W/(m2.K)": _TradeUnit("W/(m2.K)", decimals=2),
    "W/(m.K)": _TradeUnit("W/(m.K)", decimals=2),
    "m2.K/W": _TradeUnit("m2.K/W", decimals=2),
    "m2/m": _TradeUnit("mm2/m", 1e6, 0),
    "1/h": _TradeUnit("per hour", decimals=2),
    "N": _TradeUnit("kN", 1e-3),
    "N/m2": _TradeUnit("kN/m2", 1e-3),
    "m3/h": _TradeUnit("m3/h", decimals=2),
    "s": _TradeUnit("h", 1.0 / 3600.0),
    "rad": _TradeUnit("degrees", 180.0 / math.pi, 0),
}
_MILLIMETRES = _TradeUnit("mm", 1e3, 0)
_SMALL_LENGTHS = {
    "clearance",
    "clear",
    "compressibility",
    "cover",
    "diameter",
    "distance",
    "pitch",
    "radius",
    "shift",
    "spacing",
    "thickness",
    "width",
}
"""Lengths whose name holds one of these words are read in millimetres."""
_PERCENT = _TradeUnit("%", 100.0, 0)
_BY_NAME = {
    "concentration": _PERCENT,
    "length_spread": _PERCENT,
    "temperature_spread": _PERCENT,
    "downward_share": _PERCENT,
    "reynolds": _TradeUnit("", decimals=0),
    "measured_carbide_moisture": _TradeUnit("CM-%", 100.0, 2),
    "relative_humidity": _PERCENT,
    "movement": _TradeUnit("mm", 1e3),
    "water_hardness": _TradeUnit("mol/m3", decimals=2),
    "test_energy": _TradeUnit("kJ", 1e-3, 2),
    "test_pressure": _TradeUnit("bar", 1e-5, 1),
    "opened_coils": _TradeUnit("coils", decimals=0),
    "points_needed": _TradeUnit("points", decimals=0),
    "circuit_count": _TradeUnit("circuits", decimals=0),
    "manifold_count": _TradeUnit("manifolds", decimals=0),
    "crossing_count": _TradeUnit("crossings", decimals=0),
}
_CALLED = {"reynolds": "Reynolds number"}
"""Numbers without a unit that need their name."""
_MOST_DECIMALS = 4


def in_trade_units(quantity: str, value: float) -> str:
    """A value of the glossary's ``quantity`` with its unit, such as ``0.25 l/min``."""
    shown, _ = _told_apart(quantity, value, 0.0)
    return shown


def value_and_limit(quantity: str, value: float | None, limit: float | None, limit_is: str = "") -> str:
    """Both as words, ``0.25 l/min, at least 0.50 l/min``, with as many decimals as it takes to tell them apart;
    ``limit_is`` stands in place of at least and at most."""
    if value is None:
        return "" if limit is None else f"at most {in_trade_units(quantity, limit)}"
    called = f"{_CALLED[quantity]} " if quantity in _CALLED else ""
    if limit is None:
        return called + in_trade_units(quantity, value)
    shown, beside = _told_apart(quantity, value, limit)
    bound = limit_is or ("at least" if value < limit else "at most")
    return f"{called}{shown}, {bound} {beside}"


def _told_apart(quantity: str, value: float, other: float) -> tuple[str, str]:
    """Both with their unit, and with as many decimals as it takes to tell them apart, up to ``_MOST_DECIMALS``."""
    name, factor, least = _unit(quantity)
    scaled, beside = value * factor, other * factor
    for decimals in range(least, _MOST_DECIMALS + 1):
        one, two = _digits(scaled, decimals), _digits(beside, decimals)
        if one != two or value == other:
            break
    return (f"{one} {name}", f"{two} {name}") if name else (one, two)


@cache
def _unit(quantity: str) -> _TradeUnit:
    if quantity in _BY_NAME:
        return _BY_NAME[quantity]
    entry = lookup(quantity)
    unit = entry.unit if isinstance(entry, Number) else "1"
    if unit == "m" and _SMALL_LENGTHS & set(quantity.split("_")):
        return _MILLIMETRES
    return _BY_SI_UNIT.get(unit, _TradeUnit(unit, decimals=2))


def _digits(scaled: float, decimals: int) -> str:
    """Without the sign of a negative zero."""
    number = f"{scaled:.{decimals}f}"
    return number.lstrip("-") if number[0] == "-" and not float(number) else number
