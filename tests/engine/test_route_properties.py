"""What must hold for every route, whatever the room: laid rooms against their own copies and against geometry.

In quick mode where it says so: hundreds of rooms with the spacing fit would take too long here.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon
from tepidarium_engine.checking import Point
from tepidarium_engine.plan.laying.laying import Laid, Pattern, lay
from tepidarium_engine.plan.pipes.pipe_path import PipePath

from tests.rooms.case import Ring, RoomCase, moved, turned
from tests.rooms.case import room as room_case
from tests.rooms.corpus import CORPUS
from tests.rooms.outcome import judged, laid_and_judged
from tests.rooms.random_rooms import random_room
from tests.rooms.shapes import box, rectangle, walls

PATTERNS: tuple[Pattern, ...] = ("counterflow", "serpentine")
NEW = st.integers(100_000, 10_000_000)
"""Numbers of rooms that the thousand do not hold."""

NAMED = {case.name: case for case in CORPUS}
TRIED = [
    NAMED[name]
    for name in (
        "store",
        "L at the elbow",
        "Z fine",
        "attic",
        "kitchen island",
        "shallow niche",
        "turned L",
        "WC",
    )
]
rooms = st.sampled_from(TRIED)
patterns = st.sampled_from(PATTERNS)


def laid(case: RoomCase, pattern: Pattern = "counterflow", quick: bool = True) -> Laid:
    answer = lay(case.room, case.task(pattern, quick))
    assert answer.path is not None, (case.name, answer.refusal)
    return answer


def shape(answer: Laid, count: int = 400) -> np.ndarray:
    """Points evenly along the pipe."""
    assert answer.path is not None
    return answer.path.points_at(np.linspace(0.0, answer.path.length, count))


def figures(answer: Laid) -> list[float]:
    assert answer.path is not None and answer.check is not None
    measures = answer.check.measures
    return [
        answer.path.length,
        measures.coverage_half,
        measures.coverage_three_quarters,
        measures.least_distance or 9.0,
        measures.mixed_share or 0.0,
        measures.temperature_spread or 0.0,
    ]


def same(
    one: Laid,
    other: Laid,
    back: Callable[[np.ndarray], np.ndarray] = lambda points: points,
    within: float = 1e-5,
) -> None:
    """Both pipes lie on each other once the other one is put back; ``within`` [m].

    Figures come from samples along the pipe, of which one more or less may see its neighbour.
    """
    assert np.abs(shape(one) - back(shape(other))).max() < within
    assert figures(one) == pytest.approx(figures(other), abs=2e-3)


# --- What must not matter


@settings(deadline=None, max_examples=12)
@given(rooms, patterns, st.integers(1, 20), st.booleans(), st.booleans())
def test_start_and_direction_of_rings(
    case: RoomCase, pattern: Pattern, shift: int, backwards: bool, voids_backwards: bool
) -> None:
    def ring(corners: Ring, reverse: bool) -> Ring:
        by = shift % len(corners)
        return (corners[by:] + corners[:by])[:: -1 if reverse else 1]

    other = replace(
        case,
        outline=ring(case.outline, backwards),
        voids=tuple(ring(void, voids_backwards) for void in case.voids[::-1]),
    )
    same(laid(case, pattern), laid(other, pattern))


@settings(deadline=None, max_examples=16)
@given(rooms, patterns, st.floats(-1e6, 1e6), st.floats(-1e6, 1e6))
def test_place(case: RoomCase, pattern: Pattern, x: float, y: float) -> None:
    """Anywhere within a thousand kilometres; a double there resolves a tenth of a micrometre."""
    same(laid(case, pattern), laid(moved(case, (x, y)), pattern), lambda points: points - (x, y))


@settings(deadline=None, max_examples=16)
@given(rooms, patterns, st.sampled_from((90.0, 180.0, 270.0)))
def test_quarter_turns(case: RoomCase, pattern: Pattern, degrees: float) -> None:
    same(laid(case, pattern), laid(turned(case, degrees), pattern), turned_back(degrees))


@settings(deadline=None, max_examples=16)
@given(rooms, patterns, st.floats(-180.0, 180.0))
def test_any_turn(case: RoomCase, pattern: Pattern, degrees: float) -> None:
    """To a millimetre, as corners come to the grid of the room's own frame from elsewhere."""
    same(laid(case, pattern), laid(turned(case, degrees), pattern), turned_back(degrees), within=1e-3)


