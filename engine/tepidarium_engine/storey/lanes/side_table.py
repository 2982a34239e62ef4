"""Ways over one cell that do not cross: which of them lie between two places on its edge."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from scipy.spatial.distance import cdist

from ...elementwise import Array
from .cell_edge import CellEdge

__all__ = ["SideTable", "Span"]


@dataclass(frozen=True, slots=True)
class Span:
    """A way by its positions on the cell's edge [m]: ``start`` and ``end``; its right-hand side is the edge from one on
    to the other. ``forward``: it comes to its end counter-clockwise along the edge. For ``beyond`` [m] behind its end its
    place is left to it."""

    start: float
    end: float
    forward: bool
    beyond: float = 0.0


@dataclass(frozen=True)
class SideTable:
    """``spans`` of all ways over the cell, none crossing another."""

    edge: CellEdge
    spans: Sequence[Span]

    @cached_property
    def on_right(self) -> Array:
        """Whether each place of the edge (a row) lies on the right of each way (a column), its place behind its end
        being kept."""
        return self._on_right(1.0)

    def _on_right(self, kept: float) -> Array:
        at, length = self.edge.sides_at, self.edge.loop.length
        columns = []
        for span in self.spans:
            whole = (span.end - span.start) % length
            along = (at - span.start) % length
            beyond = kept * (span.beyond if span.forward else -span.beyond)
            columns.append(along <= whole + beyond)
        return np.stack(columns, axis=1).astype(float) if columns else np.zeros((len(at), 0))

    @cached_property
    def of_ways(self) -> Array:
        """Whether each way (a row) lies on the right of each other one (a column)."""
        starts = np.array([span.start for span in self.spans])
        ends = np.array([span.end for span in self.spans])
        length = self.edge.loop.length
        whole = (ends - starts) % length
        found: Array = (starts[:, None] - starts[None, :]) % length < whole[None, :]
        return found

    @cached_property
    def between(self) -> Array:
        """Ways that pass between any two places."""
        found: Array = cdist(self.on_right, self.on_right, "cityblock")
        return found

    @cached_property
    def between_ends(self) -> Array:
        """The same without the places that are kept behind ends."""
        found: Array = cdist(self._at_ends, self._at_ends, "cityblock")
        return found

    def beside(self, way: int) -> Array:
        """Ways between each place and a way: on its right those of which it lies left, on its left the others. Places
        that are kept behind ends count on both sides of the ways that end there."""
        others = np.arange(len(self.spans)) != way
        right_of = self.of_ways[way]
        span, length = self.spans[way], self.edge.loop.length
        along = (self.edge.sides_at - span.start) % length
        right = along <= (span.end - span.start) % length
        counts = [
            np.where(
                right,
                on_right[:, others & ~right_of].sum(axis=1),
                (1.0 - on_right[:, others & right_of]).sum(axis=1),
            )
            for on_right in (self.on_right, self._at_ends)
        ]
        found: Array = np.maximum(*counts)
        return found

    @cached_property
    def _at_ends(self) -> Array:
        """Sides without the places that are kept behind ends."""
        return self._on_right(0.0)
