"""The section on its two grids, a plane and waves along the floor, against the steady solution, which is exact."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from tepidarium_engine import floor_section
from tepidarium_engine.conduction.network import Tridiagonal, network
from tepidarium_engine.conduction.plane import Sides, solve_plane
from tepidarium_engine.section.bay import Case, solved

from tests.sections.cases import BUILD_UPS

WARM = 20.0
"""Of the water over the room and what lies below [K]."""


@pytest.mark.parametrize("name", ["carpet", "slab without insulation"])
def test_grids_part_the_heat_as_the_exact_section_does(name: str) -> None:
    """The steady solution is exact but for a truncation: heat up and down on the plane and on waves."""
    case = solved(BUILD_UPS[name])
    up, down = case.water.up * WARM, (case.water.water - case.water.up) * WARM
    half = solve_plane(case.bay, case.water.water, Sides(WARM, 0.0))
    of_waves, waves = _on_waves(case)
    spacing = case.bay.spacing
    assert 2.0 * half.up / spacing == pytest.approx(up, rel=4e-4)
    assert 2.0 * half.down / spacing == pytest.approx(down, rel=4e-4)
    assert waves[0] / case.bay.surface_resistance == pytest.approx(up, rel=4e-4)
    assert of_waves == pytest.approx(down, rel=4e-4)


def test_grids_have_the_swing_of_the_exact_surface() -> None:
    """From above the pipe to amid two pipes. Waves come to it by the sum of the odd ones."""
    inputs = replace(
        BUILD_UPS["usual"],
        room_temperature=20.0,
        temperature_below=20.0,
        water_temperature=20.0 + WARM,
        surface_exchange="given",
        surface_coefficient=1.0 / solved(BUILD_UPS["usual"]).bay.surface_resistance,
    )
    exact, case = floor_section.calculate(inputs), solved(inputs)
    swing = exact.highest_surface_temperature - exact.lowest_surface_temperature
    surface = solve_plane(case.bay, case.water.water, Sides(WARM, 0.0)).surface
    assert float(surface[0] - surface[-1]) == pytest.approx(swing, rel=3e-3)
    _, waves = _on_waves(case)
    assert 2.0 * math.sqrt(2.0) * float(waves[1::2].sum()) == pytest.approx(swing, rel=3e-3)


def test_a_whole_bay_at_an_edge_that_holds_heat_is_one_of_a_row() -> None:
    """Nothing goes through an edge midway between two pipes that resists without end."""
    case = solved(BUILD_UPS["slab without insulation"])
    edge = Sides(WARM, 0.0, edge=0.0, distance=case.bay.spacing / 2.0, resistance=1e9)
    whole = solve_plane(case.bay, case.water.water, edge)
    assert whole.up / case.bay.spacing == pytest.approx(case.water.up * WARM, rel=3e-4)


def _on_waves(case: Case) -> tuple[float, Any]:
    """Heat down [W/m2] and excess of the surface by wave [K]."""
    bay = case.bay
    net = network(bay, case.water.water, [1e6] * len(bay.layers_below), 2e6, [1e6] * len(bay.layers_above))
    whole = net.diagonal.copy()
    whole[:, -1] += 1.0 / (net.half_cell + bay.surface_resistance)
    response = Tridiagonal(whole, net.off_diagonal).solve(net.injection)
    field = response * WARM / (net.link + float((net.injection * response).sum()))
    return float(field[0, 0]) * net.bottom, field[:, -1] * bay.surface_resistance / (
        net.half_cell + bay.surface_resistance
    )
