"""The judge of routes against a second judge, written here from the definitions and with nothing in common with
it: dense points, each against all others, a raster of the floor, and shapely's predicates. And faults
planted in sound layouts, each found wherever the layout lies and whichever way the water runs."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.spatial import cKDTree
from shapely import LineString, Polygon, box
from tepidarium_engine.errors import InputError
from tepidarium_engine.plan.judging import pipe_neighbours
from tepidarium_engine.plan.judging.route_check import RouteCheck, check_route
from tepidarium_engine.plan.outlines.denser_area import DenserArea
from tepidarium_engine.plan.outlines.pipe_zone import WallClearance
from tepidarium_engine.plan.pipes.pipe_path import Arc, Line, PipePath
from tepidarium_engine.plan.pipes.polyline_path import path_from_polyline

Place = tuple[float, float]
Corners = list[Place]


@dataclass(frozen=True)
class Case:
    """A path and what is asked of it."""

    path: PipePath
    room: Polygon
    spacing: float
    clearance: float
    radius: float
    entry: Place
    pitch: float

    @property
    def asked(self) -> dict[str, Any]:
        return {
            "pipe_spacing": self.spacing,
            "wall_clearance": self.clearance,
            "bend_radius": self.radius,
            "entry": self.entry,
            "tail_pitch": self.pitch,
        }

    def check(self, **more: Any) -> RouteCheck:
        return check_route(self.path, self.room, **(self.asked | more))


def codes(check: RouteCheck) -> set[str]:
    return {fault.code for fault in check.faults}


def bent(corners: Sequence[Place], radius: float) -> PipePath:
    """Lines with an arc of the radius at each corner, by complex numbers."""
    at = [complex(*corner) for corner in corners]
    pieces: list[Line | Arc] = []
    here = at[0]
    for before, corner, after in zip(at, at[1:], at[2:], strict=False):
        into, out = (corner - before) / abs(corner - before), (after - corner) / abs(after - corner)
        turn = math.atan2((out / into).imag, (out / into).real)
        begin = corner - into * radius * math.tan(abs(turn) / 2.0)
        to_centre = into * complex(0.0, math.copysign(1.0, turn))
        centre = begin + radius * to_centre
        if abs(begin - here) > 1e-9:
            pieces.append(Line((here.real, here.imag), (begin.real, begin.imag)))
        start = math.atan2(-to_centre.imag, -to_centre.real)
        pieces.append(Arc((centre.real, centre.imag), radius, start, turn))
        here = centre - radius * to_centre * complex(math.cos(turn), math.sin(turn))
    pieces.append(Line((here.real, here.imag), corners[-1]))
    return PipePath.of(pieces)


def comb_corners(rows: Sequence[float], left: float, right: float, lane: float) -> Corners:
    """Up at the left to the top row, then to and fro from row to row downwards; ``rows`` from the top."""
    corners: Corners = [(left, 0.0)]
    for index, y in enumerate(rows):
        near = left if index == 0 else left + lane
        corners += [(near, y), (right, y)] if index % 2 == 0 else [(right, y), (near, y)]
    return [*corners, (left + lane, 0.0)]


def comb(pairs: int, width: float, spacing: float, clearance: float, radius: float) -> Case:
    height = (2 * pairs - 1) * spacing + 2.0 * clearance
    rows = [height - clearance - row * spacing for row in range(2 * pairs)]
    path = bent(comb_corners(rows, clearance, width - clearance, spacing), radius)
    entry = (clearance + spacing / 2.0, 0.0)
    return Case(path, box(0.0, 0.0, width, height), spacing, clearance, radius, entry, spacing)


def spiral_corners(rings: int, height: float, spacing: float, clearance: float) -> Corners:
    """Two arms side by side, one a spacing further in than the other, that meet in the middle."""
    width = (2 * rings - 1) * spacing + 2.0 * clearance

    def arm(first: int) -> Corners:
        corners: Corners = [(clearance + first * spacing, 0.0)]
        for ring in range(first, rings, 2):
            off, inner = clearance + ring * spacing, clearance + (ring + 2) * spacing
            corners += [(off, height - off), (width - off, height - off)]
            if ring < rings - 1:
                corners += [(width - off, off), (inner, off)]
        return corners

    flow, back = arm(0), arm(1)
    return flow + back[::-1] if rings % 2 else (back + flow[::-1])[::-1]


def spiral(rings: int, height: float, spacing: float, clearance: float, radius: float) -> Case:
    width = (2 * rings - 1) * spacing + 2.0 * clearance
    path = bent(spiral_corners(rings, height, spacing, clearance), radius)
    entry = (clearance + spacing / 2.0, 0.0)
    return Case(path, box(0.0, 0.0, width, height), spacing, clearance, radius, entry, spacing)


# --- A second judge


class Dense:
    """The path as points 2 mm apart or less, with positions and directions, piece by piece."""

    def __init__(self, path: PipePath, step: float = 0.002) -> None:
        at, here, way, offset = [], [], [], 0.0
        for piece in path.pieces:
            count = max(2, math.ceil(piece.length / step))
            shares = (np.arange(count) + 0.5) / count
            if isinstance(piece, Line):
                start, end = np.array(piece.start), np.array(piece.end)
                here.append(start + shares[:, None] * (end - start))
                way.append(np.tile((end - start) / np.linalg.norm(end - start), (count, 1)))
            else:
                angle = piece.start_angle + shares * piece.sweep
                outward = np.column_stack((np.cos(angle), np.sin(angle)))
                here.append(np.array(piece.centre) + piece.radius * outward)
                left = np.column_stack((-outward[:, 1], outward[:, 0]))
                way.append(left * math.copysign(1.0, piece.sweep))
            at.append(offset + shares * piece.length)
            offset += piece.length
        self.at, self.here, self.way = np.concatenate(at), np.concatenate(here), np.concatenate(way)
        self.length = offset
        ends = np.array([path.pieces[0].start, path.pieces[-1].end])
        self.line = LineString(np.concatenate((ends[:1], self.here, ends[1:])))


def least_distances(case: Case, dense: Dense) -> float:
    """Least distance of points more than 2.6 spacings apart, the tails of the entry left out; O(n^2)."""
    fan = case.clearance + case.spacing + 2.0 * case.radius
    least = math.inf
    for index in range(0, len(dense.at), 4):
        at, here = dense.at[index], dense.here[index]
        apart = np.abs(dense.at - at) > 2.6 * case.spacing
        tails = (np.minimum(dense.at, at) < fan) & (np.maximum(dense.at, at) > dense.length - fan)
        other = dense.here[apart & ~tails]
        if len(other):
            least = min(least, float(np.hypot(*(other - here).T).min()))
    return least


def mixing(case: Case, dense: Dense, stride: int) -> tuple[float, float]:
    """Mixed share and temperature spread: which points lie square to each, and how far; O(n^2)."""
    half, look = dense.length / 2.0, 1.6 * case.spacing
    mixed, middles = [], []
    for index in range(stride // 2, len(dense.at), stride):
        away = dense.here - dense.here[index]
        way = dense.way[index]
        ahead, left = away @ way, away @ np.array([-way[1], way[0]])
        other = np.abs(dense.at - dense.at[index]) > case.spacing
        seen = []
        for hand in (1.0, -1.0):
            met = other & (np.abs(ahead) <= 0.0011) & (hand * left > 0.0) & (hand * left <= look)
            if met.any():
                seen.append(float(dense.at[met][np.abs(left[met]).argmin()]))
        if seen:
            mixed.append(all((at > half) != (dense.at[index] > half) for at in seen))
            middles.append((dense.at[index] + sum(seen) / len(seen)) / (2.0 * dense.length))
    return float(np.mean(mixed)), float(np.std(middles))


def coverage(case: Case, dense: Dense, cell: float = 0.0083) -> tuple[float, float]:
    """Share of the floor within 0.5 and 0.75 spacings of the points, by a raster of places."""
    margin = max(0.0, case.clearance - case.spacing / 2.0)
    x0, y0, x1, y1 = case.room.bounds
    x, y = np.meshgrid(np.arange(x0 + cell / 3.0, x1, cell), np.arange(y0 + cell / 3.0, y1, cell))
    # One place anywhere in each cell: rows of them could lie along the edge of what is covered.
    places = np.column_stack((x.ravel(), y.ravel()))
    places += cell * (np.random.default_rng(7).random(places.shape) - 0.5)
    floor = shapely.points(places)
    wall = shapely.distance(case.room.boundary, floor)
    places = places[shapely.contains(case.room, floor) & (wall >= margin)]
    away, _ = cKDTree(dense.here).query(places)
    return float((away <= 0.5 * case.spacing).mean()), float((away <= 0.75 * case.spacing).mean())


def second_opinion(case: Case, dense: Dense) -> tuple[set[str], float, float]:
    """Codes of the hard rules, how far the figure nearest to its limit is from it, and the least distance [m]."""
    found, margins = set(), []
    if not shapely.is_simple(dense.line):
        found.add("crosses_itself")
    doorway = case.clearance + max(case.spacing, case.pitch) / 2.0 + case.radius
    inner = (dense.at > doorway) & (dense.at < dense.length - doorway)
    depth = shapely.distance(case.room.boundary, shapely.points(dense.here))
    depth[~shapely.contains(case.room, shapely.points(dense.here))] *= -1.0
    short = min(float(depth[inner].min()) - case.clearance, float(depth[~inner].min())) + 0.002
    least = least_distances(case, dense)
    # In a hairpin the nearest is just 2.6 spacings on along the pipe, which is looked for from samples only.
    margins += [abs(short), abs(least - 0.6 * case.spacing) - 0.003]
    found |= {"wall_clearance"} if short < 0.0 else set()
    found |= {"pipe_distance"} if least < 0.6 * case.spacing else set()
    pitch = math.dist(case.path.start, case.path.end)
    found |= {"tail_pitch"} if abs(pitch - case.pitch) > 0.005 else set()
    margins.append(abs(abs(pitch - case.pitch) - 0.005))
    for code, end in (("start_off_entry", case.path.start), ("end_off_entry", case.path.end)):
        far = math.dist(end, case.entry) - case.pitch / 2.0 - 0.005
        margins.append(abs(far))
        found |= {code} if far > 0.0 else set()
    radii = [piece.radius for piece in case.path.pieces if isinstance(piece, Arc)]
    found |= {"bend_radius"} if min(radii) < case.radius - 1e-6 else set()
    return found, min(margins), least


def agree(case: Case) -> None:
    """Both judges say the same of a path."""
    dense = Dense(case.path)
    check = case.check()
    found, margin, least = second_opinion(case, dense)
    assume(margin > 0.0007)  # half of 2 mm seen from 50 mm, and 0.2 mm of chords
    assert codes(check) - {"tail_distance"} == found
    assert check.measures.length == pytest.approx(dense.length, rel=1e-9)
    if least <= 1.6 * case.spacing:
        assert check.measures.least_distance == pytest.approx(least / case.spacing, abs=0.025)
    half, three_quarters = coverage(case, dense)
    assert check.measures.coverage_half == pytest.approx(half, abs=0.007)
    assert check.measures.coverage_three_quarters == pytest.approx(three_quarters, abs=0.005)


small_combs = st.builds(
    comb,
    pairs=st.integers(1, 2),
    width=st.floats(0.9, 1.2),
    spacing=st.floats(0.12, 0.2),
    clearance=st.floats(0.06, 0.12),
    radius=st.floats(0.03, 0.055),
)
small_spirals = st.builds(
    lambda rings, extra, spacing, clearance, radius: spiral(
        rings, (2 * rings - 1) * spacing + 2.0 * clearance + extra, spacing, clearance, radius
    ),
    rings=st.integers(2, 4),
    extra=st.floats(0.0, 0.3),
    spacing=st.floats(0.12, 0.18),
    clearance=st.floats(0.06, 0.12),
    radius=st.floats(0.03, 0.055),
)


@settings(deadline=None, max_examples=8)
@given(st.one_of(small_combs, small_spirals))
def test_both_judges_on_sound_layouts(case: Case) -> None:
    agree(case)
    assert case.check().valid


jitters = st.lists(st.tuples(st.floats(-0.07, 0.07), st.floats(-0.07, 0.07)), min_size=30, max_size=30)


@settings(deadline=None, max_examples=15)
@given(st.sampled_from(["comb", "spiral"]), jitters, st.integers(0, 2))
def test_both_judges_on_shaken_layouts(kind: str, jitter: list[Place], still: int) -> None:
    """Corners moved by up to 70 mm each way: some then cross, some come too near to walls or pipe."""
    spacing, clearance, radius = 0.16, 0.09, 0.03
    rows = [0.73 - 0.16 * row for row in range(4)]
    corners = (
        comb_corners(rows, clearance, 1.0, spacing)
        if kind == "comb"
        else spiral_corners(3, 1.1, spacing, clearance)
    )
    shaken = [
        (x + dx, y + dy) if still < index < len(corners) - 1 else (x, y)
        for index, ((x, y), (dx, dy)) in enumerate(zip(corners, jitter, strict=False))
    ]
    try:
        path = bent(shaken, radius)
    except InputError:
        assume(False)
    assume(all(joint.gap < 1e-9 and joint.kink < 1e-9 for joint in path.joints()))
    room = (
        box(0.0, 0.0, 1.0 + clearance, 0.82)
        if kind == "comb"
        else box(0.0, 0.0, 5 * spacing + 2 * clearance, 1.1)
    )
    column = box(0.48, 0.35, 0.52, 0.38)
    agree(Case(path, room.difference(column), spacing, clearance, radius, (clearance + 0.08, 0.0), spacing))


@pytest.mark.parametrize(
    "case", [comb(3, 1.3, 0.15, 0.08, 0.05), spiral(4, 1.5, 0.15, 0.08, 0.05)], ids=["comb", "spiral"]
)
def test_mixing_by_every_point(case: Case) -> None:
    measures = case.check().measures
    mixed, spread = mixing(case, Dense(case.path), 7)
    assert measures.mixed_share == pytest.approx(mixed, abs=0.02)
    assert measures.temperature_spread == pytest.approx(spread, abs=0.004)


# --- Closed forms


@settings(deadline=None, max_examples=25)
@given(
    st.integers(1, 4), st.floats(1.2, 2.5), st.floats(0.1, 0.25), st.floats(0.3, 0.49), st.floats(0.5, 1.0)
)
def test_coverage_of_an_even_serpentine(
    pairs: int, width: float, spacing: float, bend: float, off: float
) -> None:
    """The heated floor ends half a spacing outside the outermost pipe, whatever the clearance: what is further
    than half a spacing is the square less a quarter circle of each rounded right angle, and nothing else."""
    clearance, radius = off * spacing, bend * spacing
    case = comb(pairs, width, spacing, clearance, radius)
    measures = case.check().measures
    margin = clearance - spacing / 2.0
    floor = (width - 2.0 * margin) * (case.room.bounds[3] - 2.0 * margin)
    # The tails run out of the heated floor, and its lower edge has no pipe along it but theirs.
    bare = 4 * pairs * (1.0 - math.pi / 4.0) * (radius + spacing / 2.0) ** 2
    assert measures.coverage_half == pytest.approx(1.0 - bare / floor, abs=1e-4)


def test_a_double_spiral_mixes_and_a_serpentine_does_not() -> None:
    round_and_round = spiral(14, 4.75, 0.15, 0.075, 0.06).check().measures
    to_and_fro = comb(14, 4.2, 0.15, 0.075, 0.06).check().measures
    assert round_and_round.mixed_share is not None and 0.90 <= round_and_round.mixed_share <= 1.0
    assert round_and_round.temperature_spread is not None and round_and_round.temperature_spread < 0.03
    assert to_and_fro.mixed_share is not None and to_and_fro.mixed_share < 0.1
    # Evenly spread from 0 to 1 is sqrt(1/12) = 0.289; the lane beside the ends of the rows takes a little off.
    assert to_and_fro.temperature_spread == pytest.approx(0.275, abs=0.015)


# --- Planted faults


def turned(case: Case, angle: float, by: Place, back: bool) -> tuple[Case, Callable[[Any], Any]]:
    """The case turned round the origin, then moved; ``back`` with the water the other way."""
    cos, sin = math.cos(angle), math.sin(angle)

    def place(xy: Place) -> Place:
        return (cos * xy[0] - sin * xy[1] + by[0], sin * xy[0] + cos * xy[1] + by[1])

    def shape(geometry: Any) -> Any:
        return shapely.transform(geometry, lambda points: points @ np.array([[cos, sin], [-sin, cos]]) + by)

    pieces: Iterable[Line | Arc] = (
        Line(place(piece.start), place(piece.end))
        if isinstance(piece, Line)
        else Arc(place(piece.centre), piece.radius, piece.start_angle + angle, piece.sweep)
        for piece in case.path.pieces
    )
    path = PipePath.of(pieces)
    path = path.reversed() if back else path
    return replace(case, path=path, room=shape(case.room), entry=place(case.entry)), shape


SOUND = {"comb": comb(3, 2.0, 0.15, 0.09, 0.06), "spiral": spiral(4, 1.9, 0.15, 0.09, 0.06)}


def with_piece(case: Case, index: int, change: Callable[[Line], Line]) -> Case:
    pieces = list(case.path.pieces)
    lines = [at for at, piece in enumerate(pieces) if isinstance(piece, Line)]
    piece = pieces[lines[index]]
    assert isinstance(piece, Line)
    pieces[lines[index]] = change(piece)
    return replace(case, path=PipePath.of(pieces))


def crossing(case: Case) -> Case:
    """A loop in the last tail, back over itself."""
    x, _ = case.path.end
    corners = [(x, 0.4), (x, 0.2), (x + 0.2, 0.2), (x + 0.2, 0.3), (x - 0.03, 0.3), (x - 0.03, 0.0)]
    pieces = [*case.path.pieces[:-1], *bent(corners, 0.015).pieces]
    return replace(case, path=PipePath.of(pieces))


def tight(case: Case) -> Case:
    """One arc of 0.9 of the radius, set in so that it joins as before."""
    pieces = list(case.path.pieces)
    index = next(
        at for at, piece in enumerate(pieces[2:-1], 2) if isinstance(piece, Arc) and abs(piece.sweep) < 2.0
    )
    before, arc, after = pieces[index - 1 : index + 2]
    assert isinstance(arc, Arc)
    corner = (
        complex(*arc.centre)
        + (complex(*arc.start) - complex(*arc.centre))
        + (complex(*arc.end) - complex(*arc.centre))
    )
    inner = bent([before.start, (corner.real, corner.imag), after.end], 0.9 * arc.radius).pieces
    return replace(case, path=PipePath.of([*pieces[: index - 1], *inner, *pieces[index + 2 :]]))


def nearer_wall(case: Case) -> Case:
    x0, y0, x1, y1 = case.room.bounds
    return replace(case, room=box(x0, y0, x1 - 0.005, y1))


def in_a_void(case: Case) -> Case:
    places = Dense(case.path).here
    x, y = places[len(places) // 3]
    return replace(case, room=case.room.difference(box(x - 0.1, y - 0.1, x + 0.1, y + 0.1)))


def chain_of_kinks(case: Case) -> Case:
    """1.1 degrees in 400 short lines over 1 mm, each turned by half of what is let pass at a joint: R = 50 mm."""
    pieces = list(case.path.pieces)
    last = pieces.pop()
    steps, angle, here = 400, 0.02 / 401, complex(*last.start)
    way = complex(*last.end) - here
    way /= abs(way)
    for step in range(1, steps + 1):
        there = here + 0.001 / steps * way * complex(math.cos(step * angle), math.sin(step * angle))
        pieces.append(Line((here.real, here.imag), (there.real, there.imag)))
        here = there
    end = here + (abs(complex(*last.end) - complex(*last.start)) - 0.001) * way * complex(
        math.cos(0.02), math.sin(0.02)
    )
    pieces.append(Line((here.real, here.imag), (end.real, end.imag)))
    return replace(case, path=PipePath.of(pieces))


PLANTED: dict[str, tuple[Callable[[Case], Case], set[str]]] = {
    "crossing": (crossing, {"crosses_itself"}),
    "clearance": (nearer_wall, {"wall_clearance"}),
    "radius": (tight, {"bend_radius"}),
    "gap": (lambda case: with_piece(case, 2, lambda line: moved_end(line, 1e-4)), {"gap"}),
    "kink": (lambda case: with_piece(case, 0, lambda line: moved_start(line, 0.002)), {"kink"}),
    "pitch": (lambda case: replace(case, pitch=case.pitch - 0.008), {"tail_pitch"}),
    "void": (in_a_void, {"wall_clearance"}),
    "chain": (chain_of_kinks, {"bend_radius"}),
}


def moved_end(line: Line, by: float) -> Line:
    """Shortened: the next piece starts further on."""
    share = 1.0 - by / line.length
    (x0, y0), (x1, y1) = line.start, line.end
    return Line(line.start, (x0 + share * (x1 - x0), y0 + share * (y1 - y0)))


def moved_start(line: Line, by: float) -> Line:
    """Moved square to the line."""
    (x0, y0), (x1, y1) = line.start, line.end
    dx, dy = (x1 - x0) / line.length, (y1 - y0) / line.length
    return Line((x0 - by * dy, y0 + by * dx), line.end)


MOVES = [
    (0.0, (0.0, 0.0), False),
    (0.7, (0.0, 0.0), True),
    (math.pi / 2.0, (3e4, -8e4), False),
    (4.1, (-12.0, 7.0), True),
]


@pytest.mark.parametrize("move", MOVES, ids=["as_drawn", "slanted_back", "far", "moved_back"])
@pytest.mark.parametrize("name", SOUND)
@pytest.mark.parametrize("fault", PLANTED)
def test_planted_faults_are_found_wherever_they_lie(
    fault: str, name: str, move: tuple[float, Place, bool]
) -> None:
    sound, _ = turned(SOUND[name], *move)
    assert sound.check().valid, sound.check().faults
    plant, expected = PLANTED[fault]
    faulty, _ = turned(plant(SOUND[name]), *move)
    check = faulty.check()
    assert expected <= codes(check)
    if fault in {"clearance", "radius", "gap", "kink", "pitch", "void", "chain"}:
        assert codes(check) - {
            "start_off_entry",
            "end_off_entry",
            "tail_pitch",
            "pipe_distance",
        } <= expected | {"tail_pitch"}


@pytest.mark.parametrize("move", MOVES, ids=["as_drawn", "slanted_back", "far", "moved_back"])
@pytest.mark.parametrize("name", SOUND)
def test_a_missing_ring_and_a_bare_strip_are_left_out(name: str, move: tuple[float, Place, bool]) -> None:
    """The rule is measured and not refused: what is left out has a place, an area and a width."""
    case = SOUND[name]
    assert case.check().measures.left_out == ()
    x0, y0, x1, y1 = case.room.bounds
    strip, _ = turned(replace(case, room=box(x0, y0, x1, y1 + 0.2)), *move)
    check = strip.check()
    assert check.valid
    deep = 0.2 - (0.75 * 0.15 - 0.075)  # what the outermost pipe serves, less what is no heated floor
    left = check.measures.left_out[0]
    assert left.area == pytest.approx(deep * (x1 - x0 - 0.03), abs=0.02)
    assert left.width == pytest.approx(deep, abs=0.015)
    assert strip.room.contains(shapely.Point(left.place))
    away = shapely.distance(shapely.Point(left.place), LineString(strip.path.polyline(1e-5)))
    assert left.pipe_distance == pytest.approx(float(away), abs=1e-3)
    assert check.measures.left_out_area == pytest.approx(check.measures.bare_area, abs=0.01)
    wide = Polygon(case.room.buffer(0.15, join_style="mitre").exterior)
    assert sum(spot.area for spot in replace(case, room=wide).check().measures.left_out) > 0.5


def test_the_largest_are_named_first_and_none_that_a_bend_leaves() -> None:
    """Two strips of different width beside a serpentine, and the corners of its bends."""
    case = SOUND["comb"]
    x0, y0, x1, y1 = case.room.bounds
    measures = replace(case, room=box(x0 - 0.1, y0, x1 + 0.3, y1)).check().measures
    areas = [spot.area for spot in measures.left_out]
    assert len(areas) == 2 and areas == sorted(areas, reverse=True)
    assert measures.left_out[0].place[0] > x1 and measures.left_out[1].place[0] < x0
    least = (1.0 - math.pi / 4.0) * (case.radius + case.spacing / 2.0) ** 2
    assert all(spot.area > least for spot in measures.left_out)
    assert all(spot.area <= least for spot in measures.bare_spots[2:])


# --- Walls with a clearance of their own, denser areas


def test_a_wall_with_a_clearance_of_its_own() -> None:
    case = SOUND["comb"]
    _, y0, x1, y1 = case.room.bounds
    right = LineString([(x1, y0), (x1, y1)])
    assert case.check(walls=[WallClearance(right, 0.0919)]).valid
    check = case.check(walls=[WallClearance(right, 0.1)])
    assert codes(check) == {"wall_clearance"}
    fault = check.faults[0]
    assert fault.value == pytest.approx(0.09) and fault.limit == 0.1
    assert fault.place[0] == pytest.approx(x1 - 0.09)
    # Kept square to the stretch and not round its ends: the upper half of a wall is not the lower one's.
    beyond = LineString([(x1, y1 + 0.5), (x1, y1 - 0.05)])
    assert case.check(walls=[WallClearance(beyond, 0.3)]).valid


def test_the_floor_before_such_a_wall_is_not_asked_for() -> None:
    case = SOUND["comb"]
    x0, y0, x1, y1 = case.room.bounds
    wide = replace(case, room=box(x0, y0, x1 + 0.3, y1))
    wall = WallClearance(LineString([(x1 + 0.3, y0), (x1 + 0.3, y1)]), 0.39)
    with_wall, plain = wide.check(walls=[wall]).measures, case.check().measures
    assert with_wall.coverage_half == pytest.approx(plain.coverage_half, abs=1e-6)
    assert with_wall.length_ratio == pytest.approx(plain.length_ratio, rel=1e-9)
    assert wide.check().measures.left_out and not with_wall.left_out


def test_an_entry_in_a_wall_with_a_clearance_of_its_own() -> None:
    """Tails pass through it square to the wall; what runs along it has to keep away."""
    case = SOUND["comb"]
    x0, y0, x1, _ = case.room.bounds
    sill = WallClearance(LineString([(x0, y0), (x1, y0)]), 0.2)
    check = case.check(walls=[sill])
    fault = next(fault for fault in check.faults if fault.code == "wall_clearance")
    assert fault.limit == 0.2 and fault.value == pytest.approx(0.09)
    assert case.check(walls=[WallClearance(LineString([(x0, y0), (0.4, y0)]), 0.09)]).valid


def denser_comb() -> tuple[Case, DenserArea]:
    """Rows 75 mm apart in the upper 0.6 m, 150 mm apart below; the lane is 150 mm from the rows' ends."""
    rows = [1.5 - 0.0375 - 0.075 * row for row in range(8)]
    rows += [0.9 - 0.075 - 0.15 * row for row in range(6)]
    path = bent(comb_corners(rows, 0.075, 2.0 - 0.075, 0.15), 0.035)
    case = Case(path, box(0.0, 0.0, 2.0, 1.5), 0.15, 0.0375, 0.035, (0.15, 0.0), 0.15)
    return case, DenserArea(box(-1.0, 0.9, 3.0, 2.0), 0.075)


