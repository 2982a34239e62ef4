"""Laying sheets: walked by somebody who has nothing but the printed sheet; marks, walls, core and fixings.

Oracles: a walker that reads only what is printed, to the millimetre and the tenth of a degree; shapely's distances for
walls; the neighbours of a double spiral, which are known where it is made by hand.
"""

from __future__ import annotations

import json
import math
from dataclasses import replace
from functools import cache
from itertools import pairwise
from pathlib import Path

import msgspec
import pytest
import shapely
from shapely import LineString, Point, Polygon
from tepidarium_engine.errors import InputError
from tepidarium_engine.fitting.core import core_mark
from tepidarium_engine.laying_sheets import (
    CircuitToLay,
    LayingRoom,
    LayingSheet,
    LayingSheetsInputs,
    LayingSheetsResult,
    calculate,
    workings,
)
from tepidarium_engine.plan.asking.given_path import path_of_pieces
from tepidarium_engine.plan.asking.route_records import path_piece
from tepidarium_engine.plan.pipes.pipe_path import Arc, Line, PipePath
from tepidarium_engine.routes import RoutesInputs
from tepidarium_engine.routes import calculate as route

EXAMPLE = Path(__file__).parents[2] / "examples" / "laying-sheets.json"
ROOMS = {
    "rectangle": ((0.0, 0.0), (4.2, 0.0), (4.2, 3.4), (0.0, 3.4)),
    "ell": ((0.0, 0.0), (5.0, 0.0), (5.0, 2.2), (2.6, 2.2), (2.6, 4.6), (0.0, 4.6)),
    "cross": (
        *((1.5, 0.0), (3.5, 0.0), (3.5, 1.5), (5.0, 1.5), (5.0, 3.5), (3.5, 3.5)),
        *((3.5, 5.0), (1.5, 5.0), (1.5, 3.5), (0.0, 3.5), (0.0, 1.5), (1.5, 1.5)),
    ),
    "clockwise": ((0.0, 0.0), (0.0, 3.4), (4.2, 3.4), (4.2, 0.0)),
    "turned": tuple(
        (x * math.cos(0.4) - y * math.sin(0.4), x * math.sin(0.4) + y * math.cos(0.4))
        for x, y in ((10.0, 5.0), (13.8, 5.0), (13.8, 8.6), (10.0, 8.6))
    ),
}


@cache
def laid(name: str, pattern: str = "counterflow") -> LayingSheetsInputs:
    outline = ROOMS[name]
    entry = ((outline[0][0] + outline[1][0]) / 2.0, (outline[0][1] + outline[1][1]) / 2.0)
    request = RoutesInputs(outline, 0.15, entry=entry, pattern=pattern, circuits=1, quick=True)  # type: ignore[arg-type]
    pieces = route(request).circuits[0].pieces
    circuit = CircuitToLay("c", name, pieces, 0.15, pattern, 0.5, port=1, coil="2", coil_start_mark=30.0)  # type: ignore[arg-type]
    return LayingSheetsInputs((circuit,), (LayingRoom(name, outline),))


def sheet_of(name: str, pattern: str = "counterflow") -> LayingSheet:
    return calculate(laid(name, pattern)).sheets[0]


# --- the walk ---


def printed(result: LayingSheetsResult) -> dict[str, object]:
    """The sheet as it is printed: metres to the millimetre, angles to a tenth of a degree, nothing else."""
    document = json.loads(msgspec.json.encode(result))["sheets"][0]

    def rounded(name: str, value: object) -> object:
        if isinstance(value, list):
            return [rounded(name, member) for member in value]
        if isinstance(value, dict):
            return {key: rounded(key, member) for key, member in value.items()}
        if isinstance(value, float):
            return round(value, 1 if name in ("heading", "angle") else 4 if name == "datum_direction" else 3)
        return value

    return {name: rounded(name, value) for name, value in document.items()}


