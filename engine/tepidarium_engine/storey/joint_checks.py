"""Movement joints as the caller draws them: what cannot be a joint of this room."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import shapely
from shapely import LineString

from ..checking import Point
from ..errors import FaultList
from ..plan.outlines.polygons import LEAST_DISTANCE, RoomOutline

__all__ = ["check_joints"]

_AWAY = 0.01
"""A joint further from the floor is not one of the room's; two that run on each other for longer are one [m]."""


def check_joints(
    joints: Sequence[Sequence[Point]], room: RoomOutline, pointer: str, faults: FaultList
) -> None:
    """Adds a fault for each joint that repeats a point, crosses itself, lies outside the room or on another one.

    Joints that cross each other part the floor in more fields, and those along a wall or in a doorway are joints.
    """
    drawn: list[tuple[int, LineString]] = []
    for number, joint in enumerate(joints):
        here = f"{pointer}/{number}"
        repeated = [index for index, pair in enumerate(pairwise(joint)) if math.dist(*pair) < LEAST_DISTANCE]
        for index in repeated:
            faults.add(f"{here}/{index + 1}", "repeated_point", "must differ from the point before it")
        if repeated or len(joint) < 2:
            continue
        line = LineString(np.array(joint) - room.origin)
        _check_line(line, room, here, faults)
        for other, before in drawn:
            faults.require(
                shapely.intersection(line, before).length <= _AWAY,
                here,
                "repeated_joint",
                f"runs on joint {other} of the list: give each joint once",
            )
        drawn.append((number, line))


def _check_line(line: LineString, room: RoomOutline, pointer: str, faults: FaultList) -> None:
    faults.require(
        line.is_simple,
        pointer,
        "crosses_itself",
        "crosses or touches itself: give joints that meet or cross as joints of their own",
    )
    away = float(shapely.distance(line, room.polygon))
    faults.require(
        away <= _AWAY,
        pointer,
        "outside_room",
        f"lies {away:.3f} m outside the room: draw joints across the floor that they part",
        _AWAY,
    )
