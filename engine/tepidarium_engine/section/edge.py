"""The outermost bay of a floor, with its cold edge."""

from __future__ import annotations

import numpy as np

from ..conduction.plane import Sides, solve_plane
from .bay import Case
from .contract import FloorSectionInputs
from .records import EdgeResult, ProfilePoint

__all__ = ["edge_result", "edge_sides"]


def edge_sides(inputs: FloorSectionInputs, case: Case) -> Sides:
    """What surrounds the bay: its like on both sides, or the cold edge on one."""
    edge = inputs.cold_edge
    if edge is None:
        return Sides(case.water_excess, case.excess_below)
    return Sides(
        case.water_excess,
        case.excess_below,
        edge.temperature - inputs.room_temperature,
        edge.distance,
        edge.resistance,
    )


def edge_result(inputs: FloorSectionInputs, case: Case) -> EdgeResult | None:
    """The outermost bay, whose surface gives off heat with the coefficient of the bays inside."""
    if inputs.cold_edge is None:
        return None
    field = solve_plane(case.bay, case.water.water, edge_sides(inputs, case))
    across, room = field.plane.across, inputs.room_temperature
    width = float(across[-1])
    middles = ((across[1:] + across[:-1]) / 2.0).tolist()
    surface = [room + value for value in field.surface.tolist()]
    return EdgeResult(
        bay_width=width,
        heat_output=field.up / width,
        downward_heat_loss=field.down / width,
        edge_heat_loss=field.edge,
        water_heat=field.water / width,
        mean_surface_temperature=room + float((field.surface * np.diff(across)).sum()) / width,
        lowest_surface_temperature=min(surface),
        surface_profile=tuple(map(ProfilePoint, middles, surface)),
    )
