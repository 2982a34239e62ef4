"""Level sets against closed forms for rectangles and circles, and against shapely's own predicates."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, note, settings
from hypothesis import strategies as st
from shapely import Polygon, affinity
from tepidarium_engine.plan.counterflow import rings as ring_levels
from tepidarium_engine.plan.counterflow.ring_tree import ring_tree
from tepidarium_engine.plan.counterflow.rings import Level, LevelSets
from tepidarium_engine.plan.outlines.pipe_zone import pipe_zone
from tepidarium_engine.plan.outlines.room_frame import room_frame
from tepidarium_engine.plan.tolerances import TURN

Ring = Sequence[tuple[float, float]]
CLEARANCE = 0.075


def level_sets(room: Polygon, spacing: float, clearance: float) -> LevelSets:
    return ring_levels.level_sets(pipe_zone(room, spacing, clearance), spacing)


def regular(corners: int, radius: float, x: float = 0.0, y: float = 0.0, start: float = 0.0) -> Ring:
    turn = 2.0 * math.pi / corners
    return [
        (x + radius * math.cos(start + turn * i), y + radius * math.sin(start + turn * i))
        for i in range(corners)
    ]


def rectangle(width: float, depth: float, x: float = 0.0, y: float = 0.0) -> Ring:
    return [(x, y), (x + width, y), (x + width, y + depth), (x, y + depth)]


BAY = [(0, 0), (5, 0), (5, 3.5), *regular(28, 1.4, 2.5, 3.5)[1:14], (0, 3.5)]
ROOMS: dict[str, tuple[Ring, Sequence[Ring]]] = {
    "living room": (rectangle(5, 4), ()),
    "small room": (rectangle(3.3, 2.9), ()),
    "hall": (rectangle(10, 8), ()),
    "L": ([(0, 0), (6, 0), (6, 2.6), (3.2, 2.6), (3.2, 5), (0, 5)], ()),
    "T": ([(0, 0), (6.2, 0), (6.2, 2.5), (4.3, 2.5), (4.3, 5.5), (1.9, 5.5), (1.9, 2.5), (0, 2.5)], ()),
    "U": ([(0, 0), (6.5, 0), (6.5, 5), (4.3, 5), (4.3, 2.2), (2.2, 2.2), (2.2, 5), (0, 5)], ()),
    "Z": ([(0, 0), (4, 0), (4, 2), (7, 2), (7, 5), (2.6, 5), (2.6, 2.9), (0, 2.9)], ()),
    "plus": (
        list(
            zip(
                (1.5, 3.9, 3.9, 5.6, 5.6, 3.9, 3.9, 1.5, 1.5, 0.0, 0.0, 1.5),
                (0.0, 0.0, 1.6, 1.6, 4.0, 4.0, 5.4, 5.4, 4.0, 4.0, 1.6, 1.6),
                strict=True,
            )
        ),
        (),
    ),
    "bay": (BAY, ()),
    "round": (regular(64, 2.3), ()),
    "oblique": ([(0, 0), (5.2, 0.4), (4.6, 3.9), (0.7, 3.3)], ()),
    "triangle": ([(0, 0), (6, 0), (1.5, 4.5)], ()),
    "corridor": (rectangle(6, 0.9), ()),
    "corridor round a corner": ([(0, 0), (5, 0), (5, 1.2), (1.2, 1.2), (1.2, 4), (0, 4)], ()),
    "lavatory": (rectangle(1.6, 0.95), ()),
    "island": (rectangle(6, 5), [rectangle(1.5, 0.9, 2.4, 2.0)]),
    "island near a corner": (rectangle(6, 5), [rectangle(1.2, 1.2, 3.9, 1.1)]),
    "column": (rectangle(5, 4), [regular(24, 0.2, 1.7, 1.4)]),
    "two islands": (rectangle(7, 5), [rectangle(1, 1.5, 1.4, 1.5), rectangle(1.2, 1, 4.4, 2.2)]),
    "round island": (rectangle(5.5, 5), [regular(40, 0.7, 2.7, 2.4)]),
    "set back in steps": (
        [
            (0, 0),
            (5, 0),
            (5, 1.2),
            (4.2, 1.2),
            (4.2, 2.1),
            (3.4, 2.1),
            (3.4, 3.1),
            (2.4, 3.1),
            (2.4, 4),
            (0, 4),
        ],
        (),
    ),
    "chimney breast": ([(0, 0), (5, 0), (5, 4), (3.1, 4), (3.1, 3.55), (1.9, 3.55), (1.9, 4), (0, 4)], ()),
    "uneven walls": ([(0, 0), (5, 0), (5, 2), (4.97, 2), (4.97, 4), (2.5, 4), (2.5, 3.96), (0, 3.96)], ()),
}


def room(name: str) -> Polygon:
    return Polygon(*ROOMS[name])


def least_distance_to_itself(part: Polygon, spacing: float) -> float:
    """Between points of the outline, a fifth of a spacing apart, that are 2.6 spacings away along it [m]."""
    length = part.exterior.length
    along = np.arange(0.0, length, spacing / 5.0)
    points = shapely.get_coordinates(shapely.line_interpolate_point(part.exterior, along))
    away = np.abs(along[:, None] - along)
    other = np.minimum(away, length - away) > 2.6 * spacing
    apart = np.hypot(points[:, None, 0] - points[:, 0], points[:, None, 1] - points[:, 1])
    return float(apart[other].min(initial=math.inf))


def holds(level: Level, void: Polygon) -> bool:
    """Whether the rings of a level pass over a void; they may touch it."""
    return bool(shapely.covers(shapely.union_all(level.parts), void.buffer(-6e-6, join_style="mitre")))


def check_laws(outline: Polygon, sets: LevelSets, spacing: float, clearance: float = CLEARANCE) -> None:
    """What holds for every room, by shapely's predicates alone."""
    before: shapely.Geometry | None = None
    for level in sets.levels:
        whole = shapely.union_all(level.parts)
        rings = shapely.union_all([part.exterior for part in level.parts])
        assert shapely.distance(rings, outline.boundary) > clearance - 2e-6
        for part in level.parts:
            assert part.is_valid
            assert not part.interiors
            assert not part.buffer(-0.39 * spacing).is_empty
            assert least_distance_to_itself(part, spacing) > 0.58 * spacing
        for void in outline.interiors:
            assert not shapely.intersects(rings, Polygon(void))
        for void in sets.voids:
            assert holds(level, void) or shapely.intersection(whole, void).area < 1e-7
        for at, part in enumerate(level.parts):
            assert all(shapely.distance(part, other) > 0.69 * spacing for other in level.parts[:at])
        if before is not None:
            assert shapely.contains(before, whole)
            assert shapely.distance(before.boundary, whole.boundary) > 0.8 * spacing - 1e-6
        before = whole


