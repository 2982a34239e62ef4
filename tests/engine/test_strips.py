"""Strips between loops, judged by shapely's own predicates on closed forms: no published source."""

from __future__ import annotations

import math
from collections.abc import Sequence

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LinearRing, LineString, Polygon, box
from tepidarium_engine.plan.joining import strips as strips_module
from tepidarium_engine.plan.joining.strips import FACTORS, free_strip, long_sides, spanning_strips
from tepidarium_engine.plan.joining.surgery import Opening, Strip, spliced
from tepidarium_engine.plan.outlines.loops import Loop, loop_of
from tepidarium_engine.plan.outlines.regions import Region, joined, minus

SPACING = 0.15


def between(areas: Sequence[Polygon], outer: Polygon) -> Region:
    return minus(outer, joined(areas))


def row_of_boxes(count: int, gap: float = SPACING) -> list[Polygon]:
    return [box(i * (0.6 + gap), 0.0, i * (0.6 + gap) + 0.6, 1.2) for i in range(count)]


def is_one_simple_curve(loops: Sequence[Loop], strips: Sequence[Strip], entry: Opening) -> bool:
    corners = spliced(loops, strips, entry)
    return bool(LineString(corners).is_simple)


def nested_boxes(count: int) -> list[Polygon]:
    return [box(i * SPACING, i * SPACING, 4.0 - i * SPACING, 3.0 - i * SPACING) for i in range(count)]


def test_boxes_side_by_side_are_joined_square_across_the_gap() -> None:
    areas = row_of_boxes(2)
    loops = [loop_of(area) for area in areas]
    zone = between(areas, box(-0.5, -0.5, 2.0, 1.7))
    strip = free_strip(loops, 0, 1, zone, SPACING, nested=False, taken=(), strips=())
    assert strip is not None
    sides = long_sides(loops, [strip])
    for side in sides:
        assert side.length == pytest.approx(SPACING)
        (x0, y0), (x1, y1) = side.coords
        assert y0 == pytest.approx(y1)
        assert {round(x0, 9), round(x1, 9)} == {0.6, 0.75}
    assert shapely.distance(*sides) == pytest.approx(SPACING)


def test_bends_have_a_spacing_of_straight_loop_on_both_sides_where_there_is_room() -> None:
    areas = row_of_boxes(2)
    loops = [loop_of(area) for area in areas]
    zone = between(areas, box(-0.5, -0.5, 2.0, 1.7))
    strip = free_strip(loops, 0, 1, zone, SPACING, nested=False, taken=(), strips=(), near=(0.7, -5.0))
    assert strip is not None
    heights = [y for side in long_sides(loops, [strip]) for _, y in side.coords]
    assert min(heights) >= SPACING - 1e-9
    assert max(heights) <= 1.2 - SPACING + 1e-9


def test_of_equal_strips_the_one_near_the_place_is_taken() -> None:
    areas = row_of_boxes(2)
    loops = [loop_of(area) for area in areas]
    zone = between(areas, box(-0.5, -0.5, 2.0, 1.7))
    found = []
    for near in ((0.7, 0.0), (0.7, 1.2)):
        strip = free_strip(loops, 0, 1, zone, SPACING, nested=False, taken=(), strips=(), near=near)
        assert strip is not None
        found.append(shapely.distance(long_sides(loops, [strip])[0], shapely.Point(near)))
    assert max(found) < 0.45


def test_strips_keep_clear_of_a_void_and_of_openings_there_are() -> None:
    areas = row_of_boxes(2)
    loops = [loop_of(area) for area in areas]
    void = box(0.55, 0.3, 0.8, 1.3)
    zone = minus(between(areas, box(-0.5, -0.5, 2.0, 1.7)), void)
    strip = free_strip(loops, 0, 1, zone, SPACING, nested=False, taken=(), strips=(), factor=0.85)
    assert strip is not None
    assert not any(shapely.intersects(side, void) for side in long_sides(loops, [strip]))
    low = loops[0].project((0.6, 0.0))
    whole = (Opening(0, low - 0.3, low + 0.6),)
    assert free_strip(loops, 0, 1, zone, SPACING, nested=False, taken=whole, strips=(), factor=0.85) is None


def test_no_strip_where_a_wall_stands_between() -> None:
    areas = row_of_boxes(2)
    loops = [loop_of(area) for area in areas]
    zone = minus(between(areas, box(-0.5, -0.5, 2.0, 1.7)), box(0.66, -1.0, 0.69, 2.0))
    made, unreached = spanning_strips(loops, (0, 1), None, zone, SPACING, joined=(0,))
    assert made == []
    assert unreached == [1]


