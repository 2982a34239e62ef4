"""Places where the bends of a pipe do not fit, laid anew by curves of bounded curvature.

The pipe is cut on both sides of the place and a curve of the bend radius put in between; a turn between two
pipes that lie nearer than two radii then widens like the letter omega. Of all curves that leave the floor
and the other pipe alone, the one that strays least from the pipe as it was drafted is taken.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt
import shapely

from ...checking import Point
from ..pipes.fillets import RADIUS_TOLERANCE
from .bend_search import Search
from .bend_space import CLEARANCE_SLACK, BendSpace
from .bend_track import Spot, Track, merged_spots
from .bend_trial import Curve

__all__ = ["bad_spots", "crowded_spots", "repaired"]

_TRIFLE = 1e-4
"""Of clearance: what chords and offsets stray [m]."""
_MOST_LOOKS = 5
"""At all of the pipe: one and a half on average."""
_MOST_IN_VAIN = 1000
"""Curves of one pipe looked at for places that none of them served: what is left then stays as it is."""
_MOST_AT_ONE_PLACE = 4
"""Repairs of one place: more only go round in circles."""
_LEAST_APART = 0.598
"""Pipe nearer to other pipe is laid anew, in spacings."""
_OTHER_PIPE = 2.6
"""What is further along the pipe is other pipe for good, in spacings."""
_ONE_SPOT = 0.5
"""Places less than this apart are one, in bend radii."""


def repaired(track: Track, space: BendSpace) -> Track:
    """The pipe with as many of its places at fault laid anew as the floor and other pipe allow.

    The work is bounded; places that it did not suffice for stay as they are.
    """
    work = _Work(space)
    for find in (bad_spots, crowded_spots):
        track = _cured(track, work, find)
    return track


@dataclass(slots=True)
class _Work:
    """What the repair of one pipe has cost: curves looked at in vain, and the places laid anew."""

    space: BendSpace
    in_vain: int = 0
    laid_anew: list[Point] = field(default_factory=list)

    def goes_in_circles(self, place: Point) -> bool:
        reach = _ONE_SPOT * self.space.field.bend_radius
        return sum(math.dist(place, before) < reach for before in self.laid_anew) >= _MOST_AT_ONE_PLACE


def _cured(track: Track, work: _Work, find: Callable[[Track, BendSpace], list[Spot]]) -> Track:
    """The pipe laid anew at the places found, from its end to its start, and once more where that has changed it."""
    given_up: list[Point] = []
    for _ in range(_MOST_LOOKS):
        changed, untouched = False, math.inf
        for spot in reversed(find(track, work.space)):
            if work.in_vain >= _MOST_IN_VAIN:
                return track
            place = _middle(track, spot)
            known = spot.end > untouched or any(math.dist(place, other) < 1e-3 for other in given_up)
            if known or work.goes_in_circles(place):
                continue
            curve = _best_curve(track, spot, work)
            if curve is None:
                given_up.append(place)
            else:
                work.laid_anew.append(place)
                track, untouched, changed = (
                    track.replaced(curve.start, curve.end, curve.pieces),
                    curve.start,
                    True,
                )
        if not changed:
            break
        given_up.clear()  # what has changed elsewhere may have made room
    return track


def bad_spots(track: Track, space: BendSpace) -> list[Spot]:
    """Where the pipe bends too tightly or comes too near to a wall, in the order of flow."""
    radius = space.field.bend_radius
    lacking = space.shortfall(track.points) > CLEARANCE_SLACK + _TRIFLE
    lacking &= np.minimum(track.at, track.length - track.at) > space.doorway
    near = [Spot(at, at, radius) for at in track.at[lacking].tolist()]
    return merged_spots([*track.tight_spots(radius * (1.0 - RADIUS_TOLERANCE)), *near], _ONE_SPOT * radius)


def crowded_spots(track: Track, space: BendSpace) -> list[Spot]:
    """Where the pipe comes too near to itself, on either side, in the order of flow."""
    field = space.field
    reach = _LEAST_APART * field.pipe_spacing
    chords = _chords_near_others(track, reach)
    if not len(chords):
        return []
    lines = shapely.linestrings(np.stack((track.points[chords], track.points[chords + 1]), axis=1))
    one, other = shapely.STRtree(lines).query(lines, predicate="dwithin", distance=reach)
    one, other = chords[one], chords[other]
    apart = track.at[other] - track.at[one + 1] > _OTHER_PIPE * field.pipe_spacing
    if field.tail_pitch < field.pipe_spacing * (1.0 - 1e-6):  # near the entry that is how the tails come in
        fan = field.wall_clearance + field.pipe_spacing + 2.0 * field.bend_radius
        apart &= (track.at[one + 1] > fan) | (track.at[other] < track.length - fan)
    spots = []
    for pair in zip(one[apart].tolist(), other[apart].tolist(), strict=True):
        ends = shapely.linestrings([track.points[index : index + 2] for index in pair])
        nearest = shapely.get_coordinates(shapely.shortest_line(*ends)).tolist()
        for index, place in zip(pair, nearest, strict=True):
            at = float(track.at[index]) + math.dist(place, track.points[index].tolist())
            spots.append(Spot(at, at, field.bend_radius))
    return merged_spots(spots, _ONE_SPOT * field.bend_radius)


def _chords_near_others(track: Track, reach: float) -> npt.NDArray[np.intp]:
    """Chords of pieces that come within ``reach`` [m] of a piece other than the next: few, where all is well."""
    piece = np.searchsorted(track.starts, (track.at[:-1] + track.at[1:]) / 2.0) - 1
    ends = np.stack((track.points[:-1], track.points[1:]), axis=1).reshape(-1, 2)
    used, index = np.unique(piece, return_inverse=True)
    lines = shapely.linestrings(ends, indices=np.repeat(index, 2))
    one, other = shapely.STRtree(lines).query(lines, predicate="dwithin", distance=reach)
    near = used[np.unique(one[np.abs(other - one) > 1])]
    return np.flatnonzero(np.isin(piece, near))


def _middle(track: Track, spot: Spot) -> Point:
    return track.pose((spot.start + spot.end) / 2.0).place


def _best_curve(track: Track, spot: Spot, work: _Work) -> Curve | None:
    """The best curve that a search finds."""
    search = Search(track, spot, work.space)
    best = search.best()
    if best is None:
        work.in_vain += search.curves
    return best
