"""Serpentine: runs back and forth as a comb, rings in what a comb does not reach, all joined to one pipe.

The outline of a comb (teeth of two runs each, linked along one wall) is a loop that winds down one side of
every tooth and up the other, and comes back along the trunk: flow and return end side by side at any entry.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import shapely
from shapely import LinearRing, Polygon
from shapely import Point as Place

from ..counterflow.ring_tree import RingTree, ring_tree
from ..counterflow.rings import level_sets
from ..joining.entry import entry_opening, with_tails
from ..joining.strips import spanning_strips
from ..joining.surgery import Opening, Strip, SurgeryError, spliced
from ..model.field import Draft, Field, LostPlace
from ..outlines.loops import Loop, loop_of
from ..outlines.pipe_zone import PipeZone
from ..outlines.regions import dilated, joined, minus, opened, parts_of
from .comb import Comb, best_combs
from .comb_teeth import Reach

__all__ = ["serpentine_drafts"]

_FROM_COMB = 0.8
"""Least distance of the rings in the rest from the combs, in spacings."""
_HALF_LEAST_WIDTH = 0.4
_LEAST_REST = 2.5
"""Least area of a rest that gets rings, in spacings squared."""
_BESIDE_PART = 1e-4
"""Rounding of corners of loops [m]."""


def serpentine_drafts(field: Field, quick: bool = False) -> Iterator[Draft]:
    """Serpentines, best first; ``quick``: the runs along the longest wall only, and few of them.

    A way in which no entry or no single pipe can be made is passed over.
    """
    area = field.zone.free
    if area is None:
        return
    margin = min(field.wall_clearance, field.pipe_spacing / 2.0)
    reach = Reach(field.pipe_spacing, 2.0 * field.bend_radius, margin)
    for comb in best_combs(area, reach, quick, field.entry.inward):
        try:
            yield _draft(field, comb)
        except SurgeryError:
            continue


@dataclass(frozen=True)
class _Loops:
    """All loops: those of combs, then the rings of each rest. ``trees``: number of the first ring, and tree."""

    loops: tuple[Loop, ...]
    combs: int
    trees: tuple[tuple[int, RingTree], ...]


def _draft(field: Field, comb: Comb) -> Draft:
    found, lost = _with_rest(field, comb)
    if not found.loops:
        raise SurgeryError("no pipe finds a place")
    first = _nearest(found.loops, field)
    opening = entry_opening(found.loops[first], field, first)
    strips, unreached = _joined(field, found, opening)
    corners = spliced(found.loops, strips, opening, left_out=unreached)
    lost.extend(_cut_off(field, found.loops, unreached))
    spacing = (field.pipe_spacing, comb.spacing)
    spacings = spacing if comb.direction == "x" else spacing[::-1]
    variant = f"runs along {comb.direction}, linked at the {comb.trunk} end"
    return Draft(with_tails(corners, field), "comb", variant, tuple(lost), spacings)


def _with_rest(field: Field, comb: Comb) -> tuple[_Loops, list[LostPlace]]:
    """The combs' loops and rings in what they leave over."""
    spacing = field.pipe_spacing
    away = max(_FROM_COMB * spacing, min(2.0 * field.bend_radius, spacing))
    rest = opened(minus(field.zone.free, dilated(joined(comb.outlines), away)), _HALF_LEAST_WIDTH * spacing)
    loops = [loop_of(outline) for outline in comb.outlines]
    trees: list[tuple[int, RingTree]] = []
    lost: list[LostPlace] = []
    for part in parts_of(rest):
        if part.area >= _LEAST_REST * spacing**2:
            voids = tuple(Polygon(ring) for ring in part.interiors)
            sets = level_sets(PipeZone(Polygon(part.exterior), voids, ()), spacing)
            tree = ring_tree(sets)
            trees.append((len(loops), tree))
            loops.extend(tree.rings)
            lost.extend(sets.lost)
    return _Loops(tuple(loops), len(comb.outlines), tuple(trees)), lost


def _nearest(loops: Sequence[Loop], field: Field) -> int:
    place = Place(field.entry.place)
    apart = [round(float(shapely.distance(LinearRing(loop.points), place)), 6) for loop in loops]
    return apart.index(min(apart))


def _joined(field: Field, found: _Loops, opening: Opening) -> tuple[list[Strip], list[int]]:
    """Strips that join all loops: first those that lie beside each other, then the rings inside rings."""
    spacing, near = field.pipe_spacing, field.entry.place
    outer = [*range(found.combs), *(start + i for start, tree in found.trees for i in tree.outermost)]
    inside = joined(found.loops[index].area for index in outer)
    strips, unreached = spanning_strips(
        found.loops,
        outer,
        None,
        minus(field.zone.free, inside),
        spacing,
        joined=(opening.loop,),
        taken=(opening,),
        near=near,
    )
    for start, tree in found.trees:
        for ring in tree.rings:
            members = [start + ring.index, *(start + child for child in ring.children)]
            if members[0] in unreached:
                unreached.extend(members[1:])
            elif ring.children:
                made, missed = spanning_strips(
                    found.loops,
                    members,
                    members[0],
                    tree.zone(ring.index),
                    spacing,
                    joined=members[:1],
                    taken=(opening,),
                    strips=strips,
                    near=near,
                )
                strips.extend(made)
                unreached.extend(missed)
    return strips, unreached


def _cut_off(field: Field, loops: Sequence[Loop], unreached: Sequence[int]) -> Iterator[LostPlace]:
    """What gets no pipe as no strip reaches it: a separate part of the floor as a whole, else a loop."""
    for part in parts_of(field.zone.free):
        inside = [
            index
            for index, loop in enumerate(loops)
            if shapely.dwithin(part, Place(loop.points[0]), _BESIDE_PART)
        ]
        missed = [index for index in inside if index in unreached]
        if missed and len(missed) == len(inside):
            yield LostPlace.of("narrow", part)
        else:
            yield from (LostPlace.of("narrow", loops[index].area) for index in missed)