def test_a_denser_area_is_judged_by_its_own_spacing() -> None:
    case, area = denser_comb()
    assert codes(case.check()) == {"pipe_distance"}
    check = case.check(denser=[area])
    assert check.valid
    # At the edge of the area rows lie half of 75 and half of 150 mm apart, judged by 150 mm from the one side.
    assert check.measures.least_distance == pytest.approx(0.1125 / 0.15, abs=0.01)
    assert check.measures.gap_95 == pytest.approx(1.0, abs=0.55)
    # The ideal: 37.5 mm more than the wall to either side at 150 mm, the zone of the area twice as dense.
    ideal = (2.075 * 1.575) / 0.15 + 1.925 * 0.5625 * (1.0 / 0.075 - 1.0 / 0.15)
    assert check.measures.length_ratio == pytest.approx(case.path.length / ideal, rel=1e-9)
    # Plain laying at 150 mm over all of the room leaves half of the area without pipe near enough.
    even = comb(5, 2.0, 0.15, 0.075, 0.05)
    part = DenserArea(box(0.0, 0.75, 2.0, 1.5), 0.075)
    assert even.check().measures.coverage_three_quarters > 0.99
    served = even.check(denser=[part]).measures.coverage_three_quarters
    # Of each 150 mm in the area 0.75 of 75 mm to either side of the pipe is served.
    floor_in = 0.75 - 0.0375
    assert served == pytest.approx(1.0 - 0.25 * floor_in * 1.925 / (2.0 * 0.75 + floor_in * 1.925), abs=0.03)


