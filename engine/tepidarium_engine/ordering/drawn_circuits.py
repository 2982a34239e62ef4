"""The circuits of an order that come with their lines and arcs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shapely import LineString

from ..errors import FaultList
from ..fitting.drawn_pipe import drawn_pipe
from ..plan.pipes.pipe_path import PipePath
from .material_records import MaterialCircuit

__all__ = ["DrawnPipe", "drawn_circuits"]

_CHORD_ERROR = 1e-3


@dataclass(frozen=True)
class DrawnPipe:
    """``line`` strays from ``path`` by at most 1 mm; drawn on ``storey``."""

    path: PipePath
    line: LineString
    storey: str | None


def drawn_circuits(circuits: Sequence[MaterialCircuit], faults: FaultList) -> dict[str, DrawnPipe]:
    """By id; circuits without pieces, and those that a fault was noted of, are left out."""
    found = {}
    for number, circuit in enumerate(circuits):
        if circuit.pieces is None:
            continue
        path = drawn_pipe(circuit.pieces, f"/circuits/{number}/pieces", faults)
        if path is not None:
            found[circuit.id] = DrawnPipe(path, LineString(path.polyline(_CHORD_ERROR)), circuit.storey)
    return found
