"""The chain of values behind a heat loss, to be redone by hand."""

from __future__ import annotations

from collections.abc import Iterator

from ..results import Working
from . import ground as soil
from .air import AIR_HEAT_CAPACITY, outside_air_change, ventilation_loss
from .balance import Balance
from .faces import Face
from .records import Construction, Surface
from .u_values import EXTERNAL_RESISTANCE, INTERNAL_RESISTANCE, resistance_bounds

__all__ = ["loss_workings"]

_STANDARD = "EN 12831-1:2017"
_LAYERS = "ISO 6946:2017"
_GROUND = "ISO 13370:2017"


def loss_workings(balance: Balance) -> tuple[Working, ...]:
    return (
        *_construction_workings(balance),
        *_ground_workings(balance),
        *_space_workings(balance),
        *(step for index in range(len(balance.rooms)) for step in _room_workings(balance, index)),
    )


def _faces(balance: Balance) -> Iterator[Face]:
    return (
        face for room in balance.rooms for face in room.faces if face.given and face.beyond != "adiabatic"
    )


def _construction_workings(balance: Balance) -> Iterator[Working]:
    seen = set()
    for face in _faces(balance):
        if face.construction is None or not face.construction.layers:
            continue
        inner = INTERNAL_RESISTANCE[face.surface]
        outer = EXTERNAL_RESISTANCE if face.beyond in ("outside", "ground") else inner
        key = (face.construction.id, inner, outer)
        if key not in seen:
            seen.add(key)
            yield from _layer_workings(face.construction, face.surface, inner, outer)


def _layer_workings(
    construction: Construction, surface: Surface, inner: float, outer: float
) -> Iterator[Working]:
    bounds = resistance_bounds(construction.layers, inner + outer)
    faces, mixed = "conventional surface resistances", "inhomogeneous layers"
    rows = (
        ("R_si", "inner surface resistance", inner, "by direction of heat flow", faces),
        ("R_se", "resistance of the other surface", outer, "0.04 in the open, else as R_si", faces),
        ("R_upper", "upper limit", bounds.upper, "1 / sum(share of section / its R)", mixed),
        ("R_lower", "lower limit", bounds.lower, "R_si + sum of layers 1/sum(share/R) + R_se", mixed),
    )
    label = f"{construction.name or construction.id}, {surface}"
    for symbol, name, value, formula, part in rows:
        yield Working(symbol, f"{label}: {name}", value, "m2.K/W", formula, f"{_LAYERS}, {part}")
    u_value = 1.0 / bounds.mean
    yield Working("U", f"{label}: U-value", u_value, "W/(m2.K)", "2 / (R_upper + R_lower)", _LAYERS)


_FLOOR_FORMULA = (
    "2 lambda_g / (pi B' + d) ln(pi B'/d + 1) for d = d_f + z/2 < B', else lambda_g / (0.457 B' + d); "
    "edge insulation + 2 psi/B'"
)
_WALL_FORMULA = "2 lambda_g / (pi z) (1 + 0.5 d_f / (d_f + z)) ln(z/d_w + 1)"


def _ground_workings(balance: Balance) -> Iterator[Working]:
    grounded = [face for face in _faces(balance) if face.beyond == "ground"]
    suspended = [face for face in _faces(balance) if face.over_balanced_space]
    if not grounded and not suspended:
        return
    whole = balance.ground
    if whole is not None:
        rows = (
            ("A", "floor on the ground", whole.floor_area, "m2", "given or sum of the rooms"),
            ("P", "exposed perimeter", whole.exposed_perimeter, "m", "given or sum of outer walls"),
            ("B'", "characteristic dimension", whole.characteristic_dimension, "m", "A / (0.5 P)"),
        )
        for symbol, name, value, unit, formula in rows:
            yield Working(symbol, name, value, unit, formula, _GROUND)
    name = "factor of the year's swing and of groundwater"
    formula = "1.45, times 1.15 for groundwater at most 1 m below the floor"
    yield Working("f_ground", name, balance.ground_factor, "1", formula, _STANDARD)
    for face in grounded:
        floor = face.surface == "floor"
        symbol, formula = (
            ("d_f", "w + lambda_g / (U + Delta U_TB)") if floor else ("d_w", "lambda_g / (U + Delta U_TB)")
        )
        thickness, u_value = balance.equivalent_thickness(face), balance.u_value(face)
        yield Working(symbol, f"{face.pointer}: equivalent thickness", thickness, "m", formula, _GROUND)
        formula = _FLOOR_FORMULA if floor else _WALL_FORMULA
        yield Working("U_g", f"{face.pointer}: U-value with the soil", u_value, "W/(m2.K)", formula, _GROUND)
    if suspended:
        yield from _underfloor_workings(balance, suspended)


