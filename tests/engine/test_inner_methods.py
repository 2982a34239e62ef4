"""Inner methods that whole answers hide, each by what mathematics asks of it or as its own text defines it."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest
from scipy.optimize import brentq
from tepidarium_engine.conduction.network import cells_upwards, network
from tepidarium_engine.conduction.plane import _offsets
from tepidarium_engine.conduction.steady import PipeRow
from tepidarium_engine.plan.judging.pipe_chords import Chords
from tepidarium_engine.plan.judging.pipe_neighbours import Neighbours, neighbours
from tepidarium_engine.plan.judging.pipe_stretches import Stretches
from tepidarium_engine.plan.judging.route_faults import Task, _in_doorway, _well_inside
from tepidarium_engine.plan.judging.route_measures import measure, mixing
from tepidarium_engine.plan.outlines.denser_area import Spacings
from tepidarium_engine.plan.pipes.pipe_path import Arc, Line
from tepidarium_engine.plan.pipes.pipe_table import PipeTable
from tepidarium_engine.section.bay import _next_resistance, exchange_of, solved
from tepidarium_engine.section.records import SectionLayer
from tepidarium_engine.water.network import Branch, Curve, _bracketed, _together, solve_rising

from tests.engine.test_route_check import COMB
from tests.sections.cases import BUILD_UPS, USUAL

SPACING = 0.1
TEN_KELVIN = 10.0


def table_of(*pieces: Line | Arc) -> PipeTable:
    return PipeTable.of(pieces, (0.0, 0.0))


# -- finding a root ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("start", [-4.0, 0.0, 2.0, 9.0])
def test_newton_squares_its_miss(start: float) -> None:
    """Newton's method doubles the good digits with every step: six from a half, and a few to come there."""
    calls = []

    def waves(x: float) -> tuple[float, float]:
        calls.append(x)
        return x + 0.5 * math.sin(x), 1.0 + 0.5 * math.cos(x)

    root, slope = solve_rising(waves, 1.3, start)
    assert root + 0.5 * math.sin(root) == pytest.approx(1.3, abs=1e-10)
    assert slope == pytest.approx(1.0 + 0.5 * math.cos(root), rel=1e-4)
    assert len(calls) <= 10


@pytest.mark.parametrize("start", [997.0, 1003.0])
def test_bisection_finds_what_newton_runs_away_from(start: float) -> None:
    """Newton's method on an arc tangent leaves for infinity from further than 1.39 (a textbook's example)."""
    root, _ = solve_rising(lambda x: (math.atan(x - 1000.0), 1.0 / (1.0 + (x - 1000.0) ** 2)), 0.0, start)
    assert root == pytest.approx(1000.0, abs=1e-9)


@pytest.mark.parametrize("flow", [1e-6, 1e-5, 3e-5, 1e-4])
def test_the_slope_of_a_branch_is_the_one_of_its_curve(flow: float) -> None:
    """By differences on both sides, of laminar, transitional and turbulent flow."""
    curve = Branch(1.2e8, 1e-4, 1.2e11, 1.5, 6000.0, 1e11, 2e11).open_curve()
    (above, _), (below, _) = curve(math.log(flow) + 1e-5), curve(math.log(flow) - 1e-5)
    assert curve(math.log(flow))[1] == pytest.approx((above - below) / 2e-5, rel=1e-6)


def power_law(exponent: float, factor: float) -> Curve:
    """ln of a drop of ``factor`` times the flow to the power of ``exponent``."""
    return lambda x: (math.log(factor) + exponent * x, exponent)


def arc_tangent(x: float) -> tuple[float, float]:
    """Nearly level far from 0, where Newton's method throws itself away (a textbook's example)."""
    return math.atan(x) + 1e-3 * x, 1.0 / (1.0 + x * x) + 1e-3


@pytest.mark.parametrize("search", [_together, _bracketed])
def test_flows_side_by_side_add_up_at_one_pressure(search: Callable[..., Any]) -> None:
    """Against scipy's root of the sum of (p / factor) ** (1 / exponent), from what all let through at 5 kPa."""
    laws, counts, total = [(1.0, 2e7), (1.75, 3e10), (2.0, 8e11)], [1, 3, 2], 1.7e-4
    expected = brentq(
        lambda p: (
            sum(n * (p / factor) ** (1.0 / of) for n, (of, factor) in zip(counts, laws, strict=True)) - total
        ),
        1.0,
        1e6,
        rtol=1e-14,
    )
    start = [(math.log(5e3 / factor) / exponent, exponent) for exponent, factor in laws]
    curves = [power_law(*law) for law in laws]
    log_flows, log_pressure = search(curves, counts, start, math.log(5e3), math.log(total))
    assert math.exp(log_pressure) == pytest.approx(expected, rel=1e-10)
    flows = [math.exp(x) for x in log_flows]
    assert flows == pytest.approx([(expected / factor) ** (1.0 / of) for of, factor in laws], rel=1e-10)


