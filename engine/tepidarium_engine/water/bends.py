"""What bends add to the friction of a pipe whose length includes their arcs."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ..pipe import Pipe
from .inputs import CountedBends

__all__ = ["bend_coefficients", "counted_coefficients"]


def bend_coefficients(angle: float, radius: float, bore: float) -> tuple[float, float]:
    """Constant and factor of f in the extra loss coefficient of a smooth bend: zeta = constant + factor * f.

    ``angle`` [deg], ``radius`` of the centre line and ``bore`` [m]. The straight friction of the arc is left
    out, because the pipe's length holds it. Source: Rennels and Hudson 2012, Pipe Flow, ch. 15, without its
    first term.
    """
    turn = math.radians(angle)
    sine = math.sin(turn / 2.0)
    decay = (radius / bore) ** (4.0 * turn / math.pi)
    return 0.10 * sine, 2.4 * sine + 6.6 * (math.sqrt(sine) + sine) / decay


def counted_coefficients(bends: Sequence[CountedBends], pipe: Pipe) -> tuple[float, float]:
    """Constant and factor of f, summed over all bends of a circuit."""
    constant = factor = 0.0
    for bend in bends:
        radius = pipe.bend_radius if bend.radius is None else bend.radius
        fixed, with_friction = bend_coefficients(bend.angle, radius, pipe.bore)
        constant += bend.count * fixed
        factor += bend.count * with_friction
    return constant, factor
