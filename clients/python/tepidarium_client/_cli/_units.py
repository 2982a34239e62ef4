"""Numbers as the trade reads them: mm, m, kPa, l/min, degC, from the SI values of the service."""

from __future__ import annotations

from dataclasses import dataclass

from .._units import UNITS

__all__ = ["TradeUnit", "in_si", "in_trade", "label", "trade_unit", "with_row_unit"]


@dataclass(frozen=True, slots=True)
class TradeUnit:
    """How a quantity is shown: SI value times ``factor``, with so many ``decimals``."""

    name: str
    factor: float = 1.0
    decimals: int | None = None

    def show(self, value: float) -> str:
        number = value * self.factor
        return f"{number:.6g}" if self.decimals is None else f"{number:.{self.decimals}f}"


_BY_SI_UNIT = {
    "1": TradeUnit("", 1.0, 3),
    "d": TradeUnit("d", 1.0, 0),
    "degC": TradeUnit("°C", 1.0, 1),
    "K": TradeUnit("K", 1.0, 1),
    "m": TradeUnit("m", 1.0, 1),
    "m2": TradeUnit("m2", 1.0, 1),
    "m3": TradeUnit("l", 1e3, 1),
    "m/s": TradeUnit("m/s", 1.0, 2),
    "kg/s": TradeUnit("kg/h", 3600.0, 1),
    "m3/s": TradeUnit("l/min", 6e4, 2),
    "Pa": TradeUnit("kPa", 1e-3, 2),
    "Pa/m": TradeUnit("Pa/m", 1.0, 0),
    "W": TradeUnit("W", 1.0, 0),
    "W/K": TradeUnit("W/K", 1.0, 1),
    "W/m2": TradeUnit("W/m2", 1.0, 1),
    "W/(m2.K)": TradeUnit("W/(m2.K)", 1.0, 3),
    "W/(m.K)": TradeUnit("W/(m.K)", 1.0, 2),
    "m2.K/W": TradeUnit("m2.K/W", 1.0, 3),
    "1/m": TradeUnit("m/m2", 1.0, 2),
    "1/h": TradeUnit("1/h", 1.0, 2),
    "N": TradeUnit("kN", 1e-3, 2),
    "N/m2": TradeUnit("kN/m2", 1e-3, 2),
    "kg/m2": TradeUnit("kg/m2", 1.0, 0),
    "kg/(s.m2)": TradeUnit("kg/(h.m2)", 3600.0, 2),
    "kg/kg": TradeUnit("%", 100.0, 2),
    "m3/h": TradeUnit("m3/h", 1.0, 3),
    "s": TradeUnit("h", 1.0 / 3600.0, 2),
    "J/m2": TradeUnit("kWh/m2", 1.0 / 3.6e6, 3),
    "W/m": TradeUnit("W/m", 1.0, 1),
    "m.K/W": TradeUnit("m.K/W", 1.0, 3),
    "kg": TradeUnit("kg", 1.0, 0),
    "kg/m3": TradeUnit("kg/m3", 1.0, 0),
    "J": TradeUnit("kJ", 1e-3, 2),
    "Pa/K": TradeUnit("kPa/K", 1e-3, 2),
    "m3/W": TradeUnit("l/kW", 1e6, 1),
    "mol/m3": TradeUnit("mol/m3", 1.0, 2),
    "S/m": TradeUnit("uS/cm", 1e4, 0),
    "deg": TradeUnit("degrees", 1.0, 1),
}

_MILLIMETRES = TradeUnit("mm", 1e3, 0)
_FINE_MILLIMETRES = TradeUnit("mm", 1e3, 3)
_IN_MILLIMETRES = {
    "clearance",
    "compressibility",
    "cover",
    "diameter",
    "radius",
    "spacing",
    "spacings",
    "thickness",
}
"""Lengths whose name holds one of these words are small."""

_SI_NAMES = {"1": "", "degC": "°C"}
"""Units of the document as people write them, where they differ."""

_PERCENT = TradeUnit("%", 100.0, 1)
_FINE_MOVEMENT = TradeUnit("mm", 1e3, 1)
_METRE_MARK = TradeUnit("m", 1.0, 2)

