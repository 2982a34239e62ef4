"""Film laid over a floor in sheets that lap, turned up at the edges (EN 1264-4, DIN 18560-2)."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

import shapely
from shapely import LineString, Polygon

from ..plan.outlines.overlays import intersection
from .strips import Strip, strips, turned

__all__ = ["FilmLaying", "FilmPiece", "lay_film"]

_SLACK = 1e-6
_REMEMBERED = 256
"""Floors: rooms of flats that are alike are the same floor."""


class FilmPiece(NamedTuple):
    """A sheet as it lies, in the frame of the floor [m]; parts turned up are drawn flat."""

    left: float
    low: float
    right: float
    high: float


@dataclass(frozen=True)
class FilmLaying:
    """``along``: sheets run along the x axis. ``film_area`` [m2] counts laps and what is turned up; ``lap_length`` [m]
    is that of all laps on the floor, ``lap`` [m] their width between neighbouring sheets (0 with a single one),
    ``end_laps`` those within a sheet that is longer than a roll."""

    pieces: tuple[FilmPiece, ...]
    along: bool
    film_area: float
    lap_length: float
    lap: float
    end_laps: int


@lru_cache(maxsize=_REMEMBERED)
def lay_film(floor: Polygon, width: float, roll_length: float, least_lap: float, upturn: float) -> FilmLaying:
    """Sheets from rolls of ``width`` [m] in the direction that takes less film; laps of at least ``least_lap`` [m],
    evenly wider where sheets are left whole, and ``upturn`` [m] at the edges."""
    along = _laid(floor, width, roll_length, least_lap, upturn)
    across = _laid(turned(floor), width, roll_length, least_lap, upturn)
    if across.film_area >= along.film_area - _SLACK:
        return along
    pieces = tuple(FilmPiece(piece.low, piece.left, piece.high, piece.right) for piece in across.pieces)
    return FilmLaying(pieces, False, across.film_area, across.lap_length, across.lap, across.end_laps)


def _laid(floor: Polygon, width: float, roll_length: float, least_lap: float, upturn: float) -> FilmLaying:
    covered = shapely.buffer(floor, upturn, join_style="mitre") if upturn > 0.0 else floor
    _, low, _, high = covered.bounds
    count = max(1, math.ceil((high - low - least_lap) / (width - least_lap) - _SLACK))
    step = (high - low - width) / (count - 1) if count > 1 else 0.0
    sheets = strips(covered, [low + number * step for number in range(count)], width)
    pieces = [
        FilmPiece(span.start, sheet.low, span.end, sheet.high) for sheet in sheets for span in sheet.spans
    ]
    lengths = [piece.right - piece.left for piece in pieces]
    end_laps = [
        max(0, math.ceil((length - least_lap) / (roll_length - least_lap) - _SLACK) - 1) for length in lengths
    ]
    laps = sum(end_laps)
    return FilmLaying(
        tuple(pieces),
        True,
        width * (math.fsum(lengths) + laps * least_lap),
        _lap_length(floor, sheets) + laps * width,
        width - step if count > 1 else 0.0,
        laps,
    )


def _lap_length(floor: Polygon, sheets: list[Strip]) -> float:
    """Floor along the middle of each lap."""
    left, _, right, _ = floor.bounds
    middles = [(before.high + after.low) / 2.0 for before, after in pairwise(sheets)]
    lines = [LineString([(left - 1.0, y), (right + 1.0, y)]) for y in middles]
    return math.fsum(float(intersection(line, floor).length) for line in lines)
