"""A field stretched where pipe is to lie closer, and drafts of it carried back."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely import LineString, Polygon

from ..model.field import Draft, Field
from ..outlines.overlays import intersection
from .warp import Warp

__all__ = ["CloserStrip", "Stretched"]


_AT_WALL = 0.01
"""Floor so near to a wall begins there [m]: lines are drawn on a grid."""
_LEAST_WALL = 0.2
"""Shorter pieces of wall are corners [m]."""


@dataclass(frozen=True, slots=True)
class CloserStrip:
    """A peripheral area that shares its circuit with the room: ``width`` [m] along straight stretches of
    outside wall ``walls``, at a ``pipe_spacing`` [m] of its own; ``area`` is its floor."""

    walls: tuple[LineString, ...]
    width: float
    pipe_spacing: float
    area: Polygon

    def within(self, floor: Polygon) -> CloserStrip | None:
        """The strip as far as it lies in a part of the room, which begins at its walls; None where nothing does."""
        reached = shapely.buffer(floor, _AT_WALL)
        walls = (
            part
            for wall in self.walls
            for part in shapely.get_parts(intersection(wall, reached))
            if part.length > _LEAST_WALL
        )
        served, area = tuple(walls), intersection(self.area, floor)
        return (
            CloserStrip(served, self.width, self.pipe_spacing, area) if served and area.area > 0.0 else None
        )


class Stretched:
    """``image`` is the field to draft in: the field itself, but for one with a closer strip.

    ``unserved`` are the numbers of walls beside which pipe cannot be laid closer in this way.
    """

    def __init__(self, field: Field, strip: CloserStrip | None) -> None:
        self._field = field
        self._warp: Warp | None = None
        self.image = field
        self.unserved: tuple[int, ...] = ()
        if strip is not None:
            self._warp = Warp.beside_walls(
                field.room,
                strip.walls,
                width=strip.width,
                spacing=strip.pipe_spacing,
                plain_spacing=field.pipe_spacing,
            )
            self.unserved = self._warp.unserved
            self.image = replace(
                field,
                room=shapely.orient_polygons(self._warp.forward(field.room)),
                entry=self._warp.forward_entry(field.entry),
                own_zone=self._warp.forward_zone(field.zone),
            )

    def drafts(self, kinds: Iterator[Iterator[Draft]]) -> Iterator[Iterator[Draft]]:
        """Drafts of the image as drafts of the field."""
        return (map(self._back, kind) for kind in kinds)

    def _back(self, draft: Draft) -> Draft:
        if self._warp is None:
            return draft
        corners = self._warp.back_line(draft.corners)
        corners[[0, -1]] = self._field.entry.ends
        lost = draft.lost
        if lost:
            places = self._warp.back(np.array([at.place for at in lost])).tolist()
            lost = tuple(replace(at, place=(x, y)) for at, (x, y) in zip(lost, places, strict=True))
        return replace(draft, corners=corners, lost=lost)
