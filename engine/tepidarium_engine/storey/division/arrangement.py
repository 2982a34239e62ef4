"""Which piece gets which pair at the entry, how its tail runs, and what floor is left to its pipe."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from shapely import LineString, Polygon

from ...checking import Point
from ...elementwise import Array
from ...plan.outlines.overlays import intersection
from ...plan.outlines.regions import Region
from .inner_tails import Hallway, Lane, Tail
from .piece_domains import (
    Spacing,
    Taken,
    border_of,
    cleared,
    entry_spot,
    near_walls,
    piece_domain,
    piece_outline,
    served_length,
)
from .pipe_ends import bent_lane

__all__ = ["Arrangement", "Reached", "Site", "Stall", "arranged", "reached"]

_UNEVEN = 0.02
"""What one tail more on one side than on the other is worth, as a share of the length of all."""


_LEAST_TAIL = 0.15
"""Shorter tails along a wall have no room to turn [m]."""
_AT_EDGE = 0.15
"""Joints no further before a piece are those at its edge [m]."""
_SLANT = 2.8
"""Way along the lane over the way aside of a pair that stays at its pitch."""
_BEFORE_JOINT = 0.03
"""A tail runs straight for this long before it passes a joint [m]: a sleeve is not bent."""


@dataclass(frozen=True)
class Site:
    """A room to be divided, in its own frame."""

    room: Polygon
    hallway: Hallway
    spacing: Spacing
    joints: tuple[LineString, ...] = ()

    @property
    def free(self) -> Region:
        return self.hallway.free

    @cached_property
    def walls(self) -> shapely.Geometry:
        return near_walls(self.room)


@dataclass(frozen=True)
class Stall:
    """A circuit before its pipe is laid: ``index`` of its pair at the entry, its ``piece`` and ``border``,
    where pipe may lie in it, the ``outline`` to lay pipe in, the ``spot`` to enter there, and its tails, which run
    straight for ``lead`` [m] before the spot where they pass a joint."""

    index: int
    leaf: int
    piece: Polygon
    domain: Polygon
    outline: Polygon
    spot: Point
    tail: Tail
    cut_off: float
    lead: float = 0.0

    @property
    def tail_length(self) -> float:
        """Both ways [m]."""
        return float(sum(lane.line.length for lane in self.tail.lanes))

    def taken(self, spacing: Spacing) -> list[Taken]:
        """The tails' lines with the distance that other pipe keeps from them."""
        lanes = self.tail.lanes
        straight = [(lane.line, spacing.tail_gap) for lane in lanes if lane.line.length > 1e-6]
        return straight + [(lane.aside, spacing.pitch + 0.022) for lane in lanes if lane.aside is not None]

    def estimate(self, pipe_spacing: float) -> float:
        """Pipe in the piece [m], if it were laid evenly."""
        return served_length(self.domain, pipe_spacing)


@dataclass(frozen=True)
class Arrangement:
    """All circuits in order along the wall at the entry."""

    stalls: tuple[Stall, ...]


@dataclass(frozen=True)
class Reached:
    """Pieces with the tails to all but the ``home`` piece, which the entry is in: by leaf, the pair at the entry and
    its way to the border. ``groups`` are the pieces reached clockwise and counter-clockwise, furthest first."""

    pieces: tuple[Polygon, ...]
    home: int
    groups: tuple[list[int], list[int]]
    tails: dict[int, tuple[int, Tail]]

    @property
    def tail_length(self) -> float:
        """Of all tails, both ways [m]."""
        return float(sum(lane.line.length for _, tail in self.tails.values() for lane in tail.lanes))


def reached(site: Site, pieces: Sequence[Polygon]) -> Reached | None:
    """The tails to all pieces, or None where one has no way."""
    gate = site.hallway.gate
    ahead = shapely.Point(gate.place[0] + 1e-3 * gate.inward[0], gate.place[1] + 1e-3 * gate.inward[1])
    home = min(range(len(pieces)), key=lambda leaf: shapely.distance(pieces[leaf], ahead))
    groups = _sides(site, pieces, home)
    tails = None if groups is None else _tails(site, pieces, groups)
    return None if groups is None or tails is None else Reached(tuple(pieces), home, groups, tails)