def walked(sheet: dict) -> list[tuple[float, float]]:  # type: ignore[type-arg]
    """Somebody lays the pipe: measures where each step begins from the corner of the room, sets off in its direction
    and follows straights by length and turns by angle and radius."""
    (x0, y0), (c, s) = sheet["datum"], sheet["datum_direction"]
    points: list[tuple[float, float]] = []
    for step in sheet["steps"]:
        along, across = step["from_datum"]
        x, y = x0 + c * along - s * across, y0 + s * along + c * across
        heading = math.radians(step["heading"])
        if step["kind"] == "straight":
            points += [
                (x, y),
                (x + step["step_length"] * math.cos(heading), y + step["step_length"] * math.sin(heading)),
            ]
            continue
        side = 1.0 if step["hand"] == "left" else -1.0
        radius, angle = step["radius"], math.radians(step["angle"])
        cx, cy = x - side * radius * math.sin(heading), y + side * radius * math.cos(heading)
        for share in range(21):
            turned = heading + side * angle * share / 20.0
            points.append((cx + side * radius * math.sin(turned), cy - side * radius * math.cos(turned)))
    return points


@pytest.mark.parametrize(
    ("name", "pattern"), [*((name, "counterflow") for name in ROOMS), ("rectangle", "serpentine")]
)
def test_the_pipe_is_rebuilt_from_the_sheet_within_20_mm(name: str, pattern: str) -> None:
    asked = laid(name, pattern)
    pipe = LineString(path_of_pieces(asked.circuits[0].pieces).polyline(1e-4))
    rebuilt = LineString(walked(printed(calculate(asked))))
    assert shapely.hausdorff_distance(shapely.segmentize(pipe, 0.01), rebuilt) < 0.020
    assert shapely.hausdorff_distance(shapely.segmentize(rebuilt, 0.01), pipe) < 0.020
    assert rebuilt.length == pytest.approx(pipe.length, rel=0.005)


@pytest.mark.parametrize("name", ROOMS)
def test_places_count_from_a_corner_that_the_room_has(name: str) -> None:
    datum = sheet_of(name).datum
    assert min(math.dist(datum, corner) for corner in ROOMS[name]) < 1e-6


@pytest.mark.parametrize("name", ROOMS)
def test_walking_by_lengths_and_turns_alone_ends_at_the_port(name: str) -> None:
    """Dead reckoning with the figures of the answer, unrounded."""
    sheet = sheet_of(name)
    x, y = sheet.steps[0].start
    heading = math.radians(sheet.steps[0].heading)
    for step in sheet.steps:
        assert math.dist((x, y), step.start) < 0.02
        if step.kind == "straight":
            chord = math.dist(step.start, step.end)
            heading = math.radians(step.heading)
            x, y = x + chord * math.cos(heading), y + chord * math.sin(heading)
        else:
            assert step.angle is not None and step.radius is not None
            side, turn = (1.0 if step.hand == "left" else -1.0), math.radians(step.angle)
            cx, cy = x - side * step.radius * math.sin(heading), y + side * step.radius * math.cos(heading)
            heading += side * turn
            x, y = cx + side * step.radius * math.sin(heading), cy - side * step.radius * math.cos(heading)
    assert math.dist((x, y), sheet.steps[-1].end) < 0.02


# --- marks ---


@pytest.mark.parametrize("name", ROOMS)
def test_marks_add_up_from_port_to_port(name: str) -> None:
    asked, sheet = laid(name), sheet_of(name)
    path = path_of_pieces(asked.circuits[0].pieces)
    assert sheet.steps[0].mark == 0.5
    for step, following in pairwise(sheet.steps):
        assert following.mark == pytest.approx(step.mark + step.step_length)
        assert following.number == step.number + 1
        assert math.dist(step.end, following.start) < 0.002
    last = sheet.steps[-1]
    assert sheet.total_length == pytest.approx(path.length + 1.0)
    assert last.mark + last.step_length + 0.5 == pytest.approx(sheet.total_length)
    assert [step.coil_mark for step in sheet.steps] == pytest.approx(
        [30.5 + step.mark for step in sheet.steps]
    )
    assert sheet.coil_end_mark == pytest.approx(30.0 + sheet.total_length + 2 * 0.5)
    assert sum(step.fixings for step in sheet.steps) == sheet.fixings_on_straights + sheet.fixings_at_bends


