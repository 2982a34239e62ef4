"""Laying a block: shares of its floor follow the lengths that come out, until its circuits are about equally long."""

from __future__ import annotations

import math

import shapely

from ...plan.laying.laying import Laid, Refusal
from .block_drawing import BlockDrawing
from .block_records import BlockCircuit, BlockTask, LaidBlock
from .cell_fields import FieldJob, laid_field
from .room_cells import RoomCells, room_cells

__all__ = ["laid_block"]

_FILL = 0.98
"""Pipe laid, in terms of served area over spacing."""
_AIM = 0.03
"""Spread of lengths from which no circuit is laid anew."""
_DAMPED = 0.5
"""Share of the step that is tried after one that did not help."""
_CUTS = 4
"""Ways to cut the floor first that are tried, until all circuits have a field and their lengths may be about equal."""
_FAIR = 0.1
_DRY_AIM = 0.012
_DRY, _ROUNDS = 4, 4
"""Rounds of cutting anew by the lengths that are expected, and by those laid."""


def laid_block(task: BlockTask) -> LaidBlock:
    """Lay all circuits of a block."""
    if task.count == 1 and not task.joints and not task.missing:
        return _single(task)
    best: tuple[tuple[int, float], BlockDrawing] | None = None
    refusal = Refusal("no_cut", None, None, task.count)
    for rank in range(_CUTS):
        cells = _cells(task, rank)
        if cells is None:
            return _none(task, Refusal("too_few_circuits", None, task.count, None))
        if cells.count < task.count or cells.cells is None:
            refusal = Refusal("no_cut", None, cells.count, task.count)
            continue
        drawing = _dry(BlockDrawing(task, cells))
        badness = drawing.badness
        if best is None or badness < best[0]:
            best = (badness, drawing)
        if badness <= (0, _FAIR):
            break
    return _none(task, refusal) if best is None else _evened(best[1])


def _cells(task: BlockTask, rank: int) -> RoomCells | None:
    return room_cells(
        task.floor,
        task.joints,
        task.count,
        spacing=task.spacing,
        clearance=task.clearance,
        longest=max(1.0, task.longest - max(task.outside)) / _FILL,
        entry=task.entry,
        kept=[shapely.Point(task.entry).buffer(task.rules.width_for(task.count) + task.rules.off_wall)],
        rank=rank,
    )


def _evened(drawing: BlockDrawing) -> LaidBlock:
    """The block laid, and laid anew with other shares until its circuits are about equally long."""
    task, memory = drawing.task, dict[FieldJob, Laid]()
    best, found = drawing, drawing.laid(memory, 1)
    least, step = found, 1.0
    for number in range(2, _ROUNDS + 1):
        if least.refused or least.spread <= _AIM:
            break
        evened = best.cells.evened(*best.lengths_of(least), step)
        if evened is None:
            break
        drawing = BlockDrawing(task, evened)
        found = drawing.laid(memory, number)
        if found.badness(task) < least.badness(task):
            best, least, step = drawing, found, 1.0
        else:
            step *= _DAMPED
    return least


def _none(task: BlockTask, refusal: Refusal) -> LaidBlock:
    return LaidBlock((), dict.fromkeys(range(task.count), refusal), 0.0, 0)


def _single(task: BlockTask) -> LaidBlock:
    laid = laid_field(task.field_job(task.floor, task.entry, task.pitch))
    if laid.path is None or laid.check is None:
        return _none(task, laid.refusal or Refusal("too_narrow"))
    circuit = BlockCircuit(0, laid.path, laid.path.length, task.floor, laid.check.measures)
    return LaidBlock((circuit,), {}, 0.0, 1)


def _dry(drawing: BlockDrawing) -> BlockDrawing:
    """With shares of the floor for which lengths are expected to be equal."""
    best, least = drawing, math.inf
    for _ in range(_DRY):
        expected = drawing.expected()
        if expected is None:
            break
        spread = drawing.cells.spread(expected[0])
        if spread < least:
            best, least = drawing, spread
        evened = None if spread <= _DRY_AIM else drawing.cells.evened(*expected, 1.0)
        if evened is None:
            break
        drawing = BlockDrawing(drawing.task, evened)
    return best
