"""Where pipe lies at another spacing than asked for, measured on the pipe as laid."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import shapely
from shapely import LineString, Polygon

from ...elementwise import Array
from ..outlines.denser_area import Spacings
from ..outlines.overlays import intersection, union
from ..outlines.polygons import RoomOutline
from ..pipes.pipe_path import Line, PipePath
from .route_records import LaidSpacing

__all__ = ["laid_spacings"]

NOTED = 0.1
"""A spacing is told when it differs from the one asked for by more than this share."""
_LEAST_AREA = 0.25
"""Of floor that is told [m2]."""
_LEAST_SHARE = 0.02
"""Of floor that is told, as a share of the room."""
_MOST = 16
_SAME_PART = 0.75
"""Places within twice this many spacings belong to one part of the floor."""
_SAMPLE = 0.5
"""Greatest distance between places that are looked from, in spacings."""
_FROM, _TO = 0.3, 1.6
"""How near and how far the next pipe is looked for, in spacings."""
_CHORD_ERROR = 0.001
_LEG = 12
"""Up to so many pipes across, floor is a leg of the room whose width decides the spacing."""
_SAME_SPACING = 0.2
"""By which share the average across a leg may differ from what is measured and still explain it."""
_EVEN_ENOUGH = 0.25
"""Number of pipes by which a leg may miss what the spacing asks for without being to blame."""


def laid_spacings(
    path: PipePath, room: RoomOutline, spacings: Spacings, wall_clearance: float
) -> tuple[LaidSpacing, ...]:
    """Parts of the floor, largest first, whose pipes lie closer or wider than asked for; all in the frame of
    the drawing, ``spacings`` too. What is seen square to straight pipe up to the next pipe counts, half for
    either."""
    x, y = room.origin
    local = path.moved((-x, -y))
    gaps = _gaps(local, spacings.widest)
    middles, to_pipe = gaps[:, :2] + room.origin, gaps[:, 4:6] * gaps[:, 2:3] / 2.0
    asked = np.array([spacings.at(middles + way) for way in (-to_pipe, 0.0 * to_pipe, to_pipe)])
    wide = gaps[:, 2] > (1.0 + NOTED) * asked.max(axis=0)
    close = gaps[:, 2] < (1.0 - NOTED) * asked.min(axis=0)
    least = max(_LEAST_AREA, _LEAST_SHARE * room.area)
    found = [
        part for kind in (wide, close) for part in _parts(gaps[kind], spacings.widest) if _area(part) >= least
    ]
    found.sort(key=lambda part: (-round(_area(part), 6), part[0].tolist()))
    line = shapely.linestrings(local.polyline(_CHORD_ERROR))
    laid = (_laid_spacing(part, line, room, spacings, wall_clearance) for part in found[:_MOST])
    return tuple(replace(each, place=(each.place[0] + x, each.place[1] + y)) for each in laid)


def _gaps(path: PipePath, pipe_spacing: float) -> Array:
    """A row for each gap seen: its middle x and y, its width, the length of pipe that sees it, and the unit
    vector across. All lengths [m]."""
    points, along, length = _samples(path, pipe_spacing)
    across = np.column_stack((-along[:, 1], along[:, 0]))
    points, across = np.concatenate((points, points)), np.concatenate((across, -across))
    near, far = _FROM * pipe_spacing, _TO * pipe_spacing
    rays = shapely.linestrings(np.stack((points + near * across, points + far * across), axis=1))
    corners = path.polyline(_CHORD_ERROR)
    chords = shapely.linestrings(np.stack((corners[:-1], corners[1:]), axis=1))
    ray, chord = shapely.STRtree(chords).query(rays, predicate="intersects")
    widths = np.full(len(rays), math.inf)
    met = shapely.distance(intersection(rays[ray], chords[chord]), shapely.points(points[ray]))
    np.minimum.at(widths, ray, met)
    seen = np.isfinite(widths)
    middles = points + across * np.where(seen, widths, 0.0)[:, None] / 2.0
    rows = np.column_stack((middles, widths, np.concatenate((length, length)), across))
    chosen: Array = rows[seen]
    return chosen


def _samples(path: PipePath, pipe_spacing: float) -> tuple[Array, Array, Array]:
    """Middles of short stretches of the straight pieces, their directions and lengths [m]."""
    starts, ends = [], []
    for piece in path.pieces:
        if isinstance(piece, Line) and piece.length >= _SAMPLE * pipe_spacing:
            count = math.ceil(piece.length / (_SAMPLE * pipe_spacing) - 1e-9)
            shares = np.linspace(0.0, 1.0, count + 1)[:, None]
            points = np.array(piece.start) + shares * (np.array(piece.end) - piece.start)
            starts.append(points[:-1])
            ends.append(points[1:])
    if not starts:
        return np.empty((0, 2)), np.empty((0, 2)), np.empty(0)
    first, last = np.concatenate(starts), np.concatenate(ends)
    length = np.sqrt(((last - first) ** 2).sum(axis=1))
    return (first + last) / 2.0, (last - first) / length[:, None], length


def _parts(gaps: Array, pipe_spacing: float) -> list[Array]:
    """The gaps in groups of those that lie together."""
    if len(gaps) == 0:
        return []
    spots = shapely.buffer(shapely.points(gaps[:, :2]), _SAME_PART * pipe_spacing, quad_segs=2)
    areas = shapely.get_parts(union(spots))
    spot, area = shapely.STRtree(areas).query(shapely.points(gaps[:, :2]), predicate="within")
    return [part for index in range(len(areas)) if len(part := gaps[spot[area == index]])]


def _area(part: Array) -> float:
    """Floor between the pipes [m2]: each gap is seen from both its sides."""
    return math.fsum((part[:, 2] * part[:, 3] / 2.0).tolist())


def _laid_spacing(
    part: Array, path: LineString, room: RoomOutline, spacings: Spacings, wall_clearance: float
) -> LaidSpacing:
    area = _area(part)
    spacing = 2.0 * area / math.fsum(part[:, 3].tolist())
    centre = part[:, :2].mean(axis=0)
    away = np.round(((part[:, :2] - centre) ** 2).sum(axis=1), 6)
    typical = part[np.lexsort((part[:, 1], part[:, 0], away))[0]]
    across = _line_across(room.polygon, typical)
    width = float(across.length) - 2.0 * wall_clearance
    count = len(shapely.get_parts(intersection(across, path)))
    asked = float(spacings.at(typical[None, :2] + room.origin)[0])
    place = (float(typical[0]), float(typical[1]))
    if asked < spacing <= (1.0 + NOTED) * spacings.widest and asked < spacings.widest:
        reason = (
            "only the pipes along the wall of a strip lie closer, those across it keep the room's spacing"
        )
    else:
        reason = _reason(count, width, spacing, asked)
    return LaidSpacing(place, area, spacing, count, reason)


def _line_across(floor: Polygon, gap: Array) -> LineString:
    """The line across the pipes from wall to wall through the middle of a gap."""
    x, y, across_x, across_y = (float(gap[index]) for index in (0, 1, 4, 5))
    reach = floor.length
    line = LineString(
        ((x - reach * across_x, y - reach * across_y), (x + reach * across_x, y + reach * across_y))
    )
    chords = shapely.get_parts(intersection(floor, line))
    here = shapely.Point(x, y)
    return min(chords, key=lambda chord: shapely.distance(chord, here))


def _reason(count: int, width: float, spacing: float, asked: float) -> str:
    """Why pipes cannot lie at the spacing asked for. Across a leg of the room flow and return make an even
    number of pipes, which need not be the number that the spacing asks for."""
    wanted = width / asked + 1.0
    even = count % 2 == 0 and 2 <= count <= _LEG and abs(count - wanted) >= _EVEN_ENOUGH
    if not even or abs(width / (count - 1) - spacing) > _SAME_SPACING * spacing:
        return "the floor that the pipes around leave free is no whole number of spacings wide"
    return (
        f"flow and return make an even number of pipes across the {width:.2f} m between the outermost ones, {count} "
        f"where the spacing would take {wanted:.1f}"
    )
