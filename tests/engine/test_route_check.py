"""The judge of routes, checked by layouts whose figures follow by hand, by planted faults, and by shapely and
brute force on small rooms. The layouts are built here, corner by corner, and by no generator."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from functools import cache
from types import SimpleNamespace
from typing import Any, NamedTuple

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq
from shapely import LineString, Point, Polygon, box
from tepidarium_engine.elementwise import Array
from tepidarium_engine.errors import InputError
from tepidarium_engine.plan.judging.arc_pairs import ArcPairs, _on_arc
from tepidarium_engine.plan.judging.bend_rules import tight_bends
from tepidarium_engine.plan.judging.pipe_neighbours import neighbours, weighted_percentile
from tepidarium_engine.plan.judging.pipe_stretches import allowed_shares, too_near_along
from tepidarium_engine.plan.judging.route_check import RouteCheck, check_route
from tepidarium_engine.plan.judging.route_faults import Task, _in_doorway
from tepidarium_engine.plan.judging.route_measures import BendCount, _beyond, bare_spot, bend_count
from tepidarium_engine.plan.outlines.denser_area import DenserArea, Spacings
from tepidarium_engine.plan.outlines.pipe_zone import WallClearance
from tepidarium_engine.plan.outlines.polygons import room_outline
from tepidarium_engine.plan.pipes.pipe_path import TANGENT_TOLERANCE, Arc, Line, PipePath
from tepidarium_engine.plan.pipes.pipe_table import PipeTable

Corners = Sequence[tuple[float, float]]
CORNER_CUT = 2.0 - math.pi / 2.0
"""Length that a rounded right angle saves, over its radius."""


def rounded(corners: Corners, radius: float) -> PipePath:
    """The polyline with every corner replaced by an arc."""
    at = [np.array(corner, dtype=np.float64) for corner in corners]
    pieces: list[Line | Arc] = []
    here = at[0]
    for a, b, c in zip(at, at[1:], at[2:], strict=False):
        into, out = (b - a) / np.linalg.norm(b - a), (c - b) / np.linalg.norm(c - b)
        turn = math.atan2(into[0] * out[1] - into[1] * out[0], into @ out)
        cut = radius * math.tan(abs(turn) / 2.0)
        inward = math.copysign(1.0, turn) * np.array([-into[1], into[0]])
        begin = b - cut * into
        centre = begin + radius * inward
        pieces.append(Line(point(here), point(begin)))
        pieces.append(Arc(point(centre), radius, math.atan2(-inward[1], -inward[0]), turn))
        here = b + cut * out
    return PipePath.of((*pieces, Line(point(here), point(at[-1]))))


def point(xy: Any) -> tuple[float, float]:
    return (float(xy[0]), float(xy[1]))


class Layout(NamedTuple):
    corners: list[tuple[float, float]]
    room: Polygon
    spacing: float
    clearance: float
    radius: float
    entry: tuple[float, float]

    @property
    def path(self) -> PipePath:
        return rounded(self.corners, self.radius)

    def check(self, path: PipePath | None = None, **changes: Any) -> RouteCheck:
        asked: dict[str, Any] = {
            "room": self.room,
            "pipe_spacing": self.spacing,
            "wall_clearance": self.clearance,
            "bend_radius": self.radius,
            "entry": self.entry,
            "tail_pitch": self.spacing,
        }
        return check_route(path or self.path, **(asked | changes))


def serpentine(pairs: int, width: float, spacing: float, clearance: float, radius: float) -> Layout:
    """Up along the left wall, then to and fro downwards: 2 ``pairs`` runs, both ends at the lower left."""
    height = (2 * pairs - 1) * spacing + 2.0 * clearance
    left, right = clearance, width - clearance
    corners = [(left, 0.0)]
    for run in range(2 * pairs):
        y = height - clearance - run * spacing
        start = left if run == 0 else left + spacing
        corners += [(start, y), (right, y)] if run % 2 == 0 else [(right, y), (start, y)]
    corners.append((left + spacing, 0.0))
    entry = (left + spacing / 2.0, 0.0)
    return Layout(corners, box(0.0, 0.0, width, height), spacing, clearance, radius, entry)


def double_spiral(rings: int, height: float, spacing: float, clearance: float, radius: float) -> Layout:
    """``rings`` rectangles one in the other, each going on into the next but one, joined in the middle."""
    width = (2 * rings - 1) * spacing + 2.0 * clearance
    off = [clearance + k * spacing for k in range(rings + 1)]
    arms: list[list[tuple[float, float]]] = [[(off[0], 0.0)], [(off[1], 0.0)]]
    for k in range(rings - 1):
        arms[k % 2] += [(off[k], height - off[k]), (width - off[k], height - off[k])]
        arms[k % 2] += [(width - off[k], off[k]), (off[k + 2], off[k])]
    k = rings - 1
    arms[k % 2] += [(off[k], height - off[k]), (width - off[k], height - off[k])]
    # The innermost ring ends where the bottom of the one before has led to.
    corners = arms[k % 2] + arms[(k + 1) % 2][::-1]
    if k % 2:
        corners.reverse()
    entry = (clearance + spacing / 2.0, 0.0)
    return Layout(corners, box(0.0, 0.0, width, height), spacing, clearance, radius, entry)


COMB = serpentine(pairs=4, width=3.0, spacing=0.15, clearance=0.075, radius=0.06)
SPIRAL = double_spiral(rings=6, height=3.0, spacing=0.15, clearance=0.075, radius=0.06)


@cache
def verdict(name: str) -> RouteCheck:
    return {"comb": COMB, "spiral": SPIRAL}[name].check()


def codes(check: RouteCheck) -> set[str]:
    return {fault.code for fault in check.faults}


# --- The path itself


def test_arc_has_its_ends_and_headings() -> None:
    arc = Arc((1.0, 2.0), 0.5, 0.0, math.pi / 2.0)
    assert arc.start == pytest.approx((1.5, 2.0), abs=1e-15)
    assert arc.end == pytest.approx((1.0, 2.5), abs=1e-15)
    assert arc.start_heading == pytest.approx(math.pi / 2.0)
    assert arc.end_heading == pytest.approx(math.pi)
    assert arc.length == pytest.approx(math.pi / 4.0)
    assert arc.reversed().start == pytest.approx(arc.end) and arc.reversed().end == pytest.approx(arc.start)


def test_poses_lie_on_the_pieces() -> None:
    path = COMB.path
    points, tangents = path.poses_at(path.offsets)
    expect = [piece.start for piece in path.pieces] + [path.end]
    assert points == pytest.approx(np.array(expect), abs=1e-12)
    assert np.hypot(*tangents.T) == pytest.approx(1.0)
    middles, _ = path.poses_at((path.offsets[:-1] + path.offsets[1:]) / 2.0)
    for piece, middle in zip(path.pieces, middles, strict=True):
        ends = np.add(piece.start, piece.end) / 2.0
        assert middle == pytest.approx(piece.middle if isinstance(piece, Arc) else ends, abs=1e-12)


@pytest.mark.parametrize("chord_error", [1e-5, 1e-4, 1e-3, 0.5])
def test_polyline_strays_no_more_than_stated(chord_error: float) -> None:
    arc = PipePath.of([Arc((0.0, 0.0), 0.08, 0.3, -4.0)])
    vertices = arc.polyline(chord_error)
    assert np.hypot(*vertices.T) == pytest.approx(0.08)
    sagitta = 0.08 - np.hypot(*((vertices[1:] + vertices[:-1]) / 2.0).T)
    assert sagitta.max() <= chord_error * (1.0 + 1e-9)
    assert chord_error > 0.01 or sagitta.max() > 0.5 * chord_error  # and spends no more vertices than needed


def test_length_is_the_limit_of_polylines() -> None:
    assert SPIRAL.path.length == pytest.approx(LineString(SPIRAL.path.polyline(1e-8)).length, rel=1e-6)


@pytest.mark.parametrize(
    ("pieces", "pointer"),
    [
        ((), "/pieces"),
        ((Line((0.0, 0.0), (0.0, 0.0)),), "/pieces/0"),
        ((Line((0.0, 0.0), (math.nan, 0.0)),), "/pieces/0"),
        ((Line((0.0, 0.0), (1.0, 0.0)), Arc((0.0, 0.0), -1.0, 0.0, 1.0)), "/pieces/1/radius"),
        ((Arc((0.0, 0.0), 1.0, 0.0, 7.0),), "/pieces/0/sweep"),
        ((Arc((0.0, 0.0), math.inf, 0.0, 1.0),), "/pieces/0"),
        ((Arc((0.0, 0.0), 1.0, 0.0, 0.0),), "/pieces/0"),
    ],
)
def test_pieces_that_are_none(pieces: tuple[Line | Arc, ...], pointer: str) -> None:
    with pytest.raises(InputError) as refused:
        PipePath(pieces)
    assert pointer in {fault.pointer for fault in refused.value.faults}


@pytest.mark.parametrize(
    ("change", "pointer"),
    [
        ({"pipe_spacing": 0.0}, "/pipe_spacing"),
        ({"wall_clearance": math.nan}, "/wall_clearance"),
        ({"bend_radius": math.inf}, "/bend_radius"),
        ({"tail_pitch": -1.0}, "/tail_pitch"),
        ({"entry": (math.nan, 0.0)}, "/entry"),
        ({"wall_clearance": 5.0}, "/wall_clearance"),
        ({"pipe_spacing": 1e-6}, "/pieces"),
    ],
)
def test_numbers_that_are_none(change: dict[str, Any], pointer: str) -> None:
    with pytest.raises(InputError) as refused:
        COMB.check(**change)
    assert [fault.pointer for fault in refused.value.faults] == [pointer]


@pytest.mark.parametrize(
    ("change", "pointer"),
    [
        ({"walls": [WallClearance(LineString(), 0.2)]}, "/walls/0/stretch"),
        ({"denser": [DenserArea(Polygon([(0, 0), (1, 1), (1, 0), (0, 1)]), 0.1)]}, "/denser/0/polygon"),
    ],
)
def test_shapes_that_are_none(change: dict[str, Any], pointer: str) -> None:
    with pytest.raises(InputError) as refused:
        COMB.check(**change)
    assert [(fault.pointer, fault.code) for fault in refused.value.faults] == [(pointer, "geometry")]


def test_a_heap_of_pipe_is_refused_and_not_looked_at() -> None:
    there_and_back = [Line((0.5, 0.5), (0.6, 0.5)), Line((0.6, 0.5), (0.5, 0.5))] * 1500
    with pytest.raises(InputError) as refused:
        COMB.check(PipePath.of(there_and_back))
    assert [fault.code for fault in refused.value.faults] == ["too_dense"]


# --- Layouts known by hand


def comb_length(pairs: int, width: float, spacing: float, clearance: float, radius: float) -> float:
    """Lane, 2 N runs of which all but one are a spacing shorter, steps between them, 4 N corners."""
    runs = 2 * pairs
    lane_and_tail = clearance + (runs - 1) * spacing + clearance
    across = runs * (width - 2.0 * clearance) - (runs - 1) * spacing
    return lane_and_tail + across + (runs - 1) * spacing - 4 * pairs * CORNER_CUT * radius


comb_sizes = st.tuples(
    st.integers(2, 5),
    st.floats(1.0, 3.0),
    st.floats(0.1, 0.3),
    st.floats(0.3, 0.49),
)


@settings(deadline=None, max_examples=40)
@given(comb_sizes)
def test_serpentine_in_any_rectangle(size: tuple[int, float, float, float]) -> None:
    """With a clearance of half a spacing each rounded corner leaves its square less a quarter circle bare."""
    pairs, width, spacing, ratio = size
    assume(width > 5.0 * spacing)
    radius = ratio * spacing
    layout = serpentine(pairs, width, spacing, spacing / 2.0, radius)
    check = layout.check()
    assert check.valid, check.faults
    measures = check.measures
    length = comb_length(pairs, width, spacing, spacing / 2.0, radius)
    assert measures.length == pytest.approx(length, rel=1e-12)
    assert measures.length_ratio == pytest.approx(length * spacing / layout.room.area, rel=1e-9)
    bare = 4 * pairs * (1.0 - math.pi / 4.0) * (radius + spacing / 2.0) ** 2
    # Areas are measured with arcs of 1 mm chord error and eighths of right angles at corners.
    assert measures.coverage_half == pytest.approx(1.0 - bare / layout.room.area, abs=0.003)
    assert measures.least_distance == pytest.approx(1.0, abs=1e-9)
    assert measures.distance_1 == pytest.approx(1.0, abs=1e-9)
    assert measures.close_share == 0.0
    assert measures.gap_95 is not None and 1.0 - 1e-9 <= measures.gap_95 <= 1.6
    assert measures.bends == BendCount(right_angle=2, u_turn=2 * pairs - 1, other=0)


spiral_sizes = st.tuples(
    st.integers(2, 8),
    st.floats(0.0, 3.0),
    st.floats(0.1, 0.3),
    st.floats(0.3, 0.49),
    st.floats(0.07, 0.2),
)


def spiral_length(rings: int, height: float, spacing: float, clearance: float, radius: float) -> float:
    """Left, top, right and bottom sides of the rings, summed side by side."""
    width = (2 * rings - 1) * spacing + 2.0 * clearance
    off = [clearance + k * spacing for k in range(rings + 1)]
    left = sum(height - off[k] for k in range(rings)) - sum(off[k - 2] for k in range(2, rings))
    top = sum(width - 2.0 * off[k] for k in range(rings))
    right = sum(height - 2.0 * off[k] for k in range(rings - 1)) + height - off[rings - 1] - off[rings - 2]
    bottom = sum(width - off[k] - off[k + 2] for k in range(rings - 1))
    return left + top + right + bottom - (4 * rings - 2) * CORNER_CUT * radius


@settings(deadline=None, max_examples=40)
@given(spiral_sizes)
def test_double_spiral_in_any_rectangle(size: tuple[int, float, float, float, float]) -> None:
    rings, extra, spacing, ratio, clearance = size
    radius = min(ratio * spacing, 0.99 * clearance)
    height = (2 * rings - 1) * spacing + 2.0 * clearance + extra
    layout = double_spiral(rings, height, spacing, clearance, radius)
    check = layout.check()
    assert check.valid, check.faults
    measures = check.measures
    length = spiral_length(rings, height, spacing, clearance, radius)
    assert measures.length == pytest.approx(length, rel=1e-12)
    assert measures.least_distance == pytest.approx(1.0, abs=1e-9)
    assert measures.gap_95 is not None and 1.0 - 1e-9 <= measures.gap_95 <= 1.6
    expected = BendCount(right_angle=4 * rings - 6, u_turn=2, other=0)
    assert measures.bends == expected


def test_spiral_mixes_and_serpentine_does_not() -> None:
    spiral = double_spiral(12, 5.0, 0.15, 0.075, 0.06).check().measures
    comb = serpentine(12, 3.0, 0.15, 0.075, 0.06).check().measures
    assert spiral.gap_95 == pytest.approx(1.0, abs=0.05) and comb.gap_95 == pytest.approx(1.0, abs=1e-3)
    # All but the innermost ring, about a twelfth in each direction, has the other half on both sides.
    assert spiral.mixed_share is not None and spiral.mixed_share > 0.87
    assert spiral.temperature_spread is not None and spiral.temperature_spread < 0.02
    assert comb.mixed_share is not None and comb.mixed_share < 0.1
    # Neighbours before and after cancel: the position itself, evenly spread over 0 to 1.
    assert comb.temperature_spread == pytest.approx(math.sqrt(1.0 / 12.0), abs=0.03)


def test_one_pipe_alone_has_no_neighbours() -> None:
    """Up and round and down in a room far wider than the look to either side."""
    corners = [(0.1, 0.0), (0.1, 4.0), (4.0, 4.0), (4.0, 0.0)]
    check = COMB.check(rounded(corners, 0.06), room=box(0.0, 0.0, 4.1, 4.1))
    measures = check.measures
    assert codes(check) == {"end_off_entry", "tail_pitch", "wall_clearance"}  # no doorway at its end
    assert measures.least_distance is None and measures.distance_1 is None and measures.gap_95 is None
    assert measures.mixed_share is None and measures.temperature_spread is None
    assert sum(spot.area for spot in measures.bare_spots) == pytest.approx(measures.bare_area, rel=1e-9)
    assert measures.bare_spots[0].area > 0.99 * measures.bare_area
    assert measures.bends == BendCount(2, 0, 0)


QUARTER = math.pi / 2.0


@pytest.mark.parametrize(
    ("turns", "expected"),
    [
        ([(QUARTER, 1.0)], BendCount(1, 0, 0)),
        ([(QUARTER, 0.06), (QUARTER, 1.0)], BendCount(0, 1, 0)),  # over 0.18 m, 1.2 spacings
        ([(QUARTER, 0.12), (QUARTER, 1.0)], BendCount(2, 0, 0)),  # over 0.24 m, 1.6 spacings
        ([(QUARTER, 0.06), (-QUARTER, 1.0)], BendCount(2, 0, 0)),
        ([(QUARTER, 0.06), (QUARTER, 0.06), (QUARTER, 1.0)], BendCount(1, 1, 0)),
        ([(2.0 * QUARTER, 1.0)], BendCount(0, 1, 0)),
        ([(QUARTER, 0.0), (QUARTER, 1.0)], BendCount(0, 1, 0)),
        ([(QUARTER / 2.0, 0.0), (QUARTER / 2.0, 1.0)], BendCount(1, 0, 0)),
        ([(QUARTER / 2.0, 1.0), (-QUARTER / 2.0, 1.0)], BendCount(0, 0, 2)),
        ([(-0.7, 0.0), (2.0 * QUARTER + 1.4, 0.0), (-0.7, 1.0)], BendCount(0, 1, 2)),
        ([(-QUARTER, 0.06), (0.5, 0.06), (-QUARTER, 1.0)], BendCount(2, 0, 1)),
    ],
)
def test_bends_by_kind(turns: list[tuple[float, float]], expected: BendCount) -> None:
    """Bends of 60 mm radius, each followed by a straight of the given length."""
    here, heading = (0.0, 0.0), 0.0
    pieces: list[Line | Arc] = []
    for sweep, straight in [(0.0, 1.0), *turns]:
        if sweep:
            square = heading + math.copysign(QUARTER, sweep)
            centre = (here[0] + 0.06 * math.cos(square), here[1] + 0.06 * math.sin(square))
            pieces.append(Arc(centre, 0.06, square + math.pi, sweep))
            here, heading = pieces[-1].end, heading + sweep
        if straight:
            end = (here[0] + straight * math.cos(heading), here[1] + straight * math.sin(heading))
            pieces.append(Line(here, end))
            here = end
    path = PipePath.of(pieces)
    assert all(joint.gap < 1e-12 and joint.kink < 1e-12 for joint in path.joints())
    assert bend_count(path, 0.15) == expected
    assert bend_count(path.reversed(), 0.15) == expected


# --- Planted faults


def test_the_layouts_without_faults_are_valid() -> None:
    assert verdict("comb").valid and verdict("comb").faults == ()
    assert verdict("spiral").valid and verdict("spiral").faults == ()


def moved_corner(layout: Layout, index: int, dx: float, dy: float) -> Layout:
    corners = list(layout.corners)
    corners[index] = (corners[index][0] + dx, corners[index][1] + dy)
    return layout._replace(corners=corners)


def test_a_crossing_is_caught_at_its_place() -> None:
    corners = [*COMB.corners[:-1]]
    corners[-1] = (0.225, 0.075)
    across = [*corners[:-1], (0.04, 0.075), (0.04, 0.4), (0.3, 0.4)]
    check = COMB.check(rounded(across, 0.01), bend_radius=0.01, wall_clearance=0.03)
    assert "crosses_itself" in codes(check)
    fault = next(fault for fault in check.faults if fault.code == "crosses_itself")
    assert fault.place == pytest.approx((0.075, 0.075), abs=1e-9)


def test_a_pipe_that_doubles_back_is_caught() -> None:
    pieces = [Line((0.1, 0.0), (0.1, 1.0)), Line((0.1, 1.0), (0.1, 0.5)), Line((0.1, 0.5), (1.0, 0.5))]
    assert {"kink", "crosses_itself"} <= codes(COMB.check(PipePath.of(pieces)))


@pytest.mark.parametrize("layout", [COMB, SPIRAL], ids=["comb", "spiral"])
@pytest.mark.parametrize(("breach", "caught"), [(0.005, True), (0.0021, True), (0.0019, False)])
def test_a_breach_of_clearance_to_the_wall(layout: Layout, breach: float, caught: bool) -> None:
    """The wall on the right moved in."""
    x0, y0, x1, y1 = layout.room.bounds
    check = layout.check(room=box(x0, y0, x1 - breach, y1))
    assert codes(check) == ({"wall_clearance"} if caught else set())
    for fault in check.faults:
        assert fault.limit == layout.clearance
        assert fault.limit - fault.value == pytest.approx(breach, abs=1e-9)
        assert fault.place[0] == pytest.approx(x1 - layout.clearance)


@pytest.mark.parametrize(("breach", "caught"), [(0.005, True), (0.001, False), (0.2, True)])
def test_a_breach_of_clearance_to_a_void(breach: float, caught: bool) -> None:
    """A column between two runs 0.6 m apart; breach 0.2 m: it stands on a run."""
    wide = serpentine(2, 4.0, 0.3, 0.15, 0.1)
    half = 0.15 - wide.clearance + breach + 0.01
    y = wide.room.bounds[3] - wide.clearance - 0.15
    asked = wide._replace(clearance=0.14)
    column = box(2.0 - half, y - half, 2.0 + half, y + half)
    check = asked.check(room=wide.room.difference(column))
    assert codes(check) == ({"wall_clearance"} if caught else set())
    if breach < 0.1:
        assert all(fault.value == pytest.approx(0.14 - breach, abs=1e-9) for fault in check.faults)
    else:
        assert check.faults[0].value == pytest.approx(-(half - 0.15), abs=0.001)


def test_a_rounded_corner_too_near_to_a_reflex_corner_of_the_room() -> None:
    """A pipe at 50 mm round a reflex corner with R = 150 mm: sqrt2 c - (sqrt2 - 1) R from it, 8.6 mm."""
    room = Polygon([(0, 0), (3, 0), (3, 1), (1, 1), (1, 3), (0, 3)])
    path = rounded([(0.95, 2.5), (0.95, 0.95), (2.5, 0.95)], 0.15)
    check = COMB.check(path, room=room, wall_clearance=0.05)
    fault = next(fault for fault in check.faults if fault.code == "wall_clearance")
    assert fault.value == pytest.approx(math.sqrt(2.0) * 0.05 - (math.sqrt(2.0) - 1.0) * 0.15, abs=2e-4)
    assert math.dist(fault.place, (1.0, 1.0)) == pytest.approx(fault.value, abs=2e-4)


def test_a_pipe_that_leaves_the_room_through_the_doorway() -> None:
    outside = [(COMB.corners[0][0], -0.01), *COMB.corners[1:]]
    check = COMB.check(rounded(outside, COMB.radius))
    fault = next(fault for fault in check.faults if fault.code == "wall_clearance")
    assert fault.value == pytest.approx(-0.01) and fault.limit == 0.0


@pytest.mark.parametrize(("share", "caught"), [(0.9, True), (0.9999, True), (1.0, False)])
def test_a_tight_radius(share: float, caught: bool) -> None:
    path = COMB._replace(radius=share * COMB.radius).path
    check = COMB.check(path)
    assert codes(check) == ({"bend_radius"} if caught else set())
    assert all(fault.value == share * COMB.radius for fault in check.faults)


def test_ends_apart() -> None:
    corners = [*COMB.corners[:-1], (0.225, 0.0)]
    corners[-2:] = [(1.0, COMB.corners[-2][1]), (1.0, 0.0)]
    check = COMB.check(rounded(corners, COMB.radius))
    assert {"end_off_entry", "tail_pitch"} <= codes(check)
    assert codes(COMB.check(entry=(0.2, 0.0))) == {"start_off_entry"}
    assert codes(COMB.check(entry=(0.1, 0.0))) == {"end_off_entry"}
    assert codes(COMB.check(tail_pitch=0.1)) == {"start_off_entry", "end_off_entry", "tail_pitch"}
    assert codes(COMB.check(tail_pitch=0.2)) == {"tail_pitch"}


@pytest.mark.parametrize(("off", "caught"), [(0.0049, False), (0.0051, True)])
def test_ends_a_little_off_the_entry(off: float, caught: bool) -> None:
    """Five millimetres to either side, for the place of each end and for the distance between them."""
    x, y = COMB.entry
    assert codes(COMB.check(entry=(x + off, y))) == ({"start_off_entry"} if caught else set())
    assert codes(COMB.check(entry=(x - off, y))) == ({"end_off_entry"} if caught else set())
    for pitch in (COMB.spacing + off, COMB.spacing - off):
        assert codes(COMB.check(tail_pitch=pitch)) == ({"tail_pitch"} if caught else set())


@pytest.mark.parametrize(("off", "caught"), [(0.0049, False), (0.0051, True)])
def test_tails_a_little_nearer_than_their_pitch(off: float, caught: bool) -> None:
    """They begin at their pitch of 70 mm, and then one of them steps aside, towards the other."""
    narrow = serpentine(4, 3.0, 0.15, 0.1, 0.02)
    near = 0.17 - off
    corners = [*narrow.corners[:-1], (0.25, 0.075), (near, 0.075), (near, 0.03), (0.17, 0.03), (0.17, 0.0)]
    path = rounded(corners, 0.002)
    check = narrow.check(path, entry=(0.135, 0.0), tail_pitch=0.07, bend_radius=0.002, wall_clearance=0.02)
    assert codes(check) == ({"tail_distance"} if caught else set())


def test_a_gap_and_a_kink() -> None:
    pieces = list(COMB.path.pieces)
    first = pieces[0]
    assert isinstance(first, Line)
    pieces[0] = Line(first.start, (first.end[0], first.end[1] - 1e-4))
    assert codes(COMB.check(PipePath.of(pieces))) == {"gap"}
    pieces[0] = Line((first.start[0] - 1e-3, first.start[1]), first.end)
    assert codes(COMB.check(PipePath.of(pieces))) == {"kink"}


@pytest.mark.parametrize(("distance", "caught"), [(0.5, True), (0.59, True), (0.599, True), (0.601, False)])
def test_two_pipes_too_near(distance: float, caught: bool) -> None:
    """One run lowered towards the next; only its two ends follow."""
    lower = (1.0 - distance) * COMB.spacing
    near = COMB
    for index in (3, 4):
        near = moved_corner(near, index, 0.0, -lower)
    radius = 0.03
    check = near.check(near._replace(radius=radius).path, bend_radius=radius)
    assert codes(check) == ({"pipe_distance"} if caught else set())
    assert check.measures.least_distance == pytest.approx(distance, abs=1e-9)
    assert check.measures.close_share > 0.05
    # Two of fourteen looks from run to run are at the near one, two at the widened gap above it.
    assert check.measures.distance_1 == pytest.approx(distance, abs=1e-3)
    assert check.measures.gap_95 == pytest.approx(2.0 - distance, abs=0.02)


def test_a_hook_counts_as_two_pipes_only_where_they_are_2_6_spacings_apart() -> None:
    """Legs half a spacing apart; along the pipe they are 2.6 spacings apart if the hook is long enough."""
    for leg, caught in ((0.34, True), (0.2, False)):
        y = 1.0 - leg
        corners = [(0.2, 0.0), (0.2, 1.0), (0.3, 1.0), (0.3, y), (1.5, y), (1.5, 0.0)]
        check = COMB.check(rounded(corners, 0.04), pipe_spacing=0.2, bend_radius=0.04)
        least = check.measures.least_distance
        assert ("pipe_distance" in codes(check)) == caught
        assert least is not None and ((least == pytest.approx(0.5, abs=1e-9)) == caught)


def test_tails_may_be_nearer_than_other_pipes_but_not_nearer_than_their_pitch() -> None:
    narrow = serpentine(4, 3.0, 0.15, 0.1, 0.02)
    corners = [*narrow.corners[:-1], (0.25, 0.05), (0.17, 0.05), (0.17, 0.0)]
    path = rounded(corners, 0.02)
    near = narrow.check(path, entry=(0.135, 0.0), tail_pitch=0.07)
    assert near.valid, near.faults
    assert near.measures.least_distance == pytest.approx(1.0, abs=1e-9)
    assert codes(narrow.check(path, entry=(0.135, 0.0), tail_pitch=0.08)) == {"tail_pitch", "tail_distance"}


def test_a_missing_ring_and_a_bare_strip() -> None:
    whole = verdict("comb").measures
    wider = box(*np.add(COMB.room.bounds, (0.0, 0.0, 0.0, 0.2)))
    strip = COMB.check(room=wider)
    assert strip.valid
    bare = strip.measures.bare_spots[0]
    # 0.2 m more wall-side floor, of which the pipe 75 mm from the old wall serves 0.75 T - 75 mm.
    depth = 0.2 - (0.75 * 0.15 - 0.075)
    assert bare.area == pytest.approx(3.0 * depth, abs=0.03)
    assert bare.width == pytest.approx(depth, abs=0.03)
    assert bare.place[1] > 1.2
    floor = wider.area
    assert strip.measures.coverage_three_quarters == pytest.approx(1.0 - strip.measures.bare_area / floor)
    assert strip.measures.coverage_three_quarters < whole.coverage_three_quarters - 0.1

    ring = SPIRAL.room.buffer(SPIRAL.spacing, join_style="mitre")
    missing = SPIRAL.check(room=ring).measures
    assert missing.coverage_three_quarters < verdict("spiral").measures.coverage_three_quarters - 0.1
    assert missing.bare_area == pytest.approx(ring.area - SPIRAL.room.buffer(0.25 * 0.15).area, rel=0.05)


def test_a_straight_pipe_serves_a_stadium() -> None:
    """Circles at its ends stand as regular polygons of 128 sides, 0.04 % smaller."""
    room = box(0.0, 0.0, 4.0, 2.0)
    measures = COMB.check(PipePath.of([Line((1.0, 1.0), (3.0, 1.0))]), room=room, pipe_spacing=0.8).measures
    for share, served in ((0.5, measures.coverage_half), (0.75, measures.coverage_three_quarters)):
        radius = share * 0.8
        stadium = 2.0 * 2.0 * radius + math.pi * radius**2
        assert served * room.area == pytest.approx(stadium, abs=0.0005 * math.pi * radius**2)


@given(st.lists(st.floats(0.0, 10.0), min_size=1, max_size=50), st.floats(0.0, 1.0))
def test_weighted_percentile_with_equal_weights_is_numpys(values: list[float], share: float) -> None:
    assume(abs(round(share * len(values)) - share * len(values)) > 1e-6)  # no step at a rounding error
    expected = np.percentile(values, 100.0 * share, method="inverted_cdf")
    found = weighted_percentile(np.array(values), np.ones(len(values)), share)
    assert found == expected


# --- Independent oracles: shapely's predicates, a dense grid, every sample against every other


def every_pair(layout: Layout, path: PipePath, step: float) -> tuple[float, float, float]:
    """Least distance over T, mixed share and temperature spread by looking at all pairs."""
    line = LineString(path.polyline(1e-6))
    count = round(path.length / step)
    at = (np.arange(count) + 0.5) * line.length / count
    here = shapely.get_coordinates(shapely.line_interpolate_point(line, at))
    apart = np.abs(at[:, None] - at[None, :])
    fan = layout.clearance + layout.spacing + 2.0 * layout.radius
    tails = (np.minimum.outer(at, at) < fan) & (np.maximum.outer(at, at) > line.length - fan)
    distance = np.hypot(*(here[:, None, :] - here[None, :, :]).transpose(2, 0, 1))
    least = distance[(apart > 2.6 * layout.spacing) & ~tails].min() / layout.spacing
    mixed, middles, looks = 0, [], 0
    before = shapely.get_coordinates(shapely.line_interpolate_point(line, at - 1e-6))
    for position, place, back in zip(at, here, before, strict=True):
        along = (place - back) / np.linalg.norm(place - back)
        normal = np.array([-along[1], along[0]])
        seen = []
        for hand in (1.0, -1.0):
            ray = LineString([place, place + hand * 1.6 * layout.spacing * normal])
            hits = shapely.get_coordinates(shapely.intersection(ray, line))
            hits = sorted(hits, key=lambda hit: math.dist(hit, place))
            where = [line.project(Point(hit)) for hit in hits]
            seen += [other for other in where if abs(other - position) > layout.spacing][:1]
        if seen:
            looks += 1
            half = line.length / 2.0
            mixed += all((other > half) != (position > half) for other in seen)
            middles.append((position + sum(seen) / len(seen)) / (2.0 * line.length))
    return float(least), mixed / looks, float(np.std(middles))


def bay_room() -> Layout:
    """A slanted room with a slanted run: nothing parallel to the axes but the tails."""
    corners = [(0.2, 0.0), (0.2, 1.4), (1.8, 1.9), (1.9, 1.6), (0.5, 1.15), (0.55, 0.9)]
    corners += [(1.9, 1.25), (2.0, 0.95), (0.4, 0.5), (0.35, 0.0)]
    room = Polygon([(0.0, 0.0), (2.2, 0.0), (2.2, 2.2), (1.6, 2.2), (0.0, 1.8)])
    return Layout(corners, room, 0.2, 0.1, 0.06, (0.275, 0.0))


SMALL = {
    "comb": serpentine(3, 1.6, 0.2, 0.12, 0.07),
    "spiral": double_spiral(4, 1.9, 0.15, 0.1, 0.05),
    "wide": serpentine(2, 1.5, 0.3, 0.12, 0.1),
    "slanted": bay_room(),
}


@pytest.mark.parametrize("name", SMALL)
def test_against_every_pair(name: str) -> None:
    layout = SMALL[name]
    measures = layout.check(tail_pitch=0.15).measures
    least, mixed, spread = every_pair(layout, layout.path, 0.01)
    # All pairs at 10 mm miss the least distance by (5 mm)^2 / 2R at bends, 0.25 mm.
    assert measures.least_distance == pytest.approx(least, abs=0.005)
    assert measures.mixed_share == pytest.approx(mixed, abs=0.02)
    assert measures.temperature_spread == pytest.approx(spread, abs=0.005)


@pytest.mark.parametrize("name", SMALL)
def test_coverage_against_a_grid(name: str) -> None:
    """Squares of 7.7 mm, each judged by its middle; no multiple of them is a distance in the layouts."""
    layout = SMALL[name]
    measures = layout.check().measures
    margin = max(0.0, layout.clearance - layout.spacing / 2.0)
    x0, y0, x1, y1 = layout.room.bounds
    x, y = np.meshgrid(np.arange(x0 + 0.0031, x1, 0.0077), np.arange(y0 + 0.0031, y1, 0.0077))
    grid = shapely.points(x.ravel(), y.ravel())
    grid = grid[shapely.contains(layout.room, grid)]
    grid = grid[shapely.distance(layout.room.exterior, grid) >= margin]
    line = LineString(layout.path.polyline(1e-5))
    shapely.prepare(line)
    away = shapely.distance(line, grid)
    assert measures.coverage_half == pytest.approx((away <= 0.5 * layout.spacing).mean(), abs=0.004)
    three_quarters = (away <= 0.75 * layout.spacing).mean()
    assert measures.coverage_three_quarters == pytest.approx(three_quarters, abs=0.004)
    beyond = 0.0077**2 * np.count_nonzero(away > 0.75 * layout.spacing)
    assert measures.bare_area == pytest.approx(beyond, abs=0.004 * layout.room.area)
    for spot in measures.bare_spots:
        assert spot.pipe_distance == pytest.approx(line.distance(Point(spot.place)), abs=1e-3)
        assert layout.room.covers(Point(spot.place))


scribbles = st.lists(
    st.tuples(st.sampled_from([-3, -2, -1, 1, 2, 3]), st.floats(0.25, 0.8)), min_size=3, max_size=9
)


@settings(deadline=None, max_examples=150)
@given(scribbles)
def test_scribbles_against_predicates(steps: list[tuple[int, float]]) -> None:
    """Any polyline that turns by eighths, rounded: crossing and clearance as shapely sees them."""
    corners, heading = [(1.0, 0.5)], 0.0
    for step, (turn, even) in enumerate(steps):
        heading += turn * math.pi / 4.0
        length = even + 0.0137 * step * math.sqrt(2.0)  # no end exactly on another part of the line
        x, y = corners[-1]
        corners.append((x + length * math.cos(heading), y + length * math.sin(heading)))
    path = rounded(corners, 0.04)
    room = box(0.0, 0.0, 2.4, 2.4).difference(box(0.9, 0.9, 1.2, 1.1))
    asked = {"room": room, "wall_clearance": 0.1, "bend_radius": 0.04, "entry": (50.0, 0.0)}
    check = COMB.check(path, **asked)
    line = LineString(path.polyline(1e-6))
    simple = shapely.is_simple(line)
    assert ("crosses_itself" in codes(check)) == (not simple)
    outside = line.difference(room)
    clearance = line.distance(room.boundary) if outside.is_empty else 0.0
    assume(abs(clearance - 0.098) > 3e-4)
    assert ("wall_clearance" in codes(check)) == (clearance < 0.098)
    for fault in check.faults:
        if fault.code == "wall_clearance" and outside.is_empty:
            assert fault.value == pytest.approx(clearance, abs=3e-4)
        if fault.code == "crosses_itself":
            assert line.distance(Point(fault.place)) < 3e-4


# --- What must not matter


def figures(check: RouteCheck) -> list[float]:
    measures = check.measures
    numbers = [
        measures.length,
        measures.length_ratio,
        measures.coverage_half,
        measures.coverage_three_quarters,
        measures.bare_area,
        measures.gap_95,
        measures.least_distance,
        measures.distance_1,
        measures.close_share,
        measures.mixed_share,
        measures.temperature_spread,
        *(fault.value for fault in check.faults),
    ]
    return [-1.0 if number is None else number for number in numbers]


def alike(one: RouteCheck, other: RouteCheck) -> None:
    assert figures(one) == pytest.approx(figures(other), rel=1e-6, abs=1e-6)
    assert one.measures.bends == other.measures.bends
    assert [fault.code for fault in one.faults] == [fault.code for fault in other.faults]


FAULTY = {name: layout._replace(radius=0.9 * layout.radius) for name, layout in SMALL.items()}


@pytest.mark.parametrize("name", SMALL)
def test_translation_by_a_million_metres(name: str) -> None:
    layout, path = SMALL[name], FAULTY[name].path
    by = (1e6, -1e6)
    ring = [(x + by[0], y + by[1]) for x, y in layout.room.exterior.coords[:-1]]
    room = room_outline(ring)
    entry = (layout.entry[0] + by[0], layout.entry[1] + by[1])
    near = layout.check(path)
    far = layout.check(path.moved(by), room=room, entry=entry)
    alike(near, far)
    alike(near, layout.check(path.moved(by), room=Polygon(ring), entry=entry))
    for one, other in zip(near.faults, far.faults, strict=True):
        if one.code in {"wall_clearance", "start_off_entry"}:
            assert math.dist(one.place, np.subtract(other.place, by)) < 1e-3


@pytest.mark.parametrize("name", SMALL)
def test_quarter_turns(name: str) -> None:
    layout, path = SMALL[name], FAULTY[name].path
    for _ in range(3):
        layout = layout._replace(
            room=Polygon([(-y, x) for x, y in layout.room.exterior.coords[:-1]]),
            entry=(-layout.entry[1], layout.entry[0]),
        )
        path = PipePath.of(turned(piece) for piece in path.pieces)
        alike(SMALL[name].check(FAULTY[name].path), layout.check(path))


def turned(piece: Line | Arc) -> Line | Arc:
    def quarter(xy: tuple[float, float]) -> tuple[float, float]:
        return (-xy[1], xy[0])

    if isinstance(piece, Line):
        return Line(quarter(piece.start), quarter(piece.end))
    return Arc(quarter(piece.centre), piece.radius, piece.start_angle + math.pi / 2.0, piece.sweep)


@pytest.mark.parametrize("name", SMALL)
def test_the_other_way_round(name: str) -> None:
    layout, path = SMALL[name], FAULTY[name].path
    forth, back = layout.check(path), layout.check(path.reversed())
    assert sorted(figures(forth)) == pytest.approx(sorted(figures(back)), rel=1e-6, abs=1e-6)
    assert forth.measures.bends == back.measures.bends


@pytest.mark.parametrize("name", SMALL)
def test_start_and_direction_of_the_rings(name: str) -> None:
    layout, path = SMALL[name], FAULTY[name].path
    ring = list(layout.room.exterior.coords[:-1])
    for shift in range(1, len(ring)):
        alike(layout.check(path), layout.check(path, room=Polygon(ring[shift:] + ring[:shift])))
    alike(layout.check(path), layout.check(path, room=Polygon(ring[::-1])))


def test_same_again() -> None:
    assert SMALL["spiral"].check() == SMALL["spiral"].check()


def test_a_bare_spot_is_as_wide_as_the_largest_circle_in_it() -> None:
    """A strip of 0.6 m by 0.3 m, its middle 0.75 m from the pipe."""
    spot = bare_spot(box(0.0, 0.0, 0.6, 0.3), LineString([(-1.0, 0.9), (2.0, 0.9)]))
    assert spot.area == pytest.approx(0.18)
    assert spot.width == pytest.approx(0.3, abs=2e-3)
    assert spot.place[1] == pytest.approx(0.15, abs=2e-3)
    assert spot.pipe_distance == pytest.approx(0.75, abs=2e-3)


def test_ways_that_meet_an_arc_by_their_angles() -> None:
    """Arcs of up to a full turn, of either hand: a way from the centre meets one where its angle from the start,
    counted the way the arc turns, is at most the arc's."""
    rng = np.random.default_rng(3)
    count = 400
    start, turn, hand = (
        rng.uniform(0, 2 * np.pi, count),
        rng.uniform(0.1, 6.2, count),
        rng.choice([-1.0, 1.0], count),
    )
    angle = rng.uniform(0, 2 * np.pi, count)

    def unit(directions: Array) -> Array:
        return np.column_stack((np.cos(directions), np.sin(directions)))

    first, last, way = unit(start), unit(start + hand * turn), unit(angle)
    along = np.mod(hand * (angle - start), 2 * np.pi)
    assert (_on_arc(way, first, last, turn, hand) == (along <= turn)).all()
    nobody: Any = None
    pairs = ArcPairs(nobody, nobody, nobody, way, first, last, np.ones(count), turn, hand)
    met = np.flatnonzero(along <= turn)
    assert pairs._turned(met, way[met]) == pytest.approx(along[met], abs=1e-9)


