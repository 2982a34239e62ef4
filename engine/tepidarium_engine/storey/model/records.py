"""What the geometry of a storey is made of; all in one frame, lengths in metres."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TypeAlias

from ...checking import Point
from ...plan.pipes.pipe_path import PipePath

__all__ = ["Doorway", "PairPlace", "Segment", "TailRoute"]

Segment: TypeAlias = tuple[Point, Point]


@dataclass(frozen=True, slots=True)
class Doorway:
    """An opening between two rooms: a stretch on the outline of each, facing each other across the wall.

    ``rooms`` are indices. Where rooms share a wall without thickness the two stretches are the same.
    """

    rooms: tuple[int, int]
    stretches: tuple[Segment, Segment]

    @property
    def middle_line(self) -> Segment:
        """Halfway through the wall, where both stretches face each other: where a joint lies in the doorway."""
        (ax, ay), (bx, by) = self.stretches[0]
        length = math.dist((ax, ay), (bx, by))
        ux, uy = (bx - ax) / length, (by - ay) / length
        ends = sorted((x - ax) * ux + (y - ay) * uy for x, y in self.stretches[1])
        x, y = self.stretches[1][0]
        aside = ((y - ay) * ux - (x - ax) * uy) / 2.0
        low, high = max(0.0, ends[0]), min(length, ends[1])
        return (
            (ax + low * ux - aside * uy, ay + low * uy + aside * ux),
            (ax + high * ux - aside * uy, ay + high * uy + aside * ux),
        )


@dataclass(frozen=True, slots=True)
class PairPlace:
    """Where flow and return pass a line side by side: ``place`` halfway between them, ``ahead`` the unit
    vector of the direction of travel of the flow there."""

    place: Point
    ahead: Point


@dataclass(frozen=True)
class TailRoute:
    """The tails of a circuit: ``flow`` from the manifold to the field, ``back`` from the field to the
    manifold; ``rooms`` are the rooms passed, in order, the field's own last."""

    circuit: str
    flow: PipePath
    back: PipePath
    rooms: tuple[int, ...]
