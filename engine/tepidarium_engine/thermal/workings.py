"""The chain of values behind a characteristic curve, its limit and the loss downwards, to be redone by
hand."""

from __future__ import annotations

from collections.abc import Iterator

from ..elementwise import ROUND_OFF
from ..results import Working
from . import characteristic as curve
from .floor import FloorSection, floor_characteristic, floor_limit, floor_resistance_above
from .limit_curves import TABLE_SWITCH

__all__ = ["characteristic_workings", "limit_workings", "loss_workings"]

_STANDARD = "EN 1264-2, type A"


def characteristic_workings(floor: FloorSection) -> Iterator[Working]:
    """From the section to K_H."""
    c = floor_characteristic(floor)
    spacing = min(floor.pipe_spacing, curve.WIDEST_SPACING)
    product = (
        c.covering_factor
        * c.spacing_factor**c.spacing_exponent
        * c.cover_factor**c.cover_exponent
        * c.diameter_factor**c.diameter_exponent
    )
    wall = curve.wall_resistance_difference(floor.pipe)
    yield Working("T", "spacing within the tables", spacing, "m", "min(pipe spacing, 0.375)", _STANDARD)
    yield Working(
        "a_B",
        "covering factor",
        c.covering_factor,
        "1",
        "(1/10.8 + 0.045/1) / (1/10.8 + 0.045/lambda_E + min(R_lambda,B, 0.15))",
        _STANDARD,
    )
    yield Working(
        "a_T",
        "spacing factor",
        c.spacing_factor,
        "1",
        "table, linear in R_lambda,B",
        f"{_STANDARD}, Table A.1",
    )
    yield Working("m_T", "spacing exponent", c.spacing_exponent, "1", "1 - T/0.075", _STANDARD)
    yield Working(
        "a_U",
        "cover factor",
        c.cover_factor,
        "1",
        "table, linear in T and R_lambda,B",
        f"{_STANDARD}, Table A.2",
    )
    yield Working(
        "m_U",
        "cover exponent",
        c.cover_exponent,
        "1",
        "100 (0.045 - s_u), s_u at most max(0.100, T/2)",
        _STANDARD,
    )
    yield Working(
        "a_D",
        "diameter factor",
        c.diameter_factor,
        "1",
        "table, linear in T and R_lambda,B",
        f"{_STANDARD}, Table A.3",
    )
    yield Working(
        "m_D",
        "diameter exponent",
        c.diameter_exponent,
        "1",
        "250 (min(D, 0.030) - 0.020), D outside diameter with sheath",
        _STANDARD,
    )
    yield Working("Pi", "product of the factors", product, "1", "a_B a_T^m_T a_U^m_U a_D^m_D", _STANDARD)
    yield Working(
        "Delta R",
        "wall and sheath against the reference pipe",
        wall,
        "m.K/W",
        "[ln(d_M/d_a)/(2 lambda_M)] + ln(d_a/(d_a - 2 s_R))/(2 lambda_R) - ln(D/(D - 0.004))/(2 * 0.35)",
        f"{_STANDARD}, pipe material and sheath",
    )
    yield Working(
        "B",
        "system coefficient",
        c.system_coefficient,
        "W/(m2.K)",
        "1 / (1/6.7 + 1.1/pi * Pi * T * Delta R)",
        f"{_STANDARD}, pipe material and sheath",
    )
    yield Working(
        "R_+",
        "cover and covering beyond the tables, in series",
        c.added_resistance,
        "m2.K/W",
        "(s_u - max(0.100, T/2))/lambda_E + (R_lambda,B - 0.15), each where positive",
        f"{_STANDARD}, thick cover; the part for the covering is an estimate outside the standard",
    )
    yield Working(
        "K_H",
        "heat transmittance",
        c.heat_transmittance,
        "W/(m2.K)",
        "1 / (1/(B Pi) + R_+) * T / pipe spacing",
        _STANDARD,
    )


def limit_workings(
    floor: FloorSection, heat_transmittance: float, surface_excess: float
) -> Iterator[Working]:
    """From K_H and the permitted surface excess [K] to the limit."""
    limit = floor_limit(floor, heat_transmittance, surface_excess)
    ratio = floor.screed_cover / floor.screed_conductivity
    thin = ratio <= TABLE_SWITCH + ROUND_OFF
    tables = ("A.4", "A.6") if thin else ("A.5", "A.7")
    entered = "linear in T and s_u/lambda_E" if thin else "linear in s_u/T"
    yield Working("s_u/lambda_E", "choice of tables", ratio, "m2.K/W", "up to 0.0792: A.4 and A.6", _STANDARD)
    yield Working(
        "B_G",
        "limit coefficient",
        limit.coefficient,
        "W/m2",
        f"table, {entered}",
        f"EN 1264-2, Table {tables[0]}",
    )
    yield Working(
        "n_G", "limit exponent", limit.exponent, "1", f"table, {entered}", f"EN 1264-2, Table {tables[1]}"
    )
    yield Working(
        "phi",
        "surface factor",
        limit.surface_factor,
        "1",
        "((theta_F,max - theta_i) / 9)^1.1",
        "EN 1264-2, limit curves",
    )
    yield Working(
        "q_G,max",
        "basic curve at the limit",
        limit.maximum_heat_output,
        "W/m2",
        "8.92 (theta_F,max - theta_i)^1.1",
        "EN 1264-2, basic characteristic curve",
    )
    yield Working(
        "f_G",
        "factor of wide spacing",
        limit.wide_spacing_factor,
        "1",
        "1 up to 0.375 m; beyond (q_G,max - (q_G,max - q_0) exp(-20 (s_u/T - 0.173)^2)) / q_0 "
        "with q_0 = q_G(0.375) * 0.375/T",
        "EN 1264-2, spacings above 0.375 m",
    )
    yield Working(
        "q_G",
        "limit heat output",
        limit.heat_output,
        "W/m2",
        "min(K phi (B_G/K)^(1/(1 - n_G)), q_G,max) * min(1, 0.375/T) * f_G, K = K_H at T up to 0.375 m",
        "EN 1264-2, limit curves",
    )
    yield Working(
        "Delta theta_H,G",
        "limit excess temperature",
        limit.excess_temperature,
        "K",
        "q_G / K_H",
        "EN 1264-2, limit curves",
    )


def loss_workings(floor: FloorSection, heat_output: float, room: float, below: float) -> Iterator[Working]:
    """From the heat output [W/m2] to the loss downwards."""
    above = floor_resistance_above(floor)
    loss = curve.downward_heat_loss(heat_output, above, floor.resistance_below, room, below)
    yield Working(
        "R_o",
        "resistance above the pipes",
        above,
        "m2.K/W",
        "1/10.8 + R_lambda,B + s_u/lambda_E",
        "EN 1264-2, downward heat flow",
    )
    yield Working(
        "q_u",
        "downward heat loss",
        loss,
        "W/m2",
        "(R_o q + theta_i - theta_u) / R_u",
        "EN 1264-2, downward heat flow",
    )
