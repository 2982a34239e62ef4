"""The layers on one side of the screed, as the waves of the temperature field see them.

Along the floor the field is a sum of waves cos(beta x) with beta = 2 pi n / T. Through a layer of the thickness d and
the conductivity l such a wave passes as cosh and sinh of beta y, so that each layer turns the coefficient H with
which its far face gives off heat into that of its near face: l beta (H + l beta t) / (l beta + H t), t = tanh(beta d)
(Carslaw and Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, chapter V).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from ..elementwise import Array

__all__ = ["Side", "Stack", "decay", "side_of"]

Stack = Sequence[tuple[float, float]]
"""Thickness [m] and conductivity [W/(m.K)] of layers, from the screed outwards."""


class Side(NamedTuple):
    """One side of the screed.

    ``distance`` [m] from the pipe's axis to the face of the screed; ``conductance`` [W/(m2.K)] from that face to the
    surroundings for the mean; ``reflection`` by wave, at the face; ``surface_share`` by wave: amplitude on the
    outermost surface over that on the face.
    """

    distance: float
    conductance: float
    reflection: Array
    surface_share: Array


def decay(spacing: float, distance: float, count: int) -> Array:
    """exp(-beta d) of the first ``count`` waves, by multiplication: the same bits on every processor."""
    return np.multiply.accumulate(np.full(count, math.exp(-2.0 * math.pi * distance / spacing)))


def side_of(
    spacing: float,
    count: int,
    conductivity: float,
    distance: float,
    layers: Stack,
    *,
    resistance: float,
    surface_resistance: float,
) -> Side:
    """One side of the screed of ``conductivity`` [W/(m.K)]: ``layers``, then a thin ``resistance`` and that of the
    surface [m2.K/W]. The sum of both may be 0 only with a layer before it."""
    beta = 2.0 * math.pi / spacing * np.arange(1, count + 1)
    outside = resistance + surface_resistance
    coefficient = np.full(count, 1.0 / outside if outside > 0.0 else math.inf)
    share = np.full(count, surface_resistance / outside if outside > 0.0 else 0.0)
    for thickness, layer_conductivity in reversed(layers):
        wave = layer_conductivity * beta
        once = decay(spacing, thickness, count)
        twice = once * once
        if outside > 0.0:
            ratio = coefficient / wave
            share = share * 2.0 * once / ((1.0 + twice) + ratio * (1.0 - twice))
            tanh = (1.0 - twice) / (1.0 + twice)
            coefficient = wave * (coefficient + wave * tanh) / (wave + coefficient * tanh)
        else:  # held at the temperature of the surroundings
            coefficient = wave * (1.0 + twice) / (1.0 - twice)
        outside += thickness / layer_conductivity
    wave = conductivity * beta
    return Side(distance, 1.0 / outside, (wave - coefficient) / (wave + coefficient), share)