def turned_back(degrees: float) -> Callable[[np.ndarray], np.ndarray]:
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return lambda points: points @ np.array([[c, -s], [s, c]])


@pytest.mark.parametrize("case", TRIED, ids=lambda case: case.name)
@pytest.mark.parametrize("pattern", PATTERNS)
def test_mirrored_room_is_laid_as_well(case: RoomCase, pattern: Pattern) -> None:
    """The mirror image may be laid by another hand, but must not be worse."""

    def ring(corners: Ring) -> Ring:
        return tuple((-x, y) for x, y in corners)

    x, y = case.entry
    other = replace(case, outline=ring(case.outline), voids=tuple(map(ring, case.voids)), entry=(-x, y))
    length, half, three_quarters, least, *_ = figures(laid(case, pattern, quick=False))
    mirrored = figures(laid(other, pattern, quick=False))
    assert mirrored[0] == pytest.approx(length, rel=0.02)
    assert mirrored[1] == pytest.approx(half, abs=0.02)
    assert mirrored[2] == pytest.approx(three_quarters, abs=0.02)
    assert mirrored[3] == pytest.approx(least, abs=0.25)


@settings(deadline=None, max_examples=16)
@given(st.sampled_from([case for case in TRIED if not case.voids]), patterns, st.floats(0.8, 1.6))
def test_scale(case: RoomCase, pattern: Pattern, factor: float) -> None:
    """Room, spacing, clearance and bends together: the same drawing at another scale."""

    def ring(corners: Ring) -> Ring:
        return tuple((factor * x, factor * y) for x, y in corners)

    other = replace(
        case,
        outline=ring(case.outline),
        entry=(factor * case.entry[0], factor * case.entry[1]),
        pipe_spacing=factor * case.pipe_spacing,
        bend_radius=factor * case.bend_radius,
        wall_clearance=factor * case.wall_clearance,
    )
    length, *shares = figures(laid(case, pattern))
    scaled_length, *scaled_shares = figures(laid(other, pattern))
    assert scaled_length == pytest.approx(factor * length, rel=0.01)
    assert scaled_shares[:2] == pytest.approx(shares[:2], abs=0.01)


@pytest.mark.parametrize("pattern", PATTERNS)
def test_same_again(pattern: Pattern) -> None:
    for case in TRIED:
        assert repr(laid(case, pattern)) == repr(laid(case, pattern))


# --- What a route is


@settings(deadline=None, max_examples=16)
@given(NEW, patterns)
def test_any_room(number: int, pattern: Pattern) -> None:
    """No exception, nothing invalid, no refusal without a reason; quick mode. ``test_random_rooms`` has a thousand."""
    outcome = laid_and_judged(random_room(number), pattern, quick=True)
    assert outcome.status in {"solved", "refused"}, outcome.detail
    assert outcome.detail != "without a reason"
    if outcome.status == "solved":
        assert outcome.laid and outcome.laid.path and outcome.check
        assert_one_simple_pipe(outcome.case, outcome.laid.path)
        assert outcome.check.measures.length == pytest.approx(outcome.laid.path.length, rel=1e-12)


def assert_one_simple_pipe(case: RoomCase, path: PipePath) -> None:
    """By general predicates and plain sums: simple, its length its pieces', bent no tighter than allowed, on the
    floor to the 1.2 mm by which walls are settled on lines, and clear of voids."""
    x, y = case.room.origin
    near = path.moved((-x, -y))
    line = LineString(near.polyline(1e-6))
    assert line.is_simple
    assert path.length == pytest.approx(sum(piece.length for piece in path.pieces), rel=1e-12)
    assert line.length == pytest.approx(path.length, rel=1e-4)
    floor = case.room.polygon
    assert floor.buffer(1.21e-3).covers(line)
    for void in floor.interiors:
        assert line.distance(Polygon(void)) >= case.wall_clearance - 0.00201
    assert all(joint.gap < 1e-6 and joint.kink < 1e-4 for joint in path.joints())


