"""Spacing fit against the parity rule of loops in closed form, and against shapely's areas."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, affinity
from tepidarium_engine.plan.counterflow.leg_widths import legs_along
from tepidarium_engine.plan.counterflow.rings import level_sets
from tepidarium_engine.plan.counterflow.spacing_fit import fitted_zone_scales
from tepidarium_engine.plan.outlines.pipe_zone import pipe_zone

CLEARANCE = 0.075
Scales = tuple[float, float]


def fitted(room: Polygon, spacing: float, clearance: float = CLEARANCE) -> Scales:
    return fitted_zone_scales(pipe_zone(room, spacing, clearance), spacing)


def rings(room: Polygon, spacing: float, scales: Scales = (1.0, 1.0)) -> list[Polygon]:
    x, y = scales
    sets = level_sets(pipe_zone(room, spacing, CLEARANCE).scaled(1.0 / x, 1.0 / y), spacing)
    parts = [part for level in sets.levels for part in level.parts]
    return [affinity.scale(part, x, y, origin=(0.0, 0.0)) for part in parts]


def covered(room: Polygon, spacing: float, scales: Scales, reach: float) -> float:
    """Share of the floor within ``reach`` spacings of the rings."""
    lines = shapely.union_all([ring.exterior for ring in rings(room, spacing, scales)])
    floor = room.buffer(-max(0.0, CLEARANCE - spacing / 2.0))
    return float(floor.intersection(lines.buffer(reach * spacing)).area / floor.area)


def l_room(lower: float, left: float) -> Polygon:
    return Polygon([(0, 0), (6, 0), (6, lower), (left, lower), (left, 5), (0, 5)])


ROOMS: dict[str, Polygon] = {
    "small": shapely.box(0, 0, 3.3, 2.9),
    "hall": shapely.box(0, 0, 10, 8),
    "L": l_room(2.6, 3.2),
    "T": Polygon([(0, 0), (6.2, 0), (6.2, 2.5), (4.3, 2.5), (4.3, 5.5), (1.9, 5.5), (1.9, 2.5), (0, 2.5)]),
    "U": Polygon([(0, 0), (6.5, 0), (6.5, 5), (4.3, 5), (4.3, 2.2), (2.2, 2.2), (2.2, 5), (0, 5)]),
    "Z": Polygon([(0, 0), (4, 0), (4, 2), (7, 2), (7, 5), (2.6, 5), (2.6, 2.9), (0, 2.9)]),
    "oblique": Polygon([(0, 0), (5.2, 0.4), (4.6, 3.9), (0.7, 3.3)]),
    "triangle": Polygon([(0, 0), (6, 0), (1.5, 4.5)]),
    "island": Polygon(shapely.box(0, 0, 6, 5).exterior, [shapely.box(2.4, 2.0, 3.9, 2.9).exterior]),
    "round": shapely.Point(2.3, 2.3).buffer(2.3, quad_segs=16),
}


def inner_gap(parts: Sequence[Polygon]) -> float:
    """Width of the innermost ring [m]."""
    low_x, low_y, high_x, high_y = min(parts, key=lambda part: part.area).bounds
    return float(min(high_x - low_x, high_y - low_y))


@pytest.mark.parametrize(("scale", "count"), [(0.9, 4), (0.92, 5), (0.93, 6), (0.94, 7)])
def test_a_rectangle_gets_the_spacing_that_fits_its_width(scale: float, count: int) -> None:
    """2N pipes across a clear width W stand W / (2N - 1) apart."""
    spacing = 0.2
    depth = (2 * count - 1) * spacing * scale + 2 * CLEARANCE
    room = shapely.box(0, 0, 2.5 * depth, depth)
    x, y = fitted(room, spacing)
    assert x == 1.0
    assert y == pytest.approx(scale, abs=2e-6)
    ys = np.unique(np.round([ring.bounds[i] for ring in rings(room, spacing, (x, y)) for i in (1, 3)], 5))
    assert len(ys) == 2 * count
    assert np.diff(ys) == pytest.approx(scale * spacing, abs=2e-5)


def test_both_legs_of_a_room_round_a_corner_get_the_spacing_that_fits() -> None:
    spacing = 0.2
    lower, left = (9 * spacing * scale + 2 * CLEARANCE for scale in (0.92, 0.95))
    x, y = fitted(l_room(lower, left), spacing)
    assert y == pytest.approx(0.92, abs=2e-6)
    assert x == pytest.approx(0.95, abs=2e-6)


@pytest.mark.parametrize("count", [3, 8])
def test_what_fits_is_left_alone(count: int) -> None:
    depth = (2 * count - 1) * 0.15 + 2 * CLEARANCE
    assert fitted(shapely.box(0, 0, depth + 2.0, depth), 0.15) == (1.0, 1.0)
    assert fitted(shapely.box(0, 0, depth, depth + 2.0), 0.15) == (1.0, 1.0)


def test_where_no_pipe_may_lie_nothing_is_fitted() -> None:
    assert fitted(shapely.box(0, 0, 3, 0.1), 0.15) == (1.0, 1.0)
    assert fitted(shapely.box(0, 0, 3, 0.2), 0.15) == (1.0, 1.0)


@pytest.mark.parametrize("name", ["L", "Z", "oblique", "island"])
def test_turning_the_room_turns_the_scales(name: str) -> None:
    """Over the diagonal x becomes y; a room twice as large at twice the spacing is the same room."""
    room = ROOMS[name]
    x, y = fitted(room, 0.2)
    turned = affinity.affine_transform(room, [0, 1, 1, 0, 0, 0])
    lines = [covered(room, 0.2, (x, y), 0.75), covered(turned, 0.2, fitted(turned, 0.2), 0.75)]
    assert lines[0] == pytest.approx(lines[1], abs=0.003)
    large = affinity.scale(room, 2, 2, origin=(0, 0))
    assert fitted(large, 0.4, 2 * CLEARANCE) == pytest.approx((x, y), abs=1e-5)


@pytest.mark.parametrize("spacing", [0.15, 0.2])
@pytest.mark.parametrize("name", ROOMS)
def test_fitted_rings_cover_better_and_stay_apart(name: str, spacing: float) -> None:
    room = ROOMS[name]
    scales = fitted(room, spacing)
    assert all(0.86 <= scale <= 1.12 for scale in scales)
    assert fitted(room, spacing) == scales
    bare = [1.0 - covered(room, spacing, pair, 0.75) for pair in ((1.0, 1.0), scales)]
    assert bare[1] <= bare[0] + 0.002
    assert bare[1] <= 0.01
    assert covered(room, spacing, scales, 0.5) >= 0.95
    parts = rings(room, spacing, scales)
    apart = [shapely.distance(a.exterior, b.exterior) for i, a in enumerate(parts) for b in parts[:i]]
    assert min(apart, default=1.0) >= 0.66 * spacing
    assert inner_gap(parts) >= 0.66 * spacing


@settings(max_examples=12, deadline=None)
@given(st.floats(1.5, 5.0), st.floats(1.0, 4.0), st.sampled_from([0.1, 0.15, 0.2]))
def test_no_rectangle_keeps_a_bare_strip(width: float, depth: float, spacing: float) -> None:
    """From seven spacings of clear width the parity rule asks for at most 14 % more or less."""
    room = shapely.box(0, 0, width, max(depth, 7 * spacing + 2 * CLEARANCE))
    assert covered(room, spacing, fitted(room, spacing), 0.75) >= 0.985


def test_legs_of_a_room_round_a_corner() -> None:
    """By hand: the lower leg runs 2.8 m on from the corner, of which the last half of its width is its end."""
    by_y = legs_along(l_room(2.6, 3.2), 1)
    assert [leg.width for leg in by_y] == pytest.approx([5.0, 2.6])
    assert [leg.run for leg in by_y] == pytest.approx([3.2, 2.8])
    assert [leg.ridge for leg in by_y] == pytest.approx([0.0, 2.8 - 1.3])
    by_x = legs_along(l_room(2.6, 3.2), 0)
    assert [leg.width for leg in by_x] == pytest.approx([6.0, 3.2])
    assert [leg.ridge for leg in by_x] == pytest.approx([0.0, 2.4 - 1.6])
    assert legs_along(ROOMS["triangle"], 1) == []
    assert legs_along(None, 0) == []


@settings(max_examples=10, deadline=None)
@given(st.floats(1.4, 3.6), st.floats(1.4, 4.4), st.sampled_from([0.15, 0.2]))
def test_fitted_pipe_never_comes_nearer_than_its_limit(lower: float, left: float, spacing: float) -> None:
    """0.86 of the 0.77 spacings that parts of one level keep, 0.688 of what levels keep."""
    room = l_room(lower, left)
    scales = fitted(room, spacing)
    parts = rings(room, spacing, scales)
    apart = [shapely.distance(a.exterior, b.exterior) for i, a in enumerate(parts) for b in parts[:i]]
    assert min(apart) >= 0.66 * spacing
    assert covered(room, spacing, scales, 0.75) >= 0.985
