"""What becomes a polygon, checked against exact integer geometry and shapely's own predicates."""

from __future__ import annotations

import math
from collections.abc import Sequence

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from tepidarium_engine.errors import InputError
from tepidarium_engine.plan.outlines.polygons import interior_width, room_outline, room_polygon, served_area
from tepidarium_engine.plan.outlines.sound_outlines import sound_areas

Ring = Sequence[tuple[float, float]]

ROOM: Ring = ((0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0))
VOID: Ring = ((1.0, 1.0), (2.0, 1.0), (2.0, 2.0), (1.0, 2.0))


def regular(corners: int, radius: float, x: float = 0.0, y: float = 0.0) -> Ring:
    turn = 2.0 * math.pi / corners
    return [(x + radius * math.cos(turn * i), y + radius * math.sin(turn * i)) for i in range(corners)]


REFUSED: dict[str, tuple[Ring, Sequence[Ring], str, str]] = {
    "bow-tie": ([(0, 0), (4, 3), (4, 0), (0, 3)], (), "/outline", "self_crossing"),
    "spike outwards": ([(0, 0), (4, 0), (6, 0), (4, 0), (4, 3), (0, 3)], (), "/outline", "self_crossing"),
    "spike from an edge": (
        [(0, 0), (4, 0), (4, 3), (2, 3), (2, 5), (2, 3), (0, 3)],
        (),
        "/outline",
        "self_crossing",
    ),
    "figure of eight": ([(0, 0), (2, 2), (4, 0), (4, 4), (2, 2), (0, 4)], (), "/outline", "self_crossing"),
    "corner on an edge": ([(0, 0), (4, 0), (4, 4), (2, 0), (0, 4)], (), "/outline", "self_crossing"),
    "edge there and back": ([(0, 0), (4, 0), (2, 0), (4, 3)], (), "/outline", "self_crossing"),
    "all on a line": ([(0, 0), (1, 0), (2, 0)], (), "/outline", "self_crossing"),
    "scattered points": (
        [(5 * math.sin(i * i), 5 * math.cos(1.7 * i * i)) for i in range(256)],
        (),
        "/outline",
        "self_crossing",
    ),
    "point twice": ([(0, 0), (4, 0), (4, 0), (4, 3)], (), "/outline", "repeated_point"),
    "point nearly twice": ([(0, 0), (4, 0), (4, 0.0005), (4, 3)], (), "/outline", "repeated_point"),
    "slit": (
        [(0, 0), (4, 0), (4, 3), (2.0005, 3), (2.1, 1), (1.9, 1), (2, 3), (0, 3)],
        (),
        "/outline",
        "too_narrow",
    ),
    "nothing": ([], (), "/outline", "too_few"),
    "two points": ([(0, 0), (1, 0)], (), "/outline", "too_few"),
    "two points, closed": ([(0, 0), (1, 0), (0, 0)], (), "/outline", "too_few"),
    "not a number": ([(0, 0), (math.nan, 0), (1, 1)], (), "/outline", "coordinate"),
    "infinite": ([(0, 0), (math.inf, 0), (1, 1)], (), "/outline", "coordinate"),
    "1e308": ([(0, 0), (1e308, 0), (1, 1)], (), "/outline", "coordinate"),
    "millimetres": ([(0, 0), (4000, 0), (4000, 3000), (0, 3000)], (), "/outline", "too_large"),
    "10^5 points": (regular(100_000, 5.0), (), "/outline", "too_many"),
    "257 points": (regular(257, 5.0), (), "/outline", "too_many"),
    "tiny": (regular(4, 0.1), (), "/outline", "area_too_small"),
    "hall of halls": (regular(64, 99.0), (), "/outline", "area_too_large"),
    "void without points": (ROOM, [[]], "/voids/0", "too_few"),
    "void of two points": (ROOM, [VOID, [(0, 0), (1, 1)]], "/voids/1", "too_few"),
    "void crosses itself": (ROOM, [[(1, 1), (2, 2), (2, 1), (1, 2)]], "/voids/0", "self_crossing"),
    "void outside": (ROOM, [VOID, [(5, 1), (6, 1), (6, 2)]], "/voids/1", "void_outside"),
    "void across the wall": (ROOM, [[(3, 1), (5, 1), (5, 2)]], "/voids/0", "void_outside"),
    "void is the outline": (ROOM, [ROOM], "/voids/0", "void_is_outline"),
    "void is the outline reversed": (ROOM, [ROOM[::-1]], "/voids/0", "void_is_outline"),
    "void larger than the room": (ROOM, [[(-1, -1), (9, -1), (9, 9), (-1, 9)]], "/voids/0", "void_outside"),
    "void touches at a corner": (ROOM, [[(0, 1), (1, 1), (1, 2)]], "/voids/0", "void_touches_outline"),
    "void along the wall": (ROOM, [[(0, 1), (1, 1), (1, 2), (0, 2)]], "/voids/0", "void_touches_outline"),
    "void with a corner of the room in its edge but for rounding": (
        [(2.2, 0), (3.25, 0.3), (3.25, 1.7), (0, 1.7), (0, 0), (1.1, 0.3)],
        [[(0.6, 0.35), (1.6, 0.25), (1.6, 0.45), (0.6, 0.55)]],
        "/voids/0",
        "void_touches_outline",
    ),
    "void nearly at the wall": (ROOM, [[(0.0005, 1), (1, 1), (1, 2)]], "/voids/0", "too_narrow"),
    "void in a void": (ROOM, [VOID, regular(5, 0.2, 1.5, 1.5)], "/voids/1", "voids_meet"),
    "void round a void": (ROOM, [regular(5, 0.2, 1.5, 1.5), VOID], "/voids/1", "voids_meet"),
    "void twice": (ROOM, [VOID, VOID], "/voids/1", "voids_meet"),
    "voids overlap": (ROOM, [VOID, [(1.5, 1.5), (2.5, 1.5), (2.5, 2.5)]], "/voids/1", "voids_meet"),
    "voids share a corner": (ROOM, [VOID, [(2, 2), (2.5, 2), (2.5, 2.5)]], "/voids/1", "voids_meet"),
    "voids share a sliver": (
        ROOM,
        [VOID, [(2 - 1e-10, 1), (3, 1), (3, 2), (2 - 1e-10, 2)]],
        "/voids/1",
        "voids_meet",
    ),
    "voids nearly touch": (ROOM, [VOID, [(2.0004, 1), (3, 1), (3, 2)]], "/voids/1", "too_narrow"),
    "33 voids": (ROOM, [VOID] * 33, "/voids", "too_many"),
    "more than 512 points": (
        regular(256, 5.0),
        [regular(200, 0.5, -2.0), regular(200, 0.5, 2.0)],
        "/voids",
        "too_many",
    ),
}


