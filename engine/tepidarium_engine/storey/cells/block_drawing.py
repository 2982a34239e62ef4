"""A block cut in cells, one for each circuit, with lanes from the entry through the cells to each."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from ...checking import Point
from ...plan.laying.laying import Laid, Refusal
from ...plan.outlines.polygons import served_area
from ..lanes.bent_ways import bent_way
from ..lanes.cell_lanes import Stub
from ..lanes.free_floor import FieldFloor
from ..lanes.own_floors import OwnFloors, own_floors
from ..lanes.plan_lanes import LaneTask, PlanLanes
from ..tail_records import ManifoldPlace, StoreyPlan, TailDemand
from ..walkways import Walkways
from .block_records import BlockCircuit, BlockTask, LaidBlock
from .cell_fields import FieldJob, joined_field, laid_field
from .cell_plan import Cell, CellPlan, cell_plan
from .room_cells import RoomCells

__all__ = ["BlockDrawing"]

_FILL = 0.98
"""Pipe laid, in terms of served area over spacing."""


@dataclass(frozen=True)
class BlockDrawing:
    task: BlockTask
    cells: RoomCells

    @cached_property
    def plan(self) -> CellPlan:
        task = self.task
        assert self.cells.cells is not None
        cells = [Cell(0, cell, str(number)) for number, cell in enumerate(self.cells.cells)]
        gap = max(0.0, task.spacing / 2.0 - task.clearance)
        off_wall = task.rules.off_wall
        return cell_plan(
            StoreyPlan((task.floor,), ()),
            cells,
            (ManifoldPlace(task.entry, task.ahead, 0),),
            gaps=(gap,),
            opening=2.0 * task.count * task.spacing + 2.0 * off_wall,
            inner=2.0 * off_wall,
        )

    @cached_property
    def floors(self) -> OwnFloors:
        cells = range(len(self.plan.plan.rooms))
        return own_floors(
            LaneTask(
                Walkways(self.plan.plan, self.task.rules),
                self.plan.manifolds,
                [[TailDemand(str(cell), cell) for cell in cells]],
                [self.task.spacing] * len(cells),
                frozenset(cells),
                {},
                self.task.pitch,
            )
        )

    @property
    def lanes(self) -> PlanLanes:
        return self.floors.lanes

    @cached_property
    def fields(self) -> dict[int, tuple[FieldFloor, Stub]]:
        """Of the cells that have a way and floor."""
        found = {}
        for cell, field in self.floors.fields.items():
            stub = self.lanes.bundle(cell)
            assert stub is not None
            found[cell] = (field, stub)
        return found

    def _corners(self, cell: int) -> tuple[list[Point], list[Point]]:
        """Corners of the right and the left pipe from the entry to the field of a cell."""
        field, stub = self.fields[cell]
        right, left = self.lanes.corners(cell, str(cell))
        return [*right, *field.onward(stub.right)], [*left, *field.onward(stub.left)]

    @cached_property
    def _ports(self) -> tuple[str, ...]:
        return self.lanes.routing.trees[0].ports.circuits

    def _pair(self, cell: int) -> int:
        return self._ports.index(str(cell))

    def expected(self) -> tuple[list[float], list[float]] | None:
        """Lengths of all circuits and what of them is tails [m]; ``None`` where one has no field."""
        task = self.task
        if len(self.fields) < self.cells.count:
            return None
        lengths, fixed = [], []
        for cell in range(self.cells.count):
            tail = task.outside[self._pair(cell)] + sum(
                math.dist(*leg) for pipe in self._corners(cell) for leg in pairwise(pipe)
            )
            served = served_area(self.fields[cell][0].floor, task.spacing, task.clearance)
            lengths.append(_FILL * served / task.spacing + tail)
            fixed.append(tail)
        return lengths, fixed

    @cached_property
    def badness(self) -> tuple[int, float]:
        """Circuits without a field, and the spread of the lengths that are expected."""
        expected = self.expected()
        spread = 0.0 if expected is None else self.cells.spread(expected[0])
        return self.cells.count - len(self.fields), round(spread, 4)

    def lengths_of(self, block: LaidBlock) -> tuple[list[float], list[float]]:
        """Whole lengths of the laid circuits by cell, and what of them is tails [m]."""
        by_pair = {circuit.pair: circuit for circuit in block.circuits}
        own = [by_pair[self._pair(cell)] for cell in range(self.cells.count)]
        lengths = [circuit.path.length + self.task.outside[circuit.pair] for circuit in own]
        return lengths, [length - circuit.field_length for length, circuit in zip(lengths, own, strict=True)]

    def laid(self, memory: dict[FieldJob, Laid], rounds: int) -> LaidBlock:
        circuits: list[BlockCircuit] = []
        refused: dict[int, Refusal] = {}
        circuit: BlockCircuit | Refusal
        for cell in range(self.cells.count):
            if str(cell) not in self._ports:
                refused[self.task.count - 1 - len(refused)] = Refusal("no_way_for_tails")
                continue
            circuit = self._circuit(cell, memory) if cell in self.fields else Refusal("no_way_for_tails")
            if isinstance(circuit, Refusal):
                refused[self._pair(cell)] = circuit
            else:
                circuits.append(circuit)
        circuits.sort(key=lambda one: one.pair)
        whole = LaidBlock(tuple(circuits), refused, 0.0, rounds)
        if refused:
            return whole
        return LaidBlock(whole.circuits, refused, self.cells.spread(self.lengths_of(whole)[0]), rounds)

    def _circuit(self, cell: int, memory: dict[FieldJob, Laid]) -> BlockCircuit | Refusal:
        task = self.task
        field, stub = self.fields[cell]
        job = task.field_job(field.floor, field.entry, math.dist(stub.right, stub.left))
        if job not in memory:
            memory[job] = laid_field(job)
        laid = memory[job]
        if laid.path is None or laid.check is None:
            return laid.refusal or Refusal("too_narrow")
        corners, pair = self._corners(cell), self._pair(cell)
        if sum(math.dist(*leg) for leg in pairwise(corners[0])) < 1e-6:
            return BlockCircuit(pair, laid.path, laid.path.length, field.floor, laid.check.measures)
        pipes = [bent_way(_distinct(pipe), task.bend_radius) for pipe in corners]
        if pipes[0] is None or pipes[1] is None:
            return Refusal("no_way_for_tails", field.entry)
        whole = joined_field(
            laid.path,
            (pipes[0], pipes[1]),
            self.plan.plan.rooms[cell],
            self.lanes.lanes[cell],
            stub,
            task.rules,
        )
        if whole is None:
            return Refusal("no_joint", field.entry)
        return BlockCircuit(pair, whole[0], whole[1], field.floor, laid.check.measures)


def _distinct(corners: Sequence[Point]) -> list[Point]:
    return [corners[0], *(b for a, b in pairwise(corners) if math.dist(a, b) > 1e-6)]