@pytest.mark.parametrize(
    ("more", "pointer"),
    [
        ({"walls": [WallClearance(LineString([(0, 0), (1, 0)]), math.nan)]}, "/walls/0/clearance"),
        ({"walls": [WallClearance(LineString([(0, 0), (math.inf, 0)]), 0.1)]}, "/walls/0/stretch"),
        ({"walls": [WallClearance(LineString(), 0.1)]}, "/walls/0/stretch"),
        ({"walls": [WallClearance(LineString([(0, 0), (1, 0)]), 0.1)] * 33}, "/walls"),
        ({"denser": [DenserArea(box(0, 0, 1, 1), 0.2)]}, "/denser/0/pipe_spacing"),
        ({"denser": [DenserArea(box(0, 0, 1, 1), 0.001)]}, "/denser/0/pipe_spacing"),
        ({"denser": [DenserArea(box(0, 0, 1, 1), math.nan)]}, "/denser/0/pipe_spacing"),
        ({"denser": [DenserArea(Polygon([(0, 0), (1, 1), (1, 0), (0, 1)]), 0.1)]}, "/denser/0/polygon"),
    ],
)
def test_walls_and_areas_that_are_none(more: dict[str, Any], pointer: str) -> None:
    with pytest.raises(InputError) as refused:
        SOUND["comb"].check(**more)
    assert {fault.pointer for fault in refused.value.faults} == {pointer}