@pytest.mark.parametrize("sweep", [3.6, 4.3, 5.0, -4.3])
def test_a_loop_so_tight_that_its_bend_is_beside_itself(sweep: float) -> None:
    """A bend of three quarters of a spacing round more than half a turn: only pipe more than 2.6 spacings on counts, as
    seen by a point each millimetre. In a hairpin that is exact to 0.025 spacings."""
    spacing, radius = 0.2, 0.15
    hand = math.copysign(1.0, sweep)
    bend = Arc((1.0, hand * radius), radius, -hand * math.pi / 2.0, sweep)
    turn = sweep - hand * math.pi / 2.0
    out = (1.0 + radius * math.cos(turn), hand * radius + radius * math.sin(turn))
    end = (out[0] + math.cos(sweep), out[1] + math.sin(sweep))
    pieces = (Line((0.0, 0.0), (1.0, 0.0)), bend, Line(out, end))
    found = neighbours(PipeTable.of(pieces, (0.0, 0.0)), Spacings(spacing, ()), 0.01)
    line = LineString(PipePath.of(pieces).polyline(1e-6))
    along = np.linspace(0.0, line.length, int(line.length * 1000))
    places = shapely.get_coordinates(shapely.line_interpolate_point(line, along))
    compared = 0
    for at, (x, y), distance in zip(found.at, found.points, found.distance, strict=True):
        far = np.abs(along - at) > 2.6 * spacing
        least = np.hypot(places[far, 0] - x, places[far, 1] - y).min()
        if least < 1.59 * spacing:
            assert distance == pytest.approx(least, abs=0.025 * spacing + 1e-3)
            compared += 1
    assert compared > 10


