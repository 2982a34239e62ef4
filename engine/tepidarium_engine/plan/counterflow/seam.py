"""Where rings are joined for a counterflow: strips side by side in one seam from the entry inwards.

Each strip begins exactly where the one before ended and lies on the same side of it. The long sides of
neighbouring strips are then one straight line, on which ring k runs on into ring k + 2: flow takes every
second ring inwards and return the ones between.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field, fields
from typing import Literal

import numpy as np
import numpy.typing as npt
import shapely

from ...elementwise import Array
from ..joining.strips import free_strip, spanning_strips
from ..joining.surgery import Opening, Strip
from ..outlines.loops import Loop
from ..outlines.regions import Region
from .ring_tree import RingTree

__all__ = ["Drift", "Seam", "seam"]

Rows = npt.NDArray[np.intp]
Drift = Literal[-1, 1]
"""Side of an opening on which the next strip lies: against (-1) or with the direction of the rings."""

_OFFSETS = np.array([0.0, 0.35, 0.7, 1.0, -0.4])
"""Along the drift, of the place on the child from the foot of the square line, in spacings."""
_WIDTHS = np.array([1.0, 1.2, 1.45, 1.75, 2.1, 0.9])
"""Of the strip along the child, in spacings; wide ones carry the seam round corners."""
_SQUARE = np.array([0.0])
_CHEAP = 2.1
"""Cost of a strip as good as square, in spacings: no other is looked for."""
_LEAST_SHORT = (0.8, 0.68)
"""Least short side on the outer and on the inner ring, in spacings."""
_LEAST_APART = 0.68
_LEAST_FROM_OTHERS = 0.5
_LEAST_FROM_RINGS = 0.22
_WIDEST = 3.0
_LONGEST = 3.0
"""Of the opening in the outer ring and of a long side, in spacings."""
_ENDS = 0.02
"""Share of a long side at either end that may lie on the ring it starts from."""
_BEND = 1.0
"""Cost of each metre of straight pipe that is missing for two bends."""
_FACTORS = (1.0, 0.85)


@dataclass(frozen=True, slots=True)
class Seam:
    """``strips`` that join the rings; ``unreached``: rings that no strip reaches."""

    strips: tuple[Strip, ...]
    unreached: tuple[int, ...]


@dataclass(slots=True)
class _Work:
    tree: RingTree
    pipe_spacing: float
    bend_radius: float
    drift: Drift
    entry: Opening
    strips: list[Strip] = field(default_factory=list)
    unreached: list[int] = field(default_factory=list)

    def openings(self, *rings: int) -> list[Opening]:
        ends = [self.entry, *(end for strip in self.strips for end in (strip.first, strip.second))]
        return [opening for opening in ends if opening.loop in rings]


def seam(tree: RingTree, entry: Opening, drift: Drift, pipe_spacing: float, bend_radius: float) -> Seam:
    """Strips that join all rings of the tree, from the ring that the entry opens inwards."""
    work = _Work(tree, pipe_spacing, bend_radius, drift, entry)
    others = [ring for ring in tree.outermost if ring != entry.loop]
    waiting = [entry.loop, *_spanned(work, tree.zone(None), None, [entry.loop], others)]
    while waiting:
        ring = waiting.pop(0)
        waiting = [*_joined_children(work, ring), *waiting]
    return Seam(tuple(work.strips), tuple(sorted(work.unreached)))


def _joined_children(work: _Work, ring: int) -> list[int]:
    """The children that could be joined to the ring or to each other, the one on the seam first."""
    children = list(work.tree.rings[ring].children)
    zone = work.tree.zone(ring)
    if not children or zone is None:
        work.unreached.extend(children)
        return []
    first = _first_child(work, ring, children, zone)
    reached = [] if first is None else [first]
    rest = [child for child in children if child != first]
    return reached + _spanned(work, zone, ring, [ring, *reached], rest)


def _first_child(work: _Work, ring: int, children: list[int], zone: Region) -> int | None:
    """The child that the seam runs on to, if a strip reaches it: the one with most pipe inside it, so that flow and
    return lie side by side there.

    In 1,210 rooms and storeys 14,980 strips found a place in the seam, 22 of them only with less distance, and 822
    elsewhere.
    """
    rings, opening = work.tree.rings, work.openings(ring)[0]
    start = opening.start if work.drift < 0 else opening.end
    point = shapely.Point(rings[ring].at(start))
    first = min(
        children,
        key=lambda child: (
            -round(work.tree.lengths[child], 5),
            round(float(shapely.distance(point, rings[child].area)), 5),
            child,
        ),
    )
    shapely.prepare(zone)
    in_seam = (_seam_strip(work, ring, first, start, zone, factor=factor) for factor in _FACTORS)
    strip = next((strip for strip in in_seam if strip is not None), None) or free_strip(
        rings,
        ring,
        first,
        zone,
        work.pipe_spacing,
        nested=True,
        taken=[work.entry],
        strips=work.strips,
        behind=(start, work.drift),
    )
    if strip is None:
        return None
    work.strips.append(strip)
    return first


def _spanned(work: _Work, zone: Region, outer: int | None, joined: list[int], rest: list[int]) -> list[int]:
    """Join the rest to what is joined by free strips; those that were reached, in order."""
    if not rest:
        return []
    strips, unreached = spanning_strips(
        work.tree.rings,
        [*joined, *rest],
        outer,
        zone,
        work.pipe_spacing,
        joined=joined,
        taken=[work.entry],
        strips=work.strips,
    )
    work.strips.extend(strips)
    work.unreached.extend(unreached)
    return [ring for ring in rest if ring not in unreached]


@dataclass(frozen=True, slots=True)
class _Candidates:
    """Strips from one place on the outer ring, one a row: positions on the rings and corners."""

    on_outer: Array
    at_child: Array
    on_child: Array
    offset: Array
    corners: Array
    """Four points each: outer at the start, child at the start, child further on, outer further on."""

    def taken(self, rows: Rows) -> _Candidates:
        return _Candidates(*(getattr(self, column.name)[rows] for column in fields(self)))


def _seam_strip(
    work: _Work, ring: int, child: int, start: float, zone: Region, *, factor: float
) -> Strip | None:
    """The cheapest strip that begins at ``start`` on the ring and lies on the side of the drift."""
    outer, inner = work.tree.rings[ring], work.tree.rings[child]
    for offsets, widths, dearest in ((_SQUARE, _SQUARE + 1.0, _CHEAP), (_OFFSETS, _WIDTHS, math.inf)):
        found = _candidates(work, outer, inner, start, offsets=offsets, widths=widths)
        found = _ranked(work, outer, inner, found, factor=factor, dearest=dearest * work.pipe_spacing)
        found = found.taken(_inside(found.corners, zone))
        for row in range(len(found.at_child)):
            strip = _strip(found, row, ring, child, start, drift=work.drift)
            if _is_free(work, strip, found.corners[row], factor):
                return strip
    return None


def _strip(found: _Candidates, row: int, ring: int, child: int, start: float, *, drift: Drift) -> Strip:
    x, c0, c1 = float(found.on_outer[row]), float(found.at_child[row]), float(found.on_child[row])
    first = Opening(ring, x, start) if drift < 0 else Opening(ring, start, x)
    second = Opening(child, c1, c0) if drift < 0 else Opening(child, c0, c1)
    return Strip(first, second, nested=True)


def _candidates(
    work: _Work, outer: Loop, inner: Loop, start: float, *, offsets: Array, widths: Array
) -> _Candidates:
    """All strips with the offsets and widths given in spacings."""
    drift, spacing = work.drift, work.pipe_spacing
    place = outer.at(start)
    foot = inner.project(place)
    offset = np.tile(np.repeat(offsets, len(widths)) * spacing, 2)
    width = np.tile(np.tile(widths, len(offsets)) * spacing, 2)
    at_child = foot + drift * offset
    on_child = at_child + drift * width
    near, further = inner.points_at(np.concatenate((at_child, on_child))).reshape(2, -1, 2)
    half = len(offset) // 2
    on_outer = np.concatenate((outer.project_all(further[:half]), start + drift * width[half:]))
    places = np.tile(place, (len(on_outer), 1))
    corners = np.stack((places, near, further, outer.points_at(on_outer)), axis=1)
    opened = np.mod(drift * (on_outer - start), outer.length)
    rows = np.flatnonzero((opened > 0.5 * spacing) & (opened < _WIDEST * spacing))
    return _Candidates(on_outer, at_child, on_child, np.abs(offset), corners).taken(rows)


def _ranked(
    work: _Work, outer: Loop, inner: Loop, found: _Candidates, *, factor: float, dearest: float
) -> _Candidates:
    """Those whose sides are long enough and far enough apart, cheapest first."""
    spacing = work.pipe_spacing
    a, b, c, d = (found.corners[:, index] for index in range(4))
    short_outer, short_inner = np.hypot(*(d - a).T), np.hypot(*(c - b).T)
    first, second = np.hypot(*(b - a).T), np.hypot(*(c - d).T)
    apart = _segment_distances(a, b, d, c)
    cost = first + second + 0.5 * found.offset
    cost += 0.4 * (np.abs(short_outer - spacing) + np.abs(short_inner - spacing))
    cost += 2.0 * np.maximum(0.0, 0.9 * spacing - apart)
    # The pipe turns off the outer ring at the far corner, and into the inner ring at the near one.
    for loop, at, side in ((outer, found.on_outer, work.drift), (inner, found.at_child, -work.drift)):
        room = loop.straight_run(at, side)
        cost += _BEND * np.clip(2.0 * work.bend_radius - room, 0.0, None)
    kept = (
        (short_outer >= _LEAST_SHORT[0] * factor * spacing)
        & (short_inner >= _LEAST_SHORT[1] * factor * spacing)
        & (apart >= _LEAST_APART * factor * spacing)
        & (np.maximum(first, second) <= _LONGEST * spacing)
        & (cost <= dearest)
    )
    rows = np.flatnonzero(kept)
    return found.taken(rows[np.argsort(np.round(cost[rows], 6), kind="stable")])


def _segment_distances(a: Array, b: Array, c: Array, d: Array) -> Array:
    """Distances between the segments ab and cd, one a row; 0 where they cross."""
    distances: Array = shapely.distance(
        shapely.linestrings(np.stack((a, b), axis=1)), shapely.linestrings(np.stack((c, d), axis=1))
    )
    return distances


def _inside(corners: Array, zone: Region) -> Rows:
    """Rows whose long sides lie in the zone, but for their very ends."""
    rows: Rows = np.flatnonzero(
        shapely.contains_properly(zone, _shortened(corners[:, 0], corners[:, 1], _ENDS))
        & shapely.contains_properly(zone, _shortened(corners[:, 3], corners[:, 2], _ENDS))
    )
    return rows


def _shortened(start: Array, end: Array, share: float) -> Array:
    by = share * (end - start)
    lines: Array = shapely.linestrings(np.stack((start + by, end - by), axis=-2))
    return lines


def _is_free(work: _Work, strip: Strip, corners: Array, factor: float) -> bool:
    """Whether the strip keeps its distance from rings and shares no opening with another one."""
    rings, spacing = work.tree.rings, work.pipe_spacing
    ring, child = strip.first.loop, strip.second.loop
    sides = shapely.linestrings(corners[[[0, 1], [3, 2]]])
    siblings = [other for other in rings[ring].children if other != child]
    if siblings:
        others = np.array([rings[other].line for other in siblings], dtype=object)
        if float(shapely.distance(sides[:, None], others).min()) < _LEAST_FROM_OTHERS * factor * spacing:
            return False
    for opening in (strip.first, strip.second):
        if any(_overlap(opening, taken, rings[opening.loop].length) for taken in work.openings(opening.loop)):
            return False
    middles = _shortened(corners[[0, 3]], corners[[1, 2]], 0.3)
    for opening in (strip.first, strip.second):
        rest = shapely.LineString(rings[opening.loop].stretch(opening.end, opening.start))
        if float(shapely.distance(middles, rest).min()) < _LEAST_FROM_RINGS * factor * spacing:
            return False
    return True


def _overlap(one: Opening, other: Opening, length: float) -> bool:
    """Whether two openings of a loop share more than an end."""
    slack = 1e-9
    ahead, behind = (other.start - one.start) % length, (one.start - other.start) % length
    wide, other_wide = (one.end - one.start) % length, (other.end - other.start) % length
    return min(ahead, length - ahead) < slack or ahead < wide - slack or behind < other_wide - slack
