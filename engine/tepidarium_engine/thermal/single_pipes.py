"""Heat of pipes that lie by themselves or a few beside each other, and not in an endless row.

The screed carries the heat of a pipe along the floor like a fin: with free floor of the width w on one side it takes
C tanh(m w) per kelvin of the screed at the pipe (any handbook of heat transfer, fin with an insulated end). Half the
way to the next pipe is free, all of the way to a wall. Near the pipe the heat flows all round it: film, wall and
screed out to twice its radius are common to both sides. C and m follow from two sections that are solved: the endless
row at the floor's own spacing, and a pipe alone. Finite elements in the tests agree to 3 %.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache

from ..conduction.steady import solve_bay
from .floor import Floor
from .section_output import bay_of

__all__ = ["FAR", "SinglePipe", "single_pipe"]

FAR = 1.0
"""Floor that is free further from a pipe takes no more heat of it [m]."""
_ROUND = math.log(2.0)
"""Of the way that heat takes all round the pipe, in radii: out to twice its radius."""


@dataclass(frozen=True, slots=True)
class SinglePipe:
    """A pipe in a floor. ``common`` [m.K/W] is the resistance from the water to both sides, ``side`` [W/(m.K)] and
    ``decay`` [1/m] are C and m of a side, ``up`` is the share of the heat that goes up, ``strip`` [m] half the spacing
    of the row."""

    common: float
    side: float
    decay: float
    up: float
    strip: float

    def output(self, left: float, right: float) -> float:
        """Heat up per metre of pipe and kelvin of its water over the room [W/(m.K)], with so much free floor [m] on its
        left and right."""
        return self.up / (self.common + 1.0 / self._sides(left, right))

    def output_above(self, left: float, right: float) -> float:
        """Heat up per area right above the pipe [W/(m2.K)]: the mean within half a spacing of the row on both sides."""
        screed = 1.0 / (1.0 + self.common * self._sides(left, right))
        near = (self._near(left) + self._near(right)) / 2.0
        return self.up * self.side * self.decay * screed * near

    def _sides(self, left: float, right: float) -> float:
        return self.side * (math.tanh(self.decay * left) + math.tanh(self.decay * right))

    def _near(self, free: float) -> float:
        """Mean excess of the screed near the pipe over that at the pipe [1]."""
        strip = min(self.strip, free)
        along = math.sinh(self.decay * free) - math.sinh(self.decay * (free - strip))
        return along / (self.decay * strip * math.cosh(self.decay * free))


@lru_cache(maxsize=64)
def single_pipe(floor: Floor, water: float) -> SinglePipe:
    """A pipe of ``floor``, whose spacing is that of the row, with ``water`` of this temperature [degC] in it."""
    bay = bay_of(floor, water)
    row, _ = solve_bay(bay)
    alone, _ = solve_bay(replace(bay, spacing=2.0 * FAR))
    strip = floor.pipe_spacing / 2.0
    common = bay.pipe_resistance + _ROUND / (2.0 * math.pi * floor.screed_conductivity)
    in_row, by_itself = (
        1.0 / (2.0 * (1.0 / (unit.water * spacing) - common))
        for unit, spacing in ((row, floor.pipe_spacing), (alone, 2.0 * FAR))
    )
    return SinglePipe(common, by_itself, math.atanh(in_row / by_itself) / strip, row.up / row.water, strip)
