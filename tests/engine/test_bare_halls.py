"""Floor of a hall that tails cut off gets a circuit more where no passing circuit has length for it: judged by geometry
that knows nothing of how it is laid."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
from tepidarium_engine.storey.model.layout_records import StoreyLayout, StoreyTask
from tepidarium_engine.storey.storey_layout import StoreyMemory, laid_storey

from tests.storeys.bare import bare_floor
from tests.storeys.check import violations
from tests.storeys.corridor_storeys import corridor_storey

MOST_BARE = 0.06
"""Share of a hall."""


def _laid(task: StoreyTask) -> tuple[StoreyLayout, list[str]]:
    layout = laid_storey(task)
    hall = next(index for index, room in enumerate(task.rooms) if room.id == "corridor")
    assert not layout.unplaced
    assert not list(violations(task, layout))
    assert max(room.share for room in bare_floor(task, layout)) < MOST_BARE
    return layout, sorted(circuit.id for circuit in layout.circuits if circuit.room == hall)


@pytest.fixture(scope="module")
def task() -> StoreyTask:
    """A hall of 23 m2 whose own circuit reaches a part of it, and 4 m2 at an end that tails part from that."""
    return corridor_storey(732).task()


@pytest.fixture(scope="module")
def layout(task: StoreyTask) -> StoreyLayout:
    found, names = _laid(task)
    assert names == ["corridor-1", "corridor-2"]
    return found


def test_all_books_are_kept_in_the_rooms_that_were_asked_for(task: StoreyTask, layout: StoreyLayout) -> None:
    rooms, names = range(len(task.rooms)), {circuit.id for circuit in layout.circuits}
    tails = layout.tails
    assert set(tails.ports) == {place.circuit for place in tails.places} == names
    assert {route.circuit for route in tails.routes} <= names
    assert all(set(lane.circuits) <= names and lane.room in rooms for lane in tails.lanes)
    assert all(set(route.rooms) <= set(rooms) for route in tails.routes)
    assert all(place.room in rooms for place in tails.places)


def test_the_number_that_came_out_leads_to_the_same_circuits(task: StoreyTask, layout: StoreyLayout) -> None:
    counts = [sum(one.room == index for one in layout.circuits) for index in range(len(task.rooms))]
    asked = [replace(room, count=count) for room, count in zip(task.rooms, counts, strict=True)]
    again, names = _laid(replace(task, rooms=tuple(asked)))
    assert names == ["corridor-1", "corridor-2"]
    assert [one.path.length for one in again.circuits] == pytest.approx(
        [one.path.length for one in layout.circuits], rel=1e-9
    )


def test_where_the_hall_has_no_way_to_it_a_room_whose_pipe_passes_gets_a_circuit_more() -> None:
    """Another manifold's tails lie between the hall's own circuit and the floor at its end."""
    _, names = _laid(corridor_storey(708).task())
    assert names == ["corridor"]


def test_a_manifold_whose_ports_are_taken_gets_no_circuit_more(
    task: StoreyTask, layout: StoreyLayout
) -> None:
    manifolds = Counter(circuit.manifold for circuit in layout.circuits)
    most = max(manifolds.values())
    memory = StoreyMemory()
    full = laid_storey(replace(task, most_circuits=min(manifolds.values()) - 1), memory)
    assert len(full.circuits) == len(layout.circuits) - 1
    # What is remembered of the full one is what the free one begins with: it comes out as it did by itself.
    free = laid_storey(replace(task, most_circuits=most), memory)
    assert [one.path for one in free.circuits] == [one.path for one in layout.circuits]
