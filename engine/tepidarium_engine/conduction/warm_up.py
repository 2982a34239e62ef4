"""The section in time: TR-BDF2, implicit and of second order, stable for any step.

Bank, Coughran, Fichtner, Grosse, Rose and Smith 1985 (IEEE Transactions on Electron Devices 32 (10), 1992-2007): a
trapezoidal stage and one of backward differences with the same matrix, which is factorised once for a step length. Its
heat flows, weighted as the method weighs them, close the heat balance of each step but for rounding.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import NamedTuple

import numpy as np

from ..elementwise import ROUND_OFF, Array
from .network import Network, Tridiagonal

__all__ = ["Flows", "Moment", "Stepper", "Supply", "flows_of", "steady_state", "steps", "still"]

_D = 1.0 - math.sqrt(0.5)
_W = math.sqrt(2.0) / 4.0
_SHORT = 900.0
"""[s]; a thin floor takes as long to follow."""
_ROUNDS = 40
_CLOSE = 1e-7
"""The surface's excess is found to this [K] where the exchange depends on it."""

Exchange = Callable[[float], float]
"""Coefficient [W/(m2.K)] from the surface to the room by the mean excess of the surface over the room [K]."""


class Supply(NamedTuple):
    """The water's excess over the room [K], ``None`` when it stands still, and the most it may give [W/m2]."""

    excess: float | None
    greatest: float = math.inf


class Flows(NamedTuple):
    """Heat from the water, to the room and down [W/m2]; excess of water and mean surface [K]."""

    water: float
    up: float
    down: float
    water_excess: float
    surface_excess: float


class Moment(NamedTuple):
    """The state after a step, with its flows, their means over the step, what was stored [J/m2] and the error of
    the balance [J/m2]."""

    state: Array
    rate: Array
    flows: Flows
    means: Flows
    stored: float
    error: float


class Stepper:
    """One stage for a section: solves (a C + K) u = right side + q b with the exchange at the surface and the heat q
    from the water as they come out together. ``shift`` is a [1/s], 0 for the steady state."""

    def __init__(self, net: Network, exchange: Exchange, below: float, shift: float) -> None:
        self.net, self.exchange, self.below, self.shift = net, exchange, below, shift
        self.stored = shift * net.capacity
        self._reference = _conductance(net, exchange(0.0))
        diagonal = net.diagonal + self.stored
        diagonal[:, -1] += self._reference
        self._matrix = Tridiagonal(diagonal, net.off_diagonal)
        top = np.zeros(diagonal.shape)
        top[:, -1] = 1.0
        self._by_top = self._matrix.solve(top)
        self._by_pipe = self._matrix.solve(net.injection)
        self._pipe_pipe = float((net.injection * self._by_pipe).sum())
        self._top_top: list[float] = self._by_top[:, -1].tolist()
        self._top_pipe: list[float] = self._by_pipe[:, -1].tolist()

    def solve(self, right_side: Array, supply: Supply, guess: float) -> tuple[Array, Flows]:
        """State and flows; ``guess`` is the mean excess of the surface to begin with [K]."""
        net = self.net
        right_side[0, 0] += net.bottom * self.below
        bare = self._matrix.solve(right_side)
        at_pipe, at_top = float((net.injection * bare).sum()), bare[:, -1].tolist()
        surface = guess
        for _ in range(_ROUNDS):
            coefficient = self.exchange(surface)
            conductance = _conductance(net, coefficient)
            change = conductance - self._reference
            water, ring = self._water(supply, change, at_pipe, at_top)
            top = (at_top[0] + water * self._top_pipe[0]) / (1.0 + change * self._top_top[0])
            before, surface = surface, top * conductance / coefficient
            if abs(surface - before) <= _CLOSE:
                break
        state = bare + water * self._by_pipe
        if change != 0.0:
            damping = [change / (1.0 + change * own) for own in self._top_top]
            state -= self._by_top * (np.array(damping) * state[:, -1])[:, None]
        up, down = conductance * float(state[0, -1]), net.bottom * (float(state[0, 0]) - self.below)
        return state, Flows(water, up, down, ring + water * net.link, surface)

    def _water(
        self, supply: Supply, change: float, at_pipe: float, at_top: list[float]
    ) -> tuple[float, float]:
        """Heat from the water [W/m2] and excess of the circle round the pipe [K]."""
        pipe_pipe = self._pipe_pipe
        if change != 0.0:
            for own, pipe, top in zip(self._top_top, self._top_pipe, at_top, strict=True):
                share = change / (1.0 + change * own) * pipe
                at_pipe -= share * top
                pipe_pipe -= share * pipe
        if supply.excess is None:
            return 0.0, at_pipe
        water = (supply.excess - at_pipe) / (self.net.link + pipe_pipe)
        water = max(min(water, supply.greatest), -supply.greatest)
        return water, at_pipe + water * pipe_pipe


