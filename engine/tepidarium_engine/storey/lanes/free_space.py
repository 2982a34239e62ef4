"""Floor of a room that is left to one pair of pipes when others have yet to pass beside it.

A pair that crosses a room from one place on its outline to another parts the outline in two. On every stretch
of each part there is to be width for the pairs that must still pass between that stretch and this pair; with
that kept, pairs one after the other find their way beside each other without crossing (thick non-crossing
paths in polygons, Mitchell and Polishchuk 2007).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...plan.outlines.loops import Loop
from ...plan.outlines.regions import MITRE_LIMIT, Region, dilated, joined, minus
from ..model.tail_records import TailRules

__all__ = ["Crossing", "beside", "beside_voids", "between", "floor_for", "hugged_side", "lies_right"]

_HAIR = 1e-6
"""By so much widths are taken smaller, so that what fits exactly passes [m]."""
_LANE_HAIR = 3e-6
"""By so much a lane takes less than its width [m]: its corners lie up to 2e-6 m off where tracks that near are one, and
between two lanes a slit of floor must stay for the pair that fits exactly."""
_SLANT_HAIR = 1.5e-5
"""The same of a lane that slants a little: two of them that come side by side out of a doorway are nearer by that much
at most [m]."""
_SLIGHT = 0.015
"""Slope up to which a lane slants a little: 15 mm in a metre."""
_SLIT = 1e-3
"""Half the width of a slit through the floor [m]."""


_SHARPEST = 2.0 / MITRE_LIMIT**2 - 1.0
"""Cosine of the sharpest turn of the outline that is mitred."""


class Crossing(NamedTuple):
    """Positions [m] on the outline at which a pair enters the room and leaves it."""

    enters: float
    leaves: float


@dataclass(frozen=True, slots=True)
class _Stretch:
    start: float
    span: float


def floor_for(
    floor: Region,
    outline: Loop,
    index: int,
    crossings: Sequence[Crossing],
    *,
    pending: Sequence[int],
    rules: TailRules,
) -> Region:
    """Floor for pair ``index`` less the width that the ``pending`` ones need beside it.

    Pairs are numbered from the right as they enter: the right-hand part of the outline, from where a pair
    enters counter-clockwise to where it leaves, is shared with the pairs before it, the left-hand part with
    those after it.
    """
    stretches = [
        _widened(
            _right(crossings[other], outline) if other < index else _left(crossings[other], outline),
            (between(index, other, pending) + 1) * rules.pair_width - _HAIR,
            outline,
        )
        for other in pending
        if other != index
    ]
    taken = [
        piece
        for level, stretch in _levels(stretches, outline.length)
        for piece in _strip(outline, stretch, rules.first_lane + level * rules.pair_width - _HAIR)
    ]
    return minus(floor, joined(taken))


def beside_voids(
    voids: Sequence[tuple[Polygon, int]],
    outline: Loop,
    index: int,
    crossing: Crossing,
    *,
    pending: Sequence[int],
    rules: TailRules,
) -> Region:
    """Floor beside voids that pair ``index`` leaves free.

    With each void comes the number of pairs that pass it on its right, as they come: the others pass on the
    left. Beside the void there is to be width for the ``pending`` pairs between it and this one; on its other
    side the floor is slit.
    """
    taken: list[Region] = []
    for void, passing in voids:
        to_right = index < passing
        between = range(index + 1, passing) if to_right else range(passing, index)
        count = sum(other in between for other in pending)
        taken.append(dilated(void, rules.pair_clearance + count * rules.pair_width - _HAIR))
        stretch = _left(crossing, outline) if to_right else _right(crossing, outline)
        # Not near where the pair itself comes in and leaves.
        margin = min(rules.first_lane + 2.0 * rules.pair_width, stretch.span / 3.0)
        edge = LineString(outline.stretch(stretch.start + margin, stretch.start + stretch.span - margin))
        taken.append(_polygonal(shapely.buffer(shapely.shortest_line(void, edge), _SLIT)))
    return joined(taken)


def lies_right(void: Polygon, corners: Sequence[Point], outline: Loop, crossing: Crossing) -> bool:
    """Whether a way from outline to outline leaves a void on its right."""
    edge = outline.stretch(crossing.enters, crossing.leaves).tolist()
    side = Polygon([*edge, *reversed(corners)])
    return bool(shapely.make_valid(side).covers(void.representative_point()))


def _right(crossing: Crossing, outline: Loop) -> _Stretch:
    return _Stretch(crossing.enters, (crossing.leaves - crossing.enters) % outline.length)


def _left(crossing: Crossing, outline: Loop) -> _Stretch:
    return _Stretch(crossing.leaves, (crossing.enters - crossing.leaves) % outline.length)


def between(index: int, other: int, pending: Sequence[int]) -> int:
    """How many pending pairs are to pass between two."""
    low, high = sorted((index, other))
    return sum(low < each < high for each in pending)


def _widened(stretch: _Stretch, by: float, outline: Loop) -> _Stretch:
    """Longer by so much [m] at both ends, where its pair and those beside it run square to the outline."""
    return _Stretch(stretch.start - by, min(stretch.span + 2.0 * by, outline.length - 1e-6))


def _levels(stretches: Sequence[_Stretch], length: float) -> list[tuple[int, _Stretch]]:
    """Stretches of the outline that at least 1, 2, ... of the given ones share."""
    marks = sorted({stretch.start % length for stretch in stretches})
    marks = sorted({*marks, *((stretch.start + stretch.span) % length for stretch in stretches)})
    pieces = [(a, (b - a) % length) for a, b in zip(marks, [*marks[1:], *marks[:1]], strict=True)]
    counts = [
        sum((a + span / 2.0 - stretch.start) % length < stretch.span for stretch in stretches)
        for a, span in pieces
    ]
    found = []
    for level in range(1, max(counts, default=0) + 1):
        found += [(level, stretch) for stretch in _joined_pieces(pieces, [n >= level for n in counts])]
    return found


def _joined_pieces(pieces: Sequence[tuple[float, float]], chosen: Sequence[bool]) -> list[_Stretch]:
    """Chosen pieces that follow each other round the outline, as one."""
    if all(chosen):
        return [_Stretch(pieces[0][0], sum(span for _, span in pieces))]
    first = chosen.index(False)
    found: list[_Stretch] = []
    open_piece = False
    for at in range(first, first + len(pieces)):
        start, span = pieces[at % len(pieces)]
        if not chosen[at % len(pieces)]:
            open_piece = False
        elif open_piece:
            found[-1] = _Stretch(found[-1].start, found[-1].span + span)
        else:
            found.append(_Stretch(start, span))
            open_piece = True
    return found


def _strip(outline: Loop, stretch: _Stretch, width: float) -> list[Polygon]:
    """Floor within ``width`` [m] of a stretch of the outline, square to its ends: a rectangle on each straight piece,
    and what mitres where it turns away from the floor."""
    points = outline.stretch(stretch.start, stretch.start + min(stretch.span, outline.length - 1e-6))
    steps = np.diff(points, axis=0)
    lengths = np.hypot(*steps.T)
    long = lengths > 1e-9
    starts, ends, units = points[:-1][long], points[1:][long], steps[long] / lengths[long, None]
    across = width * np.stack((-units[:, 1], units[:, 0]), axis=1)
    found = [np.stack((starts, ends, ends + across, starts + across), axis=1)]
    one, other = across[:-1], across[1:]
    cosine = (one * other).sum(axis=1) / width**2
    away = (one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0] < 0.0) & (cosine > _SHARPEST)
    corners, one, other = ends[:-1][away], one[away], other[away]
    mitres = corners + (one + other) / (1.0 + cosine[away, None])
    found.append(np.stack((corners, corners + one, mitres, corners + other), axis=1))
    return list(shapely.polygons(np.concatenate(found)))


def beside(corners: Sequence[Point], rules: TailRules, pairs: int = 0) -> Region:
    """Floor in which the middle of no other pair may lie when a pair has these corners, and so many ``pairs``
    are to pass between the two."""
    hair = _HAIR if pairs else _SLANT_HAIR if _slants_a_little(corners) else _LANE_HAIR
    return _polygonal(
        shapely.buffer(
            LineString(corners),
            (pairs + 1) * rules.pair_width - hair,
            cap_style="flat",
            join_style="mitre",
            mitre_limit=MITRE_LIMIT,
        )
    )


def _slants_a_little(corners: Sequence[Point]) -> bool:
    steps = np.abs(np.diff(np.array(corners), axis=0))
    across, along = steps.min(axis=1), steps.max(axis=1)
    return bool(((across > _LANE_HAIR) & (across < _SLIGHT * along)).any())


def hugged_side(part: Polygon, start: Point, end: Point, right: bool) -> shapely.Geometry:
    """The right-hand (or left-hand) edge of the floor between two points on its edge."""
    ring = shapely.orient_polygons(shapely.remove_repeated_points(part, 1e-8)).exterior
    first, last = (float(ring.project(shapely.Point(point))) for point in (start, end))
    if not right:
        first, last = last, first
    points = shapely.get_coordinates(ring)[:-1]
    edge = Loop.round(points).stretch(first, last)
    return LineString(edge) if len(edge) > 1 else LineString([start, end])


def _polygonal(geometry: shapely.Geometry) -> Region:
    return joined(
        part for part in shapely.get_parts(geometry) if isinstance(part, Polygon) and part.area > 0.0
    )
