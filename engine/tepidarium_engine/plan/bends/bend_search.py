"""The curve of bounded curvature that serves a place best."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import product

from .bend_space import BendSpace
from .bend_track import Cut, Spot, Track
from .bend_trial import GRAIN, Curve, Trial

__all__ = ["Search"]

_NEAR = (0.2, 0.4, 0.6, 0.8, 1.0, 1.25, 1.5, 1.75, 2.0, 2.3, 2.6, 3.0)
_UNEVEN = 2
"""Steps by which cuts that are nearly alike are off from those that are."""
_WIDE = (0.5, 1.0, 1.7, 2.4, 3.2, 4.0, 5.0, 6.0)
"""How far before and behind the place to cut, in bend radii."""
_FAR = (7.0, 8.0, 9.0, 10.0, 12.0, 14.0, 17.0, 20.0)
"""How far to cut back a finger of two pipes, alike on both, in bend radii."""
_FINE, _FAIR = 0.1, 1.0
"""Costs at which no other cuts are tried, and only such as are much like the best, in bend radii. The first is on top
of what a turn about over one spacing has to stray: the radius less half the spacing."""
_MOST_CURVES = 1500
"""To look at for one place; a dozen do mostly, a few hundred at the ends of the pipe."""


class Search:
    """Curves for one place of the pipe; ``curves`` were looked at."""

    def __init__(self, track: Track, spot: Spot, space: BendSpace) -> None:
        self._track, self._spot, self._space = track, spot, space
        self._tried: set[Cut] = set()
        self.curves = 0

    def best(self) -> Curve | None:
        """The best curve: for cuts alike before and behind if that is fine, for others like them if that is fair, or
        else for all, near ones first.

        Of 14,247 places in 1,210 rooms and storeys 1,944 were fine, 6,507 had another near cut, 985 a wide and 1,276 a
        far one, 3,535 none.
        """
        radius, spacing = self._space.field.bend_radius, self._space.field.pipe_spacing
        best = self._best(zip(_NEAR, _NEAR, strict=True))
        if best is not None and best.cost <= _FINE * radius + max(0.0, radius - spacing / 2.0):
            return best
        best = None if best is None else self._best(self._about(best), best)
        if best is None or best.cost > _FAIR * radius:
            best = self._best(product(_NEAR, _NEAR), best)
        return best or self._best(product(_WIDE, _WIDE)) or self._best(zip(_FAR, _FAR, strict=True))

    def _about(self, even: Curve) -> Iterable[tuple[float, float]]:
        """Cuts much like an even one, in bend radii."""
        reach = (even.end - self._spot.end) / self._space.field.bend_radius
        at = min(range(len(_NEAR)), key=lambda step: abs(_NEAR[step] - reach))
        steps = _NEAR[max(0, at - _UNEVEN) : at + _UNEVEN + 1]
        return product(steps, steps)

    def _best(self, reaches: Iterable[tuple[float, float]], best: Curve | None = None) -> Curve | None:
        """The best for cuts so many bend radii before and behind the place, and of what there is."""
        cuts = list(dict.fromkeys(cut for cut in self._cuts(reaches) if cut not in self._tried))
        self._tried.update(cuts)
        if not cuts or self.curves >= _MOST_CURVES:
            return best
        trial = Trial(self._track, self._space, cuts, _MOST_CURVES - self.curves)
        self.curves += len(trial.table)
        limit = math.inf if best is None else best.cost - GRAIN
        return (trial.best(limit) if len(trial.table) else None) or best

    def _cuts(self, reaches: Iterable[tuple[float, float]]) -> Sequence[Cut]:
        radius, spot, length = self._space.field.bend_radius, self._spot, self._track.length
        return [
            (max(0.0, spot.start - before * radius), min(length, spot.end + behind * radius))
            for before, behind in reaches
        ]
