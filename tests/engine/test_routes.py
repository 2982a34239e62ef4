"""The calculation ``routes``: what it asks, refuses, tells and answers. What makes a route good is tested elsewhere.

Checks are by shapely on the answer's own lines and arcs, by hand, or by geometry of school books.
"""

from __future__ import annotations

import math
from dataclasses import asdict, replace
from functools import cache
from itertools import pairwise
from typing import Any

import pytest
import shapely
import shapely.ops
from shapely import LineString, Point, Polygon
from tepidarium_engine.errors import InputError
from tepidarium_engine.pipe import Pipe
from tepidarium_engine.routes import (
    PathPiece,
    PeripheralArea,
    RouteCircuit,
    RoutesInputs,
    RoutesResult,
    WallStretch,
    calculate,
    clearance_rings,
    workings,
)

THIN = Pipe(0.012, 0.002)
ROOM = RoutesInputs(
    outline=((0.0, 0.0), (3.2, 0.0), (3.2, 2.6), (0.0, 2.6)), pipe_spacing=0.15, entry=(1.0, 0.0), pipe=THIN
)
ELL = ((0.0, 0.0), (3.0, 0.0), (3.0, 3.0), (6.5, 3.0), (6.5, 3.95), (0.0, 3.95))
SLOT = ((0.0, 0.0), (3.0, 0.0), (3.0, 0.22), (0.0, 0.22))
LOW = ((0.0, 0.0), (4.0, 0.0), (4.0, 0.95), (0.0, 0.95))
HALL = ((0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0))
OFF_WALL = ((1.5, 0.0), (1.5, 0.7))
ARM = replace(ROOM, outline=ELL, pipe_spacing=0.2)


@cache
def solved(inputs: RoutesInputs = ROOM) -> RoutesResult:
    return calculate(inputs)


def line_of(circuit: RouteCircuit) -> LineString:
    return LineString(circuit.path)


def refusal(inputs: RoutesInputs) -> dict[str, str]:
    with pytest.raises(InputError) as caught:
        calculate(inputs)
    return {fault.pointer: f"{fault.code}: {fault.detail}" for fault in caught.value.faults}


def codes(result: RoutesResult) -> set[str]:
    return {finding.code for finding in result.findings}


# -- what is answered


def test_the_length_is_that_of_lines_and_arcs() -> None:
    (circuit,) = solved().circuits
    by_hand = math.fsum(
        math.dist(piece.start, piece.end)
        if piece.kind == "line"
        else (piece.radius or 0) * abs(piece.sweep or 0)
        for piece in circuit.pieces
    )
    assert circuit.length == pytest.approx(by_hand, rel=1e-9)
    # chords are shorter than their arcs, by less than 8/3 of the chord error on each (circle geometry)
    short = circuit.length - line_of(circuit).length
    assert 0.0 < short < 8.0 / 3.0 * 0.001 * len(circuit.path)


def test_path_and_pieces_are_the_same_curve() -> None:
    (circuit,) = solved(replace(ROOM, chord_error=0.0002)).circuits
    line = line_of(circuit)
    for piece in circuit.pieces:
        assert shapely.distance(line, Point(piece.start)) < 1e-6
        if piece.kind == "arc":
            assert piece.centre is not None and piece.radius is not None
            assert math.dist(piece.start, piece.centre) == pytest.approx(piece.radius, abs=1e-9)
            assert math.dist(piece.end, piece.centre) == pytest.approx(piece.radius, abs=1e-9)
            assert piece.radius >= 0.06 - 1e-9
    away = [shapely.distance(line, Point(piece.end)) for piece in circuit.pieces]
    assert max(away) < 1e-6


@pytest.mark.parametrize("pattern", ["counterflow", "serpentine"])
def test_the_pipe_keeps_what_was_asked_for(pattern: Any) -> None:
    result = solved(replace(ROOM, pattern=pattern))
    (circuit,) = result.circuits
    line, room = line_of(circuit), Polygon(ROOM.outline)
    assert circuit.valid and circuit.pattern == pattern
    assert line.is_simple
    assert shapely.contains(shapely.buffer(room, 1e-6), line)
    inner = shapely.difference(line, Point(circuit.entry).buffer(0.075 + 0.15 + 0.06 + 0.15))
    assert shapely.distance(inner, room.exterior) >= 0.075 - 0.003
    assert math.dist(circuit.path[0], circuit.path[-1]) == pytest.approx(0.15, abs=0.005)
    # common practice: the floor takes one over the spacing in pipe; area / spacing
    assert circuit.length == pytest.approx(room.area / 0.15, rel=0.06)