def arranged(site: Site, ways: Reached) -> Arrangement | None:
    """All pieces with their tails, or None where one is left without floor."""
    spacing = site.spacing
    lanes = {
        leaf: [(lane.line, spacing.tail_gap) for lane in tail.lanes] for leaf, (_, tail) in ways.tails.items()
    }
    first: dict[int, Stall] = {}
    for leaf, (_, tail) in ways.tails.items():
        stall = _stall(site, ways, leaf, tail, _domain(site, ways.pieces[leaf], _others(lanes, leaf)))
        if stall is None:
            return None
        first[leaf] = stall
    # Where tails leave their lanes for the places where they enter, they may take floor of others once more.
    lanes = {leaf: stall.taken(spacing) for leaf, stall in first.items()}
    stalls = []
    for leaf, stall in first.items():
        domain, cut_off = cleared(stall.domain, _others(lanes, leaf), spacing)
        alike = domain is stall.domain
        left = (domain, stall.cut_off + cut_off)
        again = stall if alike else _stall(site, ways, leaf, ways.tails[leaf][1], left)
        if again is None:
            return None
        stalls.append(again)
    own = _home(site, ways, _others(lanes, ways.home))
    return None if own is None else Arrangement(tuple(sorted([*stalls, own], key=lambda stall: stall.index)))


def _domain(site: Site, piece: Polygon, taken: Sequence[Taken]) -> tuple[Polygon | None, float]:
    return piece_domain(piece, site.free, border_of(piece, site.walls), taken, site.spacing)


def _tails(
    site: Site, pieces: Sequence[Polygon], groups: tuple[list[int], list[int]]
) -> dict[int, tuple[int, Tail]] | None:
    """Pair at the entry and tail to the border of the piece, by leaf."""
    found = {}
    for side, group in zip((-1, 1), groups, strict=True):
        for order, leaf in enumerate(group):
            index = order if side < 0 else len(pieces) - 1 - order
            tail = site.hallway.tail(index, pieces[leaf], side)
            if tail is None or min(lane.line.length for lane in tail.lanes) < _LEAST_TAIL:
                return None
            found[leaf] = (index, tail)
    return found


def _others(lanes: dict[int, list[Taken]], own: int) -> list[Taken]:
    return [line for leaf, lines in lanes.items() if leaf != own for line in lines]


def _sides(site: Site, pieces: Sequence[Polygon], home: int) -> tuple[list[int], list[int]] | None:
    """The pieces reached clockwise and counter-clockwise along the walls, furthest first.

    Some number of the nearest ones clockwise are reached that way and the rest the other way, so that the
    tails of the two sides never meet.
    """
    others = [leaf for leaf in range(len(pieces)) if leaf != home]
    arrivals = {leaf: site.hallway.arrivals(pieces[leaf]) for leaf in others}
    back, on = ({leaf: both[side] for leaf, both in arrivals.items()} for side in (0, 1))
    if any(math.isinf(back[leaf]) for leaf in others):
        return None
    others.sort(key=lambda leaf: back[leaf])
    length = site.room.exterior.length
    best: tuple[float, int] | None = None
    for number in range(len(others) + 1):
        left, right = others[:number], others[number:]
        reach = max((back[leaf] for leaf in left), default=0.0) + max(
            (on[leaf] for leaf in right), default=0.0
        )
        if reach > length - 0.5:
            continue
        cost = sum(back[leaf] for leaf in left) + sum(on[leaf] for leaf in right)
        cost *= 1.0 + _UNEVEN * abs(len(left) - len(right))
        if best is None or round(cost, 6) < best[0]:
            best = (round(cost, 6), number)
    if best is None:
        return None
    left, right = others[: best[1]], others[best[1] :]
    return left[::-1], sorted(right, key=lambda leaf: -on[leaf])