def _conductance(net: Network, coefficient: float) -> float:
    """From the topmost cells to the room [W/(m2.K)], with ``coefficient`` [W/(m2.K)] at the surface."""
    return 1.0 / (net.half_cell + 1.0 / coefficient)


def still(net: Network, excess: float) -> Array:
    """The whole section at one excess over the room [K]."""
    state = np.zeros(net.diagonal.shape)
    state[0] = excess
    return state


def steady_state(net: Network, exchange: Exchange, below: float, supply: Supply) -> tuple[Array, Flows]:
    """The state that the section tends to."""
    return Stepper(net, exchange, below, 0.0).solve(np.zeros(net.diagonal.shape), supply, 0.0)


def steps(
    net: Network, exchange: Exchange, below: float, start: Array, supply: Supply, *, step: float, count: int
) -> Iterator[Moment]:
    """The section from ``start``, moment by moment; ``below`` is the excess of what lies below [K].

    A step much longer than what it follows takes is damped beyond zero, by up to 0.21 of a sudden change. Changes are
    sudden at the start: the first step is made of short ones.
    """
    course = _Course(net, exchange, below, supply)
    first = flows_of(net, exchange, below, start, supply)
    moment = Moment(start, _rate(net, below, start, first), first, first, 0.0, 0.0)
    parts = math.ceil(step / _SHORT - ROUND_OFF)
    if parts > 1:
        moment = _together(list(course.steps(moment, step / parts, parts)))
        yield moment
        count -= 1
    yield from course.steps(moment, step, count)


class _Course(NamedTuple):
    """What stays the same from step to step."""

    net: Network
    exchange: Exchange
    below: float
    supply: Supply

    def steps(self, moment: Moment, step: float, count: int) -> Iterator[Moment]:
        """So many steps of one length after ``moment``."""
        stepper = Stepper(self.net, self.exchange, self.below, 1.0 / (_D * step))
        state, rate, flows = moment.state, moment.rate, moment.flows
        weight = _W / _D
        for _ in range(count):
            held = stepper.stored * state
            middle, halfway = stepper.solve(held + rate, self.supply, flows.surface_excess)
            both = stepper.stored * (middle - state)
            after, reached = stepper.solve(held + weight * both, self.supply, halfway.surface_excess)
            means = Flows(*(_W * (a + b) + _D * c for a, b, c in zip(flows, halfway, reached, strict=True)))
            growth = stepper.stored * (after - state)
            stored = float(growth[0].sum()) * _D * step
            error = stored - step * (means.water - means.up - means.down)
            state, rate, flows = after, growth - weight * both, reached
            yield Moment(state, rate, flows, means, stored, error)


def _together(moments: list[Moment]) -> Moment:
    """Steps of equal length as one."""
    means = Flows(
        *(math.fsum(each) / len(moments) for each in zip(*(one.means for one in moments), strict=True))
    )
    stored, error = (
        math.fsum(each) for each in zip(*((one.stored, one.error) for one in moments), strict=True)
    )
    return moments[-1]._replace(means=means, stored=stored, error=error)


def flows_of(net: Network, exchange: Exchange, below: float, state: Array, supply: Supply) -> Flows:
    """The flows of a state that is given."""
    top, surface = float(state[0, -1]), float(state[0, -1])
    for _ in range(_ROUNDS):
        coefficient = exchange(surface)
        conductance = _conductance(net, coefficient)
        before, surface = surface, top * conductance / coefficient
        if abs(surface - before) <= _CLOSE:
            break
    ring = float((net.injection * state).sum())
    water = 0.0 if supply.excess is None else (supply.excess - ring) / net.link
    water = max(min(water, supply.greatest), -supply.greatest)
    down = net.bottom * (float(state[0, 0]) - below)
    return Flows(water, conductance * top, down, ring + water * net.link, surface)


def _rate(net: Network, below: float, state: Array, flows: Flows) -> Array:
    """What each cell takes in [W/m2]."""
    rate = flows.water * net.injection - net.diagonal * state
    rate[:, 1:] -= net.off_diagonal * state[:, :-1]
    rate[:, :-1] -= net.off_diagonal * state[:, 1:]
    top = state[:, -1]
    if top[0] != 0.0:
        rate[:, -1] -= flows.up / float(top[0]) * top
    rate[0, 0] += net.bottom * below
    return rate
