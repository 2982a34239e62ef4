"""A design with places for its manifolds, found once more where its circuits turn out to be more than they have
ports."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from ..errors import InputError
from ..spreading import Spread
from .floors import RoomToHeat
from .house_joints import HouseJoint
from .records import DesignsInputs
from .siting import sited_house
from .whole_design import WholeDesign, whole_design

__all__ = ["sited_design"]


def sited_design(
    inputs: DesignsInputs, rooms: tuple[RoomToHeat, ...], due: tuple[HouseJoint, ...], spread: Spread
) -> WholeDesign:
    """The design of the rooms from the places that are found for their manifolds.

    Places are found for circuits as they are estimated. Where a manifold that has no place in the request gets more of
    them than it has ports, as spacings become closer and lengths are drawn, places are found for as many circuits as
    there came to be, and the better of the two designs counts. Raises ``InputError`` as ``whole_design``.
    """
    first = whole_design(sited_house(inputs, rooms, spread), due)
    if not _crowded(first):
        return first
    divided = first.solved.divided
    known = tuple(replace(room, ports=len(own.circuit_ids)) for room, own in zip(rooms, divided, strict=True))
    try:
        again = whole_design(sited_house(inputs, known, spread), due)
    except InputError:
        return first
    return min(first, again, key=lambda design: (_unplaced(design), _crowded(design)))


def _crowded(design: WholeDesign) -> int:
    """Circuits for which manifolds whose places were found have no ports."""
    counts = Counter(manifold for room in design.solved.divided for manifold in room.manifolds)
    most = design.inputs.limits.maximum_circuits
    return sum(max(0, counts[number] - most) for number in design.sited.found)


def _unplaced(design: WholeDesign) -> int:
    drawn = design.solved.drawn
    return 0 if drawn is None else sum(len(storey.drawing.layout.unplaced) for storey in drawn.storeys)
