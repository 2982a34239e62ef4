"""A room divided in pieces that are reached through each other: each piece is laid like a room of its own.

Where a piece has no wall along which its tails could come, they pass other pieces as tails pass rooms: beside
each other, through openings at the ends of cuts and joints, square to these.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate, combinations, islice, pairwise

import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...plan.outlines.overlays import intersection, union
from ...plan.outlines.polygons import served_area
from ...plan.outlines.regions import minus, parts_of
from ...plan.tolerances import SAME_PLACE, stepped
from ..division.cuts import CutTree, cut_trees, pieces_of_fields, varied_trees
from ..division.division_job import DivisionJob
from ..division.piece_domains import border_of, near_walls
from ..lanes.relief import doorway_uses, relieved
from ..lanes.tail_order import manifold_middle
from ..lanes.walkways import Walkways, access_to_rooms
from ..model.records import Doorway, PairPlace, Segment
from ..model.tail_records import ManifoldPlace, RoutedTails, StoreyPlan, TailDemand, TailRules

__all__ = ["PieceRooms", "piece_rooms"]

_LAID = 0.96
"""Share of the ideal length that a laid field comes to."""
_EQUAL = 0.015
"""Lengths that spread by no more are left as they are."""
_LEAST_SHARE = 0.3
"""Of a piece's floor that it keeps at least when it is cut anew."""
_TRIED = 12
"""Ways to cut a room that are looked at."""
_SAME_PIECE = 0.005
"""Share of its floor by which a piece changes and is still the same: what cannot be laid in one cannot in the other."""
_STRAIGHT = 1e-6
"""Nearer to a wall is on it [m]."""
_ASIDE = 0.01
"""From the foot of a joint to the wall beside it [m]."""


@dataclass(frozen=True)
class PieceRooms:
    """The pieces of a room as rooms of a storey, in the caller's frame, the ``home`` piece with the entry first
    among equals; ``trees`` and ``shares`` tell how they are cut."""

    job: DivisionJob
    trees: tuple[CutTree, ...]
    shares: tuple[float, ...]
    plan: StoreyPlan
    manifold: ManifoldPlace

    @property
    def outlines(self) -> tuple[tuple[float, ...], ...]:
        """Boxes round the pieces and their areas, in whole millimetres: trees of other cuts may leave the same ones."""
        boxes = ((*room.bounds, room.area) for room in self.plan.rooms)
        return tuple(sorted(tuple(float(stepped(each, SAME_PLACE)) for each in box) for box in boxes))

    def keeps(self, before: PieceRooms) -> bool:
        """Whether all pieces have the floor that they had before, but for a trifle."""
        each = zip(before.plan.rooms, self.plan.rooms, strict=True)
        return all(abs(old.area / new.area - 1.0) < _SAME_PIECE for old, new in each)

    def by_field(self, lengths: Sequence[float]) -> list[Sequence[float]]:
        """Lengths of the circuits of each field between joints."""
        starts = list(accumulate((tree.count for tree in self.trees), initial=0))
        return [lengths[start:end] for start, end in pairwise(starts)]

    def spread(self, lengths: Sequence[float]) -> float:
        """(Longest - shortest) / mean, the greatest over the fields."""
        return max((max(own) - min(own)) * len(own) / sum(own) for own in self.by_field(lengths))

    def expected(self, tails: RoutedTails) -> list[float]:
        """Lengths [m] of the circuits by the floor that tails leave of their pieces."""
        spacing, clearance = self.job.request.pipe_spacing, self.job.request.wall_clearance
        lengths = [_LAID * served_area(room, spacing, clearance) / spacing for room in self.plan.rooms]
        for lane in tails.lanes:
            lengths[lane.room] -= lane.floor.area / spacing
        for route in tails.routes:
            lengths[int(route.circuit)] += route.flow.length + route.back.length
        return [max(1.0, length) for length in lengths]

    def with_lengths(self, lengths: Sequence[float], step: float = 1.0) -> PieceRooms | None:
        """Cut anew so that lengths become equal within each field, or come some part of the way there: each piece gets
        as much more floor as its circuit lacks pipe."""
        pipe = self.job.request.pipe_spacing / _LAID
        areas = [room.area for room in self.plan.rooms]
        shares: list[float] = []
        each = zip(self.by_field(lengths), self.by_field(self.shares), self.by_field(areas), strict=True)
        for own, old, floor in each:
            mean = sum(own) / len(own)
            if max(own) - min(own) <= _EQUAL * mean:
                shares += old
                continue
            shares += [
                max(_LEAST_SHARE * area, area + step * pipe * (mean - length))
                for length, area in zip(own, floor, strict=True)
            ]
        place = PairPlace(self.manifold.place, self.manifold.ahead)
        rules = _rules(self.job)
        return _cut(self.job, self.trees, tuple(shares), place, rules)