def _underfloor_workings(balance: Balance, suspended: list[Face]) -> Iterator[Working]:
    to_soil, to_outside = balance.underfloor
    source = f"{_GROUND}, suspended floors"
    yield Working("U_g", "underfloor space to the soil", to_soil, "W/(m2.K)", _BASE_FORMULA, source)
    yield Working("U_x", "underfloor space to the outside", to_outside, "W/(m2.K)", _OPEN_FORMULA, source)
    for face in suspended:
        floor = balance.u_value(face)
        whole = float(soil.suspended_floor_u_value(floor, to_soil, to_outside))
        yield Working("U_f", f"{face.pointer}: floor", floor, "W/(m2.K)", "U + Delta U_TB", source)
        formula = "1 / (1 / U_f + 1 / (U_g + U_x)); over the year, not for the coldest time"
        yield Working("U", f"{face.pointer}: floor and space", whole, "W/(m2.K)", formula, source)
        yield Working(
            "theta_x",
            f"{face.pointer}: underfloor space",
            balance.temperature_beyond(face),
            "degC",
            "(U_f theta_i + U_g theta_s + U_x theta_e) / (U_f + U_g + U_x), "
            "theta_s = theta_i - f_ground (theta_i - theta_m,e)",
            "heat balance of the space, with the soil of EN 12831-1:2017",
        )


_BASE_FORMULA = "2 lambda_g / (pi B' + d_g) ln(pi B'/d_g + 1), d_g = w + lambda_g (0.17 + R_g + 0.04)"
_OPEN_FORMULA = "2 h U_w / B' + 1450 epsilon v f_w / B', f_w 0.02 sheltered, 0.05 average, 0.10 exposed"


def _space_workings(balance: Balance) -> Iterator[Working]:
    for space in balance.inputs.unheated_spaces:
        if space.ground_contact is not None:
            yield Working(
                "H_g",
                f"{space.name or space.id}: to the soil",
                balance.space_to_soil(space),
                "W/K",
                "A U_bf + z P U_bw",
                f"{_GROUND}, unheated basements",
            )
        yield Working(
            "theta_u",
            f"{space.name or space.id}: temperature",
            balance.space_temperatures[space.id],
            "degC",
            "given, or (sum A U theta_i + H_ue theta_e + H_g theta_s) / (sum A U + H_ue + H_g), H_ue with 0.33 n V, "
            "theta_s = theta_m - f_ground (theta_m - theta_m,e), theta_m the mean of theta_i by A U",
            f"{_LAYERS}, unheated spaces, as a heat balance",
        )


def _room_workings(balance: Balance, index: int) -> Iterator[Working]:
    room, faces = balance.inputs.rooms[index], balance.rooms[index]
    label = room.name or room.id
    for item in balance.element_losses[index]:
        formula = "A U (theta_i - theta_x)"
        if item.beyond == "ground":
            formula = "f_ground A U_g (theta_i - theta_m,e)"
        elif item.beyond in ("outside", "underfloor_space", "unheated"):
            formula = "A (U + Delta U_TB) (theta_i - theta_x)"
        if item.through_heated_floor:
            formula += ", not in Phi_T"
        yield Working("Phi_k", f"{label}: {item.where}", item.heat_loss, "W", formula, _STANDARD)
    counted = [item.heat_loss for item in balance.element_losses[index] if not item.through_heated_floor]
    air = ventilation_loss(room, faces.volume, balance.inputs.external_temperature)
    reheat = faces.area * room.reheat_per_area
    rows = (
        ("A_i", "floor area", faces.area, "m2", "given or from the outline"),
        ("V_i", "volume", faces.volume, "m3", "A_i times clear or storey height"),
        ("n", "air change by leaks and windows", outside_air_change(room), "1/h", "given, or 0.5"),
        ("Phi_T", "transmission", sum(counted), "W", "sum of Phi_k without the heated floor"),
        (
            "Phi_V",
            "ventilation",
            air,
            "W",
            f"{AIR_HEAT_CAPACITY:g} [n V_i / 3600 (theta_i - theta_e) + q_v (theta_i - theta_sup)]",
        ),
        ("Phi_hu", "reheat", reheat, "W", "A_i times power per area"),
        ("Phi_HL", "heat demand", sum(counted) + air + reheat, "W", "Phi_T + Phi_V + Phi_hu"),
    )
    for symbol, name, value, unit, formula in rows:
        yield Working(symbol, f"{label}: {name}", value, unit, formula, _STANDARD)
