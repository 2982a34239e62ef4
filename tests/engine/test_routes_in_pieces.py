"""Rooms in which no cuts along the walls leave the tails a way: ``routes`` lays them in pieces that are reached through
each other. All is checked on the answer's own lines by shapely and by arithmetic."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache
from itertools import combinations, pairwise

import pytest
import shapely
from shapely import LineString
from shapely.ops import substring
from tepidarium_engine.errors import InputError
from tepidarium_engine.pipe import Pipe
from tepidarium_engine.routes import RouteCircuit, RoutesInputs, RoutesResult, WallStretch, calculate
from tepidarium_engine.storey.model.division_records import DividedRoom, DivisionRequest
from tepidarium_engine.storey.rooms import route_division

from tests.rooms.case import RoomCase, turned
from tests.rooms.random_rooms import random_room

NUMBERS = (5025, 5059)
MORE = (5002, 6020, 6064, 6075, 6140, 6198)
"""Of random rooms that were laid as one pipe beyond its limit before pieces: with voids, or entries beside a corner."""
LAID = pytest.mark.parametrize(
    "number", [*NUMBERS, *(pytest.param(number, marks=pytest.mark.long) for number in MORE)]
)
JOINTED = RoutesInputs(
    outline=((0.0, 0.0), (6.0, 0.0), (6.0, 4.0), (0.0, 4.0)),
    pipe_spacing=0.15,
    entry=(1.5, 0.0),
    pipe=Pipe(0.012, 0.002),
    maximum_circuit_length=60.0,
    movement_joints=(((3.0, 0.0), (3.0, 4.0)),),
    quick=True,
)


def asked(case: RoomCase) -> RoutesInputs:
    pipe = Pipe(case.outside_diameter, 0.002, minimum_bend_radius=case.bend_radius)
    return RoutesInputs(
        case.outline,
        case.pipe_spacing,
        entry=case.entry,
        wall_clearance=case.wall_clearance,
        pipe=pipe,
        tail_length=2.0,
        voids=case.voids,
    )


@cache
def solved(number: int) -> RoutesResult:
    return calculate(asked(random_room(number)))


def line_of(circuit: RouteCircuit) -> LineString:
    return LineString(circuit.path)


def field_of(circuit: RouteCircuit) -> LineString:
    """Without what leads to the floor, and half a metre of either end in which the pipes spread."""
    line, ends = line_of(circuit), circuit.inner_tail_length / 2.0 + 0.5
    return substring(line, ends, line.length - ends)


@LAID
def test_no_circuit_is_longer_than_permitted(number: int) -> None:
    result = solved(number)
    assert len(result.circuits) > 1
    for circuit in result.circuits:
        by_hand = math.fsum(
            math.dist(piece.start, piece.end)
            if piece.kind == "line"
            else (piece.radius or 0) * abs(piece.sweep or 0)
            for piece in circuit.pieces
        )
        assert circuit.length == pytest.approx(by_hand, rel=1e-9)
        assert circuit.total_length == pytest.approx(by_hand + 4.0)
        assert circuit.total_length <= result.maximum_circuit_length
    lengths = [circuit.total_length for circuit in result.circuits]
    spread = (max(lengths) - min(lengths)) * len(lengths) / sum(lengths)
    # pipes end at the wall as it was drawn, up to a millimetre from where lengths were compared
    assert result.length_spread == pytest.approx(spread, abs=1e-4)
    # an answer whose lengths differ by more than 8 % says so (our own rule)
    codes = {finding.code for finding in result.findings}
    assert ("unequal_circuits" in codes) == (spread > 0.08)
    assert "circuit_too_long" not in codes


@LAID
def test_each_pipe_can_be_bent_and_is_in_one_piece(number: int) -> None:
    radius = random_room(number).bend_radius
    for circuit in solved(number).circuits:
        assert circuit.valid
        for piece, after in pairwise(circuit.pieces):
            assert math.dist(piece.end, after.start) < 1e-6
        assert min(piece.radius or math.inf for piece in circuit.pieces) >= radius - 1e-9


@LAID
def test_pipes_keep_clear_of_walls_and_of_each_other(number: int) -> None:
    case, result = random_room(number), solved(number)
    floor = case.room.placed
    for circuit in result.circuits:
        line = line_of(circuit)
        assert line.is_simple
        # corners of the floor are on whole millimetres of the room's own frame
        assert shapely.covers(shapely.buffer(floor, 1e-3), line)
        # they begin on the wall and come away from it squarely
        away = case.wall_clearance + case.bend_radius
        inside = substring(line, away, line.length - away)
        assert shapely.distance(inside, floor.boundary) >= case.wall_clearance - 0.006
    for one, other in combinations(result.circuits, 2):
        assert shapely.distance(line_of(one), line_of(other)) >= one.tail_pitch - 0.006
        assert shapely.distance(field_of(one), field_of(other)) >= 0.6 * case.pipe_spacing - 1e-3


@LAID
def test_the_floor_is_covered(number: int) -> None:
    case, result = random_room(number), solved(number)
    floor = case.room.placed
    served = shapely.union_all([line_of(one).buffer(0.75 * case.pipe_spacing) for one in result.circuits])
    share = shapely.intersection(served, floor).area / floor.area
    assert share > 0.9
    assert math.fsum(circuit.area for circuit in result.circuits) <= floor.area + 1e-6


@LAID
def test_a_turned_room_gets_the_same_circuits(number: int) -> None:
    """0.5 % is what nobody notices: our own rule, as for rooms that are drawn by others."""
    other = calculate(asked(turned(random_room(number), 90.0)))
    lengths, again = ([one.length for one in result.circuits] for result in (solved(number), other))
    assert again == pytest.approx(lengths, rel=0.005)


@pytest.mark.parametrize("number", [6021, 6103, pytest.param(6086, marks=pytest.mark.long)])
def test_bends_between_tails_and_fields_keep_to_the_room(number: int) -> None:
    """Rooms that cuts divide only where bends cut no corner of the room and keep off the tails of others: in pieces
    their lengths would spread by up to 15 %."""
    floor, result = random_room(number).room.placed, solved(number)
    lines = list(map(line_of, result.circuits))
    assert len(lines) > 1
    assert all(shapely.covers(floor.buffer(1e-4), line) for line in lines)
    assert all(shapely.distance(*pair) >= 0.044 for pair in combinations(lines, 2))
    lengths = [circuit.total_length for circuit in result.circuits]
    assert max(lengths) / min(lengths) <= 1.08


def test_the_same_request_gives_the_same_circuits() -> None:
    assert calculate(asked(random_room(NUMBERS[0]))) == solved(NUMBERS[0])


def _only_pieces(patch: pytest.MonkeyPatch) -> None:
    def refused(*_: object) -> DividedRoom:
        return DividedRoom(refusal=route_division.Refusal("no_way_for_tails"))

    patch.setattr(route_division, "divided", refused)


def test_pieces_keep_movement_joints(monkeypatch: pytest.MonkeyPatch) -> None:
    _only_pieces(monkeypatch)
    result = calculate(JOINTED)
    joint = LineString(JOINTED.movement_joints[0])
    assert len(result.circuits) > 1
    crossed = 0
    for circuit in result.circuits:
        assert circuit.total_length <= 60.0
        assert not shapely.intersects(field_of(circuit), joint)
        crossed += len(shapely.get_coordinates(shapely.intersection(line_of(circuit), joint)))
    assert crossed == len(result.sleeves) > 0
    for sleeve in result.sleeves:
        assert shapely.distance(joint, shapely.Point(sleeve.place)) < 1e-3


def test_the_outermost_pipe_is_what_was_asked_for(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is flow with the one is return with the other."""
    _only_pieces(monkeypatch)
    plain = replace(JOINTED, movement_joints=(), maximum_circuit_length=90.0)
    flow, back = (calculate(replace(plain, outermost_pipe=way)).circuits for way in ("flow", "return"))
    assert len(flow) == len(back) > 1
    for one, other in zip(flow, back, strict=True):
        first = substring(field_of(one), 0.1, 0.4, normalized=True)
        second = substring(field_of(other), 0.5, 1.0, normalized=True)
        assert shapely.covers(second.buffer(0.02), first)


def test_as_many_circuits_as_are_asked_for_or_none(monkeypatch: pytest.MonkeyPatch) -> None:
    _only_pieces(monkeypatch)
    plain = replace(JOINTED, movement_joints=())
    assert len(calculate(replace(plain, circuits=4)).circuits) == 4
    with pytest.raises(InputError, match="tails of some circuits no way"):
        calculate(replace(plain, circuits=2))


def test_walls_with_their_own_clearance_are_not_laid_in_pieces(monkeypatch: pytest.MonkeyPatch) -> None:
    asked_for: list[DivisionRequest] = []
    monkeypatch.setattr(route_division, "alone_in_pieces", lambda _, request: asked_for.append(request))
    _only_pieces(monkeypatch)
    with pytest.raises(InputError):
        calculate(replace(JOINTED, wall_stretches=(WallStretch(0.2, edge=0),)))
    assert asked_for == []