@settings(deadline=None, max_examples=12)
@given(st.integers(2, 8), st.sampled_from((0.1, 0.15, 0.2)), st.floats(0.5, 4.0), st.booleans())
def test_a_width_that_fits_exactly(rings: int, spacing: float, longer: float, quick: bool) -> None:
    """A rectangle of 2N - 1 spacings and the clearances has N rings, every gap a spacing to a millimetre."""
    clearance = 0.075
    width = (2 * rings - 1) * spacing + 2.0 * clearance
    depth = round(width + 1.0 + longer, 3)
    case = RoomCase(
        "exact",
        "rectangle",
        rectangle(width, depth),
        (width / 2.0, 0.0),
        spacing,
        0.012,
        0.4 * spacing,
        clearance,
    )
    answer = laid(case, quick=quick)
    assert answer.path is not None
    # Through the innermost ring, in its half away from the entry: no strip from ring to ring comes there.
    across = depth / 2.0 + (depth - width + spacing) / 4.0
    line = LineString(answer.path.polyline(1e-5))
    met = shapely.intersection(line, LineString([(-1.0, across), (width + 1.0, across)]))
    places = np.sort(shapely.get_coordinates(met)[:, 0])
    assert len(places) == 2 * rings
    assert np.diff(places) == pytest.approx(spacing, abs=1e-3)
    assert places[0] == pytest.approx(clearance, abs=1e-3)


boxes = st.builds(box, st.floats(0.8, 2.6), st.floats(0.8, 1.9), st.floats(0.3, 1.4), st.floats(0.3, 1.1))


@settings(deadline=None, max_examples=16)
@given(boxes, st.sampled_from((0.1, 0.15, 0.2)), patterns)
def test_a_void_is_kept_free(void: Ring, spacing: float, pattern: Pattern) -> None:
    """Wherever it stands; without it the room is laid as if it had never been there."""
    plain = RoomCase("plain", "void", rectangle(5.0, 4.0), (0.8, 0.0), spacing, 0.014, 0.05)
    before = laid(plain, pattern)
    answer = laid(replace(plain, voids=(void,)), pattern)
    assert answer.path is not None
    line = LineString(answer.path.polyline(1e-6))
    assert line.distance(Polygon(void)) >= plain.wall_clearance - 0.00201
    assert repr(laid(plain, pattern)) == repr(before)


SWEPT = (
    room_case("swept L", "L", walls(4.6, 2.2, -2.3, 2.0, -2.3), (0.0, 0.0), (150, 14)),
    room_case("swept island", "void", rectangle(4.4, 3.7), (0.0, 0.0), (150, 14), box(1.5, 1.4, 1.2, 0.7)),
)


@pytest.mark.parametrize("case", SWEPT, ids=lambda case: case.name)
@pytest.mark.parametrize("pattern", PATTERNS)
def test_entry_anywhere(case: RoomCase, pattern: Pattern) -> None:
    """Twenty places all round, corners too; quick mode."""
    outline = Polygon(case.outline).exterior
    for step in range(20):
        place = outline.interpolate(step / 20.0, normalized=True)
        outcome = laid_and_judged(replace(case, entry=(place.x, place.y)), pattern, quick=True)
        assert outcome.status == "solved", (step, place, outcome.detail)
        assert outcome.laid is not None
        assert math.dist(outcome.laid.entry.place, (place.x, place.y)) <= case.pipe_spacing


# --- Faults planted into real routes


def faults(case: RoomCase, path: PipePath, entry: Point) -> set[str]:
    return {fault.code for fault in judged(path, entry, case).faults}


@pytest.mark.parametrize("case", TRIED, ids=lambda case: case.name)
@pytest.mark.parametrize("pattern", PATTERNS)
def test_planted_faults(case: RoomCase, pattern: Pattern) -> None:
    answer = laid(case, pattern)
    path, entry = answer.path, answer.entry.place
    assert path is not None
    assert faults(case, path, entry) == set()
    stiffer = replace(case, bend_radius=case.bend_radius / 0.9)
    assert "bend_radius" in faults(stiffer, path, entry)
    further = replace(case, wall_clearance=case.wall_clearance + 0.005)
    assert "wall_clearance" in faults(further, path, entry)
    sparser = replace(case, pipe_spacing=2.0 * case.pipe_spacing)
    assert "pipe_distance" in faults(sparser, path, entry)
    count = len(path.pieces)
    assert "end_off_entry" in faults(case, PipePath(path.pieces[: count // 2]), entry)
    missing = PipePath(path.pieces[: count // 3] + path.pieces[count // 2 :])
    assert "gap" in faults(case, missing, entry)
