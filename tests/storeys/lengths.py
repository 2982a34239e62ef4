"""How unequal the circuits of one room are: by shapely on what was drawn alone."""

from __future__ import annotations

from collections.abc import Iterator

import shapely
from shapely import LineString, Polygon
from tepidarium_engine.storey.model.layout_records import StoreyLayout, StoreyTask

__all__ = ["spreads"]

_REACH = 1e-3
"""By which joints are lengthened, so that one that ends on a wall does [m]."""


def spreads(task: StoreyTask, layout: StoreyLayout) -> Iterator[float]:
    """(Longest - shortest) / mean of each floor between joints with several circuits, tails included."""
    for index, room in enumerate(task.plan.rooms):
        circuits = [circuit for circuit in layout.circuits if circuit.room == index]
        for part in _between(room, [LineString(joint) for joint in task.rooms[index].joints]):
            lengths = [
                circuit.path.length
                for circuit in circuits
                if shapely.intersection(part, circuit.floor).area > 0.5 * circuit.floor.area
            ]
            if len(lengths) > 1:
                yield (max(lengths) - min(lengths)) * len(lengths) / sum(lengths)


def _between(room: Polygon, joints: list[LineString]) -> list[Polygon]:
    if not joints:
        return [room]
    cuts = shapely.buffer(joints, _REACH, cap_style="square")
    return list(shapely.get_parts(shapely.difference(room, shapely.union_all(cuts))))
