"""Points of the arcs that round corners, by square roots alone: the same on every processor."""

from __future__ import annotations

import numpy as np

from ...elementwise import Array
from ..pipes.pipe_path import LEAST_PIECE_LENGTH

__all__ = ["ARC_POINTS", "bend_points"]

ARC_POINTS = 9
"""Of each arc, evenly spaced, both ends among them."""


def bend_points(triples: Array, bend_radius: float) -> Array:
    """Points [m] of the arcs of ``bend_radius`` [m] that round the middle one of each three points.

    ``triples`` has the shape (n, 3, 2), what comes back (n, ``ARC_POINTS``, 2). The angle between two radii is
    halved time and again. A corner as good as straight is given for all points of its arc. Legs have a length.
    """
    before, corner, after = triples[:, 0], triples[:, 1], triples[:, 2]
    into, out = _units(corner - before), _units(after - corner)
    sine = np.abs(into[:, 0] * out[:, 1] - into[:, 1] * out[:, 0])
    cosine = (into * out).sum(axis=1)
    tangent = bend_radius * sine / np.maximum(1.0 + cosine, 1e-12)
    start, end = corner - tangent[:, None] * into, corner + tangent[:, None] * out
    inward = (start + end) / 2.0 - corner
    half = np.sqrt((inward * inward).sum(axis=1))
    straight = half < LEAST_PIECE_LENGTH
    share = np.sqrt(bend_radius**2 + tangent * tangent) / np.where(straight, 1.0, half)
    centre = corner + share[:, None] * inward
    spokes = np.stack((start - centre, end - centre), axis=1)
    spokes[straight] = bend_radius * into[straight][:, None, :]
    while spokes.shape[1] < ARC_POINTS:
        mixed = np.empty((len(spokes), 2 * spokes.shape[1] - 1, 2))
        mixed[:, ::2], mixed[:, 1::2] = spokes, bend_radius * _units(spokes[:, :-1] + spokes[:, 1:])
        spokes = mixed
    points: Array = centre[:, None, :] + spokes
    points[straight] = corner[straight][:, None, :]
    return points


def _units(vectors: Array) -> Array:
    """Vectors of length 1; where two radii point away from each other there is none, and 0 stands in."""
    lengths = np.sqrt((vectors * vectors).sum(axis=-1, keepdims=True))
    units: Array = vectors / np.where(lengths > 0.0, lengths, 1.0)
    return units
