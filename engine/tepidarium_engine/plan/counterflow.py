"""The double spiral: rings one spacing apart, joined by a seam into flow and return side by side."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import shapely

from .entry import entry_opening, with_tails
from .field import Draft, Field
from .ring_tree import RingTree, ring_tree
from .rings import LostPlace, level_sets
from .seam import Drift, seam
from .surgery import SurgeryError, spliced

__all__ = ["counterflow_drafts"]


def counterflow_drafts(field: Field) -> Iterator[Draft]:
    """One draft a drift that makes one pipe."""
    tree = ring_tree(level_sets(field.zone, field.pipe_spacing))
    if not tree.rings:
        return
    drifts: tuple[Drift, Drift] = (-1, 1)
    for drift in drifts:
        try:
            yield _draft(tree, field, drift)
        except SurgeryError:
            continue


def _draft(tree: RingTree, field: Field, drift: Drift) -> Draft:
    place = shapely.Point(field.entry.place)
    ring = min(tree.outermost, key=lambda index: (round(place.distance(tree.rings[index].area), 6), index))
    entry = entry_opening(tree.rings[ring], field, ring)
    joined = seam(tree, entry, drift, field.pipe_spacing, field.bend_radius)
    left = _with_those_inside(tree, joined.unreached)
    core = spliced(tree.rings, joined.strips, entry, left_out=left)
    lost = (*tree.level_sets.lost, *(_unreached(tree, ring) for ring in sorted(left)))
    return Draft(with_tails(core, field), "rings", f"drift {drift:+d}", lost)


def _with_those_inside(tree: RingTree, rings: Iterable[int]) -> frozenset[int]:
    """The rings and all rings inside them."""
    found = set(rings)
    for ring in tree.rings:
        if ring.parent in found:
            found.add(ring.index)
    return frozenset(found)


def _unreached(tree: RingTree, index: int) -> LostPlace:
    ring = tree.rings[index]
    inside = shapely.point_on_surface(ring.area)
    return LostPlace("unreached", ring.level, (float(inside.x), float(inside.y)), float(ring.area.area))
