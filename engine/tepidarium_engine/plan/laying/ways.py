"""The ladder: the ways to lay a field, best hopes first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import islice
from typing import Literal

from ..counterflow.counterflow import Scales, counterflow_drafts
from ..counterflow.spacing_fit import filled_exactly, fitted_scales
from ..lattice.lattice import lattice_drafts, suits_lattice
from ..model.field import Draft, Field
from ..serpentine.serpentine import serpentine_drafts

__all__ = ["Pattern", "rescues", "ways"]

Pattern = Literal["counterflow", "serpentine"]

_LATTICES = 2
_COMBS = 4
_DRAWN_IN = 0.96
"""Of the fitted spacings: makes up for what round bends leave out of sharp corners."""
_SHIFTS = (0.5, -0.5, 1.0, -1.0)
"""Of the tails' place on the outermost ring, in spacings."""
_CLOSER = (0.95, 0.9)
"""Spacings tried when nothing else is good, as shares of the one asked for."""


def ways(
    field: Field, pattern: Pattern, quick: bool, given: Scales | None = None
) -> Iterator[Iterator[Draft]]:
    """Kinds of drafts in the order in which they are worth judging; quick ones without spacing fit, and so those
    whose scales are ``given``.

    Drafts of one kind cover the floor alike and differ in how flow and return run.
    """
    if pattern == "serpentine":
        yield islice(serpentine_drafts(field, quick), _COMBS)
        if not quick:
            yield islice(_closer(field, pattern, _CLOSER[0]), _COMBS)
        return
    scales = given or ((1.0, 1.0) if quick else fitted_scales(field))
    yield counterflow_drafts(field, scales)
    if suits_lattice(field):
        yield islice(lattice_drafts(field, quick), _LATTICES)
    if not quick and not filled_exactly(field.zone, field.pipe_spacing):
        yield counterflow_drafts(field, (scales[0] * _DRAWN_IN, scales[1] * _DRAWN_IN))
    if scales != (1.0, 1.0):
        yield counterflow_drafts(field)


def rescues(field: Field, pattern: Pattern) -> Iterator[Iterator[Draft]]:
    """More kinds of drafts, for a field in which none of the ``ways`` could be laid."""
    if pattern == "serpentine":
        yield islice(serpentine_drafts(field), 2 * _COMBS)
    else:
        for shift in _SHIFTS:
            yield counterflow_drafts(field, shift=shift)
        yield islice(lattice_drafts(field), 8)
    for share in _CLOSER:
        yield islice(_closer(field, pattern, share), _COMBS)


def _closer(field: Field, pattern: Pattern, share: float) -> Iterator[Draft]:
    nearer = replace(field, pipe_spacing=share * field.pipe_spacing)
    drafts = serpentine_drafts(nearer) if pattern == "serpentine" else counterflow_drafts(nearer)
    for draft in drafts:
        spacing = nearer.pipe_spacing
        yield replace(draft, variant=f"{draft.variant}, closer", spacings=(spacing, spacing))
