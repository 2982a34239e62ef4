"""The chain of intermediate values of a design, room by room."""

from __future__ import annotations

from collections.abc import Iterator

from ..results import Working
from .asked_rooms import rooms_to_heat
from .floors import RoomToHeat
from .outcome import DesignsResult, RoomDesign
from .records import DesignsInputs

__all__ = ["design_workings"]

_Row = tuple[str, str, float, str, str, str]
"""Symbol, name, value, unit, formula and source."""


def design_workings(inputs: DesignsInputs, result: DesignsResult) -> tuple[Working, ...]:
    chain = list(_supply(result))
    for heated, room in zip(rooms_to_heat(inputs), result.rooms, strict=True):
        chain += _room(heated, room, result)
    chain += _water(result)
    return tuple(chain)


def _supply(result: DesignsResult) -> Iterator[Working]:
    yield Working(
        "theta_V",
        f"supply temperature, set by {result.governing_room}",
        result.supply_temperature,
        "degC",
        "theta_V = theta_i + sigma / (1 - exp(-sigma / dtheta_H)), the highest of all rooms that count",
        "EN 1264-3, supply temperature; EN 1264-2, logarithmic mean solved for the supply",
    )


def _tails(room: RoomDesign) -> Iterator[_Row]:
    """Of other rooms, where they pass."""
    if room.tails_area:
        yield ("A_t", "floor of tails", room.tails_area, "m2", "lanes of the drawing", "geometry")
        yield (
            "Phi_t",
            "heat from tails",
            room.tails_heat,
            "W",
            "Phi_t = sum of g l (theta - theta_i), l length of tails, theta supply or return, g heat per metre and "
            "kelvin with the floor that is free beside them",
            "steady heat conduction in the section; insulation in series",
        )


def _room(heated: RoomToHeat, room: RoomDesign, result: DesignsResult) -> Iterator[Working]:
    rows: list[_Row] = [("A", "floor area", room.area, "m2", "outline minus voids, or as given", "geometry")]
    rows += _tails(room)
    rows += _field(heated, room)
    rows += [
        (
            "theta_F",
            "mean surface temperature",
            room.mean_surface_temperature,
            "degC",
            "theta_F = theta_i + (q / 8.92)^(1/1.1)" + ("" if room.circuit_ids else ", q = Phi_t / A"),
            "EN 1264-2, basic characteristic curve",
        ),
        (
            "Phi_u",
            "heat lost downwards",
            room.downward_heat_flow,
            "W",
            "Phi_u = (A - A_t) (R_o q + theta_i - theta_u) / R_u, and below tails",
            "EN 1264-3",
        ),
        ("L", "pipe", room.pipe_length, "m", "L = served area / T + tails of each circuit", "geometry"),
    ]
    for symbol, name, value, unit, formula, source in rows:
        yield Working(symbol, f"{heated.label}: {name}", value, unit, formula, source)


def _field(heated: RoomToHeat, room: RoomDesign) -> Iterator[_Row]:
    """Of the room's own circuits, where it has any."""
    spacing, limit, drop = room.pipe_spacing, room.limit_heat_output, room.temperature_drop
    entering = room.field_supply_temperature
    if spacing is None or limit is None or drop is None or entering is None:
        return
    choice = heated.choice(spacing)
    slope = choice.heat_transmittance
    yield from (
        (
            "q_des",
            "required output",
            room.required_heat_output,
            "W/m2",
            "q_des = (Phi - Phi_t) / (A - A_t)" if room.tails_area else "q_des = Phi / A",
            "EN 1264-3",
        ),
        (
            "K_H",
            "slope at the chosen spacing",
            slope,
            "W/(m2.K)",
            "K_H = B a_B a_T^mT a_U^mU a_D^mD" + (", mean of strip and rest by area" if choice.strip else ""),
            "EN 1264-2",
        ),
        (
            "q_G",
            "limit output",
            limit,
            "W/m2",
            "q_G = phi B_G (dtheta_H/phi)^nG"
            + (", where strip or rest is at its limit" if choice.strip else ""),
            "EN 1264-2",
        ),
        (
            "q",
            "output at the design's flow",
            room.heat_output,
            "W/m2",
            "q = K_H dtheta_H <= q_G",
            "EN 1264-2",
        ),
        (
            "dtheta_H",
            "mean excess temperature",
            room.heat_output / slope,
            "K",
            "dtheta_H = q / K_H",
            "EN 1264-2",
        ),
        (
            "theta_f",
            "water that enters the field",
            entering,
            "degC",
            "theta_f = theta_V less what the tails lose on the way",
            "energy balance",
        ),
        (
            "sigma",
            "temperature drop",
            drop,
            "K",
            "theta_f - theta_i = sigma / (1 - exp(-sigma / dtheta_H)), solved for sigma",
            "EN 1264-2, mean excess temperature",
        ),
    )


def _water(result: DesignsResult) -> Iterator[Working]:
    yield Working(
        "m",
        "flow of all circuits",
        result.mass_flow,
        "kg/s",
        "m = sum of Phi_total / (c sigma)",
        "energy balance",
    )
    yield Working(
        "theta_R",
        "mixed return temperature",
        result.return_temperature,
        "degC",
        "theta_R = sum(m theta_R,i) / sum(m)",
        "energy balance",
    )
    yield Working(
        "dp",
        "pump pressure",
        result.pump.pressure,
        "Pa",
        "dp = index circuit with open valve, upper friction, + mains",
        "Churchill 1977; Colebrook 1939",
    )