@pytest.mark.parametrize("sweep", [math.pi / 2.0, -math.pi])
def test_a_tight_bend_is_reported_at_its_middle(sweep: float) -> None:
    """Half way round an arc of 50 mm where 80 mm are asked for."""
    hand = math.copysign(1.0, sweep)
    arc = Arc((1.0, hand * 0.05), 0.05, -hand * math.pi / 2.0, sweep)
    table = PipeTable.of((Line((0.0, 0.0), (1.0, 0.0)), arc), (0.0, 0.0))
    (fault,) = tight_bends(table, 0.08)
    half = -hand * math.pi / 2.0 + sweep / 2.0
    middle = (1.0 + 0.05 * math.cos(half), hand * 0.05 + 0.05 * math.sin(half))
    assert fault.place == pytest.approx(middle, abs=1e-9)
    assert (fault.value, fault.limit) == (pytest.approx(0.05), 0.08)


def test_a_bend_of_small_kinks_is_reported_at_its_middle() -> None:
    """Sixty steps of 5 mm that turn by half of what a joint may, after a metre of straight pipe."""
    step, turn = 0.005, 0.5 * TANGENT_TOLERANCE
    headings = np.concatenate(([0.0], np.arange(1, 61) * turn, [60 * turn]))
    lengths = np.concatenate(([1.0], np.full(60, step), [1.0]))
    steps = np.column_stack((np.cos(headings), np.sin(headings))) * lengths[:, None]
    corners = np.concatenate((np.zeros((1, 2)), np.cumsum(steps, axis=0)))
    table = PipeTable.of((Line(point(a), point(b)) for a, b in itertools.pairwise(corners)), (0.0, 0.0))
    (fault,) = tight_bends(table, 10.0 * step / turn)
    assert fault.value == pytest.approx(step / turn, rel=0.05)
    assert math.dist(fault.place, point(corners[31])) <= 0.0075


