"""From the rooms of a design to a storey that can be drawn: rooms, doorways and manifold, checked together."""

from __future__ import annotations

import shapely

from ..errors import FaultList
from ..plan.outlines.loops import loop_of
from ..storey.plan_input import SentRoom, check_overlaps, doorway_between, place_on_wall
from ..storey.tail_records import ManifoldPlace, StoreyPlan
from .floors import RoomToHeat
from .records import DesignsInputs

__all__ = ["Storey", "storey_of"]


class Storey:
    """``rooms`` are those with an outline, in the order of ``plan``; places in the caller's frame [m]."""

    def __init__(self, rooms: tuple[RoomToHeat, ...], plan: StoreyPlan, manifold: ManifoldPlace) -> None:
        self.rooms, self.plan, self.manifold = rooms, plan, manifold


def storey_of(inputs: DesignsInputs, rooms: tuple[RoomToHeat, ...]) -> Storey | None:
    """The storey of a request with doorways; ``None`` for one that asks for no drawing.

    Raises ``InputError`` for rooms that overlap, a doorway on no wall or between unknown rooms, a manifold
    without a position or in no room.
    """
    if not inputs.doorways:
        return None
    drawn = tuple(room for room in rooms if room.outline is not None)
    sent = [_sent(room) for room in drawn]
    faults = FaultList()
    check_overlaps(sent, faults)
    doorways = [
        doorway_between(doorway, f"/doorways/{number}", sent, faults)
        for number, doorway in enumerate(inputs.doorways)
    ]
    manifold = _manifold(inputs, sent, faults)
    faults.raise_if_any()
    assert manifold is not None
    plan = StoreyPlan(
        tuple(room.floor for room in sent), tuple(door for door in doorways if door is not None)
    )
    return Storey(drawn, plan, manifold)


def _sent(room: RoomToHeat) -> SentRoom:
    outline = room.outline
    assert outline is not None
    floor = shapely.transform(outline.polygon, lambda points: points + outline.origin)
    return SentRoom(room.room.id, room.pointer, floor, loop_of(floor))


def _manifold(inputs: DesignsInputs, rooms: list[SentRoom], faults: FaultList) -> ManifoldPlace | None:
    pointer, position = "/manifold/position", inputs.manifold.position
    if position is None:
        faults.add(pointer, "missing", "a floor with doorways is drawn: say where the manifold stands")
        return None
    if not rooms:  # then the doorways name rooms without an outline, and that is noted
        return None
    found = place_on_wall(position, pointer, rooms, faults)
    return None if found is None else ManifoldPlace(found[1], found[2], found[0])
