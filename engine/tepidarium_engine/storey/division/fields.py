"""The fields that movement joints leave of a room, and how many circuits each takes."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from shapely import Polygon

from ...plan.outlines.parting import drawn_out, faces_between
from ...plan.outlines.polygons import served_area
from ..model.records import Segment

__all__ = ["FULL", "circuits_of_fields", "joint_fields", "more_circuits"]

FULL = 0.985
"""Share of the permitted length that circuits have on average where none is too long."""
_REACH = 1e-3
"""By which joints are drawn out: they end on walls but for rounding [m]."""
_LEAST_AREA = 0.01
"""Of a field [m2]."""


def joint_fields(room: Polygon, joints: Sequence[Segment]) -> list[Polygon]:
    """The parts of a room between its joints, in order of place."""
    if not joints:
        return [room]
    drawn = [np.array(joint) for joint in joints if math.dist(*joint) > 0.0]
    kept = faces_between(room, [drawn_out(each, room, _REACH) for each in drawn], _LEAST_AREA)
    return sorted(kept, key=lambda face: tuple(round(number, 6) for number in face.bounds))


def circuits_of_fields(
    fields: Sequence[Polygon], spacing: float, clearance: float, length: float, count: int | None
) -> list[int] | None:
    """Number of circuits in each field: so many that none is longer than ``length`` [m], or ``count`` in all;
    None where there are fewer than fields."""
    needs = [served_area(field, spacing, clearance) / spacing / length for field in fields]
    if count is None:
        counts = [max(1, math.ceil(need - 1e-9)) for need in needs]
        target = sum(counts)
    else:
        counts, target = [1] * len(fields), count
    if target < len(fields):
        return None
    while sum(counts) < target:
        fullest = max(range(len(fields)), key=lambda index: (round(needs[index] / counts[index], 9), -index))
        counts[fullest] += 1
    return counts


def more_circuits(count: int, length: float, longest: float) -> int:
    """Number of circuits in place of ``count`` whose mean ``length`` [m] is too great for the ``longest`` [m] that is
    permitted: one more at least."""
    return max(count + 1, math.ceil(count * length / (FULL * longest) - 1e-9))