def test_both_tails_count_and_the_lengths_add_up() -> None:
    result = solved(replace(ROOM, tail_length=6.5))
    (circuit,) = result.circuits
    assert circuit.tail_length == 13.0
    assert circuit.total_length == circuit.length + 13.0
    assert result.pipe_length == circuit.total_length


def test_the_outermost_pipe_is_the_one_asked_for() -> None:
    flow, back = (solved(replace(ROOM, outermost_pipe=which)).circuits[0] for which in ("flow", "return"))
    edge = Polygon(ROOM.outline).exterior

    def first_half_on_the_walls(circuit: RouteCircuit) -> float:
        half = shapely.ops.substring(line_of(circuit), 0.0, circuit.length / 2.0)
        return float(shapely.intersection(half, shapely.buffer(edge, 0.12)).length)

    assert first_half_on_the_walls(flow) > 2.0 * first_half_on_the_walls(back)
    assert shapely.hausdorff_distance(line_of(flow), line_of(back)) < 1e-6
    assert math.dist(flow.path[0], back.path[-1]) < 1e-6


def test_a_drawing_far_away_gives_the_same_pipe() -> None:
    by = (1e6, -5e5)
    far = replace(
        ROOM,
        outline=tuple((x + by[0], y + by[1]) for x, y in ROOM.outline),
        entry=(1.0 + by[0], by[1]),
    )
    (here,), (there,) = solved().circuits, solved(far).circuits
    assert there.length == pytest.approx(here.length, abs=1e-6)
    assert there.bends == here.bends
    moved = [(x - by[0], y - by[1]) for x, y in there.path]
    assert shapely.hausdorff_distance(LineString(moved), line_of(here)) < 1e-6


# -- where the pipes come in


def test_a_doorway_and_the_manifold_stand_for_a_point() -> None:
    door = solved(replace(ROOM, entry=None, doorway=((0.6, 0.0), (1.4, 0.0))))
    manifold = solved(replace(ROOM, entry=None, manifold_place=(1.0, -2.5)))
    assert door.circuits == solved().circuits == manifold.circuits


def test_a_doorway_brings_flow_and_return_together() -> None:
    (circuit,) = solved(replace(ROOM, entry=None, doorway=((0.9, 0.0), (1.1, 0.0)))).circuits
    assert circuit.tail_pitch == pytest.approx(0.1)
    assert math.dist(circuit.path[0], circuit.path[-1]) == pytest.approx(0.1, abs=0.005)


def test_an_entry_beside_the_wall_is_moved_on_to_it_and_says_so() -> None:
    result = solved(replace(ROOM, entry=(1.0, -0.03)))
    (finding,) = (finding for finding in result.findings if finding.code == "entry_moved")
    assert finding.value == pytest.approx(0.03)
    assert finding.point == pytest.approx((1.0, 0.0))


def test_an_entry_in_a_corner_is_moved_along_the_wall() -> None:
    result = solved(replace(ROOM, entry=(0.0, 0.0)))
    (finding,) = (finding for finding in result.findings if finding.code == "entry_moved")
    # half of the tail pitch, which is the spacing, to either side, and off the other wall
    assert 0.075 - 1e-6 <= (finding.value or 0.0) <= 0.25


def test_an_entry_off_the_outline_is_refused_with_the_nearest_point() -> None:
    detail = refusal(replace(ROOM, entry=(1.3, -0.8)))["/entry"]
    assert detail.startswith("off_outline")
    assert "0.800 m" in detail and "[1.300, 0.000]" in detail


@pytest.mark.parametrize(
    ("change", "pointer"),
    [
        ({"entry": None}, "/entry"),
        ({"manifold_place": (0.0, 0.0)}, "/manifold_place"),
        ({"entry": None, "doorway": ((0.5, 0.0), (1.0, 0.4))}, "/doorway/1"),
        ({"entry": None, "doorway": ((0.5, 0.0), (0.52, 0.0))}, "/doorway"),
        ({"entry": None, "doorway": ((0.5, 0.0), (0.6, 0.0)), "tail_pitch": 0.1}, "/doorway"),
        ({"tail_pitch": 0.011}, "/tail_pitch"),
        ({"second_entry": (1.6, 1.3)}, "/second_entry"),
    ],
)
def test_entries_that_make_no_sense(change: dict[str, Any], pointer: str) -> None:
    assert pointer in refusal(replace(ROOM, **change))