def test_more_pieces_than_are_looked_at() -> None:
    pieces = [Line((0.1 + 1e-4 * step, 0.1), (0.1 + 1e-4 * (step + 1), 0.1)) for step in range(5001)]
    with pytest.raises(InputError) as refused:
        replace(SOUND["comb"], path=PipePath.of(pieces)).check()
    assert [(fault.pointer, fault.code) for fault in refused.value.faults] == [("/pieces", "too_many")]


# --- A path that comes as a polyline


def test_a_polyline_is_rounded_or_kinked() -> None:
    case = SOUND["comb"]
    rows = [0.93 - 0.09 - 0.15 * row for row in range(6)]
    corners = comb_corners(rows, 0.09, 2.0 - 0.09, 0.15)
    round_one = path_from_polyline(corners, case.radius)
    assert round_one.unresolved == ()
    assert replace(case, path=round_one.path).check().valid
    plain = replace(case, path=path_from_polyline(corners).path).check()
    assert codes(plain) == {"kink"}
    assert plain.faults[0].value == pytest.approx(math.pi / 2.0)
    tight_one = path_from_polyline(corners, 0.08)
    assert tight_one.unresolved and all(corner.radius < 0.08 for corner in tight_one.unresolved)
    assert codes(replace(case, path=tight_one.path, radius=0.08).check()) == {"bend_radius"}


