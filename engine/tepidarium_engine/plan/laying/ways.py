"""The ladder: the ways to lay a field, best hopes first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import islice
from typing import Literal

from ..counterflow.counterflow import counterflow_drafts
from ..counterflow.room_fit import fitted_rings, scaled_rings, wide_rings
from ..lattice.lattice import lattice_drafts
from ..model.field import Draft, Field
from ..outlines.edges import is_square
from ..serpentine.serpentine import serpentine_drafts

__all__ = ["Pattern", "rescues", "ways"]

Pattern = Literal["counterflow", "serpentine"]

_LATTICES, _MOST_LATTICES = 2, 6
_COMBS = 4
_CLOSER = (0.95, 0.9)
"""Spacings tried when nothing else is good, as shares of the one asked for."""
_MOST_CORNERS = 500
"""Of the combs that are drawn where none of the first could be laid: of 24 rooms that got their pipe from such combs
none took more than 174."""


def ways(field: Field, pattern: Pattern, quick: bool) -> Iterator[Iterator[Draft]]:
    """Kinds of drafts in the order in which they are worth looking at."""
    if pattern == "serpentine":
        yield islice(serpentine_drafts(field, quick), _COMBS)
        return
    yield counterflow_drafts(field, fitted_rings(field, quick))
    if is_square(field.room):
        yield islice(lattice_drafts(field, quick), _LATTICES)


def rescues(field: Field, pattern: Pattern, quick: bool) -> Iterator[Iterator[Draft]]:
    """More kinds of drafts, for a field in which none of the ``ways`` could be laid; those that were among them are
    left out.

    In 1,210 rooms and storeys 147 fields came to it and 33 got their pipe here: 9 by other combs, 8 by wide rings, 5
    by a lattice, 11 by pipe that lies closer.
    """
    if pattern == "serpentine":
        budget = _Budget(_MOST_CORNERS)
        yield budget.within(islice(serpentine_drafts(field), 0 if quick else _COMBS, 2 * _COMBS))
        for share in _CLOSER:
            yield budget.within(islice(_closer(field, share), _COMBS))
    else:
        square = is_square(field.room)
        tried = _LATTICES if square and not quick else 0
        closer = (counterflow_drafts(field, scaled_rings(field, (share, share))) for share in _CLOSER)
        lattice = islice(lattice_drafts(field), tried, _MOST_LATTICES)
        yield counterflow_drafts(field, wide_rings(field))
        # Along a slanting wall a lattice goes in steps.
        yield from (lattice, *closer) if square else (*closer, lattice)


@dataclass
class _Budget:
    """Of corners of drafts that are still made."""

    left: int

    def within(self, drafts: Iterator[Draft]) -> Iterator[Draft]:
        while self.left > 0 and (draft := next(drafts, None)) is not None:
            self.left -= len(draft.corners)
            yield draft


def _closer(field: Field, share: float) -> Iterator[Draft]:
    nearer = replace(field, pipe_spacing=share * field.pipe_spacing)
    for draft in serpentine_drafts(nearer):
        spacing = nearer.pipe_spacing
        yield replace(draft, variant=f"{draft.variant}, closer", spacings=(spacing, spacing))
