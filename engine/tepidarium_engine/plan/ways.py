"""The ladder: the ways to lay a field, best hopes first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import islice
from typing import Literal

from .counterflow import counterflow_drafts
from .field import Draft, Field
from .lattice import lattice_drafts, suits_lattice

__all__ = ["Pattern", "rescues", "ways"]

Pattern = Literal["counterflow", "serpentine"]

_LATTICES = 2
_COMBS = 3
_SHIFTS = (0.5, -0.5, 1.0, -1.0)
"""Of the tails' place on the outermost ring, in spacings."""
_CLOSER = (0.95, 0.9)
"""Spacings tried when nothing else can be laid, as shares of the one asked for."""


def ways(field: Field, pattern: Pattern, quick: bool) -> Iterator[Draft]:
    """Drafts of a pattern in the order in which they are worth judging; quick ones without spacing fit."""
    yield from counterflow_drafts(field)
    if suits_lattice(field):
        yield from islice(lattice_drafts(field, quick), _LATTICES)


def rescues(field: Field, pattern: Pattern) -> Iterator[Draft]:
    """More drafts, for a field in which none of the ``ways`` could be laid."""
    for shift in _SHIFTS:
        yield from counterflow_drafts(field, shift=shift)
    yield from islice(lattice_drafts(field), 8)
    for closer in _CLOSER:
        nearer = replace(field, pipe_spacing=closer * field.pipe_spacing)
        drafts = counterflow_drafts(nearer)
        for draft in islice(drafts, 2):
            spacing = nearer.pipe_spacing
            yield replace(draft, variant=f"{draft.variant}, closer", spacings=(spacing, spacing))
