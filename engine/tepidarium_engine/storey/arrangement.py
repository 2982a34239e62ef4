"""Which piece gets which pair at the entry, how its tail runs, and what floor is left to its pipe."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import LineString, Polygon

from ..checking import Point
from .inner_tails import Hallway, Lane, Tail
from .piece_domains import Spacing, border_of, entry_spot, piece_domain, piece_outline, served_length

__all__ = ["Arrangement", "Site", "Stall", "arranged"]

_SIDE_TIE = 0.15
"""Ways round that differ by less are equal; then the side with fewer tails is taken."""
_SHIFT_RUN = 0.25
"""Length before the piece on which a tail moves sideways to its entry [m]."""


@dataclass(frozen=True)
class Site:
    """A room to be divided, in its own frame."""

    room: Polygon
    hallway: Hallway
    spacing: Spacing

    @property
    def free(self) -> shapely.Geometry | None:
        return self.hallway.free


@dataclass(frozen=True)
class Stall:
    """A circuit before its pipe is laid: ``index`` of its pair at the entry, its ``piece`` and ``border``,
    where pipe may lie in it, the ``outline`` to lay pipe in, the ``spot`` to enter there, and its tails."""

    index: int
    leaf: int
    piece: Polygon
    domain: Polygon
    outline: Polygon
    spot: Point
    tail: Tail
    side: int
    cut_off: float

    @property
    def tail_length(self) -> float:
        """Both ways [m]."""
        return sum(lane.line.length for lane in self.tail.lanes)

    def estimate(self, pipe_spacing: float) -> float:
        """Pipe in the piece [m], if it were laid evenly."""
        return served_length(self.domain, pipe_spacing)


@dataclass(frozen=True)
class Arrangement:
    """All circuits in order along the wall at the entry."""

    stalls: tuple[Stall, ...]


def arranged(site: Site, pieces: Sequence[Polygon]) -> Arrangement | None:
    """All pieces with their tails, or None where a tail has no way or a piece is left without floor."""
    gate = site.hallway.gate
    ahead = shapely.Point(gate.place[0] + 1e-3 * gate.inward[0], gate.place[1] + 1e-3 * gate.inward[1])
    home = min(range(len(pieces)), key=lambda leaf: shapely.distance(pieces[leaf], ahead))
    groups = _sides(site, pieces, home)
    if groups is None:
        return None
    backward, forward = groups
    stalls: list[Stall] = []
    taken: list[LineString] = []
    for side, group in ((-1, backward), (1, forward)):
        for order, leaf in enumerate(group):
            index = order if side < 0 else len(pieces) - 1 - order
            stall = _stall(site, index, leaf, pieces[leaf], side, taken)
            if stall is None:
                return None
            stalls.append(stall)
            taken += [lane.line for lane in stall.tail.lanes]
    own = _home(site, len(backward), home, pieces[home], (len(backward), len(forward)), taken)
    if own is None:
        return None
    return Arrangement(tuple(sorted([*stalls, own], key=lambda stall: stall.index)))


def _sides(site: Site, pieces: Sequence[Polygon], home: int) -> tuple[list[int], list[int]] | None:
    """The pieces reached clockwise and counter-clockwise along the walls, furthest first."""
    away = {side: [site.hallway.arrival(piece, side) for piece in pieces] for side in (-1, 1)}
    groups: dict[int, list[int]] = {-1: [], 1: []}
    others = sorted(
        (leaf for leaf in range(len(pieces)) if leaf != home),
        key=lambda leaf: min(away[-1][leaf], away[1][leaf]),
    )
    for leaf in others:
        back, on = away[-1][leaf], away[1][leaf]
        if math.isinf(back):
            return None
        if abs(back - on) < _SIDE_TIE * (back + on):
            side = -1 if len(groups[-1]) < len(groups[1]) else 1
        else:
            side = -1 if back < on else 1
        groups[side].append(leaf)
    for side, group in groups.items():
        group.sort(key=lambda leaf: -away[side][leaf])
    return groups[-1], groups[1]


def _stall(
    site: Site, index: int, leaf: int, piece: Polygon, side: int, taken: Sequence[LineString]
) -> Stall | None:
    tail = site.hallway.tail(index, piece, side)
    if tail is None or min(lane.line.length for lane in tail.lanes) < 0.15:
        return None
    domain, cut_off = piece_domain(piece, site.free, border_of(piece, site.room), taken, site.spacing)
    if domain is None:
        return None
    outline = piece_outline(domain, site.spacing.wall)
    if outline is None:
        return None
    ways = [lane.corners[-1] - lane.corners[-2] for lane in tail.lanes]
    heading = (ways[0] / np.hypot(*ways[0]) + ways[1] / np.hypot(*ways[1])) / 2.0
    spot = entry_spot(outline, tail.meets, (float(heading[0]), float(heading[1])), site.spacing)
    moved = _moved(tail, spot, heading)
    return Stall(index, leaf, piece, domain, outline, spot, moved, side, cut_off)


def _moved(tail: Tail, spot: Point, heading: np.ndarray) -> Tail:
    """The tail with its last stretch led sideways to the place where it enters."""
    square = np.array((-heading[1], heading[0]))
    lanes = []
    for lane, side in zip(tail.lanes, (1.0, -1.0), strict=True):
        offset = lane.corners[-1] - np.array(tail.meets)
        along = float(offset @ square)
        end = np.array(spot) + along * square
        lanes.append(Lane(np.concatenate((lane.corners, [end]))))
    return Tail((lanes[0], lanes[1]), tail.meets)


def _home(
    site: Site, index: int, leaf: int, piece: Polygon, groups: tuple[int, int], taken: Sequence[LineString]
) -> Stall | None:
    """The piece that the entry is in: its pair goes straight on, past the turns of all others."""
    gate, spacing = site.hallway.gate, site.spacing
    (x, y), (ix, iy) = gate.pair(index), gate.inward
    own: list[LineString] = []
    depth = spacing.wall
    if max(groups):
        depth = spacing.lane_start + (2 * max(groups) - 1) * gate.pitch + spacing.tail_gap
        half = max(0.0, spacing.pitch / 2.0 + 2.0 * spacing.radius + 0.01 - spacing.tail_gap)
        own = [
            LineString([start, (start[0] + depth * ix, start[1] + depth * iy)])
            for start in (gate.beside(index, -half), gate.beside(index, half))
        ]
    domain, cut_off = piece_domain(piece, site.free, border_of(piece, site.room), [*taken, *own], spacing)
    outline = None if domain is None else piece_outline(domain, spacing.wall)
    if domain is None or outline is None:
        return None
    reach = depth - spacing.wall
    spot = entry_spot(outline, (x + reach * ix, y + reach * iy), gate.inward, spacing)
    lanes = [
        Lane(np.array([start, (start[0] + reach * ix, start[1] + reach * iy)])) for start in gate.pipes(index)
    ]
    return Stall(index, leaf, piece, domain, outline, spot, Tail((lanes[0], lanes[1]), (x, y)), 0, cut_off)
