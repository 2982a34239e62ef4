"""Blocks that were laid before, in whatever place of whatever storey: the most recent ones are kept."""

from __future__ import annotations

import math
from collections import OrderedDict
from collections.abc import Sequence
from dataclasses import replace
from threading import Lock

import numpy as np
import shapely
from shapely import Polygon

from ...checking import Point
from ...elementwise import Array
from ...plan.judging.route_measures import RouteMeasures
from ...plan.laying.laying import Refusal
from ...spreading import Spread, largest_first
from .block import laid_block
from .block_records import BlockCircuit, BlockTask, LaidBlock

__all__ = ["laid_blocks"]

_MOST = 400
_DIGITS = 7
"""Places differ by less than a tenth of a micrometre in blocks that are the same."""
_OUTSIDE = 1
"""Pipe before the entry counts by decimetres."""

_memory: OrderedDict[BlockTask, LaidBlock] = OrderedDict()
_lock = Lock()


def laid_blocks(tasks: Sequence[BlockTask], spread: Spread) -> list[LaidBlock]:
    """Lay blocks, each only once; what is answered is the same whether it was laid before or not."""
    plain = [_at_origin(task) for task in tasks]
    with _lock:
        found = {task: _memory[task] for task, _ in plain if task in _memory}
    new = list(dict.fromkeys(task for task, _ in plain if task not in found))
    laid = largest_first(spread, laid_block, new, [task.floor.area for task in new])
    found |= dict(zip(new, laid, strict=True))
    with _lock:
        for task, block in found.items():
            _memory[task] = block
            _memory.move_to_end(task)
        while len(_memory) > _MOST:
            _memory.popitem(last=False)
    return [_moved(found[task], by) for task, by in plain]


def _at_origin(task: BlockTask) -> tuple[BlockTask, Point]:
    """The block with its lower left corner at the origin, without what makes no difference to it, and where it is."""
    low = np.round(np.array(task.floor.bounds[:2]), _DIGITS)

    def moved(points: Array) -> Array:
        there: Array = np.round(points - low, _DIGITS) + 0.0
        return there

    one = task.count == 1 and not task.missing
    joints = tuple(
        (_point(moved(np.array(start))), _point(moved(np.array(end)))) for start, end in task.joints
    )
    plain = replace(
        task,
        floor=shapely.orient_polygons(shapely.normalize(shapely.transform(task.floor, moved))),
        entry=_point(moved(np.array(task.entry))),
        ahead=_point(np.round(np.array(task.ahead), 9) + 0.0),
        pitch=round(task.pitch, _DIGITS),
        outside=(0.0,) if one else tuple(round(length, _OUTSIDE) for length in task.outside),
        longest=math.inf if one else round(task.longest, _OUTSIDE),
        joints=joints,
    )
    return plain, (float(low[0]), float(low[1]))


def _point(row: Array) -> Point:
    x, y = row.tolist()
    return (x, y)


def _moved(block: LaidBlock, by: Point) -> LaidBlock:
    circuits = tuple(_moved_circuit(circuit, by) for circuit in block.circuits)
    refused = {pair: _moved_refusal(refusal, by) for pair, refusal in block.refused.items()}
    return replace(block, circuits=circuits, refused=refused)


def _moved_circuit(circuit: BlockCircuit, by: Point) -> BlockCircuit:
    floor: Polygon = shapely.transform(circuit.floor, lambda points: points + by)
    return replace(
        circuit, path=circuit.path.moved(by), floor=floor, measures=_moved_measures(circuit.measures, by)
    )


def _moved_measures(measures: RouteMeasures, by: Point) -> RouteMeasures:
    bare, left_out = (
        tuple(replace(spot, place=(spot.place[0] + by[0], spot.place[1] + by[1])) for spot in spots)
        for spots in (measures.bare_spots, measures.left_out)
    )
    return replace(measures, bare_spots=bare, left_out=left_out)


def _moved_refusal(refusal: Refusal, by: Point) -> Refusal:
    place = refusal.place
    return refusal if place is None else replace(refusal, place=(place[0] + by[0], place[1] + by[1]))
