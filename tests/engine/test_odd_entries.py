"""Entries in corners and in curved walls, and rooms with sharp corners: ``routes`` lays them with one circuit or
several. All is checked on the answer's own lines by shapely."""

from __future__ import annotations

import math
from functools import cache
from itertools import combinations

import pytest
import shapely
from shapely import LineString, Point, Polygon
from shapely.ops import substring
from tepidarium_engine.pipe import Pipe
from tepidarium_engine.routes import RoutesInputs, RoutesResult, calculate

CLEARANCE = 0.075
RADIUS = 0.08
Ring = tuple[tuple[float, float], ...]


def round_room(radius: float, corners: int) -> Ring:
    turns = (2.0 * math.pi * corner / corners for corner in range(corners))
    return tuple((radius * math.cos(turn), radius * math.sin(turn)) for turn in turns)


def asked(
    outline: Ring, entry: tuple[float, float], spacing: float = 0.15, longest: float | None = 100.0
) -> RoutesInputs:
    return RoutesInputs(
        outline=outline,
        pipe_spacing=spacing,
        entry=entry,
        wall_clearance=CLEARANCE,
        pipe=Pipe(0.016, 0.002, minimum_bend_radius=RADIUS),
        tail_length=3.0,
        maximum_circuit_length=longest,
    )


HALL: Ring = ((0.0, 0.0), (8.22, 0.0), (8.22, 6.91), (0.0, 6.91))
GABLE: Ring = ((0.0, 0.0), (9.0, 0.0), (4.5, 7.0))
SEVERAL = {
    "0.3 m from a corner": asked(HALL, (7.92, 0.0)),
    "in a corner": asked(HALL, (0.0, 0.0)),
    "0.2 m from a corner, 200 mm": asked(HALL, (0.2, 0.0), 0.2, 80.0),
    "beside a corner of an L": asked(
        ((0.0, 0.0), (8.8, 0.0), (8.8, 3.7), (5.3, 3.7), (5.3, 7.4), (0.0, 7.4)), (0.2, 0.0), 0.1
    ),
    "at a corner of a round room": asked(round_room(2.5, 48), (2.5, 0.0), 0.15, 80.0),
    "in the wall of a large round room": asked(round_room(4.0, 90), round_room(4.0, 90)[7]),
    "triangle": asked(GABLE, (4.2, 0.0)),
    "triangle, entry in a slope": asked(GABLE, (6.75, 3.5), 0.2, 80.0),
    "triangle with a right angle": asked(((0.0, 0.0), (9.0, 0.0), (0.0, 6.5)), (0.0, 3.0)),
}
"""By where the entry is. Each was refused when only as many pipes as have straight wall came in, their bends did not
count, and areas were cut only between lines beside their corners."""


@cache
def solved(name: str) -> RoutesResult:
    return calculate(SEVERAL[name])


def lines_of(result: RoutesResult) -> list[LineString]:
    return [LineString(circuit.path) for circuit in result.circuits]


@pytest.mark.parametrize("name", SEVERAL)
def test_several_circuits_of_about_equal_length(name: str) -> None:
    result, longest = solved(name), SEVERAL[name].maximum_circuit_length
    assert longest is not None
    assert len(result.circuits) > 1
    lengths = [line.length + 6.0 for line in lines_of(result)]
    assert max(lengths) <= longest
    spread = (max(lengths) - min(lengths)) * len(lengths) / sum(lengths)
    assert spread < 0.08
    # lines are chords of the bends
    assert result.length_spread == pytest.approx(spread, abs=1e-4)


