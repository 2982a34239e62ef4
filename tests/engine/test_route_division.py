"""A room that takes several circuits: what ``routes`` asks, refuses and answers. Checked on the answer's own lines by
shapely and by arithmetic; how pieces come about is tested with the division."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache
from itertools import combinations, pairwise
from typing import Any

import pytest
import shapely
from shapely import LineString, Point, Polygon
from shapely.ops import substring
from tepidarium_engine.errors import InputError
from tepidarium_engine.pipe import Pipe
from tepidarium_engine.plan.asking.route_refusals import MOST_SQUARES
from tepidarium_engine.routes import (
    PeripheralArea,
    RouteCircuit,
    RoutesInputs,
    RoutesResult,
    calculate,
    workings,
)
from tepidarium_engine.storey.rooms.route_division import MOST_DIVIDED_CIRCUITS, MOST_DIVIDED_SQUARES

ROOM = RoutesInputs(
    outline=((0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)),
    pipe_spacing=0.15,
    entry=(1.8, 0.0),
    pipe=Pipe(0.012, 0.002),
    tail_length=2.0,
    maximum_circuit_length=55.0,
)
WHOLE = replace(ROOM, maximum_circuit_length=None)
JOINT = ((2.0, 0.0), (2.0, 3.0))
PARTED = replace(WHOLE, entry=(0.8, 0.0), movement_joints=(JOINT,))
CASES = {"too long": ROOM, "asked": replace(WHOLE, circuits=2), "joint": PARTED}


@cache
def solved(name: str) -> RoutesResult:
    return calculate(CASES[name])


def line_of(circuit: RouteCircuit) -> LineString:
    return LineString(circuit.path)


def field_of(circuit: RouteCircuit) -> LineString:
    """Without what leads to the floor, and half a metre of either end in which the pipes spread."""
    line, ends = line_of(circuit), circuit.inner_tail_length / 2.0 + 0.5
    return substring(line, ends, line.length - ends)


def refusal(inputs: RoutesInputs) -> dict[str, str]:
    with pytest.raises(InputError) as caught:
        calculate(inputs)
    return {fault.pointer: f"{fault.code}: {fault.detail}" for fault in caught.value.faults}


def codes(result: RoutesResult) -> set[str]:
    return {finding.code for finding in result.findings}


@pytest.mark.parametrize("name", CASES)
def test_each_circuit_is_short_enough_and_adds_up(name: str) -> None:
    inputs, result = CASES[name], solved(name)
    assert len(result.circuits) == 2
    for circuit in result.circuits:
        assert circuit.total_length == pytest.approx(circuit.length + 2.0 * inputs.tail_length)
        assert circuit.total_length <= result.maximum_circuit_length
        assert 0.0 < circuit.inner_tail_length < circuit.length
        by_hand = math.fsum(
            math.dist(piece.start, piece.end)
            if piece.kind == "line"
            else (piece.radius or 0) * abs(piece.sweep or 0)
            for piece in circuit.pieces
        )
        assert circuit.length == pytest.approx(by_hand, rel=1e-9)
    assert result.pipe_length == pytest.approx(math.fsum(one.total_length for one in result.circuits))
    assert "circuit_too_long" not in codes(result)


@pytest.mark.parametrize("name", CASES)
def test_the_spread_is_that_of_the_lengths(name: str) -> None:
    result = solved(name)
    lengths = [circuit.total_length for circuit in result.circuits]
    spread = (max(lengths) - min(lengths)) * len(lengths) / sum(lengths)
    # each field between joints by itself: pipe cannot be moved over a joint
    assert result.length_spread == pytest.approx(0.0 if name == "joint" else spread, abs=1e-9)
    assert spread < 0.1


@pytest.mark.parametrize("name", CASES)
def test_pipes_stay_in_the_room_and_off_each_other(name: str) -> None:
    inputs, result = CASES[name], solved(name)
    room = Polygon(inputs.outline)
    for circuit in result.circuits:
        assert circuit.valid
        assert line_of(circuit).is_simple
        assert shapely.covers(shapely.buffer(room, 1e-5), line_of(circuit))
        assert circuit.least_radius is not None and circuit.least_radius >= 0.06 - 1e-9
    for one, other in combinations(result.circuits, 2):
        assert shapely.distance(field_of(one), field_of(other)) >= 0.6 * inputs.pipe_spacing - 1e-3
        assert shapely.distance(line_of(one), line_of(other)) >= one.tail_pitch - 0.006


@pytest.mark.parametrize("name", CASES)
def test_circuits_stand_in_order_along_the_wall(name: str) -> None:
    result = solved(name)
    assert [circuit.id for circuit in result.circuits] == ["1", "2"]
    for before, after in pairwise(result.circuits):
        # the outline runs counter-clockwise, so that along this wall x grows
        assert after.entry[0] - before.entry[0] == pytest.approx(2.0 * before.tail_pitch)
        assert before.entry[1] == after.entry[1] == 0.0
    for circuit in result.circuits:
        ends = circuit.path[0], circuit.path[-1]
        assert math.dist(*ends) == pytest.approx(circuit.tail_pitch)
        middle = ((ends[0][0] + ends[1][0]) / 2.0, (ends[0][1] + ends[1][1]) / 2.0)
        assert math.dist(middle, circuit.entry) < 1e-6


@pytest.mark.parametrize("name", CASES)
def test_the_floor_is_covered_once(name: str) -> None:
    inputs, result = CASES[name], solved(name)
    floor = Polygon(inputs.outline)
    areas = math.fsum(circuit.area for circuit in result.circuits)
    # a tail takes its pitch times its way, and what lies behind it at the wall
    bands = 2.0 * sum(circuit.inner_tail_length * circuit.tail_pitch for circuit in result.circuits)
    assert floor.area - bands <= areas <= floor.area + 1e-6
    served = shapely.union_all([line_of(one).buffer(0.75 * inputs.pipe_spacing) for one in result.circuits])
    share = shapely.intersection(served, floor).area / floor.area
    assert result.coverage.coverage_three_quarters == pytest.approx(share, abs=0.003)
    assert share > 0.97


def test_only_tails_cross_the_joint_and_each_crossing_is_a_sleeve() -> None:
    result, joint = solved("joint"), LineString(JOINT)
    crossings = [
        (circuit.id, point)
        for circuit in result.circuits
        for point in shapely.get_parts(shapely.intersection(line_of(circuit), joint))
        if not point.is_empty
    ]
    assert len(crossings) == len(result.sleeves) == 2
    for sleeve in result.sleeves:
        assert shapely.distance(joint, Point(sleeve.place)) < 1e-4
        assert math.hypot(*sleeve.ahead) == pytest.approx(1.0)
        assert min(
            math.dist(sleeve.place, (point.x, point.y)) for name, point in crossings if name == sleeve.circuit
        ) == pytest.approx(0.0, abs=0.002)
    for circuit in result.circuits:
        assert not shapely.intersects(field_of(circuit), joint)
    assert {"sleeves_due"} <= codes(result)
    assert "crosses_movement_joint" not in codes(result)


def test_joints_that_cross_part_the_floor_in_four() -> None:
    crossing = (((2.5, 0.0), (2.5, 3.0)), ((0.0, 1.4), (4.0, 1.4)))
    result = calculate(replace(WHOLE, entry=(1.2, 0.0), movement_joints=crossing, quick=True))
    assert len(result.circuits) == 4
    joints = shapely.MultiLineString(crossing)
    assert not any(shapely.intersects(field_of(circuit), joints) for circuit in result.circuits)


def test_a_short_pipe_stays_one_circuit() -> None:
    result = calculate(replace(WHOLE, maximum_circuit_length=90.0, quick=True))
    assert len(result.circuits) == 1
    assert result.sleeves == () and result.length_spread is None
    assert result.circuits[0].inner_tail_length == 0.0


def test_one_circuit_can_be_asked_for_however_long() -> None:
    result = calculate(replace(ROOM, circuits=1, quick=True))
    assert len(result.circuits) == 1
    assert "circuit_too_long" in codes(result)


def test_the_same_request_gives_the_same_circuits() -> None:
    assert calculate(CASES["joint"]) == solved("joint")


NICHE = ((0.0, 0.0), (1.8, 0.0), (1.8, -0.4), (2.3, -0.4), (2.3, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0))


def test_a_room_without_a_way_for_its_tails_is_refused_and_not_laid_as_one_pipe() -> None:
    """Two pairs at their pitch find no straight wall where the entry lies in a niche; a change that helps is named, and
    is followed here."""
    niche = replace(ROOM, outline=NICHE, entry=(2.05, -0.4), quick=True, tail_pitch=0.18)
    told = refusal(niche)["/entry"]
    assert told.startswith("no_division_entry_too_narrow")
    x, y = map(float, told.rpartition("[")[2].rstrip("]").split(", "))
    assert max(one.total_length for one in calculate(replace(niche, entry=(x, y))).circuits) <= 55.0


def test_pairs_come_in_beside_an_entry_in_a_corner_and_that_is_told() -> None:
    """Their middle keeps half of what they take from the corner, with the wall clearance: arithmetic."""
    result = calculate(replace(ROOM, entry=(0.05, 0.0), quick=True))
    first, last = result.circuits[0].entry, result.circuits[-1].entry
    middle, pitch = (first[0] + last[0]) / 2.0, result.circuits[0].tail_pitch
    assert first[1] == last[1] == 0.0
    assert middle - (2 * len(result.circuits) - 1) * pitch / 2.0 >= ROOM.wall_clearance
    (moved,) = (finding for finding in result.findings if finding.code == "entry_moved")
    assert moved.places[0].value == pytest.approx(middle - 0.05, abs=1e-6)


@pytest.mark.parametrize(
    ("changes", "pointer"),
    [
        ({"outline": ((0.0, 0.0), (20.0, 0.0), (20.0, 10.0), (0.0, 10.0))}, "/outline"),
        ({"outline": ((0.0, 0.0), (20.0, 0.0), (20.0, 9.0), (0.0, 9.0)), "circuits": 2}, "/circuits"),
        ({"circuits": 20}, "/circuits"),
        ({"circuits": 2, "second_entry": (3.0, 0.0)}, "/circuits"),
        ({"circuits": 2, "peripheral": PeripheralArea((0,), 0.1)}, "/circuits"),
        ({"circuits": 2, "path": ((1.0, 0.0), (1.0, 2.0))}, "/circuits"),
        ({"circuits": 1, "movement_joints": (JOINT,)}, "/circuits"),
        ({"circuits": 2, "entry": None, "doorway": ((1.0, 0.0), (1.12, 0.0))}, "/doorway"),
        ({"movement_joints": (((6.0, 0.0), (6.0, 3.0)),)}, "/movement_joints/0"),
        ({"movement_joints": (((0.5, 0.5), (3.0, 2.5), (3.0, 0.5), (0.5, 2.5)),)}, "/movement_joints/0"),
        ({"movement_joints": (JOINT, ((2.0, 1.0), (2.0, 3.0)))}, "/movement_joints/1"),
        ({"movement_joints": (((2.0, 0.0), (2.0, 3.0), (2.0, 3.0)),)}, "/movement_joints/0/2"),
        ({"movement_joints": (((3.9, 0.0), (3.9, 3.0)),)}, "/movement_joints"),
        ({"movement_joints": (((1.85, 0.0), (1.85, 3.0)),)}, "/entry"),
        ({"circuits": 12, "entry": (0.3, 0.0)}, "/entry"),
    ],
)
def test_what_cannot_be_divided_names_the_field(changes: dict[str, Any], pointer: str) -> None:
    assert pointer in refusal(replace(ROOM, **changes))


def _of_size(width: float, depth: float, longest: float) -> RoutesInputs:
    outline = ((0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth))
    return replace(ROOM, outline=outline, entry=(width / 2.0, 0.0), maximum_circuit_length=longest)


def test_no_more_circuits_are_answered_than_the_limit_says() -> None:
    """15 circuits by the floor's area alone (234 m2 / 0.15 m / 104 m) are 17 with the way to each."""
    (told,) = refusal(_of_size(18.0, 13.0, 108.0)).values()
    assert told.startswith("no_division_too_many_circuits")
    assert f"at most {MOST_DIVIDED_CIRCUITS} are laid" in told


@pytest.mark.parametrize(("longest", "code"), [(150.0, "too_many_circuits"), (190.0, "too_much_to_divide")])
def test_what_is_too_large_is_refused_beforehand(longest: float, code: str) -> None:
    """400 m2 at 150 mm are 2667 m of pipe, and 17778 squares as wide as the spacing (arithmetic)."""
    room = _of_size(20.0, 20.0, longest)
    told = refusal(room)["/outline"]
    assert told.startswith(code) and "divide the room" in told
    assert max(MOST_DIVIDED_SQUARES, MOST_SQUARES) < 20.0 * 20.0 / 0.15**2
    # one pipe however long is no way out where it is refused as well
    assert "circuits 1" not in told
    assert refusal(replace(room, circuits=1)).keys() == {"/pipe_spacing"}


def test_the_workings_add_up() -> None:
    rows = {row.symbol: row.value for row in workings(ROOM, solved("too long"))}
    assert rows["L"] == pytest.approx(rows["L_1"] + rows["L_2"])