_BY_NAME = {
    "volume": TradeUnit("m3", 1.0, 1),
    "film_thickness": TradeUnit("mm", 1e3, 2),
    "film_lap": _MILLIMETRES,
    "fixing_distance": _MILLIMETRES,
    "distance": _MILLIMETRES,
    "allowed_movement": _FINE_MOVEMENT,
    "movement": _FINE_MOVEMENT,
    "edge_movement_limit": _FINE_MOVEMENT,
    "edge_strip_height": _MILLIMETRES,
    "infeed_spacer_length": _MILLIMETRES,
    "mark": _METRE_MARK,
    "coil_mark": _METRE_MARK,
    "start_mark": _METRE_MARK,
    "end_mark": _METRE_MARK,
    "core_mark": _METRE_MARK,
    "coil_start_mark": _METRE_MARK,
    "coil_end_mark": _METRE_MARK,
    "screed_volume": TradeUnit("m3", 1.0, 2),
    "volume_for_loss": TradeUnit("l", 1e3, 3),
    "flushing_time": TradeUnit("min", 1.0 / 60.0, 1),
    "from_datum": TradeUnit("m", 1.0, 3),
    "step_length": TradeUnit("m", 1.0, 3),
    "waste_share": _PERCENT,
    "moisture": TradeUnit("%", 100.0, 2),
    "highest": TradeUnit("%", 100.0, 2),
    "margin": TradeUnit("%", 100.0, 2),
    "concentration_by_volume": TradeUnit("%", 100.0, 0),
    "concentration_by_mass": TradeUnit("%", 100.0, 0),
    "unit_price": TradeUnit("", 1.0, 2),
    "cost": TradeUnit("", 1.0, 2),
    "total_cost": TradeUnit("", 1.0, 2),
    "bay_width": _MILLIMETRES,
    "spacer_length": _MILLIMETRES,
    "tail_pitch": _MILLIMETRES,
    "place": TradeUnit("m", 1.0, 2),
    "manifold_width": TradeUnit("m", 1.0, 2),
    "length_spread": _PERCENT,
    "coverage_half": _PERCENT,
    "coverage_three_quarters": _PERCENT,
    "temperature_spread": _PERCENT,
    "wall_thickness": TradeUnit("mm", 1e3, 1),
    "roughness": _FINE_MILLIMETRES,
    "head": TradeUnit("m", 1.0, 2),
    "head_best_estimate": TradeUnit("m", 1.0, 2),
    "hydraulic_power": TradeUnit("W", 1.0, 1),
    "pump_power": TradeUnit("W", 1.0, 1),
    "power_difference": TradeUnit("W", 1.0, 1),
    "pressure_gradient": TradeUnit("Pa/m", 1.0, 0),
    "relative_humidity": TradeUnit("%", 100.0, 0),
    "required_concentration": TradeUnit("%", 100.0, 0),
    "primary_share": TradeUnit("%", 100.0, 0),
    "recirculated_share": TradeUnit("%", 100.0, 0),
    "open_flow_ratio": TradeUnit("%", 100.0, 0),
    "flow_ratio": TradeUnit("%", 100.0, 0),
    "fixings": TradeUnit("", 1.0, 0),
    "reynolds": TradeUnit("", 1.0, 0),
    "value": TradeUnit(""),
    "limit": TradeUnit(""),
}


def trade_unit(name: str) -> TradeUnit:
    """How the field ``name`` is shown to people; numbers of unknown unit are shown as they are."""
    if name in _BY_NAME:
        return _BY_NAME[name]
    unit = UNITS.get(name, "")
    if unit == "m" and _IN_MILLIMETRES.intersection(name.split("_")):
        return _MILLIMETRES
    return _BY_SI_UNIT.get(unit, TradeUnit(unit))


def with_row_unit(value: float, unit: str) -> str:
    """A value whose SI unit stands in its row; cubic metres from half of one on stay such."""
    if unit == "1":
        return f"{value:.0f}"
    if unit == "m3" and value >= 0.5:
        return f"{value:.2f} m3"
    shown = _BY_SI_UNIT.get(unit, TradeUnit(unit))
    return f"{shown.show(value)} {shown.name}".rstrip()


def in_trade(name: str, value: float) -> str:
    """``150 mm`` for a pipe spacing of 0.15."""
    unit = trade_unit(name)
    return f"{unit.show(value)} {unit.name}".rstrip()


def in_si(name: str, value: float) -> str:
    """``0.15 m`` for a pipe spacing of 0.15, as the request file holds it."""
    unit = UNITS.get(name, "")
    return f"{value:g} {_SI_NAMES.get(unit, unit)}".rstrip()


def label(name: str) -> str:
    """A field name as words."""
    return name.replace("_", " ")
