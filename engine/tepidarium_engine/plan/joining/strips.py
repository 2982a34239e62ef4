"""Where two loops can be joined: strips placed freely in the floor between them.

A strip is two pipes side by side that cross from one loop to another; ``surgery`` joins loops by them. A good
one is short, stands square on straight parts of both loops, and leaves room for the bends at its four corners.
"""

from __future__ import annotations

import heapq
import math
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
import numpy.typing as npt
import shapely
from shapely import LineString, MultiLineString, STRtree

from ...checking import Point
from ...elementwise import Array
from ..outlines.loops import Loop
from ..outlines.regions import Region
from .strip_places import Flags, Places, bend_room, places
from .surgery import Opening, Strip

__all__ = ["FACTORS", "free_strip", "long_sides", "spanning_strips"]

FACTORS = (1.0, 0.85, 0.7, 0.55)
"""Shares of the distances asked for, from what is wanted to what is still taken. In 1,210 rooms and storeys they found
1,009, 76, 43 and 41 strips beside those of seams."""
_SHORT_SIDE = (0.8, 0.68)
"""Least length of the openings on one loop and on the other, in spacings."""
_SIDES_APART = 0.68
_FROM_LOOPS = 0.5
_FROM_STRIPS = 0.6
_FROM_REST = 0.22
"""Least distance of a long side's middle from what remains of the two loops, in spacings."""
_ENDS = 0.02
"""Share of a long side at each end that is not looked at."""
_MIDDLE = 0.3
_BEHIND = 0.1
"""Cost of a spacing of loop that lies between a strip and where it would best be."""
_FAR, _MISSED = 3.0, 3
"""A loop that cannot be joined to so many others is not tried with more that are so many spacings away. Of 4,567
strips that were found in 300 random rooms and two with combs in many pieces, none was of that kind; of 27,000 tries
to find one that came to nothing, 14,000 were."""
_AT_ONCE = 64
"""Strips looked at in one go, cheapest first."""


def free_strip(
    loops: Sequence[Loop],
    one: int,
    other: int,
    zone: Region,
    pipe_spacing: float,
    *,
    nested: bool,
    taken: Sequence[Opening],
    strips: Sequence[Strip],
    near: Point | None = None,
    behind: tuple[float, int] | None = None,
    factor: float = 1.0,
) -> Strip | None:
    """The best strip between loops number ``one`` and ``other``: short first, ``near`` [m] second, or little of loop
    ``one`` before it: ``behind`` is a position on it and the side of that, 1 or -1, on which the strip is sought.

    ``zone`` is the floor between the loops of the zone, grown voids taken out; ``nested``: one of the two
    loops lies inside the other. ``taken`` are openings to keep clear of, the entry's among them; those of
    ``strips`` are taken anyhow. ``factor`` lowers all distances asked for. ``None``: there is no place.
    """
    site = _Site(_Rings(loops), zone, pipe_spacing, tuple(taken), tuple(strips), near, factor, behind)
    found = site.best(one, other, nested)
    return None if found is None else found[1]


def spanning_strips(
    loops: Sequence[Loop],
    members: Sequence[int],
    outer: int | None,
    zone: Region,
    pipe_spacing: float,
    *,
    joined: Iterable[int],
    taken: Sequence[Opening] = (),
    strips: Sequence[Strip] = (),
    near: Point | None = None,
) -> tuple[list[Strip], list[int]]:
    """Strips that join all ``members``, the loops that bound ``zone``, to those ``joined`` already.

    ``outer`` is the one of them that lies round all others, if any. The tree grows by the cheapest strip
    there is (Prim's algorithm, on strips instead of edges). Answers the new strips and the loops that no
    strip reaches.
    """
    site = _Site(_Rings(loops), zone, pipe_spacing, tuple(taken), tuple(strips), near)
    inside = set(joined)
    waiting = [index for index in members if index not in inside]
    for factor in FACTORS:
        if not waiting:
            break
        site = _grown(replace(site, factor=factor), outer, inside, waiting)
        waiting = [index for index in waiting if index not in inside]
    return list(site.strips[len(strips) :]), waiting


