"""Circuits side by side on a manifold: pressure drops at given flows, and flows at given pressures."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from .friction import churchill, churchill_with_slope, friction_upper

__all__ = ["Branch", "flow_at_pressure", "flows_with_total", "solve_rising"]

_NEWTON_TRIES = 25
_ALL_TRIES = 200


@dataclass(slots=True)
class Branch:
    """One circuit with valve and meter, reduced to what the pressure drop needs.

    Drop [Pa] at volume flow V [m3/s], with the friction factor f at Re = ``reynolds_per_flow`` V:
    V2 (``dynamic`` (``loss_constant`` + ``loss_per_friction`` f) + ``fixed_resistance`` + ``open_resistance``),
    resistances in Pa.s2/m6. ``loss_per_friction`` is length over bore with what bends add.
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
        return (
            float(churchill(reynolds, self.relative_roughness)),
            float(friction_upper(reynolds, self.relative_roughness)),
        )

    def pipe_drop(self, volume_flow: float, friction: float) -> float:
        """Drop of pipe and bends [Pa]."""
        loss = self.loss_constant + self.loss_per_friction * friction
        return self.dynamic * loss * volume_flow * volume_flow

    def open_drop(self, log_flow: float) -> tuple[float, float]:
        """ln of the drop with open valve at ``exp(log_flow)``, and its slope d ln drop / d ln flow (1 to 4)."""
        flow = math.exp(log_flow)
        friction, friction_slope = churchill_with_slope(
            self.reynolds_per_flow * flow, self.relative_roughness
        )
        rubbing = self.dynamic * self.loss_per_friction * friction
        whole = rubbing + self.dynamic * self.loss_constant + self.fixed_resistance + self.open_resistance
        return math.log(whole) + 2.0 * log_flow, 2.0 + rubbing / whole * friction_slope


def solve_rising(
    function: Callable[[float], tuple[float, float]], target: float, start: float, tolerance: float = 1e-12
) -> tuple[float, float]:
    """The x at which a strictly rising ``function`` (value and positive slope) equals ``target``; the slope there.

    Newton's method inside a bracket that only shrinks, then bisection: it cannot miss a solution.
    """
    low, high = -math.inf, math.inf
    x = start
    value, slope = function(x)
    for attempt in range(_ALL_TRIES):
        miss = target - value
        if abs(miss) <= tolerance:
            break
        low, high = (x, high) if miss > 0.0 else (low, x)
        following = x + miss / slope
        halve = attempt >= _NEWTON_TRIES and math.isfinite(high - low)
        if halve or not low < following < high:
            following = (low + high) / 2.0
        if following == x:
            break
        x = following
        value, slope = function(x)
    return x, slope


def flow_at_pressure(branch: Branch, pressure: float, start: float) -> float:
    """Volume flow [m3/s] of a branch with open valve at ``pressure`` [Pa]; ``start`` is a first guess [m3/s]."""
    return math.exp(solve_rising(branch.open_drop, math.log(pressure), math.log(start))[0])


def flows_with_total(
    branches: Sequence[Branch], total: float, pressure: float, starts: Sequence[float]
) -> tuple[float, list[float]]:
    """Pressure [Pa] at which the branches with open valves take ``total`` [m3/s] together, and their flows [m3/s].

    ``pressure`` and ``starts`` are a first guess.
    """
    log_flows = [math.log(flow) for flow in starts]
    flows = list(starts)
    slopes = [math.inf] * len(flows)
    start = last = math.log(pressure)

    def log_total(log_pressure: float) -> tuple[float, float]:
        nonlocal last
        rise = 0.0
        for index, branch in enumerate(branches):
            guess = log_flows[index] + (log_pressure - last) / slopes[index]
            log_flows[index], slopes[index] = solve_rising(branch.open_drop, log_pressure, guess)
            flows[index] = math.exp(log_flows[index])
            rise += flows[index] / slopes[index]
        last = log_pressure
        together = math.fsum(flows)
        return math.log(together), rise / together

    log_pressure, _ = solve_rising(log_total, math.log(total), start)
    return math.exp(log_pressure), flows
