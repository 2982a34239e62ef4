"""Floor of a room that is farther from any pipe than pipes heat evenly."""

from __future__ import annotations

from collections.abc import Iterable

import shapely
from shapely import LineString

from ...plan.judging.route_measures import SERVED
from ...plan.outlines.overlays import difference, union
from ..model.layout_records import StoreyCircuit

__all__ = ["CHORD_ERROR", "bare_floor", "line_of"]

CHORD_ERROR = 1e-3
"""By which the line of a pipe may stray from its arcs [m]."""


def line_of(circuit: StoreyCircuit) -> LineString:
    """All of its pipe."""
    return LineString(circuit.path.polyline(CHORD_ERROR))


def bare_floor(floor: shapely.Geometry, lines: Iterable[LineString], spacing: float) -> shapely.Geometry:
    """Of a floor with pipe at a ``spacing`` [m], beside the ``lines`` of all pipes."""
    near = [line for line in lines if shapely.dwithin(line, floor, spacing)]
    return difference(floor, union(shapely.buffer(near, SERVED * spacing, quad_segs=4)))