def test_a_curve_of_chords_is_taken_for_the_curve() -> None:
    """Chords of 10 degrees, as drawings have them: valid with the radius they were drawn with."""
    case = SOUND["spiral"]
    points: Corners = [case.path.start]
    for piece in case.path.pieces:
        if isinstance(piece, Arc):
            steps = [piece.start_angle + piece.sweep * step / 9.0 for step in range(10)]
            points += [
                (piece.centre[0] + piece.radius * math.cos(a), piece.centre[1] + piece.radius * math.sin(a))
                for a in steps
            ]
        else:
            points.append(piece.end)
    found = path_from_polyline(points, 0.98 * case.radius)
    assert found.unresolved == ()
    check = replace(case, path=found.path, radius=0.98 * case.radius).check()
    assert check.valid, check.faults


@pytest.mark.parametrize(
    ("points", "radius", "pointer"),
    [
        ([(0.0, 0.0)], 0.1, "/points"),
        ([(0.0, 0.0)] * 2501, 0.1, "/points"),
        ([(0.0, 0.0), (math.nan, 1.0)], 0.1, "/points/1"),
        ([(0.0, 0.0), (0.0, 0.0)], 0.1, "/points"),
        ([(0.0, 0.0), (0.0, 0.0), (1.0, 0.0)], None, "/points/0"),
        ([(0.0, 0.0), (1.0, 0.0)], 0.001, "/bend_radius"),
    ],
)
def test_polylines_that_are_none(points: Corners, radius: float | None, pointer: str) -> None:
    with pytest.raises(InputError) as refused:
        path_from_polyline(points, radius)
    assert pointer in {fault.pointer for fault in refused.value.faults}


# --- Sampling


@pytest.mark.parametrize(
    "case", [comb(10, 3.0, 0.15, 0.075, 0.06), spiral(11, 3.9, 0.15, 0.075, 0.06)], ids=["comb", "spiral"]
)
def test_figures_do_not_hang_on_the_sampling(case: Case, monkeypatch: pytest.MonkeyPatch) -> None:
    coarse = case.check().measures
    monkeypatch.setattr(pipe_neighbours, "_FINEST", 0.05)
    monkeypatch.setattr(pipe_neighbours, "_COARSEST", 0.05)
    fine = case.check().measures
    for figure in ("least_distance", "distance_1", "close_share", "temperature_spread", "coverage_half"):
        assert getattr(coarse, figure) == pytest.approx(getattr(fine, figure), abs=0.002)
    assert coarse.mixed_share == pytest.approx(fine.mixed_share, abs=0.004)
