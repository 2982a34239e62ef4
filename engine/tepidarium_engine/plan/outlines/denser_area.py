"""Parts of a room in which the pipe is laid closer: the strip along outside walls, as a rule."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from shapely import Polygon

from ...elementwise import Array
from .overlays import difference, intersection

__all__ = ["DenserArea", "Spacings"]


@dataclass(frozen=True, slots=True)
class DenserArea:
    """A part of the floor with a ``pipe_spacing`` of its own [m], not more than that of the room.

    EN 1264 calls such a strip along outside walls a peripheral area. What of ``polygon`` [m] lies beyond the
    floor is left out; where two areas overlap the first one counts.
    """

    polygon: Polygon
    pipe_spacing: float


@dataclass(frozen=True, slots=True)
class Spacings:
    """The spacing asked for at each place of a room: ``widest`` [m], or less in the ``denser`` areas."""

    widest: float
    denser: tuple[DenserArea, ...]

    @property
    def least(self) -> float:
        """The least spacing anywhere [m]."""
        return min((area.pipe_spacing for area in self.denser), default=self.widest)

    def at(self, points: Array) -> Array:
        """The spacing at each point [m]."""
        return self._within(points, 0.0)

    def beside(self, points: Array) -> Array:
        """The spacing that a distance to other pipe is judged by [m].

        Within half the room's spacing of a denser area it is that area's: the last pipe of the one and the
        first of the other lie half their spacings to either side of the edge.
        """
        return self._within(points, self.widest / 2.0)

    def parts(self, floor: shapely.Geometry) -> list[tuple[shapely.Geometry, float]]:
        """The floor divided by spacing; what is not in a denser area comes last."""
        divided = []
        for area in self.denser:
            divided.append((intersection(floor, area.polygon), area.pipe_spacing))
            floor = difference(floor, area.polygon)
        return [*divided, (floor, self.widest)]

    def _within(self, points: Array, margin: float) -> Array:
        spacings = np.full(len(points), self.widest)
        if self.denser:
            places = shapely.points(points)
            for area in reversed(self.denser):
                shapely.prepare(area.polygon)
                spacings[shapely.dwithin(area.polygon, places, margin + 1e-9)] = area.pipe_spacing
        return spacings
