"""How a room is stretched and drawn in so that rings one spacing apart fill it evenly.

A loop crosses every leg of a room an even number of times, so a leg is filled evenly only where it is an odd number of
spacings wide. Where walls are square to each other, lines of pipe that suit all legs at once are found for either axis,
and the room is mapped so that they lie one spacing apart. In any other room the spacing is drawn in or stretched alike
everywhere, so that the innermost ring is as wide as the pipe needs to turn in it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import shapely

from ..lattice.lattice_lines import lattice_lines
from ..mapping.warp import Warp
from ..model.field import Field
from ..outlines.edges import edges_of, is_square
from ..outlines.overlays import difference
from ..outlines.regions import parts_of
from .ring_tree import RingTree, ring_tree
from .rings import LEAST_WIDTH, level_sets
from .spacing_fit import leg_scales

__all__ = ["FittedRings", "Scales", "fitted_rings", "scaled_rings", "wide_rings"]

Scales = tuple[float, float]

_NARROWEST, _WIDEST = 0.95, 1.5
"""Width of the innermost ring that is aimed at, in spacings: floor in a wider one stays bare."""
_PLAIN = 1.6
"""Up to this width, in spacings, the innermost ring is to be as wide as a plain turn: of a pipe that bends to more than
0.8 spacings, the turn bulges."""
_BULGE = 0.4
"""By how much less than two bend radii such a ring is wide, in spacings: the turn then is 0.8 from the next ring."""
_CLOSEST = 0.625
"""What the turn in any ring keeps from the ring round it at least, in spacings."""
_ROOM = 0.1
"""How much wider than it needs to be the innermost ring may be at least, in spacings."""
_CRAMPED = 0.15
"""What a spacing costs that innermost rings are narrower than pipe needs to turn in them."""
_GOOD = 0.05
"""Badness of rings beside which no others are tried."""
_FAIR = 0.08
"""Badness of rings beside which closer ones are not tried."""
_CLOSER = (0.97, 0.94)
"""Spacings of these, in terms of what is best so far."""
_LEAST_SCALE, _GREATEST_SCALE = 0.88, 1.08
"""Of the spacing asked for: what rings are drawn in to, or stretched to."""
_STRETCHING = 2.0
"""A wider spacing is worth this many times the same share of a closer one: it leaves floor bare."""


class FittedRings(NamedTuple):
    """Rings in a mapped room, and the map."""

    warp: Warp
    tree: RingTree


def fitted_rings(field: Field, quick: bool = False) -> FittedRings:
    """The rings of a field, fitted to it; as they come, but for a stiff pipe, where that is good enough."""
    best = _Trial.of(field, Warp())
    if field.zone.free is None or not best.rings.tree.rings:
        return best.rings
    for warp in _warps(field):
        if best.badness <= _GOOD:
            break
        best = min(best, _Trial.of(field, warp), key=lambda trial: trial.badness)
        if quick:
            break
    for scale in () if quick or best.badness <= _FAIR else _CLOSER:
        closer = best.rings.warp.shrunk((scale, scale))
        best = min(best, _Trial.of(field, closer), key=lambda trial: trial.badness)
    return best.rings


def _warps(field: Field) -> Iterator[Warp]:
    """Maps worth trying, the most hopeful first."""
    area, spacing = field.zone.free, field.pipe_spacing
    if area is not None and is_square(field.room):
        edges = edges_of(area)
        xs, ys = (lattice_lines(edges, axis, spacing) for axis in (0, 1))
        lines = Warp.on_lines(xs, ys, spacing)
        for scale in _scales(field, lines)[:1]:
            yield lines.shrunk((scale, scale))
        for scales in leg_scales(field.zone, spacing)[:1]:
            yield Warp().shrunk(scales)
    for scale in _scales(field, Warp())[:1]:
        yield Warp().shrunk((scale, scale))


def scaled_rings(field: Field, scales: Scales) -> FittedRings:
    """Rings at spacings along x and y that are given in terms of the field's."""
    return _rings(field, Warp().shrunk(scales))