def test_without_a_coil_there_are_no_coil_marks() -> None:
    asked = laid("rectangle")
    sheet = calculate(replace(asked, circuits=(replace(asked.circuits[0], coil=None),))).sheets[0]
    assert sheet.coil is None and sheet.coil_end_mark is None
    assert all(step.coil_mark is None for step in sheet.steps)


def test_spacers_of_both_passes() -> None:
    """Trade: first pass at twice the spacing, spacers are centres less the pipe's diameter of 16 mm."""
    counterflow, serpentine = sheet_of("rectangle"), sheet_of("rectangle", "serpentine")
    assert counterflow.infeed_spacing == pytest.approx(0.30)
    assert counterflow.infeed_spacer_length == pytest.approx(0.284)
    assert counterflow.spacer_length == serpentine.spacer_length == pytest.approx(0.134)
    assert (serpentine.infeed_spacing, serpentine.core_mark) == (None, None)


# --- walls ---


@pytest.mark.parametrize("name", ROOMS)
def test_dimension_lines_run_square_from_wall_to_pipe(name: str) -> None:
    asked, sheet = laid(name), sheet_of(name)
    outline = asked.rooms[0].outline
    pipe = LineString(path_of_pieces(asked.circuits[0].pieces).polyline(1e-4))
    assert {found.edge for found in sheet.wall_distances} == set(range(len(outline)))
    for found in sheet.wall_distances:
        a, b = outline[found.edge], outline[(found.edge + 1) % len(outline)]
        wall = LineString([a, b])
        assert wall.distance(Point(found.on_wall)) < 1e-6
        assert pipe.distance(Point(found.on_pipe)) < 2e-3
        assert math.dist(found.on_wall, found.on_pipe) == pytest.approx(found.distance)
        across = (found.on_pipe[0] - found.on_wall[0]) * (b[0] - a[0])
        across += (found.on_pipe[1] - found.on_wall[1]) * (b[1] - a[1])
        assert abs(across) < 1e-6
        assert found.distance == pytest.approx(0.075, abs=0.012)
        assert sheet.steps[found.step - 1].kind == "straight"


def test_a_void_has_dimension_lines_of_its_own() -> None:
    void = ((1.6, 1.3), (2.6, 1.3), (2.6, 2.1), (1.6, 2.1))
    request = RoutesInputs(ROOMS["rectangle"], 0.15, entry=(2.1, 0.0), voids=(void,), quick=True)
    circuit = CircuitToLay("c", "room", route(request).circuits[0].pieces, 0.15)
    asked = LayingSheetsInputs((circuit,), (LayingRoom("room", ROOMS["rectangle"], (void,)),))
    found = [one for one in calculate(asked).sheets[0].wall_distances if one.ring == 1]
    assert found
    for one in found:
        assert not Polygon(void).contains(Point(one.on_pipe))
        assert Polygon(void).exterior.distance(Point(one.on_wall)) < 1e-6


# --- the core and the parts ---


def test_parts_follow_each_other_and_meet_in_the_core() -> None:
    sheet = sheet_of("rectangle")
    parts = [part for part, _ in groupby_part(sheet)]
    assert parts in (
        ["flow", "core", "return"],
        ["flow", "return"],
        ["tail", "flow", "core", "return", "tail"],
    )
    assert sheet.core_mark is not None
    at_core = [step for step in sheet.steps if step.mark <= sheet.core_mark <= step.mark + step.step_length]
    assert at_core and at_core[0].part in ("core", "flow", "return")


def groupby_part(sheet: LayingSheet) -> list[tuple[str, int]]:
    found: list[tuple[str, int]] = []
    for step in sheet.steps:
        if found and found[-1][0] == step.part:
            found[-1] = (step.part, found[-1][1] + 1)
        else:
            found.append((step.part, 1))
    return found