def _stall(
    site: Site, ways: Reached, leaf: int, tail: Tail, left: tuple[Polygon | None, float]
) -> Stall | None:
    """The piece with what tails leave of it, or None when that is nothing."""
    domain, cut_off = left
    outline = None if domain is None else piece_outline(domain, site.spacing.wall)
    if domain is None or outline is None:
        return None
    headings = [lane.corners[-1] - lane.corners[-2] for lane in tail.lanes]
    heading = (headings[0] / np.hypot(*headings[0]) + headings[1] / np.hypot(*headings[1])) / 2.0
    spot = entry_spot(outline, tail.meets, (float(heading[0]), float(heading[1])), site.spacing)
    lead = _lead(site, spot, heading)
    moved = _moved(tail, spot, heading, site.spacing, lead)
    if any(bent_lane(lane.corners, site.spacing.radius) is None for lane in moved.lanes):
        return None
    index = ways.tails[leaf][0]
    return Stall(index, leaf, ways.pieces[leaf], domain, outline, spot, moved, cut_off, lead)


def _lead(site: Site, spot: Point, heading: Array) -> float:
    """How far before the place where it enters a tail has to run straight to pass a joint squarely [m]."""
    at = np.array(spot)
    way = LineString([at + 1e-3 * heading, at - _AT_EDGE * heading])
    met = [intersection(joint, way) for joint in site.joints if shapely.intersects(joint, way)]
    return max(
        (float(shapely.distance(shapely.Point(spot), one)) + _BEFORE_JOINT for one in met), default=0.0
    )


def _moved(tail: Tail, spot: Point, heading: Array, spacing: Spacing, lead: float) -> Tail:
    """The tail led on to the level of the place where it enters, and what it takes to get there sideways."""
    square = np.array((-heading[1], heading[0]))
    lanes = []
    for lane in tail.lanes:
        last = lane.corners[-1]
        end = np.array(spot) + float((last - tail.meets) @ square) * square
        on, aside = float((end - last) @ heading), float((end - last) @ square)
        leg = float(np.hypot(*(last - lane.corners[-2])))
        level = last + max(on, -0.9 * leg) * heading
        corners = np.concatenate((lane.corners[:-1], [level]))
        if abs(aside) < 1e-3:
            lanes.append(Lane(corners))
            continue
        way = 2.0 * (abs(aside) * spacing.radius) ** 0.5
        way = way if lead == 0.0 else max(way, _SLANT * abs(aside)) + lead
        run = min(way + spacing.radius, 0.9 * (leg + on))
        straight = end - (lead + spacing.radius) * heading
        lanes.append(Lane(corners, LineString([level - run * heading, straight, end])))
    return Tail((lanes[0], lanes[1]), tail.meets)


def _home(site: Site, ways: Reached, taken: Sequence[Taken]) -> Stall | None:
    """The piece that the entry is in: its pair goes straight on, past the turns of all others."""
    leaf, piece = ways.home, ways.pieces[ways.home]
    index, most = len(ways.groups[0]), max(map(len, ways.groups))
    gate, spacing = site.hallway.gate, site.spacing
    (x, y), (ix, iy) = gate.pair(index), gate.inward
    own: list[Taken] = []
    depth = spacing.wall
    if most:
        depth = spacing.lane_start + (2 * most - 1) * gate.pitch + spacing.tail_gap
        half = max(0.0, spacing.pitch / 2.0 + 2.0 * spacing.radius + 0.01 - spacing.tail_gap)
        own = [
            (LineString([start, (start[0] + depth * ix, start[1] + depth * iy)]), spacing.tail_gap)
            for start in (gate.beside(index, -half), gate.beside(index, half))
        ]
    domain, cut_off = _domain(site, piece, [*taken, *own])
    outline = None if domain is None else piece_outline(domain, spacing.wall)
    if domain is None or outline is None:
        return None
    reach = depth - spacing.wall
    spot = entry_spot(outline, (x + reach * ix, y + reach * iy), gate.inward, spacing)
    sides = (gate.beside(index, -gate.pitch / 2.0), gate.beside(index, gate.pitch / 2.0))
    lanes = [
        Lane(np.array([start, (side[0] + reach * ix, side[1] + reach * iy)]))
        for start, side in zip(gate.pipes(index), sides, strict=True)
    ]
    return Stall(index, leaf, piece, domain, outline, spot, Tail((lanes[0], lanes[1]), (x, y)), cut_off)