@pytest.mark.parametrize(("turned", "caught"), [(0.995e-3, False), (1.005e-3, True)])
def test_eleven_kinks_may_turn_by_a_thousandth_on_nearly_no_length(turned: float, caught: bool) -> None:
    """The eleven joints together lie 50 mm apart, for which a pipe of 1000 km radius turns by 5e-8 rad."""
    headings = np.concatenate(([0.0], np.arange(1, 12) * turned / 11.0))
    lengths = np.concatenate(([1.0], np.full(10, 0.005), [1.0]))
    steps = np.column_stack((np.cos(headings), np.sin(headings))) * lengths[:, None]
    corners = np.concatenate((np.zeros((1, 2)), np.cumsum(steps, axis=0)))
    table = PipeTable.of((Line(point(a), point(b)) for a, b in itertools.pairwise(corners)), (0.0, 0.0))
    assert bool(list(tight_bends(table, 1e6))) == caught


@pytest.mark.parametrize(("along", "seen"), [(0.995, False), (1.005, True)])
def test_a_leg_is_seen_across_its_bend_from_a_spacing_on_along_the_pipe(along: float, seen: bool) -> None:
    """Legs of four quarters of a spacing and half a turn between them: a sample stands amid the quarter next to the
    bend, and what lies square to it on the other leg is two eighths and the half turn away along the pipe."""
    spacing = 0.2
    radius = (along - 0.25) * spacing / math.pi
    pieces = (
        Line((0.0, 0.0), (spacing, 0.0)),
        Arc((spacing, radius), radius, -math.pi / 2.0, math.pi),
        Line((spacing, 2.0 * radius), (0.0, 2.0 * radius)),
    )
    found = neighbours(PipeTable.of(pieces, (0.0, 0.0)), Spacings(spacing, ()), 0.01)
    sample = int(np.argmin(np.abs(found.at[: found.samples] - 0.875 * spacing)))
    assert found.at[sample] == pytest.approx(0.875 * spacing, abs=1e-9)
    expected = 2.0 * radius if seen else math.inf
    assert found.seen_distance[sample, 0] == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("gap", [0.2, 0.318, 0.322])
