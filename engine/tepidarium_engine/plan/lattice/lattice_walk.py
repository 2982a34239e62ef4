"""Cells between the lines of a lattice, trees over them, and the loop round a tree.

A tree of square cells, each a good spacing wide and as far from the next, has one outline, which passes every
cell on both sides (spanning-tree coverage: Gabriely and Rimon 2001). A tree that follows the walls with one
hand winds itself up, and its outline is a double spiral.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Literal, NamedTuple

import numpy as np
import numpy.typing as npt
import shapely

from ...checking import Point
from ...elementwise import Array
from ..outlines.loops import Loop
from ..outlines.regions import Region

__all__ = ["HANDS", "Flags", "Hand", "Lattice", "Outline", "Tree", "lattice_of"]

Flags = npt.NDArray[np.bool_]
Hand = Literal["right", "left"]

HANDS: dict[Hand, tuple[int, ...]] = {"right": (2, 1, 0, -1), "left": (2, -1, 0, 1)}
"""Quarter turns counter-clockwise to the next cell, the last choice first."""
_STEPS = ((1, 0), (0, 1), (-1, 0), (0, -1))
"""From cell to cell, by direction: 0 is along x, then counter-clockwise."""
_TOLERANCE = 1e-6
"""By how much a cell may lie outside the floor [m]."""


class Tree(NamedTuple):
    """``cells`` in the order of the walk; ``filled``: the boxes of the lattice that cells and links take."""

    cells: tuple[int, ...]
    filled: Flags


@dataclass(frozen=True)
class Outline:
    """The outline of a tree, counter-clockwise, by the lattice's crossings: line numbers along x and y.

    Every piece leads from one line to the next: crossings on a straight run are there, too.
    """

    columns: npt.NDArray[np.intp]
    rows: npt.NDArray[np.intp]
    loop: Loop

    positions: Array
    """Length along the loop at each crossing, and last the whole length [m]."""


@dataclass(frozen=True)
class Lattice:
    """Lines at ``xs`` and ``ys`` [m], in pairs, and which of the boxes between neighbouring lines are free.

    Box (i, j) lies between lines i and i + 1 along x, j and j + 1 along y. Boxes with even i and j are cells;
    those with one odd number are links between two cells.
    """

    xs: Array
    ys: Array
    free: Flags

    @cached_property
    def cells(self) -> npt.NDArray[np.intp]:
        """Box numbers (i, j) of the free cells, a row each."""
        return 2 * np.argwhere(self.free[::2, ::2])

    @cached_property
    def neighbours(self) -> list[list[int]]:
        """By cell, the cell that a free link leads to in each of the four directions, or -1."""
        numbers = np.full((self.free.shape[0] + 4, self.free.shape[1] + 4), -1, dtype=np.intp)
        i, j = self.cells.T
        numbers[i + 2, j + 2] = np.arange(len(i))
        links = np.pad(self.free, 2)
        across = [
            np.where(links[i + 2 + di, j + 2 + dj], numbers[i + 2 + 2 * di, j + 2 + 2 * dj], -1)
            for di, dj in _STEPS
        ]
        table: list[list[int]] = np.stack(across, axis=1).tolist()
        return table

    def nearest(self, place: Point, among: npt.NDArray[np.intp]) -> int:
        """Of the cells ``among``, the one nearest to a place [m]."""
        i, j = self.cells[among].T
        x = np.clip(place[0], self.xs[i], self.xs[i + 1])
        y = np.clip(place[1], self.ys[j], self.ys[j + 1])
        away = np.round(np.hypot(x - place[0], y - place[1]), 6)
        centre = np.hypot(
            self.xs[i] + self.xs[i + 1] - 2 * place[0], self.ys[j] + self.ys[j + 1] - 2 * place[1]
        )
        return int(among[np.lexsort((among, np.round(centre, 6), away))[0]])

    def tree(self, root: int, direction: int, hand: Hand) -> Tree:
        """All cells that can be reached from ``root``, depth first, with one hand along the wall."""
        neighbours, turns = self.neighbours, HANDS[hand]
        seen = [False] * len(neighbours)
        order: list[int] = []
        links: list[tuple[int, int]] = []
        stack = [(root, direction, -1)]
        while stack:
            cell, heading, origin = stack.pop()
            if seen[cell]:
                continue
            seen[cell] = True
            order.append(cell)
            if origin >= 0:
                links.append((origin, heading))
            for turn in turns:
                ahead = (heading + turn) % 4
                following = neighbours[cell][ahead]
                if following >= 0 and not seen[following]:
                    stack.append((following, ahead, cell))
        return Tree(tuple(order), self._filled(order, links))

    def _filled(self, order: list[int], links: list[tuple[int, int]]) -> Flags:
        filled = np.zeros_like(self.free)
        filled[tuple(self.cells[order].T)] = True
        if links:
            origins, headings = np.array(links).T
            filled[tuple((self.cells[origins] + np.array(_STEPS)[headings]).T)] = True
        return filled

    def outline(self, tree: Tree) -> Outline:
        """The loop round a tree: it passes the four corners of each cell once."""
        start = tuple(self.cells[min(tree.cells)].tolist())
        columns, rows = _boundary(tree.filled, start)
        points = np.column_stack((self.xs[columns], self.ys[rows]))
        steps = np.roll(points, -1, axis=0) - points
        positions = np.concatenate(([0.0], np.cumsum(np.abs(steps).sum(axis=1))))
        # Of lengths along the loop only those at its corners are needed.
        corner = (np.roll(steps, 1, axis=0) * steps).sum(axis=1) == 0.0
        return Outline(
            columns,
            rows,
            Loop(points[corner], np.append(positions[:-1][corner], positions[-1])),
            positions,
        )


def _boundary(filled: Flags, start: tuple[int, int]) -> tuple[npt.NDArray[np.intp], npt.NDArray[np.intp]]:
    """Crossings along the outline of the filled boxes, counter-clockwise from the lower left of box ``start``."""
    width = filled.shape[1] + 1
    box = np.pad(filled, 1)
    following = np.full((filled.shape[0] + 1) * width, -1, dtype=np.intp)
    # Of the box to the left of an edge and the one to its right, only the former is filled.
    for (di, dj), (ei, ej), step in (
        ((1, 1), (1, 0), width),
        ((0, 1), (1, 1), 1),
        ((0, 0), (0, 1), -width),
        ((1, 0), (0, 0), -1),
    ):
        left = box[di : di + filled.shape[0] + 1, dj : dj + width]
        right = box[ei : ei + filled.shape[0] + 1, ej : ej + width]
        at = np.flatnonzero(left & ~right)
        following[at] = at + step
    chain = following.tolist()
    first = start[0] * width + start[1]
    found, at_crossing = [first], chain[first]
    while at_crossing != first:
        found.append(at_crossing)
        at_crossing = chain[at_crossing]
    columns, rows = np.divmod(np.array(found), width)
    return columns, rows


def lattice_of(zone: Region, edges: Array, xs: Array, ys: Array) -> Lattice:
    """The lattice on lines in pairs; ``edges`` (x0, y0, x1, y1) [m] are those of the zone."""
    return Lattice(xs, ys, _free_boxes(zone, edges, xs, ys))


def _free_boxes(zone: Region, edges: Array, xs: Array, ys: Array) -> Flags:
    """Boxes between neighbouring lines that lie inside the zone."""
    middle, half = (edges[:, :2] + edges[:, 2:]) / 2.0, np.abs(edges[:, 2:] - edges[:, :2]) / 2.0
    centres, halves, meets = [], [], []
    for axis, lines in enumerate((xs, ys)):
        centres.append((lines[:-1] + lines[1:]) / 2.0)
        halves.append((lines[1:] - lines[:-1]) / 2.0 - _TOLERANCE)
        apart = np.abs(middle[:, axis, None] - centres[axis])
        meets.append(apart < half[:, axis, None] + halves[axis])
    slanted = (half > 0.0).all(axis=1)
    straight_x, straight_y = (flags[~slanted].astype(np.float64) for flags in meets)
    free: Flags = straight_x.T @ straight_y == 0.0
    # A slanted edge meets a box when the box reaches over to its line (separating axis).
    edge, i, j = np.nonzero(meets[0][slanted][:, :, None] & meets[1][slanted][:, None, :])
    (mx, my), (hx, hy) = middle[slanted][edge].T, half[slanted][edge].T
    dx, dy = (edges[slanted][edge, 2:] - edges[slanted][edge, :2]).T / 2.0
    away = np.abs(dx * (my - centres[1][j]) - dy * (mx - centres[0][i]))
    met = away < halves[0][i] * hy + halves[1][j] * hx
    free[i[met], j[met]] = False
    free[1::2, 1::2] = False
    i, j = np.nonzero(free)
    shapely.prepare(zone)
    free[i, j] = shapely.contains_xy(zone, centres[0][i], centres[1][j])
    return free
