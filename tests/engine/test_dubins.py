"""Shortest paths of bounded curvature against a search that uses none of their formulas, and known figures."""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Iterator
from typing import NamedTuple

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq
from shapely import LineString
from tepidarium_engine.plan.pipes.curve_table import WORDS, CurveTable, Pose
from tepidarium_engine.plan.pipes.pipe_path import POSITION_TOLERANCE, TANGENT_TOLERANCE, Arc, PipePath

TURN = 2.0 * math.pi
RADIUS = 0.1

poses = st.builds(Pose, st.tuples(st.floats(-0.6, 0.6), st.floats(-0.6, 0.6)), st.floats(-math.pi, math.pi))


class BoundedCurve(NamedTuple):
    """A path of the word."""

    word: str
    path: PipePath


def table_of(start: Pose, end: Pose, radius: float, longest: float = math.inf) -> CurveTable:
    pair = np.array([0]), np.array([1])
    return CurveTable.between([start, end], pair, radius, np.array([longest]))


def bounded_curves(start: Pose, end: Pose, radius: float) -> list[BoundedCurve]:
    """The curve of each word, shortest first; of equally long ones in the order of the words."""
    table = table_of(start, end, radius)
    curves = [
        BoundedCurve(WORDS[word], PipePath(table.pieces(row))) for row, word in enumerate(table.word.tolist())
    ]
    return sorted(curves, key=lambda curve: round(curve.path.length, 7))


def shortest_curve(start: Pose, end: Pose, radius: float) -> BoundedCurve:
    return bounded_curves(start, end, radius)[0]


def assert_joins(curve: BoundedCurve, start: Pose, end: Pose, radius: float = RADIUS) -> None:
    """From pose to pose, no gap, no kink, every arc of the radius, bending as the word says."""
    path = curve.path
    assert math.dist(path.start, start.place) < POSITION_TOLERANCE
    assert math.dist(path.end, end.place) < POSITION_TOLERANCE
    ends = (path.pieces[0].start_heading - start.heading, path.pieces[-1].end_heading - end.heading)
    assert all(abs(math.remainder(kink, TURN)) < TANGENT_TOLERANCE for kink in ends)
    for joint in path.joints():
        assert joint.gap < POSITION_TOLERANCE
        assert joint.kink < TANGENT_TOLERANCE
    arcs = [piece for piece in path.pieces if isinstance(piece, Arc)]
    assert {arc.radius for arc in arcs} <= {radius}
    letters = iter(curve.word)
    for piece in path.pieces:  # in the order of the word, some left out
        letter = ("L" if piece.sweep > 0.0 else "R") if isinstance(piece, Arc) else "S"
        assert letter in letters
    assert path.length == pytest.approx(math.fsum(piece.length for piece in path.pieces), abs=1e-9)


# The search: a unit of length is the radius, a pose is (x, y, heading). Only motion along an arc is used.


def along(x: float, y: float, heading: float, side: int, turn: float) -> tuple[float, float, float]:
    """Where one comes to by turning by ``turn`` to the ``side`` (1 left, -1 right) on a circle of radius 1."""
    new = heading + side * turn
    return (
        x + side * (math.sin(new) - math.sin(heading)),
        y - side * (math.cos(new) - math.cos(heading)),
        new,
    )


def roots(function: Callable[[float], float], samples: int = 720) -> Iterator[float]:
    """Zeros of a function on one turn, by changes of sign between dense samples."""
    steps = [TURN * index / samples for index in range(samples + 1)]
    values = [function(step) for step in steps]
    for index in range(samples):
        if values[index] * values[index + 1] < 0.0:
            yield brentq(function, steps[index], steps[index + 1], xtol=1e-14)