@pytest.mark.parametrize("name", ["rectangle", "ell", "turned"])
def test_flow_and_return_are_neighbours_on_both_sides_of_the_core(name: str) -> None:
    """Whoever stands on the flow has return beside him nearly everywhere, and the other way round."""
    sheet = sheet_of(name)
    path = path_of_pieces(laid(name).circuits[0].pieces)
    assert sheet.core_mark is not None
    core = sheet.core_mark - 0.5
    vertices = path.positions(1e-3, 0.05)
    points = path.points_at(vertices)
    flow, back = LineString(points[vertices <= core]), LineString(points[vertices >= core])
    for one, other in ((flow, back), (back, flow)):
        near = shapely.intersection(one, shapely.buffer(other, 1.15 * 0.15)).length
        assert near > 0.93 * one.length


def test_the_core_of_a_folded_pipe_is_its_fold() -> None:
    """A pair of pipes side by side: the fold is where flow turns into return, wherever the middle may be."""
    fold = PipePath.of(
        (
            Line((0.0, 0.0), (6.0, 0.0)),
            Arc((6.0, 0.075), 0.075, -math.pi / 2.0, math.pi),
            Line((6.0, 0.15), (0.0, 0.15)),
            Arc((0.0, 0.95), 0.8, -math.pi / 2.0, -math.pi / 2.0),
            Line((-0.8, 0.95), (-0.8, 5.0)),
        )
    )
    found = core_mark(fold, 0.15)
    assert found == pytest.approx(6.0 + 0.075 * math.pi / 2.0, abs=0.01)
    assert abs(found - fold.length / 2.0) > 1.0


def test_a_single_straight_has_no_core() -> None:
    assert core_mark(PipePath.of((Line((0.0, 0.0), (5.0, 0.0)),)), 0.15) is None


def test_pipe_through_another_room_is_a_tail() -> None:
    pieces = tuple(
        map(
            path_piece,
            (
                Line((-3.0, 1.0), (1.0, 1.0)),
                Arc((1.0, 1.1), 0.1, -math.pi / 2.0, math.pi),
                Line((1.0, 1.2), (-3.0, 1.2)),
            ),
        )
    )
    rooms = (
        LayingRoom("hall", ((-4.0, 0.0), (-0.1, 0.0), (-0.1, 2.0), (-4.0, 2.0))),
        LayingRoom("room", ((0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0))),
        LayingRoom("above", ((-4.0, 0.0), (2.0, 0.0), (2.0, 2.0), (-4.0, 2.0)), storey="1"),
    )
    sheet = calculate(LayingSheetsInputs((CircuitToLay("c", "room", pieces, 0.2),), rooms)).sheets[0]
    assert [(step.room, step.part) for step in sheet.steps] == [
        ("hall", "tail"),
        ("room", "core"),
        ("hall", "tail"),
    ]


# --- what cannot be a sheet ---


def example() -> LayingSheetsInputs:
    return msgspec.convert(json.loads(EXAMPLE.read_text()), LayingSheetsInputs, strict=True)


def changed(**changes: object) -> LayingSheetsInputs:
    plain = example()
    return replace(plain, circuits=(replace(plain.circuits[0], **changes),))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("inputs", "pointer"),
    [
        (changed(room="attic"), "/circuits/0/room"),
        (changed(storey="1"), "/circuits/0/room"),
        (changed(pipe_spacing=0.012), "/circuits/0/pipe_spacing"),
        (changed(pieces=example().circuits[0].pieces[::2]), "/circuits/0/pieces/1/start"),
        (replace(example(), circuits=example().circuits * 2), "/circuits/1/id"),
        (replace(example(), rooms=example().rooms * 2), "/rooms/1/id"),
    ],
)
def test_what_is_refused_points_to_its_field(inputs: LayingSheetsInputs, pointer: str) -> None:
    with pytest.raises(InputError) as refusal:
        calculate(inputs)
    assert pointer in [fault.pointer for fault in refusal.value.faults]


def test_fixings_far_apart_are_reported() -> None:
    far = calculate(replace(example(), fixing_distance=0.8))
    assert [finding.code for finding in far.findings] == ["fixings_far_apart"]


def test_workings_hold_length_and_fixings() -> None:
    inputs = example()
    result = calculate(inputs)
    steps = {step.symbol: step.value for step in workings(inputs, result)}
    assert steps["L_1"] == result.sheets[0].total_length
    assert steps["L_1"] == pytest.approx(steps["l_1"] + 1.0)