# -- two circuits


def test_two_entries_part_the_room_in_about_equal_pieces() -> None:
    result = solved(replace(ROOM, second_entry=(3.0, 2.6)))
    one, other = result.circuits
    assert (one.id, other.id) == ("1", "2")
    assert one.area / other.area == pytest.approx(1.0, abs=0.1)
    assert shapely.distance(line_of(one), line_of(other)) == pytest.approx(0.15, abs=0.01)
    assert result.pipe_length == pytest.approx(one.total_length + other.total_length)
    assert result.coverage.coverage_three_quarters > 0.97


def test_a_cut_that_leaves_unequal_circuits_says_so() -> None:
    assert "unequal_circuits" in codes(solved(replace(ROOM, second_entry=(0.4, 0.0), quick=True)))
    assert "unequal_circuits" not in codes(solved(replace(ROOM, second_entry=(3.0, 2.6))))


def test_two_entries_side_by_side_cannot_be_parted() -> None:
    assert "no_cut" in refusal(replace(ROOM, second_entry=(1.1, 0.0)))["/second_entry"]


def test_a_joint_parts_two_circuits() -> None:
    joint = ((3.0, 3.0), (3.0, 3.95))
    result = solved(replace(ARM, movement_joints=(joint,), second_entry=(6.5, 3.5)))
    for circuit in result.circuits:
        assert shapely.distance(line_of(circuit), LineString(joint)) >= 0.075 - 0.003
    assert [round(circuit.area, 3) for circuit in result.circuits] == [11.85, 3.325]  # 3 x 3.95, 3.5 x 0.95
    assert "crosses_movement_joint" not in codes(result)


def test_joints_that_part_more_than_two_fields_take_one_entry() -> None:
    joints = (((3.0, 3.0), (3.0, 3.95)), ((0.0, 1.5), (3.0, 1.5)))
    inputs = replace(ARM, movement_joints=joints, second_entry=(6.5, 3.5))
    assert "too_many_fields" in refusal(inputs)["/movement_joints"]


def test_a_joint_that_ends_in_the_room_is_crossed_and_says_where() -> None:
    joint = ((3.2, 1.3), (2.2, 1.3))
    result = solved(replace(ROOM, movement_joints=(joint,)))
    (finding,) = (finding for finding in result.findings if finding.code == "crosses_movement_joint")
    met = shapely.intersection(line_of(result.circuits[0]), LineString(joint))
    assert finding.severity == "violation"
    assert finding.value == len(shapely.get_parts(met))
    assert finding.point is not None
    assert shapely.distance(met, Point(finding.point)) < 0.01


def test_a_strip_along_outside_walls_as_a_circuit_of_its_own() -> None:
    strip = PeripheralArea(edges=(2,), pipe_spacing=0.1, width=0.8, own_circuit=True)
    result = solved(replace(ROOM, peripheral=strip, second_entry=(1.5, 2.6)))
    rest, dense = result.circuits
    assert (rest.pipe_spacing, dense.pipe_spacing) == (0.15, 0.1)
    assert line_of(dense).bounds[1] == pytest.approx(2.6 - 0.8 + 0.05, abs=0.005)  # half its spacing inside
    assert line_of(rest).bounds[3] == pytest.approx(2.6 - 0.8 - 0.075, abs=0.005)


def test_a_strip_that_shares_the_circuit_lies_closer() -> None:
    """From the wall inwards: 75 mm, then 100 mm apart in the strip and 150 mm in the rest of the room."""
    strip = PeripheralArea(edges=(2,), pipe_spacing=0.1, width=0.8)
    result = solved(replace(ROOM, peripheral=strip))
    (circuit,) = result.circuits
    assert circuit.valid
    across = shapely.intersection(line_of(circuit), LineString(((1.6, 2.6), (1.6, 1.4))))
    down = sorted((2.6 - y for _, y in shapely.get_coordinates(across)))
    assert down[0] == pytest.approx(0.075, abs=0.002)
    assert [b - a for a, b in pairwise(down[:7])] == pytest.approx([0.1] * 6, rel=0.1)
    assert circuit.length > solved().circuits[0].length
    assert "strip_not_closer" not in codes(result)


