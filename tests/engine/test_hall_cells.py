"""A hall in which several manifolds stand: cut between them, each part served by its own one. Judged by areas and
distances worked out by hand from the plan, and by the independent check of storeys."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
import shapely
from tepidarium_engine import designs
from tepidarium_engine.storey.halls.hall_cells import cut_between_manifolds
from tepidarium_engine.storey.model.layout_records import StoreyTask

from tests.storeys.bare import bare_floor
from tests.storeys.buildings import building
from tests.storeys.case import Door, Room, StoreyCase, rect
from tests.storeys.check import violations
from tests.storeys.measure import last_drawing

WIDTH, WALL = 2.0, 0.1


def _case(places: tuple[float, ...] = (3.0, 13.0), served: tuple[int, ...] = (0, 0, 1, 1)) -> StoreyTask:
    """A hall 16 m long with four rooms along its northern wall, doors in the middle of each, manifolds in the southern
    wall."""
    rooms = {"hall": Room(rect(0.0, 0.0, 16.0, WIDTH))}
    doors = []
    for number, manifold in enumerate(served):
        rooms[f"room-{number}"] = Room(
            rect(4.0 * number + WALL, WIDTH + WALL, 4.0 * number + 4.0 - WALL, 6.0), manifold=manifold
        )
        doors.append(Door("hall", f"room-{number}", (4.0 * number + 2.0, WIDTH + WALL / 2.0)))
    further = tuple(("hall", (x, 0.0)) for x in places[1:])
    return StoreyCase("hall", rooms, tuple(doors), "hall", (places[0], 0.0), further=further).task()


def _cut(task: StoreyTask) -> StoreyTask | None:
    return cut_between_manifolds(task, 0, Counter(range(len(task.rooms))))


def test_the_hall_is_cut_where_no_pair_has_to_cross_midway_between_the_manifolds() -> None:
    task = _case()
    cut = _cut(task)
    assert cut is not None
    own, other = cut.plan.rooms[0], cut.plan.rooms[-1]
    assert own.area + other.area == pytest.approx(16.0 * WIDTH)
    assert own.bounds[2] == pytest.approx(8.0, abs=0.1) == other.bounds[0]
    assert [one.room for one in cut.manifolds] == [0, 5]
    assert [room.manifold for room in cut.rooms] == [0, 0, 0, 1, 1, 1]
    assert cut.rooms[-1].id != cut.rooms[0].id
    # Each doorway leads from the part that it lies in, and no pair needs an opening.
    assert [doorway.rooms for doorway in cut.plan.doorways] == [(0, 1), (0, 2), (5, 3), (5, 4)]


def test_pairs_that_must_cross_have_openings_at_both_ends_of_the_cut() -> None:
    """The manifold of the first two rooms serves the third, too, whose door lies beyond the other one."""
    cut = _cut(_case(places=(3.0, 9.0), served=(0, 0, 0, 1)))
    assert cut is not None
    openings = [one for one in cut.plan.doorways if set(one.rooms) == {0, 5}]
    width = 2 * 0.075 + 1 * 2 * 0.06
    lengths = [shapely.LineString(one.stretches[0]).length for one in openings]
    assert lengths == pytest.approx([width, width])
    line = shapely.LineString(
        [(openings[0].stretches[0][0][0], 0.0), (openings[0].stretches[0][0][0], WIDTH)]
    )
    assert 3.0 < line.coords[0][0] < 9.0
    assert all(shapely.LineString(one.stretches[0]).within(line.buffer(1e-6)) for one in openings)


@pytest.mark.parametrize("places", [(3.0,), (7.9, 8.1)])
def test_no_cut_with_one_manifold_or_two_beside_each_other(places: tuple[float, ...]) -> None:
    assert _cut(_case(places, served=(0, 0, 0, 0))) is None


def test_a_hall_that_asks_for_one_manifold_is_left_whole() -> None:
    task = _case()
    rooms = (replace(task.rooms[0], only=True), *task.rooms[1:])
    assert _cut(replace(task, rooms=rooms)) is None


@pytest.mark.parametrize("number", [27, 82])
def test_halls_with_several_manifolds_are_warm_in_real_plans(number: int) -> None:
    """22 and 10 % of them stayed bare while one manifold served each."""
    task, layout = last_drawing(building(number))
    assert not layout.unplaced
    assert not list(violations(task, layout))
    assert max(room.share for room in bare_floor(task, layout)) < 0.06
    assert len({one.manifold for one in layout.circuits if one.room == 0}) > 1


def test_each_manifold_is_balanced_with_the_circuits_of_the_hall_that_stand_on_it() -> None:
    result = designs.calculate(building(82))
    assert result.layout is not None
    hall = {one.id: one.manifold for one in result.circuits if one.room == "hall"}
    assert len(set(hall.values())) > 1
    drawn = {one.id: (one.manifold, one.port) for one in result.layout.drawn_circuits}
    assert drawn == {one.id: (one.manifold, one.port) for one in result.circuits}
    for manifold in result.manifolds:
        own = [one for one in result.circuits if one.manifold == manifold.id]
        assert manifold.circuit_count == len(own)
        assert sorted(one.port for one in own) == list(range(1, len(own) + 1))
        assert manifold.mass_flow == pytest.approx(sum(one.mass_flow for one in own))
        assert set(manifold.room_ids) == {one.room for one in own}