@pytest.mark.parametrize("name", REFUSED)
def test_refuses_with_pointer_code_and_place(name: str) -> None:
    outline, voids, pointer, code = REFUSED[name]
    with pytest.raises(InputError) as caught:
        room_outline(outline, voids)
    assert [(fault.pointer, fault.code) for fault in caught.value.faults] == [(pointer, code)]
    if code in {"self_crossing", "repeated_point", "too_narrow", "voids_meet", "void_outside"}:
        assert "near [" in caught.value.faults[0].detail


def test_a_void_may_leave_no_more_than_a_frame() -> None:
    frame = room_polygon(ROOM, [[(0.02, 0.02), (3.98, 0.02), (3.98, 2.98), (0.02, 2.98)]])
    assert frame.area == pytest.approx(12.0 - 3.96 * 2.96, abs=1e-12)


@pytest.mark.parametrize(
    "name", ["bow-tie", "spike outwards", "void in a void", "voids nearly touch", "slit"]
)
def test_refuses_the_same_far_from_the_origin_and_names_the_place_there(name: str) -> None:
    outline, voids, pointer, code = REFUSED[name]
    shifted = [[(x + 1e6, y - 1e6) for x, y in ring] for ring in (outline, *voids)]
    with pytest.raises(InputError) as caught:
        room_outline(shifted[0], shifted[1:])
    fault = caught.value.faults[0]
    assert (fault.pointer, fault.code) == (pointer, code)
    x, y = map(float, fault.detail.split("[")[1].split("]")[0].split(", "))
    assert abs(x - 1e6) < 10
    assert abs(y + 1e6) < 10


def test_every_bad_ring_is_reported_and_the_pointer_can_be_prefixed() -> None:
    bow = REFUSED["bow-tie"][0]
    with pytest.raises(InputError) as caught:
        room_outline(bow, [VOID, bow], "/rooms/3")
    assert [fault.pointer for fault in caught.value.faults] == ["/rooms/3/outline", "/rooms/3/voids/1"]


