"""The double spiral: rings one spacing apart, joined by a seam into flow and return side by side."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

import numpy as np
import shapely

from ...checking import Point
from ..joining.entry import entry_opening, with_tails
from ..joining.surgery import SurgeryError, spliced
from ..model.field import Draft, Entry, Field, LostPlace
from .ring_tree import RingTree, ring_tree
from .rings import level_sets
from .seam import Drift, seam

__all__ = ["counterflow_drafts"]

_DRIFTS: tuple[Drift, Drift] = (-1, 1)
Scales = tuple[float, float]


def counterflow_drafts(field: Field, scales: Scales = (1.0, 1.0), shift: float = 0.0) -> Iterator[Draft]:
    """One draft for each side of the seam on which the rings become one pipe.

    ``scales``: pipe spacings along x and y in terms of the field's. The rings are laid in a room shrunk by
    them and stretched back. ``shift`` moves the tails along the outermost ring, in spacings.
    """
    shrunk = _Shrunk(field, scales)
    tree = ring_tree(level_sets(field.zone.scaled(*shrunk.factors), field.pipe_spacing))
    if not tree.rings:
        return
    for drift in _DRIFTS:
        try:
            yield _draft(tree, shrunk, drift, shift)
        except SurgeryError:
            continue


class _Shrunk:
    """A field and its image in the shrunk room."""

    def __init__(self, field: Field, scales: Scales) -> None:
        self.field = field
        self.scales = scales
        self.factors = (1.0 / scales[0], 1.0 / scales[1])
        self.image = field if scales == (1.0, 1.0) else replace(field, entry=self._entry(field.entry))

    def _entry(self, entry: Entry) -> Entry:
        (first, last), (x, y) = entry.ends, entry.inward
        kx, ky = self.scales  # a normal is stretched the other way round
        length = float(np.hypot(kx * x, ky * y))
        return Entry(
            self._place(entry.place),
            (self._place(first), self._place(last)),
            (kx * x / length, ky * y / length),
        )

    def _place(self, place: Point) -> Point:
        return (place[0] * self.factors[0], place[1] * self.factors[1])


def _draft(tree: RingTree, shrunk: _Shrunk, drift: Drift, shift: float) -> Draft:
    field = shrunk.field
    place = shapely.Point(shrunk.image.entry.place)
    ring = min(tree.outermost, key=lambda index: (round(place.distance(tree.rings[index].area), 6), index))
    entry = entry_opening(tree.rings[ring], shrunk.image, ring, shift)
    joined = seam(tree, entry, drift, field.pipe_spacing, field.bend_radius)
    left = _with_those_inside(tree, joined.unreached)
    core = spliced(tree.rings, joined.strips, entry, left_out=left) * shrunk.scales
    lost = (*tree.level_sets.lost, *(_unreached(tree, ring) for ring in sorted(left)))
    x, y = shrunk.scales
    return Draft(
        with_tails(core, field),
        "rings",
        _variant(drift, shrunk.scales, shift),
        tuple(replace(at, place=(at.place[0] * x, at.place[1] * y), area=at.area * x * y) for at in lost),
        None if shrunk.scales == (1.0, 1.0) else (x * field.pipe_spacing, y * field.pipe_spacing),
    )


def _variant(drift: Drift, scales: Scales, shift: float) -> str:
    words = ["seam to the right" if drift > 0 else "seam to the left"]
    words += ["fitted"] if scales != (1.0, 1.0) else []
    words += ["tails shifted"] if shift else []
    return ", ".join(words)


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
