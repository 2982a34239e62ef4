"""How well runs of pipe cover a floor, estimated without the finished pipe."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import shapely
from shapely import MultiPolygon, Polygon

from ..outlines.edges import edges_of
from ..outlines.regions import dilated
from .comb_teeth import Piece, Reach, free_spans

__all__ = ["FloorRaster"]

_ALONG = 4
"""Cells of the raster in a spacing, along the runs and across them."""
_ACROSS = 12
_HALF = 0.5
_WIDE = 0.75
"""Distances from pipe within which floor counts as covered, in spacings."""
_WIDE_COUNTS = 2.0
_BARE_COUNTS = 6.0
"""Of floor beyond the greater distance, and of what is more of it than ``_MOST_BARE`` of all."""
_MOST_BARE = 0.01


@dataclass(frozen=True)
class FloorRaster:
    """The floor in cells, for comparing many sets of runs; ``origin`` and ``cell`` [m] are (x, y)."""

    floor: npt.NDArray[np.bool_]
    origin: tuple[float, float]
    cell: tuple[float, float]
    spacing: float

    @classmethod
    def of(cls, area: Polygon | MultiPolygon, reach: Reach) -> FloorRaster:
        """Of the floor round the area where the centre line may lie."""
        floor = dilated(area, reach.margin)
        spans = edges_of(floor)
        left, bottom, right, top = shapely.bounds(floor).tolist()
        cell = (reach.spacing / _ALONG, reach.spacing / _ACROSS)
        shape = (max(1, round((top - bottom) / cell[1])), max(1, round((right - left) / cell[0])))
        cells = np.zeros(shape, dtype=np.bool_)
        middles = bottom + (np.arange(shape[0]) + 0.5) * cell[1]
        for row, free in enumerate(free_spans(spans, middles - 1e-5, middles + 1e-5)):
            for start, end in free:
                cells[row, _index(start, left, cell[0]) : _index(end, left, cell[0])] = True
        return cls(cells, (left, bottom), cell, reach.spacing)

    @property
    def area(self) -> float:
        """Of the floor [m2]."""
        return max(1, int(np.count_nonzero(self.floor))) * self.cell[0] * self.cell[1]

    def score(self, pieces: Sequence[Piece]) -> float:
        """Floor further from pipe than half a spacing, and more so than 0.75, as shares of it."""
        total = max(1, int(np.count_nonzero(self.floor)))
        near, wide = (self._bare(pieces, share) / total for share in (_HALF, _WIDE))
        return near + _WIDE_COUNTS * wide + _BARE_COUNTS * max(0.0, wide - _MOST_BARE)

    def _bare(self, pieces: Sequence[Piece], share: float) -> int:
        bare = self.floor.copy()
        grown = share * self.spacing
        (left, bottom), (width, height) = self.origin, self.cell
        for y, start, end in _runs(pieces):
            low, high = _index(y - grown, bottom, height), _index(y + grown, bottom, height)
            bare[low:high, _index(start - grown, left, width) : _index(end + grown, left, width)] = False
        return int(np.count_nonzero(bare))


def _runs(pieces: Sequence[Piece]) -> Iterator[tuple[float, float, float]]:
    for piece in pieces:
        yield piece.low, piece.left_low, piece.right_low
        yield piece.high, piece.left_high, piece.right_high


def _index(place: float, origin: float, cell: float) -> int:
    return max(0, round((place - origin) / cell))
