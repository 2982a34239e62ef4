"""Circuits side by side on a manifold: pressure drops at given flows, and flows at given pressures."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import NamedTuple

from .friction import TRANSITION_END, TRANSITION_START, churchill, churchill_with_slope, colebrook

__all__ = ["Branch", "Curve", "OpenFlows", "open_flows", "solve_rising"]

Curve = Callable[[float], tuple[float, float]]
"""A strictly rising function with its slope."""

_NEWTON_TRIES = 25
_ALL_TRIES = 200
_CLOSE = 1e-6
"""From this near, Newton's next step is the answer: it leaves the square of the miss, for curves bent less than
about 20 per unit, as Churchill's is in logarithms."""

_ASTRAY = 20.0
"""Where a step of Newton's method changes flows by so many powers of e it comes no nearer."""


class OpenFlows(NamedTuple):
    """Volume flows [m3/s] at a given pressure and at a given total, and the pressure [Pa] of that total."""

    same_pressure: list[float]
    same_total: list[float]
    pressure_of_total: float


class Branch(NamedTuple):
    """One circuit with valve and meter, reduced to what the pressure drop needs.

    Drop [Pa] at volume flow V [m3/s], with the friction factor f at Re = ``reynolds_per_flow`` V:
    V2 (``dynamic`` (``loss_constant`` + ``loss_per_friction`` f) + ``fixed_resistance`` +
    ``open_resistance``), resistances in Pa.s2/m6. ``loss_per_friction`` is length over bore with what bends
    add.
    """

    reynolds_per_flow: float
    relative_roughness: float
    dynamic: float
    loss_constant: float
    loss_per_friction: float
    fixed_resistance: float
    open_resistance: float

    def friction(self, volume_flow: float) -> tuple[float, float]:
        """Darcy factor [1]: best estimate and upper bound."""
        reynolds = self.reynolds_per_flow * volume_flow
        best = float(churchill(reynolds, self.relative_roughness))
        if not TRANSITION_START < reynolds < TRANSITION_END:
            return best, best
        return best, max(best, float(colebrook(reynolds, self.relative_roughness)))

    def pipe_drop(self, volume_flow: float, friction: float) -> float:
        """Drop of pipe and bends [Pa]."""
        loss = self.loss_constant + self.loss_per_friction * friction
        return self.dynamic * loss * volume_flow * volume_flow

    def open_curve(self) -> Curve:
        """ln of the drop with open valve over ln of the flow, with its slope (1 to 4)."""
        per_flow, roughness = self.reynolds_per_flow, self.relative_roughness
        rubbing = self.dynamic * self.loss_per_friction
        constant = self.dynamic * self.loss_constant + self.fixed_resistance + self.open_resistance
        exp, log = math.exp, math.log

        def curve(log_flow: float) -> tuple[float, float]:
            friction, friction_slope = churchill_with_slope(per_flow * exp(log_flow), roughness)
            whole = rubbing * friction + constant
            return log(whole) + 2.0 * log_flow, 2.0 + rubbing * friction / whole * friction_slope

        return curve


def solve_rising(curve: Curve, target: float, start: float) -> tuple[float, float]:
    """The x at which a strictly rising ``curve`` equals ``target`` within 1e-10, and about the slope there.

    Newton's method inside a bracket that only shrinks, then bisection: it cannot miss a solution.
    """
    low, high = -math.inf, math.inf
    x = start
    for attempt in range(_ALL_TRIES):
        value, slope = curve(x)
        miss = target - value
        following = x + miss / slope
        if -_CLOSE <= miss <= _CLOSE or following == x:
            return following, slope
        if miss > 0.0:
            low = x
        else:
            high = x
        if not low < following < high or (attempt >= _NEWTON_TRIES and math.isfinite(high - low)):
            following = (low + high) / 2.0
        x = following
    return x, slope


def open_flows(
    branches: Sequence[Branch], starts: Sequence[float], pressure: float, total: float
) -> OpenFlows:
    """The branches side by side with open valves, at ``pressure`` [Pa] and at ``total`` [m3/s].

    ``starts`` [m3/s] are a first guess of the flows at ``pressure``. Branches that are alike are solved once.
    """
    alike: dict[tuple[Branch, float], int] = {}
    places = [alike.setdefault(own, len(alike)) for own in zip(branches, starts, strict=True)]
    curves = [branch.open_curve() for branch, _ in alike]
    counts = [places.count(index) for index in range(len(curves))]
    log_pressure, target = math.log(pressure), math.log(total)
    solved = [
        solve_rising(curve, log_pressure, math.log(start))
        for curve, (_, start) in zip(curves, alike, strict=True)
    ]
    held = [math.exp(x) for x, _ in solved]
    together = _together(curves, counts, solved, log_pressure, target)
    log_flows, log_pressure = together or _bracketed(curves, counts, solved, log_pressure, target)
    flows = [math.exp(x) for x in log_flows]
    return OpenFlows(
        [held[place] for place in places], [flows[place] for place in places], math.exp(log_pressure)
    )


def _together(
    curves: Sequence[Curve],
    counts: Sequence[int],
    solved: Sequence[tuple[float, float]],
    log_pressure: float,
    target: float,
) -> tuple[list[float], float] | None:
    """Logarithms of the flows and of their pressure where the flows, each ``counts`` times, add up to the ``target``.

    Newton's method for the pressure and all flows at a time, from those ``solved`` at ``log_pressure``, with the slopes
    there. None where it leads astray.
    """
    log_flows = [x for x, _ in solved]
    found = [(log_pressure, slope) for _, slope in solved]
    for _ in range(_NEWTON_TRIES):
        sum_of_flows = rise = gain = 0.0
        for count, x, (value, slope) in zip(counts, log_flows, found, strict=True):
            flow = count * math.exp(x)
            sum_of_flows += flow
            share = flow / slope
            rise += share
            gain += share * (log_pressure - value)
        log_pressure += (sum_of_flows * (target - math.log(sum_of_flows)) - gain) / rise
        moves = [(log_pressure - value) / slope for value, slope in found]
        log_flows = [x + move for x, move in zip(log_flows, moves, strict=True)]
        furthest = max(map(abs, moves))
        if furthest <= _CLOSE:
            return log_flows, log_pressure
        if not furthest <= _ASTRAY:
            return None
        found = [curve(x) for curve, x in zip(curves, log_flows, strict=True)]
    return None


def _bracketed(
    curves: Sequence[Curve],
    counts: Sequence[int],
    solved: Sequence[tuple[float, float]],
    log_pressure: float,
    target: float,
) -> tuple[list[float], float]:
    """The same by a search for the pressure alone: slower, and cannot miss the solution."""
    flows = [x for x, _ in solved]

    def log_total(at: float) -> tuple[float, float]:
        together = rise = 0.0
        for index, curve in enumerate(curves):
            flows[index], slope = solve_rising(curve, at, flows[index])
            share = counts[index] * math.exp(flows[index])
            together += share
            rise += share / slope
        return math.log(together), rise / together

    solution, _ = solve_rising(log_total, target, log_pressure)
    log_total(solution)
    return flows, solution
