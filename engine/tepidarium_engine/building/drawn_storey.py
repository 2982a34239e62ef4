"""A storey with its drawing, and what is measured on the drawing once: pipe in rooms of others, floor cut off by it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import shapely
from shapely import LineString, Polygon
from shapely.ops import substring

from ..plan.outlines.overlays import intersection, union
from ..plan.outlines.regions import minus, opened, parts_of
from ..storey.layout_records import StoreyCircuit, StoreyLayout
from .house import StoreySite

__all__ = ["DrawnStorey", "PassedPipe"]

_CHORD_ERROR = 1e-3
_TOUCHED = 0.01
"""Share of a part of the floor that a field must lie in at least to have it."""
_LEAST = 0.01
"""Shorter pieces of pipe in a room of others are rounding at the doorway [m]."""


class PassedPipe(NamedTuple):
    """So much [m] of a circuit's flow, or of its return, lies in a room that it only passes."""

    circuit: str
    place: int
    flow: bool
    length: float


@dataclass(frozen=True)
class DrawnStorey:
    """A storey and its drawing, in which pipes keep ``wall_clearance`` [m]. Rooms go by their place on the site."""

    site: StoreySite
    layout: StoreyLayout
    wall_clearance: float

    @cached_property
    def passed(self) -> tuple[PassedPipe, ...]:
        """Pipe of all circuits in rooms of others."""
        return tuple(pipe for circuit in self.layout.circuits for pipe in self._passed(circuit))

    def _passed(self, circuit: StoreyCircuit) -> Iterator[PassedPipe]:
        """The flow is the first half of the pipe, the return the second."""
        line = LineString(circuit.path.polyline(_CHORD_ERROR))
        middle = line.length / 2.0
        for place, floor in enumerate(self.site.plan.rooms):
            if place == circuit.room or not shapely.intersects(line, floor):
                continue
            for flow, half in (
                (True, substring(line, 0.0, middle)),
                (False, substring(line, middle, line.length)),
            ):
                length = float(intersection(half, floor).length)
                if length > _LEAST:
                    yield PassedPipe(circuit.id, place, flow, length)

    def lanes(self, place: int) -> list[Polygon]:
        """Floor of a room that tails to others take."""
        return [lane.floor for lane in self.layout.tails.lanes if lane.room == place]

    @cached_property
    def cut_off(self) -> dict[int, list[Polygon]]:
        """What lanes leave of rooms and their own circuits do not lie in, by room with lanes."""
        crossed = sorted({lane.room for lane in self.layout.tails.lanes})
        return {place: self._cut_off(place) for place in crossed}

    def _cut_off(self, place: int) -> list[Polygon]:
        fields = [circuit.floor for circuit in self.layout.circuits if circuit.room == place]
        if not fields:
            return []
        left = opened(minus(self.site.plan.rooms[place], union(self.lanes(place))), self.wall_clearance)
        own = union(fields)
        return [part for part in parts_of(left) if intersection(part, own).area < _TOUCHED * part.area]