def test_a_ring_closed_by_its_first_point_is_the_same_room() -> None:
    assert room_polygon([*ROOM, ROOM[0]]).equals(room_polygon(ROOM))


def test_frame_and_orientation() -> None:
    room = room_outline([(x + 7.0, y - 2.0) for x, y in ROOM[::-1]], [[(x + 7.0, y - 2.0) for x, y in VOID]])
    assert room.origin == (7.0, -2.0)
    assert room.polygon.bounds == (0.0, 0.0, 4.0, 3.0)
    assert room.polygon.exterior.is_ccw
    assert not room.polygon.interiors[0].is_ccw
    assert room.area == pytest.approx(11.0, abs=1e-12)
    assert room.perimeter == pytest.approx(14.0 + 4.0, abs=1e-12)


# An exact oracle on integer points, independent of GEOS.


def cross(o: tuple[int, int], a: tuple[int, int], b: tuple[int, int]) -> int:
    return (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0])


def on(p: tuple[int, int], a: tuple[int, int], b: tuple[int, int]) -> bool:
    return (
        cross(a, b, p) == 0
        and min(a[0], b[0]) <= p[0] <= max(a[0], b[0])
        and min(a[1], b[1]) <= p[1] <= max(a[1], b[1])
    )


def meet(a: tuple[int, int], b: tuple[int, int], c: tuple[int, int], d: tuple[int, int]) -> bool:
    if on(c, a, b) or on(d, a, b) or on(a, c, d) or on(b, c, d):
        return True
    return (cross(a, b, c) > 0) != (cross(a, b, d) > 0) and (cross(c, d, a) > 0) != (cross(c, d, b) > 0)


def simple(ring: list[tuple[int, int]]) -> bool:
    n = len(ring)
    for i in range(n):
        a, b, after = ring[i], ring[(i + 1) % n], ring[(i + 2) % n]
        if a == b or on(after, a, b) or on(a, b, after):
            return False
        for j in range(i + 2, n):
            if (j + 1) % n != i and meet(a, b, ring[j], ring[(j + 1) % n]):
                return False
    return True


def twice_area(ring: list[tuple[int, int]]) -> int:
    return abs(sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(ring, ring[1:] + ring[:1], strict=True)))


grid_point = st.tuples(st.integers(0, 12), st.integers(0, 12))


def test_areas_of_many_outlines_are_those_of_each() -> None:
    """What is refused, or closed or turned otherwise, among what is sound."""
    finite = [
        ring for ring, voids, *_ in REFUSED.values() if not voids and all(math.isfinite(x) for x, _ in ring)
    ]
    sound = [ROOM, [*ROOM, ROOM[0]], ROOM[::-1], [(x + 1e6, y - 1e6) for x, y in ROOM], regular(256, 3.0)]
    outlines = [ring for ring in (*finite, *sound) if all(abs(x) <= 2e6 and abs(y) <= 2e6 for x, y in ring)]
    assert len(outlines) > 20
    for ring, area in zip(outlines, sound_areas(outlines), strict=True):
        if area is None:
            with pytest.raises(InputError):
                room_outline(ring)
        else:
            assert area == pytest.approx(room_outline(ring).area, rel=1e-12)
    assert sound_areas([]) == [] and sound_areas([()]) == [None]


@settings(max_examples=300, deadline=None)
@given(st.lists(grid_point, min_size=3, max_size=6))
def test_an_area_is_that_of_a_simple_ring(ring: list[tuple[int, int]]) -> None:
    """Few corners are judged without the geometry library; on whole metres no neck is narrower than 50 mm."""
    (area,) = sound_areas([[(float(x), float(y)) for x, y in ring]])
    closed = len(ring) > 3 and ring[0] == ring[-1]
    assert area == (twice_area(ring) / 2.0 if simple(ring[:-1] if closed else ring) else None)


@settings(max_examples=300, deadline=None)
@given(st.lists(grid_point, min_size=3, max_size=7).filter(lambda ring: ring[0] != ring[-1]))
def test_random_rings_are_taken_exactly_when_they_are_simple(ring: list[tuple[int, int]]) -> None:
    metres = [(float(x), float(y)) for x, y in ring]
    if simple(ring):
        assert room_polygon(metres).area == pytest.approx(twice_area(ring) / 2.0, abs=1e-9)
        assert shapely.Polygon(metres).is_valid
    else:
        with pytest.raises(InputError):
            room_polygon(metres)


box = st.tuples(st.integers(-1, 12), st.integers(-1, 8), st.integers(1, 6), st.integers(1, 5))