def test_flows_that_newton_runs_away_from_are_left_to_the_bracket() -> None:
    """From far on the level part of one of the curves."""
    curves, x, target = [arc_tangent, power_law(2.0, 1.0)], -20.0, 0.5
    value, slope = arc_tangent(x)
    start = [(x, slope), (value / 2.0, 2.0)]
    assert _together(curves, [1, 1], start, value, target) is None
    log_flows, log_pressure = _bracketed(curves, [1, 1], start, value, target)
    assert [curve(at)[0] for curve, at in zip(curves, log_flows, strict=True)] == pytest.approx(
        [log_pressure] * 2, abs=1e-9
    )
    assert math.log(sum(map(math.exp, log_flows))) == pytest.approx(target, abs=1e-9)


# -- the section -------------------------------------------------------------------------------------------------


def basic_curve(excess: float) -> float:
    """EN 1264-2: 8.92 W/m2 times the excess to the power of 1.1, over the excess."""
    return 8.92 * excess**0.1


def exchange_root(exchange: Callable[[float], float], rest: float) -> float:
    """Resistance of the surface in series with ``rest`` [m2.K/W] for ten kelvin over both."""
    return float(
        brentq(
            lambda own: own - 1.0 / exchange(TEN_KELVIN * own / (rest + own)),
            1e-3,
            1.0,
            xtol=1e-15,
        )
    )


@pytest.mark.parametrize("tries", [1, 2])
def test_the_exchange_of_one_resistance_is_found_at_once(tries: int) -> None:
    """What lies below is one resistance: one try tells it by the heat for a kelvin, two by their difference."""
    rest, films = 0.12, (0.11, 0.09)
    tried = [(TEN_KELVIN / (rest + film), film) for film in films[:tries]]
    per_kelvin = 1.0 / (rest + films[0]) if tries == 1 else 1.0
    case: Any = SimpleNamespace(water=SimpleNamespace(up=per_kelvin))
    found = _next_resistance(tried, case, basic_curve)
    assert found == pytest.approx(exchange_root(basic_curve, rest), rel=1e-9)


def test_the_basic_curve_is_taken_no_lower_than_a_hundredth_of_a_kelvin() -> None:
    exchange = exchange_of(replace(USUAL, surface_exchange="basic_curve"))
    assert exchange(0.0) == exchange(0.005) == pytest.approx(basic_curve(0.01), rel=1e-12)
    assert exchange(3.0) == pytest.approx(basic_curve(3.0), rel=1e-12)


def test_a_section_with_a_given_exchange_is_solved_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """It is linear: there is nothing to come nearer to."""
    calls, solve = [], PipeRow.solve

    def counted(row: PipeRow, bay: Any) -> Any:
        calls.append(bay)
        return solve(row, bay)

    monkeypatch.setattr(PipeRow, "solve", counted)
    solved(replace(USUAL, surface_exchange="given", surface_coefficient=9.0))
    assert len(calls) == 1


@pytest.mark.parametrize("name", ["usual", "slab without insulation", "widest, thin pipe"])
def test_the_heat_of_a_pipe_enters_round_its_axis(name: str) -> None:
    """The middle of a circle's circumference is its centre."""
    case = solved(BUILD_UPS[name])
    bay = case.bay
    net = network(bay, case.water.water, [1e6] * len(bay.layers_below), 2e6, [1e6] * len(bay.layers_above))
    height, _ = cells_upwards(bay)
    middles = np.add.accumulate(height) - height / 2.0
    axis = math.fsum(thickness for thickness, _ in bay.layers_below) + bay.below
    assert float(net.injection[0].sum()) == pytest.approx(1.0, rel=1e-12)
    assert float(net.injection[0] @ middles) == pytest.approx(axis, rel=1e-9)


def test_cells_upwards_and_waves_are_as_many_as_is_said() -> None:
    """48.1 mm by 12 mm, a screed of 45 + 18.8 mm by half of 8 mm, and a spacing of 161 mm by 16 mm: all rounded up."""
    layer = SectionLayer(0.0481, 0.04)
    inputs = replace(USUAL, layers_below=(layer,), screed_thickness=0.0638, pipe_spacing=0.161)
    case = solved(inputs)
    height, conductivity = cells_upwards(case.bay)
    assert [int((conductivity == each).sum()) for each in (0.04, 1.2)] == [5, 16]
    net = network(case.bay, case.water.water, [1e6], 2e6, [])
    assert len(net.diagonal) == 1 + 11 and net.diagonal.shape[1] == len(height)


