"""Circuits side by side on a manifold: pressure drops at given flows, and flows at given pressures."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import NamedTuple

from .friction import TRANSITION_END, TRANSITION_START, churchill, churchill_with_slope, friction_upper

__all__ = ["Branch", "Curve", "OpenFlows", "open_flows", "solve_rising"]

Curve = Callable[[float], tuple[float, float]]
"""A strictly rising function with its slope."""

_NEWTON_TRIES = 25
_ALL_TRIES = 200
_CLOSE = 1e-6
"""From this near, Newton's next step is the answer: it leaves the square of the miss, for curves bent less than
about 20 per unit, as Churchill's is in logarithms."""


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
        return best, float(friction_upper(reynolds, self.relative_roughness))

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

    ``starts`` [m3/s] are a first guess of the flows, for instance those of the design. Branches that are alike are
    solved once.
    """
    alike: dict[tuple[Branch, float], int] = {}
    places = [alike.setdefault(own, len(alike)) for own in zip(branches, starts, strict=True)]
    curves = [branch.open_curve() for branch, _ in alike]
    log_flows = [math.log(flow) for _, flow in alike]
    slopes = [math.inf] * len(curves)
    flows = [flow for _, flow in alike]
    last = math.log(pressure)

    def log_total(log_pressure: float) -> tuple[float, float]:
        nonlocal last
        step, rise = log_pressure - last, 0.0
        for index, curve in enumerate(curves):
            guess = log_flows[index] + step / slopes[index]
            log_flows[index], slopes[index] = solve_rising(curve, log_pressure, guess)
            flows[index] = math.exp(log_flows[index])
        for place in places:
            rise += flows[place] / slopes[place]
        last = log_pressure
        together = math.fsum(flows[place] for place in places)
        return math.log(together), rise / together

    value, slope = log_total(last)
    held = [flows[place] for place in places]
    target = math.log(total)
    log_pressure, _ = solve_rising(log_total, target, last + (target - value) / slope)
    log_total(log_pressure)
    return OpenFlows(held, [flows[place] for place in places], math.exp(log_pressure))