@settings(max_examples=300, deadline=None)
@given(st.lists(box, min_size=1, max_size=4))
def test_random_voids_are_taken_exactly_when_inside_and_apart(boxes: list[tuple[int, int, int, int]]) -> None:
    spans = [(x, y, x + w, y + h) for x, y, w, h in boxes]
    inside = all(x > 0 and y > 0 and right < 16 and top < 12 for x, y, right, top in spans)
    apart = all(
        a[2] < b[0] or b[2] < a[0] or a[3] < b[1] or b[3] < a[1]
        for i, a in enumerate(spans)
        for b in spans[i + 1 :]
    )
    voids = [[(q * 0.25, s * 0.25) for q, s in ((x, y), (r, y), (r, t), (x, t))] for x, y, r, t in spans]
    if inside and apart:
        taken = sum((r - x) * (t - y) for x, y, r, t in spans) / 16.0
        assert room_polygon(ROOM, voids).area == pytest.approx(12.0 - taken, abs=1e-9)
    else:
        with pytest.raises(InputError):
            room_polygon(ROOM, voids)


@settings(max_examples=100, deadline=None)
@given(st.floats(0.6, 20.0), st.floats(0.6, 20.0))
def test_clear_width_of_a_rectangle_is_its_shorter_side(width: float, depth: float) -> None:
    room = room_polygon([(0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth)])
    assert interior_width(room) == pytest.approx(min(width, depth), abs=0.002)


@settings(max_examples=100, deadline=None)
@given(st.integers(3, 60), st.floats(1.0, 8.0), st.floats(0.05, 0.3), st.floats(0.05, 0.3))
def test_served_area_of_regular_polygons(
    corners: int, radius: float, spacing: float, clearance: float
) -> None:
    """Moving all sides of a regular polygon by d changes its inner radius by d: area n r^2 tan(pi / n)."""
    assume(corners >= 5 or spacing / 2 < clearance)  # sharper corners are cut back when moved outwards
    flat = math.tan(math.pi / corners)
    inner = radius * math.cos(math.pi / corners) + spacing / 2.0 - clearance
    expected = corners * inner**2 * flat
    found = served_area(room_polygon(regular(corners, radius)), spacing, clearance)
    assert found == pytest.approx(expected, rel=1e-9)


def comb(teeth: int) -> Ring:
    points: list[tuple[float, float]] = []
    for i in range(teeth):
        points += [(0.1 * i, 0.5), (0.1 * i + 0.05, 0.5), (0.1 * i + 0.05, 8.0), (0.1 * i + 0.1, 8.0)]
    return [(0.0, 0.0), *points[1:-1], (0.1 * teeth, 0.0)]


def star(corners: int) -> Ring:
    turn = 2.0 * math.pi / corners
    return [
        ((8 if i % 2 else 4) * math.cos(turn * i), (8 if i % 2 else 4) * math.sin(turn * i))
        for i in range(corners)
    ]


def spiral(turns: int) -> Ring:
    steps = turns * 16
    arm = [(0.3 + i * 0.02, i * math.pi / 8) for i in range(steps)]
    there = [(r * math.cos(a), r * math.sin(a)) for r, a in arm]
    back = [((r + 0.15) * math.cos(a), (r + 0.15) * math.sin(a)) for r, a in reversed(arm)]
    return there + back


COSTLY: dict[str, tuple[Ring, Sequence[Ring]]] = {
    "comb": (comb(63), ()),
    "star": (star(256), ()),
    "spiral": (spiral(8), ()),
    "staircase": (
        [
            (0.0, 0.0),
            *(p for i in range(127) for p in ((0.1 * i + 0.1, 0.1 * i), (0.1 * i + 0.1, 0.1 * i + 0.1))),
            (0.0, 12.7),
        ],
        (),
    ),
    "tiny voids": (
        regular(256, 5.0),
        [regular(8, 0.2, -2.8 + 0.8 * (i % 8), -1.2 + 0.8 * (i // 8)) for i in range(32)],
    ),
}


@pytest.mark.parametrize("name", COSTLY)
def test_costly_shapes_at_the_limit_are_computed(name: str) -> None:
    """Their cost is printed by the benchmark beside that of the bare geometry operation."""
    outline, voids = COSTLY[name]
    room = room_polygon(outline, voids)
    assert 0.0 < interior_width(room) < 200.0
    assert served_area(room, 0.05, 1.0) < room.area < served_area(room, 0.6, 0.02)