def _grown(site: _Site, outer: int | None, inside: set[int], waiting: Sequence[int]) -> _Site:
    """The site with new strips; ``inside`` is added to. Pairs wait with a bound of their cost, then with it.

    New strips take places from others and make none cheaper: what was found for a pair before holds as long as they
    are away from it.
    """
    known: dict[tuple[int, int], tuple[float, Strip]] = {}
    missed: Counter[int] = Counter()
    queue = [site.bound(one, other) for one in sorted(inside) for other in waiting]
    heapq.heapify(queue)
    while queue:
        bound, one, other, seen = heapq.heappop(queue)
        if other in inside or (bound >= _FAR and missed[other] >= _MISSED):
            continue
        found = known.get((one, other))
        if found is None or site.beside_new(found[1], seen):
            found = site.best(one, other, outer in {one, other})
        if found is None:
            missed[other] += 1
            continue
        cost, strip = known[one, other] = found
        if seen != len(site.strips) and queue and queue[0][0] < cost:
            heapq.heappush(queue, (cost, one, other, len(site.strips)))
            continue
        site = replace(site, strips=(*site.strips, strip))
        inside.add(other)
        for further in waiting:
            if further not in inside:
                heapq.heappush(queue, site.bound(other, further))
    return site


class _Rings:
    """Loops, and the ring of each, prepared once for all strips that are sought."""

    def __init__(self, loops: Sequence[Loop]) -> None:
        self.loops = loops
        self._lines = [loop.line for loop in loops]
        shapely.prepare(self._lines)
        self._tree = STRtree(self._lines)

    def apart(self, one: int, other: int) -> float:
        """Distance of two loops [m]."""
        return float(shapely.distance(self._lines[one], self._lines[other]))

    def beside(self, sides: npt.NDArray[np.object_], reach: float, but: set[int]) -> Flags:
        """Whether any loop ``but`` some comes within a reach [m] of each of the sides."""
        low_x, low_y, high_x, high_y = shapely.bounds(sides).T
        boxes = shapely.box(low_x - reach, low_y - reach, high_x + reach, high_y + reach)
        rows, numbers = self._tree.query(boxes)
        found: Flags = np.zeros(len(sides), dtype=np.bool_)
        for number in set(numbers.tolist()) - but:
            near = rows[numbers == number]
            found[near] |= shapely.dwithin(self._lines[number], sides[near], reach)
        return found