@pytest.mark.parametrize("count", [1, 2, 5, 9])
@pytest.mark.parametrize("spacing", [0.1, 0.15, 0.3])
def test_rectangle_that_fits_has_rings_exactly_one_spacing_apart(count: int, spacing: float) -> None:
    width = (2 * count - 1) * spacing + 2 * CLEARANCE
    sets = level_sets(Polygon(rectangle(width + 2.0, width)), spacing, CLEARANCE)
    assert len(sets.levels) == count
    for k, level in enumerate(sets.levels):
        inset = CLEARANCE + k * spacing
        wanted = shapely.box(inset, inset, width + 2.0 - inset, width - inset)
        assert len(level.parts) == 1
        assert shapely.hausdorff_distance(level.parts[0].exterior, wanted.exterior) < 1e-9
    assert sets.lost == ()


def test_rings_of_a_round_room_are_circles_one_spacing_apart() -> None:
    sets = level_sets(Polygon(regular(200, 2.3)), 0.15, CLEARANCE)
    assert len(sets.levels) == 15  # radii 2.225 - 0.15 k that leave a part 0.8 spacings wide
    for k, level in enumerate(sets.levels):
        distances = np.hypot(*shapely.get_coordinates(level.parts[0].exterior).T)
        assert distances == pytest.approx(2.225 - 0.15 * k, abs=0.012 + 0.0012 * k)


