"""Corners of a pipe that is still a polyline, made such that bends fit: before anything is bent.

Steps narrower than two bends become a slanted leg, cut corners one corner, and corners round which the bend
would come too near to a wall move away from it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

import numpy as np
import shapely

from ...checking import Point
from ..model.field import Field
from ..pipes.fillets import RADIUS_TOLERANCE, distinct, turn_at
from .bend_arcs import bend_points
from .bend_space import CLEARANCE_SLACK, BendSpace

__all__ = ["COMFORTABLE_DISTANCE", "LEAST_DISTANCE", "eased", "kept_clear", "simplified"]

COMFORTABLE_DISTANCE = 0.72
"""From other pipe that a change of the route may leave, in spacings; where it is less already, as it was."""
LEAST_DISTANCE = 0.605
"""From other pipe that a bend may leave in need, in spacings."""
_WIDEST_MERGED_TURN = 2.2
"""Two corners that turn by more together are a way about and not a cut corner [rad]."""
_DRAWN = (
    (1.0, 1.0, 0.0),
    (0.0, 1.0, 0.0),
    (1.0, 0.0, 0.0),
    (0.0, 1.0, 0.2),
    (1.0, 0.0, -0.2),
    (0.0, 1.0, 0.5),
    (1.0, 0.0, -0.5),
)
"""How far the corners of a step are drawn apart, as shares, and how far the step is shifted, in bend radii."""
_TRIFLE = 1e-9
_PASSES = 6
_BISECTIONS = 24
_MOST_MOVED = 0.5
"""Of a corner away from a wall, in bend radii."""

Corners = list[Point]


def simplified(corners: Sequence[Point], tolerance: float, space: BendSpace) -> Corners:
    """Without corners that stray from the straight by at most ``tolerance`` [m], where floor and clearance
    allow. The ends stay."""
    corners = distinct(corners)
    line = shapely.LineString(corners)
    fewer = shapely.get_coordinates(shapely.simplify(line, tolerance, preserve_topology=False)).tolist()
    kept = [0]
    for x, y in fewer[1:]:
        kept.append(next(i for i in range(kept[-1] + 1, len(corners)) if tuple(corners[i]) == (x, y)))
    chords = shapely.linestrings([(corners[a], corners[b]) for a, b in pairwise(kept)])
    held = space.holds(chords)
    points: Corners = [corners[0]]
    for (a, b), inside in zip(pairwise(kept), held.tolist(), strict=True):
        points.extend([corners[b]] if inside else corners[a + 1 : b + 1])
    return points


def eased(corners: Sequence[Point], space: BendSpace) -> Corners:
    """With corners that share too short a leg drawn apart or merged where nothing is in the way [m]."""
    points, bend_radius = list(corners), space.field.bend_radius
    for _ in range(_PASSES):
        changed = False
        for first, second in _short_legs(points, bend_radius):
            at = next((i for i, leg in enumerate(pairwise(points)) if leg == (first, second)), None)
            if at is None or not 1 <= at <= len(points) - 3:
                continue
            before, after = points[at - 1], points[at + 2]
            turns = turn_at(before, first, second), turn_at(first, second, after)
            way = _slanted_step if turns[0] * turns[1] < 0.0 else _merged_corner
            for new in way(points, at, bend_radius):
                if _free(points, at, new, space):
                    points = distinct([*points[:at], *new, *points[at + 2 :]])
                    changed = True
                    break
        if not changed:
            break
    return points


def _short_legs(points: Corners, bend_radius: float) -> list[tuple[Point, Point]]:
    """Legs between two corners whose bends do not fit on them, the shortest first."""
    tangents = [_tangent(points, i, bend_radius) for i in range(len(points))]
    found = []
    for i, (a, b) in enumerate(pairwise(points)):
        length, need = math.dist(a, b), tangents[i] + tangents[i + 1]
        if 0 < i < len(points) - 2 and length < need * (1.0 - RADIUS_TOLERANCE):
            found.append((round(length, 6), i, (a, b)))
    return [leg for _, _, leg in sorted(found)]


def _tangent(points: Corners, index: int, bend_radius: float) -> float:
    """How much of each leg the bend at a corner takes [m]; the ends of the pipe take nothing."""
    if not 0 < index < len(points) - 1:
        return 0.0
    return bend_radius * math.tan(abs(turn_at(*points[index - 1 : index + 2])) / 2.0)


def _slanted_step(points: Corners, at: int, bend_radius: float) -> Iterator[Corners]:
    """The two corners of a step drawn apart along their legs by the least that lets the bends fit.

    Both alike first; then beside one of them, for a step round the corner of a wall.
    """
    before, first, second, after = points[at - 1 : at + 3]
    back, ahead = math.dist(before, first), math.dist(second, after)
    if min(back, ahead) < _TRIFLE:
        return
    for first_share, second_share, shift in _DRAWN:

        def drawn(by: float, shares: Sequence[float] = (first_share, second_share, shift)) -> Corners:
            behind, beyond = (
                shares[0] * by - shares[2] * bend_radius,
                shares[1] * by + shares[2] * bend_radius,
            )
            return [_along(first, before, behind / back), _along(second, after, beyond / ahead)]

        def spare(by: float) -> float:
            """Of the slanted leg [m]."""
            a, b = drawn(by)
            turns = abs(turn_at(before, a, b)), abs(turn_at(a, b, after))
            return math.dist(a, b) - bend_radius * sum(math.tan(turn / 2.0) for turn in turns)

        most = min(back + shift * bend_radius, ahead - shift * bend_radius) * (1.0 - 1e-6)
        if most <= 0.0 or spare(most) < 0.0:
            continue
        low, high = 0.0, most
        for _ in range(_BISECTIONS):
            middle = (low + high) / 2.0
            low, high = (low, middle) if spare(middle) >= 0.0 else (middle, high)
        trial = [*points[:at], *drawn(high), *points[at + 2 :]]
        if _fits(trial, at - 1, bend_radius) and _fits(trial, at + 1, bend_radius):
            yield drawn(high)


def _merged_corner(points: Corners, at: int, bend_radius: float) -> Iterator[Corners]:
    """The one corner in which the legs beyond the two corners meet."""
    before, first, second, after = points[at - 1 : at + 3]
    turn = turn_at(before, first, second) + turn_at(first, second, after)
    if abs(turn) > _WIDEST_MERGED_TURN:
        return
    ux, uy = first[0] - before[0], first[1] - before[1]
    wx, wy = after[0] - second[0], after[1] - second[1]
    cross = ux * wy - uy * wx
    if abs(cross) <= 1e-3 * math.hypot(ux, uy) * math.hypot(wx, wy):
        return
    along = ((second[0] - before[0]) * wy - (second[1] - before[1]) * wx) / cross
    corner = (before[0] + along * ux, before[1] + along * uy)
    trial = [*points[:at], corner, *points[at + 2 :]]
    if _fits(trial, at - 1, bend_radius) and _fits(trial, at, bend_radius):
        yield [corner]


def _fits(points: Corners, leg: int, bend_radius: float) -> bool:
    need = _tangent(points, leg, bend_radius) + _tangent(points, leg + 1, bend_radius)
    return math.dist(points[leg], points[leg + 1]) >= need * (1.0 - RADIUS_TOLERANCE)


def _along(start: Point, towards: Point, share: float) -> Point:
    return (start[0] + share * (towards[0] - start[0]), start[1] + share * (towards[1] - start[1]))


def _free(points: Corners, at: int, new: Corners, space: BendSpace) -> bool:
    """Whether the bent new stretch keeps off the walls and other pipe."""
    chain = [points[at - 1], *new, points[at + 2]]
    radius = space.field.bend_radius
    bends = bend_points(np.array([chain[i - 1 : i + 2] for i in range(1, len(chain) - 1)]), radius)
    bent = shapely.linestrings(bends.reshape(-1, 2))
    if not space.holds(np.array([bent], dtype=object))[0]:
        return False
    others = [leg for i, leg in enumerate(pairwise(points)) if not at - 2 <= i <= at + 2]
    if not others:
        return True
    lines = shapely.linestrings(others)
    distance = float(shapely.distance(bent, lines).min())
    if distance >= COMFORTABLE_DISTANCE * space.field.pipe_spacing:
        return True
    old = shapely.linestrings(points[at - 1 : at + 3])
    return distance >= float(shapely.distance(old, lines).min()) - 1e-6


def kept_clear(corners: Sequence[Point], space: BendSpace) -> Corners:
    """With corners moved outwards whose bend would come too near to the wall that they go round [m].

    At the corner of a wall passed at the clearance c that is (R - c) (1 / cos(a / 2) - 1) for a turn by a.
    """
    points, bend_radius = list(corners), space.field.bend_radius
    legs = [math.dist(a, b) for a, b in pairwise(points)]
    at, tangents = np.cumsum([0.0, *legs]), [_tangent(points, i, bend_radius) for i in range(len(points))]
    fits = [length >= tangents[i] + tangents[i + 1] - _TRIFLE for i, length in enumerate(legs)]
    inner = [
        i
        for i in range(1, len(points) - 1)
        if fits[i - 1] and fits[i] and space.doorway < at[i] < at[-1] - space.doorway
    ]
    if not inner:
        return points
    arcs = bend_points(np.array([points[i - 1 : i + 2] for i in inner]), bend_radius)
    lacking = space.shortfall(arcs.reshape(-1, 2)).reshape(len(inner), -1).max(axis=1)
    for i, lack in zip(inner, lacking.tolist(), strict=True):
        if lack > CLEARANCE_SLACK:
            moved = _moved_out(points, i, space)
            if moved is not None and _keeps_off(points, i, moved, space.field):
                points[i] = moved
    return points


def _moved_out(points: Corners, index: int, space: BendSpace) -> Point | None:
    """The corner moved along its diagonal, away from the arc's centre, until the arc keeps clear."""
    before, corner, after = points[index - 1 : index + 2]
    bend_radius = space.field.bend_radius
    x, y = corner
    back, ahead = math.dist(before, corner), math.dist(corner, after)
    if min(back, ahead) < _TRIFLE:
        return None
    dx = (x - before[0]) / back - (after[0] - x) / ahead
    dy = (y - before[1]) / back - (after[1] - y) / ahead
    size = math.hypot(dx, dy)
    if size < _TRIFLE:  # as good as straight: no diagonal, and nothing to gain
        return None
    moved = 0.0
    for _ in range(4):
        place = (x + moved * dx / size, y + moved * dy / size)
        lack = float(space.shortfall(bend_points(np.array([[before, place, after]]), bend_radius)[0]).max())
        if lack <= CLEARANCE_SLACK:
            return place
        moved += lack
        if moved > _MOST_MOVED * bend_radius:
            break
    return None


def _keeps_off(points: Corners, index: int, moved: Point, field: Field) -> bool:
    """Whether the bend of the moved corner stays far enough from other pipe."""
    others = [leg for i, leg in enumerate(pairwise(points)) if not index - 2 <= i <= index + 1]
    if not others:
        return True
    arc = bend_points(np.array([[points[index - 1], moved, points[index + 1]]]), field.bend_radius)[0]
    distance = shapely.distance(shapely.linestrings(arc), shapely.linestrings(others)).min()
    return bool(distance >= LEAST_DISTANCE * field.pipe_spacing)
