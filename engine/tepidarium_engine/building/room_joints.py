"""Movement joints of a room: what of it they part, and where pipes pass them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import shapely

from ..errors import FaultList
from ..plan.asking.route_fields import drawn_out
from ..storey.division.fields import joint_fields
from ..storey.joints.joint_checks import check_joints
from ..storey.model.records import Segment
from .floors import RoomToHeat

__all__ = [
    "check_room_joints",
    "fields_between_joints",
    "parting_segments",
    "parts_room",
]


def check_room_joints(room: RoomToHeat, faults: FaultList) -> None:
    """Joints of a room without outline, and those that cannot be joints of the room."""
    pointer = f"{room.pointer}/movement_joints"
    if room.outline is not None:
        check_joints(room.room.movement_joints, room.outline, pointer, faults)
    elif room.room.movement_joints:
        faults.add(pointer, "needs_outline", "joints go with the outline of their room")


def parting_segments(room: RoomToHeat) -> tuple[Segment, ...]:
    """Straight pieces, a little longer than given, of the joints without which the room would fall into fewer
    fields."""
    numbers = [number for number in range(len(room.joints)) if parts_room(room, number)]
    return tuple(segment for number in numbers for segment in _drawn_out(room, number))


def parts_room(room: RoomToHeat, number: int) -> bool:
    """Whether the room would fall into fewer fields without this joint."""
    every = range(len(room.joints))
    others = [other for other in every if other != number]
    return _count(room, every) > _count(room, others)


def fields_between_joints(room: RoomToHeat) -> int:
    """Number of fields that the joints leave of the room: 1 without any."""
    return _count(room, range(len(room.joints)))


def _count(room: RoomToHeat, numbers: Sequence[int]) -> int:
    if room.outline is None or not numbers:
        return 1
    x, y = room.outline.origin
    joints = [
        ((ax - x, ay - y), (bx - x, by - y))
        for number in numbers
        for (ax, ay), (bx, by) in _drawn_out(room, number)
    ]
    return len(joint_fields(room.outline.polygon, joints))


def _drawn_out(room: RoomToHeat, number: int) -> list[Segment]:
    if room.outline is None:
        return []
    points = shapely.get_coordinates(drawn_out(np.array(room.joints[number]), room.outline.placed))
    return list(pairwise((float(x), float(y)) for x, y in points))
