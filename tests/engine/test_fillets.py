"""Rounded polylines against the formulas of the simple circular curve and against plain geometry."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tepidarium_engine.errors import InputError
from tepidarium_engine.plan.pipes.fillets import Rounded, rounded
from tepidarium_engine.plan.pipes.pipe_path import POSITION_TOLERANCE, TANGENT_TOLERANCE, Arc, Line

Corners = list[tuple[float, float]]


def arcs(result: Rounded) -> list[Arc]:
    return [piece for piece in result.path.pieces if isinstance(piece, Arc)]


def assert_smooth(result: Rounded) -> None:
    for joint in result.path.joints():
        assert joint.gap < POSITION_TOLERANCE
        assert joint.kink < TANGENT_TOLERANCE


def test_simple_circular_curve_of_a_surveying_handout() -> None:
    """Published example of a road curve: R 1800 ft, 43 deg 25' 46", T 716.84, L 1364.38, C 1331.943 ft.

    "Surveying Mathematics Made Simple", examples of simple curves. Units do not matter.
    """
    turn = math.radians(43.0 + 25.0 / 60.0 + 46.0 / 3600.0)
    corners = [(-1000.0, 0.0), (0.0, 0.0), (1000.0 * math.cos(turn), 1000.0 * math.sin(turn))]
    result = rounded(corners, 1800.0)
    first, arc, last = result.path.pieces
    assert isinstance(arc, Arc)
    assert 1000.0 - first.length == pytest.approx(716.84, abs=0.005)
    assert 1000.0 - last.length == pytest.approx(716.84, abs=0.005)
    assert arc.length == pytest.approx(1364.38, abs=0.005)
    assert math.dist(arc.start, arc.end) == pytest.approx(1331.943, abs=0.005)
    # External distance of the same curve, E = R (sec(turn / 2) - 1): Wolf and Ghilani, Elementary Surveying.
    assert math.dist(arc.middle, (0.0, 0.0)) == pytest.approx(1800.0 * (1.0 / math.cos(turn / 2.0) - 1.0))


@pytest.mark.parametrize("side", [1.0, -1.0])
def test_right_angle(side: float) -> None:
    """Two tangent lengths of R go, a quarter circle comes."""
    result = rounded([(0.0, 0.0), (1.0, 0.0), (1.0, side * 2.0)], 0.1)
    assert [type(piece) for piece in result.path.pieces] == [Line, Arc, Line]
    (arc,) = arcs(result)
    assert arc.centre == pytest.approx((0.9, side * 0.1), abs=1e-12)
    assert arc.radius == 0.1
    assert arc.sweep == pytest.approx(side * math.pi / 2.0, abs=1e-12)
    assert result.path.length == pytest.approx(3.0 - 0.2 + 0.05 * math.pi, abs=1e-9)
    assert (result.path.start, result.path.end) == ((0.0, 0.0), (1.0, side * 2.0))
    assert result.unresolved == ()


@pytest.mark.parametrize(("pitch", "pieces"), [(0.3, 5), (0.2, 4)])
def test_u_turn_with_room_for_the_radius(pitch: float, pieces: int) -> None:
    """At a pitch of exactly 2 R the turn is one half circle, in two arcs that meet without a line."""
    result = rounded([(0.0, 0.0), (1.0, 0.0), (1.0, pitch), (0.0, pitch)], 0.1)
    assert len(result.path.pieces) == pieces
    assert [arc.radius for arc in arcs(result)] == [0.1, 0.1]
    assert result.path.length == pytest.approx(2.0 * 0.9 + (pitch - 0.2) + 0.1 * math.pi, abs=1e-9)
    assert result.unresolved == ()
    assert_smooth(result)


def test_u_turn_without_room_gets_the_half_circle_that_fits() -> None:
    result = rounded([(0.0, 0.0), (1.0, 0.0), (1.0, 0.15), (0.0, 0.15)], 0.1)
    assert [corner.place for corner in result.unresolved] == [(1.0, 0.0), (1.0, 0.15)]
    assert [corner.radius for corner in result.unresolved] == pytest.approx([0.075, 0.075], abs=1e-12)
    assert [arc.radius for arc in arcs(result)] == [corner.radius for corner in result.unresolved]
    assert result.path.length == pytest.approx(2.0 * 0.925 + 0.075 * math.pi, abs=1e-9)
    assert_smooth(result)


@pytest.mark.parametrize("shift", [0.1, 1.1, 33.3, 999.9, 1234.1])
def test_room_for_exactly_the_radius_is_not_lost_by_rounding(shift: float) -> None:
    result = rounded([(0.0, shift), (1.0, shift), (1.0, shift + 0.2), (0.0, shift + 0.2)], 0.1)
    assert [arc.radius for arc in arcs(result)] == [0.1, 0.1]
    assert result.unresolved == ()
    assert_smooth(result)


def test_square_spiral() -> None:
    """Legs of a, a, 2a, 2a, ... n a, n a: n (n + 1) a of polyline, 2n - 1 right angles."""
    step, turns, radius = 0.2, 20, 0.1
    corners: Corners = [(0.0, 0.0)]
    for leg in range(2 * turns):
        length, direction = step * (leg // 2 + 1), ((1, 0), (0, 1), (-1, 0), (0, -1))[leg % 4]
        corners.append((corners[-1][0] + length * direction[0], corners[-1][1] + length * direction[1]))
    result = rounded(corners, radius)
    bends = 2 * turns - 1
    length = turns * (turns + 1) * step - bends * radius * (2.0 - math.pi / 2.0)
    assert result.path.length == pytest.approx(length, abs=1e-9)
    assert {arc.radius for arc in arcs(result)} == {radius}
    assert len(arcs(result)) == bends
    assert result.unresolved == ()
    assert_smooth(result)


def test_last_leg_too_short() -> None:
    """A corner next to the end of the pipe has the whole leg: the radius that fits is the leg's length."""
    result = rounded([(0.0, 0.0), (1.0, 0.0), (1.0, 0.06)], 0.1)
    (corner,) = result.unresolved
    assert corner.place == (1.0, 0.0)
    assert corner.radius == pytest.approx(0.06, abs=1e-12)
    assert result.path.length == pytest.approx(0.94 + 0.03 * math.pi, abs=1e-9)
    assert_smooth(result)


