"""From circuits to coils with metre marks, and back to what is said about them."""

from __future__ import annotations

import math
from collections import Counter, deque
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from .coil_records import CircuitToCut, CoilCut, CoilInStock, CoilPlanInputs, PlannedCoil
from .cutting_stock import cutting_plan
from .cutting_task import CutCoil, CuttingPlan, CuttingTask

__all__ = ["CutCircuits", "cut_circuits"]

_MILLIMETRES = 1000
_ROUNDING = 1e-6
"""Of a millimetre: lengths are rounded to whole ones on the safe side."""


@dataclass(frozen=True)
class CutCircuits:
    """Coils in the order in which they are opened, with the plan of those that were free to choose; ``long``: circuits
    that only coils at hand hold, cut from them beforehand; ``not_planned``: circuits that no coil holds."""

    coils: tuple[PlannedCoil, ...]
    plan: CuttingPlan
    long: tuple[CircuitToCut, ...]
    not_planned: tuple[CircuitToCut, ...]


@dataclass
class _StockCoil:
    """A coil at hand [mm] with the circuits that only such a coil can hold."""

    length: int
    name: str
    circuits: list[CircuitToCut]
    left: int


def cut_length(circuit: CircuitToCut, allowance: float) -> int:
    """The piece for a circuit, rounded up [mm]."""
    return math.ceil((circuit.length + 2.0 * allowance) * _MILLIMETRES - _ROUNDING)


def cut_circuits(inputs: CoilPlanInputs) -> CutCircuits:
    """The plan for checked inputs."""
    cut = {circuit.id: cut_length(circuit, inputs.cutting_allowance) for circuit in inputs.circuits}
    bought = [math.floor(length * _MILLIMETRES + _ROUNDING) for length in inputs.coil_lengths]
    stock = _stock(inputs.stock)
    usual = [circuit for circuit in inputs.circuits if cut[circuit.id] <= max(bought)]
    longer = [circuit for circuit in inputs.circuits if cut[circuit.id] > max(bought)]
    not_planned = _take_long_ones(longer, cut, stock)
    task = CuttingTask.of(
        [cut[circuit.id] for circuit in usual], bought, [coil.left for coil in stock if coil.left]
    )
    plan = cutting_plan(task)
    coils = _planned(plan.coils, usual, cut, stock)
    order = {circuit.id: place for place, circuit in enumerate(inputs.circuits)}
    return CutCircuits(
        coils=tuple(_marked(coils, cut, order)),
        plan=plan,
        long=tuple(circuit for circuit in longer if circuit not in not_planned),
        not_planned=tuple(not_planned),
    )


def _stock(stock: Sequence[CoilInStock]) -> list[_StockCoil]:
    """Longest first."""
    coils = [
        _StockCoil(length := math.floor(coil.length * _MILLIMETRES + _ROUNDING), coil.name, [], length)
        for coil in stock
        for _ in range(coil.count)
    ]
    return sorted(coils, key=lambda coil: -coil.length)


def _take_long_ones(
    circuits: Iterable[CircuitToCut], cut: dict[str, int], stock: list[_StockCoil]
) -> list[CircuitToCut]:
    """Cut circuits that no coil for sale holds, longest first, from the shortest rest that does; returns those that
    nothing holds."""
    refused = []
    for circuit in sorted(circuits, key=lambda circuit: -cut[circuit.id]):
        holding = [coil for coil in stock if coil.left >= cut[circuit.id]]
        if not holding:
            refused.append(circuit)
            continue
        coil = min(holding, key=lambda coil: coil.left)
        coil.circuits.append(circuit)
        coil.left -= cut[circuit.id]
    return refused


@dataclass(frozen=True)
class _Coil:
    length: int
    in_stock: bool
    name: str
    circuits: list[CircuitToCut]


def _planned(
    coils: Sequence[CutCoil], circuits: Sequence[CircuitToCut], cut: dict[str, int], stock: list[_StockCoil]
) -> list[_Coil]:
    """Which circuits are cut from which coil; of those that are equally long, the first ones from the first coil."""
    waiting: dict[int, deque[CircuitToCut]] = {}
    for circuit in circuits:
        waiting.setdefault(cut[circuit.id], deque()).append(circuit)
    found, opened = [], Counter[int]()
    for coil in coils:
        own = [waiting[length].popleft() for length in coil.cuts]
        if coil.kind.available is None:
            found.append(_Coil(coil.kind.length, False, "", own))
        else:
            same = [rest for rest in stock if rest.left == coil.kind.length]
            same[opened[coil.kind.length]].circuits += own
            opened[coil.kind.length] += 1
    found += [_Coil(coil.length, True, coil.name, coil.circuits) for coil in stock if coil.circuits]
    return found


def _marked(coils: Sequence[_Coil], cut: dict[str, int], order: dict[str, int]) -> Iterable[PlannedCoil]:
    """Circuits of a coil in the order of laying, coils in the order of their first circuits, with metre marks."""
    for coil in coils:
        coil.circuits.sort(key=lambda circuit: order[circuit.id])
    for number, coil in enumerate(sorted(coils, key=lambda coil: order[coil.circuits[0].id]), start=1):
        cuts, at = [], 0
        for circuit in coil.circuits:
            end = at + cut[circuit.id]
            cuts.append(CoilCut(circuit.id, (end - at) / _MILLIMETRES, at / _MILLIMETRES, end / _MILLIMETRES))
            at = end
        yield PlannedCoil(
            coil=str(number),
            length=coil.length / _MILLIMETRES,
            in_stock=coil.in_stock,
            stock_name=coil.name,
            cuts=tuple(cuts),
            offcut=(coil.length - at) / _MILLIMETRES,
        )
