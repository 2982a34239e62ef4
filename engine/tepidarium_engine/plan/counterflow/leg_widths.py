"""How wide the legs of a room are across each axis of its frame."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely

from ..outlines.regions import Region, parts_of

__all__ = ["Leg", "legs_along"]

_SQUARE = 0.05
"""Walls that rise by less per metre count as parallel to an axis."""
_INSIDE = 1e-3
"""How far from the end of a leg it is looked whether the floor goes on [m]."""


@dataclass(frozen=True, slots=True)
class Leg:
    """Floor between two walls that face each other, parallel to an axis: ``width`` [m] from wall to wall,
    ``run`` [m] along them, ``ridge`` [m] the length of what lies nearer to these two than to its ends."""

    width: float
    run: float
    ridge: float


def legs_along(region: Region, axis: int) -> list[Leg]:
    """Legs whose width is measured along an axis (0: x, 1: y), in the order in which they lie across it."""
    if region is None:
        return []
    across, along = 1 - axis, axis
    corners = [shapely.get_coordinates(ring) for ring in shapely.get_rings(parts_of(region))]
    edges = np.concatenate([np.hstack((ring[:-1], ring[1:])) for ring in corners])
    start, end = edges[:, [across, along]], edges[:, [2 + across, 2 + along]]
    marks = np.unique(np.round(start[:, 0], 4))
    runs: dict[tuple[int, int], list[float]] = {}
    for low, high in zip(marks[:-1].tolist(), marks[1:].tolist(), strict=True):
        middle = (low + high) / 2.0
        met = np.flatnonzero((start[:, 0] < middle) != (end[:, 0] < middle))
        rise = (end[met, 1] - start[met, 1]) / (end[met, 0] - start[met, 0])
        height = start[met, 1] + rise * (middle - start[met, 0])
        order = np.argsort(height)
        for a, b in zip(order[::2].tolist(), order[1::2].tolist(), strict=True):
            if abs(rise[a]) < _SQUARE and abs(rise[b]) < _SQUARE:
                found = runs.setdefault((int(met[a]), int(met[b])), [low, high, height[a], height[b]])
                found[1] = high
    return [_leg(region, axis, box) for box in runs.values()]


def _leg(region: Region, axis: int, box: list[float]) -> Leg:
    low, high, bottom, top = box
    width, run = top - bottom, high - low
    closed = 0
    for at in (low - _INSIDE, high + _INSIDE):
        end = np.array([[at, bottom + _INSIDE], [at, top - _INSIDE]])
        closed += not shapely.covers(region, shapely.LineString(end if axis == 1 else end[:, ::-1]))
    return Leg(float(width), float(run), float(max(0.0, run - closed * width / 2.0)))