def arc_straight_arc(x: float, y: float, heading: float, first: int, last: int) -> Iterator[float]:
    """Lengths: after the first arc the start of the last one must lie straight ahead."""

    def ahead(turn: float) -> tuple[float, float, float]:
        """How far the start of the last arc lies ahead and aside, and how long that arc is."""
        px, py, way = along(0.0, 0.0, 0.0, first, turn)
        rest = (last * (heading - way)) % TURN
        qx, qy, _ = along(x, y, heading, last, -rest)
        dx, dy = qx - px, qy - py
        return dx * math.cos(way) + dy * math.sin(way), dy * math.cos(way) - dx * math.sin(way), rest

    for turn in roots(lambda angle: ahead(angle)[1]):
        distance, aside, rest = ahead(turn)
        if distance >= 0.0 and abs(aside) < 1e-9:
            yield turn + distance + rest


def three_arcs(x: float, y: float, heading: float, side: int) -> Iterator[float]:
    """Lengths: after the first arc the circle of the middle one must touch that of the last one."""
    last_x, last_y = x - side * math.sin(heading), y + side * math.cos(heading)

    def to_last(turn: float) -> tuple[float, float]:
        """From the centre of the middle circle to that of the last one."""
        px, py, way = along(0.0, 0.0, 0.0, side, turn)
        return last_x - px - side * math.sin(way), last_y - py + side * math.cos(way)

    for turn in roots(lambda angle: math.hypot(*to_last(angle)) - 2.0):
        dx, dy = to_last(turn)
        # Heading where the two circles touch, of one who goes round the middle one turning to -side.
        leaving = math.atan2(dy, dx) - side * math.pi / 2.0
        yield turn + (turn - side * leaving) % TURN + (side * (heading - leaving)) % TURN


def search(x: float, y: float, heading: float) -> float:
    lengths = [
        *(n for first in (1, -1) for last in (1, -1) for n in arc_straight_arc(x, y, heading, first, last)),
        *(n for side in (1, -1) for n in three_arcs(x, y, heading, side)),
    ]
    return min(lengths)


def test_against_a_search() -> None:
    """100 random pairs of poses; one fixed seed, so that a failure can be repeated."""
    source = random.Random(1957)
    words = set()
    for _ in range(100):
        start = Pose((source.uniform(-1.0, 1.0), source.uniform(-1.0, 1.0)), source.uniform(-9.0, 9.0))
        reach, bearing = RADIUS * source.uniform(0.0, 6.0), source.uniform(0.0, TURN)
        place = (start.place[0] + reach * math.cos(bearing), start.place[1] + reach * math.sin(bearing))
        end = Pose(place, source.uniform(-9.0, 9.0))
        curve = shortest_curve(start, end, RADIUS)
        x, y = (
            reach / RADIUS * math.cos(bearing - start.heading),
            reach / RADIUS * math.sin(bearing - start.heading),
        )
        turned = end.heading - start.heading
        found = search(x, y, turned)
        assert curve.path.length == pytest.approx(RADIUS * found, abs=1e-8)
        assert_joins(curve, start, end)
        words.add(curve.word)
    assert words == {"LSL", "RSR", "LSR", "RSL", "LRL", "RLR"}


@settings(max_examples=100, deadline=None)
@given(poses, poses)
def test_every_word_joins_the_poses(start: Pose, end: Pose) -> None:
    assume(math.dist(start.place, end.place) > 1e-6)
    curves = bounded_curves(start, end, RADIUS)
    lengths = [curve.path.length for curve in curves]
    assert len({curve.word for curve in curves}) == len(curves) >= 4
    assert lengths == pytest.approx(sorted(lengths), abs=1e-7)
    for curve in curves:
        assert_joins(curve, start, end)


@settings(max_examples=100, deadline=None)
@given(poses, poses)
def test_cost_of_bounded_curvature(start: Pose, end: Pose) -> None:
    """At most 7 pi / 3 R longer than the distance, and at most 2 pi R longer from 1.5874 R on.

    Kim and Cheong, "The cost of bounded curvature", 2011, arXiv:1106.6214, abstract. For the words see Shkel
    and Lumelsky, Robotics and Autonomous Systems 34, 2001: three arcs only at less than 4 R.
    """
    distance = math.dist(start.place, end.place)
    assume(distance > 1e-6)
    curve = shortest_curve(start, end, RADIUS)
    excess = (curve.path.length - distance) / RADIUS
    assert -1e-6 <= excess <= (TURN if distance > 1.5875 * RADIUS else 7.0 * math.pi / 3.0) + 1e-5
    assert distance < 4.0 * RADIUS or "S" in curve.word


