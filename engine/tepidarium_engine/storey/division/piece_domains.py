"""Where the pipe of one piece may lie: off walls, half a spacing off the cuts, off the tails of others."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...plan.outlines.overlays import difference
from ...plan.outlines.regions import Region, common, dilated, joined, minus, opened, parts_of

__all__ = [
    "Spacing",
    "Taken",
    "border_of",
    "cleared",
    "entry_spot",
    "near_walls",
    "piece_domain",
    "piece_outline",
    "served_length",
]

Taken: TypeAlias = tuple[LineString, float]
"""A line that is a tail's, and the distance that pipe of others keeps from it [m]."""
_TOUCH = 1e-6
"""What lies no nearer than this to where it would count only touches [m]."""
_SLANT = -0.02
"""By how much nearer to a corner than the bends ask for a pair may enter, on the slant [m]."""


@dataclass(frozen=True, slots=True)
class Spacing:
    """The distances that hold in a divided room [m]; ``tail_gap``: of pipe in a field from tails of others."""

    pipe: float
    wall: float
    radius: float
    pitch: float

    @property
    def tail_gap(self) -> float:
        return max((self.pipe + self.pitch) / 2.0, 0.64 * self.pipe)

    @property
    def lane_start(self) -> float:
        """Distance of the first lane from the wall: a pair must be able to turn into it."""
        return max(self.wall, self.radius) + 1e-3


def border_of(piece: Polygon, walls: shapely.Geometry) -> shapely.Geometry:
    """What of a piece's edge is no wall: cuts and joints; ``walls`` as ``near_walls`` gives them."""
    return difference(piece.boundary, walls)


def near_walls(room: Polygon) -> shapely.Geometry:
    """A hair's breadth about the walls of a room."""
    return shapely.buffer(room.boundary, 1e-5)


def piece_domain(
    piece: Polygon, free: Region, border: shapely.Geometry, taken: Sequence[Taken], spacing: Spacing
) -> tuple[Polygon | None, float]:
    """Where the centre line may lie in a piece, and the area [m2] of what is cut off from the rest of it."""
    edges = [(part, spacing.pipe / 2.0) for part in shapely.get_parts(border)]
    covered = joined((_wide(edges, "square"), _wide(_near(piece, taken))))
    return _largest(minus(common(free, piece), covered), spacing)


def cleared(domain: Polygon, taken: Sequence[Taken], spacing: Spacing) -> tuple[Polygon | None, float]:
    """What other lines leave of a domain, and the area [m2] of what they cut off; the domain itself when they are
    nowhere near."""
    near = _near(domain, taken)
    return _largest(minus(domain, _wide(near)), spacing) if near else (domain, 0.0)


def _largest(domain: Region, spacing: Spacing) -> tuple[Polygon | None, float]:
    whole = opened(domain, 0.4 * spacing.pipe)
    parts = sorted(parts_of(whole), key=lambda part: (-part.area, part.bounds))
    if not parts:
        return None, 0.0
    return parts[0], math.fsum(part.area for part in parts[1:])


def _near(area: Polygon, taken: Sequence[Taken]) -> list[Taken]:
    lines, gaps = [line for line, _ in taken], [gap - _TOUCH for _, gap in taken]
    return [one for one, near in zip(taken, shapely.dwithin(lines, area, gaps).tolist(), strict=True) if near]


def _wide(lines: Sequence[Taken], cap: Literal["flat", "square"] = "flat") -> Region:
    """All within their distance of lines."""
    drawn = [one for one in lines if one[0].length > 1e-6]
    wide = shapely.buffer(
        [line for line, _ in drawn],
        [gap for _, gap in drawn],
        cap_style=cap,
        join_style="mitre",
        mitre_limit=2.5,
    )
    return joined(wide.tolist())


def piece_outline(domain: Polygon, wall_clearance: float) -> Polygon | None:
    """The room that a piece is to the pipe in it: its domain with the clearance added all round."""
    grown = parts_of(dilated(domain, wall_clearance))
    return grown[0].simplify(1e-5) if len(grown) == 1 else None


def served_length(domain: Polygon, pipe_spacing: float) -> float:
    """Length of pipe that a domain ideally takes [m]."""
    return float(
        shapely.buffer(domain, pipe_spacing / 2.0, join_style="mitre", mitre_limit=2.5).area / pipe_spacing
    )


def entry_spot(outline: Polygon, meets: Point, heading: Point, spacing: Spacing) -> Point:
    """Where a pair that travels with ``heading`` from ``meets`` on enters a piece.

    On the edge that lies square across its way, as near as leaves room for the bend of the outermost pipe at
    the corner.
    """
    points = shapely.get_coordinates(shapely.orient_polygons(outline).exterior).tolist()
    convex = spacing.wall + spacing.radius + 0.5 * spacing.pitch - _SLANT
    reflex = max(0.5 * spacing.pitch, spacing.radius + 0.5 * spacing.pitch - spacing.wall) + 1e-3
    found: list[tuple[float, Point]] = []
    around = [points[-2], *points, points[1]]
    for before, (x0, y0), (x1, y1), after in zip(around, around[1:], around[2:], around[3:], strict=False):
        length = math.hypot(x1 - x0, y1 - y0)
        if length < 2.0 * spacing.pitch:
            continue
        ux, uy = (x1 - x0) / length, (y1 - y0) / length
        facing = -uy * heading[0] + ux * heading[1]  # inward normal of the edge along the way
        if facing < 0.5:
            continue
        along = (meets[0] - x0) * ux + (meets[1] - y0) * uy
        low = reflex if _turns_right(before, (x0, y0), (x1, y1)) else convex
        high = reflex if _turns_right((x0, y0), (x1, y1), after) else convex
        if low + high > length:
            low, high = length / 2.0, length / 2.0
        along = min(max(along, low), length - high)
        place = (x0 + along * ux, y0 + along * uy)
        away = math.dist(place, meets) + 0.3 * (1.0 - facing) + 0.2 * max(0.0, 2.0 * convex - length)
        found.append((round(away, 6), place))
    if not found:
        spot = outline.exterior.interpolate(outline.exterior.project(shapely.Point(meets)))
        return (spot.x, spot.y)
    return min(found)[1]


def _turns_right(before: Sequence[float], here: Sequence[float], after: Sequence[float]) -> bool:
    ax, ay, bx, by = here[0] - before[0], here[1] - before[1], after[0] - here[0], after[1] - here[1]
    return ax * by - ay * bx < 0.0