def test_pipe_on_the_left_is_seen_on_the_left(gap: float) -> None:
    """Out and back on the left hand: each line sees the other there, up to 1.6 spacings away; none is right."""
    pieces = (
        Line((0.0, 0.0), (2.0, 0.0)),
        Arc((2.0, gap / 2.0), gap / 2.0, -math.pi / 2.0, math.pi),
        Line((2.0, gap), (0.0, gap)),
    )
    found = neighbours(PipeTable.of(pieces, (0.0, 0.0)), Spacings(0.2, ()), 0.01)
    at, length = found.at[: found.samples], 4.0 + gap / 2.0 * math.pi
    straight = (at < 1.5) | (at > length - 1.5)
    assert straight.sum() > 20
    assert np.isinf(found.seen_distance[straight, 1]).all()
    if gap > 0.32:
        assert np.isinf(found.seen_distance[straight, 0]).all()
        return
    assert found.seen_distance[straight, 0] == pytest.approx(gap, abs=1e-9)
    assert found.distance[: found.samples][straight] == pytest.approx(gap, abs=1e-9)
    assert found.seen_at[straight, 0] == pytest.approx(length - at[straight], abs=1e-9)


def test_what_is_the_same_pipe_by_intervals() -> None:
    """A stretch is partly the same pipe where its interval comes nearer to the place than 2.6 spacings along the
    pipe; the rest of it counts."""
    rng = np.random.default_rng(5)
    count, spacing = 5000, 0.1
    start, length, at = rng.uniform(0, 1, count), rng.uniform(0.01, 0.4, count), rng.uniform(0, 1.4, count)
    index = np.arange(count)
    stretches: Any = SimpleNamespace(start_at=start, length=length)
    places: Any = SimpleNamespace(at=at, spacing=np.full(count, spacing))
    near = too_near_along(places, stretches, (index, index))
    away = np.maximum(np.maximum(start - at, at - (start + length)), 0.0)
    assert (near == (away < 2.6 * spacing)).all()
    low, high = allowed_shares(places, stretches, (index[near], index[near]))
    left = np.clip((at - 2.6 * spacing - start)[near], 0.0, length[near])
    right = np.clip((start + length - at - 2.6 * spacing)[near], 0.0, length[near])
    assert (high - low) * length[near] == pytest.approx(np.maximum(left, right), abs=1e-9)