@pytest.mark.parametrize("name", ROOMS)
@pytest.mark.parametrize("spacing", [0.1, 0.15])
def test_rings_cover_the_floor(name: str, spacing: float) -> None:
    """At most 0.75 spacings from pipe on 97 % of the floor that can be heated, before any fitting."""
    outline = room(name)
    sets = level_sets(outline, spacing, CLEARANCE)
    check_laws(outline, sets, spacing)
    floor = outline.buffer(-max(0.0, CLEARANCE - spacing / 2), join_style="mitre")
    rings = shapely.union_all([part.exterior for level in sets.levels for part in level.parts])
    assert floor.intersection(rings.buffer(0.75 * spacing)).area >= 0.97 * floor.area
    assert sum(place.area for place in sets.lost) < 0.006 * floor.area


@pytest.mark.parametrize("name", [name for name, (_, voids) in ROOMS.items() if voids])
def test_rings_pass_over_a_void_until_they_meet_it(name: str) -> None:
    with_void = level_sets(room(name), 0.15, CLEARANCE)
    plain = level_sets(Polygon(ROOMS[name][0]), 0.15, CLEARANCE)
    untouched = [level for level in with_void.levels if all(holds(level, void) for void in with_void.voids)]
    assert len(untouched) >= 3
    for level in untouched:
        assert shapely.equals(
            shapely.union_all(level.parts), shapely.union_all(plain.levels[level.index].parts)
        )
    assert len(untouched) < len(with_void.levels)
    assert plain.voids == ()


MOVES: dict[str, Callable[[Polygon], Polygon]] = {
    "other start": lambda p: Polygon(
        [*p.exterior.coords[2:-1], *p.exterior.coords[:2]], [ring.coords for ring in p.interiors]
    ),
    "other direction": lambda p: Polygon(p.exterior.coords[::-1], [r.coords[::-1] for r in p.interiors]),
    "far away": lambda p: affinity.translate(p, 1e6, -1e6),
    "quarter turn": lambda p: affinity.affine_transform(p, [0, -1, 1, 0, 0, 0]),
    "half turn": lambda p: affinity.affine_transform(p, [-1, 0, 0, -1, 0, 0]),
    "far and turned": lambda p: affinity.affine_transform(p, [0, 1, -1, 0, -1e6, 1e6]),
    "turned by an angle": lambda p: affinity.rotate(p, 31.0, origin=(0, 0)),
}


@pytest.mark.parametrize("move", MOVES)
@pytest.mark.parametrize("name", ["L", "Z", "bay", "oblique", "two islands", "uneven walls"])
def test_drawing_the_room_elsewhere_changes_nothing(name: str, move: str) -> None:
    here, there = room(name), MOVES[move](room(name))
    frame, other = room_frame(here), room_frame(there)
    local, moved = frame.to_local(here), other.to_local(there)
    assert shapely.hausdorff_distance(local.boundary, moved.boundary) < 2e-6
    assert shapely.hausdorff_distance(other.from_local(moved).boundary, there.boundary) < 2e-6
    first, second = level_sets(local, 0.15, CLEARANCE), level_sets(moved, 0.15, CLEARANCE)
    assert len(first.levels) == len(second.levels)
    for a, b in zip(first.levels, second.levels, strict=True):
        assert len(a.parts) == len(b.parts)
        for one, two in zip(a.parts, b.parts, strict=True):
            assert shapely.hausdorff_distance(one.exterior, two.exterior) < 1e-4


