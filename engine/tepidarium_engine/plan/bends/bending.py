"""From the corners of a draft to a pipe that can be bent."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ...checking import Point
from ..model.field import Draft, Field
from ..pipes.fillets import RADIUS_TOLERANCE, TightCorner, rounded
from ..pipes.pipe_path import TANGENT_TOLERANCE, Arc, Line, PipePath
from .bend_repair import repaired
from .bend_space import bend_space
from .bend_track import Track
from .corner_easing import eased, kept_clear, simplified
from .turn_bulges import bulged

__all__ = ["Bent", "bent"]

_WIGGLE = 0.02
"""Corners that stray less from the straight are none, in spacings."""
_ROUNDS = 3
"""Corners moved off a wall may want to be drawn apart, and the other way round."""


@dataclass(frozen=True)
class Bent:
    """``path`` bends with the field's bend radius but at ``unresolved``, in the order of flow.

    All in the field's frame. ``path`` is made of lines and arcs that touch without a kink, but where an
    unresolved corner has no radius at all.
    """

    path: PipePath
    unresolved: tuple[TightCorner, ...]


def bent(draft: Draft, field: Field) -> Bent:
    """The pipe of a draft. Its two ends stay where they are.

    Corners are straightened where they hardly stray, drawn apart where two bends do not fit, moved away from
    walls that the bend would come too near to, and rounded; turns between two near pipes bulge. What is still too
    tight, or too near to a wall or to other pipe, is laid anew by curves; where none serves it stays as it is.
    """
    space = bend_space(field)
    corners = [(x, y) for x, y in draft.corners.tolist()]
    corners = simplified(corners, _WIGGLE * field.pipe_spacing, space)
    for _ in range(_ROUNDS):
        before = corners
        corners = kept_clear(eased(corners, space), space)
        if corners == before:
            break
    plain = rounded(bulged(corners, space), field.bend_radius)
    track = repaired(Track.of(plain.path), space)
    return Bent(PipePath(track.pieces), _unresolved(track.pieces, field.bend_radius))


def _unresolved(pieces: tuple[Line | Arc, ...], bend_radius: float) -> tuple[TightCorner, ...]:
    """Arcs that are too tight, and kinks."""
    found = []
    for index, piece in enumerate(pieces):
        if index:
            turn = piece.start_heading - pieces[index - 1].end_heading
            if abs(math.remainder(turn, 2.0 * math.pi)) > TANGENT_TOLERANCE:
                found.append(TightCorner(piece.start, 0.0))
        if isinstance(piece, Arc) and piece.radius < bend_radius * (1.0 - RADIUS_TOLERANCE):
            found.append(TightCorner(_corner(piece), piece.radius))
    return tuple(found)


def _corner(arc: Arc) -> Point:
    """Where the lines that the arc touches at its ends meet; of more than a right angle, as near beyond the arc."""
    middle, share = arc.middle, 1.0 / math.cos(min(abs(arc.sweep), math.pi / 2.0) / 2.0)
    (x, y), (cx, cy) = middle, arc.centre
    return cx + share * (x - cx), cy + share * (y - cy)