def test_a_tight_corner_leaves_the_rest_of_the_leg_to_its_neighbour() -> None:
    """Right angles, legs of 60 and 120 mm between them: the middle one can have 30, the last one 90 mm."""
    result = rounded([(0.0, 0.0), (1.0, 0.0), (1.0, 0.06), (0.88, 0.06), (0.88, 1.0)], 0.1)
    assert [arc.radius for arc in arcs(result)] == pytest.approx([0.03, 0.03, 0.09], abs=1e-12)
    assert len(result.unresolved) == 3
    result = rounded([(0.0, 0.0), (1.0, 0.0), (1.0, 0.06), (0.87, 0.06), (0.87, 1.0)], 0.1)
    assert [arc.radius for arc in arcs(result)] == pytest.approx([0.03, 0.03, 0.1], abs=1e-12)
    assert [corner.place for corner in result.unresolved] == [(1.0, 0.0), (1.0, 0.06)]


def test_points_that_are_no_corners_change_nothing() -> None:
    plain = rounded([(0.0, 0.0), (1.0, 0.0), (1.0, 1.0)], 0.1)
    dotted = [
        (0.0, 0.0),
        (0.0, 0.0),
        (0.25, 0.0),
        (0.97, 0.0),
        (1.0, 0.0),
        (1.0, 0.0),
        (1.0, 0.5),
        (1.0, 1.0),
    ]
    assert rounded([*dotted, (1.0, 1.0)], 0.1) == plain


def test_many_small_turns_are_not_taken_for_a_straight_run() -> None:
    """An arc of a tenth of a radian in 20 000 chords, each a turn of half of what counts, keeps its bend."""
    count, size = 20_000, 10.0
    angles = [0.1 * step / count for step in range(count + 1)]
    result = rounded([(size * math.cos(a), size * math.sin(a)) for a in angles], 0.1)
    assert result.path.length == pytest.approx(size * 0.1, abs=1e-6)
    assert sum(arc.sweep for arc in arcs(result)) == pytest.approx(0.1, abs=3e-5)
    assert_smooth(result)


def test_straight_pipe() -> None:
    result = rounded([(0.0, 0.0), (1.0, 1.0), (3.0, 3.0)], 0.1)
    assert result.path.pieces == (Line((0.0, 0.0), (3.0, 3.0)),)


def test_polyline_that_turns_back_on_itself_has_no_radius() -> None:
    result = rounded([(0.0, 0.0), (1.0, 0.0), (0.5, 0.0)], 0.1)
    (corner,) = result.unresolved
    assert corner.place == (1.0, 0.0)
    assert corner.radius == pytest.approx(0.0, abs=1e-12)
    assert result.path.length == pytest.approx(1.5, abs=1e-9)
    assert [joint.kink for joint in result.path.joints()] == [pytest.approx(math.pi)]


@pytest.mark.parametrize(
    ("corners", "bend_radius", "pointer"),
    [
        ([], 0.1, "/corners"),
        ([(0.0, 0.0)], 0.1, "/corners"),
        ([(0.0, 0.0), (0.0, 1e-8)], 0.1, "/corners"),
        ([(0.0, 0.0), (math.nan, 0.0)], 0.1, "/corners/1"),
        ([(0.0, 0.0), (1.0, 0.0)], 0.0, "/bend_radius"),
        ([(0.0, 0.0), (1.0, 0.0)], math.nan, "/bend_radius"),
        ([(0.0, 0.0), (1.0, 0.0)], math.inf, "/bend_radius"),
    ],
)
def test_refused(corners: Corners, bend_radius: float, pointer: str) -> None:
    with pytest.raises(InputError) as refusal:
        rounded(corners, bend_radius)
    assert [fault.pointer for fault in refusal.value.faults] == [pointer]