def wide_rings(field: Field) -> FittedRings:
    """Fitted rings all of which are as wide as a plain turn: more floor stays bare, but every turn finds room."""
    warp = fitted_rings(field).warp
    return _rings(field, warp, 2.0 * field.bend_radius / field.pipe_spacing * warp.densest)


def _rings(field: Field, warp: Warp, least_width: float = 0.0) -> FittedRings:
    # Where rings lie closer, a turn has to be wider in terms of that, and leaves less to the ring round it.
    turn = 2.0 * (field.bend_radius / field.pipe_spacing + _CLOSEST) * warp.densest - 2.0
    zone = warp.forward_zone(field.zone)
    return FittedRings(
        warp, ring_tree(level_sets(zone, field.pipe_spacing, max(LEAST_WIDTH, turn, least_width)))
    )


def _scales(field: Field, warp: Warp) -> list[float]:
    """Scales at which the innermost ring has room for the turn of the pipe, nearest to what is asked for first."""
    free, spacing = warp.forward_zone(field.zone).free, field.pipe_spacing
    widest = max(parts_of(free), key=lambda part: part.area)
    half = float(shapely.maximum_inscribed_circle(widest, tolerance=0.01 * spacing).length)
    least = _least_width(field) * spacing
    most = max(_WIDEST * spacing, least + _ROOM * spacing)
    found = []
    for inner in range(1, math.ceil(half / (_LEAST_SCALE * spacing)) + 1):
        low, high = (half - most / 2.0) / inner / spacing, (half - least / 2.0) / inner / spacing
        scale = min(max(1.0, low), high)
        if _LEAST_SCALE <= scale <= _GREATEST_SCALE:
            found.append((round(abs(scale - 1.0) * (_STRETCHING if scale > 1.0 else 1.0), 6), scale))
    return [scale for _, scale in sorted(found)] or [1.0]


def _least_width(field: Field) -> float:
    """Of an innermost ring, so that pipe turns in it, in spacings."""
    turn = 2.0 * field.bend_radius / field.pipe_spacing
    return max(_NARROWEST, min(turn, _PLAIN), turn - _BULGE)


@dataclass(frozen=True)
class _Trial:
    """Rings and how badly they cover a field, as ``route_quality`` weighs the finished pipe."""

    rings: FittedRings
    badness: float

    @classmethod
    def of(cls, field: Field, warp: Warp) -> _Trial:
        rings = _rings(field, warp)
        return cls(rings, _badness(field, rings) if rings.tree.rings else math.inf)


def _badness(field: Field, rings: FittedRings) -> float:
    spacing = field.pipe_spacing
    lines = [rings.warp.back_line(ring.points[np.r_[: len(ring.points), 0]]) for ring in rings.tree.rings]
    drawn = shapely.MultiLineString(lines)
    floor = shapely.buffer(field.zone.free, spacing / 2.0, quad_segs=4)
    half, bare = (
        difference(floor, shapely.buffer(drawn, reach * spacing, quad_segs=3)).area / floor.area
        for reach in (0.4995, 0.750001)
    )
    long = max(0.0, drawn.length * spacing / floor.area - 1.02)
    badness = 3.0 * half + 6.0 * bare + 20.0 * max(0.0, bare - 0.01) + 8.0 * long
    return round(float(badness) + _CRAMPED * _cramped(field, rings), 6)


def _cramped(field: Field, rings: FittedRings) -> float:
    """By how much innermost rings are narrower than pipe needs to turn in them, in spacings: each as wide as a
    rectangle of its area and length."""
    areas = [ring.area for ring in rings.tree.rings if not ring.children]
    half, area = shapely.length(areas) / 2.0, shapely.area(areas)
    width = (half - np.sqrt(np.maximum(0.0, half * half - 4.0 * area))) / 2.0 / field.pipe_spacing
    return float(np.maximum(0.0, _least_width(field) - width).sum())
