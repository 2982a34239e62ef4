"""A pipe as a chain of short straight chords, for the predicates that know straight lines only."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import shapely

from ...elementwise import Array
from ..pipes.pipe_path import LEAST_PIECE_LENGTH
from ..pipes.pipe_table import Index, PipeTable
from .pipe_neighbours import CHORD_ERROR

__all__ = ["Chords"]

_LONGEST_CHORD = 2.0
"""In spacings: a place on a chord is then a place on the plan."""


@dataclass(frozen=True, slots=True)
class Chords:
    """Chords between the ``points`` [m] at the positions ``at`` [m]; they stray by ``CHORD_ERROR`` at most."""

    at: Array
    points: Array

    @classmethod
    def of(cls, table: PipeTable, pipe_spacing: float, breaks: tuple[float, ...] = ()) -> Chords:
        """Chords of at most two spacings; there is a vertex at each of ``breaks`` too."""
        _, at = table.cut(CHORD_ERROR, _LONGEST_CHORD * pipe_spacing)
        apart = [here for here in breaks if np.abs(at - here).min() > LEAST_PIECE_LENGTH]
        at = np.union1d(at, [here for here in apart if 0.0 < here < table.total])
        return cls(at, table.poses(at)[0])

    def lines(self, index: Index) -> npt.NDArray[np.object_]:
        """The chords of these numbers, one line each."""
        lines: npt.NDArray[np.object_] = shapely.linestrings(
            np.stack((self.points[index], self.points[index + 1]), axis=1)
        )
        return lines