def test_turning_about_on_the_spot() -> None:
    """The worst case of distance 0: 7 pi / 3 R (Kim and Cheong, 2011)."""
    start, end = Pose((2.0, 3.0), 0.5), Pose((2.0, 3.0), 0.5 + math.pi)
    curve = shortest_curve(start, end, RADIUS)
    assert curve.path.length == pytest.approx(7.0 * math.pi / 3.0 * RADIUS, abs=1e-9)
    assert_joins(curve, start, end)


@pytest.mark.parametrize("pitch", [0.0, 0.05, 0.1, 0.15, 0.199])
@pytest.mark.parametrize("side", [1.0, -1.0])
def test_u_turn_of_small_pitch_is_an_omega(pitch: float, side: float) -> None:
    """Three circles that touch: the middle one bulges by R - pitch / 2 beyond both legs.

    Its centre is the tip of a triangle with two sides of 2 R over a base of 2 R + pitch.
    """
    start, end = Pose((0.0, 0.0), 0.0), Pose((0.0, side * pitch), math.pi)
    curve = shortest_curve(start, end, RADIUS)
    points = curve.path.polyline(1e-9)
    bulge, forward = RADIUS - pitch / 2.0, math.sqrt(4.0 * RADIUS**2 - (RADIUS + pitch / 2.0) ** 2)
    lowest, highest = min(side * points[:, 1]), max(side * points[:, 1])
    if pitch:
        assert curve.word == ("RLR" if side > 0.0 else "LRL")
    assert lowest == pytest.approx(-bulge, abs=1e-8)
    assert highest == pytest.approx(pitch + bulge, abs=1e-8)
    assert max(points[:, 0]) == pytest.approx(forward + RADIUS, abs=1e-8)
    assert_joins(curve, start, end)


@pytest.mark.parametrize(("pitch", "pieces"), [(0.2, 1), (0.3, 3)])
def test_u_turn_with_room(pitch: float, pieces: int) -> None:
    """Half a circle at a pitch of 2 R, two quarters and a line beyond."""
    start, end = Pose((0.0, 0.0), 0.0), Pose((0.0, pitch), math.pi)
    curve = shortest_curve(start, end, RADIUS)
    assert curve.word == "LSL"
    assert len(curve.path.pieces) == pieces
    assert curve.path.length == pytest.approx(math.pi * RADIUS + pitch - 2.0 * RADIUS, abs=1e-9)
    assert_joins(curve, start, end)


def test_jog_of_two_radii_is_two_quarter_circles() -> None:
    """The circles only touch, and rounding must not lose the word."""
    for shift in (0.0, 0.1, 0.3, 7.7):
        start, end = Pose((shift, shift), 0.0), Pose((shift + 0.2, shift + 0.2), 0.0)
        curve = shortest_curve(start, end, RADIUS)
        assert curve.word == "LSR"
        assert curve.path.length == pytest.approx(math.pi * RADIUS, abs=1e-7)
        assert_joins(curve, start, end)


@pytest.mark.parametrize("direction", [0.0, 0.3, math.pi / 2.0, 2.0, -1.1])
def test_of_equally_long_ways_the_left_one_is_taken_whatever_the_rounding(direction: float) -> None:
    """Back to the start of a straight run in its direction: left and right about are alike by symmetry."""
    for shift in (0.0, 0.3, 77.7):
        start = Pose((shift + math.cos(direction), shift + math.sin(direction)), direction)
        first, second = bounded_curves(start, Pose((shift, shift), direction), RADIUS)[:2]
        assert (first.word, second.word) == ("LSL", "RSR")
        assert first.path.length == pytest.approx(1.0 + TURN * RADIUS, abs=1e-9)


