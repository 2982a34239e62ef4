"""Movement joints as the caller draws them: what cannot be a joint of this room."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import shapely
from shapely import LineString

from ...checking import Point
from ...errors import FaultList
from ...plan.outlines.overlays import difference, intersection
from ...plan.outlines.polygons import LEAST_DISTANCE, RoomOutline
from ..manifold.plan_input import THICKEST_WALL

__all__ = ["check_joints"]

_APART, _BESIDE = 0.01, 0.25
"""Joints that run for longer than this [m] so near to each other [m] are one."""
_LEAST = 0.05
"""Shorter joints are none [m]."""


def check_joints(
    joints: Sequence[Sequence[Point]], room: RoomOutline, pointer: str, faults: FaultList
) -> None:
    """Adds a fault for each joint that repeats a point, crosses itself, leaves the room by more than a wall, or lies on
    another one.

    Joints that cross each other part the floor in more fields, and those along a wall or in a doorway are joints.
    """
    floor = shapely.buffer(room.polygon, THICKEST_WALL) if joints else room.polygon
    drawn: list[tuple[int, LineString]] = []
    for number, joint in enumerate(joints):
        here = f"{pointer}/{number}"
        repeated = [index for index, pair in enumerate(pairwise(joint)) if math.dist(*pair) < LEAST_DISTANCE]
        for index in repeated:
            faults.add(f"{here}/{index + 1}", "repeated_point", "must differ from the point before it")
        if repeated or len(joint) < 2:
            continue
        line = LineString(np.array(joint) - room.origin)
        _check_line(line, floor, here, faults)
        for other, before in drawn:
            faults.require(
                intersection(line, shapely.buffer(before, _APART)).length <= _BESIDE,
                here,
                "repeated_joint",
                f"runs along joint {other} of the list: give each joint once",
            )
        drawn.append((number, line))


def _check_line(line: LineString, floor: shapely.Geometry, pointer: str, faults: FaultList) -> None:
    faults.require(line.length >= _LEAST, pointer, "too_short", f"must be at least {_LEAST:g} m long", _LEAST)
    faults.require(
        line.is_simple,
        pointer,
        "crosses_itself",
        "crosses or touches itself: give joints that meet or cross as joints of their own",
    )
    beyond = difference(line, floor)
    faults.require(
        beyond.length < _LEAST,
        pointer,
        "outside_room",
        f"leaves the room by more than a wall of {THICKEST_WALL:g} m: draw joints across the floor that they divide",
        THICKEST_WALL,
    )
