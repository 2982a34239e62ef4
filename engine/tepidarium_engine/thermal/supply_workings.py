"""The chain of values behind a supply temperature and the drops of the other rooms."""

from __future__ import annotations

from collections.abc import Iterator

from ..results import Working
from . import dimensioning
from .heated_room import HeatedRoom, Need, operate, room_loss
from .spacing_choice import Candidate
from .workings import characteristic_workings, limit_workings, loss_workings

__all__ = ["governing_workings", "other_workings"]

_SUPPLY = "EN 1264-3, supply temperature"
_OTHER = "EN 1264-3, other rooms on the same supply"
_FLOW = "EN 1264-3, water flow; c_W = 4190 J/(kg.K)"


def governing_workings(chosen: Candidate, temperature_drop: float) -> Iterator[Working]:
    """The governing room at the chosen spacing."""
    room, need = chosen.room, chosen.need
    mean, demand = need.mean_excess_temperature, room.required_heat_output
    yield from characteristic_workings(room.floor)
    yield Working("Delta theta_H", "mean excess temperature", mean, "K", "q / K_H", "EN 1264-2")
    yield from _supply_workings(room, mean, temperature_drop)
    yield from limit_workings(
        room.floor, need.heat_transmittance, room.surface_temperature_limit - room.room_temperature
    )
    yield from loss_workings(room.floor, demand, room.room_temperature, room.temperature_below)
    flow = dimensioning.circuit_mass_flow(1.0, demand, room_loss(room, demand), temperature_drop)
    yield Working("m", "water per floor area", flow, "kg/(s.m2)", "(q + q_u) / (sigma c_W)", _FLOW)


def _supply_workings(room: HeatedRoom, mean: float, drop: float) -> Iterator[Working]:
    exact = dimensioning.supply_excess(mean, drop)
    yield Working(
        "Delta theta_V",
        "supply excess, exact",
        exact,
        "K",
        "sigma / (1 - exp(-sigma / Delta theta_H))",
        "EN 1264-2, mean excess temperature solved for the supply",
    )
    yield Working(
        "Delta theta_V,short",
        "supply excess by the short rule, for comparison",
        mean + 0.5 * drop,
        "K",
        "Delta theta_H + sigma/2, meant for sigma/Delta theta_H up to 0.5",
        _SUPPLY,
    )
    yield Working(
        "Delta theta_V,quadratic",
        "supply excess by the quadratic rule, for comparison",
        mean + 0.5 * drop + drop**2 / (12.0 * mean),
        "K",
        "Delta theta_H + sigma/2 + sigma^2 / (12 Delta theta_H)",
        _SUPPLY,
    )
    supply = room.room_temperature + exact
    yield Working("theta_V", "supply temperature", supply, "degC", "theta_i + Delta theta_V", _SUPPLY)
    yield Working("theta_R", "return temperature", supply - drop, "degC", "theta_V - sigma", _SUPPLY)


def other_workings(
    name: str, room: HeatedRoom, need: Need, supply: float, usual_drop: float
) -> Iterator[Working]:
    """Another room on the supply [degC]."""
    excess, mean = supply - room.room_temperature, need.mean_excess_temperature
    operation = operate(room, need, supply, usual_drop)
    yield Working(
        "K_H,j", f"{name}: heat transmittance", need.heat_transmittance, "W/(m2.K)", "as above", "EN 1264-2"
    )
    yield Working(
        "Delta theta_H,j", f"{name}: mean excess temperature", mean, "K", "q_j / K_H,j", "EN 1264-2"
    )
    if operation.reached:
        yield Working(
            "sigma_j",
            f"{name}: temperature drop",
            operation.temperature_drop,
            "K",
            "Delta theta_V = sigma / (1 - exp(-sigma / Delta theta_H,j)), solved for sigma",
            "EN 1264-2, mean excess temperature",
        )
        yield Working(
            "sigma_j,rule",
            f"{name}: temperature drop by the rule of the standard, for comparison",
            dimensioning.standard_drop_on_supply(excess, mean),
            "K",
            "2 (Delta theta_V - Delta theta_H,j) if at most half of Delta theta_H,j, else "
            "3 Delta theta_H,j (sqrt(1 + 4 (Delta theta_V - Delta theta_H,j) / (3 Delta theta_H,j)) - 1)",
            _OTHER,
        )
    else:
        yield Working(
            "q_j",
            f"{name}: heat output with the usual drop",
            operation.heat_output,
            "W/m2",
            "K_H,j times the logarithmic mean at theta_V and theta_V - sigma",
            "EN 1264-2",
        )
    yield Working(
        "theta_R,j",
        f"{name}: return temperature",
        operation.return_temperature,
        "degC",
        "theta_V - sigma_j",
        _OTHER,
    )
    yield Working(
        "q_u,j",
        f"{name}: downward heat loss",
        operation.downward_heat_loss,
        "W/m2",
        "(R_o q + theta_i - theta_u) / R_u",
        "EN 1264-2, downward heat flow",
    )
    yield Working(
        "m_j",
        f"{name}: water per floor area",
        operation.mass_flow_per_area,
        "kg/(s.m2)",
        "(q_j + q_u,j) / (sigma_j c_W)",
        _FLOW,
    )
