"""Pipes bent from corners drawn by hand, against the geometry of simple and reverse circular curves.

The formulas are those of route surveying (tangent length R tan(a / 2), external distance R (1 / cos(a / 2) - 1),
reverse curve between parallel tangents d apart: each arc turns by arccos(1 - d / 2R)); that pipe keeps clear of
walls and itself is measured with shapely.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial.distance import cdist
from shapely import LineString, Polygon
from tepidarium_engine.elementwise import Array
from tepidarium_engine.plan.bends.bend_arcs import bend_points
from tepidarium_engine.plan.bends.bend_space import bend_space
from tepidarium_engine.plan.bends.bending import Bent, bent
from tepidarium_engine.plan.bends.corner_easing import simplified
from tepidarium_engine.plan.bends.turn_bulges import bulged
from tepidarium_engine.plan.counterflow.counterflow import counterflow_drafts
from tepidarium_engine.plan.counterflow.room_fit import scaled_rings
from tepidarium_engine.plan.joining.entry import entry_at
from tepidarium_engine.plan.model.field import Draft, Field
from tepidarium_engine.plan.pipes.fillets import rounded
from tepidarium_engine.plan.pipes.pipe_path import POSITION_TOLERANCE, TANGENT_TOLERANCE, Arc, Line, PipePath

Corners = Sequence[tuple[float, float]]

HALL = shapely.box(-5.0, -5.0, 5.0, 5.0)
SPACING, RADIUS, CLEARANCE = 0.15, 0.075, 0.075


def field(
    room: Polygon = HALL,
    spacing: float = SPACING,
    radius: float = RADIUS,
    entry: tuple[float, float] | None = None,
    clearance: float = CLEARANCE,
) -> Field:
    place = entry_at(room, entry or room.exterior.coords[0], spacing)
    return Field(room, spacing, clearance, radius, spacing, place)


def bend(corners: Corners, where: Field | None = None) -> Bent:
    return bent(Draft(np.array(corners), "rings", "by hand"), where or field())


def arcs(result: Bent) -> list[Arc]:
    return [piece for piece in result.path.pieces if isinstance(piece, Arc)]


def centre_line(path: PipePath) -> LineString:
    return LineString(path.polyline(1e-5))


def assert_sound(result: Bent, corners: Corners, radius: float = RADIUS) -> None:
    """Between the ends of the draft, without gap or kink, every arc of the radius, the length a sum."""
    path = result.path
    assert result.unresolved == ()
    assert path.start == pytest.approx(corners[0], abs=POSITION_TOLERANCE)
    assert path.end == pytest.approx(corners[-1], abs=POSITION_TOLERANCE)
    for joint in path.joints():
        assert joint.gap < POSITION_TOLERANCE
        assert joint.kink < TANGENT_TOLERANCE
    assert all(arc.radius == radius for arc in arcs(result))
    assert path.length == pytest.approx(math.fsum(piece.length for piece in path.pieces), rel=1e-12)
    assert path.length == pytest.approx(centre_line(path).length, rel=1e-4)
    assert centre_line(path).is_simple


def least_distance(path: PipePath, apart: float) -> float:
    """Between parts of the pipe more than ``apart`` from each other along it, by brute force."""
    at = np.linspace(0.0, path.length, int(path.length / 0.01))
    points = path.points_at(at)
    distance = cdist(points, points)
    distance[np.abs(at[:, None] - at[None]) <= apart] = np.inf
    return float(distance.min())


def serpentine(pitch: float, rows: int, length: float = 1.5) -> list[tuple[float, float]]:
    corners = []
    for row in range(rows):
        ends = [(0.0, row * pitch), (length, row * pitch)]
        corners.extend(ends if row % 2 == 0 else ends[::-1])
    return corners


def double_spiral(spacing: float, turns: int) -> list[tuple[float, float]]:
    """Inwards round squares two spacings apart, and back between."""

    def inwards(offset: float) -> list[tuple[float, float]]:
        corners = []
        for turn in range(turns):
            low = offset + 2.0 * spacing * turn
            high = 4.0 * spacing * turns - low
            corners += [(low, low), (high, low), (high, high), (low + 2.0 * spacing, high)]
        return corners

    return inwards(0.0) + inwards(spacing)[::-1]


def test_serpentine_with_room_for_half_circles() -> None:
    """Pitch 2 R: every turn is half a circle, pi R long, at the ends of the straight runs."""
    corners = serpentine(2.0 * RADIUS, 6)
    result = bend(corners)
    assert_sound(result, corners)
    straight = 6 * 1.5 - 10 * RADIUS
    assert result.path.length == pytest.approx(straight + 5 * math.pi * RADIUS, abs=1e-6)


def test_double_spiral() -> None:
    corners = double_spiral(SPACING, 2)
    result = bend(corners)
    assert_sound(result, corners)
    assert least_distance(result.path, 2.6 * SPACING) > 0.7 * SPACING


def step(depth: float, at: float = 1.0) -> list[tuple[float, float]]:
    return [(0.0, 0.0), (at, 0.0), (at, depth), (2.0 * at, depth)]


@settings(max_examples=40, deadline=None)
@given(st.floats(0.01, 1.98 * RADIUS))
def test_step_is_a_reverse_curve(depth: float) -> None:
    """Too low for two right angles: two arcs that each turn by arccos(1 - d / 2R)."""
    corners = step(depth)
    result = bend(corners)
    assert_sound(result, corners)
    turn = math.acos(1.0 - depth / (2.0 * RADIUS))
    assert [arc.sweep for arc in arcs(result)] == pytest.approx([turn, -turn], abs=1e-5)
    xs = centre_line(result.path).intersection(LineString([(0.0, depth / 2.0), (2.0, depth / 2.0)]))
    assert xs.x == pytest.approx(1.0, abs=1e-6)


def test_step_of_two_radii_keeps_right_angles() -> None:
    corners = step(2.0 * RADIUS)
    result = bend(corners)
    assert_sound(result, corners)
    assert [abs(arc.sweep) for arc in arcs(result)] == pytest.approx([math.pi / 2.0] * 2)


@pytest.mark.parametrize("cut", [0.01, 0.02, 0.04])
def test_cut_corner_becomes_one_right_angle(cut: float) -> None:
    """On the cut there is no room for two bends of 45 degrees: they take R tan(22.5 degrees) each."""
    assert math.sqrt(2.0) * cut < 2.0 * RADIUS * math.tan(math.pi / 8.0)
    corners = [(0.0, 0.0), (1.0 - cut, 0.0), (1.0, cut), (1.0, 1.0)]
    result = bend(corners)
    assert_sound(result, corners)
    assert [arc.sweep for arc in arcs(result)] == pytest.approx([math.pi / 2.0], abs=1e-6)
    external = RADIUS * (math.sqrt(2.0) - 1.0)
    distance = shapely.distance(shapely.Point(1.0, 0.0), centre_line(result.path))
    assert distance == pytest.approx(external, abs=1e-4)


def test_wiggles_vanish() -> None:
    """Two millimetres are less than a fiftieth of the spacing."""
    corners = [(0.0, 0.0), (0.5, 0.0), (0.5, 0.002), (1.0, 0.002), (1.0, 0.0), (2.0, 0.0)]
    result = bend(corners)
    assert len(result.path.pieces) == 1
    assert_sound(result, corners)


@pytest.mark.parametrize("pitch", [0.08, 0.1, 0.12, 0.14])
@pytest.mark.parametrize("slant", [0.0, 0.05, -0.05])
def test_u_turn_of_small_pitch_widens(pitch: float, slant: float) -> None:
    """A turn about needs 2 R across somewhere."""
    corners = [(0.0, 0.0), (1.0, 0.0), (1.0 + slant, pitch), (0.0, pitch)]
    result = bend(corners, field(spacing=0.1))
    assert_sound(result, corners)
    low, high = centre_line(result.path).bounds[1::2]
    assert high - low >= 2.0 * RADIUS - 1e-4
    assert sum(abs(arc.sweep) for arc in arcs(result)) >= math.pi - 1e-6


def test_u_turn_between_other_pipes_leaves_them_room() -> None:
    """R = 80 mm at a spacing of 100 mm: the turn bulges by 30 mm to each side."""
    spacing, radius = 0.1, 0.08
    corners = [(0.0, -spacing), (1.6, -spacing), (1.6, 2 * spacing + 0.2), (0.0, 2 * spacing + 0.2)]
    corners += [(-0.4, 2 * spacing + 0.2), (-0.4, 2 * spacing), (1.2, 2 * spacing), (1.2, spacing)]
    corners += [(-0.2, spacing), (-0.2, 0.0), (1.2, 0.0)]
    result = bend(corners, field(spacing=spacing, radius=radius))
    assert_sound(result, corners, radius)
    assert least_distance(result.path, 2.6 * spacing) >= 0.6 * spacing - 1e-3


ELL = Polygon([(0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (2.0, 2.0), (2.0, 4.0), (0.0, 4.0)])
WITH_VOID = Polygon(
    shapely.box(0.0, 0.0, 4.0, 4.0).exterior.coords,
    [[(1.5, 1.5), (1.5, 2.5), (2.5, 2.5), (2.5, 1.5)]],
)


@pytest.mark.parametrize("radius", [0.08, 0.1, 0.12])
@pytest.mark.parametrize(
    ("room", "corners"),
    [
        (ELL, [(0.1, 2.0 - CLEARANCE), (2.0 - CLEARANCE, 2.0 - CLEARANCE), (2.0 - CLEARANCE, 3.9)]),
        (
            WITH_VOID,
            [(0.1, 1.5 - CLEARANCE), (2.5 + CLEARANCE, 1.5 - CLEARANCE), (2.5 + CLEARANCE, 3.9)],
        ),
    ],
)
def test_bend_round_a_wall_keeps_the_clearance(room: Polygon, corners: Corners, radius: float) -> None:
    """Rounded where it stands the corner comes as near as c sqrt(2) - (sqrt(2) - 1) R."""
    if room is ELL:
        corners = [(3.9, 2.0 - CLEARANCE), *corners[1:]]
    plain = CLEARANCE * math.sqrt(2.0) - (math.sqrt(2.0) - 1.0) * radius
    assert plain < CLEARANCE - 0.002
    result = bend(corners, field(room, 0.25, radius, (0.0, 0.0)))
    assert_sound(result, corners, radius)
    assert shapely.distance(centre_line(result.path), room.boundary) >= CLEARANCE - 0.002


def test_step_round_the_corner_of_a_wall_moves_to_the_free_side() -> None:
    """A wall steps back by less than 2 R; a slanted leg through the middle would cut its corner."""
    room = Polygon([(0.0, 0.0), (2.0, 0.0), (2.0, -0.1), (4.0, -0.1), (4.0, 3.0), (0.0, 3.0)])
    c, radius = 0.05, 0.085
    corners = [(0.2, c), (2.0 + c, c), (2.0 + c, c - 0.1), (3.8, c - 0.1)]
    result = bend(corners, field(room, 0.2, radius, (0.0, 1.5), c))
    assert_sound(result, corners, radius)
    assert shapely.distance(centre_line(result.path), room.boundary) >= c - 0.002


def test_what_cannot_be_bent_is_named() -> None:
    """A turn about in a niche 0.2 m wide, for pipe that needs 0.3 m."""
    room = Polygon([(0.0, 0.0), (3.0, 0.0), (3.0, 0.2), (0.0, 0.2)])
    corners = [(0.1, 0.075), (2.9, 0.075), (2.9, 0.125), (0.1, 0.125)]
    result = bend(corners, field(room, 0.15, 0.15, (0.0, 0.1)))
    assert result.unresolved
    for corner in result.unresolved:
        assert corner.radius < 0.15
        assert math.dist(corner.place, (2.9, 0.1)) < 0.1


@pytest.mark.parametrize("radius", [0.075, 0.08, 0.1])
def test_tails_shorter_than_the_radius(radius: float) -> None:
    """75 mm from the wall to the outermost pipe."""
    room = shapely.box(0.0, 0.0, 4.0, 3.0)
    where = field(room, 0.2, radius, (2.0, 0.0))
    drafts = list(counterflow_drafts(where, scaled_rings(where, (1.0, 1.0))))
    assert drafts
    for draft in drafts:
        result = bent(draft, where)
        assert_sound(result, [*map(tuple, draft.corners.tolist())], radius)
        assert room.buffer(1e-6).covers(centre_line(result.path))


ROOMS = {
    "plain": shapely.box(0.0, 0.0, 4.0, 3.1),
    "elbow": ELL,
    "island": WITH_VOID,
    "oblique": Polygon([(0.0, 0.0), (4.0, 0.4), (3.4, 3.3), (0.5, 2.9)]),
    "steps": Polygon(
        [(0.0, 0.0), (2.0, 0.0), (2.0, 0.1), (4.0, 0.1), (4.0, 3.0), (1.0, 3.0), (1.0, 2.93), (0.0, 2.93)]
    ),
}


@pytest.mark.parametrize("name", ROOMS)
@pytest.mark.parametrize("spacing", [0.1, 0.15, 0.2])
def test_whole_rooms(name: str, spacing: float) -> None:
    """R = T / 2: no bend is left unresolved, and clearance is kept but where the tails come in."""
    room, radius = ROOMS[name], spacing / 2.0
    where = field(room, spacing, radius, room.exterior.interpolate(0.3, normalized=True).coords[0])
    for draft in counterflow_drafts(where, scaled_rings(where, (1.0, 1.0))):
        result = bent(draft, where)
        assert_sound(result, [*map(tuple, draft.corners.tolist())], radius)
        inner = shapely.difference(centre_line(result.path), where_tails(where))
        assert shapely.distance(inner, room.boundary) >= CLEARANCE - 0.002


def where_tails(where: Field) -> Polygon:
    return shapely.Point(where.entry.place).buffer(
        where.wall_clearance + where.pipe_spacing + where.bend_radius
    )


legs = st.lists(st.tuples(st.floats(0.06, 0.6), st.sampled_from((-1, 0, 1))), min_size=2, max_size=9)


def walk(steps: list[tuple[float, int]]) -> list[tuple[float, float]]:
    """Runs to the right with steps up and down in between: never back."""
    corners = [(0.0, 0.0)]
    for length, side in steps:
        x, y = corners[-1]
        corners.append((x + 0.3 + length, y))
        if side:
            corners.append((x + 0.3 + length, y + side * length))
    return [*corners, (corners[-1][0] + 0.3, corners[-1][1])]


@settings(max_examples=40, deadline=None)
@given(legs, st.floats(-3.0, 3.0))
def test_invariances(steps: list[tuple[float, int]], shift: float) -> None:
    """Moved, turned by a quarter, mirrored, run backwards: the same pipe, moved, turned, mirrored, backwards."""
    corners = walk(steps)
    wide = field(shapely.box(-20.0, -20.0, 20.0, 20.0))
    plain = bend(corners, wide)
    line = centre_line(plain.path)
    images: dict[str, Callable[[Array], Array]] = {
        "moved": lambda points: points + np.array([shift, -shift]),
        "turned": lambda points: np.column_stack((-points[:, 1], points[:, 0])),
        "mirrored": lambda points: points * (1.0, -1.0),
        "backwards": lambda points: points[::-1],
    }
    for name, image in images.items():
        other = bend([*map(tuple, image(np.array(corners)).tolist())], wide)
        assert other.path.length == pytest.approx(plain.path.length, abs=1e-6), name
        assert len(other.unresolved) == len(plain.unresolved)
        expected = LineString(image(shapely.get_coordinates(line)))
        assert shapely.hausdorff_distance(centre_line(other.path), expected) < 1e-4, name


@settings(max_examples=40, deadline=None)
@given(legs)
def test_shorter_than_the_corners_and_near_them(steps: list[tuple[float, int]]) -> None:
    """Arcs cut corners: never longer than the polyline, never further from it than a radius."""
    corners = walk(steps)
    result = bend(corners, field(shapely.box(-20.0, -20.0, 20.0, 20.0)))
    assert_sound(result, corners)
    assert result.path.length <= LineString(corners).length + 1e-9
    assert shapely.hausdorff_distance(centre_line(result.path), LineString(corners)) <= RADIUS


def test_simplified_stays_on_the_floor() -> None:
    """Straightening over the corner of a wall would come too near to it."""
    room = Polygon([(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (2.0, 1.0), (0.0, 3.0)])
    where = field(room, 0.15, clearance=0.075, entry=(1.0, 0.0))
    tip = (2.0, 1.0 - CLEARANCE)
    corners = [(0.5, 0.921), tip, (3.5, 0.921)]
    assert (
        simplified(corners, 0.1, bend_space(where)) != [corners[0], corners[-1]]
        or shapely.distance(LineString([corners[0], corners[-1]]), room.boundary) >= CLEARANCE - 0.002
    )
    low = [(0.5, 0.9), (2.0, 0.897), (3.5, 0.9)]
    assert simplified(low, 0.01, bend_space(where)) == [low[0], low[-1]]


@settings(max_examples=60, deadline=None)
@given(st.floats(-2.8, 2.8), st.floats(-math.pi, math.pi), st.floats(0.02, 0.2))
def test_points_of_a_bend_lie_on_its_circle(turn: float, heading: float, radius: float) -> None:
    """From tangent point to tangent point, R tan(a / 2) from the corner, R from the centre."""
    out = heading + turn
    before = (-3.0 * math.cos(heading), -3.0 * math.sin(heading))
    after = (3.0 * math.cos(out), 3.0 * math.sin(out))
    points = bend_points(np.array([[before, (0.0, 0.0), after]]), radius)[0]
    tangent = radius * math.tan(abs(turn) / 2.0)
    assert np.hypot(*points[0]) == pytest.approx(tangent, abs=1e-5)
    assert np.hypot(*points[-1]) == pytest.approx(tangent, abs=1e-5)
    side = math.copysign(radius, turn)
    centre = points[0] + side * np.array([-math.sin(heading), math.cos(heading)])
    if abs(turn) > 1e-3:
        assert np.hypot(*(points - centre).T) == pytest.approx(radius, abs=1e-6)
        chords = [math.dist(a, b) for a, b in pairwise(points.tolist())]
        assert chords == pytest.approx([2.0 * radius * math.sin(abs(turn) / 16.0)] * 8, abs=1e-6)


def test_lines_only_where_nothing_bends() -> None:
    result = bend([(0.0, 0.0), (3.0, 0.0)])
    assert result.path.pieces == (Line((0.0, 0.0), (3.0, 0.0)),)


def test_pipe_drafted_too_near_to_itself_is_moved_apart() -> None:
    """A bulge that comes within 40 mm of the next run, at a spacing of 150 mm; 90 mm is the least."""
    corners = [
        (0.0, 0.0),
        (1.0, 0.0),
        (1.0, 0.11),
        (1.3, 0.11),
        (1.3, 0.0),
        (2.5, 0.0),
        (2.5, 0.15),
        (0.0, 0.15),
    ]
    assert LineString(corners[2:4]).distance(LineString(corners[6:])) < 0.05
    result = bend(corners)
    assert_sound(result, corners)
    assert least_distance(result.path, 2.6 * SPACING) >= 0.6 * SPACING - 1e-3


@pytest.mark.parametrize("share", [0.55, 0.7, 0.9, 1.1])
@pytest.mark.parametrize("slant", [0.0, 0.3])
def test_a_turn_between_near_pipes_bulges(share: float, slant: float) -> None:
    """Of three arcs of one radius, the middle one two radii wide, that touches the turn as drafted; the pipe swings out
    where the distance of the centres says so (Pythagoras). Beside a wall there is no room for it."""
    pitch, radius = 0.15, share * 0.15
    where = field(shapely.box(0.0, 0.0, 5.0, 3.0), pitch, radius, (0.0, 0.5))
    ahead = slant * pitch
    corners = [(0.5, 1.5), (2.5, 1.5), (2.5 + ahead, 1.5 + pitch), (0.5, 1.5 + pitch)]
    found = rounded(bulged(corners, bend_space(where)), radius)
    assert found.unresolved == ()
    arcs = [piece for piece in found.path.pieces if isinstance(piece, Arc)]
    assert all(arc.radius == pytest.approx(radius, rel=1e-9) for arc in arcs)
    assert {round(arc.centre[1], 6) for arc in arcs[1:-1]} == {round(1.5 + pitch / 2.0, 6)}
    points = found.path.polyline(1e-4)
    assert points[:, 1].max() - points[:, 1].min() == pytest.approx(2.0 * radius, abs=3e-4)
    line = LineString(corners[1:3])
    away = line.distance(LineString(points))
    centre = shapely.Point(arcs[1].centre)
    assert line.distance(centre) == pytest.approx(radius, rel=1e-6) or slant
    assert away <= 1e-3
    swing_out = arcs[0].start[0]
    apart = math.sqrt(4.0 * radius**2 - (radius + pitch / 2.0) ** 2)
    assert arcs[1].centre[0] - swing_out == pytest.approx(apart, abs=1e-9)
    wall = [(x, y - 1.5 + 0.075) for x, y in corners]
    assert bulged(wall, bend_space(where)) == wall