def test_a_slanted_wall_cannot_be_served_in_one_circuit() -> None:
    slanted = ((0.0, 0.0), (3.2, 0.0), (2.7, 2.6), (0.0, 2.6))
    strip = PeripheralArea(edges=(1, 3), pipe_spacing=0.1, width=0.6)
    result = solved(replace(ROOM, outline=slanted, peripheral=strip))
    assert [finding.where for finding in result.findings if finding.code == "strip_not_closer"] == [
        "/peripheral/edges/0"
    ]


@pytest.mark.parametrize(
    ("change", "pointer"),
    [
        ({"second_entry": None}, "/second_entry"),
        ({"second_entry": (3.2, 0.5)}, "/second_entry"),
        ({"entry": (3.2, 2.4)}, "/entry"),
        ({"peripheral": PeripheralArea((7,), 0.1, 0.8, True)}, "/peripheral/edges/0"),
        ({"peripheral": PeripheralArea((2,), 0.1, 0.8, False)}, "/second_entry"),
        ({"peripheral": PeripheralArea((2, 2), 0.1, 0.8, True)}, "/peripheral/edges"),
        ({"peripheral": PeripheralArea((2,), 0.2, 0.8, True)}, "/peripheral/pipe_spacing"),
        ({"peripheral": PeripheralArea((2,), 0.1, 2.7, True)}, "/peripheral"),
        ({"movement_joints": (((0.0, 1.0), (1.0, 1.0)),)}, "/peripheral"),
    ],
)
def test_strips_that_make_no_sense(change: dict[str, Any], pointer: str) -> None:
    strip = PeripheralArea(edges=(2,), pipe_spacing=0.1, width=0.8, own_circuit=True)
    sound = replace(ROOM, peripheral=strip, second_entry=(1.5, 2.6))
    assert pointer in refusal(replace(sound, **change))


# -- refusals


@pytest.mark.parametrize(
    ("change", "pointer", "words"),
    [
        # 1.1 x 75 mm = 82.5 mm, five diameters of 18 mm are 90 mm, 90 / 1.1 = 81.8 mm, 82.5 / 5 = 16.5 mm
        ({"pipe": Pipe(0.018, 0.002), "pipe_spacing": 0.075}, "/pipe_spacing", "at least 82 mm, or a pipe"),
        ({"pipe": Pipe(0.018, 0.002), "pipe_spacing": 0.075}, "/pipe_spacing", "bent to 82 mm"),
        ({"pipe": Pipe(0.018, 0.002), "pipe_spacing": 0.075}, "/pipe_spacing", "at most 16.5 mm"),
        ({"wall_clearance": 0.5, "outline": LOW}, "/wall_clearance", "0.950 m"),
        # pipe there and back: 2 x 75 + 0.6 x 150 = 240 mm; (220 - 150) / 0.6 = 117 mm would do;
        # (220 - 190) / 0.6 = 50 mm would not, as bends of 60 mm take 55 mm; a turn in 70 mm takes a bend of 35 mm
        ({"outline": SLOT}, "/pipe_spacing", "takes 0.240 m: take at most 117 mm"),
        ({"outline": SLOT, "wall_clearance": 0.095}, "/outline", "takes 0.280 m"),
        ({"outline": HALL, "pipe_spacing": 0.1}, "/outline", "divide the room"),
        ({"outline": HALL, "pipe_spacing": 0.1, "circuits": 1}, "/pipe_spacing", "divide the room"),
        ({"pipe_spacing": 0.03, "pipe": Pipe(0.032, 0.003)}, "/pipe_spacing", "outside diameter"),
        ({"tail_length": 60.0, "maximum_circuit_length": 120.0}, "/tail_length", "use up the permitted circuit length"),
        ({"outline": ((0.0, 0.0), (3.0, 0.0), (0.0, 2.0), (3.0, 2.0))}, "/outline", "crosses"),
        ({"wall_stretches": (WallStretch(0.05, edge=1),)}, "/wall_stretches/0/wall_clearance", "at least the room's"),
        ({"wall_stretches": (WallStretch(0.3),)}, "/wall_stretches/0/edge", "either edge or stretch"),
        ({"wall_stretches": (WallStretch(0.3, stretch=OFF_WALL),)}, "/wall_stretches/0/stretch/1", "0.700 m"),
    ],
)  # fmt: skip
def test_refusals_say_what_would_do(change: dict[str, Any], pointer: str, words: str) -> None:
    assert words in refusal(replace(ROOM, **change))[pointer]