def test_frame_follows_the_longest_walls() -> None:
    turned = affinity.rotate(room("L"), 20.0, origin=(3, 3))
    angle = math.degrees(math.atan2(*reversed(room_frame(turned).axis))) % 90.0
    assert angle == pytest.approx(20.0, abs=math.degrees(TURN))


def test_scaling_everything_scales_the_rings() -> None:
    outline = room("T")
    small, large = (
        level_sets(outline, 0.15, CLEARANCE),
        level_sets(affinity.scale(outline, 2, 2, origin=(0, 0)), 0.3, 2 * CLEARANCE),
    )
    for a, b in zip(small.levels, large.levels, strict=True):
        assert [4 * part.area for part in a.parts] == pytest.approx([part.area for part in b.parts], rel=1e-6)


def test_what_gets_no_ring_is_listed() -> None:
    niche = [(0, 0), (4, 0), (4, 1), (5.5, 1), (5.5, 1.25), (4, 1.25), (4, 3), (0, 3)]
    sets = level_sets(Polygon(niche), 0.2, CLEARANCE)
    (lost,) = sets.lost
    assert lost.reason == "narrow"
    assert 4.0 < lost.place[0] < 5.5 and 1.0 < lost.place[1] < 1.25
    assert lost.area == pytest.approx(1.5 * 0.10, rel=0.05)
    nowhere = level_sets(Polygon(rectangle(3.0, 0.25)), 0.2, CLEARANCE)
    assert nowhere.levels == ()
    assert [place.reason for place in nowhere.lost] == ["narrow"]
    walls = [rectangle(1.6, 0.1, 1, 1), rectangle(1.6, 0.1, 1, 2.5), rectangle(0.1, 1.3, 1, 1.15)]
    pen = level_sets(Polygon(rectangle(5, 4), [*walls, rectangle(0.1, 1.3, 2.5, 1.15)]), 0.2, CLEARANCE)
    (enclosed,) = pen.lost
    assert enclosed.reason == "enclosed"
    assert enclosed.area == pytest.approx((1.4 - 2 * CLEARANCE) * (1.4 - 2 * CLEARANCE), rel=1e-6)
    assert len(pen.voids) == 1


def test_steps_are_crossed_on_the_slant() -> None:
    """No ring bends by more than 20 degrees at a step of 30 to 40 mm, which no pipe could follow."""
    for level in level_sets(room("uneven walls"), 0.15, CLEARANCE).levels:
        points = shapely.get_coordinates(level.parts[0].exterior)[:-1]
        edges = np.roll(points, -1, axis=0) - points
        angles = np.degrees(np.arctan2(edges[:, 1], edges[:, 0]))
        turns = np.abs((np.diff(angles, append=angles[:1]) + 180.0) % 360.0 - 180.0)
        assert (turns > 20.0).sum() == 4


def test_tree_knows_its_rings() -> None:
    sets = level_sets(room("Z"), 0.15, CLEARANCE)
    tree = ring_tree(sets)
    assert len(tree.rings) == sum(len(level.parts) for level in sets.levels)
    assert tree.outermost == (0,)
    assert max(len(ring.children) for ring in tree.rings) == 2
    for ring in tree.rings:
        assert ring.length == pytest.approx(ring.area.exterior.length, rel=1e-12)
        assert shapely.LinearRing(ring.points).is_ccw
        assert all(tree.rings[child].parent == ring.index for child in ring.children)
        assert all(shapely.contains(ring.area, tree.rings[child].area) for child in ring.children)
        for share in (0.0, 0.123, 0.5, 0.987):
            point = ring.at(share * ring.length)
            assert shapely.distance(shapely.Point(point), ring.area.exterior) < 1e-9
            along = shapely.line_locate_point(
                shapely.LineString([*ring.points, ring.points[0]]), shapely.Point(point)
            )
            assert ring.project(point) == pytest.approx(share * ring.length, abs=1e-9)
            assert along == pytest.approx(ring.project(point), abs=1e-9)
            assert ring.at((share + 3) * ring.length) == pytest.approx(point, abs=1e-9)
            assert ring.at((share - 2) * ring.length) == pytest.approx(point, abs=1e-9)


