"""Manifolds whose place the design finds: the same design as with the place given, and the same place as the
calculation of its own finds, which is held to exhaustive search and networkx elsewhere."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import msgspec
import pytest
import shapely
from tepidarium_api.calculations.designs import DESIGNS
from tepidarium_api.renderings.storey_drawing import storey_drawing
from tepidarium_engine import designs, manifold_position
from tepidarium_engine.designs import (
    BuildUp,
    DesignLimits,
    DesignRoom,
    DesignsInputs,
    DesignsResult,
    Manifold,
    PlanDoorway,
    Storey,
    WallAllowed,
)
from tepidarium_engine.errors import InputError
from tepidarium_engine.manifold_position import ManifoldPositionInputs, ManifoldRoom

from tests.storeys.buildings import building
from tests.storeys.case import rect

FLOOR = BuildUp("floor", resistance_below=2.5, temperature_below=8.0, covering_resistance=0.05)


def _room(name: str, outline: tuple[tuple[float, float], ...], **changes: Any) -> DesignRoom:
    return DesignRoom(name, "floor", 300.0, outline=outline, **{"pipe_spacing": 0.2, **changes})


HALL = _room("hall", rect(0.0, 0.0, 9.0, 1.6))
ROOMS = (
    HALL,
    _room("west", rect(0.0, 1.7, 3.0, 4.3)),
    _room("middle", rect(3.1, 1.7, 5.9, 4.3)),
    _room("east", rect(6.0, 1.7, 9.0, 4.3)),
)
DOORS = (
    PlanDoorway(("hall", "west"), (1.5, 1.65)),
    PlanDoorway(("hall", "middle"), (4.5, 1.65)),
    PlanDoorway(("hall", "east"), (7.5, 1.65)),
)
FLAT = DesignsInputs(ROOMS, (FLOOR,), doorways=DOORS)
ENDS = (WallAllowed("hall", ((0.0, 0.0), (0.0, 1.6))), WallAllowed("hall", ((9.0, 0.0), (9.0, 1.6))))


@pytest.fixture(scope="module")
def found() -> DesignsResult:
    return designs.calculate(FLAT)


def _pure(result: DesignsResult) -> DesignsResult:
    """Without what tells that places were found."""
    assert result.layout is not None
    placed = tuple(replace(one, position_found=False) for one in result.layout.placed_manifolds)
    told = {"position_found", "manifold_added"}
    return replace(
        result,
        layout=replace(result.layout, placed_manifolds=placed, sitings=()),
        findings=tuple(finding for finding in result.findings if finding.code not in told),
    )


def _as_given(inputs: DesignsInputs, result: DesignsResult) -> DesignsInputs:
    """The request again with every manifold where it was found."""
    assert result.layout is not None
    known = {one.id: one for one in inputs.all_manifolds}
    like = inputs.all_manifolds[0]
    placed = tuple(
        replace(known.get(one.id, like), id=one.id, position=one.position)
        for one in result.layout.placed_manifolds
    )
    if len(placed) == 1:
        return replace(inputs, manifold=placed[0])
    return replace(inputs, manifold=Manifold(), manifolds=placed)


def _asked_alone(inputs: DesignsInputs, result: DesignsResult, **changes: Any) -> ManifoldPositionInputs:
    """The question for the place alone, for the circuits of the design."""
    rooms = tuple(
        ManifoldRoom(room.id, room.outline or (), circuits=len(designed.circuit_ids))
        for room, designed in zip(inputs.rooms, result.rooms, strict=True)
    )
    limits = inputs.limits
    return ManifoldPositionInputs(
        rooms,
        inputs.doorways,
        maximum_ports=limits.maximum_circuits,
        tail_pitch=limits.tail_pitch,
        wall_clearance=limits.wall_clearance,
        pipe=inputs.pipe,
        **changes,
    )


def test_without_a_position_the_place_with_the_shortest_tails_is_found(found: DesignsResult) -> None:
    assert found.layout is not None and not found.layout.unplaced
    (placed,) = found.layout.placed_manifolds
    (siting,) = found.layout.sitings
    alone = manifold_position.calculate(_asked_alone(FLAT, found))
    # places are put on a grid of 0.1 mm
    assert placed.position_found and placed.position == pytest.approx(alone.manifolds[0].place, abs=1e-4)
    assert siting.places == (placed.place,)
    assert siting.tail_pipe == pytest.approx(alone.tail_pipe)
    assert siting.position_tail_pipe is None and siting.position_excess is None
    told = next(finding for finding in found.findings if finding.code == "position_found")
    assert told.where == "/manifold/position" and told.point == placed.place
    floor = shapely.Polygon(next(room.outline for room in ROOMS if room.id == placed.room))
    assert floor.exterior.distance(shapely.Point(placed.place)) < 1e-6


def test_the_found_position_sent_back_is_the_same_design(found: DesignsResult) -> None:
    again = designs.calculate(_as_given(FLAT, found))
    assert _pure(again) == _pure(found)
    assert again.layout is not None and not again.layout.sitings


def test_no_place_needs_less_pipe_as_drawn_than_the_one_found(found: DesignsResult) -> None:
    def tails(result: DesignsResult) -> float:
        return math.fsum(circuit.tail_length for circuit in result.circuits)

    for place in ((0.0, 0.8), (9.0, 0.8), (1.5, 0.0), (7.0, 0.0)):
        there = designs.calculate(replace(FLAT, manifold=Manifold(position=place)))
        assert tails(found) < tails(there)


def test_a_position_is_compared_with_the_places_allowed() -> None:
    given = Manifold(position=(0.0, 0.8), allowed_places=(WallAllowed("hall"),))
    result = designs.calculate(replace(FLAT, manifold=given))
    assert result.layout is not None
    (placed,), (siting,) = result.layout.placed_manifolds, result.layout.sitings
    assert not placed.position_found and placed.position == (0.0, 0.8)
    alone = manifold_position.calculate(
        _asked_alone(FLAT, result, position=(0.0, 0.8), allowed_places=(WallAllowed("hall"),))
    )
    assert siting.tail_pipe == pytest.approx(alone.tail_pipe)
    assert siting.position_tail_pipe == pytest.approx(alone.position_tail_pipe)
    assert siting.position_excess == pytest.approx(alone.position_excess)
    told = next(finding for finding in result.findings if finding.code == "better_position")
    assert (told.where, told.point) == ("/manifold/position", siting.places[0])


def test_only_the_walls_allowed_are_taken() -> None:
    result = designs.calculate(replace(FLAT, manifold=Manifold(allowed_places=ENDS[1:])))
    assert result.layout is not None
    (placed,) = result.layout.placed_manifolds
    assert placed.place[0] == pytest.approx(9.0)


@pytest.mark.parametrize("west", [None, (0.0, 0.8)])
def test_two_on_a_storey_are_placed_together_or_beside_one_that_stands(
    west: tuple[float, float] | None,
) -> None:
    """Each at its end of the hall, by hand; a room that names one of them is served by it."""
    manifolds = (
        Manifold(id="a", position=west, allowed_places=() if west else ENDS),
        Manifold(id="b", allowed_places=ENDS),
    )
    rooms = (replace(HALL, manifold="b"), *ROOMS[1:])
    inputs = replace(FLAT, rooms=rooms, manifolds=manifolds)
    result = designs.calculate(inputs)
    assert result.layout is not None and not result.layout.unplaced
    at = {one.id: one for one in result.layout.placed_manifolds}
    assert sorted(one.place[0] for one in at.values()) == pytest.approx([0.0, 9.0])
    assert at["b"].position_found and at["a"].position_found == (west is None)
    near = {"west": min(at.values(), key=lambda one: one.place[0]).id, "hall": "b"}
    near["east"] = max(at.values(), key=lambda one: one.place[0]).id
    served = {room.id: room.manifold for room in result.rooms}
    assert near.items() <= served.items()
    assert _pure(designs.calculate(_as_given(inputs, result))) == _pure(result)


def test_too_few_ports_add_a_manifold_like_the_one_given() -> None:
    inputs = replace(FLAT, manifold=Manifold(height=0.3), limits=DesignLimits(maximum_circuits=2))
    result = designs.calculate(inputs)
    assert result.layout is not None
    assert [one.id for one in result.layout.placed_manifolds] == ["1", "1-2"]
    assert {one.id: one.circuit_count for one in result.manifolds} == {"1": 2, "1-2": 2}
    told = [finding for finding in result.findings if finding.code == "manifold_added"]
    assert [finding.where for finding in told] == ["/manifold/position"]
    assert _pure(designs.calculate(_as_given(inputs, result))).circuits == result.circuits
    drawing = storey_drawing(inputs, result).decode()
    assert "2: manifold 1-2" in drawing and drawing.count('class="manifold"') == 3  # and its sample


def test_tails_that_would_be_too_long_add_a_manifold() -> None:
    limits = DesignLimits(maximum_tail_length=6.0)
    result = designs.calculate(replace(FLAT, manifold=Manifold(allowed_places=ENDS), limits=limits))
    assert [one.id for one in result.manifolds] == ["1", "1-2"]


def test_a_room_that_nothing_reaches_does_not_keep_the_others_from_a_place() -> None:
    shut = _room("shut", rect(20.0, 0.0, 24.0, 4.0))
    result = designs.calculate(replace(FLAT, rooms=(*ROOMS, shut)))
    assert result.layout is not None
    (placed,) = result.layout.placed_manifolds
    assert placed.room != "shut"
    assert {one.room for one in result.layout.unplaced} == {"shut"}
    assert result.layout.sitings[0].tail_pipe is None


@pytest.mark.parametrize(
    ("manifold", "pointer"),
    [
        (Manifold(allowed_places=(WallAllowed("cellar"),)), "/manifold/allowed_places/0/room"),
        (
            Manifold(allowed_places=(WallAllowed("hall", ((1.0, 0.8), (2.0, 0.8))),)),
            "/manifold/allowed_places/0/stretch",
        ),
        (
            Manifold(allowed_places=(WallAllowed("hall", ((1.0, 0.0), (1.3, 0.0))),)),
            "/manifold/allowed_places",
        ),
    ],
)
def test_places_that_cannot_be_taken_point_to_their_field(manifold: Manifold, pointer: str) -> None:
    with pytest.raises(InputError) as refusal:
        designs.calculate(replace(FLAT, manifold=manifold))
    assert pointer in [fault.pointer for fault in refusal.value.faults]


def test_places_are_found_where_something_is_drawn_and_within_the_way_permitted() -> None:
    with pytest.raises(InputError) as refusal:
        designs.calculate(replace(FLAT, doorways=(), manifold=Manifold(allowed_places=ENDS)))
    assert [fault.pointer for fault in refusal.value.faults] == ["/manifold/allowed_places"]
    near = DesignLimits(maximum_tail_length=0.5)
    with pytest.raises(InputError) as refusal:
        designs.calculate(replace(FLAT, manifold=Manifold(allowed_places=ENDS), limits=near))
    assert [fault.pointer for fault in refusal.value.faults] == ["/limits/maximum_tail_length"]


def test_more_circuits_than_all_manifolds_have_ports_are_told_as_such() -> None:
    rooms = tuple(replace(room, pipe_spacing=0.1) for room in ROOMS)
    limits = DesignLimits(maximum_circuits=1, maximum_tail_length=2.5, maximum_circuit_length=50.0)
    with pytest.raises(InputError) as refusal:
        designs.calculate(replace(FLAT, rooms=rooms, limits=limits))
    assert [fault.pointer for fault in refusal.value.faults] == ["/limits/maximum_circuits"]


def test_storeys_find_their_places_each_for_itself() -> None:
    upper = tuple(replace(room, id=f"{room.id} above", storey="upper") for room in ROOMS)
    doors = tuple(replace(door, rooms=tuple(f"{name} above" for name in door.rooms)) for door in DOORS)
    inputs = replace(
        FLAT,
        rooms=(*(replace(room, storey="lower") for room in ROOMS), *upper),
        doorways=(*DOORS, *doors),
        storeys=(Storey("lower"), Storey("upper")),
        manifolds=(Manifold(id="l", storey="lower"), Manifold(id="u", storey="upper")),
    )
    layout = designs.calculate(inputs).layout
    assert layout is not None
    low, high = layout.placed_manifolds
    assert low.place == high.place and low.position_found and high.position_found
    assert [siting.storey for siting in layout.sitings] == ["lower", "upper"]


def test_the_example_finds_a_place_too() -> None:
    request = dict(DESIGNS.example) | {"manifold": {}}
    result = designs.calculate(msgspec.convert(request, DesignsInputs, strict=False))
    assert result.layout is not None and not result.layout.unplaced


def _two_squares(**manifold: Any) -> DesignsInputs:
    joint = (((2.0, 0.0), (2.0, 4.0)),)
    rooms = (
        _room("hall", rect(0.0, 0.0, 4.0, 4.0), movement_joints=joint, manifold="a"),
        _room("room", rect(4.1, 0.0, 8.1, 4.0), manifold="b"),
    )
    manifolds = (Manifold(id="a", **manifold), Manifold(id="b", position=(6.0, 0.0)))
    return DesignsInputs(
        rooms, (FLOOR,), doorways=(PlanDoorway(("hall", "room"), (4.05, 1.0)),), manifolds=manifolds
    )


@pytest.mark.parametrize("corner", [(0.0, 0.0), (0.0, 1.6), (9.0, 0.05)])
def test_a_manifold_in_a_corner_has_its_ports_beside_it_and_that_is_told(corner: tuple[float, float]) -> None:
    """By hand: four pairs of pipes 0.12 m wide and 75 mm of clearance keep the middle 0.315 m from the corner."""
    result = designs.calculate(replace(FLAT, manifold=Manifold(position=corner)))
    assert result.layout is not None and not result.layout.unplaced
    told = next(finding for finding in result.findings if finding.code == "ports_moved")
    assert told.where == "/manifold/position" and told.point is not None
    corners = rect(0.0, 0.0, 9.0, 1.6)
    assert min(math.dist(told.point, each) for each in corners) == pytest.approx(0.315)
    ends = [end for one in result.layout.drawn_circuits for end in (one.pieces[0].start, one.pieces[-1].end)]
    middle = shapely.MultiPoint(ends).centroid
    assert (middle.x, middle.y) == pytest.approx(told.point)


def test_ports_at_the_foot_of_a_joint_that_go_to_one_side_are_told() -> None:
    result = designs.calculate(_two_squares(position=(2.0, 0.0)))
    told = next(finding for finding in result.findings if finding.code == "ports_moved")
    assert told.where == "/manifolds/0/position" and told.point is not None
    assert told.point[1] == 0.0 and told.value == pytest.approx(abs(told.point[0] - 2.0))
    assert "movement joint" in told.places[0].message
    aside = designs.calculate(_two_squares(position=(1.0, 0.0)))
    assert "ports_moved" not in {finding.code for finding in aside.findings}


@pytest.mark.parametrize("number", [4, 21])
def test_manifolds_have_ports_for_circuits_that_come_with_closer_spacings(number: int) -> None:
    """Their places were found for fewer circuits, at the wider spacings of rooms that tails of others do not cross yet.
    Manifolds of 2 to 12 ports are what the trade sells (common practice, no source)."""
    result = designs.calculate(building(number))
    assert result.layout is not None and not result.layout.unplaced
    assert all(manifold.circuit_count <= 12 for manifold in result.manifolds)
    assert "too_many_circuits" not in {finding.code for finding in result.findings}