def test_pipe_through_a_wall_is_seen_where_nearly_no_clearance_is_asked_for() -> None:
    """A run 0.2 m beyond the right wall; 1 mm of clearance is less than what anybody lays exactly."""
    corners = [(0.9, 0.0), (0.9, 1.0), (2.2, 1.0), (2.2, 0.7), (1.1, 0.7), (1.1, 0.0)]
    out = Layout(corners, box(0.0, 0.0, 2.0, 1.5), 0.2, 0.001, 0.08, (1.0, 0.0)).check()
    (fault,) = (one for one in out.faults if one.code == "wall_clearance")
    assert fault.value == pytest.approx(-0.2, abs=1e-3)
    inside = [(min(x, 1.8), y) for x, y in corners]
    sound = Layout(inside, box(0.0, 0.0, 2.0, 1.5), 0.2, 0.001, 0.08, (1.0, 0.0)).check()
    assert [one for one in sound.faults if one.code == "wall_clearance"] == []


def test_pipe_that_never_leaves_the_doorway() -> None:
    """Twice the doorway is longer than all of the pipe: no chord is asked for a clearance."""
    corners = [(0.9, 0.0), (0.9, 0.2), (1.1, 0.2), (1.1, 0.0)]
    tiny = Layout(corners, box(0.0, 0.0, 2.0, 1.5), 0.2, 0.1, 0.08, (1.0, 0.0)).check()
    assert [one for one in tiny.faults if one.code == "wall_clearance"] == []