@pytest.mark.parametrize("name", ["island", "two islands", "U", "column"])
def test_zones_and_voids_share_out_the_floor(name: str) -> None:
    sets = level_sets(room(name), 0.15, CLEARANCE)
    tree = ring_tree(sets)
    zones = [zone for ring in [None, *range(len(tree.rings))] if (zone := tree.zone(ring)) is not None]
    domain = shapely.difference(shapely.union_all(sets.domain), shapely.union_all(sets.voids))
    assert sum(zone.area for zone in zones) == pytest.approx(domain.area, rel=1e-6)
    for zone in zones:
        assert all(shapely.intersection(zone, void).area < 1e-9 for void in sets.voids)


LENGTH = st.floats(0.5, 2.5)


@st.composite
def histograms(draw: st.DrawFn) -> Ring:
    """Right-angled rooms: columns of different heights above and below a common axis."""
    columns = draw(st.lists(st.tuples(LENGTH, LENGTH, st.floats(0.0, 2.0)), min_size=1, max_size=6))
    edges = np.concatenate(([0.0], np.cumsum([width for width, _, _ in columns]))).tolist()
    top = [(x, height) for i, (_, height, _) in enumerate(columns) for x in edges[i : i + 2]]
    bottom = [(x, -depth) for i, (_, _, depth) in enumerate(columns) for x in edges[i : i + 2]]
    return [*bottom, *reversed(top)]


@st.composite
def stars(draw: st.DrawFn) -> Ring:
    radii = draw(st.lists(st.floats(1.0, 4.0), min_size=4, max_size=24))
    turn = 2.0 * math.pi / len(radii)
    return [(r * math.cos(turn * i + 0.1), r * math.sin(turn * i + 0.1)) for i, r in enumerate(radii)]


@st.composite
def rooms(draw: st.DrawFn) -> Polygon:
    shell = Polygon(draw(st.one_of(histograms(), stars())))
    assume(shell.is_valid and shell.area > 1.0)
    low_x, low_y, high_x, high_y = shell.bounds
    voids: list[Polygon] = []
    for _ in range(draw(st.integers(0, 3))):
        x, y = draw(st.floats(low_x, high_x)), draw(st.floats(low_y, high_y))
        corners, radius = draw(st.sampled_from([3, 4, 8, 20])), draw(st.floats(0.08, 0.8))
        void = Polygon(regular(corners, radius, x, y, draw(st.floats(0.0, 1.5))))
        if shell.contains_properly(void) and all(void.disjoint(other) for other in voids):
            voids.append(void)
    built = Polygon(shell.exterior, [void.exterior for void in voids])
    with np.errstate(divide="ignore", invalid="ignore"):
        assume(shapely.minimum_clearance(built) > 0.001)
    return built


@settings(max_examples=40, deadline=None)
@given(rooms(), st.floats(0.1, 0.3), st.floats(0.05, 0.12))
def test_laws_hold_in_any_room(outline: Polygon, spacing: float, clearance: float) -> None:
    note(f"{outline.wkt} {spacing!r} {clearance!r}")
    sets = level_sets(outline, spacing, clearance)
    check_laws(outline, sets, spacing, clearance)
    assert all(
        lost.area > 0.0 and shapely.covers(outline.envelope, shapely.Point(lost.place)) for lost in sets.lost
    )
    if not sets.levels:
        assert sets.lost or not sets.domain or max(part.area for part in sets.domain) < spacing**2
    tree = ring_tree(sets)
    assert all(ring.parent is None or tree.rings[ring.parent].level == ring.level - 1 for ring in tree.rings)
