"""How far the pipe spacing may be stretched or drawn in along each axis so that rings fill a room evenly.

A loop crosses every leg of a room an even number of times, so a leg W wide between its outermost pipes is
filled evenly only where W is an odd number of spacings. One factor for each axis of the room's frame serves
legs along both axes; rooms with more different legs get the best compromise.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import product
from typing import NamedTuple

import numpy as np
import shapely
from shapely import Polygon

from ...elementwise import Array
from ..outlines.overlays import difference
from ..outlines.pipe_zone import PipeZone
from .leg_widths import Leg, legs_along
from .ring_tree import parents_of
from .rough_rings import rough_level_sets

__all__ = ["Scales", "fitted_zone_scales", "leg_scales"]

Scales = tuple[float, float]

LEAST_SCALE, GREATEST_SCALE = 0.86, 1.12
"""Of the spacing asked for: what rings are drawn in to, or stretched to."""
_NEAR, _SERVED, _TIGHT = 0.55, 0.75, 0.385
"""Distances from the pipe, in spacings: still heated evenly, still heated, half of what is too near."""
_MOST_TRIALS = 12
_LEG_TRIALS = 4
_COARSE = (0.94, 1.05, 0.90, 0.97, 1.09, 0.87)
_STEPS = (0.035, 0.016)
_UNEVEN = 0.4
_TURN = 0.93
"""Width of a ring, in fitted spacings, in which pipe turns without first swinging out."""
_CRAMPED = 0.004
_GAIN = 0.002
"""Of badness, from which a pair of scales is worth a trial."""
_EVERY = np.linspace(LEAST_SCALE, GREATEST_SCALE, 66)


@dataclass(frozen=True, slots=True)
class _Trial:
    """Rings at a pair of scales: shares of the heated floor too far from pipe, and served twice; ``cramped`` is
    the number of innermost rings in which pipe hardly turns."""

    scales: Scales
    sparse: float
    bare: float
    tight: float
    surplus: float
    cramped: int

    @property
    def badness(self) -> float:
        found = self.sparse + 3.0 * self.bare + 6.0 * self.tight + 0.5 * max(0.0, self.surplus)
        return round(found + _CRAMPED * self.cramped + sum(map(_reluctance, self.scales)), 6)

    @property
    def is_good(self) -> bool:
        return self.sparse < 0.012 and self.bare < 0.003 and self.tight < 0.002 and not self.cramped

    @property
    def is_fair(self) -> bool:
        return self.sparse < 0.03 and self.bare < 0.006 and self.tight < 0.004


def _reluctance(scale: float) -> float:
    """What a change of spacing must gain: twice as much more when it is stretched."""
    return 0.15 * abs(scale - 1.0) + 0.3 * max(0.0, scale - 1.0)


def fitted_zone_scales(zone: PipeZone, pipe_spacing: float) -> Scales:
    """Pipe spacings along x and y of the frame of a ``zone`` where the centre line may lie, in terms of the one asked
    for: 0.86 to 1.12 each.

    Rings laid in the zone shrunk by these and stretched back cover it best, as far as a few dozen trials
    tell. (1, 1) where that is good enough, and where there is no room for pipe.
    """
    if zone.free is None:
        return (1.0, 1.0)
    trials = _Trials(zone, pipe_spacing)
    best = trials.at(1.0, 1.0)
    for x, y in () if best.is_good else leg_scales(zone, pipe_spacing):
        best = trials.better(best, x, y)
        if best.is_good:
            break
    for x, y in () if best.is_fair else zip(_COARSE, _COARSE, strict=True):
        best = trials.better(best, x, y)
        if best.is_good:
            break
    return best.scales if best.is_fair else _refined(trials, best).scales


def leg_scales(zone: PipeZone, pipe_spacing: float) -> list[Scales]:
    """Pairs of scales that suit the widths of the legs better than none, best first."""
    along_x, along_y = (_scales_for(legs_along(zone.shell, axis), pipe_spacing) for axis in (0, 1))
    pairs = sorted((x[0] + y[0], x[1], y[1]) for x, y in product(along_x.best, along_y.best))
    plain = along_x.plain + along_y.plain
    return [(x, y) for badness, x, y in pairs if badness < plain - _GAIN][:_LEG_TRIALS]


def _refined(trials: _Trials, best: _Trial) -> _Trial:
    """The best of what lies round about, one axis after the other."""
    for step in _STEPS:
        for x, y in ((step, 0.0), (-step, 0.0), (0.0, step), (0.0, -step)):
            if best.is_good or trials.count >= _MOST_TRIALS:
                return best
            best = trials.better(best, best.scales[0] + x, best.scales[1] + y)
    return best


class _LegScales(NamedTuple):
    """Scales along one axis by what they leave uncovered: (badness, scale), and the badness without any."""

    best: list[tuple[float, float]]
    plain: float


def _scales_for(legs: list[Leg], pipe_spacing: float) -> _LegScales:
    """The three scales that suit legs of these widths best, each better than those near to it."""
    spans: Array = np.array([leg.width for leg in legs]) / pipe_spacing
    gaps = np.arange(1.0, spans.max(initial=1.0) / LEAST_SCALE + 1.0, 2.0)
    exact = (spans[:, None] / gaps).ravel()
    within = exact[(exact >= LEAST_SCALE) & (exact <= GREATEST_SCALE)]
    scales: Array = np.unique(np.round(np.concatenate((_EVERY, within, [1.0])), 6))
    badness: Array = np.array([_reluctance(scale) for scale in scales.tolist()])
    whole = math.fsum(leg.width * leg.run for leg in legs)
    for leg in legs:
        left: Array = _misfit(leg.width / pipe_spacing / scales)
        badness += leg.ridge * pipe_spacing / whole * left
    badness = np.round(badness, 9)
    inner = np.concatenate(([np.inf], badness, [np.inf]))
    lowest = np.flatnonzero((badness <= inner[:-2]) & (badness < inner[2:]))
    order = lowest[np.argsort(badness[lowest], kind="stable")][:3]
    plain = float(badness[np.searchsorted(scales, 1.0)])
    return _LegScales([(float(badness[at]), float(scales[at])) for at in order], plain)


def _misfit(spacings: Array) -> Array:
    """What a leg of so many spacings leaves uncovered along its middle, in spacings, weighed as trials are.

    The innermost ring is 0.8 to 2.8 spacings wide. From 2.4 on one more, 0.8 wide, finds a place in it, but
    pipe hardly turns in there.
    """
    middle = (spacings - 0.8) % 2.0 + 0.8
    sparse = np.maximum(0.0, middle - 2.0 * _NEAR)
    bare = np.maximum(0.0, middle - 2.0 * _SERVED)
    misfit: Array = np.where(middle > 2.4, _UNEVEN, sparse + 3.0 * bare)
    return misfit + _UNEVEN * np.maximum(0.0, 1.0 - middle) / 0.2


class _Trials:
    """Rings laid at trial scales, and how well they cover."""

    def __init__(self, zone: PipeZone, pipe_spacing: float) -> None:
        self.zone = zone
        self.pipe_spacing = pipe_spacing
        self.floor = shapely.buffer(zone.free, pipe_spacing / 2.0, quad_segs=4)
        self.area = float(self.floor.area)
        self.count = 0

    def at(self, x: float, y: float) -> _Trial:
        x, y = (min(max(scale, LEAST_SCALE), GREATEST_SCALE) for scale in (x, y))
        self.count += 1
        sets = rough_level_sets(self.zone.scaled(1.0 / x, 1.0 / y), self.pipe_spacing)
        parts = [part for level in sets.levels for part in level.parts]
        if not parts:
            return _Trial((x, y), 1.0, 1.0, 0.0, 0.0, 0)
        outlines = [shapely.get_coordinates(part) * (x, y) for part in parts]
        areas = np.array([part.area for part in parts]) * (x * y)
        lengths = np.array([np.hypot(*np.diff(points, axis=0).T).sum() for points in outlines])
        lines = shapely.MultiLineString(outlines)
        parents = parents_of(sets)
        return _Trial(
            (x, y),
            self._beyond(lines, _NEAR),
            self._beyond(lines, _SERVED),
            self._tight(areas, lengths, parents),
            float(lengths.sum()) * self.pipe_spacing / self.area - 1.02,
            self._cramped(parts, parents),
        )

    def better(self, best: _Trial, x: float, y: float) -> _Trial:
        return min(best, self.at(x, y), key=lambda trial: trial.badness)

    def _tight(self, areas: Array, lengths: Array, parents: list[int | None]) -> float:
        """Share of the floor by which pipe lies too near to other pipe: what strips beside the rings would
        take of the floor between a ring and those inside it, over what there is."""
        band, sides = areas.copy(), lengths.copy()
        for index, parent in enumerate(parents):
            if parent is not None:
                band[parent] -= areas[index]
                sides[parent] += lengths[index]
        return float(np.maximum(0.0, _TIGHT * self.pipe_spacing * sides - band).sum()) / self.area

    def _cramped(self, parts: list[Polygon], parents: list[int | None]) -> int:
        """Innermost rings as narrow as a rectangle of their area and length that is less than a turn wide."""
        innermost = [part for index, part in enumerate(parts) if index not in parents]
        half, area = shapely.length(innermost) / 2.0, shapely.area(innermost)
        width = (half - np.sqrt(np.maximum(0.0, half * half - 4.0 * area))) / 2.0
        return int((width < _TURN * self.pipe_spacing).sum())

    def _beyond(self, lines: shapely.Geometry, reach: float) -> float:
        served = shapely.buffer(lines, reach * self.pipe_spacing, quad_segs=3)
        return float(difference(self.floor, served).area) / self.area