@pytest.mark.parametrize("name", SEVERAL)
def test_they_keep_clear_of_walls_and_of_each_other(name: str) -> None:
    result, inputs = solved(name), SEVERAL[name]
    floor = Polygon(inputs.outline)
    for line in lines_of(result):
        assert line.is_simple
        assert shapely.covers(shapely.buffer(floor, 1e-3), line)
        away = CLEARANCE + RADIUS
        inside = substring(line, away, line.length - away)
        # before a curved wall pipes stand on a straight line, by up to 0.9 clearances before it
        assert shapely.distance(inside, floor.boundary) >= CLEARANCE - 0.006
        for end in (line.coords[0], line.coords[-1]):
            assert shapely.distance(Point(end), floor.boundary) < 1e-3
    for one, other in combinations(lines_of(result), 2):
        assert shapely.distance(one, other) >= result.circuits[0].tail_pitch - 0.006


@pytest.mark.parametrize("name", SEVERAL)
def test_they_cover_the_floor(name: str) -> None:
    result, inputs = solved(name), SEVERAL[name]
    floor = Polygon(inputs.outline)
    served = shapely.union_all([line.buffer(0.75 * inputs.pipe_spacing) for line in lines_of(result)])
    assert shapely.intersection(served, floor).area > 0.95 * floor.area


@pytest.mark.parametrize("name", SEVERAL)
def test_pipes_come_in_where_they_are_asked_to_or_it_is_told(name: str) -> None:
    result, inputs = solved(name), SEVERAL[name]
    ends = [Point(end) for line in lines_of(result) for end in (line.coords[0], line.coords[-1])]
    middle = shapely.centroid(shapely.multipoints(ends))
    moved = shapely.distance(middle, Point(inputs.entry or (0.0, 0.0)))
    width = (2 * len(result.circuits) - 1) * result.circuits[0].tail_pitch
    # as far along the wall as the pipes are wide, with what they take to turn twice before a corner on either side
    assert moved <= width + 2.0 * (CLEARANCE + 2.0 * RADIUS) + result.circuits[0].tail_pitch
    codes = {finding.code for finding in result.findings}
    assert ("entry_moved" in codes) == (moved > 0.01)


STIFF = [(spacing, corner) for spacing in (0.075, 0.1) for corner in (0.0, 0.02, 0.05)]


@pytest.mark.parametrize(("spacing", "corner"), STIFF)
def test_stiff_pipe_comes_in_from_a_corner(spacing: float, corner: float) -> None:
    """With tails that lie closer than the pipe in the floor, and bends nearly as wide as the spacing."""
    outline: Ring = ((0.0, 0.0), (3.2, 0.0), (3.2, 3.95), (0.0, 3.95))
    inputs = RoutesInputs(
        outline=outline,
        pipe_spacing=spacing,
        entry=(3.2 - corner, 0.0),
        wall_clearance=CLEARANCE,
        pipe=Pipe(0.016, 0.002, minimum_bend_radius=0.08),
        tail_pitch=0.055,
        circuits=1,
    )
    (circuit,) = calculate(inputs).circuits
    line = LineString(circuit.path)
    assert line.is_simple
    away = CLEARANCE + 0.08
    inside = substring(line, away, line.length - away)
    assert shapely.distance(inside, Polygon(outline).boundary) >= CLEARANCE - 0.003


@pytest.mark.parametrize("pitch", [0.05, 0.06, 0.08, 0.15])
def test_pipe_runs_along_the_slopes_of_a_triangle(pitch: float) -> None:
    """Where rings come out too close by less than a millimetre, closer rings are laid; a lattice would go in steps
    along the slopes."""
    gable = Polygon([(0.0, 0.0), (4.4, 0.0), (2.2, 3.58)])
    inputs = RoutesInputs(
        outline=tuple(gable.exterior.coords[:-1]),
        pipe_spacing=0.15,
        entry=(2.2, 0.0),
        wall_clearance=CLEARANCE,
        pipe=Pipe(0.016, 0.002, minimum_bend_radius=0.08),
        tail_pitch=pitch,
        circuits=1,
    )
    (circuit,) = calculate(inputs).circuits
    served = LineString(circuit.path).buffer(0.75 * 0.15)
    assert shapely.difference(gable, served).area < 0.02 * gable.area