def test_no_strip_in_no_zone() -> None:
    loops = [loop_of(area) for area in row_of_boxes(2)]
    assert free_strip(loops, 0, 1, None, SPACING, nested=False, taken=(), strips=()) is None


def test_a_tighter_place_is_taken_only_with_a_lower_factor() -> None:
    """The gap is open over 0.11 m only: 0.73 of a spacing."""
    areas = row_of_boxes(2)
    loops = [loop_of(area) for area in areas]
    zone = minus(
        between(areas, box(-0.5, -0.5, 2.0, 1.7)),
        shapely.union_all([box(0.55, -1.0, 0.8, 0.5), box(0.55, 0.61, 0.8, 2.0)]),
    )
    found = [
        free_strip(loops, 0, 1, zone, SPACING, nested=False, taken=(), strips=(), factor=factor)
        for factor in FACTORS
    ]
    assert found[0] is None
    assert found[-1] is not None
    made, unreached = spanning_strips(loops, (0, 1), None, zone, SPACING, joined=(0,))
    assert len(made) == 1
    assert unreached == []


@pytest.mark.parametrize("count", [2, 5, 9])
def test_rings_inside_each_other_become_one_curve(count: int) -> None:
    areas = nested_boxes(count)
    loops = [loop_of(area) for area in areas]
    entry = Opening(0, 1.0, 1.0 + SPACING)
    strips: list[Strip] = []
    for ring in range(count - 1):
        zone = minus(areas[ring], areas[ring + 1])
        made, unreached = spanning_strips(
            loops, (ring, ring + 1), ring, zone, SPACING, joined=(ring,), taken=(entry,), strips=strips
        )
        assert unreached == []
        strips += made
    assert len(strips) == count - 1
    assert is_one_simple_curve(loops, strips, entry)


@settings(max_examples=12, deadline=None)
@given(
    places=st.lists(st.tuples(st.integers(0, 4), st.integers(0, 3)), min_size=2, max_size=7, unique=True),
    shift=st.floats(0.0, 0.1),
)
def test_scattered_boxes_become_one_curve_without_a_crossing(
    places: list[tuple[int, int]], shift: float
) -> None:
    areas = [box(0.8 * x, 0.8 * y + shift * x, 0.8 * x + 0.62, 0.8 * y + shift * x + 0.6) for x, y in places]
    loops = [loop_of(area) for area in areas]
    outer = box(-1.0, -1.0, 6.0, 6.0)
    entry = Opening(0, 0.1, 0.1 + SPACING)
    zone = between(areas, outer)
    strips, unreached = spanning_strips(
        loops, range(len(loops)), None, zone, SPACING, joined=(0,), taken=(entry,), near=(0.0, 0.0)
    )
    assert unreached == []
    assert len(strips) == len(loops) - 1
    assert is_one_simple_curve(loops, strips, entry)
    sides = long_sides(loops, strips)
    rings = shapely.union_all([LinearRing(loop.points) for loop in loops])
    for at, side in enumerate(sides):
        assert shapely.intersection(rings, side).length < 1e-9
        assert shapely.covers(shapely.buffer(zone, 1e-9), side)
        others = sides[: at - at % 2] + sides[at - at % 2 + 2 :]
        least = min((shapely.distance(side, other) for other in others), default=math.inf)
        assert least > 0.6 * FACTORS[-1] * SPACING


def test_loops_that_nothing_reaches_are_not_tried_with_every_other_one(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Each is looked at from those near to it and from a few more, however many there are."""
    tries: list[tuple[int, int]] = []
    best = strips_module._Site.best

    def counted(site: strips_module._Site, one: int, other: int, nested: bool) -> tuple[float, Strip] | None:
        tries.append((one, other))
        return best(site, one, other, nested)

    monkeypatch.setattr(strips_module._Site, "best", counted)
    row, far = row_of_boxes(20), [box(20.0 + i, 0.0, 20.6 + i, 1.2) for i in range(4)]
    loops = [loop_of(area) for area in (*row, *far)]
    zone = between(row, box(-0.5, -0.5, 16.0, 1.7))
    members = range(len(loops))
    strips, unreached = spanning_strips(loops, members, None, zone, SPACING, joined=(0,))
    assert len(strips) == len(row) - 1
    assert unreached == [20, 21, 22, 23]
    assert len(tries) <= len(strips) + len(FACTORS) * 3 * len(far)