def piece_rooms(job: DivisionJob, place: PairPlace) -> Iterator[PieceRooms]:
    """Ways to cut a room, the best first, in which all pieces can be reached from ``place``, the middle of the
    pairs at the entry."""
    request, rules = job.request, _rules(job)
    counts = _counts(job)
    if counts is None:
        return
    gate = shapely.Point(job.local(place.place))
    avoid = gate.buffer(rules.width_for(sum(counts)) / 2.0 + rules.bend_radius)
    # Any border will do for a piece.
    borders = union([job.polygon, *(shapely.buffer(field, 1.0) for field in job.fields)])
    choices = [
        cut_trees(field, count, request.pipe_spacing, avoid, borders)
        for field, count in zip(job.fields, counts, strict=True)
    ]
    known = set()
    for trees in islice(varied_trees(choices), _TRIED):
        found = _cut(job, trees, (1.0,) * sum(counts), place, rules)
        if found is not None and found.outlines not in known:
            known.add(found.outlines)
            yield found


def _counts(job: DivisionJob) -> list[int] | None:
    """Circuits by field: as many in all as are asked for, more where tails have a long way."""
    request, gate = job.request, shapely.Point(job.local(job.request.entry))
    if request.count is None or request.count < len(job.fields):
        return None
    needs = []
    for field in job.fields:
        tails = 2.0 * shapely.distance(field, gate) + math.sqrt(field.area)
        length = served_area(field, request.pipe_spacing, request.wall_clearance) / request.pipe_spacing
        needs.append(length / max(1.0, request.maximum_circuit_length - tails))
    counts = [1] * len(needs)
    while sum(counts) < request.count:
        fullest = max(range(len(needs)), key=lambda index: (round(needs[index] / counts[index], 9), -index))
        counts[fullest] += 1
    return counts


def _rules(job: DivisionJob) -> TailRules:
    return TailRules(job.request.tail_pitch, job.request.wall_clearance, job.request.bend_radius)


def _cut(
    job: DivisionJob,
    trees: tuple[CutTree, ...],
    shares: tuple[float, ...],
    place: PairPlace,
    rules: TailRules,
) -> PieceRooms | None:
    pieces = pieces_of_fields(trees, job.fields, shares)
    if pieces is None:
        return None
    gap = max(0.0, job.request.pipe_spacing / 2.0 - rules.wall_clearance)
    rooms = [_shrunk(piece, job.polygon, gap) for piece in pieces]
    if any(room is None for room in rooms):
        return None
    outer = tuple(job.outer_polygon(room) for room in rooms if room is not None)
    manifold = _manifold(outer, place, rules)
    wide = rules.width_for(len(pieces))
    openings = [
        opening
        for pair in combinations(range(len(pieces)), 2)
        for opening in _openings(job, pieces, pair, gap, rules)
    ]
    plan = StoreyPlan(outer, tuple(opening.doorway(outer, gap, wide) for opening in openings))
    walkways = Walkways(plan, rules)
    demands = [TailDemand(str(number), number) for number in range(len(pieces))]
    reached = relieved(walkways, manifold, access_to_rooms(walkways, manifold), demands)
    if len(reached) < len(pieces):
        return None
    uses = doorway_uses(reached, demands)
    fitted = tuple(
        opening.doorway(outer, gap, rules.width_for(uses[number]))
        for number, opening in enumerate(openings)
        if number in uses
    )
    return PieceRooms(job, trees, shares, StoreyPlan(outer, fitted), manifold)


