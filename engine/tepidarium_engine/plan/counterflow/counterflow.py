"""The double spiral: rings one spacing apart, joined by a seam into flow and return side by side."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

import numpy as np
import shapely

from ..joining.entry import entry_opening, with_tails
from ..joining.surgery import SurgeryError, spliced
from ..mapping.warp import Warp
from ..model.field import Draft, Field, LostPlace
from .ring_tree import RingTree
from .room_fit import FittedRings
from .seam import Drift, seam

__all__ = ["counterflow_drafts"]

_DRIFTS: tuple[Drift, Drift] = (-1, 1)


def counterflow_drafts(field: Field, rings: FittedRings) -> Iterator[Draft]:
    """One draft for each side of the seam on which the rings become one pipe."""
    if not rings.tree.rings:
        return
    for drift in _DRIFTS:
        try:
            yield _draft(field, rings, drift)
        except SurgeryError:
            continue


def _draft(field: Field, rings: FittedRings, drift: Drift) -> Draft:
    warp, tree = rings
    image = replace(field, entry=warp.forward_entry(field.entry))
    place = shapely.Point(image.entry.place)
    ring = min(tree.outermost, key=lambda index: (round(place.distance(tree.rings[index].area), 6), index))
    entry = entry_opening(tree.rings[ring], image, ring)
    joined = seam(tree, entry, drift, field.pipe_spacing, field.bend_radius)
    left = _with_those_inside(tree, joined.unreached)
    core = warp.back_line(spliced(tree.rings, joined.strips, entry, left_out=left))
    lost = (
        *tree.level_sets.lost,
        *(
            LostPlace.of("unreached", ring.area, ring.level)
            for ring in map(tree.rings.__getitem__, sorted(left))
        ),
    )
    variant = "seam to the right" if drift > 0 else "seam to the left"
    return Draft(with_tails(core, field), "rings", variant, tuple(_carried_back(at, warp) for at in lost))


def _carried_back(lost: LostPlace, warp: Warp) -> LostPlace:
    x, y = warp.back(np.array([lost.place]))[0].tolist()
    denser = warp.x.slope_at(x) * warp.y.slope_at(y)
    return replace(lost, place=(x, y), area=lost.area / denser)


def _with_those_inside(tree: RingTree, rings: Iterable[int]) -> frozenset[int]:
    """The rings and all rings inside them."""
    found = set(rings)
    for ring in tree.rings:
        if ring.parent in found:
            found.add(ring.index)
    return frozenset(found)