def test_a_hall_that_is_refused_takes_no_time_to_lay() -> None:
    """1 mm is below any spacing; the closest one in the largest room is refused before any work."""
    thin = Pipe(0.008, 0.001, minimum_bend_radius=0.024)
    inputs = replace(ROOM, outline=HALL, pipe=thin)
    assert "too_small" in refusal(replace(inputs, pipe_spacing=0.001))["/pipe_spacing"]
    assert "too_many_circuits" in refusal(replace(inputs, pipe_spacing=0.03))["/outline"]
    assert "too_much_pipe" in refusal(replace(inputs, pipe_spacing=0.03, circuits=1))["/pipe_spacing"]


# -- findings


def test_a_circuit_that_is_too_long_says_how_many_would_do() -> None:
    result = solved(replace(ROOM, maximum_circuit_length=25.0, tail_length=4.0, circuits=1))
    (circuit,) = result.circuits
    (finding,) = (finding for finding in result.findings if finding.code == "circuit_too_long")
    count = math.ceil(circuit.length / (25.0 - 8.0))
    assert f"{count} circuits" in finding.places[0].message
    assert (finding.value, finding.limit) == (circuit.total_length, 25.0)
    assert finding.severity == "violation"


def test_a_corridor_says_at_which_spacing_and_why() -> None:
    """Clear width 0.8 m: 5 pipes would lie at 200 mm, but flow and return make 4 at 267 mm or 6 at 160 mm."""
    hall = replace(ROOM, outline=LOW, pipe_spacing=0.2, entry=(0.0, 0.5))
    (circuit,) = solved(hall).circuits
    (laid,) = circuit.laid_spacings
    assert laid.pipe_count in (4, 6)
    assert laid.pipe_spacing == pytest.approx(0.8 / (laid.pipe_count - 1), rel=0.12)
    assert "even number of pipes across the 0.80 m" in laid.reason
    assert "would take 5.0" in laid.reason
    (finding,) = (one for one in solved(hall).findings if one.code == "spacing_differs")
    assert finding.point == laid.place


def test_bends_wider_than_half_the_spacing_are_told() -> None:
    assert "bend_wider_than_half_spacing" in codes(solved(replace(ROOM, pipe=Pipe(0.016, 0.002), quick=True)))
    assert "bend_wider_than_half_spacing" not in codes(solved())


def test_pipe_close_to_walls_is_told() -> None:
    # EN 1264-4: 50 mm between the pipe and upright building parts; 50 mm less half of 12 mm are 44 mm
    assert "close_to_wall" in codes(solved(replace(ROOM, wall_clearance=0.05, quick=True)))


def test_a_wall_with_a_larger_clearance_keeps_it() -> None:
    part = WallStretch(0.2, stretch=((0.0, 2.0), (0.0, 1.0)))
    inputs = replace(ROOM, wall_stretches=(WallStretch(0.3, edge=2), part))
    result = solved(inputs)
    line = line_of(result.circuits[0])
    assert shapely.distance(line, LineString(((3.2, 2.6), (0.0, 2.6)))) >= 0.298
    assert not shapely.intersects(line, shapely.box(0.0, 1.05, 0.197, 1.95))
    rings = [Polygon(ring) for ring in clearance_rings(inputs)]
    assert max(ring.bounds[3] for ring in rings) == pytest.approx(2.3)


def test_workings_lead_to_the_pipe() -> None:
    inputs = replace(ROOM, tail_length=2.0)
    chain = {step.symbol: step.value for step in workings(inputs, solved(inputs))}
    assert chain["A"] == pytest.approx(3.2 * 2.6)
    assert chain["L_0"] == pytest.approx(3.2 * 2.6 / 0.15)  # the clearance is half the spacing
    assert chain["L_1"] == chain["l_1"] + 2.0 * chain["l_t_1"]
    assert chain["L"] == solved(inputs).pipe_length


# -- a route that is brought

HAIRPIN = (
    PathPiece("line", (0.4, 0.0), (0.4, 3.0)),
    PathPiece("arc", (0.4, 3.0), (0.6, 3.0), centre=(0.5, 3.0), sweep=-math.pi),
    PathPiece("line", (0.6, 3.0), (0.6, 0.0)),
)
INWARDS = ((0.6, 1.2), (0.6, 0.0))
STRIP = replace(
    ROOM,
    outline=((0.0, 0.0), (1.0, 0.0), (1.0, 4.0), (0.0, 4.0)),
    pipe_spacing=0.2,
    entry=(0.5, 0.0),
    pieces=HAIRPIN,
)