def test_reach_of_the_doorway_and_of_the_fan_by_hand() -> None:
    """Clearance 0.1 m, spacing 0.2 m, bends of 0.08 m, tails 0.15 m apart: the doorway reaches 0.1 + 0.2/2 + 0.08 along
    the pipe, and 0.28 + 0.15/2 + 0.005 across the floor; the fan 0.1 + 0.2 + 2 * 0.08. Our own definitions."""
    spacings = SimpleNamespace(widest=0.2)
    task: Any = SimpleNamespace(entry_clearance=0.1, spacings=spacings, bend_radius=0.08, tail_pitch=0.15)
    assert Task.doorway.fget(task) == pytest.approx(0.28)  # type: ignore[attr-defined]
    assert Task.fan.fget(task) == pytest.approx(0.46)  # type: ignore[attr-defined]
    task.entry, task.table = (0.0, 0.0), SimpleNamespace(total=10.0)
    for away, inside in ((0.3597, True), (0.3603, False)):
        chords: Any = SimpleNamespace(at=np.array([0.0, 0.2]), points=np.array([[0.0, 0.0], [away, 0.0]]))
        assert _in_doorway(task, chords, 0.28).tolist() == [inside]


@pytest.mark.parametrize(("away", "clearance"), [(0.0797, 0.3), (0.0803, 0.1)])
def test_the_entry_has_the_clearance_of_the_wall_that_it_is_in(away: float, clearance: float) -> None:
    """Half of tails 0.15 m apart and 5 mm: a stretch of wall that near is the entry's own."""
    wall = SimpleNamespace(clearance=0.3, stretch=LineString([(away, 0.0), (1.0, 0.0)]))
    task: Any = SimpleNamespace(entry=(0.0, 0.0), tail_pitch=0.15, wall_clearance=0.1, walls=(wall,))
    assert Task.entry_clearance.fget(task) == clearance  # type: ignore[attr-defined]