def _shrunk(piece: Polygon, room: Polygon, gap: float) -> Polygon | None:
    border = border_of(piece, near_walls(room))
    if gap <= 0.0 or border.is_empty:
        return shapely.orient_polygons(piece)
    parts = parts_of(minus(piece, shapely.buffer(border, gap, cap_style="square", join_style="mitre")))
    return shapely.orient_polygons(max(parts, key=lambda part: part.area)) if parts else None


def _manifold(rooms: Sequence[Polygon], place: PairPlace, rules: TailRules) -> ManifoldPlace:
    (x, y), (dx, dy) = place.place, place.ahead
    ahead = shapely.Point(x + 1e-3 * dx, y + 1e-3 * dy)
    home = min(range(len(rooms)), key=lambda number: round(float(shapely.distance(rooms[number], ahead)), 4))
    # Ports at the foot of a joint stand on one side of it.
    outline = rooms[home].exterior
    near = outline.interpolate(outline.project(shapely.Point(place.place)))
    beside = [shapely.Point(near.x + side * dy, near.y - side * dx) for side in (0.0, _ASIDE, -_ASIDE)]
    on_wall = next(
        (at for at in beside if shapely.distance(outline, at) < _STRAIGHT and _has_wall(outline, at, place)),
        near,
    )
    asked = ManifoldPlace((on_wall.x, on_wall.y), place.ahead, home)
    middle = manifold_middle(StoreyPlan(tuple(rooms), ()), asked, len(rooms), rules)[0]
    return replace(asked, place=middle)


def _has_wall(outline: LineString, at: shapely.Point, place: PairPlace) -> bool:
    """Whether the outline goes on to both sides of a place square to the way of the pairs."""
    dx, dy = place.ahead
    step = _ASIDE / 2.0
    sides = [shapely.Point(at.x + side * dy, at.y - side * dx) for side in (step, -step)]
    return bool((shapely.distance(outline, sides) < _STRAIGHT).all())


@dataclass(frozen=True)
class _Opening:
    """An opening between two pieces that begins at ``start`` and may go on to ``end`` [m], in the caller's
    frame."""

    rooms: tuple[int, int]
    start: Point
    end: Point

    def doorway(self, rooms: Sequence[Polygon], gap: float, width: float) -> Doorway:
        (x0, y0), (x1, y1) = self.start, self.end
        length = math.dist(self.start, self.end)
        ux, uy = (x1 - x0) / length, (y1 - y0) / length
        run = min(width, length)
        sides = [
            ((x0 - side * uy, y0 + side * ux), (x0 + run * ux - side * uy, y0 + run * uy + side * ux))
            for side in (gap, -gap)
        ]
        one, other = (_nearest(rooms[room], sides) for room in self.rooms)
        return Doorway(self.rooms, (one, other))


def _nearest(room: Polygon, sides: Sequence[Segment]) -> Segment:
    return min(sides, key=lambda side: round(float(shapely.distance(room, LineString(side))), 6))


def _openings(
    job: DivisionJob, pieces: Sequence[Polygon], pair: tuple[int, int], gap: float, rules: TailRules
) -> Iterator[_Opening]:
    """At both ends of every straight border of two pieces."""
    one, other = pair
    shared = intersection(pieces[one].boundary, pieces[other].boundary)
    lines = [part for part in shapely.get_parts(shapely.line_merge(shared)) if part.length > 0.0]
    margin = rules.first_lane - rules.wall_clearance - rules.tail_pitch / 2.0 + gap
    for line in lines:
        straight = line.simplify(1e-6)
        points = job.outer_points(shapely.get_coordinates(straight)).tolist()
        for a, b in pairwise(points):
            length = math.dist(a, b)
            if length < rules.width_for(1) + 2.0 * margin:
                continue
            ux, uy = (b[0] - a[0]) / length * margin, (b[1] - a[1]) / length * margin
            first, last = (a[0] + ux, a[1] + uy), (b[0] - ux, b[1] - uy)
            yield _Opening(pair, first, last)
            yield _Opening(pair, last, first)