def test_cells_at_the_pipe_are_half_a_radius_wide() -> None:
    bay = solved(USUAL).bay
    assert np.diff(_offsets(bay, bay.spacing / 2.0))[:4] == pytest.approx(bay.radius / 2.0, rel=1e-9)


# -- judging routes ----------------------------------------------------------------------------------------------


def test_an_arc_that_bulges_towards_a_line_is_near_it() -> None:
    """The top of an arc of 2 m lies 10 mm above its chord; a line lies within reach of that top and of nothing else."""
    reach = 0.3
    arc = Arc((0.0, 0.0), 2.0, math.pi / 2.0 - 0.1, 0.2)
    line = Line((0.01, 2.0 + reach), (-0.01, 2.0 + reach))
    _, (here, there) = Stretches.of(table_of(arc, line), 10.0, ()).near(reach)
    assert (1, 0) in set(zip(here.tolist(), there.tolist(), strict=True))


def test_crowding_is_counted_by_cells_of_twice_the_reach() -> None:
    """Cells 2 m wide: middles at 0.5 and 1.5 lie in one, 2.01 in the next, and one above the first: 4 + 1 + 1."""
    lines = [Line((x - 0.1, y), (x + 0.1, y)) for x, y in ((0.5, 0.5), (1.5, 0.5), (2.01, 0.5), (0.5, 2.01))]
    assert Stretches.of(table_of(*lines), 10.0, ()).crowding(1.0) == 6.0


def test_chords_are_two_spacings_long_at_most() -> None:
    straight = table_of(Line((0.0, 0.0), (10.05, 0.0)))
    lengths = np.diff(Chords.of(straight, SPACING).at)
    assert lengths.max() <= 2.0 * SPACING + 1e-12
    assert len(lengths) == 51  # 10.05 m / 0.2 m, rounded up


def test_chords_stray_a_fifth_of_a_millimetre_at_most() -> None:
    """A chord over the angle a strays by R (1 - cos(a / 2)) (geometry): 0.04 rad of a metre's arc, 100.2 times that."""
    longest = 2.0 * math.acos(1.0 - 2e-4)
    at = Chords.of(table_of(Arc((0.0, 0.0), 1.0, 0.0, 100.2 * longest)), SPACING).at
    assert len(at) - 1 == 101


@pytest.mark.parametrize(("length", "samples"), [(10.01, 401), (50.0, 1500), (100.02, 2001)])
def test_samples_stand_as_near_as_is_said(length: float, samples: int) -> None:
    """A quarter of 100 mm, more where the pipe is longer than 1500 of them, and half of it at most."""
    straight = table_of(Line((0.0, 0.0), (length, 0.0)))
    assert neighbours(straight, Spacings(SPACING, ()), 1.0).samples == samples


def comb() -> tuple[Task, Neighbours]:
    table, spacings = PipeTable.of(COMB.path.pieces, (0.0, 0.0)), Spacings(COMB.spacing, ())
    task = Task(table, COMB.room, spacings, COMB.clearance, (), COMB.radius, COMB.entry, COMB.spacing)
    return task, neighbours(table, spacings, 0.5)


def test_the_distance_of_a_hundredth_of_the_pipe() -> None:
    """A hundred places of the same weight, one to a hundred spacings from the next pipe: the first of them."""
    task, beside = comb()
    weight = np.zeros(len(beside.weight))
    weight[:100] = 1.0
    distance = beside.spacing * (1.0 + np.arange(len(weight)))
    found = measure(
        COMB.path,
        task.table,
        replace(beside, weight=weight, distance=distance),
        floor=COMB.room,
        heated=[(COMB.room, COMB.spacing)],
        ideal_length=COMB.room.area / COMB.spacing,
        bend_radius=COMB.radius,
    )
    assert found.distance_1 == 1.0


def test_the_floor_beside_a_serpentine_is_as_uneven_as_its_water() -> None:
    """Pipe that sees only its like has the spread of positions from 0 to 1, the square root of a twelfth."""
    at = (np.arange(1000) + 0.5) / 100.0
    beside: Any = SimpleNamespace(at=at, weight=np.full(1000, 0.01), seen_at=np.column_stack((at, at)))
    mixed, spread = mixing(beside, 10.0)
    assert mixed == 0.0
    assert spread == pytest.approx(math.sqrt(1.0 / 12.0), rel=1e-5)


@pytest.mark.parametrize(("clearance", "inside"), [(0.075, True), (0.0771, False)])
def test_pipe_that_keeps_its_distance_is_seen_at_a_glance(clearance: float, inside: bool) -> None:
    """The comb lies 75 mm from its walls, and 2 mm are let pass."""
    task, _ = comb()
    task = replace(task, wall_clearance=clearance)
    chords = Chords.of(task.table, SPACING, (task.doorway, task.table.total - task.doorway))
    assert _well_inside(task, chords, ~_in_doorway(task, chords, task.doorway)) is inside
