"""The double spiral on a lattice: for rooms whose walls are parallel or square to each other, with any voids."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import MultiLineString

from ...elementwise import Array
from ..joining.entry import entry_opening, with_tails
from ..joining.strips import long_sides, spanning_strips
from ..joining.surgery import Opening, Strip, SurgeryError, spliced
from ..model.field import Draft, Field, LostPlace
from ..outlines.edges import edges_of
from ..outlines.loops import Loop
from ..outlines.regions import Region, dilated, joined, minus, parts_of
from .lattice_lines import GRID, lattice_lines
from .lattice_slack import moved_out
from .lattice_walk import HANDS, Hand, Lattice, Outline, Tree, lattice_of

__all__ = ["lattice_drafts"]

_QUICK_GRID = GRID // 2
_MOST = 8
_MANY_CELLS = 2500
"""Beyond it only a few trees are tried: 100 m2 at 100 mm."""
_SKIN = 1e-4
"""By how much strips may lie outside the floor where they run along its edge [m]."""
_HAIR = 1e-6
"""Positions on a loop that differ by less are one [m]."""
_NEAR = 1.5
"""Floor within this of a cell is served from it, well or badly, in spacings."""
_LEAST_AREA = 0.35
"""Of other floor, in spacings squared, that counts as lost."""
_DIRECTIONS = 4


def lattice_drafts(field: Field, quick: bool = False) -> Iterator[Draft]:
    """Pipes round trees of cells, by how well flow and return mix: the best first, in ``quick`` two of them.

    The trees start at the cell nearest the entry, in each of the four directions, with either hand along the
    wall. Cells that no tree reaches from there get trees of their own, joined on by strips; where no strip
    finds a place they are lost, as is floor too narrow for cells.
    """
    zone, pipe_spacing = field.zone.free, field.pipe_spacing
    if zone is None:
        return
    edges = edges_of(zone)
    grid = _QUICK_GRID if quick else GRID
    xs, ys = (lattice_lines(edges, axis, pipe_spacing, grid) for axis in (0, 1))
    if xs is None or ys is None:
        return
    lattice = lattice_of(zone, edges, xs, ys)
    if not len(lattice.cells):
        return
    patterns = _patterns(lattice, field, quick)
    bare = _bare(patterns[0], zone, pipe_spacing)
    for pattern in patterns[:_MOST]:
        try:
            draft = _draft(pattern, zone, edges, bare, field)
        except SurgeryError:
            continue
        # The tails of a loop opened in a slit between two cells can cross the pipe.
        if shapely.is_simple(shapely.linestrings(draft.corners)):
            yield draft


@dataclass(frozen=True)
class _Pattern:
    """Outlines of trees, the one at the entry first, and how badly flow and return mix on that one."""

    outlines: tuple[Outline, ...]
    entry: Opening
    badness: float
    variant: str


def _patterns(lattice: Lattice, field: Field, quick: bool) -> list[_Pattern]:
    """Those that differ, the best first."""
    found: dict[bytes, _Pattern] = {}
    for direction, hand, behind in _starts(field, quick or len(lattice.cells) > _MANY_CELLS):
        trees = _trees(lattice, field, direction, hand, behind)
        key = np.logical_or.reduce([tree.filled for tree in trees]).tobytes()
        if key in found:
            continue
        outlines = tuple(map(lattice.outline, trees))
        entry = entry_opening(outlines[0].loop, field)
        badness = _unmixed(outlines[0], entry, lattice) + _cramped(outlines[0].loop, entry, field)
        variant = f"{hand} hand, start {90 * direction}{', one back' if behind else ''}"
        found[key] = _Pattern(outlines, entry, round(badness, 6), variant)
    return sorted(found.values(), key=lambda pattern: pattern.badness)


def _starts(field: Field, few: bool) -> Iterator[tuple[int, Hand, bool]]:
    """Direction, hand along the wall, and whether to start one cell behind the entry.

    When only a few are asked for: those that run along the wall of the entry, on which hand it lies.
    """
    x, y = field.entry.inward
    inward = (0 if x > 0.0 else 2) if round(abs(x), 6) > round(abs(y), 6) else (1 if y > 0.0 else 3)
    if few:
        yield (inward - 1) % _DIRECTIONS, "right", True
        yield (inward + 1) % _DIRECTIONS, "left", True
        return
    for behind in (False, True):
        for direction in range(_DIRECTIONS):
            for hand in HANDS:
                yield direction, hand, behind


def _trees(lattice: Lattice, field: Field, direction: int, hand: Hand, behind: bool) -> list[Tree]:
    """The trees that take all cells, the one at the entry first."""
    waiting = np.ones(len(lattice.cells), dtype=np.bool_)
    trees = []
    while waiting.any():
        root = lattice.nearest(field.entry.place, np.flatnonzero(waiting))
        if behind and lattice.neighbours[root][direction - 2] >= 0:
            root = lattice.neighbours[root][direction - 2]
        trees.append(lattice.tree(root, direction, hand))
        waiting[list(trees[-1].cells)] = False
    return trees


def _cramped(loop: Loop, entry: Opening, field: Field) -> float:
    """How far the opening lies from where the tails arrive, in spacings, and what room their bends lack."""
    corners = loop.positions[:-1]
    width = (entry.end - entry.start) % loop.length
    after = float(np.mod(corners - entry.end + _HAIR, loop.length).min()) - _HAIR
    before = float(np.mod(entry.start - corners + _HAIR, loop.length).min()) - _HAIR
    (x, y), (dx, dy) = loop.at(entry.start + width / 2.0), field.entry.inward
    x, y = x - field.entry.place[0], y - field.entry.place[1]
    aside = abs(dx * y - dy * x) + max(0.0, dx * x + dy * y - field.pipe_spacing)
    lacking = sum(
        max(0.0, 1.0 - room / (2.0 * field.bend_radius)) for room in (after, before) if room > _HAIR
    )
    straight = float(np.mod(corners - entry.start - _HAIR, loop.length).min()) >= width - 2.0 * _HAIR
    return 0.5 * aside / field.pipe_spacing + 0.5 * lacking + (0.0 if straight else 0.5)


def _unmixed(outline: Outline, entry: Opening, lattice: Lattice) -> float:
    """Spread of the mean position of neighbours, less the share of pipe that lies between pipe of the other half.

    The figures of the validator, taken on the lattice: whole pieces between lines count.
    """
    length = outline.loop.length
    middles = (outline.positions[:-1] + outline.positions[1:]) / 2.0
    at = np.mod(middles - entry.end, length)
    weights = np.diff(outline.positions)
    ahead_i, ahead_j = np.roll(outline.columns, -1), np.roll(outline.rows, -1)
    upright = outline.columns == ahead_i
    i, j = np.minimum(outline.columns, ahead_i), np.minimum(outline.rows, ahead_j)
    # By direction of pipe and place on the lattice: the position along the pipe, or nan where there is none.
    laid = np.full((2, len(lattice.xs) + 2, len(lattice.ys) + 2), np.nan)
    kind = upright.astype(np.intp)
    laid[kind, i + 1, j + 1] = at
    beside = np.stack(
        [
            laid[kind, i + 1 - kind, j + kind],
            laid[kind, i + 1 + kind, j + 2 - kind],
        ]
    )
    seen = ~np.isnan(beside)
    some = seen.any(axis=0)
    if not some.any():
        return 0.0
    same_half = ((beside > length / 2.0) == (at > length / 2.0)) & seen
    total = weights[some].sum()
    mixed = weights[some & ~same_half.any(axis=0)].sum() / total
    mean = np.where(seen, beside, 0.0).sum(axis=0)[some] / seen.sum(axis=0)[some]
    middle = (at[some] + mean) / (2.0 * length)
    average = (weights[some] * middle).sum() / total
    spread = np.sqrt((weights[some] * (middle - average) ** 2).sum() / total)
    return float(4.0 * spread - mixed)


def _bare(pattern: _Pattern, zone: Region, pipe_spacing: float) -> Region:
    """Where no cell is near, though pipe may lie there. It is the same for all trees over the same cells."""
    cells = joined(outline.loop.area for outline in pattern.outlines)
    return minus(zone, dilated(cells, _NEAR * pipe_spacing))


def _draft(pattern: _Pattern, zone: Region, edges: Array, bare: Region, field: Field) -> Draft:
    outlines = [outline.loop.points for outline in pattern.outlines]
    loops = [Loop.round(moved_out(points, edges, field.pipe_spacing)) for points in outlines]
    entry = entry_opening(loops[0], field)
    strips, apart = _strips(loops, entry, zone, field)
    if strips:
        sides = MultiLineString(long_sides(loops, strips))
        bare = minus(bare, shapely.buffer(sides, _NEAR * field.pipe_spacing))
    least = _LEAST_AREA * field.pipe_spacing**2
    lost = [loops[index].area for index in apart] + [part for part in parts_of(bare) if part.area > least]
    core = spliced(loops, strips, entry, left_out=apart)
    places = tuple(LostPlace.of("narrow", part) for part in lost)
    return Draft(with_tails(core, field), "lattice", pattern.variant, places)


def _strips(loops: list[Loop], entry: Opening, zone: Region, field: Field) -> tuple[list[Strip], list[int]]:
    """Strips from the first loop to all others that can be reached, and those that cannot."""
    if len(loops) == 1:
        return [], []
    between = minus(dilated(zone, _SKIN), joined(loop.area for loop in loops))
    return spanning_strips(
        loops,
        range(len(loops)),
        None,
        between,
        field.pipe_spacing,
        joined=(0,),
        taken=(entry,),
        near=field.entry.place,
    )