def test_an_answer_sent_back_is_found_good() -> None:
    (laid,) = solved().circuits
    (judged,) = solved(replace(ROOM, pieces=laid.pieces)).circuits
    assert judged.valid and judged.pattern == "given" and judged.engine is None
    assert judged.length == pytest.approx(laid.length, abs=1e-9)
    assert asdict(judged.quality) == pytest.approx(asdict(laid.quality), abs=1e-6)


def test_points_of_an_answer_sent_back_are_found_good() -> None:
    (laid,) = solved().circuits
    (judged,) = solved(replace(ROOM, path=laid.path)).circuits
    assert judged.valid
    assert judged.length == pytest.approx(laid.length, rel=0.001)


def test_a_hairpin_is_measured_as_by_hand() -> None:
    result = solved(STRIP)
    (circuit,) = result.circuits
    assert circuit.length == pytest.approx(6.0 + 0.1 * math.pi)
    assert (circuit.bends.u_turn, circuit.bends.right_angle, circuit.bends.other) == (1, 0, 0)
    # a rectangle and half a disc: 0.15 m to either side of pipes 0.2 m apart, and round the turn
    assert result.coverage.coverage_three_quarters == pytest.approx(
        (1.5 + math.pi * 0.25**2 / 2.0) / 4.0, abs=1e-3
    )
    assert result.coverage.coverage_half == pytest.approx((1.2 + math.pi * 0.2**2 / 2.0) / 4.0, abs=1e-3)
    assert codes(result) >= {"bare_spot"}


@pytest.mark.parametrize(
    ("path", "code"),
    [
        (((0.4, 0.0), (0.4, 3.0), (0.2, 2.0), (0.8, 1.5), (0.6, 1.0), (0.6, 0.0)), "route_crosses_itself"),
        (((0.4, 0.0), (0.4, 2.0), (0.05, 2.0), (0.05, 3.0), (0.6, 3.0), (0.6, 0.0)), "route_wall_clearance"),
        (((0.4, 0.0), (0.4, 3.0), (0.42, 3.0), (0.42, 3.2), (0.6, 3.2), (0.6, 0.0)), "route_bend_radius"),
        (((0.4, 0.0), (0.4, 1.0), (0.2, 1.0), (0.2, 3.0), (0.3, 3.0), (0.3, 1.2), *INWARDS), "route_pipe_distance"),
        (((0.1, 0.0), (0.1, 3.0), (0.6, 3.0), (0.6, 0.0)), "route_start_off_entry"),
        (((0.4, 0.0), (0.4, 3.0), (0.9, 3.0), (0.9, 0.0)), "route_end_off_entry"),
        (((0.45, 0.0), (0.45, 3.0), (0.6, 3.0), (0.6, 0.0)), "route_tail_pitch"),
    ],
)  # fmt: skip
def test_faults_of_a_brought_route_have_a_place(path: Any, code: str) -> None:
    result = solved(replace(STRIP, pieces=None, path=path))
    assert not result.circuits[0].valid
    finding = next(finding for finding in result.findings if finding.code == code)
    assert finding.severity == "violation"
    assert finding.point is not None
    assert shapely.distance(Polygon(STRIP.outline), Point(finding.point)) < 0.1


@pytest.mark.parametrize(
    ("change", "pointer"),
    [
        ({"path": ((0.4, 0.0), (0.4, 1.0))}, "/path"),
        ({"pieces": None, "path": ((0.4, 0.0), (0.4, 0.0))}, "/path"),
        ({"pieces": (replace(HAIRPIN[1], centre=None),)}, "/pieces/0/centre"),
        ({"pieces": (replace(HAIRPIN[1], sweep=None),)}, "/pieces/0/sweep"),
        ({"pieces": (replace(HAIRPIN[1], radius=0.2),)}, "/pieces/0/radius"),
        ({"pieces": (replace(HAIRPIN[1], end=(0.6, 3.1)),)}, "/pieces/0/end"),
        ({"pieces": (replace(HAIRPIN[1], centre=(0.4, 3.0)),)}, "/pieces/0/centre"),
        ({"pieces": (PathPiece("line", (0.4, 0.0), (0.4, 0.0)),)}, "/pieces/0"),
        ({"second_entry": (0.5, 4.0)}, "/second_entry"),
    ],
)
def test_routes_that_contradict_themselves(change: dict[str, Any], pointer: str) -> None:
    assert pointer in refusal(replace(STRIP, **change))
