"""How far curves that are to replace a stretch of pipe stay from the rest of it."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import numpy.typing as npt
import shapely

from ...elementwise import Array
from ..pipes.pipe_table import Mask
from .bend_track import Cut, Track

__all__ = ["Lines", "OtherPipe"]

Lines = npt.NDArray[np.object_]

_FURTHER_ALONG = 0.9
"""What is further along the pipe is other pipe, in spacings."""

_NEARER = 1.0 - 1e-9


class OtherPipe:
    """What is left, in the box from ``low`` to ``high`` [m], of a pipe that is cut in one of several ways.

    The chords that no cut touches are one geometry, which most curves that come too near to other pipe come too near
    to; what the others leave is looked at by the cut.
    """

    def __init__(
        self, track: Track, cuts: Sequence[Cut], pipe_spacing: float, low: Array, high: Array
    ) -> None:
        self._track, self._same = track, _FURTHER_ALONG * pipe_spacing
        lows, highs = track.chord_boxes
        inside = ((highs >= low) & (lows <= high)).all(axis=1)
        first, last = min(start for start, _ in cuts) - self._same, max(end for _, end in cuts) + self._same
        untouched = (track.at[1:] <= first) | (track.at[:-1] >= last)
        self._untouched = shapely.multilinestrings(track.chord_lines(np.flatnonzero(inside & untouched)))
        shapely.prepare(self._untouched)
        self._touched = np.flatnonzero(inside & ~untouched)
        self._lines = track.chord_lines(self._touched)

    def is_near(self, lines: Lines, distance: Array) -> Mask:
        """Which of some geometries come nearer than a distance [m] to pipe that no cut touches: a quick look."""
        near: Mask = shapely.dwithin(self._untouched, lines, distance * _NEARER)
        return near

    def distances(self, lines: Lines, cuts: Sequence[Cut]) -> Array:
        """From each curve, put into its cut, to other pipe [m]; infinite when there is none in the box."""
        # The distance to nothing is no number, which fmin leaves out.
        distances: Array = np.fmin(shapely.distance(lines, self._untouched), self._to_touched(lines, cuts))
        return distances

    def is_crossed(self, chain: Array, cut: Cut) -> bool:
        """Whether a chain of points, put into its cut, makes a pipe that crosses itself nearby."""
        whole = np.concatenate((self._into(cut[0]), chain, self._out_of(cut[1])))
        return not shapely.is_simple(shapely.linestrings(whole))

    def _into(self, start: float) -> Array:
        """The same pipe before a cut, without the place itself."""
        return self._track.stretch(max(0.0, start - self._same), start)[1][:-1]

    def _out_of(self, end: float) -> Array:
        return self._track.stretch(end, min(self._track.length, end + self._same))[1][1:]

    def _to_touched(self, lines: Lines, cuts: Sequence[Cut]) -> Array:
        """To what the cuts leave of the chords that some cut touches."""
        track = self._track
        row, which = np.divmod(np.arange(len(lines) * len(self._touched)), max(1, len(self._touched)))
        chord = self._touched[which]
        before, behind = np.array(cuts).T
        before, behind = before[row] - self._same, behind[row] + self._same
        first, last = track.at[chord], track.at[chord + 1]
        kept = np.flatnonzero((last <= before) | (first >= behind))
        rows, others = [row[kept]], [self._lines[which[kept]]]
        for side, cut in ((1, before), (0, behind)):
            half = np.flatnonzero((first < cut) & (cut < last))
            segments = np.stack((track.points[chord[half]], track.points[chord[half] + 1]), axis=1)
            segments[:, side] = np.array([track.pose(at).place for at in cut[half].tolist()]).reshape(-1, 2)
            rows.append(row[half])
            others.append(shapely.linestrings(segments))
        row = np.concatenate(rows)
        least = np.full(len(lines), math.inf)
        np.minimum.at(least, row, shapely.distance(lines[row], np.concatenate(others)))
        return least