def test_floor_beyond_reach_is_that_of_all_its_parts() -> None:
    """Pipe along the border of two squares of 1 m: half a spacing is served, of 0.2 m on one side and 0.1 m beyond."""
    parts = [(box(0.0, 0.0, 1.0, 1.0), 0.2), (box(1.0, 0.0, 2.0, 1.0), 0.1)]
    line = LineString([(1.0, -1.0), (1.0, 2.0)])
    assert _beyond(parts[:1], line, 0.5).area == pytest.approx(0.9, abs=1e-5)
    assert _beyond(parts, line, 0.5).area == pytest.approx(0.9 + 0.95, abs=1e-5)


@pytest.mark.parametrize("more", [0.995, 1.005])
def test_floor_is_left_out_where_more_is_bare_than_a_bend_leaves(more: float) -> None:
    """Outside a bend the corner of a square less its quarter circle is bare: (1 - pi / 4) (R + spacing / 2)^2. A niche
    at the upper left is as wide as leaves that much, a little more or less, beyond 0.75 spacings, by shapely."""
    flat = serpentine(2, 1.6, 0.2, 0.1, 0.08)
    line = LineString(flat.path.polyline(1e-6))
    bend = (1.0 - math.pi / 4.0) * (0.08 + 0.1) ** 2
    top = flat.room.bounds[3] + 0.04

    def room(width: float) -> Polygon:
        return Polygon([(0, 0), (1.6, 0), (1.6, top), (width, top), (width, top + 0.05), (0, top + 0.05)])

    def largest(width: float) -> float:
        bare = room(width).difference(line.buffer(0.15, quad_segs=64))
        return float(max(shapely.area(shapely.get_parts(bare)), default=0.0))

    width = brentq(lambda width: largest(width) - more * bend, 0.03, 0.3)
    measures = flat._replace(room=room(width)).check().measures
    assert bool(measures.left_out) == (more > 1.0)
    assert measures.left_out_area == pytest.approx(more * bend if more > 1.0 else 0.0, rel=0.01)
