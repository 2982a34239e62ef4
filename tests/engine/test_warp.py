"""Strips of closer pipe along outside walls, against closed forms and shapely's predicates."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Polygon
from tepidarium_engine.plan.counterflow.rings import level_sets
from tepidarium_engine.plan.counterflow.spacing_fit import fitted_zone_scales
from tepidarium_engine.plan.joining.entry import entry_at
from tepidarium_engine.plan.mapping.warp import AxisWarp, Warp
from tepidarium_engine.plan.outlines.pipe_zone import pipe_zone

CLEARANCE = 0.075
L_ROOM = Polygon([(0, 0), (6, 0), (6, 2.6), (3.2, 2.6), (3.2, 5), (0, 5)])
OBLIQUE = Polygon([(0, 0), (5.2, 0), (4.6, 3.9), (0.7, 3.3)])


def side(room: Polygon, number: int) -> LineString:
    """The edge of the outline from its corner of that number to the next."""
    return LineString(shapely.get_coordinates(room.exterior)[number : number + 2])


def warp(room: Polygon, *sides: int, width: float = 0.675, spacing: float = 0.1, plain: float = 0.2) -> Warp:
    walls = [side(room, number) for number in sides]
    return Warp.beside_walls(room, walls, width=width, spacing=spacing, plain_spacing=plain)


def ring_corners(
    room: Polygon, strip: Warp, spacing: float, scales: tuple[float, float] | None = None
) -> np.ndarray:
    zone = pipe_zone(room, spacing, CLEARANCE)
    whole = strip.shrunk(scales or (1.0, 1.0))
    sets = level_sets(whole.forward_zone(zone), spacing)
    points = [shapely.get_coordinates(part) for level in sets.levels for part in level.parts]
    return whole.back(np.concatenate(points))


def levels_of(values: np.ndarray) -> np.ndarray:
    return np.unique(np.round(values, 6))


def counter_clockwise_box(width: float, depth: float) -> Polygon:
    return Polygon([(0, 0), (width, 0), (width, depth), (0, depth)])


def test_one_outside_wall_gets_its_spacing_and_the_rest_keeps_its_own() -> None:
    """Six gaps of 100 mm from the outermost pipe to the edge of the strip, 13 of 200 mm beyond: an even number
    of pipes, as rings need."""
    depth = 2 * CLEARANCE + 6 * 0.1 + 13 * 0.2
    room = counter_clockwise_box(6.0, depth)
    corners = ring_corners(room, warp(room, 0), 0.2)
    assert np.diff(levels_of(corners[:, 1])) == pytest.approx([0.1] * 6 + [0.2] * 13, abs=1e-6)
    assert levels_of(corners[:, 1])[0] == pytest.approx(CLEARANCE, abs=1e-6)
    across = levels_of(corners[:, 0])
    assert np.diff(across)[:9] == pytest.approx([0.2] * 9, abs=1e-6)
    assert np.diff(across)[-9:] == pytest.approx([0.2] * 9, abs=1e-6)


def test_outside_walls_round_a_corner_and_opposite_to_each_other() -> None:
    """Strips at the low and the high end along y and at the high end along x."""
    depth = 2 * CLEARANCE + 2 * 6 * 0.1 + 7 * 0.2
    room = counter_clockwise_box(6.0, depth)
    strip = warp(room, 0, 1, 2)
    corners = ring_corners(room, strip, 0.2)
    gaps = np.diff(levels_of(corners[:, 1]))
    assert gaps == pytest.approx([0.1] * 6 + [0.2] * 7 + [0.1] * 6, abs=1e-6)
    across = np.diff(levels_of(corners[:, 0]))
    assert across[-6:] == pytest.approx([0.1] * 6, abs=1e-6)
    assert across[-9:-6] == pytest.approx([0.2] * 3, abs=1e-6)
    assert across[:9] == pytest.approx([0.2] * 9, abs=1e-6)
    assert strip.unserved == ()
    assert strip.excess == pytest.approx(0.0, abs=1e-12)


def test_a_room_of_strips_alone_has_the_strips_spacing() -> None:
    depth = 2 * CLEARANCE + 9 * 0.1
    room = counter_clockwise_box(4.0, depth)
    corners = ring_corners(room, warp(room, 0, 2), 0.2)
    assert np.diff(levels_of(corners[:, 1])) == pytest.approx([0.1] * 9, abs=1e-6)


def test_fit_and_strip_work_together() -> None:
    """0.93 of both spacings fills the depth: 6 gaps of 93 mm and 13 of 186 mm; the edge of the strip lies where
    the sixth gap ends."""
    depth = 2 * CLEARANCE + 0.93 * (6 * 0.1 + 13 * 0.2)
    room = counter_clockwise_box(8.0, depth)
    strip = warp(room, 0, width=CLEARANCE + 0.93 * 0.6)
    scales = fitted_zone_scales(strip.forward_zone(pipe_zone(room, 0.2, CLEARANCE)), 0.2)
    assert scales == pytest.approx((1.0, 0.93), abs=1e-5)
    corners = ring_corners(room, strip, 0.2, scales)
    assert np.diff(levels_of(corners[:, 1])) == pytest.approx([0.093] * 6 + [0.186] * 13, abs=2e-6)


def test_walls_that_cannot_be_served_are_named() -> None:
    inner = warp(L_ROOM, 2, 3, 0)
    assert inner.unserved == (0, 1)
    assert inner.y.slope_at(0.1) == 2.0
    assert warp(OBLIQUE, 1, 3).unserved == (0, 1)
    assert warp(OBLIQUE, 1, 3).x == AxisWarp()


def test_floor_made_denser_without_a_wall_that_asks_for_it_is_counted() -> None:
    """Along the outer walls of an L there is no other floor. In a U the second leg ends on the same line as the
    first one: 2.2 m of it."""
    assert warp(L_ROOM, 1, 4).excess == pytest.approx(0.0, abs=1e-12)
    u_room = Polygon([(0, 0), (6.5, 0), (6.5, 5), (4.3, 5), (4.3, 2.2), (2.2, 2.2), (2.2, 5), (0, 5)])
    assert warp(u_room, 2, width=0.5).excess == pytest.approx(2.2 * 0.5, rel=1e-9)
    assert warp(u_room, 2, 6, width=0.5).excess == pytest.approx(0.0, abs=1e-12)


PLACES = st.lists(st.tuples(st.floats(-1.0, 8.0), st.floats(-1.0, 8.0)), min_size=2, max_size=30)


@given(PLACES, st.floats(0.2, 1.0), st.floats(0.05, 0.2), st.floats(0.86, 1.12), st.floats(0.86, 1.12))
def test_there_and_back_is_where_one_was(
    places: list[tuple[float, float]], width: float, spacing: float, x: float, y: float
) -> None:
    points = np.array(places)
    strip = warp(L_ROOM, 0, 1, 5, width=width, spacing=spacing).shrunk((x, y))
    image = strip.forward_points(points)
    assert strip.back(image) == pytest.approx(points, abs=1e-9)
    assert strip.back_line(image)[[0, -1]] == pytest.approx(points[[0, -1]], abs=1e-9)
    for axis in (0, 1):
        order = np.argsort(points[:, axis], kind="stable")
        rises = np.diff(image[order, axis])
        assert (rises >= np.diff(points[order, axis]) / 1.12 - 1e-9).all()
        assert (rises <= np.diff(points[order, axis]) * 0.2 / spacing / 0.86 + 1e-9).all()


@pytest.mark.parametrize("room", [L_ROOM, OBLIQUE])
def test_image_of_a_room_is_the_image_of_all_its_points(room: Polygon) -> None:
    strip = warp(room, 0, width=0.7)
    stretched = strip.forward(room)
    outline = shapely.line_interpolate_point(room.exterior, np.linspace(0.0, room.exterior.length, 400))
    image = shapely.points(strip.forward_points(shapely.get_coordinates(outline)))
    assert shapely.distance(stretched.exterior, image).max() < 1e-9
    below = shapely.intersection(room, shapely.box(-1, -1, 9, 0.7))
    assert stretched.area == pytest.approx(room.area + below.area, rel=1e-9)  # twice as deep there
    back = Polygon(strip.back_line(shapely.get_coordinates(stretched)))
    assert shapely.symmetric_difference(back, room).area < 1e-9


def test_lines_and_points_are_carried_like_areas() -> None:
    strip = warp(L_ROOM, 0, width=0.7)
    slanted = strip.forward(LineString([(1.0, 0.2), (2.0, 1.2)]))
    assert shapely.get_coordinates(slanted) == pytest.approx(np.array([[1, 0.4], [1.5, 1.4], [2, 1.9]]))
    at = strip.forward(shapely.Point(1.0, 0.7))
    assert (at.x, at.y) == pytest.approx((1.0, 1.4))


def test_entry_stays_on_its_wall_and_square_to_it() -> None:
    strip = warp(OBLIQUE, 0, width=0.9)
    for place in ((2.0, 0.0), (5.1, 0.5), (3.0, 3.7)):
        entry = entry_at(OBLIQUE, place, 0.1)
        moved = strip.forward_entry(entry)
        outline = strip.forward(OBLIQUE).exterior
        assert all(outline.distance(shapely.Point(at)) < 1e-9 for at in (moved.place, *moved.ends))
        along = np.subtract(*moved.ends)
        assert float(along @ moved.inward) == pytest.approx(0.0, abs=1e-9)
        assert math.hypot(*moved.inward) == pytest.approx(1.0, rel=1e-12)


def test_no_wall_no_change() -> None:
    zone = pipe_zone(L_ROOM, 0.15, CLEARANCE)
    plain = warp(L_ROOM).forward_zone(zone)
    assert plain.shell is not None and zone.shell is not None
    assert shapely.equals_exact(plain.shell, zone.shell, tolerance=0.0)
    assert warp(L_ROOM) == Warp()
