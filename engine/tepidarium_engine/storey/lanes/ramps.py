"""Where ways that go on draw together behind a gate by which others have left: on a ramp, the same on both walls."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np
import shapely
from shapely import LineString

from .cell_edge import CellEdge, Mark
from .pitches import LaneRules, pitches, slope_at
from .side_table import SideTable, Span

__all__ = ["with_ramps"]

_STRAIGHT = 0.25
"""Wall beside a ramp on which ways run straight again [m]."""
_TURN = 0.1
"""Share by which a ramp may be longer or shorter on the opposite wall: walls that nearly face each other."""
_TRIES = 3
_CLEAR = 1e-3


class _Ramp(NamedTuple):
    """Behind gate number ``gate``, from ``start`` [m] behind its end on, ``run`` [m] long."""

    gate: int
    start: float
    run: float


def with_ramps(plain: SideTable, rules: LaneRules) -> SideTable:
    """The table with a ramp behind each gate by which ways leave; where there is no room for one, the ways that go on
    leave their place to those that are gone until the next gate or corner."""
    drawing = _Drawing(plain, rules)
    marks = [mark for ramp in drawing.ramps for mark in drawing.marks(ramp)]
    edge = replace(plain.edge, marked=(*plain.edge.marked, *_merged(plain.edge, marks)))
    starts = {ramp.gate: ramp.start for ramp in drawing.ramps}
    spans = list(plain.spans)
    for number, gate in enumerate(plain.edge.marked):
        held = starts.get(number, drawing.free_behind(gate) + _CLEAR)
        for way in drawing.leaving[number]:
            spans[way] = replace(spans[way], beyond=drawing.left_of_gate(gate, spans[way]) + held + 1e-6)
    return SideTable(edge, spans)


@dataclass(frozen=True)
class _Drawing:
    plain: SideTable
    rules: LaneRules

    @property
    def edge(self) -> CellEdge:
        return self.plain.edge

    @property
    def leaving(self) -> list[list[int]]:
        """Numbers of the ways that leave by each gate."""
        length = self.edge.loop.length
        return [
            [
                way
                for way, span in enumerate(self.plain.spans)
                if (span.end - gate.low) % length <= gate.high - gate.low
            ]
            for gate in self.edge.marked
        ]

    @property
    def ramps(self) -> list[_Ramp]:
        wide = pitches(self.plain, self.rules)
        found = []
        for number, (gate, leaving) in enumerate(zip(self.edge.marked, self.leaving, strict=True)):
            if leaving:
                pitch = wide[self._stretch_before(gate)]
                run = len(leaving) * pitch / slope_at(pitch, self.rules.least)
                ramp = self._clear_of_gates(_Ramp(number, 0.0, run))
                if ramp is not None:
                    found.append(ramp)
        return found

    def marks(self, ramp: _Ramp) -> list[Mark]:
        """The ramp on the wall of its gate and on the one opposite, where that faces it."""
        gate = self.edge.marked[ramp.gate]
        ends = [self._behind(gate, at) for at in (ramp.start, ramp.start + ramp.run)]
        found = [_mark(self.edge, ends[0], ends[1])]
        across = [self._opposite(at) for at in ends]
        if across[0] is not None and across[1] is not None:
            run = abs(self.edge.away(across[0], across[1]))
            if abs(run - ramp.run) <= _TURN * ramp.run:
                found.append(_mark(self.edge, across[0], across[1]))
        return found

    def _clear_of_gates(self, ramp: _Ramp) -> _Ramp | None:
        """The ramp moved on behind gates on either wall; ``None``: there is no room up to the next corner."""
        gate = self.edge.marked[ramp.gate]
        for _ in range(_TRIES):
            marks = self.marks(ramp)
            hit = [
                self._along(gate, other)
                for mark in marks
                for other in self.edge.marked
                if other is not gate and _overlap(self.edge, mark, other)
            ]
            if not hit:
                free = self._straight_behind(gate)
                return ramp if free >= ramp.start + ramp.run + _STRAIGHT else None
            if hit[0] is None or hit[0] <= ramp.start:
                return None
            ramp = ramp._replace(start=hit[0] + _CLEAR)
        return None

    def _along(self, gate: Mark, other: Mark) -> float | None:
        """How far behind the end of a gate another one ends [m]."""
        ends = [other.low, other.high]
        found = []
        for end in ends:
            position: float | None = end
            if not self._on_wall_of(gate, end):
                position = self._opposite(end)
            if position is None or not self._on_wall_of(gate, position):
                return None
            away = self.edge.away(self._behind(gate, 0.0), position)
            found.append(away if gate.forward else -away)
        return max(found)

    def _on_wall_of(self, gate: Mark, position: float) -> bool:
        return self._wall_at(position) == self._wall_at((gate.low + gate.high) / 2.0)

    def _wall_at(self, position: float) -> int:
        loop = self.edge.loop
        return (
            min(int(loop.positions.searchsorted(position % loop.length, side="right")), len(loop.points)) - 1
        )

    def _behind(self, gate: Mark, distance: float) -> float:
        return gate.high + distance if gate.forward else gate.low - distance

    def free_behind(self, gate: Mark) -> float:
        """Wall behind a gate up to the next gate or corner [m]."""
        end = self._behind(gate, 0.0)
        for one in self.edge.stretches:
            near = one.low if gate.forward else one.high
            if one.kind == "wall" and abs(self.edge.away(end, near)) < 1e-4:
                return one.high - one.low
        return 0.0

    def _straight_behind(self, gate: Mark) -> float:
        """Wall behind a gate up to the next corner [m]."""
        wall = self._wall_at((gate.low + gate.high) / 2.0)
        positions, length = self.edge.loop.positions, self.edge.loop.length
        ends = float(positions[wall]), float(positions[wall + 1])
        if gate.forward:
            return (ends[1] - gate.high) % length if ends[1] - gate.high > -1e-6 else 0.0
        return max(0.0, gate.low - ends[0])

    def left_of_gate(self, gate: Mark, span: Span) -> float:
        """From the end of a way to the end of its gate [m]."""
        return max(
            0.0, self.edge.away(span.end, gate.high) if gate.forward else self.edge.away(gate.low, span.end)
        )

    def _stretch_before(self, gate: Mark) -> int:
        position = gate.low - 2e-3 if gate.forward else gate.high + 2e-3
        away = np.abs([self.edge.away(position, at) for at in self.edge.positions.tolist()])
        return int(self.edge.stretch_of_place[int(away.argmin())])

    def _opposite(self, position: float) -> float | None:
        """The position on the edge that lies straight ahead of another one."""
        loop = self.edge.loop
        (x, y), (dx, dy) = loop.at(position), loop.heading_at(position)
        ray = LineString([(x - 1e-3 * dy, y + 1e-3 * dx), (x - loop.length * dy, y + loop.length * dx)])
        met = shapely.get_coordinates(shapely.intersection(ray, self.edge.cell.exterior))
        if not len(met):
            return None
        nearest = met[np.hypot(*(met - (x, y)).T).argmin()].tolist()
        return loop.project((nearest[0], nearest[1]))


def _mark(edge: CellEdge, start: float, end: float) -> Mark:
    """A ramp that ways take from one position to another."""
    away = edge.away(start, end)
    low = start if away > 0.0 else start + away
    return Mark(low, low + abs(away), "ramp", away > 0.0)


def _overlap(edge: CellEdge, one: Mark, other: Mark) -> bool:
    shift = edge.away((one.low + one.high) / 2.0, (other.low + other.high) / 2.0)
    return abs(shift) < (one.high - one.low + other.high - other.low) / 2.0 - _CLEAR


def _merged(edge: CellEdge, marks: Sequence[Mark]) -> list[Mark]:
    """Ramps that lie over each other as one."""
    found: list[Mark] = []
    for mark in marks:
        over = next((one for one in found if _overlap(edge, one, mark)), None)
        if over is None:
            found.append(mark)
            continue
        turn = edge.away(over.low, mark.low) + over.low - mark.low
        low, high = min(over.low, mark.low + turn), max(over.high, mark.high + turn)
        found[found.index(over)] = over._replace(low=low, high=high)
    return found
