"""What makes one pipe better than another in the same room: figures of it, and one number to rank them by."""

from __future__ import annotations

from dataclasses import dataclass

from ..judging.craft import Craft
from ..judging.route_check import RouteCheck
from ..model.field import Draft

__all__ = ["Quality", "quality_of"]

_USUAL_LENGTH = (0.965, 1.025)
"""In terms of served area over spacing."""
_LEAST_SERVED = 0.99
"""Coverage within 0.75 spacings below which it weighs more than all else."""
_COMFORTABLE = 0.8
"""Distance of pipe from pipe, in spacings, below which less is worse."""
_WELL_MIXED, _HARDLY_MIXED = 0.81, 0.75
"""Shares of pipe beside pipe of the other half between which it weighs more: with few pipes across, less than the
second is the most there is."""

# What a hundredth of floor further than 0.75 spacings from any pipe is weighed by is 0.06; the rest in proportion.
_HALF, _THREE_QUARTERS, _BARE = 3.0, 6.0, 20.0
"""Floor beyond 0.5 spacings, beyond 0.75, and what of that is more than a hundredth; shares of it."""
_SPREAD, _MIXED, _PARTED = 4.0, 1.0, 2.0
"""Share of the temperature drop by which the floor differs; share of pipe beside pipe of the other half, and what
is missing of a well mixed one. Of a double spiral only: a serpentine has neither."""
_LENGTH, _CROWDED = 8.0, 2.0
"""Length beyond what is usual, as a share; distance less than comfortable, in spacings."""
_UNREACHED = 0.3
"""Each place that no pipe reaches."""
_U_TURN, _SLIGHT_TURN, _SHORT_STRAIGHT = 0.015, 0.004, 0.004
"""Each of them: as much as 2.5, 0.7 and 0.7 thousandths of bare floor."""
_RIGHT_ANGLE = 0.01
"""Each right angle for a square metre."""


@dataclass(frozen=True, slots=True)
class Quality:
    """Figures of a pipe, measured or expected; as in ``route_measures.RouteMeasures``.

    ``unreached`` are places that were to have pipe and got none.
    """

    coverage_half: float
    coverage_three_quarters: float
    length_ratio: float
    mixed_share: float
    temperature_spread: float
    least_distance: float
    u_turns: int
    craft: Craft
    unreached: int

    def badness(self, spiral: bool) -> float:
        """The lower the better; ``spiral``: flow and return are to lie side by side."""
        bare = 1.0 - self.coverage_three_quarters
        low, high = _USUAL_LENGTH
        badness = _HALF * (1.0 - self.coverage_half) + _THREE_QUARTERS * bare
        badness += _BARE * max(0.0, bare - 1.0 + _LEAST_SERVED)
        badness += _LENGTH * max(0.0, low - self.length_ratio, self.length_ratio - high)
        badness += _CROWDED * max(0.0, _COMFORTABLE - self.least_distance)
        badness += _UNREACHED * self.unreached
        badness += _SLIGHT_TURN * self.craft.slight_turns + _SHORT_STRAIGHT * self.craft.short_straights
        badness += _RIGHT_ANGLE * self.craft.right_angles
        if spiral:
            badness += _SPREAD * self.temperature_spread - _MIXED * self.mixed_share
            badness += _PARTED * min(_WELL_MIXED - _HARDLY_MIXED, max(0.0, _WELL_MIXED - self.mixed_share))
            badness += _U_TURN * self.u_turns
        return round(badness, 6)


def quality_of(draft: Draft, check: RouteCheck) -> Quality:
    """Of a pipe that was judged."""
    measures = check.measures
    return Quality(
        measures.coverage_half,
        measures.coverage_three_quarters,
        measures.length_ratio,
        measures.mixed_share or 0.0,
        measures.temperature_spread or 0.0,
        _COMFORTABLE if measures.least_distance is None else measures.least_distance,
        measures.bends.u_turn,
        measures.craft,
        draft.unreached,
    )
