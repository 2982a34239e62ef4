"""Warm-up and lowering of a section: what is asked of its course in time."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace

from ..conduction.network import Network, network
from ..conduction.warm_up import Moment, Supply, flows_of, steady_state, steps, still
from ..elementwise import ROUND_OFF
from ..errors import required
from .bay import Case, exchange_of
from .contract import FloorSectionInputs
from .records import Setback, SetbackResult, WarmUp, WarmUpPoint, WarmUpResult

__all__ = ["SHARE", "warm_up_result"]

SHARE = 0.9
"""Share of the steady heat output at which a floor counts as warm."""
_MOST_POINTS = 96


class _Record:
    """Follows the moments and keeps what the result needs."""

    def __init__(self, step: float, count: int, target: float, room: float) -> None:
        self.step, self.room = step, room
        self.target, self.sign = abs(target), -1.0 if target < 0.0 else 1.0
        self.stride = math.ceil(count / _MOST_POINTS)
        self.stored = self.supplied = self.up = self.down = self.error = 0.0
        self.reached: float | None = None
        self.points: list[WarmUpPoint] = []
        self.last: Moment | None = None

    def follow(self, moments: Iterable[Moment], start: float, still_water: bool = False) -> Moment:
        before = self.sign * start
        if before >= self.target > 0.0:
            self.reached = 0.0
        for number, moment in enumerate(moments, start=1):
            self._count(moment)
            now = self.sign * moment.flows.up
            if self.reached is None and self.target > 0.0 and now >= self.target:
                self.reached = (number - 1 + (self.target - before) / (now - before)) * self.step
            before = now
            if number % self.stride == 0:
                self.points.append(self._point(number, moment, still_water))
            self.last = moment
        return required(self.last, "the last moment of a course")

    def _count(self, moment: Moment) -> None:
        means = moment.means
        self.stored += moment.stored
        self.supplied += means.water * self.step
        self.up += means.up * self.step
        self.down += means.down * self.step
        moved = abs(moment.stored) + (abs(means.water) + abs(means.up) + abs(means.down)) * self.step
        if moved > 0.0:
            self.error = max(self.error, abs(moment.error) / moved)

    def _point(self, number: int, moment: Moment, still_water: bool) -> WarmUpPoint:
        flows = moment.flows
        return WarmUpPoint(
            time=number * self.step,
            water_temperature=None if still_water else self.room + flows.water_excess,
            water_heat=flows.water,
            heat_output=flows.up,
            downward_heat_loss=flows.down,
            mean_surface_temperature=self.room + flows.surface_excess,
        )


def warm_up_result(inputs: FloorSectionInputs, case: Case) -> WarmUpResult | None:
    """The course in time that was asked for. The matched pipe makes its steady state that of the section."""
    plan = inputs.warm_up
    if plan is None:
        return None
    net = _network(inputs, case)
    supply = Supply(case.water_excess, math.inf if plan.source_power is None else plan.source_power)
    below, exchange, initial = case.excess_below, exchange_of(inputs), plan.initial_temperature
    if initial is None:
        start = steady_state(net, exchange, below, Supply(None))[0]
    else:
        start = still(net, initial - inputs.room_temperature)
    step, count = _even(plan.duration, plan.time_step)
    record = _Record(step, count, SHARE * case.mix("up"), inputs.room_temperature)
    first = flows_of(net, exchange, below, start, supply).up
    record.follow(steps(net, exchange, below, start, supply, step=step, count=count), first)
    result = WarmUpResult(
        warm_up_time=record.reached,
        steady_heat_output=case.mix("up"),
        stored_energy=record.stored,
        supplied_energy=record.supplied,
        energy_to_room=record.up,
        energy_downwards=record.down,
        balance_error=record.error,
        course=tuple(record.points),
    )
    if plan.setback is None:
        return result
    return replace(result, setback=_setback(inputs, case, net, plan, setback=plan.setback, supply=supply))


def _setback(
    inputs: FloorSectionInputs, case: Case, net: Network, plan: WarmUp, *, setback: Setback, supply: Supply
) -> SetbackResult:
    exchange, below, room = exchange_of(inputs), case.excess_below, inputs.room_temperature
    state, flows = steady_state(net, exchange, below, Supply(case.water_excess))
    lowered = setback.water_temperature
    step, count = _even(setback.duration, plan.time_step)
    night = _Record(step, count, 0.0, room)
    low = Supply(None if lowered is None else lowered - room, supply.greatest)
    end = night.follow(
        steps(net, exchange, below, state, low, step=step, count=count), flows.up, still_water=lowered is None
    )
    step, count = _even(plan.duration, plan.time_step)
    day = _Record(step, count, SHARE * case.mix("up"), room)
    day.follow(steps(net, exchange, below, end.state, supply, step=step, count=count), end.flows.up)
    return SetbackResult(
        heat_output_at_end=end.flows.up,
        surface_temperature_at_end=room + end.flows.surface_excess,
        released_energy=-night.stored,
        recovery_time=day.reached,
        course=(*night.points, *(replace(point, time=setback.duration + point.time) for point in day.points)),
    )


def _even(duration: float, step: float) -> tuple[float, int]:
    """Steps of equal length, no longer than asked for, that fill the duration."""
    count = max(math.ceil(duration / step - ROUND_OFF), 1)
    return duration / count, count


def _network(inputs: FloorSectionInputs, case: Case) -> Network:
    return network(
        case.bay,
        case.water.water,
        [layer.volumetric_heat_capacity for layer in inputs.layers_below],
        inputs.screed_heat_capacity,
        [layer.volumetric_heat_capacity for layer in inputs.layers_above],
    )
