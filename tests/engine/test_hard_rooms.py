"""Rooms on which the engine once fell over, each for a class of them; ``tests.fuzz`` tries the classes."""

from __future__ import annotations

import pytest
import shapely
from shapely import Polygon, box
from tepidarium_engine import designs, routes
from tepidarium_engine.building.records import BuildUp, DesignRoom, DesignsInputs, Manifold
from tepidarium_engine.errors import InputError
from tepidarium_engine.pipe import Pipe
from tepidarium_engine.plan.counterflow.leg_widths import legs_along
from tepidarium_engine.plan.laying.ways import Pattern
from tepidarium_engine.plan.outlines.pipe_zone import pipe_zone
from tepidarium_engine.plan.outlines.regions import rounded
from tepidarium_engine.plan.outlines.room_frame import room_frame
from tepidarium_engine.storey.division.cuts import cut_trees, leaves
from tepidarium_engine.storey.lanes.walkways import Walkways
from tepidarium_engine.storey.manifold.position_records import PlanDoorway
from tepidarium_engine.storey.model.records import Doorway
from tepidarium_engine.storey.model.tail_records import StoreyPlan, TailRules

PIPE = Pipe(0.016, 0.002, minimum_bend_radius=0.08)


def two_arms(band: float) -> tuple[tuple[float, float], ...]:
    """Arms 1.4 m wide and 3 m long, joined by a band along the lower wall [m]."""
    return ((0, 0), (4, 0), (4, 3), (2.6, 3), (2.6, band), (1.4, band), (1.4, 3), (0, 3))


@pytest.mark.parametrize("pattern", ["counterflow", "serpentine"])
@pytest.mark.parametrize("band", [0.3, 0.4, 0.4001])
def test_a_clearance_that_closes_a_neck(band: float, pattern: Pattern) -> None:
    """Pipe keeps 0.2 m off each wall: the arms are fields of their own, and one of them gets no pipe. That is
    reported."""
    inputs = routes.RoutesInputs(
        outline=two_arms(band),
        entry=(0.9, 0.0),
        pipe_spacing=0.1,
        pattern=pattern,
        wall_clearance=0.2,
        quick=True,
        pipe=PIPE,
    )
    result = routes.calculate(inputs)
    assert result.coverage.bare_spots
    assert 0.4 < result.coverage.coverage_three_quarters < 0.8


def test_legs_of_a_zone_in_two_parts() -> None:
    """By hand: arms 1.4 m wide less 0.2 m on both sides."""
    zone = pipe_zone(Polygon(two_arms(0.3)), 0.1, 0.2)
    assert len(shapely.get_parts(zone.shell)) == 2
    assert [leg.width for leg in legs_along(zone.shell, 0)] == pytest.approx([1.0, 1.0])


def test_cuts_that_are_alike_in_all_that_they_are_sorted_by() -> None:
    """A band with saw teeth on both sides, in the frame of its teeth: two lines that are looked at lead to one cut."""
    step = 25.0 / 124
    lower = [(step * number, 0.4 * (number % 2)) for number in range(125)]
    room = Polygon([*lower, *((x, y + 4.0) for x, y in reversed(lower))])
    local = room_frame(room).to_local(room)
    trees = cut_trees(local, 4, 0.1, shapely.Point(-9.0, -9.0), shapely.buffer(local.exterior, 1e-6))
    assert trees and all(leaves(tree) == 4 for tree in trees)


def test_rooms_askew_of_which_tails_leave_slivers() -> None:
    """Turned into the frame of its pairs of pipes, what tails leave of the second room touches itself."""
    rooms = (
        DesignRoom(
            "parlour",
            "oak",
            980.0,
            ((0.0, 0.0), (5.2, 0.0), (5.5, 3.2), (3.35, 3.05), (3.4, 4.35), (0.0, 4.4)),
        ),
        DesignRoom("washroom", "oak", 260.0, ((3.47, 3.52), (5.2, 3.17), (5.5, 6.4), (3.82, 6.4))),
    )
    inputs = DesignsInputs(
        rooms,
        (
            BuildUp(
                "oak", covering="timber", covering_resistance=0.1, resistance_below=2.8, temperature_below=8.0
            ),
        ),
        manifold=Manifold(position=(1.65, 4.7)),
        doorways=(PlanDoorway(("parlour", "washroom"), (4.5, 3.16), 0.8),),
    )
    layout = designs.calculate(inputs).layout
    assert layout is not None and layout.drawn_circuits


def test_what_the_geometry_library_cannot_compute_is_a_refusal(monkeypatch: pytest.MonkeyPatch) -> None:
    def gives_up(*_: object, **__: object) -> None:
        raise shapely.errors.GEOSException("side location conflict")

    monkeypatch.setattr(routes, "check_room", gives_up)
    with pytest.raises(InputError) as caught:
        routes.calculate(routes.RoutesInputs(outline=two_arms(0.3), entry=(0.9, 0.0), pipe_spacing=0.1))
    assert [(fault.pointer, fault.code) for fault in caught.value.faults] == [("/outline", "geometry_failed")]


def test_an_area_that_is_grown_has_no_crumbs() -> None:
    """The library leaves a tenth of a square micrometre beside this one, and two areas where there was one."""
    part = Polygon(
        [
            *((0.1669002408, 1.702182699), (0.1669002829, 1.702182699), (0.2219613153, 1.702129513)),
            *((0.2618658475, 1.7020909674), (0.2618658475, 1.492827)),
            *((0.16687735, 1.492827), (0.16687735, 1.7021827212)),
        ]
    )
    grown = rounded(part, 0.0385, quad_segs=4)
    assert isinstance(grown, Polygon) and part.area < grown.area < 0.1


def test_a_doorway_of_which_nothing_is_left_is_no_passage() -> None:
    """Tails of another manifold take one side of it whole; the doorway stays, to keep its number."""
    wide = (((4.0, 0.5), (4.0, 1.3)), ((4.1, 0.5), (4.1, 1.3)))
    gone = (((4.0, 2.0), (4.0, 2.8)), ((4.1, 2.0), (4.1, 2.0)))
    plan = StoreyPlan(
        (box(0.0, 0.0, 4.0, 3.0), box(4.1, 0.0, 8.0, 3.0)), (Doorway((0, 1), gone), Doorway((0, 1), wide))
    )
    passages = Walkways(plan, TailRules(0.05, 0.075, 0.08)).passages
    assert [[passage.doorway for passage in one] for one in passages] == [[1], [1]]
