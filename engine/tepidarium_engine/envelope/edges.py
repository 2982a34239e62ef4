"""Lengths of the walls along an outline."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ..checking import Point
from ..errors import FaultList, required
from .records import HeatLossRoom

__all__ = ["SAME_LENGTH", "edge_lengths", "wall_lengths"]

SAME_LENGTH = 1e-3
"""Lengths and areas of parts must add up to the whole this well [m, m2]; plans are not finer."""


def edge_lengths(outline: Sequence[Point]) -> list[float]:
    """Length of each edge [m]; a last point that repeats the first adds none."""
    corners = list(outline[:-1] if outline[0] == outline[-1] else outline)
    return [math.dist(start, end) for start, end in zip(corners, corners[1:] + corners[:1], strict=True)]


def wall_lengths(room: HeatLossRoom, pointer: str, faults: FaultList) -> list[float]:
    """Length of each wall [m]: as given, or what the others leave of its edge. Every edge is covered once."""
    edges = edge_lengths(required(room.outline, "the outline"))
    rest, left_open = list(edges), [True] * len(edges)
    lengths = [0.0] * len(room.walls)
    known = []
    for index, wall in enumerate(room.walls):
        if wall.edge < len(edges):
            known.append((index, wall))
        else:
            detail = f"the outline has {len(edges)} edges, counted from 0"
            faults.add(f"{pointer}/walls/{index}/edge", "no_such_edge", detail, len(edges) - 1)
    for index, wall in known:
        if wall.length is not None:
            lengths[index] = wall.length
            rest[wall.edge] -= wall.length
    for index, wall in known:
        if wall.length is None:
            lengths[index] = max(rest[wall.edge], 0.0)
            if not left_open[wall.edge]:
                detail = "only one wall of an edge may go without its length"
                faults.add(f"{pointer}/walls/{index}/length", "missing", detail)
            elif rest[wall.edge] <= SAME_LENGTH:
                detail = "the other walls take up the whole edge"
                faults.add(f"{pointer}/walls/{index}/length", "nothing_left", detail)
            left_open[wall.edge] = False
    for edge, (spare, is_open) in enumerate(zip(rest, left_open, strict=True)):
        if is_open and spare > SAME_LENGTH:
            detail = f"{spare:.3f} m of edge {edge} have no wall: say what lies beyond (adiabatic if nothing is lost)"
            faults.add(f"{pointer}/walls", "edge_without_wall", detail)
        if spare < -SAME_LENGTH:
            detail = f"the walls of edge {edge} are longer than its {edges[edge]:.3f} m"
            faults.add(f"{pointer}/walls", "longer_than_edge", detail, edges[edge])
    return lengths
