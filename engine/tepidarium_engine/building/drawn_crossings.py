"""Where the pipes of a drawing pass a line, as those of movement joints."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

import numpy as np
import shapely
from shapely import LineString

from ..checking import Point
from ..plan.outlines.overlays import intersection
from ..storey.model.layout_records import StoreyCircuit

__all__ = ["DrawnCrossing", "drawn_crossings"]

_CHORD_ERROR = 5e-4
_WITHIN_FIELD = 0.1
"""A pipe this far within its own field is no tail [m]."""


class DrawnCrossing(NamedTuple):
    """A circuit's pipe on the line; ``ahead`` is the unit vector of its flow. ``aslant`` [rad] is off the square to the
    line; ``tail``: it is on its way to its field there."""

    circuit: str
    place: Point
    ahead: Point
    aslant: float
    tail: bool


def drawn_crossings(circuits: Sequence[StoreyCircuit], points: Sequence[Point]) -> Iterator[DrawnCrossing]:
    """On a line through the ``points`` [m], in order of circuit."""
    joint = LineString(points)
    for circuit in circuits:
        line = LineString(circuit.path.polyline(_CHORD_ERROR))
        if shapely.intersects(line, joint):
            yield from _on_joint(circuit, line, joint)


def _on_joint(circuit: StoreyCircuit, line: LineString, joint: LineString) -> Iterator[DrawnCrossing]:
    field = shapely.buffer(circuit.floor, -_WITHIN_FIELD)
    met = shapely.get_parts(intersection(line, joint))
    places = sorted({tuple(shapely.get_coordinates(part)[0].tolist()) for part in met})
    for x, y in places:
        place = shapely.Point(x, y)
        along = shapely.line_locate_point(line, place) * circuit.path.length / line.length
        _, headings = circuit.path.poses_at(np.array([along]))
        ahead, (vx, vy) = (float(headings[0, 0]), float(headings[0, 1])), _direction(joint, place)
        turn = abs(math.atan2(ahead[0] * vy - ahead[1] * vx, ahead[0] * vx + ahead[1] * vy))
        aslant, tail = abs(math.pi / 2.0 - turn), not shapely.contains(field, place)
        yield DrawnCrossing(circuit.id, (x, y), ahead, aslant, tail)


def _direction(joint: LineString, place: shapely.Point) -> Point:
    """Unit vector of the straight piece of a joint at a place."""
    points = np.asarray(joint.coords)
    pieces = [LineString(pair) for pair in pairwise(points)]
    nearest = min(pieces, key=lambda piece: round(float(shapely.distance(piece, place)), 9))
    (ax, ay), (bx, by) = nearest.coords
    return ((bx - ax) / nearest.length, (by - ay) / nearest.length)