@dataclass(frozen=True)
class _Site:
    """Where strips are sought, and what is there already."""

    rings: _Rings
    zone: Region
    pipe_spacing: float
    taken: tuple[Opening, ...]
    strips: tuple[Strip, ...]
    near: Point | None = None
    factor: float = 1.0
    behind: tuple[float, int] | None = None

    @property
    def loops(self) -> Sequence[Loop]:
        return self.rings.loops

    @property
    def least_spacing(self) -> float:
        return self.pipe_spacing * self.factor

    @cached_property
    def _sides(self) -> MultiLineString | None:
        """The long sides of the strips there are."""
        lines = long_sides(self.loops, self.strips)
        if not lines:
            return None
        sides = MultiLineString(lines)
        shapely.prepare(sides)
        return sides

    def beside_new(self, strip: Strip, seen: int) -> bool:
        """Whether strips from number ``seen`` on take loop or floor beside one."""
        new = self.strips[seen:]
        loops = {strip.first.loop, strip.second.loop}
        if any(opening.loop in loops for one in new for opening in (one.first, one.second)):
            return True
        reach = _FROM_STRIPS * self.least_spacing
        own = MultiLineString(long_sides(self.loops, [strip]))
        return bool(new) and bool(shapely.dwithin(own, MultiLineString(long_sides(self.loops, new)), reach))

    def bound(self, one: int, other: int) -> tuple[float, int, int, int]:
        """Less than the cost of any strip between two loops, the loops, and no number of strips."""
        return (round(self.rings.apart(one, other) / self.pipe_spacing, 6), one, other, -1)

    def best(self, one: int, other: int, nested: bool) -> tuple[float, Strip] | None:
        """Cost in spacings and strip."""
        if self.zone is None:
            return None
        found = places(self.loops[one], self.loops[other], self.pipe_spacing, nested, self.factor)
        gaps = self._gaps(found, one, other)
        kept = np.flatnonzero((gaps > 1e-6) & self._wide_enough(found))
        found, gaps = found.at(kept), gaps[kept]
        costs = np.round(self._costs(found, gaps, one, other), 6)
        order = np.lexsort((np.round(found.one_start, 6), costs))
        for start in range(0, len(order), _AT_ONCE):
            rows = order[start : start + _AT_ONCE]
            batch = found.at(rows)
            for row in np.flatnonzero(self._clear(batch, one, other)).tolist():
                if self._stands_free(batch, row, one, other):
                    return float(costs[rows[row]]), batch.strip(row, one, other)
        return None

    def _gaps(self, found: Places, one: int, other: int) -> Array:
        """Least length of loop [m] between an opening and those there are; negative where they overlap."""
        both = (opening for strip in self.strips for opening in (strip.first, strip.second))
        gaps = np.full(len(found.one_start), math.inf)
        for opening in (*self.taken, *both):
            for number, starts, width in (
                (one, found.one_start, found.one_width),
                (other, found.other_start, found.other_width),
            ):
                if opening.loop == number:
                    length = self.loops[number].length
                    ahead = np.mod(opening.start - starts, length) - width
                    behind = np.mod(starts - opening.start, length) - (opening.end - opening.start) % length
                    gaps = np.minimum(gaps, np.minimum(ahead, behind))
        return gaps

    def _wide_enough(self, found: Places) -> Flags:
        least = [share * self.least_spacing * (1.0 - 1e-9) for share in _SHORT_SIDE]
        wide: Flags = (found.one_width >= least[0]) & (found.other_width >= least[1])
        return wide

    def _costs(self, found: Places, gaps: Array, one: int, other: int) -> Array:
        """In spacings: length of a side, openings off the spacing, slant, bends without room, distance."""
        first, second = self.loops[one], self.loops[other]
        costs = found.length / self.pipe_spacing
        for width in (found.one_width, found.other_width):
            costs += 0.4 * np.abs(width / self.pipe_spacing - 1.0)
        room = np.minimum(bend_room(first, found.one_start, found.one_end), gaps)
        room = np.minimum(room, bend_room(second, found.other_start, found.other_end))
        costs += 0.6 * np.clip(1.0 - room / self.pipe_spacing, 0.0, 1.0)
        costs += 0.5 * found.slant(first, second)
        apart = shapely.distance(found.side(0, 0.0), found.side(1, 0.0)) / self.pipe_spacing
        costs += 2.0 * np.maximum(0.0, 0.9 - apart)
        if self.behind is not None:
            start, side = self.behind
            end = found.one_end if side < 0 else found.one_start
            costs += _BEHIND * np.mod(side * (end - start), first.length) / self.pipe_spacing
        elif self.near is not None:
            costs += 0.01 * np.hypot(*(found.middle - np.array(self.near)).T) / self.pipe_spacing
        return costs

    def _clear(self, found: Places, one: int, other: int) -> Flags:
        """Whether both long sides run in the zone, apart from each other and from all else."""
        sides = [found.side(end, _ENDS) for end in (0, 1)]
        least = _SIDES_APART * self.least_spacing
        clear: Flags = shapely.distance(found.side(0, 0.0), found.side(1, 0.0)) >= least
        for side in sides:
            clear &= ~self.rings.beside(side, _FROM_LOOPS * self.least_spacing, {one, other})
            if self._sides is not None:
                clear &= ~shapely.dwithin(self._sides, side, _FROM_STRIPS * self.least_spacing)
        shapely.prepare(self.zone)
        for side in sides:
            clear &= shapely.contains_properly(self.zone, side)
        return clear

    def _stands_free(self, found: Places, row: int, one: int, other: int) -> bool:
        """Whether the middle of the long sides keeps away from what the openings leave of the two loops."""
        rest = (
            LineString(self.loops[one].stretch(found.one_end[row], found.one_start[row])),
            LineString(self.loops[other].stretch(found.other_end[row], found.other_start[row])),
        )
        single = found.at(np.array([row]))
        middles = [single.side(end, _MIDDLE)[0] for end in (0, 1)]
        least = _FROM_REST * self.least_spacing
        return not any(shapely.dwithin(line, side, least) for line in rest for side in middles)


def long_sides(loops: Sequence[Loop], strips: Sequence[Strip]) -> list[LineString]:
    """The two lines of each strip [m]."""
    lines = []
    for strip in strips:
        one, other = loops[strip.first.loop], loops[strip.second.loop]
        ends = (strip.second.start, strip.second.end)
        towards = ends if strip.nested else ends[::-1]
        for start, end in zip((strip.first.start, strip.first.end), towards, strict=True):
            lines.append(LineString([one.at(start), other.at(end)]))
    return lines