@settings(max_examples=100, deadline=None)
@given(poses, st.floats(1e-3, 6.2), st.sampled_from((1, -1)))
def test_end_on_the_first_circle_is_one_arc(start: Pose, turn: float, side: int) -> None:
    """The two circles of the word coincide but for rounding: no extra turn may come in."""
    (x, y), (x0, y0) = along(0.0, 0.0, start.heading, side, turn)[:2], start.place
    end = Pose((x0 + RADIUS * x, y0 + RADIUS * y), start.heading + side * turn)
    curves = {curve.word: curve.path for curve in bounded_curves(start, end, RADIUS)}
    word = "LSL" if side > 0 else "RSR"
    assert curves[word].length == pytest.approx(RADIUS * turn, abs=1e-6)
    assert_joins(BoundedCurve(word, curves[word]), start, end)


@settings(max_examples=100, deadline=None)
@given(poses, st.floats(1e-3, 5.0))
def test_straight_ahead_is_one_line(start: Pose, distance: float) -> None:
    (x, y), heading = start
    end = Pose((x + distance * math.cos(heading), y + distance * math.sin(heading)), heading)
    curve = shortest_curve(start, end, RADIUS)
    assert curve.path.length == pytest.approx(distance, abs=1e-6)
    assert len(curve.path.pieces) == 1
    assert_joins(curve, start, end)


@settings(max_examples=100, deadline=None)
@given(poses, poses, st.floats(-50.0, 50.0), st.floats(0.5, 4.0))
def test_invariances(start: Pose, end: Pose, shift: float, scale: float) -> None:
    """Length backwards, moved, turned by a quarter, mirrored, with whole turns added, and scaled."""
    assume(math.dist(start.place, end.place) > 1e-6)
    length = shortest_curve(start, end, RADIUS).path.length
    images: dict[str, Callable[[Pose], Pose]] = {
        "moved": lambda pose: Pose((pose.place[0] + shift, pose.place[1] - shift), pose.heading),
        "turned": lambda pose: Pose((-pose.place[1], pose.place[0]), pose.heading + math.pi / 2.0),
        "mirrored": lambda pose: Pose((pose.place[0], -pose.place[1]), -pose.heading),
        "wound": lambda pose: Pose(pose.place, pose.heading + 2.0 * TURN),
    }
    for image in images.values():
        assert shortest_curve(image(start), image(end), RADIUS).path.length == pytest.approx(length, abs=1e-6)
    back, forth = (Pose(pose.place, pose.heading + math.pi) for pose in (end, start))
    assert shortest_curve(back, forth, RADIUS).path.length == pytest.approx(length, abs=1e-6)
    images["scaled"] = lambda pose: Pose((scale * pose.place[0], scale * pose.place[1]), pose.heading)
    scaled = shortest_curve(images["scaled"](start), images["scaled"](end), scale * RADIUS)
    assert scaled.path.length == pytest.approx(scale * length, abs=1e-6)


@settings(max_examples=60, deadline=None)
@given(poses, poses, st.floats(0.0, 2.5))
def test_curves_within_a_length_are_those_that_are_as_short(start: Pose, end: Pose, longest: float) -> None:
    assume(math.dist(start.place, end.place) > 1e-6)
    curves = bounded_curves(start, end, RADIUS)
    assume(all(abs(curve.path.length - longest) > 1e-9 for curve in curves))
    words = {WORDS[word] for word in table_of(start, end, RADIUS, longest).word.tolist()}
    assert words == {curve.word for curve in curves if curve.path.length <= longest}


@settings(max_examples=40, deadline=None)
@given(poses, poses)
def test_vertices_and_probes_lie_on_the_pieces(start: Pose, end: Pose) -> None:
    """By the points of the pieces, which a path reckons by itself."""
    assume(math.dist(start.place, end.place) > 1e-6)
    table = table_of(start, end, RADIUS)
    vertices = table.vertices(0.2)
    for row, length in enumerate(table.total.tolist()):
        path = PipePath(table.pieces(row))
        mine = vertices.row == row
        assert path.length == pytest.approx(length, abs=1e-9)
        assert vertices.along[mine][-1] == pytest.approx(length, abs=1e-9)
        assert vertices.points[mine] == pytest.approx(path.points_at(vertices.along[mine]), abs=1e-9)
        line = LineString(path.polyline(1e-9))
        assert max(shapely.distance(line, shapely.points(table.probes()[row]))) < 1e-8
