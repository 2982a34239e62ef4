"""Flats side by side on one storey: each is designed as it would be alone, and those that are equal are laid once.

Oracle: a plan that is moved gives the same pipe, moved (the invariance of lengths under translation); a flat that no
doorway joins with another has nothing to do with it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import pytest
from tepidarium_engine import designs
from tepidarium_engine.designs import (
    BuildUp,
    DesignRoom,
    DesignsInputs,
    DesignsResult,
    DrawnCircuit,
    HeatSource,
    Manifold,
    PlanDoorway,
)
from tepidarium_engine.storey import storey_layout

from tests.storeys.case import StoreyCase
from tests.storeys.random_storeys import random_storey

FLOOR = BuildUp("floor", resistance_below=2.5, temperature_below=8.0)
ASIDE = 20.0
"""From flat to flat [m]."""
SUPPLY = HeatSource(supply_temperature=40.0)
SMALL, OTHER = random_storey(153), random_storey(8)
NARROW = replace(SMALL, doors=(*(replace(door, width=0.3) for door in SMALL.doors[:1]), *SMALL.doors[1:]))
"""No pair of pipes passes a doorway of 0.3 m beside its walls at the usual pitch."""


def storey(flats: Sequence[StoreyCase], demand: float = 45.0) -> DesignsInputs:
    """Flats side by side, named by letters, each with a manifold and all of the same demand [W/m2]."""
    rooms: list[DesignRoom] = []
    doorways: list[PlanDoorway] = []
    manifolds: list[Manifold] = []
    for number, flat in enumerate(flats):
        letter, x = chr(97 + number), ASIDE * number
        rooms += [
            DesignRoom(
                f"{letter}-{name}",
                "floor",
                demand * _area(room.outline),
                outline=tuple((a + x, b) for a, b in room.outline),
                pipe_spacing=room.spacing,
                manifold=letter,
            )
            for name, room in flat.rooms.items()
        ]
        doorways += [
            PlanDoorway(
                (f"{letter}-{door.one}", f"{letter}-{door.other}"),
                (door.place[0] + x, door.place[1]),
                door.width,
            )
            for door in flat.doors
        ]
        manifolds.append(Manifold(id=letter, position=(flat.manifold[0] + x, flat.manifold[1])))
    return DesignsInputs(
        tuple(rooms),
        (FLOOR,),
        doorways=tuple(doorways),
        manifolds=tuple(manifolds),
        quick=True,
        source=SUPPLY,
    )


def _area(ring: Sequence[tuple[float, float]]) -> float:
    """By the surveyor's formula [m2]."""
    pairs = zip(ring, (*ring[1:], ring[0]), strict=True)
    return abs(math.fsum(a * d - b * c for (a, b), (c, d) in pairs)) / 2.0


def circuits(result: DesignsResult, letter: str) -> list[DrawnCircuit]:
    assert result.layout is not None
    return [one for one in result.layout.drawn_circuits if one.manifold == letter]


def assert_moved(moved: Sequence[DrawnCircuit], own: Sequence[DrawnCircuit], by: float) -> None:
    """Circuit by circuit and piece by piece the same pipe, so far to the right [m]."""
    assert len(moved) == len(own) > 0
    for there, here in zip(moved, own, strict=True):
        assert (there.id[1:], there.room[1:], there.port) == (here.id[1:], here.room[1:], here.port)
        assert there.length == pytest.approx(here.length, abs=1e-9)
        assert there.field_length == pytest.approx(here.field_length, abs=1e-9)
        for piece, other in zip(there.pieces, here.pieces, strict=True):
            assert piece.kind == other.kind
            for (x, y), (u, v) in ((piece.start, other.start), (piece.end, other.end)):
                assert (x - by, y) == pytest.approx((u, v), abs=1e-9)


@pytest.fixture(name="laid")
def counted(monkeypatch: pytest.MonkeyPatch) -> list[object]:
    """Rooms that are laid."""
    rooms: list[object] = []
    lay = storey_layout.laid_room

    def counting(job: storey_layout.RoomJob) -> object:
        rooms.append(job.room)
        return lay(job)

    monkeypatch.setattr(storey_layout, "laid_room", counting)
    return rooms


def test_ten_equal_flats_are_ten_times_the_same_and_laid_once(laid: list[object]) -> None:
    alone = designs.calculate(storey([SMALL]))
    count = len(laid)
    laid.clear()
    ten = designs.calculate(storey([SMALL] * 10))
    assert len(laid) == count > 0
    for number in range(10):
        assert_moved(circuits(ten, chr(97 + number)), circuits(alone, "a"), ASIDE * number)
    assert ten.pipe_length == pytest.approx(10.0 * alone.pipe_length, abs=1e-6)


def test_different_flats_are_each_as_alone() -> None:
    flats = [SMALL, OTHER, SMALL]
    together = designs.calculate(storey(flats))
    for number, flat in enumerate(flats):
        assert_moved(
            circuits(together, chr(97 + number)),
            circuits(designs.calculate(storey([flat])), "a"),
            ASIDE * number,
        )


def test_flats_that_ask_for_other_heat_are_laid_apart(laid: list[object]) -> None:
    """The second flat gets closer pipe, and its rooms are laid for themselves."""
    asked = storey([SMALL, SMALL])
    own = len(SMALL.rooms)
    closer = tuple(
        replace(room, pipe_spacing=0.1) if number >= own else room for number, room in enumerate(asked.rooms)
    )
    together = designs.calculate(replace(asked, rooms=closer))
    assert len(laid) >= 2 * own
    one = designs.calculate(storey([SMALL]))
    assert_moved(circuits(together, "a"), circuits(one, "a"), 0.0)
    lengths = [math.fsum(each.length for each in circuits(together, letter)) for letter in "ab"]
    assert lengths[1] > lengths[0]


def test_what_cannot_be_drawn_is_told_of_each_flat_where_it_lies() -> None:
    """Two flats with a doorway that is too narrow and a sound one between: texts and places are those of one alone."""
    alone = designs.calculate(storey([NARROW])).layout
    together = designs.calculate(storey([NARROW, SMALL, NARROW])).layout
    assert alone is not None and together is not None and alone.unplaced
    for letter, by in (("a", 0.0), ("c", 2.0 * ASIDE)):
        there = [one for one in together.unplaced if one.room.startswith(letter)]
        assert [(one.id[1:], one.code) for one in there] == [(one.id[1:], one.code) for one in alone.unplaced]
        for one, here in zip(there, alone.unplaced, strict=True):
            assert (one.place is None) == (here.place is None)
            if one.place is not None and here.place is not None:
                assert (one.place[0] - by, one.place[1]) == pytest.approx(here.place, abs=1e-9)


def test_a_room_without_a_way_stays_with_its_manifold() -> None:
    """A finding says that no doorway leads to the room, though only its manifold joins it with the flat."""
    shut = storey([SMALL, SMALL])
    room = DesignRoom(
        "a-shut", "floor", 300.0, outline=((0.0, 15.0), (3.0, 15.0), (3.0, 18.0), (0.0, 18.0)), manifold="a"
    )
    found = designs.calculate(replace(shut, rooms=(*shut.rooms, room))).layout
    assert found is not None
    assert {(one.room, one.code) for one in found.unplaced} == {("a-shut", "tails_no_way")}
