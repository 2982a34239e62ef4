"""Lengths below which a plan has no meaning, in one place: how fine corners are, what rounding may blur, what is equal.

Each says why it has its size. The order is that of their sizes: blur < grid < what counts as one place < what a
floor is measured to. A decision that hangs on a number finer than the one below it is a decision of rounding.
"""

from __future__ import annotations

from ..elementwise import Real, floor

__all__ = ["BLUR", "GRID", "LEAST_DISTANCE", "QUARTER_SEGMENTS", "SAME_AREA", "SAME_PLACE", "TURN", "stepped"]

BLUR = 1e-6
"""What arithmetic may do to a place [m]: 2e7 m of translation blur 4e-9 m, a turn and a few crossings a little more."""
GRID = 1e-4
"""Corners of a room lie on whole multiples of it in the room's own frame [m]: a tenth of the millimetre that a floor
is measured to, so that nothing is lost, and a hundred times what arithmetic blurs, so that walls are straight."""
TURN = 1e-8
"""Directions of frames are whole multiples of it [rad]: what translation blurs of the direction of a wall is gone, and
200 m of wall are off by no more than the blur."""
SAME_AREA = 1e-4
"""Share of a room's area that putting its corners on the grid may change: 0.1 mm round a room a metre wide."""
SAME_PLACE = 1e-3
"""Places nearer to each other are one [m]: corners of walls that were meant to be level miss each other by about the
rounding of a drawing, a millimetre."""
LEAST_DISTANCE = 1e-3
"""Least length of an edge, width of a neck and gap between rings [m]: floors are not measured finer."""
QUARTER_SEGMENTS = 32
"""Of circles where areas are measured: polygons in them are 0.04 % smaller."""

_TIE = 0.5137
"""Added before rounding down, instead of a half: inches and their parts lie halfway between two steps of a decimal
grid, and must all go the same way whatever the last bit. Nothing that people measure lies at 0.4863."""


def stepped(lengths: Real, step: float) -> Real:
    """Lengths [m] or angles [rad] as whole multiples of ``step``, which is one over a whole number; no negative
    zeros."""
    per_metre = round(1.0 / step)
    found: Real = floor(lengths * per_metre + _TIE) / per_metre + 0.0
    return found
