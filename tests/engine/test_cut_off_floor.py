"""Side loops: floor that tails cut off, measured and validated by geometry that knows nothing of how they are laid."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from shapely import LineString, Polygon, box
from tepidarium_engine.plan.pipes.pipe_path import Line, PipePath
from tepidarium_engine.storey.halls.cut_off_floor import with_side_loops
from tepidarium_engine.storey.halls.side_loops import LoopRules, borders, part_along, spliced
from tepidarium_engine.storey.storey_layout import laid_storey

from tests.storeys.bare import bare_floor
from tests.storeys.check import violations
from tests.storeys.corridor_storeys import corridor_storey

RULES = LoopRules(spacing=0.15, clearance=0.075, bend_radius=0.08, pattern="counterflow")
PASSING = PipePath((Line((0.0, 0.0), (4.0, 0.0)),))
ABOVE = box(0.5, RULES.gap, 3.5, 1.6)
BELOW = box(0.5, -1.6, 3.5, -RULES.gap)


@pytest.mark.parametrize(("floor", "left"), [(ABOVE, True), (BELOW, False)])
def test_a_loop_beside_a_passing_pipe_covers_the_floor(floor: Polygon, left: bool) -> None:
    (border,) = borders(PASSING, floor, RULES)
    assert border.left is left
    assert (border.start, border.end) == pytest.approx((0.5, 3.5))
    whole = spliced(PASSING, border, floor, RULES)
    assert whole is not None
    path, added = whole
    line = LineString(path.polyline(1e-4))
    assert line.is_simple
    assert (path.start, path.end) == (PASSING.start, PASSING.end)
    assert added == pytest.approx(path.length - 4.0)
    # Area over spacing: what pipe at this spacing takes of any floor, less the strip that walls leave.
    assert 0.75 * floor.area / RULES.spacing < added < floor.area / RULES.spacing
    assert shapely.difference(floor, line.buffer(0.75 * RULES.spacing)).area < 0.04 * floor.area
    joints = list(path.joints())
    assert max(joint.gap for joint in joints) < 1e-5
    assert max(joint.kink for joint in joints) < 2e-3


def test_no_border_where_a_floor_lies_too_near_or_too_far() -> None:
    for off in (-0.03, 0.03):
        assert not list(
            borders(
                PASSING, shapely.transform(ABOVE, lambda points, y=off: points + np.array([0.0, y])), RULES
            )
        )


def test_a_part_of_the_floor_is_as_long_as_fits() -> None:
    (border,) = borders(PASSING, ABOVE, RULES)
    part = part_along(PASSING, border, ABOVE, lambda floor: floor.area <= 2.0)
    assert isinstance(part, Polygon)
    assert part.area == pytest.approx(2.0, abs=0.01)
    assert part.bounds[1::2] == ABOVE.bounds[1::2]


@pytest.mark.parametrize("seed", [pytest.param(3, marks=pytest.mark.long), 6])
def test_corridors_are_not_left_bare(seed: int) -> None:
    """Of a corridor that tails cross at most a seventh stays bare (a quarter without loops), nothing comes too near
    to anything, and no circuit is too long."""
    task = corridor_storey(seed).task()
    layout = laid_storey(task)
    assert not list(violations(task, layout))
    assert not layout.unplaced
    assert max(room.share for room in bare_floor(task, layout)) < 1.0 / 7.0
    for circuit in layout.circuits:
        assert circuit.path.length <= task.rooms[circuit.room].maximum_circuit_length


def test_loops_are_booked_as_lanes_of_the_circuits_that_lie_there() -> None:
    task = corridor_storey(6).task()
    layout = laid_storey(task)
    corridor = next(index for index, room in enumerate(task.rooms) if room.id == "corridor")
    lines = {one.id: LineString(one.path.polyline(1e-3)) for one in layout.circuits}
    for lane in layout.tails.lanes:
        if lane.room == corridor:
            assert all(lines[name].intersection(lane.floor).length > 0.0 for name in lane.circuits)
    # What is full already is not filled again.
    again, lanes = with_side_loops(task, layout.circuits, layout.tails.lanes)
    before = math.fsum(one.path.length for one in layout.circuits)
    assert math.fsum(one.path.length for one in again) <= 1.03 * before
    assert len(lanes) <= 2