@st.composite
def polylines(draw: st.DrawFn) -> Corners:
    """Headings turn by 5 to 170 degrees, legs of 1 cm to 2 m: many of them too short for 0.1 m."""
    count = draw(st.integers(2, 8))
    x, y, heading = 0.0, 0.0, draw(st.floats(-3.0, 3.0))
    corners = [(x, y)]
    for _ in range(count):
        length = draw(st.floats(0.01, 2.0))
        x, y = x + length * math.cos(heading), y + length * math.sin(heading)
        corners.append((x, y))
        heading += draw(st.floats(0.09, 2.96)) * draw(st.sampled_from((1.0, -1.0)))
    return corners


def turns_of(corners: Corners) -> list[float]:
    """Turns from headings, unlike the code, which has them from products of the legs."""
    headings = [math.atan2(b[1] - a[1], b[0] - a[0]) for a, b in pairwise(corners)]
    return [math.remainder(after - before, 2.0 * math.pi) for before, after in pairwise(headings)]


@settings(max_examples=150, deadline=None)
@given(polylines())
def test_length_tangents_and_report(corners: Corners) -> None:
    """Each corner costs 2 R tan(a / 2) of leg and gives R a of arc, whatever its radius."""
    result = rounded(corners, 0.1)
    turns, radii = turns_of(corners), [arc.radius for arc in arcs(result)]
    legs = math.fsum(math.dist(a, b) for a, b in pairwise(corners))
    saved = math.fsum(
        radius * (2.0 * math.tan(abs(turn) / 2.0) - abs(turn))
        for radius, turn in zip(radii, turns, strict=True)
    )
    assert_smooth(result)
    # Lines shorter than 1e-7 m between two arcs are left out.
    assert result.path.length == pytest.approx(legs - saved, abs=1e-7 * len(corners))
    assert result.path.length == pytest.approx(sum(p.length for p in result.path.pieces), abs=1e-9)
    assert [arc.sweep for arc in arcs(result)] == pytest.approx(turns, abs=1e-9)
    tight = {corner.place: corner.radius for corner in result.unresolved}
    assert radii == [tight.get(place, 0.1) for place in corners[1:-1]]


@settings(max_examples=150, deadline=None)
@given(polylines())
def test_no_radius_could_be_larger_without_making_a_smaller_one_smaller(corners: Corners) -> None:
    """The condition for a max-min fair share: each tight corner has a used-up leg on which it is largest.

    Bertsekas and Gallager, Data Networks, 2nd ed., section 6.5.2 (bottleneck links).
    """
    result = rounded(corners, 0.1)
    tangents = [math.tan(abs(turn) / 2.0) for turn in turns_of(corners)]
    radii = [arc.radius for arc in arcs(result)]
    ends = [(0.0, 0.0), *zip(radii, tangents, strict=True), (0.0, 0.0)]
    spare = [
        math.dist(*leg) - ra * ta - rb * tb
        for leg, ((ra, ta), (rb, tb)) in zip(pairwise(corners), pairwise(ends), strict=True)
    ]
    assert min(spare) > -1e-7
    for index, radius in enumerate(radii):
        neighbours = (radii[index - 1] if index else 0.0, radii[index + 1] if index + 1 < len(radii) else 0.0)
        stops = zip(spare[index : index + 2], neighbours, strict=True)
        assert radius == 0.1 or any(left < 1e-9 and other <= radius + 1e-12 for left, other in stops)


def radii_and_places(result: Rounded) -> list[float]:
    return [number for piece in arcs(result) for number in (*piece.centre, piece.radius)]


@settings(max_examples=100, deadline=None)
@given(polylines(), st.floats(-50.0, 50.0), st.floats(-50.0, 50.0))
def test_invariances(corners: Corners, dx: float, dy: float) -> None:
    """Backwards, moved, turned by a quarter, mirrored: the same pipe, backwards, moved, turned, mirrored."""
    result = rounded(corners, 0.1)
    backwards = rounded(corners[::-1], 0.1)
    assert radii_and_places(backwards) == pytest.approx(
        [n for arc in reversed(arcs(result)) for n in (*arc.centre, arc.radius)], abs=1e-9
    )
    assert [c.place for c in backwards.unresolved] == [c.place for c in result.unresolved[::-1]]
    images: dict[str, Callable[[float, float], tuple[float, float]]] = {
        "moved": lambda x, y: (x + dx, y + dy),
        "turned": lambda x, y: (-y, x),
        "mirrored": lambda x, y: (-x, y),
    }
    for image in images.values():
        of_image = rounded([image(*corner) for corner in corners], 0.1)
        expected = [n for arc in arcs(result) for n in (*image(*arc.centre), arc.radius)]
        assert radii_and_places(of_image) == pytest.approx(expected, abs=1e-9)
        assert of_image.path.length == pytest.approx(result.path.length, abs=1e-7 * len(corners))
